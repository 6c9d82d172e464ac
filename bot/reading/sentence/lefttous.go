package sentence

import (
	"fmt"
	"maps"
	"slices"
)

// Who does not know a measure of a piece leaves it to the answer: "no idea how tall, whatever
// looks right". What is not told is taken as usual and named in the answer anyway, so that
// the piece as it is answers that.

var (
	// notKnown tell that somebody does not know a measure.
	notKnown = []string{"no idea", "dunno", "dont know", "do not know", "not sure", "unsure", "no clue", "not a clue", "idk", "havent decided", "undecided", "cant decide", "not certain", "havent a clue"}
	// leftToAnswer leave a measure to the answer.
	leftToAnswer = []string{"you pick", "you choose", "you decide", "up to you", "your call", "your choice", "whatever you", "whatever looks right", "whatever is normal", "whatever is usual", "whatevers normal", "whatevers usual", "whatever suits", "whatever works", "something sensible", "as you think best", "as you see fit", "the usual will do", "usual is fine", "not fussed", "not bothered", "i dont mind"}
	// askedToLearn ask how something is done or why, whatever is left open beside it.
	askedToLearn = []string{"how do i", "how do you", "how to", "how can i", "why", "measure it", "difference", "or"}
)

// openMeasures are the words by which a measure is left open.
var openMeasures = map[string]string{"height": "height", "high": "height", "tall": "height", "thick": "thickness", "thickness": "thickness", "gauge": "thickness", "width": "width", "wide": "width", "gap": "gap", "spacing": "gap", "tube": "tube", "depth": "depth", "deep": "depth"}

// usualThicknesses are the facts that tell what is usual for a piece.
var usualThicknesses = map[string]string{"collet": "collet gauge", "collar": "collet gauge", "prongs": "collet gauge", "bezel": "bezel gauge", "band": "ring gauge"}

// leavesOpen reports whether a message leaves a measure of the piece to the answer, and which.
func (m *message) leavesOpen() (measure string, ok bool) {
	if !m.says(leftToAnswer...) && !m.says(notKnown...) || m.says(askedToLearn...) {
		return "", false
	}
	for _, t := range m.tokens {
		if named := openMeasures[t.text]; named != "" {
			if measure != "" && measure != named {
				return "", false
			}
			measure = named
		}
	}
	return measure, measure != ""
}

// leftToUs is the piece in talk as it is, or with what else is told of it, where a measure of
// it is left open.
func (m *message) leftToUs() (Reading, bool) {
	measure, ok := m.leavesOpen()
	piece, inTalk := m.pieceInTalk()
	if !ok || !inTalk || readersOf[piece.Request] == nil || m.words() > longestRemark+fewWords || m.beginsAnew(piece.Request) {
		return Reading{}, false
	}
	if asked := m.context.Asked; asked != nil {
		return m.stillWanted(*asked)
	}
	if measure == "thickness" && len(m.found)+len(m.alloys) == 0 && piece.Options["thickness"] == "" {
		if f := factNamed(usualThicknesses[piece.Request]); f != nil {
			return explain(f), true
		}
	}
	if piece.Request == "prongs" && measure == "width" {
		return Reading{}, false // a fact tells it
	}
	r := figuresOf(piece)
	if len(m.found)+len(m.alloys) > 0 {
		if r, ok = m.laidOverLikely(piece); !ok || r.Outcome != Request {
			return Reading{}, false
		}
	}
	r.Notes = append(slices.Clone(r.Notes), fmt.Sprintf("you left the %s open: the answer takes what is usual, and says so", measure))
	return r, true
}

// stillWanted asks again for a figure that nobody can choose but its maker.
func (m *message) stillWanted(asked Reading) (Reading, bool) {
	if asked.Missing == "" || len(m.found)+len(m.alloys) > 0 {
		return Reading{}, false
	}
	again := asked
	again.Options = maps.Clone(asked.Options)
	again.Ask = cantChoose + asked.Ask
	return again, true
}

// cantChoose begins a question that is asked again because its answer was left open.
const cantChoose = "I can't choose that for you. "
