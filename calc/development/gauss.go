package development

// Six-point Gauss-Legendre abscissae and weights on [0, 1], from the values
// on [-1, 1] in Abramowitz & Stegun, Handbook of Mathematical Functions,
// Table 25.4, n = 6.
var (
	nodes   = [6]float64{}
	weights = [6]float64{}
	// upTo[i][j] is the integral from 0 to nodes[i] of the polynomial that is
	// 1 at nodes[j] and 0 at the other nodes: it integrates a function known
	// at the nodes up to each of them.
	upTo = [6][6]float64{}
)

func init() {
	x := [3]float64{0.238619186083196909, 0.661209386466264514, 0.932469514203152028}
	w := [3]float64{0.467913934572691047, 0.360761573048138608, 0.171324492379170345}
	for i := range 3 {
		nodes[3+i], weights[3+i] = (1+x[i])/2, w[i]/2
		nodes[2-i], weights[2-i] = (1-x[i])/2, w[i]/2
	}
	for j := range 6 {
		for i := range 6 {
			// Gauss's rule itself is exact for the polynomial of degree 5.
			for m := range 6 {
				at := nodes[i] * nodes[m]
				value := 1.0
				for k := range 6 {
					if k != j {
						value *= (at - nodes[k]) / (nodes[j] - nodes[k])
					}
				}
				upTo[i][j] += nodes[i] * weights[m] * value
			}
		}
	}
}
