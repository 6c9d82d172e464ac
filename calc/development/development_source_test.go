package development

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// frustum develops the wall between two circles.
func frustum(t *testing.T, rimDiameter, baseDiameter, height float64) Flat {
	t.Helper()
	circle := func(d float64) outline.Curve {
		// Drawn at a tenth, so that inches and centimetres of the examples stay
		// within a stone's limits, and enlarged.
		c, err := outline.New(outline.Shape{Kind: outline.Round, Size: outline.Size{WidthMM: 10}})
		require.NoError(t, err)
		return c.Scaled(d / 10)
	}
	rim := circle(rimDiameter)
	f, err := Develop(Wall{Sections: Sections{Rim: rim, Base: circle(baseDiameter), HeightMM: height, Seam: rim.Places[0]}})
	require.NoError(t, err)
	return f
}

// Frustums worked in print.
//
//	"The Net of a Frustum" (a school geometry text on the web): diameters 5 and
//	8 in, 4 in apart: inner radius 7.12, outer 11.39, sector 126.4 degrees.
//	A metalworkers' page on cones: 90 degrees included: 254.6 degrees.
//	A homework page: sector of radius 5 cm and 216 degrees closes to r = 3,
//	height 4, lateral area 47.12 cm2.
//	A Victorian school arithmetic (p. 76, with pi = 22/7): frustum of diameters
//	5 ft 4 in and 8 ft 3 in, slant 10 ft 6 in: lateral area 224 ft2.
func TestFrustumsInPrint(t *testing.T) {
	outerRadius := func(f Flat) float64 { return f.RimLengthMM / -f.Turn.Radians() }
	f := frustum(t, 8, 5, 4)
	assert.InDelta(t, 11.39, outerRadius(f), 0.005, "outer radius")
	assert.InDelta(t, 7.12, outerRadius(f)-f.SeamA.LengthMM(), 0.005, "inner radius")
	assert.InDelta(t, 126.4, -f.Turn.Degrees(), 0.05, "sector")

	f = frustum(t, 20, 10, 5) // 45 degrees of lean: 90 included
	assert.InDelta(t, 254.6, -f.Turn.Degrees(), 0.05, "sector")

	const tip = 1e-4 // all but a full cone
	f = frustum(t, 6, 6*tip, 4*(1-tip))
	assert.InDelta(t, 216, -f.Turn.Degrees(), 1e-6, "sector")
	assert.InDelta(t, 5, outerRadius(f), 1e-9, "radius")
	assert.InDelta(t, 47.12, f.SurfaceAreaMM2, 0.005, "area %v, printed 47.12", f.SurfaceAreaMM2)

	const small, large, slant = 5 + 4.0/12, 8 + 3.0/12, 10.5
	f = frustum(t, large, small, math.Sqrt(slant*slant-(large-small)*(large-small)/4))
	assert.InDelta(t, 224, f.SurfaceAreaMM2*(22.0/7)/math.Pi, 0.5, "area")
}

// The Math Forum's formulas for a cone frustum: S = R s/(R-r), S-s = r s/(R-r),
// angle = 360 (R-r)/s degrees, chord c = 2 S sin(angle/2).
func TestRoundPreConeAgainstFormulas(t *testing.T) {
	const R, r, s = 4.3, 2.7, 5.8
	f, err := RoundPreCone(2*math.Pi*R, 2*math.Pi*r, s)
	require.NoError(t, err)
	assert.InDelta(t, 360*(R-r)/s, -f.Turn.Degrees(), 1e-9, "angle")
	assert.InDelta(t, 2*(R*s/(R-r))*math.Sin(math.Pi*(R-r)/s), f.WidthMM, 1e-6, "chord")
}

// A vessel with four flat sides, by hand trigonometry from elementary
// geometry (no source needed): an emerald outline W x L with corners cut by g,
// leaning by a over h. The side's flat face is a trapezoid of the slant
// h/cos a whose edges are the sections' sides; each section's side is shorter
// by 2 d tan(45/2) than the one it is offset from.
func TestEmeraldByHand(t *testing.T) {
	const W, L, h = 6.0, 8.0, 4.0
	const g = outline.DefaultCut * W
	plan, err := outline.New(outline.Shape{Kind: outline.Emerald, Size: outline.Size{LengthMM: L, WidthMM: W}})
	require.NoError(t, err)
	lean := 8.5 * units.Degree
	s, err := EvenSlope(plan, 0, 0, h, lean)
	require.NoError(t, err)
	s.Seam = plan.Places[0]
	f, err := Develop(Wall{Sections: s})
	require.NoError(t, err)
	d := h * math.Tan(8.5*math.Pi/180)
	slant := h / math.Cos(8.5*math.Pi/180)
	shrink := 2 * d * math.Tan(math.Pi/8)
	rim := 2*(W-2*g) + 2*(L-2*g) + 4*g*math.Sqrt2
	base := rim - 8*shrink
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"rim", f.RimLengthMM, rim},
		{"base", f.BaseLengthMM, base},
		{"area", f.AreaMM2, (rim + base) / 2 * slant},
		{"seam", f.SeamA.LengthMM(), slant},
		// A fold is the space diagonal of d (outward), d tan(45/2) (along) and h.
		{"fold", f.Folds[0].LengthMM(), math.Sqrt(h*h + d*d + shrink*shrink/4)},
	} {
		assert.InDelta(t, c.want, c.got, 1e-9*c.want, "%s %.12g, by hand %.12g", c.what, c.got, c.want)
	}
}

// Bend allowances: Machinery's Handbook, 31st ed., p. 1421, formulas (32) to
// (34): straight length of a 90 degree bend L = 0.55 T + 1.57 R for soft brass
// and soft copper, 0.64 T + 1.57 R for half-hard copper and brass and soft
// steel, 0.71 T + 1.57 R for bronze and hard copper; other angles in
// proportion. As neutral factors: 0.350, 0.407, 0.452. Its figure 13, soft
// steel T = 0.125: R = 0.375 through 180 degrees gives 1.338 in, R = 0.625
// through 60 degrees 0.707 in.
//
// A straight wall (no lean) has bends of just the corner's turning.
func TestBendStripAgainstHandbook(t *testing.T) {
	strip := func(thetaDegrees, r, thick, k float64) float64 {
		a := assembly{wall: Wall{ThicknessMM: thick, NeutralFactor: k, InsideRadiusMM: r}}
		return a.ridgeCorner(thetaDegrees*math.Pi/180, 0, 0).stripMM
	}
	for _, c := range []struct{ per, k float64 }{{0.55, 0.350}, {0.64, 0.407}, {0.71, 0.452}} {
		const T, R = 0.8, 0.5
		assert.InDelta(t, c.per*T+1.57*R, strip(90, R, T, c.k), 1.5e-3, "factor %v", c.k)
	}
	const k = 0.64 / (math.Pi / 2)
	for _, c := range []struct{ degrees, r, printed float64 }{{180, 0.375, 1.338}, {60, 0.625, 0.707}} {
		assert.InDelta(t, c.printed, strip(c.degrees, c.r, 0.125, k), 1.5e-3, "%v degrees, radius %v", c.degrees, c.r)
	}
}
