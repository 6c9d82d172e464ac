package stock

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// ASTM B258, table 1: diameters to 0.1 mil, as remembered of the table (the
// table itself was not readable); the rounded formula gives the same.
// Tolerance 0.1 mil, because some tables cut instead of rounding.
func TestGaugeAgainstB258(t *testing.T) {
	printed := map[int]float64{
		8: .1285, 9: .1144, 10: .1019, 11: .0907, 12: .0808, 13: .0720, 14: .0641, 15: .0571,
		16: .0508, 17: .0453, 18: .0403, 19: .0359, 20: .0320, 21: .0285, 22: .0253, 23: .0226,
		24: .0201, 25: .0179, 26: .0159, 27: .0142, 28: .0126, 29: .0113, 30: .0100, 31: .0089,
		32: .0080, 33: .0071, 34: .0063, 35: .0056, 36: .0050,
	}
	for n, inch := range printed {
		assert.InDelta(t, inch, GaugeMM(n)/25.4, 0.0001, "gauge %d", n)
	}
}

// The definition's two fixed points: No. 36 = 0.0050 in, No. 0000 = 0.4600 in,
// and 39 equal ratios of 1.1229322 between (ASTM B258; the ratio as printed in
// encyclopedias).
func TestGaugeDefinition(t *testing.T) {
	assert.InDelta(t, 0.127, GaugeMM(36), 1e-12, "No. 36")
	assert.InDelta(t, 11.684, GaugeMM(-3), 1e-12, "No. 0000")
	for n := ThickestGauge; n < ThinnestGauge; n++ {
		assert.InDelta(t, 1.1229322, GaugeMM(n)/GaugeMM(n+1), 1e-7, "ratio of %d to %d", n, n+1)
	}
}
