package units

// Exact factors between the trade's units and SI. All are exact by definition
// except PascalPerPsi, which follows exactly from PoundForce and the inch and
// is rounded only by float64.
//
// Sources: BIPM SI Brochure (carat, bar as accepted units); NIST SP 811 (2008)
// appendix B; NIST Handbook 44 appendix C (troy and avoirdupois weights); UK
// Weights and Measures Act 1985 (troy ounce = 12/175 of the pound).
const (
	// GramPerPound is the international avoirdupois pound.
	GramPerPound = 453.59237
	// GramPerOunce is the avoirdupois ounce, 1/16 lb.
	GramPerOunce = GramPerPound / 16
	// GramPerTroyOunce is 480 grains.
	GramPerTroyOunce = 31.1034768
	// GramPerPennyweight is 24 grains, 1/20 ozt.
	GramPerPennyweight = GramPerTroyOunce / 20
	// GramPerGrain is 1/7000 lb.
	GramPerGrain = GramPerPound / 7000
	// GramPerCarat is the metric carat.
	GramPerCarat = 0.2

	// NewtonPerKgf is the kilogram-force, standard gravity.
	NewtonPerKgf = 9.80665
	// NewtonPerTonneForce is 1000 kgf, a press's "ton" in metric countries.
	NewtonPerTonneForce = 1000 * NewtonPerKgf
	// NewtonPerPoundForce is the pound-force.
	NewtonPerPoundForce = GramPerPound / 1000 * NewtonPerKgf
	// NewtonPerShortTon is 2000 lbf, a press's "ton" in the United States.
	NewtonPerShortTon = 2000 * NewtonPerPoundForce
	// NewtonPerLongTon is 2240 lbf, the old British ton.
	NewtonPerLongTon = 2240 * NewtonPerPoundForce

	// PascalPerBar is exact.
	PascalPerBar = 1e5
	// PascalPerPsi is the pound-force per square inch.
	PascalPerPsi = NewtonPerPoundForce / (MMPerInch * MMPerInch) * 1e6
	// BarPerMPa is exact: 1 MPa = 1 N/mm2 = 10 bar.
	BarPerMPa = 10
)

// CelsiusFromFahrenheit is exact by definition.
func CelsiusFromFahrenheit(f float64) float64 { return (f - 32) / 1.8 }

// FahrenheitFromCelsius is exact by definition.
func FahrenheitFromCelsius(c float64) float64 { return c*1.8 + 32 }
