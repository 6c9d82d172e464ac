package sentence

import (
	"math"
	"slices"
	"strings"
)

// Claws are told by where they stand, "a V on the point and two each side", and by how much
// of the wall stays whole under them.

// clawPlaces are where claws stand on a stone, with how many such places a stone has: the
// points of a marquise are two, those of a trillion three.
var clawPlaces = map[string]float64{"side": 2, "sides": 2, "end": 2, "ends": 2, "shoulder": 2, "shoulders": 2, "lobe": 2, "lobes": 2, "corner": 4, "corners": 4, "point": 1, "points": 2, "tip": 1, "tips": 2, "cleft": 1}

// pointsOf are how many points some outlines have.
var pointsOf = map[string]float64{"marquise": 2, "trillion": 3, "pear": 1, "heart": 1, "lozenge": 4, "kite": 4}

// farthestPlace is how many words stand between a number of claws and their place at most.
const farthestPlace = 7

// mostClaws is how many claws are told by their places at most.
const mostClaws = 16

// clawsByPlace adds up claws that are told by their places.
func (d *draft) clawsByPlace() {
	m := d.m
	total, places, begin := 0.0, 0, 0
	var counted []int
	for i, t := range m.tokens {
		of, is := clawPlaces[t.text]
		if !is {
			continue
		}
		n, at := m.clawsBefore(begin, i)
		if n == 0 {
			continue
		}
		if n == 1 && contains([]string{"points", "ends", "corners"}, t.text) || m.saysOneBetween(max(begin, i-2), i, "each", "both", "either", "every") {
			if points := d.pointsOfStone(); points > 0 && (strings.HasPrefix(t.text, "point") || strings.HasPrefix(t.text, "tip") || strings.HasPrefix(t.text, "corner")) {
				of = points
			}
			n *= of
			places++
		}
		total, places, begin = total+n, places+1, i+1
		counted = append(counted, at)
	}
	if places < 2 || total < 2 || total > mostClaws {
		return
	}
	for _, at := range counted {
		m.taken[at] = true
		for _, q := range m.found {
			if q.first == at {
				q.used, q.noted = true, true
			}
		}
	}
	if q := m.counts("prongs"); q != nil {
		return // "4 claws, two at each end"
	}
	d.say("number", plain(total))
	d.note("the claws that you placed are %s in all", plain(total))
}

func (d *draft) pointsOfStone() float64 {
	for _, o := range d.m.meaning("outline:") {
		if n := pointsOf[o]; n > 0 {
			return n
		}
	}
	return 0
}

// clawsBefore is the number of claws that a message tells from one token up to a place, and
// where it stands; 0 for none.
func (m *message) clawsBefore(begin, place int) (n float64, at int) {
	begin = max(begin, place-farthestPlace)
	for i := place - 1; i >= begin; i-- {
		t := m.at(i)
		switch {
		case n > 0 && (m.inFigure(i) || t.text == ","):
			return n, at
		case m.inFigure(i):
			for _, q := range m.found {
				if q.first <= i && i < q.next {
					if q.measure != bare && q.measure != count || q.value != math.Trunc(q.value) || q.value > 6 {
						return 0, 0
					}
					return q.value, q.first
				}
			}
		case numberWords[t.text] >= 1 && numberWords[t.text] <= 6:
			return numberWords[t.text], i
		case t.text == "pair" || t.text == "couple":
			return 2, i
		case t.text == "v" || t.text == "single":
			n, at = 1, i // a number may stand before it
		}
	}
	return n, at
}

// takeRangeOfClaws takes "4 or 6" for the number of claws, which askRangeOfClaws asks about
// once the rest of the piece is known.
func (d *draft) takeRangeOfClaws() {
	for _, q := range d.m.found {
		whole := q.other != nil && q.value == math.Trunc(q.value) && q.other.value == math.Trunc(q.other.value)
		if !whole || d.has("number") || q.used || q.measure != bare || q.role != "" || q.other.value < 2 || q.value > mostClaws || !d.m.saysOneBetween(q.first, q.next, "or") {
			continue
		}
		q.used, q.noted, q.option = true, true, "number"
		return
	}
}

func (d *draft) askRangeOfClaws() {
	if q := d.m.quantityOf("number"); q != nil && q.other != nil && !d.has("number") {
		low, high := q.other.shown, q.shown
		d.question("number", "How many prongs shall I take?", d.with(low+" prongs", "number", low), d.with(high+" prongs", "number", high))
	}
}

// slotWords are what is sawn out between the claws.
var slotWords = []string{"slot", "slots", "gap", "gaps", "cut", "cuts", "notch", "notches", "saw", "sawn", "sawed"}

// slotsDeep takes how deep the slots between the claws are: what is left of the wall's
// height stays whole under them. It is no depth of the stone.
func (d *draft) slotsDeep() {
	m := d.m
	for _, q := range m.found {
		if q.used || q.measure != length && q.measure != bare || q.role != "depth" && q.role != "" || !m.saysOneBetween(q.next, q.next+1, "deep", "down") {
			continue
		}
		if !m.saysOneBetween(max(0, q.first-6), q.first, slotWords...) && !m.saysOneBetween(q.next+1, q.next+2, slotWords...) {
			continue
		}
		q.used, q.noted = true, true
		height := m.with("height")
		if height == nil || height.value <= q.value || d.has("gallery") {
			d.note("your slots of %s are not used: compare them with how deep the windows come out, and tell how much stays whole under the claws to change that", strings.TrimSpace(q.typed(m)))
			return
		}
		d.say("gallery", plain(math.Round(100*(height.value-q.value))/100))
		d.note("slots of %s in an upright wall of %s leave %s mm whole under them; a leaning wall is longer along its slant, so check how deep the windows come out", strings.TrimSpace(q.typed(m)), strings.TrimSpace(height.typed(m)), d.options["gallery"])
		return
	}
}

// partsOfHeight are parts of a wall's height in words.
var partsOfHeight = map[string]float64{"half": 0.5, "halfway": 0.5, "third": 1.0 / 3, "quarter": 0.25}

// galleryOfHeight takes the part of the height that stays whole under the claws: "leave the
// lower half whole", "saw only half way down".
func (d *draft) galleryOfHeight() {
	m := d.m
	height := m.with("height")
	if d.has("gallery") || height == nil || height.measure != length && height.measure != bare {
		return
	}
	for i, t := range m.tokens {
		part := partsOfHeight[t.text]
		if part == 0 || m.inFigure(i) {
			continue
		}
		around := func(words ...string) bool { return m.saysOneBetween(max(0, i-6), min(len(m.tokens), i+5), words...) }
		left := around("leave", "leaving", "left", "keep", "whole", "solid", "uncut", "unsawn") && around("bottom", "lower", "base", "foot", "below")
		sawn := part == 0.5 && m.saysOneBetween(max(0, i-8), i, slotWords...) && around("height", "way", "halfway", "down")
		if !left && !sawn {
			continue
		}
		if m.at(i-1).text == "two" {
			part *= 2
		}
		if m.saysOneBetween(max(0, i-3), i, "top", "upper") {
			part = 1 - part
		}
		d.say("gallery", plain(math.Round(100*part*height.value)/100))
		d.note("what stays whole under the claws is taken as %s mm, measured along the wall", d.options["gallery"])
		return
	}
}

// wholeUnderClaws takes the height that stays whole under the claws, by its word.
func (d *draft) wholeUnderClaws() {
	if q := d.m.figureBehind("gallery"); q != nil && d.m.context.takes("prongs", "gallery") {
		d.set("gallery", q)
	}
	d.slotsDeep()
	d.galleryOfHeight()
}

// saidAgain takes a number that is placed and named once more only to speak of it: "i know
// 5 is weird".
func (d *draft) saidAgain() {
	for _, q := range d.m.unused() {
		if q.measure != bare || !contains([]string{"is", "are", "seems", "sounds", "feels", "looks", "might", "would"}, d.m.at(q.next).text) {
			continue
		}
		q.used = slices.ContainsFunc(d.m.found, func(other *quantity) bool {
			return other != q && other.used && other.first < q.first && other.value == q.value && other.measure != size
		})
	}
}
