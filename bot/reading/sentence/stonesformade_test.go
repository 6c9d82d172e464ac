package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A setting or a strip that is there tells the stones that it takes. The figures are worked
// out by hand: a strip goes its length less pi x its thickness round a stone.
func TestStonesForWhatIsMade(t *testing.T) {
	for _, tc := range []struct{ typed, says string }{
		{"I've a finished bezel 47 mm round on the inside, what oval cab do I buy?", "18 x 13 mm takes 49.0 mm"},
		{"I have a bit of bezel strip 41 long, 0.4 thick. biggest round cab", "a stone of 12.65 mm"},
		{"I have bezel wire left, 63 mm of it, 0.3. cabs 20x15, 16x12, 18x13, which can I do?", "It goes round the 20 x 15 mm"},
		{"I have a cup 12.1 mm inside, which calibrated round", "The usual size for it: 12 mm"},
		{"have a bezel cup thats 10x8 inside and 3 cabs: 10x8, 9.7x7.8, 10.4 x 8.1. which one", "10.4 x 8.1 mm is too large"},
		{"got a cone already made, 6.4 mm inside at the mouth. what size stone goes in", "from 6.6 mm to 6.9 mm"},
		{"found an old collet, 8.4 across the top outside, walls 0.7. Which round stone", "7 mm (outside less twice the wall of 0.7 mm)"},
		{"empty tapered setting, 5.2 inside top, 3.1 bottom, 0.8 wall, which faceted stone", "Usual sizes: 5.5 mm, 6 mm"},
	} {
		r := Read(tc.typed, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, r.Text, tc.says, tc.typed)
	}
	for typed, request := range map[string]string{
		"which strip for a 10x8 cab, 0.3 thick":                     "bezel",
		"which stone fits a tube 5 mm od 0.5 wall":                  "match",
		"My bezel strip is 3 mm high, stone 10x8, how long":         "bezel",
		"collet for a stone 6.4 mm, 0.8 wall, which height is made": "collet",
	} {
		assert.Equal(t, request, Read(typed, Context{Addressed: true, Takes: takes, Excludes: excludes}).Request, typed)
	}
}
