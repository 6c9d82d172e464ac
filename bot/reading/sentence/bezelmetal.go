package sentence

import (
	"slices"
	"strings"
)

// stripBeside takes figures of the strip itself: under 1.3 mm it is its thickness,
// above its height, and from 25 mm the length that there is. Height and length
// change nothing in what is cut, and the answer says so.
func (d *draft) stripBeside() {
	m := d.m
	for _, q := range m.found {
		if q.used || q.role == ownResult || q.measure != length && q.measure != bare || !m.ofStrip(q) && !m.lengthOfStrip(q) && !m.heightOfStock(q) {
			continue
		}
		said := strings.TrimSpace(q.typed(m))
		if m.lengthOfStrip(q) {
			q.used = true
			d.note("compare your strip's length, %s, with the strip to cut", said)
			continue
		}
		switch {
		case q.value < 1.3 && q.role != "height":
			if !d.has("thickness") {
				d.set("thickness", q)
			}
		case q.value >= 25:
			q.used = true
			d.note("compare your strip's length, %s, with the strip to cut", said)
		case q.value <= 12.5 && !m.has("step"):
			q.used, q.noted = true, true
			d.note("%s"+asStripHeight+", which changes nothing in its length; compare it with the height that the stone needs", said)
			for _, again := range m.found { // "1/8 wide. Is 1/8 high enough"
				again.used = again.used || again.value == q.value && again.measure == q.measure
			}
		}
	}
}

// asStripHeight tells that a figure is how high the strip is that there is.
const asStripHeight = " is taken as your strip's height"

// isStripHeight reports whether a reading has told that of a figure.
func (m *message) isStripHeight(r Reading, q *quantity) bool {
	return slices.ContainsFunc(r.Notes, func(note string) bool {
		return strings.HasPrefix(note, strings.TrimSpace(q.typed(m))+asStripHeight)
	})
}

// lengthOfStrip matches the length of "6 inches of 3/16 bezel wire".
func (m *message) lengthOfStrip(q *quantity) bool {
	if q.value >= 25 && m.says("enough", "will it do", "reach round", "go round") && (m.at(q.next).text == "left" || m.at(q.next).text == "over" || m.says("wire is", "strip is") && m.saysOneBetween(max(0, q.first-2), q.first, "got", "have")) {
		return true // "long enough if I've got 40 mm left?"
	}
	if q.value < 25 || q.role != "" && q.role != "strip" && q.role != "length" || m.at(q.next).text != "of" || !m.says("enough", "will it do", "reach round", "go round") {
		return false
	}
	for k := q.next + 1; k <= q.next+6; k++ {
		if w := m.at(k).text; w == "wire" || w == "strip" {
			return true
		} else if w == "." || w == "," {
			return false
		}
	}
	return false
}

// ofStrip matches a figure beside the strip: "4 mm strip", "1/8 inch bezel", "3/16
// inch high strip", "strip .3".
func (m *message) ofStrip(q *quantity) bool {
	if q.role != "" && q.role != "strip" && q.role != "height" && q.role != "width" || q.value > 12.5 && q.role == "height" {
		return false
	}
	if w := m.at(q.next).text; w == "short" || w == "too" || w == "over" || w == "under" || w == "shorter" || w == "longer" || q.measure == bare && m.inGauge() == q {
		return false
	}
	k := q.next
	for w := m.at(k).text; w == "high" || w == "wide" || w == "tall" || w == "deep" || w == "plain" || w == "serrated" || w == "gallery" || w == "fine" || w == "-"; w = m.at(k).text {
		k++
	}
	switch m.at(k).text {
	case "strip":
		return true
	case "wire":
		return q.value <= 8
	case "bezel", "bezels":
		return q.value <= 5 && !m.says("too tall", "too high", "too low", "too short") && (m.stoneSides() != nil || m.otherBeside(q)) && m.at(k+1).text != "cab" && m.at(k+1).text != "for"
	}
	if q.role == "strip" {
		return true
	}
	for b := q.first - 1; b >= max(0, q.first-3); b-- {
		switch w := m.at(b).text; w {
		case "strip":
			return !m.ofStoneWord(q)
		case "is", "of", ",", "at", "x", "by":
		default:
			return false
		}
	}
	return false
}

// Heights in which bezel strip is sold, mm; common practice, no source.
const lowestStock, highestStock = 1.5, 8

// heightOfStock reports whether a figure is how high the strip is that there is: going back
// from it, the strip is named before any stone or any figure of one. "Bezel wire 28 ga x
// 1/8", "strip that's 3 mm high", "the 3 mm stuff".
func (m *message) heightOfStock(q *quantity) bool {
	if q.value < lowestStock || q.value > highestStock || q.role != "" && q.role != "height" && q.role != "width" && q.role != "strip" || m.ofStoneWord(q) || m.stoneSides() == nil && m.quantityOf("size") == nil && !m.otherBeside(q) {
		return false
	}
	if m.at(q.next).text == "stuff" {
		return true
	}
	const reach = 9
	for i := q.first - 1; i >= max(0, q.first-reach) && m.at(i).text != "."; i-- {
		for _, other := range m.found {
			if other.first <= i && i < other.next && other.measure != gauge && (other.measure == size || other.value >= thickestWall) {
				return false
			}
		}
		switch w := m.at(i).text; {
		case w == "strip" || w == "strips" || w == "wire" || w == "ribbon":
			return m.at(i-1).text != "long" && m.at(i-1).text != "much"
		case w == "bezel" && m.edgedAt(i-1):
			return true // "serrated bezel, 3mm"
		case contains([]string{"cab", "cabs", "cabochon", "stone", "stones", "gem", "dome", "domed", "step", "ledge", "seat", "gallery", "length", "for"}, w) || m.outlineAt(i):
			return false
		}
	}
	return false
}

// otherBeside reports whether another figure stands beside the stone or its
// outline.
func (m *message) otherBeside(q *quantity) bool {
	for _, other := range m.found {
		if other != q && (other.measure == length || other.measure == bare) && other.value > 3 && (m.ofStoneWord(other) || other.role == "diameter") {
			return true
		}
	}
	return false
}

// plateBeside takes figures of the back plate: its thickness, "22 ga plate", or its
// rim, "backplate 1.5 mm bigger".
func (d *draft) plateBeside() {
	m := d.m
	if (m.asksWhether() || m.says("enough", "ok or not")) && len(m.found) <= 2 {
		return // whether the plate will do is the question
	}
	for i := range m.senses {
		s := &m.senses[i]
		plate := contains(s.Means, "backplate") || m.at(s.first).text == "plate" && s.next == s.first+1
		if !plate || m.at(s.first).text == "backs" {
			continue
		}
		if q := m.besidePlate(s); q != nil {
			d.plateFigure(q)
			for _, a := range m.alloys {
				if a.first == q.next && (a.next == s.first || a.next == s.first-1 || q.first >= s.next) {
					a.used = true // "on 22 ga sterling backing"
				}
			}
		}
	}
}

// plateFigure takes a figure of the back plate.
func (d *draft) plateFigure(q *quantity) {
	switch {
	case d.m.saysBetween(q.next, q.next+1, "bigger", "larger", "wider", "rim", "margin", "border", "extra"):
		d.set("platerim", q)
	case q.measure == gauge || q.value <= mostMetal:
		d.set("platethick", q)
	default:
		q.used = true
		d.note("%s of the plate changes nothing in the strip: cut the plate a little larger than the bezel and trim it after soldering", strings.TrimSpace(q.typed(d.m)))
		return
	}
	if !d.has("plate") {
		d.say("plate", "solid")
	}
}

// besidePlate is the figure of a back plate: before its word, with a metal between
// at most, or after it.
func (m *message) besidePlate(s *sense) *quantity {
	for _, q := range m.found {
		if q.used || q.measure != length && q.measure != bare && q.measure != gauge || q.value > 3 && q.measure != gauge || q.role == "dome" {
			continue
		}
		if gap := s.first - q.next; gap >= 0 && gap <= 2 && !m.numberBetween(q.next, s.first) && !m.saysOneBetween(q.next, s.first, ",", ";") && (gap == 0 || m.metalBehind(q) || m.saysBetween(q.next, s.first, "sheet", "silver", "-")) {
			return q
		}
	}
	for _, q := range m.found {
		if q.used || q.measure != length && q.measure != bare && q.measure != gauge || q.value > 3 && q.measure != gauge {
			continue
		}
		if gap := q.first - s.next; gap >= 0 && gap <= 4 && m.saysBetween(s.next, q.first, "is", "already", "on", ",", "in", "of", "sheet", "at", "about") && !m.ofStrip(q) {
			return q
		}
	}
	return nil
}

// saysBetween reports whether nothing but these words stands from first up to next.
func (m *message) saysBetween(first, next int, words ...string) bool {
	for i := first; i < next; i++ {
		if !contains(words, m.at(i).text) {
			return false
		}
	}
	return true
}

// edgedAt reports whether the word at i tells a bezel's edge, which is of the strip that is
// bought: "serrated".
func (m *message) edgedAt(i int) bool {
	return slices.ContainsFunc(m.senses, func(s sense) bool {
		return s.first == i && slices.ContainsFunc(s.Means, func(what string) bool { return strings.HasPrefix(what, "edging:") })
	})
}
