package sentence

import (
	"slices"
	"strings"

	"guildhand/bot/reading/intent"
)

// Which of two sizes a ring has and which it shall have is told by what is said of each:
// the ring is one and its wearer is the other, one was and one is wanted.

// ageOfSize is which of a ring's two sizes the words round one of them tell it to be.
type ageOfSize int

const (
	newSize ageOfSize = 1
	oldSize ageOfSize = -1
)

// Words that tell which of two sizes is meant. What is said of a wearer is the new size,
// and what is said of the ring is the old one, unless it was or is to be otherwise.
var (
	ofWearer = []string{"she", "shes", "he", "hes", "client", "clients", "customer", "customers", "wife", "husband", "finger", "fingers", "knuckle", "i'm", "im", "they", "theyre", "wearer"}
	ofRing   = []string{"ring", "rings", "band", "stamped", "marked", "made", "bought", "brings", "brought", "fits", "currently"}
	wantedIt = []string{"want", "wants", "wanted", "need", "needs", "needed", "should", "must", "supposed", "meant", "aimed", "ordered", "into", "required", "requires", "become", "wish", "wishes", "wished"}
	wasIt    = []string{"was", "were", "originally", "used", "out", "ended", "from"}
)

// ageOf tells whether a size is the old or the new one by the nearest word before it that
// tells, or by what stands behind it; 0 where nothing does.
func (m *message) ageOf(q *quantity) ageOfSize {
	switch after := m.at(q.next).text; {
	case slices.Contains([]string{"finger", "fingers", "hand", "knuckle"}, after):
		return newSize
	case after == "originally", after == "before", after == "b4", after == "ring", after == "band":
		return oldSize
	}
	for i := q.first - 1; i >= max(0, q.first-8); i-- {
		w := strings.ReplaceAll(m.at(i).text, "'", "")
		if w == "out" && slices.Contains([]string{"turns", "turned", "turn"}, m.at(i-1).text) {
			continue // "turns out to be an L"
		}
		if w == "has" && m.at(i+1).text == "to" {
			return newSize
		}
		if w == "made" && (m.at(i+1).text == "to" || m.at(i-1).text == "be") {
			continue // "can it be made to fit"
		}
		if w == "." || w == ";" || m.ofSizeAt(i) {
			return 0
		}
		switch {
		case w == "for" && m.saysOneBetween(i-3, i, "made", "cut"):
			return newSize // "I made it for a 7"
		case w == "to" && i == q.first-1, slices.Contains(wantedIt, w), slices.Contains(ofWearer, w):
			return newSize
		case slices.Contains(wasIt, w), slices.Contains(ofRing, w):
			return oldSize
		}
	}
	return 0
}

// ofSizeAt reports whether a figure that may be a ring's size stands at i.
func (m *message) ofSizeAt(i int) bool {
	return slices.ContainsFunc(m.found, func(q *quantity) bool { return q.first <= i && i < q.next && sizeKind(q) != "" })
}

// inOrder are the old and the new size in this order, as far as what is said of each tells.
func (m *message) inOrder(from, to *quantity) (old, wanted *quantity) {
	if m.ageOf(from)*m.ageOf(to) < 0 {
		if m.ageOf(from) == newSize {
			return to, from
		}
		return from, to
	}
	if m.oldSize != nil && (from == m.oldSize && to == m.newSize || from == m.newSize && to == m.oldSize) {
		return m.oldSize, m.newSize
	}
	if m.ageOf(from) > m.ageOf(to) || m.isWanted(from) && !m.isWanted(to) {
		return to, from
	}
	return from, to
}

// latestOfThree are the old and the new size of a ring that was sized before: "it was taken
// from R to Q last year and now must go up to S". ok is false where that is not told.
func (m *message) latestOfThree(sizes []*quantity) (from, to *quantity, ok bool) {
	if len(sizes) != 3 || m.between(sizes[0].next, sizes[1].first) != "to" || m.ageOf(sizes[2]) != newSize {
		return nil, nil, false
	}
	past := m.says("was", "were", "had", "last year", "ago", "before", "already", "years")
	return sizes[1], sizes[2], past && sizes[1].shown != sizes[2].shown
}

// surelyOld is how likely by the words round it a figure must be the ring's old or new size,
// to be one where all words together don't ask for a resizing.
const surelyOld = 0.9

// joinsOldAndNew reports whether a message for which no piece was found tells the old and the
// new size of a ring in one breath, "from 56 to 58" and "L to O", or each for what it is: "I
// aimed for L and it came out K".
func (m *message) joinsOldAndNew(r Reading) bool {
	if r.Outcome == Request && (r.Request != "band" || m.chance("resize") < m.chance("band")) || m.asksWhy() || m.has("convert") || m.says(severalSizes...) || m.chance(intent.Silent, "bench", "daybook", "gauge", "kit", "match", "jumpring", "halo", "tune") > mostlyOther {
		return false
	}
	from, to := m.pairByTo()
	if from == nil || isAcross(from) {
		if from, to = m.pairByAge(); from == nil || m.says(nextTime...) {
			return false
		}
	}
	if from.shown == to.shown {
		return false
	}
	m.asSizes(from, to)
	return true
}

// mostlyOther is the chance of another piece from which two sizes are no ring's.
const mostlyOther = 0.5

// severalSizes are words for more than one ring, each of which has its size.
var severalSizes = []string{"=sizes", "each", "every", "students", "class", "range", "rings from", "chart", "table"}

// nextTime are words for the next ring, which is to come out better.
var nextTime = []string{"next time", "next one", "next ring", "next strip", "should i have cut", "trial", "test", "remake", "start again", "make another"}

// sizesLikely are the figures and letters of a message that may be ring sizes, and so likely
// are the old or the new one of a resizing if the message is about that.
func (m *message) sizesLikely(least float64) (all []*quantity) {
	found := m.found
	m.found = append(slices.Clone(found), m.sizesInWords()...)
	slices.SortFunc(m.found, func(a, b *quantity) int { return a.first - b.first })
	defer func() { m.found = found }()
	for _, q := range m.found {
		if sizeKind(q) != "" && m.rolesOf("resize", q).Of("from", "to") >= least {
			all = append(all, q)
		}
	}
	return all
}

// pairByTo are the only two sizes of a message between which nothing but "to" stands, nil
// for none or several.
func (m *message) pairByTo() (from, to *quantity) {
	all := m.sizesLikely(surelyOld)
	for k := 0; k+1 < len(all); k++ {
		a, b := all[k], all[k+1]
		if !agree(a, b) || !m.joinedByTo(a, b) {
			continue
		}
		if from != nil {
			return nil, nil
		}
		from, to = a, b
	}
	m.find(from, to)
	return from, to
}

// pairByAge are the only two sizes of a message, the old one before the new, where what is
// said of each tells which it is; nil for none.
func (m *message) pairByAge() (from, to *quantity) {
	all := m.sizesLikely(surelyOld)
	if len(all) != 2 || !agree(all[0], all[1]) {
		return nil, nil
	}
	m.find(all...)
	if from, to = m.inOrder(all[0], all[1]); m.ageOf(from) != oldSize || m.ageOf(to) != newSize {
		return nil, nil
	}
	return from, to
}

// find puts sizes that are told in letters or words among the figures.
func (m *message) find(sizes ...*quantity) {
	for _, q := range sizes {
		if q != nil && !slices.Contains(m.found, q) {
			m.found = append(m.found, q)
			m.take(q)
		}
	}
	slices.SortFunc(m.found, func(a, b *quantity) int { return a.first - b.first })
}

// surelyResized reports whether a resizing is from one size to the other that stand joined by
// "to", or are told for what they are, and no other figure of it belongs elsewhere.
func (m *message) surelyResized(r Reading) bool {
	if r.Request != "resize" || m.context.Last != nil || m.says(severalSizes...) {
		return false
	}
	from, to := m.pairByTo()
	if from == nil {
		from, to = m.pairByAge()
	}
	if from == nil || !m.memory.holdsFigure(r.Options["from"], from) && !strings.HasSuffix(r.Options["from"], " "+from.shown) || !strings.HasSuffix(r.Options["to"], " "+to.shown) {
		return false
	}
	return !slices.ContainsFunc(m.found, func(q *quantity) bool {
		place := m.placeIn(r, q)
		return q != from && q != to && place != "" && m.rolesOf("resize", q).Of(place) < leastPlace
	})
}

// joinedByTo reports whether nothing but "to", and words of a size, stands between the old
// size and the new one, and the old one is led by "from", by "size" or by a word for sizing.
func (m *message) joinedByTo(from, to *quantity) bool {
	if !m.onlyToBetween(from, to) {
		return false
	}
	led := m.saysOneBetween(from.first-3, from.first+1, "from", "size", "us", "uk", "iso", "resize", "resizing", "sized", "sizing", "down", "up", "bring", "going", "goes", "take", "ring")
	return led || sizeKind(from) == letterSize && from.first == 0
}

// onlyToBetween reports whether nothing but "to", or an arrow, and words of a size stand
// between two sizes.
func (m *message) onlyToBetween(from, to *quantity) bool {
	between := strings.Fields(m.between(from.next, to.first))
	for _, w := range between {
		if !slices.Contains([]string{"to", "into", "down", "up", "a", "an", "size", "us", "uk", "->", ">", "-", "→"}, w) {
			return false
		}
	}
	return slices.ContainsFunc(between, func(w string) bool { return w == "to" || w == "into" || strings.HasSuffix(w, ">") || w == "→" })
}

// saysStones reports whether a ring that is sized has stones, or what holds them: "no
// stones" says that it has none.
func (m *message) saysStones() bool {
	if m.says("not set", "never had", "taken out", "take the stone", "take the stones", "taking the stone", "pulling the stone", "pull the stone", "remove the stone", "removed", "came out", "stone is out", "stone out") {
		return false
	}
	for i := range m.tokens {
		set := slices.ContainsFunc(setAlongRing, func(w string) bool { return m.at(i).text == w })
		if set && !m.saysNone(i) {
			return true
		}
	}
	return slices.ContainsFunc(m.senses, func(s sense) bool {
		holds := slices.ContainsFunc([]string{"stone", "prongs", "halo", "setting"}, func(what string) bool { return contains(s.Means, what) }) || slices.ContainsFunc(s.Means, func(what string) bool { return strings.HasPrefix(what, "gem:") })
		return holds && !m.saysNone(s.first)
	})
}

// setAlongRing are words for stones, and for how they are set, that name no stone.
var setAlongRing = []string{"pave", "pavé", "solitaire", "eternity", "melee", "channel", "gypsy", "inlay", "inlaid", "cluster", "trilogy"}

// saysNone reports whether what stands at i is said not to be there: "no stone", "without
// any stones", "hasn't got a stone in it", "stone-free".
func (m *message) saysNone(i int) bool {
	if m.at(i+1).text == "free" || m.at(i+1).text == "-" && m.at(i+2).text == "free" {
		return true
	}
	for k := i - 1; k >= i-3; k-- {
		switch m.at(k).text {
		case ",", ".", ";", "":
			return false
		case "no", "without", "not", "hasnt", "isnt", "zero":
			return true
		}
	}
	return false
}
