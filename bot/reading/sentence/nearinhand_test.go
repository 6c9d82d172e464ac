package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A figure without a measure changes the one of the piece's that it is plainly near to, a
// gauge where the metal is told as one, or is what was spoken of before; how many are wanted
// makes a cut list.
func TestFiguresOfPieceInHand(t *testing.T) {
	for _, test := range []struct {
		talk []string
		line string
	}{
		{[]string{"bezel 14x10 oval 28 gauge fine silver, 5 high", "and if i use 26 instead"}, "bezel alloy fine-silver dome 5 outline oval size 14x10 thickness 26ga"},
		{[]string{"dome 20mm across 24 ga half ball", "what if I use 22 instead"}, "dome hemisphere size 20 mm thickness 22ga"},
		{[]string{"jump rings 18ga 5mm inside, 100", "what about 20"}, "jumpring count 100 inside 5 mm wire 20ga"},
		{[]string{"band size 7 18ga 5mm wide", "in 10"}, "band ring 10 system us thickness 18ga width 5 mm"},
		{[]string{"halo for a 6.5 round, 1.3 stones", "how many if I went to 1.5"}, "halo outline round size 6.5 with 1.5"},
		{[]string{"collet 6mm round, 17 block, .5 9ct, 5 high", "k and if i go .7"}, "collet alloy 9k-yellow height 5 included 17 outline round size 6 mm thickness 0.7 mm"},
		{[]string{"bangle inside 65 mm round wire 4 mm silver", "and if I use 3 mm?"}, "band alloy sterling bangle 65 mm profile round thickness 3 mm"},
		{[]string{"collet for a 6mm round, 0.6mm sterling, 5 high", "make it 1 mm taller"}, "collet alloy sterling height 6 outline round size 6 mm thickness 0.6 mm"},
		{[]string{"collet 7mm round, 0.7 sheet", "how tall do people make them", "call it 5.5"}, "collet height 5.5 outline round size 7 mm thickness 0.7 mm"},
		{[]string{"prongs for 8mm round, 4 claws, 0.9", "not sure about the height, what do people normally do?", "ill say 6"}, "prongs height 6 number 4 outline round size 8 mm thickness 0.9 mm"},
		{[]string{"prongs for 8mm round, 4 claws, 0.9", "how tall u makin it", "do 6 instead"}, "prongs number 6 outline round size 8 mm thickness 0.9 mm"},
		{[]string{"15mm half dome discs, 0.5 copper", "I need 12 of them"}, "kit each 12 makers 1 dome alloy copper hemisphere size 15 mm thickness 0.5 mm"},
		{[]string{"collet 8x6 oval 0.8 silver 5 high", "I'd like six of those please, how much sheet?"}, "kit each 6 makers 1 collet alloy sterling height 5 outline oval size 8x6 thickness 0.8 mm"},
		{[]string{"prongs for a 9mm round", "4 of em"}, "prongs number 4 outline round size 9 mm"},
		{[]string{"tubeset 2mm stone 3x0.5 tube", "I want five of them"}, "tubeset count 5 outline round size 2 mm tubesize 3x0.5"},
		{[]string{"resize O to L, 9ct yellow, 2.4 x 1.7", "She's rung. M not L."}, "resize alloy 9k-yellow from uk O thickness 1.7 mm to uk M width 2.4"},
		{[]string{"collar 9mm round, 0.8, 17 block", "I made an error: the block is 28°, not 17."}, "collar included 28 outline round size 9 mm thickness 0.8 mm"},
		{[]string{"band size N 4 wide 1.6 thick sterling", "not 4, its 5"}, "band alloy sterling ring N system uk thickness 1.6 mm width 5"},
		{[]string{"bangle 62 inside, 4mm round, silver", "lovely. And if I made the bangle 65?"}, "band alloy sterling bangle 65 profile round thickness 4 mm"},
		{[]string{"melt for 5.1g wax in sterling", "plus a 6 gram button", "and 2 g for the sprue"}, "melt alloy sterling button 6 g sprue 2 g wax 5.1 g"},
		{[]string{"melt for 5.1g wax in 14k white please", "how much would it be for palladium white"}, "melt alloy 14k-white-palladium wax 5.1 g"},
		{[]string{"one inch dome disc 22 gauge brass half inch high", "can i get 6 out of a 6x6 sheet"}, "kit each 6 makers 1 sheet 6x6 in dome alloy brass height 0.5 in size 1 in thickness 22ga"},
		{[]string{"anneal temp for 14k yellow", "and how do i cool it"}, "heat alloy 14k-yellow"},
		{[]string{"tube set three 2.5 mm sapphires in a ring", "which tubing"}, "tubeset count 3 outline round size 2.5 mm"},
	} {
		assert.Equal(t, test.line, readTalk(test.talk...).Line(), "%q", test.talk)
	}
}

// readTalk is the reading of the last of several messages.
func readTalk(talk ...string) (r Reading) {
	c := Context{Addressed: true, Takes: takes, Excludes: excludes}
	for _, say := range talk {
		r = Read(say, c)
		c = c.After(say, r)
	}
	return r
}
