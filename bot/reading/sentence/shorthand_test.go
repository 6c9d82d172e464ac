package sentence

import (
	"strings"
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
		"melt 1.9 g resin of density 1.12 g/cm3 in sterling, 7 g button":                             "melt alloy sterling button 7 g wax 1.9 g wax-density 1.12",
		"melt a 3d print of pla, 5.1 g, in sterling":                                                 "melt alloy sterling wax 5.1 g wax-density 1.24",
		"round stone of 5 mm, bezel wall 0.4 mm, halo with 1.3 mm stones, gap 0.1":                   "halo centregap 0.4 mm gap 0.1 outline round size 5 mm with 1.3 mm",
		"which round stone can I set in a collar from a strip 0.8 x 6 x 24 mm":                       "match outline round strip 24x6 thickness 0.8 mm",
		"prongs for a pear 12x8, 1 mm sheet, a v on the tip and 4 others":                            "prongs number 5 outline pear size 12x8 thickness 1 mm",
		"show me what I asked on the 14th":                                                           "daybook from 14th to 14th",
		"show me what I asked last tues":                                                             "daybook from tuesday",
		"set my default to 18ct yellow, 0.9, 17 block. oh and mm":                                    "bench alloy 18k-yellow lean 8.5 thickness 0.9 mm units mm",
		"tubes for 5x 1.7mm stones in sterling":                                                      "tubeset alloy sterling count 5 outline round size 1.7 mm",
		"collet for an 8x 6mm oval stone, 0.6 sheet":                                                 "collet outline oval size 8x6 thickness 0.6 mm",
		"seven stones of 2 mm in tubes in a row, distance between the tubes 0.3 mm":                  "tubeset count 7 outline round size 2 mm spacing 0.3 mm",
		"what disc do I cut for a ball of 3/4 inch":                                                  "dome hemisphere size 3/4 in",
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

// The pure metal stays the same when one gold is made into another: 14 g of 0.585 and
// x g of 1 are 14 + x g of 0.75, so x = 14 (0.75 - 0.585) / 0.25 = 9.24. From 24 karat
// to 18, 8.4 g take 8.4 (24 - 18) / 18 = 2.8 g of copper or silver.
func TestOneGoldFromAnother(t *testing.T) {
	for said, want := range map[string]string{
		"From 14.0 g gold 585 I would like to make 750 by adding fine gold. How much must I add?":                              "9.24 g",
		"We have 8.4 g of 24k gold and we want to bring it down to 18k before melting. How much silver and copper will I add?": "2.80 g",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes})
		assert.Equal(t, Explanation, r.Outcome, said)
		assert.Contains(t, r.Text, want, said)
	}
}

// A rectangle with round corners is 2 (length + width) - (8 - 2 pi) r round: 70.85 mm for
// 22 x 16 with corners of 3 mm.
func TestBezelRoundCornersOfARadius(t *testing.T) {
	for said, want := range map[string]string{
		"bezel strip for a rectangle cab 22 by 16 with corners of 3 mm radius, 0.4 sterling": "bezel alloy sterling outline measured perimeter 70.85 size 22x16 thickness 0.4",
		"bezel for a 12 mm square cab, corner radius 1.5 mm, 0.3 fine silver":                "bezel alloy fine-silver outline measured perimeter 45.42 size 12x12 thickness 0.3",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, want, strings.TrimSuffix(r.Line(), " mm"), said)
	}
}
