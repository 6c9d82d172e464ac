package requests

import (
	"math"
	"testing"

	"guildhand/bot/requests/requeststest"
	"guildhand/calc/outline"
)

func TestProngsExamples(t *testing.T) { requeststest.Examples(t, All(nil), "prongs") }

func TestProngsRefusals(t *testing.T) {
	refusals(t,
		"prongs marquise 10x5 depth 3.2 sterling 20ga number 5",
		"prongs square 6 depth 4 sterling 20ga number 3",
		"prongs round 6 depth 4 sterling 20ga number 12 width 2",
		"prongs oval 8x6 depth 4 sterling 20ga gallery 5.5",
		"prongs oval 8x6 depth 4 sterling 20ga places 10",
		"prongs oval 8x6 depth 4 sterling 20ga places 10 abc",
		"prongs round 6 depth 4 sterling 20ga number 8 drill 4",
		"prongs round 2 depth 1.2 sterling 2mm",
	)
}

// Every outline takes its usual prongs, and its windows are drawn.
func TestProngsOfEveryOutline(t *testing.T) {
	for kind, line := range requeststest.ColletOfEveryOutline() {
		a, err := requeststest.Ask(All(nil), "prongs"+line[len("collet"):])
		if err != nil {
			t.Errorf("%s: %v", line, err)
			continue
		}
		for _, f := range requeststest.Unfit(a) {
			t.Errorf("%s: %s", kind, f)
		}
		lengths := svgLengths(t, a)
		n := requeststest.Value(t, a, "prongs")
		if lengths["window-1"] == 0 || lengths["drill-1-1"] == 0 {
			t.Errorf("%s: no window or no drill is drawn", kind)
		}
		if want := math.Pi * requeststest.Value(t, a, "drill"); math.Abs(lengths["drill-1-1"]-want) > 1e-4*want {
			t.Errorf("%s: the drill is drawn %.4f mm round, not %.4f", kind, lengths["drill-1-1"], want)
		}
		if n < 3 {
			t.Errorf("%s: %v prongs", kind, n)
		}
		if kind == outline.Pear && lengths["fold-1"] == 0 {
			t.Error("a pear's collet opened away from its point has a fold there")
		}
		if math.Abs(lengths["rim"]-requeststest.Value(t, a, "rim_length")) > 1e-4 {
			t.Errorf("%s: the rim is drawn %.5f mm long", kind, lengths["rim"])
		}
	}
}
