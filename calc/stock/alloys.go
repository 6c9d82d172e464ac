package stock

import (
	"math"
	"strings"
)

// considere returns K of sigma = K strain^n, MPa, for an annealed metal of
// ultimate tensile strength utsMPa and hardening exponent n.
//
// At the start of necking the strain is n (Considère's construction), so
// UTS = K n^n / e^n. Source: G. E. Dieter, Mechanical Metallurgy, "The tension
// test".
func considere(utsMPa, n float64) float64 { return utsMPa * math.Pow(math.E/n, n) }

// limit returns the strain limit of StrainLimit from the reduction in rolling
// (0.45 for 45 %) after which the trade anneals.
//
// Two thirds of the rolling strain: a collar or a dome is strained in more
// than one direction and its free edge cracks first. House rule, common
// practice, no source for the two thirds.
func limit(reduction float64) float64 {
	return math.Round(100*2./3*math.Log(1/(1-reduction))) / 100
}

const (
	ruleOfLimit  = "strain limit: two thirds of the rolling reduction between anneals (house rule)"
	byConsidere  = "K from the annealed tensile strength and n (both from memory) by Considère's construction"
	caratAnneal  = "annealing 677 °C for karat golds: a bench article on annealing gold, silver and platinum; the lower end from memory"
	caratSG      = "density: trade specific gravity for casting, spread about 2 %"
	wgcFromMem   = "World Gold Council table of coloured golds, from memory"
	memory       = "from memory"
	textbookFlow = "K and n: Kalpakjian & Schmid, Manufacturing Engineering and Technology, table of flow-curve values, from memory"
)

// alloys is the table of Alloys, in the order in which help lists it.
//
// Where sources disagree on a density or a range of annealing the value nearest
// to the middle is used; of where a metal begins to melt both ends are kept. An alloy maker's own data sheet comes before this table.
var alloys = []Alloy{
	{
		Key: "fine-silver", Name: "fine silver", Aliases: []string{"ag999", "999-silver", "pure-silver"},
		Composition: "99.9 Ag", Family: Silver, Treatment: AsFineSilver, DensityGPerCM3: 10.49,
		SolidusC: 961.8, SolidusHighC: 961.8, LiquidusC: 961.8, AnnealLowC: 200, AnnealHighC: 400,
		StrainLimit: limit(0.70), FlowMPa: considere(150, 0.45), HardeningExponent: 0.45,
		Source:        "density: table of metal densities, 10.474 to 10.49; melting point: ITS-90; annealing: bench forum, sources disagree (200 °C, 400 °C)",
		FormingSource: ruleOfLimit + ", 70 % from memory; " + byConsidere + ", 150 MPa, 0.45",
	},
	{
		Key: "sterling", Name: "sterling silver", Aliases: []string{"ss", "ag925", "925", "925-silver", "sterling-silver"},
		Composition: "92.5 Ag, 7.5 Cu", Family: Silver, Treatment: AsSilver, DensityGPerCM3: 10.36,
		SolidusC: 779, SolidusHighC: 802, LiquidusC: 899, AnnealLowC: 593, AnnealHighC: 649,
		StrainLimit: limit(0.45), FlowMPa: considere(270, 0.35), HardeningExponent: 0.35,
		Source:        "density: metal supplier's data page; melting: 779 °C is the handbook's nearest standard filler (92.5 Ag, 7.3 Cu), 788 a metal supplier's page, 802 an encyclopedia table; molten at 891 to 899; annealing: an alloy maker's heat-treating page, torch",
		FormingSource: ruleOfLimit + ", 45 % (C. Lewton-Brain, forum); " + byConsidere + ", 270 MPa, 0.35",
	},
	{
		Key: "silver-935", Name: "germanium-bearing silver 935", Aliases: []string{"935", "ag935", "germanium-silver"},
		Composition: "93.5 Ag, about 5.5 Cu, about 1 Ge", Family: Silver, Treatment: AsGermaniumSilver, DensityGPerCM3: 10.3,
		SolidusC: 766, SolidusHighC: 803, LiquidusC: 903, AnnealLowC: 590, AnnealHighC: 640,
		StrainLimit: limit(0.45), FlowMPa: considere(270, 0.35), HardeningExponent: 0.35,
		Source:        "density: volume mixture, 10.29; melting: an earlier text has 766 to 877, an encyclopedia copy 803 to 903; annealing from memory",
		FormingSource: ruleOfLimit + ", 45 % as sterling; " + byConsidere + ", as sterling",
	},
	{
		Key: "silver-960", Name: "germanium-bearing silver 960", Aliases: []string{"960", "ag960"},
		Composition: "96 Ag, balance Cu and Ge", Family: Silver, Treatment: AsGermaniumSilver, DensityGPerCM3: 10.4,
		SolidusC: 890, SolidusHighC: 905, LiquidusC: 925, AnnealLowC: 590, AnnealHighC: 640,
		StrainLimit: limit(0.50), FlowMPa: considere(240, 0.38), HardeningExponent: 0.38,
		Source:        "density: volume mixture; melting: encyclopedia copy 890 to 920, older pages 905 to 925; annealing from memory",
		FormingSource: ruleOfLimit + ", 50 % from memory; " + byConsidere + ", 240 MPa, 0.38",
	},
	{
		Key: "fine-gold", Name: "fine gold", Aliases: []string{"24k", "24ct", "au999", "pure-gold"},
		Composition: "99.9 Au", Family: Gold, Treatment: AsFineGold, DensityGPerCM3: 19.32,
		SolidusC: 1064.2, SolidusHighC: 1064.2, LiquidusC: 1064.2, AnnealLowC: 200, AnnealHighC: 400,
		StrainLimit: limit(0.70), FlowMPa: considere(125, 0.45), HardeningExponent: 0.45,
		Source:        "density: table of metal densities; melting point: ITS-90; annealing: bench forum, sources disagree (200 °C, 400 °C)",
		FormingSource: ruleOfLimit + ", 70 % from memory; " + byConsidere + ", 125 MPa, 0.45",
	},
	{
		Key: "22k", Name: "22 karat yellow gold", Aliases: []string{"22ct", "916", "au916", "22k-yellow"},
		Composition: "91.6 Au, 5.5 Ag, 2.8 Cu", Family: Gold, Treatment: AsGold, DensityGPerCM3: 17.9,
		SolidusC: 995, SolidusHighC: 995, LiquidusC: 1020, AnnealLowC: 600, AnnealHighC: 677,
		StrainLimit: limit(0.60), FlowMPa: considere(240, 0.40), HardeningExponent: 0.40,
		Source:        "density and melting: " + wgcFromMem + "; " + caratAnneal,
		FormingSource: ruleOfLimit + ", 60 % from memory; " + byConsidere + ", 240 MPa, 0.40",
	},
	{
		Key: "18k-yellow", Name: "18 karat yellow gold", Aliases: []string{"18k", "18ct", "750", "au750", "18ct-yellow", "2n"},
		Composition: "75 Au, 16 Ag, 9 Cu", Family: Gold, Treatment: AsGold, DensityGPerCM3: 15.6,
		SolidusC: 895, SolidusHighC: 895, LiquidusC: 920, AnnealLowC: 620, AnnealHighC: 677,
		StrainLimit: limit(0.50), FlowMPa: considere(480, 0.35), HardeningExponent: 0.35,
		Source:        "density: trade specific gravity, 15.2 to 15.6; melting: " + wgcFromMem + "; " + caratAnneal,
		FormingSource: ruleOfLimit + ", 50 % from memory; " + byConsidere + ", 480 MPa, 0.35",
	},
	{
		Key: "18k-rose", Name: "18 karat rose gold", Aliases: []string{"18k-red", "18ct-rose", "18ct-red", "5n"},
		Composition: "75 Au, 4.5 Ag, 20.5 Cu", Family: RoseGold, Treatment: AsRoseGold, DensityGPerCM3: 15.15,
		SolidusC: 890, SolidusHighC: 890, LiquidusC: 895, AnnealLowC: 620, AnnealHighC: 677,
		StrainLimit: limit(0.40), FlowMPa: considere(550, 0.32), HardeningExponent: 0.32,
		Source:        "density and melting: " + wgcFromMem + " (trade specific gravity 15.18); " + caratAnneal,
		FormingSource: ruleOfLimit + ", 40 % from memory; " + byConsidere + ", 550 MPa, 0.32",
	},
	{
		Key: "18k-white", Name: "18 karat nickel white gold", Aliases: []string{"18ct-white", "18k-white-nickel"},
		Composition: "75 Au, balance Ni, Cu, Zn", Family: WhiteGold, Treatment: AsNickelWhite, DensityGPerCM3: 14.64,
		SolidusC: 890, SolidusHighC: 890, LiquidusC: 945, AnnealLowC: 607, AnnealHighC: 650,
		StrainLimit: limit(0.40), FlowMPa: considere(640, 0.30), HardeningExponent: 0.30,
		Source:        caratSG + "; melting and upper end of annealing from memory; annealing 607 °C: an alloy maker's heat-treating page",
		FormingSource: ruleOfLimit + ", 40 % (an alloy maker's heat-treating page); " + byConsidere + ", 640 MPa, 0.30",
	},
	{
		Key: "18k-white-palladium", Name: "18 karat palladium white gold", Aliases: []string{"18k-white-pd", "18ct-white-pd"},
		Composition: "75 Au, about 13 Pd, balance Ag and Cu", Family: WhiteGold, Treatment: AsPalladiumWhite, DensityGPerCM3: 15.8,
		SolidusC: 1095, SolidusHighC: 1095, LiquidusC: 1155, AnnealLowC: 650, AnnealHighC: 750,
		StrainLimit: limit(0.45), FlowMPa: considere(400, 0.35), HardeningExponent: 0.35,
		Source:        "density, melting and annealing " + memory + "; they differ much between makers",
		FormingSource: ruleOfLimit + ", 45 % from memory; " + byConsidere + ", 400 MPa, 0.35",
	},
	{
		Key: "18k-green", Name: "18 karat green gold", Aliases: []string{"18ct-green"},
		Composition: "75 Au, 25 Ag", Family: Gold, Treatment: AsGold, DensityGPerCM3: 15.9,
		SolidusC: 1030, SolidusHighC: 1030, LiquidusC: 1040, AnnealLowC: 600, AnnealHighC: 677,
		StrainLimit: limit(0.60), FlowMPa: considere(220, 0.40), HardeningExponent: 0.40,
		Source:        caratSG + "; melting from memory; " + caratAnneal,
		FormingSource: ruleOfLimit + ", 60 % from memory; " + byConsidere + ", 220 MPa, 0.40",
	},
	{
		Key: "14k-yellow", Name: "14 karat yellow gold", Aliases: []string{"14k", "14ct", "585", "au585", "14ct-yellow"},
		Composition: "58.3 Au, balance Ag, Cu, Zn", Family: Gold, Treatment: AsGold, DensityGPerCM3: 13.07,
		SolidusC: 829, SolidusHighC: 829, LiquidusC: 871, AnnealLowC: 649, AnnealHighC: 677,
		StrainLimit: limit(0.50), FlowMPa: considere(460, 0.36), HardeningExponent: 0.36,
		Source:        "density: trade specific gravity, 13.07 to 13.7; melting from memory; annealing 649 °C: an alloy maker's heat-treating page; 677 °C: a bench article",
		FormingSource: ruleOfLimit + ", 50 % from memory; " + byConsidere + ", 460 MPa, 0.36",
	},
	{
		Key: "14k-rose", Name: "14 karat rose gold", Aliases: []string{"14k-red", "14ct-rose", "14ct-red"},
		Composition: "58.5 Au, 9 Ag, 32.5 Cu", Family: RoseGold, Treatment: AsRoseGold, DensityGPerCM3: 13.3,
		SolidusC: 850, SolidusHighC: 850, LiquidusC: 885, AnnealLowC: 620, AnnealHighC: 677,
		StrainLimit: limit(0.40), FlowMPa: considere(500, 0.34), HardeningExponent: 0.34,
		Source:        "density: volume mixture, 13.29; melting from memory; " + caratAnneal,
		FormingSource: ruleOfLimit + ", 40 % from memory; " + byConsidere + ", 500 MPa, 0.34",
	},
	{
		Key: "14k-white", Name: "14 karat nickel white gold", Aliases: []string{"14ct-white"},
		Composition: "58.3 Au, balance Ni, Cu, Zn", Family: WhiteGold, Treatment: AsNickelWhite, DensityGPerCM3: 12.6,
		SolidusC: 925, SolidusHighC: 925, LiquidusC: 980, AnnealLowC: 607, AnnealHighC: 650,
		StrainLimit: limit(0.40), FlowMPa: considere(650, 0.30), HardeningExponent: 0.30,
		Source:        "density, melting and upper end of annealing from memory; annealing 607 °C: an alloy maker's heat-treating page",
		FormingSource: ruleOfLimit + ", 40 % (an alloy maker's heat-treating page); " + byConsidere + ", 650 MPa, 0.30",
	},
	{
		Key: "14k-white-palladium", Name: "14 karat palladium white gold", Aliases: []string{"14k-white-pd", "14ct-white-pd"},
		Composition: "58.3 Au, 32.2 Ag, 9.5 Pd", Family: WhiteGold, Treatment: AsPalladiumWhite, DensityGPerCM3: 14.5,
		SolidusC: 1050, SolidusHighC: 1050, LiquidusC: 1110, AnnealLowC: 650, AnnealHighC: 750,
		StrainLimit: limit(0.45), FlowMPa: considere(380, 0.35), HardeningExponent: 0.35,
		Source:        "composition: Materials Chemistry, 2nd ed., table 3.4; density: volume mixture; melting and annealing from memory, on the low side: ask your refiner",
		FormingSource: ruleOfLimit + ", 45 % from memory; " + byConsidere + ", 380 MPa, 0.35",
	},
	{
		Key: "10k-yellow", Name: "10 karat yellow gold", Aliases: []string{"10k", "10ct", "417"},
		Composition: "41.7 Au, balance Ag, Cu, Zn", Family: Gold, Treatment: AsGold, DensityGPerCM3: 11.6,
		SolidusC: 800, SolidusHighC: 800, LiquidusC: 880, AnnealLowC: 620, AnnealHighC: 677,
		StrainLimit: limit(0.45), FlowMPa: considere(450, 0.36), HardeningExponent: 0.36,
		Source:        caratSG + "; melting from memory; " + caratAnneal,
		FormingSource: ruleOfLimit + ", 45 % from memory; " + byConsidere + ", 450 MPa, 0.36",
	},
	{
		Key: "10k-rose", Name: "10 karat rose gold", Aliases: []string{"10k-red", "10ct-rose"},
		Composition: "41.7 Au, 2.8 Ag, 55.5 Cu", Family: RoseGold, Treatment: AsRoseGold, DensityGPerCM3: 11.6,
		SolidusC: 895, SolidusHighC: 895, LiquidusC: 950, AnnealLowC: 620, AnnealHighC: 677,
		StrainLimit: limit(0.40), FlowMPa: considere(480, 0.34), HardeningExponent: 0.34,
		Source:        "composition: Materials Chemistry, 2nd ed., table 3.4; density: volume mixture; melting and annealing from memory, on the low side: ask your refiner",
		FormingSource: ruleOfLimit + ", 40 % from memory; " + byConsidere + ", 480 MPa, 0.34",
	},
	{
		Key: "10k-white", Name: "10 karat nickel white gold", Aliases: []string{"10ct-white", "10k-white-nickel"},
		Composition: "41.7 Au, 29.2 Cu, 15.1 Ni, 12.1 Zn", Family: WhiteGold, Treatment: AsNickelWhite, DensityGPerCM3: 11.1,
		SolidusC: 890, SolidusHighC: 890, LiquidusC: 940, AnnealLowC: 607, AnnealHighC: 650,
		StrainLimit: limit(0.40), FlowMPa: considere(620, 0.30), HardeningExponent: 0.30,
		Source:        "composition: Materials Chemistry, 2nd ed., table 3.4; density: volume mixture; melting and annealing from memory, on the low side: ask your refiner",
		FormingSource: ruleOfLimit + ", 40 % from memory; " + byConsidere + ", 620 MPa, 0.30",
	},
	{
		Key: "10k-white-palladium", Name: "10 karat palladium white gold", Aliases: []string{"10k-white-pd", "10ct-white-pd"},
		Composition: "41.7 Au, 47.4 Ag, 10 Pd, 0.9 Cu", Family: WhiteGold, Treatment: AsPalladiumWhite, DensityGPerCM3: 13.1,
		SolidusC: 980, SolidusHighC: 980, LiquidusC: 1060, AnnealLowC: 650, AnnealHighC: 750,
		StrainLimit: limit(0.45), FlowMPa: considere(350, 0.35), HardeningExponent: 0.35,
		Source:        "composition: Materials Chemistry, 2nd ed., table 3.4; density: volume mixture; melting and annealing from memory, on the low side: ask your refiner",
		FormingSource: ruleOfLimit + ", 45 % from memory; " + byConsidere + ", 350 MPa, 0.35",
	},
	{
		Key: "9k-yellow", Name: "9 karat yellow gold", Aliases: []string{"9k", "9ct", "375", "au375"},
		Composition: "37.5 Au, 10 Ag, 45 Cu, 7.5 Zn", Family: Gold, Treatment: AsGold, DensityGPerCM3: 11.4,
		SolidusC: 880, SolidusHighC: 880, LiquidusC: 900, AnnealLowC: 620, AnnealHighC: 677,
		StrainLimit: limit(0.45), FlowMPa: considere(440, 0.38), HardeningExponent: 0.38,
		Source:        "density: trade specific gravity 11.4, volume mixture 11.15; melting from memory; " + caratAnneal,
		FormingSource: ruleOfLimit + ", 45 % from memory; " + byConsidere + ", 440 MPa, 0.38",
	},
	{
		Key: "9k-rose", Name: "9 karat rose gold", Aliases: []string{"9k-red", "9ct-rose", "9ct-red"},
		Composition: "37.5 Au, 20 Ag, 42.5 Cu", Family: RoseGold, Treatment: AsRoseGold, DensityGPerCM3: 11.6,
		SolidusC: 795, SolidusHighC: 795, LiquidusC: 870, AnnealLowC: 590, AnnealHighC: 650,
		StrainLimit: limit(0.40), FlowMPa: considere(460, 0.36), HardeningExponent: 0.36,
		Source:        "composition from memory; density: volume mixture; melting and annealing from memory, on the low side: ask your refiner",
		FormingSource: ruleOfLimit + ", 40 % from memory; " + byConsidere + ", 460 MPa, 0.36",
	},
	{
		Key: "9k-white", Name: "9 karat nickel white gold", Aliases: []string{"9ct-white", "9k-white-nickel"},
		Composition: "37.5 Au, 34 Cu, 17.7 Ni, 10.8 Zn", Family: WhiteGold, Treatment: AsNickelWhite, DensityGPerCM3: 10.8,
		SolidusC: 890, SolidusHighC: 890, LiquidusC: 950, AnnealLowC: 607, AnnealHighC: 650,
		StrainLimit: limit(0.40), FlowMPa: considere(620, 0.30), HardeningExponent: 0.30,
		Source:        "composition: a jewellery catalogue's page; density: volume mixture; melting and annealing from memory, on the low side: ask your refiner",
		FormingSource: ruleOfLimit + ", 40 % from memory; " + byConsidere + ", 620 MPa, 0.30",
	},
	{
		Key: "9k-white-palladium", Name: "9 karat palladium white gold", Aliases: []string{"9k-white-pd", "9ct-white-pd"},
		Composition: "37.5 Au, 50 Ag, 10 Pd, 2.5 Cu", Family: WhiteGold, Treatment: AsPalladiumWhite, DensityGPerCM3: 12.8,
		SolidusC: 960, SolidusHighC: 960, LiquidusC: 1040, AnnealLowC: 650, AnnealHighC: 750,
		StrainLimit: limit(0.45), FlowMPa: considere(340, 0.35), HardeningExponent: 0.35,
		Source:        "composition from memory; density: volume mixture; melting and annealing from memory, on the low side: ask your refiner",
		FormingSource: ruleOfLimit + ", 45 % from memory; " + byConsidere + ", 340 MPa, 0.35",
	},
	{
		Key: "copper", Name: "copper", Aliases: []string{"cu", "c11000", "c110"},
		Composition: "99.9 Cu", Family: Copper, Treatment: AsCopper, DensityGPerCM3: 8.92,
		SolidusC: 1065, SolidusHighC: 1065, LiquidusC: 1083, AnnealLowC: 375, AnnealHighC: 650,
		StrainLimit: limit(0.70), FlowMPa: 315, HardeningExponent: 0.54,
		Source:        "density: copper industry journal, 8.89 to 8.94; melting: C11000 data sheet; annealing: ASM/CDA from memory",
		FormingSource: ruleOfLimit + ", 70 % from memory; " + textbookFlow + " (copper, annealed)",
	},
	{
		Key: "red-brass", Name: "red brass CuZn15", Aliases: []string{"cuzn15", "c23000", "c230"},
		Composition: "85 Cu, 15 Zn", Family: Copper, Treatment: AsCopper, DensityGPerCM3: 8.75,
		SolidusC: 988, SolidusHighC: 988, LiquidusC: 1027, AnnealLowC: 425, AnnealHighC: 725,
		StrainLimit: limit(0.60), FlowMPa: considere(275, 0.42), HardeningExponent: 0.42,
		Source:        "density and melting: C23000 materials data page; annealing: a tube maker's C23000 sheet",
		FormingSource: ruleOfLimit + ", 60 % from memory; " + byConsidere + ", 275 MPa, 0.42",
	},
	{
		Key: "brass", Name: "cartridge brass CuZn30", Aliases: []string{"cuzn30", "yellow-brass", "c26000", "c260"},
		Composition: "70 Cu, 30 Zn", Family: Copper, Treatment: AsBrass, DensityGPerCM3: 8.53,
		SolidusC: 916, SolidusHighC: 916, LiquidusC: 954, AnnealLowC: 425, AnnealHighC: 750,
		StrainLimit: limit(0.55), FlowMPa: 895, HardeningExponent: 0.49,
		Source:        "density and melting: C26000 materials data page; annealing: ASM/CDA from memory",
		FormingSource: ruleOfLimit + ", 55 % from memory; " + textbookFlow + " (70-30 brass, annealed)",
	},
	{
		Key: "commercial-bronze", Name: "commercial bronze CuZn10", Aliases: []string{"cuzn10", "c22000", "c220", "bronze", "gilding-metal", "cw501l", "cz101"},
		Composition: "90 Cu, 10 Zn", Family: Copper, Treatment: AsCopper, DensityGPerCM3: 8.8,
		SolidusC: 1021, SolidusHighC: 1021, LiquidusC: 1043, AnnealLowC: 427, AnnealHighC: 788,
		StrainLimit: limit(0.60), FlowMPa: considere(255, 0.42), HardeningExponent: 0.42,
		Source:        "density, melting and annealing: C22000 materials data page",
		FormingSource: ruleOfLimit + ", 60 % from memory; " + byConsidere + ", 255 MPa, 0.42",
	},
	{
		Key: "phosphor-bronze", Name: "phosphor bronze CuSn5", Aliases: []string{"cusn5", "c51000", "c510"},
		Composition: "95 Cu, 5 Sn, trace P", Family: Copper, Treatment: AsCopper, DensityGPerCM3: 8.86,
		SolidusC: 960, SolidusHighC: 960, LiquidusC: 1050, AnnealLowC: 475, AnnealHighC: 675,
		StrainLimit: limit(0.45), FlowMPa: 720, HardeningExponent: 0.46,
		Source:        "density: a C51000 data sheet; melting: materials data page; annealing from memory",
		FormingSource: ruleOfLimit + ", 45 % from memory; " + textbookFlow + " (phosphor bronze, annealed)",
	},
	{
		Key: "nickel-silver", Name: "nickel silver CuNi18Zn17", Aliases: []string{"german-silver", "cuni18zn17", "c75200", "c752"},
		Composition: "65 Cu, 18 Ni, 17 Zn", Family: Copper, Treatment: AsNickelSilver, DensityGPerCM3: 8.73,
		SolidusC: 1071, SolidusHighC: 1071, LiquidusC: 1110, AnnealLowC: 620, AnnealHighC: 700,
		StrainLimit: limit(0.45), FlowMPa: considere(400, 0.38), HardeningExponent: 0.38,
		Source:        "density and melting: CDA data sheet C75200, from memory; annealing: a C76300 data sheet, the nearest read",
		FormingSource: ruleOfLimit + ", 45 % from memory; " + byConsidere + ", 400 MPa, 0.38",
	},
	{
		Key: "platinum-950", Name: "platinum 950 (ruthenium)", Aliases: []string{"platinum", "pt950", "pt"},
		Composition: "95 Pt, 5 Ru", Family: Platinum, Treatment: AsPlatinum, DensityGPerCM3: 20.7,
		SolidusC: 1780, SolidusHighC: 1780, LiquidusC: 1795, AnnealLowC: 927, AnnealHighC: 1000,
		StrainLimit: limit(0.60), FlowMPa: considere(460, 0.30), HardeningExponent: 0.30,
		Source:        "density: trade specific gravity, agrees with the mixture; melting: platinum trade tables, from memory; no softening under 927 °C: a bench article; upper end from memory",
		FormingSource: ruleOfLimit + ", 60 % from memory; " + byConsidere + ", 460 MPa, 0.30",
	},
	{
		Key: "palladium-950", Name: "palladium 950", Aliases: []string{"palladium", "pd950", "pd"},
		Composition: "95 Pd, balance Ru or Ga", Family: Platinum, Treatment: AsPalladium, DensityGPerCM3: 12.0,
		SolidusC: 1350, SolidusHighC: 1350, LiquidusC: 1550, AnnealLowC: 927, AnnealHighC: 980,
		StrainLimit: limit(0.50), FlowMPa: considere(350, 0.32), HardeningExponent: 0.32,
		Source:        "density: Platinum Metals Rev. 53(4), 2009, p. 189; melting: depends on the alloy, wide range; no softening under 927 °C: a bench article; upper end from memory",
		FormingSource: ruleOfLimit + ", 50 % from memory; " + byConsidere + ", 350 MPa, 0.32",
	},
	{
		Key: "titanium", Name: "titanium grade 2", Aliases: []string{"ti", "titanium-2"},
		Composition: "99.2 Ti", Family: Titanium, Treatment: AsTitanium, DensityGPerCM3: 4.51,
		SolidusC: 1665, SolidusHighC: 1665, LiquidusC: 1670, AnnealLowC: 650, AnnealHighC: 760,
		StrainLimit: limit(0.30), FlowMPa: considere(430, 0.15), HardeningExponent: 0.15,
		Source:        "density: materials data page; melting and annealing from memory",
		FormingSource: ruleOfLimit + ", 30 % from memory; " + byConsidere + ", 430 MPa, 0.15",
	},
	{
		Key: "niobium", Name: "niobium", Aliases: []string{"nb", "columbium"},
		Composition: "99.8 Nb", Family: Niobium, Treatment: AsNiobium, DensityGPerCM3: 8.57,
		SolidusC: 2468, SolidusHighC: 2468, LiquidusC: 2477, AnnealLowC: 1100, AnnealHighC: 1200,
		StrainLimit: limit(0.70), FlowMPa: considere(275, 0.25), HardeningExponent: 0.25,
		Source:        "density and melting: a metal supplier's page (2468 °C) and an encyclopedia (2477 °C); annealing 1200 °C in vacuum: a wire maker's page; lower end from memory",
		FormingSource: ruleOfLimit + ", 70 % from memory (a wire maker's page has up to 90 %); " + byConsidere + ", 275 MPa, 0.25",
	},
	{
		Key: "pewter", Name: "lead-free pewter", Aliases: []string{"britannia-metal", "modern-pewter"},
		Composition: "92 Sn, 6.5 Sb, 1.5 Cu", Family: Pewter, Treatment: AsPewter, DensityGPerCM3: 7.28,
		SolidusC: 244, SolidusHighC: 244, LiquidusC: 295,
		StrainLimit: limit(0.70), FlowMPa: considere(59, 0.10), HardeningExponent: 0.10,
		Source:        "density and melting from memory (T. Fejka, SNAG Tech News, August 2009: about 260 °C); not annealed: it softens by itself",
		FormingSource: ruleOfLimit + ", 70 % from memory; " + byConsidere + ", 59 MPa, 0.10",
	},
	{
		Key: "aluminium", Name: "aluminium 1100", Aliases: []string{"aluminum", "al", "al-1100", "1100"},
		Composition: "99 Al", Family: Aluminium, Treatment: AsAluminium, DensityGPerCM3: 2.71,
		SolidusC: 643, SolidusHighC: 643, LiquidusC: 657, AnnealLowC: 343, AnnealHighC: 360,
		StrainLimit: limit(0.60), FlowMPa: 180, HardeningExponent: 0.20,
		Source:        "density, melting and annealing 343 °C: two mills' sheets of 1100; upper end of annealing from memory",
		FormingSource: ruleOfLimit + ", 60 % from memory; " + textbookFlow + " (aluminium 1100, annealed)",
	},
}

// Alloys returns every alloy, in the order in which help lists them. The slice
// is the caller's own.
func Alloys() []Alloy { return append([]Alloy(nil), alloys...) }

// AlloyByKey finds an alloy by its key or one of its aliases; upper and lower
// case, blanks and underscores for hyphens make no difference.
func AlloyByKey(key string) (Alloy, bool) {
	key = strings.NewReplacer(" ", "-", "_", "-").Replace(strings.ToLower(strings.TrimSpace(key)))
	for _, a := range alloys {
		if a.Key == key {
			return a, true
		}
		for _, alias := range a.Aliases {
			if alias == key {
				return a, true
			}
		}
	}
	return Alloy{}, false
}
