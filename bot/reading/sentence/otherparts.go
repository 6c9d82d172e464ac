package sentence

import (
	"math"
	"strings"
)

// What is told of a piece later is often said of a part of it that is not the one that is
// cut: the plate under a bezel, the stone beside a ring that is sized, the centre of a
// halo. Its figure and its metal are that part's.

// nearPart is how many words may stand between a part's name and its figure.
const nearPart = 4

// plateWords name the plate under a bezel, and goingBack stand before "back" where that is
// no plate.
var (
	plateWords = wordSet("plate backplate back backing base baseplate")
	goingBack  = wordSet("go going get come coming put way step look turn")
)

// partsApart takes what a follow-up says of other parts of the piece.
func (m *message) partsApart(d *draft) {
	switch d.request {
	case "bezel":
		m.plateApart(d)
	case "halo":
		m.wallOfCentre(d)
		m.countApart(d)
	case "tubeset":
		m.tubeApart(d)
		m.countApart(d)
	case "match":
		m.sameWall(d)
	case "melt":
		m.severalWaxes(d)
	case "resize":
		m.stonesOfRing(d)
	}
}

// roundPlate are words of what a plate leaves round the bezel.
var roundPlate = []string{"edge", "margin", "rim", "gap", "border", "overhang", "bigger", "larger", "wider", "between", "size", "flange"}

// plateApart takes the thickness of a bezel's plate, and leaves out the plate's metal,
// which changes nothing in the strip.
func (m *message) plateApart(d *draft) {
	if m.says(roundPlate...) {
		return // how far it stands out, not how thick it is
	}
	for i, t := range m.tokens {
		if !plateWords[t.text] || t.text == "back" && (goingBack[m.at(i-1).text] || m.at(i+1).text == "to") || m.asksWhether() {
			continue
		}
		q := m.figureOfPart(i)
		first, next := i, i+1
		if q != nil {
			first, next = min(first, q.first), max(next, q.next)
			d.plateFigure(q)
		}
		for _, a := range m.alloys {
			if a.next >= first && a.first <= next && !a.used {
				a.used = true
				d.note("the metal of the plate changes nothing in the strip")
			}
		}
		return
	}
}

// figureOfPart is the thickness that stands nearest to a word, nil for none.
func (m *message) figureOfPart(word int) (nearest *quantity) {
	least := nearPart + 1
	for _, q := range m.found {
		if q.used || q.measure != gauge && q.measure != length && q.measure != bare || q.measure != gauge && q.value > mostPlate {
			continue
		}
		between := word - q.next
		if between < 0 {
			between = q.first - word - 1
		}
		if between < least && between >= 0 {
			nearest, least = q, between
		}
	}
	return nearest
}

// mostPlate is the thickest plate under a bezel in mm.
const mostPlate = 3

// wallOfCentre takes the wall of the setting that the centre of a halo sits in.
func (m *message) wallOfCentre(d *draft) {
	if !m.says("centre", "center", "centres", "centers", "middle", "main stone", "big stone", "big one") || !m.says("bezel", "wall", "collet", "setting", "cup") || len(m.found) != 1 {
		return
	}
	q := m.found[0]
	if thick := q.measure == length || q.measure == bare; thick && !q.used && q.value <= mostCentreWall && m.context.takes("halo", "centregap") {
		d.set("centregap", q)
	}
}

// mostCentreWall is the thickest wall of a halo's centre in mm.
const mostCentreWall = 1.5

// ofCount stand behind a number in words that counts settings.
var ofCount = wordSet("in of stones tubes settings total altogether please . , ;")

// countApart takes how many settings there are where it is said in words: "three in a row".
func (m *message) countApart(d *draft) {
	if d.has("count") && d.request != "tubeset" || !m.context.takes(d.request, "count") || m.asksWhether() {
		return
	}
	for i, t := range m.tokens {
		n := numberWords[t.text]
		if n < 2 || n != math.Trunc(n) || m.taken[i] || m.inFigure(i) {
			continue
		}
		if next := m.at(i + 1); next.text == "" || ofCount[next.text] && m.at(i+2).text != "an" {
			m.taken[i] = true
			d.say("count", plain(n))
			return
		}
	}
}

// mostTubeWall is the thickest wall of a tube in mm.
const mostTubeWall = 1.6

// tubeApart takes the outside and the wall of the tube at hand: "i got 4 mm with .5 wall".
func (m *message) tubeApart(d *draft) {
	if len(m.found) != 2 || !m.says("wall", "walls") || !m.context.takes("tubeset", "tubesize") {
		return
	}
	outside, wall := m.found[0], m.found[1]
	if outside.value < wall.value {
		outside, wall = wall, outside
	}
	for _, q := range m.found {
		if q.used || q.measure != length && q.measure != bare {
			return
		}
	}
	if m.ofStoneWord(outside) || wall.value > mostTubeWall || outside.value < 2*wall.value {
		return
	}
	outside.used, wall.used = true, true
	d.say("tubesize", plain(outside.value)+"x"+plain(wall.value))
}

// sameWall takes another tube with the wall of the one before: "and the 6 mm, same wall".
func (m *message) sameWall(d *draft) {
	_, wall, isTube := strings.Cut(d.options["tubesize"], "x")
	if !isTube || len(m.found) != 1 || !m.says("same wall", "wall is the same", "same thickness", "same walls") {
		return
	}
	if q := m.found[0]; (q.measure == length || q.measure == bare) && !q.used && q.value > 2*parse(wall) {
		q.used = true
		d.say("tubesize", plain(q.value)+"x"+wall)
	}
}

// severalWaxes takes how many of the wax are cast at once: "and three of those".
func (m *message) severalWaxes(d *draft) {
	wax := d.options["wax"]
	if wax == "" || m.asksWhether() {
		return
	}
	for i := range m.tokens {
		n, next := numberWords[m.at(i).text], i+1
		var q *quantity
		for _, f := range m.found {
			if f.first == i && !f.used && (f.measure == bare || f.measure == count) {
				n, next, q = f.value, f.next, f
			}
		}
		if n < 2 || n != math.Trunc(n) || m.between(next, next+2) != "of them" && m.between(next, next+2) != "of those" && m.between(next, next+2) != "of these" && m.between(next, next+2) != "on one" && m.between(next, next+2) != "on a" {
			continue
		}
		if q != nil {
			q.used = true
		}
		each, unit, _ := strings.Cut(wax, " ")
		d.say("wax", strings.TrimSpace(plain(n*parse(each))+" "+unit))
		d.note("%s waxes of %s", plain(n), wax)
		return
	}
}

// stonesOfRing takes that there are stones in a ring that is sized.
func (m *message) stonesOfRing(d *draft) {
	if !d.has("stones") && m.context.takes("resize", "stones") && m.saysStones() && (!m.asksInWords() || m.says("my")) {
		d.say("stones", "yes")
	}
}
