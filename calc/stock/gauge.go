package stock

import (
	"math"
	"strconv"

	"guildhand/calc/units"
)

// Range of gauge numbers that this package knows: No. 0000 is written -3,
// 000 is -2, 00 is -1.
const (
	ThickestGauge = -3
	ThinnestGauge = 40
)

// GaugeMM returns the thickness or diameter of Brown & Sharpe (American wire)
// gauge n, mm: No. 36 is 0.0050 in, No. 0000 (n = -3) is 0.4600 in, and the 39
// steps between them are equal ratios.
//
// Source: ASTM B258, d(n) = 0.005 in x 92^((36-n)/39). The formula itself is
// returned, not the value rounded to 0.1 mil that tables print; the two differ
// by at most 0.0013 mm. Any n gives a number; numbers outside ThickestGauge to
// ThinnestGauge are not stock.
func GaugeMM(n int) float64 {
	return 0.005 * math.Pow(92, float64(36-n)/39) * units.MMPerInch
}

// NearestGauge returns the gauge number whose thickness is nearest to mm, and
// that thickness in mm. Thicker than No. 0000 gives No. 0000 (n = -3), thinner
// than No. 40, zero, negative and not-a-number give No. 40.
func NearestGauge(mm float64) (n int, gaugeMM float64) {
	if thickest := GaugeMM(ThickestGauge); mm >= thickest {
		return ThickestGauge, thickest
	}
	n, gaugeMM = ThinnestGauge, GaugeMM(ThinnestGauge)
	for k := ThickestGauge; k < ThinnestGauge; k++ {
		if d := GaugeMM(k); math.Abs(d-mm) < math.Abs(gaugeMM-mm) {
			n, gaugeMM = k, d
		}
	}
	return n, gaugeMM
}

// GaugeName writes a gauge number as the trade does: "0000" for -3, "22" for 22.
func GaugeName(n int) string {
	switch n {
	case -3:
		return "0000"
	case -2:
		return "000"
	case -1:
		return "00"
	}
	return strconv.Itoa(n)
}
