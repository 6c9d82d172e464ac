package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What a length does to a ring, and what ring a strip makes, is worked out from the figures.
func TestSizeAfterCutAndOfStrip(t *testing.T) {
	for say, want := range map[string]string{
		"The strip I cut out of the shank measured 3.8 mm, and the ring had been a T. What size is it now?":                        "UK Q or",
		"put a 4mm piece in, it was a J before, what is it now":                                                                    "UK M or",
		"I removed .100 inch from a size 10, what am I left with":                                                                  "US 9,",
		"P, took out 5mm. what size is that":                                                                                       "UK L or",
		"let 3 mm into an N, which letter have I got now":                                                                          "UK P 1/2",
		"a 54 with 3 mm added becomes what":                                                                                        "ISO 57",
		"Have 2.310 of .060 strip. What size comes out.":                                                                           "US 6 3/4,",
		"I rolled a strip to 2.480 long by .075. Butt joint. What US size falls out of that? I get 9 and a hair.":                  "US 8,",
		"I've 2.55 inches of .080 square wire. ring size?":                                                                         "US 8 1/2,",
		"strip's 57.5 and 1.8 thick, closes up to what?":                                                                           "UK L 1/2",
		"I have inserted 4 mm but the ring was only to become from 50 to 53. Now it is too large. How much must I again take out?": "1 mm too much",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, r.Verdict, want, say)
	}
	for say, want := range map[string]string{
		"If 2.5 mm is inserted in a ring of inside diameter 17.0 mm, what will be the new inside diameter?": "to 17.8 mm",
		"sawed 2 mm out of my 18.0 mm ID ring, whats the ID after soldering":                                "to 17.36 mm",
	} {
		assert.Contains(t, Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes}).Text, want, say)
	}
	for _, say := range []string{"bangle blank 60 mm inside diameter, 8 mm wide 1.5 mm thick sterling", "Bangle, 67 inside diameter, 3mm round wire. Cut length?"} {
		assert.NotEmpty(t, Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes}).Options["bangle"], say)
	}
}

// A base of a known width on a known ring is hollowed by the rise of a chord.
func TestDepthOfBaseOnRing(t *testing.T) {
	for say, want := range map[string]string{
		"Tube 6 od on ring 20 od, base cut. Depth at sides?":                                                "0.46 mm deep",
		"setting foot is 4 mm across, ring J, 1.3 thick. how much do I lose off the height":                 "0.22 mm deep",
		"bezel cup 10 wide sits on a size N ring, 1.5 thick, how deep a hollow":                             "1.33 mm deep",
		"ring outside is .866, base .275. depth of cut at the sides?":                                       "0.57 mm deep",
		"square base 5x5 on a size 8, 2 mm round shank. what's the geometry there":                          "hollowed 0.29 mm",
		"oval base 8x6 along the finger, ring Q 1.8 thick, how deep":                                        "0.42 mm with its length along",
		"My setting is oval, 8 x 6 at the bottom, and I want it going across the finger. ring P, 1.8 thick": "0.77 mm with its length across",
		"The notch as cut is 0.75 deep on a 5.50 tube. What ring outside diameter would that fit?":          "10.83 mm in outside diameter",
		"sizes L, N and Q, shanks 1.6 thick, 7 mm bezel cup on each: how deep is the saddle":                "L: 0.65 mm, N: 0.62 mm, Q: 0.59 mm",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Explanation, r.Outcome, say)
		assert.Contains(t, r.Text, want, say)
	}
}

// A length that somebody worked out is compared with the one that the ring takes, and
// several rings of one size are added up.
func TestLengthsComparedAndAddedUp(t *testing.T) {
	for say, want := range map[string]string{
		"Finger's 55.5 round, 1.6 stock, I make it 60.5. right?":                    "Yes: I get 60.53 mm too",
		"I get 64.2 for a size R in 1.6 flat, do you agree":                         "No: I get 63.78 mm",
		"size 10, 2.2 thick, i got 69.0, agree?":                                    "Yes: I get 68.99 mm",
		"Stackers, five of em, size 7, 14 gauge round wire. How much wire all told": "5 blanks take 300.2 mm",
		"six stacking rings size 8, 1.5 mm round wire, how much wire in all":        "6 blanks take 373.1 mm",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, "band", r.Request, say)
		assert.Contains(t, r.Verdict, want, say)
	}
	for say, want := range map[string]string{
		"pinky ring size 4 an a half wire 2mm how much i cut": "4 1/2",
		"size 6 n a quarter, 14ga round wire, length":         "6 1/4",
	} {
		assert.Equal(t, want, Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes}).Options["ring"], say)
	}
}

// What a tube's bore or its outside alone tells of a stone in it needs no question back.
func TestTubeHalfTold(t *testing.T) {
	for _, c := range []struct{ say, size, count, tube, verdict string }{
		{"burr size for a 2.25 brill in 3.0 tube", "2.25", "", "", ""},
		{"seat burr for 3.2 stone in 4.2 tube - 3.2 or 3.1 burr?", "3.2", "", "", ""},
		{"the stone falls thru the tube lol. 3mm stone 3.2 inside. other tube?? or can i squash it", "3 mm", "", "", "falls through"},
		{"tube's ID is 2.9, stone's 3.0. is 0.05 per side enough of a ledge", "3.0", "", "", "not enough"},
		{"bought 4 mm tubing for 4mm stones, does that work", "4 mm", "", "", "about 3.5 mm"},
		{"How much wall must remain outside of the seat, when the tube is 4,0/3,0 and the stone is 3,3?", "3.3", "", "4x0.5", "0.35 mm beside it"},
		{"12 pairs of studs, 2.5 mm garnets in tube, how much tube altogether", "2.5 mm", "24", "", ""},
		{"2mm dias x7 in chenier, 18ct yg, what OD and wall", "2 mm", "7", "", ""},
	} {
		r := Read(c.say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Request, r.Outcome, c.say)
		assert.Equal(t, [4]string{"tubeset", c.size, c.count, c.tube}, [4]string{r.Request, r.Options["size"], r.Options["count"], r.Options["tubesize"]}, c.say)
		assert.Contains(t, r.Verdict, c.verdict, c.say)
	}
}
