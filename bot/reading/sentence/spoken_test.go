package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A part of the unit is said behind it.
func TestUnitAndPart(t *testing.T) {
	for say, want := range map[string]string{
		"dome an inch and a quarter across, 3/8 in high, 20 gauge":        "dome height 3/8 in size 1.25 in thickness 20ga",
		"bezel for an inch and a half round cab, 28 ga":                   "bezel outline round size 1.5 in thickness 28ga",
		"bangle two inches and a half inside, half round wire 10ga thick": "band bangle 2.5 in profile half-round thickness 10ga",
	} {
		assert.Equal(t, want, Read(say, Context{Addressed: true}).Line(), say)
	}
}

// A number in words is not mended to another that looks like it.
func TestNumbersInWordsAreNotMended(t *testing.T) {
	assert.Equal(t, "80", Read("jump rings 5 mm inside, 1 mm wire, I want about eighty", Context{Addressed: true}).Options["count"])
}
