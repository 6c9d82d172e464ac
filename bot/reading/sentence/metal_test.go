package sentence

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// metalSums are questions of every kind that is worked out with a metal, which stands for %s.
var metalSums = []string{
	"how much copper do i add to 20 grams of %s to make it sterling",
	"what does a cube of 500 grams of %s look like",
	"heaviest wax i can cast with 40g of %s",
	"how long is an ounce of 1.2 mm %s wire", "what does a 50x20x1 mm sheet of %s weigh", "2 m of 1.5 mm %s wire, what does it weigh", "%s tube 6 mm od 0.5 wall 100 long weight",
	"a 30 mm disc of 1 mm %s in grams", "how much %s for a wax of 2.3 g", "ring of 6 g in %s, what in sterling", "ring of 6 g in sterling, what in %s", "heaviest wax for 25 g of %s",
	"how much pure gold is in 5 g of %s", "20 g of %s as a cube", "the print is 640 cubic mm in %s", "2.5 oz per square foot of %s, how thick is it in mm", "how many 5 mm rings of 1 mm wire from an ounce of %s",
	"mix 10 g of %s with 5 g of copper, what is it", "make 14k from 5 g of %s", "my button of %s is 12 g, how much fresh metal for a 20 g casting", "how many 20x10 blanks from 100x50 of 0.8 %s, and their weight",
	"anneal %s", "what solder for %s", "which stones for a 24 x 6 x 0.8 offcut of %s", "bezel oval 8x6 4 high 0.3 %s", "collet round 6 0.8 mm %s 5 tall", "dome 20 mm 0.6 %s", "band size N 4 x 1.5 %s, what does it weigh",
	"100 jump rings 18 ga %s 5 mm inside", "resize us 6 to us 7, 2 mm %s", "tube set 3 mm stone in %s", "halo round 6 with 1.3 in %s", "class of 8, each a band size N 4 x 1.5 in %s", "20 ga %s in mm", "swap %s for 18ct, same 7mm round 0.8 sheet cone",
}

// A metal that there are no figures for is no reason to fall over, to reckon with a
// density of nothing, or to take another metal in its place.
func TestSumsOfMetalsWithoutFigures(t *testing.T) {
	beside := []string{"", " or sterling", " and pewter", " instead of copper"}
	for i, metal := range unknownMetals {
		for k, sum := range metalSums {
			more := beside[(i+k)%len(beside)]
			said := fmt.Sprintf(sum, metal+more)
			var r Reading
			assert.NotPanics(t, func() { r = Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes}) }, said)
			assert.NotRegexp(t, `Inf|NaN|0\.00 g/cm`, r.Text, said)
			if known := sum + more; r.Outcome == Request && !strings.Contains(known, "sterling") && !strings.Contains(known, "copper") && !strings.Contains(known, "18ct") && !strings.Contains(known, "14k") {
				assert.NotContains(t, []string{"sterling", "copper", "fine-silver", "18k-yellow"}, r.Options["alloy"], "%s\n%s", said, r.Line())
			}
		}
	}
}

func TestColourLetterBehindCarats(t *testing.T) {
	for say, line := range map[string]string{
		"9ct w gold ring size N 1.5 thick":   "band alloy 9k-white ring N system uk thickness 1.5 mm",
		"18k y ring us 7 2mm thick":          "band alloy 18k-yellow ring 7 system us thickness 2 mm",
		"ring 9ct W 1.5 thick":               "band alloy 9k-yellow ring W system uk thickness 1.5 mm",
		"melt 9ct w/ 3 g wax":                "melt alloy 9k-yellow wax 3 g",
		"14ct w bezel 10mm round, 0.4 thick": "bezel alloy 14k-white outline round size 10 mm thickness 0.4 mm",
	} {
		assert.Equal(t, line, Read(say, Context{Addressed: true}).Line(), say)
	}
	assert.Contains(t, Read("anneal temp 9ct w + quench or no", Context{Addressed: true}).Ask, "Which 9 ct w")
}
