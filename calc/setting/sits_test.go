package setting

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/development"
	"guildhand/calc/outline"
	"guildhand/calc/seat"
	"guildhand/calc/testcount"
	"guildhand/calc/units"
)

// sameMM is how near the figures must be to the solid.
const sameMM = 0.01

// checkSits holds a collet against the solid. It reports whether the stone sits as
// it should; where it does not, the seat must say so.
func checkSits(t *testing.T, c Collet, what string) (sits bool) {
	t.Helper()
	s := look(c)
	for name, v := range map[string][2]float64{
		"rim outside, length": {c.RimOutside.LengthMM, s.rimOutside.LengthMM}, "rim outside, width": {c.RimOutside.WidthMM, s.rimOutside.WidthMM},
		"base outside, length": {c.BaseOutside.LengthMM, s.baseOutside.LengthMM}, "base outside, width": {c.BaseOutside.WidthMM, s.baseOutside.WidthMM},
		"base opening, length": {c.BaseInside.LengthMM, s.inside.LengthMM}, "base opening, width": {c.BaseInside.WidthMM, s.inside.WidthMM},
	} {
		assert.InDelta(t, v[1], v[0], sameMM+c.RoughMM, "%s: %s", what, name)
	}
	assert.InDelta(t, s.underBase, c.Seat.ProudMM, 1e-9, what)
	if c.Seat.Falls || c.Seat.Wedges || c.Seat.Unsupported {
		return false
	}
	assert.LessOrEqual(t, s.touches, sameMM, "%s: metal in the stone below the bearing", what)
	near := func(solid, said float64, about string) {
		t.Helper()
		same := sameMM
		if !c.Stone.Convex() {
			// Beside a cleft too little is told, and half as much too much.
			same += CleftDoubtMM / 2
			if said < solid {
				said = min(solid, said+CleftDoubtMM)
			}
		}
		assert.InDelta(t, solid, said, same, "%s: %s", what, about)
	}
	if c.LedgeMM == 0 {
		// It rests: at its first place it touches, and stands in metal nowhere.
		near(s.leastLedge, -c.Seat.StandsOffMM, "off the wall")
		return c.Seat.Everywhere() && c.Seat.ProudMM <= 0
	}
	near(s.leastLedge, c.LedgeMM-c.Seat.StandsOffMM, "ledge at its narrowest")
	left := c.Seat.BehindMM
	if c.HasPoint {
		left = min(left, c.Point.LeftMM)
	}
	near(s.behind, left, "wall left")
	if c.Seat.Everywhere() {
		assert.Positive(t, s.leastLedge, "%s: called whole and rests on nothing", what)
	}
	return c.Seat.Everywhere() && c.Seat.ProudMM <= 0
}

// specOf is a collet as it is asked for without options of the seat.
func specOf(curve outline.Curve, depthShare, thick, deg float64, taper Taper) Spec {
	d := curve.Kind.Describe()
	size := curve.Size()
	depth := d.DepthShare * depthShare * min(size.LengthMM, size.WidthMM)
	s := Spec{Stone: curve, ClearanceMM: 0.05, Lean: units.Angle(deg) * units.Degree, Taper: taper,
		ThicknessMM: thick, NeutralFactor: 0.5, CornerFactor: 0.35, Solid: seat.NewStone(curve, depth, seat.Given{})}
	s.HeightMM, s.RimMM = depth+1.75, s.Solid.DefaultRimMM(s.ClearanceMM)
	s.CuletMM = s.Solid.PavilionMM
	s.LedgeMM = seat.DefaultLedgeMM(s.Wall(), s.Solid.WidthMM)
	return s
}

func shapeOf(kind outline.Kind, width, stretch float64) outline.Shape {
	d := kind.Describe()
	shape := outline.Shape{Kind: kind, Size: outline.Size{WidthMM: width, LengthMM: width * d.LengthOverWidth * stretch}}
	if len(d.SizeNumbers) == 1 && d.SizeNumbers[0] == 1 {
		shape.Size.LengthMM = 0
	}
	return shape
}

// drawn are all outlines that have a name.
func drawn() []outline.Kind {
	kinds := outline.Kinds()
	return kinds[:len(kinds)-1]
}

// Every outline, every taper, leans from 0 to 30 degrees, corners bent and scored,
// with a ledge and without: figures and solid agree.
func TestEveryOutlineSits(t *testing.T) {
	leans := []float64{0, 5, 8.5, 14, 22, 30}
	if testcount.Long() {
		leans = []float64{0, 2, 4, 5, 7, 8.5, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30}
	}
	for _, kind := range drawn() {
		t.Run(string(kind), func(t *testing.T) {
			t.Parallel()
			curve, err := outline.New(shapeOf(kind, 7, 1))
			require.NoError(t, err)
			sat := 0
			for _, taper := range []Taper{Even, ApexCone, BaseGiven} {
				for _, deg := range leans {
					for _, work := range []development.CornerWork{development.Bent, development.Scored} {
						for _, drops := range []bool{false, true} {
							s := specOf(curve, 1, 0.8, deg, taper)
							s.Corners = work
							if drops {
								s.LedgeMM = 0
							}
							if taper == BaseGiven {
								s.Base, s.BaseFollows = stone(t, outline.Round, 0, 3), true
								if !curve.Convex() {
									s.Base = curve
								}
							}
							c, err := Lay(s)
							if err != nil {
								assert.NotEmpty(t, err.Error())
								continue
							}
							if checkSits(t, c, fmt.Sprintf("%s at %g degrees, corners %v, ledge %.2f", taper, deg, work, s.LedgeMM)) {
								sat++
							}
						}
					}
				}
			}
			assert.Greater(t, sat, 8, "hardly any sat")
		})
	}
}

// Of random collets, none that is called whole has a stone that falls through,
// stands proud or touches the wall below its bearing. A long run looks at 10,000.
func TestRandomStonesSit(t *testing.T) {
	const seed = 137
	count := testcount.Of(150, 400, 10000)
	kinds := drawn()
	tapers := []Taper{Even, Even, ApexCone, BaseGiven}
	rnd := rand.New(rand.NewPCG(seed, 1))
	whole, answered, said := map[outline.Kind]int{}, 0, 0
	for tries := 0; answered < count; tries++ {
		require.Less(t, tries, 4*count, "most are refused")
		kind := kinds[tries%len(kinds)]
		curve, err := outline.New(shapeOf(kind, 3+9*rnd.Float64(), 0.95+0.2*rnd.Float64()))
		if err != nil {
			continue
		}
		taper := tapers[rnd.IntN(len(tapers))]
		s := specOf(curve, 0.85+0.3*rnd.Float64(), 0.5+0.5*rnd.Float64(), 30*rnd.Float64(), taper)
		s.Corners = development.CornerWork(rnd.IntN(2))
		s.HeightMM += rnd.Float64() - 0.5
		switch rnd.IntN(4) {
		case 0:
			s.LedgeMM = 0
		case 1:
			s.LedgeMM = 0.02 + 0.5*rnd.Float64()
		}
		if taper == BaseGiven {
			s.Base, s.BaseFollows = stone(t, []outline.Kind{outline.Round, outline.Square, outline.Octagon}[rnd.IntN(3)], 0, 3), true
			if !curve.Convex() {
				s.Base = curve
			}
		}
		c, err := Lay(s)
		if err != nil {
			continue
		}
		answered++
		if checkSits(t, c, fmt.Sprintf("seed %d case %d: %s %s lean %.1f ledge %.2f", seed, tries, kind, taper, s.Lean.Degrees(), s.LedgeMM)) {
			whole[kind]++
		} else {
			said++
		}
	}
	sat := 0
	for _, kind := range kinds {
		assert.Positive(t, whole[kind], "%s: none sat", kind)
		sat += whole[kind]
	}
	t.Logf("seed %d: %d answered, %d sat, of %d it is said", seed, answered, sat, said)
}

// The look-out can see what it looks for: metal in the stone, a wall too far out, a
// measure that is off.
func TestTheSolidSeesFaults(t *testing.T) {
	for _, kind := range []outline.Kind{outline.Oval, outline.Emerald, outline.Pear, outline.Heart} {
		curve, err := outline.New(shapeOf(kind, 7, 1))
		require.NoError(t, err)
		c, err := Lay(specOf(curve, 1, 0.8, 12, Even))
		require.NoError(t, err)
		require.LessOrEqual(t, look(c).touches, sameMM, kind)
		shallow := c
		shallow.Seat.FloorMM /= 3
		assert.Greater(t, look(shallow).touches, 0.02, "%s: a floor cut too shallow", kind)
		wide := c
		wide.LedgeMM -= 0.1
		assert.InDelta(t, look(c).leastLedge-0.1, look(wide).leastLedge, 0.005, "%s: a wall farther out", kind)
		thick := c
		thick.ThicknessMM += 0.1
		assert.Greater(t, math.Abs(look(thick).rimOutside.WidthMM-c.RimOutside.WidthMM), 0.1, "%s: a thicker wall", kind)
	}
}
