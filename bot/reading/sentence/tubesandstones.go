package sentence

import (
	"fmt"
	"slices"
	"strings"

	"guildhand/calc/tubeset"
)

// tubesAndStones are the figures of a message that asks which stone goes in which tube, each
// by the word right beside it.
type tubesAndStones struct {
	m                   *message
	outer, inner, walls []*quantity
	stones              []*quantity
	tubes               []tubeset.Tube
}

// Words right beside a figure that tell which measure of a tube it is.
var (
	outsideOfTube = wordSet("outside outer od out external outsides")
	insideOfTube  = wordSet("inside inner id within bore hole internal inners bores holes")
	wallOfTube    = wordSet("wall walls walled")
	tubeWords     = []string{"tube", "tubes", "tubing", "tubings", "pipe", "chenier"}
	// betweenOfTube are words that may stand between such a word and its figure.
	betweenOfTube = wordSet("is of the a in diameter dia mm wide across at , = about like on thats on")
)

// otherTubeWork are words for tubes that no stone is set in.
var otherTubeWork = []string{"slide", "slides", "sleeve", "telescope", "telescoping", "hinge", "hinged", "knuckle", "jump ring", "jump rings", "bangle", "cab", "cabs", "cabochon", "collet", "bezel", "halo", "bur", "burr", "burs", "drill", "strip", "sheet", "class", "bail"}

// whichInTube answers which stone goes in a tube, or which tube a stone takes, where the
// message tells several of either, or asks which stone a tube takes.
func (m *message) whichInTube() (Reading, bool) {
	if !m.beginsTalkOrWhole() || len(m.found) == 0 || !m.speaksOfTube() || m.says(otherTubeWork...) || !m.asksWhich() {
		return Reading{}, false
	}
	if o := m.meaning("outline:"); slices.ContainsFunc(o, func(of string) bool { return of != "round" }) {
		return Reading{}, false
	}
	f := tubesAndStones{m: m.anew()}
	f.m.bindByRules()
	if !f.placeAll() || !f.pair() {
		return Reading{}, false
	}
	row := len(f.tubes)+len(f.inner) == 0 && len(f.stones) > 1 && f.stonesInRow()
	sum := ringFigures{m: f.m, request: "tubeset", of: map[string][]*quantity{"size": f.stones}, sure: 1}
	switch tubes, stones := len(f.tubes), len(f.stones); {
	case tubes == 0 && len(f.inner) == 1 && stones == 0:
		return f.stoneOfBore(f.inner[0].value)
	case row && stones > 1 && stones < 7:
		return sum.tubesCompared("size")
	case tubes == 1 && stones > 1 && stones < 9:
		return sum.whichStone(f.tubes[0])
	case tubes > 1 && tubes < 7 && stones == 1:
		return sum.whichTube(f.tubes)
	case tubes > 1 && tubes < 7 && stones > 1 && stones < 7:
		return f.pairs()
	case tubes == 1 && stones == 0:
		return sum.stoneOfTube(f.tubes[0])
	case tubes > 1 && tubes < 7 && stones == 0:
		return stonesOfSeveral(f.tubes)
	}
	return Reading{}, false
}

// speaksOfTube reports whether a message names tube, or tells outsides and insides.
func (m *message) speaksOfTube() bool {
	return m.says(tubeWords...) || m.says("=od") && m.says("=id") && m.says("stone", "stones")
}

// asksWhich reports whether it is asked which stone or which tube serves.
func (m *message) asksWhich() bool {
	return m.says("which", "what", "whats", "pair", "pairs", "pairings", "best", "choose", "select", "recommend", "suit", "fits", "fit", "sit", "right one", "is there a stone", "goes in", "go in") && !m.says("how long", "how deep", "how tall", "how far", "how much", "how many", "what length", "which length", "total", "why")
}

// placeAll puts each figure where the words beside it tell; false where one has no place.
func (f *tubesAndStones) placeAll() bool {
	m := f.m
	inches := m.says("inch", "inches")
	for k := 0; k < len(m.found); k++ {
		q := m.found[k]
		if inches && q.measure == bare && q.value < 1 && m.at(q.first).number {
			q.asInches()
		}
		switch {
		case q.measure == size && len(q.sides) == 2:
			f.tubes = append(f.tubes, tubeOfSides(q.sides[0], q.sides[1]))
		case f.slashed(k):
			f.tubes = append(f.tubes, tubeOfSides(q.value, m.found[k+1].value))
			k++
		case q.measure == count, q.measure == bare && m.saysOneBetween(q.next, q.next+1, tubeWords...) && q.value < 7 && q.value == float64(int(q.value)) && k == 0:
		case q.measure == gauge:
			f.walls = append(f.walls, q)
		case q.measure != length && q.measure != bare || q.value > 30:
			return false
		default:
			f.place(q)
		}
	}
	f.outsidesListed()
	return true
}

// outsidesListed takes figures in a row with an outside for outsides too, "tubes 4 and 5 mm
// outside, wall 0.5", where a stone is left or tubes are named.
func (f *tubesAndStones) outsidesListed() {
	if len(f.outer) == 0 || len(f.inner) > 0 {
		return
	}
	k, next := len(f.stones), f.outer[0]
	for ; k > 0; k-- {
		q := f.stones[k-1]
		if q.next > next.first || f.m.ofStoneWord(q) || !f.m.saysBetween(q.next, next.first, ",", "and", "or", "n", "mm") {
			break
		}
		next = q
	}
	if k > 0 || f.m.says("=tubes") {
		f.outer = slices.Concat(f.stones[k:], f.outer)
		f.stones = f.stones[:k]
	}
}

// slashed reports whether two figures stand as outside and inside of a tube, "3.5/2.5".
func (f *tubesAndStones) slashed(k int) bool {
	if k+1 >= len(f.m.found) {
		return false
	}
	a, b := f.m.found[k], f.m.found[k+1]
	plain := func(q *quantity) bool { return (q.measure == bare || q.measure == length) && q.value > 0 }
	return plain(a) && plain(b) && b.first == a.next+1 && f.m.at(a.next).text == "-" && f.m.at(b.first).glued && b.value < a.value
}

// place puts one length.
func (f *tubesAndStones) place(q *quantity) {
	m := f.m
	isOuter, isInner, isWall := f.beside(q, outsideOfTube), f.beside(q, insideOfTube), f.beside(q, wallOfTube)
	ofTube := contains(tubeWords, m.at(q.next).text) || m.saysOneBetween(q.first-2, q.first, "tube") && m.at(q.first-1).text == "of"
	before := f.last()
	switch {
	case isWall || q.role == "wall" || q.role == "thickness" && q.value < 1.3:
		f.walls = append(f.walls, q)
	case q.role == "outer" || isOuter && q.role != "inner":
		f.outer = append(f.outer, q)
	case q.role == "inner" || isInner:
		f.inner = append(f.inner, q)
	case ofTube, before != nil && slices.Contains(f.outer, before) && q.first-before.next <= 3 && m.saysOneBetween(before.next, q.first, "or"):
		f.outer = append(f.outer, q)
	case q.other != nil && m.saysOneBetween(q.first, q.next, "or"):
		f.stones = append(f.stones, q.other, q)
	default:
		f.stones = append(f.stones, q)
	}
}

// last is the figure that was placed last.
func (f *tubesAndStones) last() (last *quantity) {
	for _, q := range slices.Concat(f.outer, f.inner, f.walls, f.stones) {
		if last == nil || q.first > last.first {
			last = q
		}
	}
	return last
}

// beside reports whether one of the words stands behind a figure, or before it where none
// stands between.
func (f *tubesAndStones) beside(q *quantity, words map[string]bool) bool {
	m := f.m
	i := q.next
	for i < q.next+4 && betweenOfTube[m.at(i).text] && m.at(i).text != "," {
		i++
	}
	if words[m.at(i).text] {
		return true
	}
	if outsideOfTube[m.at(i).text] || insideOfTube[m.at(i).text] || wallOfTube[m.at(i).text] {
		return false
	}
	i = q.first - 1
	for i > q.first-4 && betweenOfTube[m.at(i).text] {
		i--
	}
	return words[m.at(i).text] && !m.inFigure(i)
}

// pair makes tubes of the outsides, with the walls or the insides in their order; false where
// they don't go together.
func (f *tubesAndStones) pair() bool {
	if len(f.outer) == 0 {
		return len(f.walls) == 0 && (len(f.inner) == 0 || len(f.tubes) == 0)
	}
	if len(f.tubes) > 0 {
		return false
	}
	all, ok := tubesOf(valuesInMM(f.outer), valuesInMM(f.walls), valuesInMM(f.inner))
	f.tubes = all
	return ok && !slices.ContainsFunc(all, func(t tubeset.Tube) bool { return t.WallMM < 0.1 || t.InnerMM() <= 0 })
}

// valuesInMM are figures in mm, of a gauge too.
func valuesInMM(list []*quantity) (all []float64) {
	for _, q := range list {
		all = append(all, thicknessOf(q))
	}
	return all
}

// stonesInRow reports whether the figures that are left are stones one beside the other and
// nothing else, "a 4 mm in the middle and 3 mm each side". Of equal ones the first is kept.
func (f *tubesAndStones) stonesInRow() bool {
	for k := 1; k < len(f.stones); k++ {
		a, b := f.stones[k-1], f.stones[k]
		if a.role != "" || b.role != "" || a.next == b.first || !f.m.saysBetween(a.next, b.first, rowWords...) {
			return false
		}
	}
	kept := f.stones[:0]
	for _, q := range f.stones {
		if !slices.ContainsFunc(kept, func(of *quantity) bool { return of.value == q.value }) {
			kept = append(kept, q)
		}
	}
	f.stones = kept
	return f.m.says("stone", "stones", "cz", "czs", "diamonds", "rounds", "trilogy", "sapphires", "garnets")
}

// rowWords stand between stones that are set side by side.
var rowWords = []string{",", "and", "n", "mm", "mil", "in", "the", "middle", "centre", "center", "either", "side", "sides", "each", "on", "ends", "end", "next", "to", "it", "stones", "stone", "two", "three", "a", "an", "pair", "of", "then", "outside", "outer", "round", "with", "beside", "them"}

// stoneOfBore asks for the wall of a tube whose bore alone is told.
func (f *tubesAndStones) stoneOfBore(bore float64) (Reading, bool) {
	if !f.m.says("stone", "stones", "cz", "czs", "gem", "gems", "diamond", "diamonds", "sapphire", "ruby", "garnet") {
		return Reading{}, false
	}
	d := f.m.draft("match")
	d.say("outline", "round")
	d.alloy("alloy", false)
	var choices []Choice
	var parts []string
	for _, wall := range []float64{0.4, 0.5, 0.6} {
		choices = append(choices, d.with("a wall of "+mm(wall), "tubesize", shownTube(tubeset.Tube{OuterMM: bore + 2*wall, WallMM: wall})))
		parts = append(parts, fmt.Sprintf("%s takes about %s", mm(wall), mm(bore+wall)))
	}
	d.question("tubesize", fmt.Sprintf("How thick is the tube's wall, or how wide is it outside? The stone covers half of the wall, so it is the bore, %s, and one wall: a wall of %s, %s, or %s.", mm(bore), parts[0], parts[1], parts[2]), choices...)
	for _, q := range f.m.found {
		q.used = true
	}
	return d.reading(), true
}

// pairs tells which of several stones goes in which of several tubes.
func (f *tubesAndStones) pairs() (Reading, bool) {
	var parts []string
	for _, stone := range valuesInMM(f.stones) {
		var in []string
		for _, t := range f.tubes {
			if t.Serves(stone) == nil {
				in = append(in, fmt.Sprintf("%s x %s (%.0f %%)", plain2(t.OuterMM), plain2(t.WallMM), 100*t.Covered(stone)))
			}
		}
		told := "none"
		if len(in) > 0 {
			told = strings.Join(in, " or ")
		}
		parts = append(parts, fmt.Sprintf("%s goes in %s", mm(stone), told))
	}
	var rules []string
	for _, t := range f.tubes {
		rules = append(rules, fmt.Sprintf("%s x %s is for %s", plain2(t.OuterMM), plain2(t.WallMM), mm(t.OuterMM-t.WallMM)))
	}
	return worked("pairs of stones and tubes", "half of the wall: C. Lewton-Brain, Tube Setting",
		"A stone covers half of the wall by the rule, and 30 to 70 % can be set. Of the tubes, outside x wall, "+inAll(rules)+" Of the stones "+inAll(parts))
}
