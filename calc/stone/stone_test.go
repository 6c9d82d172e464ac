package stone

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
)

func TestDepthShares(t *testing.T) {
	for _, k := range append(outline.Kinds(), "unknown") {
		if s := TypicalDepthShare(k); s < 0.35 || s > 0.75 {
			t.Errorf("%s: depth is %.2f of the width", k, s)
		}
	}
}

func TestCaratThereAndBack(t *testing.T) {
	tried := 0
	for _, kind := range outline.Kinds() {
		if kind.Describe().Carat.Factor == 0 {
			continue
		}
		for _, carat := range []float64{0.05, 1, 12.5} {
			ratio := 1.4
			if kind == outline.Round || kind == outline.Square {
				ratio = 1
			}
			size, depth, err := SizeFromCarat(kind, carat, ratio, Gem{SpecificGravity: 4})
			require.NoError(t, err)
			back, err := CaratFromSize(kind, size, depth, Gem{SpecificGravity: 4})
			if err != nil || math.Abs(back-carat) > 1e-9 {
				t.Errorf("%s %g ct: back %g, %v", kind, carat, back, err)
			}
			tried++
		}
		if FormulaName(kind, Gem{}) == "" {
			t.Errorf("%s: the formula has no name", kind)
		}
	}
	if tried < 24 {
		t.Errorf("only %d tried", tried)
	}
	if _, _, err := SizeFromCarat(outline.Oval, 0, 1.4, Gem{SpecificGravity: 4}); err == nil {
		t.Error("0 ct has a size")
	}
	if _, _, err := SizeFromCarat(outline.Oval, math.NaN(), 1.4, Gem{SpecificGravity: 4}); err == nil {
		t.Error("NaN ct has a size")
	}
	if _, _, err := SizeFromCarat(outline.Kite, 1, 1.4, Gem{SpecificGravity: 4}); err == nil {
		t.Error("a kite has a formula")
	}
	if _, err := CaratFromSize(outline.Oval, outline.Size{LengthMM: 8}, 4, Gem{SpecificGravity: 4}); err == nil {
		t.Error("no width")
	}
}

func TestGemsAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, g := range Gems() {
		for _, word := range append([]string{g.Key}, g.Aliases...) {
			if seen[word] {
				t.Errorf("%q names two gems", word)
			}
			seen[word] = true
			if got, ok := GemByKey(word); !ok || got.Key != g.Key {
				t.Errorf("%q finds %q", word, got.Key)
			}
		}
		if g.LowSG > g.SpecificGravity || g.SpecificGravity > g.HighSG || g.HeatNote == "" || g.Heat == "" {
			t.Errorf("%+v", g)
		}
	}
	if _, ok := GemByKey("kryptonite"); ok {
		t.Error("found a gem that is not there")
	}
}
