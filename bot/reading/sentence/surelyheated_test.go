package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The heat of a metal is told where all words ask for it, though one of them is of a
// trouble or of a caution; a question about a danger is answered as one.
func TestHeatInstead(t *testing.T) {
	for said, line := range map[string]string{
		"Annealing temperature of 14k white with palladium, in °C, and whether quenching is harmful?":                   "heat alloy 14k-white-palladium",
		"Somebody said phosphor bronze must be quenched and somebody else that it cracks. What heat for the soldering?": "heat alloy phosphor-bronze",
		"Got a bangle on the hearth in 18 ct yellow. What colour, what quench? I am asking before":                      "heat alloy 18k-yellow",
		"may sterling stay at its annealing heat for minutes, and how hot, what about the grain and so on":              "heat alloy sterling",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, line, r.Line(), "%s\n%s", said, shown(r))
	}
	for _, said := range []string{
		"are the fumes of annealing brass toxic",
		"is it dangerous to drop hot sterling into the pickle",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.NotEqual(t, "heat", r.Request, said)
	}
}
