package seat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// M. Tolkowsky, Diamond Design (1919), as given by octonus.com (3dbook, 3_01_01):
// of the diameter, crown 16.2 %, pavilion 43.1 %, girdle 0.7 %, table 53 %,
// 34.5 degrees of crown and 40.75 of pavilion.
func TestTolkowsky(t *testing.T) {
	c := curve(t, outline.Round, 0, 100)
	s := NewStone(c, 60, Given{GirdleMM: 0.7, TableShare: 0.53, Crown: 34.5 * units.Degree, Pavilion: 40.75 * units.Degree})
	assert.InDelta(t, 16.2, s.CrownMM, 0.05)
	assert.InDelta(t, 43.1, s.PavilionMM, 0.05)
	assert.InDelta(t, 0, s.OffDepthMM, 0.1)
}

// A setter's figure: a 5 mm round has 0.8 mm from girdle to table (ganoksin
// orchid 9846).
func TestSettersCrown(t *testing.T) {
	s := NewStone(curve(t, outline.Round, 0, 5), 3.1, Given{})
	assert.InDelta(t, 0.8, s.CrownMM, 0.05)
}

// C. Lewton-Brain, "Tube Setting" (aboutstonesetting.com): seen from above the
// stone covers half the wall, so stone = outside - wall; a tube of 5.0 mm
// outside and 4.0 inside takes 4.5 mm. A straight wall with a ledge of half of it
// is that tube.
func TestTubeSetting(t *testing.T) {
	w := Wall{ThicknessMM: 0.5, LedgeMM: 0.25, RimMM: 0.5, HeightMM: 4}
	outside := 4.5 + 2*(w.FaceMM(0)+w.ThicknessMM)
	assert.InDelta(t, 5.0, outside, 1e-12)
	assert.InDelta(t, MostShare, w.Share(), 1e-12)
}

// Of the wall a bearing takes 40 % (GIA, quality assurance benchmark, round in
// platinum prongs), over 50 % is too much (professionaljeweler.com 0704pb1).
func TestUsualShareOfTheWall(t *testing.T) {
	for _, deg := range []float64{0, 8.5, 14, 30} {
		w := Wall{Lean: units.Angle(deg) * units.Degree, ThicknessMM: 0.81, ClearanceMM: 0.05, RimMM: 1, HeightMM: 5}
		w.LedgeMM = DefaultLedgeMM(w, 100)
		assert.InDelta(t, 0.40, w.Share(), 1e-12, "%v degrees", deg)
		assert.InDelta(t, 0.6*0.81/math.Cos(deg*math.Pi/180), w.LeftMM(0), 1e-12)
	}
}
