package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Short messages about what was worked out are of the last piece.
func TestSaidOfResult(t *testing.T) {
	band, rings, claws := "band size N 5 wide 1.5 thick silver", "100 jump rings 4 mm inside 0.8 silver", "prongs 8 mm round 20 ga 4 claws silver"
	bandLine := "band alloy sterling ring N system uk thickness 1.5 mm width 5"
	for talk, want := range map[string]string{
		band + " ... so 59 mm then?":                                                                 bandLine,
		band + " ... hm 62 seems a lot":                                                              bandLine,
		band + " ... only got 16 gauge in":                                                           "band alloy sterling ring N system uk thickness 16ga width 5",
		band + " ... too big she says, M":                                                            "band alloy sterling ring M system uk thickness 1.5 mm width 5",
		band + " ... it's too tight on him, he needs a P":                                            "band alloy sterling ring P system uk thickness 1.5 mm width 5",
		band + " ... Excuse me, the customer wishes size T":                                          "band alloy sterling ring T system uk thickness 1.5 mm width 5",
		band + " ... came out a Q, how come":                                                         "trouble sign strip-too-long",
		band + " ... it came out an L":                                                               "trouble sign strip-too-short",
		"band us 8, 6 wide, 14ga ... hmm actually she measured 8.75":                                 "band ring 8.75 system us thickness 14ga width 6",
		"melt 5 g wax sterling ... wax is 5.4 now with the sprue":                                    "melt alloy sterling wax 5.4 g",
		"resize L to N 1.6 thick ... does the width matter, its 6":                                   "resize from uk L thickness 1.6 mm to uk N width 6",
		"resize 6 to 8 1.6 thick ... and a new one from scratch, same size":                          "band ring 8 system us thickness 1.6 mm",
		rings + " ... and double that":                                                               "jumpring alloy sterling count 200 inside 4 mm wire 0.8 mm",
		rings + " ... half as many":                                                                  "jumpring alloy sterling count 50 inside 4 mm wire 0.8 mm",
		rings + " ... 50 more":                                                                       "jumpring alloy sterling count 150 inside 4 mm wire 0.8 mm",
		claws + " ... k do that":                                                                     "prongs alloy sterling number 4 outline round size 8 mm thickness 20ga",
		"dome 20 mm copper 0.6 5 deep ... how much sheet for 10":                                     "kit each 10 makers 1 dome alloy copper height 5 size 20 mm thickness 0.6 mm",
		"saddle for a 6 mm round cup on a size N ... its a flat shank 2mm thick":                     "saddle outline round profile flat shank uk N shankthick 2 mm size 6 mm",
		"collet 9x7 oval 0.6 silver 6 high ... Reduce the taper to 17 and leave the rest unaltered.": "collet alloy sterling height 6 included 17 outline oval size 9x7 thickness 0.6 mm",
		"tube for a 3 mm stone ... i only have 4 mm od ... 0.5 wall":                                 "tubeset outline round size 3 mm tubesize 4x0.5",
		"tube for 2.5 mm stones ... the tube i have is 3.5 od 2.5 id":                                "tubeset outline round size 2.5 mm tubesize 3.5x0.5",
		"What stone would fit tube of 5 mm outside? ... The wall is 0.5.":                            "match tubesize 5x0.5",
	} {
		r := lastOf(talk)
		assert.Equal(t, Request, r.Outcome, talk)
		assert.Equal(t, want, r.Line(), talk)
	}
	assert.Contains(t, lastOf(band+" ... whats that in gauge").Text, "15 ga")
	assert.Contains(t, lastOf("is .5 alright for a collet 6mm stone ... wot would u use then").Text, "0.6 to 0.8 mm")
	assert.Equal(t, "prongs", lastOf(claws+" ... what else do you need").Request)
}

// What looks like them is none of them.
func TestNotSaidOfResult(t *testing.T) {
	band := "band size N 5 wide 1.5 thick silver"
	for talk, want := range map[string]string{
		band + " ... so 1.2 then?":                       "band alloy sterling ring N system uk thickness 1.2 mm width 5",
		"half round " + band + " ... do it flat instead": "band alloy sterling profile flat ring N system uk thickness 1.5 mm width 5",
		band + " ... 4 looks better, do that":            "band alloy sterling ring N system uk thickness 1.5 mm width 4",
		band + " ... thanks, will do that":               "",
	} {
		assert.Equal(t, want, lastOf(talk).Line(), talk)
	}
}
