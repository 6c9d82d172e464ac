package sentence

import (
	"strings"
)

// ringSums work out what the figures of a message are for, from which of them are told.
var ringSums = map[string]func(*ringFigures) (Reading, bool){
	"halo":     (*ringFigures).halo,
	"jumpring": (*ringFigures).jumpring,
	"tubeset":  (*ringFigures).tubeset,
}

// ringByFigures reads a message about small stones round a stone, jump rings or stones in
// tube by what each figure most likely measures, in place of a question about one of them,
// or of what the message hardly asks for.
func (m *message) ringByFigures(r Reading) Reading {
	c := m.context
	if c.Asked != nil || c.Last != nil || c.Aid != "" || c.surely || len(m.found) == 0 || len(m.found) == 1 && m.tooShort() {
		return r
	}
	request, chance := "", 0.0
	for of := range ringSums {
		if p := m.chanceOfRing(of); p > chance && m.canAnswer(of) {
			request, chance = of, p
		}
	}
	least, mayBe := m.mayBeRing(r, request, chance)
	if !mayBe {
		return r
	}
	f, ok := m.ringFiguresOf(request)
	if !ok || f.sure < least || standsFast(r.Topic) && !(r.Topic == "gap left in a halo" && f.wholeHalo()) {
		return r
	}
	if read, ok := ringSums[request](&f); ok && read.Outcome != Question {
		return read
	}
	return r
}

// chanceOfRing is how likely a message is about a request. Which stone a tube takes is
// one of stones in tube, and so is a stone that lies between a tube's bore and outside.
func (m *message) chanceOfRing(of string) float64 {
	switch {
	case of != "tubeset":
		return m.chance(of)
	case m.stoneInTubeByMeasure():
		return 1
	case m.says("tube", "tubing", "pipe", "od", "wall", "walls"):
		return m.chance(of, "match")
	}
	return m.chance(of)
}

// stoneInTubeByMeasure reports whether one size can only be a tube, as outside x wall, and
// one other figure only the stone in it.
func (m *message) stoneInTubeByMeasure() bool {
	var tube *quantity
	stones := 0
	for _, q := range m.found {
		if q.measure == size && len(q.sides) == 2 && q.sides[1] <= 0.22*q.sides[0] && q.sides[1] <= 1.5 && q.sides[0] <= 12 {
			if tube != nil {
				return false
			}
			tube = q
		}
	}
	if tube == nil {
		return false
	}
	for _, q := range m.found {
		if q.measure != length && q.measure != bare {
			continue
		}
		if q.value <= tube.sides[0]-2*tube.sides[1] || q.value >= tube.sides[0] {
			return false
		}
		stones++
	}
	return stones == 1 && len(m.meaning("outline:")) == 0 && !m.says("inner tube", "telescoping", "sleeve", "slide", "slides", "hinge")
}

// How likely a message must be about one of these requests: to be read for it in place of
// a question, of words, and of another piece.
const (
	ringPerhaps = 0.4
	ringLikely  = 0.6
	ringSurely  = 0.85
	// figuresAsked is enough where a figure is asked for in words.
	figuresAsked = 0.2
)

// mayBeRing reports whether a message may be read for a request in place of what was
// found, and how sure each figure's place must be then.
func (m *message) mayBeRing(r Reading, request string, chance float64) (least float64, ok bool) {
	other := m.chance(r.Request)
	if request == "tubeset" && r.Request == "match" {
		other = 0
	}
	switch {
	case r.Outcome == Question && r.Request == "match" && r.Missing == "tubesize":
		return 0, false // the bore is told and no stone
	case request == "tubeset" && m.stoneInTubeByMeasure() && (r.Verdict == "" || r.Request == "match"):
		return placedAtLeast, true
	case request == "tubeset" && r.Request == "match" && r.Outcome == Request && r.Verdict != "":
		return 0, false
	case r.Verdict != "" || len(r.Changed) > 0 || m.says(weaves...) && request == "jumpring" && m.ratioSaid() == nil:
		return 0, false
	}
	return placesInstead(m, r, request, chance, other)
}

// placesInstead is how sure each figure must be placed by the outcome of what was found.
func placesInstead(m *message, r Reading, request string, chance, other float64) (least float64, ok bool) {
	switch {
	case r.Outcome == Unknown, r.Outcome == Question && r.Request == request:
		return placedPerhaps, chance >= ringPerhaps || r.Request == request
	case r.Outcome == Question:
		return placedPerhaps, chance >= ringPerhaps && chance > other
	case r.Outcome == Request && r.Request == request && request == "halo" && m.says("overall", "total diameter", "total width", "end up", "finish at", "finished"):
		return placedPerhaps, true // one of its figures is no stone's
	case r.Outcome == Request && r.Request == request && request == "halo" && parse(r.Options["with"]) > parse(r.Options["size"])/2:
		return placedPerhaps, true // stones half as wide as their centre are seldom meant
	case r.Outcome == Request && r.Request == request:
		return placedSurely, chance >= ringLikely
	case r.Outcome == Request && readersOf[r.Request] != nil:
		return placedSurely, chance >= ringSurely && !m.says(r.Request)
	case r.Outcome == Explanation && factNamed(r.Topic) != nil, r.Request == "trouble":
		return placedSurely, chance >= ringLikely && m.figureCount() > 1
	}
	return 0, false
}

// surelyRings reports whether a piece is what its request works out of the figures where
// they all are surely placed.
func (m *message) surelyRings(r Reading) bool {
	work := ringSums[r.Request]
	if work == nil || m.context.Last != nil || m.chance(r.Request) < ringLikely && !(m.chance(r.Request) >= figuresAsked && m.asksFigure()) {
		return false
	}
	f, ok := m.ringFiguresOf(r.Request)
	if !ok || f.sure < placedSurely {
		return false
	}
	same, ok := work(&f)
	return ok && same.Line() == r.Line()
}

// asksFigure reports whether a figure is asked for in words.
func (m *message) asksFigure() bool {
	return m.says(wantsFigures...) || m.says("how many", "how long", "how much", "which tube", "what tube", "bur", "total", "number", "size for")
}

// inAll joins what is told of several pieces.
func inAll(parts []string) string { return strings.Join(parts, "; ") + "." }

// sentenceCase begins a text with a capital.
func sentenceCase(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
