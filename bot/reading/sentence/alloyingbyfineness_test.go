package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestAlloyingByFineness: silver is told by its parts in a thousand too, for one alloy or two.
func TestAlloyingByFineness(t *testing.T) {
	for _, c := range []struct{ say, want string }{
		{"how much fine silver to add to 30g of 800 silver to get 925", "Melt 30.00 g of silver 800 with 50.00 g of fine silver"},
		{"The melt: 31 grams of silver of 800 thousandths. To lift it to 925, how much of fine must I add?", "with 51.67 g of fine silver"},
		{"I possess 22 g of fine silver granules. How much copper is to be added for 925, and how much would I need for 835?", "with 1.78 g of copper: 23.78 g of 925. Melt 22.00 g of fine silver with 4.35 g of copper"},
		{"how much copper for 50g fine silver to make sterling", "with 4.05 g of copper"},
		{"melting 20g of sterling scrap plus 5g fine silver what do i get", "make 25 g with 940 parts of fine silver"},
		{"if i melt 10g of 14k with 5g of 18k whats the result", "15.3 karat"},
		{"raise 15 grams of 14k to 18k", "with 10.00 g of fine gold"},
		{"want 30g of 18k from fine gold, how much gold and how much alloy", "Melt 22.50 g of fine gold with 7.50 g of alloy"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, r.Text, c.want, "%s -> %s", c.say, shown(r))
	}
}

// TestCountedWithTheirSize: what stands before a size and a plural counts; the two ways across
// a stone are one size.
func TestCountedWithTheirSize(t *testing.T) {
	for _, c := range []struct{ say, want string }{
		{"How many inches of 26ga bezel wire for five 1/2 inch round cabs?", "request: bezel count 5 outline round size 1/2 in thickness 26ga units inch"},
		{"collet 4 5mm round stones .6 sheet", "request: collet outline round size 5 mm thickness 0.6 mm"},
		{"2 6mm round prong settings .8 sheet", "request: prongs outline round size 6 mm thickness 0.8 mm"},
		{"prongs 4 6mm round stone .8", "request: prongs number 4 outline round size 6 mm thickness 0.8 mm"},
		{"cab is 18 mm one way and 13 mm the other, oval. 28ga bezel", "request: bezel outline oval size 18x13 thickness 28ga"},
		{"stone measures 12.1mm one way and 11.9 the other, round cab. wire .33. cut length?", "request: bezel outline round size 12.1 thickness 0.33 mm"},
		{"my block goes from 5 to 14mm, can i do a 12mm stone in it, wall 1", "request: collar outline round size 12 mm thickness 1 mm"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, c.want, strings.TrimSpace(shown(r)), c.say)
	}
}

// TestSectionBesideStone: of two sizes the one with a thin side is the strip's section.
func TestSectionBesideStone(t *testing.T) {
	for _, c := range []struct{ say, want string }{
		{"What length of bezel (3mm x 0.3mm) do I cut for an 18 x 13 mm oval cab?", "request: bezel outline oval size 18x13 thickness 0.3 mm"},
		{"bezel for a ring 14 x 10 cab sterling .5 thick will that push over", "request: bezel alloy sterling outline oval size 14x10 thickness 0.5 mm"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, c.want, strings.TrimSpace(shown(r)), c.say)
	}
}
