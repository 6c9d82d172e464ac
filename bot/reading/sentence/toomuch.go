package sentence

import "strings"

// A remark on a measure of the last piece tells which one the new figure is: "too tall. 4",
// "5 is too tall, make it 4.2", "narrower at the bottom, say 4 mm".

// degreeWords stand before a measure that is judged.
var degreeWords = map[string]bool{"too": true, "bit": true, "little": true, "rather": true, "quite": true, "so": true, "very": true, "awfully": true, "really": true, "pretty": true}

// judgedMeasures are the adjectives of a measure, with what they measure.
var judgedMeasures = map[string]string{"tall": "height", "high": "height", "low": "height", "wide": "width", "broad": "width", "narrow": "width", "thick": "thickness", "thin": "thickness", "chunky": "thickness", "heavy": "thickness", "flimsy": "thickness", "deep": "depth", "shallow": "depth", "flat": "height", "steep": "height"}

// remarkedOn takes the new figure of a message that finds a measure of the piece too much or
// too little. A figure that the piece has already is the one that is judged.
func (m *message) remarkedOn(last Last) (Reading, bool) {
	if len(m.found) == 0 || len(m.found) > 2 || len(m.alloys) > 0 || m.words() > longestChange || m.startsWith(askingWords...) && !m.startsWith("can we", "can you", "can it", "could it", "could you", "could we") {
		return Reading{}, false
	}
	option := comparedOptions[last.Request][m.roleJudged()]
	if option == "" || !m.context.takes(last.Request, option) || m.says("stone", "cab", "wire", "back", "plate", "seat", "or") {
		return Reading{}, false
	}
	q := m.onlyNew(last)
	if q == nil || q.measure != bare && q.measure != length && !(q.measure == gauge && option == "thickness") || q.role != "" {
		return Reading{}, false
	}
	if now := lengthOf(last.Options[option]); now > 0 && q.measure != gauge && (q.value > mostRemarked*now || now > mostRemarked*q.value) {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	m.useAll()
	d.set(option, q)
	r := m.changedFrom(last, d)
	if option == "thickness" {
		r = m.withVerdict(r)
	}
	return r, true
}

// mostRemarked is by how many times a measure that is found too much changes at most.
const mostRemarked = 3

// roleJudged is the measure that a message finds too much or too little, empty for none or
// for two.
func (m *message) roleJudged() (role string) {
	for i, t := range m.tokens {
		r := judgedMeasures[t.text]
		if r == "" || !degreeWords[m.at(i-1).text] {
			continue
		}
		if role != "" && role != r {
			return ""
		}
		role = r
	}
	return role
}

// onlyNew is the one figure of a message that the piece does not have, nil for none.
func (m *message) onlyNew(last Last) *quantity {
	var now *quantity
	for _, q := range m.found {
		if len(m.found) > 1 && q.standsIn(last) {
			continue
		}
		if now != nil {
			return nil
		}
		now = q
	}
	return now
}

// footWords name the lower end of a tapered setting.
var footWords = []string{"at the bottom", "at the base", "at the foot", "bottom", "base", "foot", "lower end", "small end"}

// narrowerFoot takes how wide a collet is at its foot, or asks for it: "and narrower at the
// bottom".
func (m *message) narrowerFoot(last Last) (Reading, bool) {
	if last.Request != "collet" && last.Request != "prongs" || len(m.found) > 1 || len(m.alloys) > 0 || m.words() > longestChange || !m.says(footWords...) || !m.says("narrower", "wider", "smaller", "bigger", "tighter", "slimmer", "broader", "narrow", "wide", "larger") || m.startsWith(askingWords...) && !m.startsWith("can it", "can you", "could it", "could you", "what if") || m.says("came out", "measured", "than") {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	if len(m.found) == 0 {
		d.say("taper", "base")
		if last.Options["outline"] == "round" {
			d.say("base", "round")
			d.question("basesize", "How wide shall the opening be at the bottom, in mm?")
		} else {
			d.say("base", last.Options["outline"])
			d.question("basesize", "How long and how wide shall the opening be at the bottom, in mm?")
		}
		return m.changedFrom(last, d), true
	}
	q := m.found[0]
	if q.measure != bare && q.measure != length && q.measure != size || q.measure != size && (q.value < 1.5 || q.value > 40) {
		return Reading{}, false
	}
	d.set("basesize", q)
	d.say("taper", "base")
	for _, other := range []string{"lean", "included", "apex"} {
		delete(d.options, other)
	}
	if q.measure != size {
		d.say("base", "round")
	}
	return m.changedFrom(last, d), true
}

// leastTaperSaid and mostTaperSaid bound a taper, in degrees included, that is said by the
// word alone.
const leastTaperSaid, mostTaperSaid = 6.0, 60.0

// taperChanged takes the angle to which a taper is changed: "reduce the taper to 17".
func (m *message) taperChanged(last Last) (Reading, bool) {
	if !m.context.takes(last.Request, "included") || len(m.found) != 1 || len(m.alloys) > 0 || m.words() > 8 || !m.says("the taper to", "taper down to", "the angle to", "taper of") || m.asksInWords() || m.says("mm", "wide", "bottom", "base", "foot") {
		return Reading{}, false
	}
	q := m.found[0]
	if q.measure != bare && q.measure != angle || q.value < leastTaperSaid || q.value > mostTaperSaid {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	for _, other := range []string{"lean", "basesize", "base", "taper", "apex"} {
		delete(d.options, other)
	}
	for i := range m.senses {
		if len(m.senses[i].Means) > 0 && strings.HasPrefix(m.senses[i].Means[0], "form:") {
			m.unsay(&m.senses[i]) // "taper to" tells of no shape here
		}
	}
	d.set("included", q)
	return m.changedFrom(last, d), true
}
