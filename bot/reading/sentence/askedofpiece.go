package sentence

import (
	"fmt"
	"maps"
	"slices"

	"guildhand/bot/reading/turn"
)

// A piece's answer has all its figures, so that who asks for one of them, "how wide does
// each claw come out", is answered with the piece once more and not with what is usual.

const (
	// surelyOfPiece is how likely a question must be about the piece in talk for that.
	surelyOfPiece = 0.6
	// nearestWords is how many words may stand between "what" and the measure it asks for.
	nearestWords = 5
)

// howMuch begin a question for a measure, and measuresOf name one.
var (
	howMuch    = []string{"how wide", "how tall", "how high", "how deep", "how long", "how far", "how big", "how large", "how thick", "how heavy", "how much", "how many grams", "how many g", "how many windows"}
	measuresOf = wordSet("measurement opening width height length diameter radius angle lean gap spacing size weight weigh mass ratio ar depth area circumference outside inside total across measure measures curve arc")
)

// ofUse are words of a question for what is usual, possible or done, which no answer to a
// piece tells.
var ofUse = []string{"usual", "usually", "normal", "normally", "best", "better", "minimum", "min", "maximum", "max", "recommend", "at least", "most people", "do people", "take", "takes", "leave", "wait", "how long to", "until", "till", "before", "tumble", "anneal", "soak", "polish", "quench", "cool", "heat", "hot", "enough", "too", "pickle", "torch", "drill", "file", "punch", "block", "cost", "price", "charge", "sell", "comes back", "come back", "left over", "lemel", "scrap", "filings", "why", "can i", "could i", "or", "if"}

// shouldBe asks for advice, unless it is said of the piece itself.
var shouldBe = []string{"should", "would you", "do you think", "must"}

// asksOwnMeasure reports whether a message asks for a measure of the piece in talk.
func (m *message) asksOwnMeasure() bool {
	if m.says(ofUse...) || m.says(shouldBe...) && !m.pointsBack() {
		return false
	}
	if m.says(howMuch...) {
		return true
	}
	for i, t := range m.tokens {
		if t.text != "what" && t.text != "whats" && t.text != "which" {
			continue
		}
		for k := i + 1; k <= i+nearestWords; k++ {
			if measuresOf[m.at(k).text] {
				return true
			}
		}
	}
	return false
}

// askedOfPiece is the piece in talk again, where a message asks for one of its measures and
// was taken for a question of its own, or not understood.
func (m *message) askedOfPiece(alone Reading) (Reading, bool) {
	last := m.context.Last
	if last == nil || m.context.Asked != nil || m.context.Topic != "" || m.context.Aid != "" || readersOf[last.Request] == nil || len(m.found)+len(m.alloys) > 0 || alone.Outcome == Request && readersBeside[alone.Request] == nil && alone.Request != "trouble" || alone.Outcome == FirstAid || alone.Outcome == Silent {
		return Reading{}, false
	}
	if !m.asksOwnMeasure() || m.namesAnother(*last) || m.turnAfter(last.Request).Of(turn.About, turn.Back) < surelyOfPiece {
		return Reading{}, false
	}
	if last.Request == "dome" && m.says("bead", "ball", "both", "pair", "halves") {
		return Reading{}, false // the answer is for one half
	}
	if m.has("weight") && slices.Contains([]string{"resize", "saddle", "gauge", "match", "tune"}, last.Request) {
		return Reading{}, false // their answers have none
	}
	return figuresOf(*last), true
}

// figuresOf is a piece in talk once more, for who asks for a figure that its answer has.
func figuresOf(piece Last) Reading {
	return Reading{Outcome: Request, Request: piece.Request, Options: maps.Clone(piece.Options), Notes: []string{fmt.Sprintf("the figures of your %s are these", nameOf(piece))}}
}
