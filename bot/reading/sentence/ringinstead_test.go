package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSumsOnRings(t *testing.T) {
	for _, c := range []struct{ typed, line, verdict string }{
		{"cut 4.1 mm from us 9. what size?", "resize from us 9 to us 7 1/2", "US 7 1/2"},
		{"after I let in 3.5 mm my L ring should be... what letter", "resize from uk L to uk O", "Letting in 3.5 mm"},
		{"i got a strip 60 mm long 1.5 mm thick. what US size comes from it", "band ring 17.6 system diameter thickness 1.5 mm", "17.6 mm inside"},
		{"will 55mm be enough for a size 6 in 1.3mm, or am I going to be short", "band ring 6 system us thickness 1.3 mm", "55 mm is 0.95 mm shorter than the 55.95 mm"},
	} {
		r := Read(c.typed, Context{Addressed: true})
		assert.Equal(t, Request, r.Outcome, c.typed)
		assert.Equal(t, c.line, r.Line(), c.typed)
		assert.Contains(t, r.Verdict, c.verdict, c.typed)
	}
}

func TestSettingsOnRings(t *testing.T) {
	for _, c := range []struct{ typed, line string }{
		{"we're on size O. cab 12x10, wall 3.5 above the shank, 26 gauge fine silver", "saddle alloy fine-silver height 3.5 outline oval setting bezel shank uk O size 12x10 thickness 26ga"},
		{"paper template to wrap on tube 6x0.5 so i can cut the fish mouth for ring L 1.5, stands 5", "saddle height 5 shank uk L shankthick 1.5mm tubesize 6x0.5"},
		{"cushion 8 mm, 5.1 deep, base to be 5 mm across, ring size 6.5, flat 2 mm", "saddle basesize 5 mm depth 5.1 outline cushion shank us 6.5 shankthick 2mm size 8 mm"},
	} {
		r := Read(c.typed, Context{Addressed: true})
		assert.Equal(t, Request, r.Outcome, c.typed)
		assert.Equal(t, c.line, r.Line(), c.typed)
	}
}
