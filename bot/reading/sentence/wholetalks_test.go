package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestWholeTalks reads the last message of a talk after those before it.
func TestWholeTalks(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		said []string
		want string // the line, empty where no piece must be worked out
	}{
		// the earlier piece that is named
		{[]string{"cone for 7mm round please, 22 gauge sterling, 6mm high", "same thing for an 8x6 oval", "what was the weight of the round one"}, "weigh collet alloy sterling height 6 mm outline round size 7 mm thickness 22ga"},
		{[]string{"bezel 10mm round 4 high .3 fine", "now a 14x10 oval same strip", "whats the length for the round one again pls"}, "bezel alloy fine-silver dome 4 outline round size 10 mm thickness 0.3 mm"},
		{[]string{"dome 20mm 6 high copper", "dome 30mm 8 high", "what disc was it for the 20mm one?"}, "dome alloy copper height 6 size 20 mm"},
		{[]string{"ring size M 4mm wide 1.5", "and a size S", "whats the length for the M one"}, "band ring M system uk thickness 1.5 mm width 4 mm"},
		{[]string{"4 claw cone for 8mm round .9 sheet", "make it six claws", "go back to the four, how wide were they"}, "prongs number 4 outline round size 8 mm thickness 0.9 mm"},
		{[]string{"Size V ring. 2 thick.", "6 wide. Sterling.", "Back to the ring. Make it a W."}, "band alloy sterling ring W system uk thickness 2 mm width 6"},
		{[]string{"collet 6mm round .7 sheet", "what about a square one 6mm"}, "collet outline square size 6 mm thickness 0.7 mm"},
		// the base of a cone is no number of claws
		{[]string{"claw cone 8mm round, 6 claws", "7 high, base 4"}, "prongs base round basesize 4 height 7 number 6 outline round size 8 mm taper base"},
		{[]string{"8 claw cone, 10mm round, 1mm sheet", "bottom wants to be 6, and 9 overall in height"}, "prongs base round basesize 6 height 9 number 8 outline round size 10 mm taper base thickness 1 mm"},
		{[]string{"cone for an oval stone of 11 x 9 mm", "thickness 0,8 mm; height 8 mm; the base may be of 7 x 5"}, "collet basesize 7x5 height 8 mm outline oval size 11x9 taper base thickness 0.8 mm"},
		{[]string{"ring size P please", "5 wide and 1.6 in thickness, silver"}, "band alloy sterling ring P system uk thickness 1.6 mm width 5"},
		// a class
		{[]string{"8 students making a band each, size 7, 5mm wide 1.2 copper", "one of them dropped out"}, "kit makers 7 band alloy copper ring 7 system us thickness 1.2 mm width 5 mm"},
		{[]string{"8 students making a band each, size 7, 5mm wide 1.2 copper", "2 more signed up"}, "kit makers 10 band alloy copper ring 7 system us thickness 1.2 mm width 5 mm"},
		{[]string{"kit for six people, collet 6mm round .5 copper 5 high", "another person joined"}, "kit makers 7 collet alloy copper height 5 outline round size 6 mm thickness 0.5 mm"},
		{[]string{"class of 10, everyone makes a 20mm dome 6 high in copper 24ga", "two of them would like a bezel 10mm round instead"}, ""},
		// the job after a hurt
		{[]string{"collet 7mm round .6 sterling 6 high", "burnt my finger on the tripod", "ok it's fine now, cooled it. make the collet 5 high please"}, "collet alloy sterling height 5 outline round size 7 mm thickness 0.6 mm"},
		{[]string{"size 7 band 5mm x 1.5", "just sliced my thumb with the piercing saw", "all good now, bandaged. same ring but 6 wide"}, "band ring 7 system us thickness 1.5 mm width 6"},
		{[]string{"flash burn. forearm. torch.", "OK. Back to the job. What temp was easy solder."}, "heat alloy sterling solder easy"},
		// what was told before
		{[]string{"whats 1.2 mm in gauge", "ok so how much does 2 foot of that weigh in silver round wire"}, "weigh alloy sterling form wire length 609.6 thickness 1.2 mm"},
		{[]string{"and 24 gauge in mm", "ta. how heavy is a 50 x 50 piece of the 24"}, "weigh form sheet size 50x50 thickness 24ga"},
		{[]string{"1.3 shank back of a 18ct solitaire, ok?", "size K, 2.2 wide"}, "band alloy 18k-yellow ring K system uk thickness 1.3 mm width 2.2"},
		{[]string{"ring from N to P, 1.6 thick 3 wide, 9ct yellow", "which solder do i use"}, "heat alloy 9k-yellow"},
		// figures by the part that is named
		{[]string{"4 claw cone 7mm round 1mm sheet", "how wide r they at top", "stone came today its 7.2 lol"}, "prongs number 4 outline round size 7.2 thickness 1 mm"},
		{[]string{"A wax ring weighs 0.9 grams. How much 14-karat yellow gold will it require?", "I had forgotten the sprue, which weighs 0.2 grams."}, "melt alloy 14k-yellow sprue 0.2 g wax 0.9 g"},
		{[]string{"halo for 7mm round with 1.2mm stones", "can you make it 16"}, "halo count 16 outline round size 7 mm with 1.2 mm"},
		{[]string{"how many 1.3 mm stones will surround a 6 mm round center?", "may I have the same for an oval of 8 by 6?"}, "halo outline oval size 8x6 with 1.3 mm"},
		{[]string{"jump rings 6mm id from 1.2 wire, for a 45cm necklace", "just 1 in 1 chain"}, ""},
		{[]string{"size N half round 4x2", "she's a P now"}, "band profile half-round ring P system uk thickness 2 mm width 4"},
		// both pieces, and a ring's section
		{[]string{"size R silver 3mm wide 1.5 how long", "and in W", "no sorry width 6 for the w one", "both together whats it weigh"}, "kit makers 1 band alloy sterling ring R system uk thickness 1.5 mm width 3 mm ; band alloy sterling ring W system uk thickness 1.5 mm width 6"},
		{[]string{"square wire 2mm, bangle 65mm inside, length?", "if it was round wire"}, "band bangle 65 mm profile round thickness 2 mm"},
		{[]string{"ring size M 4mm x 1.5 silver", "in round wire 2mm"}, "band alloy sterling profile round ring M system uk thickness 2 mm"},
		// a figure that is told as another measure is no stone, and one of no piece is the last one's
		{[]string{"stones 2.0 mm, eleven of them, to be set in tube along a bar", "tubing is 2.8 OD, 0.35 wall", "each 3.0 mm tall"}, ""},
		{[]string{"halo 6mm round 1.3s", "setting in the middle is 5 high"}, ""},
		{[]string{"I would like the blank for a tapered setting for a 7 mm round citrine in 22 gauge silver.", "The height should be 1/4 inch, and 4 mm across at the bottom will do."}, "collet alloy sterling base round basesize 4 mm gem quartz height 1/4 in outline round size 7 mm taper base thickness 22ga"},
		{[]string{"collet for a 9mm round", "I'm using point eight sheet and I'd like it to come out about six and a half tall if that's sensible"}, "collet height 6.5 outline round size 9 mm thickness 0.8 mm"},
		{[]string{"bezel 18x13", "I was going to use the 28 gauge fine that I have left over and the stone is about 6 at the highest bit"}, "bezel alloy fine-silver dome 6 outline oval size 18x13 thickness 28ga"},
		{[]string{"saddle for 8mm round collet on size 7 us, 2mm shank", "ring is size 6 sorry"}, "saddle outline round shank us 6 shankthick 2mm size 8 mm"},
		{[]string{"dome 1 inch across 1/4 high 20ga brass", "blank size?"}, "dome alloy brass height 1/4 in size 1 in thickness 20ga"},
		{[]string{"ring uk Q 5 wide 1.8 thick", "made it and it came out a P"}, ""},
	} {
		r := after(test.said...)
		last := test.said[len(test.said)-1]
		if test.want == "" {
			assert.False(t, r.Outcome == Request && len(r.Changed) > 0, "%s: %s", last, r.Line())
			continue
		}
		assert.Equal(t, Request, r.Outcome, last)
		assert.Equal(t, test.want, r.Line(), last)
	}
}

// TestHurtGoesOn reads what follows a hurt that is not seen to, or asks of it.
func TestHurtGoesOn(t *testing.T) {
	t.Parallel()
	for _, said := range [][]string{
		{"burnt two fingers on a hot piece", "no blister yet, just red. it was about a minute ago"},
		{"burnt my hand", "its fine. does it need a doctor"},
		{"cut my finger w the saw", "pressing on it. do i need stitches"},
		{"burnt my hand", "gone white and numb but ok. what do I cut for a 20mm dome 6 high"},
		{"splashed flux on my arm its stinging", "rinsed it off. how do i neutralise it"},
		{"burnt my hand", "not better. what do I cut for a 20mm dome 6 high"},
		{"burnt my hand", "fine, bigger than my palm. what do I cut for a 20mm dome 6 high"},
		{"burnt my hand", "cooled it 10 seconds, glove melted on. what do I cut for a 20mm dome 6 high"},
		{"burnt my wrist on the torch", "cooled it. how long?"},
		{"burnt my hand on the torch", "its gone white in the middle", "about the size of a 2p"},
		{"cut my finger w the saw", "blood keeps coming but plaster on. what disc for a 20mm dome 6 high"},
		{"cut my finger w the saw", "plaster on, metal still in it. what disc for a 20mm dome 6 high"},
		{"pickle on my arm", "plaster on. what disc for a 20mm dome 6 high"},
		{"pickle on my arm", "rinsed, acid still stinging. what disc for a 20mm dome 6 high"},
	} {
		r := after(said...)
		assert.Equal(t, FirstAid, r.Outcome, "%s: %s", said[len(said)-1], r.Line())
	}
}
