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

// Wire and tube by plain geometry. Sterling is 10.36 g/cm3 (the value of
// calc/stock), a half-round's centroid stands
// 4 h / 3 pi over its flat side, a ring of wire is pi (inside + wire) long, and
// round tube holds pi (outside - wall) x wall of metal across.
func TestLengthsByHand(t *testing.T) {
	const sterling, kerf, bandSpare = 10.36, 0.3, 3.0
	wire18 := 0.005 * math.Pow(92, (36-18)/39.0) * 25.4
	halfRound := 54.4 + 2*math.Pi*4/(3*math.Pi)*1.6
	turn := math.Hypot(math.Pi*(5+wire18)+kerf, wire18)
	tube := 0.03*4 + max(0.2, 0.1*2/math.Cos(34.5*math.Pi/180)) + 0.431*4 + 0.5
	for line, c := range map[string]struct {
		count                int
		each, need, perMaker float64
		bars                 int
		sectionMM2, piecesG  float64
	}{
		"band iso 54.4 halfround 4x1.6 sterling": {
			6, halfRound, 6 * (halfRound + bandSpare + kerf), halfRound + bandSpare + kerf, 2,
			math.Pi / 4 * 4 * 1.6, 6 * halfRound * math.Pi / 4 * 4 * 1.6 * sterling / 1000,
		},
		"band iso 54.4 wire 2mm sterling": {
			6, 54.4 + 2*math.Pi, 6 * (54.4 + 2*math.Pi + bandSpare + kerf), 54.4 + 2*math.Pi + bandSpare + kerf, 2,
			math.Pi, 6 * (54.4 + 2*math.Pi) * math.Pi * sterling / 1000,
		},
		"band iso 54.4 square 2mm sterling": {
			6, 54.4 + 2*math.Pi, 6 * (54.4 + 2*math.Pi + bandSpare + kerf), 54.4 + 2*math.Pi + bandSpare + kerf, 2,
			4, 6 * (54.4 + 2*math.Pi) * 4 * sterling / 1000,
		},
		"tubeset round 4 tubesize 4.5x0.5 sterling": {
			6, tube, 6 * (tube + 0.2 + kerf), tube + 0.2 + kerf, 1,
			math.Pi * 4 * 0.5, 6 * tube * math.Pi * 4 * 0.5 * sterling / 1000,
		},
		// 10 rings a coil: 192 mm and 40 mm of ends, one to a length of 300 mm.
		"jumpring 18ga inside 5 count 10 sterling": {
			60, turn, 6 * (10*turn + 40), 10*turn + 40, 6,
			math.Pi / 4 * sq(wire18), 60 * math.Pi * (5 + wire18) * math.Pi / 4 * sq(wire18) * sterling / 1000,
		},
		// 20 rings a coil: 13 from one length and 7 from another, both with ends.
		"jumpring 18ga inside 5 count 20 sterling": {
			120, turn, 6 * (20*turn + 80), 20*turn + 80, 12,
			math.Pi / 4 * sq(wire18), 120 * math.Pi * (5 + wire18) * math.Pi / 4 * sq(wire18) * sterling / 1000,
		},
		// 100 rings in one go: 13 to a length of 300 mm, the last has 9.
		"pieces 100 jumpring 18ga inside 5 sterling": {
			100, turn, 100*turn + 8*40, 0, 8,
			math.Pi / 4 * sq(wire18), 100 * math.Pi * (5 + wire18) * math.Pi / 4 * sq(wire18) * sterling / 1000,
		},
	} {
		a, err := requeststest.Ask(Specs(), "kit 6 makers "+line)
		if !assert.NoError(t, err, line) {
			continue
		}
		used := c.need * c.sectionMM2 * sterling / 1000
		for id, want := range map[string]float64{
			"pieces": float64(c.count), "piece_a_count": float64(c.count), "piece_a_length": c.each, "stock_1_length": c.need,
			"stock_1_per_maker": c.perMaker, "stock_1_lengths": float64(c.bars), "stock_1_stock_length": 300,
			"stock_1_mass": used, "stock_1_piece_mass": c.piecesG, "cost": used * 1.20, "stock_lengths": float64(c.bars),
		} {
			assert.InDelta(t, want, requeststest.Figure(t, a, id).Value, 2e-4*max(1, want), "%s: %s", line, id)
		}
		for _, f := range requeststest.Unfit(a) {
			t.Errorf("%s: %s", line, f)
		}
	}
}

// Pieces of one metal and section share their stock lengths, others don't; sheet
// stays on its sheets.
func TestKitSortsWireTubeAndSheet(t *testing.T) {
	for pieces, want := range map[string]struct{ sheets, stocks, pictures int }{
		"band us 7 wire 2mm sterling ; band us 9 round 2mm sterling":                              {0, 1, 1},
		"band us 7 wire 2mm sterling ; band us 7 wire 2mm copper":                                 {0, 2, 1},
		"band us 7 wire 2mm sterling ; band us 7 square 2mm sterling":                             {0, 2, 1},
		"jumpring 12ga inside 12 sterling ; band us 7 wire 12ga sterling":                         {0, 1, 1},
		"tubeset round 4 sterling ; tubeset round 3 sterling":                                     {0, 2, 1},
		"collet oval 8x6 depth 4 sterling 22ga ; tubeset round 3 sterling":                        {1, 1, 1},
		"bezel round 12 dome 4 sterling 24ga plate none bearing wire seat 1":                      {1, 1, 1},
		"bezel round 12 dome 4 sterling 24ga bearing wire seat 1 ; jumpring 1mm ratio 5 sterling": {1, 1, 1},
		"band us 7 width 4 1.5mm sterling":                                                        {1, 0, 1},
	} {
		k, err := kitFor(t, "kit 4 makers "+pieces)
		if !assert.NoError(t, err, pieces) {
			continue
		}
		assert.Len(t, k.metals, want.sheets, pieces)
		assert.Len(t, k.stocks, want.stocks, pieces)
		a, err := requeststest.Ask(Specs(), "kit 4 makers "+pieces)
		if !assert.NoError(t, err, pieces) {
			continue
		}
		again, err := requeststest.Ask(Specs(), a.Line)
		if assert.NoError(t, err, a.Line) {
			assert.Equal(t, a.Figures, again.Figures, "%s: typed again", a.Line)
			assert.Equal(t, a.Line, again.Line)
		}
		pictures := 0
		for _, f := range a.Attachments {
			if f.Type == "image/png" {
				pictures++
			}
			data, err := f.Render(t.Context())
			assert.NoError(t, err, f.Name)
			assert.NotEmpty(t, data, f.Name)
		}
		assert.Equal(t, want.pictures, pictures, pieces)
		for _, f := range requeststest.Unfit(a) {
			t.Errorf("%s: %s", pieces, f)
		}
	}
}
