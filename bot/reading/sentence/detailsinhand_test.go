package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestDetailsInHand: what is added to a piece by its own words changes that piece alone.
func TestDetailsInHand(t *testing.T) {
	t.Parallel()
	for talk, want := range map[string]string{
		"jump rings 18ga 4mm id ... how many for a 7 inch bracelet":                  "jumpring chain 7 in inside 4 mm wire 18ga",
		"oval cab 14x10, 5 high, 26ga bezel ... backplate? ... 1mm bigger all round": "bezel dome 5 outline oval plate solid platerim 1 mm size 14x10 thickness 26ga",
		"size N ring 6 x 2 sterling ... came out a bit small":                        "trouble sign strip-too-short",
		"size 7 band 2 mm thick ... and a half?":                                     "band ring 7 1/2 system us thickness 2 mm",
		"prongs 12x10 cushion 4 claws 0.9 ... would 6 be better?":                    "prongs number 6 outline cushion size 12x10 thickness 0.9 mm",
		"10 students, 10x8 bezels ... 28 gauge":                                      "kit makers 10 bezel outline oval size 10x8 thickness 28ga",
		"8 makers, 12 mm round bezel 26ga ... copper instead ... 4 mm dome":          "kit makers 8 bezel alloy copper dome 4 mm outline round size 12 mm thickness 26ga",
		"class of 5 collet 8x6 oval 22ga sterling ... make it 6":                     "kit makers 6 collet alloy sterling outline oval size 8x6 thickness 22ga",
		"12 makers, 10x8 oval bezel 26ga ... whats it weigh in total":                "kit makers 12 bezel outline oval size 10x8 thickness 26ga",
		"anneal copper":                "heat alloy copper",
		"anneal copper ... and brass?": "heat alloy brass",
	} {
		r := lastOf(talk)
		assert.Equal(t, Request, r.Outcome, talk)
		assert.Equal(t, want, r.Line(), talk)
	}
}

// TestAfterKept: the log and the defaults are gone on from, and a new piece begins anew.
func TestAfterKept(t *testing.T) {
	t.Parallel()
	for talk, want := range map[string]string{
		"my usual metal is sterling ... and 0.8 mm":           "bench thickness 0.8 mm",
		"set the bench to copper ... and 22 gauge":            "bench thickness 22ga",
		"show me this week ... just the bezels":               "daybook from 7d request bezel",
		"show me this week ... just the bezels ... export it": "daybook action export from 7d request bezel",
		"my usual metal is sterling ... bezel 10x8 oval 26ga": "bezel outline oval size 10x8 thickness 26ga",
		"show my log ... collet 8 mm round 22ga":              "collet outline round size 8 mm thickness 22ga",
	} {
		r := lastOf(talk)
		assert.Equal(t, Request, r.Outcome, talk)
		assert.Equal(t, want, r.Line(), talk)
	}
}

// TestFootOfSetting: the measure of a setting's foot is no stone's and no shank's.
func TestFootOfSetting(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "saddle basesize 5x4 outline oval shank uk N shankthick 2mm size 8x6", lastOf("saddle for an oval 8x6 collet, foot 5x4, size N shank 2mm").Line())
	r := lastOf("saddle for a collet 6 mm at the base on a size 9 us ring")
	assert.Equal(t, Question, r.Outcome)
	assert.Equal(t, "6 mm", r.Options["basesize"])
}
