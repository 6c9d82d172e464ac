package forming

import (
	"math"

	"guildhand/calc/stock"
)

// Crinkle is how likely the flats of a collar are to crinkle in a hole.
type Crinkle int

// Degrees of risk.
const (
	NoFlats  Crinkle = iota
	Unlikely         // under the limit of a free panel
	Possible         // between a free panel and one held against the hole
	Likely           // above both
)

// String is the word that an answer shows.
func (c Crinkle) String() string {
	return [...]string{"no flats", "low", "some", "high"}[c]
}

// heldEnds is by how much the limit rises where a panel's ends are held: a
// strut with fixed ends bears four times the load of one with hinged ends
// (Euler). A panel that can only bulge away from the hole is such a one.
const heldEnds = 4

// CrinkleStrain is the hoop strain that a flat panel bears before it buckles
// as a plate in compression, its two ends and its upper edge simply supported
// and its foot free:
//
//	sigma = pi^2 E / (12 (1 - nu^2)) t^2 (0.425 / w^2 + 1 / b^2)
//
// with b along the compression and w across it (S. P. Timoshenko and J. M.
// Gere, Theory of Elastic Stability, "buckling of rectangular plates, one edge
// free"; from memory). In the plastic range E is the tangent modulus (Shanley)
// and nu is 1/2; of sigma = K strain^n the tangent modulus is n sigma /
// strain, so that sigma cancels and a strain is left.
func CrinkleStrain(a stock.Alloy, wallMM, flatMM, taperMM float64) float64 {
	const nu = 0.5
	n, t, b, w := a.HardeningExponent, wallMM, flatMM, taperMM
	if b <= 0 || w <= 0 {
		return math.Inf(1)
	}
	return n * math.Pi * math.Pi / (12 * (1 - nu*nu)) * t * t * (0.425/(w*w) + 1/(b*b))
}

// CrinkleRisk compares the strain of one pass with CrinkleStrain: the panel is
// pressed flat against the hole again in every hole, so that passes do not add
// up.
func CrinkleRisk(a stock.Alloy, wallMM, flatMM, taperMM, passStrain float64) Crinkle {
	if flatMM <= 0 {
		return NoFlats
	}
	limit := CrinkleStrain(a, wallMM, flatMM, taperMM)
	switch {
	case passStrain <= limit:
		return Unlikely
	case passStrain <= heldEnds*limit:
		return Possible
	}
	return Likely
}
