package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// readAlone reads a message that stands by itself.
func readAlone(typed string) Reading {
	return Read(typed, Context{Addressed: true, Takes: takes, Excludes: excludes})
}

func TestOwnResultsAreCompared(t *testing.T) {
	for typed, line := range map[string]string{
		"10 mm round cab, 0.3 bezel, I make it 32.4 by the formula, is that about right?":                                            "bezel outline round size 10 mm thickness 0.3 mm",
		"Bezel for an 18x13 oval, 28 gauge. My sum came to 51.2 mm. Does that agree with yours?":                                     "bezel outline oval size 18x13 thickness 28ga",
		"I worked out 2.11 inches for the bezel strip of a 16mm round in 26ga, did I do that right":                                  "bezel outline round size 16 mm thickness 26ga",
		"for collet oval 9x7 height 5 sheet 0.8 I have computed an outer radius of 22.5 mm, please verify":                           "collet height 5 outline oval size 9x7 thickness 0.8 mm",
		"bezel 12 rd .3 strip. i got 39. close?":                                                                                     "bezel outline round size 12 thickness 0.3 mm",
		"According to my calculation the strip must be 63.5 mm for a bezel for an oval of 22 x 16 in 0,4. Correct?":                  "bezel outline oval size 22x16 thickness 0.4 mm",
		"half sphere of 14 mm outside, sheet 0,6, which is the disc? My biggest disc punch has 20":                                   "dome hemisphere size 14 mm thickness 0.6 mm",
		"Moonstone, 8.00 x 7.97, so call it round. Bezel wire 3.2 tall and 0.30 thick. I get 26.0 mm with no seam; what do you get?": "bezel gem moonstone outline round size 8 thickness 0.30 mm",
	} {
		r := readAlone(typed)
		assert.Equal(t, line, r.Line(), typed)
		assert.NotEmpty(t, r.Told, typed)
	}
	for typed, line := range map[string]string{
		"I got a 10mm round cab and 0.3 strip, what do I cut?":                  "bezel outline round size 10 mm thickness 0.3 mm",
		"I get 0.5 mm sheet cheap; collet for 6mm round?":                       "collet outline round size 6 mm thickness 0.5 mm",
		"The stone comes to 12.2 mm by my calipers, round cab, bezel in 0.3":    "bezel outline round size 12.2 mm thickness 0.3 mm",
		"round cab, I make it 12.5 mm across, 0.3 strip. Bezel length, please?": "bezel outline round size 12.5 mm thickness 0.3 mm",
		"my calipers make it 9 by 7, oval, 22 gauge, what collet do I cut?":     "collet outline oval size 9x7 thickness 22ga",
	} {
		r := readAlone(typed)
		assert.Equal(t, line, r.Line(), typed)
		assert.Empty(t, r.Told, typed)
	}
}

func TestOwnSumsAreNoMeasures(t *testing.T) {
	for typed, line := range map[string]string{
		"A band of size R is wanted, 8 mm wide and 2 mm thick. I have computed 59.5 plus 6.3, that is 65.8 mm. Is a wide band longer?": "band ring R system uk thickness 2 mm width 8 mm",
		"So pi times 11 is 34.56, and that's my strip for an 11 mm cab in 0.3 mm. Right or not?":                                       "bezel outline round size 11 mm thickness 0.3 mm",
		"Wax is 2.4 g, sterling. I reckon 25 g with the button. Am I close?":                                                           "melt alloy sterling wax 2.4 g",
		"Resize K to M, 2 mm thick band: 2.5 mm to add by my reckoning, yes?":                                                          "resize from uk K thickness 2 mm to uk M",
		"for dome 20 mm half sphere 0.7 copper i have found disc of 28 mm, please is it correct":                                       "dome alloy copper hemisphere size 20 mm thickness 0.7 mm",
		"oval cab 10 x 8, 0.3 strip... my answer was 29.2mm. why is the tutorial's longer":                                             "bezel outline oval size 10x8 thickness 0.3 mm",
	} {
		r := readAlone(typed)
		assert.Equal(t, line, r.Line(), typed)
		assert.NotEmpty(t, r.Told, typed)
	}
	for typed, line := range map[string]string{
		"I make it 4 mm wide and 1.5 thick, size N. How long?":                            "band ring N system uk thickness 1.5 mm width 4 mm",
		"My bangle works out at 62 mm inside with 4 mm round wire, what length do I cut?": "band bangle 62 mm profile round thickness 4 mm",
		"tutor reckons 0.5 mm sheet for a 6 mm round collet, is that right?":              "collet outline round size 6 mm thickness 0.5 mm",
		"I found a 12 mm round cab and 0.4 strip. What do I cut?":                         "bezel outline round size 12 mm thickness 0.4 mm",
	} {
		r := readAlone(typed)
		assert.Equal(t, line, r.Line(), typed)
		assert.Empty(t, r.Told, typed)
	}
	assert.Contains(t, readAlone("My father has 18 gm of fine silver and wishes to bring it to 925. How much copper should be added? By my sum it is 1.46 gm.").Text, "Yes, your 1.46 gm is right.")
	assert.Contains(t, readAlone("18 g of fine silver to sterling: how much copper? by my sum it is 1.35 g").Text, "No, I don't get your 1.35 g.")
}

func TestDiscsOfCutter(t *testing.T) {
	for typed, disc := range map[string]string{
		"My cutter does 10, 12, 14, 16 and 20 mm. Which for a 12mm half dome in 0.5?":                                                            "Take the 16 mm disc",
		"The punches I own are 6, 8, 10, 13, 16, 19 and 25. Hemisphere 10mm od, 0.6 sheet, which disc?":                                          "Take the 13 mm disc",
		"What's the nearest on my disc cutter (8, 11, 14, 17, 20 mm) for an 11 mm hemisphere in .5 mm?":                                          "Take the 17 mm disc",
		"Hollow ball 14mm from 24ga, I only have disc cutters 5/8 3/4 7/8 1\"":                                                                   "Take the 19.05 mm disc",
		"I want domes 1/2 inch across by 3/16 deep, my disc cutter goes 1/4, 3/8, 1/2, 5/8, 3/4. Which do I use?":                                "Take the 15.88 mm disc",
		"I'm making domed earrings, 3/4 inch across when done and 1/8 deep. My disc cutter does 5/8, 3/4, 7/8 and 1 inch. Which one do I punch?": "Take the",
	} {
		assert.True(t, strings.HasPrefix(readAlone(typed).Verdict, disc), "%s: %s", typed, readAlone(typed).Verdict)
	}
}

func TestNumbersOfClawsWithoutTheirNoun(t *testing.T) {
	for typed, says := range map[string]string{
		"hi how many prongs for a 4mm cz lol is 3 ok":                                                          "3 prongs hold the round stone of 4 mm",
		"how many prongs should a teardrop shaped stone have? mine is 9 by 6. i was thinking 3, is that silly": "3 prongs are too few",
		"Would 4 claws do for a 14x10 oval or should I have 6":                                                 "6 prongs are usual",
		"Do you think 8 prongs is too many for a 10 mm round? Or go with 6?":                                   "6 prongs are usual",
	} {
		assert.Contains(t, readAlone(typed).Text, says, typed)
	}
	for typed, line := range map[string]string{
		"how many claws for a 10mm round? I thought 4":       "prongs number 4 outline round size 10 mm",
		"6 claws for a 7 mm round, 5 mm tall or would 6 do?": "prongs height 5 mm number 6 outline round size 7 mm",
		"claw setting 7mm round, 4 claws, 0.9 sterling":      "prongs alloy sterling number 4 outline round size 7 mm thickness 0.9 mm",
	} {
		assert.Equal(t, line, readAlone(typed).Line(), typed)
	}
}

func TestMeasuresOfOtherNames(t *testing.T) {
	for typed, line := range map[string]string{
		"half dome 12 mm on the outside, 0.7 copper, which disc?":                                           "dome alloy copper hemisphere size 12 mm thickness 0.7 mm",
		"What disc for a hemisphere of 15 mm exterior diameter in 0.6 sheet?":                               "dome hemisphere size 15 mm thickness 0.6 mm",
		"how heavy is 6 inches of 4mm half round sterling":                                                  "weigh alloy sterling form half-round length 6 in size 4x2",
		"weight of 20 cm half round 5 x 2 mm silver wire":                                                   "weigh alloy sterling form half-round length 20 cm size 5x2",
		"bezel for 16 mm round cab in 0.3 fine, back plate flush with the bezel, no rim":                    "bezel alloy fine-silver outline round plate solid platerim 0 size 16 mm thickness 0.3 mm",
		"12x10 oval cab, 28ga bezel wire and 24ga back plate, no border please":                             "bezel outline oval plate solid platerim 0 platethick 24ga size 12x10 thickness 28ga",
		"Round garnet 6.05 x 6.02, collet 5 high in 0.7":                                                    "collet gem garnet height 5 outline round size 6.05 thickness 0.7 mm",
		"class of 6 making hollow beads 5/8 across, 24ga. how much sheet":                                   "kit makers 6 dome hemisphere size 5/8 in thickness 24ga",
		"can i do the four claws one where you cut the Vs out. stones eight by six oval metals point eight": "prongs number 4 outline oval size 8x6 thickness 0.8 mm",
	} {
		assert.Equal(t, line, readAlone(typed).Line(), typed)
	}
	assert.Contains(t, readAlone("sterling disc 25 mm with a 5 mm hole, 1 mm thick, weight?").Text, "weighs 4.88 g")
}
