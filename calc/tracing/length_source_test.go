package tracing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/mathext"
)

// The length of a curve through points against closed forms: a circle, and
// ellipses by gonum's complete elliptic integral of the second kind.
func TestClosedLength(t *testing.T) {
	for _, axes := range [][2]float64{{5, 5}, {8, 6}, {15, 10}, {12, 4}} {
		a, b := axes[0], axes[1]
		points := make([][2]float64, edgePoints)
		for i := range points {
			s, c := math.Sincos(2 * math.Pi * float64(i) / edgePoints)
			points[i] = [2]float64{a * c, b * s}
		}
		want := 4 * a * mathext.CompleteE(1-b*b/(a*a))
		assert.InEpsilon(t, want, ClosedLength(points), 1e-6, "half axes %v x %v", a, b)
	}
	square := [][2]float64{{0, 0}, {3, 0}, {3, 3}, {0, 3}}
	assert.InDelta(t, 12, ClosedLength(square), 1e-12)
}

// Smoothing keeps a circle's length, and takes scatter away that would lengthen
// it.
func TestSmoothingKeepsTheLength(t *testing.T) {
	f := found{make([]Place, edgePoints), ones(edgePoints)}
	for i := range f.at {
		s, c := math.Sincos(2 * math.Pi * float64(i) / edgePoints)
		r := 10 + 0.04*math.Sin(float64(i*i))
		f.at[i] = Place{r * c, r * s}
	}
	curve, scatter := smoothed(f, 1500)
	assert.InEpsilon(t, 2*math.Pi*10, ClosedLength(upright(curve)), 0.001)
	assert.InDelta(t, 0.03, scatter, 0.02)
}
