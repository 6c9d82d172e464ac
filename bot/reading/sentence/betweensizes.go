package sentence

import "slices"

// Two sizes of one ring may be told that are not the old and the new one by their order: a
// ring came out as one and was meant to be the other, or a finger is between two.

// resultWords lead to the size that a ring turned out.
var resultWords = []string{"came", "comes", "coming", "turned", "turns", "finished", "finishes", "ended", "measures", "measured"}

// aimWords lead by "for" to the size that a ring was meant to be.
var aimWords = []string{"made", "make", "cut", "meant", "intended", "supposed", "was"}

// isResult reports whether a size is what a ring turned out: "came out a P half".
func (m *message) isResult(q *quantity) bool {
	for i := q.first - 1; i >= max(0, q.first-5); i-- {
		if m.at(i).text == "." || m.ofSizeAt(i) || slices.Contains(wantedIt, m.at(i).text) {
			return false
		}
		if slices.Contains(resultWords, m.at(i).text) {
			return true
		}
	}
	return false
}

// isAim reports whether a ring was made for a size: "cut for N", "was meant to be a P".
func (m *message) isAim(q *quantity) bool {
	for i := q.first - 1; i >= max(0, q.first-7); i-- {
		if m.at(i).text == "." || m.ofSizeAt(i) {
			return false
		}
		w := m.at(i).text
		if w == "made" && i >= q.first-3 || w == "for" && m.saysOneBetween(i-4, i, aimWords...) || slices.Contains(wantedIt, w) {
			return true
		}
	}
	return false
}

// cameOutOther reads a resizing where a ring came out another size than it was made for.
func (m *message) cameOutOther(r Reading) (Reading, bool) {
	if r.Outcome == Request && r.Request != "resize" || m.says(severalSizes...) || m.says(nextTime...) || m.says("you said", "correct it", "print", "came back") || m.has("tube") || m.namesOtherPiece() || m.chance("resize", "tune", "explain", "band", "trouble") < ringPerhaps || !m.canAnswer("resize") {
		return Reading{}, false
	}
	all := m.sizesLikely(mayBeSize)
	if len(all) != 2 || !agree(all[0], all[1]) || sizeKind(all[0]) == acrossSize || all[0].shown == all[1].shown {
		return Reading{}, false
	}
	m.find(all...)
	from, to := all[0], all[1]
	switch a, b := m.isResult(from), m.isResult(to); {
	case a && b:
		return Reading{}, false
	case !a && !b:
		from, to = m.fromAims(from, to)
	case b:
		from, to = to, from
	}
	told := from != nil && (m.isResult(from) && (m.isAim(to) || r.Request == "resize") || m.isAim(to) && r.Outcome != Request && m.speaksOfRings())
	if !told {
		return Reading{}, false
	}
	m.asSizes(from, to)
	resizing := m.resize()
	return resizing, resizing.Outcome == Request
}

// fromAims are the old and the new size where just one of two was aimed at, nil where not.
func (m *message) fromAims(a, b *quantity) (from, to *quantity) {
	switch first, second := m.isAim(a), m.isAim(b); {
	case first && !second:
		return b, a
	case second && !first:
		return a, b
	}
	return nil, nil
}

// betweenSizes reads the ring of a finger that is between two sizes, where the size that is
// settled on is told: "between O and P, wants O half".
func (m *message) betweenSizes(r Reading) (Reading, bool) {
	if r.Outcome == Request && r.Request != "resize" || !m.says("between", "inbetween") || m.says("resize", "difference", "tubes", "stones", "stretch", "enlarge") || !m.canAnswer("band") {
		return Reading{}, false
	}
	settled, ok := m.settledBetween()
	if !ok {
		return Reading{}, false
	}
	m.oldSize, m.newSize = nil, nil
	settled.becomeSize(false)
	if settled.measure != ringSize {
		settled.measure, settled.unit = ringSize, true
	}
	m.take(settled)
	m.find(settled)
	band := m.band()
	return band, band.Outcome == Request || band.Missing == "thickness"
}

// settledBetween drops the two sizes that stand behind "between", and is the one size that
// is told besides.
func (m *message) settledBetween() (settled *quantity, ok bool) {
	at := slices.IndexFunc(m.tokens, func(t token) bool { return t.text == "between" || t.text == "inbetween" })
	if at < 0 {
		return nil, false // it stands within another word
	}
	end := at + 1
	for end < len(m.tokens) && end < at+8 && m.at(end).text != "and" && m.at(end).text != "&" && m.at(end).text != "n" {
		end++
	}
	end += 1
	for end < len(m.tokens) && (m.at(end).text == "a" || m.at(end).text == "an" || m.at(end).text == "size") {
		end++
	}
	if m.at(end).number || len(m.at(end).text) == 1 {
		end++
	}
	if m.at(end).value == 0.5 {
		end++
	}
	m.found = slices.DeleteFunc(m.found, func(q *quantity) bool { return q.first > at && q.first < end })
	for i := at; i < min(end, len(m.taken)); i++ {
		m.taken[i] = true
	}
	for _, q := range m.sizesOrLetters() {
		if q.first < end && q.first > at || sizeKind(q) == "" || q.role == "width" || q.role == "thickness" || q.measure == length {
			continue
		}
		led := m.saysOneBetween(q.first-5, q.first, "wants", "want", "so", "make", "say", "go", "going", "with", "took", "take", "settle", "settled", "for", "use", "need", "needs")
		if !led || settled != nil {
			continue
		}
		settled = q
	}
	return settled, settled != nil
}

// sizesOrLetters are the figures and the letters or words that may be sizes.
func (m *message) sizesOrLetters() []*quantity {
	return append(slices.Clone(m.found), m.sizesInWords()...)
}
