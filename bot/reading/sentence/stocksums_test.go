package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Sums on stock, worked by hand: a bore is outside less two walls; mass = density x
// section x length, with sterling at 10.36 g/cm³.
func TestSumsOnStock(t *testing.T) {
	for said, holds := range map[string]string{
		"does a 2.2 mm tube slide inside a 3x0.35 tube":                     "Yes: 2.3 mm inside",
		"does 5.0 mm rod go inside tubing of 6x0.5":                         "No, or only by force",
		"is .250 rod going in a tube of .312 outside with .028 walls":       "0.15 mm of play",
		"what tubing slides inside 6.35 OD x 0.5 wall":                      "5.25 to 5.30 mm outside",
		"how narrow a tube goes inside 3x0.3":                               "2.30 to 2.35 mm outside",
		"9 mm outside over 8 mm copper, how thick a wall for a sliding fit": "0.45 to 0.47 mm",
		"i need 30 g of 1.5 square sterling wire, what length":              "1.29 m long",   // 30 / 0.01036 / 2.25
		"i have 31 g of 18ga sterling wire, how many feet is that":          "3.64 m long",   // 31 / 0.01036 / (pi/4 x 1.024²)
		"40 g of sterling, what size of wax will that cast":                 "3.1 g at most", // 40 / 1.2 x 0.96 / 10.36
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Explanation, r.Outcome, "%s\n%s", said, shown(r))
		assert.Contains(t, r.Text, holds, said)
	}
}

// What was weighed is in one metal, and is cast in the other; a stone's size is no
// tube's, a rod is no ring, and a tube's wall goes with its outside.
func TestMetalOfMessages(t *testing.T) {
	for said, line := range map[string]string{
		"from brass to sterling, the model weighs 5.5 g":                             "melt alloy sterling from brass model 5.5 g",
		"a copper collet i made weighs 1.9 g, i need sterling cast off it":           "melt alloy sterling from copper model 1.9 g",
		"brass model 4.1 g in sterling":                                              "melt alloy sterling from brass model 4.1 g",
		"cast shrinks 2 percent, finished inside 17.3 mm, sterling, how big the wax": "melt alloy sterling shrink 2% size 17.3 mm",
		"a rod of brass half an inch thick, 9 inches long, how heavy":                "weigh alloy brass form wire length 9 in thickness 0.5 in",
		"copper rod 8 mm x 100, what does it weigh":                                  "weigh alloy copper form wire length 100 thickness 8 mm",
		"does a 7x5 emerald fit a tube of 8x1":                                       "match outline emerald tubesize 8x1",
		"a 9 x 7 is what I own, offcut 38 x 12, 22 ga, will it go":                   "match offcut 38x12 thickness 22ga",
		"a leftover ribbon of silver 50 long 5 wide, which stones does it serve":     "match alloy sterling strip 50x5",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Request, r.Outcome, "%s\n%s", said, shown(r))
		assert.Equal(t, line, r.Line(), said)
	}
}
