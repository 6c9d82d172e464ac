package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// After its weight a collet is changed again, and not the weight kept.
func TestChangesAfterAWeight(t *testing.T) {
	for say, line := range map[string]string{
		"make it 7mm":            "collet alloy copper height 5 outline round size 7 mm thickness 0.6 mm",
		"and with 0.8":           "collet alloy copper height 5 outline round size 6 thickness 0.8 mm",
		"change it to 4 mm tall": "collet alloy copper height 4 mm outline round size 6 thickness 0.6 mm",
	} {
		c := Context{Addressed: true, Takes: takes, Excludes: excludes}
		for _, before := range []string{"collet round 6 0.6 sterling", "5 tall", "what does it weigh", "and in copper"} {
			c = c.After(before, Read(before, c))
		}
		assert.Equal(t, line, Read(say, c).Line(), say)
	}
}

// "35 g" is a gauge beside a sheet and grams beside a casting.
func TestGramsAtHand(t *testing.T) {
	c := Context{Addressed: true, Takes: takes, Excludes: excludes}
	wax := "wax weighs 2.4g, sterling"
	c = c.After(wax, Read(wax, c))
	for say, verdict := range map[string]string{
		"i got 35 g, is that enough":       "Yes:",
		"I have 22g of scrap will that do": "No, not enough:",
		"got 28.5 grams enough?":           "Hardly:",
	} {
		r := Read(say, c)
		assert.Equal(t, "melt", r.Request, say)
		assert.Contains(t, r.Verdict, verdict, say)
	}
}
