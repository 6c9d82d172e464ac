package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSettingsInOtherWords(t *testing.T) {
	for typed, want := range map[string]string{
		// Claws by their places, and what stays whole under them.
		"claws for a pear, 8x5. want one of them v ones on the point and then two each side":       "prongs number 5 outline pear size 8x5",
		"oval 9x7 claws, two at each end. 0.9 sheet":                                               "prongs number 4 outline oval size 9x7 thickness 0.9 mm",
		"marquise 10x5 claws, a v at each point and a pair on each side, 0.8mm":                    "prongs number 6 outline marquise size 10x5 thickness 0.8 mm",
		"square 6mm princess, 4 prongs on the corners, .9":                                         "prongs number 4 outline square size 6 mm thickness 0.9 mm",
		"4 claws 7mm round height 6mm leave bottom third solid, 1mm sheet":                         "prongs gallery 2 height 6 mm number 4 outline round size 7 mm thickness 1 mm",
		"prongs 6 round 8mm, 7mm tall, slots 3mm deep, 18ga":                                       "prongs gallery 4 height 7 mm number 6 outline round size 8 mm thickness 18ga",
		"prong setting from cone blank: n=5, round 6.5mm, h=6, 0.8mm. i know 5 is weird":           "prongs height 6 number 5 outline round size 6.5 mm thickness 0.8 mm",
		"6 prong setting cut out of cone for 8mm round. 18 ga. how deep do i cut the gaps":         "prongs number 6 outline round size 8 mm thickness 18ga",
		"how wide should the gaps be between claws, 7mm round, 4 claws, 0.8 sheet":                 "prongs number 4 outline round size 7 mm thickness 0.8 mm",
		"I have sawn the slots between my claws four millimetres deep, 10 mm round stone, 8 claws": "prongs number 8 outline round size 10 mm",
		// Whose depth, and whose height.
		"Tapered setting 0.236 in. high, pear 9.05 x 6.02, 22 ga sheet":                        "collet height 0.236 in outline pear size 9.05x6.02 thickness 22ga",
		"cone setting a quarter of an inch deep for an 8mm round, 20g":                         "collet height 0.25 in outline round size 8 mm thickness 20ga",
		"setting should be 6mm deep, 7mm round, 0.7 sheet, collet":                             "collet height 6 mm outline round size 7 mm thickness 0.7 mm",
		"collet for a 7 round, 4.2 deep stone, 0.8":                                            "collet depth 4.2 outline round size 7 thickness 0.8 mm",
		"collar, pressed, height when done 5mm, 8mm round, .8":                                 "collar height 5 mm outline round size 8 mm thickness 0.8 mm",
		"straight ring for the pear block, stone 9x6, strip 6 mm wide":                         "collar height 6 mm outline pear size 9x6",
		"straight ring to press in the block, 7mm round, strip 4mm wide no wait 5mm wide, 0.8": "collar height 5 mm outline round size 7 mm thickness 0.8 mm",
		"round 8mm collet 6 high, bottom half the size of the top, 0.8 sheet":                  "collet base round basesize 4 height 6 outline round size 8 mm taper base thickness 0.8 mm",
		// Outlines that are not the stone's.
		"square stone with cut corners 7mm collet 0.8":                                              "collet outline emerald size 7 mm thickness 0.8 mm",
		"emerald cut 8x6, gonna press it in the octagon block. 19 ga. collar":                       "collar outline emerald size 8x6 thickness 19ga",
		"The stone is an oval smoky quartz 12x10. used a triangle file. How do I mark out 6 claws?": "prongs gem quartz number 6 outline oval size 12x10",
		"rounded square 14mm cab bezel .3":                                                          "bezel outline cushion size 14 mm thickness 0.3 mm",
		"collar for the pear block, 9x6 stone, .9":                                                  "collar outline pear size 9x6 thickness 0.9 mm",
		// Tubes, discs, steps, spares and metals.
		"I found some tube in the scrap box, outside is 4mm and the hole is about 3mm. What size stone would sit in it?": "match tubesize 4x0.5",
		"ive got tube 6 across with a 4.8 hole, what stone fits":                                                         "match tubesize 6x0.6",
		"9ct hollow beads 10mm x 6 of them, 0.4 plate, need disc size":                                                   "dome alloy 9k-yellow hemisphere size 10 mm thickness 0.4 mm",
		"18mm disc domed 4mm, 24ga":          "dome disc 18 mm height 4 mm thickness 24ga",
		"disc domed to 15mm, 0.6, half ball": "dome hemisphere size 15 mm thickness 0.6 mm",
		"12 round cab, inner step 1 mm tall under it, 0.4 wall. Strip lengths both rings": "bezel bearing step outline round seat 1 mm size 12 thickness 0.4 mm",
		"oval 18x13 bezel wire 28 ga by 1/8, how long":                                    "bezel outline oval size 18x13 thickness 28ga",
		"heart cab 14 wide 13 tall, 0.3 strip, bezel":                                     "bezel outline heart size 13x14 thickness 0.3 mm",
		"pear 12 top to bottom and 8 at the widest, collet 0.8":                           "collet outline pear size 12x8 thickness 0.8 mm",
		"class of 7, 8x6 oval collets 0.8 brass, one spare each":                          "kit makers 7 spare 100% collet alloy brass outline oval size 8x6 thickness 0.8 mm",
		"bezel strip length 14mm round turquoise 28 gauge fine silver":                    "bezel alloy fine-silver gem turquoise outline round size 14 mm thickness 28ga",
		// Several stones at once.
		"I need the blanks for 3 stones: 6mm round, 8x6 oval, 7x5 pear. all 0.8 sterling collets": "kit makers 1 collet alloy sterling outline round size 6 mm thickness 0.8 mm ; collet alloy sterling outline oval size 8x6 thickness 0.8 mm ; collet alloy sterling outline pear size 7x5 thickness 0.8 mm",
		"round 6 and 4 deep, collet, 0.8": "collet depth 4 outline round size 6 thickness 0.8 mm",
	} {
		r := Read(typed, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Request, r.Outcome, "%s: %s", typed, r.Ask)
		assert.Equal(t, want, r.Line(), typed)
	}
	for typed, topic := range map[string]string{
		"the prongs on my 6mm garnet are kinda wobbly":                  "trouble: prongs loose",
		"one claw is loose on my 8x6 oval":                              "trouble: prongs loose",
		"stone wobbles in the claws, 7mm round":                         "trouble: stone rattles",
		"bezels for a 10x8 and a 12x10 oval, 28ga":                      "strips for several stones",
		"strip lengths please for round cabs 6, 8, 10 and 12 mm in 0.3": "strips for several stones",
	} {
		assert.Equal(t, topic, Read(typed, Context{Addressed: true, Takes: takes, Excludes: excludes}).Topic, typed)
	}
	filled := Read("bezel 12x10 gold filled 28ga", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Contains(t, filled.Ask, "gold filled", "it is no karat gold of 10")
	either := Read("collets for an oval 8x6 and a pear 9x6, 0.8 sterling", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Equal(t, Question, either.Outcome)
	assert.Len(t, either.Choices, 3)
}
