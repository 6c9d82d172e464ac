package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// How far claws stand over the stone's edge is theirs, and no thickness or width.
func TestClawsAboveTheGirdle(t *testing.T) {
	for typed, rim := range map[string]string{
		"Four claws on a 6 mm round, 0.8 sheet, cone 7 tall, claws 1.2 above the girdle":                                       "1.2",
		"6 prong head for a 7mm round, prongs sticking up 1 mm over the stone's edge, 20ga":                                    "1 mm",
		"claw setting oval 8x6, 4 claws, claws 1.5 proud of the girdle, 0.9 plate":                                             "1.5",
		"prongs number: four. stone 5 mm round, plate 0,8, they should stand 1,3 above the girdle":                             "1.3",
		"coronet: six claws, 5 mm round, depth 3.1, claw width 1.2, claw height above girdle 1, sheet 0.8, height 6, taper 28": "1",
		"collet 8x6 oval sheet 0.7, seat 1 mm below the rim":                                                                   "1 mm",
	} {
		r := Read(typed, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Request, r.Outcome, typed)
		assert.Equal(t, rim, r.Options["rim"], typed)
	}
}

// A lentil bead is as thick as two domes are high, and filing is made up for by the disc.
func TestBeadsOfTwoDomes(t *testing.T) {
	for typed, height := range map[string]string{
		"dome: lentil bead of two halves, 20 across, 8 thick in all, 0.5 sheet":             "4",
		"lentil bead 16 mm wide, total thickness 6, 24 ga copper, two discs":                "3",
		"A lentil bead from two domes, 28 mm over the rim, 11 mm at the middle, 0.6 silver": "5.5",
		"domes 20 across and 4 high, 0.5 sheet":                                             "4",
	} {
		r := Read(typed, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, height, r.Options["height"], typed)
		assert.Empty(t, r.Options["hemisphere"], typed)
	}
	r := Read("a hollow bead of 14 mm in 0.4 sheet, filing takes 0.3 off each half", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Contains(t, r.Notes, "for the 0.3 that filing takes off each half, cut the disc 0.42 mm wider than that")
}
