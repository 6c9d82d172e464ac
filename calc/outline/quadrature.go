package outline

import "math"

// Sixteen-point Gauss-Legendre abscissae and weights on [-1, 1], positive
// half; Abramowitz & Stegun, Handbook of Mathematical Functions, Table 25.4,
// n = 16.
var (
	gaussX = [8]float64{
		0.0950125098376374402, 0.2816035507792589132, 0.4580167776572273863, 0.6178762444026437484,
		0.7554044083550030339, 0.8656312023878317439, 0.9445750230732325761, 0.9894009349916499326,
	}
	gaussW = [8]float64{
		0.1894506104550684963, 0.1826034150449235889, 0.1691565193950025382, 0.1495959888165767321,
		0.1246289712555338720, 0.0951585116824927848, 0.0622535239386478929, 0.0271524594117540949,
	}
)

// integrate is the integral of f from a to b by Gauss's rule on panels no
// wider than step.
func integrate(f func(float64) float64, a, b, step float64) float64 {
	panels := int(math.Ceil(math.Abs(b-a)/step)) + 1
	h := (b - a) / float64(panels) / 2
	sum := 0.0
	for i := range panels {
		mid := a + h*float64(2*i+1)
		for j, x := range gaussX {
			sum += gaussW[j] * (f(mid-h*x) + f(mid+h*x))
		}
	}
	return sum * h
}

// EllipsePerimeterMM is the perimeter of the ellipse with half axes a and b,
// by the arithmetic-geometric mean: 4 a E(k), k^2 = 1 - b^2/a^2 (NIST DLMF
// 19.8.6 and 19.30.5).
func EllipsePerimeterMM(a, b float64) float64 {
	if a < b {
		a, b = b, a
	}
	if b == 0 {
		return 4 * a
	}
	x, y := a, b
	sum := a*a - (a*a-b*b)/2
	power := 0.5
	for range 40 {
		c := (x - y) / 2
		x, y = (x+y)/2, math.Sqrt(x*y)
		power *= 2
		sum -= power * c * c
		if c < 1e-17*a {
			break
		}
	}
	return 2 * math.Pi * sum / x
}
