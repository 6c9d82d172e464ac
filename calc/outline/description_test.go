package outline

import (
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// lacking names each field of a description that is missing or can't be right.
func lacking(d Description) []string {
	var fields []string
	need := func(field string, ok bool) {
		if !ok {
			fields = append(fields, field)
		}
	}
	points := d.SizeNumbers != nil && len(d.SizeNumbers) == 0
	need("Kind", d.Kind != "")
	need("Aliases", d.Aliases != nil && !slices.Contains(d.Aliases, ""))
	need("Summary", d.Summary != "")
	need("draw", d.draw != nil)
	need("SizeNumbers", d.SizeNumbers != nil && !slices.ContainsFunc(d.SizeNumbers, func(n int) bool { return n < 1 || n > 3 }))
	need("FromWidth", (d.FromWidth > 0) == slices.Contains(d.SizeNumbers, 1))
	need("LengthOverWidth", points || d.LengthOverWidth >= 0.8 && d.LengthOverWidth < 4)
	need("Regular", !d.Regular || d.FromWidth > 0)
	need("Cut", d.Cut.Least <= d.Cut.Default && d.Cut.Default <= d.Cut.Most && d.Cut.Most < 0.5)
	need("Assumes or SizeSaysAll", (d.Assumes == "") == d.SizeSaysAll)
	need("Sample", points || d.Sample.WidthMM > 0 && (d.Sample.LengthMM > 0 || d.FromWidth > 0) &&
		(d.Sample.ThirdMM > 0) == slices.Contains(d.SizeNumbers, 3))
	need("PublishedSizes or CommonSizes", d.PublishedSizes != nil || d.CommonSizes != nil)
	need("DepthShare", d.DepthShare >= 0.35 && d.DepthShare <= 0.75)
	need("PavilionShare", d.PavilionShare >= 0.5 && d.PavilionShare <= 0.9)
	need("DepthSource", d.DepthSource != "")
	p := d.Proportions
	for _, r := range []Range{p.Girdle, p.Table} {
		need("Proportions", 0 < r.Least && r.Least <= r.Typical && r.Typical <= r.Most && r.Most < 1)
	}
	need("Proportions.Source", p.Source != "")
	formulas := []Lengths{DiameterSquared, MeanDiameterSquared, LengthTimesWidth}
	need("Carat", d.Carat == CaratFormula{Lengths: NoFormula} ||
		slices.Contains(formulas, d.Carat.Lengths) && d.Carat.Factor > 0.001 && d.Carat.Factor < 0.004)
	places := []ProngPlaces{FromPoint, OnCorners, OnRoundedCorners, OnCornersAndArc, AllRound}
	need("Prongs.At", slices.Contains(places, d.Prongs.At))
	need("Prongs.Usual", d.Prongs.Usual >= 3 || d.Prongs.Usual == OnePer6MM)
	return fields
}

func TestOutlinesAreWhole(t *testing.T) {
	named := map[string]Kind{}
	for _, d := range descriptions {
		t.Run(string(d.Kind), func(t *testing.T) {
			require.Empty(t, lacking(*d), "fields that the literal lacks")
			for _, word := range append([]string{string(d.Kind)}, d.Aliases...) {
				assert.NotContains(t, named, word, "the word names two outlines")
				named[word] = d.Kind
			}
			if d.Kind == Measured {
				return
			}
			c, err := New(Shape{Kind: d.Kind, Size: d.Sample})
			require.NoError(t, err, "Sample is drawn")
			require.NotEmpty(t, c.Places, "draw gives the seam a place")
			for _, place := range c.Places {
				assert.NotEmpty(t, place.Summary, "summary of the place %q", place.Name)
			}
			_, point := c.PlaceNamed("point")
			assert.True(t, point || d.Prongs.At != FromPoint, "Prongs.At: there is a point")
			usual := Size{WidthMM: 6, LengthMM: 6 * d.LengthOverWidth}
			_, err = New(Shape{Kind: d.Kind, Size: usual})
			assert.NoError(t, err, "LengthOverWidth is drawn")
			if cut := d.Cut; cut.Most > 0 {
				whole, err := New(Shape{Kind: d.Kind, Size: d.Sample, CutShare: cut.Most})
				require.NoError(t, err, "Cut.Most is drawn")
				assert.Greater(t, len(whole.Pieces), 4, "Cut makes corners of its own")
				assert.NotEqual(t, c.AreaMM2(), whole.AreaMM2(), "Cut changes the stone")
				_, err = New(Shape{Kind: d.Kind, Size: d.Sample, CutShare: cut.Most + 0.01})
				assert.Error(t, err, "over Cut.Most")
			}
		})
	}
}

// Each field that is left out is named, so that lacking can fail.
func TestLackingNamesTheField(t *testing.T) {
	optional := []string{"LengthFirst", "Regular", "Cut", "PublishedSizes", "CupSizes", "SizeSaysAll"}
	whole := []*Description{&oval, &cushion, &hexagon, &taperedBaguette}
	left := map[string]bool{}
	for _, d := range whole {
		for i := range reflect.TypeFor[Description]().NumField() {
			field := reflect.TypeFor[Description]().Field(i).Name
			if field == "draw" {
				continue // reflection can't set it
			}
			part := *d
			reflect.ValueOf(&part).Elem().Field(i).SetZero()
			if len(lacking(part)) > 0 {
				left[field] = true
			}
		}
	}
	part := oval
	part.draw = nil
	assert.Equal(t, []string{"draw"}, lacking(part))
	for i := range reflect.TypeFor[Description]().NumField() {
		if field := reflect.TypeFor[Description]().Field(i).Name; field != "draw" && !slices.Contains(optional, field) {
			assert.True(t, left[field], "%s may be left out unseen", field)
		}
	}
}

func TestCalibratedSizesAreDrawn(t *testing.T) {
	listed := 0
	for _, k := range Kinds() {
		published, common := k.CalibratedSizes()
		for _, list := range [][]Size{published, common} {
			seen := map[Size]bool{}
			for _, s := range list {
				c, err := New(Shape{Kind: k, Size: s})
				require.NoError(t, err, "%s %v", k, s)
				got := c.Size()
				assert.InDelta(t, s.LengthMM, got.LengthMM, 1e-9, "%s %v: length", k, s)
				assert.InDelta(t, s.WidthMM, got.WidthMM, 1e-9, "%s %v: width", k, s)
				assert.False(t, seen[s], "%s %v stands twice", k, s)
				seen[s] = true
				listed++
			}
		}
	}
	assert.Greater(t, listed, 70)
}

// One number means one stone everywhere: what New draws of it is what Filled
// says and what a calibrated size of that number is.
func TestOneNumberIsOneStone(t *testing.T) {
	for _, k := range Kinds() {
		if !slices.Contains(k.Describe().SizeNumbers, 1) {
			continue
		}
		c, err := New(Shape{Kind: k, Size: Size{WidthMM: 6}})
		require.NoError(t, err)
		filled := k.Filled(Size{WidthMM: 6})
		assert.InDelta(t, filled.LengthMM, c.Size().LengthMM, 1e-9, k)
		if d := k.Describe(); slices.Contains(d.CommonSizes, Size{WidthMM: 6}) {
			_, common := k.CalibratedSizes()
			assert.Contains(t, common, filled, k)
		}
	}
	assert.InDelta(t, 6*(0.8660254+0.1), Trillion.Filled(Size{WidthMM: 6}).LengthMM, 1e-6, "an even trillion")
	assert.Equal(t, Size{LengthMM: 8, WidthMM: 6}, Oval.Filled(Size{LengthMM: 6, WidthMM: 8}), "the long way is the length")
	assert.Equal(t, Size{LengthMM: 6, WidthMM: 8}, Heart.Filled(Size{LengthMM: 6, WidthMM: 8}), "a heart may be wider than long")
}

// A literal that is not in descriptions is an outline that nobody can ask for.
func TestEveryDescriptionIsListed(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	literal := regexp.MustCompile(`(?m)^var (\w+) = Description\{\n\tKind: (\w+),`)
	found := 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, m := range literal.FindAllStringSubmatch(string(text), -1) {
			found++
			word := regexp.MustCompile(`\b` + m[2] + `\s+(?:Kind )?= "([\w-]+)"`).FindStringSubmatch(string(text))
			require.NotNil(t, word, "%s: the constant %s stands beside its literal", file, m[2])
			assert.Contains(t, Kinds(), Kind(word[1]), "%s: descriptions lacks &%s", file, m[1])
		}
	}
	assert.Equal(t, len(descriptions), found)
}
