package requests

import "guildhand/calc/stock"

// treatment is how the trade heats, cools and joins a family of alloys. Unless
// a source is named it is common practice without one.
type treatment struct {
	// cool ends the headline's "then ..."; why gives the reason.
	cool, why string
	// hazards are shown as notes, before everything else.
	hazards []string
	// silverSolder is set where silver solder is the usual joint; solder says
	// what is otherwise.
	silverSolder bool
	solder       []string
	// after is pickle, fire stain and the like.
	after []string
}

const pickleStep = "pickle: rinse the quenched, cool work, then warm sodium hydrogensulfate in water, with copper or plastic tongs and no steel; follow its safety data sheet"

// treatmentOf finds an alloy's treatment: its own where it has one, otherwise
// its family's.
func treatmentOf(a stock.Alloy) treatment {
	if t, ok := ownTreatments[a.Key]; ok {
		return t
	}
	return treatments[a.Family]
}

var treatments = map[stock.Family]treatment{
	stock.Silver: {
		cool:         "let the glow go and quench in water",
		why:          "quench in water once it no longer glows, which keeps it soft; slow cooling hardens it a little (M. Grimwade, Introduction to Precious Metals, quoted)",
		silverSolder: true,
		after: []string{
			pickleStep,
			"fire stain: copper in the silver oxidises under the skin; flux or fire-scale guard all over, a short heat and a reducing flame hold it back; abrade it off; the acid dips for it are nitric and belong to licensed practice",
		},
	},
	stock.Gold: {
		cool: "quench in water once it no longer glows",
		why:  "yellow and green golds are quenched in water after annealing (bench article on annealing); some age-harden when they cool slowly",
		solder: []string{
			"solder: gold solder of the same carat and colour, hard for the first joint, then medium, then easy; its flow is on its maker's sheet, and it must flow well below the metal's solidus",
			"silver solder spoils the carat and the colour: not for gold that will be marked",
		},
		after: []string{pickleStep, "fire stain is slight; boric acid in spirit as a coat is burnt off before the torch comes near the bottle (spirit is highly flammable)"},
	},
	stock.RoseGold: {
		cool:    "quench at once, from above about 430 °C",
		why:     "gold-copper orders below about 400 °C and turns brittle when it cools slowly: quench while it is above about 430 °C (P. Rowe, bench forum; McDonald and Sistare, Gold Bulletin)",
		hazards: []string{"red gold that cools slowly turns brittle and cracks in forming: quench it from above about 430 °C, every time"},
		solder: []string{
			"solder: rose gold solder of the same carat; its flow is on its maker's sheet, and it must flow well below the metal's solidus",
			"after soldering too, quench from above about 430 °C",
		},
		after: []string{pickleStep, "fire stain: the copper oxidises; flux or boric acid all over"},
	},
	stock.WhiteGold: {
		cool:    "let it cool in air, below about 480 °C, before any water",
		why:     "white golds crack from thermal shock: air-cool below about 480 °C (bench forum) or leave in air altogether (alloy maker's heat-treating page)",
		hazards: []string{"never quench white gold hot: it cracks", "nickel-bearing white gold: filing dust and fume harm lungs and skin, and worn nickel is limited by law in many places"},
		solder:  []string{"solder: white gold solder of the same carat, from hard to easy; its flow is on its maker's sheet"},
		after:   []string{pickleStep},
	},
	stock.Copper: {
		cool:         "let the glow go and quench in water",
		why:          "these alloys soften however they cool; brasses that are quenched from a bright red can crack",
		hazards:      []string{"zinc fume from overheated brass, bronze and nickel silver causes metal fume fever: ventilate, and do not overheat"},
		silverSolder: true,
		after: []string{
			pickleStep + "; keep a separate pickle for copper alloys",
			"the scale is black and thick; on brass a pink copper film may stay after pickling and is brushed off",
		},
	},
	stock.Platinum: {
		cool:    "cool in air or water",
		why:     "it stays bright and soft however it cools; nothing softens below about 927 °C (bench article on annealing)",
		hazards: []string{"white heat hurts the eyes for good: wear the filter shade that the torch maker asks for this metal", "use clean tools and a separate block: traces of iron, lead, aluminium or silver solder make it brittle"},
		solder:  []string{"solder: platinum solders by their flow, from about 1000 to 1700 °C (from memory), or fusing and welding; no flux with most; no silver or gold solder on marked work"},
		after:   []string{"it does not oxidise and needs no pickle, but warm pickle removes flux and other metals' scale"},
	},
	stock.Titanium: {
		cool:    "let it cool in air or argon",
		why:     "above about 600 °C in air it takes up oxygen and nitrogen and turns brittle at the skin; kiln in argon or vacuum (from memory)",
		hazards: []string{"titanium dust and swarf burn fiercely, and water makes it worse: keep them apart, dry-powder extinguisher for metals (class D)"},
		solder:  []string{"it is not soldered at the bench: weld in argon, or join cold with rivets and settings"},
		after:   []string{"ordinary pickle does not remove titanium's scale, and the acids that do (hydrofluoric) are for licensed shops only"},
	},
}

// ownTreatments are alloys that differ from their family.
var ownTreatments = map[string]treatment{
	"fine-silver": {
		cool:         "cool as you like, in air or water",
		why:          "pure silver neither hardens nor cracks in cooling; it softens without any glow, so it is overheated easily",
		silverSolder: true,
		after:        []string{pickleStep, "no fire stain: there is no copper in it"},
	},
	"silver-935": germaniumSilver,
	"silver-960": germaniumSilver,
	"brass": {
		cool:         "let it go black, then quench in water",
		why:          "quenching from a red heat can crack brass that was hammered; let it go black first",
		hazards:      treatments[stock.Copper].hazards,
		silverSolder: true,
		after:        treatments[stock.Copper].after,
	},
	"nickel-silver": {
		cool:         "let it cool in air until it is black, then water",
		why:          "nickel silver cracks when it is heated or quenched quickly while it holds stresses",
		hazards:      append([]string{"nickel-bearing: filing dust and fume harm lungs and skin, and worn nickel is limited by law in many places"}, treatments[stock.Copper].hazards...),
		silverSolder: true,
		after:        treatments[stock.Copper].after,
	},
	"18k-white-palladium": {
		cool:    "let it go black, then quench in water",
		why:     "palladium white golds are less prone to cracking than nickel ones; go by the maker's sheet",
		hazards: []string{"white golds differ much: only the alloy's own sheet tells whether it may be quenched"},
		solder:  treatments[stock.WhiteGold].solder,
		after:   []string{pickleStep},
	},
}

var germaniumSilver = treatment{
	cool:         "leave it still until it is black, then quench in water",
	why:          "germanium-bearing silver is weak and cracks at red heat: support it, do not move or quench it while it glows; slow cooling hardens it",
	silverSolder: true,
	after:        []string{pickleStep, "little or no fire stain; its maker's sheet names the fluxes and solders that suit it"},
}
