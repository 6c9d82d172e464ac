package requests_test

import (
	"log/slog"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"guildhand/bot"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/requests"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/stock"
	"guildhand/calc/testcount"
)

// room is a service with the whole catalogue, the demo workshop and a daybook.
func room(t *testing.T) *bot.Service {
	t.Helper()
	book, err := daybook.Open(t.Context(), filepath.Join(t.TempDir(), "daybook.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { book.Close() })
	return bot.New(bot.Options{Specs: requests.All(book), Shop: stock.DemoWorkshop(), Book: book, Version: "test", Log: slog.New(slog.DiscardHandler), Timeout: time.Minute})
}

func TestBench(t *testing.T) {
	s := room(t)
	anna := catalogue.Who{Platform: "test", Guild: "g1", Channel: "c1", Maker: "anna"}
	ben := catalogue.Who{Platform: "test", Guild: "g1", Channel: "c1", Maker: "ben"}
	elsewhere := catalogue.Who{Platform: "test", Guild: "g2", Channel: "c7", Maker: "carl"}
	teacher := catalogue.Who{Platform: "test", Guild: "g1", Channel: "c1", Maker: "dora", Teacher: true}
	alone := catalogue.Who{Platform: "test", Channel: "d1", Maker: "eve", Direct: true, Teacher: true}

	for _, tt := range []struct {
		who  catalogue.Who
		text string
		want []string
	}{
		{anna, "bench", []string{"your defaults here", "alloy sterling (default: common practice, no source)", "thickness 22ga", "paper a4 (default)"}},
		{anna, "bench metal copper gauge 20", []string{"kept on your bench: alloy copper, thickness 20ga", "alloy copper (your bench)", "thickness 20ga (your bench)"}},
		{ben, "bench", []string{"alloy sterling (default", "thickness 22ga (default"}},
		{anna, "bench channel metal brass paper letter", []string{"kept on this channel's bench: alloy brass, paper letter", "alloy copper (your bench)", "paper letter (bench of this channel)"}},
		{ben, "bench", []string{"alloy brass (bench of this channel)"}},
		{elsewhere, "bench", []string{"alloy sterling (default", "paper a4 (default)"}},
		{ben, "bench guild gauge 18", []string{"refused: the guild's bench is for teachers", "try: bench 18ga"}},
		{teacher, "bench guild gauge 18", []string{"kept on the guild's bench: thickness 18ga"}},
		{ben, "Bench", []string{"thickness 18ga (bench of the guild)"}},
		{anna, "bench", []string{"thickness 20ga (your bench)"}},
		{anna, "bench drop gauge", []string{"dropped from your bench: thickness", "thickness 18ga (bench of the guild)"}},
		{anna, "bench drop gauge", []string{"refused: your bench has no thickness to drop | try: bench"}},
		{anna, "bench drop all", []string{"dropped from your bench: alloy", "alloy brass (bench of this channel)"}},
		{anna, "bench drop all", []string{"your bench was empty already"}},
		{anna, "bench metal sterling drop metal", []string{"refused: you can't set and drop alloy at once; leave one out | try: bench drop alloy"}},
		{anna, "bench metal stelring", []string{`refused: there is no alloy "stelring"; did you mean sterling?`, "try: bench sterling"}},
		{anna, "bench gauge 99", []string{"refused: ", "is not a gauge number"}},
		{anna, "bench lean 90", []string{"refused: lean 90° is out of range: it takes 0 to 45 degrees"}},
		{alone, "bench guild metal copper", []string{"refused: there is no guild here, so it has no bench"}},
		{alone, "bench metal copper", []string{"kept on your bench"}},
	} {
		got := requeststest.Told(requeststest.Say(t, s, tt.who, tt.text))
		for _, w := range tt.want {
			if !strings.Contains(got, w) {
				t.Errorf("%s, %q:\n got %s\nlack %s", tt.who.Maker, tt.text, got, w)
			}
		}
	}
}

// TestBenchReachesTheCollet: what the bench keeps is used and named.
func TestBenchReachesTheCollet(t *testing.T) {
	s := room(t)
	anna := catalogue.Who{Platform: "test", Guild: "g1", Channel: "c1", Maker: "anna"}
	requeststest.Say(t, s, anna, "bench metal copper gauge 20")
	r := requeststest.Say(t, s, anna, "collet oval 8x6 depth 4")
	if r.Answer == nil {
		t.Fatal(requeststest.Told(r))
	}
	named := strings.Join(r.Answer.Assumptions, "\n")
	for _, want := range []string{"alloy copper", "thickness 20ga", "your bench"} {
		if !strings.Contains(named, want) {
			t.Errorf("the assumptions lack %q:\n%s", want, named)
		}
	}
	if !strings.Contains(r.Answer.Line, "copper") || !strings.Contains(r.Answer.Line, "20ga") {
		t.Errorf("line %q", r.Answer.Line)
	}
	// The line, typed by somebody without that bench, gives the same blank.
	ben := catalogue.Who{Platform: "test", Guild: "g1", Channel: "c1", Maker: "ben"}
	again := requeststest.Say(t, s, ben, r.Answer.Line)
	if again.Answer == nil || again.Answer.Headline != r.Answer.Headline {
		t.Errorf("typed again: %s\nnot %s", requeststest.Told(again), r.Answer.Headline)
	}
}

func TestHelp(t *testing.T) {
	s := room(t)
	who := catalogue.Who{Platform: "test", Channel: "c1", Maker: "anna"}
	all := requeststest.Say(t, s, who, "help")
	if all.Answer == nil || len(all.Answer.Steps) != len(s.Specs()) {
		t.Fatalf("help lists %s", requeststest.Told(all))
	}
	first := strings.Join(all.Answer.Notes, " ")
	for _, spec := range s.Specs() {
		if !strings.Contains(first+",", spec.Name+",") && !strings.Contains(first, " "+spec.Name) {
			t.Errorf("%s is not on the first screen of help: %s", spec.Name, first)
		}
		got := requeststest.Told(requeststest.Say(t, s, who, "Help "+spec.Name))
		if !strings.Contains(got, spec.Summary) || !strings.Contains(got, "example: "+spec.Examples[0].Line) {
			t.Errorf("help %s: %s", spec.Name, got)
		}
	}
	if got := requeststest.Told(requeststest.Say(t, s, who, "help collex")); got != `refused: there is no request "collex"; did you mean collet? | try: help collet` {
		t.Error(got)
	}
}

// TestOfferedLinesWork types what the refusals of incomplete and misspelt
// requests offer, and wants answers.
func TestOfferedLinesWork(t *testing.T) {
	t.Parallel()
	s := room(t)
	who := catalogue.Who{Platform: "test", Channel: "c1", Maker: "anna"}
	var lines []string
	for _, spec := range s.Specs() {
		lines = append(lines, spec.Name)
		if spec.Long {
			continue // each of its lines takes its time; its own tests try them
		}
		for i, e := range spec.Examples {
			if i > 0 && !testcount.Whole() {
				break
			}
			words := strings.Fields(e.Line)
			for n := 1; n < len(words); n++ {
				lines = append(lines, strings.Join(words[:n], " "))
			}
		}
	}
	outlines, _ := s.Specs()[0].Option("outline")
	for _, c := range outlines.Choices {
		lines = append(lines, "collet "+c.Key)
		if c.Key != "measured" {
			lines = append(lines, "collet "+c.Key+" 0x6")
		}
	}
	// What keeps something or takes long is not tried out before it is offered,
	// so the line may need a second look.
	untried := map[string]bool{}
	for _, spec := range s.Specs() {
		untried[spec.Name] = spec.Keeps || spec.Long
	}
	offered := 0
	for _, line := range lines {
		r := requeststest.Say(t, s, who, line)
		if r.Refusal == nil {
			continue
		}
		if r.Refusal.Try == "" {
			t.Errorf("%q: nothing to try: %s", line, r.Refusal.Problem)
			continue
		}
		offered++
		again := requeststest.Say(t, s, who, r.Refusal.Try)
		for hops := 0; hops < 2 && again.Refusal != nil && untried[strings.Fields(line)[0]]; hops++ {
			again = requeststest.Say(t, s, who, again.Refusal.Try)
		}
		if again.Refusal != nil {
			t.Errorf("%q (%s) offers %q: %s", line, r.Refusal.Problem, r.Refusal.Try, requeststest.Told(again))
		}
	}
	if offered < testcount.Of(50, 100, 100) {
		t.Errorf("only %d refusals", offered)
	}
}

// TestEveryExampleIsAnswered runs every example of the catalogue through the
// service.
func TestEveryExampleIsAnswered(t *testing.T) {
	who := catalogue.Who{Platform: "test", Guild: "g", Channel: "c1", Maker: "anna", Teacher: true}
	run := 0
	for _, spec := range requests.All(nil) {
		s := room(t)
		for _, e := range spec.Examples {
			run++
			r := requeststest.Say(t, s, who, e.Line)
			if r.Refusal != nil && spec.Keeps {
				// What an example drops may be more than one by now, or none.
				t.Log(requeststest.Told(r))
				r = requeststest.Say(t, s, who, r.Refusal.Try)
			}
			if r.Answer == nil {
				t.Errorf("%s: %s", e.Line, requeststest.Told(r))
			}
		}
	}
	if run < 20 {
		t.Errorf("only %d examples", run)
	}
}
