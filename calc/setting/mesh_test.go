package setting

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
	"guildhand/calc/seat"
	"guildhand/calc/units"
)

// The stone and the wall as clouds of points, by another route than calc/seat:
// no support function, no closed form. The stone's outline is a polygon of short
// chords; the wall at a height is everything within a distance of that polygon,
// measured point by point.

type plan []outline.Point

// depth is how far inside the polygon a point lies; negative is outside.
func (p plan) depth(at outline.Point) float64 {
	best, inside := math.Inf(1), false
	for i, a := range p {
		b := p[(i+1)%len(p)]
		ux, uy := b.X-a.X, b.Y-a.Y
		s := ((at.X-a.X)*ux + (at.Y-a.Y)*uy) / (ux*ux + uy*uy)
		s = max(0, min(1, s))
		best = min(best, math.Hypot(at.X-a.X-s*ux, at.Y-a.Y-s*uy))
		if (a.Y > at.Y) != (b.Y > at.Y) && at.X < a.X+(at.Y-a.Y)/uy*ux {
			inside = !inside
		}
	}
	if inside {
		return best
	}
	return -best
}

// pavilion is a point of the pavilion's surface below a point of the outline, at
// the depth s.
func pavilion(st seat.Stone, p plan, at outline.Point, s float64) (outline.Point, bool) {
	if !st.Keel {
		k := 1 - s/st.PavilionMM
		return outline.Point{X: st.Culet.X + k*(at.X-st.Culet.X), Y: st.Culet.Y + k*(at.Y-st.Culet.Y)}, true
	}
	return at, false // a step cut is asked by its depth inside, see touches
}

// touches looks for metal inside the stone below the bearing's floor. It gives
// the deepest cut found, mm.
func touches(c Collet, p plan) float64 {
	const levels = 25
	worst := 0.0
	below := c.HeightMM - c.RimMM
	for k := 1; k <= levels; k++ {
		s := c.Seat.FloorMM + (min(below, c.Solid.PavilionMM*0.98)-c.Seat.FloorMM)*float64(k)/levels
		if s <= c.Seat.FloorMM {
			break
		}
		opening := c.LedgeMM + s*math.Tan(float64(c.Lean)) // how deep inside the outline the metal reaches
		if c.Solid.Keel {
			// Inside a step cut are the points deeper than its facets stand in.
			inset := s * deepest(p) / c.Solid.PavilionMM
			worst = max(worst, opening-inset)
			continue
		}
		for i := 0; i < len(p); i += 3 {
			at, _ := pavilion(c.Solid, p, p[i], s)
			worst = max(worst, opening-p.depth(at))
		}
	}
	return worst
}

// deepest is the greatest depth inside the polygon, by a grid made finer three
// times.
func deepest(p plan) float64 {
	low, high := outline.Point{X: math.Inf(1), Y: math.Inf(1)}, outline.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, q := range p {
		low = outline.Point{X: min(low.X, q.X), Y: min(low.Y, q.Y)}
		high = outline.Point{X: max(high.X, q.X), Y: max(high.Y, q.Y)}
	}
	best := 0.0
	for range 6 {
		var at outline.Point
		dx, dy := (high.X-low.X)/16, (high.Y-low.Y)/16
		for i := range 17 {
			for j := range 17 {
				q := outline.Point{X: low.X + dx*float64(i), Y: low.Y + dy*float64(j)}
				if d := p.depth(q); d >= best {
					best, at = d, q
				}
			}
		}
		low, high = outline.Point{X: at.X - 2*dx, Y: at.Y - 2*dy}, outline.Point{X: at.X + 2*dx, Y: at.Y + 2*dy}
	}
	return best
}

func random(rnd *rand.Rand, kind outline.Kind) (Spec, bool) {
	d := kind.Describe()
	width := 3 + 9*rnd.Float64()
	shape := outline.Shape{Kind: kind, Size: outline.Size{WidthMM: width, LengthMM: width * d.LengthOverWidth * (0.95 + 0.2*rnd.Float64())}}
	if len(d.SizeNumbers) == 1 && d.SizeNumbers[0] == 1 {
		shape.Size.LengthMM = 0
	}
	curve, err := outline.New(shape)
	if err != nil {
		return Spec{}, false
	}
	size := curve.Size()
	depth := d.DepthShare * (0.85 + 0.3*rnd.Float64()) * min(size.LengthMM, size.WidthMM)
	s := Spec{Stone: curve, ClearanceMM: 0.05, Lean: units.Angle(30*rnd.Float64()) * units.Degree, Taper: Even,
		ThicknessMM: 0.5 + 0.5*rnd.Float64(), NeutralFactor: 0.5, CornerFactor: 0.35, Solid: seat.NewStone(curve, depth, seat.Given{})}
	s.HeightMM, s.RimMM = depth+1.75, s.Solid.DefaultRimMM(s.ClearanceMM)
	s.CuletMM = s.Solid.PavilionMM
	s.LedgeMM = seat.DefaultLedgeMM(s.Wall(), s.Solid.WidthMM)
	return s, s.LedgeMM > 0
}

// Of random collets, none that is called whole has a stone that falls through,
// stands proud or touches the wall below its bearing.
func TestRandomStonesSit(t *testing.T) {
	const seed = 137
	rnd := rand.New(rand.NewPCG(seed, 1))
	count := 500
	if os.Getenv("GUILDHAND_LONG") != "" {
		count = 10000
	}
	kinds := outline.Kinds()
	whole, said := map[outline.Kind]int{}, 0
	for i := range count {
		kind := kinds[i%(len(kinds)-1)]
		s, ok := random(rnd, kind)
		if !ok {
			continue
		}
		c, err := Lay(s)
		if err != nil {
			continue
		}
		if !c.Seat.Everywhere() || c.Seat.ProudMM > 0 || c.HasPoint && c.Point.FloorMM > s.HeightMM-s.RimMM {
			said++
			continue
		}
		p := plan(s.Stone.Polyline(2e-3))
		whole[kind]++
		assert.LessOrEqual(t, touches(c, p), 0.01, "seed %d case %d: %s lean %.1f", seed, i, kind, s.Lean.Degrees())
		// The wall stands under the girdle's whole edge: the opening at z = 0 is
		// the ledge narrower at every point.
		for k := 0; k < len(p); k += 7 {
			assert.GreaterOrEqual(t, c.LedgeMM-p.depth(p[k]), 0.0, kind)
		}
	}
	for _, kind := range kinds[:len(kinds)-1] {
		assert.Positive(t, whole[kind], "%s: none sat", kind)
	}
	t.Logf("seed %d: %d of %d sat, %d had it said", seed, total(whole), count, said)
}

func total(m map[outline.Kind]int) (n int) {
	for _, v := range m {
		n += v
	}
	return n
}

// The look-out for touching metal can see it: a ledge cut less deep than the
// pavilion asks for is found.
func TestTouchingMetalIsSeen(t *testing.T) {
	for _, kind := range []outline.Kind{outline.Oval, outline.Emerald} {
		s, ok := random(rand.New(rand.NewPCG(3, 3)), kind)
		require.True(t, ok)
		c, err := Lay(s)
		require.NoError(t, err)
		p := plan(s.Stone.Polyline(2e-3))
		require.LessOrEqual(t, touches(c, p), 0.01, kind)
		c.Seat.FloorMM /= 3
		assert.Greater(t, touches(c, p), 0.02, kind)
	}
}
