package sentence

import "strings"

// bezelParts reads what a bezel has beside its strip: back plate, top edge, gallery
// strip, corner reliefs, and how many are made. A number goes to the part whose word
// stands beside it.
func (d *draft) bezelParts() {
	m := d.m
	d.backPlate()
	for _, edging := range m.meaning("edging:") {
		if !m.has("gallerywire") { // a bought strip has its edge
			d.say("edging", edging)
		}
	}
	if d.has("edging") {
		d.set("repeats", m.counts("repeats"))
		if q := m.besideMeaning("edging:"); q != nil && !d.has("repeats") && !m.heightOfStock(q) {
			d.set("pitch", q)
		}
		if !d.has("repeats") && !d.has("pitch") {
			d.set("pitch", m.ofEach())
		}
	}
	if m.has("gallerywire") && !d.has("edging") {
		d.set("gallery", m.with("repeat"))
	}
	if m.has("reliefcut") {
		d.say("relief", "notch")
	}
	if m.has("stockcup") && (m.asksWhether() || m.says("fit", "fits", "stock", "buy", "bought", "ready made", "premade", "pre made", "store bought", "off the shelf")) {
		d.say("cup", "yes")
	}
}

// backPlate reads the plate: whole, sawn out with a shelf, or none.
func (d *draft) backPlate() {
	m := d.m
	switch {
	case m.has("openback"):
		d.say("plate", "open")
		d.set("shelf", m.with("shelf"))
	case m.has("backplate") && m.says("off the backplate", "off the back plate", "above the backplate", "above the back plate"):
		return // only where the stone sits
	case m.has("backplate") && !d.has("platerim"): // a border tells it
		d.say("plate", "solid")
	case m.has("backplate"):
	default:
		return
	}
	if q := m.besideMeaning("backplate"); q != nil && !d.has("platethick") {
		if q.measure == gauge || q.measure == length && q.value <= mostMetal {
			d.set("platethick", q)
		}
	}
}

// mostPlateRim is how far a plate may stand out beyond the wall, mm.
const mostPlateRim = 8

// noPlateRim tell that a back plate ends where the wall ends.
var noPlateRim = []string{"no border", "without border", "without a border", "without any border", "no rim", "without rim", "without a rim", "no margin", "without margin", "no overhang", "without overhang", "without any overhang", "no ledge", "no lip", "flush with the bezel", "flush with the wall", "plate flush", "same size as the bezel", "trimmed flush", "exactly the size of the bezel", "no edge showing", "border 0", "zero border"}

// plateRim takes how far a back plate stands out beyond the wall, "with a 2 mm border", and
// of a plate that is asked for without its wall the thickness.
func (d *draft) plateRim() {
	m := d.m
	if !m.has("backplate") {
		return
	}
	if m.says(noPlateRim...) {
		d.say("platerim", "0")
		d.say("plate", "solid")
		return
	}
	for _, q := range m.found {
		if q.used || !q.free() && q.role != "perimeter" || q.measure != length && q.measure != bare || q.value > mostPlateRim {
			continue
		}
		after := m.between(q.next, min(q.next+4, len(m.tokens)))
		if m.saysOneBetween(q.next, q.next+2, "border", "margin", "overhang") || strings.HasPrefix(after, "all round") || strings.HasPrefix(after, "all around") || strings.HasPrefix(after, "all the way") {
			d.set("platerim", q)
			break
		}
	}
	if !d.has("platerim") || m.says("bezel", "bezels", "strip", "strips", "wall", "wire") {
		return
	}
	for _, q := range m.found {
		if !q.used && (q.measure == gauge || q.role == "thickness" || q.measure == length && q.value <= mostMetal) {
			d.set("platethick", q)
			return
		}
	}
}

// ofEach is the free length of "each one is about 2 mm", "2 mm each".
func (m *message) ofEach() *quantity {
	for _, q := range m.found {
		if q.free() && !q.used && q.measure != gauge && (m.at(q.next).text == "each" || m.saysOneBetween(max(0, q.first-4), q.first, "each", "every")) {
			return q
		}
	}
	return nil
}

// besideMeaning is a free number right before a word with a meaning, or right
// behind it but for "of", "in" or "from": "22 ga back plate", "back plate from 22 ga".
// A meaning that ends in a colon stands for all that begin so.
func (m *message) besideMeaning(meaning string) *quantity {
	for _, s := range m.senses {
		is := false
		for _, means := range s.Means {
			is = is || means == meaning || strings.HasSuffix(meaning, ":") && strings.HasPrefix(means, meaning)
		}
		if !is {
			continue
		}
		for _, q := range m.found {
			if !q.free() || q.used || q.measure != gauge && q.measure != length {
				continue
			}
			behind := q.first == s.next || q.first == s.next+1 && contains([]string{"of", "in", "from", "is"}, m.at(q.first-1).text)
			if q.next == s.first || behind {
				return q
			}
		}
	}
	return nil
}

// outlineAt reports whether an outline's word begins at i.
func (m *message) outlineAt(i int) bool {
	for _, s := range m.senses {
		if s.first == i && s.outline() != "" {
			return true
		}
	}
	return false
}

// aroundFreeform is the length of a paper strip round a freeform stone whose length
// and width are told too.
func (m *message) aroundFreeform() *quantity {
	if !m.has("freeform") || m.stoneSides() == nil {
		return nil
	}
	if q := m.with("perimeter"); q != nil {
		return q
	}
	if sides := m.stoneSides().sides; len(sides) == 2 {
		for _, q := range m.found {
			if (q.measure == length || q.measure == bare) && roundStone(q.value, max(sides[0], sides[1]), min(sides[0], sides[1])) {
				return q
			}
		}
	}
	if !m.says("paper", "tape", "string", "thread", "strip", "around", "round it") {
		return nil
	}
	return m.first(15, 400, length, bare)
}

// freeform reads a bezel round a stone whose outline has no name, by a paper strip,
// length and width.
func (d *draft) freeform(around *quantity) Reading {
	d.say("outline", "measured")
	d.set("perimeter", around)
	d.set("size", d.m.stoneSides())
	d.bezelParts()
	d.thickness(1.3)
	d.set("dome", d.m.with("depth", "dome", "height"))
	d.alloy("alloy", false)
	return d.reading()
}

// aboutFreeform: a stone without a named outline and without a measure, and what to
// cut for it.
func (m *message) aboutFreeform() bool {
	return m.has("freeform") && (m.has("stone", "cab", "bezel") || m.cues["bezel"] > 0) && m.of(length, bare, size) == nil &&
		!m.has("photo") && (m.says("strip", "cut", "bezel", "how long", "measure", "set") || m.has("bezel"))
}

// measureFreeform says what to measure of it.
func (m *message) measureFreeform() (Reading, bool) {
	return Reading{Outcome: Explanation, Topic: "freeform stone", Source: "common practice, no source",
		Text: "Lay a strip of paper round the stone's edge, mark where it meets itself, and measure it flat; measure the stone's length and width too. Then type, with your figures: bezel measured 20x16 perimeter 58. The metal strip is longer than the paper by pi x its thickness. Or photograph the stone on the tracing card: trace card."}, true
}
