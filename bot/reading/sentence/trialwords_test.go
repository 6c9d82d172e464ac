package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A trial's measure and by how much it is off are told, and not what it should be.
func TestTrialWithoutItsTarget(t *testing.T) {
	r := Read("my first try came out 6.4 at the top and that is 0.3 too wide", Context{})
	assert.Equal(t, Explanation, r.Outcome)
	assert.Contains(t, r.Text, "0.94 mm shorter") // pi x 0.3
}

// What a piece came out at is no measure of the next one.
func TestResultIsNoMeasure(t *testing.T) {
	for _, say := range []string{
		"trial collet came out 6.2 across the top instead of 6.5, 17 degree block",
		"test collar ended up 7.1 at the rim, supposed to be 7.5, 0.8 sterling",
	} {
		r := Read(say, Context{Addressed: true})
		assert.NotEqual(t, Request, r.Outcome, "%s: %s", say, shown(r))
	}
}

func TestNextBlankOfCones(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ say, says string }{
		{"Collet off your blank measures 8.35 over the top, should have been 8.0. What now?", "1.10 mm shorter"},
		{"The cylinder after pressing came to 5.4 mm high instead of 5.0, and the mouth is 0.15 mm under. What should I alter, the length of the strip or its height?", "0.47 mm longer"},
		{"It's come out oval where it should be round, 6.1 one way and 5.8 the other. Is it the blank or is it me?", "5.95 mm"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Explanation, r.Outcome, c.say)
		assert.Contains(t, r.Text, c.says, c.say)
	}
}
