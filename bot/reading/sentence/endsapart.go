package sentence

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"guildhand/bot/knowledge"
)

// What came of a strip at the bench is told in few words: "0.6 short of meeting", "the ends
// are 1 mm apart", "it overlaps by 1 mm".

// Words of ends that don't meet, and of ends that lie over each other.
var (
	dontMeet = []string{"short of meeting", "short of closing", "shy of meeting", "shy of closing", "from meeting", "from closing", "short of going round", "short of the stone", "short of itself", "are apart", "mm apart", "ends apart"}
	overlap  = []string{"overlaps", "overlap", "overlapping", "laps over"}
	// wishedOverlap are words of an overlap that is to be.
	wishedOverlap = []string{"want", "should", "allow", "allowance", "add", "leave", "with an overlap", "for the overlap", "for overlap", "how much", "bypass", "wrap ring", "if"}
)

// mostApartMM is how far apart ends are at most for the strip to be called short.
const mostApartMM = 20

// endsApart is the trouble of a strip in hand whose ends don't meet, or lie over each other.
func (m *message) endsApart(last Last) (Reading, bool) {
	if last.Request != "bezel" && last.Request != "band" && last.Request != "collar" || len(m.found) != 1 || len(m.alloys) > 0 {
		return Reading{}, false
	}
	q, key := m.found[0], ""
	if q.measure != length && q.measure != bare || q.value <= 0 || q.value > mostApartMM || q.measure == bare && q.value > 5 {
		return Reading{}, false
	}
	switch {
	case m.says(dontMeet...):
		key = "strip too short"
	case m.says(overlap...) && !m.says(wishedOverlap...):
		key = "strip too long"
	default:
		return Reading{}, false
	}
	d := m.draft("trouble")
	d.say("sign", knowledge.Word(key))
	if m.context.takes("trouble", "by") {
		d.set("by", q)
	}
	m.useAll()
	r := d.reading()
	r.Topic = "trouble: " + key
	return r, true
}

// notCounted are the requests of which a count in words may be something else of the piece,
// or is read as that already; behindCount are words behind a count of pieces.
var (
	notCounted  = map[string]bool{"prongs": true, "halo": true, "kit": true, "melt": true, "jumpring": true, "gauge": true}
	behindCount = wordSet("of then please rings pieces bezels collets domes")
)

// forTwo takes a count in words as how many of the piece in hand there are to be, "and for
// two?", and never as one of its measures.
func (m *message) forTwo(last Last) (Reading, bool) {
	const most = 6
	if readersOf[last.Request] == nil || notCounted[last.Request] || len(m.found) > 1 || len(m.alloys) > 0 || m.words() > most || m.saysMeasure() || !m.startsWith("and", "what about", "how about", "how much", "ok and", "what") {
		return Reading{}, false
	}
	i := slices.IndexFunc(m.tokens, func(t token) bool { return numberWords[t.text] >= 2 })
	if i < 1 || m.at(i-1).text != "for" || len(m.found) == 1 && (m.found[0].first != i || m.found[0].next != i+1) {
		return Reading{}, false
	}
	n, next := numberWords[m.at(i).text], m.at(i+1)
	if n > mostEach || n != math.Trunc(n) || next.word() && !behindCount[next.text] {
		return Reading{}, false
	}
	m.taken[i] = true
	m.useAll()
	switch {
	case m.context.takes(last.Request, "count"):
		d := m.draftWith(last.Request, last.Options)
		d.say("count", plain(n))
		return m.changedFrom(last, d), true
	case cutAsKit[last.Request] && last.Request != "bezel" && n > 2:
		return m.manyOf(last, n), true
	}
	return Reading{Outcome: Request, Request: last.Request, Options: maps.Clone(last.Options), Notes: []string{fmt.Sprintf("these are the figures of one: cut %s of them", plain(n))}}, true
}

// haveStones tell of stones that somebody has, and goRound ask whether they go round.
var (
	haveStones = []string{"have", "ive", "got", "theres", "there are", "there is", "counted", "only", "in the packet", "left"}
	goRound    = []string{"enough", "gap", "go round", "go around", "fit round", "fit around", "all the way", "all round", "spread", "will they do", "will that do", "will it do", "sufficient"}
)

// smallStonesAtHand takes how many small stones there are for the halo in hand, and asks of
// it whether they go round.
func (m *message) smallStonesAtHand(last Last) (Reading, bool) {
	if last.Request != "halo" || last.Options["with"] == "" || len(m.alloys) > 0 || len(m.found) > 1 || !m.says(haveStones...) || !m.says(goRound...) || m.says("mm", "gauge", "why") {
		return Reading{}, false
	}
	stones := 0.0
	if len(m.found) == 1 {
		if q := m.found[0]; q.measure == bare || q.measure == count {
			stones = q.value
		}
	}
	for i, t := range m.tokens {
		if v := numberWords[t.text]; v >= fewestInHalo && len(m.found) == 0 {
			stones, m.taken[i] = v, true
		}
	}
	if stones < fewestInHalo || stones != math.Trunc(stones) || !m.context.takes("halo", "count") {
		return Reading{}, false
	}
	d := m.draftWith("halo", last.Options)
	d.say("count", plain(stones))
	m.useAll()
	return m.changedFrom(last, d), true
}

// nextCut shows a sign of trouble once more where it is asked how the next piece is cut, which
// the answer tells.
func (m *message) nextCut(last Last) (Reading, bool) {
	if last.Request != "trouble" || len(m.found)+len(m.alloys) > 0 || m.words() > longestChange || !m.says("how much shorter", "how much longer", "how much more", "how much less", "how do i cut", "cut the next", "how should i cut", "what about the next", "and the next") || !m.says("next", "new one", "another", "it") {
		return Reading{}, false
	}
	r := Reading{Outcome: Request, Request: last.Request, Options: maps.Clone(last.Options), Topic: "trouble: " + strings.ReplaceAll(last.Options["sign"], "-", " ")}
	return r, true
}
