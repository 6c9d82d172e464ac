package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A figure that is told by another is worked out, and the answer says so.
func TestShares(t *testing.T) {
	for _, test := range []struct{ say, option, want string }{
		{"collet for my oval 9x7, twice as tall as the stone is deep. stone is 3.8 deep, 22 gauge", "height", "7.6 mm"},
		{"cone in 0.8ish 18k gold, marquise 12 by 6, depth a third of the length", "depth", "4 mm"},
		{"collar for a 7 round, metal's twice as thick as our usual 24 ga", "thickness", "1.02 mm"},
		{"shallow dome, a quarter as tall as wide, 30 mm wide, .6 copper", "height", "7.5 mm"},
		{"bezel for a 12 round cab, half as tall, fine silver 28 ga", "dome", "6 mm"},
	} {
		r := Read(test.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, test.want, r.Options[test.option], "%s: %s", test.say, r.Line())
		assert.Contains(t, strings.Join(r.Notes, "; "), test.want, test.say)
	}
}

// The larger end of a range is taken where the smaller can't be mended, and else it is
// asked about.
func TestEndsOfRange(t *testing.T) {
	for _, test := range []struct {
		say, option, want string
		asks              bool
	}{
		{"collar marquise 12x6 with 3 to 3.5 depth, 18k yellow 0.7", "depth", "3.5", false},
		{"bezel for a round cab between 9.8 and 10.1, 3.5 dome, 26ga sterling", "size", "10.1", false},
		{"collet round 6, 4 deep, 22 or 24 ga", "thickness", "24ga", true},
		{"collet oval 8x6 depth 4 or 4.2? 22ga", "depth", "4.2", true},
		{"waxes 2-3g in bronze", "wax", "3 g", true},
	} {
		r := Read(test.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, test.want, r.Options[test.option], "%s: %s", test.say, r.Line())
		assert.Equal(t, test.asks, r.Outcome == Question, "%s: %s", test.say, r.Ask)
		if !test.asks {
			assert.Contains(t, strings.Join(r.Notes, "; "), "I take "+test.want, test.say)
		}
	}
}

// A block or a tube of the workshop is taken by its name.
func TestWorkshopNames(t *testing.T) {
	for _, test := range []struct {
		say  string
		want map[string]string
	}{
		{"collar for a heart 8, block demo-heart, 20g", map[string]string{"block": "demo-heart", "size": "8", "thickness": "20ga"}},
		{"is the tube-8x0.8 big enough to make a block-formed seat for a 7 mm round", map[string]string{"tube": "tube-8x0.8", "size": "7 mm"}},
		{"what stones fit block demo-pear with 0.8", map[string]string{"block": "demo-pear", "thickness": "0.8 mm"}},
	} {
		r := Read(test.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		for option, want := range test.want {
			assert.Equal(t, want, r.Options[option], "%s of %q: %s", option, test.say, r.Line())
		}
	}
}
