package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is told of rings in few words is read with every figure in its place, and with no
// piece that was not meant.
func TestRingsOfOneClass(t *testing.T) {
	t.Parallel()
	for said, line := range map[string]string{
		"size 6 to 7, band without stones, 2mm thick":                                "resize from us 6 thickness 2 mm to us 7",
		"signet, no stone, T to R, 2 thick":                                          "resize from uk T thickness 2 mm to uk R",
		"stone-free band from 8 to 9, 1.6 mm":                                        "resize from us 8 thickness 1.6 mm to us 9",
		"cust wants K 1/2 -> N, 18w pave shoulders. cut or leave it alone":           "resize alloy 18k-white from uk K 1/2 stones to uk N",
		"t down to p plain silver 2mm thick how much do i chop":                      "resize alloy sterling from uk T thickness 2 mm to uk P",
		"q -> s, 2mm thick 18ct yellow, gap?":                                        "resize alloy 18k-yellow from uk Q thickness 2 mm to uk S",
		"eu 54 into strip, 2mm sq":                                                   "band profile square ring 54 system iso thickness 2 mm",
		"L, 1.2 x 3 flat, 9ct. len pls":                                              "band alloy 9k-yellow profile flat ring L system uk thickness 1.2 mm width 3",
		"Q 3mm square section":                                                       "band profile square ring Q system uk thickness 3 mm",
		"wrapping 1.2mm wire round a US 8 knitting needle, what size rings do i get": "jumpring mandrel 5 wire 1.2mm",
		"i wind my coils on a no. 9 needle uk size, 1mm wire, how much wire for 40":  "jumpring count 40 mandrel 3.75 wire 1mm",
		"curb chain 20in 1.2 wire 4mm inside, ring count":                            "jumpring chain 20 in inside 4 mm wire 1.2 mm",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, line, r.Line(), said)
		assert.Equal(t, Request, r.Outcome, said)
	}
}

// Sums are reckoned by hand; a weave's rings are not those of a plain chain.
func TestSumsOfRingsOfOneClass(t *testing.T) {
	t.Parallel()
	for said, holds := range map[string]string{
		"how many rings for a byzantine bracelet 8 inches 16g 5mm id":                                             "rings for a plain chain only",
		"foxtail chain 50 cm long, 0.8 wire on a 4 mm mandrel, amount of wire?":                                   "aspect ratio of 5.0",
		"My 4mm mandrel gives 4.2mm rings in 18g. I need 4.5mm rings, what size should I wind on":                 "about 4.29 mm",
		"5mm dowel, coils relax to 5.25. which mandrel gets me 5.0":                                               "about 4.76 mm",
		"rings off an 8mm mandrel measure 8.15, wire 2mm soft. mandrel for 10mm inside?":                          "about 9.82 mm",
		"I require 24 lengths of tubing, each 3.2 mm finished, blade kerf 0.010 in., plus facing. How much tube?": "87.7 mm as sawn",
		"how many 3 mm pieces can I cut from 100 mm of tube":                                                      "About 28 pieces",
		"collet 5.5 btm od, shank 2.5 rd, sz N. curve to file?":                                                   "0.35 mm deep",
		"The base of my setting measures 7 mm across, on a size 8 ring 1.6 mm thick. depth?":                      "0.59 mm deep",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, r.Text, holds, said)
	}
	needle := Read("knitting needle size 10 and 14 gauge copper, how long wire for 30 rings", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Equal(t, "mandrel", needle.Missing)
	assert.Equal(t, "30", needle.Options["count"])
	belcher := Read("belcher chain 20 inch 1.5mm wire how heavy", Context{Addressed: true, Takes: takes, Excludes: excludes})
	assert.Equal(t, "inside", belcher.Missing)
}

// Two sizes are the old and the new one by what is said of each, and one of three is settled
// on.
func TestSizesThatCameOutOther(t *testing.T) {
	t.Parallel()
	for said, line := range map[string]string{
		"was meant to be P, came out N. how much to stretch, 1.8mm thick":       "resize from uk N thickness 1.8 mm to uk P",
		"cut for N, finished at O 1/2. how much comes out":                      "resize from uk O 1/2 to uk N",
		"supposed to be a 9, measures 8.5 on the mandrel. 14ga":                 "resize from us 8.5 thickness 14ga to us 9",
		"made my ring for a 7 and it's a 6 1/4":                                 "resize from us 6 1/4 to us 7",
		"turned out an R should have been a Q, 2mm":                             "resize from uk R to uk Q width 2 mm",
		"band 1.3 thick, cust is between O and P wants O half. 4mm court":       "band profile court ring O 1/2 system uk thickness 1.3 mm width 4 mm",
		"she's between a 6 and a 7 so make it 6 1/2. 1.5mm thick, 3 wide":       "band ring 6 1/2 system us thickness 1.5 mm width 3",
		"is it ok to stretch a 2 mm thick silver D ring from P to Q and half?":  "resize alloy sterling from uk P thickness 2 mm to uk Q 1/2",
		"making ring for husband 63mm inner circumference. 2mm thick 8mm wide":  "band ring 63 system iso thickness 2 mm width 8 mm",
		"bangle 195 mm inside circumference, 3 mm wire":                         "band bangle 62.1 profile round thickness 3 mm",
		"halo 4 oval 8x6, 1.5 stones .2 gap, ctr bezel wall .5":                 "halo centregap 0.5 gap 0.2 outline oval size 8x6 with 1.5",
		"6mm round in a 7.2 od cup, how many 1.5 stones around it with 0.1 gap": "halo gap 0.1 outline round size 7.2 with 1.5",
		"how many 1.8mm to go round a 12x10 oval cab, bezel is 28 gauge":        "halo centregap 0.3211 outline oval size 12x10 with 1.8 mm",
		"whats the length for a ring size L half if the silvers 1.3 thick":      "band alloy sterling ring L 1/2 system uk thickness 1.3 mm",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, line, r.Line(), said)
		assert.Equal(t, Request, r.Outcome, said)
	}
	for said, holds := range map[string]string{
		"Ring strip cut to what you said for size O, came up N and a half. Correct it for the real gold one": "0.6 mm longer than the one that made N 1/2",
		"I get 17.3 stones for my circle, 1.5 stones gap .15. what pitch diameter gives 17":                  "17 stones: 8.98 mm",
		"notch a 5mm tube to sit on top of 2.5 mm round wire":                                                "At full depth, 1.25 mm",
		"4 prong head 6mm base going on a US 6.5 ring that is 2 mm thick how much do I take off the bottom":  "0.44 mm deep",
		"cuff not a ring, 6.5 inch wrist inch gap 1.5 thick what length":                                     "Cut 144 mm",
		"6 1/4 wrist, open cuff 1 1/4 gap, 10 gauge wire length pls":                                         "Cut 135 mm",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, r.Text, holds, said)
	}
}

// A quarter behind a letter, a width over all and a diamond's points are no lengths of what
// stands beside them.
func TestFiguresThatAreNoLengths(t *testing.T) {
	t.Parallel()
	for said, line := range map[string]string{
		"can you do the length for a UK J 3/4?? 2.2mm thick":                         "band ring J 3/4 system uk thickness 2.2 mm",
		"size M 1/4, 5mm D shape 1.5 thick":                                          "band profile half-round ring M 1/4 system uk thickness 1.5 mm width 5 mm",
		"L 3/4 to N, 1.6 thick":                                                      "resize from uk L 3/4 thickness 1.6 mm to uk N",
		"round halo 6.5 center 1.3mm melee how many stones":                          "halo outline round size 6.5 with 1.3 mm",
		"I want the halo to end up 10mm across with a 6mm center. what size stones?": "halo outline round size 6 mm with 1.5",
		"overall 11mm halo, 1.5mm stones, what size centre do I need":                "halo outline round size 7 with 1.5 mm",
		"how many 2 point diamonds go round a 7mm stone":                             "halo outline round size 7 mm with 1.75",
		"18 ga jump rings 5mm id, a dozen":                                           "jumpring count 12 inside 5 mm wire 18ga",
		"halo for 6.5mm round 1.5mm stones and a 0.3 gap to the center":              "halo centregap 0.3 outline round size 6.5 mm with 1.5 mm",
		"bangle length for 68mm inner dia 4mm thick square":                          "band bangle 68 mm profile square thickness 4 mm",
		"5mm centre with 0.01ct diamonds, how many":                                  "halo outline round size 5 mm with 1.39",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, line, r.Line(), said)
		assert.Equal(t, Request, r.Outcome, said)
	}
	for said, holds := range map[string]string{
		"We're doing big oval links, 10 long and 6 wide inside, out of 2mm copper. How long is the wire for each one?": "31.73 mm of wire",
		"oval jump rings on a 5x3 mandrel 0.9 wire how long per ring":                                                  "15.55 mm of wire",
		"length of wire for an oval link bracelet link 12 x 8 inside 2mm wire":                                         "37.96 mm of wire",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Contains(t, r.Text, holds, said)
	}
}
