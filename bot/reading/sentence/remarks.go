package sentence

import (
	"fmt"
	"maps"
	"strings"

	"guildhand/bot/reading/intent"
)

// Much of a talk changes nothing: a remark on the piece, a question whose figure is
// the piece's own, an offcut that is held against it. The piece is answered again
// with what there is to say.

// ownFigures reports whether a message has no figure, metal or outline but those of
// the piece.
func (m *message) ownFigures(piece Last) bool {
	for _, o := range m.meaning("outline:") {
		if o != piece.Options["outline"] {
			return false
		}
	}
	for _, a := range m.alloys {
		if a.key != piece.Options["alloy"] && !contains(a.among, piece.Options["alloy"]) {
			return false
		}
	}
	for _, q := range m.found {
		if !q.standsIn(piece) {
			return false
		}
	}
	return true
}

// remark answers the last piece again where a message speaks of it and brings nothing
// that changes it.
func (m *message) remark() (Reading, bool) {
	last := m.context.Last
	if last == nil || m.context.Asked != nil || m.context.Topic != "" || readersOf[last.Request] == nil || len(m.tokens) > 14 || !m.ownFigures(*last) || m.otherJob() || m.namesAnother(*last) || m.has("thanks", "greeting") || m.onlyChatter() || m.has("trouble") {
		return Reading{}, false
	}
	if m.says(mishaps...) || !m.tooShort() && m.chance(intent.Trouble) > mayBeTrouble || m.sizeLetter() != nil {
		return Reading{}, false
	}
	if len(m.senses)+len(m.found)+len(m.alloys) == 0 && !m.ofTrade() {
		return Reading{}, false
	}
	if len(m.found)+len(m.alloys) == 0 && m.looseWords() > 1 && !m.pointsBack() && !m.meansAnything() {
		return Reading{}, false
	}
	if m.asksInWords() && len(m.found)+len(m.alloys) == 0 && !m.says(measuresAsked...) {
		return Reading{}, false
	}
	r := Reading{Outcome: Request, Request: last.Request, Options: maps.Clone(last.Options), Notes: []string{fmt.Sprintf("that changes no figure of your %s, which stands as it was", nameOf(*last))}}
	return m.withVerdict(r), true
}

// meansAnything reports whether a word of the message means a thing of the trade. A
// measure's word alone, as in "a long walk home", does not.
func (m *message) meansAnything() bool {
	for i := range m.senses {
		if len(m.senses[i].Means)+len(m.senses[i].Cues) > 0 {
			return true
		}
	}
	return false
}

// mishaps are words of what went wrong or is being done, which says nothing of the
// piece's figures.
var mishaps = []string{"broke", "broken", "crooked", "gone", "snapped", "cracked", "wont", "came out", "fell", "slipped", "bent", "melted", "sawing", "soldering", "filing", "cutting", "making it", "off to", "now", "wonky", "loose", "stuck", "split", "ruined", "lost"}

// mayBeTrouble is the chance of a trouble over which a message is no mere remark.
const mayBeTrouble = 0.25

// ownVerdict says whether a figure that the last piece has will do: "is 0.25 thick enough".
func (m *message) ownVerdict(last Last) (Reading, bool) {
	if len(m.found) == 0 || len(m.tokens) > 14 || !m.asksWhether() || !m.ownFigures(last) || m.ownJob() || m.jobNamed() != "" || m.strays() {
		return Reading{}, false
	}
	r := Reading{Outcome: Request, Request: last.Request, Options: maps.Clone(last.Options)}
	r.Verdict = m.verdict(r)
	return r, r.Verdict != ""
}

// measuresAsked are words for figures and units that an answer has.
var measuresAsked = []string{"diameter", "circumference", "letter", "dwt", "pennyweight", "pennyweights", "fahrenheit", "f", "ounces", "ounce", "oz", "celsius", "join", "seam", "length", "button", "number"}

// fitsStock holds the last piece against a sheet or an offcut: "does it fit on an
// offcut 48 x 13?"
func (m *message) fitsStock(last Last) (Reading, bool) {
	if readersOf[last.Request] == nil || last.Request == "weigh" || last.Request == "match" || len(m.found) != 1 || m.found[0].measure != size || len(m.alloys) > 0 || len(m.tokens) > 16 || m.has("whichstone") || m.says("biggest", "largest", "what stone", "which stone") {
		return Reading{}, false
	}
	if !m.says("fit", "fits", "enough", "come out of", "comes out of", "get it out of", "big enough", "go on", "get that out of") || !m.has("offcut") && !m.says("offcut", "sheet", "piece", "bit", "strip", "scrap", "plate") {
		return Reading{}, false
	}
	q := m.found[0]
	q.used = true
	return Reading{Outcome: Request, Request: last.Request, Options: maps.Clone(last.Options), Notes: []string{fmt.Sprintf("hold the blank's overall length and width against your %s; a curved blank may fit turned a little, so lay the template on it", strings.TrimSpace(q.typed(m)))}}, true
}

// spokenFigure takes a number in words that is all the figure of a short follow-up:
// "so what about eight".
func (m *message) spokenFigure(last Last) {
	countsFirst := last.Request == "prongs" && numberWords[m.at(0).text] >= 3 && !m.asksInWords()
	if len(m.found) > 0 || m.words() > 5 && !countsFirst || m.words() > 9 || m.of(ringSize) != nil {
		return
	}
	for i := range m.tokens {
		v, next, ok := m.spokenNumber(i)
		if !ok || v < 2 || m.taken[i] || m.denied(i) || m.at(next).word() && !fillers[m.at(next).text] {
			continue
		}
		q := quantity{measure: bare, value: v, shown: plain(v), first: i, next: next}
		if last.Request == "prongs" && v >= 3 && v <= 12 {
			q.measure, q.thing = count, "prongs"
		}
		m.add(q)
		return
	}
}

// measuresSaid are the words by which a figure that comes later is meant: "bit tall,
// can it be 4".
var measuresSaid = map[string]string{"wide": "width", "width": "width", "narrow": "width", "tall": "height", "high": "height", "height": "height", "short": "height", "low": "height", "deep": "depth", "depth": "depth", "shallow": "depth", "thick": "thickness", "thickness": "thickness", "thin": "thickness"}

// FocusOf is the measure that a message speaks of without a figure, empty for none: the next
// message's figure may be it.
func FocusOf(typed string) string { return newMessage(typed).focusOf() }

// focusOf is the measure that a message speaks of without a figure of its own, empty
// for none.
func (m *message) focusOf() string {
	focus := ""
	for i, t := range m.tokens {
		role := measuresSaid[t.text]
		if role == "" {
			continue
		}
		for _, q := range m.found {
			if q.next == i || q.next == i-1 && !m.ends(i-1) || q.first == i+1 || q.first == i+2 && !m.ends(i+1) {
				role = "" // it has its figure
			}
		}
		if focus != "" && role != "" && focus != role {
			return ""
		}
		if role != "" {
			focus = role
		}
	}
	return focus
}

// ends reports whether the token at i ends a sentence.
func (m *message) ends(i int) bool {
	return m.at(i).text == "." || m.at(i).text == "?" || m.at(i).text == "!"
}

// saysMeasure reports whether a message has a word for a measure.
func (m *message) saysMeasure() bool {
	for _, t := range m.tokens {
		if measuresSaid[t.text] != "" {
			return true
		}
	}
	return false
}

// roleBeside reports whether a word for a measure stands beside a figure.
func (m *message) roleBeside(q *quantity) bool {
	for _, i := range []int{q.first - 1, q.first - 2, q.next, q.next + 1} {
		if measuresSaid[m.at(i).text] != "" {
			return true
		}
	}
	return false
}

// focused gives the one bare figure of a follow-up the measure that it, or the message
// before it, speaks of.
func (m *message) focused() {
	if len(m.found) != 1 || m.words() > 10 {
		return
	}
	q := m.found[0]
	if q.role != "" || q.measure != bare && q.measure != length || m.besideStone() != nil {
		return
	}
	role := m.focusOf()
	if role == "" && m.words() <= 5 && !m.saysMeasure() {
		role = m.context.Focus
	}
	if m.roleBeside(q) {
		return
	}
	if role != "" && m.likely(role, q) {
		q.role = role
	}
}
