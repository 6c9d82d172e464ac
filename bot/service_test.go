package bot_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"math"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shop is a service on a daybook of its own, with requests that behave badly.
type shop struct {
	*bot.Service
	book  *daybook.Book
	log   *bytes.Buffer
	mu    sync.Mutex // guards log
	runs  atomic.Int64
	begun chan struct{}
}

func (s *shop) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.log.Write(p)
}

func (s *shop) logged() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.log.String()
}

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

func openShop(t *testing.T, change func(*bot.Options)) *shop {
	t.Helper()
	return openShopAt(t, filepath.Join(t.TempDir(), "daybook.db"), change)
}

func openShopAt(t *testing.T, path string, change func(*bot.Options)) *shop {
	t.Helper()
	book, err := daybook.Open(t.Context(), path)
	require.NoError(t, err)
	t.Cleanup(func() { book.Close() })
	s := &shop{book: book, log: new(bytes.Buffer), begun: make(chan struct{}, 1000)}
	o := bot.Options{
		Specs: s.specs(), Book: book, Version: "v1-test",
		Log:   slog.New(slog.NewTextHandler(s, nil)),
		Clock: func() time.Time { return noon },
	}
	if change != nil {
		change(&o)
	}
	s.Service = bot.New(o)
	return s
}

const secret = "the cause is private"

func (s *shop) specs() []catalogue.Spec {
	metal := catalogue.Option{Name: "alloy", Kind: catalogue.Word, Bare: true, Bench: true,
		Choices: []catalogue.Choice{{Key: "sterling"}, {Key: "copper"}, {Key: "brass"}, {Key: "bronze"}},
		Default: "bronze", DefaultNote: "common practice, no source"}
	size := catalogue.Option{Name: "size", Kind: catalogue.Size, Min: 1, Max: 100, Bare: true, Required: true, Prompt: "what size?", Suggest: []string{"8x6"}}
	disc := func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
		s.runs.Add(1)
		s.begun <- struct{}{}
		if c.Args["size"].Number > 50 {
			return nil, answer.Refuse("cut 8x6", "no sheet is that large")
		}
		return &answer.Answer{
			Headline: fmt.Sprintf("cut %s from %s", c.Args.Word("size"), c.Word("alloy")),
			Figures: []answer.Figure{
				{ID: "width", Label: "width", Value: c.Args["size"].Number / 3, Unit: answer.MM, Main: true},
				{ID: "solder", Label: "solder", Unit: answer.Count, Text: "hard"},
			},
			Notes: []string{"thin"}, Steps: []string{"saw", "file"}, Cautions: []string{"mind your fingers"},
			Attachments: []answer.Attachment{{Name: "cut.png", Type: "image/png", Alt: "the piece",
				Render: func(context.Context) ([]byte, error) { return []byte("png of " + c.Args.Word("size")), nil }}},
		}, nil
	}
	with := func(name string, f func(context.Context, *catalogue.Call) (*answer.Answer, error)) catalogue.Spec {
		return catalogue.Spec{Name: name, Summary: name, Answer: f}
	}
	kit := catalogue.Spec{Name: "kit", Summary: "a class", Options: []catalogue.Option{
		{Name: "makers", Kind: catalogue.Integer, Min: 1, Max: 60, Bare: true, Required: true},
		{Name: "piece", Kind: catalogue.Text, Bare: true, Required: true},
	}, Answer: func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
		inner, err := c.Inner("piece")
		if err != nil {
			return nil, err
		}
		a, err := inner.Answer(ctx)
		if err != nil {
			return nil, c.Around("piece", err)
		}
		a.Headline = c.Args.Word("makers") + " times " + a.Headline
		return a, nil
	}}
	keep := catalogue.Spec{Name: "keep", Summary: "keeps", Keeps: true, Answer: func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
		s.runs.Add(1)
		return &answer.Answer{Headline: "kept", Attachments: []answer.Attachment{{Name: "a.csv",
			Render: func(context.Context) ([]byte, error) { return []byte("once"), nil }}}}, nil
	}}
	teach := with("teach", disc)
	teach.Needs = catalogue.Teacher
	slow := with("slow", func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
		s.begun <- struct{}{}
		<-ctx.Done()
		time.Sleep(5 * time.Millisecond)
		return nil, ctx.Err()
	})
	// A request whose words can't even be read without a panic.
	baffle := with("baffle", disc)
	baffle.Options = []catalogue.Option{{Name: "why", Kind: catalogue.Single, Required: true,
		NotRequired: func(catalogue.Args) bool { panic(secret) }}}
	return []catalogue.Spec{
		{Name: "cut", Summary: "a piece", Options: []catalogue.Option{size, metal}, Answer: disc,
			Examples: []catalogue.Example{{Line: "cut 8x6 sterling"}}},
		kit, keep, teach, slow, baffle,
		with("panic", func(context.Context, *catalogue.Call) (*answer.Answer, error) { panic(secret) }),
		with("fault", func(context.Context, *catalogue.Call) (*answer.Answer, error) { return nil, errors.New(secret) }),
		with("full", func(context.Context, *catalogue.Call) (*answer.Answer, error) {
			return nil, fmt.Errorf("keeping: %w", daybook.ErrCannotRecord)
		}),
		with("nothing", func(context.Context, *catalogue.Call) (*answer.Answer, error) { return nil, nil }),
		with("notanumber", func(context.Context, *catalogue.Call) (*answer.Answer, error) {
			return &answer.Answer{Headline: "x", Figures: []answer.Figure{{ID: "x", Value: math.NaN(), Unit: answer.MM}}}, nil
		}),
	}
}

var anna = catalogue.Who{Platform: "test", Guild: "g1", Channel: "c1", Maker: "anna"}

func ask(t *testing.T, s *shop, who catalogue.Who, message, text string) bot.Reply {
	t.Helper()
	r, err := s.Handle(t.Context(), bot.Request{Who: who, Message: message, Text: text, Route: []byte(`{"thread":"7"}`)})
	require.NoError(t, err)
	if (r.Answer == nil) == (r.Refusal == nil) || r.Entry == 0 {
		t.Fatalf("%q: reply %+v", text, r)
	}
	return r
}

func TestAnswerIsRecordedBeforeItReturns(t *testing.T) {
	s := openShop(t, nil)
	r := ask(t, s, anna, "m1", "Cut 8×6 in Sterling")
	e, err := s.book.ByID(t.Context(), r.Entry)
	require.NoError(t, err)
	if r.Answer == nil || r.Answer.Headline != "cut 8x6 from sterling" || r.Answer.Line != "cut 8x6 sterling no bench" || r.Answer.Request != "cut" {
		t.Errorf("answer %+v", r.Answer)
	}
	want := daybook.Entry{
		ID: r.Entry, At: noon, Key: daybook.Key{Platform: "test", Channel: "c1", Message: "m1"},
		Guild: "g1", Maker: "anna", Typed: "Cut 8×6 in Sterling", Request: "cut", Line: "cut 8x6 sterling no bench",
		Status: daybook.Answered, Headline: "cut 8x6 from sterling", Version: "v1-test",
		Args:    []byte(`{"alloy":{"text":"sterling"},"size":{"text":"8x6","number":8,"numbers":[8,6]}}`),
		Figures: []byte(`[{"id":"width","label":"width","value":2.6666666666666665,"unit":"mm","main":true},{"id":"solder","label":"solder","value":0,"unit":"count","text":"hard"}]`),
		Route:   []byte(`{"thread":"7"}`),
	}
	want.Answer = e.Answer // looked at below, read back
	e.At = e.At.UTC()
	assert.True(t, reflect.DeepEqual(e, want), "recorded\n %+v\nwant\n %+v", e, want)

	again, err := s.Recorded(t.Context(), r.Entry)
	require.NoError(t, err)
	a, b := *r.Answer, *again.Answer
	a.Attachments, b.Attachments = nil, nil
	assert.True(t, reflect.DeepEqual(a, b), "read back\n %+v\nwant\n %+v", b, a)
	runs := s.runs.Load()
	for range 2 {
		png, err := again.Answer.Attachments[0].Render(t.Context())
		if err != nil || string(png) != "png of 8x6" {
			t.Fatalf("attachment %q, %v", png, err)
		}
	}
	if again.Answer.Attachments[0].Alt != "the piece" || s.runs.Load() != runs+1 {
		t.Errorf("attachment %+v, computed %d times", again.Answer.Attachments[0], s.runs.Load()-runs)
	}
}

func TestRefusalsAndFaults(t *testing.T) {
	s := openShop(t, func(o *bot.Options) { o.Timeout = 50 * time.Millisecond })
	tests := []struct {
		text, problem, try string
		status             daybook.Status
	}{
		{"cut", "what size?", "cut 8x6", daybook.Refused},
		{"cut 60x6", "no sheet is that large", "cut 8x6", daybook.Refused},
		{"cutt 8x6", `there is no request "cutt"; did you mean cut?`, "cut 8x6", daybook.Refused},
		{"teach", "teach is for teachers: you need the role that this guild has set for teachers", "help", daybook.Refused},
		{"panic", "something went wrong on our side, so there is no answer; it is in our log", "", daybook.Failed},
		{"baffle", "something went wrong on our side, so there is no answer; it is in our log", "", daybook.Failed},
		{"fault", "something went wrong on our side, so there is no answer; it is in our log", "", daybook.Failed},
		{"nothing", "something went wrong on our side, so there is no answer; it is in our log", "", daybook.Failed},
		{"notanumber", "something went wrong on our side, so there is no answer; it is in our log", "", daybook.Failed},
		{"slow", "this took too long, so I stopped it; it is in our log", "", daybook.Failed},
		{"kit 3 makers cut 60x6 copper", "no sheet is that large", "kit makers 3 cut 8x6", daybook.Refused},
		{"kit 3 makers cut 8x6 coper", `there is no alloy "coper"; did you mean copper?`, "kit makers 3 cut 8x6 copper", daybook.Refused},
		{"kit 3 makers kit 3 makers kit 3 makers cut 8x6", "these requests are nested too deeply", "", daybook.Refused},
		{"kit 3 makers keep", "keep can't be part of kit; ask for it on its own", "", daybook.Refused},
		{"kit 3 makers teach", "teach can't be part of kit; ask for it on its own", "", daybook.Refused},
	}
	for i, tt := range tests {
		r := ask(t, s, anna, fmt.Sprint("m", i), tt.text)
		if r.Refusal == nil {
			t.Errorf("%q was answered: %s", tt.text, r.Answer.Headline)
			continue
		}
		if r.Refusal.Problem != tt.problem || r.Refusal.Try != tt.try {
			t.Errorf("%q\n got %q, try %q\nwant %q, try %q", tt.text, r.Refusal.Problem, r.Refusal.Try, tt.problem, tt.try)
		}
		e, err := s.book.ByID(t.Context(), r.Entry)
		if err != nil || e.Status != tt.status || e.Problem != tt.problem || e.Typed != tt.text {
			t.Errorf("%q: recorded %+v, %v", tt.text, e, err)
		}
	}
	log := s.logged()
	if !strings.Contains(log, secret) || !strings.Contains(log, "service_test.go") {
		t.Error("the log lacks the cause or the stack of a panic")
	}
	for _, typed := range []string{"60x6", "coper", "cutt", "anna"} {
		assert.NotContains(t, log, typed)
	}
}

func TestSameMessageIsAnsweredOnce(t *testing.T) {
	s := openShop(t, nil)
	first := ask(t, s, anna, "m1", "cut 8x6")
	require.True(t, ask(t, s, anna, "m1", "cut 9x7").Delivered, "the first is still being sent")
	require.NoError(t, s.Release(t.Context(), first.Entry))
	second := ask(t, s, anna, "m1", "cut 9x7")
	if first.Duplicate || !second.Duplicate || second.Delivered || second.Entry != first.Entry || second.Answer.Headline != first.Answer.Headline {
		t.Errorf("second reply %+v", second)
	}
	require.NoError(t, s.Delivered(t.Context(), first.Entry, "a1"))
	if third := ask(t, s, anna, "m1", "cut 8x6"); !third.Duplicate || !third.Delivered {
		t.Errorf("third reply %+v", third)
	}
	if r := ask(t, s, catalogue.Who{Platform: "test", Channel: "c2", Maker: "anna"}, "m1", "cut 8x6"); r.Duplicate {
		t.Error("the same id in another channel is another event")
	}
	if a, b := ask(t, s, anna, "", "cut 8x6"), ask(t, s, anna, "", "cut 8x6"); a.Duplicate || b.Duplicate || a.Entry == b.Entry {
		t.Error("requests without an id are always new")
	}
	assert.EqualValues(t, 4, s.runs.Load())
}

func TestSimultaneousDuplicates(t *testing.T) {
	path := filepath.Join(t.TempDir(), "daybook.db")
	shared := func(o *bot.Options) { o.Shared = true }
	// Two services on one daybook, as two processes would be.
	one, two := openShopAt(t, path, shared), openShopAt(t, path, shared)
	const events, copies = 10, 8
	var fresh, replies atomic.Int64
	var wg sync.WaitGroup
	for e := range events {
		for c := range copies {
			s := one
			if c%2 == 1 {
				s = two
			}
			wg.Go(func() {
				r, err := s.Handle(t.Context(), bot.Request{Who: anna, Message: fmt.Sprint("m", e), Text: "cut 8x6"})
				if err != nil {
					t.Errorf("event %d: %v", e, err)
					return
				}
				if r.Answer == nil || r.Answer.Headline != "cut 8x6 from bronze" {
					t.Errorf("event %d: %+v", e, r)
				}
				replies.Add(1)
				if !r.Duplicate {
					fresh.Add(1)
				}
			})
		}
	}
	wg.Wait()
	if runs := one.runs.Load() + two.runs.Load(); fresh.Load() != events || runs != events || replies.Load() != events*copies {
		t.Errorf("%d fresh replies and %d computations of %d events", fresh.Load(), runs, events)
	}
}

func TestNothingIsAnsweredThatIsNotRecorded(t *testing.T) {
	s := openShop(t, nil)
	s.book.Close()
	for _, message := range []string{"m1", ""} {
		r, err := s.Handle(t.Context(), bot.Request{Who: anna, Message: message, Text: "cut 8x6"})
		if err == nil || r.Answer != nil || r.Entry != 0 || r.Refusal == nil || r.Refusal.Problem != bot.CantRecord {
			t.Errorf("reply %+v, error %v", r, err)
		}
	}
}

// TestRequestThatCannotKeep: where a request can't write what it is there to
// keep, the event stays open, to be tried again.
func TestRequestThatCannotKeep(t *testing.T) {
	s := openShop(t, nil)
	r, err := s.Handle(t.Context(), bot.Request{Who: anna, Message: "m1", Text: "full"})
	if !errors.Is(err, daybook.ErrCannotRecord) || r.Entry != 0 || r.Refusal == nil || r.Refusal.Problem != bot.CantRecord {
		t.Errorf("reply %+v, error %v", r, err)
	}
	if _, err := s.book.ByKey(t.Context(), daybook.Key{Platform: "test", Channel: "c1", Message: "m1"}); !errors.Is(err, daybook.ErrNotFound) {
		t.Errorf("recorded: %v", err)
	}
}

func TestCancelledRequestLeavesNoTrace(t *testing.T) {
	s := openShop(t, nil)
	ctx, cancel := context.WithCancel(t.Context())
	go func() { <-s.begun; cancel() }()
	if r, err := s.Handle(ctx, bot.Request{Who: anna, Message: "m1", Text: "slow"}); !errors.Is(err, context.Canceled) || r.Answer != nil {
		t.Fatalf("reply %+v, error %v", r, err)
	}
	if _, err := s.book.ByKey(t.Context(), daybook.Key{Platform: "test", Channel: "c1", Message: "m1"}); !errors.Is(err, daybook.ErrNotFound) {
		t.Errorf("recorded: %v", err)
	}
	// The platform sends it again after the restart.
	if r := ask(t, s, anna, "m1", "cut 8x6"); r.Duplicate || r.Answer == nil {
		t.Errorf("reply %+v", r)
	}
}

func TestStoppedByTheAsker(t *testing.T) {
	s := openShop(t, nil)
	ctx, cancel := context.WithCancelCause(t.Context())
	go func() { <-s.begun; cancel(bot.ErrStopped) }()
	r, err := s.Handle(ctx, bot.Request{Who: anna, Message: "m1", Text: "slow"})
	if err != nil || r.Refusal == nil || r.Refusal.Problem != "stopped" {
		t.Fatalf("reply %+v, error %v", r, err)
	}
	if e, err := s.book.ByID(t.Context(), r.Entry); err != nil || e.Status != daybook.Refused {
		t.Errorf("recorded %+v, %v", e, err)
	}
}

func TestBenchFillsAndIsNamed(t *testing.T) {
	s := openShop(t, nil)
	set := func(kind daybook.ScopeKind, id, value string) {
		t.Helper()
		if err := s.book.SetSetting(t.Context(), daybook.Scope{Kind: kind, Platform: "test", ID: id}, "alloy", value, "x"); err != nil {
			t.Fatal(err)
		}
	}
	check := func(text, metal, assumption, line string) {
		t.Helper()
		r := ask(t, s, anna, "", text)
		got := strings.Join(r.Answer.Assumptions, "; ")
		if !strings.HasSuffix(r.Answer.Headline, "from "+metal) || got != assumption || r.Answer.Line != line {
			t.Errorf("%q: %q assuming %q, line %q", text, r.Answer.Headline, got, r.Answer.Line)
		}
	}
	check("cut 8x6", "bronze", "alloy bronze (common practice, no source)", "cut 8x6 no bench")
	set(daybook.GuildScope, "g1", "brass")
	set(daybook.GuildScope, "g2", "copper")
	check("cut 8x6", "brass", "alloy brass (bench of the guild)", "cut 8x6 brass no bench")
	set(daybook.ChannelScope, "c1", "copper")
	check("cut 8x6", "copper", "alloy copper (bench of this channel)", "cut 8x6 copper no bench")
	set(daybook.MakerScope, "anna", "sterling")
	check("cut 8x6", "sterling", "alloy sterling (your bench)", "cut 8x6 sterling no bench")
	check("cut 8x6 brass", "brass", "", "cut 8x6 brass no bench")

	// A metal that is no longer known is said, and the next bench serves.
	set(daybook.MakerScope, "anna", "unobtainium")
	r := ask(t, s, anna, "", "cut 8x6")
	if !strings.HasSuffix(r.Answer.Headline, "from copper") || !strings.Contains(strings.Join(r.Answer.Notes, "; "), "alloy unobtainium (your bench) was not used") {
		t.Errorf("answer %+v", r.Answer)
	}
	// Another maker in another guild has none of it.
	other := catalogue.Who{Platform: "test", Guild: "g3", Channel: "c9", Maker: "ben"}
	assert.True(t, strings.HasSuffix(ask(t, s, other, "", "cut 8x6").Answer.Headline, "from bronze"))
	// The attachment of an old answer does not follow a bench that changed.
	set(daybook.MakerScope, "anna", "sterling")
	old := ask(t, s, anna, "", "cut 8x6")
	set(daybook.MakerScope, "anna", "brass")
	again, err := s.Recorded(t.Context(), old.Entry)
	if err != nil || again.Answer.Headline != "cut 8x6 from sterling" {
		t.Errorf("again %+v, %v", again.Answer, err)
	}
}

func TestHouseRulesAreStated(t *testing.T) {
	s := openShop(t, nil)
	if _, err := s.book.PinRule(t.Context(), daybook.Scope{Kind: daybook.ChannelScope, Platform: "test", ID: "c1"}, "we use 1 mm rims here", "teacher"); err != nil {
		t.Fatal(err)
	}
	if _, err := s.book.PinRule(t.Context(), daybook.Scope{Kind: daybook.GuildScope, Platform: "test", ID: "g1"}, "goggles on", "teacher"); err != nil {
		t.Fatal(err)
	}
	stated := func(r bot.Reply) string { return strings.Join(r.Answer.Assumptions, "; ") }
	r := ask(t, s, anna, "", "cut 8x6 bronze")
	const both = "house rule: we use 1 mm rims here; house rule of the guild: goggles on"
	assert.Equal(t, both, stated(r))
	if again, err := s.Recorded(t.Context(), r.Entry); err != nil || stated(again) != both {
		t.Errorf("recorded %q, %v", stated(again), err)
	}
	elsewhere := anna
	elsewhere.Channel = "c2"
	assert.Equal(t, "house rule of the guild: goggles on", stated(ask(t, s, elsewhere, "", "cut 8x6 bronze")))
	elsewhere.Guild = "g2"
	assert.Empty(t, stated(ask(t, s, elsewhere, "", "cut 8x6 bronze")))
	assert.Empty(t, stated(ask(t, s, anna, "", "keep")))
}

func TestUndelivered(t *testing.T) {
	s := openShop(t, nil)
	a := ask(t, s, anna, "m1", "cut 8x6")
	b := ask(t, s, anna, "m2", "cut")
	c := ask(t, s, anna, "m3", "cut 9x7")
	d := ask(t, s, anna, "m4", "cut 7x5")
	require.NoError(t, s.Delivered(t.Context(), c.Entry, "p3"))
	require.NoError(t, s.Expired(t.Context(), d.Entry))
	left := func() []bot.Reply {
		t.Helper()
		got, err := s.Undelivered(t.Context(), "test")
		require.NoError(t, err)
		return got
	}
	require.Empty(t, left(), "nothing that this process is still sending")
	for _, r := range []bot.Reply{a, b} {
		require.NoError(t, s.Release(t.Context(), r.Entry))
	}
	got, err := s.Undelivered(t.Context(), "test")
	if err != nil || len(got) != 2 {
		t.Fatalf("%d replies, %v", len(got), err)
	}
	if got[0].Entry != a.Entry || got[0].Answer.Headline != a.Answer.Headline || got[0].Message != "m1" || got[0].Who != anna || string(got[0].Route) != `{"thread":"7"}` {
		t.Errorf("first %+v", got[0])
	}
	if png, err := got[0].Answer.Attachments[0].Render(t.Context()); err != nil || string(png) != "png of 8x6" {
		t.Errorf("attachment %q, %v", png, err)
	}
	if got[1].Entry != b.Entry || got[1].Refusal == nil || got[1].Refusal.Try != b.Refusal.Try {
		t.Errorf("second %+v", got[1])
	}
	require.Empty(t, left(), "they are the caller's to send now")
}

func TestWhatKeepsIsNotRunTwice(t *testing.T) {
	s := openShop(t, nil)
	r := ask(t, s, anna, "m1", "keep")
	again, err := s.Recorded(t.Context(), r.Entry)
	require.NoError(t, err)
	if _, err := again.Answer.Attachments[0].Render(t.Context()); err == nil || s.runs.Load() != 1 {
		t.Errorf("run %d times, error %v", s.runs.Load(), err)
	}
}

func TestStructuredRequest(t *testing.T) {
	s := openShop(t, nil)
	r, err := s.Handle(t.Context(), bot.Request{
		Who: anna, Text: "cut alloy Sterling size 8 × 6 mm",
		Command: "cut", Options: map[string]string{"size": "8 × 6 mm", "alloy": "Sterling"},
	})
	if err != nil || r.Answer == nil || r.Answer.Line != "cut 8x6 sterling no bench" {
		t.Fatalf("reply %+v, %v", r, err)
	}
	if e, err := s.book.ByID(t.Context(), r.Entry); err != nil || e.Typed != "cut alloy Sterling size 8 × 6 mm" {
		t.Errorf("typed %q, %v", e.Typed, err)
	}
	r, err = s.Handle(t.Context(), bot.Request{Who: anna, Command: "cut", Options: map[string]string{"size": "8x6", "alloy": "coper"}})
	if err != nil || r.Refusal == nil || r.Refusal.Problem != `there is no alloy "coper"; did you mean copper?` || r.Refusal.Try != "cut 8x6 copper" {
		t.Errorf("reply %+v, %v", r.Refusal, err)
	}
}

func TestTeacher(t *testing.T) {
	s := openShop(t, nil)
	who := anna
	who.Teacher = true
	if r := ask(t, s, who, "m1", "teach"); r.Answer == nil {
		t.Errorf("refused a teacher: %v", r.Refusal)
	}
}

func TestLongRequestsTakeTurns(t *testing.T) {
	var most, now atomic.Int64
	s := openShop(t, func(o *bot.Options) {
		o.LongAtOnce, o.LongPerGuild = 2, 2
		o.Specs = append(o.Specs, catalogue.Spec{Name: "long", Summary: "long", Long: true,
			Answer: func(context.Context, *catalogue.Call) (*answer.Answer, error) {
				n := now.Add(1)
				for m := most.Load(); n > m && !most.CompareAndSwap(m, n); m = most.Load() {
				}
				time.Sleep(5 * time.Millisecond)
				now.Add(-1)
				return &answer.Answer{Headline: "done"}, nil
			}})
	})
	var wg sync.WaitGroup
	for i := range 7 {
		wg.Go(func() {
			r, err := s.Handle(t.Context(), bot.Request{Who: anna, Message: fmt.Sprint(i), Text: "long"})
			if err != nil || r.Answer == nil {
				t.Errorf("reply %+v, %v", r, err)
			}
		})
	}
	wg.Wait()
	assert.EqualValues(t, 2, most.Load())
}
