package sentence

import (
	"fmt"
	"math"
	"strings"
)

// roundPiece is a round of wire or strip by its inner diameter, in mm: a ring, a
// hoop or a bangle, as the request for bands takes it. Between the largest ring
// and the smallest bangle there is none.
func (d *draft) roundPiece(insideMM float64) (ok bool) {
	switch {
	case insideMM >= 11.5 && insideMM <= 25:
		d.say("ring", plain2(insideMM))
		d.say("system", "diameter")
	case insideMM >= 30 && insideMM <= 120:
		d.say("bangle", plain2(insideMM))
	default:
		return false
	}
	return true
}

// plain2 writes a number with at most two decimals, as fine as a bench measures.
func plain2(v float64) string { return plain(math.Round(v*100) / 100) }

// hoop reads an ear hoop: a round of wire by its inner or outer diameter. The gap
// for the catch is taken off its length.
func (m *message) hoop() (Reading, bool) {
	if !m.context.takes("band", "bangle") || len(m.found) == 0 {
		return Reading{}, false
	}
	d := m.draft("band")
	d.places = []place{{"bangle", "inner diameter", 30, 120}, {"thickness", "thickness of the wire", 0.3, 5}}
	gap := m.with("gap")
	if gap != nil {
		gap.used = true
	}
	d.hoopSection()
	across, outer := m.hoopAcross()
	d.alloy("alloy", false)
	thick := m.quantityOf("thickness")
	switch {
	case across == nil:
		d.question("bangle", "How wide is the hoop inside, in mm?", d.with("30 mm inside", "bangle", "30"), d.with("40 mm inside", "bangle", "40"), d.with("50 mm inside", "bangle", "50"))
		return d.reading(), true
	case thick == nil && !d.has("thickness"):
		across.used = true
		d.roundPiece(across.value)
		d.question("thickness", "How thick is the wire, in mm?", d.with("0.8 mm", "thickness", "0.8 mm"), d.with("1 mm", "thickness", "1 mm"), d.with("1.2 mm", "thickness", "1.2 mm"))
		return d.reading(), true
	}
	across.used = true
	t := parse(d.options["thickness"])
	if thick != nil {
		t = thicknessOf(thick)
	}
	inside := across.value
	if outer {
		inside -= 2 * t
		d.note("%s outside is %s mm inside the wire", strings.TrimSpace(across.typed(m)), plain2(inside))
	} else if across.role != "inner" && !m.says("inside", "inner", "id") {
		d.note("%s is taken as the inner diameter; say outside if it is that", strings.TrimSpace(across.typed(m)))
	}
	if m.says("pair", "both", "two hoops") {
		d.note("worked out for one hoop; a pair takes twice as much")
	}
	if gap == nil && d.roundPiece(inside) {
		return d.reading(), true
	}
	if len(m.unused()) > 0 || inside <= 0 {
		return d.reading(), true
	}
	return m.roundInWords(inside, t, gap, d.notes), true
}

// hoopSection takes the wire of a hoop: "2 x 1.2 rect wire", "1.5 mm wire", a gauge.
func (d *draft) hoopSection() {
	m := d.m
	d.profile()
	for _, q := range m.found {
		if q.measure == size && len(q.sides) == 2 && !q.used && max(q.sides[0], q.sides[1]) <= 10 {
			q.used = true
			d.say("profile", "flat")
			d.say("width", plain(max(q.sides[0], q.sides[1])))
			d.say("thickness", plain(min(q.sides[0], q.sides[1]))+" mm")
			return
		}
	}
	if !d.has("profile") {
		d.say("profile", "round")
		if m.has("squarewire") {
			d.say("profile", "square")
		}
	}
	d.thickness(5)
	if q := d.m.with("length"); q != nil && q.value <= 5 && !d.has("thickness") {
		d.set("thickness", q) // "what length of 1.2 wire"
	}
}

// hoopAcross is how wide a hoop is, and whether that is its outside.
func (m *message) hoopAcross() (q *quantity, outer bool) {
	if q := m.with("inner"); q != nil {
		return q, false
	}
	if q := m.with("outer"); q != nil {
		return q, true
	}
	outer = m.says("outside", "outer", "external", "overall", "od")
	if q := m.with("diameter", "width"); q != nil && q.value >= 5 {
		return q, outer
	}
	for _, q := range m.found {
		if !q.used && q.role == "" && (q.measure == length || q.measure == bare) && q.value >= 6 && q.value <= 130 {
			return q, outer
		}
	}
	return nil, outer
}

// roundInWords tells the length of a round that no request has, or that is open.
func (m *message) roundInWords(insideMM, thickMM float64, gap *quantity, notes []string) Reading {
	round := math.Pi * (insideMM + thickMM)
	text := fmt.Sprintf("Cut %.1f mm: pi x (%s mm inside + %s mm of wire).", round, plain2(insideMM), plain2(thickMM))
	if gap != nil {
		text = fmt.Sprintf("Cut %.1f mm: pi x (%s mm inside + %s mm of wire) is %.1f mm, less the gap of %s.", round-gap.value, plain2(insideMM), plain2(thickMM), round, strings.TrimSpace(gap.typed(m)))
	}
	return Reading{Outcome: Explanation, Topic: "length of a round of wire", Source: "the middle of the metal keeps its length", Text: text, Notes: append(notes, m.assumed...)}
}

// aboutMadeFrom: which ring, hoop or bangle does this length of strip make?
func (m *message) aboutMadeFrom() bool {
	if m.of(ringSize) != nil || m.has("stone", "weight", "price", "convert") || m.cues["bezel"] >= 3 || m.cues["collet"] >= 2 || m.with("inner", "outer") != nil {
		return false
	}
	if m.cues["band"]+m.cues["bangle"]+m.cues["hoop"] == 0 && !m.says("size") {
		return false
	}
	asks := m.says("what inside", "what size", "which size", "biggest size", "largest size", "what bangle", "which bangle", "what ring", "which ring", "what hoop", "biggest ring", "biggest bangle", "biggest hoop", "largest ring", "largest bangle", "what diameter", "what dia", "inside diameter", "inside dia", "what id", "how big a ring", "how big a bangle", "how big a hoop") && m.says("make", "makes", "get", "give", "gives", "come", "comes", "left", "out of", "from", "got", "have", "strip", "length")
	return asks && m.stockLength() != nil
}

// stockLength is the length of a piece of strip or wire at hand.
func (m *message) stockLength() *quantity {
	var best *quantity
	for _, q := range m.found {
		if q.used || q.measure != length && q.measure != bare || q.value < 25 || q.role == "inner" || q.role == "outer" || q.role == "perimeter" {
			continue
		}
		after, before := m.at(q.next).text, m.at(q.first-1).text
		of := q.role == "length" || q.role == "strip" || after == "of" || after == "length" || after == "strip" || after == "wire" || after == "piece" || after == "long" ||
			before == "strip" || before == "wire" || (before == "is" || before == "of") && (m.at(q.first-2).text == "strip" || m.at(q.first-2).text == "wire" || m.at(q.first-2).text == "length")
		if of && (best == nil || q.value > best.value) {
			best = q
		}
	}
	return best
}

// madeFrom turns pi x (inside + thickness) round for a length of stock.
func (m *message) madeFrom() (Reading, bool) {
	long := m.stockLength()
	long.used = true
	d := m.draft("band")
	d.places = []place{{"width", "width of the band", 0.8, 30}, {"thickness", "thickness of the metal", 0.3, 8}}
	d.profile()
	if (m.has("wire") || m.cues["hoop"] > 0) && !d.has("profile") {
		d.say("profile", "round")
		if m.has("squarewire") {
			d.say("profile", "square")
		}
	}
	for _, q := range m.found {
		if q.measure == size && len(q.sides) == 2 && !q.used && max(q.sides[0], q.sides[1]) <= 30 {
			q.used = true
			d.say("width", plain(max(q.sides[0], q.sides[1])))
			d.say("thickness", plain(min(q.sides[0], q.sides[1]))+" mm")
		}
	}
	d.set("width", m.with("width"))
	d.roundStock()
	if !d.has("thickness") {
		d.thickness(8)
	}
	d.alloy("alloy", false)
	t := parse(d.options["thickness"])
	if q := m.quantityOf("thickness"); q != nil {
		t = thicknessOf(q)
	}
	said := strings.TrimSpace(long.typed(m))
	if t == 0 {
		r := Reading{Outcome: Question, Ask: fmt.Sprintf("How thick is it? The inside is what %s makes by pi, less the thickness.", said), Missing: "thickness", Request: "band", Options: d.options}
		for _, mm := range []float64{1, 1.5, 2} {
			one := m.draft("band")
			if one.roundPiece(long.value/math.Pi - mm) {
				one.say("thickness", plain(mm)+" mm")
				r.Choices = append(r.Choices, Choice{plain(mm) + " mm", "band", one.options})
			}
		}
		return r, true
	}
	inside := long.value/math.Pi - t
	d.note("%s of %s mm makes %s mm inside: %s / pi less the thickness; filing the ends takes a little off", said, plain2(t), plain2(inside), plain2(long.value))
	if !d.roundPiece(inside) {
		if len(m.unused()) > 0 || inside <= 0 {
			return Reading{}, false
		}
		return Reading{Outcome: Explanation, Topic: "round of a length", Source: "the middle of the metal keeps its length",
			Text: fmt.Sprintf("%s of %s mm makes a round of %.1f mm inside and %.1f mm outside: its length / pi, less and plus the thickness.", said, plain2(t), inside, inside+2*t)}, true
	}
	r := d.reading()
	r.Verdict = fmt.Sprintf("It finishes at about %s inside and %s outside: %s / pi, less and plus the thickness.", mm(inside), mm(inside+2*t), plain2(long.value))
	return r, true
}

// roundStock takes the thickness of "from 4mm round".
func (d *draft) roundStock() {
	m := d.m
	for _, q := range m.found { // "from 4mm round"
		if w := m.at(q.next).text; !q.used && (w == "round" || w == "square") && (q.measure == length || q.measure == bare) && q.value <= 8 && !d.has("thickness") {
			d.set("thickness", q)
			if !d.has("profile") {
				d.say("profile", w)
			}
		}
	}
}

// aboutRoundTheInside: a bangle or a ring by the way round its inside.
func (m *message) aboutRoundTheInside() bool {
	q := m.with("perimeter")
	return q != nil && q.value > 76 && q.value <= 380 && m.says("inside", "inner", "internal", "wrist", "bangle") && !m.has("stone") && m.cues["bezel"] == 0 && m.cues["band"] < 3
}
