package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestSizeInSystem: a size behind which another system stands is told in it; a ring that is
// to be sized is not.
func TestSizeInSystem(t *testing.T) {
	t.Parallel()
	for say, line := range map[string]string{
		"us 6.5 in uk":        "band ring 6.5 system us",
		"uk N to us":          "band ring N system uk",
		"size 7 us to uk":     "band ring 7 system us",
		"resize us 7 to uk N": "resize from us 7 to uk N",
		"size 7 us 2mm thick": "band ring 7 system us thickness 2 mm",
	} {
		assert.Equal(t, line, lastOf(say).Line(), say)
	}
}

// TestCaratsOfWidth: weight goes with the cube of the width; a round brilliant of 1 ct is
// commonly given as about 6.4 to 6.5 mm across.
func TestCaratsOfWidth(t *testing.T) {
	t.Parallel()
	assert.Contains(t, lastOf("6.5 mm round in carats").Text, "about 1.04 ct")
}
