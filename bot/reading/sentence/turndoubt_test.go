package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A change of a piece that is not surely meant is shown and asked about, and a plain one
// is made at once.
func TestDoubtfulChangesAreAskedAbout(t *testing.T) {
	halo := Reading{Outcome: Request, Request: "halo", Options: map[string]string{"outline": "round", "size": "6 mm", "count": "12", "with": "2.03"}}
	collet := Reading{Outcome: Request, Request: "collet", Options: map[string]string{"outline": "oval", "size": "8x6", "thickness": "0.8 mm"}}
	for _, test := range []struct {
		after Reading
		say   string
		asks  bool
	}{
		{halo, "And with fourteen?", true},
		{collet, "and in 20 gauge?", false},
		{collet, "what if it is 5 mm high", false},
		{collet, "what do I have in the daybook from monday, that strip of 12?", true},
	} {
		r := Read(test.say, Context{Addressed: true, Takes: takes, Excludes: excludes}.After("", test.after))
		assert.Equal(t, test.asks, r.Outcome == Question, "%s: %s %s", test.say, shown(r), r.Line())
	}
	doubted := Read("And with fourteen?", Context{Addressed: true, Takes: takes, Excludes: excludes}.After("", halo))
	yes := Read("yes", Context{Addressed: true, Takes: takes, Excludes: excludes}.After("", halo).After("And with fourteen?", doubted))
	assert.Equal(t, doubted.Options, yes.Options)
	assert.Equal(t, Request, yes.Outcome)
}
