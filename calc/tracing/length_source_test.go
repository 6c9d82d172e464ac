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

// A strip round an ellipse finds the ellipse: its perimeter by gonum's elliptic
// integral gives exponent 2.
func TestFromStrip(t *testing.T) {
	for _, size := range [][2]float64{{20, 16}, {18, 13}, {30, 12}} {
		a, b := size[0]/2, size[1]/2
		perimeter := 4 * a * mathext.CompleteE(1-b*b/(a*a))
		outline, n, err := FromStrip(size[1], size[0], perimeter)
		assert.NoError(t, err)
		assert.InDelta(t, 2, n, 0.003)
		low, high := bounds(outline)
		assert.InDelta(t, size[0], high[1]-low[1], 0.001)
		assert.InDelta(t, size[1], high[0]-low[0], 0.001)
		assert.InDelta(t, perimeter, ClosedLength(outline), 1e-3)
	}
	for _, strip := range []float64{40, 73} {
		_, _, err := FromStrip(20, 16, strip)
		assert.ErrorContains(t, err, "measure the three again")
	}
}

func TestHullAndFewer(t *testing.T) {
	heart := make([][2]float64, 480)
	for i := range heart {
		angle := 2 * math.Pi * float64(i) / 480
		s, c := math.Sincos(angle)
		r := 8 - 3*math.Exp(-12*(angle-math.Pi/2)*(angle-math.Pi/2))
		heart[i] = [2]float64{r * c, r * s}
	}
	hull := Hull(heart)
	dip := DipMM(heart, hull)
	assert.Greater(t, dip, 0.2)
	assert.Less(t, len(hull), 480)
	round, _, err := FromStrip(20, 16, 57)
	assert.NoError(t, err)
	hull = Hull(round)
	dip = DipMM(round, hull)
	assert.InDelta(t, 0, dip, 1e-9)
	few := Fewer(hull, 64)
	assert.LessOrEqual(t, len(few), 64)
	assert.Greater(t, len(few), 55)
	assert.InDelta(t, 57, ClosedLength(few), 0.02)
}
