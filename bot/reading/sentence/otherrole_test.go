package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestFigureToldAgainInAnotherRole(t *testing.T) {
	for say, line := range map[string]string{
		"Size 8 US, 2,3 mm thick. No, excuse me, 2,3 is the width. Thickness is 1,4.":                     "band ring 8 system us thickness 1.4 mm width 2.3 mm",
		"us 9, 1.8 wide, no wait thats the thickness, its 5 wide":                                         "band ring 9 system us thickness 1.8 mm width 5",
		"ring size 54, 6 mm thick, excuse me, 6 mm is the width, the thickness is 1,6":                    "band ring 54 system iso thickness 1.6 mm width 6 mm",
		"Size T, 18 gauge, 3 mm thick, no 3mm is the width sorry":                                         "band ring T system uk thickness 18ga width 3 mm",
		"jump rings 5 in id from 1mm wire. 5 mm not inches, sorry":                                        "jumpring inside 5 mm wire 1mm",
		"how many links 6 in id 1.5 wire for 18\" chain.. 6mm not 6 in sorry":                             "jumpring chain 18 in inside 6 mm wire 1.5 mm",
		"tube set 3mm stone tube 4 id, sorry 4 od 3 no 2.6 id":                                            "tubeset outline round size 3 mm tubesize 4x0.7",
		"Finger ring inner circumference 54 mm, profile D 3 x 1,7 mm, sterling. Length before soldering?": "band alloy sterling profile half-round ring 54 system iso thickness 1.7 mm width 3",
		"ive cut a strip 60mm by 1.5 thick what size ring will i get":                                     "band ring 17.6 system diameter thickness 1.5 mm",
		"cut 59 by 2 thick, what size ring does that come out":                                            "band ring 16.78 system diameter thickness 2 mm",
		// Nothing is taken back.
		"band size N 3 mm wide, 3 mm thick":                       "band ring N system uk thickness 3 mm width 3 mm",
		"size N band 4 wide 1.5 thick, sorry to bother you again": "band ring N system uk thickness 1.5 mm width 4",
	} {
		assert.Equal(t, line, Read(say, Context{Addressed: true}).Line(), say)
	}
}

func TestThicknessWanted(t *testing.T) {
	for say, topic := range map[string]string{
		"whats the thinnest silver i can get away with for a 4mm wide ring":  "how thick a wedding ring",
		"how thin can i go on a 3 mm wide band":                              "how thick a wedding ring",
		"is there a min thickness for an 9mm wide ring or does width help":   "thickness of a wide ring",
		"What's the least thickness I'd get away with on a bangle 10mm wide": "limit: bangle",
		"thinnest sheet i can use for a bezel on a 12mm stone":               "limit: bezel thickness",
		"is 1mm ok for a 5mm wide ring":                                      "limit: ring thickness",
	} {
		assert.Equal(t, topic, Read(say, Context{Addressed: true}).Topic, say)
	}
}

func TestSparesOfAClass(t *testing.T) {
	for say, line := range map[string]string{
		"Kit for four lads, prong setting each, 8 mm stone, brass. They'll spoil one apiece so double it.": "kit makers 4 spare 100% prongs alloy brass outline round size 8 mm",
		"class of 6, 8x6 oval collets 0.5 copper, plus one spare set":                                      "kit makers 6 spare 16.6% collet alloy copper outline oval size 8x6 thickness 0.5 mm",
		"class of 8, 8x6 oval collets 0.5 copper, plus two spare sets":                                     "kit makers 8 spare 25% collet alloy copper outline oval size 8x6 thickness 0.5 mm",
	} {
		assert.Equal(t, line, Read(say, Context{Addressed: true}).Line(), say)
	}
	assert.Contains(t, Read("triple halo 1mm stones round a 5mm", Context{Addressed: true}).Text, "middle row: 24 stones of 1 mm round 7.2 mm")
	assert.NotContains(t, Read("3 stone ring, 5mm middle and 3mm sides, tube set", Context{Addressed: true}).Text, "for 3 with saw")
	assert.Equal(t, "jumpring ratio 3.2 wire 0.8 mm", Read("a.r. of 3.2 with .8 wire is what id", Context{Addressed: true}).Line())
}
