package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A dome is measured over its outside unless its size is told of the inside: the disc for
// the same figure inside is larger by more than the sheet's thickness.
func TestDomesMeasuredInside(t *testing.T) {
	for say, face := range map[string]string{
		"dome 12mm inside, 0.6 sheet, half sphere, disc size?":                   "inside",
		"What disc for a half ball of 15 mm inside diameter in 0.7 mm silver?":   "inside",
		"I need a dome with an inside diameter of 20 mm, 5 high in 0.8 copper":   "inside",
		"hemisphere 18 mm on the inside from 20 gauge brass, how big a disc":     "inside",
		"disc for a dome internal diameter 22 mm and 6 mm high, 0.6 mm sterling": "inside",
		"Half ball, 14 outside. 0.7 sheet. Disc?":                                "",
		"what disc for a dome 12 mm across, half ball, 0.6 sheet":                "",
		"half ball 14 mm inside a 20 mm one, 0.7 sheet, what disc":               "",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		if assert.Equal(t, "dome", r.Request, say) {
			assert.Equal(t, face, r.Options["face"], say)
		}
	}
}
