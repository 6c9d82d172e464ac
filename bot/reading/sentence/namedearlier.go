package sentence

import (
	"slices"
	"strings"
)

// Who has asked for several pieces goes back to one of them by what it is: "how heavy was
// the round one", "what about the silver ones again". The last piece is not meant where that
// one is another.

// widestName is how many words may stand between "the" and "one".
const widestName = 4

// namedEarlier is the earlier piece that a message calls by its outline, its metal or a
// figure, with what else the message changes of it. Where the last piece is called so too,
// it is meant.
func (m *message) namedEarlier() (Reading, bool) {
	first, next := m.namedOne()
	if next == 0 || m.context.Last == nil || m.asksWhether() || m.says(ofBothPieces...) {
		return Reading{}, false
	}
	named := *m
	named.within(first, next)
	if len(named.tokens) == 1 {
		named.found = append(named.found, named.letterOfRing()...)
	}
	if len(named.found)+len(named.alloys)+len(named.meaning("outline:")) == 0 || named.describes(*m.context.Last) {
		return Reading{}, false
	}
	for _, piece := range m.context.Earlier {
		if readersOf[piece.Request] == nil || !named.describes(piece) {
			continue
		}
		if len(m.found) <= len(named.found) && len(m.alloys) == len(named.alloys) {
			if piece.Request == "collet" && m.has("weight") {
				return m.weighedLast(piece)
			}
			return m.pieceAgain(piece), true
		}
		rest := m.anew()
		rest.found = slices.DeleteFunc(rest.found, func(q *quantity) bool { return q.first >= first && q.next <= next })
		rest.alloys = slices.DeleteFunc(rest.alloys, func(a *metal) bool { return a.first >= first && a.next <= next })
		rest.bindRoles()
		r, ok := rest.change(piece)
		return r, ok && r.Outcome == Request
	}
	return Reading{}, false
}

// ofBothPieces are words of a message that speaks of more than one piece.
var ofBothPieces = []string{"than", "or the", "and the", "both", "each", "another", "new one", "difference", "compare", "compared", "instead of the"}

// namedOne is where a message says "the round one" or "the silver ones", 0 for next where it
// doesn't.
func (m *message) namedOne() (first, next int) {
	for i, t := range m.tokens {
		if t.text != "one" && t.text != "ones" {
			continue
		}
		for k := i - 1; k >= max(0, i-widestName); k-- {
			if m.at(k).text == "the" {
				return k + 1, i
			}
		}
	}
	return 0, 0
}

// letterOfRing is the ring size of a message that is nothing but a letter: "the M one".
func (m *message) letterOfRing() []*quantity {
	if t := m.tokens[0]; len(m.found) == 0 && len(t.text) == 1 && letter(strings.ToUpper(t.text)) {
		return []*quantity{{measure: ringSize, shown: strings.ToUpper(t.text), next: 1}}
	}
	return nil
}

// within leaves a message only what stands between two tokens.
func (m *message) within(first, next int) {
	m.found = slices.DeleteFunc(slices.Clone(m.found), func(q *quantity) bool { return q.first < first || q.next > next })
	m.alloys = slices.DeleteFunc(slices.Clone(m.alloys), func(a *metal) bool { return a.first < first || a.next > next })
	m.senses = slices.DeleteFunc(slices.Clone(m.senses), func(s sense) bool { return s.first < first || s.next > next })
	m.tokens = m.tokens[first:next]
}

// backToNumber is the earlier setting of so many claws that a message goes back to: "go back
// to the four".
func (m *message) backToNumber() (Reading, bool) {
	if m.context.Last.Request != "prongs" || !m.says(backToClaws...) || len(m.found) > 1 {
		return Reading{}, false
	}
	number := ""
	for _, t := range m.tokens {
		if n := numberWords[t.text]; n >= fewestProngs && n <= mostProngs {
			number = plain(n)
		}
	}
	for _, q := range m.found {
		number = q.shown
	}
	for _, piece := range m.context.Earlier {
		if number != "" && piece.Request == "prongs" && strings.TrimSpace(piece.Options["number"]) == number && m.context.Last.Options["number"] != number {
			return m.pieceAgain(piece), true
		}
	}
	return Reading{}, false
}

// backToClaws lead to an earlier piece.
var backToClaws = []string{"go back to", "back to", "return to", "leave it at", "stick with", "stay with", "keep the"}
