package seat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

func curve(t testing.TB, kind outline.Kind, length, width float64) outline.Curve {
	t.Helper()
	c, err := outline.New(outline.Shape{Kind: kind, Size: outline.Size{LengthMM: length, WidthMM: width}})
	require.NoError(t, err)
	return c
}

// A round in a wall of 10 degrees, worked by hand.
func TestRoundByHand(t *testing.T) {
	s := NewStone(curve(t, outline.Round, 0, 6), 3.6, Given{GirdleMM: 0.2, TableShare: 0.5, Crown: 35 * units.Degree, Pavilion: 41 * units.Degree})
	tan := func(deg float64) float64 { return math.Tan(deg * math.Pi / 180) }
	assert.InDelta(t, 1.5*tan(35), s.CrownMM, 1e-12)
	assert.InDelta(t, 3*tan(41), s.PavilionMM, 1e-12)
	assert.InDelta(t, 1.5*tan(35)+0.2+3*tan(41)-3.6, s.OffDepthMM, 1e-12)
	assert.InDelta(t, 0.2+0.05+0.4*1.5/math.Cos(35*math.Pi/180), s.DefaultRimMM(0.05), 1e-12)
	w := Wall{Lean: 10 * units.Degree, ThicknessMM: 0.8, ClearanceMM: 0.05, LedgeMM: 0.2, RimMM: 0.9, HeightMM: 5}
	got := Check(s, w)
	level := 0.8 / math.Cos(10*math.Pi/180)
	assert.InDelta(t, 0.2/(1/tan(41)-tan(10)), got.FloorMM, 1e-12)
	assert.InDelta(t, level-0.25, got.BehindMM, 1e-12)
	assert.InDelta(t, level-0.25+0.9*tan(10), got.RimLeftMM, 1e-12)
	assert.InDelta(t, 0.25/level, got.Share, 1e-12)
	assert.InDelta(t, 3*tan(41)-4.1, got.ProudMM, 1e-12)
	assert.InDelta(t, 0.7, got.AboveGirdleMM, 1e-12)
	assert.Zero(t, got.RestMM)
	assert.True(t, got.Everywhere())
	assert.InDelta(t, 0.9, w.BearingTopMM(), 1e-12, "z* lies above the rim")
	w.RimMM = 3
	assert.InDelta(t, 0.25/tan(10), w.BearingTopMM(), 1e-12, "z*")
}

func TestWithoutALedge(t *testing.T) {
	s := NewStone(curve(t, outline.Oval, 8, 6), 4, Given{})
	w := Wall{Lean: 8.5 * units.Degree, ThicknessMM: 0.64, ClearanceMM: 0.05, RimMM: 0.9, HeightMM: 5}
	got := Check(s, w)
	assert.InDelta(t, -0.05/math.Tan(8.5*math.Pi/180), got.RestMM, 1e-12)
	assert.InDelta(t, 0.64/math.Cos(8.5*math.Pi/180), got.BehindMM, 1e-12, "nothing is cut")
	assert.False(t, got.Falls)
	w.Lean = 0
	assert.True(t, Check(s, w).Falls, "a straight wall holds nothing")
	w.Lean = 0.5 * units.Degree
	assert.True(t, Check(s, w).Falls, "it would rest 5.7 mm down, below the base")
}

func TestWhatIsWrongIsSaid(t *testing.T) {
	s := NewStone(curve(t, outline.Emerald, 8, 6), 4, Given{Pavilion: 55 * units.Degree})
	w := Wall{Lean: 8.5 * units.Degree, ThicknessMM: 0.64, ClearanceMM: 0.05, LedgeMM: 0.2, RimMM: 0.9, HeightMM: 6}
	for what, v := range map[string]struct {
		change func(*Wall)
		is     func(Seat) bool
	}{
		"tips":        {func(w *Wall) { w.LedgeMM = 0.09 }, func(s Seat) bool { return s.Tips }},
		"wedges":      {func(w *Wall) { w.Lean = 35.1 * units.Degree }, func(s Seat) bool { return s.Wedges }},
		"unsupported": {func(w *Wall) { w.HeightMM = 1.1 }, func(s Seat) bool { return s.Unsupported }},
		"over half":   {func(w *Wall) { w.LedgeMM = 0.3 }, func(s Seat) bool { return s.Share > MostShare }},
		"proud":       {func(w *Wall) { w.HeightMM = 5 }, func(s Seat) bool { return s.ProudMM > 0 }},
	} {
		assert.False(t, v.is(Check(s, w)), "%s before", what)
		bad := w
		v.change(&bad)
		assert.True(t, v.is(Check(s, bad)), what)
	}
	w.Lean = 34.9 * units.Degree
	assert.False(t, Check(s, w).Wedges, "55 and 34.9 degrees do not come to 90")
}

// Every outline's typical stone adds up to its depth, and its culet lies inside
// by as much as its pavilion is steep.
func TestEveryOutlineIsAStone(t *testing.T) {
	for _, kind := range outline.Kinds() {
		d := kind.Describe()
		if kind == outline.Measured {
			continue
		}
		c, err := outline.New(outline.Shape{Kind: kind, Size: d.Sample})
		require.NoError(t, err)
		size := c.Size()
		depth := d.DepthShare * min(size.LengthMM, size.WidthMM)
		s := NewStone(c, depth, Given{})
		assert.InDelta(t, depth, s.CrownMM+s.GirdleMM+s.PavilionMM, 1e-9, kind)
		assert.Zero(t, s.OffDepthMM, kind)
		assert.Greater(t, s.CrownMM, 0.0, kind)
		reach := s.ReachMM()
		assert.Greater(t, reach, 0.0, "%s: the culet lies inside", kind)
		assert.LessOrEqual(t, reach, s.WidthMM/2+1e-9, kind)
		assert.GreaterOrEqual(t, s.SteepestPavilion(), s.PavilionAngle()-1e-9, kind)
		if s.Keel {
			assert.InDelta(t, c.InradiusMM(), reach, 1e-5, "%s: the keel is where the sections close", kind)
		}
		for i := range 500 {
			at, phi := c.AtLength(c.PerimeterMM() * float64(i) / 500)
			h := (at.X-s.Culet.X)*math.Cos(phi) + (at.Y-s.Culet.Y)*math.Sin(phi)
			assert.GreaterOrEqual(t, h, reach-1e-9, kind)
		}
	}
}

// A wire between a wall and a pavilion touches both: its middle is as far from
// each as it is thick, by the distance of a point from a line.
func TestWireTouchesWallAndPavilion(t *testing.T) {
	s := NewStone(curve(t, outline.Round, 0, 6), 3.6, Given{})
	for _, deg := range []float64{0, 8.5, 20, 30} {
		w := Wall{Lean: units.Angle(deg) * units.Degree, ThicknessMM: 0.8, ClearanceMM: 0.05, RimMM: 0.9, HeightMM: 5}
		const d = 0.8
		wire, ok := WireUnder(s, w, d)
		require.True(t, ok, deg)
		x := w.FaceMM(wire.MiddleMM) - d/2/w.Lean.Cos() // outside the girdle
		slope := 3 / s.PavilionMM                       // of the pavilion, outward for each mm up
		toPavilion := (x - wire.MiddleMM*slope) / math.Hypot(1, slope)
		assert.InDelta(t, d/2, toPavilion, 1e-12, "%v degrees", deg)
		toWall := (w.FaceMM(wire.MiddleMM) - x) * w.Lean.Cos()
		assert.InDelta(t, d/2, toWall, 1e-12, "%v degrees", deg)
	}
	w := Wall{Lean: 8.5 * units.Degree, ThicknessMM: 0.8, ClearanceMM: 0.05, RimMM: 0.9, HeightMM: 1.5}
	_, ok := WireUnder(s, w, 0.8)
	assert.False(t, ok, "it would hang below the base")
}
