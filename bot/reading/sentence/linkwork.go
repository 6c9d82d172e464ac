package sentence

import (
	"fmt"
	"math"
	"strings"
)

// jumpring reads jump rings: wire, inside diameter, mandrel or aspect ratio, and
// how many.
func (m *message) jumpring() (Reading, bool) {
	if !m.canAnswer("jumpring") {
		return Reading{}, false
	}
	d := m.draft("jumpring")
	d.places = []place{{"inside", "inside diameter", 0.8, 100}, {"wire", "wire", 0.2, 8}, {"count", "number of rings", 1, 100_000}}
	if q := m.counts("rings", "jump rings", "pieces"); q != nil {
		d.set("count", q)
	}
	for _, s := range m.senses { // "50 jumprings"
		for _, q := range m.found {
			if contains(s.Means, "jumpring") && q.next == s.first && q.measure == bare && !q.used && !d.has("count") {
				d.set("count", q)
			}
		}
	}
	d.weave()
	d.ratio()
	d.jumpringWire()
	inside := "inside"
	if m.has("mandrel") || m.says("rod", "dowel", "wound on", "wound round", "wound around", "wrapped on", "wrapped around", "knitting needle", "nail", "drill shank") {
		inside = "mandrel"
	}
	d.set("kerf", m.with("kerf"))
	if q := m.beside("mandrel"); q != nil && inside == "mandrel" {
		d.set(inside, q)
	}
	if q := m.with("outer"); q != nil && !d.has(inside) && d.has("wire") {
		q.used = true
		inside = "inside"
		d.say(inside, plain(q.value-2*thicknessOf(m.quantityOf("wire"))))
		d.note("%s outside is %s mm inside", strings.TrimSpace(q.typed(m)), d.options[inside])
	}
	if q := m.with("length"); q != nil && m.says("chain") {
		d.set("chain", q)
	}
	for _, q := range m.found { // "a 450 mm chain"
		if m.says("chain", "necklace") && q.measure == length && q.role == "" && !q.used && q.value >= 50 && q.unit && m.says("how many") && !d.has("chain") && !d.has("count") && !m.says("from", "out of") {
			d.set("chain", q)
		}
	}
	d.set(inside, m.with("inner", "diameter", "width"))
	if !d.has(inside) && !d.has("ratio") {
		d.set(inside, m.first(0.8, 60, length))
	}
	if !d.has(inside) && !d.has("ratio") {
		d.set(inside, m.first(0.8, 60, bare))
	}
	d.ringsOfLength(inside)
	for _, q := range m.unused() { // "need 50"
		if w := m.at(q.first - 1).text; !d.has("count") && q.measure == bare && q.value == math.Trunc(q.value) && (w == "need" || w == "want" || w == "making" || w == "make" || w == "for" || w == "about") {
			d.set("count", q)
		}
	}
	d.alloy("alloy", false)
	if !d.has("wire") || d.has("wire") && (d.hasInside() || m.wantsRings()) {
		d.needRing()
		return d.reading(), true
	}
	return Reading{}, false
}

// hasInside reports whether the ring's size is known in one of its ways.
func (d *draft) hasInside() bool { return d.has("inside") || d.has("mandrel") || d.has("ratio") }

// needRing asks for what a jump ring lacks.
func (d *draft) needRing() {
	switch {
	case !d.has("wire"):
		d.question("wire", "How thick is the wire?", d.with("18 gauge", "wire", "18ga"), d.with("16 gauge", "wire", "16ga"), d.with("1.2 mm", "wire", "1.2mm"))
	case !d.hasInside():
		d.question("inside", "What is the inside diameter of the ring, in mm?", d.with("4 mm", "inside", "4"), d.with("5 mm", "inside", "5"), d.with("6 mm", "inside", "6"))
	}
}

// ringsOfLength counts the rings that a length of wire makes: "how many from 5 m?"
func (d *draft) ringsOfLength(inside string) {
	wire, across := d.m.quantityOf("wire"), d.m.quantityOf(inside)
	if wire == nil || across == nil || d.has("count") || !d.m.says("how many") {
		return
	}
	for _, q := range d.m.unused() {
		if q.measure == length && q.value >= 100 {
			q.used = true
			n := int(q.value / (math.Pi * (across.value + thicknessOf(wire))))
			d.say("count", fmt.Sprint(n))
			d.note("%s of wire is enough for %d rings, each pi x (inside + wire) long", strings.TrimSpace(q.typed(d.m)), n)
		}
	}
}

// canAnswer reports whether the catalogue has a request; where nobody says, it has.
func (m *message) canAnswer(request string) bool { return m.context.takes(request, "") }

// wantsRings tells a wish for jump rings from talk about them.
func (m *message) wantsRings() bool { return len(m.found) > 0 }

// ratio takes an aspect ratio: the bare number beside those words.
func (d *draft) ratio() {
	m := d.m
	for _, s := range m.senses {
		if phrase := m.between(s.first, s.next); phrase != "aspect ratio" && phrase != "ar" && phrase != "ratio" {
			continue
		}
		for _, q := range m.found {
			if gap := max(q.first-s.next, s.first-q.next); !q.used && q.measure == bare && gap >= 0 && gap <= 1 {
				d.set("ratio", q)
				return
			}
		}
	}
}

// jumpringWire takes the wire: a gauge, a thickness, or the smaller of two
// lengths.
func (d *draft) jumpringWire() {
	m := d.m
	if q := m.of(gauge); q != nil {
		d.set("wire", q)
		d.say("wire", q.shown)
		return
	}
	q := m.beside("wire")
	if q != nil && q.value > 8 {
		q = nil
	}
	if q == nil {
		q = m.with("thickness", "wall")
	}
	if q == nil {
		q = m.first(0.2, 2.6, length)
	}
	if q == nil {
		return
	}
	d.set("wire", q)
	if q.measure == bare {
		d.say("wire", q.shown+" mm")
	}
	if q.measure == length {
		d.say("wire", plain(q.value)+"mm")
	}
}

// quantityOf is the quantity that an option was taken from, nil for none.
func (m *message) quantityOf(option string) *quantity {
	for _, q := range m.found {
		if q.used && q.option == option {
			return q
		}
	}
	return nil
}

// beside is the free length right beside a word of this meaning: "0.8 wire", "wire
// 1.2", "3 mm mandrel".
func (m *message) beside(meaning string) *quantity {
	for _, s := range m.senses {
		if !contains(s.Means, meaning) {
			continue
		}
		for _, q := range m.found {
			if q.used || q.role != "" || q.measure != length && q.measure != bare {
				continue
			}
			behind := q.first - s.next
			if q.next == s.first || behind == 0 || behind == 1 && (m.at(s.next).text == "is" || m.at(s.next).text == "of" || m.at(s.next).text == ",") {
				return q
			}
		}
	}
	return nil
}

// weave takes out the numbers of a weave, "4 in 1", which say nothing of a ring.
func (d *draft) weave() {
	for k := 0; k+1 < len(d.m.found); k++ {
		a, b := d.m.found[k], d.m.found[k+1]
		if a.measure == bare && b.measure == bare && b.value == 1 && a.value <= 12 && b.first-a.next == 1 && d.m.at(a.next).text == "in" {
			a.used, b.used = true, true
			d.note("the weave, %s in 1, changes nothing in a single ring", a.shown)
		}
	}
}

// ringResize reads a change of ring size. One size alone is asked about; talk
// without any size is left to the facts.
func (m *message) ringResize() (Reading, bool) {
	if m.of(ringSize) == nil && m.canAnswer("resize") && m.startsWith("resize", "please resize", "need to resize", "can you resize", "i need to resize", "i want to resize", "could you resize") {
		return m.resize(), true // the sizes are asked for
	}
	if !m.canAnswer("resize") || m.of(ringSize) == nil || m.widerSize() {
		return Reading{}, false
	}
	return m.resize(), true
}

// aboutStoneInTube matches a stone that is set in tube, said without those words:
// "which bur for a 3.5 mm stone in tube".
func (m *message) aboutStoneInTube() bool {
	return m.has("tube") && !m.has("block", "cab", "weight", "casting", "whichstone") && m.cues["collar"]+m.cues["bezel"]+m.cues["saddle"] < 3 &&
		(m.has("stone") || len(m.meaning("outline:"))+len(m.meaning("gem:")) > 0) && len(m.found) > 0 &&
		m.says("in tube", "in tubing", "in a tube", "which bur", "what bur", "bur", "tube do i need", "the tube be", "tube setting") && m.stoneSides() == nil
}

// tubeset reads a stone in a tube.
func (m *message) tubeset() (Reading, bool) {
	if !m.canAnswer("tubeset") {
		return Reading{}, false
	}
	if r, ok := m.stoneOfTube(); ok {
		return r, true
	}
	d := m.draft("tubeset")
	d.places = []place{{"size", "size of the stone", 0.8, 15}, {"depth", "depth of the stone", 0.3, 10}}
	if q := m.counts("stones", "settings", "pieces"); q != nil {
		d.set("count", q)
	}
	d.set("spacing", m.with("gap"))
	for _, q := range m.found {
		if q.measure == size && !q.used && len(q.sides) == 2 && m.ofMetal(q) {
			d.set("tubesize", q)
		}
	}
	d.outline()
	delete(d.options, "gem") // tubes are the same for every stone
	d.set("depth", m.with("depth"))
	d.set("size", m.with("diameter", "width"))
	if !d.has("size") {
		d.set("size", m.first(0.8, 15, length))
	}
	if !d.has("size") {
		d.set("size", m.first(0.8, 15, bare))
	}
	d.alloy("alloy", false)
	if !d.has("size") {
		if len(m.found) == 0 && !m.says("cut", "need", "make", "which tube", "what tube", "what size") {
			return Reading{}, false
		}
		d.question("size", "How wide is the round stone, in mm?", d.with("3 mm", "outline", "round", "size", "3"), d.with("4 mm", "outline", "round", "size", "4"), d.with("5 mm", "outline", "round", "size", "5"))
		return d.reading(), true
	}
	if !d.has("outline") {
		d.say("outline", "round")
	}
	return d.reading(), true
}

// stoneOfTube answers which stone a tube is for: that which covers half of its
// wall from above, so the outside less the wall.
func (m *message) stoneOfTube() (Reading, bool) {
	wall := m.with("wall", "thickness")
	outer := m.with("outer", "diameter", "width")
	if wall == nil {
		return Reading{}, false
	}
	for _, q := range m.found {
		if outer == nil && q != wall && (q.measure == length || q.measure == bare) && q.role == "" {
			outer = q
		}
	}
	if outer == nil || outer.value <= 2*wall.value {
		return Reading{}, false
	}
	wall.used, outer.used = true, true
	return Reading{Outcome: Explanation, Topic: "stone of a tube", Source: "C. Lewton-Brain, Tube Setting",
		Text: fmt.Sprintf("A tube of %s mm with a wall of %s mm takes a round stone of %s mm: from above the stone covers half of the wall, so it is the outside less the wall. To check another stone: tubeset round %s tubesize %sx%s.",
			plain(outer.value), plain(wall.value), plain(outer.value-wall.value), plain(outer.value-wall.value), plain(outer.value), plain(wall.value))}, true
}

// aboutStonesRound matches small stones round another stone, without the word for
// it: "how many 1.5 mm diamonds go around a 6.5 mm round".
func (m *message) aboutStonesRound() bool {
	return m.says("go around a", "go round a", "fit round a", "fit around a", "come out even", "go round an", "go around an", "fit round an", "fit around an") && m.says("stones", "diamonds", "melee", "small stones") && len(m.meaning("outline:")) > 0 && !m.has("cab", "ring", "tube")
}

// halo reads small stones round a centre stone.
func (m *message) halo() (Reading, bool) {
	if !m.canAnswer("halo") || len(m.found) == 0 {
		return Reading{}, false
	}
	d := m.draft("halo")
	d.places = []place{{"with", "size of the small stones", 0.7, 5}, {"size", "size of the centre stone", 2, 40}}
	if q := m.counts("stones"); q != nil {
		d.set("count", q)
	}
	d.outline()
	delete(d.options, "gem")
	d.set("size", m.stoneSides())
	d.set("gap", m.with("gap"))
	// Of two lengths the smaller are the small stones'.
	var small, large *quantity
	for _, q := range m.found {
		if q.used || q.measure != length && q.measure != bare || q.role != "" && q.role != "diameter" && q.role != "width" && q.role != "perimeter" {
			continue
		}
		if small == nil || q.value < small.value {
			small = q
		}
		if large == nil || q.value > large.value {
			large = q
		}
	}
	switch {
	case small != nil && (d.has("size") || small != large):
		d.set("with", small)
		if !d.has("size") {
			d.set("size", large)
		}
	case small != nil && small.value < 2.6:
		d.set("with", small)
	case small != nil:
		d.set("size", small)
	}
	d.alloy("alloy", false)
	if d.has("size") && !d.has("outline") {
		d.say("outline", "oval")
		if !strings.Contains(d.options["size"], "x") {
			d.say("outline", "round")
		}
		d.note("the centre stone is taken as %s; say its outline if it is not", d.options["outline"])
	}
	switch {
	case !d.has("size"):
		d.question("size", "What is the centre stone: outline and size?", d.with("a round of 6 mm", "outline", "round", "size", "6"), d.with("an oval of 8 x 6 mm", "outline", "oval", "size", "8x6"))
	case !d.has("with"):
		d.question("with", "How wide are the small stones, in mm?", d.with("1.3 mm", "with", "1.3"), d.with("1.5 mm", "with", "1.5"), d.with("2 mm", "with", "2"))
	}
	return d.reading(), true
}

// bangle reads a bangle by its inner diameter.
func (m *message) bangle() (Reading, bool) {
	if !m.context.takes("band", "bangle") || len(m.found) == 0 {
		return Reading{}, false
	}
	d := m.draft("band")
	d.places = []place{{"bangle", "inner diameter", 30, 120}, {"thickness", "thickness of the metal", 0.3, 8}, {"width", "width", 0.8, 30}}
	var outside *quantity
	for _, q := range m.found {
		if q.measure == size && len(q.sides) == 2 && min(q.sides[0], q.sides[1]) >= 30 {
			d.set("bangle", q)
		}
	}
	if !d.has("bangle") {
		if q := m.with("perimeter"); q != nil && m.has("wrist") && !m.says("cuff") {
			q.used = true
			d.say("bangle", plain(q.value/math.Pi))
			d.note("%s round the hand is %s mm across; a bangle must pass over the knuckles", strings.TrimSpace(q.typed(m)), plain(q.value/math.Pi))
		} else if q := m.with("perimeter"); q != nil && q.value > 94 && m.says("inside", "inner", "internal") {
			q.used = true
			d.say("bangle", plain2(q.value/math.Pi))
			d.note("%s round the inside is %s mm across", strings.TrimSpace(q.typed(m)), plain2(q.value/math.Pi))
		} else if q := m.with("outer"); q != nil && q.value >= 30 {
			outside = q
		} else if q := m.with("inner", "diameter", "width"); q != nil && q.value >= 30 {
			d.set("bangle", q)
		} else {
			d.set("bangle", m.first(30, 120, length, bare))
		}
	}
	d.profile()
	if (m.has("wire") || m.has("outline:round")) && !d.has("profile") {
		profile := "round"
		if m.has("squarewire") {
			profile = "square"
		}
		d.say("profile", profile)
	}
	oneSize := d.options["profile"] == "round" || d.options["profile"] == "square"
	if oneSize {
		d.thickness(8)
		for _, q := range m.found { // "62 x 52 inside, 4 mm square wire"
			if !d.has("thickness") && !q.used && (q.measure == length || q.measure == bare) && q.role == "" && q.value <= 8 {
				d.set("thickness", q)
			}
		}
	} else {
		d.section()
	}
	d.fromOutside(outside)
	d.alloy("alloy", false)
	if !d.has("bangle") {
		d.question("bangle", "What is the bangle's inner diameter, in mm?", d.with("60 mm", "bangle", "60"), d.with("65 mm", "bangle", "65"), d.with("68 mm", "bangle", "68"))
	}
	return d.reading(), true
}

// fromOutside takes a bangle by its outer diameter, less the metal on both sides.
func (d *draft) fromOutside(q *quantity) {
	if q == nil || d.has("bangle") {
		return
	}
	q.used = true
	t := parse(d.options["thickness"])
	if thick := d.m.quantityOf("thickness"); thick != nil {
		t = thicknessOf(thick)
	}
	said := strings.TrimSpace(q.typed(d.m))
	if t == 0 {
		d.question("thickness", fmt.Sprintf("How thick is the metal? The inside is %s less it on both sides.", said), d.with("2 mm", "bangle", plain2(q.value-4), "thickness", "2 mm"), d.with("3 mm", "bangle", plain2(q.value-6), "thickness", "3 mm"))
		return
	}
	d.say("bangle", plain2(q.value-2*t))
	d.note("%s outside is %s mm inside the metal", said, plain2(q.value-2*t))
}
