package sentence

import (
	"slices"
	"strings"
)

var (
	// outsideOfMetal are words beside a measure that is taken over the metal.
	outsideOfMetal = wordSet("outside outer od external externally exterior")
	// insideOfMetal are words beside a measure that is taken within the metal.
	insideOfMetal = wordSet("inside inner id internal internally interior")
	// finishing are words before a measure that the piece has when it is done.
	finishing = wordSet("finished finishing finishes finish ends end ending")
	// upperEnd are words of the end of a setting where the stone sits: its rim is wider than
	// the stone.
	upperEnd = wordSet("top tops upper mouth above")
	lowerEnd = wordSet("bottom base lower foot below")
	// placed are words after "inside" where it names a place.
	placed = wordSet("a an the my our your another this that")
	// besideEnd may come between a measure and the word for its end or its face.
	besideEnd = wordSet("of at the to in on be is is: it's its a an diameter dia diam size dimension measure measures measuring about approx roughly = : - mm across wide width be should end edge opening for and me up out")
)

// stoneIs begins the choice of the stone, where a size may be the metal's.
const stoneIs = "the stone is "

// askStone asks whose a size is, and for what is not told of the stone.
func (d *draft) askStone(assumeOval bool) {
	d.askOfMetal()
	d.needStone(assumeOval)
}

// askOfMetal asks whether a size is the stone's where it is told of the finished metal: a
// setting is laid out for its stone, and its rim comes out wider.
func (d *draft) askOfMetal() {
	m := d.m
	q := m.quantityOf("size")
	if q == nil && !d.has("size") {
		q = m.freeOfMetal()
	}
	if q == nil || d.ask != "" || !m.isOfMetal(q) {
		return
	}
	if q.option == "" {
		d.set("size", q)
	}
	if !d.has("outline") && len(q.sides) < 2 {
		d.say("outline", "round")
	}
	typed := strings.TrimSpace(q.typed(m))
	choices := []Choice{d.with(stoneIs + typed)}
	ask := "Is " + typed + " the size of the stone, or of the finished metal on the outside? I lay a setting out for its stone: the rim follows from that."
	if inside := d.insideOfBezel(q); inside > 0 {
		choices = append(choices, d.with("the metal is "+typed+" outside, so "+plain(inside)+" mm inside", "size", plain(inside)))
	}
	d.question("size", ask, choices...)
}

// freeOfMetal is the first measure without a place that is told of the finished metal.
func (m *message) freeOfMetal() *quantity {
	const least = 2
	for _, q := range m.unused() {
		if (q.measure == length || q.measure == bare || q.measure == size) && q.value >= least && q.role != "height" && q.role != "depth" && m.isOfMetal(q) {
			return q
		}
	}
	return nil
}

// insideOfBezel is the width inside a bezel's straight wall, in mm; 0 where that doesn't
// follow from its outside.
func (d *draft) insideOfBezel(q *quantity) float64 {
	wall := d.m.quantityOf("thickness")
	if d.request != "bezel" || wall == nil || len(q.sides) > 1 {
		return 0
	}
	return q.value - 2*thicknessOf(wall)
}

// isOfMetal reports whether a measure is told of the finished metal: of its outside, or of
// its upper end where a lower one is told too. What is said of a stone is the stone's.
func (m *message) isOfMetal(q *quantity) bool {
	if m.ofStoneWord(q) || m.ofOutline(q) || m.saidOfStone(q) {
		return false
	}
	if m.behindEnd(q, lowerEnd) && !m.endBeside(q, upperEnd) {
		return false
	}
	return m.endBeside(q, outsideOfMetal) || m.behindEnd(q, finishing) || m.endBeside(q, upperEnd) && m.tellsLowerEnd()
}

// toldInside reports whether a measure is told of the inside of the metal. "12 mm inside a
// 20 mm tube" says where the piece goes, not how it is measured.
func (m *message) toldInside(q *quantity) bool {
	if q == nil || m.endBeside(q, outsideOfMetal) || q.role != "inner" && !m.endBeside(q, insideOfMetal) {
		return false
	}
	for k := max(0, q.first-nearEnd); k < q.next+nearEnd; k++ {
		if insideOfMetal[m.at(k).text] && placed[m.at(k+1).text] {
			return false
		}
	}
	return true
}

// saidOfStone matches a measure that follows the stone's word with nothing between but words
// that measure: "the stone is 8 mm outside".
func (m *message) saidOfStone(q *quantity) bool {
	return m.behind(q, func(k int) bool { return m.saysAt(k, "stone") })
}

// nearEnd is how many words away a measure's end or face may be named.
const nearEnd = 4

// endBeside reports whether one of the words stands beside a measure, with nothing between
// but words that measure.
func (m *message) endBeside(q *quantity, words map[string]bool) bool {
	for k := q.next; k < q.next+nearEnd; k++ {
		if words[m.at(k).text] {
			return true
		}
		if !besideEnd[m.at(k).text] {
			break
		}
	}
	return m.behindEnd(q, words)
}

// behindEnd reports whether a measure stands behind one of the words.
func (m *message) behindEnd(q *quantity, words map[string]bool) bool {
	return m.behind(q, func(k int) bool { return words[m.at(k).text] })
}

// behind reports whether a measure stands behind a token that is what is looked for, with
// nothing between but words that measure.
func (m *message) behind(q *quantity, is func(token int) bool) bool {
	for k := q.first - 1; k >= q.first-nearEnd; k-- {
		if is(k) {
			return true
		}
		if !besideEnd[m.at(k).text] {
			return false
		}
	}
	return false
}

// tellsLowerEnd reports whether the lower end of a setting is told too.
func (m *message) tellsLowerEnd() bool {
	return m.says("bottom", "base", "lower", "foot", "below", "narrow end", "small end", "tapering", "tapers")
}

// asksWhoseSize reports whether a question asks if a size is the stone's or the metal's.
func (r Reading) asksWhoseSize() bool {
	return r.Outcome == Question && r.Missing == "size" && len(r.Choices) > 0 && strings.HasPrefix(r.Choices[0].Label, stoneIs)
}

// toldWhoseSize reads an answer in words to that question: "the stone", "outside".
func (m *message) toldWhoseSize() (Reading, bool) {
	const longest = 8
	asked := m.context.Asked
	if asked == nil || !asked.asksWhoseSize() || len(m.found) > 0 || len(m.tokens) > longest {
		return Reading{}, false
	}
	ofMetal := m.says("outside", "outer", "metal", "finished", "not the stone", "rim", "over all", "overall")
	switch {
	case !ofMetal && m.says("stone", "gem", "yes", "girdle", "the first"):
		return m.chosen(asked.Choices[0]), true
	case ofMetal && len(asked.Choices) > 1:
		return m.chosen(asked.Choices[1]), true
	case ofMetal:
		d := m.draftWith(asked.Request, asked.Options)
		delete(d.options, "size")
		d.question("size", "Which size is the stone, then, in mm? The rim comes out wider than the stone, and the answer tells by how much.")
		return d.reading(), true
	}
	return Reading{}, false
}

// stillOfMetal asks again whose a size is, the stone's or the metal's, where a message that
// goes on from the question leaves that open: it gives other figures of the piece.
func (m *message) stillOfMetal(r Reading) Reading {
	asked := m.context.Asked
	if asked == nil || !asked.asksWhoseSize() {
		return r
	}
	size := asked.Options["size"]
	if r.Outcome != Request || r.Request != asked.Request || r.Options["size"] != size || m.says("stone", "gem", "yes") {
		return r
	}
	if slices.ContainsFunc(m.found, func(q *quantity) bool { return lengthOf(q.shown) == lengthOf(size) }) {
		return r
	}
	return m.askPlace(asked, r)
}
