package sentence

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"guildhand/bot/knowledge"
	"guildhand/calc/units"
)

// ofPieceInHand reads short messages whose figures or words mean something only
// beside the last piece: its wall, its disc, how many of it, its block.
func (m *message) ofPieceInHand() (Reading, bool) {
	last := m.context.Last
	if last == nil || m.context.Asked != nil || len(m.tokens) > 14 || len(m.meaning("outline:")) > 0 {
		return Reading{}, false
	}
	if r, ok := m.ownTube(*last); ok || m.stoneSides() != nil {
		return r, ok
	}
	for _, read := range []func(Last) (Reading, bool){m.wallJudged, m.letterNow, m.sizeInLetters, m.discForSize, m.ringsMore, m.ownBlock, m.weighedInMetal, m.costOfMetal, m.anotherBangle, m.waxAgain, m.wholeBead, m.gaugeInInches, m.ringUnderSaddle} {
		if r, ok := read(*last); ok {
			return r, true
		}
	}
	return Reading{}, false
}

// surelyInHand are the readings of figures whose words can mean nothing else.
func (m *message) surelyInHand() (Reading, bool) {
	for _, read := range []func() (Reading, bool){m.tubesOffered, m.metalOffered, m.fractionOfGauge} {
		if r, ok := read(); ok {
			return r, true
		}
	}
	last := m.context.Last
	if last != nil && m.context.Asked == nil {
		if r, ok := m.otherForm(*last); ok {
			return r, true
		}
		if r, ok := m.otherSection(*last); ok {
			return r, true
		}
	}
	if r, ok := m.shareLeft(); ok {
		return r, true
	}
	if last == nil || m.context.Asked != nil || len(m.tokens) > longestInHand || len(m.meaning("outline:")) > 0 || m.stoneSides() != nil {
		return Reading{}, false
	}
	for _, read := range []func(Last) (Reading, bool){m.cameOutInSize, m.endsApart, m.forTwo, m.smallStonesAtHand, m.tubeNamed, m.nextCut, m.plateStandsOut, m.forSoMany, m.byAmount, m.comparedFigure, m.cameOutTight, m.linksOfChain, m.weighedInAll, m.otherProngs, m.andHalf, m.sizeMended, m.soManyTimes, m.ownTubeMeasured, m.shankSaid, m.addedTo, m.otherCount, m.countNotThat, m.ofGaugeTold, m.remarkedOn, m.narrowerFoot, m.taperChanged, m.otherThickness, m.partOfPiece, m.measureAgain, m.weightInMetal, m.metalAtHand, m.stonesForTube, m.heatAgain, m.whitenedBy, m.partAgain, m.cutFromSheet, m.notThat, m.otherGauge, m.otherNear, m.bothTogether, m.makersChanged, m.stoneMeasured, m.partOfCasting, m.severalWanted, m.repeatsResult, m.gaugeOfPiece, m.mattersNot, m.agreesToPiece, m.nothingLacks, m.newFromScratch, m.solderOfPiece} {
		if r, ok := read(*last); ok {
			return r, true
		}
	}
	return Reading{}, false
}

// longestInHand is how many tokens a message has at most that changes a figure of the
// piece in hand and asks what comes of it.
const longestInHand = 20

// judgingCounts say which number of prongs is liked better.
var judgingCounts = []string{"look", "looks", "looking", "fussy", "busy", "too many", "too few", "plenty", "nicer", "prettier", "neater", "cleaner", "safer", "stronger", "more secure", "prefer", "rather", "not", "instead of", "is enough", "are enough", "overkill", "better", "mean", "enough"}

// askingWords begin a question.
var askingWords = []string{"is", "are", "do", "does", "did", "can", "could", "will", "would", "should", "how", "why", "what", "whats", "which", "when", "where"}

// countNotThat takes the number of prongs that a message likes better: "actually 4, six
// looks fussy", "I think six would look better".
func (m *message) countNotThat(last Last) (Reading, bool) {
	if last.Request != "prongs" || len(m.alloys) > 0 || len(m.found) > 2 || m.words() > longestChange || m.startsWith(askingWords...) || strings.Contains(m.typed, "?") || m.saysMeasure() || !m.says(judgingCounts...) || m.says("or", "stone", "mm", "gauge") {
		return Reading{}, false
	}
	now, other := last.Options["number"], ""
	for _, n := range m.countsSaid() {
		if n == now {
			continue
		}
		if other != "" {
			return Reading{}, false // it may be either
		}
		other = n
	}
	if other == "" {
		return Reading{}, false
	}
	d := m.draftWith("prongs", last.Options)
	d.say("number", other)
	m.useAll()
	return m.changedFrom(last, d), true
}

// countsSaid are the whole numbers of a message that may count prongs, in figures or words.
func (m *message) countsSaid() (counts []string) {
	for _, q := range m.found {
		if (q.measure == bare || q.measure == count) && q.role == "" && q.value >= fewestProngs && q.value <= mostProngs && q.value == math.Trunc(q.value) {
			counts = append(counts, plain(q.value))
		}
	}
	for i, t := range m.tokens {
		v, is := numberWords[t.text]
		inFigure := slices.ContainsFunc(m.found, func(q *quantity) bool { return q.first <= i && i < q.next })
		if is && !inFigure && v >= fewestProngs && v <= mostProngs {
			m.taken[i] = true
			counts = append(counts, plain(v))
		}
	}
	return counts
}

// countVerbs ask for another number of prongs.
var countVerbs = []string{"instead", "make it", "take", "took", "use", "used", "if", "do", "with", "go", "have", "had", "what about", "how about", "redo", "suppose", "want", "wanted"}

// otherCount takes another number of prongs: "can i make it 6 instead", "what happens if I
// take six?"
func (m *message) otherCount(last Last) (Reading, bool) {
	if last.Request != "prongs" || len(m.alloys) > 0 || len(m.found) > 1 || !m.says(countVerbs...) || m.saysMeasure() || m.says("gauge", "sheet", "metal", "mm", "stone", "why", "should", "strong", "stronger", "enough", "or", "would you", "safe", "better") {
		return Reading{}, false
	}
	n := 0.0
	for i, t := range m.tokens {
		if v := numberWords[t.text]; v >= 3 && len(m.found) == 0 {
			n, m.taken[i] = v, true
		}
	}
	if len(m.found) == 1 && (m.found[0].measure == bare || m.found[0].measure == count) && m.found[0].role == "" {
		n = m.found[0].value
	}
	if n < 3 || n > 8 || n != math.Trunc(n) || plain(n) == last.Options["number"] {
		return Reading{}, false
	}
	d := m.draftWith("prongs", last.Options)
	d.say("number", plain(n))
	for _, q := range m.found {
		q.used = true
	}
	return m.changedFrom(last, d), true
}

// atHand tell of the metal that a maker has.
var atHand = []string{"only got", "only have", "ive only", "i only", "got only", "have only", "all ive got", "all i have", "all i got", "just got", "just have", "only had", "what ive got"}

// otherThickness judges another thickness for the last piece: "is 0.8 sheet ok or too bendy".
func (m *message) otherThickness(last Last) (Reading, bool) {
	if walls[last.Request].usual == 0 || len(m.found) != 1 || len(m.alloys) > 0 || !m.asksWhether() && !m.says("ok", "okay", "alright") && !m.says(atHand...) || !m.says("sheet", "metal", "thick", "gauge", "plate") || m.says("back", "backplate", "plate") || m.jobNamed() != "weigh" && m.namesAnother(last) && !m.says(atHand...) {
		return Reading{}, false
	}
	q := m.found[0]
	thick := q.measure == gauge || (q.measure == bare || q.measure == length) && q.value >= 0.2 && q.value <= 3
	if !thick || q.standsIn(last) || q.role != "" && q.role != "thickness" || m.at(q.next).text == "strip" || m.has("backplate") {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	d.set("thickness", q)
	r := m.changedFrom(last, d)
	r.Verdict = m.verdict(r)
	return r, r.Outcome == Request && (r.Verdict != "" || m.says(atHand...))
}

// wallJudged says whether the thickness that was told for the last piece will do:
// "is that too thin?"
func (m *message) wallJudged(last Last) (Reading, bool) {
	if len(m.found)+len(m.alloys) > 0 || !m.says("too thin", "too thick", "thick enough", "thin enough", "strong enough", "sturdy enough", "heavy enough", "too flimsy", "flimsy", "too weak", "a bit thin", "bit thick", "ok thickness", "right thickness") ||
		!m.pointsBack() && !m.says("the metal", "the sheet", "the wall", "the gauge", "the strip", "my metal", "my sheet") || !m.asksWhether() {
		return Reading{}, false
	}
	text := m.verdict(Reading{Request: last.Request, Options: last.Options})
	if text == "" {
		return Reading{}, false
	}
	return Reading{Outcome: Explanation, Topic: "limit: wall of the piece", Text: text, Source: knowledge.CommonPractice}, true
}

// sizeInLetters answers what a ring's size is in another system: each answer has all
// of them.
func (m *message) sizeInLetters(last Last) (Reading, bool) {
	if last.Request != "band" || last.Options["ring"] == "" || len(m.found)+len(m.alloys) > 0 || m.startsWith("why", "how do") ||
		!m.says("in letters", "what letter", "which letter", "as a letter", "letter size", "uk size", "us size", "in uk", "in us", "in iso", "in eu", "in european", "european size", "in numbers", "continental", "other systems") {
		return Reading{}, false
	}
	return Reading{Outcome: Request, Request: last.Request, Options: last.Options, Notes: []string{"the answer has the size in every system"}}, true
}

// wearing are words behind which a letter alone is a ring size.
var wearing = wordSet("a an be is now size sz")

// letterNow is the last ring in the size that a message names by a letter at its end: "my
// client is now a P".
func (m *message) letterNow(last Last) (Reading, bool) {
	end := len(m.tokens) - 1
	for end > 0 && !m.at(end).word() {
		end--
	}
	t := m.at(end)
	if last.Request != "band" || last.Options["ring"] == "" || len(m.found)+len(m.alloys) > 0 || end < 2 || len(t.text) != 1 || !t.capital || !wearing[m.at(end-1).text] || m.asksInWords() || m.tellsOutcome() || m.says("made it", "made", "came out", "it is a") {
		return Reading{}, false
	}
	m.add(quantity{measure: ringSize, shown: strings.ToUpper(t.text), system: "uk", first: end, next: end + 1, unit: true})
	return m.change(last)
}

// discForSize takes another width for the last dome: "and for 25?"
func (m *message) discForSize(last Last) (Reading, bool) {
	if last.Request != "dome" || len(m.found) != 1 || len(m.alloys) > 0 || m.asksWhether() {
		return Reading{}, false
	}
	q := m.found[0]
	width := q.measure == length || q.measure == bare && m.startsWith("and for", "for", "what about for", "how about for", "what for")
	if !width || q.value < 3 || q.role != "" && q.role != "diameter" || !m.startsWith("and for", "for", "what about for", "how about for") && !(m.says("disc", "disk", "circle", "blank") && m.says("what", "how big", "size")) {
		return Reading{}, false
	}
	d := m.draftWith("dome", last.Options)
	d.set("size", q)
	return m.changedFrom(last, d), true
}

// ringsMore takes how many jump rings are wanted beside what else changes: "and 60
// more at 4 mm", "100 of those".
func (m *message) ringsMore(last Last) (Reading, bool) {
	if last.Request != "jumpring" || len(m.alloys) > 0 || len(m.found) > 2 {
		return Reading{}, false
	}
	n := slices.IndexFunc(m.found, m.countsRings)
	if n < 0 {
		return Reading{}, false
	}
	option := ""
	for i, q := range m.found {
		switch {
		case i == n:
		case q.measure == gauge || q.measure == length && q.value <= 2.4:
			option = "wire"
		case q.measure == length:
			option = "inside"
		default:
			return Reading{}, false
		}
	}
	d := m.draftWith("jumpring", last.Options)
	d.set("count", m.found[n])
	if option != "" {
		d.set(option, m.found[1-n])
	}
	if maps.Equal(d.options, last.Options) {
		d.note("this is what your last answer has already")
	}
	return m.changedFrom(last, d), true
}

// countsRings reports whether a figure after jump rings is how many are wanted.
func (m *message) countsRings(q *quantity) bool {
	if q.measure != bare && q.measure != count || q.value < 2 || q.value != math.Trunc(q.value) {
		return false
	}
	switch m.at(q.next).text {
	case "of", "more", "at", "in", "rings", "links":
		return true
	case "instead":
		return q.value > 40 // under that it may be a gauge
	}
	return q.value > 40 && len(m.found) == 1 && m.words() <= 4 && m.startsWith("make it", "make that", "no", "actually")
}

// ownBlock takes the angle of the maker's block for the last setting: "17 degree
// block".
func (m *message) ownBlock(last Last) (Reading, bool) {
	if last.Request != "collet" && last.Request != "prongs" && last.Request != "collar" || len(m.found) != 1 || len(m.alloys) > 0 || !m.says("block") || m.asksWhether() || m.says("which", "why", "what is", "hole", "holes") || !m.context.takes(last.Request, "included") {
		return Reading{}, false
	}
	q := m.found[0]
	if q.measure != angle && !(q.measure == bare && (q.value == 17 || q.value == 28)) || q.value < 5 || q.value > 60 || m.says("each side", "per side", "lean") {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	d.set("included", q)
	return m.changedFrom(last, d), true
}

// weighedInMetal weighs a setting that was weighed once more in another metal.
func (m *message) weighedInMetal(last Last) (Reading, bool) {
	if last.Request != "weigh" || last.Options["collet"] == "" || len(m.alloys) != 1 || len(m.found) > 0 || m.alloys[0].likeliestKey() == "" || m.words() > 7 {
		return Reading{}, false
	}
	for _, piece := range m.pieces() {
		if piece.Request == "collet" {
			return m.weighed(piece)
		}
	}
	return Reading{}, false
}

// costOfMetal takes the metal of a question about cost as the last piece's own, where
// it is of that kind: "what will the gold cost me" after a piece of 9 karat.
func (m *message) costOfMetal(last Last) (Reading, bool) {
	if len(m.found) > 0 || len(m.alloys) != 1 || !m.says("cost", "price") || last.Options["alloy"] == "" || !m.says("the "+m.alloys[0].says) {
		return Reading{}, false
	}
	asked := alloyOf(m.alloys[0].likeliestKey())
	if asked.Key == "" || asked.Family != alloyOf(last.Options["alloy"]).Family {
		return Reading{}, false
	}
	return m.weighedLast(last)
}

// anotherBangle takes another inside for the last bangle: "same for a smaller wrist,
// 58".
func (m *message) anotherBangle(last Last) (Reading, bool) {
	if last.Request != "band" || last.Options["bangle"] == "" || len(m.found) != 1 || len(m.alloys) > 0 || m.of(ringSize) != nil || m.says("size", "round the hand", "around the hand", "wide", "thick", "high") {
		return Reading{}, false
	}
	q := m.found[0]
	if q.measure != bare && q.measure != length || q.value < 40 || q.value > 90 {
		return Reading{}, false
	}
	d := m.draftWith("band", last.Options)
	d.set("bangle", q)
	return m.changedFrom(last, d), true
}

// ownTube takes the maker's tube, outside x wall, for the last stone in a tube: "I
// have 4x0.5".
func (m *message) ownTube(last Last) (Reading, bool) {
	if last.Request != "tubeset" || len(m.alloys) > 0 || len(m.found) != 1 {
		return Reading{}, false
	}
	q := m.found[0]
	if q.measure != size || len(q.sides) != 2 || q.sides[1] > 1.5 || q.sides[0] < 2*q.sides[1] {
		return Reading{}, false
	}
	d := m.draftWith("tubeset", last.Options)
	d.set("tubesize", q)
	return m.changedFrom(last, d), true
}

// waxAgain takes another mass of wax for the last casting, whatever was asked in
// between: "the wax was actually 2.6".
func (m *message) waxAgain(Last) (Reading, bool) {
	if len(m.found) != 1 || len(m.alloys) > 0 || !m.says("wax", "model", "pattern") || !m.says("actually", "really", "reweighed", "weighed it again", "sorry", "i meant", "should be", "turns out", "is now", "not") {
		return Reading{}, false
	}
	q := m.found[0]
	if q.measure != mass && q.measure != bare {
		return Reading{}, false
	}
	for _, piece := range m.pieces() {
		if piece.Request != "melt" {
			continue
		}
		for _, option := range []string{"wax", "model"} {
			if piece.Options[option] != "" {
				d := m.draftWith("melt", piece.Options)
				d.set(option, q)
				return m.changedFrom(piece, d), true
			}
		}
	}
	return Reading{}, false
}

// wholeBead makes two half domes of the last one.
func (m *message) wholeBead(last Last) (Reading, bool) {
	if last.Request != "dome" || len(m.found)+len(m.alloys) > 0 || !m.says("full bead", "whole bead", "full ball", "whole ball", "a sphere", "full sphere", "hollow bead", "a bead", "a ball") || m.startsWith("what is", "whats a", "why") {
		return Reading{}, false
	}
	d := m.draftWith("dome", last.Options)
	d.say("hemisphere", "yes")
	d.note("a bead takes two of these discs, domed alike and filed until they meet")
	return m.changedFrom(last, d), true
}

// gaugeInInches shows a conversion again: it has both units.
func (m *message) gaugeInInches(last Last) (Reading, bool) {
	if last.Request != "gauge" || len(m.found)+len(m.alloys) > 0 || m.words() > 4 || !m.says("inches", "inch", "in mm", "millimetres", "millimeters", "metric", "imperial", "thou") || m.says("always", "from now on", "use", "keep", "switch") {
		return Reading{}, false
	}
	return Reading{Outcome: Request, Request: last.Request, Options: last.Options, Notes: []string{"the answer has millimetres and inches"}}, true
}

// fractionOfGauge tells which fraction of an inch the thickness in talk is near.
func (m *message) fractionOfGauge() (Reading, bool) {
	const parts = 64
	last := m.context.Last
	if last == nil || last.Request != "gauge" || m.words() > longestChange || len(m.alloys) > 0 || !m.says("fraction", "fractions", "64th", "64ths", "32nd", "32nds", "16th", "16ths", "fractional") {
		return Reading{}, false
	}
	thick := lengthOf(last.Options["gauge"])
	near, of := math.Round(thick/units.MMPerInch*parts), parts
	if near < 1 || thick <= 0 {
		return Reading{}, false
	}
	nearMM := near * units.MMPerInch / parts
	for math.Mod(near, 2) == 0 {
		near, of = near/2, of/2
	}
	m.useAll()
	return worked("gauges", "1 in is 25.4 mm", fmt.Sprintf("%s is %.4f in. The nearest 64th is %s/%d in, which is %.2f mm.", mm(thick), thick/units.MMPerInch, plain(near), of, nearMM))
}

// ringUnderSaddle takes another ring for the last setting that sits on a shank: "size
// 8 ring".
func (m *message) ringUnderSaddle(last Last) (Reading, bool) {
	q := m.of(ringSize)
	if last.Request != "saddle" || q == nil || len(m.found) != 1 || len(m.alloys) > 0 || m.words() > 7 || m.says("blank", "band", "shank blank", "wire") {
		return Reading{}, false
	}
	d := m.draftWith("saddle", last.Options)
	m.changeShank(d, q)
	return m.changedFrom(last, d), true
}
