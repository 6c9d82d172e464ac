package axonometric

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Whatever reaches into a stretch of paper is given, once, also where the
// stretch or a face is a point, or lies off the grid.
func TestSquaresGiveEveryFaceNear(t *testing.T) {
	const seed = 7
	rnd := rand.New(rand.NewPCG(seed, 2))
	stretch := func(most float64) (low, high Point) {
		low = Point{X: rnd.Float64()*12 - 1, Y: rnd.Float64()*12 - 1}
		return low, Point{X: low.X + rnd.Float64()*most, Y: low.Y + rnd.Float64()*most}
	}
	faces := make([]face, 300)
	for i := range faces {
		faces[i].low, faces[i].high = stretch([]float64{0, 0.3, 6}[i%3])
	}
	near := squaresOf(faces, Point{}, Point{X: 10, Y: 10})
	for range 300 {
		low, high := stretch(3)
		given := map[int]int{}
		near.each(low, high, func(i int) { given[i]++ })
		for i, f := range faces {
			apart := f.high.X < low.X || f.low.X > high.X || f.high.Y < low.Y || f.low.Y > high.Y
			require.LessOrEqual(t, given[i], 1, "seed %d: face %d is given once", seed, i)
			if !apart {
				require.Equal(t, 1, given[i], "seed %d: face %d between %v and %v", seed, i, low, high)
			}
		}
		require.Less(t, len(given), len(faces), "not simply every face")
	}
	flat := squaresOf(faces[:1], Point{}, Point{})
	flat.each(Point{}, Point{X: 1}, func(i int) { assert.Zero(t, i) })
}
