package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestBetweenWithinAWord: "between" glued to another word names no two sizes.
func TestBetweenWithinAWord(t *testing.T) {
	t.Parallel()
	for _, say := range []string{
		`patient, for mantin-between'ize, a 22"putweightfor, `,
		"ring between'ise N and O, make it 3 wide",
		"in-between's size 7, use 7 1/2",
	} {
		assert.NotPanics(t, func() { Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes}) }, say)
		assert.NotPanics(t, func() {
			c := Context{Addressed: true, Last: &Last{"band", map[string]string{"ring": "N", "system": "uk"}}}
			Read(say, c)
		}, say)
	}
}
