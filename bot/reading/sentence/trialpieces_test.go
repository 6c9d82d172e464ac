package sentence

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The figures are worked out by hand: an ISO size is the way round the finger in mm, a
// closed strip changes by pi x its diameter's change, and a cap is pi x (r² + h²) large.
func TestNextBlankOfOtherPieces(t *testing.T) {
	for _, tc := range []struct{ typed, says string }{
		{"my trial ring came out size 52 and should be 54, I cut 58 mm of 1.5 brass. how long is the next blank", "60.0 mm long"},
		{"trial bangle came out 62 inside, wanted 64, strip was 204 long and 3 thick. how much longer is the next one", "210.3 mm long"},
		{"the ends of my trial bezel for a 10x8 cab won't close, 0.7 short, I cut 29. how long is the next strip", "29.7 mm long"},
		{"trial bezel round a 9.5 cab overlaps by 0.35 at the seam, strip was cut 31.4. next strip length", "31.0 mm long"},
		{"the trial bezel for a 12x10 cabochon is loose, 0.25 of daylight all round, strip was 36.1. what should I cut next", "34.5 mm long, which is 1.6 mm shorter than your 36.1. If 0.25 mm is all the play"},
	} {
		r := Read(tc.typed, Context{Addressed: true})
		assert.Equal(t, Explanation, r.Outcome, tc.typed)
		assert.Contains(t, r.Text, tc.says, tc.typed)
	}
}

// A ring that is called too small gets no shorter blank, however its sizes were read.
func TestNextBlankAgainstWhatIsSaid(t *testing.T) {
	told := newMessage("the ring came out too small").trialTold()
	assert.False(t, told.agrees(-2))
	assert.True(t, told.agrees(2))
	assert.False(t, told.agrees(0))
}

// A half ball's disc is the square root of two times as wide.
func TestDiscOfHalfBall(t *testing.T) {
	assert.InDelta(t, 20*math.Sqrt2, acrossDiscOf([2]float64{20, 10}), 1e-9)
}

// What was measured of a cone is not its stone, whatever stands beside it.
func TestMeasuredConeIsNotItsStone(t *testing.T) {
	r := Read("my practice collet for the 10x8 emerald cut, brass 0.7, 4.5 deep, measured 10.8x8.9 above, 8.3x6.2 below. what change?", Context{Addressed: true})
	assert.Equal(t, "10x8", r.Options["size"])
	assert.Equal(t, "10.8x8.9", r.Options["rimgot"])
	assert.Equal(t, "8.3x6.2", r.Options["basegot"])
}

// The answer to what was asked about a trial is worked out, though it asks nothing.
func TestTrialAnsweredInTalk(t *testing.T) {
	const first = "the brass trial ring is too small and the strip was 58 long, 1.5 thick. what do I change for the next blank?"
	c := Context{Addressed: true, Asked: &Reading{Outcome: Question, Topic: trialTopic, Ask: "?"}, Said: first}
	r := Read("I cut 58 mm, the ring came out size 52, I wanted 54", c)
	assert.Contains(t, r.Text, "60.0 mm long", shown(r))
}
