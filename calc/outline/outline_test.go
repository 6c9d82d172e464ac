package outline

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typical has a stone of every kind, and some awkward ones.
func typical() map[string]Shape {
	var ring []Point
	for i := range 12 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 12)
		ring = append(ring, Point{3.1 * c, 4.2*s + 0.3*c})
	}
	shapes := map[string]Shape{
		"round":                 {Kind: Round, Size: Size{WidthMM: 6}},
		"oval":                  {Kind: Oval, Size: Size{LengthMM: 8, WidthMM: 6}},
		"slender oval":          {Kind: Oval, Size: Size{LengthMM: 12, WidthMM: 4}},
		"pear":                  {Kind: Pear, Size: Size{LengthMM: 9, WidthMM: 6}},
		"marquise":              {Kind: Marquise, Size: Size{LengthMM: 10, WidthMM: 5}},
		"emerald":               {Kind: Emerald, Size: Size{LengthMM: 8, WidthMM: 6}},
		"square":                {Kind: Square, Size: Size{WidthMM: 5}},
		"baguette":              {Kind: Baguette, Size: Size{LengthMM: 6, WidthMM: 3}},
		"tapered-baguette":      {Kind: TaperedBaguette, Size: Size{LengthMM: 6, WidthMM: 4, ThirdMM: 3}},
		"cushion":               {Kind: Cushion, Size: Size{LengthMM: 8, WidthMM: 7}},
		"trillion":              {Kind: Trillion, Size: Size{WidthMM: 7}},
		"cut trillion":          {Kind: Trillion, Size: Size{WidthMM: 7}, CutShare: 0.1},
		"heart":                 {Kind: Heart, Size: Size{LengthMM: 7, WidthMM: 7}},
		"hexagon":               {Kind: Hexagon, Size: Size{WidthMM: 6}},
		"octagon":               {Kind: Octagon, Size: Size{LengthMM: 8, WidthMM: 8}},
		"half-moon":             {Kind: HalfMoon, Size: Size{LengthMM: 8, WidthMM: 4}},
		"shallow half-moon":     {Kind: HalfMoon, Size: Size{LengthMM: 8, WidthMM: 2.5}},
		"kite":                  {Kind: Kite, Size: Size{LengthMM: 9, WidthMM: 6}},
		"lozenge":               {Kind: Lozenge, Size: Size{LengthMM: 9, WidthMM: 5}},
		"measured":              {Kind: Measured, Points: ring},
		"measured as a polygon": {Kind: Measured, Points: ring, Polygon: true},
	}
	// An outline that has no shape here is tried by its sample.
	for _, d := range descriptions {
		if _, ok := shapes[string(d.Kind)]; !ok {
			shapes[string(d.Kind)] = Shape{Kind: d.Kind, Size: d.Sample}
		}
	}
	return shapes
}

func mustNew(t testing.TB, s Shape) Curve {
	t.Helper()
	c, err := New(s)
	require.NoError(t, err)
	return c
}

// checkClosed checks the promises of Curve: pieces join, run forwards, turn
// once round in all.
func checkClosed(t *testing.T, c Curve) {
	t.Helper()
	turn := 0.0
	for i, p := range c.Pieces {
		q := c.Pieces[(i+1)%len(c.Pieces)]
		if p.B.sub(q.A).norm() > 1e-9 {
			t.Errorf("piece %d ends at %v, the next starts at %v", i, p.B, q.A)
		}
		if p.To < p.From-1e-12 {
			t.Errorf("piece %d runs backwards: %v to %v", i, p.From, p.To)
		}
		if p.Kind != Straight {
			if d := p.At(p.From).sub(p.A).norm(); d > 1e-9 {
				t.Errorf("piece %d: start is off its curve by %g", i, d)
			}
			if d := p.At(p.To).sub(p.B).norm(); d > 1e-9 {
				t.Errorf("piece %d: end is off its curve by %g", i, d)
			}
		}
		turn += p.To - p.From + c.Turning(i).Radians()
	}
	assert.InDelta(t, 2*math.Pi, turn, 1e-9, "turns by %v, want one full turn", turn)
}

func polylineLength(pts []Point) float64 {
	sum := 0.0
	for i, p := range pts {
		sum += pts[(i+1)%len(pts)].sub(p).norm()
	}
	return sum
}

func polylineArea(pts []Point) float64 {
	sum := 0.0
	for i, p := range pts {
		sum += p.cross(pts[(i+1)%len(pts)]) / 2
	}
	return sum
}

func TestEveryOutlineIsClosedAndMeasured(t *testing.T) {
	seen := map[Kind]bool{}
	for name, s := range typical() {
		t.Run(name, func(t *testing.T) {
			c := mustNew(t, s)
			seen[c.Kind] = true
			checkClosed(t, c)
			fine := c.Polyline(1e-7)
			assert.InDelta(t, polylineLength(fine), c.PerimeterMM(), 2e-6*polylineLength(fine), "perimeter")
			assert.InDelta(t, polylineArea(fine), c.AreaMM2(), 2e-6*polylineArea(fine), "area")
			if s.Kind != Measured {
				size := c.Size()
				assert.InDelta(t, s.Size.WidthMM, size.WidthMM, 1e-9, "width %v, want %v", size.WidthMM, s.Size.WidthMM)
				if s.Size.LengthMM > 0 && math.Abs(size.LengthMM-s.Size.LengthMM) > 1e-9 {
					t.Errorf("length %v, want %v", size.LengthMM, s.Size.LengthMM)
				}
			}
			if len(c.Places) == 0 {
				t.Error("no place for a seam")
			}
			for _, place := range c.Places {
				if _, ok := c.LengthTo(place); !ok {
					t.Errorf("place %q is not on the outline", place.Name)
				}
			}
		})
	}
	for _, k := range Kinds() {
		if !seen[k] {
			t.Errorf("no test of outline %q", k)
		}
	}
}

func distanceTo(p Point, line []Point) float64 {
	best := math.Inf(1)
	for i, a := range line {
		b := line[(i+1)%len(line)]
		u := b.sub(a)
		s := math.Max(0, math.Min(1, p.sub(a).dot(u)/u.dot(u)))
		best = math.Min(best, p.sub(a.add(u.times(s))).norm())
	}
	return best
}

// An inward section lies everywhere at its distance from the outline, and an
// outward one at it or, on mitres, beyond; each is checked point by point
// against chords of the outline.
func TestOffsetKeepsItsDistance(t *testing.T) {
	for name, s := range typical() {
		c := mustNew(t, s)
		base := c.Polyline(1e-5)
		in := c.InradiusMM()
		for _, d := range []float64{-0.98 * in, -0.8 * in, -0.5 * in, -0.2 * in, 0.3, 1.1} {
			t.Run(fmt.Sprintf("%s/%+.2f", name, d), func(t *testing.T) {
				o, err := c.Offset(d)
				require.NoError(t, err)
				checkClosed(t, o)
				inside := 0
				for _, p := range o.Polyline(1e-3) {
					got := distanceTo(p, base)
					reflexMitre := !c.Convex() && d < 0
					if got < math.Abs(d)-1e-4 || (d < 0 && !reflexMitre && got > -d+1e-4) {
						t.Fatalf("point %v is %v from the outline, want %v", p, got, math.Abs(d))
					}
					inside++
				}
				if inside == 0 {
					t.Fatal("no points")
				}
			})
		}
	}
}

// Outward and back again is the outline itself, where it is convex. (At a
// reflex corner it is not: what was trimmed comes back as its tangents.)
func TestOffsetThereAndBack(t *testing.T) {
	for name, s := range typical() {
		c := mustNew(t, s)
		if !c.Convex() {
			continue
		}
		out, err := c.Offset(0.7)
		require.NoError(t, err, name)
		back, err := out.Offset(-0.7)
		require.NoError(t, err, name)
		if d := math.Abs(back.PerimeterMM() - c.PerimeterMM()); d > 1e-9 {
			t.Errorf("%s: perimeter differs by %g", name, d)
		}
		if d := math.Abs(back.AreaMM2() - c.AreaMM2()); d > 1e-9 {
			t.Errorf("%s: area differs by %g", name, d)
		}
	}
}

func TestOffsetRefusesWhatCloses(t *testing.T) {
	for name, s := range typical() {
		c := mustNew(t, s)
		for _, share := range []float64{1.001, 1.2, 2, 5, 100} {
			if o, err := c.Offset(-share * c.InradiusMM()); err == nil {
				t.Errorf("%s: %v times the inradius leaves %v", name, share, o.Size())
			}
		}
	}
}

func TestInradius(t *testing.T) {
	for name, want := range map[string]float64{
		"round": 3, "oval": 3, "slender oval": 2, "pear": 3, "marquise": 2.5, "square": 2.5,
		"baguette": 1.5, "emerald": 3, "hexagon": 3, "octagon": 4, "half-moon": 2,
	} {
		c := mustNew(t, typical()[name])
		assert.InDelta(t, want, c.InradiusMM(), 1e-5, "%s: inradius", name)
	}
}

// The bound of Holds says what an offset says.
func TestHolds(t *testing.T) {
	for name, s := range typical() {
		c := mustNew(t, s)
		in := c.InradiusMM()
		if bound := c.AreaMM2() / c.PerimeterMM(); bound >= in {
			t.Errorf("%s: area over perimeter %v is no less than the inradius %v", name, bound, in)
		}
		for share, want := range map[float64]bool{-0.5: true, 0.1: true, 0.6: true, 0.99: true, 1.01: false, 3: false} {
			if got := c.Holds(share * in); got != want {
				t.Errorf("%s: an offset of %v inradii holds: %v", name, share, got)
			}
		}
	}
}

// The first distance told is where an offset loses a piece, and none sooner.
func TestVanishing(t *testing.T) {
	lose := 0
	for name, s := range typical() {
		c := mustNew(t, s)
		list := c.VanishingMM()
		if len(list) == 0 || list[0] >= c.InradiusMM() || c.Pieces[0].Kind == Elliptic {
			continue
		}
		lose++
		tags := func(inwardMM float64) int {
			o, err := c.Offset(-inwardMM)
			require.NoError(t, err, name)
			left := map[int]bool{}
			for _, p := range o.Pieces {
				left[p.Tag] = true
			}
			return len(left)
		}
		assert.Len(t, c.Pieces, tags(list[0]*(1-1e-6)), "%s: just before %.4f mm", name, list[0])
		assert.Less(t, tags(list[0]*(1+1e-6)), len(c.Pieces), "%s: just past %.4f mm", name, list[0])
	}
	assert.GreaterOrEqual(t, lose, 3, "outlines that lose a side before they close")
}

func TestRandomShapesNeverPanic(t *testing.T) {
	const seed = 20
	rnd := rand.New(rand.NewPCG(seed, 1))
	kinds := Kinds()
	drawn := 0
	for i := range 20000 {
		s := Shape{
			Kind:     kinds[rnd.IntN(len(kinds))],
			Size:     Size{LengthMM: 0.5 + 20*rnd.Float64(), WidthMM: 0.5 + 20*rnd.Float64()},
			CutShare: 0.3 * rnd.Float64() * float64(rnd.IntN(2)),
		}
		if s.Kind == Round || s.Kind == Square {
			s.Size.LengthMM = 0
		}
		if s.Kind == Measured {
			for j := range 8 + rnd.IntN(20) {
				sin, cos := math.Sincos(float64(j) / 4)
				s.Points = append(s.Points, Point{5 * cos, 4*sin + 0.1*rnd.Float64()})
			}
		}
		c, err := New(s)
		if err != nil {
			continue
		}
		drawn++
		d := 12*rnd.Float64() - 8
		o, err := c.Offset(d)
		if err != nil {
			continue
		}
		if p := o.PerimeterMM(); !(p > 0) || math.IsInf(p, 0) {
			t.Fatalf("seed %d, case %d: %+v offset %v: perimeter %v", seed, i, s, d, p)
		}
		if a := o.AreaMM2(); !(a > 0) {
			t.Fatalf("seed %d, case %d: %+v offset %v: area %v", seed, i, s, d, a)
		}
	}
	if drawn < 5000 {
		t.Fatalf("only %d of 20000 shapes could be drawn", drawn)
	}
}

func TestRefusals(t *testing.T) {
	dented := []Point{{3, 0}, {2, 2}, {0, 3}, {-2, 2}, {-1, 0}, {-2, -2}, {0, -3}, {2, -2}}
	for _, s := range []Shape{
		{Kind: "blob", Size: Size{WidthMM: 5}},
		{Kind: Round, Size: Size{LengthMM: 6, WidthMM: 5}},
		{Kind: Pear, Size: Size{LengthMM: 6, WidthMM: 6}},
		{Kind: Oval, Size: Size{LengthMM: 60, WidthMM: 6}},
		{Kind: Oval, Size: Size{LengthMM: math.NaN(), WidthMM: 6}},
		{Kind: Oval, Size: Size{LengthMM: 1e9, WidthMM: 6}},
		{Kind: Oval, Size: Size{LengthMM: 8, WidthMM: -3}},
		{Kind: Emerald, Size: Size{LengthMM: 8, WidthMM: 6}, CutShare: 0.6},
		{Kind: Measured, Points: dented},
		{Kind: Measured, Points: dented[:4]},
	} {
		if _, err := New(s); err == nil {
			t.Errorf("%+v is drawn", s)
		} else if err.Error() == "" {
			t.Errorf("%+v: refused without a sentence", s)
		}
	}
}

func BenchmarkOffset(b *testing.B) {
	c, _ := New(Shape{Kind: Cushion, Size: Size{LengthMM: 8, WidthMM: 7}})
	for b.Loop() {
		if _, err := c.Offset(-0.5); err != nil {
			b.Fatal(err)
		}
	}
}
