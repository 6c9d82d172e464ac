package stock

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// lacking names each field of an alloy that is missing or can't be right.
func lacking(a Alloy) []string {
	var fields []string
	need := func(field string, ok bool) {
		if !ok {
			fields = append(fields, field)
		}
	}
	need("Key", a.Key != "" && a.Key == strings.ToLower(a.Key) && !strings.ContainsAny(a.Key, " _"))
	need("Name", a.Name != "")
	need("Aliases", len(a.Aliases) > 0 && !slices.Contains(a.Aliases, ""))
	need("Composition", a.Composition != "")
	need("Family", slices.Contains(Families(), a.Family))
	need("Treatment", a.Treatment != "")
	need("DensityGPerCM3", a.DensityGPerCM3 >= 2 && a.DensityGPerCM3 <= 22)
	need("SolidusC", a.SolidusC > 100 && a.SolidusC <= a.LiquidusC)
	need("SolidusHighC", a.SolidusHighC >= a.SolidusC && a.SolidusHighC <= a.LiquidusC)
	need("LiquidusC", a.LiquidusC > 100)
	if a.Treatment != AsPewter { // not annealed
		need("AnnealLowC", a.AnnealLowC > 0 && a.AnnealLowC < a.AnnealHighC)
		need("AnnealHighC", a.AnnealHighC > 0 && a.AnnealHighC <= a.SolidusC-100)
	}
	need("StrainLimit", a.StrainLimit >= 0.2 && a.StrainLimit <= 0.85)
	need("FlowMPa", a.FlowMPa >= 50 && a.FlowMPa <= 1500)
	need("HardeningExponent", a.HardeningExponent >= 0.1 && a.HardeningExponent <= 0.6)
	for _, figure := range []string{"density", "melting", "anneal"} {
		need("Source of "+figure, strings.Contains(strings.NewReplacer("no softening", "annealing").Replace(a.Source), figure))
	}
	need("FormingSource", strings.Contains(a.FormingSource, "strain limit") && strings.Contains(a.FormingSource, "K "))
	return fields
}

func TestAlloysAreWhole(t *testing.T) {
	seen := map[string]string{}
	for _, a := range Alloys() {
		assert.Empty(t, lacking(a), "fields that the literal of %s lacks", a.Key)
		for _, word := range append([]string{a.Key}, a.Aliases...) {
			assert.NotContains(t, seen, word, "the word names two alloys")
			seen[word] = a.Key
			got, ok := AlloyByKey(strings.ToUpper(word))
			assert.True(t, ok && got.Key == a.Key, "AlloyByKey(%q) is %q", word, got.Key)
		}
	}
	assert.Greater(t, len(seen), 60)
	_, ok := AlloyByKey("unobtainium")
	assert.False(t, ok, "an alloy that is not there")
}

// Each field that is left out is named, so that lacking can fail.
func TestLackingNamesTheField(t *testing.T) {
	for i := range reflect.TypeFor[Alloy]().NumField() {
		part, _ := AlloyByKey("sterling")
		reflect.ValueOf(&part).Elem().Field(i).SetZero()
		field := reflect.TypeFor[Alloy]().Field(i).Name
		assert.Contains(t, strings.Join(lacking(part), ", "), field)
	}
}

func TestAlloysIsACopy(t *testing.T) {
	Alloys()[0].Key = "spoilt"
	if Alloys()[0].Key == "spoilt" {
		t.Error("a caller can change the table")
	}
}

func TestNearestGauge(t *testing.T) {
	for _, row := range []struct {
		mm   float64
		want int
	}{
		{0.64, 22}, {0.5, 24}, {0.8, 20}, {1.0, 18}, {1.3, 16}, {0.6, 23}, {100, -3}, {0, 40}, {-1, 40}, {math.NaN(), 40}, {math.Inf(1), -3},
	} {
		if n, mm := NearestGauge(row.mm); n != row.want || mm != GaugeMM(n) {
			t.Errorf("NearestGauge(%g) = %d, %g; want %d", row.mm, n, mm, row.want)
		}
	}
	for n := ThickestGauge; n <= ThinnestGauge; n++ {
		if got, _ := NearestGauge(GaugeMM(n)); got != n {
			t.Errorf("gauge %d comes back as %d", n, got)
		}
	}
	if got := GaugeName(-3) + " " + GaugeName(-2) + " " + GaugeName(-1) + " " + GaugeName(0) + " " + GaugeName(22); got != "0000 000 00 0 22" {
		t.Errorf("gauge names %q", got)
	}
}

func TestDemoWorkshop(t *testing.T) {
	shop := DemoWorkshop()
	if !shop.Demo || len(shop.Blocks) < 8 || len(shop.Punches) < 8 || len(shop.Tubes) < 8 || len(shop.Presses) != 2 || len(shop.Sheets) == 0 {
		t.Fatalf("demo workshop is not whole: %+v", shop)
	}
	for _, b := range shop.Blocks {
		for i, h := range b.Holes {
			if i > 0 && h.WidthMM >= b.Holes[i-1].WidthMM {
				t.Errorf("%s: hole %d is not smaller than the one before", b.Name, i)
			}
			curve, err := outline.New(outline.Shape{Kind: b.Kind, Size: h})
			if err != nil {
				t.Errorf("%s: hole %g x %g mm: %v", b.Name, h.LengthMM, h.WidthMM, err)
				continue
			}
			if left := curve.InradiusMM() - b.ThicknessMM*b.Lean.Tan(); left < 0.2 {
				t.Errorf("%s: the %.1f mm hole closes inside the block (%.2f mm left)", b.Name, h.WidthMM, left)
			}
		}
	}
	for _, p := range shop.Punches {
		for _, size := range []outline.Size{p.Small, p.Large} {
			if _, err := outline.New(outline.Shape{Kind: p.Kind, Size: size}); err != nil {
				t.Errorf("%s: section %g x %g mm: %v", p.Name, size.LengthMM, size.WidthMM, err)
			}
		}
	}
	for _, p := range shop.Presses {
		// A press of this kind shows about 700 bar (10,000 psi) at its rated load.
		if bar := p.CapacityN / p.RamAreaMM2 * units.BarPerMPa; bar < 600 || bar > 800 {
			t.Errorf("%s: %.0f bar at its rated load", p.Name, bar)
		}
	}
	for _, tube := range shop.Tubes {
		if _, ok := AlloyByKey(tube.Alloy); !ok || tube.WallMM*2 >= tube.OuterMM {
			t.Errorf("tube %+v", tube)
		}
	}
	if p, ok := shop.PriceOf("sterling"); !ok || p.PerGram <= 0 || p.Date == "" {
		t.Errorf("price of sterling: %+v, %v", p, ok)
	}
	if _, ok := shop.PriceOf("18k-yellow"); ok {
		t.Error("the demo has a price for gold")
	}
	if p, ok := (&Workshop{Prices: []Price{{Alloy: "ag925", PerGram: 2}}}).PriceOf("sterling"); !ok || p.PerGram != 2 {
		t.Error("a price under an alias is not found")
	}
}

func TestSolderSequence(t *testing.T) {
	for n, want := range map[int]string{
		-1: "", 0: "", 1: "hard", 2: "hard medium", 3: "hard medium easy", 5: "hard hard hard medium easy",
	} {
		var got []string
		for _, s := range SolderSequence(n) {
			got = append(got, s.Key)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%d joints: %v, want %s", n, got, want)
		}
	}
	for _, s := range Solders() {
		if s.SolidusC > s.FlowC || s.Source == "" {
			t.Errorf("solder %+v", s)
		}
	}
}

func TestVolumes(t *testing.T) {
	const close = 1e-9
	for _, row := range []struct {
		name      string
		got, want float64
	}{
		{"sheet", SheetMM3(10, 20, 0.5), 100},
		{"disc of the same area as a square", DiscMM3(math.Sqrt(4/math.Pi)*10, 2), 200},
		{"half round is half a rod", HalfRoundMM3(4, 2, 10), DiscMM3(4, 10) / 2},
		{"tube is rod less bore", TubeMM3(6, 1, 10), DiscMM3(6, 10) - DiscMM3(4, 10)},
		{"tube without a bore is rod", TubeMM3(6, 3, 10), DiscMM3(6, 10)},
		{"a cubic centimetre", MassG(1000, 10.36), 10.36},
	} {
		assert.InDelta(t, row.want, row.got, close, "%s: %.12g, want %.12g", row.name, row.got, row.want)
	}
}
