package stone

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
)

func TestDepthShares(t *testing.T) {
	for _, k := range append(outline.Kinds(), "unknown") {
		share := TypicalDepthShare(k)
		assert.True(t, share >= 0.35 && share <= 0.75, "%s: depth is %.2f of the width", k, share)
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

// lacking names each field of a gem that is missing or can't be right. Aliases
// and RoundFactor may be.
func lacking(g Gem) []string {
	var fields []string
	need := func(field string, ok bool) {
		if !ok {
			fields = append(fields, field)
		}
	}
	need("Key", g.Key != "")
	need("SpecificGravity", g.LowSG <= g.SpecificGravity && g.SpecificGravity <= g.HighSG)
	need("LowSG", g.LowSG > 1)
	need("HighSG", g.HighSG > 1 && g.HighSG < 8)
	need("Heat", slices.Contains([]Heat{Never, Risky, Bears}, g.Heat))
	need("HeatNote", g.HeatNote != "")
	return fields
}

func TestGemsAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, g := range Gems() {
		assert.Empty(t, lacking(g), "fields that the literal of %s lacks", g.Key)
		for _, word := range append([]string{g.Key}, g.Aliases...) {
			assert.NotContains(t, seen, word, "the word names two gems")
			seen[word] = true
			got, ok := GemByKey(word)
			assert.True(t, ok && got.Key == g.Key, "%q finds %q", word, got.Key)
		}
	}
	_, ok := GemByKey("kryptonite")
	assert.False(t, ok, "a gem that is not there")
}

// Each field that is left out is named, so that lacking can fail.
func TestLackingNamesTheField(t *testing.T) {
	for _, field := range []string{"Key", "SpecificGravity", "LowSG", "HighSG", "Heat", "HeatNote"} {
		part, _ := GemByKey("garnet")
		reflect.ValueOf(&part).Elem().FieldByName(field).SetZero()
		assert.Contains(t, lacking(part), field)
	}
}
