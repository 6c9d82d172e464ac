package casting

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/calc/units"
)

// Worked examples of casting suppliers' help pages ("Wax weight, metal weight",
// "Calculate weight of metal: casting tips and tricks", "Standard data:
// weights"). They take the wax's specific gravity as 1.
func TestMetalAgainstWorkedExamples(t *testing.T) {
	wax := ChargeOf(5, 0.10) // 5 g of wax and 10 % for the button
	assert.InDelta(t, 5.5, wax.TotalG, 1e-12, "wax with button")
	assert.InDelta(t, 74.25, MetalG(wax.TotalG, 1, 13.5), 1e-9, "14k, SG 13.5")
	assert.InDelta(t, 57.75, MetalG(43.5-38, 1, 10.5), 1e-9, "silver, SG 10.5")
	assert.InDelta(t, 83.60, MetalG(43.5-38, 1, 15.20), 1e-9, "gold 750, SG 15.20")
	dwt := units.GramPerPennyweight
	assert.InDelta(t, 15.02, MetalG(0.7*dwt, 1, 21.45)/dwt, 0.01, "0.7 dwt in platinum, SG 21.45")
	// O. Untracht, quoted in a bench forum: wax .95 to .98, sterling 10.4. The
	// ratio is derived: 10.6 to 10.9.
	ratio := MetalG(1, WaxDensityGPerCM3, 10.4)
	if ratio < 10.6 || ratio > 10.95 {
		t.Errorf("sterling over wax %.2f; 10.6 to 10.95 by Untracht's densities", ratio)
	}
	// The button may be reckoned before or after the change of metal.
	assert.InDelta(t, 74.25, ChargeOf(MetalG(5, 1, 13.5), 0.10).TotalG, 1e-9, "button after")
}

// A goldsmith's page on mould shrinkage: wax 2.5 %, metal 1.0 %, together 3.5 %
// linear; the weight shrinks by about three times the linear share.
func TestShrinkageAgainstPublished(t *testing.T) {
	s := Shrinkage{Wax: 0.025, Metal: 0.010}
	assert.InDelta(t, 0.035, s.Total(), 0.0005, "total")
	assert.InDelta(t, 3*0.035, 1-math.Pow(1/s.Factor(), 3), 0.005, "by weight")
}

// T. Teague, Santa Fe Symposium, quoted in a bench forum: a ring's inner
// diameter measured 19.95 mm on the model, 19.88 on the wax, 19.63 as cast.
// With the shares of those two steps the factor must lead back to the model.
func TestShrinkageAgainstMeasuredRing(t *testing.T) {
	s := Shrinkage{Wax: 1 - 19.88/19.95, Metal: 1 - 19.63/19.88}
	assert.InDelta(t, 19.95, 19.63*s.Factor(), 1e-9, "model for a casting of 19.63 mm")
	assert.InDelta(t, 1.26, 100*s.Metal, 0.005, "metal's own share, percent")
}

// Dooley, Applied Science for Metal Workers, ch. XXXI: pattern allowance for
// brass 3/16 in to the foot. A foot of finished casting takes a pattern about
// 3/16 in longer.
func TestShrinkageAgainstPatternAllowance(t *testing.T) {
	s := Shrinkage{Metal: 3. / 16 / 12}
	assert.InDelta(t, 12+3./16, 12*s.Factor(), 0.004, "pattern of a foot, in")
}
