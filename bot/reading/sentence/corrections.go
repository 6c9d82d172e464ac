package sentence

import (
	"slices"
	"strings"
)

// mendWords begin what replaces the words before them: "sterling, sorry I meant
// copper". Weak ones do so only right before a figure like one before.
var mendWords = []struct {
	words []string
	weak  bool
}{
	{[]string{"i", "meant"}, false}, {[]string{"i", "mean"}, false}, {[]string{"no", "wait"}, false}, {[]string{"wait", "no"}, false},
	{[]string{"scratch", "that"}, false}, {[]string{"correction"}, false}, {[]string{"make", "that"}, false}, {[]string{"no", "hang", "on"}, false},
	{[]string{"or", "rather"}, false}, {[]string{"actually", "make", "it"}, false}, {[]string{"no", "make", "it"}, false}, {[]string{"sorry", "make", "it"}, false}, {[]string{"no", "actually"}, true}, {[]string{"actually", "no"}, true}, {[]string{"no", "sorry"}, true}, {[]string{"hang", "on"}, false}, {[]string{"call", "it"}, false}, {[]string{"call", "that"}, false}, {[]string{"oops"}, false},
	{[]string{"ignore", "that"}, false}, {[]string{"lets", "say"}, false}, {[]string{"sorry"}, true}, {[]string{"actually"}, true}, {[]string{"no"}, true}, {[]string{"wait"}, true},
}

// mend takes out what the message itself takes back: "not 20 ga", and what
// stands before "sorry, I meant". Each is told in a note.
func (m *message) mend() {
	m.takeBackDenied()
	for i := range m.tokens {
		for _, w := range mendWords {
			if i > 0 && m.saysAtToken(i, w.words) {
				m.replaceBefore(i, i+len(w.words), w.weak)
				break
			}
		}
	}
}

func (m *message) saysAtToken(i int, words []string) bool {
	for k, w := range words {
		if m.at(i+k).text != w {
			return false
		}
	}
	return true
}

// takeMeasuredSheet drops what a sheet is sold as where the maker measured it:
// "the sheet says 0.5 but it mikes at 0.46".
func (m *message) takeMeasuredSheet() {
	marked, measured := m.markedAndMeasured()
	if marked == nil || measured == nil || m.context.Last == nil || m.context.Last.Options["thickness"] == "" {
		return
	}
	measured.measure, measured.unit, measured.role = length, true, "thickness"
	measured.shown = strings.TrimSuffix(measured.shown, "mm") + "mm"
	m.assume("%s is left out, since you measured the sheet", strings.TrimSpace(marked.typed(m)))
	m.found = slices.DeleteFunc(m.found, func(q *quantity) bool { return q == marked })
}

// markedAndMeasured are the thickness that a sheet is sold as and the one measured,
// nil where the message doesn't tell both.
func (m *message) markedAndMeasured() (marked, measured *quantity) {
	if !m.says("sheet", "metal", "stock", "strip", "wire", "label", "packet") {
		return nil, nil
	}
	for _, q := range m.found {
		if q.value <= 0 || q.value > 5 || q.measure != length && q.measure != bare {
			continue
		}
		first := max(0, q.first-4)
		switch {
		case m.saysOneBetween(first, q.first, "says", "said", "marked", "sold", "labelled", "labeled", "nominally", "supposed"):
			marked = q
		case m.saysOneBetween(first, q.first, "mikes", "miked", "measures", "measured", "micrometer", "calipers", "callipers", "really", "actually"):
			measured = q
		}
	}
	return marked, measured
}

// takeBackDenied drops figures and metals after "not" and "instead of".
func (m *message) takeBackDenied() {
	m.found = slices.DeleteFunc(m.found, func(q *quantity) bool {
		denied := m.denied(q.first) && q.measure != count && !m.saysPlan(q)
		if denied {
			if before := m.beforeNot(q); before != nil && before.measure == bare {
				before.measure, before.unit = q.measure, q.unit // "28 not 26 gauge"
				if q.measure == gauge {
					before.shown += "ga"
				}
			}
			m.assume("%s is left out, since you said not that", strings.TrimSpace(q.typed(m)))
		}
		return denied
	})
	m.alloys = slices.DeleteFunc(m.alloys, func(a *metal) bool {
		return len(m.alloys) > 1 && m.denied(a.first)
	})
	m.withoutReach()
	m.withoutBlock()
	m.unsayGuess()
	for i := range m.senses {
		if s := &m.senses[i]; (m.denied(s.first) || m.forgotten(s)) && (len(s.Cues) > 0 || s.outline() != "") {
			for k := range m.senses[:i] { // said before, and now forgotten
				if old := &m.senses[k]; m.forgotten(s) && slices.Equal(old.Say, s.Say) {
					m.unsay(old)
				}
			}
			m.unsay(s)
		}
	}
}

// withoutReach takes out how far a mandrel goes: "my mandrel only goes to size 13".
func (m *message) withoutReach() {
	m.found = slices.DeleteFunc(m.found, func(q *quantity) bool {
		lead := m.between(max(0, q.first-3), q.first)
		reach := q.measure == ringSize && (strings.HasSuffix(lead, "goes to") || strings.HasSuffix(lead, "goes up to") || strings.HasSuffix(lead, "stops at") || strings.HasSuffix(lead, "ends at"))
		if reach {
			m.assume("%s is left out, since it is only how far your tool goes", strings.TrimSpace(q.typed(m)))
		}
		return reach
	})
}

// unsayGuess takes out an outline that is only asked about of the blank: "is it a
// disc or a rectangle?"
func (m *message) unsayGuess() {
	named := m.meaning("outline:")
	if len(named) < 2 {
		return
	}
	for i := range m.senses {
		s := &m.senses[i]
		if s.outline() == "" || s.outline() == named[0] {
			continue
		}
		before := m.between(max(0, s.first-3), s.first)
		if strings.HasSuffix(before, "is it a") || strings.HasSuffix(before, "or a") || strings.HasSuffix(before, "just a") {
			m.unsay(s)
		}
	}
}

// withoutBlock takes out a block or a press that the maker says not to have.
func (m *message) withoutBlock() {
	for i := range m.senses {
		s := &m.senses[i]
		if s.Cues["collar"] == 0 || m.at(s.first).text == "collar" || m.at(s.first).text == "pressure" { // "no pressure!"
			continue
		}
		before := m.between(max(0, s.first-4), s.first) + " "
		for _, lack := range []string{"no ", "without ", "without a ", "without my ", "dont have a ", "dont have ", "havent got a ", "havent a ", "have not got a ", "not got a ", "dont own a ", "no access to a "} {
			if strings.HasSuffix(" "+before, " "+lack) {
				m.unsay(s)
				m.assume("worked out without a %s", m.between(s.first, s.next))
				break
			}
		}
	}
}

// beforeNot is the figure right before the "not" that denies another.
func (m *message) beforeNot(q *quantity) *quantity {
	for _, other := range m.found {
		if other.next == q.first-1 && m.at(other.next).text == "not" && (q.measure == gauge || q.measure == bare) {
			return other
		}
	}
	return nil
}

// denied reports whether "not", "not a", "not in", "instead of" or "rather than"
// stands before i.
func (m *message) denied(i int) bool {
	i--
	if i > 1 {
		switch m.at(i).text {
		case "a", "an", "the", "in", "my", "straight", "plain", "for", "from":
			i--
		}
	}
	if m.at(i).text == "the" {
		i--
	}
	before := m.at(i - 1).text
	switch m.at(i).text {
	case "not", "isnt", "arent", "wasnt":
		return before != "why" && before != "or" && before != "if" && before != "whether" && before != "is" && before != "could"
	case "without":
		return true
	case "of":
		return before == "instead"
	case "than":
		return before == "rather"
	}
	return false
}

// forgotten reports whether "forget the wax" takes a phrase back, which is not said
// of what guildhand keeps.
func (m *message) forgotten(s *sense) bool {
	before := m.at(s.first - 1).text
	if before == "the" || before == "about" {
		before = m.at(s.first - 2).text
	}
	return (before == "forget" || before == "ignore") && s.Cues["bench"] == 0 && s.Cues["tune"] == 0 && s.Cues["daybook"] == 0 && len(m.found) > 0
}

// unsay takes a phrase's meaning and its cues out of the message.
func (m *message) unsay(s *sense) {
	for job, weight := range s.Cues {
		m.cues[job] -= weight
	}
	s.Term = &Term{Say: s.Say}
}

// outline is the outline that a phrase names, empty for none.
func (s *sense) outline() string {
	for _, means := range s.Means {
		if o, ok := strings.CutPrefix(means, "outline:"); ok {
			return o
		}
	}
	return ""
}

// replaceBefore drops what stands before first and is said anew after next: a
// figure of the same kind and much the same value, a metal, an outline, a job.
func (m *message) replaceBefore(first, next int, weak bool) {
	for _, q := range m.found {
		if q.first < next || q.first > next+4 || weak && q.first > next+2 {
			continue
		}
		if q.mends {
			return
		}
		if old := m.lastLike(q, first); old != nil {
			if q.measure == ringSize && m.says("made it", "came out", "it was", "its marked", "stamped") && m.says("hes", "shes", "im", "he is", "she is", "takes") {
				continue // the ring's size and its wearer's
			}
			if old.measure == gauge && q.measure == bare {
				q.measure, q.unit, q.shown = gauge, true, q.shown+"ga"
			}
			m.assume("%s replaces %s, as you corrected it", strings.TrimSpace(q.typed(m)), strings.TrimSpace(old.typed(m)))
			m.found = slices.DeleteFunc(m.found, func(other *quantity) bool { return other == old })
			q.mends = true
		}
		break
	}
	for _, a := range m.alloys {
		if a.first >= next && a.first <= next+2 {
			m.alloys = slices.DeleteFunc(m.alloys, func(other *metal) bool { return other.next <= first })
			break
		}
	}
	if !weak {
		m.replaceSenses(first, next)
	}
}

// lastLike is the last figure before a token that q can stand in for.
func (m *message) lastLike(q *quantity, before int) *quantity {
	for k := len(m.found) - 1; k >= 0; k-- {
		old := m.found[k]
		if old.next > before {
			continue
		}
		sameKind := old.measure == q.measure || old.measure == bare && q.measure == length || old.measure == length && q.measure == bare || old.measure == gauge && q.measure == bare && q.value >= 8 && q.value == float64(int(q.value))
		if !sameKind || old.thing != q.thing && q.measure == count {
			continue
		}
		if q.measure == ringSize || q.measure == count || old.value <= 2.2*q.value && q.value <= 2.2*old.value {
			return old
		}
		return nil
	}
	return nil
}

func (m *message) replaceSenses(first, next int) {
	for i := range m.senses {
		s := &m.senses[i]
		if s.first < next || s.first > next+3 {
			continue
		}
		for k := range m.senses[:i] {
			old := &m.senses[k]
			if old.next > first {
				continue
			}
			if s.outline() != "" && old.outline() != "" || strongest(s.Cues) >= 3 && strongest(old.Cues) >= 3 {
				m.unsay(old)
			}
		}
	}
}

func strongest(cues map[string]int) int {
	most := 0
	for _, weight := range cues {
		most = max(most, weight)
	}
	return most
}

// sidesApart joins "oval 18 13", two bare numbers side by side behind an outline that
// has two sides.
func (m *message) sidesApart() {
	m.sidesRoundOutline()
	m.sidesOneWayAndOther()
	for k := 0; k+1 < len(m.found); k++ {
		a, b := m.found[k], m.found[k+1]
		if a.measure != bare || b.measure != bare || a.next != b.first || b.value > a.value || 4*b.value < a.value || a.other != nil || !m.twoSided() {
			continue
		}
		a.measure, a.sides = size, []float64{a.value, b.value}
		m.assume("%s %s is read as %s x %s", a.shown, b.shown, a.shown, b.shown)
		a.shown, a.next = a.shown+"x"+b.shown, b.next
		m.found = slices.Delete(m.found, k+1, k+2)
		return
	}
}

// sidesOneWayAndOther joins "12.1 mm one way and 11.9 the other".
func (m *message) sidesOneWayAndOther() {
	if m.says(cameOut...) {
		return // what a trial measured
	}
	for k := 0; k+1 < len(m.found); k++ {
		a, b := m.found[k], m.found[k+1]
		if a.measure != bare && a.measure != length || b.measure != bare && b.measure != length || !m.saysOneBetween(a.next, b.first, "way", "direction") || !m.saysBetween(a.next, b.first, "one", "way", "direction", "in", "and", "by", "x", ",", "then") || !m.saysOneBetween(b.next, b.next+2, "other") {
			continue
		}
		long, wide := max(a.value, b.value), min(a.value, b.value)
		a.measure, a.sides, a.value = size, []float64{long, wide}, long
		a.shown, a.next = plain(long)+"x"+plain(wide), b.next
		m.found = slices.Delete(m.found, k+1, k+2)
		return
	}
}

// sidesRoundOutline joins "5 oval by 4".
func (m *message) sidesRoundOutline() {
	for k := 0; k+1 < len(m.found); k++ {
		a, b := m.found[k], m.found[k+1]
		if a.measure != bare && a.measure != length || b.measure != bare && b.measure != length || b.first-a.next != 2 || !m.outlineAt(a.next) || m.at(b.first-1).text != "by" && m.at(b.first-1).text != "x" {
			continue
		}
		a.measure, a.sides = size, []float64{a.value, b.value}
		a.shown, a.next = strings.TrimSuffix(a.shown, " mm")+"x"+strings.TrimSuffix(b.shown, " mm"), b.next
		m.found = slices.Delete(m.found, k+1, k+2)
		return
	}
}

// twoSided reports whether an outline is named that one number can't describe.
func (m *message) twoSided() bool {
	o := m.meaning("outline:")
	return len(o) > 0 && !oneSided[o[0]]
}

// ranges joins the two ends of "3-4 mm", "4 or 4.5" and "3 to 4 mm": the piece has
// one of them, and which is asked.
func (m *message) ranges() {
	for k := 0; k+1 < len(m.found); k++ {
		low, high := m.found[k], m.found[k+1]
		if !m.isRange(low, high) {
			continue
		}
		low.unit, low.measure = high.unit, high.measure
		if high.measure == length && high.shown != "" {
			unit := strings.TrimPrefix(high.shown, m.at(high.first).shown)
			if factor := high.value / m.at(high.first).value; factor > 0 && m.at(high.first).number {
				low.value *= factor
				low.shown += unit
			}
		} else if high.measure == gauge {
			low.shown = strings.TrimSuffix(low.shown, "ga") + "ga"
		}
		high.other = low
		high.first = low.first
		m.found = slices.Delete(m.found, k, k+1)
	}
}

// isRange matches two figures of one kind with "-", "or" or "to" between them and
// a unit at the second at most.
func (m *message) isRange(low, high *quantity) bool {
	if low.measure == count && low.thing == "prongs" && high.measure == bare && high.first-low.next == 2 && m.at(high.first-1).text == "or" { // "4 prongs or 6"
		high.measure, high.thing = count, low.thing
		return true
	}
	if high.first-low.next != 1 || low.measure != bare && low.measure != high.measure {
		return false
	}
	switch high.measure {
	case bare, length, gauge, angle, mass:
	case count:
		if low.measure != bare {
			return false
		}
	default:
		return false
	}
	if low.value == high.value || high.value > 3*low.value && low.measure != high.measure || !m.at(low.first).number || !m.at(high.first).number {
		return false
	}
	switch m.at(low.next).text {
	case "-":
		return low.value < high.value
	case "or":
		return high.measure != bare || low.measure == bare
	case "to":
		before := m.at(low.first - 1).text
		measured := high.measure != bare || m.besideRole(high, "depth", "height", "dome") || m.besideRole(low, "depth", "height", "dome")
		return before != "from" && before != "size" && measured && low.value < high.value && !m.has("convert", "resize")
	case "and":
		return m.at(low.first-1).text == "between" && !m.says("difference", "better", "thicker", "thinner")
	}
	return false
}
