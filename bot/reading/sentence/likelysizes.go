package sentence

import (
	"math"
	"slices"
	"strings"
)

// oldOrNew is how likely by the words round it a figure must be the ring's old or new
// size, to be one of them.
const oldOrNew = 0.85

// plainRing reads the job on a ring that all words ask for.
func (m *message) plainRing(r Reading) (Reading, bool) {
	if resizing, ok := m.plainResizing(r); ok {
		return resizing, true
	}
	return m.plainSaddle(r)
}

// perhapsResizing is the chance of a resizing from which two sizes that surely are the
// old and the new one make it one, where nothing else was found.
const perhapsResizing = 0.15

// plainResizing reads a change of ring size where all words ask for one, whatever the
// rules found. The new size at least must be known.
func (m *message) plainResizing(r Reading) (Reading, bool) {
	if r.Request == "resize" || r.Outcome == FirstAid || r.Outcome == Declined || m.keepsFromSizing(r.Topic) || !m.canAnswer("resize") || m.widerSize() || m.bySeason() {
		return Reading{}, false
	}
	m.bindRoles()
	m.release()
	asked := m.asksToResize(r) || m.showsResizing(r)
	if !asked && !m.joinsOldAndNew(r) {
		return Reading{}, false
	}
	resizing := m.resize()
	return m.withVerdict(resizing), asked || resizing.Outcome == Request
}

// keepsFromSizing reports whether a topic says what a resizing must not do, and stands before
// it: what is no topic of resizing, or only says how often it may be done, does not.
func (m *message) keepsFromSizing(topic string) bool {
	fact := factNamed(topic)
	if fact != nil && !fact.Warns && (fact.Of != "resize" && fact.Of != "" || topic == "how often can a ring be sized") {
		return false
	}
	return standsFast(topic)
}

// asksToResize reports whether all words ask for a resizing and tell enough of the
// sizes.
func (m *message) asksToResize(r Reading) bool {
	certainly := plainly
	if r.Outcome == Question || r.Outcome == Unknown {
		certainly = saidOutside
	}
	if wanted, chance := m.likeliest(); wanted != "resize" || chance < certainly {
		return false
	}
	from, to := m.likelySizes()
	steps, _ := m.sizeSteps()
	switch {
	case to != nil && from != nil:
		return true
	case m.chance(intentsOf(r)...) > hardlySo:
		return false
	case to != nil && r.Outcome != Explanation:
		return true
	}
	return steps > 0 && (from != nil || r.Outcome == Question && r.Request == "band")
}

// showsResizing reports whether a message for which no reading was found tells two
// sizes of a ring for certain, so that only a resizing can be meant: "6 to 7, 3.2x1.4",
// "ring's a 7, I'm a 9".
func (m *message) showsResizing(r Reading) bool {
	nothing := r.Outcome == Unknown || r.Outcome == Question && (r.Unplaced != "" || r.Request == "")
	if _, chance := m.likeliest(); !nothing || chance >= sure || m.chance("resize") < perhapsResizing || m.namesOtherPiece() || m.has("convert") || m.says(weaves...) {
		return false
	}
	from, to := m.oldAndNew(likelyRole)
	if from == nil || to == nil || from.shown == to.shown || isAcross(from) || isAcross(to) || m.between(from.next, to.first) != "to" && !m.speaksOfRings() {
		return false
	}
	m.asSizes(from, to)
	return true
}

// namesOtherPiece reports whether a piece is named that is no ring.
func (m *message) namesOtherPiece() bool {
	for _, piece := range []string{"collet", "collar", "bezel", "prongs", "dome", "melt", "bangle", "hoop", "kit", "jumpring", "tubeset", "halo", "saddle"} {
		if m.cues[piece] >= plainlyNamed {
			return true
		}
	}
	return len(m.meaning("outline:")) > 0
}

// likelySizes reads the old and the new size of a ring by the words round them where
// all words ask for a resizing: "it's a 9, should be 10.25", "H to N", "six to seven".
// Each is nil where none is told for certain.
func (m *message) likelySizes() (from, to *quantity) {
	if m.oldSize != nil && m.newSize != nil {
		return m.oldSize, m.newSize
	}
	if wanted, chance := m.likeliest(); wanted != "resize" || chance < sure {
		return nil, nil
	}
	from, to = m.oldAndNew(oldOrNew)
	m.asSizes(from, to)
	return from, to
}

// plainSaddle reads a setting's base cut to sit on a ring where all words ask for that,
// whatever the rules found, and the ring's size is told.
func (m *message) plainSaddle(r Reading) (Reading, bool) {
	wanted, chance := m.likeliest()
	if wanted != "saddle" || chance < plainly || r.Request == "saddle" || r.Outcome == FirstAid || r.Outcome == Declined || standsFast(r.Topic) || m.chance(intentsOf(r)...) > hardlySo {
		return Reading{}, false
	}
	m.bindRoles()
	m.release()
	if m.likelyShank(); m.of(ringSize) == nil {
		return Reading{}, false
	}
	saddle, ok := m.saddle()
	return saddle, ok && (r.Outcome != Explanation || saddle.Outcome == Request)
}

// likelyShank reads the size of the ring that a setting sits on by the words round it:
// "on 7", "scribed to P".
func (m *message) likelyShank() { m.likelyRing("saddle", "shank") }

// likelyRing reads the size of the ring that a request is for by the words round it,
// where all words ask for that request and no size is named as one.
func (m *message) likelyRing(request, option string) {
	if wanted, chance := m.likeliest(); wanted != request || chance < sure || m.of(ringSize) != nil || m.says("european", "continental", "inch", "inches") {
		return
	}
	found := m.found
	m.found = append(slices.Clone(found), m.sizesInWords()...)
	slices.SortFunc(m.found, func(a, b *quantity) int { return a.first - b.first })
	ring := m.likelySize(request, option, likelyRole)
	if ring != nil && sizeKind(ring) == roundSize && (ring.measure == length || ring.role == "inner" || ring.role == "diameter") {
		ring = nil // the inside of a bangle
	}
	if lead := m.leadOf(ring); request == "band" && (lead == "to" || lead == "from") {
		ring = nil // the size of a ring that is resized
	}
	m.found = slices.DeleteFunc(m.found, func(q *quantity) bool { return q != ring && !slices.Contains(found, q) })
	if ring != nil {
		ring.becomeSize(isAcross(ring))
		m.take(ring)
	}
}

// leadOf is the word before a figure, empty where there is none.
func (m *message) leadOf(q *quantity) string {
	if q == nil {
		return ""
	}
	return m.at(q.first - 1).text
}

// oldAndNew are the figures that are the old and the new size by the words round them.
// What is told in letters and words is among the figures then.
func (m *message) oldAndNew(least float64) (from, to *quantity) {
	found := m.found
	m.found = append(slices.Clone(found), m.sizesInWords()...)
	slices.SortFunc(m.found, func(a, b *quantity) int { return a.first - b.first })
	from, to = m.likelySize("resize", "from", least), m.likelySize("resize", "to", least)
	if from != nil && to != nil && !agree(from, to) || isAcross(from) && to == nil || isAcross(to) && from == nil {
		from, to = nil, nil
	}
	m.found = slices.DeleteFunc(m.found, func(q *quantity) bool { return q != from && q != to && !slices.Contains(found, q) })
	return m.nowFirst(from, to)
}

// asSizes makes the figures the ring's old and new size.
func (m *message) asSizes(from, to *quantity) {
	across := isAcross(from) || isAcross(to)
	for _, q := range []*quantity{from, to} {
		if q != nil {
			q.becomeSize(across)
			m.take(q)
		}
	}
	m.oldSize, m.newSize = from, to
}

// likelySize is the one figure that may be a ring size and surely has this role in the
// request, nil for none or for several.
func (m *message) likelySize(request, which string, least float64) (only *quantity) {
	for _, q := range m.found {
		if q.used || sizeKind(q) == "" {
			continue
		}
		role, chance := m.likelyRole(request, q)
		switch {
		case role != which || chance < least:
		case only != nil && only.shown != q.shown:
			return nil
		default:
			only = q
		}
	}
	return only
}

// Figures that may be a ring size, each in its own range: the largest number of the
// usual systems, the way round a finger, and the ring's inside.
const (
	letterSize = "letter"
	numberSize = "number"
	roundSize  = "round"
	acrossSize = "across"
)

// sizeKind is which kind of ring size a figure may be, empty for none.
func sizeKind(q *quantity) string {
	quarters := 4*q.value == math.Trunc(4*q.value)
	switch {
	case q.measure == ringSize && letter(q.shown):
		return letterSize
	case q.measure == ringSize && q.system == "iso", (q.measure == bare || q.measure == length) && q.value >= 41 && q.value <= mostRingSize:
		return roundSize
	case q.measure == ringSize, q.measure == bare && quarters && q.value >= 1 && q.value <= 16:
		return numberSize
	case (q.measure == bare || q.measure == length) && q.value >= 11.5 && q.value <= 26:
		return acrossSize
	}
	return ""
}

// isAcross reports whether a figure is the ring's inside in mm.
func isAcross(q *quantity) bool {
	return q != nil && q.measure == length && sizeKind(q) == acrossSize
}

// agree reports whether one size can become the other: they are of one kind, or each
// names its system.
func agree(from, to *quantity) bool {
	a, b := sizeKind(from), sizeKind(to)
	switch {
	case a == b:
		return true
	case isAcross(from) || isAcross(to):
		return from.value >= 11.5 && to.value >= 11.5 && from.measure != ringSize && to.measure != ringSize
	}
	return from.measure == ringSize && to.measure == ringSize && from.system != "" && to.system != ""
}

// becomeSize makes a figure a ring size, of the inside in mm where that is measured.
func (q *quantity) becomeSize(across bool) {
	if q.measure == ringSize {
		return
	}
	switch {
	case across, sizeKind(q) == acrossSize:
		q.system, q.shown = "diameter", plain(q.value)
	case sizeKind(q) == roundSize:
		q.shown = plain(q.value)
	}
	q.measure, q.unit, q.role = ringSize, true, ""
}

// take marks the words of a figure as read.
func (m *message) take(q *quantity) {
	for k := q.first; k < q.next; k++ {
		m.taken[k] = true
	}
}

// sizesInWords are letters and numbers in words that may be ring sizes by themselves:
// "H to N", "a ten I want an eleven".
func (m *message) sizesInWords() (all []*quantity) {
	capitals := 0
	for _, t := range m.tokens {
		if t.capital {
			capitals++
		}
	}
	for i := 0; i < len(m.tokens); i++ {
		t := m.at(i)
		_, inWords := numberWords[t.text]
		alone := t.capital && capitals <= mostCapitals && m.letterByItself(i)
		if m.inFigure(i) || !inWords && !alone {
			continue
		}
		shown, next, ok := m.sizeValue(i, alone)
		if !ok || strings.Contains(shown, "+") {
			continue
		}
		q := &quantity{measure: bare, shown: shown, value: sizeNumber(shown), first: i, next: next}
		if alone {
			q.measure, q.system, q.unit = ringSize, "uk", true
		}
		all = append(all, q)
		i = next - 1
	}
	return all
}

// mostCapitals is how many capitals a message has at most whose capital letters mean
// something.
const mostCapitals = 6

// letterByItself reports whether a letter is one by itself: no "I" or "A" of a sentence,
// and no letter of a shape.
func (m *message) letterByItself(i int) bool {
	t := m.at(i)
	if len(t.text) != 1 || t.text[0] < 'a' || t.text[0] > 'z' || m.at(i-1).number && t.glued || m.at(i+1).number && m.at(i+1).glued || shapedLike[m.at(i+1).text] {
		return false
	}
	return t.text != "a" && t.text != "i" || letterLeads[m.at(i-1).text] || m.at(i+1).text == "to" && t.text == "i"
}

// shapedLike are words behind a letter of a shape: "D section", "V prong".
var shapedLike = map[string]bool{"shape": true, "shaped": true, "section": true, "profile": true, "shank": true, "band": true, "sqrt": true, "prong": true, "prongs": true, "clamp": true, "bezel": true, "-": true, "wire": true}

// letterLeads are words after which even "I" is a letter.
var letterLeads = map[string]bool{"letter": true, "size": true, "an": true, "from": true}

// sizeNumber is the number of a size in figures, 0 for a letter.
func sizeNumber(shown string) float64 {
	if letter(shown) {
		return 0
	}
	whole, part, _ := strings.Cut(shown, " ")
	return parse(whole) + map[string]float64{"1/4": 0.25, "1/2": 0.5, "3/4": 0.75}[part]
}
