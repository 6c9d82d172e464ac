package halo

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
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
