package forming

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// nosed is the plan of one round collar that is pressed flush in one hole.
func nosed(t *testing.T, meanRadiusMM, wallMM, heightMM float64, lean units.Angle) (*Wall, *Plan) {
	t.Helper()
	stone, err := outline.New(outline.Shape{Kind: outline.Round, Size: outline.Size{WidthMM: 2 * (meanRadiusMM - 1)}})
	require.NoError(t, err)
	w, err := NewWall(Collar{Outline: stone, RimOffsetMM: 1 - wallMM/lean.Cos()/2, Lean: lean, HeightMM: heightMM, WallMM: wallMM})
	require.NoError(t, err)
	require.InDelta(t, 2*math.Pi*meanRadiusMM, w.Rim.PerimeterMM, 1e-9)
	rim, err := w.OuterRim()
	require.NoError(t, err)
	sterling, ok := stock.AlloyByKey("sterling")
	require.True(t, ok)
	sterling.StrainLimit = 1 // in one pressing, as the finite elements are
	p, err := NewPlan(w, Die{Holes: EvenHoles(rim, 0.5, 1), ThicknessMM: 2 * heightMM}, sterling)
	require.NoError(t, err)
	return w, p
}

// CalculiX 2.20, decks testdata/nosing/nosing-gentle-3.inp and
// nosing-steep-3.inp (README.md there: how to run them again, the two closed
// forms that they reproduce, and how they converge): a round collar of sterling,
// elastic-plastic, pressed flush in a rigid hole with friction 0.1. Wall at the
// foot and height are met within 10 %, the load within a factor of two.
func TestPlanAgainstFiniteElements(t *testing.T) {
	for _, c := range []struct {
		name                         string
		mean, wall, height, lean     float64 // of the finished collar
		strip, opening               float64 // as they stand in the deck
		footWall, finished, loadN    float64 // as CalculiX has them
		coarse, fine, coarseN, fineN float64 // foot wall and load of 2 and 4 elements
	}{
		{"gentle", 4.6, 0.8, 6.35, 8.5, 6.0583, 5.0044, 0.8809, 6.3351, 2647, 0.8812, 0.8808, 2649, 2648},
		{"steep", 3.5, 0.6, 4.2, 15, 3.9544, 3.8106, 0.7028, 4.1534, 2589, 0.7032, 0.7027, 2594, 2593},
	} {
		w, p := nosed(t, c.mean, c.wall, c.height, units.Angle(c.lean)*units.Degree)
		require.InDelta(t, c.strip, w.StripHeightMM, 1e-4, "%s: the deck has another strip", c.name)
		require.InDelta(t, c.opening, p.Last.Size.WidthMM/2, 1e-4, "%s: the deck has another hole", c.name)
		require.InDelta(t, 1, c.coarse/c.fine, 0.005, "%s: the mesh decides the wall", c.name)
		require.InDelta(t, 1, c.coarseN/c.fineN, 0.005, "%s: the mesh decides the load", c.name)
		foot := p.Passes[len(p.Passes)-1].FootWallMM
		assert.InDelta(t, 1, foot/c.footWall, 0.10, "%s: wall at the foot %.3f mm, CalculiX %.3f", c.name, foot, c.footWall)
		assert.InDelta(t, 1, p.HeightMM/c.finished, 0.10, "%s: height %.3f mm, CalculiX %.3f", c.name, p.HeightMM, c.finished)
		assert.InDelta(t, 0, math.Log2(p.MaxLoadN/c.loadN), 1, "%s: load %.0f N, CalculiX %.0f", c.name, p.MaxLoadN, c.loadN)
		t.Logf("%s: wall %.3f mm (CalculiX %.3f, %+.1f %%), height %.3f (%.3f, %+.1f %%), load %.0f N (%.0f, x %.2f)", c.name,
			foot, c.footWall, 100*(foot/c.footWall-1), p.HeightMM, c.finished, 100*(p.HeightMM/c.finished-1), p.MaxLoadN, c.loadN, p.MaxLoadN/c.loadN)
	}
}
