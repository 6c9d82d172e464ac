package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A change of a piece that is not surely meant is shown and asked about, and a plain one
// is made at once.
func TestDoubtfulChangesAreAskedAbout(t *testing.T) {
	collet := Reading{Outcome: Request, Request: "collet", Options: map[string]string{"outline": "oval", "size": "8x6", "thickness": "0.8 mm"}}
	for _, test := range []struct {
		after Reading
		say   string
		asks  bool
	}{
		{collet, "the little one is 5", true},
		{collet, "and in 20 gauge?", false},
		{collet, "what if it is 5 mm high", false},
		{collet, "bezel for a 12 round, 4 high, 28 ga fine silver", false},
	} {
		r := Read(test.say, Context{Addressed: true, Takes: takes, Excludes: excludes}.After("", test.after))
		assert.Equal(t, test.asks, r.Outcome == Question, "%s: %s %s", test.say, shown(r), r.Line())
	}
	doubted := Read("the little one is 5", Context{Addressed: true, Takes: takes, Excludes: excludes}.After("", collet))
	yes := Read("yes", Context{Addressed: true, Takes: takes, Excludes: excludes}.After("", collet).After("the little one is 5", doubted))
	assert.Equal(t, doubted.Options, yes.Options)
	assert.Equal(t, Request, yes.Outcome)
}

// What a second piece has the same as the last is taken from it, whatever else it is
// called.
func TestSameSheetForASecondPiece(t *testing.T) {
	last := &Last{"collet", map[string]string{"alloy": "sterling", "lean": "14", "outline": "round", "size": "9", "thickness": "22ga"}}
	r := Read("Now a second piece: emerald cut, 9.0 x 7.0 mm, same sheet, height 6.0 mm, same lean.", Context{Addressed: true, Last: last})
	assert.Equal(t, "collet alloy sterling height 6.0 mm lean 14 outline emerald size 9.0x7.0 thickness 22ga", r.Line())
}
