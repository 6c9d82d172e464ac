package sentence

import (
	"slices"
	"strings"
)

// Figures of a message that name what they measure by a part of the work and not by a word
// for a measure: the stone that came, the sprue that was forgotten.

// stoneMeasured takes a figure that is said of the stone and near its size for that: "stone
// came today, its 7.2".
func (m *message) stoneMeasured(last Last) (Reading, bool) {
	if !needsStone[last.Request] || len(m.found) != 1 || len(m.alloys) > 0 || !m.has("stone", "cab") || m.saysMeasure() || m.asksInWords() || m.words() > longestChange || m.says("second", "other", "another", "next", "new", "small", "side", "each", "not") || m.comparedMeasure(last.Request) != "" {
		return Reading{}, false
	}
	q := m.found[0]
	if q.measure != bare && q.measure != length || q.role != "" && q.role != "diameter" {
		return Reading{}, false
	}
	if option, ok := q.plainlyNear(last); !ok || option != "size" {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	d.set("size", q)
	return m.changedFrom(last, d), true
}

// partOfCasting takes the one weight of a message for the sprue or the button that it names:
// "i forgot the sprue, thats 0.2 g".
func (m *message) partOfCasting(last Last) (Reading, bool) {
	sprue, button := m.says("sprue", "sprues"), m.says("button")
	if last.Request != "melt" || len(m.found) != 1 || len(m.alloys) > 0 || sprue == button || m.says("wax with", "with sprue", "with the sprue", "including", "included", "without") || m.startsWith("why", "how", "is", "does", "should", "what") && !m.says("what if") {
		return Reading{}, false
	}
	option := "button"
	if sprue {
		option = "sprue"
	}
	q := m.found[0]
	if q.measure != mass && q.measure != bare || !m.context.takes(last.Request, option) || q.value <= 0 || !q.within(option) {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	d.set(option, q)
	return m.changedFrom(last, d), true
}

// within reports whether a figure's value may be that of an option.
func (q *quantity) within(option string) bool {
	values := likelyPlaces[option]
	return q.value >= values[0] && q.value <= values[1]
}

// comparedMeasure is the one measure of a piece, but for its size, that a message compares:
// "the stone's deeper than I thought".
func (m *message) comparedMeasure(request string) string {
	role := ""
	for _, t := range m.tokens {
		c, is := comparatives[t.text]
		if !is || c.role == "size" || c.role == "fit" || c.role == "length" || comparedOptions[request][c.role] == "" {
			continue
		}
		if role != "" && role != c.role {
			return ""
		}
		role = c.role
	}
	return role
}

// beforeCompared stand before a figure that tells the measure which a message compares.
var beforeCompared = wordSet(", . - : about to is s its now at say roughly around nearer be")

// comparedFigure takes the one figure of a message as the measure that its words compare: "the
// stone is deeper than usual, 5.9 mm".
func (m *message) comparedFigure(last Last) (Reading, bool) {
	option := comparedOptions[last.Request][m.comparedMeasure(last.Request)]
	if option == "" || option == "size" || readersOf[last.Request] == nil || len(m.found) != 1 || len(m.alloys) > 0 || m.asksInWords() || strings.Contains(m.typed, "?") || m.says("than the", "if", "or", "bottom", "base", "foot", "top", "rim", "tip", "tips", "end", "side") {
		return Reading{}, false
	}
	q := m.found[0]
	_, amounts := comparatives[m.at(q.next).text]
	if q.measure != bare && q.measure != length || amounts || !beforeCompared[m.at(q.first-1).text] || m.at(q.next).text == "more" || m.at(q.next).text == "less" || q.role != "" && comparedOptions[last.Request][q.role] != option || !q.mayFill(option) || !m.context.takes(last.Request, option) || !m.comparesRightly(last.Options[option], q) {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	d.set(option, q)
	r := m.changedFrom(last, d)
	return r, r.Outcome == Request && len(r.Changed) > 0
}

// comparesRightly reports whether a figure is more than what it takes the place of where the
// words say more, and less where they say less.
func (m *message) comparesRightly(before string, now *quantity) bool {
	known := lengthOf(before)
	if known == 0 {
		return true
	}
	return slices.ContainsFunc(m.tokens, func(t token) bool {
		c, is := comparatives[t.text]
		return is && (now.value > known) == (c.sign > 0)
	})
}
