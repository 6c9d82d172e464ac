package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Dozens are counted wherever they stand, in figures and in words.
func TestDozens(t *testing.T) {
	for typed, want := range map[string]string{
		"two dozen jump rings 5 mm inside of 1.2 wire":  "24",
		"5 mm jump rings in 1.2, three dozen please":    "36",
		"5 mm jump rings in 1.2, 2 dozen please":        "24",
		"a dozen jump rings 5 mm inside of 1.2 wire":    "12",
		"jump rings 5 mm in 1.2, half a dozen":          "6",
		"jump rings 5 mm in 1.2, two and a half dozen":  "30",
		"jump rings, 0.8, 3mm, two dozen, cut by a saw": "24",
	} {
		r := Read(typed, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, want, r.Options["count"], "%s: %s", typed, shown(r))
	}
	r := Read("bezel for a three quarter by half inch oval, 26 gauge fine, 3/16 high", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Equal(t, "0.75 x 0.5 in", r.Options["size"], shown(r))
}
