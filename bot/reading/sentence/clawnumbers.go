package sentence

import (
	"math"
	"slices"
)

// Numbers of claws that are told without their noun: "is 4 claws enough or do I need 6?",
// "how many claws, is 3 ok?"

// leastClaws is the least number of claws that somebody has in mind.
const leastClaws = 2

var (
	// beforeOtherNumber may stand between "or" and the other number.
	beforeOtherNumber = []string{"do", "should", "shall", "would", "will", "could", "must", "i", "we", "it", "you", "need", "needs", "use", "have", "go", "going", "take", "make", "put", "want", "for", "to", "with", "better", "is", "are", "even", "maybe", "just", "stick", "stay", "at", "only", "all", "the"}
	// afterOtherNumber may follow it: no unit, no noun.
	afterOtherNumber = []string{"", ".", ",", "?", "!", ")", "be", "better", "safer", "stronger", "enough", "ok", "fine", "plenty", "instead", "then", "is", "or", "would", "too", "please", "pls", "and", "for", "on", "look", "hold"}
	// beforeSuggested stand before the number that an asker has in mind.
	beforeSuggested = []string{"is", "are", "thinking", "thought", "do", "use", "say", "guess", "guessing", "reckon", "just", "only", "have", "make", "with", "about", "maybe", "would", "will", "wanted", "planned", "planning"}
)

// clawNumbers gives such numbers to the claws.
func (m *message) clawNumbers() {
	if len(m.found) < 2 || !m.has("prongs") {
		return
	}
	m.suggestedClaws()
	m.otherNumberOfClaws()
}

// mayCountClaws reports whether a figure is a number without a unit or a noun behind it.
func (m *message) mayCountClaws(q *quantity) bool {
	return q.measure == bare && q.role == "" && !q.used && q.other == nil && !q.unit && q.value == math.Trunc(q.value) && q.value >= leastClaws && q.value <= mostClaws && contains(afterOtherNumber, m.at(q.next).text)
}

// suggestedClaws takes the only number that may answer "how many claws?".
func (m *message) suggestedClaws() {
	if m.counted().thing != "" || !m.says("how many") {
		return
	}
	var suggested *quantity
	for _, q := range m.found {
		if !m.mayCountClaws(q) || !contains(beforeSuggested, m.at(q.first-1).text) || m.at(q.first-2).text == "mine" || m.at(q.first-2).text == "stone" {
			continue
		}
		if suggested != nil {
			return
		}
		suggested = q
	}
	if suggested != nil {
		suggested.measure, suggested.thing = count, "prongs"
	}
}

// otherNumberOfClaws joins "or do I need 6" to the number of claws before it, as in "4 or 6
// claws".
func (m *message) otherNumberOfClaws() {
	at := slices.IndexFunc(m.found, func(q *quantity) bool { return q.thing == "prongs" })
	if at < 0 || m.found[at].other != nil {
		return
	}
	first := m.found[at]
	for i, q := range m.found {
		if i <= at || !m.mayCountClaws(q) || q.value == first.value {
			continue
		}
		or := q.first - 1
		for or > first.next && contains(beforeOtherNumber, m.at(or).text) {
			or--
		}
		if m.at(or).text != "or" {
			continue
		}
		low, high := *first, *first
		low.value, high.value = min(first.value, q.value), max(first.value, q.value)
		low.shown, high.shown = plain(low.value), plain(high.value)
		high.other = &low
		*first = high
		m.found = slices.Delete(m.found, i, i+1)
		return
	}
}
