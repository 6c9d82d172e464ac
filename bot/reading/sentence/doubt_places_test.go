package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestPieceInPlaceIsWorkedOut(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ say, request string }{
		{"bezel strip for 14x10 oval cab .3, why do they say to add twice the thickness", "bezel"},
		{"Want to do a 4 claw crown with my keen Year 11s. 7mm round, 0.9 sheet. Where do they saw?", "prongs"},
		{"I want to form the collar of a 5.5 mm stone from 18k strip of 0.7 mm, plate of 17 degrees. Please what outside diameter should the ring be, and does it become taller or shorter after pressing?", "collar"},
		{"disc size 4 a 10mm hollow ball .5 silver", "dome"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Request, r.Outcome, c.say)
		assert.Equal(t, c.request, r.Request, c.say)
	}
}
