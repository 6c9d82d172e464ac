package sentence

import (
	"fmt"
	"math"
	"slices"
)

// spiralWords name a ring of wire that goes round the finger more than once.
var spiralWords = []string{"spiral", "spirals", "coil ring", "coiled ring", "coiled", "snake ring", "serpent ring", "wrap ring", "wrapped ring", "wraps", "double wrap", "triple wrap", "wire wrap ring", "goes round", "goes around", "go round", "round the finger", "around the finger", "round my finger", "around my finger", "round her finger", "round his finger"}

// wrapWords say that a ring of strip goes round more than once: of others a strip goes
// round the finger a single time.
var wrapWords = []string{"wraps", "wrap ring", "spoon ring", "spoon rings", "twice round", "twice around", "goes round twice", "goes around twice", "overlaps by half"}

// roundWords count how often a wire goes round.
var roundWords = []string{"turns", "turn", "coils", "times", "wraps", "loops", "rounds", "revolutions", "giri"}

// The turns of a ring that can be worn.
const (
	leastTurns = 1.2
	mostTurns  = 12
)

// spiralRing tells how long the wire of a ring is that goes round more than once.
func (m *message) spiralRing(r Reading) (Reading, bool) {
	if r.Request != "band" || r.Options["ring"] == "" || !m.says(spiralWords...) || m.says("jump ring", "jump rings", "spring", "blank", "twisted together", "how many", "hold the stone") || m.says("strip") && !m.says(wrapWords...) {
		return Reading{}, false
	}
	round, ok := circumferenceOf(r.Options["system"] + " " + r.Options["ring"])
	turns := m.turnsOfRing()
	thick := mmOf(r.Options["thickness"])
	if !ok || turns < leastTurns || turns > mostTurns || thick <= 0 {
		return Reading{}, false
	}
	rise := thick
	if wide := mmOf(r.Options["width"]); wide > 0 && wide != turns {
		rise = wide
	}
	each := round + math.Pi*thick
	long := turns * math.Hypot(each, rise)
	text := fmt.Sprintf("Cut %.0f mm, and 10 mm more to hold: %s turns of %s each, pi x (inside + thickness), with turns that lie side by side and rise %s each.", long, plain(turns), mm(each), mm(rise))
	if covers := turns * rise; covers > 5 {
		text += fmt.Sprintf(" They cover %s of the finger, so wind it about half a size larger, as for a wide band.", mm(covers))
	}
	return worked("spiral ring", "a helix on the middle of the wire; half a size for wide rings: common practice, no source",
		text+" Wind it on the mandrel a little under size: annealed wire springs back.")
}

// turnsOfRing is how often a wire goes round, 0 where that is not told.
func (m *message) turnsOfRing() float64 {
	if m.says("goes round twice", "goes around twice", "wraps twice", "twice round", "twice around", "double wrap", "wraps around twice") {
		return 2
	}
	if m.says("triple wrap", "triple wire wrap", "three times round", "three times around") {
		return 3
	}
	for _, q := range m.found {
		if slices.Contains(roundWords, m.at(q.next).text) || q.measure == count && q.thing == "times" {
			return q.value
		}
	}
	for i := range m.tokens {
		if n, next, ok := m.spokenNumber(i); ok && slices.Contains(roundWords, m.at(next).text) {
			return n
		}
	}
	return 0
}
