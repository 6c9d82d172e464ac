package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestHeightsAndAnglesOfCones(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ say, line string }{
		{"collet 8x6 oval, lean 10 each side, 6 mm along the slant, 0.7 sheet", "collet height 5.91 lean 10 outline oval size 8x6 thickness 0.7 mm"},
		{"collet for a 6.5 round, crown angle 34.5 degrees, pavilion angle 40.8 degrees, 0.6 sheet, 17 block", "collet crown 34.5 included 17 outline round pavilion 40.8 size 6.5 thickness 0.6 mm"},
		{"cone for an 8 mm round, 20 ga copper, the small end about half the top", "collet alloy copper base round basesize 4 outline round size 8 mm taper base thickness 20ga"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Request, r.Outcome, c.say)
		assert.Equal(t, c.line, r.Line(), c.say)
	}
}
