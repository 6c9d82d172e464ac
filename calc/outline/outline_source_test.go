package outline

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mathext"
)

// Against gonum's complete elliptic integral of the second kind, whose
// argument is the parameter m = k^2: perimeter = 4 a E(m), m = 1 - b^2/a^2
// (NIST DLMF 19.30.5).
func TestEllipsePerimeterAgainstGonum(t *testing.T) {
	for _, ab := range [][2]float64{{4, 3}, {3.5, 2.5}, {10, 5}, {6, 1}, {8, 1}, {3.0001, 3}, {50, 40}} {
		a, b := ab[0], ab[1]
		want := 4 * a * mathext.CompleteE(1-b*b/(a*a))
		for _, got := range []float64{EllipsePerimeterMM(a, b), EllipsePerimeterMM(b, a)} {
			assert.InDelta(t, want, got, 1e-12*want, "half axes %v, %v: %.15g, gonum %.15g", a, b, got, want)
		}
		c, err := New(Shape{Kind: Oval, Size: Size{LengthMM: 2 * a, WidthMM: 2 * b}})
		require.NoError(t, err)
		assert.InDelta(t, want, c.PerimeterMM(), 1e-9*want, "oval %v x %v", 2*a, 2*b)
		// By quarters, which are integrated and not in closed form.
		quarter := c.Pieces[0]
		sum := 0.0
		for i := range 4 {
			q := quarter
			q.From = quarter.From + float64(i)*math.Pi/2
			q.To = q.From + math.Pi/2
			sum += q.LengthMM()
		}
		assert.InDelta(t, want, sum, 1e-11*want, "oval %v x %v by quarters: %.15g, gonum %.15g", 2*a, 2*b, sum, want)
	}
}

// Ellipse circumferences as published.
//
//	3.5, 2.1: SciPy 1.7 reference, scipy.special.ellipe, example.
//	5, 3:     published value of Ramanujan's second approximation, 25.526999,
//	          which agrees with the exact one to all its digits.
//	m = 0.1 .. 1.0: Standard Handbook of Petroleum & Natural Gas Engineering,
//	          p. 11, table of K in L = pi (a+b) K, m = (a-b)/(a+b), printed to
//	          three decimals.
func TestEllipsePerimeterAgainstPrint(t *testing.T) {
	for _, c := range []struct{ a, b, want, tol float64 }{
		{3.5, 2.1, 17.868899204378693, 1e-13},
		{5, 3, 25.526999, 5e-7},
	} {
		assert.InDelta(t, c.want, EllipsePerimeterMM(c.a, c.b), c.tol, "half axes %v, %v", c.a, c.b)
	}
	table := []float64{1.002, 1.010, 1.023, 1.040, 1.064, 1.092, 1.127, 1.168, 1.216, 1.273}
	for i, want := range table {
		m := float64(i+1) / 10
		// a + b = 2 and a - b = 2 m.
		a, b := 1+m, 1-m
		assert.InDelta(t, want, EllipsePerimeterMM(a, b)/(2*math.Pi), 6e-4, "m = %v: K", m)
	}
}

// Parallel curves: an outward parallel at r of a convex closed curve is longer
// by 2 pi r, and its area larger by r l + pi r^2 (M. P. do Carmo, Differential
// Geometry of Curves and Surfaces, section 1-7, exercise 6; from memory of the
// book, read in a copy of the statement on a public page). Only smooth curves
// have it: mitred corners add more.
func TestParallelCurves(t *testing.T) {
	for _, name := range []string{"round", "oval", "slender oval", "cushion", "measured"} {
		c := mustNew(t, typical()[name])
		for _, r := range []float64{0.2, 1.5} {
			o, err := c.Offset(r)
			require.NoError(t, err)
			l, a := c.PerimeterMM(), c.AreaMM2()
			assert.InDelta(t, l+2*math.Pi*r, o.PerimeterMM(), 1e-10*(l+2*math.Pi*r), "%s at %v: length", name, r)
			assert.InDelta(t, a+r*l+math.Pi*r*r, o.AreaMM2(), 1e-9*(a+r*l+math.Pi*r*r), "%s at %v: area", name, r)
		}
	}
}

// Segments and sectors: Machinery's Handbook, 31st ed., p. 91: r = 3 and
// h = 1.5 give the chord 5.196; the same page's c = 125, h = 50 give r = 64
// (64.06): sagittaRadius is what every bulged side is drawn with.
func TestSagittaRadiusAgainstHandbook(t *testing.T) {
	assert.InDelta(t, 64, sagittaRadius(125, 50), 0.1, "chord 125, rise 50: radius")
	assert.InDelta(t, 3, sagittaRadius(5.196, 1.5), 5e-4, "chord 5.196, rise 1.5: radius")
}

// Sizes of cabochons that pages for buyers name: a gem seller's size guide
// (tjaystrading.wordpress.com/2014/05/07/cabochon-size-guide/, ovals 8x6 to 40x30
// and rounds 6 to 30 mm) and a bead seller's article on calibration ("20mm round or
// 40x30mm oval", firemountaingems.com).
func TestCupsOfPublishedCabochons(t *testing.T) {
	for _, s := range [][2]float64{{8, 6}, {10, 8}, {14, 10}, {18, 13}, {25, 18}, {30, 22}, {40, 30}} {
		cup, off, ok := Oval.NearestCup(Size{LengthMM: s[0], WidthMM: s[1]})
		require.True(t, ok)
		assert.Equal(t, Size{LengthMM: s[0], WidthMM: s[1]}, cup)
		assert.Zero(t, off)
	}
	for _, mm := range []float64{6, 13, 18, 20, 25, 30} {
		_, off, ok := Round.NearestCup(Size{LengthMM: mm, WidthMM: mm})
		require.True(t, ok)
		assert.Zero(t, off, "round %g", mm)
	}
	cup, off, _ := Oval.NearestCup(Size{LengthMM: 18.4, WidthMM: 13.1})
	assert.Equal(t, Size{LengthMM: 18, WidthMM: 13}, cup)
	assert.InDelta(t, 0.4, off, 1e-9)
	_, off, _ = Oval.NearestCup(Size{LengthMM: 9.7, WidthMM: 7.9})
	assert.InDelta(t, -0.3, off, 1e-9, "too small is told by its sign")
	_, _, ok := Measured.NearestCup(Size{LengthMM: 20, WidthMM: 16})
	assert.False(t, ok)
}
