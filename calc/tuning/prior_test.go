package tuning

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
	"guildhand/calc/setting"
)

// Makers drawn from the stated spread measure trials with calipers good to 0.05
// mm. In the mean, the next rim is never farther off than an untuned one, from
// one trial on, and more trials are better. What is said of the next rim's error
// is what it is.
func TestTrialsNeverMakeTheNextRimWorse(t *testing.T) {
	rnd := rand.New(rand.NewPCG(seed, 9))
	for _, piece := range []struct {
		kind          outline.Kind
		length, width float64
		lean          float64
		corner        float64
	}{{outline.Oval, 8, 6, 8.5, 0.5}, {outline.Round, 6, 6, 20, 0.5}, {outline.Square, 6, 6, 8.5, 0.35}, {outline.Oval, 8, 6, 0, 0.5}} {
		drawn, err := setting.Lay(specOf(t, piece.kind, piece.length, piece.width, piece.lean))
		require.NoError(t, err)
		rim, base := drawn.RimOutside, drawn.BaseOutside
		trial, err := Read("piece", drawn, Measured{RimMM: rim, BaseMM: base, UsualFactor: 0.5, UsualCorner: piece.corner})
		require.NoError(t, err)
		usual := trial.Readings[0].usualFactor()
		const makers = 4000
		var untuned, said float64
		var tuned [3]float64
		for range makers {
			k, kerf := usual+FactorSpread*rnd.NormFloat64(), KerfSpreadMM*rnd.NormFloat64()
			off := func(factor, kerfMM float64) float64 {
				r := trial.Readings[0]
				return math.Abs(r.PerFactorMM*(factor-k) + r.PerKerf*(kerfMM-kerf))
			}
			untuned += off(usual, 0) / makers
			var trials []Trial
			for n := range tuned {
				one := Trial{Piece: trial.Piece}
				for _, r := range trial.Readings {
					r.FormedMM = r.DrawnMM - r.PerFactorMM*k - r.PerKerf*kerf + math.Pi*UsualCalipersMM*rnd.NormFloat64()
					one.Readings = append(one.Readings, r)
				}
				trials = append(trials, one)
				res, err := Solve(trials)
				require.NoError(t, err)
				tuned[n] += off(res.NeutralFactor, res.KerfMM) / makers
				if n == 0 {
					said += res.LengthErrMM(trial.Readings[0].PerFactorMM, trial.Readings[0].PerKerf) / makers
				}
			}
		}
		t.Logf("%s %g x %g, lean %g: untuned %.3f mm, after 1, 2, 3 trials %.3f %.3f %.3f mm", piece.kind, piece.length, piece.width, piece.lean, untuned, tuned[0], tuned[1], tuned[2])
		assert.Less(t, tuned[0], untuned, piece.kind)
		assert.Less(t, tuned[1], tuned[0], piece.kind)
		assert.Less(t, tuned[2], tuned[1], piece.kind)
		// The mean of a normal error's size is 0.798 of its standard deviation.
		assert.InDelta(t, 0.798*said, tuned[0], 0.05*tuned[0], "%s: what is said of the error", piece.kind)
	}
}

// One noisy trial of a bench at factor 0.42 and kerf 0.2, of which least squares
// alone made the rim worse: it moves a part of the way.
func TestOneNoisyTrialMovesAPartOfTheWay(t *testing.T) {
	r := Reading{Kind: Rim, DrawnMM: 25, PerFactorMM: 4, PerKerf: 1.5}
	r.FormedMM = r.DrawnMM - 4*0.42 - 1.5*0.2
	res, err := Solve([]Trial{{Readings: []Reading{r}}})
	require.NoError(t, err)
	predicted := 4*res.NeutralFactor + 1.5*res.KerfMM
	assert.Greater(t, predicted, min(4*0.5, 4*0.42+1.5*0.2))
	assert.Less(t, math.Abs(predicted-(4*0.42+1.5*0.2)), math.Abs(4*0.5-(4*0.42+1.5*0.2)))
	assert.Positive(t, res.FactorErr)
}

func TestAPieceMeasuredAgainIsOneTrial(t *testing.T) {
	a := Trial{Piece: "oval", Readings: []Reading{{Kind: Rim, DrawnMM: 25, FormedMM: 23}}}
	b := Trial{Piece: "oval", Readings: []Reading{{Kind: Rim, DrawnMM: 25, FormedMM: 23.1}}}
	mean, ok := a.MeanWith(b)
	require.True(t, ok)
	assert.InDelta(t, 23.05, mean.Readings[0].FormedMM, 1e-12)
	_, ok = a.MeanWith(Trial{Piece: "round", Readings: b.Readings})
	assert.False(t, ok, "another piece is another trial")
}

func TestATrialToldTwiceIsOne(t *testing.T) {
	a := Trial{Piece: "oval", Readings: []Reading{{Kind: Rim, DrawnMM: 25, FormedMM: 23}}}
	b := Trial{Piece: "oval", Readings: []Reading{{Kind: Rim, DrawnMM: 25, FormedMM: 23.1}}}
	assert.True(t, a.Same(a))
	assert.False(t, a.Same(b), "another measure is another trial")
}
