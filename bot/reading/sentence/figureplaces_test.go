package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What stands behind a figure, beside it or before it tells what it measures.
func TestPlacesOfFigures(t *testing.T) {
	for _, test := range []struct {
		say  string
		want map[string]string
	}{
		{"seat for a pear 7x5 but make the rim 0.4 above the girdle, 0.8 18k", map[string]string{"rim": "0.4", "thickness": "0.8 mm", "girdle": ""}},
		{"saw four prongs from a cone, stone 8 round, crown above girdle 1.4, sheet 1", map[string]string{"rim": "", "height": "", "thickness": "1 mm"}},
		{"claws for a 7 mm round, the crown is like 1,5", map[string]string{"thickness": "", "crown": ""}},
		{"round garnet 7mm, the crown is 1.5 and the depth 4.3, cone 6 high in 0.7", map[string]string{"crown": "", "depth": "4.3", "height": "6"}},
		{"six claws on a 9mm round, 1.0 sheet, standing 1.3 above the girdle", map[string]string{"rim": "1.3"}},
		{"bezel square 10 dome 3 sterling 24ga", map[string]string{"size": "10", "dome": "3"}},
		{"how much strip for a cushion 7x7 in block demo-cushion, thickness 22 ga", map[string]string{"size": "7x7"}},
		{"how many mm of 0.8 strip for a collet block ring around a 13x11 oval", map[string]string{"thickness": "0.8 mm", "height": ""}},
		{"prongs octagon 9, 8 claws, gallery 1.5", map[string]string{"gallery": "1.5", "thickness": ""}},
		{"prongs for a 10x8 emerald cut, corners clipped by 18%, 20ga", map[string]string{"cornercut": "18"}},
		{"is 40 grams of sterling enough for a wax of 3.5?", map[string]string{"wax": "3.5 g"}},
		{"What dome do I get from a 25 disc if it's 6 high?", map[string]string{"disc": "25", "height": "6"}},
		{"prongs 1 ct diamond round, 4 claws, 18ish gauge", map[string]string{"thickness": "18ga"}},
	} {
		r := Read(test.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		for option, want := range test.want {
			assert.Equal(t, want, r.Options[option], "%s of %q: %s", option, test.say, r.Line())
		}
	}
}
