package casting

import (
	"math"
	"testing"

	"guildhand/calc/units"
)

func TestModelInAnotherMetalThereAndBack(t *testing.T) {
	gold := MetalG(4.1, 8.53, 15.6)
	near(t, "back to brass", MetalG(gold, 15.6, 8.53), 4.1, 1e-12)
	near(t, "same metal", MetalG(4.1, 8.53, 8.53), 4.1, 1e-12)
}

func TestShrinkageSteps(t *testing.T) {
	near(t, "none", Shrinkage{}.Factor(), 1, 0)
	// Going through the steps forwards gives the finished size.
	s := Shrinkage{Mould: 0.005, Wax: 0.02, Metal: 0.012, Finish: 0.01}
	size := 10 * s.Factor()
	for _, share := range []float64{0.005, 0.02, 0.012, 0.01} {
		size *= 1 - share
	}
	near(t, "finished", size, 10, 1e-12)
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
	if err != nil {
		t.Fatal(err)
	}
	tan := math.Tan(8.5 * math.Pi / 180)
	if got.Dips != 3 {
		t.Errorf("%d dips", got.Dips)
	}
	near(t, "wall", got.WallMM, 0.9, 1e-12)
	near(t, "punch at the rim", 2+2*got.RimFromTipMM*tan, 6, 1e-9)
	near(t, "punch at the base", 2+2*got.BaseFromTipMM*tan, got.BaseWidthMM, 1e-9)
	near(t, "height", got.RimFromTipMM-got.BaseFromTipMM, 5, 1e-12)
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
