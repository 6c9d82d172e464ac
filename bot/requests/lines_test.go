package requests_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
	"guildhand/bot/requests"
	"guildhand/bot/requests/requeststest"
	"guildhand/bot/template"
	"guildhand/calc/stock"
	"guildhand/calc/testcount"
)

// benchDefault is one value that a bench may hold.
type benchDefault struct{ option, text string }

// benchDefaults are values of every option that a bench may hold: every choice
// of a word but alloys, of which three stand for all, and two of the others.
func benchDefaults(t *testing.T, specs []catalogue.Spec) []benchDefault {
	t.Helper()
	var list []benchDefault
	for i := range specs {
		for _, o := range specs[i].Options {
			texts := slices.Clone(o.Suggest)
			switch {
			case !o.Bench:
				continue
			case o.Name == "alloy":
				texts = []string{"copper", "18k-yellow", "fine-silver"}
			case o.Kind == catalogue.Word:
				texts = nil
				for _, c := range o.ChoicesIn(stock.DemoWorkshop()) {
					texts = append(texts, c.Key)
				}
			case o.Name == "lean":
				texts = []string{"12", "6"}
			case o.Name == "thickness":
				texts = []string{"18ga", "0.7mm"}
			}
			require.NotEmpty(t, texts, "%s %s", specs[i].Name, o.Name)
			if o.Kind != catalogue.Word {
				texts = texts[len(texts)-min(len(texts), 2):]
			}
			for _, text := range texts {
				if d := (benchDefault{o.Name, text}); !slices.Contains(list, d) {
					list = append(list, d)
				}
			}
		}
	}
	return list
}

// asked answers a line as a maker's who has that on the bench.
func asked(specs []catalogue.Spec, line string, bench ...benchDefault) (*answer.Answer, error) {
	values := map[string]string{}
	for _, d := range bench {
		values[d.option] = d.text
	}
	look := reading.Lookups{Shop: stock.DemoWorkshop(), Bench: func() ([]reading.Layer, error) {
		return []reading.Layer{{Source: catalogue.FromMaker, Note: "your bench", Values: values}}, nil
	}}
	call, err := requeststest.CallWith(specs, look, line)
	if err != nil {
		return nil, err
	}
	return call.Answer(context.Background())
}

// said is all of an answer that may depend on an option, its line apart.
func said(a *answer.Answer) string {
	var b strings.Builder
	fmt.Fprintln(&b, a.Headline, a.Inches, a.Steps, a.Cautions)
	for _, f := range a.Figures {
		fmt.Fprintln(&b, f.ID, f.Text, f.Value)
	}
	for _, f := range a.Attachments {
		fmt.Fprintln(&b, f.Name, f.Alt)
		if d, ok := f.Scene.(template.Drawing); ok {
			fmt.Fprintln(&b, drawnOf(d.Whole()))
		}
	}
	return b.String()
}

// drawnOf tells two drawings apart by their words and where their lines lie.
func drawnOf(d template.Drawing) string {
	text := fmt.Sprintln(d.Title, d.Lines, d.Measures(), len(d.Paths), template.Bounds(d))
	for _, detail := range d.Details {
		text += drawnOf(detail)
	}
	return text
}

// Whatever a bench holds, the answer's line typed under any other bench gives
// the same answer, in any order of its options; and an answer says that a value
// is of the bench where it was used, and only there.
func TestLinesGiveTheSameAnswer(t *testing.T) {
	t.Parallel()
	specs := requests.All(nil)
	defaults := benchDefaults(t, specs)
	const seed = 1106
	rnd := rand.New(rand.NewPCG(seed, 1))
	checked, used := 0, 0
	for i := range specs {
		spec := &specs[i]
		if spec.Keeps {
			continue // their answers are about what is kept
		}
		for n, e := range spec.Examples {
			if spec.Long && n > 0 || testing.Short() && n > 1 || !testcount.Whole() && n > 0 || !testcount.Long() && n > 3 {
				break
			}
			usual, err := asked(specs, e.Line)
			require.NoError(t, err, e.Line)
			changes := map[string]bool{}
			states := map[string]string{}
			for _, d := range defaults {
				if o, ok := spec.Option(d.option); spec.Long && d.option != "alloy" && d.option != "units" || !spec.Long && spec.Name != "weigh" && (!ok || !o.Bench) {
					continue
				}
				a, err := asked(specs, e.Line, d)
				if err != nil {
					_, refused := answer.AsRefusal(err)
					assert.True(t, refused, "%s with %v: %v", e.Line, d, err)
					continue
				}
				checked++
				states[d.option] += strings.Join(a.Assumptions, "\n")
				if said(a) != said(usual) {
					changes[d.option] = true
					used++
					assert.Contains(t, strings.Join(append(a.Assumptions, a.Notes...), "\n"), "(your bench", "%s with %v", e.Line, d)
				}
				others := []benchDefault{d}
				for range 6 {
					others = append(others, defaults[rnd.IntN(len(defaults))])
				}
				again, err := asked(specs, a.Line, others[1:]...)
				require.NoError(t, err, "%s with %v: its line %q with %v", e.Line, d, a.Line, others[1:])
				require.Equal(t, said(a), said(again), "%s with %v: its line %q with %v", e.Line, d, a.Line, others[1:])
				require.Equal(t, a.Line, again.Line)
				checkAnyOrder(t, rnd, specs, a.Line)
			}
			for option, text := range states {
				o, _ := spec.Option(option)
				if spec.Name == "match" && (option == "allowance" || option == "alloy") {
					continue // a foot closes only where it is high enough, and few alloys have cautions of their own
				}
				if o != nil && strings.Count(text, option+" "+o.Default) == strings.Count(text, option+" ") {
					continue // only its usual value could be answered
				}
				if !changes[option] && strings.Contains(text, option+" ") && strings.Contains(text, "(your bench)") {
					t.Errorf("%s: %s of the bench is stated and changes nothing: %s", e.Line, option, text)
				}
			}
		}
	}
	assert.Greater(t, checked, testcount.Of(100, 300, 300))
	assert.Greater(t, used, testcount.Of(25, 80, 80))
	t.Logf("seed %d: %d answers, %d of them with a value of the bench", seed, checked, used)
}

// checkAnyOrder writes a line's options in another order, each with its name,
// and wants the same request read.
func checkAnyOrder(t *testing.T, rnd *rand.Rand, specs []catalogue.Spec, line string) {
	t.Helper()
	look := reading.Lookups{Shop: stock.DemoWorkshop()}
	want, err := reading.Parse(specs, line, look)
	require.NoError(t, err, line)
	var parts []string
	last := ""
	if want.NoBench {
		parts = append(parts, "no bench")
	}
	for i := range want.Spec.Options {
		o := &want.Spec.Options[i]
		if !want.Args.Typed(o.Name) {
			continue
		}
		part := o.Name + " " + want.Args.Word(o.Name)
		switch o.Kind {
		case catalogue.Flag:
			part = o.Name
		case catalogue.Text:
			last = " " + part
			continue
		}
		parts = append(parts, part)
	}
	rnd.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
	shuffled := want.Spec.Name + " " + strings.Join(parts, " ") + last
	got, err := reading.Parse(specs, shuffled, look)
	require.NoError(t, err, shuffled)
	require.Equal(t, want.Line, got.Line, shuffled)
}

// Lines that were refused, or said what they did not use, before the class was
// put right.
func TestLinesOfOldFaults(t *testing.T) {
	specs := requests.All(nil)
	for _, tt := range []struct {
		bench      benchDefault
		line, want string
		unsaid     string
	}{
		{benchDefault{"paper", "letter"}, "band us 7", "band ring 7 system us paper letter no bench", ""},
		{benchDefault{"system", "diameter"}, "band 54", "band ring 54 iso no bench", "diameter"},
		{benchDefault{"block", "demo-oval"}, "collar pear 9x6 depth 4 sterling 20ga", "collar pear 9x6 depth 4 sterling 20ga no bench", ""},
		{benchDefault{"lean", "12"}, "collet square 5 depth 3.2 sterling 20ga taper base base round basesize 4", "", "lean 12"},
		{benchDefault{"corner", "scored"}, "collet oval 8x6 depth 4 sterling 22ga", "collet oval 8x6 depth 4 sterling 22ga no bench", "scored"},
	} {
		a, err := asked(specs, tt.line, tt.bench)
		require.NoError(t, err, tt.line)
		if tt.want != "" {
			assert.Equal(t, tt.want, a.Line)
		}
		if tt.unsaid != "" {
			assert.NotContains(t, strings.Join(a.Assumptions, "\n"), tt.unsaid, tt.line)
		}
		again, err := asked(specs, a.Line, benchDefault{"alloy", "copper"}, benchDefault{"lean", "6"}, benchDefault{"units", "inch"})
		require.NoError(t, err, a.Line)
		assert.Equal(t, said(a), said(again), a.Line)
	}
}

// A line carries what a trial has taught as numbers, so that it gives the same
// blank to a maker without that trial, and after later ones.
func TestLineCarriesATrial(t *testing.T) {
	specs := requests.All(nil)
	for _, line := range []string{"collet oval 8x6 depth 4 sterling 22ga", "collet emerald 8x6 depth 4.2 sterling 22ga", "bezel oval 10x8 dome 3 sterling 22ga",
		"collar oval 8x6 depth 4 sterling 22ga", "prongs oval 9x7 sterling 22ga"} {
		call, err := requeststest.CallOf(specs, stock.DemoWorkshop(), line)
		require.NoError(t, err)
		call.Corrections = func(context.Context) ([]catalogue.Correction, error) {
			return []catalogue.Correction{{ID: 1, Alloy: "sterling", ThicknessMM: stock.GaugeMM(22), NeutralFactor: 0.4312345678, KerfMM: 0.0712345678}}, nil
		}
		a, err := call.Answer(t.Context())
		require.NoError(t, err, line)
		assert.Contains(t, a.Line, " neutral 0.43123")
		assert.Contains(t, a.Line, " kerf 0.07123")
		again, err := asked(specs, a.Line)
		require.NoError(t, err, a.Line)
		assert.Equal(t, said(a), said(again), a.Line)
	}
}
