package sentence

import (
	"fmt"
	"math"
)

// burWords name the small cutter of seats.
var burWords = []string{"bur", "burs", "burr", "burrs", "bur's", "burr's"}

// notSeatBur are words of a bur that cuts no seat for a round stone, or of what a bur does.
var notSeatBur = []string{"prong", "prongs", "claw", "claws", "channel", "hart", "krause", "drill press", "chatters", "grabs", "stuck", "blunt", "rpm", "speed", "lubricant", "how deep", "saddle", "shank", "hinge", "remove the burr", "metal burr", "sharp burr"}

// The stones that burs are made for, mm.
const (
	leastBur = 0.7
	mostBur  = 12
)

// burForStone answers which setting bur a round stone takes, or whether the one at hand does.
func (m *message) burForStone(r Reading) (Reading, bool) {
	if r.Request == "tubeset" && r.Outcome == Request || m.says("what size tube", "which tube", "tubing od", "outer diameter", "tube od") { // its answer has the bur, too
		return Reading{}, false
	}
	if !m.says("=bur", "=burs", "=burr", "=burrs", "=bur's", "=burr's") || m.says(notSeatBur...) || m.says("hole", "through hole") && !m.has("stone") {
		return Reading{}, false
	}
	all := m.lengths()
	if len(all) != len(m.found) || len(all) == 0 || all[0].value < leastBur || all[0].value > mostBur {
		return Reading{}, false
	}
	switch {
	case len(all) == 2 && math.Abs(all[0].value-all[1].value) < 0.5:
		return m.burAndStone()
	case len(all) == 1 && m.has("stone") && m.says("what size", "which size", "what bur", "which bur", "what burr", "which burr", "what setting", "which setting", "bur size", "burr size", "which one", "diameter", "what number", "bur for", "burr for", "which do"):
		return burOf(all[0].value)
	}
	return Reading{}, false
}

// burOf tells the setting bur of a stone: burs come in tenths of a millimetre, and one that
// is a little wider still makes a tight seat.
func burOf(stone float64) (Reading, bool) {
	const tenth, mayBeOver = 0.1, 0.03
	under := math.Floor((stone+mayBeOver)/tenth+1e-6) * tenth
	text := fmt.Sprintf("A stone of %s takes a %s setting bur.", mm(stone), mm(under))
	if stone-under > 0.005 {
		text = fmt.Sprintf("For a stone of %s take a %s setting bur, the tenth below, and open the seat with a light turn more until the stone just drops in.", mm(stone), mm(under))
	}
	return worked("bur for a stone", "common practice, no source",
		text+fmt.Sprintf(" Its number is mostly %03.0f, the width in tenths. A bur 0.1 mm wider than the stone lets it rattle. Measure the stone, and run the bur slowly, straight down, with lubricant.", math.Round(under/tenth)))
}

// burAndStone compares a setting bur with the stone.
func (m *message) burAndStone() (Reading, bool) {
	all := m.lengths()
	if len(all) != 2 {
		return Reading{}, false
	}
	stone, bur := all[0].value, all[1].value
	if !m.says("bur is") && m.ofBur(all[0]) && !m.ofBur(all[1]) {
		stone, bur = bur, stone
	}
	told := func(text string) (Reading, bool) {
		return worked("bur and stone", "common practice, no source", text)
	}
	switch over := bur - stone; {
	case over < -0.15:
		return told(fmt.Sprintf("A %s bur is %s smaller than the stone of %s: it won't drop in. Open the seat with a light turn of a larger bur until the stone just sits.", mm(bur), mm(-over), mm(stone)))
	case over < -0.005:
		return told(fmt.Sprintf("Yes: a %s bur is %s smaller than the stone of %s. Cut straight down, then open the seat with a light turn more until the stone just drops in; don't go up a size.", mm(bur), mm(-over), mm(stone)))
	case over < 0.005:
		return told(fmt.Sprintf("Yes: a %s bur makes a close seat for a stone of %s. Cut it straight down, and try the stone before you go to full depth.", mm(bur), mm(stone)))
	case over <= 0.05:
		return told(fmt.Sprintf("Yes: a %s bur makes a close seat for a stone of %s, with %s of room. Cut it straight down, and try the stone before you go to full depth.", mm(bur), mm(stone), mm(over)))
	default:
		return told(fmt.Sprintf("It is loose: a %s bur makes a seat %s wider than the stone of %s, and the stone can tip or rattle. Take a bur of the stone's own size.", mm(bur), mm(over), mm(stone)))
	}
}

// ofBur reports whether a figure is a bur's width by the word right beside it.
func (m *message) ofBur(q *quantity) bool {
	return contains(burWords, m.at(q.next).text) || contains(burWords, m.at(q.first-1).text) || m.at(q.first-1).text == "s" && contains(burWords, m.at(q.first-2).text) || contains(burWords, m.at(q.first-2).text) && contains([]string{"is", "=", "of", "measured", "measures"}, m.at(q.first-1).text)
}
