package saddle

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/development"
	"guildhand/calc/outline"
	"guildhand/calc/ring"
	"guildhand/calc/setting"
	"guildhand/calc/units"
)

// onShank lays a collet or bezel whose finished base plane lies on the crest, with
// enough wall below for the saddle.
func onShank(t testing.TB, s setting.Spec, heightMM float64, shank Shank, alongBand bool) (Wall, Saddle, error) {
	t.Helper()
	s.Patches = true
	c, err := setting.Lay(s)
	require.NoError(t, err)
	w := Wall{
		Flat: c.Flat, TopMM: heightMM - s.RimMM + c.TopMM, RimMM: heightMM, AlongBand: alongBand,
		InnerMM: s.NeutralFactor * s.ThicknessMM, OuterMM: (1 - s.NeutralFactor) * s.ThicknessMM,
	}
	d, err := On(w, shank)
	return w, d, err
}

func stone(t testing.TB, kind outline.Kind, size outline.Size) outline.Curve {
	t.Helper()
	shape := outline.Shape{Kind: kind, Size: size}
	if kind == outline.Measured {
		for i := range 24 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 24)
			shape.Points = append(shape.Points, outline.Point{X: 3 * cos, Y: 4*sin + 0.3*cos*cos})
		}
		shape.Size = outline.Size{}
	}
	c, err := outline.New(shape)
	require.NoError(t, err)
	return c
}

func shankOf(inner float64, p ring.Profile, width float64) Shank {
	return Shank{InnerDiameterMM: inner, ThicknessMM: 1.6, WidthMM: width, Profile: p}
}

// A tube on a cylinder unrolls to z = sqrt(R² - r² sin²(x/r)), in closed form.
func TestTubeOnCylinder(t *testing.T) {
	const r, wall = 2.5, 0.5
	spec := setting.Spec{Stone: stone(t, outline.Round, outline.Size{WidthMM: 2 * (r - wall)}), HeightMM: 6, ThicknessMM: wall, NeutralFactor: 1, CornerFactor: 1}
	shank := shankOf(17, ring.Flat, 8)
	_, d, err := onShank(t, spec, 5, shank, false)
	require.NoError(t, err)
	first := d.Points[0].Flat.X
	R := shank.CrestMM()
	assert.InDelta(t, 5, d.LowMM, 1e-9)
	assert.InDelta(t, R-math.Sqrt(R*R-r*r), d.CutDepthMM, 1e-7)
	for _, p := range d.Points {
		// The seam lies at a side of the round; x runs round the tube from it.
		phi := (p.Flat.X - first) / r
		y := r * math.Sin(phi+math.Atan2(d.Points[0].Space.Y, d.Points[0].Space.X))
		assert.InDelta(t, math.Sqrt(R*R-y*y)-R, p.Space.Z, 1e-6)
		assert.InDelta(t, y, p.Space.Y, 1e-6)
	}
}

// The whole field: every outline, shanks of 14 to 24 mm, flat and half-round tops,
// narrow and wide, both ways on the band. Every point of the curve lies on the
// shank, and the blank is as long as the wall: chord by chord along the curve, and
// along every ruling from the rim.
func TestEveryBaseLiesOnItsShank(t *testing.T) {
	answered := 0
	for _, kind := range outline.Kinds() {
		size := kind.Describe().Sample
		for _, inner := range []float64{14, 17.3, 24} {
			for _, v := range []struct {
				profile ring.Profile
				wide    float64
				along   bool
			}{{ring.Flat, 2.5, false}, {ring.Flat, 30, true}, {ring.HalfRound, 2.5, true}, {ring.HalfRound, 30, false}} {
				name := fmt.Sprintf("%s on %g %s %g wide, along the band %t", kind, inner, v.profile, v.wide, v.along)
				spec := setting.Spec{Stone: stone(t, kind, size), HeightMM: 7, RimMM: 0.8, LedgeMM: 0.2, ClearanceMM: 0.05, Lean: 8.5 * units.Degree, ThicknessMM: 0.64, NeutralFactor: 0.5, CornerFactor: 0.5}
				shank := shankOf(inner, v.profile, v.wide)
				w, d, err := onShank(t, spec, 5.5, shank, v.along)
				if err != nil {
					var e *Error
					require.ErrorAs(t, err, &e, name)
					reach := max(size.LengthMM, size.WidthMM)/2 + 1
					assert.Greater(t, reach, shank.CrestMM()*math.Sin(SteepestDegrees*math.Pi/180)-2, "%s: %s", name, err)
					continue
				}
				answered++
				whole(t, name, w, d)
			}
		}
	}
	assert.Greater(t, answered, 10*len(outline.Kinds()))
}

// whole holds a saddle against the shank and its own lengths.
func whole(t *testing.T, name string, w Wall, d Saddle) {
	t.Helper()
	flat, space := 0.0, 0.0
	for i, p := range d.Points {
		r := math.Hypot(p.Space.Y, p.Space.Z+d.Shank.CrestMM())
		require.InDelta(t, d.Shank.RadiusMM(p.Space.X), r, 1e-6, name)
		if i > 0 {
			flat += apart(p.Flat, d.Points[i-1].Flat)
			space += gap(p.Space, d.Points[i-1].Space)
		}
	}
	assert.InDelta(t, space, flat, lengthSlack(w)*space, name)
	for i := range w.Flat.Patches {
		p := &w.Flat.Patches[i]
		for _, v := range []float64{0, 0.3, 1} {
			a, b := p.At(0, v), p.At(0.9, v)
			require.InDelta(t, gap(a.Space, b.Space), apart(a.Flat, b.Flat), 1e-6, name)
			require.InDelta(t, 1, a.Normal.X*a.Normal.X+a.Normal.Y*a.Normal.Y+a.Normal.Z*a.Normal.Z, 1e-12, name)
		}
		if i > 0 {
			before, here := w.Flat.Patches[i-1].At(0.7, 1), p.At(0.7, 0)
			require.InDelta(t, 0, apart(before.Flat, here.Flat), 1e-6, "%s: the flat has a gap before patch %d", name, i)
			// Where a curved side meets another its normal turns a little along the
			// corner, which a round bend does not follow.
			slack := 1e-6
			if p.Bend || w.Flat.Patches[i-1].Bend {
				slack = 0.005
			}
			require.InDelta(t, 0, gap(before.Space, here.Space), slack, "%s: the wall has a gap before patch %d", name, i)
		}
	}
	assert.Greater(t, d.HighMM, d.LowMM, name)
}

func gap(a, b development.Vector) float64 {
	return math.Sqrt((a.X-b.X)*(a.X-b.X) + (a.Y-b.Y)*(a.Y-b.Y) + (a.Z-b.Z)*(a.Z-b.Z))
}

// TestAgainstAFineMesh lays the wall of a round and of an oval collet flat by
// another route: 40,000 rulings from the ellipse's own equation, each quarter of
// a thousandth of a turn laid beside the last by the lengths of two triangles, and
// the shank met on each by halving. Heights and the flat places of the curve agree
// within 1e-6 mm.
func TestAgainstAFineMesh(t *testing.T) {
	const n = 40_000
	for _, v := range []struct {
		long, wide, lean float64
		shank            Shank
		along            bool
	}{
		{6, 6, 8.5, shankOf(17.3, ring.Flat, 30), false}, {8, 6, 8.5, shankOf(17.3, ring.Flat, 30), false},
		{8, 6, 12, shankOf(14, ring.Flat, 30), true}, {8, 6, 8.5, shankOf(20, ring.HalfRound, 30), false}, {10, 8, 5, shankOf(24, ring.HalfRound, 30), true},
	} {
		kind := outline.Oval
		if v.long == v.wide {
			kind = outline.Round
		}
		spec := setting.Spec{Stone: stone(t, kind, outline.Size{LengthMM: v.long, WidthMM: v.wide}), HeightMM: 7, RimMM: 0.8, LedgeMM: 0.2, ClearanceMM: 0.05, Lean: units.Angle(v.lean) * units.Degree, ThicknessMM: 0.64, NeutralFactor: 0.5, CornerFactor: 0.5}
		_, d, err := onShank(t, spec, 5.5, v.shank, v.along)
		require.NoError(t, err)
		sin, cos := math.Sincos(v.lean * math.Pi / 180)
		// A point of the neutral surface whose normal is phi, z below the girdle.
		surface := func(phi, z float64) development.Vector {
			s, c := math.Sincos(phi)
			a, b := v.wide/2, v.long/2
			w := math.Sqrt(a*a*c*c + b*b*s*s)
			out := z*sin/cos - 0.2 + 0.5*0.64*cos
			p := development.Vector{X: (a*a/w + out) * c, Y: (b*b/w + out) * s, Z: z - 0.5*0.64*sin + 5.5 - 0.8}
			if !v.along {
				p.X, p.Y = p.Y, -p.X
			}
			return p
		}
		meet := func(phi float64) development.Vector {
			lo, hi := -12.0, 0.8
			for range 70 {
				mid := (lo + hi) / 2
				p := surface(phi, mid)
				r := v.shank.RadiusMM(p.X)
				if p.Z+v.shank.CrestMM() < math.Sqrt(r*r-p.Y*p.Y) {
					lo = mid
				} else {
					hi = mid
				}
			}
			return surface(phi, lo)
		}
		low, high := math.Inf(1), math.Inf(-1)
		seam := math.Atan2(0, 1) // an oval's seam lies at a side, at phi 0
		var start, middle, end complex128
		a2, b2 := complex(0, 0), complex(0, -gap(surface(seam, 0), surface(seam, -4)))
		for i := range n + 1 {
			phi := seam + 2*math.Pi*float64(i)/n
			p := meet(phi)
			low, high = math.Min(low, 5.5-p.Z), math.Max(high, 5.5-p.Z)
			a, b := surface(phi, 0), surface(phi, -4)
			if i > 0 {
				before := seam + 2*math.Pi*float64(i-1)/n
				a3 := apex(a2, b2, gap(surface(before, 0), a), gap(surface(before, -4), a))
				b3 := apex(a3, b2, gap(a, b), gap(b, surface(before, -4)))
				a2, b2 = a3, b3
			}
			at := a2 + (b2-a2)*complex(gap(a, p)/gap(a, b), 0)
			switch i {
			case 0:
				start = at
			case n / 2:
				middle = at
			case n:
				end = at
			}
		}
		name := fmt.Sprintf("%g x %g on %g %s", v.long, v.wide, v.shank.InnerDiameterMM, v.shank.Profile)
		assert.InDelta(t, low, d.LowMM, 1e-6, name)
		assert.InDelta(t, high, d.HighMM, 1e-6, name)
		first, last := d.Points[0].Flat, d.Points[len(d.Points)-1].Flat
		assert.InDelta(t, cmplx.Abs(end-start), apart(first, last), 1e-6, name)
		half := d.Points[0]
		for _, p := range d.Points {
			if gap(p.Space, meet(seam+math.Pi)) < gap(half.Space, meet(seam+math.Pi)) {
				half = p
			}
		}
		assert.InDelta(t, cmplx.Abs(middle-start), apart(first, half.Flat), 1e-6, name)
	}
}

// apex is the corner of a triangle on the right of a to b, from its two sides.
func apex(a, b complex128, fromA, fromB float64) complex128 {
	l := cmplx.Abs(b - a)
	x := (fromA*fromA - fromB*fromB + l*l) / (2 * l)
	y := math.Sqrt(math.Max(0, fromA*fromA-x*x))
	return a + (b-a)/complex(l, 0)*complex(x, y)
}

func TestMisses(t *testing.T) {
	spec := setting.Spec{Stone: stone(t, outline.Oval, outline.Size{LengthMM: 25, WidthMM: 18}), HeightMM: 12, RimMM: 1, Lean: 8 * units.Degree, ThicknessMM: 0.6, NeutralFactor: 0.5, CornerFactor: 0.5}
	_, _, err := onShank(t, spec, 9, shankOf(14, ring.Flat, 4), true)
	var e *Error
	require.ErrorAs(t, err, &e)
	assert.Contains(t, e.Problem, "misses the shank")
	assert.Greater(t, e.LeastInnerMM, 20.0)
	_, d, err := onShank(t, spec, 9, shankOf(e.LeastInnerMM, ring.Flat, 4), true)
	require.NoError(t, err, "the ring that the refusal names carries it")
	assert.Greater(t, d.FreeShare, 0.5, "the shank is narrow")
	assert.Less(t, d.FreeShare, 1.0)
}

func BenchmarkOn(b *testing.B) {
	spec := setting.Spec{Stone: stone(b, outline.Oval, outline.Size{LengthMM: 8, WidthMM: 6}), HeightMM: 7, RimMM: 0.8, LedgeMM: 0.2, ClearanceMM: 0.05, Lean: 8.5 * units.Degree, ThicknessMM: 0.64, NeutralFactor: 0.5, CornerFactor: 0.5}
	for b.Loop() {
		_, _, err := onShank(b, spec, 5.5, shankOf(17.3, ring.HalfRound, 4), false)
		require.NoError(b, err)
	}
}

// lengthSlack is how far the flat curve may differ in length from that in space, as
// a share: chords of a smooth wall are alike; in a bend the chords are shorter than
// its arc, and the corner of two curved sides turns along its height.
func lengthSlack(w Wall) float64 {
	for i := range w.Flat.Patches {
		if w.Flat.Patches[i].Bend {
			return 2.5e-3
		}
	}
	return 1e-4
}
