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
