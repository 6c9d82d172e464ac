package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The sums are those of the formulas that their answers name, reckoned by hand.
func TestSumsOnRingsInWords(t *testing.T) {
	t.Parallel()
	for said, holds := range map[string]string{
		"The tube of 5,0 mm shall stand on a ring with outside 20,6 mm. What is the depth of the rounding?":    "0.31 mm deep",
		"How deep is the saddle of a setting with a foot of 6.0 mm on a ring of 21.4 mm outside?":              "0.43 mm deep",
		"Collet's 7mm across the base, ring's an N, shank 2mm thick. How deep do I file the hollow?":           "0.6 mm deep",
		"Does saddle make my setting lower? I have 5.5 tall, foot 6, ring 19.4 outside. How much I lose.":      "0.48 mm deep",
		"resize bangle from 68 inside to 64, 3 mm thick wire, what do I take out":                              "Take out 12.57 mm",
		"A chain of 38 links measured 210 mm; the wire is 1.3 mm. What is the inner diameter of each link?":    "5.46 mm inside",
		"I cut 58.0 mm of 1.8 mm strip and the ring came out at 16.4 inside. Is that what one should expect?":  "closes to 16.66 mm",
		"I have 62 mm of 1.5 strip. What ring id max":                                                          "18.24 mm inside",
		"For a round centre of 6.5 mm with a wall of 0.4 mm around it, and sixteen melee with gaps of 0.15 mm": "1.58 mm wide",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, r.Text+r.Verdict, holds, said)
	}
}

func TestFiguresOfRingsInTheirPlaces(t *testing.T) {
	t.Parallel()
	for said, line := range map[string]string{
		"My late mother's ring has to go on my daughter's finger, that's an L and it's now a P. How much comes out?": "resize from uk P to uk L",
		"L to N hw much do i put in": "resize from uk L to uk N",
		"3.0 stone depth 1.8, tube 4.0 od 0.5 wall. Seat depth from top, bur size":                                        "tubeset depth 1.8 outline round size 3.0 tubesize 4x0.5",
		"Repair: three links to match, 6.4 over all, wire 1.1. What mandrel?":                                             "jumpring inside 4.2 wire 1.1 mm",
		"forged a bit of 6mm round down to a 5x3 D section. size X. what length":                                          "band profile half-round ring X system uk thickness 3 mm width 5",
		"Training 7 new apprentices. Each makes one collet and one claw setting in brass for a 6.0 mm stone. A cut list.": "kit makers 7 collet alloy brass outline round size 6.0 mm ; prongs alloy brass outline round size 6.0 mm",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, line, r.Line(), said)
	}
	oval := Read("the length for a child's bangle, two inches across on the inside, oval, out of 2.5 mm square wire", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Equal(t, Question, oval.Outcome)
	assert.Equal(t, "bangle", oval.Missing)
}
