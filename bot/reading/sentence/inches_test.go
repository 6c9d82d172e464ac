package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A figure that can't be mm makes inches of the bare decimals round it, and the answer
// says so.
func TestInches(t *testing.T) {
	for _, test := range []struct {
		say  string
		want map[string]string
	}{
		{"cone for an oval .32 x .24, its .16 deep, 22 ga sterling", map[string]string{"size": "0.32 x 0.24 in", "depth": "0.16 in", "thickness": "22ga"}},
		{"collet for a 3/8 round CZ, depth is .23, .032 sheet", map[string]string{"size": "3/8 in", "depth": "0.23 in", "thickness": "0.032 in"}},
		{"collet, square garnet .236, .14 deep, 22 ga sterling", map[string]string{"size": "0.236 in", "depth": "0.14 in"}},
		{"disc for earring domes .4 wide, half spheres, .020 sheet", map[string]string{"size": "0.4 in", "thickness": "0.020 in"}},
		{"what stones fit an offcut 1.5 x .5 of 22 ga sterling", map[string]string{"offcut": "1.5 x 0.5 in"}},
		{"weigh 25 discs .875 x .040 sterling", map[string]string{"size": "22.225", "thickness": "1.016 mm"}},
		{"collet in thou please: round .256, sheet .024", map[string]string{"size": "0.256 in", "thickness": "0.024 in"}},
		{"collet for a .39 by 6 mm pear, depth 3.5 mm, 24 ga", map[string]string{"size": "9.906x6", "depth": "3.5 mm"}},
	} {
		r := Read(test.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		for option, want := range test.want {
			assert.Equal(t, want, r.Options[option], "%s of %q: %s", option, test.say, r.Line())
		}
		if strings.Contains(test.say, " .") {
			assert.Contains(t, strings.Join(r.Notes, "; "), "read as inches", test.say)
		}
	}
}

// Thicknesses, wire and what else may be so small in mm stay mm.
func TestSmallMillimetres(t *testing.T) {
	for _, say := range []string{
		"collet for a round 6, .8 sheet, 4 deep", "bezel for a 10x8 oval, dome 4, .4 fine silver", "what does 60 cm of 0.8 round silver wire weigh",
		"0.8 x 0.3 flat wire, 2 m, weight in sterling", "prongs on a 7 round, .8 sterling, 4 of them", "pear 9x6, 4 deep, 0.6", "a bead 12 mm, sheet .5",
		"carats to mm for a round diamond 0.75", "tube 6x0.5, which stones", "collet oval 8x6, rim 0.6, 0.511 thick",
	} {
		for _, q := range newMessage(say).found {
			assert.NotContains(t, q.shown, "in", say)
		}
	}
}

// Sides that are told in two units keep each its own.
func TestSidesOfTwoUnits(t *testing.T) {
	for say, want := range map[string]string{
		"a strip 6 cm by 1/4 inch": "60x6.35", "two inches by three quarters": "2 x 0.75 in", "3/8 x 5/16": "3/8 x 5/16 in", "6 mm x .060": "6x1.524", "a back of .1 x .055": "0.1 x 0.055 in",
	} {
		assert.Equal(t, want, newMessage(say).found[0].shown, say)
	}
}
