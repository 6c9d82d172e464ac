package sentence

// Figures of a message that name what they measure by a part of the work and not by a word
// for a measure: the stone that came, the sprue that was forgotten.

// stoneMeasured takes a figure that is said of the stone and near its size for that: "stone
// came today, its 7.2".
func (m *message) stoneMeasured(last Last) (Reading, bool) {
	if !needsStone[last.Request] || len(m.found) != 1 || len(m.alloys) > 0 || !m.has("stone", "cab") || m.saysMeasure() || m.asksInWords() || m.words() > longestChange || m.says("second", "other", "another", "next", "new", "small", "side", "each", "not") {
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
