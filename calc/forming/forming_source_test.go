package forming

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// Published relations worked out by hand for the inputs of a published
// example: tube of 20 mm outer diameter and 2 mm wall to 16 mm outer diameter,
// semi-angle 8 degrees, friction 0.1 (engineeringenotes.com, "How to analyze
// tube sinking", example 1; its answer is cut off, so that only the inputs are
// published). Mean diameters 18 and 14 mm.
//
//   - nosing, sigma = Y (1 + mu cot a)(1 - r): 0.3803 Y (thin-shell result as in
//     Johnson and Mellor, Engineering Plasticity; the relation is from memory)
//   - sinking, sigma = Y ((1+B)/B)(1 - r^B), B = mu cot a: 0.3939 Y (Dieter,
//     Mechanical Metallurgy, ch. 19; the relation is from memory)
//
// No printed numerical example of nosing was found.
func TestTubeThroughAConicalDie(t *testing.T) {
	const r = 14.0 / 18
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"nosing", NosingShare(8*units.Degree, 0.1, r), 0.3803},
		{"sinking", SinkingShare(8*units.Degree, 0.1, r), 0.3939},
	} {
		assert.InDelta(t, c.want, c.got, 5e-5, "%s: %.5f of the flow stress, published relation %.4f", c.name, c.got, c.want)
	}
}

// Machinery's Handbook and NIST SP 811 factors: a ram of 2.000 in at 10,000
// psi gives 31,416 lbf = 15.71 short tons = 139.7 kN (derived by arithmetic
// from exact factors). GaugeBar goes the other way.
func TestGaugePressure(t *testing.T) {
	ram := math.Pi / 4 * 2 * 2 * units.MMPerInch * units.MMPerInch
	const tenThousandPsiBar = 689.4757 // 1 psi = 6,894.757 Pa (NIST SP 811, from memory)
	got := GaugeBar(stock.Press{RamAreaMM2: ram}, 139.7e3)
	assert.InDelta(t, 1, got/tenThousandPsiBar, 5e-4, "%.2f bar, want %.2f bar", got, tenThousandPsiBar)
	assert.InDelta(t, 15.71, 139.7e3/units.NewtonPerShortTon, 0.01)
}

// Buckling factors k of a plate in compression, three edges simply supported
// and one along the load free, by the ratio of length to width: 1.440, 0.698,
// 0.564, 0.506 (S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability,
// table for nu = 0.25; from memory). The closed form is for nu = 0.3 and long
// plates: 10 per cent is granted.
func TestPlateWithOneFreeEdge(t *testing.T) {
	alloy := stock.Alloy{HardeningExponent: 1}
	const wall, width = 1.0, 10.0
	for _, c := range []struct{ ratio, k float64 }{{1, 1.440}, {2, 0.698}, {3, 0.564}, {5, 0.506}} {
		strain := CrinkleStrain(alloy, wall, c.ratio*width, width)
		k := strain * 12 * (1 - 0.25) / (math.Pi * math.Pi) * width * width / (wall * wall)
		assert.InDelta(t, 1, k/c.k, 0.1, "length/width %g: k %.3f, table %.3f", c.ratio, k, c.k)
	}
}

// What makes the two rules what they are (A. S. Kronrod, Nodes and Weights of
// Quadrature Formulas, 1965): on [-1, 1] fifteen points are exact to the degree 22,
// and seven of them to the degree 13; the integral of x^n is 2/(n+1) for even n.
func TestKronrodIsExactForPolynomials(t *testing.T) {
	for degree := 0; degree <= 22; degree += 2 {
		fine, rough := 0.0, 0.0
		for i, k := range kronrod15 {
			sides := 2.0
			if i == len(kronrod15)-1 {
				sides = 1
			}
			fine += sides * k.kronrod * math.Pow(k.node, float64(degree))
			rough += sides * k.gauss * math.Pow(k.node, float64(degree))
		}
		want := 2 / float64(degree+1)
		assert.InDelta(t, want, fine, 1e-15, "degree %d", degree)
		if degree <= 12 {
			assert.InDelta(t, want, rough, 1e-15, "degree %d, seven points", degree)
		} else {
			assert.Greater(t, math.Abs(want-rough), 1e-9, "degree %d is beyond seven points", degree)
		}
	}
}

// Levy-Mises flow under one stress: the two other strains are each half of it
// and opposite (R. Hill, The Mathematical Theory of Plasticity, ch. II; from
// memory). A perimeter squeezed by 19 % grows the wall by 1/0.9.
func TestWallGrowsByTheRoot(t *testing.T) {
	s, err := solveWall(1, 1, 100, func(wall float64) (Section, error) { return Section{PerimeterMM: 81, WallMM: wall}, nil })
	if err != nil || math.Abs(s.WallMM-1/0.9) > 1e-12 {
		t.Errorf("wall %.9f, want %.9f (%v)", s.WallMM, 1/0.9, err)
	}
}
