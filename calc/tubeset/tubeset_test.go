package tubeset

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The rule both ways: half of the wall is covered, and half is left.
func TestTubeForAStone(t *testing.T) {
	for stone := 1.0; stone < 10; stone += 0.25 {
		tube := For(stone, UsualWallMM(stone))
		assert.InDelta(t, stone, (tube.OuterMM+tube.InnerMM())/2, 1e-12)
		assert.InDelta(t, 0.5, tube.Covered(stone), 1e-9)
		assert.InDelta(t, UsualWallMM(stone)/2, tube.WallLeftMM(stone), 1e-12)
		assert.NoError(t, tube.Serves(stone))
		assert.Less(t, SeatDepthMM(stone), LengthMM(stone, -1, 0.5))
	}
}

func TestTubesThatDoNotServe(t *testing.T) {
	for _, r := range []struct {
		tube  Tube
		stone float64
		says  string
	}{
		{Tube{5, 0.5}, 4, "falls through"}, {Tube{5, 0.5}, 5, "no wall"}, {Tube{5, 0.5}, 4.8, "0.10 mm of wall"},
		{Tube{5, 2.5}, 4, "no bore"}, {Tube{6, 1.5}, 3.3, "half is the rule"},
	} {
		assert.ErrorContains(t, r.tube.Serves(r.stone), r.says)
	}
}

// A strip of 10 pieces of 2.6 mm, filed by 0.2 and sawn by 0.3, is 31 mm.
func TestStock(t *testing.T) {
	assert.InDelta(t, 31, StockMM(10, 2.6, 0.2, 0.3), 1e-9)
}
