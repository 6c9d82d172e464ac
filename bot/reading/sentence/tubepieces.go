package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// What is filed off both ends of a piece of tube to square it; common practice, no source.
const filedOfTube = 0.2

// tubeTotal answers how much tube some pieces of one length take, or how many pieces there
// are in a length. How wide the tube and its stone are has no part in that.
func (m *message) tubeTotal(r Reading) (Reading, bool) {
	if !m.says("tube", "tubes", "tubing", "chenier", "pipe") || m.says("bezel", "seat depth", "bur", "burr", "wall thickness") || r.Topic == "tube from strip" {
		return Reading{}, false
	}
	each, kerf := m.lengthOfPiece(), m.kerfSaid()
	if each == nil || each == kerf {
		return Reading{}, false
	}
	cut := usualKerf
	says := "each cut takes about " + mm(usualKerf) + " of kerf"
	if kerf != nil {
		cut, says = kerf.value, "each cut takes "+mm(kerf.value)+" of kerf"
	}
	if long := m.tubeAtHand(each); long != nil {
		n := math.Floor((long.value + cut) / (each.value + cut + filedOfTube))
		return worked("tube for many", "length + kerf + filing of each; both common practice, no source",
			fmt.Sprintf("About %s pieces of %s from %s of tube: %s, and squaring takes %s of each piece, both ends together. The last piece is hard to hold: count on one fewer.", plain(n), mm(each.value), mm(long.value), says, mm(filedOfTube)))
	}
	n := m.piecesOfTube(each, kerf)
	if n == 0 || !m.asksTotal() {
		return Reading{}, false
	}
	return worked("tube for many", "length + kerf + filing of each; both common practice, no source",
		fmt.Sprintf("%s pieces of tube, %s each, take %s finished and about %s as sawn: %s, and squaring takes %s of each piece, both ends together. Buy a little more to hold the last piece.", plain(n), mm(each.value), mm(n*each.value), mm(n*(each.value+cut+filedOfTube)), says, mm(filedOfTube)))
}

// asksTotal reports whether it is asked how much tube is needed in all.
func (m *message) asksTotal() bool {
	return m.says("how much tube", "how much tubing", "how much chenier", "how much pipe", "length of tube", "tube length", "stock length", "stick length", "how long a tube", "how long a piece", "total", "in all", "all together", "altogether", "what length", "to buy", "to order")
}

// lengthOfPiece is how long each piece of tube is, nil where that is not told.
func (m *message) lengthOfPiece() *quantity {
	for _, q := range m.found {
		if q.measure != length && q.measure != bare || q.value < 1 || q.value > 60 || m.at(q.next).text == "tube" || contains([]string{"stones", "cz", "czs", "stone", "gems"}, m.at(q.next).text) || m.at(q.next).text == "od" {
			continue
		}
		behind := m.saysOneBetween(q.next, q.next+2, "long", "tall", "high", "each", "apiece", "length", "lengths", "finished", "pieces", "bits")
		before := m.saysOneBetween(q.first-3, q.first, "each", "every", "length", "long", "at") && !m.saysOneBetween(q.first-3, q.first, ",", "=how")
		stone := m.ofStoneWord(q) || m.saysOneBetween(q.first-3, q.first, "stone", "stones", "cz", "diamonds") && !m.saysOneBetween(q.first-3, q.first, ",")
		tall := q.role == "height" || q.role == "length"
		if !stone && q.role != "kerf" && (tall || (behind || before) && q.measure == length) {
			return q
		}
	}
	return nil
}

// kerfSaid is what the saw takes, where that is told.
func (m *message) kerfSaid() *quantity {
	if q := m.with("kerf"); q != nil {
		return q
	}
	for _, q := range m.lengths() {
		if q.value < 0.8 && (m.saysOneBetween(q.first-4, q.first, "saw", "blade", "kerf", "cut") || m.saysOneBetween(q.next, q.next+3, "saw", "blade", "kerf")) {
			return q
		}
	}
	return nil
}

// tubeAtHand is the length of tube from which pieces are cut, where it is asked how many.
func (m *message) tubeAtHand(each *quantity) *quantity {
	if !m.says("how many") {
		return nil
	}
	for _, q := range m.lengths() {
		if q != each && q.measure == length && q.value >= 4*each.value && m.saysOneBetween(q.first-3, q.next+3, "from", "of", "tube", "tubing", "length", "stick") {
			return q
		}
	}
	return nil
}

// piecesOfTube is how many pieces of tube are wanted, 0 where that is not told: a pair of
// earrings takes twice as many as one.
func (m *message) piecesOfTube(not ...*quantity) float64 {
	n := m.counts("pieces", "settings", "stones", "rings")
	for _, q := range m.found {
		if n == nil && q.measure == bare && q.value == math.Trunc(q.value) && q.value >= 2 && q != not[0] && q != not[1] {
			n = q
		}
	}
	if inWords := m.countsInWords(); n == nil && len(inWords) == 1 {
		n = inWords[0]
	}
	if n == nil || m.counts("makers") != nil || m.says("class", "students", "kids", "apprentices") || slices.ContainsFunc(m.found, func(q *quantity) bool { return q != n && q.measure == count && q.thing != n.thing }) {
		return 0
	}
	if m.says("x2", "x 2", "times two", "for a pair", "both ears") || strings.Contains(m.text(), "earrings so") {
		return 2 * n.value
	}
	return n.value
}
