package sentence

import (
	"fmt"
	"math"

	"guildhand/calc/outline"
	"guildhand/calc/stone"
)

// sizeInSystem reads the one ring size of a short message that names another system behind
// it, "uk N to us": the ring's own answer tells it in every system.
func (m *message) sizeInSystem() (Reading, bool) {
	if len(m.found) != 1 || len(m.alloys) > 0 || m.words() > longestChange || m.says("to fit", "resize", "up", "down", "stretch", "bigger", "smaller") {
		return Reading{}, false
	}
	q := m.found[0]
	if q.measure != ringSize {
		return Reading{}, false
	}
	for i := q.next; i < min(q.next+4, len(m.tokens)); i++ {
		system := sizeSystems[m.at(i+1).text]
		if system != "" && system != systemName(q) && contains([]string{"in", "to", "into", "as", "=", "is", "equals"}, m.at(i).text) {
			m.settled, q.used = true, true
			return Reading{Outcome: Request, Request: "band", Options: map[string]string{"ring": q.shown, "system": systemName(q)}}, true
		}
	}
	return Reading{}, false
}

// caratsOfWidth tells the weight of a round diamond of a width, where carats are asked for:
// "6.5 mm round in carats".
func (m *message) caratsOfWidth() (Reading, bool) {
	if len(m.found) != 1 || len(m.alloys) > 0 || !m.says("in carats", "in carat", "in ct", "how many carats", "how many carat", "how many ct", "carat weight", "what carat") || m.says("gold", "karat") {
		return Reading{}, false
	}
	q := m.found[0]
	if q.measure != length && q.measure != bare || q.other != nil || q.value < 1 || q.value > 20 {
		return Reading{}, false
	}
	if !m.mayBeRoundDiamond() {
		return Reading{}, false
	}
	diamond, known := stone.GemByKey("diamond")
	one, _, err := stone.SizeFromCarat(outline.Round, 1, 1, diamond)
	if err != nil || !known {
		return Reading{}, false
	}
	q.used = true
	return Reading{Outcome: Explanation, Topic: "mm to carats", Source: "the usual weight formula for a round brilliant; common practice, no source",
		Text: fmt.Sprintf("A round diamond %s across weighs about %.2f ct, a little more or less by its depth; one of 1 ct is about %.1f mm. Other gems of that width are heavier or lighter, so only scales tell for certain.", mm(q.value), math.Pow(q.value/one.WidthMM, 3), one.WidthMM)}, true
}

// mayBeRoundDiamond reports whether a message names no other outline and no other gem.
func (m *message) mayBeRoundDiamond() bool {
	outlines, gems := m.meaning("outline:"), m.meaning("gem:")
	return (len(outlines) == 0 || outlines[0] == "round") && (len(gems) == 0 || gems[0] == "diamond")
}
