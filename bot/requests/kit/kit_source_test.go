package kit

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/requests/requeststest"
)

// Back plates of round and square stones by plain geometry: a plate is as wide
// as the stone with play, wall and rim on both sides; an open one lacks the
// stone and its play less the shelf on both sides. Fine silver is 10.49 g/cm3
// (the value of calc/stock), 28 ga is 0.005 x 92^(8/39) inch and 24 ga
// 0.005 x 92^(12/39) inch (ASTM B258).
func TestPlatesByHand(t *testing.T) {
	gauge := func(n float64) float64 { return 0.005 * math.Pow(92, (36-n)/39) * 25.4 }
	const play = 0.05
	for name, c := range map[string]struct {
		line              string
		metals            int
		areaMM2, jointMM  float64
		thicknessMM, kept float64
	}{
		"solid round, the usual plate": {
			line: "bezel round 12 dome 4 fine-silver 28ga", metals: 2, thicknessMM: gauge(24),
			areaMM2: math.Pi / 4 * sq(12+2*(play+gauge(28)+1.5)),
		},
		"open round": {
			line: "bezel round 12 dome 4 fine-silver 28ga plate open shelf 2 platerim 1 platethick 0.6", metals: 2, thicknessMM: 0.6,
			areaMM2: math.Pi / 4 * (sq(12+2*(play+gauge(28)+1)) - sq(12+2*play-4)),
		},
		"solid square, of the wall's own sheet": {
			line: "bezel square 10 dome 3 edge 15 fine-silver 24ga", metals: 1, thicknessMM: gauge(24),
			areaMM2: sq(10 + 2*(play+gauge(24)+1.5)),
		},
	} {
		t.Run(name, func(t *testing.T) {
			k, err := kitFor(t, "kit 6 makers "+c.line)
			require.NoError(t, err)
			require.Len(t, k.metals, c.metals)
			require.Len(t, k.pieces[0].blanks, 2)
			plate := k.pieces[0].blanks[1]
			assert.InEpsilon(t, c.areaMM2, plate.areaMM2, 1e-3)
			assert.InEpsilon(t, c.areaMM2*c.thicknessMM*10.49/1000, plate.massG(), 1e-3)
			assert.Equal(t, 12, k.count())
			a, err := requeststest.Ask(Specs(), "kit 6 makers "+c.line)
			require.NoError(t, err)
			assert.InDelta(t, 6, requeststest.Figure(t, a, "piece_a2_count").Value, 0)
			assert.InEpsilon(t, requeststest.Figure(t, plate.answer, "plate_mass").Value, requeststest.Figure(t, a, "piece_a2_mass").Value, 1e-3)
		})
	}
}

func sq(x float64) float64 { return x * x }

// A bezel has the blanks that it was asked for: no plate, a step of its own
// thickness, and relief holes in the plate alone.
func TestBlanksOfBezels(t *testing.T) {
	for line, want := range map[string]struct {
		parts []string
		drill int
	}{
		"bezel oval 14x10 dome 5 fine-silver plate none bearing step":             {[]string{"", "inner strip"}, 0},
		"bezel oval 14x10 dome 5 fine-silver bearing step stepthick 0.5":          {[]string{"", "back plate", "inner strip"}, 0},
		"bezel oval 14x10 dome 5 fine-silver plate open":                          {[]string{"", "back plate"}, 0},
		"bezel square 10 dome 3 edge 15 fine-silver relief hole plate open":       {[]string{"", "back plate"}, 4},
		"collet oval 8x6 depth 4 sterling 22ga":                                   {[]string{""}, 0},
		"bezel measured points 6,0; 4,4; 0,5; -5,3; -6,0; -4,-4; 0,-5; 5,-3 26ga": {[]string{"", "back plate"}, 0},
	} {
		k, err := kitFor(t, "kit 2 makers "+line)
		if !assert.NoError(t, err, line) {
			continue
		}
		var parts []string
		drilled := 0
		for i, b := range k.pieces[0].blanks {
			parts = append(parts, b.part)
			for _, p := range b.onSheet() {
				if strings.HasPrefix(p.ID, "-relief-") {
					drilled++
					assert.Equal(t, 1, i, "%s: holes are drilled in the plate", line)
				}
			}
		}
		assert.Equal(t, want.parts, parts, line)
		assert.Equal(t, want.drill, drilled, line)
	}
}
