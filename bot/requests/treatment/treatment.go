// Package treatment is how the trade heats, cools and joins its alloys.
package treatment

import "guildhand/calc/stock"

// Treatment is how the trade heats, cools and joins a family of alloys. Unless
// a source is named it is common practice without one.
type Treatment struct {
	// Cool ends the headline's "then ..."; Why gives the reason.
	Cool, Why string
	// Hazards are shown as notes, before everything else.
	Hazards []string
	// SilverSolder is set where silver solder is the usual joint; Solder says
	// what is otherwise.
	SilverSolder bool
	Solder       []string
	// NotSoldered metals are welded or joined cold.
	NotSoldered bool
	// After is pickle, fire stain and the like.
	After []string
}

const pickleStep = "pickle: rinse the quenched, cool work, then warm sodium hydrogensulfate in water, with copper or plastic tongs and no steel; follow its safety data sheet"

// Of is an alloy's treatment.
func Of(a stock.Alloy) Treatment { return treatments[a.Treatment] }

// What several treatments share.
var copperHazards = []string{"zinc fume from overheated brass, bronze and nickel silver causes metal fume fever: ventilate, and do not overheat"}

var copperAfter = []string{
	pickleStep + "; keep a separate pickle for copper alloys",
	"the scale is black and thick; on brass a pink copper film may stay after pickling and is brushed off",
}

var whiteGoldSolder = []string{"solder: white gold solder of the same carat, from hard to easy; its flow is on its maker's sheet"}

// treatments are in the words of answers; an alloy's literal in calc/stock names
// its own.
var treatments = map[stock.Treatment]Treatment{
	stock.AsSilver: {
		Cool:         "let the glow go and quench in water",
		Why:          "quench in water once it no longer glows, which keeps it soft; slow cooling hardens it a little (M. Grimwade, Introduction to Precious Metals, quoted)",
		SilverSolder: true,
		After: []string{
			pickleStep,
			"fire stain: copper in the silver oxidises under the skin; flux or fire-scale guard all over, a short heat and a reducing flame hold it back; abrade it off; the acid dips for it are nitric and belong to licensed practice",
		},
	},
	stock.AsGold: {
		Cool: "quench in water once it no longer glows",
		Why:  "yellow and green golds are quenched in water after annealing (bench article on annealing); some age-harden when they cool slowly",
		Solder: []string{
			"solder: gold solder of the same carat and colour, hard for the first joint, then medium, then easy; its flow is on its maker's sheet, and it must flow well below the metal's solidus",
			"silver solder spoils the carat and the colour: not for gold that will be marked",
		},
		After: []string{pickleStep, "fire stain is slight; boric acid in spirit as a coat is burnt off before the torch comes near the bottle (spirit is highly flammable)"},
	},
	stock.AsRoseGold: {
		Cool:    "quench at once, from above about 430 °C",
		Why:     "gold-copper orders below about 400 °C and turns brittle when it cools slowly: quench while it is above about 430 °C (P. Rowe, bench forum; McDonald and Sistare, Gold Bulletin)",
		Hazards: []string{"red gold that cools slowly turns brittle and cracks in forming: quench it from above about 430 °C, every time"},
		Solder: []string{
			"solder: rose gold solder of the same carat; its flow is on its maker's sheet, and it must flow well below the metal's solidus",
			"after soldering too, quench from above about 430 °C",
		},
		After: []string{pickleStep, "fire stain: the copper oxidises; flux or boric acid all over"},
	},
	stock.AsNickelWhite: {
		Cool:    "let it cool in air, below about 480 °C, before any water",
		Why:     "white golds crack from thermal shock: air-cool below about 480 °C (bench forum) or leave in air altogether (alloy maker's heat-treating page)",
		Hazards: []string{"never quench white gold hot: it cracks", "nickel-bearing white gold: filing dust and fume harm lungs and skin, and worn nickel is limited by law in many places"},
		Solder:  whiteGoldSolder,
		After:   []string{pickleStep},
	},
	stock.AsCopper: {
		Cool:         "let the glow go and quench in water",
		Why:          "these alloys soften however they cool; brasses that are quenched from a bright red can crack",
		Hazards:      copperHazards,
		SilverSolder: true,
		After:        copperAfter,
	},
	stock.AsPlatinum: {
		Cool:    "cool in air or water",
		Why:     "it stays bright and soft however it cools; nothing softens below about 927 °C (bench article on annealing)",
		Hazards: []string{"white heat hurts the eyes for good: wear the filter shade that the torch maker asks for this metal", "use clean tools and a separate block: traces of iron, lead, aluminium or silver solder make it brittle"},
		Solder:  []string{"solder: platinum solders by their flow, from about 1000 to 1700 °C (from memory), or fusing and welding; no flux with most; no silver or gold solder on marked work"},
		After:   []string{"it does not oxidise and needs no pickle, but warm pickle removes flux and other metals' scale"},
	},
	stock.AsTitanium: {
		NotSoldered: true,
		Cool:        "let it cool in air or argon",
		Why:         "above about 600 °C in air it takes up oxygen and nitrogen and turns brittle at the skin; kiln in argon or vacuum (from memory)",
		Hazards:     []string{"titanium dust and swarf burn fiercely, and water makes it worse: keep them apart, dry-powder extinguisher for metals (class D)"},
		Solder:      []string{"it is not soldered at the bench: weld in argon, or join cold with rivets and settings"},
		After:       []string{"ordinary pickle does not remove titanium's scale, and the acids that do (hydrofluoric) are for licensed shops only"},
	},
	stock.AsFineSilver: {
		Cool:         "cool as you like, in air or water",
		Why:          "pure silver neither hardens nor cracks in cooling; it softens without any glow, so it is overheated easily",
		SilverSolder: true,
		After:        []string{pickleStep, "no fire stain: there is no copper in it"},
	},
	stock.AsBrass: {
		Cool:         "let it go black, then quench in water",
		Why:          "quenching from a red heat can crack brass that was hammered; let it go black first",
		Hazards:      copperHazards,
		SilverSolder: true,
		After:        copperAfter,
	},
	stock.AsNickelSilver: {
		Cool:         "let it cool in air until it is black, then water",
		Why:          "nickel silver cracks when it is heated or quenched quickly while it holds stresses",
		Hazards:      append([]string{"nickel-bearing: filing dust and fume harm lungs and skin, and worn nickel is limited by law in many places"}, copperHazards...),
		SilverSolder: true,
		After:        copperAfter,
	},
	stock.AsPalladiumWhite: {
		Cool:    "let it go black, then quench in water",
		Why:     "palladium white golds are less prone to cracking than nickel ones; go by the maker's sheet",
		Hazards: []string{"white golds differ much: only the alloy's own sheet tells whether it may be quenched"},
		Solder:  whiteGoldSolder,
		After:   []string{pickleStep},
	},
	stock.AsGermaniumSilver: {
		Cool:         "leave it still until it is black, then quench in water",
		Why:          "germanium-bearing silver is weak and cracks at red heat: support it, do not move or quench it while it glows; slow cooling hardens it",
		SilverSolder: true,
		After:        []string{pickleStep, "little or no fire stain; its maker's sheet names the fluxes and solders that suit it"},
	},
}
