package setting

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/fit"
	"guildhand/calc/outline"
)

// What each cause does to the fit, by laying the collet out again: a blank of the
// same length in other metal.
func TestFitFollowsFromTheBlank(t *testing.T) {
	curve, err := outline.New(shapeOf(outline.Oval, 7, 1))
	require.NoError(t, err)
	s := specOf(curve, 1, 0.8, 12, Even)
	drawn, err := Lay(s)
	require.NoError(t, err)
	// opening is how far the wall moves out so that a blank of this metal is as
	// long as the drawn one.
	opening := func(change func(*Spec)) float64 {
		moved := s
		change(&moved)
		moved.LedgeMM = s.LedgeMM
		laid, err := Lay(moved)
		require.NoError(t, err)
		return (drawn.Flat.RimLengthMM - laid.Flat.RimLengthMM) / math.Pi
	}
	const d = 0.02
	assert.InDelta(t, drawn.Fit(fit.Doubts{Factor: d}).AcrossMM, -opening(func(s *Spec) { s.NeutralFactor += d }), 1e-6)
	thicker := opening(func(s *Spec) { s.ThicknessMM += d })
	// A thicker sheet's square-cut edge also stands higher by sin a of it.
	higher := 2 * d * math.Sin(float64(s.Lean)) * math.Tan(float64(s.Lean))
	assert.InDelta(t, drawn.Fit(fit.Doubts{ThicknessMM: d}).AcrossMM, -thicker-higher, 1e-6)
	wide := s
	wide.KerfMM = 0.1
	cut, err := Lay(wide)
	require.NoError(t, err)
	assert.InDelta(t, drawn.Fit(fit.Doubts{KerfMM: 0.1}).AcrossMM, (cut.Flat.RimLengthMM-drawn.Flat.RimLengthMM)/math.Pi, 1e-3)
	all := drawn.Fit(fit.Doubts{Factor: 0.08, KerfMM: 0.1, ThicknessMM: 0.02, CalipersMM: 0.05})
	assert.Equal(t, fit.NeutralLine, all.Largest)
	assert.Greater(t, all.AcrossMM, all.LargestMM)
}

func TestScoredFlatsHaveNoFactor(t *testing.T) {
	curve, err := outline.New(shapeOf(outline.Square, 7, 1))
	require.NoError(t, err)
	s := specOf(curve, 1, 0.8, 12, Even)
	bent, err := Lay(s)
	require.NoError(t, err)
	s.Corners = 1
	scored, err := Lay(s)
	require.NoError(t, err)
	assert.Zero(t, scored.Fit(fit.Doubts{Factor: 0.1}).AcrossMM)
	assert.Positive(t, bent.Fit(fit.Doubts{Factor: 0.1}).AcrossMM)
}
