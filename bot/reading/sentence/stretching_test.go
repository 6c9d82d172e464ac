package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestStretchingIsJudgedByTheSizes(t *testing.T) {
	t.Parallel()
	for say, want := range map[string]string{
		"Can I stretch ring from size L to M on the mandrel without cutting?":             "Yes, if it is a plain, solid band",
		"can you stretch a 7 to a 7 1/2, plain silver band 1.5mm":                         "Yes, if it is a plain, solid band",
		"Is it possible to hammer it up from P to Q instead of cutting?":                  "Yes, if it is a plain, solid band",
		"Can I go up from a T to a V without adding metal?":                               "Only if it is a heavy, solid band",
		"could i just stretch it, size 6 to size 8, 2mm thick 5mm wide":                   "No: US 8 is 5.11 mm larger round",
		"Please advise if the band can be stretched from ISO 52 to ISO 54 without a cut.": "Only if it is a heavy, solid band",
	} {
		r := Read(say, alone())
		assert.Equal(t, "resize", r.Request, say)
		assert.Contains(t, r.Verdict, want, say)
	}
	for _, say := range []string{
		"How much do I let in from L to M?",
		"stretch or cut, size 6 to size 7 with an opal in it",
		"how much metal do i add from 7 to 8, i don't want to stretch it",
		"Can I stretch a tungsten ring from 9 to 10?",
		"Can I shrink a ring from M to L without cutting?",
	} {
		assert.NotContains(t, Read(say, alone()).Verdict, "larger round", say)
	}
}

func TestLinksLeftOpenAreJudgedByWireAndInside(t *testing.T) {
	t.Parallel()
	for say, want := range map[string]string{
		"soldring 100 links is doing my head in, can i leave them open if 1.2 wire 4 id or wil it just pull apart": "may stay unsoldered where little pulls",
		"do the links have to be soldered in a bracelet 1 mm wire 5 mm inside":                                     "solder them",
		"can i leave the 100 links open if 1.2 wire 4 id":                                                          "may stay unsoldered",
		"will unsoldered 20ga 4mm jump rings hold a heavy pendant":                                                 "solder them",
	} {
		assert.Contains(t, Read(say, alone()).Verdict, want, say)
	}
	for _, say := range []string{
		"What solder do I use to solder 100 links, 1.2 wire 4 id?",
		"How many rings 4 mm inside in 1.2 wire for an open chain of 18 inches?",
	} {
		assert.NotContains(t, Read(say, alone()).Verdict, "nsoldered", say)
	}
}

func TestPiecesOfALengthAreCounted(t *testing.T) {
	t.Parallel()
	for say, want := range map[string]string{
		"16 ga, .250 ID. How many per ft":                 "A foot of wire makes 12 rings at most",
		"How many 2 mm tube settings from 50 mm of tube?": "50 mm makes 23 settings",
	} {
		r := Read(say, alone())
		assert.Contains(t, r.Verdict, want, say)
		assert.Empty(t, r.Options["chain"], say)
	}
	assert.Equal(t, "304.8", Read("how many links per foot of chain, 16ga 1/4 inch id", alone()).Options["chain"])
}

func TestAStripThatWrapsIsASpiral(t *testing.T) {
	t.Parallel()
	say := "I'd like a ring that wraps round one and a half times like the old spoon rings, size 7. How long would that be in 3/16 inch wide strip, 1.2 mm thick?"
	r := Read(say, alone())
	assert.Equal(t, "spiral ring", r.Topic, say)
	assert.Contains(t, r.Text, "Cut 88 mm", say)
	assert.Equal(t, "band", Read("strip that goes round the finger, size 7, 5 mm wide, 1.2 mm thick, how long", alone()).Request)
}
