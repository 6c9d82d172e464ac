package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What a message on a stone's outline asks trace for. All are our own.
func TestTraced(t *testing.T) {
	for said, line := range map[string]string{
		"please send me the tracing card, letter size":                                            "trace card paper letter",
		"could i get the card on A4 rather than letter for tracing stones":                        "trace card paper a4",
		"here is the photo of my agate on the card, longest side 23.5 mm":                         "trace length 23.5 mm",
		"paper strip round my freeform stone 61 mm, it is 22 x 16, what outline":                  "trace size 22x16 strip 61 mm",
		"strip round the odd stone 70, long way 26, across 17, give me its outline":               "trace size 26x17 strip 70",
		"show me a list of the outlines i traced":                                                 "trace list",
		"caliper points of my stone: 0,9 4,7 6,3 6,-3 3,-7 0,-9 -4,-7 -6,-2, outline":             "trace points 0,9 4,7 6,3 6,-3 3,-7 0,-9 -4,-7 -6,-2",
		"outline from caliper points .4,0 .3,.3 0,.4 -.3,.3 -.4,0 -.3,-.3 0,-.4 .3,-.3 in inches": "trace points 10.16,0 7.62,7.62 0,10.16 -7.62,7.62 -10.16,0 -7.62,-7.62 0,-10.16 7.62,-7.62 units inch",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Request, r.Outcome, "%s\n%s", said, shown(r))
		assert.Equal(t, line, r.Line(), said)
	}
}

// An outline is forgotten only by its own line, a name is asked for, and points that
// are too few are told of.
func TestTracedAsksBack(t *testing.T) {
	for said, asks := range map[string]string{
		"delete the outline called river pebble from my traced stones":               "Which outline",
		"keep this outline as beach agate please":                                    "Under which name",
		"outline of my stone from caliper points 0,8 4,6 6,0 3,-6 -2,-7 -6,-1":       "8 points at least",
		"strip round the stone was 61, second time 59, the stone is 21x15, trace it": "Which is the strip",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Question, r.Outcome, "%s\n%s", said, shown(r))
		assert.Equal(t, "trace", r.Request, said)
		assert.Contains(t, r.Ask, asks, said)
		assert.Empty(t, r.Options["drop"], said)
	}
}

// The outline just traced is kept under the name that is told.
func TestKeepsTheOutline(t *testing.T) {
	last := Last{"trace", map[string]string{"strip": "58", "size": "20x16"}}
	for said, name := range map[string]string{
		"keep it as kidney": "kidney", "save that blob as kidney please": "kidney", "Keep that one, call it Royston3.": "royston3", "name it \"Jaspis\"": "Jaspis",
	} {
		r := Read(said, Context{Addressed: true, Last: &last, Takes: takes, Excludes: excludes})
		assert.Equal(t, "trace keep "+name, r.Line(), "%s\n%s", said, shown(r))
	}
}

func TestRoundStone(t *testing.T) {
	for _, c := range []struct {
		strip, long, wide float64
		may               bool
	}{
		{58, 20, 16, true}, {72, 20, 16, true}, {51, 20, 16, true}, // an oval, the box, the lozenge
		{30, 20, 16, false}, {90, 20, 16, false},
	} {
		assert.Equal(t, c.may, roundStone(c.strip, c.long, c.wide), "%v", c)
	}
}

// What is asked of the photograph and its card is answered, though it speaks of tracing.
func TestQuestionsOfThePhotograph(t *testing.T) {
	for _, tc := range []struct{ typed, topic string }{
		{"can I put a 20p next to the stone in the photo rather than printing the card?", "tracing: another scale"},
		{"would a steel rule beside the stone do for the photo trace", "tracing: another scale"},
		{"lost the tracing card, can i lay it on a credit card", "tracing: another scale"},
		{"the tracing card got coffee on it and it's gone wavy, still ok?", "tracing: damaged card"},
		{"My printer made the check line on the card 49 mm instead of 50. Does it matter for the trace?", "tracing: card printed off scale"},
		{"theres a bright reflection on one side of the stone in the photo, will that mess up the outline", "tracing: glare"},
		{"sun was behind me so my hand's shadow is on the card. send it or do another?", "tracing: shadow"},
		{"pic came out fuzzy can you still trace it", "tracing: blurred"},
		{"my finger covers a corner of the card in the snap does that matter", "tracing: covered mark"},
		{"how far away should the phone be when i take the picture of the stone on the card", "tracing: distance"},
		{"the traced outline says 18.3 long, my calipers say 17.9. Which do I believe?", "tracing: strip or photograph"},
	} {
		r := Read(tc.typed, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, tc.topic, r.Topic, tc.typed)
	}
	for _, typed := range []string{"photo of the opal on the card attached, no shadow this time", "here is the photo of my agate on the card, its 24.5 long by calipers", "send me the tracing card please, A4"} {
		r := Read(typed, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, "trace", r.Request, typed)
	}
}
