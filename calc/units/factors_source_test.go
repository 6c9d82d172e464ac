package units

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Printed values of the exact factors, and of those that follow from them.
func TestFactorsAgainstPublished(t *testing.T) {
	rows := []struct {
		name            string
		got, want, rels float64
		source          string
	}{
		{"troy ounce, g", GramPerTroyOunce, 31.1034768, 1e-15, "Weights and Measures Act 1985: 12/175 x 0.45359237 kg; 480 gr"},
		{"troy ounce from the pound", GramPerTroyOunce, 12. / 175 * 453.59237, 1e-14, "the same"},
		{"troy ounce in grains", GramPerTroyOunce / GramPerGrain, 480, 1e-14, "the same"},
		{"pennyweight, g", GramPerPennyweight, 1.55517384, 1e-14, "NIST Handbook 44, appendix C, from memory"},
		{"pennyweight in grains", GramPerPennyweight / GramPerGrain, 24, 1e-14, "the same"},
		{"troy over avoirdupois ounce", GramPerTroyOunce / GramPerOunce, 1.09714, 5e-6, "a refiner's table of weights"},
		{"carat, g", GramPerCarat, 0.2, 0, "NIST SP 811, from memory"},
		{"pound-force, N", NewtonPerPoundForce, 4.4482216152605, 1e-14, "encyclopedia, pound-force, exact"},
		{"tonne-force, kN", NewtonPerTonneForce / 1000, 9.80665, 1e-14, "encyclopedia, ton-force"},
		{"short ton-force, kN", NewtonPerShortTon / 1000, 8.896443230521, 1e-12, "the same"},
		{"short ton-force, kgf", NewtonPerShortTon / NewtonPerKgf, 907.18474, 1e-12, "the same"},
		{"long ton-force, kN", NewtonPerLongTon / 1000, 9.96401641818352, 1e-12, "the same"},
		{"psi, Pa", PascalPerPsi, 6894.757, 1e-7, "NIST SP 811, appendix B.8, from memory"},
		{"bar in psi", PascalPerBar / PascalPerPsi, 14.5038, 3e-6, "the same"},
		{"1000 US tons, MN", 1000 * NewtonPerShortTon / 1e6, 8.9, 1e-3, "a civil engineering handbook's press"},
		{"1250 F", CelsiusFromFahrenheit(1250), 676.7, 1e-4, "a bench article on annealing: 677 °C"},
		{"1700 F", CelsiusFromFahrenheit(1700), 926.7, 1e-4, "the same"},
	}
	for _, r := range rows {
		assert.InDelta(t, 1, r.got/r.want, r.rels, "%s: %.15g, want %.15g (%s)", r.name, r.got, r.want, r.source)
	}
	assert.InDelta(t, 1435, FahrenheitFromCelsius(CelsiusFromFahrenheit(1435)), 1e-9, "1435 F there and back")
}
