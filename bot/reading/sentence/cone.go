package sentence

import "strings"

// narrowing are phrases before the measure of a setting's lower end.
var narrowing = []string{"tapering to", "tapered to", "tapers to", "taper to", "narrowing to", "narrows to", "tapering down to", "tapers down to", "tapered down to", "down to"}

// baseOfCone takes the measure of a setting's lower end, "6x4 at the base", "bottom
// 5", "tapering to 4 mm".
func (d *draft) baseOfCone() {
	m := d.m
	if q := m.endOf("base", narrowing); q != nil && d.narrower(q) && m.context.takes(d.request, "basesize") {
		d.set("basesize", q)
		d.say("taper", "base")
		if o := m.meaning("outline:"); len(o) > 0 {
			d.say("base", o[0])
		} else if q.measure != size {
			d.say("base", "round")
		}
	}
}

// leadsToEnd are words between the name of an end and its figure.
var leadsToEnd = wordSet("should wants needs must may can will could be to opening hole diameter dia diam edge end size")

// narrower reports whether a figure may be the base of a cone for the stone that is known.
func (d *draft) narrower(q *quantity) bool {
	widest, _, _ := strings.Cut(d.options["size"], "x")
	if strings.HasSuffix(d.options["size"], "in") {
		widest = strings.TrimSpace(widest) + "in"
	}
	stone := lengthOf(strings.TrimSpace(widest))
	return q.measure == size || stone == 0 || q.value < stone
}

// topEnds and baseEnds name the ends of a setting; "below" names one beside "above".
var topEnds, baseEnds, basesBelow = wordSet("top upper"), wordSet("base bottom lower"), wordSet("base bottom lower below")

// endOf is the free size or length beside the word for one end of a setting, or
// behind one of the phrases that lead to it.
func (m *message) endOf(end string, leads []string) *quantity {
	words := topEnds
	if end == "base" {
		words = baseEnds
		if m.says("=above") {
			words = basesBelow
		}
	}
	for _, q := range m.found {
		if q.used || q.role != "" && !((q.role == "diameter" || q.role == "outer") && end == "base") || q.measure != size && q.measure != length && q.measure != bare || q.value < 1 {
			continue
		}
		for _, lead := range leads {
			n := len(strings.Fields(lead))
			if m.between(max(0, q.first-n), q.first) == lead {
				return q
			}
		}
		for k := q.next; k <= q.next+3; k++ { // "6x4 at the base"
			if words[m.at(k).text] && !m.roleEnds(q.first) && !(m.endWord(q.first-1) && !m.endTaken(q.first-1)) {
				return q
			}
			if w := m.at(k).text; w != "at" && w != "the" && w != "across" && w != "wide" && w != "on" && w != "in" {
				break
			}
		}
		for k := q.first - 1; k >= q.first-5; k-- { // "bottom should be 5"
			if words[m.at(k).text] {
				return q
			}
			if w := m.at(k).text; !beside[w] && !leadsToEnd[w] {
				break
			}
		}
	}
	return nil
}

// endTaken reports whether the end's word at i belongs to the number before it: "10
// across top 6 across bottom".
func (m *message) endTaken(i int) bool {
	for k := i - 1; k >= i-3; k-- {
		if m.at(k).number {
			return true
		}
		if w := m.at(k).text; w != "across" && w != "at" && w != "the" && w != "mm" && w != "wide" && w != "on" {
			return false
		}
	}
	return false
}

func (m *message) endWord(i int) bool {
	w := m.at(i).text
	return topEnds[w] || baseEnds[w]
}

// halvesAtBase reports whether a cone is said to be half as wide at its lower end as at its
// top: "the bottom about half so big as the top".
func (m *message) halvesAtBase() bool {
	const near = 6
	for i, t := range m.tokens {
		if t.text != "half" || m.inFigure(i) {
			continue
		}
		around := func(words ...string) bool {
			return m.saysOneBetween(max(0, i-near), min(len(m.tokens), i+near+2), words...)
		}
		if around("bottom", "base", "lower", "narrow", "small", "smaller", "little", "foot") && around("top", "rim", "mouth", "size", "width", "wide", "diameter", "that", "big", "upper") && !around("whole", "solid", "uncut", "leave") && !m.saysOneBetween(i, i+4, "height", "high", "tall", "way") {
			return true
		}
	}
	return false
}

// halfAtBase takes a lower end that is half of the stone's size.
func (d *draft) halfAtBase() {
	m := d.m
	if d.has("basesize") || !m.halvesAtBase() || !m.context.takes(d.request, "basesize") {
		return
	}
	q := m.quantityOf("size")
	if q == nil {
		return
	}
	d.say("basesize", plain(q.value/2))
	if len(q.sides) == 2 {
		d.say("basesize", plain(q.sides[0]/2)+"x"+plain(q.sides[1]/2))
	}
	d.say("taper", "base")
	d.say("base", d.options["outline"])
	if d.options["outline"] == "" {
		d.say("base", "round")
	}
	d.note("the base is half of the size that you gave")
}

// offcutBeside takes the thickness of an offcut, "62 x 9 x 0.7 offcut", and says to
// compare its size with that of the blank.
func (d *draft) offcutBeside() {
	m := d.m
	for _, q := range m.found {
		if role, chance := m.likelyRole(d.request, q); q.measure != size || q.used || !m.ofOffcut(q) || d.request == "match" || role == "size" && chance >= likelyRole {
			continue
		}
		q.used = true
		if least := min(q.sides[0], q.sides[len(q.sides)-1]); len(q.sides) == 3 && least <= 2 {
			d.say("thickness", plain(least)+" mm")
		}
		d.note("compare the blank's overall size with your piece of %s", strings.TrimSpace(q.typed(m)))
	}
}

// ofOffcut matches a size beside the word of a piece of sheet.
func (m *message) ofOffcut(q *quantity) bool {
	words := []string{"offcut", "offcuts", "scrap", "sheet", "piece", "remnant", "bit", "is", "of", "a", "measures", "about", "off", "cut", "thats", "that", "which", "measuring", "left", "leftover", "over", "its", "roughly", "metal"}
	named := func(first, next int) bool {
		return m.saysBetween(first, next, words...) && m.saysOneBetween(first, next, "offcut", "offcuts", "scrap", "remnant", "sheet", "piece", "bit")
	}
	for n := 1; n <= 4; n++ {
		if q.first-n >= 0 && named(q.first-n, q.first) || named(q.next, min(len(m.tokens), q.next+n)) {
			return true
		}
	}
	return false
}

// saysOneBetween reports whether one of these words stands from first up to next.
func (m *message) saysOneBetween(first, next int, words ...string) bool {
	for i := first; i < next; i++ {
		if contains(words, m.at(i).text) {
			return true
		}
	}
	return false
}
