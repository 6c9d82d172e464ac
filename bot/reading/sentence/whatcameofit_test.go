package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What came of a piece at the bench, and what there is to make it of, is said of that piece.
func TestWhatCameOfIt(t *testing.T) {
	t.Parallel()
	band, halo := "band size 7 us, 4 x 1.5", "halo of 1.5 mm stones round a 6 mm round"
	for talk, want := range map[string]string{
		// tubes that can be had
		"Tube setting for a 6 mm round. ... All I can get is 6.5 mm with 0.5 wall or 7 mm with 0.6 wall":                              "tubeset outline round size 6 mm tubesize 6.5x0.5",
		"tubeset 4mm ... I have 4.5 with a wall of 0.4, or 5.0 with a wall of 0.5. Better which?":                                     "tubeset outline round size 4 mm tubesize 4.5x0.4",
		"Which tube for a 3.5 mm stone? ... Cookson has 4.0 outside 0.5 wall, or 4.5 outside 0.5 wall. Would either do?":              "tubeset outline round size 3.5 mm tubesize 4x0.5",
		"Which tube for a .138 stone ... I stock .188 OD x .032 wall and .156 x .020. Either one work":                                "tubeset outline round size 0.138 in tubesize 3.9624x0.508",
		"tube for a 3 mm stone ... would 3.5 x 0.4 do, or should I buy 4 x 0.5? ... Suppose I go to 2.8 stones, is the 3.5 good then": "tubeset outline round size 2.8 tubesize 3.5x0.4",
		"tube for 3 mm stone ... my wall is 0.4 not 0.5":                                                                              "tubeset outline round size 3 mm tubesize 3.4x0.4",
		// the size that a ring has
		band + " ... made it up, mandrel reads 7 1/4":                                              "trouble sign strip-too-long",
		band + " ... Closed it, mandrel reads 7-1/4. File ends or leave":                           "resize from us 7 1/4 thickness 1.5 mm to us 7 width 4",
		band + " ... Closed it, mandrel reads 7-1/4. File ends or leave ... now one for her, a 5":  "band ring 5 system us thickness 1.5 mm width 4",
		"ring size Q half round 4x2 ... now it measures as a P, can I hammer it up":                "resize from uk P profile half-round thickness 2 mm to uk Q width 4",
		band + " ... my mandrel reads in uk sizes, what is it":                                     band + "",
		"bezel oval 18x13, 0.5 fine ... Cut it. 0.6 short of meeting. Stretch it or start again.":  "trouble by 0.6 sign strip-too-short",
		"bezel 20mm round 26 ga ... It overlaps by 1 mm when I wrap it. File it?":                  "trouble by 1 mm sign strip-too-long",
		"bezel 8 mm round 0.3 fine ... closed it and the stone rattles ... how much shorter next?": "trouble sign stone-rattles",
		// how many there are, and how many there are to be
		halo + " ... Well I counted what I have and there's only the sixteen. Would that be enough?": "halo count 16 outline round size 6 mm with 1.5 mm",
		halo + " ... I have twelve. How big a gap would that leave":                                  "halo count 12 outline round size 6 mm with 1.5 mm",
		"band size P 1.6 x 5 ... and for two?":                                                       "band ring P system uk thickness 1.6 mm width 5",
		"bezel 12x10 oval 0.4 ... what about for three?":                                             "bezel count 3 outline oval size 12x10 thickness 0.4 mm",
		"band size P 1.6 x 5 ... and for 2 mm?":                                                      "band ring P system uk thickness 2 mm width 5",
		// what was said before belongs to it
		"Wire required for a chain of 600 mm, please. ... It is 0.8 mm wire and the rings are 3.5 mm inside.": "jumpring chain 600 mm inside 3.5 mm wire 0.8mm",
		"ring P 1.5 thick 4 wide ... they haven't got 1.5, only 1.3 or 1.8. which":                            "band ring P system uk thickness 1.8 mm width 4",
		"bezel 18x13 oval 0.3 ... I only have 26 or 28 gauge, which is better":                                "bezel outline oval size 18x13 thickness 28ga",
		"jump rings 50 of 5 mm inside in 1 mm wire ... I've 0.8 and 1.2 wire, which one?":                     "jumpring count 50 inside 5 mm wire 1.2 mm",
		"ring P 1.5 thick 4 wide ... what if I only have 1.3":                                                 "band ring P system uk thickness 1.3 mm width 4",
		"how much sterling for a 3.5 g wax ... Thanks, that cast fine. How much for two of them?":             "melt alloy sterling wax 7 g",
		"ring size M 1.5 thick 4 wide silver ... Great, soldered and done. Same again for size P please.":     "band alloy sterling ring P system uk thickness 1.5 mm width 4",
		// the heat of a metal
		"annealing sterling ... how will i know when it's there, no thermometer": "heat alloy sterling",
	} {
		r := lastOf(talk)
		if talk == band+" ... my mandrel reads in uk sizes, what is it" {
			assert.Equal(t, "band", r.Request, talk)
			continue
		}
		assert.Equal(t, Request, r.Outcome, talk)
		assert.Equal(t, want, r.Line(), talk)
	}
}

// A sum is told again with another figure, and a share of a weight is told.
func TestSumsOfWhatCameOfIt(t *testing.T) {
	t.Parallel()
	for talk, holds := range map[string]string{
		"weigh silver strip 160x12x1.2 ... I will saw out about 20 percent. How much remains?":                     "19.10 g",
		"weigh sterling wire 300 mm 1.5mm ... after 3 per cent filing loss, how much":                              "5.33 g",
		"How many 6mm discs out of a 50 by 50 sheet? ... and if they're 8":                                         "25 discs of 8 mm",
		"how thick should a bezel strip be for a 20 mm cab ... i only have 0.3 and 0.5":                            "Yes, 0.5 mm",
		".040 wall on a 1/2 in wide ring, OK? ... And if it's .050, does that get me there or go to .060":          "Yes, 0.060",
		"Stone 4.0 mm, which tube should I buy? ... They have only 5.0 mm with wall 0.4 mm or 5.5 mm with 0.6 mm.": "None of them",
		"What is 19 gauge in mm, please? ... And is there a handy fraction of an inch near that?":                  "1/32 in",
		"how hot to anneal copper ... how long do I hold it there":                                                 "A few seconds",
	} {
		r := lastOf(talk)
		assert.Equal(t, Explanation, r.Outcome, talk)
		assert.Contains(t, r.Text, holds, talk)
	}
	for _, talk := range []string{"ring P 1.5 thick 4 wide ... is 3 or 5 wide better", "bezel 10 mm round 0.4 ... should i use 3 or 4 high"} {
		assert.Equal(t, Question, lastOf(talk).Outcome, talk)
	}
	assert.NotEqual(t, Explanation, lastOf("weigh sterling sheet 60x40x0.8 ... and with 10 percent more length").Outcome)
}

// Who thanks and tells that a piece is made wants no answer; who tells what went wrong does.
func TestThanksForWhatIsMade(t *testing.T) {
	t.Parallel()
	for talk, want := range map[string]Outcome{
		"dome 20 mm half ball copper ... Thank you very much. It's finished and it looks well.":   Silent,
		"collet 7 mm round 0.8 ... Thank you, the second one has closed very well.":               Silent,
		"resize N to P silver 2 thick ... ta, thats done and she is delighted with it":            Silent,
		"bezel 10 mm round 0.4 fine ... Thanks, it's done but the seam cracked":                   Request,
		"bezel 10 mm round 0.4 fine ... Thanks, its soldered and its too small for the stone now": Request,
	} {
		assert.Equal(t, want, lastOf(talk).Outcome, talk)
	}
}
