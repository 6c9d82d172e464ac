package sentence

import "strings"

// surelyWeighs is how sure it must be that a weight is asked for to be worked out where
// the rules found another subject.
const surelyWeighs = 0.8

// likelyWeighs is asked for where the rules found a piece that has no place for a figure.
const likelyWeighs = 0.45

// weighedInstead reads a message as stock to be weighed where all its words say so, and
// the rules found nothing, or only a word of what is left to others.
func (m *message) weighedInstead(r Reading) Reading {
	if m.byItself() && (r.Outcome == Question && (r.Request == "melt" || r.Request == "") || r.Outcome == Request && r.Request == "melt" && m.chance("melt") < likelyWeighs || r.Outcome == Unknown || r.isNearest()) {
		if same, ok := m.anew().sameInOtherMetal(); ok {
			return same
		}
	}
	wanted, chance := m.likeliest()
	lost := r.asksOfFigure() && r.Request != "weigh" && chance >= likelyWeighs && m.byItself()
	if wanted != "weigh" || !lost && (chance < surelyWeighs || !m.foundNothing(r)) {
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

// mayWeigh is asked for where a weight is asked for in words and everything has its place.
const mayWeigh = 0.3

// weightAsked reports whether a piece of stock is read whose weight is asked for in words, or
// a setting or a bangle, of which the answer has the weight.
func (m *message) weightAsked(r Reading) bool {
	if m.cues["weigh"] == 0 && !m.says("weigh", "weighs", "weight", "how heavy") {
		return false
	}
	switch r.Request {
	case "weigh":
		return m.chance("weigh") >= mayWeigh && r.hasAll()
	case "collet", "band":
		return m.chance("weigh") >= likelyWeighs && r.hasAll()
	}
	return false
}
