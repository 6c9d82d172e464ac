package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// after reads a message after others that were answered.
func after(said ...string) (r Reading) {
	c := Context{Addressed: true, Takes: takes, Excludes: excludes}
	for _, typed := range said {
		r = Read(typed, c)
		c = c.After(typed, r)
	}
	return r
}

const oneCollet = "collet 8x6 oval 0.8 sterling 6 high"

func TestClosesATalk(t *testing.T) {
	t.Parallel()
	for _, typed := range []string{
		"Thank you. I shall cut it in copper first and report back.", "cheers gonna try it in brass tonight",
		"ta mate, will order the sheet then", "Perfect, that's what I needed. Will post a photo.",
		"Lovely. I'll anneal it and have a go on Saturday.", "thx. off to cut it",
		"that's helpful, thank you. I'll solder it with easy.", "Right you are. I'll cut it Sunday when the shop's quiet.",
		"nice, I'll practise with some scrap copper before the gold",
	} {
		assert.Equal(t, Silent, after(oneCollet, typed).Outcome, typed)
	}
	for typed, want := range map[string]string{
		"ok great. i'll use 0.9 then, how long is it":   "collet alloy sterling height 6 outline oval size 8x6 thickness 0.9 mm",
		"Thanks. I will need it in 18 gauge.":           "collet alloy sterling height 6 outline oval size 8x6 thickness 18ga",
		"Great, I'd like it in copper.":                 "collet alloy copper height 6 outline oval size 8x6 thickness 0.8 mm",
		"ta. 7 high would be better":                    "collet alloy sterling height 7 outline oval size 8x6 thickness 0.8 mm",
		"Thank you. I would prefer it in brass please.": "collet alloy brass height 6 outline oval size 8x6 thickness 0.8 mm",
	} {
		assert.Equal(t, want, after(oneCollet, typed).Line(), typed)
	}
}

func TestPreventsTheNextHurt(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ hurt, typed, want string }{
		{"i splashed hot pickle on my hand", "ok its fine now. how do i stop that happening again", "cautions job pickle"},
		{"i splashed hot pickle on my hand", "what do i tell the kids so nobody else gets burnt", "cautions job pickle"},
		{"burnt my finger on a hot bezel", "what should i wear next time so it doesnt get me", "cautions job soldering"},
		{"burnt my finger on a hot bezel", "thank you. How should I have heated the pickle more safely?", "cautions job pickle"},
	} {
		r := after(test.hurt, test.typed)
		assert.Equal(t, Request, r.Outcome, test.typed)
		assert.Equal(t, test.want, r.Line(), test.typed)
	}
	for _, test := range []struct{ hurt, typed string }{
		{"i splashed hot pickle on my hand", "how do i stop it hurting"}, {"burnt my finger on a hot bezel", "should i put cream on it so it doesnt blister again"},
		{"he fainted from the kiln fumes", "how do i get the others out safely"}, {"bench caught fire", "how do i keep the others safe"},
		{"i splashed pickle in my eye", "is it safer to rinse with milk"}, {"i splashed hot pickle on my hand", "what if it starts bleeding again"},
	} {
		assert.Equal(t, FirstAid, after(test.hurt, test.typed).Outcome, test.typed)
	}
}

func TestHeatsInFahrenheit(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ first, typed, want string }{
		{"how hot to anneal sterling", "in F", "in °F: anneal at 1099 to 1200, begins to melt at 1434, hard solder flows at 1450, medium solder flows at 1360, easy solder flows at 1324"},
		{"Flow point, hard silver solder.", "in fahrenheit please", "in °F: anneal at 1099 to 1200, begins to melt at 1434, hard solder flows at 1450"},
		{"hello", "annealing temp for brass in F", "in °F: anneal at 797 to 1382, begins to melt at 1681"},
	} {
		r := after(test.first, test.typed)
		assert.Equal(t, "heat", r.Request, test.typed)
		assert.Contains(t, r.Notes, test.want, test.typed)
	}
	assert.Equal(t, "In °F: 40 °C is 104 °F, 60 °C is 140 °F.", after("what temperature does pickle need", "in F not C").Text)
}

func TestAsksForAMeasureOfThePiece(t *testing.T) {
	t.Parallel()
	const claws, ring, halo = "prongs for a 7 mm round, 6 of them, 0.9 mm silver", "band size N 5 wide 1.5 thick sterling", "halo of 1.5 mm around a 6 mm round"
	for _, test := range []struct{ piece, typed string }{
		{claws, "how wide does each one come out"}, {claws, "how far down do i saw"}, {claws, "how tall u makin it"}, {claws, "claws how wide at the top?"},
		{ring, "how long was it again"}, {ring, "what's the inside diameter"}, {halo, "how big a plate is that on"}, {halo, "whats the whole thing measure across after"},
		{oneCollet, "what angle is that"}, {"dome 20 mm 6 high 0.7 copper", "how big was the disc again"}, {"tube for a 3 mm round, 4 x 0.5", "what size bur"},
	} {
		assert.Equal(t, after(test.piece).Line(), after(test.piece, test.typed).Line(), test.typed)
	}
	for _, test := range []struct{ piece, typed, topic string }{
		{ring, "how thick should i go for a mans ring", "chunky ring"}, {"bezel 18x13 oval 5 high 0.3 fine silver", "how tall should a bezel be", "bezel height rule"},
		{claws, "how many prongs is best", "how many prongs"},
	} {
		assert.Equal(t, test.topic, after(test.piece, test.typed).Topic, test.typed)
	}
}

func TestTellsOfOtherPartsAndUses(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ piece, typed, want string }{
		{"bezel 20 mm round 0.3 fine silver", "plate under it is 0.6 sterling", "bezel alloy fine-silver outline round plate solid platethick 0.6 mm size 20 mm thickness 0.3 mm"},
		{"bezel 20 mm round 0.3 fine silver", "oh and it goes on a 20 gauge copper back", "bezel alloy fine-silver outline round plate solid platethick 20ga size 20 mm thickness 0.3 mm"},
		{"bezel 20 mm round 0.3 fine silver", "it's a ring, so I want it strong", "bezel alloy fine-silver outline round size 20 mm thickness 0.3 mm"},
		{"halo of 1.5 mm around a 6.5 mm round", "Centre's in a 0.5 bezel", "halo centregap 0.5 outline round size 6.5 mm with 1.5 mm"},
		{"resize L to O, 1.6 thick", "It's got a stone. Bezel. Agate.", "resize from uk L stones thickness 1.6 mm to uk O"},
		{"resize L to O, 1.6 thick", "theres diamonds in the shoulders", "resize from uk L stones thickness 1.6 mm to uk O"},
		{"resize 9 to 7", "band is flat, 2 mm by 5 mm", "resize from us 9 thickness 2 mm to us 7 width 5"},
		{"resize 8 to 9 1/2", "yea its 14 ga about 1/4 wide sterling", "resize alloy sterling from us 8 thickness 14ga to us 9 1/2 width 1/4 in"},
		{"tube for 2.5 mm stones", "three in a row, gap 0.5", "tubeset count 3 outline round size 2.5 mm spacing 0.5"},
		{"tube for 2.5 mm stones", "its 18ct, and i need five", "tubeset alloy 18k-yellow count 5 outline round size 2.5 mm"},
		{"collet 8 mm round 0.8 silver", "block's the 17 one, and make it 5 tall", "collet alloy sterling height 5 included 17 outline round size 8 mm thickness 0.8 mm"},
		{"collet 8 mm round 0.8 silver", "its for a ring", "collet alloy sterling outline round size 8 mm thickness 0.8 mm"},
		{"band size N 5 wide 1.5 thick", "there'll be a 6 mm stone on it", "band ring N system uk thickness 1.5 mm width 5"},
		{"prongs for a 7 mm round, 0.9 silver", "it's for earrings so keep it low, 5 high", "prongs alloy sterling height 5 outline round size 7 mm thickness 0.9 mm"},
	} {
		assert.Equal(t, test.want, after(test.piece, test.typed).Line(), test.typed)
	}
}

func TestChangesWhatIsInHand(t *testing.T) {
	t.Parallel()
	const claws = "prongs for a 7 mm round, 4 of them, 0.9 silver"
	for _, test := range []struct{ piece, typed, want string }{
		{claws, "can i make it 6 instead", "prongs alloy sterling number 6 outline round size 7 mm thickness 0.9 mm"},
		{claws, "What happens if I take six?", "prongs alloy sterling number 6 outline round size 7 mm thickness 0.9 mm"},
		{claws, "is 0.8 sheet ok or too bendy", "prongs alloy sterling number 4 outline round size 7 mm thickness 0.8 mm"},
		{"sheet 6 x 1 in 12 gauge sterling weight", "and if I go to 14", "weigh alloy sterling form sheet size 6x1 thickness 14ga"},
		{"wax 1.6 g in sterling", "ok n if i do 3 of them on one tree", "melt alloy sterling wax 4.8 g"},
		{"wax 1.6 g in sterling", "and ten of those?", "melt alloy sterling wax 16 g"},
		{"wax 1.6 g in sterling", "reweighed it properly, 1.72", "melt alloy sterling wax 1.72"},
		{"collet 8 mm round 0.8 silver 5 high", "And if I take away 1 mm of the height, what becomes the new radius?", "collet alloy sterling height 4 outline round size 8 mm thickness 0.8 mm"},
		{"tube for a 3 mm round", "iv some 4mm with .5 wall", "tubeset outline round size 3 mm tubesize 4x0.5"},
		{"tube 5 mm od 0.3 wall, what stone fits", "ok an wat would go in th 6mm, same wall", "match tubesize 6x0.3"},
		{"resize L to O, 1.6 thick", "She now says P to be on the safe side. What length would that be?", "resize from uk L thickness 1.6 mm to uk P"},
	} {
		assert.Equal(t, test.want, after(test.piece, test.typed).Line(), test.typed)
	}
	assert.NotContains(t, after(claws, "Is four safe for a daily ring or would you go six?").Line(), "number 6")
	assert.NotContains(t, after("bezel 18x13 oval 0.3 fine silver", "ok add a back plate w 1mm edge").Line(), "platethick 1 mm")
}

func TestGoesBackAndChanges(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		said []string
		want string
	}{
		{[]string{"collet 7 mm round 20ga 5 tall", "same thing for 8x6 oval", "what does it weigh in sterling", "go back to the round. make it 6 tall"}, "collet height 6 outline round size 7 mm thickness 20ga"},
		{[]string{"collet 9x7 oval 0.8 6 high", "and for an 8x6", "Back to the 9 x 7: what if it were 7 high?"}, "collet height 7 outline oval size 9x7 thickness 0.8 mm"},
		{[]string{"collet 8 mm round 0.8 5 high", "band size N 5 wide 1.5 thick", "in the first one, 0.9 sheet"}, "collet height 5 outline round size 8 mm thickness 0.9 mm"},
		{[]string{"tube for a 3 mm round", "halo of 1.5 around a 6 mm round", "back to the tube, stones are 2.5"}, "tubeset outline round size 2.5"},
		{[]string{"collet 8 mm round 0.8 5 high", "how hot do i anneal sterling", "ok make it 7 tall"}, "collet height 7 outline round size 8 mm thickness 0.8 mm"},
	} {
		assert.Equal(t, test.want, after(test.said...).Line(), test.said)
	}
}
