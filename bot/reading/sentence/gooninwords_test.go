package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestTalksGoOn reads messages that change, leave open or report something of what was said
// before.
func TestTalksGoOn(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		said []string
		want string
	}{
		// a measure that is left open
		{[]string{"collet for a 7x5 oval", "0.7 sterling. height? whatever you think, no idea how tall"}, "collet alloy sterling outline oval size 7x5 thickness 0.7 mm"},
		{[]string{"cone for a 6mm round tourmaline 0.6 silver", "dunno the height, you pick"}, "collet alloy sterling gem tourmaline outline round size 6 mm thickness 0.6 mm"},
		{[]string{"halo round a 7 mm round with 1.5 mm stones", "what gap do folk usually leave? I'm not fussed"}, "halo outline round size 7 mm with 1.5 mm"},
		// the tube that is at hand
		{[]string{"which tube for a 5 mm round", "6 out 5 in is all i have"}, "tubeset outline round size 5 mm tubesize 6x0.5"},
		{[]string{"tube for a 3 mm stone", "they only do 4 with a 3 mm bore"}, "tubeset outline round size 3 mm tubesize 4x0.5"},
		{[]string{"6 stones of 2.2 mm in tube", "we only have 3 mm tube here with a hole of 2"}, "tubeset count 6 outline round size 2.2 mm tubesize 3x0.5"},
		{[]string{"which stone fits tube 4.5 od .5 wall", "what about 3.5 od 2.5 id"}, "match tubesize 3.5x0.5"},
		{[]string{"which stone fits a tube of 5 mm outside and 4 mm inside?", "and for a 6 x 5?"}, "match tubesize 6x0.5"},
		{[]string{"tube for a 3 mm stone", "I want six of them 4 mm long"}, "tubeset count 6 outline round size 3 mm"},
		// a ring that came out in another size
		{[]string{"band size P, 1.6 thick, 5 wide sterling", "Finished it and it measures O on the stick."}, "trouble sign strip-too-short"},
		{[]string{"resize 6 to 7, 1.5 thick", "soldered it in and now it's a 7 1/2"}, "trouble sign strip-too-long"},
		{[]string{"band V 2.2 thick 5 wide D section sterling", "Finished U½. Wanted V. Roll out or stretch?"}, "resize alloy sterling from uk U 1/2 profile half-round thickness 2.2 mm to uk V width 5"},
		{[]string{"band size P, 1.6 thick, 5 wide", "make it an O"}, "band ring O system uk thickness 1.6 mm width 5"},
		// a class that grows and shrinks
		{[]string{"kit for 8 makers, each a dome 20 mm wide 6 high copper 0.6", "Two more just signed up and one of em has real little wrists"}, "kit makers 10 dome alloy copper height 6 size 20 mm thickness 0.6 mm"},
		{[]string{"kit for 8 makers, each a dome 20 mm wide 6 high copper 0.6", "one dropped out, two joined"}, "kit makers 9 dome alloy copper height 6 size 20 mm thickness 0.6 mm"},
		{[]string{"kit for 8 makers, each a dome 20 mm wide 6 high copper 0.6", "and me, I'll do one as well"}, "kit makers 9 dome alloy copper height 6 size 20 mm thickness 0.6 mm"},
		// the piece of a class
		{[]string{"kit for 8 makers, dome 20 mm 6 high", "in copper 0.6 please"}, "kit makers 8 dome alloy copper height 6 size 20 mm thickness 0.6 mm"},
		{[]string{"kit for 8 makers, bezel 12 mm round cab 0.3 fine", "add a back plate, 24 gauge"}, "kit makers 8 bezel alloy fine-silver outline round plate solid platethick 24ga size 12 mm thickness 0.3 mm"},
		{[]string{"kit for 5 makers, half ball 12 mm", "The chain is bought in, leave that out, and reckon in copper of 0.6 mm."}, "kit makers 5 dome alloy copper hemisphere size 12 mm thickness 0.6 mm"},
		{[]string{"teaching 10 students, each makes an 8x6 oval collet in 22 ga sterling", "make it 20 gauge"}, "kit makers 10 collet alloy sterling outline oval size 8x6 thickness 20ga"},
		{[]string{"teaching 10 students, each makes an 8x6 oval collet in 22 ga sterling", "make it 12"}, "kit makers 12 collet alloy sterling outline oval size 8x6 thickness 22ga"},
		// a measure that is compared
		{[]string{"collet for 7 mm round, 0.7 silver", "the stone's deeper than i thought, about 5.1"}, "collet alloy sterling depth 5.1 outline round size 7 mm thickness 0.7 mm"},
		{[]string{"bezel 14x10 oval .3 fine, 4 high", "the cab is taller than that, it's 5.5"}, "bezel alloy fine-silver dome 5.5 outline oval size 14x10 thickness 0.3 mm"},
		{[]string{"collet 7 mm round .8 sterling", "make it 1 mm taller"}, "collet alloy sterling outline round size 7 mm thickness 0.8 mm"},
		{[]string{"collet 7 mm round .8 sterling, 6 high", "make it 1 mm taller"}, "collet alloy sterling height 7 outline round size 7 mm thickness 0.8 mm"},
		// figures after what tells how they came about
		{[]string{"bezel for a round rose quartz", "ok I measured with the calipers my son-in-law gave me, 24.6 mm and 7 tall"}, "bezel dome 7 gem quartz outline round size 24.6 mm"},
		{[]string{"wax is 2.4 g, sterling", "I popped it on the postal scales again, 2.7 g this time"}, "melt alloy sterling wax 2.7 g"},
		// what is wrong behind the praise, and how many there are to be
		{[]string{"dome 20 mm half ball .6 copper", "came out nice but the edge has ripples"}, "trouble sign dome-ripples"},
		{[]string{"jump rings 5 mm inside 1.2 wire, 200, copper", "hundred and twenty then"}, "jumpring alloy copper count 120 inside 5 mm wire 1.2 mm"},
		{[]string{"jump rings 5 mm inside 1.2 wire sterling", "how much for 300?"}, "jumpring alloy sterling count 300 inside 5 mm wire 1.2 mm"},
		{[]string{"jump rings 5 mm inside 1.2 wire sterling", "say two dozen"}, "jumpring alloy sterling count 24 inside 5 mm wire 1.2 mm"},
		// a section, two sides and a whole angle
		{[]string{"whats the length for a size Q", "oh yeah 1.5 thick 4 wide. flat"}, "band profile flat ring Q system uk thickness 1.5 mm width 4"},
		{[]string{"bezel for a round cab 15 mm, 5 high, 0.3 fine", "It is not quite round: 15.0 one way and 15.4 the other."}, "bezel alloy fine-silver dome 5 outline oval size 15.4x15 thickness 0.3 mm"},
		{[]string{"collet for a round 6.5 in silver, height 4.5", "the sheet is 0.7 and the angle 20 degrees total"}, "collet alloy sterling height 4.5 included 20 outline round size 6.5 thickness 0.7 mm"},
	} {
		r := lastOf(strings.Join(test.said, " ... "))
		assert.Equal(t, test.want, r.Line(), "%v: %s", test.said, r.Ask)
	}
}

// TestVerdictsAndSumsGoOn reads messages after a verdict or a sum that was told in a sentence.
func TestVerdictsAndSumsGoOn(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		said         []string
		topic, holds string
	}{
		{[]string{"is 0.5 thick enough for a bezel?", "and for a man's ring?"}, "limit: ring thickness", "0.5 mm is too thin"},
		{[]string{"is 22 gauge ok for a cuff", "what about 18"}, "limit: bangle", "18 gauge (1.02 mm) is thin"},
		{[]string{"Is 1 mm thick enough for a plain wedding band?", "it's 18ct and 3 wide"}, "limit: ring thickness", "1.5 mm is usual"},
		{[]string{"Is 1 mm thick enough for a plain wedding band?", "it's 18ct and 3 wide", "what would you go to minimum"}, "limit: ring thickness", "1.2 mm the least"},
		{[]string{"Is 1.2 mm strong enough for a gents signet?", "So what is the least you'd go to?"}, "limit: signet", "1.5 mm or more"},
		{[]string{"Is 0.3 thick enough for a bezel on a big agate, 30 mm?", "why not thinner?"}, "limit: bezel thickness", "0.3 to 0.4"},
		{[]string{"saddle depth for a 6 mm base on a size 7, 1.5 thick?", "what if the ring is a 9"}, "depth of a saddle", "US 9"},
		{[]string{"Round collet with base 7.0 mm outside, on shank with inner 17.0 mm and thickness 1.5 mm. Which saddle depth?", "and with a shank of 2.0 mm?"}, "depth of a saddle", "shank of 2 mm"},
	} {
		r := lastOf(strings.Join(test.said, " ... "))
		assert.Equal(t, Explanation, r.Outcome, "%v: %s %s", test.said, r.Line(), r.Ask)
		assert.Equal(t, test.topic, r.Topic, "%v", test.said)
		assert.Contains(t, r.Text, test.holds, "%v", test.said)
	}
	// what is no verdict's
	for _, said := range [][]string{
		{"is 1.5 mm thick enough for a ring", "how long do I cut for a size R"},
		{"is 22 gauge ok for a cuff", "bezel for a 12 mm round, 28 gauge"},
	} {
		r := lastOf(strings.Join(said, " ... "))
		assert.NotEqual(t, Explanation, r.Outcome, "%v: %s", said, r.Text)
	}
}

// TestWhatWentWellWantsNoAnswer reads messages that tell that all went well, and such that go
// on from there.
func TestWhatWentWellWantsNoAnswer(t *testing.T) {
	t.Parallel()
	for _, said := range []string{"bless you, it fit like a glove", "It's a beauty, came out just right", "Perfect fit. Customer delighted.", "finished it last night and I'm over the moon"} {
		assert.Equal(t, Silent, lastOf("band size Q 1.5 thick 4 wide ... "+said).Outcome, said)
	}
	for _, said := range []string{"looks gorgeous, now the same in a size R", "came out great but it's not round", "looks lovely, how do I polish it"} {
		assert.NotEqual(t, Silent, lastOf("band size Q 1.5 thick 4 wide ... "+said).Outcome, said)
	}
}
