package sentence

import (
	"cmp"
	"maps"
	"math"
	"slices"
)

// Some of what is said after a piece can hardly be meant otherwise, whatever the chances of
// its words: the figure that was asked for with others that have their words, a gauge, or a
// figure right beside the name of what it changes. It is not asked whether that is meant.

// longestSurely is how many words such a message has at most.
const longestSurely = 10

// longestBeside is the same of a message whose figure stands beside its word.
const longestBeside = 8

// plainlySaid reports whether a request is surely what a message after a piece means.
func (m *message) plainlySaid(piece Last, r Reading) bool {
	if r.Request != piece.Request || m.words() > longestSurely || len(m.found) == 0 || m.says(notSure...) {
		return false
	}
	changed := changedIn(r, piece)
	for name := range piece.Options {
		if r.Options[name] == "" {
			return false
		}
	}
	return m.eachBesideItsWord(r, changed) || len(changed) == len(m.found) && m.answersPlainly(r) || m.tellsSection(piece, changed) || len(m.found) == 1 && len(changed) == 1 && m.changesPlainly(piece, changed)
}

// notSure are words of who does not know or tells of another thing.
var notSure = []string{"idk", "dont know", "not sure", "no idea", "or", "maybe", "another", "second", "other", "not", "each", "instead of"}

// answersPlainly reports whether a message answers the open question with the figure that
// was asked for, and each other figure has its unit or its word.
func (m *message) answersPlainly(r Reading) bool {
	asked := m.context.Asked
	if asked == nil || asked.Doubted || asked.Missing == "" || r.Request != asked.Request || r.Options[asked.Missing] == "" || !holdsAll(r.Options, asked.Options) || m.asksInWords() || len(m.found) == 1 && m.found[0].measure == bare {
		return false
	}
	places := map[string]bool{}
	for _, q := range m.found {
		place := m.placeIn(r, q)
		told := place == asked.Missing || q.measure == gauge || q.measure == angle || m.metalBefore(q) && place == "thickness" || m.besideItsWord(r.Request, place, q)
		if place == "" || places[place] || place == "ring" && q.measure == length || !told || place == asked.Missing && m.roleBeside(q) && !m.besideItsWord(r.Request, place, q) {
			return false
		}
		places[place] = true
	}
	return places[asked.Missing]
}

// followsFrom are options that another one brings with it: a base makes the cone taper to it.
var followsFrom = map[string]string{"base": "basesize", "taper": "basesize"}

// eachBesideItsWord reports whether each figure of a message stands beside the word for what
// it changes of the piece, or has the unit of it, and nothing but those is changed.
func (m *message) eachBesideItsWord(r Reading, changed map[string]string) bool {
	if m.asksInWords() || len(m.found) < 2 {
		return false
	}
	places := map[string]bool{}
	for _, q := range m.found {
		place := m.placeIn(r, q)
		told := q.measure == gauge || q.measure == angle || place == "thickness" && (m.metalBefore(q) || m.metalBehind(q) || metalWords[m.at(q.next).text] && r.Request != "bezel") || place == "basesize" || m.besideItsWord(r.Request, place, q)
		if place == "" || decisive[place] || places[place] || !told {
			return false
		}
		places[place] = true
	}
	for option := range changed {
		if !places[option] && !places[followsFrom[option]] && !(option == "alloy" && len(m.alloys) == 1) {
			return false
		}
	}
	return true
}

// metalWords stand before the thickness of what they name: "my strip is 0.3".
var metalWords = wordSet("strip sheet metal silver gold wire plate copper brass stock")

// metalBefore reports whether a figure is what a word for the metal is said to be.
func (m *message) metalBefore(q *quantity) bool {
	before := m.at(q.first - 1).text
	return metalWords[before] || (before == "is" || before == "s" || before == "at") && metalWords[m.at(q.first-2).text]
}

// besideItsWord reports whether the word for a measure stands right beside a figure and
// names the option that has it.
func (m *message) besideItsWord(request, option string, q *quantity) bool {
	after, before := q.next, q.first-1
	for skipped := 0; skipped < 2 && beside[m.at(after).text] && m.at(after).word(); skipped++ {
		after++
	}
	for skipped := 0; skipped < 2 && beside[m.at(before).text] && m.at(before).word(); skipped++ {
		before--
	}
	for _, i := range []int{after, before} {
		if role := measuresSaid[m.at(i).text]; role != "" {
			return cmp.Or(rolesOf[request][role], rolesOf[""][role]) == option
		}
	}
	return false
}

// mostRingWide and mostRingThick are the most that a ring's shank measures in mm where it is
// told as two figures.
const (
	mostRingWide  = 14
	mostRingThick = 3.5
)

// tellsSection reports whether all that a message changes of a ring is its width and its
// thickness, told as one: "shank's 4 by 1.7".
func (m *message) tellsSection(piece Last, changed map[string]string) bool {
	if piece.Request != "resize" && piece.Request != "band" || len(m.found) != 1 || m.found[0].measure != size || len(m.found[0].sides) != 2 {
		return false
	}
	sides := m.found[0].sides
	rest := maps.Clone(changed)
	delete(rest, "width")
	delete(rest, "thickness")
	return len(rest) == 0 && max(sides[0], sides[1]) <= mostRingWide && min(sides[0], sides[1]) <= mostRingThick
}

// otherMetal names a part whose metal is not that of the piece.
var otherMetal = []string{"band", "plate", "back", "backplate", "shank", "ring", "base", "bail", "pin"}

// changesPlainly reports whether the only figure of a message is the only option that it
// changes, by its unit, by what it counts or by the word right beside it.
func (m *message) changesPlainly(piece Last, changed map[string]string) bool {
	q := m.found[0]
	if m.asksWhether() && q.measure != gauge {
		return false
	}
	for option := range changed {
		switch {
		case q.measure == gauge:
			return (option == "thickness" || option == "wire") && (piece.Request == "band" || !m.says(otherMetal...))
		case q.measure == count:
			return q.thing == "prongs" && option == "number" && q.value == math.Trunc(q.value) && !m.startsWith("how", "why", "what if")
		case q.measure == bare || q.measure == length:
			return m.words() <= longestBeside && m.besideItsWord(piece.Request, option, q) && !slices.Contains([]string{"size", "ring"}, option)
		}
	}
	return false
}
