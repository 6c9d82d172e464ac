package cutting

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPlan(t *testing.T) {
	for name, c := range map[string]struct {
		pieces []float64
		length float64
		bars   int
	}{
		"none":                       {nil, 300, 0},
		"one":                        {[]float64{59.7}, 300, 1},
		"exactly full":               {[]float64{100, 100, 100}, 300, 1},
		"five of 59.7 and one more":  {slices.Repeat([]float64{59.7}, 6), 300, 2},
		"long ones leave room":       {[]float64{100, 200, 150, 150}, 300, 2},
		"a piece as long as the bar": {[]float64{300, 1}, 300, 2},
	} {
		bars, err := Plan(c.pieces, c.length)
		require.NoError(t, err, name)
		assert.Len(t, bars, c.bars, name)
	}
}

func TestPlanRefusesWhatNoBarHolds(t *testing.T) {
	_, err := Plan([]float64{20, 301}, 300)
	var e *Error
	require.ErrorAs(t, err, &e)
	assert.Equal(t, Error{Piece: 1, PieceMM: 301, LengthMM: 300}, *e)
	for _, mm := range []float64{0, -1, math.NaN()} {
		_, err := Plan([]float64{mm}, 300)
		assert.Error(t, err)
	}
}

// Every piece is cut once, no bar is over its length, and no plan needs more
// than 11/9 of the fewest bars and one more; the fewest is found by trying every
// way.
func TestPlanAgainstTheFewest(t *testing.T) {
	rnd := rand.New(rand.NewPCG(18, 4))
	for range 300 {
		pieces := make([]float64, 1+rnd.IntN(8))
		for i := range pieces {
			pieces[i] = 1 + 99*rnd.Float64()
		}
		bars, err := Plan(pieces, 100)
		require.NoError(t, err)
		var cut []int
		for _, b := range bars {
			sum := 0.0
			for _, i := range b.Pieces {
				sum += pieces[i]
			}
			assert.InDelta(t, sum, b.UsedMM, 1e-9)
			assert.LessOrEqual(t, sum, 100+roundingMM)
			cut = append(cut, b.Pieces...)
		}
		slices.Sort(cut)
		for i, p := range cut {
			require.Equal(t, i, p)
		}
		require.Len(t, cut, len(pieces))
		best := fewest(pieces, nil, 100)
		assert.GreaterOrEqual(t, len(bars), best)
		assert.LessOrEqual(t, float64(len(bars)), 11.0/9*float64(best)+6.0/9+1e-9)
	}
}

// fewest tries every bar for every piece.
func fewest(pieces, left []float64, length float64) int {
	if len(pieces) == 0 {
		return len(left)
	}
	best := fewest(pieces[1:], append(slices.Clone(left), length-pieces[0]), length)
	for i, room := range left {
		if room >= pieces[0] {
			next := slices.Clone(left)
			next[i] -= pieces[0]
			best = min(best, fewest(pieces[1:], next, length))
		}
	}
	return best
}
