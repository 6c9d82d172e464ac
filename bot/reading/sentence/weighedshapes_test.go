package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Shapes that the request weigh has no form for; masses by hand: area x thickness x
// density, brass 8.47, copper 8.94, sterling 10.36, fine silver 10.49 g/cm³.
func TestShapesWeighed(t *testing.T) {
	for said, holds := range map[string]string{
		"weight of 30 washers, 10 od, 4 id, 1 mm brass":                               "30 of them weigh",
		"a washer 14 mm outside 6 mm inside 1.2 thick copper, how heavy":              "125.7 mm²",     // pi/4 (196 - 36)
		"how many grams is a triangle 30 base and 20 high in 1 mm copper":             "2.68 g",        // 300 x 8.94 / 1000
		"what does a flat oval 30x20 of 18g sterling weigh":                           "weighs 5.00 g", // pi/4 600 x 1.0237 x 10.36 / 1000
		"how far would 10 g of sterling go as a strip 4 wide 0.5 thick":               "483 mm long",   // 10 / 0.01036 / 2
		"I have 31 g of sterling. How many inches of 18 gauge round will it draw to?": "3.64 m long",   // 31 / 0.01036 / (pi/4 x 1.024²)
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Explanation, r.Outcome, "%s\n%s", said, shown(r))
		assert.Contains(t, r.Text, holds, said)
	}
}

// A round blank is sheet and no wire, and pieces are counted by their plural.
func TestPiecesWeighed(t *testing.T) {
	for said, line := range map[string]string{
		"round blank 1 1/2 inch, 16 gauge copper, how many grams":             "weigh alloy copper form disc size 1 1/2 in thickness 16ga",
		"how heavy is a coin of brass 30 mm wide and 2 mm thick":              "weigh alloy brass form disc size 30 mm thickness 2 mm",
		"what do two strips of 60x4 in 1 mm sterling weigh":                   "weigh alloy sterling count 2 form sheet size 60x4 thickness 1 mm",
		"weigh three plates 30x20 of 0.8 mm copper":                           "weigh alloy copper count 3 form sheet size 30x20 thickness 0.8 mm",
		"i got 9 kids each getting a 50 x 20 strip of brass 0.8, what weight": "weigh alloy brass count 9 form sheet size 50x20 thickness 0.8 mm",
		"what does 1 metre of 2 mm round sterling wire weigh":                 "weigh alloy sterling form wire length 1000 thickness 2 mm",
		"how many grams is a brass slab 80x40x6, we carve it":                 "weigh alloy brass form sheet size 80x40 thickness 6 mm",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Request, r.Outcome, "%s\n%s", said, shown(r))
		assert.Equal(t, line, r.Line(), said)
	}
}
