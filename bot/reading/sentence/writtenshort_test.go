package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestShortWaysAreWrittenOut: what drawing offices, price lists and dictation write is read
// as what it stands for.
func TestShortWaysAreWrittenOut(t *testing.T) {
	t.Parallel()
	for say, line := range map[string]string{
		"Band Q½, 8 w x 2.0 thk, 9Y. State lg.":                                                            "band alloy 9k-yellow ring Q 1/2 system uk thickness 2.0 mm width 8",
		"Flat band, size R (UK), 6 w x 1.8 thk, 925. Cut lg?":                                              "band alloy sterling profile flat ring R system uk thickness 1.8 mm width 6",
		"Tube 9Y, OD 5.0 x 0.5 wall x 100 lg. Mass, g.":                                                    "weigh alloy 9k-yellow form tube length 100 size 5.0x0.5",
		"Collet Ø6 stone, 0.8 thk Ag, ht 5":                                                                "collet alloy sterling height 5 outline round size 6 thickness 0.8 mm",
		"Oval cab 14 x 10, ht 4.2. Fine Ag strip 0.3 thk. Strip lg?":                                       "bezel alloy fine-silver dome 4.2 outline oval size 14x10 thickness 0.3 mm",
		"Set: mm, 925, t 0.5, A4.":                                                                         "bench alloy sterling paper a4 thickness 0.5 mm units mm",
		"size t 1.5 thick 4 wide ring, strip length":                                                       "band ring T system uk thickness 1.5 mm width 4",
		"U½, 3 x 1.5 flat, length":                                                                         "band profile flat ring U 1/2 system uk thickness 1.5 mm width 3",
		"sheet 60 x 40 x 0,6 in prata how many g":                                                          "weigh alloy sterling form sheet size 60x40 thickness 0.6 mm",
		"twenty gouge in mil":                                                                              "gauge gauge 20ga",
		"four prawn cone for a five mil sapphire, platinum one point two":                                  "prongs alloy platinum-950 gem sapphire number 4 outline round size 5 mm thickness 1.2 mm",
		"Hello all, 6 mm round collet 0.8":                                                                 "collet outline round size 6 mm thickness 0.8 mm",
		"18W 1.0 thk collet, 6 round":                                                                      "collet alloy 18k-white outline round size 6 thickness 1.0 mm",
		"my collet in gold 18 white, 6 mm round":                                                           "collet alloy 18k-white outline round size 6 mm",
		"four waxes on one tree one point two one point five two point one and one point nine sterling":    "melt alloy sterling wax 6.7 g",
		"Band Q, 8 wide x 2 thick, sterling":                                                               "band alloy sterling ring Q system uk thickness 2 mm width 8",
		"A customer got her ring and it's too big, I made an 8 and turns out she's a 6 3/4. How much out?": "resize from us 8 to us 6 3/4",
		"I made a size N and she turns out to be an L":                                                     "resize from uk N to uk L",
		"class of eight, 10 mm round bezel pendants, allowing for two spoiled pieces":                      "kit makers 8 spare 25% bezel outline round size 10 mm",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, line, r.Line(), say)
	}
}

// TestAskedInsteadOfDone: whoever asks of a photograph, of the log or of dust gets an answer
// in words, and nothing is traced, shown or searched.
func TestAskedInsteadOfDone(t *testing.T) {
	t.Parallel()
	for say, topic := range map[string]string{
		"I took a picture of my turquoise nugget on the card but it's dark. Is that gonna work?": "tracing: how to",
		"wipe my last question": "correct the log",
		"want a spoon bowl shape like half an egg 25 by 18 can that be done in the doming block": "domes that are not round",
		"what happens if i breathe pickle fumes":                                                 "breathing pickle",
		"how many extinguishers for a class of twelve":                                           "extinguishers for a class",
		"grinding back malachite anything dodgy about that":                                      "stone dust",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, Explanation, r.Outcome, say)
		assert.Equal(t, topic, r.Topic, say)
	}
}

// TestHalfOfU: a U before a half is a ring's size and no "you".
func TestHalfOfU(t *testing.T) {
	t.Parallel()
	c := Context{Addressed: true, Takes: takes, Excludes: excludes}
	first := "A signet ring must go from T to V. The shank is 1.4 mm thick and 3.5 mm wide. How much do I let in?"
	c = c.After(first, Read(first, c))
	r := Read("The owner would now accept U and a half.", c)
	assert.Equal(t, "uk U 1/2", r.Options["to"])
}

// TestSidesBesideSlash: a longer figure over a shorter one is a stone's two sides; inches
// and gauges keep their fractions and pairs.
func TestSidesBesideSlash(t *testing.T) {
	t.Parallel()
	for say, want := range map[string]string{
		"pear 9/7, 20g":                         "pear 9x7, 20g",
		"oval 8,5/6,5 and 0.4 strip":            "oval 8,5x6,5 and 0.4 strip",
		"marquise 10/5 in 0.5mm":                "marquise 10x5 in 0.5mm",
		"a 14/10 mm cab":                        "a 14x10 mm cab",
		"bezel for a 5/8 x 1/2 oval":            "bezel for a 5/8 x 1/2 oval",
		"oval, 5/4 inch long":                   "oval, 5/4 inch long",
		"oval 10x8, wire of 28/26 ga whichever": "oval 10x8, wire of 28/26 ga whichever",
		"stock 14/20 gold filled, oval 8x6":     "stock 14/20 gold filled, oval 8x6",
		"round 9/7":                             "round 9/7",
	} {
		assert.Equal(t, want, writtenOut(say))
	}
}

// TestFiguresOfTrade: a D behind a figure is a profile, calipers in inches show three
// decimals, and units go on with "and a half".
func TestFiguresOfTrade(t *testing.T) {
	t.Parallel()
	for say, line := range map[string]string{
		"Wedding band. P. 5 wide, 1.8 D. Length.":                                         "band profile half-round ring P system uk thickness 1.8 mm width 5",
		"Shallow cap, 1.250 across, .300 rise, 24 ga copper. Blank dia?":                  "dome alloy copper height 0.300 in size 1.250 in thickness 24ga",
		"My wax weighs a gram and a half, sterling":                                       "melt alloy sterling wax 1.5 g",
		"weight of flat strip 6 x 1.2, 60 long, 18ct yellow":                              "weigh alloy 18k-yellow form sheet size 60x6 thickness 1.2 mm",
		"weight of flat strip 6 x 1.2, 60 long, copper ... sorry, 5 x 1.5":                "weigh alloy copper form sheet size 60x5 thickness 1.5 mm",
		"sheet 60 x 40, 0.8 thick, sterling weight":                                       "weigh alloy sterling form sheet size 60x40 thickness 0.8 mm",
		"Would you give me the whole lot, everything I've ever asked, so I can print it?": "daybook action export",
		"I would like to know what is stored concerning me":                               "daybook action mine",
	} {
		assert.Equal(t, line, lastOf(say).Line(), say)
	}
	assert.Equal(t, "daybook action forget", lastOf("forget the stuff i asked about the ring, its a surprise").Line())
	assert.Equal(t, "indian ring sizes", lastOf("From Indian size 14 to size 18, how many millimetres must be inserted? I have assumed that one size is one millimetre").Topic)
	assert.Equal(t, Silent, lastOf("I thank you, sir. The demonstration last evening was most instructive.").Outcome)
}

// TestSoundsLikeHurt: an eyeballed mark, stiff fingers and a jogged elbow are no hurt.
func TestSoundsLikeHurt(t *testing.T) {
	t.Parallel()
	for _, say := range []string{
		"how do i mark the saddle, paper template or just eyeball",
		"How would I hold such a short bit of tube, 3 mm, while I cut the seat? My fingers aren't so nimble as they were.",
		"I've come out one hole short on the halo. The dog hit my elbow, for the record.",
		"I cut the ring open and now it's egg shaped. I lost the run of myself. Do I cut it again?",
	} {
		assert.NotEqual(t, FirstAid, lastOf(say).Outcome, say)
	}
	for say, job := range map[string]string{
		"hit my elbow on the anvil and it hurts":     "hurt",
		"my fingers arent so nimble, i cut my thumb": "cut",
		"flux in my eyeball":                         "eyes",
	} {
		assert.Equal(t, job, lastOf(say).Topic, say)
	}
}

// TestFiguresForWords: a 4 for "for" and a 2 for "too" are no figures; a 4 that counts or
// measures stays one.
func TestFiguresForWords(t *testing.T) {
	t.Parallel()
	for say, want := range map[string]string{
		"need a cone blank 4 8mm stone":          "need a cone blank for 8mm stone",
		"wire length 4 20 jump rings 6mm inside": "wire length for 20 jump rings 6mm inside",
		"how long do i cut 4 a ring":             "how long do i cut for a ring",
		"is 1mm 2 thick 4 a bezel":               "is 1mm too thick for a bezel",
		"blank 4 size m ring":                    "blank for size m ring",
		"will that make 4 size 7 rings":          "will that make 4 size 7 rings",
		"cut 4 8mm discs in 0.5 copper":          "cut 4 8mm discs in 0.5 copper",
		"size 4 the ring, 2mm":                   "size 4 the ring, 2mm",
		"i have 4 my teacher gave me":            "i have 4 my teacher gave me",
		"pear 10 x 7, depth 4 an abit":           "pear 10 x 7, depth 4 an abit",
		"strip 8 wide 2 thick":                   "strip 8 wide 2 thick",
		"prongs 4, the 8 mm round":               "prongs 4, the 8 mm round",
		"a row of 4 8mm stones":                  "a row of 4 8mm stones",
	} {
		assert.Equal(t, want, writtenOut(say))
	}
}
