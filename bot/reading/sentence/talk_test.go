package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestTalk reads what is said of the piece in hand: each talk ends in the line that is
// worked out.
func TestTalk(t *testing.T) {
	for name, talk := range map[string]struct {
		says []string
		want string
	}{
		"another thing's name describes the piece":   {[]string{"claws on 8mm round", "the collet's 0.8 thick and 5 high"}, "prongs height 5 outline round size 8 mm thickness 0.8 mm"},
		"a figure that is left over is no new stone": {[]string{"scalloped bezel for a round 20 mm cab, 0.4 sterling", "I like the scallops about 2.5mm"}, "bezel alloy sterling edging scalloped outline round pitch 2.5 mm size 20 mm thickness 0.4 mm"},
		"a bezel's wall is no 6 mm thick":            {[]string{"bezel for a round 18 mm cab, 28 gauge", "it's 6 thick"}, "bezel dome 6 outline round size 18 mm thickness 28ga"},
		"a figure takes the measure spoken of":       {[]string{"cone for a 6mm round stone, 0.7 sheet", "how tall is that", "make it 4"}, "collet height 4 outline round size 6 mm thickness 0.7 mm"},
		"letters and numbers are two kinds of size":  {[]string{"how long for a size M ring", "1.5"}, "band ring M system uk thickness 1.5 mm"},
		"two figures of a tube":                      {[]string{"tube for 3mm stones", "I only have 4.5 x 3.5"}, "tubeset outline round size 3 mm tubesize 4.5x0.5"},
		"an offcut is no stone":                      {[]string{"collet for a 7mm round, 0.8 sterling, 5 tall", "does it fit on an offcut 40 x 12"}, "collet alloy sterling height 5 outline round size 7 mm thickness 0.8 mm"},
		"a change is taken back":                     {[]string{"ring size 6, 4x1.5 silver", "size 8", "no, leave it at 6"}, "band alloy sterling ring 6 system us thickness 1.5 mm width 4"},
		"the piece is made anew after a trouble":     {[]string{"collet for an 8mm round, 0.8 copper, 6 high", "the joint has a gap that won't fill", "so a new blank in silver .9"}, "collet alloy sterling height 6 outline round size 8 mm thickness 0.9 mm"},
		"a change of the piece after its heat":       {[]string{"jump rings 1mm wire 4 inside, 60", "how do I anneal it", "actually make it 5mm inside"}, "jumpring count 60 inside 5 mm wire 1mm"},
		"the earlier piece that its metal tells":     {[]string{"collet for a 7mm round, 0.8 copper, 5 tall", "same in sterling", "what would the copper one weigh"}, "weigh collet alloy copper height 5 outline round size 7 mm thickness 0.8 mm"},
		"no denies the question, not the next word":  {[]string{"stone's 7.5", "no tapered, not a bezel"}, "collet outline round size 7.5"},
		"what is told of a trouble begins no piece":  {[]string{"my bezel has gone wavy at the rim", "labradorite 18x13, fine silver .5"}, "trouble sign rim-wavy-after-setting"},
		"a question of the piece's own figure":       {[]string{"ring size 7, 6 wide, 0.6 thick", "is 0.6 thick enough"}, "band ring 7 system us thickness 0.6 mm width 6"},
		"a half between two letters":                 {[]string{"band size P, 5 wide 1.5 thick", "she's between P and Q"}, "band ring P 1/2 system uk thickness 1.5 mm width 5"},
		"a plate's thickness is not the strip's":     {[]string{"bezel 14x10 oval cab, 0.3 fine silver", "and a back plate in 0.6"}, "bezel alloy fine-silver outline oval plate solid platethick 0.6 mm size 14x10 thickness 0.3 mm"},
		"a figure mended keeps the rest":             {[]string{"cast a wax of 2.4g in sterling", "and 9ct yellow", "wax is 2.6 actually"}, "melt alloy 9k-yellow wax 2.6"},
		"a block shapes the setting in hand":         {[]string{"cone for an 8 mm round garnet", "0.7 silver, 6 high, 28 degree block"}, "collet alloy sterling gem garnet height 6 included 28 outline round size 8 mm thickness 0.7 mm"},
		"another finger of a ring that is made":      {[]string{"band size L, 1.6 thick, 4 wide", "her brother wants one too and he's an S"}, "band ring S system uk thickness 1.6 mm width 4"},
		"a measure spoken of in its own sentence":    {[]string{"cone for a 7 mm round, 28 block", "sheet is 0.7. Height I leave to you, what do people take?", "ok then, 5"}, "collet height 5 included 28 outline round size 7 mm thickness 0.7 mm"},
		"a sheet has no length to mend":              {[]string{"weight of a copper sheet 80 x 60 x 0.9 mm", "pardon, I meant 1.1 mm"}, "weigh alloy copper form sheet size 80x60 thickness 1.1 mm"},
		"the wall round a halo's centre":             {[]string{"halo round an 8 mm round with 1.5 mm stones", "and 1.3 mm ones", "the collet in the middle is 0.6 thick, I left that out"}, "halo centregap 0.6 outline round size 8 mm with 1.3 mm"},
		"the weight of a blank and its sheet":        {[]string{"cone for a 6 mm round, 0.6 sterling, 5 tall", "what is the weight of the blank, and what is left of a sheet 30 x 20?"}, "weigh collet alloy sterling height 5 outline round size 6 mm thickness 0.6 mm"},
		"a wax is not told in other units":           {[]string{"I've a wax here that weighs six grams, for a pendant", "brass"}, "melt alloy brass wax 6 g"},
		"how wide a halo comes out":                  {[]string{"halo round a 6 mm round with 1.5 mm stones", "how wide will the whole thing be"}, "halo outline round size 6 mm with 1.5 mm"},
		"the wire of jump rings in other words":      {[]string{"jump rings 1.2 mm wire, 6 inside, 50 of them", "how many feet of wire is that"}, "jumpring count 50 inside 6 wire 1.2mm"},
		"how wide a setting's foot comes out":        {[]string{"cone for a 7 mm round, 0.8 silver, 6 high, 28 block", "what width is the foot of it"}, "collet alloy sterling height 6 included 28 outline round size 7 mm thickness 0.8 mm"},
		"what was worked out last":                   {[]string{"could you tell me what I had you work out last"}, "daybook"},
		"what a bag says is no measure":              {[]string{"strip for a 18x13 oval cab, fine silver", ".3 I think, it says 30 on the bag"}, "bezel alloy fine-silver outline oval size 18x13 thickness 0.3 mm"},
	} {
		t.Run(name, func(t *testing.T) {
			c := Context{Addressed: true, Takes: takes, Excludes: excludes}
			var r Reading
			for _, say := range talk.says {
				r = Read(say, c)
				c = c.After(say, r)
			}
			assert.Equal(t, Request, r.Outcome, r.Ask)
			assert.Equal(t, talk.want, r.Line())
		})
	}
}
