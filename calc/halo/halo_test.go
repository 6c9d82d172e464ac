package halo

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
)

func centre(t testing.TB, kind outline.Kind, lengthMM, widthMM float64) outline.Curve {
	t.Helper()
	c, err := outline.New(outline.Shape{Kind: kind, Size: outline.Size{LengthMM: lengthMM, WidthMM: widthMM}})
	require.NoError(t, err)
	return c
}

// A count that misses a whole number by rounding alone keeps its stone: 14
// stones whose radius was rounded up for a circle of radius 50 are still 14.
func TestToleranceBeforeFloor(t *testing.T) {
	for _, r := range []float64{14.3104, 14.3192} {
		h, err := Spec{Centre: centre(t, outline.Round, 100, 100), StoneMM: 2 * r}.Set()
		require.NoError(t, err)
		assert.Equal(t, 14, h.Count)
		assert.InDelta(t, 0, h.GapMM, 0.04)
	}
	h, err := Spec{Centre: centre(t, outline.Round, 100, 100), StoneMM: 29}.Set()
	require.NoError(t, err)
	assert.Equal(t, 13, h.Count)
}

// Whatever the outline: neighbours are the same chord apart, every stone is the
// gap away from the centre stone, and one stone more would be too many.
func TestEveryOutlineHasEvenStones(t *testing.T) {
	for _, c := range []outline.Curve{
		centre(t, outline.Oval, 8, 6), centre(t, outline.Pear, 9, 6), centre(t, outline.Marquise, 10, 5), centre(t, outline.Emerald, 8, 6),
		centre(t, outline.Cushion, 7, 7), centre(t, outline.Square, 6, 6), centre(t, outline.Oval, 14, 4), centre(t, outline.Heart, 9, 9), centre(t, outline.Round, 6.5, 6.5),
	} {
		s := Spec{Centre: c, StoneMM: 1.3, GapMM: 0.1, ToCentreMM: 0.1, RimMM: 0.4}
		h, err := s.Set()
		require.NoError(t, err, c.Kind)
		require.Len(t, h.Centres, h.Count, c.Kind)
		edge := c.Polyline(1e-5)
		for i, p := range h.Centres {
			q := h.Centres[(i+1)%h.Count]
			assert.InDelta(t, h.PitchMM, math.Hypot(p.X-q.X, p.Y-q.Y), 1e-4, "%s, stone %d", c.Kind, i)
			assert.InDelta(t, 0.1+1.3/2, fromLine(p, edge), 1e-3, "%s, stone %d from the centre", c.Kind, i)
		}
		assert.GreaterOrEqual(t, h.GapMM, 0.1-s.ToleranceMM(), c.Kind)
		more := s
		more.Count = h.Count + 1
		if tight, err := more.Set(); err == nil {
			assert.Less(t, tight.GapMM, 0.1-s.ToleranceMM(), c.Kind)
		}
		even, ok := s.EvenStoneMM(h.Count)
		require.True(t, ok, c.Kind)
		s.StoneMM = even
		again, err := s.Set()
		require.NoError(t, err, c.Kind)
		assert.Equal(t, h.Count, again.Count, c.Kind)
		assert.InDelta(t, 0.1, again.GapMM, 1e-4, c.Kind)
		points, err := s.PlateEdge()
		require.NoError(t, err)
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range points {
			low, high = math.Min(low, p.X), math.Max(high, p.X)
		}
		assert.InDelta(t, s.PlateSize().WidthMM, high-low, 2e-3, c.Kind)
	}
}

// fromLine is the distance of a point from a closed line of points.
func fromLine(p outline.Point, line []outline.Point) float64 {
	best := math.Inf(1)
	for i, a := range line {
		b := line[(i+1)%len(line)]
		ux, uy := b.X-a.X, b.Y-a.Y
		k := 0.0
		if l := ux*ux + uy*uy; l > 0 {
			k = math.Max(0, math.Min(1, ((p.X-a.X)*ux+(p.Y-a.Y)*uy)/l))
		}
		best = math.Min(best, math.Hypot(p.X-a.X-k*ux, p.Y-a.Y-k*uy))
	}
	return best
}

func TestRefusedHalos(t *testing.T) {
	oval := centre(t, outline.Oval, 8, 6)
	for _, s := range []Spec{
		{Centre: oval}, {Centre: oval, StoneMM: 1, GapMM: -1}, {Centre: oval, StoneMM: 60}, {Centre: oval, StoneMM: 0.02},
		{Centre: oval, StoneMM: 1.3, Count: 40},
	} {
		_, err := s.Set()
		assert.Error(t, err, "%v", s)
	}
}
