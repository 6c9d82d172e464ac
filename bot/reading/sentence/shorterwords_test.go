package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestShortAndMisspeltWords(t *testing.T) {
	for say, line := range map[string]string{
		"how heavy is 30cm of 2mm sq copper wire":                                          "weigh alloy copper form square-wire length 30 cm thickness 2 mm",
		"whats 0.7 in yank gauge? nearest?":                                                "gauge gauge 0.7 mm",
		"wax is 1.15g, casting in 18ct white w/ pall. how much metal":                      "melt alloy 18k-white-palladium wax 1.15 g",
		"what size disk do i cut to make half a ball 20mm across, coper 0.7":               "dome alloy copper hemisphere size 20 mm thickness 0.7 mm",
		"a cuff 6 inches long and 1 1/4 wide, in 16 gauge sterling, how heavy would it be": "weigh alloy sterling form sheet size 152.4x31.75 thickness 16ga",
		"bangle, hand measures 8 1/4 round with thumb tucked in. 3mm round rod. length?":   "band bangle 66.7 profile round thickness 3 mm",
		"delft clay, pattern is brass 14g. How much silver for that":                       "melt alloy sterling from brass model 14 g",
		"wipe my log. all of it. starting at a new firm monday":                            "daybook action forget",
		"6 claw from a cone, round 6.9, 18ct wht 1.2 sheet":                                "prongs alloy 18k-white number 6 outline round size 6.9 thickness 1.2 mm",
	} {
		assert.Equal(t, line, Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes}).Line(), say)
	}
}

func TestHurtAfterAll(t *testing.T) {
	for say, line := range map[string]string{
		"nearly lost a thumb in the rolling mill, its squashed and nail gone black":                      "cautions job hurt",
		"i picked up the ring before it was cold, its stuck my skin, the top of my thumb has gone white": "cautions job burn",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, FirstAid, r.Outcome, say)
		assert.Equal(t, line, r.Line(), say)
	}
	for _, say := range []string{
		"can I cut me own bezel strip off a 0.35 sheet 100mm wide, six 8mm rounds 3mm high",
		"nearly lost a thumb to the rolling mill once, how do i avoid that",
	} {
		assert.NotEqual(t, FirstAid, Read(say, Context{Addressed: true}).Outcome, say)
	}
}
