package setting

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/development"
	"guildhand/calc/outline"
	"guildhand/calc/seat"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

func stone(t testing.TB, kind outline.Kind, length, width float64) outline.Curve {
	t.Helper()
	c, err := outline.New(outline.Shape{Kind: kind, Size: outline.Size{LengthMM: length, WidthMM: width}})
	require.NoError(t, err)
	return c
}

// usual is a collet of 22 gauge sheet as most are asked for.
func usual(c outline.Curve) Spec {
	return Spec{
		Stone: c, CuletMM: 2.8, HeightMM: 5.75, RimMM: 1, ClearanceMM: 0.05,
		Lean: 8.5 * units.Degree, Taper: Even, ThicknessMM: 0.6438, NeutralFactor: 0.5, CornerFactor: 0.5,
	}
}

// A round collet is a frustum whose figures have closed forms: as cut on the
// neutral line, with what filing level takes at each edge, and as filed on the
// outer faces. Each is written out here from the wall's own geometry, and not by
// calc/seat.
func TestRoundColletIsAFrustum(t *testing.T) {
	const seed = 71
	rnd := rand.New(rand.NewPCG(seed, 2))
	for i := range 300 {
		radius := 1.5 + 6*rnd.Float64()
		deg, thick, k := 30*rnd.Float64(), 0.3+0.9*rnd.Float64(), 0.3+0.3*rnd.Float64()
		ledge, clear := []float64{0, 0.05 + 0.3*rnd.Float64()}[i%2], 0.1*rnd.Float64()
		rim, height := 0.2+rnd.Float64(), 1.5+rnd.Float64()*radius
		s := Spec{Stone: stone(t, outline.Round, 0, 2*radius), HeightMM: height, RimMM: rim, ClearanceMM: clear, LedgeMM: ledge,
			Lean: units.Angle(deg) * units.Degree, Taper: Even, ThicknessMM: thick, NeutralFactor: k, CornerFactor: k}
		s.Solid = seat.NewStone(s.Stone, 1.2*radius, seat.Given{})
		c, err := Lay(s)
		if err != nil {
			continue
		}
		sin, cos := math.Sincos(deg * math.Pi / 180)
		tan := sin / cos
		face := radius - ledge // of the inner face at z = 0
		if ledge == 0 {
			face = radius + clear
		}
		neutral := func(z float64) float64 { return face + z*tan + k*thick/cos }
		outer := func(z float64) float64 { return face + z*tan + thick/cos }
		rimZ, baseZ := rim+(1-k)*thick*sin, rim-height-k*thick*sin
		slant := (height + thick*sin) / cos
		cut := max(0, radius+clear-face)
		rest := 0.0
		if ledge == 0 {
			rest = -clear / tan
		}
		for _, v := range []struct {
			what      string
			got, want float64
		}{
			{"rim", c.Flat.RimLengthMM, 2 * math.Pi * neutral(rimZ)},
			{"base", c.Flat.BaseLengthMM, 2 * math.Pi * neutral(baseZ)},
			{"slant", c.SlantMM, slant},
			{"slant between the lines", (rimZ - baseZ) / cos, slant},
			{"area", c.Flat.SurfaceAreaMM2, math.Pi * (neutral(rimZ) + neutral(baseZ)) * slant},
			{"rim outside", c.RimOutside.WidthMM, 2 * outer(rim)},
			{"base outside", c.BaseOutside.WidthMM, 2 * outer(rim-height)},
			{"base opening", c.BaseInside.WidthMM, 2 * (outer(rim-height) - thick/cos)},
			{"loss", c.LossMM, thick * sin},
			{"behind", c.Seat.BehindMM, thick/cos - cut},
			{"rim left", c.Seat.RimLeftMM, thick/cos - max(0, cut-rim*tan)},
			{"rest", c.Seat.RestMM, rest},
			{"girdle line", c.GirdleLineMM(), (rim + thick*sin) / cos},
		} {
			if v.what == "rest" && c.Seat.Falls {
				assert.True(t, rest < rim-height, "seed %d case %d: said to fall and rests at %v", seed, i, rest)
				continue
			}
			assert.InDelta(t, v.want, v.got, 1e-9*max(1, math.Abs(v.want)), "seed %d case %d: %s", seed, i, v.what)
		}
	}
}

// An even slope on an ellipse: lengths are those of parallels of the ellipse,
// P + 2 pi d, and outside measures its axes and twice the offset.
func TestEllipseInClosedForm(t *testing.T) {
	const length, width, deg, thick, k, ledge, rim, height = 9.0, 7.0, 11.0, 0.7, 0.45, 0.2, 0.9, 5.0
	s := usual(stone(t, outline.Oval, length, width))
	s.Lean, s.ThicknessMM, s.NeutralFactor, s.LedgeMM, s.RimMM, s.HeightMM = deg*units.Degree, thick, k, ledge, rim, height
	c, err := Lay(s)
	require.NoError(t, err)
	sin, cos := math.Sincos(deg * math.Pi / 180)
	perimeter := outline.EllipsePerimeterMM(length/2, width/2)
	at := func(z float64) float64 { return perimeter + 2*math.Pi*(z*sin/cos-ledge+k*thick/cos) }
	assert.InDelta(t, at(rim+(1-k)*thick*sin), c.Flat.RimLengthMM, 1e-9*perimeter)
	assert.InDelta(t, at(rim-height-k*thick*sin), c.Flat.BaseLengthMM, 1e-9*perimeter)
	out := 2 * (rim*sin/cos - ledge + thick/cos)
	assert.InDelta(t, length+out, c.RimOutside.LengthMM, 1e-9)
	assert.InDelta(t, width+out, c.RimOutside.WidthMM, 1e-9)
}

// Flats, bent and scored, by hand. Square-cut edges leave the inner face from
// rim + t sin a to rim - height, and the outer face t sin a lower at both.
func TestFlatsByHand(t *testing.T) {
	const thick, k, h, rim, ledge, deg = 0.8, 0.4, 4.0, 0.9, 0.25, 20.0
	sin, cos := math.Sincos(deg * math.Pi / 180)
	for _, flats := range []struct {
		kind          outline.Kind
		length, width float64
		// sides by normal in order, lengths grow by grow per mm of offset
		sides []float64
		grow  []float64
		turns []float64
	}{
		{outline.Square, 0, 10, []float64{10, 10, 10, 10}, []float64{2, 2, 2, 2}, []float64{math.Pi / 2, math.Pi / 2, math.Pi / 2, math.Pi / 2}},
		{outline.Emerald, 10, 8, []float64{7.6, 1.2 * math.Sqrt2, 5.6, 1.2 * math.Sqrt2, 7.6, 1.2 * math.Sqrt2, 5.6, 1.2 * math.Sqrt2},
			[]float64{2 * math.Tan(math.Pi/8), 2 * math.Tan(math.Pi/8), 2 * math.Tan(math.Pi/8), 2 * math.Tan(math.Pi/8), 2 * math.Tan(math.Pi/8), 2 * math.Tan(math.Pi/8), 2 * math.Tan(math.Pi/8), 2 * math.Tan(math.Pi/8)},
			[]float64{math.Pi / 4, math.Pi / 4, math.Pi / 4, math.Pi / 4, math.Pi / 4, math.Pi / 4, math.Pi / 4, math.Pi / 4}},
	} {
		s := usual(stone(t, flats.kind, flats.length, flats.width))
		s.ThicknessMM, s.NeutralFactor, s.CornerFactor, s.Lean = thick, k, k, deg*units.Degree
		s.HeightMM, s.RimMM, s.CuletMM, s.LedgeMM = h, rim, 0, ledge
		perimeter := func(offset float64) float64 {
			sum := 0.0
			for i, l := range flats.sides {
				sum += l + offset*flats.grow[i]
			}
			return sum
		}
		inner := func(z float64) float64 { return perimeter(z*sin/cos - ledge) }
		outer := func(z float64) float64 { return perimeter(z*sin/cos - ledge + thick/cos) }
		strips := 0.0
		for _, theta := range flats.turns {
			strips += math.Acos(cos*cos*math.Cos(theta)+sin*sin) * k * thick
		}
		bent, err := Lay(s)
		require.NoError(t, err)
		s.Corners = development.Scored
		scored, err := Lay(s)
		require.NoError(t, err)
		for what, v := range map[string][2]float64{
			"bent rim":    {bent.Flat.RimLengthMM, inner(rim+thick*sin) + strips},
			"bent base":   {bent.Flat.BaseLengthMM, inner(rim-h) + strips},
			"scored rim":  {scored.Flat.RimLengthMM, outer(rim)},
			"scored base": {scored.Flat.BaseLengthMM, outer(rim - h - thick*sin)},
			"slant":       {scored.SlantMM, (h + thick*sin) / cos},
			"rim outside": {scored.RimOuter.PerimeterMM(), outer(rim)},
		} {
			assert.InDelta(t, v[1], v[0], 1e-9*v[1], "%s: %s", flats.kind, what)
		}
	}
}

// A kerf moves every edge of a round's blank out by half of it, and leaves the
// finished measures alone.
func TestKerf(t *testing.T) {
	s := usual(stone(t, outline.Round, 0, 6))
	plain, err := Lay(s)
	require.NoError(t, err)
	const kerf = 0.2
	s.KerfMM = kerf
	wide, err := Lay(s)
	require.NoError(t, err)
	// A ring of the sector at the distance d further out is longer by d times
	// the sector's angle.
	grow := kerf/2*2*math.Pi*math.Sin(8.5*math.Pi/180) + kerf
	for what, v := range map[string][2]float64{
		"rim":      {wide.Flat.RimLengthMM, plain.Flat.RimLengthMM + grow},
		"base":     {wide.Flat.BaseLengthMM, plain.Flat.BaseLengthMM + 2*kerf - grow},
		"slant":    {wide.SlantMM, plain.SlantMM},
		"finished": {wide.RimOuter.PerimeterMM(), plain.RimOuter.PerimeterMM()},
		"seam":     {wide.Flat.SeamA.LengthMM(), plain.Flat.SeamA.LengthMM() + kerf},
	} {
		tol := 1e-9
		if what == "seam" {
			tol = 2e-3 // its ends run on along the rim's tangent, not along the arc
		}
		assert.InDelta(t, v[1], v[0], tol, "%s %.9f, want %.9f", what, v[0], v[1])
	}
}

func TestLimits(t *testing.T) {
	oval := stone(t, outline.Oval, 8, 6)
	t.Run("ErrBaseClosed", func(t *testing.T) {
		s := usual(oval)
		s.Lean = 40 * units.Degree
		var e *LimitError
		if _, err := Lay(s); !errors.As(err, &e) {
			t.Fatalf("got %v", err)
		}
		s.Lean = e.MaxLean
		if _, err := Lay(s); err != nil || e.MaxLean <= 0 {
			t.Errorf("the largest lean, %v, is refused: %v", e.MaxLean.Degrees(), err)
		}
		s.Lean += 0.2 * units.Degree
		if _, err := Lay(s); err == nil {
			t.Errorf("a lean 0.2 degrees above the largest works")
		}
		if e.MaxHeightMM > 0 {
			s.Lean, s.HeightMM = 40*units.Degree, e.MaxHeightMM
			if _, err := Lay(s); err != nil {
				t.Errorf("the largest height is refused: %v", err)
			}
		}
	})
	t.Run("ErrCulet", func(t *testing.T) {
		s := usual(oval)
		s.HeightMM = 3
		var e *LimitError
		if _, err := Lay(s); !errors.As(err, &e) || e.MinHeightMM == 0 {
			t.Fatalf("got %v", err)
		}
		s.HeightMM = e.MinHeightMM
		if _, err := Lay(s); err != nil {
			t.Errorf("the least height is refused: %v", err)
		}
	})
	t.Run("ErrThick", func(t *testing.T) {
		s := usual(stone(t, outline.Round, 0, 2))
		s.CuletMM, s.HeightMM, s.ThicknessMM = 0, 2, 1.5
		var e *LimitError
		if _, err := Lay(s); !errors.As(err, &e) || e.MaxThicknessMM == 0 {
			t.Fatalf("got %v", err)
		}
	})
}

// A base that follows from the lean and closes is refused with the largest lean
// and height at which it stays open, and these work while a little more does
// not.
func TestBaseThatFollowsCloses(t *testing.T) {
	s := usual(stone(t, outline.Square, 0, 6))
	s.Taper, s.Base, s.BaseFollows, s.CuletMM = BaseGiven, stone(t, outline.Round, 0, 3), true, 0
	s.Lean = 45 * units.Degree
	_, err := Lay(s)
	var limit *LimitError
	if !errors.As(err, &limit) || limit.MaxLean <= 0 || limit.MaxHeightMM <= 0 {
		t.Fatalf("got %v", err)
	}
	for _, more := range []float64{0, 0.2} {
		leaning, lower := s, s
		leaning.Lean = limit.MaxLean + units.Angle(more)*units.Degree
		lower.HeightMM = limit.MaxHeightMM + more
		for _, try := range []Spec{leaning, lower} {
			if _, err := Lay(try); (err != nil) != (more > 0) {
				t.Errorf("lean %.2f°, height %.2f mm: %v", try.Lean.Degrees(), try.HeightMM, err)
			}
		}
	}
	// Its size follows: the mean lean is the one that was asked for.
	s.Lean = 10 * units.Degree
	c, err := Lay(s)
	require.NoError(t, err)
	below := c.HeightMM - c.RimMM
	plan, err := s.Stone.Offset(s.ClearanceMM)
	require.NoError(t, err)
	assert.InDelta(t, float64(s.Lean), math.Atan((plan.PerimeterMM()-c.BaseInner.PerimeterMM())/(2*math.Pi*below)), 1e-9, "mean lean below the girdle")
}

// A base of its own: the stone passes everywhere at the girdle.
func TestBaseGivenStonePasses(t *testing.T) {
	for _, base := range []outline.Kind{outline.Round, outline.Square, outline.Octagon} {
		for _, kind := range []outline.Kind{outline.Square, outline.Oval, outline.Pear, outline.Emerald, outline.Trillion} {
			length := 7.0
			if kind == outline.Square {
				length = 0
			}
			s := usual(stone(t, kind, length, 6))
			s.Taper, s.Base, s.BaseFollows = BaseGiven, stone(t, base, 0, 3), true
			c, err := Lay(s)
			if err != nil {
				t.Errorf("%s on %s: %v", kind, base, err)
				continue
			}
			f := s.RimMM / s.HeightMM
			for i := range 997 {
				phi := 2 * math.Pi * float64(i) / 997
				h := headingOf(phi)
				wall := (1-f)*h.ofAll(c.RimInner) + f*h.ofAll(c.BaseInner)
				if short := h.ofAll(s.Stone) + s.ClearanceMM - wall; short > 2e-3 {
					t.Fatalf("%s on %s: the wall cuts %v mm into the stone's room at %v", kind, base, short, phi)
				}
			}
			if c.GirdleGapMM < 0 || c.GirdleGapMM > 3 {
				t.Errorf("%s on %s: gap %v", kind, base, c.GirdleGapMM)
			}
		}
	}
}

// Slender ovals whose base gains corners still develop.
func TestSlenderOvalGainsCorners(t *testing.T) {
	s := usual(stone(t, outline.Oval, 10, 4))
	s.Lean, s.CuletMM = 12*units.Degree, 0
	c, err := Lay(s)
	require.NoError(t, err)
	if c.BaseInner.Smooth() {
		t.Fatal("the base has no corner; the case is not what it should be")
	}
	if !(c.Flat.BaseLengthMM > 0 && c.Flat.BaseLengthMM < c.Flat.RimLengthMM) {
		t.Errorf("base %v, rim %v", c.Flat.BaseLengthMM, c.Flat.RimLengthMM)
	}
}

func TestRandomColletsKeepTheirPromises(t *testing.T) {
	const seed = 31
	rnd := rand.New(rand.NewPCG(seed, 5))
	kinds := outline.Kinds()
	made := 0
	for i := range 8000 {
		shape := outline.Shape{Kind: kinds[rnd.IntN(len(kinds)-1)], Size: outline.Size{WidthMM: 1 + 20*rnd.Float64()}}
		if shape.Kind != outline.Round && shape.Kind != outline.Square {
			shape.Size.LengthMM = shape.Size.WidthMM * (1 + rnd.Float64())
		}
		c, err := outline.New(shape)
		if err != nil {
			continue
		}
		s := Spec{
			Stone: c, HeightMM: 0.5 + 10*rnd.Float64(), RimMM: 1.5 * rnd.Float64(), ClearanceMM: 0.2 * rnd.Float64(),
			Lean: units.Angle(25*rnd.Float64()) * units.Degree, Taper: []Taper{Even, ApexCone}[rnd.IntN(2)],
			ThicknessMM: 0.2 + 1.5*rnd.Float64(), NeutralFactor: 0.5, CornerFactor: 0.35,
			Corners: development.CornerWork(rnd.IntN(2)), InsideRadiusMM: 0.5 * float64(rnd.IntN(2)),
			Seam: c.Places[rnd.IntN(len(c.Places))],
		}
		got, err := Lay(s)
		if err != nil {
			if err.Error() == "" {
				t.Fatalf("seed %d case %d: refused without a sentence", seed, i)
			}
			continue
		}
		made++
		for what, v := range map[string]float64{
			"rim": got.Flat.RimLengthMM, "base": got.Flat.BaseLengthMM, "area": got.Flat.AreaMM2,
			"width": got.Flat.WidthMM, "height": got.Flat.HeightMM, "slant": got.SlantMM,
		} {
			if !(v > 0) || math.IsInf(v, 0) {
				t.Fatalf("seed %d case %d: %+v: %s is %v", seed, i, shape, what, v)
			}
		}
		if stock.MassG(got.Flat.OffcutMM2()*s.ThicknessMM, 10) < -1e-9 {
			t.Fatalf("seed %d case %d: %+v: offcut %v g", seed, i, shape, stock.MassG(got.Flat.OffcutMM2()*s.ThicknessMM, 10))
		}
	}
	if made < 1200 {
		t.Fatalf("only %d of 8000 collets could be made", made)
	}
}
