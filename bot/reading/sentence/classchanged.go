package sentence

import (
	"math"
	"strings"
)

// A class grows and shrinks after its cut list was asked for: "one of them dropped out", "two
// more have signed up". The figure is no new number of makers, but so many less or more.

var (
	// notComing and comingToo are what the makers of a class do.
	notComing = []string{"dropped out", "dropping out", "drop out", "pulled out", "cancelled", "canceled", "withdrew", "withdrawn", "not coming", "isnt coming", "arent coming", "cant come", "cant make it", "cannot come", "backed out", "bailed", "called in sick", "fallen ill", "is ill", "are ill", "is sick", "are sick", "off sick", "fewer", "no longer coming", "wont be there", "wont make it"}
	comingToo = []string{"joined", "signed up", "signing up", "booked in", "turned up", "more people", "more students", "more person", "more student", "another student", "another person", "extra student", "extra person", "coming too", "wants to join", "want to join", "more maker", "more makers", "want to come", "wants to come", "would like to come", "coming along", "more are coming", "ill do one", "ill make one", "count me in"}
	// nobodyKnown asks or tells of no certain number.
	nobodyKnown = []string{"if", "might", "may", "maybe", "perhaps", "what happens", "usually", "how many"}
)

// makersChanged is the class in hand with so many makers less or more.
func (m *message) makersChanged(last Last) (Reading, bool) {
	makers := parse(last.Options["makers"])
	fewer, more := m.says(notComing...), m.says(comingToo...)
	if last.Request == "kit" && makers >= 1 && (fewer || more) && !m.says(nobodyKnown...) {
		if r, ok := m.someForOthers(last, makers); ok {
			return r, true
		}
	}
	if last.Request != "kit" || makers < 1 || fewer == more || len(m.alloys) > 0 || m.says(nobodyKnown...) && !m.says("what if") {
		return Reading{}, false
	}
	by, ok := m.peopleSaid()
	if !ok {
		return Reading{}, false
	}
	now := makers + by
	if fewer {
		now = makers - by
	}
	if now < 1 {
		return Reading{}, false
	}
	m.useAll()
	d := m.draftWith(last.Request, last.Options)
	d.say("makers", plain(now))
	return m.changedFrom(last, d), true
}

// someForOthers is the class in hand where some left and others came: "one dropped out, two
// joined".
func (m *message) someForOthers(last Last, makers float64) (Reading, bool) {
	now, counted := makers, false
	for _, clause := range strings.FieldsFunc(strings.ReplaceAll(strings.ToLower(m.typed), " and ", ", "), func(r rune) bool { return r == ',' || r == '.' || r == ';' }) {
		part := newMessage(clause)
		by, ok := part.peopleSaid()
		switch fewer, more := part.says(notComing...), part.says(comingToo...); {
		case fewer == more:
		case !ok:
			return Reading{}, false
		case fewer:
			now, counted = now-by, true
		default:
			now, counted = now+by, true
		}
	}
	if now < 1 || !counted || len(m.alloys) > 0 {
		return Reading{}, false
	}
	m.useAll()
	d := m.draftWith(last.Request, last.Options)
	d.say("makers", plain(now))
	return m.changedFrom(last, d), true
}

// peopleSaid is the one number of a message that counts people: a figure or a word.
func (m *message) peopleSaid() (n float64, ok bool) {
	if len(m.found) > 1 {
		return 0, false
	}
	if len(m.found) == 1 {
		q := m.found[0]
		return q.value, (q.measure == bare || q.measure == count) && q.value >= 1 && q.value == math.Trunc(q.value)
	}
	for _, t := range m.tokens {
		switch v := numberWords[t.text]; {
		case v >= 1 && v == math.Trunc(v):
			return v, true
		case t.text == "another" || t.text == "a" || t.text == "someone" || t.text == "somebody" || t.text == "one" || t.text == "ones" || t.text == "me":
			n = 1
		}
	}
	return n, n > 0
}

// partOfClass asks for two lists where some of a class's makers make another piece: "two of
// them would like an oval instead".
func (m *message) partOfClass() (Reading, bool) {
	last := m.context.Last
	if last == nil || last.Request != "kit" || !m.says("of them", "of the students", "of the class", "of the makers", "of em", "the others", "the rest", "the other half", "half of them") || m.stoneSides() == nil && len(m.meaning("outline:")) == 0 && !m.says("instead", "want", "wants", "would like", "prefer", "prefers", "rather") {
		return Reading{}, false
	}
	if len(m.found) == 0 || m.says(notComing...) || m.says("all of them", "each of them", "every one of them", "spare") || strings.HasPrefix(m.text(), "how") {
		return Reading{}, false
	}
	m.useAll()
	return Reading{Outcome: Question, Request: last.Request, Options: last.Options, Ask: "Then the class makes two kinds of piece. Say the makers, then one piece after another with a semicolon between: kit 8 makers collet oval 8x6 sterling 22ga ; 4 dome 18 height 5 copper 24ga.",
		Choices: []Choice{{"the same for all, as it was", last.Request, last.Options}}}, true
}
