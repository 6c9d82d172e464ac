package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A stone that is longer than wide is not told by one measure, and a hole of one measure is
// round.
func TestOneMeasure(t *testing.T) {
	for _, typed := range []string{
		"whats the length of strip for a straight band i press down in the 10mm oval block. 18ga",
		"10 mm oval cab, 0.3 strip, bezel length?",
		"collet for a 9mm pear, 0.7 sheet, 6 tall",
		"oval stone about 3/4 inch, bezel 28ga",
	} {
		r := readAlone(typed)
		assert.Equal(t, "size", r.Missing, typed)
		assert.Contains(t, r.Ask, "alone", typed)
	}
	for typed, line := range map[string]string{
		"oval 8x6 collet 0.7":                 "collet outline oval size 8x6 thickness 0.7 mm",
		"I've an oval, 14 mm by 10, strip .3": "bezel outline oval size 14x10 thickness 0.3 mm",
		"hole in my block is 9.2 at the top, collar 1 mm thick, largest stone?":               "match hole 9.2 outline round thickness 1 mm",
		"the top of my oval block hole's 10x8 and the sheet 0.8, biggest stone I can set":     "match hole 10x8 outline oval thickness 0.8 mm",
		"a taster day for 7, everyone makes a bezel for an 8 mm round cab, what do I prepare": "kit makers 7 bezel outline round size 8 mm",
	} {
		assert.Equal(t, line, readAlone(typed).Line(), typed)
	}
}
