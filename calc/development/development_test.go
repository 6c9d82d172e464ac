package development

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

func ring(n int) []outline.Point {
	var pts []outline.Point
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		pts = append(pts, outline.Point{X: 3.1 * c, Y: 4.2*s + 0.3*c})
	}
	return pts
}

// stones are of every outline; one that has no shape here is tried by its
// sample.
var stones = withSamples(map[string]outline.Shape{
	"round":            {Kind: outline.Round, Size: outline.Size{WidthMM: 6}},
	"oval":             {Kind: outline.Oval, Size: outline.Size{LengthMM: 8, WidthMM: 6}},
	"slender oval":     {Kind: outline.Oval, Size: outline.Size{LengthMM: 12, WidthMM: 4}},
	"pear":             {Kind: outline.Pear, Size: outline.Size{LengthMM: 9, WidthMM: 6}},
	"marquise":         {Kind: outline.Marquise, Size: outline.Size{LengthMM: 10, WidthMM: 5}},
	"emerald":          {Kind: outline.Emerald, Size: outline.Size{LengthMM: 8, WidthMM: 6}},
	"square":           {Kind: outline.Square, Size: outline.Size{WidthMM: 5}},
	"baguette":         {Kind: outline.Baguette, Size: outline.Size{LengthMM: 6, WidthMM: 3}},
	"tapered-baguette": {Kind: outline.TaperedBaguette, Size: outline.Size{LengthMM: 6, WidthMM: 4, ThirdMM: 3}},
	"cushion":          {Kind: outline.Cushion, Size: outline.Size{LengthMM: 8, WidthMM: 7}},
	"trillion":         {Kind: outline.Trillion, Size: outline.Size{WidthMM: 7}},
	"cut trillion":     {Kind: outline.Trillion, Size: outline.Size{WidthMM: 7}, CutShare: 0.1},
	"heart":            {Kind: outline.Heart, Size: outline.Size{LengthMM: 7, WidthMM: 7}},
	"hexagon":          {Kind: outline.Hexagon, Size: outline.Size{WidthMM: 6}},
	"octagon":          {Kind: outline.Octagon, Size: outline.Size{LengthMM: 8, WidthMM: 8}},
	"half-moon":        {Kind: outline.HalfMoon, Size: outline.Size{LengthMM: 8, WidthMM: 4}},
	"kite":             {Kind: outline.Kite, Size: outline.Size{LengthMM: 9, WidthMM: 6}},
	"lozenge":          {Kind: outline.Lozenge, Size: outline.Size{LengthMM: 9, WidthMM: 5}},
	"measured":         {Kind: outline.Measured, Points: ring(12)},
	"measured polygon": {Kind: outline.Measured, Points: ring(9), Polygon: true},
})

func withSamples(shapes map[string]outline.Shape) map[string]outline.Shape {
	for _, k := range outline.Kinds() {
		if _, ok := shapes[string(k)]; !ok {
			shapes[string(k)] = outline.Shape{Kind: k, Size: k.Describe().Sample}
		}
	}
	return shapes
}

func draw(t testing.TB, name string) outline.Curve {
	t.Helper()
	c, err := outline.New(stones[name])
	require.NoError(t, err, name)
	return c
}

// wall is one case: sections without thickness.
type wall struct {
	name string
	Sections
}

// walls returns every outline under every taper, at leans that keep the base
// whole and at leans that make it gain or lose corners.
func walls(t testing.TB) []wall {
	t.Helper()
	var out []wall
	roundBase, err := outline.New(outline.Shape{Kind: outline.Round, Size: outline.Size{WidthMM: 3}})
	require.NoError(t, err)
	for name := range stones {
		c := draw(t, name)
		in := c.InradiusMM()
		for _, share := range []float64{0.15, 0.5, 0.85} {
			const rimMM, heightMM = 1.0, 5.0
			lean := units.Angle(math.Atan(share * in / (heightMM - rimMM)))
			s, err := EvenSlope(c, 0, rimMM, heightMM, lean)
			require.NoError(t, err, name)
			s.Seam = c.Places[0]
			out = append(out, wall{fmt.Sprintf("%s even %.2f", name, share), s})
			s, err = Apex(c, 0, rimMM, heightMM, lean)
			require.NoError(t, err, name)
			s.Seam = c.Places[0]
			out = append(out, wall{fmt.Sprintf("%s apex %.2f", name, share), s})
		}
		if c.Convex() {
			out = append(out, wall{name + " on a round base", Sections{Rim: c, Base: roundBase, HeightMM: 5, Seam: c.Places[0]}})
			sq := draw(t, "square")
			out = append(out, wall{"square on a " + name, Sections{Rim: sq, Base: c.Scaled(0.4), HeightMM: 4, Seam: sq.Places[0]}})
		}
	}
	return out
}

// support point of a convex curve towards phi, by trying every piece: it
// shares nothing with the walk.
func supportPoint(c outline.Curve, phi float64) outline.Point {
	s, co := math.Sincos(phi)
	best, at := math.Inf(-1), outline.Point{}
	try := func(p outline.Point) {
		if h := p.X*co + p.Y*s; h > best {
			best, at = h, p
		}
	}
	for _, p := range c.Pieces {
		try(p.A)
		try(p.B)
		if p.Kind != outline.Straight {
			q := p.From + math.Mod(math.Mod(phi-p.From, 2*math.Pi)+2*math.Pi, 2*math.Pi)
			if q <= p.To {
				try(p.At(q))
			}
		}
	}
	return at
}

func triangleArea(a, b, c [3]float64) float64 {
	u := [3]float64{b[0] - a[0], b[1] - a[1], b[2] - a[2]}
	v := [3]float64{c[0] - a[0], c[1] - a[1], c[2] - a[2]}
	x, y, z := u[1]*v[2]-u[2]*v[1], u[2]*v[0]-u[0]*v[2], u[0]*v[1]-u[1]*v[0]
	return math.Sqrt(x*x+y*y+z*z) / 2
}

// triangulated measures the wall of two convex sections by the triangles
// between their support points, n directions round.
func triangulated(s Sections, n int) (area, rim, base float64) {
	const start = 0.1234567
	return triangulatedFrom(s, start, start+2*math.Pi, n)
}

func triangulatedFrom(s Sections, start, end float64, n int) (area, rim, base float64) {
	top := func(p outline.Point) [3]float64 { return [3]float64{p.X, p.Y, 0} }
	foot := func(p outline.Point) [3]float64 { return [3]float64{p.X, p.Y, -s.HeightMM} }
	dist := func(p, q outline.Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }
	x, y := supportPoint(s.Rim, start), supportPoint(s.Base, start)
	for i := 1; i <= n; i++ {
		phi := start + (end-start)*float64(i)/float64(n)
		x2, y2 := supportPoint(s.Rim, phi), supportPoint(s.Base, phi)
		area += triangleArea(top(x), top(x2), foot(y)) + triangleArea(top(x2), foot(y), foot(y2))
		rim += dist(x, x2)
		base += dist(y, y2)
		x, y = x2, y2
	}
	return area, rim, base
}

// Invariants 1 and 2, against a triangulation that knows nothing of the walk
// (convex sections; a heart has a test of its own).
func TestInvariants1and2AreaAndEdges(t *testing.T) {
	for _, w := range walls(t) {
		t.Run(w.name, func(t *testing.T) {
			f, err := Develop(Wall{Sections: w.Sections})
			require.NoError(t, err)
			within := func(what string, got, want, rel float64) {
				t.Helper()
				assert.InDelta(t, want, got, rel*math.Abs(want)+1e-12, "%s %.12g, want %.12g", what, got, want)
			}
			within("rim", f.RimLengthMM, w.Rim.PerimeterMM(), 1e-9)
			within("base", f.BaseLengthMM, w.Base.PerimeterMM(), 1e-9)
			within("flat area", f.AreaMM2, f.SurfaceAreaMM2, 1e-7)
			drawn := 0.0
			for _, c := range f.Rim {
				drawn += c.LengthMM()
			}
			within("drawn rim", drawn, f.RimLengthMM, 1e-7)
			if w.Rim.Convex() && w.Base.Convex() {
				// Richardson's extrapolation of two triangulations.
				a1, r1, b1 := triangulated(w.Sections, 4000)
				a2, r2, b2 := triangulated(w.Sections, 8000)
				within("area against triangles", f.SurfaceAreaMM2, a2+(a2-a1)/3, 1e-6)
				within("rim against triangles", f.RimLengthMM, r2+(r2-r1)/3, 1e-6)
				within("base against triangles", f.BaseLengthMM, b2+(b2-b1)/3, 1e-6)
			}
		})
	}
}

// rightHalf keeps the pieces of a heart's right half, from the point to the
// cleft: a chain that turns left throughout.
func rightHalf(c outline.Curve) outline.Curve {
	half := outline.Curve{Kind: c.Kind}
	for _, p := range c.Pieces {
		if p.A.X+p.B.X > 0 {
			half.Pieces = append(half.Pieces, p)
		}
	}
	return half
}

// Invariants 1 and 2 for a heart, whose halves are triangulated between their
// own support points, from beyond the point to beyond the cleft.
func TestInvariants1and2Heart(t *testing.T) {
	c := draw(t, "heart")
	for _, deg := range []float64{3, 8.5, 15} {
		for _, taper := range []func(outline.Curve, float64, float64, float64, units.Angle) (Sections, error){EvenSlope, Apex} {
			s, err := taper(c, 0, 1, 5, units.Angle(deg)*units.Degree)
			require.NoError(t, err)
			half := Sections{Rim: rightHalf(s.Rim), Base: rightHalf(s.Base), HeightMM: s.HeightMM}
			const from, to = -1.5, 2.8 // the side arc's normal at the point is at -0.97, the lobe's at the cleft at 2.59
			a1, r1, b1 := triangulatedFrom(half, from, to, 8000)
			a2, r2, b2 := triangulatedFrom(half, from, to, 16000)
			for _, seam := range c.Places {
				s.Seam = seam
				f, err := Develop(Wall{Sections: s})
				require.NoError(t, err, seam.Name)
				for what, pair := range map[string][2]float64{
					"area":      {f.SurfaceAreaMM2, 2 * (a2 + (a2-a1)/3)},
					"rim":       {f.RimLengthMM, 2 * (r2 + (r2-r1)/3)},
					"base":      {f.BaseLengthMM, 2 * (b2 + (b2-b1)/3)},
					"flat area": {f.AreaMM2, f.SurfaceAreaMM2},
				} {
					assert.InDelta(t, pair[1], pair[0], 1e-6*pair[1], "lean %v, seam at %s: %s %.10g, want %.10g", deg, seam.Name, what, pair[0], pair[1])
				}
			}
		}
	}
}

// Invariant 3.
func TestInvariant3Turn(t *testing.T) {
	for _, name := range []string{"round", "oval", "cushion", "measured"} {
		c := draw(t, name)
		for _, deg := range []float64{2, 8.5, 20} {
			lean := units.Angle(deg) * units.Degree
			s, err := EvenSlope(c, 0, 1, 3, lean)
			require.NoError(t, err)
			s.Seam = c.Places[0]
			f, err := Develop(Wall{Sections: s})
			require.NoError(t, err)
			if got, want := -f.Turn.Radians(), 2*math.Pi*lean.Sin(); math.Abs(got-want) > 1e-12*want && s.Base.Smooth() {
				t.Errorf("%s at %v degrees: turns by %v, want %v", name, deg, got, want)
			}
		}
	}
}

// Invariant 4: the flat blank and the space wall are cut into the same
// triangles by rulings some ten thousandths of a radian apart; all their
// edges together differ by less than 1e-6 mm, so that the triangles of the
// one fold into the other.
func TestInvariant4FoldBack(t *testing.T) {
	for _, w := range walls(t) {
		t.Run(w.name, func(t *testing.T) {
			worst, edges := misfit(t, w.Sections)
			if worst > 1e-6 {
				t.Errorf("flat and space differ by %g mm in all", worst)
			}
			if edges < 20 {
				t.Errorf("only %d edges compared", edges)
			}
		})
	}
}

// misfit is the sum over all triangle edges of flat length less space length,
// each taken positive, mm.
func misfit(t *testing.T, s Sections) (mm float64, edges int) {
	t.Helper()
	f, err := fineFlat(s)
	require.NoError(t, err)
	return misfitOf(f)
}

// fineFlat lays the wall flat in very small steps.
func fineFlat(s Sections) (Flat, error) {
	spans, err := walk(s.Rim, s.Base)
	if err != nil {
		return Flat{}, err
	}
	spans, seamRidge, err := opened(spans, s.Seam)
	if err != nil {
		return Flat{}, err
	}
	a := assembly{wall: Wall{Sections: s}, fl: flattening{height: s.HeightMM, finer: 600}}
	if err := a.lay(spans, seamRidge); err != nil {
		return Flat{}, err
	}
	return a.flat()
}

func misfitOf(f Flat) (mm float64, edges int) {
	flat := func(p, q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }
	for i := 1; i < len(f.Rulings); i++ {
		q, r := f.Rulings[i-1], f.Rulings[i]
		for _, e := range [][2]float64{
			{flat(r.FlatRim, r.FlatBase), dist3(r.SpaceRim, r.SpaceBase)},
			{flat(q.FlatRim, r.FlatRim), dist3(q.SpaceRim, r.SpaceRim)},
			{flat(q.FlatBase, r.FlatBase), dist3(q.SpaceBase, r.SpaceBase)},
			{flat(q.FlatRim, r.FlatBase), dist3(q.SpaceRim, r.SpaceBase)},
			{flat(q.FlatBase, r.FlatRim), dist3(q.SpaceBase, r.SpaceRim)},
		} {
			mm += math.Abs(e[0] - e[1])
			edges++
		}
	}
	return mm, edges
}

// isometry is the largest difference, mm, between a ruling in the flat and in
// space.
func isometry(f Flat) float64 {
	worst := 0.0
	for _, r := range f.Rulings {
		flat := math.Hypot(r.FlatRim.X-r.FlatBase.X, r.FlatRim.Y-r.FlatBase.Y)
		worst = math.Max(worst, math.Abs(flat-dist3(r.SpaceRim, r.SpaceBase)))
	}
	return worst
}

func dist3(a, b [3]float64) float64 {
	return math.Sqrt((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2]))
}

// Invariant 5: the frustum of a cone, in closed form.
func TestInvariant5Frustum(t *testing.T) {
	c := draw(t, "round")
	for _, deg := range []float64{1, 8.5, 17, 35} {
		lean := units.Angle(deg) * units.Degree
		const rim, h = 0.5, 3.5
		s, err := EvenSlope(c, 0, rim, h, lean)
		require.NoError(t, err)
		s.Seam = c.Places[0]
		f, err := Develop(Wall{Sections: s})
		require.NoError(t, err)
		r1, r2 := 3+rim*lean.Tan(), 3-(h-rim)*lean.Tan()
		slant := h / lean.Cos()
		outer := slant * r1 / (r1 - r2)
		angle := 2 * math.Pi * r1 / outer
		width := 2 * outer * math.Sin(math.Min(angle/2, math.Pi/2))
		height := outer - math.Min((outer-slant)*math.Cos(angle/2), outer*math.Cos(angle/2))
		for _, c := range []struct {
			what      string
			got, want float64
		}{
			{"rim", f.RimLengthMM, 2 * math.Pi * r1},
			{"base", f.BaseLengthMM, 2 * math.Pi * r2},
			{"area", f.SurfaceAreaMM2, math.Pi * (r1 + r2) * slant},
			{"turn", -f.Turn.Radians(), angle},
			{"width", f.WidthMM, width},
			{"height", f.HeightMM, height},
			{"seam", f.SeamA.LengthMM(), slant},
		} {
			tol := 1e-9 * c.want
			if c.what == "width" || c.what == "height" {
				tol = 1e-8 * c.want // the box is that of the drawn cubics
			}
			assert.InDelta(t, c.want, c.got, tol, "%v degrees: %s %.12g, want %.12g", deg, c.what, c.got, c.want)
		}
	}
}

// Invariant 6.
func TestInvariant6Strip(t *testing.T) {
	for name := range stones {
		c := draw(t, name)
		s := Sections{Rim: c, Base: c, HeightMM: 4, Seam: c.Places[0]}
		f, err := Develop(Wall{Sections: s})
		require.NoError(t, err, name)
		for what, pair := range map[string][2]float64{
			"width":  {f.WidthMM, c.PerimeterMM()},
			"height": {f.HeightMM, 4},
			"area":   {f.AreaMM2, 4 * c.PerimeterMM()},
		} {
			assert.InDelta(t, pair[1], pair[0], 1e-9*pair[1], "%s: %s %v, want %v", name, what, pair[0], pair[1])
		}
	}
}

// Invariant 7.
func TestInvariant7Perimeters(t *testing.T) {
	for _, name := range []string{"round", "oval", "cushion", "measured"} {
		c := draw(t, name)
		lean := 6 * units.Degree
		s, err := EvenSlope(c, 0, 1, 4, lean)
		require.NoError(t, err)
		if !s.Base.Smooth() {
			continue
		}
		want := s.Rim.PerimeterMM() - 2*math.Pi*4*lean.Tan()
		assert.InDelta(t, want, s.Base.PerimeterMM(), 1e-10, "%s: base", name)
	}
}

// Invariant 8, by hand trigonometry on a square and on an emerald outline.
func TestInvariant8Polygons(t *testing.T) {
	for _, c := range []struct {
		name  string
		theta []float64 // turning of the corners passed from seam to seam
	}{
		{"square", []float64{90, 90, 90, 90}},
		{"emerald", []float64{45, 45, 45, 45, 45, 45, 45, 45}},
		{"hexagon", []float64{60, 60, 60, 60, 60, 60}},
	} {
		for _, deg := range []float64{4, 8.5, 14} {
			lean := units.Angle(deg) * units.Degree
			plan := draw(t, c.name)
			s, err := EvenSlope(plan, 0, 1, 5, lean)
			require.NoError(t, err)
			s.Seam = plan.Places[0]
			f, err := Develop(Wall{Sections: s})
			require.NoError(t, err)
			want := 0.0
			for _, theta := range c.theta {
				want += 2 * math.Atan(lean.Sin()*math.Tan(theta/2*math.Pi/180))
			}
			assert.InDelta(t, want, -f.Turn.Radians(), 1e-12, "%s at %v: turns", c.name, deg)
			if len(f.Folds) != len(c.theta) || f.Corners != len(c.theta) {
				t.Errorf("%s: %d folds, want %d", c.name, len(f.Folds), len(c.theta))
			}
		}
	}
}

func TestSeamsAndCorners(t *testing.T) {
	const thick, k = 0.64, 0.5
	for name := range stones {
		c := draw(t, name)
		for _, seam := range c.Places {
			for _, work := range []CornerWork{Bent, Scored} {
				for _, radius := range []float64{0, 0.3} {
					s, err := EvenSlope(c, 0, 1, 4, 8.5*units.Degree)
					require.NoError(t, err)
					s.Seam = seam
					f, err := Develop(Wall{Sections: s, OutMM: k * thick, ThicknessMM: thick, NeutralFactor: k,
						Corners: work, InsideRadiusMM: radius, LevelsMM: []float64{1, 1.3}})
					if err != nil {
						if radius > 0 && errors.Is(err, errCorner) {
							continue
						}
						t.Errorf("%s, seam at %s, work %d, radius %v: %v", name, seam.Name, work, radius, err)
						continue
					}
					if !(f.AreaMM2 > 0 && f.WidthMM > 0 && f.HeightMM > 0 && len(f.Levels) == 2) {
						t.Errorf("%s, seam at %s: %+v", name, seam.Name, f)
					}
					if d := f.SeamA.LengthMM() - f.SeamB.LengthMM(); math.Abs(d) > 1e-6 && name != "measured" && name != "measured polygon" && seam.Name != "side" && seam.Name != "cut" {
						t.Errorf("%s, seam at %s: seam edges differ by %g", name, seam.Name, d)
					}
				}
			}
		}
	}
}

func TestRandomWalls(t *testing.T) {
	const seed = 7
	rnd := rand.New(rand.NewPCG(seed, 3))
	kinds := outline.Kinds()
	laid := 0
	for i := range 5000 {
		shape := outline.Shape{Kind: kinds[rnd.IntN(len(kinds)-1)], Size: outline.Size{WidthMM: 1 + 15*rnd.Float64()}}
		if shape.Kind != outline.Round && shape.Kind != outline.Square {
			shape.Size.LengthMM = shape.Size.WidthMM * (1 + 1.5*rnd.Float64())
		}
		c, err := outline.New(shape)
		if err != nil {
			continue
		}
		lean := units.Angle(30*rnd.Float64()) * units.Degree
		h := 0.5 + 12*rnd.Float64()
		var s Sections
		if rnd.IntN(2) == 0 {
			s, err = EvenSlope(c, 0, h/4, h, lean)
		} else {
			s, err = Apex(c, 0, h/4, h, lean)
		}
		if err != nil {
			continue
		}
		s.Seam = c.Places[rnd.IntN(len(c.Places))]
		f, err := Develop(Wall{Sections: s})
		require.NoError(t, err, "seed %d case %d: %+v lean %v height %v", seed, i, shape, lean.Degrees(), h)
		laid++
		if math.Abs(f.AreaMM2-f.SurfaceAreaMM2) > 1e-6*f.SurfaceAreaMM2 || isometry(f) > 1e-6 ||
			math.Abs(f.RimLengthMM-s.Rim.PerimeterMM()) > 1e-9*f.RimLengthMM ||
			math.Abs(f.BaseLengthMM-s.Base.PerimeterMM()) > 1e-8*(1+f.BaseLengthMM) {
			t.Fatalf("seed %d case %d: %+v lean %v height %v seam %v: area %v/%v rim %v/%v base %v/%v iso %g", seed, i, shape, lean.Degrees(), h, s.Seam.Name,
				f.AreaMM2, f.SurfaceAreaMM2, f.RimLengthMM, s.Rim.PerimeterMM(), f.BaseLengthMM, s.Base.PerimeterMM(), isometry(f))
		}
	}
	if laid < 1500 {
		t.Fatalf("only %d walls laid flat", laid)
	}
}

func BenchmarkDevelop(b *testing.B) {
	c, _ := outline.New(stones["oval"])
	s, _ := EvenSlope(c, 0, 1, 5.75, 8.5*units.Degree)
	s.Seam = c.Places[0]
	for b.Loop() {
		if _, err := Develop(Wall{Sections: s, OutMM: 0.3, ThicknessMM: 0.64, NeutralFactor: 0.5, LevelsMM: []float64{1, 1.3}}); err != nil {
			b.Fatal(err)
		}
	}
}
