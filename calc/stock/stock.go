// Package stock holds what a workshop has on its shelves: sheet and wire by
// gauge, alloys, tubes, blocks, punches and presses. Every table value brings
// its source; what has none is marked "common practice, no source".
package stock

import (
	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// Alloy is a metal of the trade.
type Alloy struct {
	// Key is the canonical word, "sterling"; Aliases are other ways to type it.
	Key     string
	Name    string
	Aliases []string
	// Composition in mass percent as text, "92.5 Ag, 7.5 Cu".
	Composition string
	// DensityGPerCM3 at room temperature.
	DensityGPerCM3 float64
	// SolidusC is where it begins to melt, °C: the lowest of the published
	// values, since heat ruins a piece from there on. SolidusHighC is the highest
	// of them. LiquidusC is where it is molten.
	SolidusC, SolidusHighC, LiquidusC float64
	// AnnealLowC and AnnealHighC bound the usual annealing range in °C.
	AnnealLowC, AnnealHighC float64
	// StrainLimit is the true (logarithmic) strain that annealed stock takes
	// before the next anneal.
	StrainLimit float64
	// FlowMPa and HardeningExponent are K and n of sigma = K strain^n.
	FlowMPa, HardeningExponent float64
	// Source names where density and temperatures come from.
	Source string
	// FormingSource names where StrainLimit, FlowMPa and HardeningExponent come
	// from.
	FormingSource string
	// Family is the metal that the alloy is of.
	Family Family
	// Treatment is how it is heated, cooled and joined.
	Treatment Treatment
}

// Treatment names how the trade heats, cools and joins an alloy; the bot's
// table of treatments has the words. Several alloys share one.
type Treatment string

// Treatments of alloys.
const (
	AsSilver          Treatment = "silver"
	AsFineSilver      Treatment = "fine silver"
	AsGermaniumSilver Treatment = "germanium-bearing silver"
	AsGold            Treatment = "gold"
	AsRoseGold        Treatment = "rose gold"
	AsNickelWhite     Treatment = "nickel white gold"
	AsPalladiumWhite  Treatment = "palladium white gold"
	AsCopper          Treatment = "copper alloy"
	AsBrass           Treatment = "brass that cracks in a hot quench"
	AsNickelSilver    Treatment = "nickel silver"
	AsPlatinum        Treatment = "platinum metal"
	AsTitanium        Treatment = "titanium"
	AsFineGold        Treatment = "fine gold"
	AsPalladium       Treatment = "palladium"
	AsNiobium         Treatment = "niobium"
	AsPewter          Treatment = "pewter"
	AsAluminium       Treatment = "aluminium"
)

// Family groups alloys of one metal.
type Family string

// Families of alloys.
const (
	Silver    Family = "silver"
	Gold      Family = "gold"
	WhiteGold Family = "white gold"
	RoseGold  Family = "rose gold"
	Copper    Family = "copper alloy"
	Platinum  Family = "platinum metal"
	Titanium  Family = "titanium"
	Niobium   Family = "niobium"
	Pewter    Family = "pewter"
	Aluminium Family = "aluminium"
)

// Families lists every family.
func Families() []Family {
	return []Family{Silver, Gold, WhiteGold, RoseGold, Copper, Platinum, Titanium, Niobium, Pewter, Aluminium}
}

// Block is a steel die with a row of tapered holes of one outline.
type Block struct {
	Name string
	Kind outline.Kind
	Lean units.Angle
	// ThicknessMM is the block's thickness, the depth of its holes.
	ThicknessMM float64
	// Holes are the openings at the block's face, largest first.
	Holes []outline.Size
}

// Punch is a tapered steel punch that finishes a collet.
type Punch struct {
	Name string
	Kind outline.Kind
	Lean units.Angle
	// Small and Large are the sections at the tip and at the shoulder.
	Small, Large outline.Size
}

// Tube is round tube stock.
type Tube struct {
	Name            string
	Alloy           string
	OuterMM, WallMM float64
}

// Press is a hydraulic press.
type Press struct {
	Name string
	// CapacityN is its rated force, N.
	CapacityN float64
	// RamAreaMM2 is the area of the ram, for the gauge pressure.
	RamAreaMM2 float64
}

// Sheet is stock sheet as it is bought.
type Sheet struct {
	Name              string
	WidthMM, LengthMM float64
}

// Price is a price per gram from the configuration, with its date.
type Price struct {
	Alloy    string
	PerGram  float64
	Currency string
	// Date is as written in the configuration, "2026-11-01".
	Date string
}

// Workshop is the lists of the configuration.
type Workshop struct {
	// Demo is set for the invented workshop of the default configuration, so
	// that answers can say that its blocks and tubes are examples.
	Demo    bool
	Blocks  []Block
	Punches []Punch
	Tubes   []Tube
	Presses []Press
	Sheets  []Sheet
	Prices  []Price
}
