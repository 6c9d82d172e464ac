package casting

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/units"
)

func TestModelInAnotherMetalThereAndBack(t *testing.T) {
	gold := MetalG(4.1, 8.53, 15.6)
	assert.InDelta(t, 4.1, MetalG(gold, 15.6, 8.53), 1e-12, "back to brass")
	assert.InDelta(t, 4.1, MetalG(4.1, 8.53, 8.53), 1e-12, "same metal")
}

func TestShrinkageSteps(t *testing.T) {
	assert.InDelta(t, 1, Shrinkage{}.Factor(), 0, "none")
	// Going through the steps forwards gives the finished size.
	s := Shrinkage{Mould: 0.005, Wax: 0.02, Metal: 0.012, Finish: 0.01}
	size := 10 * s.Factor()
	for _, share := range []float64{0.005, 0.02, 0.012, 0.01} {
		size *= 1 - share
	}
	assert.InDelta(t, 10, size, 1e-12, "finished")
	if err := s.Check(); err != nil {
		t.Error(err)
	}
	for _, bad := range []Shrinkage{{Wax: -0.01}, {Metal: 0.2}, {Mould: math.NaN()}, {Finish: 1}} {
		if bad.Check() == nil {
			t.Errorf("%+v passes", bad)
		}
	}
}

func TestDipping(t *testing.T) {
	d := Dipped{WidthMM: 6, HeightMM: 5, WallMM: 0.9, DipMM: 0.3, Lean: 8.5 * units.Degree, TipMM: 2}
	got, err := d.Dipping()
	require.NoError(t, err)
	tan := math.Tan(8.5 * math.Pi / 180)
	if got.Dips != 3 {
		t.Errorf("%d dips", got.Dips)
	}
	assert.InDelta(t, 0.9, got.WallMM, 1e-12, "wall")
	assert.InDelta(t, 6, 2+2*got.RimFromTipMM*tan, 1e-9, "punch at the rim")
	assert.InDelta(t, got.BaseWidthMM, 2+2*got.BaseFromTipMM*tan, 1e-9, "punch at the base")
	assert.InDelta(t, 5, got.RimFromTipMM-got.BaseFromTipMM, 1e-12, "height")
	if got.OuterWidthMM <= 6+1.8 || got.DipDepthMM <= got.RimFromTipMM {
		t.Errorf("%+v", got)
	}
	for _, bad := range []Dipped{
		{}, {WidthMM: 6, HeightMM: 5, WallMM: 1, DipMM: 0.3}, {WidthMM: 6, HeightMM: 5, WallMM: 1, DipMM: 0.3, Lean: 8.5 * units.Degree, TipMM: 5.5},
		{WidthMM: 6, HeightMM: 5, WallMM: 1, DipMM: 0.3, Lean: 60 * units.Degree}, {WidthMM: math.NaN(), HeightMM: 5, WallMM: 1, DipMM: 0.3, Lean: 0.2},
	} {
		if got, err := bad.Dipping(); err == nil {
			t.Errorf("%+v gave %+v", bad, got)
		}
	}
}
