package halo

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
)

// Rings of equal circles round one, ratio of the middle to the others: 6 alike, the
// hexagonal packing; for any count 1/sin(180°/n) - 1 (H. S. M. Coxeter, Introduction to
// Geometry, on circles that touch in a ring; values from memory).
var touching = []struct {
	count int
	ratio float64
}{{3, 0.1547}, {4, 0.4142}, {6, 1}, {8, 1.6131}, {12, 2.8637}}

func TestEvenStonesAgainstRingsOfCircles(t *testing.T) {
	for _, ring := range touching {
		assert.InDelta(t, 2*ring.ratio, EvenCentreMM(2, ring.count, 0, 0), 2e-4, "%d round", ring.count)
		assert.InDelta(t, 2, EvenStoneMM(2*ring.ratio, ring.count, 0, 0), 2e-3, "%d round", ring.count)
		assert.InDelta(t, 0, EvenGapMM(2, 2*ring.ratio, ring.count), 2e-4, "%d round", ring.count)
	}
}

func TestEvenStonesWithGaps(t *testing.T) {
	for count := 5; count < 40; count++ {
		centre := EvenCentreMM(1.5, count, 0.1, 0.2)
		assert.InDelta(t, 1.5, EvenStoneMM(centre, count, 0.1, 0.2), 1e-9)
		r := centre/2 + 0.2 + 0.75 // a stone and its neighbour, by their middles
		x, y := r-r*math.Cos(2*math.Pi/float64(count)), r*math.Sin(2*math.Pi/float64(count))
		assert.InDelta(t, 1.6, math.Hypot(x, y), 1e-9, "%d stones", count)
	}
}

// A plate's width is the sum of what lies across it: a stone of 6, gaps of 0.1, small
// stones of 1.3 and edges of 0.4 on both sides are 9.6.
func TestWidthOverAll(t *testing.T) {
	assert.InDelta(t, 1.3, SmallWithinMM(9.6, 6, 0.1, 0.4), 1e-9)
	assert.InDelta(t, 6, CentreWithinMM(9.6, 1.3, 0.1, 0.4), 1e-9)
	plate := Spec{Centre: centreOf(t, outline.Round, 1)(6), StoneMM: 1.3, ToCentreMM: 0.1, RimMM: 0.4}.PlateSize()
	assert.InDelta(t, 9.6, plate.WidthMM, 1e-6)
}

// The centre that so many stones stand evenly round, by the rings of circles.
func TestEvenCentre(t *testing.T) {
	for _, ring := range touching[2:] {
		width, ok := Spec{StoneMM: 2}.EvenCentreWidthMM(ring.count, func(w float64) (outline.Curve, error) { return centreOf(t, outline.Round, 1)(w), nil })
		assert.True(t, ok)
		assert.InDelta(t, 2*ring.ratio, width, 2e-4, "%d round", ring.count)
	}
}

func centreOf(t *testing.T, kind outline.Kind, long float64) func(widthMM float64) outline.Curve {
	return func(w float64) outline.Curve {
		curve, err := outline.New(outline.Shape{Kind: kind, Size: outline.Size{LengthMM: long * w, WidthMM: w}})
		require.NoError(t, err)
		return curve
	}
}
