package sentence

import (
	"cmp"
	"fmt"
	"math"
	"strings"
)

// trials answers what is said of trial pieces in words: which corrections are kept,
// that one is to be forgotten, and one measure that came out wrong.
func (m *message) trials() (Reading, bool) {
	if r, ok := m.keptCorrections(); ok {
		return r, true
	}
	if r, ok := m.blankWasRight(); ok {
		return r, true
	}
	for _, read := range []func() (Reading, bool){m.sheetAsMeasured, m.outOfRound, m.trialDifference} {
		if r, ok := read(); ok {
			return r, true
		}
	}
	return m.coneOutOfSize()
}

// sheetAsMeasured answers "the sheet says 0.5 but it mikes at 0.46" where no piece
// is being worked out.
func (m *message) sheetAsMeasured() (Reading, bool) {
	marked, measured := m.markedAndMeasured()
	if marked == nil || measured == nil || marked.value == measured.value || math.Abs(marked.value-measured.value) > 0.3*marked.value || m.context.Last != nil && m.context.Last.Options["thickness"] != "" || len(m.found) > 2 {
		return Reading{}, false
	}
	difference := math.Abs(marked.value - measured.value)
	than, size := "thinner", "smaller"
	if measured.value > marked.value {
		than, size = "thicker", "larger"
	}
	return Reading{Outcome: Explanation, Topic: "trial piece", Source: "a closed strip is pi x (diameter + thickness) long in its middle",
		Text: fmt.Sprintf("Work with what you measured: %s mm. Sheet is sold within a tolerance, and yours is %.2f mm %s than marked, so the same blank closes to a piece that is %.2f mm %s across outside. Change the blank, not the sheet: ask again with thickness %s mm.",
			plain(measured.value), difference, than, difference, size, plain(measured.value))}, true
}

// blankWasRight answers "the blank was cut right", said of a trial that came out
// wrong.
func (m *message) blankWasRight() (Reading, bool) {
	if !m.says("blank was cut", "cut the blank right", "blank was right", "blank was spot on", "blank measured right", "blank is right", "checked the blank", "checked it against the print", "matches the print") || len(m.found) > 0 {
		return Reading{}, false
	}
	return Reading{Outcome: Explanation, Topic: "trial piece", Source: "common practice, no source",
		Text: "If the blank was right as printed and cut, the difference comes from the sheet or from forming: measure the sheet with a micrometer, because a thinner one closes to a smaller piece outside, and look whether the edges met without a gap when you closed the seam. Measure the length of the bar on the print as well. Where all three are right, keep the difference as a correction with tune, and form the next one the same way."}, true
}

// keptCorrections shows or drops what tune keeps.
func (m *message) keptCorrections() (Reading, bool) {
	if !m.says("=correction", "=corrections", "trial result", "=tuning") || m.says("answer", "say about", "said about", "=corrected") || m.has("wax") || len(m.meaning("outline:")) > 0 || m.stoneSides() != nil {
		return Reading{}, false
	}
	d := m.draft("tune")
	switch {
	case m.says("forget", "drop", "delete", "ignore", "remove", "clear", "undo", "scrap", "cancel", "throw away", "take out", "dont use", "stop using"):
		d.say("action", "drop")
	case m.says("which", "what", "show", "list", "do you have", "are you keeping", "kept", "remembered"):
		d.say("action", "show")
	default:
		return Reading{}, false
	}
	for _, q := range m.found {
		if before := m.at(q.first - 1).text; before == "correction" || before == "number" || before == "no" || before == "#" {
			d.set("id", q)
		}
	}
	return d.reading(), true
}

// trialDifference tells by how much the next blank changes where one measure of a
// trial came out wrong: "came out 6.3 across the top, wanted 6.6". The rim's edge
// changes by pi times the difference across, whatever the outline.
func (m *message) trialDifference() (Reading, bool) {
	trial := m.has("trial") || m.says("first go", "first try", "second go", "test one", "practice one", "pressed piece", "formed piece", "came out", "came up", "off your blank", "from your blank", "after pressing", "after forming") || m.says("collet", "cone", "collar", "cylinder") && m.says("should have been", "shouldve been", "should of been")
	pressed := m.says("pressing", "pressed", "cylinder", "collar") // whose strip is spoken of, as is a bezel's
	if !trial || m.has("bezel", "ring", "wax", "cab", "bangle", "hoop") || m.has("strip") && !pressed || m.cues["melt"] > 0 || m.context.Last != nil && m.context.Last.Request == "bezel" {
		return Reading{}, false
	}
	got, wanted := m.gotAndWanted()
	difference := 0.0
	switch {
	case got != nil && wanted != nil && got.value != wanted.value && math.Abs(got.value-wanted.value) <= 0.25*wanted.value:
		difference = wanted.value - got.value
	default:
		q := m.tooMuch()
		if q == nil || q.value > 3 || m.has("length") || m.says("length", "long", "lenght", "ends meet", "the seam", "the join", "the ends") { // along the edge, and not across
			return Reading{}, false
		}
		difference, got, wanted = q.value, nil, nil
		if w := m.between(q.next, q.next+3); strings.Contains(w, "long") || strings.Contains(w, "big") || strings.Contains(w, "tall") || strings.Contains(w, "high") || strings.Contains(w, "wide") || strings.Contains(w, "over") {
			difference = -difference
		}
	}
	keep, ofHeight := "", m.says("high", "height", "tall", "short in height", "low") && !m.says("top", "rim", "across")
	if ofHeight {
		keep = m.offBeside(got, wanted)
	}
	if others := m.lengthsBut(map[*quantity]bool{got: true, wanted: true}); others != "" && got != nil && keep == "" {
		keep = " I took " + strings.TrimSpace(got.typed(m)) + " and " + strings.TrimSpace(wanted.typed(m)) + " for it; the rest (" + others + ") is for tune."
	}
	keep += changeOneThing + " " + keepIt
	if ofHeight {
		return Reading{Outcome: Explanation, Topic: "trial piece", Source: "common practice, no source",
			Text: changeOf("height", difference) + keep}, true
	}
	if m.cues["dome"] >= 3 && got != nil && wanted != nil {
		return Reading{Outcome: Explanation, Topic: "trial piece", Source: "a dome and its disc grow alike",
			Text: fmt.Sprintf("The trial dome came out %s mm for %s mm: make the next disc %.3f times as wide, %.1f %% %s, with the same doming block and the same number of rounds.%s", plain2(got.value), plain2(wanted.value), wanted.value/got.value, 100*math.Abs(wanted.value/got.value-1), map[bool]string{true: "larger", false: "smaller"}[wanted.value > got.value], m.nextDisc(got, wanted))}, true
	}
	return nextBlank(changeOf(m.endOffBy(cmp.Or(got, m.tooMuch())), difference) + keep)
}

// endOffBy is the end of a trial piece that a figure is told of: the only one that is named, or
// the last that is named before the figure, "rim spot on, but the base is 0.3 too small".
func (m *message) endOffBy(off *quantity) string {
	base := m.says("base", "bottom", "foot")
	if base && m.says("top", "rim", "mouth") && off != nil {
		for i := off.first - 1; i >= 0; i-- {
			switch m.at(i).text {
			case "base", "bottom", "foot":
				return "base"
			case "top", "rim", "mouth":
				return "rim"
			}
		}
	}
	if base && !m.says("top", "rim", "mouth") {
		return "base"
	}
	return "rim"
}

// offBeside tells how the blank changes by what else was off in a report of two figures.
func (m *message) offBeside(got, wanted *quantity) string {
	text := ""
	for _, q := range m.found {
		if q == got || q == wanted || got == nil || q.measure != length && q.measure != bare || q.value > mostOff {
			continue
		}
		if change, ok := m.offBy(q); ok {
			text += " " + change
		}
	}
	return text
}

// outOfRound answers what to do with a setting that measures more one way than the other.
func (m *message) outOfRound() (Reading, bool) {
	if !m.says("one way", "in one direction", "this way") || !m.says("the other", "other way", "that way") || !m.says("oval", "out of round", "not round", "egg", "should be round") || m.has("bangle", "hoop", "wax") || m.of(ringSize) != nil {
		return Reading{}, false
	}
	var two []*quantity
	for _, q := range m.found {
		if plainMM(q) {
			two = append(two, q)
		}
	}
	if len(two) != 2 || !nearPlan(two[0], two[1]) {
		return Reading{}, false
	}
	return Reading{Outcome: Explanation, Topic: "trial piece", Source: "an outline that is bent keeps its length; the rest: common practice, no source",
		Text: fmt.Sprintf("It is the forming, not the blank: pressed out of round, an edge keeps its length, so yours makes a round of about %s, the mean of both. Anneal it, true it on a round mandrel with a mallet, turning it as you go, and measure again. Change the blank only if the round then is off.", mm((two[0].value+two[1].value)/2))}, true
}

// coneOutOfSize asks what a cone measured that is only said to be too large or too small.
func (m *message) coneOutOfSize() (Reading, bool) {
	if m.context.Last != nil || m.context.Asked != nil || !m.says("cone", "collet", "tapered setting") || !m.says("came out", "come out", "ended up", "turned out") || !m.says("too big", "too large", "too small", "too wide", "too narrow", "too tight", "too loose", "falls through", "falls right through") || len(m.found) == 0 || m.ofAnotherTrial() || m.says("blank") {
		return Reading{}, false
	}
	roles := m.trialRoles()
	for _, q := range m.found {
		switch role, chance := m.likelyRole("tune", q); {
		case q.measure == gauge:
			roles[q] = "thickness"
		case chance >= perhapsRole:
			roles[q] = role
		}
	}
	r := m.askOfTrial(roles)
	return r, r.Outcome == Question && r.Unplaced == ""
}

// gotAndWanted are the measure of a trial and what it should be.
func (m *message) gotAndWanted() (got, wanted *quantity) {
	for _, q := range m.found {
		if q.measure != length && q.measure != bare {
			continue
		}
		before := " " + m.between(max(0, q.first-4), q.first) + " "
		if lead := m.at(q.first - 1).text; got == nil && (lead == "got" || lead == "made" || lead == "gave") {
			got = q
			continue
		}
		switch {
		case strings.Contains(before, "wanted ") || strings.Contains(before, "aimed ") || strings.Contains(before, "aim ") || strings.Contains(before, "aiming ") || strings.Contains(before, "should ") || strings.Contains(before, "instead of ") || strings.Contains(before, "target ") || strings.Contains(before, "supposed ") || strings.Contains(before, "needed ") || strings.Contains(before, "not the "):
			if wanted == nil {
				wanted = q
			}
		case got == nil && (strings.Contains(before, "came out") || strings.Contains(before, "came to ") || strings.Contains(before, "came up") || strings.Contains(before, "measure") || strings.Contains(before, "ended up") || strings.Contains(before, "turned out")):
			got = q
		}
	}
	return got, wanted
}

// tooMuch is the figure of "0.3 too short", "out by 0.4".
func (m *message) tooMuch() *quantity {
	for _, q := range m.found {
		if q.measure != length && q.measure != bare {
			continue
		}
		switch m.at(q.next).text {
		case "too", "short", "over", "under", "long", "out":
			return q
		}
		if m.at(q.first-1).text == "by" && m.at(q.first-2).text != "x" {
			return q
		}
	}
	return nil
}

// nextDisc says how wide the next disc is where the trial's disc is told too.
func (m *message) nextDisc(got, wanted *quantity) string {
	var disc *quantity
	for _, q := range m.lengths() {
		if q == got || q == wanted || q.value < max(got.value, wanted.value) || q.value > 2*max(got.value, wanted.value) {
			continue
		}
		if disc != nil {
			return ""
		}
		disc = q
	}
	if disc == nil {
		return ""
	}
	return fmt.Sprintf(" From your disc of %s that is %s.", mm(disc.value), mm(math.Round(10*disc.value*wanted.value/got.value)/10))
}
