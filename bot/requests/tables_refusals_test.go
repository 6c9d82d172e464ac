package requests

import (
	"context"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/stock"
)

// Every refusal says what is wrong in one sentence, and the line it offers
// works.
func TestTablesRefuse(t *testing.T) {
	specs := withCollet()
	rows := []struct{ line, says string }{
		{"band 7 width 4 1.5mm", "system"},
		{"band us 17", "0 to 16"},
		{"band iso 40", "41 to 76"},
		{"band japan 31", "1 to 30"},
		{"band uk 7", "A to Z+6"},
		{"band us N", "0 to 16"},
		{"band us 0 5mm", "inner radius"},
		{"band us 7 width 40", "0.8 to 30 mm"},
		{"band", "ring"},
		{"dome 20 height 12", "hemisphere"},
		{"dome 20", "how high"},
		{"dome 20x10 height 4", "one diameter"},
		{"dome disc 20", "height or the diameter"},
		{"dome disc 20 height 9", "at most"},
		{"dome 20 disc 15 height 6", "from"},
		{"dome 2 height 1 3mm", "thickness"},
		{"dome disc 20 hemisphere", "diameter"},
		{"dome 20 height 6 hollows 12 10", "hollow"},
		{"dome 20 height 6 hollows nine", "1 to 500 mm"},
		{"dome 40 hemisphere 18k-white hollows 90 40", "too deep"},
		{"weigh sheet 22ga", "what size"},
		{"weigh sheet 50x20x3 22ga", "length x width"},
		{"weigh wire 18ga", "what size"},
		{"weigh wire 18ga length 300 size 4", "given twice"},
		{"weigh sheet 22ga length 300", "no length"},
		{"weigh disc 20x30 22ga", "diameter"},
		{"weigh half-round 4x2", "length"},
		{"weigh half-round 4 length 60", "width x height x length"},
		{"weigh tube 6x4x100", "half the outer"},
		{"weigh tube 6x0.5", "length"},
		{"weigh", "what do you want to weigh"},
		{"weigh collet oval", "size"},
		{"weigh collet oval 8x6 depth 4 sterling 22ga count 3 zebra", ""},
		{"melt sterling", "what does the wax weigh"},
		{"melt model 4.1g 18k-yellow", "metal is missing"},
		{"melt wax 3g from brass", "from"},
		{"melt model 4.1g 8x6", "metal is missing"},
		{"melt dip sterling", "inner size"},
		{"melt dip 8x6 sterling", "height"},
		{"melt dip 8x6x4 height 5", "length x width"},
		{"melt dip 8x6 height 30", "tip"},
		{"melt dip 8x6 height 5 lean 0", "lean"},
		{"melt dip 8x6 height 5 wax 3g", "wax"},
		{"melt dip 20 height 5 punch demo-round-punch", "wide at most"},
		{"melt wax 3g shrink 20%", "0 to 10"},
		{"heat", "metal"},
		{"heat sterling solder bag-3", "cadmium"},
		{"heat copper solder cd", "cadmium"},
		{"heat sterling solder extra-hard", "begins to melt"},
		{"heat 18k-yellow solder hard", "silver solder"},
		{"heat titanium solder easy", "silver solder"},
		{"heat sterling joints 40", "1 to 12"},
		{"cautions", "job"},
		{"cautions knitting", "knitting"},
	}
	for _, r := range rows {
		got, err := refusal(specs, r.line)
		if err != nil {
			t.Errorf("%s: %v", r.line, err)
			continue
		}
		if !strings.Contains(got.Problem, r.says) {
			t.Errorf("%s: %q does not say %q", r.line, got.Problem, r.says)
		}
		if a, err := requeststest.Ask(specs, got.Try); err != nil {
			t.Errorf("%s: the line to try, %q, does not work: %v", r.line, got.Try, err)
		} else if a.Headline == "" {
			t.Errorf("%s: %q answers nothing", r.line, got.Try)
		}
	}
}

// No refusal about cadmium may suggest a way to use it.
func TestCadmiumIsAlwaysRefused(t *testing.T) {
	tried := 0
	for _, s := range stock.Solders() {
		if s.CadmiumPercent == 0 {
			continue
		}
		for _, a := range stock.Alloys() {
			r, err := refusal(tables(), "heat "+a.Key+" solder "+s.Key)
			if err != nil || !strings.Contains(r.Problem, "cadmium") || !strings.Contains(r.Problem, "kill") || strings.Contains(r.Try, s.Key) {
				t.Errorf("heat %s solder %s: %v, %v", a.Key, s.Key, r, err)
			}
			tried++
		}
	}
	if tried < 50 {
		t.Errorf("only %d pairs tried", tried)
	}
}

// Every job's notes defer to those who answer for safety.

// A call made by hand, as an adapter's test would.
func TestWeighByHand(t *testing.T) {
	spec := weighRequest()
	a, err := spec.Answer(context.Background(), &catalogue.Call{
		Spec: &spec, Write: func(catalogue.Args, bool) string { return "" },
		Args: catalogue.Args{
			"form": {Text: "sheet"}, "size": {Text: "100x50", Numbers: []float64{100, 50}},
			"thickness": {Text: "1mm", Number: 1}, "alloy": {Text: "fine-silver"}, "units": {Text: "inch"},
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	// 5 cm3 of fine silver at 10.49 g/cm3.
	if got := requeststest.Figure(t, a, "mass").Value; math.Abs(got-52.45) > 1e-9 {
		t.Errorf("mass %g g", got)
	}
	if got := requeststest.Figure(t, a, "mass_troy").Text; got != "33.73 dwt, 1.686 ozt" {
		t.Errorf("troy %q", got)
	}
	if !strings.Contains(a.Headline, "3.937 x 1.969 in") {
		t.Errorf("no inches: %s", a.Headline)
	}
	if len(a.Notes) == 0 || !strings.Contains(a.Notes[0], "no price") {
		t.Errorf("a workshop without prices is not mentioned: %v", a.Notes)
	}
}

func TestWeighPriceHasItsDate(t *testing.T) {
	a, err := requeststest.Ask(tables(), "weigh sheet 50x20 22ga sterling")
	if err != nil {
		t.Fatal(err)
	}
	cost := requeststest.Figure(t, a, "cost")
	if !strings.Contains(cost.Label, "2026-11-01") || !strings.Contains(cost.Label, "demo") || math.Abs(cost.Value-1.2*requeststest.Figure(t, a, "mass").Value) > 1e-9 {
		t.Errorf("cost %+v", cost)
	}
	collet, err := requeststest.Ask(withCollet(), "weigh count 4 collet oval 8x6 depth 4 sterling 22ga")
	if err != nil {
		t.Fatal(err)
	}
	if got := requeststest.Figure(t, collet, "mass").Value; got != 5 {
		t.Errorf("four collets weigh %g g", got)
	}
}

func TestBandSystemOfTheBench(t *testing.T) {
	spec := bandRequest()
	bench := reading.Lookups{Bench: func() ([]reading.Layer, error) {
		return []reading.Layer{{Source: catalogue.FromMaker, Note: "your bench", Values: map[string]string{"system": "us", "thickness": "26ga"}}}, nil
	}}
	for line, want := range map[string]float64{
		"band 7":        54.42, // the bench's US
		"band N":        53.75, // a letter is UK whatever the bench says
		"band japan 13": 53.41,
		"band 54":       54,
	} {
		p, err := reading.Parse([]catalogue.Spec{spec}, line, bench)
		if err != nil {
			t.Fatal(err)
		}
		a, err := p.Call().Answer(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		if got := requeststest.Figure(t, a, "circumference").Value; math.Abs(got-want) > 0.005 {
			t.Errorf("%s: %.2f mm round, want %.2f", line, got, want)
		}
		if got := requeststest.Figure(t, a, "thickness").Value; got != 1.5 {
			t.Errorf("%s: the bench's sheet of %g mm makes the shank", line, got)
		}
	}
}

// Whatever is typed, the answer is whole or a refusal whose line works.
func TestTablesRandomLines(t *testing.T) {
	const seed = 7
	r := rand.New(rand.NewPCG(seed, seed))
	words := strings.Fields("us uk iso japan 7 N 54 1/2 0 -3 1e9 nan 20 8x6 0x0 100x100 width height depth 4 0.1 5mm 22ga 40ga 0000ga sterling titanium " +
		"18k-white sheet wire tube disc half-round length count 10000 wax 2g model from brass dip lean tip 2 punch demo-oval-punch wall film hemisphere hollows 30 25 12 " +
		"solder hard cadmium joints 3 stone opal shrink 10% button 200% size face inside court profile units inch paper letter collet oval")
	answered, refused, further := 0, 0, 0
	specs := withCollet()
	for range 1500 {
		s := tables()[r.IntN(len(tables()))]
		line := s.Name
		if len(s.Examples) > 0 && r.IntN(2) == 0 {
			line = s.Examples[r.IntN(len(s.Examples))].Line
		}
		for range r.IntN(5) {
			line += " " + words[r.IntN(len(words))]
		}
		a, err := requeststest.Ask(specs, line)
		if err == nil {
			answered++
			for _, f := range requeststest.Unfit(a) {
				t.Errorf("seed %d, %s: %s", seed, line, f)
			}
			continue
		}
		ref, ok := answer.AsRefusal(err)
		if !ok {
			t.Errorf("seed %d, %s: a fault of ours: %v", seed, line, err)
			continue
		}
		refused++
		// The parser mends one mistake; a line with several may need another
		// round, but it must come to an answer.
		tried := line
		for round := 0; ; round++ {
			tried += "\n  -> " + ref.Problem + "\n  try " + ref.Try
			_, err := requeststest.Ask(specs, ref.Try)
			if err == nil {
				break
			}
			if round == 0 {
				further++
			}
			if ref, ok = answer.AsRefusal(err); !ok || round == 3 {
				t.Errorf("seed %d, %s\n  -> %v", seed, tried, err)
				break
			}
		}
	}
	if further*8 > refused {
		t.Errorf("%d of %d lines to try were refused again", further, refused)
	}
	if answered < 100 || refused < 200 {
		t.Errorf("only %d answered and %d refused", answered, refused)
	}
}

// Domes are round and match looks up calibrated sizes: neither takes a traced
// outline, and both say why. The line offered is computed.
func TestTracedWhereNoOutlineServes(t *testing.T) {
	specs := All(nil)
	for line, says := range map[string]string{
		"dome traced agate":               "a traced outline can't be domed",
		"dome 20 height 6 traced agate":   "a traced outline can't be domed",
		"match traced agate":              "a traced stone has a size of its own",
		"match strip 28x6 traced agate":   "a traced stone has a size of its own",
		"match traced agate tube-10x1":    "a traced stone has a size of its own",
		"match traced 3f9c offcut 30x12 ": "a traced stone has a size of its own",
	} {
		_, err := requeststest.Ask(specs, line)
		r, ok := answer.AsRefusal(err)
		if !assert.True(t, ok, "%s: %v", line, err) {
			continue
		}
		assert.Contains(t, r.Problem, says, line)
		for range 4 { // a line to try may be mended again, as the service does
			if _, err = requeststest.Ask(specs, r.Try); err == nil {
				break
			}
			if r, ok = answer.AsRefusal(err); !ok {
				break
			}
		}
		assert.NoError(t, err, "%s: the line to try is %q", line, r.Try)
	}
}
