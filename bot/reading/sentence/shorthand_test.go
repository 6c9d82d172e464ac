package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Short ways in which members write what they have.
func TestShorthandOfTheBench(t *testing.T) {
	for said, want := range map[string]string{
		"collet blank 6mm round 18y 0.8 sheet":                                                       "collet alloy 18k-yellow outline round size 6 mm thickness 0.8 mm",
		"collar blank for a 7mm round in 14w, 0.7 sheet":                                             "collar alloy 14k-white outline round size 7 mm thickness 0.7 mm",
		"so I add thickness x 3.14, right? what do I cut for a size 9 ring in sterling, 1.3mm thick": "band alloy sterling ring 9 system us thickness 1.3 mm",
		"melt 1.9 g resin of density 1.12 g/cm³ in sterling":                                         "melt alloy sterling wax 1.9 g wax-density 1.12",
		"melt a 3d print of pla, 5.1 g, in sterling":                                                 "melt alloy sterling wax 5.1 g wax-density 1.24",
		"round stone of 5 mm, bezel wall 0.4 mm, halo with 1.3 mm stones, gap 0.1":                   "halo centregap 0.4 mm gap 0.1 outline round size 5 mm with 1.3 mm",
		"which round stone can I set in a collar from a strip 0.8 x 6 x 24 mm":                       "match outline round strip 24x6 thickness 0.8 mm",
		"prongs for a pear 12x8, 1 mm sheet, a v on the tip and 4 others":                            "prongs number 5 outline pear size 12x8 thickness 1 mm",
		"show me what I asked on the 14th":                                                           "daybook from 14th to 14th",
		"show me what I asked last tues":                                                             "daybook from tuesday",
		"set my default to 18ct yellow, 0.9, 17 block. oh and mm":                                    "bench alloy 18k-yellow lean 8.5 thickness 0.9 mm units mm",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, want, r.Line(), said)
	}
}

// What is no metal, no size and no wrist stays what it is.
func TestNoShorthand(t *testing.T) {
	assert.Empty(t, newMessage("my 14y old daughter wants to solder").alloys)
	for _, q := range newMessage("whats my size n how long do I cut").found {
		assert.NotEqual(t, ringSize, q.measure)
	}
	r := Read("kid bracelet, 5in wrist, 12 gauge copper wire. closed bangle so it gotta go over the hand", Context{Addressed: true, Takes: takes})
	assert.Equal(t, Question, r.Outcome, "a closed bangle goes over the hand")
}
