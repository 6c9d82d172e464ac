package answer

import (
	"slices"
	"strings"
)

// Job is a job at the bench with its own hazards.
type Job string

// Jobs, in the order in which help lists them.
const (
	Soldering Job = "soldering"
	Pickle    Job = "pickle"
	Press     Job = "press"
	Polishing Job = "polishing"
	Casting   Job = "casting"
	Chemicals Job = "chemicals"
	Files     Job = "files"
	Saw       Job = "saw"
	Annealing Job = "annealing"
	Stones    Job = "stones"
	Hammer    Job = "hammer"
	Class     Job = "class"
)

// Jobs lists every job that cautions are kept for.
func Jobs() []Job {
	return []Job{Soldering, Pickle, Press, Polishing, Casting, Chemicals, Files, Saw, Annealing, Stones, Hammer, Class}
}

// Deferral ends every full list of cautions: guildhand does not replace those
// who answer for a shop's safety.
const Deferral = "The makers' instructions, the safety data sheets, your local codes and licensed practice go before these notes."

// Cautions returns the one line per job that an answer shows, in the order
// asked for, each once. The lines are short enough for a phone; AllCautions
// has the whole of a job.
func Cautions(jobs ...Job) []string {
	var lines []string
	for _, j := range jobs {
		if c, ok := cautions[j]; ok && !slices.Contains(lines, c.short) {
			lines = append(lines, c.short)
		}
	}
	return lines
}

// AllCautions returns the full notes of a job, hazard first, with the deferral
// at the end; nil for an unknown job.
func AllCautions(job Job) []string {
	c, ok := cautions[job]
	if !ok {
		return nil
	}
	return append(slices.Clone(c.full), Deferral)
}

// caution is what is said of one job, at three lengths.
type caution struct {
	// few are the words for a first screen.
	few string
	// short is a line, and full are all notes, hazard first.
	short string
	full  []string
}

// sheetsFirst ends the cautions of a first screen: the deferral in few words.
const sheetsFirst = "data sheets, local codes first"

// care words the cautions of an answer for a first screen. Lines of Cautions
// become one paragraph of few words, eye protection first, since every job at
// the bench wants it; other sentences stay as they are.
func care(lines []string) []string {
	var few, others []string
	for _, line := range lines {
		if j, ok := jobOf(line); ok {
			few = append(few, cautions[j].few)
		} else {
			others = append(others, line)
		}
	}
	if len(few) == 0 {
		return others
	}
	paragraph := "eye protection; " + strings.Join(few, "; ") + "; " + sheetsFirst
	return append([]string{paragraph}, others...)
}

// jobOf finds the job whose short line it is.
func jobOf(line string) (Job, bool) {
	for _, j := range Jobs() {
		if cautions[j].short == line {
			return j, true
		}
	}
	return "", false
}

// cautions says nothing that makes an unsafe act sound safe: it names the
// hazard, then what the trade does about it, and leaves limits and equipment
// to the documents that govern them.
var cautions = map[Job]caution{
	Soldering: {
		few:   "torch: extraction, no cadmium",
		short: "Torch: fumes drawn off, eye protection, cadmium-free solder; data sheets and local codes come first.",
		full: []string{
			"Never solder with, or heat, filler that holds cadmium: its fume can kill. Old, unmarked or found solder counts as cadmium-bearing until its maker says otherwise.",
			"Fluoride fluxes give off toxic, corrosive fumes when they are overheated. Read the safety data sheet, use local exhaust, and do not breathe what rises from the work.",
			"Galvanised, plated, painted or lead-soldered metal is not put to the torch: zinc, lead and beryllium fumes are poisonous.",
			"Light the torch away from you and from the cylinders, with a striker; check hoses and joints for leaks with leak-test solution, never with a flame; no oil or grease on oxygen fittings.",
			"Tie back hair and sleeves, wear natural fibres, keep an extinguisher within reach and stay until the work and the soldering board are cold.",
			"Eye protection with the filter shade that the torch's maker and your local code ask for.",
		},
	},
	Pickle: {
		few:   "pickle: no hot metal, acid into water",
		short: "Pickle: goggles, gloves, acid into water, no steel, and never hot metal into it.",
		full: []string{
			"Goggles, gloves and apron: pickle burns eyes and skin. Sodium hydrogensulfate causes serious eye damage (H318); know where the eyewash is.",
			"Acid into water, slowly, never water into acid.",
			"Never quench hot metal in the pickle: it spits hot acid and throws an acid mist. Quench in water, rinse, then pickle.",
			"No steel in the pickle: iron in touch with the work plates copper on everything. Copper, brass or plastic tongs, and no binding wire.",
			"Warm pickle is kept covered, labelled and ventilated, and never boiled; top up with water for what evaporates.",
			"Rinse well, neutralise what drains from hollow work with bicarbonate in a well ventilated place, and hand spent pickle (it holds copper) to a licensed collector.",
		},
	},
	Press: {
		few:   "press: hands clear, under its rating",
		short: "Press: below its rated load, guarded, hands clear, eye protection; its maker's instructions first.",
		full: []string{
			"Any load figure given here is an order of magnitude, never a target: press in small steps and look after each one.",
			"Never go past the rated load of the press, the block or the punch. Hardened tooling that is loaded off centre can burst: guard in place, and stand to one side.",
			"Keep both hands out of the closing space; two-hand operation or a guard as your local code asks.",
			"Bring the ram down on the centre line; a tilted stack can be thrown out.",
			"Wear eye protection with side shields, and look over hoses, frame and gauge before use.",
			"Never put a hand near a hydraulic leak: oil under pressure goes through skin and needs a surgeon at once.",
		},
	},
	Polishing: {
		few:   "polishing: mask, nothing loose, no gloves",
		short: "Polishing: eye protection, mask, extraction, hair and sleeves tied back, no gloves at the wheel.",
		full: []string{
			"A wheel catches: no loose hair, sleeves, scarves, jewellery or gloves at a running wheel. Never wrap a chain or a band round a finger; use a board or a jig.",
			"Hold the work below the centre line, so that what is torn away flies down and away from you.",
			"Eye protection, and a mask that fits the dust: compounds can hold silica or alumina, metal dust can hold nickel, copper or beryllium. Use extraction.",
			"Titanium and magnesium dust burns fiercely; keep it apart, and ask the extractor's maker before polishing them.",
			"Let each brush and buff run up to speed before you lean on it, and never go over its rated speed.",
		},
	},
	Casting: {
		few:   "casting: face shield, no water near",
		short: "Casting: face shield, leathers, respirator, all dry: water near molten metal explodes.",
		full: []string{
			"Water under molten metal turns to steam and throws it: dry moulds, dry crucibles, dry tools, dry floor; preheat whatever touches the melt.",
			"Investment powder holds free silica, which scars lungs for good: respirator while you weigh, mix and break out; break out wet, and never sweep it dry.",
			"Burning out wax gives off smoke and carbon monoxide: the kiln is vented to the open.",
			"Face shield, filter shade for the metal (darker for platinum and palladium), leather apron, gauntlets, closed leather shoes.",
			"Nothing goes into a melt unless you know what it is: no cadmium, lead, zinc scrap or beryllium copper.",
			"A centrifuge runs guarded and balanced; keep everybody out of its plane.",
			"Molten wax and hot oil burn skin and catch fire: thermostat, no open flame, lid at hand, and no water on burning wax.",
		},
	},
	Chemicals: {
		few:   "chemicals: gloves, ventilation, no mixing",
		short: "Chemicals: safety data sheet first, goggles, gloves, ventilation; never mix what you don't know.",
		full: []string{
			"Read the safety data sheet before you open the bottle; it goes before everything here.",
			"Acid into water, never water into acid. Never mix bleach, acids, cyanides, ammonia or peroxide: the gases can kill. Cyanide work is for licensed shops.",
			"Liver of sulphur, etchants and nitric acid are used in a fume hood or out of doors; acid on liver of sulphur gives hydrogen sulphide.",
			"Goggles and gloves that resist the chemical named on the data sheet; know where the eyewash and the running water are.",
			"Every container is labelled with what it holds, and none has held food or drink.",
			"Waste goes to a licensed collector; metal-bearing liquid is not for the drain.",
		},
	},
	Files: {
		few:   "files: with handles",
		short: "Files: a handle on every file; deburr the blank before you handle it.",
		full: []string{
			"A file without a handle drives its tang into the palm.",
			"Hold the work against the bench pin or in a vice, and push away from the body.",
			"A cut blank has razor edges: deburr before you handle or bend it.",
			"Brush filings away, do not blow them; dust of nickel, beryllium or lead alloys needs a mask and wet work.",
		},
	},
	Saw: {
		few:   "saw: fingers aside",
		short: "Saw: eye protection, blades snap; fingers beside the blade's path.",
		full: []string{
			"Blades snap: eye protection, and the face away from the line of the blade.",
			"Fingers beside the path of the blade, never in front of it; support the sheet on both sides of the cut.",
			"Lubricate the blade and let it cut: pressing bends and breaks it.",
			"When drilling, clamp the sheet: a grabbing drill spins it like a knife. No gloves at the drill.",
		},
	},
	Annealing: {
		few:   "anneal: hot looks cold",
		short: "Annealing: eye protection, ventilation, tongs; quench in water only where the alloy allows it.",
		full: []string{
			"Hot metal looks like cold metal: tongs, and a place for hot work that everybody knows.",
			"Quench in water and never in pickle; hollow or closed pieces hold steam and spit, so let them cool in air.",
			"Some alloys crack when they are quenched and others turn brittle when they are not: ask for the alloy with `heat`, and go by its maker's sheet.",
			"Ventilation and eye protection as for the torch.",
		},
	},
	Hammer: {
		few:   "hammer: ears too, fingers clear",
		short: "Hammer: eye and ear protection, fingers clear of the blow, no mushroomed heads.",
		full: []string{
			"A mushroomed punch head sheds splinters at the speed of shot: grind it clean before use, and wear eye protection with side shields.",
			"Never strike hardened steel on hardened steel: use a soft or brass-faced hammer on doming punches.",
			"Ear protection: hammering in a small room is loud enough to harm for good.",
			"Hold punches with fingers clear of the blow, the block on a firm bench that cannot walk.",
		},
	},
	Class: {
		few:   "class: a trained eye on saw, torch, pickle",
		short: "Class: somebody trained for saw, torch and pickle watches; eye protection for all, blades snap; show exits, eyewash and extinguisher first; shop rules, local codes and licensed practice decide.",
		full: []string{
			"Somebody trained for the saw, the torch and the pickle watches all the time. How many makers one teacher may watch is for those to say who answer for the room.",
			"Show exits, eyewash, extinguisher, first-aid kit, and how gas and power are shut off, before anybody starts.",
			"Eye protection for everybody in the room, not only for the one who works: blades snap and pickle splashes.",
			"One torch, one maker; nobody leaves a lit torch or a hot piece, and what is hot lies in a place that all know.",
			"Ask before the class about asthma, pregnancy, allergies and implants: fumes, nickel, latex and magnetic tools are not for everybody, and a doctor decides.",
			"Minors work under the rules of their school and country, and with less: the press, acids and casting may not be for them.",
		},
	},
	Stones: {
		few:   "stones: out before the torch",
		short: "Stones: out before the torch; hot stones crack, and one is never quenched.",
		full: []string{
			"Set stones after the last joint. A stone that must stay is a risk that its owner is told of first.",
			"Opal, pearl, coral, amber, turquoise, lapis, malachite, emerald, tanzanite, peridot, and filled or glued stones do not bear a torch.",
			"Diamond and corundum bear more heat, but burn or etch under flux and borax and crack when they are cooled suddenly; treated stones may lose colour or filling.",
			"Pickle and ultrasonic baths destroy pearls, coral, turquoise and filled stones.",
		},
	},
}
