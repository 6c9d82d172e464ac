package sentence

import "strings"

// surelyWeighs is how sure it must be that a weight is asked for to be worked out where
// the rules found another subject.
const surelyWeighs = 0.8

// weighedInstead reads a message as stock to be weighed where all its words say so, and
// the rules found nothing, or only a word of what is left to others.
func (m *message) weighedInstead(r Reading) Reading {
	if wanted, chance := m.likeliest(); wanted != "weigh" || chance < surelyWeighs || !m.foundNothing(r) {
		return r
	}
	fresh := m.anew()
	weighed, ok := fresh.readAs("weigh")
	switch {
	case ok && weighed.Outcome == Explanation:
		return weighed
	case ok && weighed.Outcome == Request:
		return fresh.confirmed(weighed)
	}
	return r
}

// foundNothing reports whether a reading of a message that stands by itself is none, or
// that its subject is not the trade.
func (m *message) foundNothing(r Reading) bool {
	if !m.byItself() {
		return false
	}
	switch r.Outcome {
	case Unknown, Silent:
		return true
	case Question:
		return r.Request == "" || m.chance(r.Request) <= hardlySo
	case Declined:
		return !strings.HasPrefix(r.Topic, "language ") && !standsFast(r.Topic)
	}
	return false
}

// byItself reports whether a message is to be read by itself: no question is open, no
// hurt is spoken of, and it doesn't go on from another.
func (m *message) byItself() bool {
	inTalk := m.context.Last != nil || m.context.Said != ""
	return !m.context.ofPiece && m.context.Asked == nil && m.context.Aid == "" && (!inTalk || m.whole())
}
