package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/units"
)

// flatShape is a shape of sheet whose area the request weigh does not work out.
type flatShape struct {
	name string
	say  []string
	// area takes its measures and tells its area in mm², and how it is reckoned.
	area func(*message) (mm2 float64, how string, ok bool)
}

// flatShapes are tried in this order.
var flatShapes = []flatShape{
	{"washer", []string{"washer", "washers", "disc with a hole", "discs with a hole", "hole", "holes", "annulus"}, (*message).washerArea},
	{"triangle", []string{"triangle", "triangles", "triangular"}, (*message).triangleArea},
	{"oval", []string{"oval", "ovals", "ellipse", "elliptical"}, (*message).ovalArea},
}

// shapeWeighed tells what a flat shape weighs: a washer, a triangle, an oval.
func (m *message) shapeWeighed() (Reading, bool) {
	a := m.metal()
	if a == nil || a.likeliestKey() == "" || m.has("stone") || m.cues["collet"]+m.cues["prongs"] > 1 || m.says("cone", "collet", "setting", "taper", "tapered") || !m.weighs() {
		return Reading{}, false
	}
	for _, s := range flatShapes {
		if !m.says(s.say...) {
			continue
		}
		if r, ok := m.weighedShape(s, a.likeliestKey()); ok {
			return r, true
		}
		m.release()
	}
	return Reading{}, false
}

// shapeOnScales is a flat shape that is compared with a weight: "will it tip the scales
// over 15 g?"
func (m *message) shapeOnScales() (Reading, bool) {
	if m.of(mass) == nil || m.context.Last != nil {
		return Reading{}, false
	}
	return m.shapeWeighed()
}

// weighs reports whether a weight is likely what is asked for.
func (m *message) weighs() bool {
	return m.cues["weigh"] > 0 || m.says("scale", "scales") && m.of(mass) != nil || m.chance("weigh") >= surelyWeighs
}

func (m *message) weighedShape(s flatShape, metal string) (Reading, bool) {
	d := m.draft("weigh")
	many := 1.0
	if q := m.counts("pieces"); q != nil {
		q.used, many = true, q.value
	}
	mm2, how, ok := s.area(m)
	if !ok {
		return Reading{}, false
	}
	d.gaugeInLetters()
	thick := m.of(gauge)
	if thick == nil {
		thick = m.with("thickness")
	}
	if thick == nil {
		thick = m.first(0.1, 3, length, bare)
	}
	if thick == nil {
		return Reading{}, false
	}
	thick.used = true
	if left := m.unused(); len(left) == 1 && many == 1 && left[0].measure == bare && left[0].value == math.Trunc(left[0].value) && left[0].value >= 2 && m.says(plurals(s.say)...) {
		left[0].used, many = true, left[0].value // "washers, 50"
	}
	beside := m.of(mass)
	if own := m.with(ownResult); beside == nil && own != nil && own.measure == mass {
		beside = own
	}
	if beside != nil {
		beside.used = true
	}
	if len(m.unused()) > 0 {
		return Reading{}, false
	}
	alloy, t := alloyOf(metal), thicknessOf(thick)
	grams := mm2 * t * alloy.DensityGPerCM3 / 1000
	text := fmt.Sprintf("One %s of %s at %.2f mm weighs %.2f g: %s, at %.2f g/cm³.", s.name, alloy.Name, t, grams, how, alloy.DensityGPerCM3)
	if many > 1 {
		text += fmt.Sprintf(" %s of them weigh %.1f g, %.2f dwt.", plain(many), many*grams, many*grams/units.GramPerPennyweight)
	}
	if beside != nil {
		text = fmt.Sprintf("%s than your %s: ", map[bool]string{true: "More", false: "Less"}[many*grams > beside.value], strings.TrimSpace(beside.typed(m))) + text
	}
	r, ok := worked("mass of a shape", "mass = area x thickness x density", text)
	r.Notes = d.notes
	return r, ok
}

// plurals are those of the words that end in s.
func plurals(words []string) (all []string) {
	for _, w := range words {
		if strings.HasSuffix(w, "s") {
			all = append(all, w)
		}
	}
	return all
}

// washerArea takes the outside and the hole of a washer.
func (m *message) washerArea() (mm2 float64, how string, ok bool) {
	outer, inner := m.with("outer", "diameter"), m.with("inner")
	if inner == nil && !m.has("outline:square") && m.of(size) == nil {
		inner = m.ofHole()
	}
	if outer == nil && inner != nil {
		outer = m.widerThan(inner)
	}
	if outer == nil || inner == nil || inner.value >= outer.value {
		return 0, "", false
	}
	outer.used, inner.used = true, true
	mm2 = math.Pi / 4 * (outer.value*outer.value - inner.value*inner.value)
	return mm2, fmt.Sprintf("%s outside less %s inside is %.1f mm²", mm(outer.value), mm(inner.value), mm2), true
}

// ofHole is how wide a hole is: "a hole of ten", "a 10 mm hole".
func (m *message) ofHole() *quantity {
	m.numbersInWords()
	for _, q := range m.found {
		lead := m.between(max(0, q.first-2), q.first)
		if !q.used && plainMM(q) && (m.at(q.next).text == "hole" || lead == "hole of" || lead == "hole is" || m.between(max(0, q.first-4), q.first) == "hole in it of" || m.between(max(0, q.first-5), q.first) == "hole in the middle of" || strings.HasSuffix(lead, " hole")) {
			return q
		}
	}
	return nil
}

// widerThan is the free length across what has a hole.
func (m *message) widerThan(hole *quantity) *quantity {
	for _, q := range m.found {
		if q != hole && !q.used && plainMM(q) && (q.role == "" || q.role == "width") && q.value > hole.value {
			return q
		}
	}
	return nil
}

// triangleArea takes the base and the height of a triangle.
func (m *message) triangleArea() (mm2 float64, how string, ok bool) {
	var base, high *quantity
	for _, q := range m.found {
		switch {
		case q.measure != length && q.measure != bare:
		case m.isBeside(q, "base", "bottom", "along") && base == nil:
			base = q
		case m.isBeside(q, "tall", "high", "height") && high == nil:
			high = q
		}
	}
	if base == nil || high == nil {
		return 0, "", false
	}
	base.used, high.used = true, true
	mm2 = base.value * high.value / 2
	return mm2, fmt.Sprintf("half of %s x %s is %.1f mm²", mm(base.value), mm(high.value), mm2), true
}

// ovalArea takes the two sides of an oval, as an ellipse.
func (m *message) ovalArea() (mm2 float64, how string, ok bool) {
	q := m.of(size)
	if q == nil || len(q.sides) != 2 {
		return 0, "", false
	}
	q.used = true
	mm2 = math.Pi / 4 * q.sides[0] * q.sides[1]
	return mm2, fmt.Sprintf("pi / 4 x %s x %s is %.1f mm²", mm(q.sides[0]), mm(q.sides[1]), mm2), true
}

// gaugeInLetters reads "20g sterling" as a gauge where nothing else is a thickness: so
// few whole grams before the metal are no weight of a piece.
func (d *draft) gaugeInLetters() {
	m := d.m
	if m.of(gauge) != nil || m.with("thickness") != nil || m.first(0.1, 3, length, bare) != nil {
		return
	}
	for _, q := range m.found {
		whole := q.value == math.Trunc(q.value) && q.value >= lowestGauge && q.value <= highestGauge
		if q.used || q.measure != massMeasure || !whole || m.at(q.next-1).text != "g" || !m.metalBehind(q) {
			continue
		}
		d.note("%s is read as a gauge number", strings.TrimSpace(q.typed(m)))
		q.measure, q.role, q.shown = gauge, "", plain(q.value)+"ga"
		return
	}
}

// stockPieces are pieces of stock by the plural, which a number before them counts.
var stockPieces = []string{"strips", "plates", "sheets", "bars", "rods", "tubes", "lengths", "ingots", "slabs", "posts", "offcuts", "bits", "panels", "squares", "coins"}

// piecesCounted is how many pieces are weighed: as it is told, by the plural behind a
// number, or one for each maker.
func (d *draft) piecesCounted() {
	m := d.m
	d.set("count", m.counts("pieces"))
	if q := m.counts("makers"); q != nil && !d.has("count") && m.says("each", "apiece") {
		d.set("count", q)
	}
	for i := range m.tokens {
		if d.has("count") || i == 0 || !slices.Contains(stockPieces, m.at(i).text) {
			continue
		}
		v, before := numberWords[m.at(i-1).text], m.at(i-1)
		if before.number {
			v = before.value
		}
		if v >= 2 && v == math.Trunc(v) {
			d.countedAt(i-1, v)
		}
	}
	if !d.has("count") && m.says("a pair of", "for pair", "the pair", "a pair") {
		d.say("count", "2")
		d.note("a pair is read as two pieces")
	}
}

// countedAt takes the number at a token as that of the pieces, unless it has a unit.
func (d *draft) countedAt(i int, v float64) {
	for _, q := range d.m.found {
		if q.first > i || q.next <= i {
			continue
		}
		if q.measure != bare && q.measure != count || q.first != i || q.next != i+1 {
			return
		}
		q.used = true
	}
	d.say("count", plain(v))
}

// roundOfSheet reports whether a round piece is cut of sheet: it is called a blank or a
// coin, or one of its two figures is called its thickness.
func (m *message) roundOfSheet() bool {
	if !m.has("outline:round") && !m.says("coin", "coins") || m.has("wire", "tube", "profile:half-round") || m.says(rodWords...) || m.says("bangle", "bar", "stock", "draw", "long") || m.with("length") != nil {
		return false
	}
	return m.says("blank", "blanks", "coin", "coins", "plate") || m.with("thickness") != nil && m.says("thick", "thickness")
}
