package finished

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/axonometric"
	"guildhand/calc/bezel"
	"guildhand/calc/dome"
	"guildhand/calc/outline"
	"guildhand/calc/prong"
	"guildhand/calc/seat"
	"guildhand/calc/setting"
	"guildhand/calc/units"
)

func laid(t testing.TB, kind outline.Kind, size outline.Size, change func(*setting.Spec)) setting.Collet {
	t.Helper()
	c, err := outline.New(outline.Shape{Kind: kind, Size: size})
	require.NoError(t, err)
	width := min(c.Size().LengthMM, c.Size().WidthMM)
	depth := kind.Describe().DepthShare * width
	s := setting.Spec{
		Stone: c, HeightMM: depth + 1.75, ClearanceMM: 0.05, LedgeMM: 0.2, Lean: 8.5 * units.Degree, Taper: setting.Even,
		ThicknessMM: 0.64, NeutralFactor: 0.5, CornerFactor: 0.35, Solid: seat.NewStone(c, depth, seat.Given{}),
	}
	s.RimMM = s.Solid.DefaultRimMM(s.ClearanceMM)
	if change != nil {
		change(&s)
	}
	out, err := setting.Lay(s)
	require.NoError(t, err, kind)
	return out
}

// volumeMM3 of a body, by the divergence theorem; a surface that is not closed
// gives a volume that depends on where it stands.
func volumeMM3(b axonometric.Body, away float64) float64 {
	sum := 0.0
	at := func(i int) [3]float64 { p := b.Points[i]; return [3]float64{p.X + away, p.Y + away, p.Z + away} }
	for _, f := range b.Faces {
		p, q, r := at(f[0]), at(f[1]), at(f[2])
		sum += (p[0]*(q[1]*r[2]-q[2]*r[1]) - p[1]*(q[0]*r[2]-q[2]*r[0]) + p[2]*(q[0]*r[1]-q[1]*r[0])) / 6
	}
	return math.Abs(sum)
}

func closed(t *testing.T, b axonometric.Body, what any) {
	t.Helper()
	here := volumeMM3(b, 0)
	assert.Greater(t, here, 0.0, "%v: %s", what, b.Name)
	assert.InDelta(t, here, volumeMM3(b, 50), 1e-6*max(1, here), "%v: %s is closed", what, b.Name)
}

// Every outline: the bodies are closed, the stone's girdle is its outline, and no
// metal stands nearer to the stone above its girdle's lower edge than the
// clearance.
func TestEveryOutline(t *testing.T) {
	for _, kind := range outline.Kinds() {
		if kind == outline.Measured {
			continue
		}
		c := laid(t, kind, kind.Describe().Sample, nil)
		bodies, err := Collet(c)
		require.NoError(t, err, kind)
		require.Len(t, bodies, 2)
		for _, b := range bodies {
			closed(t, b, kind)
		}
		chords := c.Stone.Polyline(0.001)
		outer := -math.Inf(1)
		for _, p := range bodies[1].Points {
			outer = max(outer, outsideMM(chords, p))
		}
		assert.InDelta(t, 0, outer, 0.003, "%s: the stone reaches its outline and not beyond", kind)
		nearest := math.Inf(1)
		for _, p := range bodies[0].Points {
			if p.Z > 0.01 {
				nearest = min(nearest, outsideMM(chords, p))
			}
		}
		assert.Greater(t, nearest, c.ClearanceMM-0.003, "%s: play beside the stone", kind)
		assert.Less(t, nearest, 1.5*c.ClearanceMM, "%s: a mitred corner is farther away", kind)
		top := math.Inf(-1)
		for _, p := range bodies[1].Points {
			top = max(top, p.Z)
		}
		assert.InDelta(t, c.Solid.TableMM(), top, 1e-9, kind)
	}
}

// outsideMM is how far outside a polygon a point lies, negative inside.
func outsideMM(polygon []outline.Point, p axonometric.Point) float64 {
	least, inside := math.Inf(1), false
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		ux, uy := b.X-a.X, b.Y-a.Y
		s := max(0, min(1, ((p.X-a.X)*ux+(p.Y-a.Y)*uy)/(ux*ux+uy*uy)))
		least = min(least, math.Hypot(p.X-a.X-s*ux, p.Y-a.Y-s*uy))
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/uy*ux {
			inside = !inside
		}
	}
	if inside {
		return -least
	}
	return least
}

// The metal of a round collet is a frustum ring less its bearing: by hand.
func TestMetalOfARound(t *testing.T) {
	c := laid(t, outline.Round, outline.Size{WidthMM: 6}, nil)
	bodies, err := Collet(c)
	require.NoError(t, err)
	frustum := func(r0, r1, h float64) float64 { return math.Pi * h / 3 * (r0*r0 + r0*r1 + r1*r1) }
	tan, level := c.Lean.Tan(), c.ThicknessMM/c.Lean.Cos()
	rim, base := 3+c.FaceMM(c.RimMM), 3+c.FaceMM(c.RimMM-c.HeightMM)
	want := frustum(base+level, rim+level, c.HeightMM) - frustum(base, rim, c.HeightMM)
	// The bearing: a cylinder up to where the wall is that wide or the rim, and
	// below the girdle a cone down to where the pavilion leaves the wall.
	top := min(c.RimMM, (c.LedgeMM+c.ClearanceMM)/tan)
	cut := math.Pi*math.Pow(3+c.ClearanceMM, 2)*top - frustum(3-c.LedgeMM, 3-c.LedgeMM+top*tan, top)
	floor := c.Seat.FloorMM
	in := 3 - c.LedgeMM - floor*tan
	cut += frustum(in, 3, floor) - frustum(in, 3-c.LedgeMM, floor)
	assert.InDelta(t, want-cut, volumeMM3(bodies[0], 0), 0.003*want)
}

// A prong is as wide as planned where it ends.
func TestProngsAreAsWideAsPlanned(t *testing.T) {
	for _, kind := range []outline.Kind{outline.Round, outline.Oval, outline.Pear, outline.Emerald, outline.Marquise} {
		c := laid(t, kind, kind.Describe().Sample, nil)
		spots, err := prong.Spots(c.Stone, prong.Usual(c.Stone))
		require.NoError(t, err)
		work := prong.Work{WidthMM: 1, GalleryMM: 1.5, DrillMM: 0.5}
		plan, err := prong.Lay(c, spots, work)
		require.NoError(t, err, kind)
		bodies, err := Prongs(c, plan)
		require.NoError(t, err)
		closed(t, bodies[0], kind)
		w, err := wallOf(c)
		require.NoError(t, err)
		wide, prongs := 0.0, 0
		cells := w.sawn(c, plan, w.base+work.GalleryMM)
		for i, k := range cells {
			if next := cells[(i+1)%len(cells)]; k.metal {
				wide += distance(at(w.rimOuter, k.rim), at(w.rimOuter, next.rim))
				if !next.metal {
					prongs++
				}
			}
		}
		assert.Equal(t, len(plan.Prongs), prongs, kind)
		assert.InDelta(t, float64(len(plan.Prongs))*work.WidthMM, wide, 0.01, "%s: width of all prongs", kind)
	}
}

func TestOtherBodies(t *testing.T) {
	c, err := outline.New(outline.Shape{Kind: outline.Pear, Size: outline.Size{LengthMM: 12, WidthMM: 8}})
	require.NoError(t, err)
	b, err := bezel.Lay(bezel.Spec{Stone: c, DomeMM: 3, Edge: 15 * units.Degree, ClearanceMM: 0.05, ThicknessMM: 0.4, NeutralFactor: 0.5}, c.Places[0])
	require.NoError(t, err)
	bodies, err := Bezel(Cabochon{Bezel: b, BackMM: 1, Seam: c.Places[0]})
	require.NoError(t, err)
	for _, body := range bodies {
		closed(t, body, "bezel")
	}
	assert.InDelta(t, (b.Outer.AreaMM2()-b.Inner.AreaMM2())*b.HeightMM, volumeMM3(bodies[0], 0), 0.05)
	// A cut edge takes its area times the thickness; measured at the middle of the
	// wall, whose two faces differ in length.
	for _, e := range []bezel.Edging{bezel.Serrated, bezel.Scalloped} {
		edge, err := b.Pattern(e, 2, 0, 0.4)
		require.NoError(t, err)
		plate, err := b.Plate(1.5, 0)
		require.NoError(t, err)
		cut, err := Bezel(Cabochon{Bezel: b, BackMM: 1, Seam: c.Places[0], Edge: edge, Plate: plate, PlateMM: 0.5})
		require.NoError(t, err)
		require.Len(t, cut, 3)
		for _, body := range cut {
			closed(t, body, "bezel with a cut edge on its plate")
		}
		gone := volumeMM3(bodies[0], 0) - volumeMM3(cut[0], 0)
		assert.InDelta(t, edge.RemovedMM2()*b.ThicknessMM, gone, 0.03*edge.RemovedMM2()*b.ThicknessMM)
		assert.InDelta(t, plate.Blank.AreaMM2()*0.5, volumeMM3(cut[1], 0), 0.2)
	}
	d := dome.Dome{DiameterMM: 20, HeightMM: 6, ThicknessMM: 0.6}
	closed(t, Dome(d), "dome")
	assert.InDelta(t, math.Pi/4*d.DiscMM()*d.DiscMM()*d.ThicknessMM, volumeMM3(Dome(d), 0), 1, "the metal of the disc")
	ring := Shank([][2]float64{{0, -2}, {1.5, -2}, {1.5, 2}, {0, 2}}, Circle(8.5))
	closed(t, ring, "shank")
	assert.InDelta(t, math.Pi*(10*10-8.5*8.5)*4, volumeMM3(ring, 0), 1) // Pappus
}

func BenchmarkProngsSeen(b *testing.B) {
	c := laid(b, outline.Oval, outline.Size{LengthMM: 8, WidthMM: 6}, nil)
	spots, err := prong.Spots(c.Stone, 4)
	require.NoError(b, err)
	plan, err := prong.Lay(c, spots, prong.Work{WidthMM: 1, GalleryMM: 1.5, DrillMM: 0.5})
	require.NoError(b, err)
	for b.Loop() {
		bodies, err := Prongs(c, plan)
		require.NoError(b, err)
		axonometric.Isometric(bodies, 0)
	}
}
