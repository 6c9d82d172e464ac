package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A figure of a follow-up goes where the words round it say.
func TestFigureOfAChange(t *testing.T) {
	prongs := Last{"prongs", map[string]string{"outline": "oval", "size": "8x6", "depth": "4", "thickness": "20ga"}}
	bezel := Last{"bezel", map[string]string{"outline": "oval", "size": "10x8", "dome": "3", "thickness": "28ga"}}
	melt := Last{"melt", map[string]string{"wax": "3.2g", "alloy": "sterling"}}
	collet := Last{"collet", map[string]string{"outline": "round", "size": "6", "height": "5", "thickness": "0.6 mm"}}
	for _, test := range []struct {
		piece   Last
		say     string
		changed []string
	}{
		{prongs, "Gallery up .040.", []string{"gallery 0.040 in"}},
		{bezel, "Seat .060.", []string{"seat 0.060 in"}},
		{melt, "Now shrinkage is 1.5 percent with my caster", []string{"shrink 1.5%"}},
		{collet, "make it 1 mm taller", []string{"height 6"}},
		{collet, "6 tall", []string{"height 6"}},
		{collet, "shorter, take a mm off", []string{"height 4"}},
		{bezel, "knock 0.1 off the thickness", []string{"thickness 0.22 mm"}},
		{collet, "actually leave the lean at what it was, as you told me last time, and make it taller by one millimetre", []string{"height 6"}},
		{collet, "The wall leans 14 degrees.", []string{"lean 14"}},
		{prongs, "17 block.", []string{"included 17"}},
	} {
		r := Read(test.say, Context{Addressed: true, Last: &test.piece, Takes: takes, Excludes: excludes})
		assert.Equal(t, test.changed, r.Changed, "%s -> %s", test.say, shown(r))
	}
}

// What was asked for by name stays with the question, and other requests begin anew.
func TestNoChangeOfThePiece(t *testing.T) {
	band := Last{"band", map[string]string{"ring": "7", "system": "us", "width": "4", "thickness": "1.5 mm"}}
	c := Context{Addressed: true, Last: &band, Takes: takes, Excludes: excludes}
	assert.Equal(t, "gauge gauge 0.8128", Read("thou to mm, 32 thou", c).Line())
	asked := Reading{Outcome: Question, Request: "collet", Options: map[string]string{"outline": "round", "size": "6"}, Missing: "height"}
	r := Read("4", Context{Addressed: true, Asked: &asked, Takes: takes, Excludes: excludes})
	assert.Equal(t, "4", r.Options["height"], shown(r))
}

// The only figure of an answer is what was asked for, but where the words round it surely
// make it something else.
func TestAnswerWithAnotherFigure(t *testing.T) {
	asked := Reading{Outcome: Question, Request: "dome", Options: map[string]string{"size": "18"}, Missing: "height", Ask: "How high is the dome?"}
	c := Context{Addressed: true, Asked: &asked, Takes: takes, Excludes: excludes}
	r := Read("brass .5", c)
	assert.Equal(t, Question, r.Outcome)
	assert.Equal(t, "0.5 mm", r.Options["thickness"])
	assert.Equal(t, "height", r.Missing, "asked for again")
	assert.Equal(t, "5", Read("5", c).Options["height"])
}

// How many each maker makes is told by a figure or a word.
func TestEach(t *testing.T) {
	for say, want := range map[string]string{
		"kit for 16 people, copper domes 25mm across half ball 24ga, 2 each": "2",
		"a kit for 9: bezels for 10x8 ovals, 28ga fine silver, three each":   "3",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, want, r.Options["each"], shown(r))
	}
}

// A tube's wall alone goes with the stone of the piece in talk.
func TestWallOfTheTubeInTalk(t *testing.T) {
	tubeset := Last{"tubeset", map[string]string{"outline": "round", "size": "4"}}
	c := Context{Addressed: true, Last: &tubeset, Takes: takes, Excludes: excludes}
	for _, say := range []string{"cu 20ga-yellw mokume gane 20 brass-t/ 22ga nchgauge-", "wall 0.5", "tube with a wall of 22 gauge"} {
		require.NotPanics(t, func() { Read(say, c) }, say)
	}
}
