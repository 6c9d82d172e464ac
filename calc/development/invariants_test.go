package development

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// evenCase is an even-slope wall without thickness, laid flat.
type evenCase struct {
	plan outline.Curve
	lean units.Angle
	s    Sections
	f    Flat
	// fine is f in very small steps, for one wall in fifty.
	fine Flat
}

func evenWall(plan outline.Curve, rim, height float64, lean units.Angle) (evenCase, error) {
	s, err := EvenSlope(plan, 0, rim, height, lean)
	if err != nil {
		return evenCase{}, err
	}
	s.Seam = plan.Places[0]
	f, err := Develop(Wall{Sections: s})
	return evenCase{plan: plan, lean: lean, s: s, f: f}, err
}

func differ(what string, got, want, tol float64) error {
	if !(math.Abs(got-want) <= tol) {
		return fmt.Errorf("%s is %.12g, want %.12g", what, got, want)
	}
	return nil
}

// invariants is the numbered list of the package's documentation. plant spoils
// the case as a wrong computation would, so that the check is seen to fail.
var invariants = []struct {
	number  int
	applies func(evenCase) bool
	check   func(evenCase) error
	plant   func(*evenCase)
}{
	{1, func(evenCase) bool { return true },
		func(c evenCase) error {
			return differ("flat area", c.f.AreaMM2, c.f.SurfaceAreaMM2, 1e-6*c.f.SurfaceAreaMM2)
		},
		func(c *evenCase) { c.f.AreaMM2 *= 1 + 1e-5 }},
	{2, func(evenCase) bool { return true },
		func(c evenCase) error {
			for _, e := range []struct {
				what  string
				path  []Cubic
				space float64
			}{{"rim", c.f.Rim, c.s.Rim.PerimeterMM()}, {"base", c.f.Base, c.s.Base.PerimeterMM()}} {
				drawn := 0.0
				for _, q := range e.path {
					drawn += q.LengthMM()
				}
				if err := differ(e.what, drawn, e.space, 1e-6*(1+e.space)); err != nil {
					return err
				}
			}
			return nil
		},
		func(c *evenCase) {
			// One short piece of the rim is laid wrong by some hundredths.
			c.f.Rim[len(c.f.Rim)/2].P2.Y += 0.05
			c.f.Rim[len(c.f.Rim)/2].P1.Y += 0.05
		}},
	{3, func(c evenCase) bool { return c.s.Rim.Smooth() && c.s.Base.Smooth() },
		func(c evenCase) error {
			want := 2 * math.Pi * c.lean.Sin()
			return differ("turn", -c.f.Turn.Radians(), want, 1e-10)
		},
		func(c *evenCase) { c.f.Turn += 1e-8 }},
	{4, func(c evenCase) bool { return len(c.fine.Rulings) > 0 },
		func(c evenCase) error {
			mm, _ := misfitOf(c.fine)
			return differ("sum of the triangles' misfits", mm, 0, 1e-6*math.Max(1, c.f.RimLengthMM/30))
		},
		func(c *evenCase) { c.fine.Rulings[len(c.fine.Rulings)/2].FlatBase.X += 1e-4 }},
	{5, func(c evenCase) bool { return c.plan.Kind == outline.Round },
		func(c evenCase) error {
			r1, r2 := c.s.Rim.PerimeterMM()/2/math.Pi, c.s.Base.PerimeterMM()/2/math.Pi
			slant := math.Hypot(r1-r2, c.s.HeightMM)
			if err := differ("area", c.f.SurfaceAreaMM2, math.Pi*(r1+r2)*slant, 1e-9*c.f.AreaMM2); err != nil {
				return err
			}
			return differ("turn", -c.f.Turn.Radians(), 2*math.Pi*(r1-r2)/slant, 1e-9)
		},
		func(c *evenCase) { c.f.SurfaceAreaMM2 *= 1 + 1e-8 }},
	{6, func(c evenCase) bool { return c.lean == 0 },
		func(c evenCase) error {
			if err := differ("width", c.f.WidthMM, c.plan.PerimeterMM(), 1e-9*c.f.WidthMM); err != nil {
				return err
			}
			return differ("height", c.f.HeightMM, c.s.HeightMM, 1e-9)
		},
		func(c *evenCase) { c.f.WidthMM += 1e-6 }},
	{7, func(c evenCase) bool { return c.s.Rim.Smooth() && c.s.Base.Smooth() },
		func(c evenCase) error {
			return differ("base", c.f.BaseLengthMM, c.f.RimLengthMM-2*math.Pi*c.s.HeightMM*c.lean.Tan(), 1e-8)
		},
		func(c *evenCase) { c.f.BaseLengthMM += 1e-7 }},
	{8, func(c evenCase) bool { return c.plan.LongestFlatMM() > 0 && polygonal(c.s.Rim) && polygonal(c.s.Base) },
		func(c evenCase) error {
			want := 0.0
			for i := range c.s.Rim.Pieces {
				theta := c.s.Rim.Turning(i).Radians()
				want += 2 * math.Atan(c.lean.Sin()*math.Tan(theta/2))
			}
			return differ("turn", -c.f.Turn.Radians(), want, 1e-9)
		},
		func(c *evenCase) { c.f.Turn += 1e-6 }},
}

// polygonal reports whether every piece is straight and faces a side of its
// own, as on a section that has lost none.
func polygonal(c outline.Curve) bool {
	for _, p := range c.Pieces {
		if p.Kind != outline.Straight {
			return false
		}
	}
	return true
}

// randomEven draws even-slope walls of random outlines.
func randomEven(t *testing.T, seed uint64, n int, visit func(i int, c evenCase)) {
	t.Helper()
	rnd := rand.New(rand.NewPCG(seed, 11))
	kinds := outline.Kinds()
	for i := range n {
		shape := outline.Shape{Kind: kinds[rnd.IntN(len(kinds))], Size: outline.Size{WidthMM: 2 + 12*rnd.Float64()}}
		switch shape.Kind {
		case outline.Round, outline.Square:
		case outline.Measured:
			shape.Points = ring(8 + rnd.IntN(40))
			shape.Polygon = rnd.IntN(2) == 0
		default:
			shape.Size.LengthMM = shape.Size.WidthMM * (1 + rnd.Float64())
		}
		plan, err := outline.New(shape)
		if err != nil {
			continue
		}
		lean := units.Angle(20*rnd.Float64()*float64(min(1, rnd.IntN(6)))) * units.Degree
		c, err := evenWall(plan, rnd.Float64(), 1.5+6*rnd.Float64(), lean)
		if err != nil {
			continue
		}
		if i%50 == 0 {
			if c.fine, err = fineFlat(c.s); err != nil {
				t.Fatal(err)
			}
		}
		visit(i, c)
	}
}

// Every invariant on random outlines, and how often each was put to the test.
func TestInvariantsOnRandomOutlines(t *testing.T) {
	const seed = 20261125
	tested := map[int]int{}
	randomEven(t, seed, 4000, func(i int, c evenCase) {
		sameSides := len(c.s.Rim.Pieces) == len(c.s.Base.Pieces)
		for _, inv := range invariants {
			if !inv.applies(c) || (inv.number == 8 && !sameSides) {
				continue
			}
			tested[inv.number]++
			if err := inv.check(c); err != nil {
				t.Errorf("invariant %d, seed %d, case %d (%s %+v, lean %.4g): %v", inv.number, uint64(seed), i, c.plan.Kind, c.plan.Size(), c.lean.Degrees(), err)
			}
		}
	})
	for _, inv := range invariants {
		if tested[inv.number] < 20 {
			t.Errorf("invariant %d was tested on %d walls only", inv.number, tested[inv.number])
		}
	}
	t.Logf("walls tested by invariant: %v", tested)
}

// Every check fails on a planted error.
func TestInvariantsSeePlantedErrors(t *testing.T) {
	for _, inv := range invariants {
		seen := 0
		randomEven(t, 99, 600, func(_ int, c evenCase) {
			if !inv.applies(c) || inv.check(c) != nil {
				return
			}
			seen++
			inv.plant(&c)
			if inv.check(c) == nil {
				t.Errorf("invariant %d does not see the planted error on a %s", inv.number, c.plan.Kind)
			}
		})
		if seen == 0 {
			t.Errorf("invariant %d met no wall", inv.number)
		}
	}
}

// The triangulation of invariants 1 and 2 and the fold-back of invariant 4
// see an error planted in the sections they are given.
func TestIndependentChecksSeePlantedErrors(t *testing.T) {
	plan := draw(t, "pear")
	c, err := evenWall(plan, 1, 4, 8.5*units.Degree)
	require.NoError(t, err)
	wrong := c.s
	wrong.Base = wrong.Base.Scaled(1.0005)
	area, _, base := triangulated(wrong, 4000)
	if math.Abs(area-c.f.SurfaceAreaMM2) < 1e-6*area || math.Abs(base-c.f.BaseLengthMM) < 1e-6*base {
		t.Error("the triangulation does not see a base that is 0.05 % too large")
	}
	spans, err := walk(c.s.Rim, c.s.Base)
	require.NoError(t, err)
	spans, ridge, err := opened(spans, c.s.Seam)
	require.NoError(t, err)
	// Lay the wall flat as if it were a little higher than it is.
	a := assembly{wall: Wall{Sections: c.s}, fl: flattening{height: c.s.HeightMM * 1.0001}}
	if err := a.lay(spans, ridge); err != nil {
		t.Fatal(err)
	}
	f, err := a.flat()
	require.NoError(t, err)
	if isometry(f) < 1e-6 {
		t.Error("the fold-back does not see a height that is 0.01 % wrong")
	}
}
