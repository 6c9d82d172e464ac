package tuning

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"guildhand/calc/development"
	"guildhand/calc/outline"
	"guildhand/calc/setting"
	"guildhand/calc/units"
)

const seed = 20261125

func specOf(t *testing.T, kind outline.Kind, length, width, lean float64) setting.Spec {
	t.Helper()
	o, err := outline.New(outline.Shape{Kind: kind, Size: outline.Size{LengthMM: length, WidthMM: width}})
	require.NoError(t, err)
	return setting.Spec{
		Stone: o, HeightMM: 5, RimMM: 1, ClearanceMM: 0.05, Lean: units.Angle(lean) * units.Degree, Taper: setting.Even,
		ThicknessMM: 0.64, NeutralFactor: 0.5, CornerFactor: 0.5, Corners: development.Bent,
	}
}

// formed is what a bench of neutral factor k and a kerf makes of a blank laid
// out for spec: the section whose own blank, laid out with the bench's factor
// and lying half a kerf inside on every edge, has the length that was cut. It
// looks for the section by laying out collets of other clearances, and so
// does not use the linear equations that it is to test.
func formed(t *testing.T, drawn setting.Collet, k, kerf float64) Measured {
	t.Helper()
	find := func(edge func(setting.Collet) float64, want float64) setting.Collet {
		lo, hi := -0.6, 0.6
		var c setting.Collet
		for range 50 {
			mid := (lo + hi) / 2
			s := drawn.Spec
			s.NeutralFactor, s.CornerFactor, s.KerfMM = k, k, 0
			s.WiderMM += mid
			var err error
			if c, err = setting.Lay(s); err != nil {
				t.Fatal(err)
			}
			if edge(c) > want {
				hi = mid
			} else {
				lo = mid
			}
		}
		return c
	}
	// Half a kerf down from the rim, half a kerf up from the base.
	share := kerf / 2 / drawn.SlantMM
	rim := drawn.Flat.RimLengthMM + share*(drawn.Flat.BaseLengthMM-drawn.Flat.RimLengthMM) - kerf
	base := drawn.Flat.BaseLengthMM + share*(drawn.Flat.RimLengthMM-drawn.Flat.BaseLengthMM) - kerf
	r := find(func(c setting.Collet) float64 { return c.Flat.RimLengthMM }, rim)
	b := find(func(c setting.Collet) float64 { return c.Flat.BaseLengthMM }, base)
	return Measured{CalipersMM: 1e-3, RimMM: r.RimOutside, BaseMM: b.BaseOutside, HeightMM: drawn.HeightMM - kerf*drawn.Lean.Cos()}
}

func TestRecoversFactorAndKerf(t *testing.T) {
	kinds := []struct {
		kind          outline.Kind
		length, width float64
	}{{outline.Round, 6, 6}, {outline.Oval, 8, 6}, {outline.Emerald, 8, 6}, {outline.Pear, 9, 6}, {outline.Cushion, 7, 7}, {outline.Heart, 8, 8}, {outline.Square, 6, 6}}
	for _, c := range kinds {
		for _, bench := range []struct{ k, kerf float64 }{{0.42, 0.15}, {0.5, 0.05}, {0.36, 0.30}} {
			drawn, err := setting.Lay(specOf(t, c.kind, c.length, c.width, 10))
			require.NoError(t, err)
			m := formed(t, drawn, bench.k, bench.kerf)
			m.HeightMM = 0 // rim and base alone
			trial, err := Read("trial", drawn, m)
			require.NoError(t, err)
			res, err := Solve([]Trial{trial})
			require.NoError(t, err)
			if math.Abs(res.NeutralFactor/bench.k-1) > 0.01 || math.Abs(res.KerfMM/bench.kerf-1) > 0.01 {
				t.Errorf("%s: factor %.4f and kerf %.4f mm, the bench had %.4f and %.4f", c.kind, res.NeutralFactor, res.KerfMM, bench.k, bench.kerf)
			}
			if res.Contradiction != "" {
				t.Errorf("%s: %s", c.kind, res.Contradiction)
			}
		}
	}
}

// Readings rounded to 0.01 mm, as calipers show them, over a dozen trials.
func TestRecoversFromCaliperReadings(t *testing.T) {
	r := rand.New(rand.NewPCG(seed, 1))
	const k, kerf = 0.42, 0.2
	round := func(mm float64) float64 { return math.Round(mm*100) / 100 }
	var trials []Trial
	for range 12 {
		width := 5 + 4*r.Float64()
		drawn, err := setting.Lay(specOf(t, outline.Oval, width*1.3, width, 8+8*r.Float64()))
		require.NoError(t, err)
		m := formed(t, drawn, k, kerf)
		for _, s := range []*outline.Size{&m.RimMM, &m.BaseMM} {
			s.LengthMM, s.WidthMM = round(s.LengthMM), round(s.WidthMM)
		}
		m.HeightMM = round(m.HeightMM)
		m.CalipersMM = 0.005
		trial, err := Read("oval", drawn, m)
		require.NoError(t, err)
		trials = append(trials, trial)
	}
	res, err := Solve(trials)
	require.NoError(t, err)
	if math.Abs(res.NeutralFactor/k-1) > 0.01 || math.Abs(res.KerfMM-kerf) > 0.01 {
		t.Errorf("seed %d: factor %.4f ± %.4f, kerf %.4f ± %.4f mm; the bench had %.2f and %.2f", seed, res.NeutralFactor, res.FactorErr, res.KerfMM, res.KerfErrMM, k, kerf)
	}
	if res.Contradiction != "" {
		t.Errorf("seed %d: %s", seed, res.Contradiction)
	}
}

// A round cone has a closed form that does not go through setting: the neutral
// line lies k t cos a outside the inner edge of the blank's cut end, and filing
// the rim level takes t sin a off it, over which the inside narrows by tan a.
func TestRoundByHand(t *testing.T) {
	drawn, err := setting.Lay(specOf(t, outline.Round, 6, 6, 10))
	require.NoError(t, err)
	const k, kerf = 0.4, 0.1
	a := drawn.Lean
	inside := func(edge, filedMM float64) outline.Size {
		d := edge/math.Pi - 2*(k*0.64*a.Cos()+filedMM*a.Tan())
		return outline.Size{LengthMM: d, WidthMM: d}
	}
	slope := 2 * math.Pi * a.Sin() * kerf / 2
	m := Measured{CalipersMM: 1e-3, Inner: true, RimMM: inside(drawn.Flat.RimLengthMM-kerf-slope, 0.64*a.Sin()), BaseMM: inside(drawn.Flat.BaseLengthMM-kerf+slope, 0)}
	trial, err := Read("round", drawn, m)
	require.NoError(t, err)
	res, err := Solve([]Trial{trial})
	if err != nil || math.Abs(res.NeutralFactor-k) > 1e-4 || math.Abs(res.KerfMM-kerf) > 1e-3 {
		t.Errorf("factor %.6f, kerf %.6f mm, %v", res.NeutralFactor, res.KerfMM, err)
	}
}

func TestContradictions(t *testing.T) {
	drawn, err := setting.Lay(specOf(t, outline.Oval, 8, 6, 10))
	require.NoError(t, err)
	good := formed(t, drawn, 0.42, 0.1)
	read := func(change func(*Measured)) Trial {
		m := good
		change(&m)
		trial, err := Read("oval", drawn, m)
		require.NoError(t, err)
		return trial
	}
	same := func(*Measured) {}
	larger := func(m *Measured) { m.RimMM.LengthMM += 0.4; m.RimMM.WidthMM += 0.4 }
	res, err := Solve([]Trial{read(same), read(same), read(same), read(larger)})
	if err != nil || !strings.Contains(res.Contradiction, "rim of the oval") {
		t.Errorf("a rim 0.4 mm too large: %q, %v", res.Contradiction, err)
	}
	res, err = Solve([]Trial{read(func(m *Measured) { m.HeightMM = 0; larger(m) })})
	if err != nil || res.Contradiction == "" {
		t.Errorf("a lone rim and base that no saw explains: %+v, %v", res, err)
	}
	if res, _ := Solve([]Trial{read(same), read(same)}); res.Contradiction != "" {
		t.Errorf("good readings: %s", res.Contradiction)
	}
	var bad *ReadingError
	for name, m := range map[string]Measured{
		"out of true":       {RimMM: outline.Size{LengthMM: good.RimMM.LengthMM + 0.3, WidthMM: good.RimMM.WidthMM - 0.3}},
		"another piece":     {RimMM: outline.Size{LengthMM: 20, WidthMM: 15}},
		"another height":    {HeightMM: 9},
		"width left out":    {RimMM: outline.Size{LengthMM: good.RimMM.LengthMM}},
		"base as large rim": {BaseMM: outline.Size{LengthMM: 13, WidthMM: 11}},
	} {
		if _, err := Read("oval", drawn, m); !errors.As(err, &bad) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Read("oval", drawn, Measured{}); !errors.Is(err, ErrNoReadings) {
		t.Errorf("nothing measured: %v", err)
	}
}

// A straight wall can't tell the neutral factor from the kerf: both move from the
// usual, and together they say what was measured.
func TestStraightWallKnowsOnlyTheSum(t *testing.T) {
	drawn, err := setting.Lay(specOf(t, outline.Oval, 8, 6, 0))
	require.NoError(t, err)
	m := formed(t, drawn, 0.42, 0)
	m.HeightMM = 0
	trial, err := Read("oval", drawn, m)
	require.NoError(t, err)
	res, err := Solve([]Trial{trial})
	r := trial.Readings[0]
	if err != nil || !res.KerfAssumed || math.Abs(r.PerFactorMM*(res.NeutralFactor-0.42)+r.PerKerf*res.KerfMM) > 1e-3 {
		t.Errorf("%+v, %v", res, err)
	}
	if _, err := Solve(nil); !errors.Is(err, ErrNoReadings) {
		t.Errorf("no trials: %v", err)
	}
}
