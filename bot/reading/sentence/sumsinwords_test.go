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

// Parts of units, and what calipers in inches show.
func TestPartsOfInches(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ say, option, value string }{
		{"a plain chain with rings a quarter of an inch inside, from 1.2 mm wire, 18 inches long. How many rings", "inside", "0.25 in"},
		{"bezel for an oval agate 25 by 18 mm, 0.4 mm fine silver, the stone is about a quarter of an inch high", "dome", "0.25 in"},
		{"tapered setting, round peridot, 8 mm, 0.5 mm silver and about 5/16 of an inch tall", "height", "5/16 in"},
		{"I've an offcut of silver, three inches by an inch and a quarter and 0.9 mm thick. What would it weigh", "size", "3 x 1.25 in"},
		{"jump rings an eighth of an inch inside 20 gauge, 50 of them", "inside", "1/8 in"},
		{"Size 10 band, .250 wide, .065 thick. Strip length.", "width", "0.250 in"},
		{"how much sq wire for a size 9 1/2, its 10 gauge", "profile", "square"},
		{"ring out of 12g round, size P", "profile", "round"},
	} {
		r := Read(test.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, test.value, r.Options[test.option], "%s: %s", test.say, r.Line())
	}
}

// A figure that is said to be what a word measures changes that, wherever it stands.
func TestFiguresSaidToBe(t *testing.T) {
	t.Parallel()
	collar := Last{Request: "collar", Options: map[string]string{"outline": "round", "size": "6.0", "thickness": "0.60 mm"}}
	for say, want := range map[string]map[string]string{
		"Height after pressing should be 5.0 mm, block angle 17 degrees.": {"height": "5.0 mm", "size": "6.0"},
		"round block yeah, i think 17":                                    {"included": "17", "size": "6.0"},
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes, Last: &collar})
		for option, value := range want {
			assert.Equal(t, value, r.Options[option], "%s: %s", say, r.Line())
		}
	}
	band := Last{Request: "band", Options: map[string]string{"ring": "P", "system": "uk"}}
	r := Read("no sorry its P an a half", Context{Addressed: true, Takes: takes, Excludes: excludes, Last: &band})
	assert.Equal(t, "P 1/2", r.Options["ring"], r.Line())
	r = Read("D section 4 wide 1.6 high", Context{Addressed: true, Takes: takes, Excludes: excludes, Last: &band})
	assert.Equal(t, "P", r.Options["ring"], r.Line())
	assert.Equal(t, "half-round", r.Options["profile"], r.Line())
}

func TestNobodyIsHurt(t *testing.T) {
	t.Parallel()
	for _, say := range []string{
		"I've a pinky purple stain on my silver that comes back every time I polish. Is it spoiled?",
		"I have snapped the stone on the card with my phone. It is a hand-cut tourmaline. From what height should I snap it, and why does it matter?",
	} {
		_, hurt := FirstAidFor(say)
		assert.False(t, hurt, say)
	}
}
