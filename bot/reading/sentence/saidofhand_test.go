package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is said of a part of the piece in hand, asked of it, or told to be at hand for it, is
// read as that.
func TestSaidOfPieceInHand(t *testing.T) {
	for _, test := range []struct {
		talk []string
		line string
	}{
		{[]string{"halo 6.5 round, 1.5 stones", "bezel's 0.4"}, "halo centregap 0.4 outline round size 6.5 with 1.5"},
		{[]string{"halo 8x6 oval, 1.5 stones", "The bezel on the middle stone is 28 gauge."}, "halo centregap 0.32 outline oval size 8x6 with 1.5"},
		{[]string{"collet 10x8 octagon, 0.7, 6 high", "corners 2mm"}, "collet cornercut 25 height 6 outline octagon size 10x8 thickness 0.7 mm"},
		{[]string{"I got tube 3.5 od, .4 wall. what size stones fit", "would a 3 work"}, "tubeset outline round size 3 tubesize 3.5x0.4"},
		{[]string{"tube 5od 4.1id wot rd stone", "got 4.5 and 4.75"}, "tubeset outline round size 4.5 tubesize 5x0.45"},
		{[]string{"jump rings 1mm wire 5mm inside 100", "sterling, how heavy"}, "jumpring alloy sterling count 100 inside 5 mm wire 1mm"},
		{[]string{"jump rings 1mm wire 5mm inside 100", "outside diameter of one?"}, "jumpring count 100 inside 5 mm wire 1mm"},
		{[]string{"dome 20mm across half ball 24ga copper", "how big a disc again in inches"}, "dome alloy copper hemisphere size 20 mm thickness 24ga units inch"},
		{[]string{"resize L to P 1.8 thick 3 wide 9ct yellow", "how much gold do i need for that"}, "resize alloy 9k-yellow from uk L thickness 1.8 mm to uk P width 3"},
		{[]string{"collet round, 9 mm, sheet 0,7", "5,5 of height"}, "collet height 5.5 outline round size 9 mm thickness 0.7 mm"},
		{[]string{"jumprings wire 1,1 mm, inner diameter 4 mm, chain of 42 cm, sterling", "Too heavy, I believe. Make it with 0,8 mm wire and 3,2 mm inside."}, "jumpring alloy sterling chain 42 cm inside 3.2 mm wire 0.8 mm"},
		{[]string{"ring wants to come down from a T to a Q", "shank's 4 by 1.7, bit thinner at the back where it's worn"}, "resize from uk T thickness 1.7 mm to uk Q width 4"},
		{[]string{"band size Q 1/2, 1.5 thick", "so if I cut it outta 14 gauge how long"}, "band ring Q 1/2 system uk thickness 14ga"},
	} {
		r := readTalk(test.talk...)
		assert.Equal(t, test.line, r.Line(), "%q: %s", test.talk, r.Ask)
		assert.Equal(t, Request, r.Outcome, "%q", test.talk)
	}
	enough := readTalk("wax is 1.7g, in 18ct yellow?", "I only have 20 grams in scrap. Enough?")
	assert.True(t, strings.HasPrefix(enough.Verdict, "No, not enough"), enough.Verdict)
}

// The shorthand of a job card is opened where it is glued to a figure.
func TestGluedShorthand(t *testing.T) {
	for say, line := range map[string]string{
		"4 claw from cone 7rd, 1mm sheet 28deg":  "prongs included 28 number 4 outline round size 7 thickness 1 mm",
		"collet 8rd .8 stg 5hi":                  "collet alloy sterling height 5 outline round size 8 thickness 0.8 mm",
		"9x7ov collet, .7, 17deg":                "collet included 17 outline oval size 9x7 thickness 0.7 mm",
		"band sz N 3w 1.5t 18y":                  "band alloy 18k-yellow ring N system uk thickness 1.5 mm width 3",
		"collet 6 round .7 18w":                  "collet alloy 18k-white outline round size 6 thickness 0.7 mm",
		"resize I 1/2 to L, 1.7 thick, half rnd": "resize from uk I 1/2 profile half-round thickness 1.7 mm to uk L",
		"tube for 3rd":                           "tubeset outline round size 3",
	} {
		assert.Equal(t, line, Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes}).Line(), say)
	}
}
