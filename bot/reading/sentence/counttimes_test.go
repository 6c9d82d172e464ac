package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAnXThatCounts(t *testing.T) {
	for say, line := range map[string]string{
		"10 x 2mm stones in tubes, total length of tube": "tubeset count 10 outline round size 2 mm",
		"6 x 3mm rounds in tube":                         "tubeset count 6 outline round size 3 mm",
		"12 x 5mm jump rings 1mm wire":                   "jumpring count 12 inside 5 mm wire 1mm",
		"5 x 8mm round bezels 28ga":                      "bezel count 5 outline round size 8 mm thickness 28ga",
		"oval 10 x 8 cab bezel":                          "bezel outline oval size 10x8",
		"10 x 3 mm stones marquise prongs":               "prongs outline marquise size 10x3",
	} {
		got := Read(say, Context{})
		assert.Equal(t, line, got.Line(), say)
	}
}

func TestSizesInARow(t *testing.T) {
	for say, told := range map[string]string{
		"stacking rings sizes 6 7 and 8, 1.5mm round wire": "6: 56.6 mm, 7: 59.1 mm, 8: 61.7 mm",
		"need blanks for sizes 5 6 and 7, 3x1.2 flat":      "5: 53.1 mm, 6: 55.6 mm, 7: 58.2 mm",
	} {
		got := Read(say, Context{})
		assert.Contains(t, got.Text+got.Ask, told, say)
	}
	for say, width := range map[string]string{"size 7 6 wide 1.5 thick band": "6", "band size 9 8 wide and 2 thick": "8"} {
		assert.Equal(t, width, Read(say, Context{}).Options["width"], say)
	}
}

func TestSizeInAnotherSystemIsNotDoubted(t *testing.T) {
	for _, say := range []string{"uk N to US?", "us 8.5 = uk?", "size 7 us in uk?"} {
		got := Read(say, Context{})
		assert.Equal(t, Request, got.Outcome, say)
		assert.Equal(t, "band", got.Request, say)
	}
}
