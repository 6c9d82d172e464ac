package checks

import (
	"fmt"
	"math"
	"strings"

	"guildhand/calc/stock"
	factors "guildhand/calc/units"
)

// alloy is an alloy by its key; one that is unknown is not a number anywhere.
func alloy(key string) stock.Alloy {
	a, ok := stock.AlloyByKey(key)
	if !ok {
		nan := math.NaN()
		return stock.Alloy{DensityGPerCM3: nan, SolidusC: nan, SolidusHighC: nan, LiquidusC: nan, AnnealLowC: nan, AnnealHighC: nan}
	}
	return a
}

func density(source string, mark Mark, tolerance float64, key string, low, high float64) Row {
	t := table{on("weigh", "melt", "kit"), source, mark, "g/cm³", tolerance, ""}
	return t.between("density of "+key, low, high, alloy(key).DensityGPerCM3).of(key)
}

// densities are published ones, and those of the metals mixed by volume.
func densities() []Row {
	const (
		metals  = "the SI metric pages' table of metal densities"
		forum   = "a bench forum's table of specific gravities for casting (orchid 27807)"
		azom    = "AZoM materials articles 6338, 6341, 6355"
		printer = "a casting supplier's table of specific gravities (romanoff.com)"
	)
	rows := []Row{
		density(metals, Read, 0.005, "fine-silver", 10.49, 10.49),
		density(metals, Read, 0.005, "fine-gold", 19.32, 19.32),
		density("a metal supplier's data page, sterling (espimetals.com)", Read, 0.005, "sterling", 10.36, 10.36),
		density("Dooley, Applied Science for Metal Workers: standard silver", Read, 0.06, "sterling", 10.312, 10.312),
		density("a refiner's table of weights (auenterprises.com)", Read, 0.005, "18k-yellow", 15.60, 15.60),
		density("a refiner's table of weights (auenterprises.com)", Read, 0.015, "14k-yellow", 13.08, 13.08),
		density(forum, Read, 0.005, "18k-white", 14.64, 14.64),
		density(forum, Read, 0.04, "18k-rose", 15.18, 15.18),
		density(forum, Read, 0.005, "18k-green", 15.9, 15.9),
		density(forum, Read, 0.005, "10k-yellow", 11.6, 11.6),
		density(forum, Read, 0.005, "9k-yellow", 11.4, 11.4),
		density("a mill's sheet of C110", Read, 0, "copper", 8.89, 8.94),
		density("Copper Development Association, Innovations, August 2001, table 5", Read, 0.005, "copper", 8.92, 8.92),
		density(azom, Read, 0.005, "red-brass", 8.75, 8.75),
		density(azom, Read, 0.005, "brass", 8.53, 8.53),
		density(azom, Read, 0.05, "commercial-bronze", 8.8, 8.8),
		density("a copy of a C51000 data sheet: 0.320 lb/in³", Read, 0.015, "phosphor-bronze", 0.320*27.6799, 0.320*27.6799),
		density("CDA data sheet C75200", Memory, 0.005, "nickel-silver", 8.73, 8.73),
		density(printer, Read, 0.005, "platinum-950", 20.70, 20.70),
		density(printer, Read, 0.005, "palladium-950", 12.00, 12.00),
		density("Platinum Metals Rev. 53(4), 2009, p. 189: 1 cm³ holds 11.4 g of palladium, 95 % of it", Read, 0.05, "palladium-950", 12.0, 12.0),
		density("ASM material data sheet MTU021: 0.163 lb/in³", Read, 0.01, "titanium", 0.163*27.6799, 0.163*27.6799),
		density("CRC Handbook of Chemistry and Physics, niobium", Memory, 0.005, "niobium", 8.57, 8.57),
		density("ASM Handbook vol. 2, aluminium 1100", Memory, 0.005, "aluminium", 2.71, 2.71),
		density("World Gold Council, table of coloured golds", Memory, 0.05, "22k", 17.9, 17.9),
		density("World Gold Council, table of coloured golds", Memory, 0.05, "18k-yellow", 15.6, 15.6),
		density("World Gold Council, table of coloured golds", Memory, 0.05, "18k-rose", 15.15, 15.15),
	}
	return append(rows, mixtures()...)
}

// pure are the densities of the elements, g/cm³: the SI metric pages' table for
// gold and silver, the CRC Handbook from memory for the others.
var pure = map[string]float64{
	"Au": 19.32, "Ag": 10.49, "Cu": 8.94, "Pt": 21.45, "Ru": 12.37, "Pd": 12.02, "Ni": 8.91, "Zn": 7.14, "Ge": 5.32, "Sn": 7.29, "Sb": 6.69,
}

// mixtures are densities by volume of what the published composition holds. The
// rule is good to 0.5 % for gold, silver and copper; zinc contracts by up to
// 3 %, so that alloys with zinc come out a little light.
func mixtures() []Row {
	var rows []Row
	for _, m := range []struct {
		key, source string
		share       float64
		parts       map[string]float64
	}{
		{"sterling", "fineness 925, the rest copper", 0.005, map[string]float64{"Ag": 92.5, "Cu": 7.5}},
		{"silver-935", "a maker's composition as quoted in an encyclopedia", 0.005, map[string]float64{"Ag": 93.5, "Cu": 5.5, "Ge": 1}},
		{"silver-960", "a maker's composition as quoted in an encyclopedia, the rest taken as copper", 0.005, map[string]float64{"Ag": 96, "Cu": 4}},
		{"22k", "World Gold Council composition, from memory", 0.005, map[string]float64{"Au": 91.6, "Ag": 5.5, "Cu": 2.8}},
		{"18k-yellow", "World Gold Council composition, from memory", 0.005, map[string]float64{"Au": 75, "Ag": 16, "Cu": 9}},
		{"18k-rose", "World Gold Council composition, from memory", 0.005, map[string]float64{"Au": 75, "Ag": 4.5, "Cu": 20.5}},
		{"18k-green", "gold and silver", 0.005, map[string]float64{"Au": 75, "Ag": 25}},
		{"18k-white-palladium", "AZoM article 2372: 75 Au, 10 Pd, 15 Ag; trade alloys fill up with lighter copper, nickel and zinc", 0.035, map[string]float64{"Au": 75, "Pd": 10, "Ag": 15}},
		{"14k-rose", "composition from memory", 0.005, map[string]float64{"Au": 58.5, "Ag": 9, "Cu": 32.5}},
		{"14k-white", "Woldman, Engineering Alloys, quoted: 59 Au, 25.5 Cu, 12.3 Ni, 3.2 Zn", 0.03, map[string]float64{"Au": 59, "Cu": 25.5, "Ni": 12.3, "Zn": 3.2}},
		{"14k-white-palladium", "Materials Chemistry, 2nd ed., table 3.4", 0.01, map[string]float64{"Au": 58.3, "Ag": 32.2, "Pd": 9.5}},
		{"10k-rose", "Materials Chemistry, 2nd ed., table 3.4", 0.01, map[string]float64{"Au": 41.7, "Ag": 2.8, "Cu": 55.5}},
		{"10k-white", "Materials Chemistry, 2nd ed., table 3.4", 0.03, map[string]float64{"Au": 41.7, "Cu": 29.2, "Ni": 15.1, "Zn": 12.1}},
		{"10k-white-palladium", "Materials Chemistry, 2nd ed., table 3.4", 0.01, map[string]float64{"Au": 41.7, "Ag": 47.4, "Pd": 10, "Cu": 0.9}},
		{"9k-rose", "composition from memory", 0.01, map[string]float64{"Au": 37.5, "Ag": 20, "Cu": 42.5}},
		{"9k-white", "a jewellery catalogue's page: 37.5 Au, 34 Cu, 10.8 Zn, 17.7 Ni", 0.03, map[string]float64{"Au": 37.5, "Cu": 34, "Zn": 10.8, "Ni": 17.7}},
		{"9k-white-palladium", "composition from memory", 0.01, map[string]float64{"Au": 37.5, "Ag": 50, "Pd": 10, "Cu": 2.5}},
		{"platinum-950", "platinum and ruthenium", 0.005, map[string]float64{"Pt": 95, "Ru": 5}},
		{"pewter", "T. Fejka, SNAG Tech News, August 2009: 92 Sn, 6.5 Sb, 1.5 Cu", 0.01, map[string]float64{"Sn": 92, "Sb": 6.5, "Cu": 1.5}},
	} {
		mass, volume := 0.0, 0.0
		for element, part := range m.parts {
			mass += part
			volume += part / pure[element]
		}
		mixed := mass / volume
		mark := Derived
		if strings.Contains(m.source, "from memory") {
			mark = Memory
		}
		t := table{on("weigh", "melt", "kit"), "volume mixture: " + m.source, mark, "g/cm³", m.share * mixed, "the mixture rule"}
		rows = append(rows, t.row("density of "+m.key, mixed, alloy(m.key).DensityGPerCM3).of(m.key))
	}
	return rows
}

// melting are solidus and liquidus.
func melting() []Row {
	var rows []Row
	for _, m := range []struct {
		key, source           string
		mark                  Mark
		solidus, liquidus, by float64
	}{
		{"fine-silver", "ITS-90, H. Preston-Thomas, Metrologia 27 (1990)", Memory, 961.78, 961.78, 0.1},
		{"fine-gold", "ITS-90, H. Preston-Thomas, Metrologia 27 (1990)", Memory, 1064.18, 1064.18, 0.1},
		{"sterling", "Machinery's Handbook, 31st ed., table 1a: BAg-19, 92.5 Ag, the nearest standard alloy", Read, 779, 891, 8},
		{"silver-960", "encyclopedia copies on germanium-bearing silver", Read, 890, 920, 5},
		{"18k-yellow", "Woldman, Engineering Alloys, 5th ed., quoted on a watchmakers' page", Read, 895, 930, 10},
		{"22k", "World Gold Council, table of coloured golds", Memory, 995, 1020, 1},
		{"18k-rose", "World Gold Council, table of coloured golds", Memory, 890, 895, 1},
		{"copper", "a mill's sheet of C110: 1949 and 1981 °F", Read, 1065, 1083, 1},
		{"red-brass", "AZoM materials articles 6338, 6341, 6355", Read, 988, 1027, 1},
		{"brass", "AZoM materials articles 6338, 6341, 6355", Read, 916, 954, 1},
		{"commercial-bronze", "AZoM materials articles 6338, 6341, 6355", Read, 1021, 1043, 1},
		{"phosphor-bronze", "a materials property database, C51000 (makeitfrom.com)", Read, 960, 1050, 1},
		{"nickel-silver", "CDA data sheet C75200", Memory, 1071, 1110, 1},
		{"platinum-950", "platinum trade tables", Memory, 1780, 1795, 1},
		{"titanium", "a materials data base, grade 2", Memory, 1665, 1670, 5},
		{"aluminium", "ASM Handbook vol. 2, aluminium 1100", Memory, 643, 657, 2},
	} {
		t := table{on("heat"), m.source, m.mark, "°C", m.by, ""}
		rows = append(rows,
			t.row("solidus of "+m.key, m.solidus, alloy(m.key).SolidusC).of(m.key),
			t.row("liquidus of "+m.key, m.liquidus, alloy(m.key).LiquidusC).of(m.key))
	}
	t := table{on("heat"), "sources for sterling: 779 (handbook's filler), 788 (a supplier's page), 802 (encyclopedia)", Read, "°C", 0, ""}
	rows = append(rows, t.row("lowest published solidus of sterling, the cautious end", 779, alloy("sterling").SolidusC).of("sterling"),
		t.row("highest published solidus of sterling", 802, alloy("sterling").SolidusHighC).of("sterling"),
		table{on("heat"), "T. Fejka, SNAG Tech News, August 2009: pewter melts at about 500 °F", Read, "°C", 0, ""}.
			row("260 °C lies in pewter's melting range: 1 is yes", 1, truth(alloy("pewter").SolidusC <= 260 && alloy("pewter").LiquidusC >= 260)).of("pewter"))
	return rows
}

func truth(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

func annealing() []Row {
	c := factors.CelsiusFromFahrenheit
	makers := table{on("heat", "dome", "collar"), "an alloy maker's page on heat-treating gold and silver", Read, "°C", 1, ""}
	bench := table{on("heat", "dome", "collar"), "a bench article on annealing gold, silver and platinum: 1250 °F for yellow, green and red karat golds", Read, "°C", 1, ""}
	rows := []Row{
		makers.row("anneal of sterling, low", c(1100), alloy("sterling").AnnealLowC).of("sterling"),
		makers.row("anneal of sterling, high", c(1200), alloy("sterling").AnnealHighC).of("sterling"),
		makers.row("anneal of 14k-yellow, low", c(1200), alloy("14k-yellow").AnnealLowC).of("14k-yellow"),
		makers.row("anneal of 14k-white, low", c(1125), alloy("14k-white").AnnealLowC).of("14k-white"),
		makers.row("anneal of 18k-white, low", c(1125), alloy("18k-white").AnnealLowC).of("18k-white"),
	}
	for _, key := range []string{"22k", "18k-yellow", "18k-rose", "18k-green", "14k-yellow", "14k-rose", "10k-yellow", "9k-yellow"} {
		rows = append(rows, bench.row("anneal of "+key+", high", c(1250), alloy(key).AnnealHighC).of(key))
	}
	soft := table{on("heat"), "the same article: no softening of platinum and palladium under 1700 °F", Read, "°C", 1, ""}
	tube := table{on("heat", "dome", "collar"), "a tube mill's sheet of brass 230", Read, "°C", 1, ""}
	azom := table{on("heat", "dome", "collar"), "AZoM materials articles 6338, 6341, 6355", Read, "°C", 1, ""}
	cda := table{on("heat", "dome", "collar"), "ASM/CDA annealing ranges", Memory, "°C", 1, ""}
	sheet := table{on("heat"), "a data sheet of C76300, the nearest nickel silver", Read, "°C", 1, ""}
	return append(rows,
		soft.row("anneal of platinum-950, low", c(1700), alloy("platinum-950").AnnealLowC).of("platinum-950"),
		soft.row("anneal of palladium-950, low", c(1700), alloy("palladium-950").AnnealLowC).of("palladium-950"),
		tube.row("anneal of red-brass, low", 425, alloy("red-brass").AnnealLowC).of("red-brass"),
		tube.row("anneal of red-brass, high", 725, alloy("red-brass").AnnealHighC).of("red-brass"),
		azom.row("anneal of commercial-bronze, low", 427, alloy("commercial-bronze").AnnealLowC).of("commercial-bronze"),
		azom.row("anneal of commercial-bronze, high", 788, alloy("commercial-bronze").AnnealHighC).of("commercial-bronze"),
		cda.row("anneal of copper, low", 375, alloy("copper").AnnealLowC).of("copper"),
		cda.row("anneal of copper, high", 650, alloy("copper").AnnealHighC).of("copper"),
		cda.row("anneal of brass, low", 425, alloy("brass").AnnealLowC).of("brass"),
		cda.row("anneal of brass, high", 750, alloy("brass").AnnealHighC).of("brass"),
		sheet.row("anneal of nickel-silver, low", 620, alloy("nickel-silver").AnnealLowC).of("nickel-silver"),
		sheet.row("anneal of nickel-silver, high", 700, alloy("nickel-silver").AnnealHighC).of("nickel-silver"),
		table{on("heat"), "a wire maker's page on working niobium: 1200 °C in high vacuum", Read, "°C", 1, ""}.row("anneal of niobium, high", 1200, alloy("niobium").AnnealHighC).of("niobium"),
	)
}

// solders are fillers and grades.
func solders() []Row {
	c := factors.CelsiusFromFahrenheit
	at := func(key string) stock.Solder {
		s, ok := stock.SolderByKey(key)
		if !ok {
			return stock.Solder{SolidusC: math.NaN(), FlowC: math.NaN()}
		}
		return s
	}
	var rows []Row
	handbook := table{on("heat"), "Machinery's Handbook, 31st ed., table 1a, silver brazing filler metals after AWS A5.8", Read, "°C", 1, ""}
	for _, f := range []struct {
		key            string
		solidus, flows float64
	}{{"bag-2a", 1125, 1310}, {"bag-3", 1170, 1270}, {"bag-5", 1250, 1370}, {"bag-6", 1270, 1425}, {"bag-7", 1145, 1205}, {"bag-8", 1435, 1435}, {"bag-20", 1250, 1410}, {"bag-24", 1220, 1305}} {
		rows = append(rows, handbook.row("solidus of "+f.key, c(f.solidus), at(f.key).SolidusC), handbook.row("flow of "+f.key, c(f.flows), at(f.key).FlowC))
	}
	page := table{on("heat"), "a studio's page of solder information (argentimagination.com)", Read, "°C", 1.5, ""}
	for key, f := range map[string]float64{"extra-easy": 1207, "easy": 1325, "medium": 1360, "hard": 1450, "extra-hard": 1490} {
		rows = append(rows, page.row("flow of "+key+" silver solder", c(f), at(key).FlowC))
	}
	list := table{on("heat"), "a bench forum's list of jewellers' solders (orchid 15419)", Read, "°C", 2, ""}
	for key, s := range map[string]float64{"easy": 670, "medium": 691, "hard": 740} {
		rows = append(rows, list.row("solidus of "+key+" silver solder", s, at(key).SolidusC))
	}
	return rows
}

// sheets are masses of stock.
func sheets() []Row {
	const inch2 = 25.4 * 25.4
	var rows []Row
	shelf := table{on("weigh", "kit"), "suppliers' tables of sterling sheet, troy ounces a square inch", Memory, "ozt", 0.002, ""}
	for n, ozt := range map[int]float64{18: .219, 20: .174, 22: .138, 24: .109, 26: .087, 28: .069} {
		mass := stock.MassG(stock.SheetMM3(25.4, 25.4, stock.GaugeMM(n)), alloy("sterling").DensityGPerCM3) / factors.GramPerTroyOunce
		rows = append(rows, shelf.row("a square inch of sterling, "+stock.GaugeName(n)+" ga", ozt, mass).of("sterling"))
	}
	roof := table{on("weigh", "kit"), "ASTM B370, copper sheet by ounces a square foot", Memory, "oz", 0.3, "thickness is printed to 0.1 mil"}
	for oz, inch := range map[float64]float64{16: .0216, 20: .0270, 24: .0323, 32: .0431} {
		mass := stock.MassG(144*inch2*inch*25.4, alloy("copper").DensityGPerCM3) / factors.GramPerOunce
		rows = append(rows, roof.row(fmt.Sprintf("a square foot of copper, %.4f in thick", inch), oz, mass).of("copper"))
	}
	rings := table{on("weigh"), "rings of sterling wire 0.8 mm round a 3 mm mandrel: pi (3 + 0.8) long, 10.36 g/cm³ (espimetals.com)", Derived, "g", 5e-5, ""}
	wire := stock.MassG(math.Pi/4*0.8*0.8*math.Pi*3.8, alloy("sterling").DensityGPerCM3)
	return append(rows, rings.row("one ring", 0.0622, wire).of("sterling"))
}
