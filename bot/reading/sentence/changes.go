package sentence

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
)

// change applies the message's figures and words to a reading.
func (m *message) change(last Last) (Reading, bool) {
	d := m.draftWith(last.Request, last.Options)
	before := maps.Clone(last.Options)
	if last.Request == "band" && m.of(ringSize) == nil {
		if q := m.sizeLetter(); q != nil {
			m.add(*q)
		}
	}
	if last.Request == "resize" && m.of(ringSize) == nil {
		m.sizeLetters()
	}
	m.changeWords(d)
	if d.has("outline") {
		d.baseOfCone()
	}
	m.otherColour(d)
	if a := m.metal(); a != nil {
		if !m.context.takes(last.Request, "alloy") {
			return Reading{}, false
		}
		d.alloy("alloy", last.Request == "heat" || last.Request == "melt")
	}
	for _, q := range m.found {
		if !q.used && d.ask == "" {
			m.changeNumber(d, q)
		}
	}
	if needsStone[d.request] && d.ask == "" {
		d.needStone(d.request == "bezel")
	}
	if d.request == "jumpring" && d.ask == "" {
		d.needRing()
	}
	if d.request == "resize" {
		d.needSizes()
	}
	if d.request == "melt" && d.ask == "" && !d.has("wax") && !d.has("model") && !d.has("size") && m.context.Asked != nil && m.context.Asked.Missing == "alloy" {
		d.needWax()
	}
	r := m.changedFrom(last, d)
	if r.Outcome == Request && len(r.Changed) == 0 && len(d.notes) == 0 {
		if o := m.meaning("outline:"); len(o) > 0 && o[0] == before["outline"] && m.words() <= 4 {
			r.Notes = append(r.Notes, "this is what your last piece has already")
			return r, true
		}
		return Reading{}, false
	}
	return r, true
}

// changeWords takes outline, units, profile, seam and the like.
func (m *message) changeWords(d *draft) {
	set := func(option, value string) {
		if value != "" && m.context.takes(d.request, option) {
			d.options[option] = value
		}
	}
	first := func(prefix string) string {
		if all := m.meaning(prefix); len(all) > 0 {
			return all[0]
		}
		return ""
	}
	m.partsApart(d)
	m.changeOutline(d, set)
	if d.request == "weigh" && d.options["form"] == "wire" && m.says("square") {
		d.say("form", "square-wire")
	}
	set("units", first("units:"))
	set("paper", first("paper:"))
	set("profile", first("profile:"))
	if d.request == "band" && first("profile:") == "" {
		m.changeWire(d)
		if m.says("=flat") && !m.says(flatVerbs...) && !m.asksInWords() {
			set("profile", "flat")
		}
	}
	if d.request == "band" && d.options["system"] != "diameter" && m.of(ringSize) == nil {
		m.changeSystem(d, set)
	}
	if g, ok := gaugeNumber(d.options["gauge"]); ok && d.request == "gauge" && m.says("swg") && len(m.found) == 0 {
		if mm, ok := m.swgOf(g); ok {
			d.say("gauge", plain(mm)+" mm")
		}
	}
	if d.request == "tune" && m.says("inside", "inner") {
		set("face", "inner")
	}
	m.changeSeam(d, set)
	if m.has("hemisphere") && d.request == "dome" {
		delete(d.options, "height")
		set("hemisphere", "yes")
	}
	if m.has("step") && d.request == "bezel" {
		set("bearing", "step")
	}
}

// ofBothSides tell that an angle is that between a cone's two sides.
var ofBothSides = []string{"included", "in total", "total", "in all", "overall", "altogether", "both sides", "side to side", "full angle", "whole angle"}

// flatVerbs make something flat, which is no section of what is told.
var flatVerbs = []string{"hammer", "hammered", "hammering", "file", "filed", "planish", "planished", "beat", "roll", "rolled", "flatten", "lay", "lays", "lies", "sand", "press", "flat spot", "flat pattern", "flat blank", "flat piece", "flat layout", "flat top", "flat bit", "goes flat"}

// changeWire takes the section of a ring that is said by the wire it is made of. Round and
// square wire have one measure.
func (m *message) changeWire(d *draft) {
	switch {
	case m.says("round wire", "round section", "round stock") && !m.says("half"):
		d.say("profile", "round")
		delete(d.options, "width")
	case m.says("square wire", "square section", "square stock"):
		d.say("profile", "square")
		delete(d.options, "width")
	}
}

// changeOutline takes another outline, and asks for the size where the one that is known
// does not fit it.
func (m *message) changeOutline(d *draft, set func(option, value string)) {
	named := m.meaning("outline:")
	if len(named) == 0 || d.request == "band" && named[0] == "round" {
		return
	}
	o := named[0]
	set("outline", o)
	if m.stoneSides() != nil || m.besideStone() != nil || d.options["size"] == "" || !needsStone[d.request] {
		return
	}
	sides := strings.Contains(d.options["size"], "x")
	switch {
	case !oneSided[o] && !sides:
		d.question("size", "What is the stone's length x width, in mm?")
	case o == "square" && sides && unequalSides(d.options["size"]):
		delete(d.options, "size")
		d.question("size", "A square stone has one size. How long is its side, in mm?")
	}
}

// changeSeam takes where the seam goes and how the corners are made.
func (m *message) changeSeam(d *draft, set func(option, value string)) {
	if m.says("seam", "join", "joint") {
		for _, place := range []string{"point", "side", "end", "corner", "cleft"} {
			if m.says(place) {
				set("seam", place)
			}
		}
	}
	if m.says("scored", "mitred", "mitered", "score") {
		if d.request == "bezel" {
			set("corner", "mitred")
		} else {
			set("corner", "scored")
		}
	}
}

// changeSystem takes another system for the same size only where that is said;
// "and in us?" asks for the size in it, which the answer has.
func (m *message) changeSystem(d *draft, set func(option, value string)) {
	for i, t := range m.tokens {
		system := sizeSystems[t.text]
		if system == "" || m.taken[i] || t.text == "us" && m.plainUs(i) && len(m.tokens) > 4 {
			continue
		}
		if m.says("meant", "mean", "sorry", "not", "no", "its", "it is", "thats") {
			set("system", system)
			continue
		}
		d.note("the answer has the size in every system")
	}
}

// rolesOf are the options that a role fills, for each request.
var rolesOf = map[string]map[string]string{
	"":         {"depth": "depth", "height": "height", "thickness": "thickness", "wall": "thickness", "lean": "lean", "included": "included", "rim": "rim", "radius": "radius", "width": "width", "length": "length", "diameter": "size", "spare": "spare"},
	"bezel":    {"depth": "dome", "height": "dome", "dome": "dome", "edge": "edge"},
	"dome":     {"depth": "height", "width": "size", "diameter": "size"},
	"band":     {"inner": "ring", "height": "thickness"},
	"halo":     {"gap": "gap", "diameter": "with", "width": "with"},
	"jumpring": {"inner": "inside", "thickness": "wire", "kerf": "kerf", "diameter": "inside"},
	"tubeset":  {"diameter": "size", "width": "size", "gap": "spacing"},
}

// mostMetal is the thickest sheet, in mm, that settings and their back plates are made of:
// a larger figure measures something else.
const mostMetal = 1.6

// mostWall is over which thickness, in mm, a figure called thick is the stone's or the
// dome's and not the metal's.
var mostWall = map[string]float64{"bezel": mostMetal, "dome": 2.5}

// changeNumber puts one figure of a follow-up where it belongs.
func (m *message) changeNumber(d *draft, q *quantity) {
	set := func(option string) bool {
		if !m.context.takes(d.request, option) || !d.formHas(option) {
			return false
		}
		d.set(option, q)
		return true
	}
	if (d.request == "band" || d.request == "resize") && (q.measure == length || q.measure == size) && m.words() > 2 && m.ofStoneWord(q) && (m.has("stone", "cab") || len(m.meaning("gem:")) > 0) {
		q.used = true
		d.note("%s of the stone changes nothing in the ring", strings.TrimSpace(q.typed(m)))
		return
	}
	if m.anotherGauge(d, q) {
		return
	}
	if m.changeMeasure(d, q, set) || m.changeRole(d, q, set) || m.changeLikely(d, q, set) {
		return
	}
	m.changeBare(d, q, set)
}

// changeMeasure puts a figure where its unit alone tells where it belongs, and reports
// whether it does.
func (m *message) changeMeasure(d *draft, q *quantity, set func(string) bool) bool {
	switch q.measure {
	case gauge:
		return d.request == "jumpring" && set("wire") || set("thickness") || d.request == "gauge" && set("gauge")
	case size:
		return m.changeSides(d, q, set)
	case ringSize:
		return m.changeRingSize(d, q, set)
	case angle:
		option, other := "lean", "included"
		if q.role == "included" && m.says(ofBothSides...) || q.role == "" && q.value > mostLeanSaid && !m.says("lean", "leans", "leaning") && d.options["lean"] == "" && m.context.takes(d.request, "included") {
			option, other = other, option
		}
		delete(d.options, other)
		return set(option)
	case carat:
		return set("carat")
	case percent:
		return set("spare") || set("button")
	case mass:
		for _, part := range []string{"button", "sprue"} {
			if m.isBeside(q, part, part+"s") && set(part) {
				return true
			}
		}
		return d.has("wax") && set("wax") || d.has("model") && set("model")
	case count:
		if m.at(q.next).text == "or" {
			q.used = true // "in four pieces or one" asks
			return true
		}
		option := countOptions[q.thing]
		return option != "" && set(option)
	}
	return false
}

// countOptions are the options that count things.
var countOptions = map[string]string{"makers": "makers", "prongs": "number", "joints": "joints", "pieces": "count"}

// mostShank is the thickest shank of a ring in mm.
const mostShank = 4

// changeSides puts a figure of two sides where the request has one.
func (m *message) changeSides(d *draft, q *quantity, set func(string) bool) bool {
	switch {
	case (d.request == "band" || d.request == "resize" && min(q.sides[0], q.sides[1]) <= mostShank) && len(q.sides) == 2:
		q.used = true
		d.say("width", plain(max(q.sides[0], q.sides[1])))
		d.say("thickness", plain(min(q.sides[0], q.sides[1]))+" mm")
		return true
	case d.request == "tubeset" && len(q.sides) == 2:
		m.changeTube(d, q)
		return true
	case d.request == "weigh" && d.options["form"] != "sheet":
		return true // no side of it is known
	}
	for _, option := range []string{"offcut", "strip", "tubesize", "hole"} {
		if d.has(option) {
			set(option)
			return true
		}
	}
	return set("size")
}

// changeRingSize puts a ring size where the request has one.
func (m *message) changeRingSize(d *draft, q *quantity, set func(string) bool) bool {
	switch {
	case d.request == "resize":
		m.changeResize(d, q)
		return true
	case d.request == "saddle" && d.has("shank"):
		m.changeShank(d, q)
		return true
	case !set("ring"):
		return false
	}
	if q.system != "" {
		d.say("system", q.system)
	}
	return true
}

// changeRole puts a figure where the word beside it says, and reports whether it does.
func (m *message) changeRole(d *draft, q *quantity, set func(string) bool) bool {
	if d.request == "bezel" && d.has("edging") && (q.measure == bare || q.measure == length) && q.value >= 1 && q.value <= 12 && m.says("scallop", "scallops", "repeat", "repeats", "wave", "waves", "pattern", "pitch") && set("pitch") {
		return true
	}
	if q.role == "thickness" && q.measure != gauge && q.value > mostWall[d.request] && mostWall[d.request] > 0 {
		q.role = "height" // a bezel's wall is no 6 mm thick: its stone is
	}
	if d.request == "halo" && m.isWallOfCentre(q) && set("centregap") {
		return true
	}
	if q.role == "" {
		return false
	}
	option := rolesOf[d.request][q.role]
	if option == "" {
		option = rolesOf[""][q.role]
	}
	if option == "ring" && q.role == "inner" && q.value >= 30 && !d.has("ring") {
		option = "bangle" // no finger is 30 mm across
	}
	if option == "" || !set(option) {
		return false
	}
	if option == "height" && d.request == "dome" {
		delete(d.options, "hemisphere")
	}
	return true
}

// changeBare places a number without unit or word: only where it can be one
// thing of the last question, and otherwise it is asked about.
func (m *message) changeBare(d *draft, q *quantity, set func(string) bool) {
	if q.measure != bare && q.measure != length {
		return
	}
	if d.request == "prongs" && m.at(q.next).text == "of" && q.value <= 12 {
		set("number")
		return
	}
	if !m.plain(q) || m.at(q.next).text == "of" || m.at(q.next).text == "more" {
		return
	}
	if d.request == "halo" && m.countsSmallStones(d, q) && set("count") {
		return
	}
	if d.request == "resize" && m.namesNewSize(q) {
		m.changeResize(d, q)
		return
	}
	if m.changeKarat(d, q) || d.blockAngle(q) || d.sizeOrGauge(q) || m.changeLacking(d, q, set) || m.changeGauge(d, q, set) {
		return
	}
	fit := m.fitting(d, q)
	switch {
	case len(fit) == 1 && fit[0].option == "size" && noSizeOfStone[q.role]: // it is told as another measure
	case len(fit) == 0:
	case len(fit) == 1 && m.looseWords() == 0:
		if d.request == "band" && fit[0].option == "ring" && d.options["system"] == "" {
			d.say("system", "us")
		}
		set(fit[0].option)
	default:
		q.used = true
		var choices []Choice
		for _, p := range fit[:min(3, len(fit))] {
			choices = append(choices, d.with(p.says+" "+q.typed(m), p.option, d.shown(p.option, q)))
		}
		d.question("", fmt.Sprintf("What becomes %s?", q.typed(m)), choices...)
		d.unplaced = strings.TrimSpace(q.typed(m))
	}
}

// noSizeOfStone are the roles of a figure that is not how large a stone is across.
var noSizeOfStone = map[string]bool{"height": true, "depth": true, "thickness": true}

// fewestInHalo is how many stones a halo has at least.
const fewestInHalo = 8

// countsSmallStones reports whether a bare whole number is how many stones a halo has: it is
// far from the size of the one in the middle.
func (m *message) countsSmallStones(d *draft, q *quantity) bool {
	centre := lengthOf(d.options["size"])
	return q.measure == bare && q.value >= fewestInHalo && q.value == math.Trunc(q.value) && (q.value > nearEnoughToChange*centre || strings.Contains(d.options["size"], "x"))
}

// namesNewSize reports whether a bare figure is the size that a ring is brought to: "make it
// smaller, to a 5".
func (m *message) namesNewSize(q *quantity) bool {
	lead := m.between(max(0, q.first-2), q.first)
	return q.measure == bare && q.mayFill("ring") && (strings.HasSuffix(lead, "to a") || strings.HasSuffix(lead, "to an"))
}

// changeKarat takes 9, 10, 14 or 18 as another gold than that of the piece.
func (m *message) changeKarat(d *draft, q *quantity) bool {
	gold, is := strings.CutSuffix(d.options["alloy"], "-yellow")
	if !is || m.looseWords() > 0 || !strings.HasSuffix(gold, "k") || q.measure != bare || q.shown != "9" && q.shown != "10" && q.shown != "14" && q.shown != "18" {
		return false
	}
	q.used = true
	d.say("alloy", q.shown+"k-yellow")
	return true
}

// changeLacking puts a bare figure where the piece lacks one that it can only be.
func (m *message) changeLacking(d *draft, q *quantity, set func(string) bool) bool {
	lead := m.between(max(0, q.first-2), q.first)
	forOne := strings.HasSuffix(lead, "for") || strings.HasSuffix(lead, "for a") || strings.HasSuffix(lead, "for an")
	noSection := d.options["width"] == "" && d.options["thickness"] == ""
	switch {
	case d.request == "melt" && q.measure == bare && nearWax(d.options["wax"], q.value):
		return set("wax")
	case d.request == "band" && d.options["profile"] == "round" && d.options["thickness"] == "" && q.value <= 10:
		return set("thickness")
	case forOne && needsStone[d.request] && !strings.Contains(d.options["size"], "x") && q.value >= 2.5:
		return set("size")
	case d.request == "band" && d.has("ring") && noSection && q.measure == bare && q.mayFill("ring") && q.value >= 3 && !letter(d.options["ring"]):
		return set("ring")
	case d.request != "gauge" && d.has("outline") && !d.has("size") && q.value >= 2 && q.value <= 60:
		return set("size")
	}
	return false
}

// nearWax reports whether a figure may be a wax weighed anew.
func nearWax(wax string, grams float64) bool {
	before := parse(wax)
	return before > 0 && grams > 0.5*before && grams < 2*before && grams != math.Trunc(grams)
}

// changeGauge takes a bare whole number as a gauge number: "and 18".
func (m *message) changeGauge(d *draft, q *quantity, set func(string) bool) bool {
	whole := q.measure == bare && q.value == float64(int(q.value))
	switch {
	case !whole, d.request == "jumpring" && !strings.HasSuffix(d.options["wire"], "ga"):
		return false
	case d.request == "gauge" && q.value >= 8:
		q.measure, q.shown = gauge, q.shown+"ga"
		set("gauge")
		return true
	case d.request == "gauge" || d.request == "kit" || d.request == "halo" || q.value < 16 || q.value > 36 || !m.context.takes(d.request, "thickness") || strings.Contains(d.options["thickness"], "mm"):
		return false
	}
	q.used = true
	d.say(cmp.Or(gaugeOption(Last{d.request, d.options}), "thickness"), q.shown+"ga")
	d.note("%s is read as a gauge number", q.shown)
	return true
}

// beforeGauge stand before a gauge number that takes the place of another: "do it in 26".
var beforeGauge = wordSet("in to use using with at")

// anotherGauge takes a whole number for a gauge where the piece's metal is told as one, and
// the words before it lead to one.
func (m *message) anotherGauge(d *draft, q *quantity) bool {
	least := 8.0
	if d.request == "band" || d.request == "resize" {
		least = 14 // under it a ring's size may be meant
	}
	if q.measure != bare || q.used || q.role != "" || q.value < least || q.value > 36 || q.value != math.Trunc(q.value) || !strings.HasSuffix(d.options["thickness"], "ga") || !beforeGauge[m.at(q.first-1).text] || measuresSaid[m.at(q.next).text] != "" || len(m.found) != 1 || m.looseWords() > 0 {
		return false
	}
	q.used = true
	d.say("thickness", q.shown+"ga")
	d.note("%s is read as a gauge number", q.shown)
	return true
}

// fitting are the options that a bare figure may be.
func (m *message) fitting(d *draft, q *quantity) []place {
	options := bareOptions[d.request]
	if d.request == "gauge" {
		options = []place{{"gauge", "gauge", 0, 0}}
	}
	return slices.DeleteFunc(slices.Clone(options), func(p place) bool {
		switch {
		case p.option == "ring" && (letter(d.options["ring"]) || !q.mayFill("ring")): // a number is no size beside letters
		case !m.context.takes(d.request, p.option), !fits(p, q), q.measure == length && countedOptions[p.option]:
		case p.option != "size" && p.option != "with" && m.ofStoneWord(q), p.option == "size" && strings.Contains(d.options["size"], "x"):
		default:
			return false
		}
		return true
	})
}

// countedOptions are filled by a bare number, never by a length.
var countedOptions = map[string]bool{"makers": true, "ring": true, "number": true, "joints": true, "count": true}

// looseWords counts the words of a message that say nothing to the reader. A bare
// figure beside one is asked about.
func (m *message) looseWords() int {
	loose := 0
	for i, t := range m.tokens {
		if t.word() && !m.taken[i] && !fillers[t.text] && !bindingWords[t.text] && !usualNext[t.text] && !beside[t.text] && !harmless[t.text] {
			loose++
		}
	}
	return loose
}

// harmless are words of a follow-up that change nothing.
var harmless = map[string]bool{"over": true, "thick": true, "thin": true, "thinner": true, "thicker": true, "maybe": true, "think": true, "say": true, "lets": true, "ah": true, "oh": true, "hmm": true, "lol": true, "wait": true, "hang": true, "now": true, "then": true, "else": true, "around": true, "roughly": true, "mean": true, "rather": true, "change": true, "try": true, "work": true, "out": true, "metal": true, "piece": true, "cut": true, "like": true, "bit": true, "ok": true, "okay": true, "hello": true, "again": true, "more": true, "less": true, "got": true, "have": true, "only": true, "one": true, "ones": true, "same": true, "mm": true, "if": true, "were": true, "went": true, "go": true, "with": true, "scale": true, "up": true, "down": true, "bump": true, "bigger": true, "smaller": true, "different": true, "another": true, "new": true, "measured": true, "measures": true, "exactly": true, "sure": true, "s": true, "as": true, "well": true, "every": true, "each": true, "oops": true, "whoops": true, "ooops": true, "wrong": true, "typo": true, "mistake": true, "bad": true, "weighed": true, "turns": true, "turned": true, "reweighed": true, "remeasured": true, "scratch": true, "correction": true, "damn": true, "should": true, "been": true, "misread": true, "nope": true, "checked": true, "calipers": true, "callipers": true, "flatter": true, "slimmer": true, "would": true, "much": true, "many": true, "long": true, "too": true}

// otherColour changes the colour of a karat gold: "and for red".
func (m *message) otherColour(d *draft) {
	karats, _, gold := strings.Cut(d.options["alloy"], "k-")
	if !gold || len(m.alloys) > 0 || len(m.tokens) > 6 {
		return
	}
	for _, t := range m.tokens {
		c := colours[t.text]
		if c == "" {
			continue
		}
		keys := goldKeys(karats, c, m.says("palladium"), m.says("nickel"))
		switch {
		case len(keys) == 0:
		case c == "white" && len(keys) > 1 && (d.request == "heat" || d.request == "melt"):
			d.question("alloy", "Which white gold do you mean?", d.with(alloyName(keys[0]), "alloy", keys[0]), d.with(alloyName(keys[1]), "alloy", keys[1]))
		default:
			d.say("alloy", keys[0])
		}
		return
	}
}

// sizeLetters takes capital letters that stand alone as ring sizes: "L to O".
func (m *message) sizeLetters() {
	for i, t := range m.tokens {
		if t.capital && !m.taken[i] && t.text != "x" && t.text != "i" && t.text != "a" && !m.at(i+1).glued {
			m.add(quantity{measure: ringSize, shown: strings.ToUpper(t.text), system: "uk", first: i, next: i + 1, unit: true})
		}
	}
}

// changeTube takes the two figures of a tube: its outside and its wall, or its outside
// and its inside.
func (m *message) changeTube(d *draft, q *quantity) {
	outside, other := max(q.sides[0], q.sides[1]), min(q.sides[0], q.sides[1])
	wall := other
	if other >= outside/2 {
		wall = (outside - other) / 2
		d.note("%s is read as outside x inside, a wall of %s mm", strings.TrimSpace(q.typed(m)), plain(wall))
	}
	q.used = true
	d.say("tubesize", plain(outside)+"x"+plain(wall))
}

// changeShank changes the size of the ring that a saddle sits on.
func (m *message) changeShank(d *draft, q *quantity) {
	system, _, _ := strings.Cut(d.options["shank"], " ")
	if q.system != "" {
		system = q.system
	}
	q.used = true
	d.say("shank", system+" "+q.shown)
}

// formHas reports whether a piece of stock of its form has an option: a sheet's and a
// disc's size are all there is of them beside the thickness, which a tube and half-round
// wire have in their size.
func (d *draft) formHas(option string) bool {
	flat, inSize := []string{"sheet", "disc"}, []string{"tube", "half-round"}
	switch form := d.options["form"]; {
	case d.request != "weigh":
		return true
	case option == "length":
		return !slices.Contains(flat, form)
	case option == "thickness":
		return !slices.Contains(inSize, form)
	}
	return true
}

// changeResize changes the size that a resizing begins with, or ends with.
func (m *message) changeResize(d *draft, q *quantity) {
	system, _, _ := strings.Cut(d.options["from"], " ")
	if q.system != "" {
		system = q.system
	}
	option := m.endOfResize(d.request, q)
	for _, other := range m.found {
		if other.measure == ringSize && other != q {
			option = "from" // the first of two
			if other.first < q.first {
				option = "to"
			}
		}
	}
	if m.at(q.first-1).text == "from" || m.at(q.first-1).text == "is" {
		option = "from"
	}
	q.used = true
	d.say(option, system+" "+q.shown)
}

// endOfResize is the end of a resizing that a size belongs to if it stands alone: the one
// that was asked for, or else the one that the words round it make likelier.
func (m *message) endOfResize(request string, q *quantity) string {
	if asked := m.context.Asked; asked != nil && asked.Request == request && (asked.Missing == "from" || asked.Missing == "to") {
		return asked.Missing
	}
	if m.says("says", "said", "wants", "wanted", "needs", "asks", "asked", "prefers", "rather", "like") {
		return "to" // the wearer wants it so
	}
	if roles := m.rolesOf(request, q); roles.Of("from") > roles.Of("to") {
		return "from"
	}
	return "to"
}

// blockAngle takes 17 or 28 as the angle between a block's walls, which most blocks
// have; common practice, no source.
func (d *draft) blockAngle(q *quantity) bool {
	if q.measure != bare || q.value != 17 && q.value != 28 || d.request != "collet" && d.request != "collar" && d.request != "prongs" || !d.m.context.takes(d.request, "included") {
		return false
	}
	if !d.m.has("block") && !d.has("included") && (!d.has("thickness") || d.has("lean")) {
		return false // it may be a gauge
	}
	d.set("included", q)
	delete(d.options, "lean")
	d.note("%s is read as the block's angle, %s° on each side", q.shown, plain(q.value/2))
	return true
}

// sizeOrGauge asks about a bare number that may be the stone's one size or a gauge
// number: "and 16" after a round stone of 14 mm.
func (d *draft) sizeOrGauge(q *quantity) bool {
	size := parse(d.options["size"])
	if q.measure != bare || !needsStone[d.request] || strings.Contains(d.options["size"], "x") || q.value != float64(int(q.value)) || q.value < 14 || q.value > 36 || size == 0 || q.value > 1.6*size || q.value < 0.6*size {
		return false
	}
	q.used = true
	d.question("", fmt.Sprintf("What becomes %s?", q.shown), d.with("a stone of "+q.shown+" mm", "size", q.shown), d.with(q.shown+" gauge", "thickness", q.shown+"ga"))
	return true
}

// bareOptions are what a bare number of a follow-up may be.
var bareOptions = map[string][]place{
	"collet":   {{"size", "stone", 3, 30}, {"depth", "stone's depth", 1.2, 12}, {"thickness", "thickness", 0.2, 1.3}, {"height", "height", 3, 30}},
	"prongs":   {{"size", "stone", 3, 30}, {"depth", "stone's depth", 1.2, 12}, {"thickness", "thickness", 0.2, 1.3}},
	"collar":   {{"size", "stone", 3, 30}, {"depth", "stone's depth", 1.2, 12}, {"thickness", "thickness", 0.2, 1.3}},
	"bezel":    {{"size", "stone", 9, 60}, {"dome", "height of the stone", 1.3, 9}, {"thickness", "thickness", 0.15, 1.3}},
	"band":     {{"ring", "ring size", 4, 13}, {"width", "width", 2.2, 12}, {"thickness", "thickness", 0.6, 2.6}},
	"dome":     {{"size", "diameter", 6, 100}, {"height", "height", 1, 20}, {"thickness", "thickness", 0.2, 1.3}},
	"kit":      {{"makers", "makers", 2, 60}},
	"weigh":    {{"length", "length", 10, 10000}, {"thickness", "thickness", 0.2, 6}},
	"heat":     {{"joints", "joints", 1, 12}},
	"halo":     {{"with", "small stones", 0.7, 3.2}, {"size", "centre stone", 3.3, 30}},
	"jumpring": {{"wire", "wire", 0.3, 2.4}, {"inside", "inside diameter", 2.5, 40}, {"count", "number of rings", 50, 100000}},
	"tubeset":  {{"size", "stone", 1, 12}},
	"resize":   {{"width", "width", 2.5, 12}, {"thickness", "thickness", 0.6, 2.4}},
}
