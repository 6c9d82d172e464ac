package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/tubeset"
)

// jumpring reads jump rings: wire, inside diameter, mandrel or aspect ratio, and
// how many.
func (m *message) jumpring() (Reading, bool) {
	if !m.canAnswer("jumpring") {
		return Reading{}, false
	}
	d := m.draft("jumpring")
	d.places = []place{{"inside", "inside diameter", 0.8, 100}, {"wire", "wire", 0.2, 8}, {"count", "number of rings", 1, 100_000}, {"chain", "length of the chain", 20, 50_000}}
	d.takeLikely(placesOfJumpRing)
	d.countOfRings()
	d.ratio()
	d.set("kerf", m.with("kerf"))
	d.jumpringWire()
	d.chainOfRings()
	d.insideOfRing()
	d.ringsOfLength("inside")
	d.alloy("alloy", false)
	if !d.has("wire") || d.hasInside() || m.wantsRings() {
		d.needRing()
		r := d.reading()
		r.Verdict = d.ratioVerdict()
		return r, true
	}
	return Reading{}, false
}

// ratioVerdict says whether the wire suits the ring, where that is asked; common
// practice, no source.
func (d *draft) ratioVerdict() string {
	m := d.m
	wire, inside := m.quantityOf("wire"), m.quantityOf("inside")
	if wire == nil || inside == nil || !m.asksWhether() && !m.says("too thin", "too thick", "strong enough", "thick enough") {
		return ""
	}
	switch ratio := inside.value / thicknessOf(wire); {
	case ratio > 7:
		return fmt.Sprintf("No: the inside is %.1f times the wire, so the ring bends open easily. Three to five times is strong; solder it, or take thicker wire.", ratio)
	case ratio < 2.5:
		return fmt.Sprintf("It depends: the inside is only %.1f times the wire, so the ring is stiff to close and hardly takes a second ring.", ratio)
	default:
		return fmt.Sprintf("Yes: the inside is %.1f times the wire; three to five times is strong, up to seven is usual where it is soldered or carries little.", ratio)
	}
}

// countOfRings takes how many rings: "100 jump rings", "x 60", "per hundred", "20
// turns", "need 50".
func (d *draft) countOfRings() {
	m := d.m
	if q := m.counts("rings", "jump rings", "pieces"); q != nil {
		d.set("count", q)
	}
	for _, q := range m.found {
		if d.has("count") || q.used || q.measure != bare || q.role != "" || q.value != math.Trunc(q.value) {
			continue
		}
		switch after, before := m.at(q.next), m.at(q.first-1).text; {
		case after.stem == "jumpr" || after.text == "jumprings" || after.text == "jumpring" || after.stem == "turn" || after.stem == "link" || after.text == "each" || after.text == "of" && m.at(q.next+1).text == "each" || after.text == "off" || after.text == "pcs" || after.text == "big" || after.text == "small":
			d.set("count", q)
		case (before == "need" || before == "want" || before == "making" || before == "make" || before == "then" || before == "x") && q.value >= 2 && !after.number && !measuring[after.text]:
			d.set("count", q)
		}
	}
	if q := m.found; len(q) >= 3 && !d.has("count") { // "18ga 5mm inside, 50"
		if end := q[len(q)-1]; end.next >= len(m.tokens)-1 && end.measure == bare && end.role == "" && !end.used && end.value >= 20 && end.value == math.Trunc(end.value) && m.at(end.first-1).text == "," {
			d.set("count", end)
		}
	}
	if n := numberWords[m.at(0).text]; !d.has("count") && n >= 2 && n == math.Trunc(n) && !m.taken[0] { // "ten 18 ga jump rings"
		m.taken[0] = true
		d.say("count", plain(n))
	}
	if !d.has("count") && m.says("per hundred", "per 100", "a hundred rings", "a hundred", "one hundred") {
		d.say("count", "100")
		for _, q := range m.found {
			if q.value == 100 && !q.used {
				q.used = true
			}
		}
	}
}

// chainOfRings takes the length of a plain chain: "8 inch bracelet", "450 mm
// chain", "links per foot".
func (d *draft) chainOfRings() {
	m := d.m
	if d.has("count") || !m.says("chain", "necklace", "bracelet", "anklet", "links per", "rings per", "links in", "links for", "how many links") {
		return
	}
	for _, q := range m.found {
		if !d.has("chain") && !q.used && q.measure == length && (q.role == "" || q.role == "length" || q.role == "inner" && q.value > mostInsideOfLink) && q.value >= 25 && !m.ofWireThereIs(q) {
			d.set("chain", q)
		}
	}
}

// mostInsideOfLink is the widest jump ring of a chain in mm: a longer figure is the chain's.
const mostInsideOfLink = 60

// ofWireThereIs matches a length of the wire that is at hand: "5 m of wire", "out of
// the 3 metre roll".
func (m *message) ofWireThereIs(q *quantity) bool {
	if m.saysOneBetween(q.next, q.next+3, "wire", "roll", "coil", "left", "spool", "reel") {
		return true
	}
	return m.saysOneBetween(max(0, q.first-3), q.first, "out", "from", "got", "have", "left") && !m.says("chain", "necklace", "bracelet", "anklet")
}

// mandrelWords are what a coil is wound on.
var mandrelWords = []string{"mandrel", "rod", "dowel", "drill bit", "drill shank", "knitting needle", "nail", "needle", "pencil", "wound on", "wind on", "wound round", "wound around", "wrapped on", "wrapped around", "wrapped round", "winding on", "wind it on", "wind them on"}

// insideOfRing takes the inside of a ring: as such, by its mandrel, by its outside,
// or the one length that is left.
func (d *draft) insideOfRing() {
	m := d.m
	if d.hasInside() {
		return
	}
	wire := m.quantityOf("wire")
	inner, outer := m.with("inner"), m.with("outer")
	if outer == nil {
		outer = m.saidOutside()
	}
	if outer != nil && wire != nil && outer.value > 2*thicknessOf(wire) {
		outer.used = true
		inside := outer.value - 2*thicknessOf(wire)
		d.say("inside", plain(inside))
		d.note("%s outside is %s mm inside", strings.TrimSpace(outer.typed(m)), plain(inside))
		if inner != nil && math.Abs(inner.value-inside) > 0.06 {
			inner.used = true
			d.question("inside", fmt.Sprintf("%s outside with this wire is %s inside, not %s. Which is the ring's?", mm(outer.value), mm(inside), mm(inner.value)),
				d.with(mm(inside)+" inside", "inside", plain(inside)), d.with(mm(inner.value)+" inside", "inside", plain(inner.value)))
		} else if inner != nil {
			inner.used = true
		}
		return
	}
	if inner != nil {
		d.set("inside", inner)
		return
	}
	if m.says(mandrelWords...) {
		q := m.beside("mandrel")
		if q == nil {
			q = m.with("diameter")
		}
		if q == nil {
			q = m.first(0.8, 60, length)
		}
		if q == nil {
			q = m.first(0.8, 60, bare)
		}
		d.set("mandrel", q)
		return
	}
	if q := m.with("diameter", "width"); q != nil {
		d.set("inside", q)
		return
	}
	for _, measure := range []measure{length, bare} {
		for _, q := range m.found {
			if !q.used && q.role == "" && q.measure == measure && q.value >= 0.8 && q.value <= 60 && !m.besideStranger(q) && m.at(q.next).text != "chain" {
				d.set("inside", q)
				return
			}
		}
	}
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
			d.note("%s of wire is enough for %d rings, each pi x (inside + wire) long", strings.TrimSpace(q.typed(d.m)), int(q.value/(math.Pi*(across.value+thicknessOf(wire)))))
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
	if q := m.ratioSaid(); q != nil && !q.used && q.value >= 2 && q.value <= 12 {
		d.set("ratio", q)
		return
	}
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
	if d.has("wire") {
		return
	}
	if q := m.of(gauge); q != nil {
		d.set("wire", q)
		d.say("wire", q.shown)
		return
	}
	for _, q := range m.found { // a British number is a wire's, and so is "out of 1.2"
		british := strings.Contains(strings.ToLower(q.typed(m)), "swg")
		madeOf := m.between(max(0, q.first-2), q.first) == "out of" && q.value <= 2.6
		if (british || madeOf) && !q.used && (q.measure == length || q.measure == bare) {
			d.set("wire", q)
			d.say("wire", plain(q.value)+"mm")
			return
		}
	}
	for _, q := range m.found { // "0.8 by 4 mm"
		if q.measure == size && len(q.sides) == 2 && !q.used && min(q.sides[0], q.sides[1]) <= 2.6 && max(q.sides[0], q.sides[1]) >= 2*min(q.sides[0], q.sides[1]) {
			q.used = true
			d.say("wire", plain(min(q.sides[0], q.sides[1]))+"mm")
			d.say("inside", plain(max(q.sides[0], q.sides[1])))
			d.note("%s is read as wire and inside diameter", strings.TrimSpace(q.typed(m)))
			return
		}
	}
	q := m.beside("wire")
	if q != nil && q.value > 8 {
		q = nil
	}
	if q == nil {
		q = m.with("thickness", "wall")
	}
	if q == nil {
		q = m.thinnest(length)
	}
	if q == nil && len(m.lengths()) >= 2 && (m.says("wire", "thick") || m.with("inner") != nil) {
		q = m.thinnest(bare)
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

// thinnest is the smallest free figure of a measure that may be a wire, where it
// is no stranger's.
func (m *message) thinnest(of measure) *quantity {
	var least *quantity
	for _, q := range m.found {
		if !q.used && q.role == "" && q.measure == of && q.value >= 0.2 && q.value <= 2.6 && (least == nil || q.value < least.value) && !m.besideStranger(q) {
			least = q
		}
	}
	return least
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

// ringResize reads a change of ring size. One size alone is asked about; talk
// without any size is left to the facts.
func (m *message) ringResize() (Reading, bool) {
	if m.of(ringSize) == nil && m.canAnswer("resize") && m.startsWith("resize", "please resize", "need to resize", "can you resize", "i need to resize", "i want to resize", "could you resize") {
		return m.resize(), true // the sizes are asked for
	}
	m.likelySizes()
	if pair, _ := m.insideMeasures(); !m.canAnswer("resize") || m.of(ringSize) == nil && pair == nil || m.widerSize() {
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
	m.gapBetweenTubes()
	tube, wall, said := m.tubeOf()
	for _, q := range said {
		q.used = true
	}
	if r, ok := m.stoneOfTube(tube, wall); ok {
		return r, true
	}
	if r, ok := m.whichOfTwoStones(tube, wall); ok {
		return r, true
	}
	d := m.draft("tubeset")
	d.places = []place{{"size", "size of the stone", 0.8, 15}, {"depth", "depth of the stone", 0.3, 10}}
	if tube > 0 && wall > 0 {
		d.say("tubesize", plain(tube)+"x"+plain(wall))
	}
	d.countOfTubes()
	d.set("spacing", m.with("gap"))
	d.outline()
	delete(d.options, "gem") // tubes are the same for every stone
	d.set("depth", m.with("depth", "pavilion"))
	if q := m.with("length"); q != nil && tube > 0 {
		q.used = true
		d.note("the tube's length, %s, changes nothing here; the answer says how long it must be", strings.TrimSpace(q.typed(m)))
	}
	d.set("size", m.stoneInTube())
	if d.has("size") && m.wallOr(wall) != nil {
		return d.betweenWalls(wall, m.wallOr(wall)), true
	}
	if o := d.options["outline"]; o != "" && o != "round" {
		return m.fancyInTube(o), true
	}
	d.alloy("alloy", false)
	if !d.has("size") {
		if m.meansMatch() {
			m.release()
			if r, ok := m.match(); ok && r.Outcome == Request {
				return r, true
			}
		}
		if len(m.found) == 0 && !m.says("cut", "need", "make", "which tube", "what tube", "what size") {
			return Reading{}, false
		}
		d.question("size", "How wide is the round stone, in mm?", d.with("3 mm", "outline", "round", "size", "3"), d.with("4 mm", "outline", "round", "size", "4"), d.with("5 mm", "outline", "round", "size", "5"))
		return d.reading(), true
	}
	d.say("outline", "round")
	if m.tubeOrCollar(d) {
		return d.reading(), true
	}
	d.restOfTube(tube, wall)
	r := d.reading()
	r.Verdict = m.wallVerdict(wall)
	return r, true
}

// gapBetweenTubes tells a distance between tubes from a tube's own measures.
func (m *message) gapBetweenTubes() {
	for _, q := range m.found {
		if q.role != "" || q.measure != length && q.measure != bare || q.value > 5 {
			continue
		}
		for i := q.first - 1; i >= q.first-5 && m.at(i).word(); i-- {
			if w := m.at(i).text; w == "between" || w == "apart" || w == "spaced" || w == "spacing" {
				q.role = "gap"
			}
		}
	}
}

// countOfTubes takes how many tubes are set: "9 in a row", "three tubes".
func (d *draft) countOfTubes() {
	m := d.m
	if q := m.counts("stones", "settings", "pieces", "rings"); q != nil {
		d.set("count", q)
	}
	for _, q := range m.found { // "9 in a row"
		if !d.has("count") && !q.used && q.measure == bare && q.value == math.Trunc(q.value) && m.between(q.next, q.next+3) == "in a row" {
			d.set("count", q)
		}
	}
	d.countInWords("tube", "tubes", "settings", "studs", "stones")
	for _, q := range m.found {
		if n := parse(d.options["count"]); n > 0 && n == q.value && m.inPairs(q) {
			d.say("count", plain(2*n))
			d.note("%s pairs are %s settings", plain(n), plain(2*n))
			return
		}
	}
}

// stoneMM is the width of the stone that the message tells, or else of the piece in talk;
// 0 where neither does.
func (d *draft) stoneMM() float64 {
	if q := d.m.quantityOf("size"); q != nil {
		return thicknessOf(q)
	}
	return parse(d.options["size"])
}

// restOfTube works out the outside of a tube from its stone and wall, or asks for the
// wall.
func (d *draft) restOfTube(tube, wall float64) {
	if stone := d.stoneMM(); tube == 0 && wall > 0 && stone > 0 {
		d.say("tubesize", plain(stone+wall)+"x"+plain(wall))
		d.note("with that wall the tube is the stone plus the wall, %s outside", mm(stone+wall))
	}
	if tube > 0 && wall == 0 {
		d.question("tubesize", fmt.Sprintf("How thick is the wall of the %s tube?", mm(tube)),
			d.with("0.4 mm", "tubesize", plain(tube)+"x0.4"), d.with("0.5 mm", "tubesize", plain(tube)+"x0.5"), d.with("I don't know: which tube is right?"))
	}
}

// whichOfTwoStones answers which of two stones goes in a tube.
func (m *message) whichOfTwoStones(outer, wall float64) (Reading, bool) {
	var stones []*quantity
	for _, q := range m.found {
		if !q.used && (q.measure == length || q.measure == bare) && q.role == "" && q.value >= 0.7 && q.value <= 15 {
			stones = append(stones, q)
		}
	}
	if outer <= 0 || wall <= 0 || len(stones) != 2 || !m.says("which", "which one", "either", "fit", "better") || !m.saysBetween(stones[0].next, stones[1].first, "and", "or", ",", "stone", "stones") {
		return Reading{}, false
	}
	best := stones[0]
	if math.Abs(stones[1].value-(outer-wall)) < math.Abs(best.value-(outer-wall)) {
		best = stones[1]
	}
	for _, q := range stones {
		q.used = true
	}
	d := m.draft("match")
	d.say("tubesize", plain(outer)+"x"+plain(wall))
	d.alloy("alloy", false)
	r := d.reading()
	r.Verdict = fmt.Sprintf("Take the stone of %s: a tube setting of this tube wants a round of about %s, because the stone covers half of the wall.", mm(best.value), mm(outer-wall))
	return r, true
}

// wallOr is the other wall of "a tube with 0.3 wall or 0.6".
func (m *message) wallOr(wall float64) *quantity {
	for _, q := range m.found {
		if wall > 0 && !q.used && (q.measure == bare || q.measure == length) && q.value < mostTubeWall && m.at(q.first-1).text == "or" {
			return q
		}
	}
	return nil
}

// betweenWalls works the setting out with the better of two walls.
func (d *draft) betweenWalls(wall float64, other *quantity) Reading {
	other.used = true
	stone := d.stoneMM()
	usual := tubeset.UsualWallMM(stone)
	better := wall
	if math.Abs(other.value-usual) < math.Abs(wall-usual) {
		better = other.value
	}
	d.say("outline", "round")
	d.alloy("alloy", false)
	r := d.reading()
	r.Verdict = fmt.Sprintf("Take the wall of %s: for a stone of %s about %s is usual. The thinner wall is easier to push over and wears sooner; the thicker one wants more force, which a soft stone may not bear.", mm(better), mm(stone), mm(usual))
	return r
}

// wallVerdict says whether a tube's wall suits, where that is asked; common
// practice, no source.
func (m *message) wallVerdict(wall float64) string {
	stone := m.quantityOf("size")
	if wall == 0 || stone == nil || !m.asksWhether() && !m.says("overkill", "too thick", "too thin", "too heavy", "ok", "okay", "alright", "enough", "fine", "will it do") {
		return ""
	}
	usual := tubeset.UsualWallMM(stone.value)
	switch {
	case wall > 1.5*usual:
		return fmt.Sprintf("It depends: %s is a heavy wall for a stone of %s, where %s is usual. It is stronger and looks heavier, and the rim wants thinning before you push it over.", mm(wall), mm(stone.value), mm(usual))
	case wall < 0.7*usual:
		return fmt.Sprintf("It depends: %s is a thin wall for a stone of %s, where %s is usual: little stands beside the stone.", mm(wall), mm(stone.value), mm(usual))
	}
	return fmt.Sprintf("Yes: %s is about the usual wall for a stone of %s.", mm(wall), mm(stone.value))
}

// tubeOrCollar asks what a tube is for where a larger round is named alone: a tube
// setting, or a collar that a block tapers.
func (m *message) tubeOrCollar(d *draft) bool {
	q := m.quantityOf("size")
	if q == nil || q.value < 5 || len(m.found) > 1 || m.cues["tubeset"] > 0 || m.says("bur", "seat", "od", "id", "set", "setting", "stone") {
		return false
	}
	d.question("", "A tube setting, or a tube for a collar that a block tapers?", d.with("a tube setting"), Choice{"a collar for a block", "collar", map[string]string{"outline": "round", "size": d.options["size"]}})
	return true
}

// countInWords takes a number in words before the things that it counts: "seven tube
// settings".
func (d *draft) countInWords(things ...string) {
	m := d.m
	for i, t := range m.tokens {
		if n := numberWords[t.text]; n >= 2 && n == math.Trunc(n) && !m.taken[i] && contains(things, m.at(i+1).text) && !d.has("count") {
			m.taken[i] = true
			d.say("count", plain(n))
		}
	}
}

// fancyInTube says what holds a stone that is not round.
func (m *message) fancyInTube(shape string) Reading {
	for _, q := range m.found {
		q.used = true
	}
	return Reading{Outcome: Explanation, Topic: "oval tube", Source: "common practice, no source",
		Text: fmt.Sprintf("Tube settings are for round stones, not for %s ones. Bend a bezel from strip, or squeeze an annealed round tube of the same perimeter on a mandrel of the stone's shape. A straight wall with a seat: collet %s 6x4 lean 0 height 4 0.5mm, with your stone's size.", shape, strings.ReplaceAll(shape, " ", "-"))}
}

// tubeOf takes the tube that is spoken of: its outside and wall, mm, 0 where one
// is not said, with the figures that say it.
func (m *message) tubeOf() (outer, wall float64, said []*quantity) {
	for _, q := range m.found {
		if q.measure == size && len(q.sides) == 2 && !q.used && (m.ofMetal(q) || m.nearTube(q) || len(m.lengths()) > 0 && len(m.meaning("outline:")) == 0) {
			outer, wall = q.sides[0], q.sides[1]
			if wall > 0.4*outer {
				wall = (outer - wall) / 2 // outside x inside
			}
			said = append(said, q)
			for _, other := range m.found { // "2.2 od? ... 2.2x1.4"
				if other != q && (other.measure == bare || other.measure == length) && (other.value == q.sides[0] || other.value == q.sides[1]) && (other.role == "outer" || other.role == "inner") {
					said = append(said, other)
				}
			}
			return outer, wall, said
		}
	}
	od, id, w := m.with("outer"), m.with("inner"), m.with("wall")
	if t := m.with("thickness"); w == nil && t != nil && !m.ofShank(t) {
		w = t
	}
	if q := m.justBefore("tube"); od == nil && q != nil {
		q.role = "outer"
		od = q
	}
	if od == nil {
		od = m.beside("tube")
	}
	if od == nil && w != nil && m.says("tube") {
		od = m.with("diameter")
	}
	take := func(q *quantity) float64 {
		said = append(said, q)
		switch {
		case q.measure == gauge:
			return gaugeMM(q.value)
		case q.measure == bare && q.value < 0.8 && q != w:
			return q.value * 25.4 // ".188 od" is inches
		}
		return q.value
	}
	if od != nil {
		outer = take(od)
	}
	switch {
	case id != nil && od != nil:
		if wall = (outer - take(id)) / 2; wall <= 0 {
			return 0, 0, nil
		}
	case w != nil:
		wall = take(w)
	}
	return outer, wall, said
}

// justBefore is the length right before a word of this meaning, whatever other
// word is beside it: the 4 of "seat depth in 4 mm tube".
func (m *message) justBefore(meaning string) *quantity {
	for _, s := range m.senses {
		for _, q := range m.found {
			if contains(s.Means, meaning) && q.next == s.first && !q.used && (q.measure == length || q.measure == bare) && q.role != "wall" && q.role != "inner" && q.role != "gap" {
				return q
			}
		}
	}
	return nil
}

// nearTube reports whether the word for tube stands within three words of a figure.
func (m *message) nearTube(q *quantity) bool {
	for _, s := range m.senses {
		if contains(s.Means, "tube") && (s.first-q.next >= 0 && s.first-q.next <= 3 || q.first-s.next >= 0 && q.first-s.next <= 3) {
			return true
		}
	}
	return false
}

// stoneInTube is the stone's size: the figure beside a word for the stone, the one
// that is called its width, or the only one left.
func (m *message) stoneInTube() *quantity {
	for _, s := range m.senses {
		isStone := contains(s.Means, "stone")
		for _, means := range s.Means {
			isStone = isStone || strings.HasPrefix(means, "outline:") || strings.HasPrefix(means, "gem:")
		}
		for _, q := range m.found {
			beside := q.next == s.first || q.first == s.next || q.first == s.next+1 && (m.at(s.next).text == "is" || m.at(s.next).text == "measured" || m.at(s.next).text == "of" || m.at(s.next).text == "are" || m.at(s.next).text == "size")
			if isStone && beside && !q.used && (q.measure == length || q.measure == bare) && (q.role == "" || q.role == "diameter" || q.role == "width") && q.value >= 0.7 && q.value <= 15 {
				return q
			}
		}
	}
	if q := m.with("diameter", "width"); q != nil {
		return q
	}
	for _, measure := range []measure{length, bare} {
		for _, q := range m.found {
			if !q.used && q.role == "" && q.measure == measure && q.value >= 0.7 && q.value <= 15 && !m.besideStranger(q) {
				return q
			}
		}
	}
	return nil
}

// stoneOfTube asks which stone a tube is for.
func (m *message) stoneOfTube(outer, wall float64) (Reading, bool) {
	if m.says("which tube", "what tube", "which tubing", "what tubing") {
		return Reading{}, false
	}
	if outer == 0 || wall <= 0 || outer <= 2*wall || !m.has("whichstone") && !m.asksWhichStone() && !m.says("=stone", "largest", "biggest", "smallest", "range of", "what range", "which sizes", "what sizes", "will it take", "can it take", "goes in", "fits in", "go in", "fit in", "what size will", "what fits", "what mm size", "sit in") || m.stoneInTube() != nil && !m.says("which stone", "what stone") {
		return Reading{}, false
	}
	for _, q := range m.found {
		q.used = true
	}
	d := m.draft("match")
	d.say("tubesize", plain(outer)+"x"+plain(wall))
	if o := m.meaning("outline:"); len(o) > 0 {
		d.say("outline", o[0])
	}
	d.alloy("alloy", false)
	r := d.reading()
	r.Verdict = fmt.Sprintf("In a tube setting this tube takes a round stone of about %s: from above the stone covers half of the wall, so it is the outside less the wall.", mm(outer-wall))
	return r, true
}

// aboutStonesRound matches small stones round another stone, without the word for
// it: "how many 1.5 mm diamonds go around a 6.5 mm round".
func (m *message) aboutStonesRound() bool {
	return m.says("go around a", "go round a", "fit round a", "fit around a", "come out even", "go round an", "go around an", "fit round an", "fit around an") && m.says("stones", "diamonds", "melee", "small stones") && len(m.meaning("outline:")) > 0 && !m.has("cab", "ring", "tube")
}

// notAround are words of small stones that stand elsewhere than round another.
var notAround = []string{"row", "prong", "prongs", "claw", "claws", "tube", "tubes", "channel", "shank", "shoulder", "shoulders", "finger", "eternity", "band", "bangle", "either side", "side stones", "on each side", "three stone", "trilogy", "earrings", "one of"}

// smallStonesBeside matches a centre stone and small ones without a word for where
// these stand: "cushion 8 mm with 1.2 diamonds", "10x8 oval centre with 1.7s round".
func (m *message) smallStonesBeside() bool {
	if m.says(notAround...) || m.of(ringSize) != nil || len(m.meaning("outline:")) == 0 && !m.says("centre", "center") {
		return false
	}
	small := m.smallStones()
	if small == nil {
		return false
	}
	for _, q := range m.found {
		if q == small || q.measure != size && q.measure != length && q.measure != bare {
			continue
		}
		least := q.value
		for _, side := range q.sides {
			least = min(least, side)
		}
		centre := q.measure == size || m.ofStoneWord(q) || m.saysOneBetween(q.next, q.next+2, "centre", "center")
		if centre && least >= 2*small.value && least <= 40 {
			return true
		}
	}
	return false
}

// smallStones is the size of several small stones: "1.2 diamonds", "1.7s", "1.5 mm cz".
func (m *message) smallStones() *quantity {
	several := func(i int) bool {
		w := m.at(i).text
		return pluralGems[w] || w == "melee" || w == "czs" || w == "stones" || w == "brilliants" || w == "s" && m.at(i).glued
	}
	for _, q := range m.found {
		if q.measure != length && q.measure != bare || q.value < 0.7 || q.value > 3.2 || q.role != "" && q.role != "diameter" {
			continue
		}
		after := q.next
		if w := m.at(after).text; w == "round" || w == "small" || w == "tiny" || w == "little" || w == "white" || w == "grey" || w == "gray" || w == "black" {
			after++
		}
		if several(after) || m.at(q.first-1).word() && several(q.first-1) && !measuring[m.at(q.next).text] {
			return q
		}
		if m.at(after).text == "cz" && slices.ContainsFunc(m.found, func(n *quantity) bool { return n.measure == count && n.thing == "stones" && n.next == q.first }) {
			return q
		}
	}
	return nil
}

// halo reads small stones round a centre stone.
func (m *message) halo() (Reading, bool) {
	if !m.canAnswer("halo") || len(m.found) == 0 {
		return Reading{}, false
	}
	d := m.draft("halo")
	d.places = []place{{"with", "size of the small stones", 0.7, 5}, {"size", "size of the centre stone", 2, 40}, {"gap", "gap between the small stones", 0, 0.6}}
	d.countOfHalo()
	d.gapOfHalo()
	for _, q := range m.found {
		if w, before := m.at(q.next).text, m.at(q.first-1).text; !d.has("gap") && !q.used && (q.measure == length || q.measure == bare) && (q.value < 0.7 || q.value <= 2 && m.saysOneBetween(q.next, q.next+2, "between", "apart")) && (w == "between" || w == "in" || w == "gap" || w == "apart" || w == "spaced" || before == "spacing" || before == "gap") {
			d.set("gap", q)
		}
	}
	d.set("edge", m.with("rim", "edge"))
	d.bezelOfCentre()
	d.centreOutline()
	delete(d.options, "gem")
	for _, q := range m.found {
		if q.measure == size && len(q.sides) == 2 && !q.used && min(q.sides[0], q.sides[1]) >= 2 && !d.has("size") {
			d.set("size", q)
		}
	}
	d.bothStonesLikely()
	d.twoStones()
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

// gapOfHalo takes the gap between the small stones, and the thickness of their plate.
func (d *draft) gapOfHalo() {
	m := d.m
	for _, q := range m.found {
		w := m.at(q.next).text
		if !q.used && (w == "plate" || w == "sheet") && (q.measure == gauge || q.measure == length && q.value <= 2.5) {
			d.set("thickness", q)
		}
	}
	gap := m.with("gap")
	for _, q := range m.found { // "stones 1mm gap 0.2"
		if gap != nil && gap.value >= 0.7 && !q.used && q.role == "" && q.value < 0.7 && m.at(q.first-1).text == "gap" {
			gap.role, gap = "", q
		}
	}
	d.set("gap", gap)
}

// bezelOfCentre takes the wall round the centre stone, which the small stones stand
// outside of: "bezel is .4".
func (d *draft) bezelOfCentre() {
	m := d.m
	for _, q := range m.found {
		ofBezel := m.leadsWith("bezel", q) || m.at(q.next).text == "bezel" || m.isWallOfCentre(q)
		if ofBezel && !q.used && (q.measure == length || q.measure == bare || q.measure == gauge) && thicknessOf(q) < 0.9 && (m.at(q.first-1).text != "a" || q.unit) {
			d.set("centregap", q)
			d.note("the bezel's wall, %s, is taken as the gap between the centre stone and the small ones", strings.TrimSpace(q.typed(m)))
			return
		}
	}
}

// leadsWith reports whether a word stands before a figure with nothing between them but
// what it measures: "bezel wall is 0.4".
func (m *message) leadsWith(word string, q *quantity) bool {
	i := q.first - 1
	for i > q.first-5 && measuresMetal[m.at(i).text] {
		i--
	}
	return m.at(i).text == word
}

var measuresMetal = map[string]bool{"is": true, "of": true, "wall": true, "thickness": true, "strip": true, "sheet": true, "in": true}

// isWallOfCentre reports whether a figure is how thick the setting of a halo's centre stone
// is: "the bezel of the centre is 0.4 thick".
func (m *message) isWallOfCentre(q *quantity) bool {
	return q.role == "wall" || q.role == "thickness" && m.saysOneBetween(q.first-6, q.first, "bezel", "collet", "setting")
}

// countOfHalo takes how many small stones: "16 stones", "12 x 2 mm", "5 round
// petals", "fitted 22".
func (d *draft) countOfHalo() {
	m := d.m
	if q := m.counts("stones", "pieces", "settings"); q != nil && q.value >= 3 {
		d.set("count", q)
		return
	}
	for _, q := range m.found {
		if !q.used && m.countsStones(q) {
			q.used = true
			d.say("count", plain(q.sides[0]))
			d.say("with", plain(q.sides[1]))
			return
		}
	}
	for _, q := range m.found {
		if q.measure != bare || q.used || q.role != "" || q.value != math.Trunc(q.value) || q.value < 3 {
			continue
		}
		after, before := m.at(q.next), m.at(q.first-1).text
		counts := after.stem == "petal" || after.stem == "tube" || after.stem == "diamond" || after.stem == "cz" || after.stem == "accent" || before == "fitted" || before == "exactly" || after.text == "exactly"
		counts = counts || (after.text == "round" || after.text == "small" || after.text == "little") && (m.at(q.next+1).stem == "petal" || m.at(q.next+1).stem == "stone" || m.at(q.next+1).stem == "diamond")
		if counts {
			d.set("count", q)
			return
		}
	}
}

// centreOutline takes the centre stone's outline. Small stones are round, so a
// "round" beside another outline is theirs.
func (d *draft) centreOutline() {
	m := d.m
	var named []string
	for _, o := range m.meaning("outline:") {
		if o != "round" {
			named = append(named, o)
		}
	}
	switch {
	case len(named) > 0:
		d.say("outline", named[0])
	case m.has("outline:round"):
		d.say("outline", "round")
	}
}

// smallWords and centreNear are words that stand beside the small stones' size and
// beside the centre's.
var (
	smallWords = map[string]bool{"stones": true, "stone": true, "melee": true, "diamond": true, "diamonds": true, "halo": true, "petals": true, "of": true, "with": true, "cz": true, "czs": true, "small": true, "accents": true, "od": true, "sapphires": true, "rubies": true}
	centreNear = map[string]bool{"centre": true, "center": true, "round": true, "around": true, "bezel": true, "cab": true, "one": true, "main": true, "middle": true, "outside": true}
)

// twoStones takes the centre's size and the small stones': the words beside them
// tell, else the smaller is the small stones'.
func (d *draft) twoStones() {
	m := d.m
	var small, large *quantity
	for _, q := range m.found {
		if q.used || q.measure != length && q.measure != bare || q.value < 0.7 || q.value > 40 {
			continue
		}
		switch q.role {
		case "", "diameter", "width", "perimeter", "outer":
		default:
			continue
		}
		if d.has("with") || d.has("size") && !d.has("with") && q.value > 12 {
			large = q
			continue
		}
		if small == nil || q.value < small.value {
			small = q
		}
		if large == nil || q.value > large.value {
			large = q
		}
	}
	between := 0
	for _, q := range m.found {
		if !q.used && (q.measure == length || q.measure == bare) && q.value >= 0.7 && q.value <= 40 && (q.role == "" || q.role == "diameter" || q.role == "width" || q.role == "perimeter" || q.role == "outer") {
			between++
		}
	}
	if between > 2 || between == 2 && d.has("size") || small != nil && small != large && small.value > 6 {
		return // asked about
	}
	switch {
	case d.has("with"):
		d.set("size", large)
	case small != nil && d.has("size"):
		d.set("with", small)
	case small != nil && small != large:
		if m.beneath(large, smallWords) && m.beneath(small, centreNear) && !m.beneath(small, smallWords) {
			small, large = large, small // petals larger than their centre
		}
		d.set("with", small)
		d.set("size", large)
	case small != nil && (small.value < 2.6 && !m.beneath(small, centreNear) || m.beneath(small, map[string]bool{"stones": true, "melee": true}) && small.value < 4):
		d.set("with", small)
	case small != nil:
		d.set("size", small)
	}
}

// beneath reports whether one of these words stands right beside a figure.
func (m *message) beneath(q *quantity, words map[string]bool) bool {
	return words[m.at(q.next).text] || words[m.at(q.first-1).text] || words[m.at(q.first-2).text] && passedOver[m.at(q.first-1).text]
}

// bindGirth gives "a hand that's 21 cm round" and an inner circumference their role.
func (m *message) bindGirth() {
	for _, q := range m.found {
		if (q.role == "inner" || q.role == "" && q.measure == bare && isFingerRound(q)) && m.saysOneBetween(q.first-3, q.next+3, "circumference", "circ", "perimeter") && !m.saysOneBetween(q.first-3, q.next+3, "diameter", "dia", "across") {
			q.role = "perimeter"
		}
		if w := m.at(q.next).text; q.free() && q.measure != gauge && q.value >= 130 && q.value <= 260 && (w == "round" || w == "around") && m.says("hand", "knuckles", "wrist") {
			q.role = "perimeter"
		}
	}
}

// bangle reads a bangle by its inner diameter.
func (m *message) bangle() (Reading, bool) {
	if !m.context.takes("band", "bangle") {
		return Reading{}, false
	}
	d := m.draft("band")
	d.places = []place{{"bangle", "inner diameter", 30, 120}, {"thickness", "thickness of the metal", 0.3, 8}, {"width", "width", 0.8, 30}}
	outside := d.insideOfBangle()
	d.profile()
	if (m.has("wire") || m.has("outline:round")) && !d.has("profile") {
		profile := "round"
		if m.has("squarewire") {
			profile = "square"
		}
		d.say("profile", profile)
	}
	if !d.has("profile") && m.squareStock() {
		d.say("profile", "square")
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
	if across := d.options["bangle"]; m.says("oval", "ovals") && across != "" && !strings.Contains(across, "x") && !m.says("oval wire", "oval section", "oval stock", "=oval profile") {
		wide := mmOf(across)
		d.question("bangle", "An oval has two inside measures, its length and its width. What are they?",
			d.with("round, "+across+" across", "bangle", across), d.with(fmt.Sprintf("%s x %s mm", plain2(wide), plain(math.Round(0.85*wide))), "bangle", fmt.Sprintf("%sx%s", plain2(wide), plain(math.Round(0.85*wide)))))
	}
	if !d.has("bangle") {
		d.question("bangle", "What is the bangle's inner diameter, in mm?", d.with("60 mm", "bangle", "60"), d.with("65 mm", "bangle", "65"), d.with("68 mm", "bangle", "68"))
	}
	return d.reading(), true
}

// insideOfBangle takes a bangle's inside: two sides of an oval, the way round the hand
// or the inside, or across; a bangle told by its outside is returned for later, when its
// metal is known.
func (d *draft) insideOfBangle() (outside *quantity) {
	m := d.m
	for _, q := range m.found {
		if q.measure == size && len(q.sides) == 2 && min(q.sides[0], q.sides[1]) >= 30 {
			d.set("bangle", q)
		}
	}
	if d.has("bangle") {
		return nil
	}
	m.bindGirth()
	round := m.with("perimeter")
	switch outer, inner := m.with("outer"), m.with("inner", "diameter", "width"); {
	case round != nil && (m.at(round.next).text == "wrist" || m.says("wrist") && !m.says("hand", "hands", "knuckles", "knuckle", "inside")) && !m.says("cuff"):
		round.used = true
		d.askHand(round)
	case round != nil && (m.has("wrist") || m.says("hand", "knuckles")) && !m.says("cuff"):
		d.acrossOf(round, "hand")
		d.note("a bangle must pass over the knuckles")
	case round != nil && round.value > 94 && m.says("inside", "inner", "internal"):
		d.acrossOf(round, "inside")
	case outer != nil && outer.value >= 30:
		return outer
	case inner != nil && inner.value >= 30:
		d.set("bangle", inner)
	default:
		d.set("bangle", m.first(30, 120, length, bare))
	}
	return nil
}

// acrossOf takes a bangle's inside from the way round something, to the tenth of a
// millimetre that a bench can use.
func (d *draft) acrossOf(round *quantity, what string) {
	round.used = true
	across := plain(math.Round(10*round.value/math.Pi) / 10)
	d.say("bangle", across)
	d.note("%s round the %s is %s mm across", strings.TrimSpace(round.typed(d.m)), what, across)
}

// askHand asks for the hand where only the wrist is known: a closed bangle must go over
// the knuckles, and an open one may be as wide as the wrist.
func (d *draft) askHand(wrist *quantity) {
	across := plain(math.Round(10*wrist.value/math.Pi) / 10)
	d.question("bangle", fmt.Sprintf("Is it open, or does it slip over the hand? %s round the wrist is %s mm across, which is right only for an open one. A closed bangle must pass the knuckles: how far is it round the hand there, with the thumb tucked in?", strings.TrimSpace(wrist.typed(d.m)), across),
		d.with("open, "+across+" mm inside", "bangle", across))
}

// roundHand reads the way round the hand as the answer to a question for a bangle's
// inner diameter: "hand is 21.5 round". Under 40 it is in cm.
func (m *message) roundHand(d *draft, q *quantity) bool {
	if !m.says("hand", "knuckles", "knuckle") || q.measure != bare && q.measure != length {
		return false
	}
	mm := q.value
	if q.measure == bare && mm < 40 {
		mm *= 10
	}
	if mm < 120 || mm > 320 {
		return false
	}
	q.used = true
	across := plain(math.Round(10*mm/math.Pi) / 10)
	d.say("bangle", across)
	d.note("%s mm round the hand is %s mm across", plain(mm), across)
	return true
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
