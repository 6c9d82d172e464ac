package sentence

// mattersNot takes the figure of a measure that is asked about together with whether it
// matters: "does the width matter, its 6". What it changes, the answer shows.
func (m *message) mattersNot(last Last) (Reading, bool) {
	if len(m.found) != 1 || len(m.alloys) > 0 || m.words() > longestChange || !m.says("matter", "matters", "make a difference", "makes a difference", "affect it", "change anything", "change it") || m.says("stone", "which") {
		return Reading{}, false
	}
	role := ""
	for _, t := range m.tokens {
		if r := measuresSaid[t.text]; r != "" {
			role = r
		}
	}
	q := m.found[0]
	option := comparedOptions[last.Request][role]
	if option == "" || !m.context.takes(last.Request, option) || q.measure != bare && q.measure != length && q.measure != gauge || q.standsIn(last) {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	d.set(option, q)
	return m.changedFrom(last, d), true
}
