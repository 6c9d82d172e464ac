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
