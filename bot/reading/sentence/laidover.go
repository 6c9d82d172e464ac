package sentence

import (
	"maps"
	"math"
	"slices"
	"strings"
)

// A message that goes on about the piece in hand is read by the reader of that
// piece's own request, which knows what its words and figures mean, and what it
// finds is laid over the piece: "the collet's 0.9 thick and 6 high" after prongs
// describes the prongs' collet.

// laidOver is a piece with what the message says of it laid over it. It is found
// only where every figure has its place.
func (m *message) laidOver(last Last) (Reading, bool) {
	for _, inHand := range []map[string]string{last.Options, nil} {
		if r, ok := m.readOnto(last, inHand); ok {
			return r, true
		}
	}
	return Reading{}, false
}

// readOnto reads the message as said of a piece of which these options are known,
// so that a figure without a word of its own takes a place that is still free.
func (m *message) readOnto(last Last, inHand map[string]string) (Reading, bool) {
	read := readersOf[last.Request]
	if read == nil || last.Request == "kit" || last.Request == "gauge" || last.Request == "weigh" && last.Options["collet"] != "" {
		return Reading{}, false
	}
	fresh := m.anew()
	fresh.context = Context{Takes: m.context.Takes, Excludes: m.context.Excludes, Addressed: true}
	fresh.inHand = inHand
	fresh.withoutPacket()
	fresh.bindRoles()
	said, ok := read(fresh)
	if !ok || said.Request != last.Request || len(fresh.unused()) > 0 || said.Unplaced != "" || inHand != nil && said.Outcome != Request {
		return Reading{}, false
	}
	if fresh.guesses(last) || last.Request == "weigh" && said.Options["form"] != last.Options["form"] {
		return Reading{}, false
	}
	d := fresh.draft(last.Request)
	d.options = fresh.laid(last.Options, said.Options)
	d.notes = said.Notes
	if needsStone[d.request] {
		d.needStone(d.request == "bezel")
	}
	fresh.assumed = nil // the reader's own draft has noted it
	if d.options["base"] != last.Options["base"] {
		return Reading{}, false // "bottom 3.6" may as well be measured
	}
	r := fresh.changedFrom(last, d)
	if r.Outcome != Request || len(r.Changed) == 0 {
		return Reading{}, false
	}
	return r, true
}

// guesses reports whether a figure took the place of one that the piece has already
// with nothing to tell that it is that one: no word, no unit, no likeness.
func (m *message) guesses(last Last) bool {
	for _, q := range m.found {
		before := last.Options[q.option]
		if q.used && before != "" && q.option == "size" && q.role == "width" {
			return true // "a piece 20 mm wide" is the sheet's
		}
		if !q.used || before == "" || q.role != "" || q.measure != bare && q.measure != length || q.option == "thickness" && m.metalBehind(q) {
			continue
		}
		if q.option == "size" && len(m.found) == 1 && m.namesOutlineBut(last.Options["outline"]) {
			continue // a stone of another outline has a size of its own
		}
		if q.option == "size" && (m.ofOutline(q) || m.outlineAt(q.next) || m.at(q.first-1).text == "for" || m.at(q.first-2).text == "for") {
			continue
		}
		if !q.likest(q.option, last) {
			return true
		}
	}
	return false
}

// namesOutlineBut reports whether the message names an outline other than this one.
func (m *message) namesOutlineBut(outline string) bool {
	named := m.meaning("outline:")
	return len(named) == 1 && named[0] != outline
}

// likest reports whether a figure is like that of an option, and more like it than
// like any other figure of the piece.
func (q *quantity) likest(option string, last Last) bool {
	of := func(name string) float64 {
		now := lengthOf(last.Options[name])
		if now == 0 || q.value == 0 || strings.Contains(last.Options[name], "x") {
			return math.Inf(1)
		}
		return max(now/q.value, q.value/now)
	}
	likeness := of(option)
	for name := range last.Options {
		if name != option && of(name) <= likeness {
			return false
		}
	}
	return likeness <= 1.5
}

// withoutPacket takes out what a bag or a packet says where a figure is given beside it:
// "0.3 I think, it says 30 on the bag".
func (m *message) withoutPacket() {
	if len(m.found) < 2 || !m.says("on the bag", "on the packet", "on the label", "on the box", "on it") {
		return
	}
	m.found = slices.DeleteFunc(m.found, func(q *quantity) bool {
		told := m.at(q.first-1).text == "says" || m.at(q.first-1).text == "said"
		if told {
			m.assume("%s is left out, since it is only what the packet says", strings.TrimSpace(q.typed(m)))
		}
		return told
	})
}

// laid lays options that were said over those of a piece. An outline and the system
// of a size count only where the message names them: the reader takes the usual
// one for a piece of which it knows no more.
func (m *message) laid(before, said map[string]string) map[string]string {
	options := maps.Clone(before)
	for name, v := range said {
		switch {
		case name == "outline" && options["outline"] != "" && len(m.meaning("outline:")) == 0:
		case name == "system" && options["system"] != "" && !slices.ContainsFunc(m.found, func(q *quantity) bool { return q.measure == ringSize }):
		default:
			options[name] = v
		}
	}
	return options
}

// holdsPiece reports whether a reading has what its request can't do without: it is
// of a piece of its own, whatever else it lacks.
func (r Reading) holdsPiece() bool {
	switch r.Outcome {
	case Request:
		return true
	case Question:
		for _, name := range []string{"size", "ring", "bangle", "wire", "inside", "wax", "from", "to", "carat", "points"} {
			if r.Options[name] != "" {
				return true
			}
		}
	}
	return false
}

// measuredBetter reports whether a message mends a measure that was given before: "the
// stone's 18.6 by 13.4 when I measured it properly".
func (m *message) measuredBetter() bool {
	return m.context.Last != nil && m.stoneSides() != nil && len(m.meaning("outline:")) == 0 && m.says("actually", "properly", "redo", "measured it", "calipers on it", "calipers", "sorry", "i meant", "hang on", "oops", "misread", "checked") && m.says("its", "it is", "stones", "the stone", "it", "i meant")
}

// ofAnother are words before the name of a piece that is only spoken of: "in a collet",
// "the ring is 1.5".
var ofAnother = map[string]bool{"the": true, "this": true, "my": true, "its": true, "their": true, "that": true, "her": true, "his": true}

// withAnother come before "a ring" where the piece in hand goes with it.
var withAnother = map[string]bool{"in": true, "on": true, "for": true, "of": true, "as": true, "under": true, "onto": true, "along": true, "with": true, "into": true, "only": true, "not": true, "is": true}

// beginsAnew reports whether the message itself begins another piece than that of a
// request: "a 6 mm bezel", "now a ring", "I need prongs for".
func (m *message) beginsAnew(request string) bool {
	if m.stoneSides() != nil && len(m.meaning("outline:")) > 0 {
		return true
	}
	if m.says("another", "new", "different piece", "next job", "next one", "separate") {
		return true
	}
	if m.startsWith("i need", "i want", "need", "want", "make me", "id like", "can you do", "could you do", "how do i make", "blank for", "strip for", "tube for", "disc for", "wire for") {
		return true
	}
	for _, s := range m.senses {
		if strongest(s.Cues) < 3 || s.Cues[request] >= 3 {
			continue
		}
		before := m.at(s.first - 1).text
		mentioned := ofAnother[before] || m.at(s.next).glued || strings.HasSuffix(m.at(s.next-1).text, "s") && m.possessive(s.next) || (before == "a" || before == "an") && withAnother[m.at(s.first-2).text] || withAnother[before]
		if !mentioned {
			return true
		}
	}
	return false
}

// possessive matches the "is" or the figure behind "collets" typed for "collet's".
func (m *message) possessive(i int) bool {
	return m.at(i).number || m.at(i).text == "is" || m.at(i).text == "."
}

// pieceMeant is the piece that the message names: the last one, or the latest of
// another request whose words it has, "silver for the ring" after a bezel on a ring.
func (m *message) pieceMeant() Last {
	last := *m.context.Last
	if m.cues[last.Request] > 0 {
		return last
	}
	for _, piece := range m.context.Earlier {
		if m.cues[piece.Request] >= 2 {
			return piece
		}
	}
	return last
}

// tellsOutcome matches "too short", "came out 3.6 high": what is said of a piece that was
// made, and no measure of the one to make.
func (m *message) tellsOutcome() bool {
	return m.says("too", "came out", "comes out", "ended up", "turned out", "i got", "got it to", "i make it", "sounds off", "looks off", "scrap", "left over")
}
