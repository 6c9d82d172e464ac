package checks

import (
	"fmt"
	"math"

	"guildhand/calc/ring"
	"guildhand/calc/stock"
	factors "guildhand/calc/units"
)

// gauges are thicknesses by number.
func gauges() []Row {
	var rows []Row
	haswell := table{on("gauge"), "C. H. Haswell's determination for Brown & Sharpe, The Metal Worker's Assistant, table of weights", Read, "in", 2e-5, "tables of the time cut the last figure or rounded it"}
	for i, inch := range []float64{.46000, .40964, .36480, .32486, .28930, .25763, .22942, .20431, .18194, .16202, .14428, .12849, .11443, .10189, .090742, .080808, .071961, .064084, .057068} {
		rows = append(rows, haswell.row("gauge "+stock.GaugeName(i-3), inch, stock.GaugeMM(i-3)/25.4))
	}
	b258 := table{on("gauge"), "ASTM B258, table 1, to 0.1 mil", Memory, "in", 1e-4, "some tables cut instead of rounding"}
	for i, inch := range []float64{.0508, .0453, .0403, .0359, .0320, .0285, .0253, .0226, .0201, .0179, .0159, .0142, .0126, .0113, .0100} {
		rows = append(rows, b258.row("gauge "+stock.GaugeName(16+i), inch, stock.GaugeMM(16+i)/25.4))
	}
	cut := table{on("gauge"), "an engineers' page of wire gauges (engineersedge.com/wire_gages.htm)", Read, "in", 1e-4, "it cuts instead of rounding"}
	for n, inch := range map[int]float64{8: .1284, 10: .1018, 14: .0640, 20: .0319} {
		rows = append(rows, cut.row("gauge "+stock.GaugeName(n), inch, stock.GaugeMM(n)/25.4))
	}
	definition := table{on("gauge"), "ASTM B258, definition: 0.005 in x 92^((36-n)/39), as given on a list of coil builders and in encyclopedias", Read, "in", 1e-9, ""}
	return append(rows,
		definition.row("gauge 36", 0.005, stock.GaugeMM(36)/25.4),
		definition.row("gauge 0000", 0.46, stock.GaugeMM(-3)/25.4),
		table{on("gauge"), definition.source, Read, "", 5e-8, ""}.row("ratio of neighbours", 1.1229322, stock.GaugeMM(20)/stock.GaugeMM(21)))
}

// units are conversion factors.
func units() []Row {
	encyclopedia := table{on("collar"), "encyclopedia pages on pound-force and ton-force, exact", Read, "kN", 1e-9, ""}
	crown := table{on("weigh", "melt"), "Weights and Measures Act 1985: the troy ounce is 480 grains, 12/175 of 0.45359237 kg", Read, "g", 1e-7, ""}
	shelf := table{on("weigh", "melt"), "a refiner's table of weights (auenterprises.com)", Read, "", 5e-6, ""}
	nist := table{on("collar"), "NIST SP 811, appendix B.8", Memory, "", 5e-5, ""}
	return []Row{
		encyclopedia.row("pound-force", 0.0044482216152605, factors.NewtonPerPoundForce/1000),
		encyclopedia.row("tonne-force", 9.80665, factors.NewtonPerTonneForce/1000),
		encyclopedia.row("US ton-force", 8.896443230521, factors.NewtonPerShortTon/1000),
		encyclopedia.row("UK ton-force", 9.96401641818352, factors.NewtonPerLongTon/1000),
		crown.row("troy ounce", 31.1034768, factors.GramPerTroyOunce),
		crown.row("troy ounce from the pound", 12./175*453.59237, factors.GramPerTroyOunce),
		shelf.row("troy ounce over ounce", 1.09714, factors.GramPerTroyOunce/factors.GramPerOunce),
		shelf.row("pennyweight, g", 1.55518, factors.GramPerPennyweight+0).with(1e-5),
		table{on("match", "collet"), "an education page on gold: the carat is 200 mg", Read, "g", 1e-12, ""}.row("metric carat", 0.2, factors.GramPerCarat),
		nist.row("psi in bar, inverse", 14.5038, factors.PascalPerBar/factors.PascalPerPsi),
		table{on("collar"), "a civil engineering handbook's presses: 1000 US tons are 8.9 MN, 4000 are 36 MN", Read, "MN", 0.05, ""}.row("1000 US tons", 8.9, factors.NewtonPerShortTon/1000),
		table{on("heat"), "a bench article on annealing: 1250 °F is 677 °C", Read, "°C", 0.5, ""}.row("1250 °F", 677, factors.CelsiusFromFahrenheit(1250)),
		table{on("heat"), "the same article: 1700 °F is 927 °C", Read, "°C", 0.5, ""}.row("1700 °F", 927, factors.CelsiusFromFahrenheit(1700)),
	}
}

func (r Row) with(tolerance float64) Row {
	r.Tolerance = tolerance
	return r
}

// rings are sizes and blanks of rings.
func rings() []Row {
	var rows []Row
	iso := table{on("band"), "encyclopedia table of ring sizes, ISO 8653, diameters to 0.1 mm", Read, "mm", 0.0501, "the table is once or twice 0.05 mm further off than its rounding"}
	for n, mm := range map[float64]float64{49: 15.6, 50: 15.9, 52: 16.6, 53: 16.9, 54: 17.2, 55: 17.5, 56: 17.8, 57: 18.1, 58: 18.5, 59: 18.8, 60: 19.1, 61: 19.4, 62: 19.7, 63: 20.1, 66: 21.0, 72: 22.9} {
		rows = append(rows, iso.row(fmt.Sprintf("diameter of ISO %g", n), mm, ring.ISO.CircumferenceMM(n)/math.Pi))
	}
	us := table{on("band"), "a printer's ring size chart, US diameters", Read, "mm", 0.006, ""}
	for n, mm := range map[float64]float64{0: 11.63, 1: 12.45, 2: 13.26, 3: 14.07, 4: 14.88, 5: 15.70, 5.5: 16.10, 6: 16.51, 6.5: 16.92, 7: 17.32, 7.5: 17.73, 8: 18.14} {
		rows = append(rows, us.row(fmt.Sprintf("diameter of US %g", n), mm, ring.US.CircumferenceMM(n)/math.Pi))
	}
	second := table{on("band"), "International Gem Society, ring size comparison chart, a second US standard", Read, "in", 0.0051, "two standards are in use and differ by up to 0.005 in"}
	for n, inch := range []float64{.454, .487, .520, .553, .585, .618, .650, .683, .716, .748, .781, .814, .846, .879} {
		rows = append(rows, second.row(fmt.Sprintf("diameter of US %d", n), inch, ring.US.CircumferenceMM(float64(n))/math.Pi/25.4))
	}
	uk := table{on("band"), "charts of UK letters, J to Q, where they agree with the rule", Read, "mm", 0.1001, "the charts step the letters on the US grid"}
	for i, mm := range []float64{48.7, 50.0, 51.2, 52.5, 53.8, 55.1, 56.3, 57.6} {
		rows = append(rows, uk.row("circumference of UK "+string(rune('J'+i)), mm, ring.UK.CircumferenceMM(float64(10+i))))
	}
	rowlett := table{on("band"), "R. Rowlett, How Many?, ring size", Read, "mm", 1e-9, ""}
	rows = append(rows,
		rowlett.row("circumference of UK C", 40, ring.UK.CircumferenceMM(3)),
		rowlett.row("four UK letters", 5, ring.UK.CircumferenceMM(7)-ring.UK.CircumferenceMM(3)))
	japan := table{on("band"), "a Japanese craft site's table of custom sizes, diameters", Read, "mm", 0.0051, ""}
	for n, mm := range map[float64]float64{1: 13.00, 4: 14.00, 7: 15.00, 10: 16.00, 12: 16.67, 13: 17.00, 15: 17.67, 16: 18.00, 19: 19.00, 20: 19.33, 22: 20.00, 25: 21.00, 28: 22.00, 30: 22.67} {
		rows = append(rows, japan.row(fmt.Sprintf("diameter of Japan %g", n), mm, ring.Japan.CircumferenceMM(n)/math.Pi))
	}
	blank := func(innerMM, wideMM, thickMM, k float64) float64 {
		b, err := ring.Shank{CircumferenceMM: math.Pi * innerMM, WidthMM: wideMM, ThicknessMM: thickMM, Profile: ring.Flat, NeutralFactor: k, HasAllowance: true}.Blank()
		if err != nil {
			return math.NaN()
		}
		return b.LengthMM
	}
	return append(rows,
		table{on("band"), "a bench page's worked ring: size 8, 18.2 mm + 1.0 mm, x 3.14 is 60.3 mm", Read, "mm", 0.05, ""}.row("blank of size 8, 1 mm thick", 60.3, blank(18.2, 3, 1, 0.5)),
		table{on("band"), "a supplier's page on sizing rings: (inner diameter + thickness) x pi", Read, "mm", 1e-9, ""}.row("blank of 17 mm, 1.5 mm thick", math.Pi*18.5, blank(17, 4, 1.5, 0.5)),
		table{on("band"), "the same supplier: over 4 mm wide, add 0.5 mm to the length", Read, "mm", 0.5, "teachers add from nothing to half a size"}.row("allowance for a band 6 mm wide", 0.5, ring.Flat.WideAllowanceMM(6)),
		table{on("band"), "GIA, accurate determination of finger ring size: one size is 0.8 mm of diameter", Read, "mm", 0.015, "printed to 0.1 mm"}.row("one US size, diameter", 0.8, (ring.US.CircumferenceMM(8)-ring.US.CircumferenceMM(7))/math.Pi),
	)
}
