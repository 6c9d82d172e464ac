package bezel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
	"guildhand/calc/tracing"
)

// A parallel of a smooth convex curve at the distance d is longer by 2 pi d (J. Steiner,
// "Über parallele Flächen" (1840); Santaló, Integral Geometry and Geometric Probability
// (1976), 1.1; from memory). It holds for stones by a paper strip from ovals to all but
// rectangles, as far inward as their corners are round.
func TestWallRoundAFreeformStone(t *testing.T) {
	for _, around := range []float64{60.5, 62, 64, 66, 68, 70, 70.85, 72} {
		line, _, err := tracing.FromStrip(22, 16, around)
		require.NoError(t, err)
		var points []outline.Point
		for _, p := range tracing.Fewer(tracing.Hull(line), outline.MaxPoints) {
			points = append(points, outline.Point{X: p[0], Y: p[1]})
		}
		stone, err := outline.New(outline.Shape{Kind: outline.Measured, Points: points})
		require.NoError(t, err)
		assert.True(t, stone.Convex() && stone.Smooth(), "%g mm", around)
		assert.InDelta(t, around, stone.PerimeterMM(), 0.2, "the strip itself")
		for _, d := range []float64{0.05, 0.45, 1.5, -0.1, -0.3} {
			wall, err := stone.Offset(d)
			require.NoError(t, err, "%g mm round, %g mm outside", around, d)
			assert.InDelta(t, stone.PerimeterMM()+2*math.Pi*d, wall.PerimeterMM(), 1e-6, "%g mm round, %g mm outside", around, d)
		}
	}
}
