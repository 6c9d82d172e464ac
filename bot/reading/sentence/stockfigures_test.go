package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestFiguresOfWhatThereIs(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ say, line, says string }{
		{"a wax of 4 g, sterling. I've some scrap, 55 g all up, how much do I melt", "melt alloy sterling wax 4 g", "Yes: the casting takes 43.2 g"},
		{"I've 22 grams of scrap silver and the pewter pattern weighs 17 g. Enough to cast it?", "melt alloy sterling from pewter model 17 g", "No, not enough"},
		{"no wax, just a brass master that weighs 11.4 g, to be cast in sterling", "melt alloy sterling from brass model 11.4 g", ""},
		{"castable resin of density 1.12 g/cm³, the print weighs 1.90 g. How much sterling to melt?", "melt alloy sterling wax 1.90 g wax-density 1.12", ""},
		{"got 1.2m of 3mm square copper bar, how much does that weigh", "weigh alloy copper form square-wire length 1200 thickness 3 mm", ""},
		{"a disc of 22 mm diameter and 3 mm high in brass, the weight please, and the same in silver for comparison", "weigh alloy brass form disc size 22 mm thickness 3 mm", ""},
		{"marquise stone 10x5, brass sheet 0.6 mm for practice, then gold, cone 5.5 mm high, the blank please", "collet alloy brass height 5.5 mm outline marquise size 10x5 thickness 0.6 mm", ""},
		{"Six-claw out of a cone for a one carat brill, 18k white 1.0mm", "prongs alloy 18k-white carat 1 number 6 outline round thickness 1.0 mm", ""},
		{"pear 8x5, V claw on the point and 2 others, cut from one cone 1mm sheet. blank please", "prongs number 3 outline pear size 8x5 thickness 1 mm", ""},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Request, r.Outcome, c.say)
		assert.Equal(t, c.line, r.Line(), c.say)
		assert.Contains(t, r.Verdict, c.says, c.say)
	}
}

func TestSumsOfWhatThereIs(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ say, says string }{
		{"resin print, the software says 1.9cm3. silver weight?", "19.68 g"},
		{"scrap of 34.6 gram, rolled to 1mm and 20 wide, how long does it become?", "167 mm long"},
		{"a triangle of copper, 70 along the bottom and 55 high, 0.9 mm. Will it tip the scales over 15 g?", "More than your 15 g"},
		{"I put a bit of string round my turquoise, it came to 61 mm. Do I cut the bezel to that or add something? 0.35 fine silver", "Cut 62.1 mm"},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Explanation, r.Outcome, c.say)
		assert.Contains(t, r.Text, c.says, c.say)
	}
}

func TestNobodyIsHurtByAMouthThatIsUnder(t *testing.T) {
	t.Parallel()
	assert.NotEqual(t, FirstAid, Read("the mouth is 0.15 mm under, what should I alter", Context{Addressed: true}).Outcome)
	assert.Equal(t, FirstAid, Read("a sliver of wire went under my nail", Context{Addressed: true}).Outcome)
}
