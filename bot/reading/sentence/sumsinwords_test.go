package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What no request works out of a ring or of its parts is told in words, with the figures.
func TestRingsWorkedOutInWords(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		say, topic string
		holds      []string
	}{
		// Ellipse of half axes 3.5 and 2.5: 18.98.
		{"oval jump rings, 6x4 inside, 50 off, 1.0", "oval jump rings", []string{"18.98 mm", "50 take"}},
		{"anchor chain of 45 cm, oval links 5 x 3 mm inside, wire 1,0. How many links, and the weight in silver?", "oval jump rings", []string{"90 of them", "11.6 g"}},
		// pi / asin(1.1 / (2 x 3.1)) = 17.6, then pi / asin(1.6 / (2 x 4.45)) = 17.4.
		{"Double halo, 5mm centre, 1.0 and 1.5s", "double halo", []string{"17 stones of 1 mm", "17 stones of 1.5 mm", "11.2 x 11.2 mm"}},
		{"double halo round a 7x5 oval in 1.2", "double halo", []string{"one off at the tips", "halo oval 9.6x7.6 with 1.2"}},
		// pi x (17.83 + 2.4)
		{"Twisted wire band of two 1,2 mm round, size 56. How long is the twist?", "twisted ring", []string{"63.54 mm"}},
		{"cuff bracelet w a gap like 3cm, wrist 16 cm, 1.5 thick copper", "open cuff", []string{"135 mm"}},
		// 11.05 - sqrt(11.05^2 - 2.6^2)
		{"The lower rim of the collet is 5.2 mm outside; the shank is 18.5 mm inside diameter and 1.8 mm thick. How deep must the saddle be filed?", "depth of a saddle", []string{"0.31 mm deep", "22.1 mm outside"}},
	} {
		r := Read(test.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, test.topic, r.Topic, test.say)
		for _, held := range test.holds {
			assert.Contains(t, r.Text, held, test.say)
		}
	}
}

func TestHalvesOfUnits(t *testing.T) {
	t.Parallel()
	for say, length := range map[string]string{
		"weigh an inch and a half of 12 gauge sterling wire":               "1.5 in",
		"Foot and a half of 12 gauge round sterling wire, what weight":     "457.2",
		"how heavy is two feet and a half of 12 gauge sterling wire":       "762",
		"a yard of 16 gauge copper wire, weight?":                          "914.4",
		"tube outside 5 inside 4 long 120 mm, 925. how much does it weigh": "120 mm",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, length, r.Options["length"], "%s: %s", say, r.Line())
	}
}

func TestSizeOfStripInInches(t *testing.T) {
	t.Parallel()
	for say, verdict := range map[string]string{
		"If I've a strip 2 3/8 long and 1/16 thick, what size ring does that make?":                                     "17.61 mm inside",
		"the strip is already cut at two and a quarter inches and it's eighteen gauge what size ring am I going to get": "17.17 mm inside",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, r.Verdict, verdict, say)
	}
	r := Read("my finger's 2 and 3/4 around with a string. 16 gauge. cut me a length", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Equal(t, "iso", r.Options["system"], r.Line())
	assert.Contains(t, r.Options["ring"], "69.8", r.Line())
}

func TestSumsOnSheetAndGauges(t *testing.T) {
	t.Parallel()
	for say, holds := range map[string]string{
		// 12 g / 10.36 g/cm³ / (20 mm x 0.8 mm)
		"I have 12.0 g of sterling. If I roll it to 0.8 mm sheet 20 mm wide, how long a piece shall I have?": "72 mm long",
		"I've 30g of fine silver to roll out to 0.3, 40 wide. How long a piece would that be?":               "238 mm long",
		"is 18 or 22 gauge thicker": "18 ga (1.02 mm) is thicker",
		"Is 0.8 closer to 20 or 21 gauge? And is copper sheet the same gauge numbers as silver?": "nearest to 0.8 mm is 20",
		"is 20 gauge thicker or thinner than 26":                                                 "20 ga (0.81 mm) is thicker",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, r.Text, holds, "%s: %s %s", say, r.Line(), r.Topic)
	}
}
