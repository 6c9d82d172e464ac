package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestMeasuredPiece(t *testing.T) {
	for say, wanted := range map[string]string{
		"how long should the bezel strip be for a 25x18 oval":            "bezel",
		"how long should the bezel be for a 10mm round":                  "bezel",
		"how deep should the collet be for a 7mm stone":                  "collet",
		"how wide should the back plate be for a 10mm round bezel":       "bezel",
		"how long should i leave a 25x18 oval bezel in pickle":           "",
		"how far should the bezel be above a 10mm cab":                   "",
		"how long should a bezel be for a round cab":                     "",
		"how big should the hole be in the back of a 10mm round bezel":   "",
		"how long does it take to solder a bezel for a 10mm round stone": "",
	} {
		got := Read(say, Context{})
		if wanted == "" {
			assert.NotEqual(t, Request, got.Outcome, say)
			continue
		}
		assert.Equal(t, Request, got.Outcome, say)
		assert.Equal(t, wanted, got.Request, say)
	}
}

func TestMetalJudgedForAPiece(t *testing.T) {
	for say, topic := range map[string]string{
		"is 24 gauge thick enough for a 6mm collet": "limit: collet wall",
		"is 22ga thick enough for a 7 mm collet":    "limit: collet wall",
		"is 22 ga thicker than 0.5 mm for a bezel":  "gauges",
	} {
		assert.Equal(t, topic, Read(say, Context{}).Topic, say)
	}
}

func TestStonesInSettingsHaveNoInches(t *testing.T) {
	for say, size := range map[string]string{
		"two oval stones 6x4 in bezels, 28ga":  "6x4",
		"oval 7x5 in prongs, 0.9 silver":       "7x5",
		"oval bezel, stone 0.5 x 0.4 in, 28ga": "0.5 x 0.4 in",
	} {
		assert.Equal(t, size, Read(say, Context{}).Options["size"], say)
	}
}

func TestAgeOfAChildIsNoMeasure(t *testing.T) {
	got := Read("copper dome 20 wide 5 high for my niece, she's 9", Context{})
	assert.Equal(t, "dome alloy copper height 5 size 20", got.Line())
	got = Read("a band for my daughter, 4x1.5 sterling, she's a 9", Context{})
	assert.Contains(t, got.Ask, "9") // a ring size, perhaps
}
