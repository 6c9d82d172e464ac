package tuning

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
	"guildhand/calc/setting"
)

// A second trial is cut by the first one's correction: the readings then go
// with the pair that was kept.
func TestCorrectedBlankComesOutRight(t *testing.T) {
	const k, kerf = 0.42, 0.15
	s := specOf(t, outline.Oval, 8, 6, 10)
	s.NeutralFactor, s.CornerFactor, s.KerfMM = k, k, kerf
	drawn, err := setting.Lay(s)
	require.NoError(t, err)
	// On that bench the piece has just the size that was asked for.
	trial, err := Read("oval", drawn, Measured{CalipersMM: 1e-3, RimMM: drawn.RimOutside, BaseMM: drawn.BaseOutside, HeightMM: drawn.HeightMM})
	require.NoError(t, err)
	res, err := Solve([]Trial{trial})
	if err != nil || math.Abs(res.NeutralFactor-k) > 0.001 || math.Abs(res.KerfMM-kerf) > 0.001 {
		t.Errorf("factor %.4f, kerf %.4f mm, %v", res.NeutralFactor, res.KerfMM, err)
	}
}
