package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestToldInSystem: a size behind which another system stands is told in it; a ring that is
// to be made or sized is not.
func TestToldInSystem(t *testing.T) {
	t.Parallel()
	for say, holds := range map[string]string{
		"us 6.5 in uk":    "UK/Australia M 1/2",
		"uk N to us":      "US/Canada 6 3/4",
		"size 7 us to uk": "UK/Australia N 1/2",
	} {
		r := lastOf(say)
		assert.Equal(t, "ring sizes", r.Topic, say)
		assert.Contains(t, r.Text, holds, say)
	}
	assert.Equal(t, "resize", lastOf("resize us 7 to uk N").Request)
	assert.Equal(t, "band", lastOf("size 7 us 2mm thick band").Request)
}

// TestCaratsOfWidth: weight goes with the cube of the width; a round brilliant of 1 ct is
// commonly given as about 6.4 to 6.5 mm across.
func TestCaratsOfWidth(t *testing.T) {
	t.Parallel()
	assert.Contains(t, lastOf("6.5 mm round in carats").Text, "about 1.04 ct")
}
