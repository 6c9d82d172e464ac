package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestOneOutlineOfTwoWords: a word for the corners of an outline is no second one, and an
// emerald cut has eight sides; a strip for a collar is no finger ring, and "w 0.5 mm" no size.
func TestOneOutlineOfTwoWords(t *testing.T) {
	for _, c := range []struct{ say, want string }{
		{"cushion 12mm bezel, corners fairly round, 0.35 wire", "request: bezel outline cushion size 12 mm thickness 0.35 mm"},
		{"the blank of an octagonal collet, emerald cut of 9 x 7 mm, depth of the stone 4,6 mm, in 18 carat yellow gold of 0,8 mm", "request: collet alloy 18k-yellow depth 4.6 mm outline emerald size 9x7 thickness 0.8 mm"},
		{"i have a 60mm x 5mm x 1mm strip what size round collar can i get", "request: match outline round strip 60x5 thickness 1 mm"},
		{"bezel length for oval 30x22 w 0.5mm silver", "request: bezel alloy sterling outline oval size 30x22 thickness 0.5 mm"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, c.want, strings.TrimSpace(shown(r)), c.say)
	}
	for _, say := range []string{"oval stone in round collet 8x6 .7", "rectangle stone 8 by 4 with cut corners collet 22 ga"} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Question, r.Outcome, say)
	}
}
