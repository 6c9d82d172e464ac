package sentence

import (
	"math"
)

// Who has the figures of one piece often says next how many are wanted: "I need 12 of
// them", "make two of those". A cut list of so many has the sheet and the mass.

// cutAsKit are the pieces whose cut list tells what several of them take.
var cutAsKit = map[string]bool{"collet": true, "collar": true, "bezel": true, "prongs": true, "dome": true, "band": true}

// pointers are words behind "of" that stand for the piece in hand.
var pointers = wordSet("them em those these that it this")

// notWanted are words of a message whose number does not say how many are wanted.
var notWanted = []string{"how many", "why", "broke", "cracked", "came out", "already", "which", "per", "prongs", "claws", "stones", "joints", "spare", "left", "didnt", "dont", "ruined", "melted", "failed", "students", "people", "makers", "each other", "snapped", "wrong", "sizes", "wider", "size"}

// severalWanted takes how many of the piece in hand are wanted.
func (m *message) severalWanted(last Last) (Reading, bool) {
	if len(m.found) > 1 || len(m.alloys) > 0 || m.words() > longestChange+2 || m.says(notWanted...) || m.strays() && !m.has("weight") {
		return Reading{}, false
	}
	n, counts := m.manyWanted()
	if !counts || n < 2 || n > mostEach || n != math.Trunc(n) {
		return Reading{}, false
	}
	if !cutAsKit[last.Request] {
		if !m.context.takes(last.Request, "count") || last.Request == "weigh" && last.Options["collet"] != "" {
			return Reading{}, false
		}
		d := m.draftWith(last.Request, last.Options)
		d.say("count", plain(n))
		m.useAll()
		return m.changedFrom(last, d), true
	}
	if last.Request == "prongs" && last.Options["number"] == "" || last.Request == "bezel" && !m.has("sheet") {
		return Reading{}, false // four of them are prongs, and a bezel is cut from strip
	}
	if n < 3 && !m.has("sheet", "weight") {
		return Reading{}, false // twice a blank needs no cut list
	}
	m.useAll()
	return m.manyOf(last, n), true
}

// manyOf is the cut list of so many of the last piece.
func (m *message) manyOf(last Last, n float64) Reading {
	d := m.draft("kit")
	d.say("makers", "1")
	d.say("each", plain(n))
	d.say("pieces", line(last.Request, last.Options))
	r := d.reading()
	r.Changed = []string{"so many of your " + nameOf(last)}
	return r
}

// manyWanted is how many of the piece in hand a message speaks of.
func (m *message) manyWanted() (n float64, ok bool) {
	if len(m.found) > 0 {
		switch q := m.found[0]; {
		case q.measure == count && (q.thing == "pieces" || q.thing == "rings" || q.thing == "settings"):
			return q.value, m.says("need", "want", "make", "do", "for", "of")
		case (q.measure == bare || q.measure == count) && m.countedAsPieces(q.next), q.measure == bare && m.asksForSoMany(q):
			return q.value, true
		}
		return 0, false
	}
	for i, t := range m.tokens {
		if v := numberWords[t.text]; v >= 2 && m.countedAsPieces(i+1) {
			return v, true
		}
		if t.text == "pair" && m.at(i-1).text == "a" && m.countedAsPieces(i+1) {
			return 2, true
		}
	}
	return 0, false
}

// asksForSoMany matches how much metal so many pieces take: "how much do i need for 6".
func (m *message) asksForSoMany(q *quantity) bool {
	last := q.next >= len(m.tokens) || !m.at(q.next).word() && q.next+1 >= len(m.tokens)
	return last && m.at(q.first-1).text == "for" && m.says("how much", "how long", "what length", "what about", "total") && q.value == math.Trunc(q.value)
}

// countedAsPieces reports whether the words from i on say that the number before them
// counts pieces like the one in hand.
func (m *message) countedAsPieces(i int) bool {
	switch m.at(i).text {
	case "of":
		return pointers[m.at(i+1).text]
	case "more", "pieces", "pcs", "copies", "off":
		return m.at(i+1).text != "of" && m.at(i+1).text != "the"
	case "the", "just", "exactly":
		return m.at(i+1).text == "same" || m.at(i+1).text == "like"
	case "like", "identical", "alike":
		return true
	}
	return false
}
