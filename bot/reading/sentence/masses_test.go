package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestMassesAreTold(t *testing.T) {
	for say, holds := range map[string]string{
		"My band weighs 4.83 g in sterling, weighed on a scale good to 0.01. What would the identical piece weigh in 14k yellow and in platinum?": "9.7 g (6.21 dwt) in platinum",
		"if my bangle is 31g in copper whats it in silver n in 14k":                                                                               "36.0 g",
		"got 35g sterling scrap, how big a sheet of 1.2mm can I roll from it":                                                                     "28.2 cm²",
		"got 20g of silver scrap how much 1mm sheet is that if i roll it, like wot size":                                                          "square of 44 mm",
		"25 g fine silver: what length of 2 mm round wire is that?":                                                                               "759 mm long",
		"how much does a hollow half inch ball weigh, .6 wall, fine silver":                                                                       "weighs 2.9 g",
		"hollow bead 12 mm outside, 0.4 wall, sterling, weight of a pair":                                                                         "2 of them weigh 3.50 g",
		"Sixty pieces of granules ø 1.2 mm from gold 750, what weigh they together?":                                                              "60 of them weigh 0.85 g",
		"100 balls of 2mm 18k weigh":                                      "100 of them weigh 6.53 g",
		"weight of a solid 10mm silver sphere":                            "weighs 5.42 g",
		"Does your wax factor assume a specific gravity of 1.00 or .96?":  "0.96 g/cm³ for wax",
		"What density are you using for sterling? 10.4 is what I've seen": "10.36 g/cm³",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, Explanation, r.Outcome, say)
		assert.Contains(t, r.Text, holds, say)
	}
}

func TestStockIsWeighed(t *testing.T) {
	for say, line := range map[string]string{
		"how heavy will a bangle be in silver 65mm across outta 3mm round wire":                              "band alloy sterling bangle 65 mm profile round thickness 3 mm",
		"how heavy is a collet for a 7mm round in 0.8 9ct roughly":                                           "collet alloy 9k-yellow outline round size 7 mm thickness 0.8 mm",
		"How much would a 6 inch length of 4 mm half round silver wire weigh? It's 2 mm high in the middle.": "weigh alloy sterling form half-round length 6 in size 4x2",
		"What do fifteen strips of sterling 60 x 5 x 1.2 weigh together, plus 10% waste":                     "weigh alloy sterling count 15 form sheet size 60x5 thickness 1.2 mm",
		"disc 30 diameter 0.9 thick 14k yellow with density 13.1?":                                           "weigh alloy 14k-yellow form disc size 30 thickness 0.9 mm",
		"What weighs a tube outside 5 mm, inside 4 mm, length 120 mm, in silver 925?":                        "weigh alloy sterling form tube length 120 mm size 5x0.5",
		"how heavy gone be a cuban bracelet 8 inch if i used 5 foot of 2mm wire silver":                      "weigh alloy sterling form wire length 1524 thickness 2 mm",
		"2mm square wire 70 long in silver, and what if it was 18k yellow":                                   "weigh alloy sterling form square-wire length 70 thickness 2 mm",
		"got a silver ring 5.4 grams customer wants it in platinum what will it weigh":                       "melt alloy platinum-950 from sterling model 5.4 g",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, Request, r.Outcome, say)
		assert.Equal(t, line, r.Line(), say)
	}
}

// A ball of 3 mm is 14.14 mm3, of sterling 0.1465 g: 68 of 10 g.
func TestBallsOfAMass(t *testing.T) {
	for say, holds := range map[string]string{
		"how many 3mm balls can i make from 10g silver":       "make 68 solid balls",
		"10 grams of 18k yellow, how many beads 2 mm solid":   "make 153 solid balls",
		"I have 20 g of copper shot. How many balls of 4 mm?": "make 66 solid balls",
	} {
		assert.Contains(t, Read(say, Context{Addressed: true, Takes: takes}).Text, holds, say)
	}
}
