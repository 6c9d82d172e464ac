// Package treatment is how the trade heats, cools, joins and cleans its alloys,
// and the words in which steps say so.
package treatment

import (
	"fmt"
	"strings"

	"guildhand/bot/cautions"
	"guildhand/calc/stock"
)

// Treatment is how the trade heats, cools, joins and cleans a family of alloys.
// It is the one place that says so: heat, the steps of every piece and the kit's
// handout take their words from here. Unless a source is named it is common
// practice without one.
type Treatment struct {
	// Cool follows "then": "quench in water"; Why gives the reason.
	Cool, Why string
	// Cold is set for metals that are not annealed with a torch in air: it says
	// what is done instead.
	Cold string
	// Joint is how it is joined, Filler its solder without the grade.
	Joint  Joint
	Filler string
	// Solder says more about joints.
	Solder []string
	// Pickled is set where the metal goes into ordinary pickle; After is what
	// else is to be said of pickle, fire stain and the like.
	Pickled bool
	After   []string
}

// Joint is how a metal is joined at the bench.
type Joint int

const (
	// SilverSoldered metals take the silver solders of stock.Solders.
	SilverSoldered Joint = iota
	// OwnSoldered ones take solder of their own kind, in the same grades.
	OwnSoldered
	// PlatinumSoldered ones take solders that flow at white heat, without flux.
	PlatinumSoldered
	// SoftSoldered ones melt so low that they take soft solder alone.
	SoftSoldered
	// NotSoldered ones are welded elsewhere or joined cold.
	NotSoldered
)

// Of is an alloy's treatment.
func Of(a stock.Alloy) Treatment {
	t := treatments[a.Treatment]
	if t.Joint == OwnSoldered && t.Filler == "" {
		t.Filler = goldSolder(a)
	}
	return t
}

// goldSolder is "18 karat rose gold solder": of the same carat and colour.
func goldSolder(a stock.Alloy) string {
	return strings.NewReplacer("nickel ", "", "palladium ", "").Replace(a.Name) + " solder"
}

// Anneal is how an alloy is softened, as a clause: "anneal it at 593 to
// 649 °C, then ...".
func Anneal(a stock.Alloy) string {
	t := Of(a)
	if t.Cold != "" {
		return t.Cold
	}
	return fmt.Sprintf("anneal it at %.0f to %.0f °C, then %s", a.AnnealLowC, a.AnnealHighC, t.Cool)
}

// AnnealJobs are the jobs of that.
func AnnealJobs(a stock.Alloy) []cautions.Job {
	if Of(a).Cold != "" {
		return nil
	}
	return []cautions.Job{cautions.Annealing}
}

// AnnealAgain is an anneal between two steps, whose figures were given before.
func AnnealAgain(a stock.Alloy) string {
	if Of(a).Cold != "" {
		return "have it softened again in argon or vacuum, where it needs it"
	}
	return "anneal it again"
}

// Join is how a joint is made and cleaned, as a clause about "it": "solder
// it with hard silver solder and flux, then quench in water, rinse and pickle".
func Join(a stock.Alloy, grade string) string {
	t := Of(a)
	join := "solder it with " + SolderName(a, grade)
	if t.Joint == NotSoldered {
		return fmt.Sprintf("have it welded in argon or by laser, or join it cold: %s is not soldered", a.Name)
	}
	after := t.Cool
	if t.Pickled {
		after += ", rinse and pickle"
	}
	return join + ", then " + after
}

// SolderName names the solder of a joint with its flux: "hard silver solder and
// flux".
func SolderName(a stock.Alloy, grade string) string {
	t := Of(a)
	switch t.Joint {
	case SilverSoldered:
		if s, ok := stock.SolderByKey(grade); ok && a.SolidusC-s.FlowC < CloseC {
			return fmt.Sprintf("%s silver solder and flux, flame off at the flash (it flows at about %.0f °C, close to where the metal itself begins to melt; a lower grade leaves more room)", grade, s.FlowC)
		}
		return grade + " silver solder and flux"
	case OwnSoldered:
		return grade + " " + t.Filler + " and flux"
	case PlatinumSoldered, SoftSoldered:
		if grade != "hard" {
			return "lower-flowing " + t.Filler
		}
	}
	return t.Filler
}

// FillScores is what is done in a score that was folded.
func FillScores(a stock.Alloy) string {
	if Of(a).Joint == NotSoldered {
		return "have each score welded"
	}
	return "run " + SolderName(a, "hard") + " into each score"
}

// JoinJobs are the jobs of a joint.
func JoinJobs(a stock.Alloy) []cautions.Job {
	t := Of(a)
	if t.Joint == NotSoldered {
		return nil
	}
	jobs := []cautions.Job{cautions.Soldering}
	if t.Pickled {
		jobs = append(jobs, cautions.Pickle)
	}
	return jobs
}

// CloseC is the margin under an alloy's solidus within which a solder's flow is
// a warning: flames are not steered to less. Common practice, no source.
const CloseC = 30

const pickleStep = "Pickle: rinse the cool work, then warm sodium hydrogensulfate in water, with copper or plastic tongs and no steel; add the salt to the water, never water to acid, and follow its safety data sheet."

// What several treatments share.
var goldJoints = []string{
	"Solder: gold solder of the same carat and colour, hard for the first joint, then medium, then easy. Its flow is on its maker's sheet; it must lie at least 20 °C below where the metal begins to melt (C. Corti, Carat gold solders).",
	"Silver solder spoils the carat and the colour: do not use it on gold that will be marked.",
}

var copperAfter = []string{
	pickleStep + " Keep a separate pickle for copper alloys.",
	"The scale is black and thick. On brass a pink copper film may stay after pickling and is brushed off.",
}

// treatments are in the words of answers; an alloy's literal in calc/stock names
// its own.
var treatments = map[stock.Treatment]Treatment{
	stock.AsSilver: {
		Cool:    "let the glow go and quench in water",
		Why:     "Quench in water once it no longer glows, which keeps it soft; slow cooling hardens it a little (M. Grimwade, Introduction to Precious Metals, quoted).",
		Pickled: true,
		After: []string{
			pickleStep,
			"Fire stain: copper in the silver oxidises under the skin. Flux or fire-scale guard all over, a short heat and a reducing flame hold it back; abrade it off. The acid dips for it are nitric and are for licensed shops.",
		},
	},
	stock.AsGold: {
		Cool:    "quench in water once it no longer glows",
		Why:     "Yellow and green golds are quenched in water after annealing (bench article on annealing); some age-harden when they cool slowly.",
		Joint:   OwnSoldered,
		Solder:  goldJoints,
		Pickled: true,
		After:   []string{pickleStep, "Fire stain is slight. A coat of boric acid in spirit is lit and burnt off away from the bottle: keep the closed bottle well away from the torch."},
	},
	stock.AsRoseGold: {
		Cool:    "quench in water as soon as the glow goes",
		Why:     "Gold-copper orders below about 400 °C and turns brittle when it cools slowly: quench while it is above about 430 °C, after soldering too (P. Rowe, bench forum; McDonald and Sistare, Gold Bulletin).",
		Joint:   OwnSoldered,
		Solder:  goldJoints,
		Pickled: true,
		After:   []string{pickleStep, "Fire stain: the copper oxidises. Flux or boric acid all over."},
	},
	stock.AsNickelWhite: {
		Cool:    "let it cool in air until no glow shows in a dark corner, and for a minute more",
		Why:     "Nickel white golds crack from thermal shock: cool them in air below about 480 °C (bench forum) or leave them in air altogether (an alloy maker's heat-treating page; an alloy supplier's sheet: they are softer too).",
		Joint:   OwnSoldered,
		Solder:  goldJoints,
		Pickled: true,
		After:   []string{pickleStep},
	},
	stock.AsCopper: {
		Cool:    "let the glow go and quench in water",
		Why:     "These alloys soften however they cool; brasses that are quenched from a bright red can crack.",
		Pickled: true,
		After:   copperAfter,
	},
	stock.AsPlatinum: {
		Cool:   "let it cool in air",
		Why:    "It stays soft however it cools, in air or in water; nothing softens below about 927 °C (bench article on annealing).",
		Joint:  PlatinumSoldered,
		Filler: "platinum solder, without flux",
		Solder: []string{
			"Solder: platinum solders by their flow, from about 1000 to 1700 °C (from memory), or fusing and welding; weld-grade solder at about 1700 °C, or the seam shows (bench article). No flux. No silver or gold solder on marked work.",
		},
		After: []string{"It does not oxidise and needs no pickle."},
	},
	stock.AsTitanium: {
		Cool:   "let it cool in argon or vacuum",
		Why:    "Above about 600 °C in air it takes up oxygen and nitrogen and turns brittle at the skin (from memory): it is softened in a furnace with argon or vacuum, never with a torch.",
		Cold:   "bend it cold and to generous radii; where it must be softened, have it done in a furnace with argon or vacuum",
		Joint:  NotSoldered,
		Solder: []string{"It is not soldered at the bench, its oxide does not let solder flow (a studio's page; bench forum): have it welded in argon or by laser, or join it cold with rivets, tabs and settings."},
		After:  []string{"Keep it out of pickle: it does not remove titanium's scale, and the acid that does (hydrofluoric) is for licensed shops only."},
	},
	stock.AsNiobium: {
		Cool:   "let it cool in vacuum or argon",
		Why:    "It takes up oxygen from about 230 °C and is not held over 370 °C in air for more than minutes; it is softened at about 1200 °C in high vacuum (a wire maker's page on working niobium).",
		Cold:   "work it cold: it hardens very slowly; where it must be softened, have it done in a vacuum furnace",
		Joint:  NotSoldered,
		Solder: []string{"It is not soldered at the bench (bench forum): have it welded in argon or by laser, or join it cold with rivets, tabs and settings."},
		After:  []string{"Keep it out of pickle and away from the torch: a flame only colours and embrittles it."},
	},
	stock.AsPewter: {
		Cool:   "let it cool in air",
		Why:    "It melts before it glows and softens by itself at room temperature: it is not annealed.",
		Cold:   "work it as it is: it does not harden at room temperature and is not annealed",
		Joint:  SoftSoldered,
		Filler: "lead-free pewter solder and its own flux, with a small soft flame that never stays in one place",
		Solder: []string{"Solder: lead-free soft solder made for pewter, with its maker's flux and a small soft flame; the margin to its melting is small, so try on scrap first. No silver solder."},
		After:  []string{"Keep it out of pickle: wash the flux off with warm water and soap, and brush it."},
	},
	stock.AsAluminium: {
		Cool:   "let it cool in air",
		Why:    "It shows no glow before it melts: go by a thermocouple or a temperature marker. It is annealed at about 343 °C and cooled in air (a mill's sheet of 1100).",
		Joint:  NotSoldered,
		Solder: []string{"Jeweller's solder does not take on it: have it welded, or join it cold with rivets and tabs."},
		After:  []string{"Keep it out of pickle and away from silver and gold at heat."},
	},
	stock.AsFineSilver: {
		Cool:    "let it cool in air or quench it in water",
		Why:     "Pure silver neither hardens nor cracks in cooling; it softens without any glow, so it is overheated easily.",
		Pickled: true,
		After:   []string{pickleStep, "No fire stain: there is no copper in it."},
	},
	stock.AsFineGold: {
		Cool:    "let it cool in air or quench it in water",
		Why:     "Pure gold neither hardens nor cracks in cooling.",
		Joint:   OwnSoldered,
		Filler:  "gold solder of 18 to 22 karat",
		Solder:  goldJoints,
		Pickled: true,
		After:   []string{pickleStep},
	},
	stock.AsBrass: {
		Cool:    "let it go black, then quench in water",
		Why:     "Quenching from a red heat can crack brass that was hammered: let it go black first.",
		Pickled: true,
		After:   copperAfter,
	},
	stock.AsNickelSilver: {
		Cool:    "let it cool in air until no glow shows in a dark corner, and for a minute more",
		Why:     "Nickel silver cracks when it is heated or quenched quickly while it holds stresses.",
		Pickled: true,
		After:   copperAfter,
	},
	stock.AsPalladium: {
		Cool:   "let it cool in air",
		Why:    "It stays soft however it cools, in air or in water; nothing softens below about 927 °C (bench article on annealing).",
		Joint:  PlatinumSoldered,
		Filler: "palladium or platinum solder that flows well below the metal's melting, without flux",
		Solder: []string{"Solder: palladium or platinum solders by their flow; go by the alloy maker's sheet, since palladium alloys begin to melt from about 1350 °C. No silver or gold solder on marked work."},
		After:  []string{"It may turn blue or violet as it cools (from memory): go by its maker's sheet to clear that. It needs no pickle."},
	},
	stock.AsGermaniumSilver: {
		Cool:    "leave it still until it is black, then quench in water",
		Why:     "Germanium-bearing silver is weak and cracks at red heat: support it, do not move or quench it while it glows. Slow cooling hardens it.",
		Pickled: true,
		After:   []string{pickleStep, "Little or no fire stain. Its maker's sheet names the fluxes and solders that suit it."},
	},
	stock.AsPalladiumWhite: {
		Cool:    "let it go black, then quench in water",
		Why:     "Palladium white golds are less prone to cracking than nickel ones. White golds differ much: only the alloy's own sheet tells whether it may be quenched.",
		Joint:   OwnSoldered,
		Solder:  goldJoints,
		Pickled: true,
		After:   []string{pickleStep},
	},
}
