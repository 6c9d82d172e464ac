package requests

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/requests/requeststest"
)

// figure is one figure of an answer, NaN if it has none.
func figure(a *answer.Answer, id string) float64 {
	for _, f := range a.Figures {
		if f.ID == id {
			return f.Value
		}
	}
	return math.NaN()
}

// The figures of jump rings, resized rings, bangles, tubes and halos by the
// closed forms, worked here a second time.
func TestLinkworkByItsFormulas(t *testing.T) {
	us := func(n float64) float64 { return math.Pi * 25.4 * (0.458 + 0.032*n) }
	for line, want := range map[string]map[string]float64{
		"jumpring 18ga inside 5mm count 100 sterling": {"wire_per_ring": math.Pi * (5 + 1.0237), "aspect_ratio": 5 / 1.0237, "count": 100,
			"mass": 100 * math.Pi * (5 + 1.0237) * math.Pi / 4 * 1.0237 * 1.0237 * 10.36e-3},
		"jumpring 1.2mm ratio 4.5 sterling":                  {"wire_per_ring": math.Pi * 1.2 * 5.5, "aspect_ratio": 4.5, "count": 1},
		"jumpring 1mm inside 4 chain 402 copper":             {"count": 100, "chain_length": 402, "outside_diameter": 6},
		"jumpring 1mm mandrel 4 count 3 kerf 0 copper":       {"wire_length": 3 * math.Hypot(5*math.Pi, 1)},
		"resize us 6 to us 7 width 4 1.5mm sterling":         {"length_change": math.Pi * 0.032 * 25.4, "blank_from": us(6) + math.Pi*1.5, "blank_to": us(7) + math.Pi*1.5},
		"resize uk P to N 2mm":                               {"length_change": -2.5},
		"resize iso 54 to us 7":                              {"length_change": us(7) - 54},
		"tubeset round 4":                                    {"tube_outer": 4.5, "tube_inner": 3.5, "bur": 4, "seat_depth": 0.12 + 0.2/math.Cos(34.5*math.Pi/180), "wall_left": 0.25},
		"tubeset round 4.5 tubesize 5x0.5 count 3 spacing 1": {"tube_outer": 5, "tube_inner": 4, "centres": 6, "row_length": 17},
		"halo oval 8x6 with 1.3":                             {"gap_to_centre": 0.1, "plate_outer_length": 8 + 2*(0.1+1.3+0.4), "plate_outer_width": 6 + 2*(0.1+1.3+0.4)},
		"halo round 6.5 with 1.3":                            {"count": 17, "pitch": 8 * math.Sin(math.Pi/17), "gap": 8*math.Sin(math.Pi/17) - 1.3},
		"halo round 6.5 with 1.3 count 12":                   {"count": 12, "pitch": 8 * math.Sin(math.Pi/12)},
		"band us 7 width 4 1.5mm":                            {"blank_length": us(7) + math.Pi*1.5},
		"band us 7 halfround 4x1.6 sterling":                 {"blank_length": us(7) + 2*math.Pi*1.6*4/(3*math.Pi), "width": 4, "thickness": 1.6},
		"band us 7 wire 2mm sterling":                        {"blank_length": us(7) + math.Pi*2, "blank_mass": (us(7) + math.Pi*2) * math.Pi * 10.36e-3},
		"band us 7 square-wire 2mm sterling":                 {"blank_length": us(7) + math.Pi*2, "blank_mass": (us(7) + math.Pi*2) * 4 * 10.36e-3},
		"band bangle 65 round 3mm copper":                    {"blank_length": math.Pi * 68},
		"band bangle 57.15 half-round 6x3":                   {"circumference": 179.54, "blank_length": math.Pi*57.15 + 8},
		"band us 7 width 9 1.5mm":                            {"wide_allowance_most": math.Pi * 0.032 * 25.4},
		"resize diameter 17 to 18 half-round":                {"length_change": math.Pi},
	} {
		a, err := requeststest.Ask(All(nil), line)
		require.NoError(t, err, line)
		for id, value := range want {
			assert.InEpsilon(t, value, figure(a, id), 2e-4, "%s: %s", line, id)
		}
		again, err := requeststest.Ask(All(nil), a.Line)
		require.NoError(t, err, a.Line)
		assert.Equal(t, a.Headline, again.Headline, a.Line)
	}
}

// What can't be made or is not clear is refused in a sentence, with a line that
// works.
func TestLinkworkRefusals(t *testing.T) {
	for line, says := range map[string]string{
		"jumpring 3mm inside 4":               "too small",
		"jumpring 18ga":                       "inside diameter",
		"jumpring inside 5":                   "thick",
		"jumpring 18ga inside 5 ratio 4":      "ratio",
		"jumpring 18ga inside 5 count 0":      "count",
		"band us 7 4":                         "width or the thickness",
		"band us 7 round 3x2":                 "as wide as it is thick",
		"band bangle 65 us 7":                 "bangle",
		"band bangle 5 round 3mm":             "30",
		"band bangle 65x60x50 round 3mm":      "three",
		"tubeset oval 6x4":                    "bezel",
		"tubeset round 4 tubesize 4x0.5":      "as wide as the tube",
		"tubeset round 4 tubesize 6x0.5":      "falls through",
		"tubeset round 4 depth 0.5":           "deep",
		"halo oval 8x6":                       "small stones",
		"halo oval 8x6 with 1.3 count 60":     "overlap",
		"halo oval 8x6 with 0.1":              "0.7",
		"resize us 6":                         "which size",
		"resize 6 to 7":                       "system",
		"resize us 6 to us 6":                 "same size",
		"resize us 6 to us 40":                "out of range",
		"resize us 6 to us 7 width 99":        "30",
		"resize us 6 to us 7 us 8":            "",
		"resize us 1 to us 2 5mm":             "inner radius",
		"resize uk N to japan P":              "Japan",
		"resize us 6 to 7 1.5mm 4mm sterling": "",
	} {
		_, err := requeststest.Ask(All(nil), line)
		refusal, ok := answer.AsRefusal(err)
		require.True(t, ok, "%s: %v", line, err)
		assert.Contains(t, refusal.Problem, says, line)
		if refusal.Try != "" {
			_, err = requeststest.Ask(All(nil), refusal.Try)
			assert.NoError(t, err, "%s: try %s", line, refusal.Try)
		}
	}
}
