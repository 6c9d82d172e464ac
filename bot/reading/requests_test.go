package reading_test

import (
	"math/rand/v2"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
	"guildhand/bot/requests"
	"guildhand/calc/stock"
)

func look() reading.Lookups { return reading.Lookups{Shop: stock.DemoWorkshop()} }

// examples are the lines of the whole catalogue that work.
func examples(t testing.TB) []string {
	t.Helper()
	var list []string
	for _, s := range requests.All(nil) {
		for _, e := range s.Examples {
			list = append(list, e.Line)
		}
	}
	if len(list) < 10 {
		t.Fatalf("the catalogue has %d examples only", len(list))
	}
	return list
}

func FuzzParse(f *testing.F) {
	for _, line := range examples(f) {
		f.Add(line)
	}
	for _, line := range []string{
		"collet oval 5/16″ × ¼″, depth 4,1 mm in sterling 22 gauge", "oval 8x6", "collet ovla 8x6 sterlin",
		"collet measured (0,0) (8.5,0) (8.5,6) (0,-6.25)", "band 7½ us 18ga", "collet oval NaNx1e999 depth -0 lean ∞ 💎",
	} {
		f.Add(line)
	}
	specs, in := requests.All(nil), look()
	f.Fuzz(func(t *testing.T, line string) { reading.CheckOutcome(t, specs, in, line, true) })
}

func TestMutatedExamples(t *testing.T) {
	specs, in, list := requests.All(nil), look(), examples(t)
	words := []string{" ", "x", ",", "-", "in", "mm", "ga", "0", "1e9", "nan", "💎", "\n", "depth", "gauge", "oval", "sterling", "collet"}
	const seed = 7
	r := rand.New(rand.NewPCG(seed, 2))
	for range 5_000 {
		reading.CheckOutcome(t, specs, in, reading.Mutate(r, list, words), true)
	}
}

var oneWord = regexp.MustCompile(`^[a-z][a-z0-9-]{0,31}$`)

// TestCatalogueIsSound checks what holds for every request: short texts, words
// that can be typed and be names of slash commands, no word with two meanings,
// defaults and suggestions that are inside their own range.
func TestCatalogueIsSound(t *testing.T) {
	specs := requests.All(nil)
	requestWords := map[string]bool{}
	for i := range specs {
		s := &specs[i]
		bad := func(format string, args ...any) { t.Helper(); t.Errorf(s.Name+": "+format, args...) }
		if !oneWord.MatchString(s.Name) || requestWords[s.Name] {
			bad("the word is no word, or is there twice")
		}
		requestWords[s.Name] = true
		if s.Answer == nil || len(s.Examples) == 0 {
			bad("no Answer or no example")
		}
		short := func(what, text string) {
			t.Helper()
			if n := utf8.RuneCountInString(text); n == 0 || n > 100 {
				bad("%s is %d characters long: %q", what, n, text)
			}
		}
		short("the summary", s.Summary)
		names := map[string]string{}
		for k := range s.Options {
			o := &s.Options[k]
			short(o.Name, o.Summary)
			for _, n := range append([]string{o.Name}, o.Aliases...) {
				if !oneWord.MatchString(n) {
					bad("option name %q", n)
				}
				if other, taken := names[n]; taken {
					bad("%q means %s and %s", n, other, o.Name)
				}
				names[n] = o.Name
			}
			if o.Required && o.Prompt == "" {
				bad("%s is required and has no question", o.Name)
			}
			choices := o.Choices
			if o.ChoicesFrom != nil {
				choices = o.ChoicesFrom(stock.DemoWorkshop())
			}
			if o.Kind == catalogue.Word && len(choices) == 0 {
				bad("%s has no choices", o.Name)
			}
			words := map[string]string{}
			for _, c := range choices {
				for _, w := range append([]string{c.Key}, c.Aliases...) {
					if other, taken := words[w]; taken && other != c.Key {
						bad("%s: %q means %s and %s", o.Name, w, other, c.Key)
					}
					words[w] = c.Key
				}
			}
			for _, other := range append(append([]string{}, o.Excludes...), o.Unless...) {
				if _, ok := s.Option(other); !ok {
					bad("%s speaks of %q, which is no option", o.Name, other)
				}
			}
			for _, text := range append(append([]string{}, o.Suggest...), o.Default) {
				if text == "" || o.Kind == catalogue.Text {
					continue
				}
				_, err := reading.ParseOptions([]catalogue.Spec{{Name: "one", Options: []catalogue.Option{{
					Name: o.Name, Kind: o.Kind, Min: o.Min, Max: o.Max, Choices: choices}}}}, "one", map[string]string{o.Name: text}, look())
				if err != nil {
					bad("%s does not take its own %q: %v", o.Name, text, err)
				}
			}
		}
	}
}

// TestExamplesParse wants every example understood, and its canonical line to
// mean the same, typed and as separate options.
func TestExamplesParse(t *testing.T) {
	specs := requests.All(nil)
	for _, line := range examples(t) {
		p, err := reading.Parse(specs, line, look())
		if err != nil {
			r, _ := answer.AsRefusal(err)
			t.Errorf("%s: %v (try %s)", line, err, r.Try)
			continue
		}
		again, err := reading.Parse(specs, p.Line, look())
		if err != nil || again.Line != p.Line || !reflect.DeepEqual(again.Args, p.Args) {
			t.Errorf("%s: canonical %s gives %s, %v", line, p.Line, again.Line, err)
		}
		options := map[string]string{}
		for name, v := range p.Args {
			if v.Source == catalogue.Typed {
				options[name] = v.Text
			}
		}
		again, err = reading.ParseOptions(specs, p.Spec.Name, options, look())
		if err != nil || again.Line != p.Line || !reflect.DeepEqual(again.Args, p.Args) {
			t.Errorf("%s: as options %v gives %s, %v", line, options, again.Line, err)
		}
	}
}

// TestMisspeltExamples swaps two letters of each word of each example: what is
// not understood then is refused with a line that works.
func TestMisspeltExamples(t *testing.T) {
	specs := requests.All(nil)
	tried, mended := 0, 0
	for _, line := range examples(t) {
		words := strings.Fields(line)
		if p, err := reading.Parse(specs, line, look()); err == nil {
			line = p.Line
		}
		for w, word := range words {
			if len(word) < 5 || strings.ContainsAny(word, "0123456789") {
				continue
			}
			wrong := []byte(word)
			wrong[1], wrong[2] = wrong[2], wrong[1]
			if string(wrong) == word {
				continue
			}
			with := append(append(append([]string{}, words[:w]...), string(wrong)), words[w+1:]...)
			_, err := reading.Parse(specs, strings.Join(with, " "), look())
			r, ok := answer.AsRefusal(err)
			if !ok {
				continue // free text takes any word
			}
			tried++
			if r.Try == line {
				mended++
			}
		}
	}
	if tried < 10 || mended*100 < tried*80 {
		t.Errorf("%d of %d misspelt examples were mended", mended, tried)
	}
	t.Logf("%d of %d misspelt examples were mended", mended, tried)
}

func TestHelpDescribesEveryRequest(t *testing.T) {
	specs := requests.All(nil)
	table, help := catalogue.MarkdownTable(specs), strings.Join(catalogue.Help(specs), "\n")+"\n"
	if n := strings.Count(table, "\n"); n != len(specs)+2 {
		t.Errorf("the table has %d lines for %d requests", n, len(specs))
	}
	for i := range specs {
		s := &specs[i]
		if !strings.Contains(table, "| `"+s.Name+"` | "+s.Summary) || !strings.Contains(help, s.Name+": "+s.Summary+"\n") {
			t.Errorf("%s is missing in table or help", s.Name)
		}
		one := strings.Join(catalogue.HelpFor(s, stock.DemoWorkshop()), "\n")
		for k := range s.Options {
			if !strings.Contains(one, s.Options[k].Name) || !strings.Contains(one, s.Options[k].Range()) {
				t.Errorf("help %s lacks %s", s.Name, s.Options[k].Name)
			}
		}
	}
}

func BenchmarkParseCollet(b *testing.B) {
	specs, in := requests.All(nil), look()
	for b.Loop() {
		if _, err := reading.Parse(specs, "collet oval 8x6 depth 4 sterling 22ga lean 8.5", in); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkComplete(b *testing.B) {
	specs, shop := requests.All(nil), stock.DemoWorkshop()
	const line = "collet oval 8x6 depth 4 s"
	for b.Loop() {
		if len(reading.Complete(specs, shop, line, len(line))) == 0 {
			b.Fatal("nothing")
		}
	}
}
