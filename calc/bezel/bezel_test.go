package bezel

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

const seed = 20261125

func stone(t testing.TB, kind outline.Kind, length, width float64) outline.Curve {
	t.Helper()
	c, err := outline.New(outline.Shape{Kind: kind, Size: outline.Size{LengthMM: length, WidthMM: width}})
	require.NoError(t, err)
	return c
}

func spec(c outline.Curve) Spec {
	return Spec{Stone: c, DomeMM: 2.5, Edge: 10 * units.Degree, ClearanceMM: 0.05, ThicknessMM: 0.4, NeutralFactor: 0.5}
}

// stones are one of every outline but measured.
func stones(t testing.TB) []outline.Curve {
	var list []outline.Curve
	for _, k := range outline.Kinds() {
		length, width := 10.0, 8.0
		switch k {
		case outline.Measured:
			continue
		case outline.Round, outline.Square, outline.Heart, outline.Trillion, outline.Hexagon, outline.Octagon:
			length = 0
		case outline.HalfMoon:
			length, width = 12, 6
		case outline.Marquise:
			width = 6
		}
		list = append(list, stone(t, k, length, width))
	}
	return list
}

// The strip's length does not depend on where it is opened, but at a corner,
// where the ends run on to the mitre; and the closed rule holds.
func TestLengthByTheRule(t *testing.T) {
	for _, c := range stones(t) {
		for _, corners := range []Corners{Bent, Mitred} {
			s := spec(c)
			s.Corners = corners
			inner, _ := c.Offset(s.ClearanceMM)
			outer, _ := c.Offset(s.ClearanceMM + s.ThicknessMM)
			want := inner.PerimeterMM() + 2*math.Pi*s.NeutralFactor*s.ThicknessMM
			if corners == Mitred {
				if c.LongestFlatMM() == 0 || c.Kind == outline.HalfMoon {
					continue
				}
				want = outer.PerimeterMM()
			}
			for _, place := range c.Places {
				b, err := Lay(s, place)
				require.NoError(t, err, c.Kind)
				if c.Kind == outline.Heart || (place.AtCorner && b.Bevel > 0 && corners == Bent) {
					continue
				}
				assert.InDelta(t, want, b.LengthMM, 1e-9*want, "%s, seam %s: strip %.9f mm, rule %.9f", c.Kind, place.Name, b.LengthMM, want)
			}
		}
	}
}

// A bezel of a heart keeps the length of its faces: sides and lobes at the
// neutral line, and the cleft bent on the outside.
func TestHeartAtItsPoint(t *testing.T) {
	c := stone(t, outline.Heart, 8, 8)
	s := spec(c)
	point, _ := c.PlaceNamed("point")
	b, err := Lay(s, point)
	require.NoError(t, err)
	turn := func(i int) float64 { return b.Inner.Turning(i).Radians() }
	want := b.Inner.PerimeterMM()
	for i, p := range b.Inner.Pieces {
		want += (p.To - p.From) * 0.2
		switch th := turn(i); {
		case th > 0:
			want += 2 * 0.4 * math.Tan(th/2) // both ends run on to the mitre
		case th < 0:
			want += -th*0.2 - 2*0.4*math.Tan(-th/2)
		}
	}
	if math.Abs(b.LengthMM-want) > 1e-9 || len(b.Folds) != 1 || b.Bevel <= 0 || b.BevelReflex {
		t.Errorf("strip %.6f mm, want %.6f; %d folds, bevel %.2f°", b.LengthMM, want, len(b.Folds), b.Bevel.Degrees())
	}
	cleft, _ := c.PlaceNamed("cleft")
	if b, err := Lay(s, cleft); err != nil || !b.BevelReflex {
		t.Errorf("seam at the cleft: %v, reflex %v", err, b.BevelReflex)
	}
}

func TestFoldsAndQuarters(t *testing.T) {
	for _, c := range stones(t) {
		for _, place := range c.Places {
			b, err := Lay(spec(c), place)
			require.NoError(t, err)
			want := 0
			for i := range b.Inner.Pieces {
				if b.Inner.Turning(i) != 0 {
					want++
				}
			}
			if b.Bevel > 0 {
				want--
			}
			if len(b.Folds) != want {
				t.Errorf("%s, seam %s: %d folds, want %d", c.Kind, place.Name, len(b.Folds), want)
			}
			for _, x := range append(slices.Clone(b.Folds), b.Quarters...) {
				if x < -1e-9 || x > b.LengthMM+1e-9 {
					t.Errorf("%s, seam %s: a mark at %.4f of %.4f mm", c.Kind, place.Name, x, b.LengthMM)
				}
			}
			if !slices.IsSorted(b.Folds) {
				t.Errorf("%s, seam %s: folds out of order", c.Kind, place.Name)
			}
		}
	}
	// An oval opened on its side: its ends lie a quarter and three quarters on.
	c := stone(t, outline.Oval, 10, 8)
	b, err := Lay(spec(c), c.Places[0])
	require.NoError(t, err)
	for _, share := range []float64{0.25, 0.5, 0.75} {
		if !slices.ContainsFunc(b.Quarters, func(x float64) bool { return math.Abs(x-share*b.LengthMM) < 1e-6 }) {
			t.Errorf("no quarter mark at %.2f of the strip: %v of %.4f", share, b.Quarters, b.LengthMM)
		}
	}
}

// The conic is the circle on a spherical cap and the ellipse on an upright
// edge.
func TestProfile(t *testing.T) {
	const R, H = 4.0, 1.5
	cap, err := profileOf(R, H, CapEdge(2*R, H))
	require.NoError(t, err)
	r := (R*R + H*H) / (2 * H)
	upright, err := profileOf(R, H, 0)
	require.NoError(t, err)
	for i := range 21 {
		u := float64(i) / 20
		x, y := cap.at(u)
		assert.InDelta(t, r, math.Hypot(x, y-(H-r)), 1e-12, "cap at %.2f", u)
		x, y = upright.at(u)
		if e := x*x/(R*R) + y*y/(H*H); math.Abs(e-1) > 1e-12 {
			t.Errorf("upright edge at %.2f: not on the ellipse by %.2g", u, e-1)
		}
	}
}

// The wall's edge, laid against the dome, has drawn in by the grip where the
// curve of the side sets the height.
func TestHeightGrips(t *testing.T) {
	r := rand.New(rand.NewPCG(seed, 1))
	byCurve := 0
	for range 400 {
		w := 4 + 16*r.Float64()
		s := spec(stone(t, outline.Oval, w*(1.05+0.5*r.Float64()), w))
		s.DomeMM = w * (0.15 + 0.35*r.Float64())
		s.Edge = CapEdge(w, s.DomeMM)
		s.ThicknessMM = 0.25 + 0.4*r.Float64()
		b, err := Lay(s, s.Stone.Places[0])
		require.NoError(t, err, "seed %d", seed)
		// On a circle of the cap's radius the wall reaches from the girdle to
		// the place drawn in by the grip.
		R, H := w/2, s.DomeMM
		rad := (R*R + H*H) / (2 * H)
		angle := func(x float64) float64 { return math.Asin(x / rad) }
		want := rad * (angle(R) - angle(R-UsualGrip(s.ThicknessMM, w)))
		assert.InDelta(t, want, b.ByCurveMM, 1e-4, "seed %d: width %.3f, dome %.3f", seed, w, H)
		if b.Rule == ByCurve {
			byCurve++
			assert.InDelta(t, want, b.OverMM, 1e-4)
			assert.InDelta(t, UsualGrip(s.ThicknessMM, w), b.ReachMM, 1e-4)
		}
	}
	assert.Greater(t, byCurve, 50, "the curve sets too few heights to judge by")
}

// No wall is lower than a third of the stone's height, or than what can be
// rubbed over, unless its grip was given; and then Short says so. Both rules are
// worked out here again.
func TestNoWallTooLowUnsaid(t *testing.T) {
	r := rand.New(rand.NewPCG(seed, 2))
	rules, short := map[Rule]int{}, 0
	for i := range 400 {
		w := 3 + 57*r.Float64()
		s := spec(stone(t, outline.Oval, w*(1.01+0.6*r.Float64()), w))
		s.DomeMM = w * (0.12 + 0.38*r.Float64())
		s.ThicknessMM = 0.25 + 0.35*r.Float64()
		if r.IntN(3) == 0 {
			s.GirdleMM = 0.5 * s.DomeMM * r.Float64()
		}
		s.Edge, s.EdgeAssumed = AssumedEdge(w, s.DomeMM-s.GirdleMM), true
		if r.IntN(2) == 0 {
			s.Edge, s.EdgeAssumed = units.Angle(50*r.Float64())*units.Degree, false
		}
		if r.IntN(4) == 0 {
			s.GripMM = 0.05 + 0.6*r.Float64()
		}
		b, err := Lay(s, s.Stone.Places[0])
		var refused *Error
		if errors.As(err, &refused) {
			continue // said, and counted below
		}
		require.NoError(t, err)
		wall := b.GirdleMM + b.OverMM
		least := math.Max(s.DomeMM/3, s.GirdleMM+math.Max(0.5, 1.5*s.ThicknessMM))
		if wall < least-1e-9 {
			short++
			assert.Positive(t, s.GripMM, "bezel %d: %.3f mm of wall, least %.3f", i, wall, least)
			assert.True(t, b.Short(), "bezel %d: %.3f mm of wall, least %.3f, unsaid", i, wall, least)
		} else {
			assert.False(t, b.Short(), "bezel %d: %.3f mm of wall called short of %.3f", i, wall, least)
		}
		if s.GripMM == 0 {
			assert.LessOrEqual(t, b.LowMM, wall+1e-9)
			assert.GreaterOrEqual(t, b.HighMM, wall-1e-9)
		}
		rules[b.Rule]++
	}
	assert.Greater(t, rules[ByCurve]+rules[ByThird]+rules[ByLeast]+rules[ByGrip], 380, "refused too many: %v", rules)
	for _, rule := range []Rule{ByCurve, ByThird, ByGrip} {
		assert.Greater(t, rules[rule], 10, "rule %d sets too few heights: %v", rule, rules)
	}
	assert.Greater(t, short, 10, "no short wall was tried")
}

// A stone whose side is upright nearly to its crown needs the wall up to there
// and a little more; upright all the way, nothing can hold it.
func TestUprightSide(t *testing.T) {
	s := spec(stone(t, outline.Round, 0, 10))
	s.DomeMM, s.GirdleMM, s.Edge = 4, 3, 0
	b, err := Lay(s, s.Stone.Places[0])
	require.NoError(t, err)
	assert.GreaterOrEqual(t, b.HeightMM, 3.5)
	s.GirdleMM = 4
	_, err = Lay(s, s.Stone.Places[0])
	require.ErrorContains(t, err, "recut")
}

func TestSteeperSideNeedsMoreWall(t *testing.T) {
	last := 0.0
	for _, edge := range []float64{40, 30, 20, 10, 0} {
		s := spec(stone(t, outline.Oval, 10, 8))
		s.Edge = units.Angle(edge) * units.Degree
		b, err := Lay(s, s.Stone.Places[0])
		require.NoError(t, err)
		if b.OverMM < last {
			t.Errorf("edge of %.0f°: %.3f mm over the girdle, less than for a flatter one", edge, b.OverMM)
		}
		last = b.OverMM
	}
}

func TestBearings(t *testing.T) {
	c := stone(t, outline.Round, 0, 10)
	s := spec(c)
	plain, _ := Lay(s, c.Places[0])
	s.Bearing, s.BearingMM, s.BearingThickMM = Step, 1.2, 0.5
	step, err := Lay(s, c.Places[0])
	require.NoError(t, err)
	if want := math.Pi * (10 + 2*0.05 - 0.5); math.Abs(step.BearingLengthMM-want) > 1e-9 || math.Abs(step.HeightMM-plain.HeightMM-1.2) > 1e-12 {
		t.Errorf("step of %.4f mm, want %.4f; height %.3f", step.BearingLengthMM, want, step.HeightMM)
	}
	s.Bearing, s.BearingMM = Wire, 0.8
	wire, err := Lay(s, c.Places[0])
	require.NoError(t, err)
	assert.InDelta(t, math.Pi*(10+2*0.05-0.8), wire.BearingLengthMM, 1e-9, "wire")
}

func TestRefusals(t *testing.T) {
	c := stone(t, outline.Oval, 6, 4)
	var e *Error
	for name, change := range map[string]func(*Spec){
		"flat side":     func(s *Spec) { s.Edge = 70 * units.Degree },
		"pointed dome":  func(s *Spec) { s.DomeMM, s.Edge = 4, 50*units.Degree },
		"grip too wide": func(s *Spec) { s.GripMM = 2.5 },
		"thick bearing": func(s *Spec) { s.Bearing, s.BearingMM, s.BearingThickMM = Step, 1, 5 },
	} {
		s := spec(c)
		change(&s)
		if _, err := Lay(s, c.Places[0]); !errors.As(err, &e) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
