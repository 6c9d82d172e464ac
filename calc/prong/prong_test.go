package prong

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/development"
	"guildhand/calc/outline"
	"guildhand/calc/setting"
	"guildhand/calc/units"
)

// stones are one of every outline.
func stones(t *testing.T) map[outline.Kind]outline.Curve {
	t.Helper()
	list := map[outline.Kind]outline.Curve{}
	for _, k := range outline.Kinds() {
		sample := k.Describe().Sample
		s := outline.Shape{Kind: k, Size: outline.Size{
			LengthMM: 1.3 * sample.LengthMM, WidthMM: 1.3 * sample.WidthMM, ThirdMM: 1.3 * sample.ThirdMM,
		}}
		if k == outline.Measured {
			for i := range 12 {
				a := 2 * math.Pi * float64(i) / 12
				s.Points = append(s.Points, outline.Point{X: 4 * math.Cos(a), Y: 5 * math.Sin(a)})
			}
		}
		c, err := outline.New(s)
		require.NoError(t, err)
		list[k] = c
	}
	return list
}

func collet(t *testing.T, stone outline.Curve, seam outline.Place, corners development.CornerWork) setting.Collet {
	t.Helper()
	c, err := setting.Lay(setting.Spec{
		Stone: stone, HeightMM: 6, RimMM: 1.4, ClearanceMM: 0.05, Lean: 8 * units.Degree, Taper: setting.Even,
		ThicknessMM: 0.8, NeutralFactor: 0.5, CornerFactor: 0.35, Corners: corners, Seam: seam,
	})
	require.NoError(t, err)
	return c
}

func TestEveryOutlineTakesItsUsualProngs(t *testing.T) {
	for kind, stone := range stones(t) {
		for _, corners := range []development.CornerWork{development.Bent, development.Scored} {
			n := Usual(stone)
			spots, err := Spots(stone, n)
			require.NoError(t, err, kind)
			seam := BestSeam(stone, spots)
			c := collet(t, stone, seam, corners)
			w := Work{WidthMM: UsualWidth(0.8, stone.Size()), GalleryMM: UsualGallery(c.SlantMM), DrillMM: 0.6}
			p, err := Lay(c, spots, w)
			require.NoError(t, err, kind)
			if len(p.Prongs) != n {
				t.Errorf("%s: %d prongs of %d", kind, len(p.Prongs), n)
			}
			check(t, kind, c, p)
		}
	}
}

// check measures the drawing: prongs are as wide as asked at the rim and at
// the windows' bottoms, the gallery is as high, drills lie in their windows.
func check(t *testing.T, kind outline.Kind, c setting.Collet, p *Plan) {
	t.Helper()
	b := blankOf(c.Flat, c.SlantMM)
	total := 0.0
	for i, w := range p.Windows {
		first, last := w.Edge[0], w.Edge[len(w.Edge)-1]
		total += b.length1(last) - b.length1(first)
		for _, q := range w.Edge[1 : len(w.Edge)-1] {
			if d := toBase(b, q); math.Abs(d-p.GalleryMM) > 0.08 { // beside a sharp corner the base ends short
				t.Errorf("%s: window %d ends %.3f mm above the base, not %.3f", kind, i, d, p.GalleryMM)
			}
		}
		for _, d := range w.Drills {
			if !inside(d, w.Edge) {
				t.Errorf("%s: drill at %.2f,%.2f is outside window %d", kind, d.X, d.Y, i)
			}
		}
		// A divided window has neighbours on one side only.
		if i == 0 || first.X < b.stations[0].rim.X+1e-6 {
			continue
		}
		left := p.Windows[i-1]
		rim := distance(left.Edge[len(left.Edge)-1], first)
		foot := distance(left.Edge[len(left.Edge)-2], w.Edge[1])
		if rim > 2*p.WidthMM || foot > 2*p.WidthMM {
			continue // these two are not neighbours
		}
		// Chords over the rim's curve and over a corner's strip are a little
		// shorter than the width along the metal.
		if math.Abs(rim-p.WidthMM) > 0.02 || math.Abs(foot-p.WidthMM) > 0.04 {
			t.Errorf("%s: prong between windows %d and %d is %.3f mm at the rim and %.3f at its foot, not %.3f", kind, i-1, i, rim, foot, p.WidthMM)
		}
	}
	assert.InDelta(t, b.lengthMM-float64(len(p.Prongs))*p.WidthMM, total, 0.05, "%s: windows take of the rim", kind)
}

// length1 is the length along the rim of any point of it.
func (b blank) length1(p development.Point) float64 {
	best, s := math.Inf(1), 0.0
	for k := range 20001 {
		x := b.lengthMM * float64(k) / 20000
		if d := distance(b.at(x, 0), p); d < best {
			best, s = d, x
		}
	}
	return s
}

func toBase(b blank, p development.Point) float64 {
	best := math.Inf(1)
	for k := range 4001 {
		best = math.Min(best, distance(p, b.at(b.lengthMM*float64(k)/4000, 1)))
	}
	return best
}

func inside(p development.Point, polygon []development.Point) bool {
	in := false
	for i, a := range polygon {
		c := polygon[(i+1)%len(polygon)]
		if (a.Y > p.Y) != (c.Y > p.Y) && p.X < (c.X-a.X)*(p.Y-a.Y)/(c.Y-a.Y)+a.X {
			in = !in
		}
	}
	return in
}

func TestPointsAndCornersAreCovered(t *testing.T) {
	all := stones(t)
	for _, c := range []struct {
		kind    outline.Kind
		n       int
		corners int
		where   string
	}{
		{outline.Pear, 3, 1, "point"}, {outline.Pear, 5, 1, "point"}, {outline.Marquise, 4, 2, "point"}, {outline.Marquise, 6, 2, "point"},
		{outline.Heart, 3, 1, "point"}, {outline.Heart, 5, 1, "point"}, {outline.Emerald, 4, 0, "cut"}, {outline.Emerald, 6, 0, "cut"},
		{outline.Square, 4, 4, "corner"}, {outline.Square, 8, 4, "corner"}, {outline.Trillion, 3, 3, "corner"}, {outline.Hexagon, 6, 6, "corner"},
		{outline.Hexagon, 3, 3, "corner"}, {outline.Cushion, 4, 0, "corner"}, {outline.HalfMoon, 3, 2, "corner"},
		{outline.TaperedBaguette, 4, 4, "corner"}, {outline.Kite, 4, 4, "corner"}, {outline.Round, 6, 0, ""}, {outline.Oval, 4, 0, ""},
	} {
		spots, err := Spots(all[c.kind], c.n)
		if err != nil || len(spots) != c.n {
			t.Errorf("%s, %d prongs: %d, %v", c.kind, c.n, len(spots), err)
			continue
		}
		corners, named := 0, false
		for _, s := range spots {
			if s.Corner {
				corners++
			}
			named = named || c.where == "" || contains(s.Where, c.where)
		}
		if corners != c.corners || !named {
			t.Errorf("%s, %d prongs: %d on corners, not %d (%+v)", c.kind, c.n, corners, c.corners, spots)
		}
	}
}

func contains(s, part string) bool {
	for i := 0; i+len(part) <= len(s); i++ {
		if s[i:i+len(part)] == part {
			return true
		}
	}
	return false
}

// An oval's four prongs are mirror images of each other.
func TestOvalProngsAreSymmetric(t *testing.T) {
	oval := stones(t)[outline.Oval]
	spots, err := Spots(oval, 4)
	require.NoError(t, err)
	for _, s := range spots {
		p, _ := oval.AtLength(s.AtMM)
		q, _ := oval.AtLength(spots[0].AtMM)
		if math.Abs(math.Abs(p.X)-math.Abs(q.X)) > 1e-6 || math.Abs(math.Abs(p.Y)-math.Abs(q.Y)) > 1e-6 {
			t.Errorf("prong at %.4f,%.4f is no mirror image of %.4f,%.4f", p.X, p.Y, q.X, q.Y)
		}
	}
}

func TestRefusals(t *testing.T) {
	all := stones(t)
	var e *Error
	for name, err := range map[string]error{
		"one prong":          second(Spots(all[outline.Round], 1)),
		"many prongs":        second(Spots(all[outline.Round], 99)),
		"odd on a marquise":  second(Spots(all[outline.Marquise], 5)),
		"three on a square":  second(Spots(all[outline.Square], 3)),
		"five on an emerald": second(Spots(all[outline.Emerald], 5)),
	} {
		if !errors.As(err, &e) || e.Number < 2 {
			t.Errorf("%s: %v", name, err)
			continue
		}
	}
	stone := all[outline.Round]
	c := collet(t, stone, stone.Places[0], development.Bent)
	if _, err := Lay(c, Even(stone, 16, 0), Work{WidthMM: 1.5, GalleryMM: 2, DrillMM: 0.6}); !errors.As(err, &e) {
		t.Errorf("prongs shoulder to shoulder: %v", err)
	}
	if _, err := Lay(c, Even(stone, 4, 0), Work{WidthMM: 1, GalleryMM: 5, DrillMM: 0.6}); !errors.As(err, &e) {
		t.Errorf("windows above the seat: %v", err)
	}
}

func second(_ []Spot, err error) error { return err }
