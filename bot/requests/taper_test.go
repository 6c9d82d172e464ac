package requests

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/answer"
	"guildhand/bot/requests/requeststest"
	"guildhand/calc/stock"
)

// A tapered shank is as long as a plain one of the mean thickness: pi x (inside +
// mean thickness) for flat stock.
func TestTaperedBand(t *testing.T) {
	for line, mean := range map[string]float64{
		"band us 7 width 4 1.8mm taper 2.5x1.4 sterling": 1.6,
		"band us 7 width 4 2mm taper 2 sterling":         2,
		"band us 7 wire 3mm taper 2 sterling":            2.5,
		"band uk N width 5 1.6mm taper 5x1.2 18k-yellow": 1.4,
	} {
		a, err := requeststest.Ask(All(nil), line)
		require.NoError(t, err, line)
		assert.InDelta(t, math.Pi*(figure(a, "inner_diameter")+mean), figure(a, "blank_length"), 0.01, line)
		assert.Contains(t, a.Headline, "tapered to", line)
		again, err := requeststest.Ask(All(nil), a.Line)
		require.NoError(t, err, a.Line)
		assert.Equal(t, a.Headline, again.Headline, a.Line)
	}
}

func TestTaperRefusals(t *testing.T) {
	for line, says := range map[string]string{
		"band us 7 width 5 taper 6":               "less than it is on top",
		"band us 7 width 5 1.5mm taper 3x2":       "less than it is on top",
		"band us 7 wire 3mm taper 2x1":            "as wide as it is thick",
		"band us 7 width 5 taper 3x2x1":           "not to three sizes",
		"band bangle 65 round 3mm copper taper 2": "bangle",
	} {
		_, err := requeststest.Ask(All(nil), line)
		refused, ok := answer.AsRefusal(err)
		require.True(t, ok, "%s: %v", line, err)
		assert.Contains(t, refused.Problem, says, line)
		_, err = requeststest.Ask(All(nil), refused.Try)
		assert.NoError(t, err, "%s -> %s", line, refused.Try)
	}
}

// The shank's width goes by its new name and by the old one.
func TestShankWidthByBothNames(t *testing.T) {
	now, err := requeststest.Ask(All(nil), "saddle oval 8x6 depth 4 22ga shank us 7 1.5mm shank-width 3")
	require.NoError(t, err)
	before, err := requeststest.Ask(All(nil), "saddle oval 8x6 depth 4 22ga shank us 7 1.5mm shankwide 3")
	require.NoError(t, err)
	assert.Equal(t, now.Line, before.Line)
	assert.Contains(t, now.Line, "shank-width 3")
}

// A tube is told its stone as a tube setting too: outside less wall (C.
// Lewton-Brain, Tube Setting: from above the stone covers half of the wall).
func TestMatchTellsTheTubeSetting(t *testing.T) {
	a, err := requeststest.Ask(All(nil), "match tubesize 5x0.5 round")
	require.NoError(t, err)
	assert.Contains(t, strings.Join(a.Notes, "; "), "round stone of about 4.5 mm")
	a, err = requeststest.Ask(All(nil), "match tubesize 8x0.8 oval")
	require.NoError(t, err)
	assert.NotContains(t, strings.Join(a.Notes, "; "), "tube setting")
}

// A tube of the workshop is cut like the same tube by its size.
func TestSaddleOfAWorkshopTube(t *testing.T) {
	shop := stock.DemoWorkshop()
	named := requeststest.Answered(t, All(nil), shop, "saddle workshop-tube tube-5x0.8 height 5 shank us 7")
	sized := requeststest.Answered(t, All(nil), shop, "saddle tubesize 5x0.8 height 5 shank us 7")
	for _, id := range []string{"height_low", "height_high", "cut_depth"} {
		assert.Equal(t, figure(sized, id), figure(named, id), id)
	}
	assert.Contains(t, named.Headline, "5 mm outside, 0.8 mm wall")
}
