package sentence

import (
	"math"
	"slices"
	"strings"
)

// resize reads a ring that goes from one size to another.
func (m *message) resize() Reading {
	if m.says(systemsUnknown...) && !m.says("us", "uk", "american", "british", "diameter") {
		return explain(factNamed("indian ring sizes"))
	}
	d := m.draft("resize")
	d.places = []place{{"width", "width of the band", 0.8, widestBand}, {"thickness", "thickness of the metal", 0.3, 5}}
	if m.cameUpWrong() && m.ringSizes() == 1 {
		d.question("", "Which size is the ring now, and which should it be?", d.with("US 7 to US 6", "from", "us 7", "to", "us 6"), d.with("UK P to UK O", "from", "uk P", "to", "uk O"))
		return d.reading()
	}
	d.takeSizes()
	if m.saysStones() {
		d.say("stones", "yes")
	}
	d.profile()
	d.shankOfRing()
	d.alloy("alloy", false)
	d.needSizes()
	return d.reading()
}

// nowFirst tells the old size from the new one where "now" stands before one of them
// alone: "that's an L and it's now a P".
func (m *message) nowFirst(from, to *quantity) (old, wanted *quantity) {
	isNow := func(q *quantity) bool {
		return q != nil && m.saysOneBetween(q.first-2, q.first, "now", "currently", "presently")
	}
	if isNow(to) && !isNow(from) && !m.says("=was", "=were", "used to") {
		return to, from
	}
	return from, to
}

// needSizes asks for the size that a ring is to have, where that is not known.
func (d *draft) needSizes() {
	if !d.has("to") {
		d.question("to", "From which ring size to which?", d.with("US 6 to US 7", "from", "us 6", "to", "us 7"), d.with("US 8 to US 6", "from", "us 8", "to", "us 6"))
	}
}

// takeSizes takes the two sizes: as they are named, the one that is some sizes
// from the other, or two inside measures.
func (d *draft) takeSizes() {
	m := d.m
	m.sizesInTalk()
	m.likelySizes()
	var sizes []*quantity
	for _, q := range m.found {
		if q.measure == ringSize && !q.used {
			sizes = append(sizes, q)
		}
	}
	sizes = d.bySteps(sizes)
	if from, to, ok := m.latestOfThree(sizes); ok {
		d.note("%s was its size before", sizes[0].shown)
		sizes[0].used = true
		sizes, m.oldSize, m.newSize = []*quantity{from, to}, from, to
	}
	if len(sizes) < 2 {
		if pair, system := m.insideMeasures(); pair != nil {
			for i, option := range []string{"from", "to"} {
				pair[i].used = true
				d.say(option, system+" "+plain(pair[i].value))
			}
			return
		}
	}
	if len(sizes) == 2 {
		sizes[0], sizes[1] = m.inOrder(sizes[0], sizes[1])
	}
	for i, option := range []string{"from", "to"} {
		if i >= len(sizes) {
			break
		}
		q := sizes[i]
		if len(sizes) == 1 && m.isWanted(q) {
			option = "to"
		}
		q.used = true
		system := q.system
		if other := 1 - i; system == "" && other < len(sizes) && !letter(sizes[other].shown) {
			system = sizes[other].system
		}
		d.say(option, d.systemOf(q, system)+" "+q.shown)
	}
	if d.has("to") && !d.has("from") {
		to := d.options["to"]
		d.question("from", "Which size is the ring now?", d.with("US 6 to "+to, "from", "us 6"), d.with("UK N to "+to, "from", "uk N"))
	}
}

// wantedBefore and hasBefore are words before a size that the ring shall have, and
// that it has.
var (
	wantedBefore = []string{"to", "into", "need", "needs", "want", "wants", "should", "make", "finger", "fingers", "she", "shes", "im", "hes", "i", "her", "his", "daughter", "wife", "daughters", "knuckle", "fit", "for", "be"}
	hasBefore    = []string{"from", "ring", "rings", "band", "says", "was", "now", "currently", "bought", "bands", "stamped", "reads", "marked", "goes"}
)

// isWanted reports whether a size is the one that the ring shall have: the nearest
// of the words that tell stands before it.
func (m *message) isWanted(q *quantity) bool {
	if age := m.ageOf(q); age != 0 {
		return age == newSize
	}
	if q == m.oldSize || q == m.newSize {
		return q == m.newSize
	}
	if after := m.at(q.next).text; after == "ring" || after == "band" || after == "now" {
		return false
	}
	for i := q.first - 1; i >= max(0, q.first-7); i-- {
		w := m.at(i).text
		if q.measure != ringSize && slices.ContainsFunc(m.found, func(o *quantity) bool { return o != q && o.value >= 11.5 && o.first <= i && i < o.next }) {
			return false
		}
		if w == "." || slices.ContainsFunc(m.found, func(o *quantity) bool { return o.measure == ringSize && o.first <= i && i < o.next }) {
			return false
		}
		switch {
		case slices.Contains(wantedBefore, w):
			return true
		case slices.Contains(hasBefore, w):
			return false
		}
	}
	return false
}

// sizesInTalk reads bare numbers as ring sizes where a resizing is spoken of: "6 to
// 7 plain silver band", "size 7 make 7 1/4", "the ring says 8".
func (m *message) sizesInTalk() {
	sizes := 0
	var free []*quantity
	for _, q := range m.found {
		if q.measure == ringSize {
			sizes++
			continue
		}
		after := m.at(q.next)
		ends := !after.word() || after.text == "to" || !measuring[after.text] && counted[after.stem] == "" && after.text != "x" && !sizeWords[after.text] && !strings.HasPrefix(after.text, "time")
		quarters := 4*q.value == math.Trunc(4*q.value)
		if q.measure == bare && q.role == "" && quarters && ends && (q.value >= 1 && q.value <= 16 || q.value >= 41 && q.value <= 76) {
			free = append(free, q)
		}
	}
	if n := sizes + len(free); len(free) == 0 || n > 2 || n == 1 && sizes == 0 && !m.sizeLed(free[0]) {
		return
	}
	if sizes == 0 && len(free) == 2 && !m.startsWith("resize", "size") && m.at(free[0].next).text != "to" && !m.sizeLed(free[0]) && !m.sizeLed(free[1]) {
		return
	}
	for _, q := range free {
		if sizes > 0 && !m.sizeLed(q) && m.at(q.next).text != "to" {
			return
		}
	}
	for _, q := range free {
		q.measure, q.unit = ringSize, true
	}
	// "8 to 6.5 us": the system holds for both.
	var system string
	for _, q := range m.found {
		if q.measure == ringSize && q.system != "" && !letter(q.shown) {
			system = q.system
		}
	}
	for _, q := range free {
		if q.system == "" {
			q.system = system
		}
	}
}

// sizeLed matches a word right before a number that leads to a ring's size.
func (m *message) sizeLed(q *quantity) bool {
	switch m.at(q.first - 1).text {
	case "to", "it", "from", "a", "an", "says", "wear", "wears", "than", "make", "into", "is", "was", "now", "from a", "reads", "marked", "stamped", "needs", "need", "be", "around", "about":
		return true
	}
	return false
}

// sizeSteps is how many sizes up or down are asked for, 0 for none, with the
// number that says it.
func (m *message) sizeSteps() (float64, *quantity) {
	for _, q := range m.found {
		if q.measure == bare && q.role == "" && q.value <= 8 && (strings.HasPrefix(m.at(q.next).text, "size") || m.saidBefore(q.next, "us size", "uk size", "ring size", "full size", "whole size", "whole sizes", "full sizes", "uk sizes", "us sizes")) {
			return q.value, q
		}
	}
	for _, q := range m.found { // "sized up 3"
		if w := m.at(q.first - 1).text; q.measure == bare && q.role == "" && q.value <= 6 && (w == "up" || w == "down" || w == "by") && m.ofSizing() && m.at(q.next).text != "to" {
			return q.value, q
		}
	}
	switch {
	case m.says("3/4 of a size", "3/4 size", "three quarters of a size"):
		return 0.75, nil
	case m.says("1/4 of a size", "1/4 size"):
		return 0.25, nil
	case m.says("1/2 a size", "1/2 size"):
		return 0.5, nil
	case m.says("size and a half", "one and a half sizes"):
		return 1.5, nil
	case m.says("half a size", "half size", "a half size"):
		return 0.5, nil
	case m.says("quarter size", "quarter of a size"):
		return 0.25, nil
	case m.says("two sizes", "couple of sizes", "couple sizes"):
		return 2, nil
	case m.says("three sizes"):
		return 3, nil
	case m.says("four sizes"):
		return 4, nil
	case m.says("a size", "one size", "1 size", "a full size", "a whole size", "one full size"):
		return 1, nil
	}
	return 0, nil
}

// saidBefore reports whether one of these phrases begins at i.
func (m *message) saidBefore(i int, phrases ...string) bool {
	return slices.ContainsFunc(phrases, func(p string) bool { return m.between(i, i+len(strings.Fields(p))) == p })
}

func (m *message) ofSizing() bool {
	return m.says("sized", "sizing", "resize", "size up", "size down", "resizing")
}

func (m *message) goesDown() bool {
	return m.says("down", "smaller", "shrink", "reduce", "tighter", "take out", "cut out", "taking out", "too big", "too loose", "too large", "loose")
}

func (m *message) goesUp() bool {
	return m.says("up", "bigger", "larger", "enlarge", "stretch", "wider", "too small", "too tight", "tight", "add", "let in")
}

// bySteps adds the size that is some sizes up or down from the one that is named:
// "two sizes bigger", "down 1 1/2 sizes from US 8".
func (d *draft) bySteps(sizes []*quantity) []*quantity {
	m := d.m
	if len(sizes) != 1 || m.widerSize() {
		return sizes
	}
	steps, step := m.sizeSteps()
	switch {
	case steps == 0:
		return sizes
	case m.goesDown():
		steps = -steps
	case !m.goesUp():
		return sizes
	}
	from := sizes[0]
	to := *from
	if to.shown = sizeAfter(from.shown, steps); to.shown == "" {
		return sizes
	}
	if step != nil {
		step.used = true
	}
	to.value += steps
	d.note("%s sizes from %s is %s", plain(steps), from.shown, to.shown)
	return append(sizes, &to)
}

// fromSize is the ring's present size, nil where none is named.
func (m *message) fromSize() *quantity {
	var sizes []*quantity
	for _, q := range m.found {
		if q.measure == ringSize {
			sizes = append(sizes, q)
		}
	}
	switch {
	case len(sizes) == 0:
		return nil
	case len(sizes) == 2:
		from, _ := m.inOrder(sizes[0], sizes[1])
		return from
	}
	return sizes[0]
}

// insideMeasures are two inside measures of a ring, before and after, as diameters
// or as the way round; nil for none.
func (m *message) insideMeasures() (pair []*quantity, system string) {
	around := m.says("circ", "circumference", "inner circ", "round inside", "round the inside", "inside circumference")
	low, high := 11.5, 26.0
	if system = "diameter"; around {
		low, high, system = 41, 76, "iso"
	}
	for _, q := range m.found {
		figure := q.measure == length || q.measure == bare || q.measure == count && q.thing == "rings" && strings.Contains(q.shown, ".")
		if figure && !q.used && q.value >= low && q.value <= high && q.role != "width" && q.role != "thickness" && q.role != "outer" {
			pair = append(pair, q)
		}
	}
	if len(pair) != 2 || pair[0].value == pair[1].value {
		return nil, ""
	}
	pair[0], pair[1] = m.inOrder(pair[0], pair[1])
	return pair, system
}

// shankOfRing takes width and thickness of a ring that is sized. A figure without
// a word for it is the shank's only where nothing else is beside it: "a repeat
// every 5 mm" and "cut out 3 mm" are not.
func (d *draft) shankOfRing() {
	d.taperedShank()
	d.headOfRing()
	d.changeOfRing()
	for _, q := range d.m.found {
		if !q.used && q.role == "" && (q.measure == length || q.measure == bare) && d.m.besideStranger(q) {
			q.role = "other"
		}
	}
	d.section()
}

// changeOfRing leaves out a length that the message cuts out of the ring or lets in: it is
// no measure of the shank.
func (d *draft) changeOfRing() {
	cut, _ := d.m.lengthChanged()
	if cut == nil || cut.used || !d.has("from") || !d.has("to") || slices.Contains([]string{"wide", "thick", "band", "shank"}, d.m.at(cut.next).text) {
		return
	}
	d.tell(cut)
}

// taperedShank takes the narrow end of a shank that tapers: that is where the ring
// is cut.
func (d *draft) taperedShank() {
	m := d.m
	if !m.says("taper", "tapers", "tapered", "tapering", "narrows") {
		return
	}
	var ends []*quantity
	for _, q := range m.found {
		if !q.used && (q.role == "" || q.role == "width") && (q.measure == length || q.measure == bare) && q.value <= 15 {
			ends = append(ends, q)
		}
	}
	if len(ends) != 2 {
		return
	}
	narrow := ends[0]
	if ends[1].value < narrow.value {
		narrow = ends[1]
	}
	ends[0].used, ends[1].used = true, true
	d.say("width", plain(narrow.value))
	d.note("the piece is as wide as the shank where it is cut, %s at the back, and a little to file", mm(narrow.value))
}

// headOfRing leaves out the width of a ring's head, which is not cut.
func (d *draft) headOfRing() {
	m := d.m
	for _, q := range m.found {
		for i := q.first - 3; i < q.first; i++ {
			if w := m.at(i).text; (w == "head" || w == "top" || w == "face") && !q.used && (q.measure == length || q.measure == bare) {
				q.used = true
				d.note("the head's %s changes nothing: the shank is cut", strings.TrimSpace(q.typed(m)))
			}
		}
	}
}

// besideStranger reports whether a word that this reader doesn't know stands right
// before or behind a figure, which then is that word's.
func (m *message) besideStranger(q *quantity) bool {
	before := q.first - 1
	for before >= 0 && passedOver[m.at(before).text] {
		before--
	}
	return m.stranger(before) || m.stranger(q.next)
}

// passedOver are words between a figure and the word that it belongs to.
var passedOver = map[string]bool{"a": true, "an": true, "the": true, "of": true, "about": true, "is": true, "around": true, "roughly": true, "its": true, "only": true, "at": true, "to": true, "from": true}

// ringThings are words of the ring's jobs that carry no figure of their own.
var ringThings = map[string]bool{"chain": true, "chains": true, "links": true, "link": true, "necklace": true, "bracelet": true, "rings": true, "jumprings": true, "dowel": true, "tube": true, "tubes": true, "settings": true, "coil": true, "copper": true, "soft": true, "hard": true, "wire": true, "shank": true, "band": true}

func (m *message) stranger(i int) bool {
	t := m.at(i)
	return t.word() && !m.taken[i] && !ringThings[t.text] && !fillers[t.text] && !bindingWords[t.text] && !usualNext[t.text] && !beside[t.text] && !plainWords[t.text]
}

// widerSize matches "it is a wide band, do I go up a size?", which is no resizing.
func (m *message) widerSize() bool {
	return m.says("wide", "wider") && m.says("go up a size", "go up half a size", "up a size", "should i go up", "do i go up", "how much should i go up", "feel tighter", "feels tighter", "tighter when") && !m.says("resize", "enlarge", "stretch")
}

// sizeAfter is the size that is so many steps after one, empty where there is none.
func sizeAfter(shown string, steps float64) string {
	if !letter(shown) {
		base, _, half := strings.Cut(shown, " ")
		n := parse(base)
		if half {
			n += newMessage(shown).found[0].value - n
		}
		if n+steps <= 0 {
			return ""
		}
		return plain(n + steps)
	}
	n := float64(shown[0]-'A') + steps
	if strings.HasSuffix(shown, "1/2") {
		n += 0.5
	}
	if n < 0 || n > 25 || strings.Contains(shown, "+") {
		return ""
	}
	letterOf := string(rune('A' + int(n)))
	if n != float64(int(n)) {
		return letterOf + " 1/2"
	}
	return letterOf
}
