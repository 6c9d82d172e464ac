package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestFiguresToldInUnits(t *testing.T) {
	for say, holds := range map[string]string{
		"3.5dwt in g and 11g in dwt":                                                                                 "11g is 11.00 g, 7.07 dwt",
		"How many millimetres is 3/32\", and 12 dwt in grams, please.":                                               "12 dwt is 18.66 g",
		"What is 1.75 carat in grams, and how many grams are in one tola?":                                           "one tola is 11.66 g",
		"bracelet 7 1/4 inches in cm?":                                                                               "18.41 cm",
		"19cm wrist in inches to nearest eighth":                                                                     "nearest 7 1/2 in",
		"Fella in Scotland wants his bracelet at 19 centimeters, what's that in inches to the sixteenth":             "nearest 7 1/2 in",
		"thou for 0.35mm? and 1.2?":                                                                                  "1.2 mm is 0.0472 in",
		"my caliper says .0253. what ga sheet is that. mic says .0255 so somewhere in there":                         "nearest 22 ga",
		"Please convert 0.65 mm to gauge for me. And why does the number go down when the metal is getting thicker?": "the thicker the metal",
		"fifty turns of wire on a pencil measure 40mm, what gauge is it":                                             "The wire is 0.80 mm",
		"What gauge is the wire if forty close turns on a mandrel measure 1.300 inches?":                             "nearest B&S gauge is 20 ga",
		"18 gauge steel from work vs 18 gauge silver, same thickness?":                                               "1.21 mm in sheet steel and 1.02 mm",
		"In the old book stands \"No. 8 of the metal gauge\". Is this same as B&S?":                                  "the higher, the thicker",
		"a packet marked 22 SWG and one marked 22 B&S are never the same thickness. Which is which?":                 "0.71 mm is thicker than 22 ga (0.64 mm)",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, Explanation, r.Outcome, say)
		assert.Contains(t, r.Text, holds, say)
	}
}

// A conversion beside talk of something else, and a length of which a piece is to be made.
func TestUnitsBesideOtherWords(t *testing.T) {
	r := Read("Could you tell me what 5/32 of an inch is in mm? I can never do it without my glasses.", Context{Addressed: true})
	assert.Equal(t, "gauge gauge 5/32 in", r.Line())
	assert.Equal(t, Question, Read("need chain for a dog tag 24 inch", Context{Addressed: true}).Outcome)
}
