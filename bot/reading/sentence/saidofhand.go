package sentence

import (
	"maps"
	"math"
	"slices"
	"strings"

	"guildhand/calc/casting"
)

// What a message says of the piece in hand, or asks of it, where one of its words and the
// piece's own request settle what is meant.

// cutCorners are the outlines whose corners are cut, and roundedCorners those whose corners
// may be round.
var (
	cutCorners     = map[string]bool{"emerald": true, "octagon": true}
	roundedCorners = map[string]bool{"cushion": true, "square": true, "baguette": true, "rectangle": true}
)

// mostCorner is the largest corner in mm that is told of a stone.
const mostCorner = 6

// partOfPiece takes the one figure of a message that names a part of the piece: the setting
// of a halo's centre, the corners of a stone.
func (m *message) partOfPiece(last Last) (Reading, bool) {
	if len(m.found) != 1 || m.asksWhether() || m.words() > longestChange || m.stoneSides() != nil || strings.Contains(m.typed, "?") && !m.says("if") {
		return Reading{}, false
	}
	q := m.found[0]
	d := m.draftWith(last.Request, last.Options)
	switch {
	case last.Request == "halo" && m.says("bezel", "bezels", "wall", "collet", "cup", "setting") && !m.says("strip", "another", "new", "need", "make"):
		thick := q.measure == length || q.measure == bare
		switch {
		case q.measure == gauge:
			q.used = true
			d.say("centregap", plain(math.Round(100*gaugeMM(q.value))/100))
		case thick && q.value <= mostCentreWall:
			d.set("centregap", q)
		default:
			return Reading{}, false
		}
	case m.says("corner", "corners") && cutCorners[last.Options["outline"]]:
		if q.measure != percent && q.value <= mostCorner {
			q.role = "cornercut"
		}
		d.cornerCut()
	case m.says("corner", "corners") && roundedCorners[last.Options["outline"]] && q.value <= mostCorner && (q.measure == length || q.measure == bare) && m.context.takes(last.Request, "radius"):
		d.set("radius", q)
	default:
		return Reading{}, false
	}
	r := m.changedFrom(last, d)
	return r, q.used && len(r.Changed) > 0
}

// longestMeasureAsked is how many words a question has at most that is hardly more than a
// measure's name: "inside diameter?"
const longestMeasureAsked = 4

// measureAgain is the last piece once more, where a message only names a measure of it, or
// asks for one again.
func (m *message) measureAgain(last Last) (Reading, bool) {
	if len(m.found)+len(m.alloys) > 0 || m.context.Topic != "" || readersOf[last.Request] == nil || m.namesAnother(last) || m.says(ofUse...) || m.startsWith("why", "is", "can", "should", "do", "does", "will") {
		return Reading{}, false
	}
	named := m.words() <= longestMeasureAsked && m.namesMeasure() && !m.has("weight")
	again := m.says("again") && m.asksOwnMeasure()
	deep := last.Request == "saddle" && m.says("how deep", "what depth") && m.words() <= longestChange
	if !named && !again && !deep {
		return Reading{}, false
	}
	options := maps.Clone(last.Options)
	if m.has("units:inch") && m.context.takes(last.Request, "units") {
		options["units"] = "inch"
	}
	return figuresOf(Last{last.Request, options}), true
}

// namesMeasure reports whether a message begins with a measure's name, but for the words
// that say of which side: "and the outside diameter of one?"
func (m *message) namesMeasure() bool {
	for i := range m.tokens {
		switch text := m.at(i).text; {
		case slices.Contains([]string{"diameter", "radius", "circumference", "length", "width"}, text), text == "ar" && i > 0 && m.at(i-1).text != "whats" && m.at(i-1).text != "what" && m.at(i-1).text != "s" && m.at(i-1).text != "is":
			return true
		case !slices.Contains([]string{"and", "the", "whats", "what", "is", "its", "outside", "inside", "inner", "outer", "total", "overall", "mean", "s", "so", "bottom", "top", "base", "same"}, text):
			return false
		}
	}
	return false
}

// weightInMetal is the last piece in another metal for its weight: "copper, what would they
// weigh".
func (m *message) weightInMetal(last Last) (Reading, bool) {
	if len(m.found) > 0 || len(m.alloys) != 1 || m.alloys[0].likeliestKey() == "" || m.words() > longestChange || !m.has("weight") && !m.says("how heavy", "in grams", "how many grams") || !m.context.takes(last.Request, "alloy") || readersOf[last.Request] == nil || m.strays() && !m.has("weight") || m.says("density", "than", "wax", "per", "or", "both", "all", "together", "whole lot", "total") || last.Request == "heat" {
		return Reading{}, false
	}
	if last.Request == "collet" {
		return m.weighed(last)
	}
	d := m.draftWith(last.Request, last.Options)
	d.alloy("alloy", last.Request == "melt")
	return m.changedFrom(last, d), true
}

// metalAtHand shows the metal of a casting again where a message asks if what is at hand is
// enough.
func (m *message) metalAtHand(last Last) (Reading, bool) {
	if last.Request != "melt" || len(m.found) != 1 || len(m.alloys) > 1 || !m.says("enough", "do it", "will it do", "will that do", "will it go", "short", "is that ok", "is it ok", "that ok", "plenty", "sufficient", "suffice") || m.says("button", "sprue", "wax weighs") {
		return Reading{}, false
	}
	q := m.found[0]
	grams := q.measure == mass || q.measure == gauge && strings.HasSuffix(strings.TrimSpace(q.typed(m)), "g") // "35 g" may be either
	if !grams && (q.measure != bare || len(m.alloys) > 0 || !m.says("got", "have", "only")) {
		return Reading{}, false
	}
	wax, alloy := gramsIn(last.Options["wax"])+gramsIn(last.Options["sprue"]), alloyOf(last.Options["alloy"])
	if wax == 0 || alloy.Key == "" {
		return Reading{}, false
	}
	density := casting.WaxDensityGPerCM3
	if told := parse(last.Options["wax-density"]); told > 0 {
		density = told
	}
	m.useAll()
	verdict := enoughFor(casting.MetalG(wax, density, alloy.DensityGPerCM3), q.value)
	return Reading{Outcome: Request, Request: last.Request, Options: maps.Clone(last.Options), Verdict: verdict}, true
}

// gramsIn is the mass that an option tells, 0 for none.
func gramsIn(shown string) float64 {
	if shown == "" {
		return 0
	}
	for _, q := range newMessage("the wax weighs " + shown).found { // "28 g" alone may be a gauge
		if q.measure == mass || q.measure == bare {
			return q.value
		}
	}
	return 0
}

// mostStonesAtHand is how many stones at hand are told of at most.
const mostStonesAtHand = 4

// stonesForTube takes the stones at hand for a tube that was matched, and sets the one that
// is nearest to what it takes.
func (m *message) stonesForTube(last Last) (Reading, bool) {
	tube := last.Options["tubesize"]
	if last.Request != "match" || tube == "" || last.Options["included"]+last.Options["lean"]+last.Options["hole"] != "" || len(m.found) == 0 || len(m.found) > mostStonesAtHand || len(m.alloys) > 0 || m.words() > longestChange || m.says("tube", "tubing", "wall", "od", "id", "outside", "inside", "thick", "bezel", "high", "tall", "deep") {
		return Reading{}, false
	}
	outside, wall, ok := strings.Cut(tube, "x")
	takes := lengthOf(outside) - lengthOf(wall)
	if !ok || takes <= 0 {
		return Reading{}, false
	}
	best := m.found[0]
	for _, q := range m.found {
		if q.measure != bare && q.measure != length && q.measure != count || q.role != "" && q.role != "diameter" && q.role != "width" || q.value < takes/2 || q.value > 2*takes {
			return Reading{}, false
		}
		if math.Abs(q.value-takes) < math.Abs(best.value-takes) {
			best = q
		}
	}
	m.useAll()
	d := m.draft("tubeset")
	d.say("outline", "round")
	d.say("size", best.shown)
	d.say("tubesize", tube)
	if len(m.found) > 1 {
		d.note("of your stones %s mm is the nearest to what this tube takes, %s mm", plain(best.value), plain(math.Round(100*takes)/100))
	}
	r := d.reading()
	r.Changed = []string{"size " + best.shown}
	r.Verdict = m.verdict(r)
	return r, true
}

// ofHeat are words for what an answer about a metal's heat tells.
var ofHeat = []string{"what color", "what colour", "which color", "which colour", "color cue", "colour cue", "how do i cool", "how to cool", "how should i cool", "cool it", "quench", "how hot", "what temperature", "what temp", "how do i know", "how do i kno", "how will i know", "how can i tell", "how do i tell", "thermometer", "pyrometer", "go cold", "cold slow", "cold slowly", "cool slow"}

// longestOfHeat is how many words a message has at most that asks for more of a metal's heat.
const longestOfHeat = 14

// heldAtHeat reports whether it is asked how long the metal in hand is kept at its heat.
func (m *message) heldAtHeat() bool {
	return len(m.found)+len(m.alloys) == 0 && m.words() <= longestOfHeat && (m.text() == "for how long" || m.says("how long", "how many minutes") && m.says("hold", "keep", "remain", "stay", "at it", "red", "at that")) && !m.says("pickle", "oven", "kiln", "torch", "soak", "cool", "age", "harden")
}

// heatAgain is the heat of the last metal once more, where its colour or its cooling is asked
// for, which the answer tells.
func (m *message) heatAgain(last Last) (Reading, bool) {
	if held := factNamed("how long at heat"); held != nil && last.Request == "heat" && m.heldAtHeat() {
		return explain(held), true
	}
	if last.Request != "heat" || len(m.found)+len(m.alloys) > 0 || m.words() > longestOfHeat || !m.says(ofHeat...) || m.startsWith("what does", "what is", "how does") || m.says("why", "pickle", "solder", "stone", "flux", "firescale", "firestain", "black", "water", "oil", "crack", "cracked") {
		return Reading{}, false
	}
	return Reading{Outcome: Request, Request: last.Request, Options: maps.Clone(last.Options), Notes: []string{"the answer tells the heat and its colour, and how it is cooled"}}, true
}

// whitenedBy takes which white gold the last piece is of: "the nickel one".
func (m *message) whitenedBy(last Last) (Reading, bool) {
	karats, shade, gold := strings.Cut(last.Options["alloy"], "k-")
	if !gold || !strings.HasPrefix(shade, "white") || len(m.found) > 0 || m.words() > longestChange || m.says("palladium") == m.says("nickel") || !m.says("white", "one") || m.says("allergy", "allergic", "safe", "why", "difference") {
		return Reading{}, false
	}
	keys := goldKeys(karats, "white", m.says("palladium"), m.says("nickel"))
	if len(keys) == 0 {
		return Reading{}, false
	}
	m.useAll()
	options := maps.Clone(last.Options)
	options["alloy"] = keys[0]
	return Reading{Outcome: Request, Request: last.Request, Options: options, Changed: changesOf(last.Options, options)}, true
}

// partsTold are the tools and parts that the answer to a request tells the size of.
var partsTold = map[string][]string{"jumpring": {"mandrel", "rod", "former"}, "tubeset": {"tube", "tubing", "chenier", "bur", "burr"}, "dome": {"disc", "disk", "circle"}, "saddle": {"cutter", "drum", "curve"}}

// countsLinks reports whether a message asks how many links the rings in talk make: "how many
// rings is that?".
func (m *message) countsLinks(last Last) bool {
	return last.Request == "jumpring" && m.says("how many rings", "how many links", "how many jump rings", "how many of them")
}

// longestPartAsked is how many words such a question has at most.
const longestPartAsked = 6

// partAgain is the last piece once more, where a message only asks which tool or part it
// takes: "so what mandrel".
func (m *message) partAgain(last Last) (Reading, bool) {
	if len(m.found)+len(m.alloys) > 0 || m.context.Topic != "" || m.words() > longestPartAsked || !m.says(partsTold[last.Request]...) && !m.countsLinks(last) || !m.says("what", "whats", "which", "size", "how many") || m.says("is a", "are", "for the plate", "hole", "drill", "make", "cut it with", "sheet", "why", "from", "mean", "best", "difference") {
		return Reading{}, false
	}
	return figuresOf(last), true
}

// mostSheetInInches is the longest side, in inches, of a sheet that is told without a unit
// after a piece in inches.
const mostSheetInInches = 24

// cutFromSheet lays the last piece out on a sheet: "can I get 6 out of a 6x6 sheet".
func (m *message) cutFromSheet(last Last) (Reading, bool) {
	if !cutAsKit[last.Request] || len(m.alloys) > 0 || len(m.found) == 0 || len(m.found) > 2 || !m.says("sheet", "piece", "offcut", "plate") || !m.says("from", "out of", "outta", "in", "on", "off") || m.words() > longestOfHeat {
		return Reading{}, false
	}
	var sheet, many *quantity
	for _, q := range m.found {
		switch {
		case q.measure == size && len(q.sides) == 2:
			sheet = q
		case (q.measure == bare || q.measure == count) && q.value >= 1 && q.value <= mostEach && q.value == math.Trunc(q.value):
			many = q
		default:
			return Reading{}, false
		}
	}
	if sheet == nil || many == nil && !m.says("how many") || min(sheet.sides[0], sheet.sides[1]) < 5 && !m.context.toldInInches() {
		return Reading{}, false
	}
	m.useAll()
	d := m.draft("kit")
	class := m.says("students", "people", "makers", "ladies", "learners", "participants", "each")
	if !class || many == nil {
		d.say("makers", "1")
	}
	d.say("sheet", sheet.shown)
	if m.context.toldInInches() && !strings.Contains(sheet.shown, "in") && max(sheet.sides[0], sheet.sides[1]) <= mostSheetInInches {
		d.say("sheet", sheet.shown+" in")
	}
	d.say("pieces", line(last.Request, last.Options))
	switch {
	case class && many != nil:
		d.say("makers", many.shown)
	case many == nil:
		d.question("each", "How many do you want? I lay that many out on the sheet and tell you how many sheets it takes.", d.with("10", "each", "10"), d.with("20", "each", "20"))
	default:
		d.say("each", many.shown)
	}
	r := d.reading()
	if many != nil {
		r.Changed = []string{"so many of your " + nameOf(last)}
	}
	return r, true
}
