package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Figures of a halo, jump rings and stones in tube are placed by the words round them,
// and what is asked of them is worked out whichever of them are told.
func TestRingsByFigures(t *testing.T) {
	for _, c := range []struct{ say, line, says string }{
		{"got 16 melee at 1.4, could they go evenly round a 6.5 round", "halo count 16 outline round size 6.5 with 1.4", "Yes: 16 stones"},
		{"paper of 14 stones 1.5 each, what size round centre would suit them exactly", "", "centre of 5.49 mm"},
		{"what melee to get exactly 18 round a 9x7 oval halo", "halo count 18 outline oval size 9x7 with 1.61", "18 stones go round with even gaps of 0.1 mm"},
		{"halo on a 7x5 oval, does 1.2 melee give more stones than 1.4", "", "small stones of 1.4 mm"},
		{"halo must stay under 11 mm overall, centre 6 round, biggest melee", "halo outline round size 6 with 2", "Stones of up to 2 mm"},
		{"from a 90 cm wire 1 mm how much rings of 4", "jumpring count 56 inside 4 wire 1mm", "56 rings at most"},
		{"jump rings 5 mm inside or 6 mm inside in 1.2 wire, 50 of them, wire for each lot", "", "5 mm inside: ratio 4.2"},
		{"aspect ratio 4 with 5 mm inside jump rings, which wire is that", "jumpring inside 5 mm wire 1.25mm", "5 / 4 = 1.25 mm"},
		{"i have a 4 mm and a 4.5 mandrel and 18g wire, which one gets me nearer to 5 mm inside", "jumpring inside 5 mm wire 18ga", "Take the mandrel of 4.5 mm"},
		{"outside diameter must be 8 mm, wire 1.2. So inside? and length each", "jumpring inside 5.6 wire 1.2 mm", ""},
		{"I want 12 big rings outside 20 mm, wire 2mm half hard. not soldered. mandrel?", "jumpring count 12 inside 16 wire 2mm", ""},
		{"will a 3.5 sit in 4x0.5", "tubeset outline round size 3.5 tubesize 4x0.5", "Yes: a stone of 3.5 mm covers 50 %"},
		{"can a 3 mm stone be set in tube 3.2 od with 0.4 wall", "tubeset outline round size 3 mm tubesize 3.2x0.4", "No: a tube of 3.20 mm leaves 0.10 mm"},
		{"tubeset 4 mm stone 2.5 deep with 1 mm below it, tube length", "", ""},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		if c.line != "" {
			assert.Equal(t, c.line, r.Line(), c.say)
		}
		assert.Contains(t, r.Verdict+r.Text, c.says, c.say)
		assert.NotEqual(t, Question, r.Outcome, c.say)
	}
}

// What is told of a coil or a saw is no ring's, and a figure whose place is not sure is
// asked about.
func TestRingFiguresAreNotForced(t *testing.T) {
	for _, say := range []string{"jump rings 1.2, 4, 7, 90", "stone 12 mm", "tube 5, 4.2, 3.8 please"} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.NotEqual(t, Request, r.Outcome, "%s: %s", say, r.Line())
	}
}
