package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestWhoseSize: a setting is laid out for its stone, so that a size of the finished metal is
// asked about; what is said of a stone is the stone's.
func TestWhoseSize(t *testing.T) {
	for _, c := range []struct {
		say  string
		asks bool
	}{
		{"cone setting 7mm across the top outside, 4mm at the bottom, 5 high in 0.6 sheet. draw me the flat", true},
		{"conical setting: upper diameter 8,2 mm, lower diameter 5,0 mm, height 6,5 mm, and sheet of 0,7 mm", true},
		{"Need a cone 12 mm across the top and 7 across the bottom, 9 high, 22ga copper", true},
		{"Pressed collar must end at 8.5 external top dia, 0.9 wall, 5 high, cut length?", true},
		{"bezel has to be 12mm outside when finished, .4 strip. how long", true},
		{"finished collet to measure 11 x 9 outside, oval, 6 high, 0.8 sheet 18k", true},
		{"prongs cone 8mm outside at the top 6 claws .9 sheet 7 high", true},
		{"Straight ring to go in the 28 block, finishing at 8mm across the top. 1mm wall, 4.5 high. What length do I cut?", true},
		{"the stone is 8 mm on the outside edge, collet .6 sheet 5 high", false},
		{"The top of the stone is 8 mm across, and it is 5 deep. collet 0.7 sheet", false},
		{"tapered setting 6mm stone, 4mm bottom, 5 tall, .6 silver", false},
		{"collet finished height 6mm, 8mm round stone, 0.7 sheet", false},
		{"which hole of the oval block does an 8x6 finish in, 0.8 fine silver", false},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, c.asks, r.asksWhoseSize(), "%s -> %s", c.say, shown(r))
	}
}

// TestWhoseSizeAnswered: the question stays open until it is answered, by a word or a figure.
func TestWhoseSizeAnswered(t *testing.T) {
	const cone = "cone 8mm at the top 5 at the bottom 6 high .7 silver"
	for _, c := range []struct{ first, then, want string }{
		{cone, "its the stone", "request: collet alloy sterling basesize 5 height 6 outline round size 8 mm thickness 0.7 mm"},
		{cone, "no the stone is 7.2", "request: collet alloy sterling basesize 5 height 6 outline round size 7.2 thickness 0.7 mm"},
		{cone, "outside of the metal", "asks: collet alloy sterling basesize 5 height 6 outline round thickness 0.7 mm  Which size is the stone"},
		{"bezel has to be 12mm outside when finished, .4 strip. how long", "the outside", "request: bezel outline round size 11.2 thickness 0.4 mm"},
		{"Straight collar, .039 wall, to finish .3940 OD at the top in a 28 degree block.", "Height .200 finished.", "asks: collar height 0.200 in included 28 outline round size 0.3940 in thickness 0.039 in  That is changed. Is 0.3940"},
	} {
		context := Context{Addressed: true, Takes: takes, Excludes: excludes}
		context = context.After(c.first, Read(c.first, context))
		assert.Contains(t, shown(Read(c.then, context)), c.want, "%s ... %s", c.first, c.then)
	}
}

// TestHeardNumbers: dictation writes "ate" for eight; a word of eating stays one where
// somebody may have eaten something.
func TestHeardNumbers(t *testing.T) {
	for _, c := range []struct{ say, want string }{
		{"flat bit for a cone setting stones ate millimetres round about six high metal is point five", "request: collet height 6 outline round size 8 mm thickness 0.5 mm"},
		{"collet ate mil stone six tall .7 sheet", "request: collet height 6 outline round size 8 mm thickness 0.7 mm"},
		{"the acid ate through my sheet, stones 8 mm round, collet .6 5 high", "request: collet height 5 outline round size 8 mm thickness 0.6 mm"},
		{"the dog ate my solder", "first aid"},
		{"i ate 2 mm of the solder wire", "first aid"},
		{"he ate millimetre thick copper beads", "first aid"},
		{"ate some pickle by mistake", "first aid"},
		{"my dog found the pickle ate it", "first aid"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, shown(r), c.want, c.say)
	}
}

// TestFiguresOfStrip: a figure behind an edged bezel is how high its strip is, a part of a
// number counts nothing, and dictation writes "carrot" for carat.
func TestFiguresOfStrip(t *testing.T) {
	for _, c := range []struct{ say, want string }{
		{"Wall for a teardrop jasper, 25 x 15. Serrated bezel, 3mm. Just the length.", "request: bezel edging serrated gem quartz outline pear size 25x15"},
		{"serrated bezel 1/8 for a 10x8 oval cab length", "request: bezel edging serrated outline oval size 10x8"},
		{"hollow ball 12mm silver .7 need 2 discs + where do i drill the vent", "request: dome alloy sterling hemisphere size 12 mm thickness 0.7 mm"},
		{"ball 12mm silver .7 discs", "request: dome alloy sterling hemisphere size 12 mm thickness 0.7 mm"},
		{"the ring weighs four point two in silver what would it be if it was nine carrot gold", "request: melt alloy 9k-yellow from sterling model 4.2 g"},
		{"wax is 1.2 grams i want it in nine carrot yellow", "request: melt alloy 9k-yellow wax 1.2 g"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, c.want, strings.TrimSpace(shown(r)), c.say)
	}
}

// TestMadeInsteadOfPlanned: what stands behind "instead of" is what a piece was to be, where
// it was made and measured, and no slip of the keyboard.
func TestMadeInsteadOfPlanned(t *testing.T) {
	for _, c := range []struct{ say, want string }{
		{"made a trial collet and it came out 7.8 across the top instead of 8.2. what do i change", "off by 0.40 mm across"},
		{"made the cone and the top measures 6.3 instead of 6", "off by 0.30 mm across"},
		{"the collet is 5.6 tall and i asked for 6", "height was off by 0.40 mm"},
		{"collar is 8.6 across the top and it should be 8", "off by 0.60 mm across"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, r.Text, c.want, "%s -> %s", c.say, shown(r))
	}
	r := Read("collet 8mm round not 9, .6 sheet 6 high", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Equal(t, "request: collet height 6 outline round size 8 mm thickness 0.6 mm", strings.TrimSpace(shown(r)))
}

// TestDiscsAtHand: discs that are there are no dome's width.
func TestDiscsAtHand(t *testing.T) {
	for _, c := range []struct{ say, want string }{
		{"dome a 25mm disc into a half sphere, how wide will it be", "17.68 mm across"},
		{"I have discs already punched at 7/8 inch. What is the largest full hemisphere they will give me?", "15.72 mm across"},
		{"I have some discs already cut, 25 mm, from the guild sale. What is the biggest bead I can make with two of them?", "17.68 mm across"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, r.Verdict, c.want, "%s -> %s", c.say, shown(r))
	}
	r := Read("disc cut for a 20mm dome 5 high", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Equal(t, "request: dome height 5 size 20 mm", strings.TrimSpace(shown(r)))
}

// TestSidesBesideThePhotograph: the longer side of a stone checks its outline, a rough one
// does not.
func TestSidesBesideThePhotograph(t *testing.T) {
	r := Read("got an odd shape opal approx 14x9, can i trace it with my phone", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Equal(t, "request: trace", strings.TrimSpace(shown(r)))
	r = Read("traced it off the pic n it came out like 31 x 22 but my ruler says 29 x 21 whos right", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Equal(t, Question, r.Outcome)
}
