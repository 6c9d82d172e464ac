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
