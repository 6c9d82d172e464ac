package sentence

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A metal that there are no figures for is no reason to fall over, or to reckon with a
// density of nothing.
func TestSumsOfMetalsWithoutFigures(t *testing.T) {
	for _, metal := range unknownMetals {
		for _, ask := range []string{
			"heaviest wax i can cast with 40g of %s",
			"what does a cube of 500 grams of %s look like",
			"how long is 30 grams of 1mm %s wire",
			"how many 5mm inside jump rings of 1mm %s wire in an ounce",
			"how much copper do i add to 20 grams of %s to make it sterling",
			"weigh 30 x 40 of 0.8mm %s",
		} {
			said := fmt.Sprintf(ask, metal)
			var r Reading
			assert.NotPanics(t, func() { r = Read(said, Context{Addressed: true, Takes: takes}) }, said)
			assert.NotRegexp(t, `Inf|NaN|0\.00 g/cm`, r.Text, said)
		}
	}
}
