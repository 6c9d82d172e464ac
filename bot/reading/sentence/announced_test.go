package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// lastOf reads a conversation, its messages parted by " ... ", and returns the last reading.
func lastOf(talk string) (r Reading) {
	c := Context{Addressed: true, Takes: takes, Excludes: excludes}
	for _, say := range strings.Split(talk, " ... ") {
		r = Read(say, c)
		c = c.After(say, r)
	}
	return r
}

// A job that a message announces is asked about, with what it tells already.
func TestAnnouncedJobs(t *testing.T) {
	for say, want := range map[string]string{
		"gotta resize a ring for my mum":                                    "resize",
		"customer wants her ring sized up":                                  "resize",
		"I should like to reduce a ring for a client":                       "resize",
		"can you help me size a ring":                                       "resize",
		"I've a wedding band to make larger, please":                        "resize",
		"how much wire for 100 jump rings":                                  "jumpring count 100",
		"makin a chain 50cm how much wire do i buy":                         "jumpring chain 50 cm",
		"wire for a trace chain 18 inch long?":                              "jumpring chain 18 in",
		"I wanna make a chain 18 inches out of round rings":                 "jumpring chain 18 in",
		"how much wire for a bracelet chain":                                "jumpring",
		"how much bronze for a wax":                                         "melt alloy commercial-bronze",
		"I wanna make a chain 18 inches out of round rings ... 1.2 mm wire": "jumpring chain 18 in wire 1.2 mm",
	} {
		r := lastOf(say)
		assert.Equal(t, Question, r.Outcome, say)
		assert.Equal(t, want, r.Line(), say)
	}
	for _, say := range []string{"how do I make a ring bigger", "can a ring be made smaller without cutting", "what tools do i need to resize a ring", "what wire is best for a chain", "how do I make a chain", "how strong is a chain of 1 mm wire", "the ring got smaller after I soldered it", "make ring one size bigger how much metal do i add"} {
		assert.NotEqual(t, Question, lastOf(say).Outcome, say)
	}
	rod := lastOf("I wanna make a chain 18 inches out of round rings ... 1.2 mm wire ... 5mm knitting needle")
	assert.Equal(t, "jumpring chain 18 in mandrel 5 mm wire 1.2 mm", rod.Line())
	assert.Equal(t, Request, rod.Outcome)
}

// What was told of one stone is not of the next; the metal is.
func TestFurtherStone(t *testing.T) {
	opal, garnet := "bezel for an opal 16 by 12 oval, 4.5 high, 0.3 mm fine silver", "collet for 8x6 oval garnet, 0.5 sterling, 5 high, 4.1 deep"
	for talk, want := range map[string]string{
		opal + " ... Beauty. Now do me one for 20 round":     "bezel alloy fine-silver outline round size 20 thickness 0.3 mm",
		opal + " ... great. now a 12 mm round":               "bezel alloy fine-silver outline round size 12 mm thickness 0.3 mm",
		opal + " ... another one, 12x10, 5 high":             "bezel alloy fine-silver dome 5 outline oval size 12x10 thickness 0.3 mm",
		opal + " ... second stone is 14 x 10":                "bezel alloy fine-silver outline oval size 14x10 thickness 0.3 mm",
		garnet + " ... ok next stone is a 9x7 pear":          "collet alloy sterling height 5 outline pear size 9x7 thickness 0.5 mm",
		opal + " ... actually the stone is 12x10":            "bezel alloy fine-silver dome 4.5 gem opal outline oval size 12x10 thickness 0.3 mm",
		opal + " ... got another 12 x 10, same height":       "bezel alloy fine-silver dome 4.5 gem opal outline oval size 12x10 thickness 0.3 mm",
		"bezel 8mm round cab 3 high 28ga fine ... make it 9": "bezel alloy fine-silver dome 3 outline round size 9 thickness 28ga",
	} {
		assert.Equal(t, want, lastOf(talk).Line(), talk)
	}
	assert.Contains(t, lastOf(opal+" ... great. now a 12 mm round").Changed, "no dome")
}

// After a gauge was told a bare number is one, and its use is judged.
func TestUseOfGaugeTold(t *testing.T) {
	for talk, want := range map[string]string{
		"whats 22 gauge ... ta. is 24 ok for a bezel":                    "24 ga",
		"whats 22 gauge in mm ... and 18 ... so which one for a bezel":   "28 ga",
		"18 gauge in mm? ... and is that thick enough for a bangle":      "18 gauge",
		"18 gauge is what in mm? ... And would 20 be alright for a dome": "20 ga",
		"what is 20 gauge in mm ... thanks. would 22 do for a ring":      "silver",
		"22 ga in mm ... is 0.5 ok for a bezel":                          "0.5 mm",
	} {
		r := lastOf(talk)
		assert.Equal(t, Explanation, r.Outcome, talk)
		assert.Contains(t, r.Text, want, talk)
	}
	assert.Equal(t, "gauge gauge 24ga", lastOf("22 ga in mm ... and 24").Line())
}

// A change that is said by what is liked less, or by another form, keeps all the rest.
func TestLikedBetter(t *testing.T) {
	claws, sheet, collet := "claws for 7mm round in 0.8 silver, 6 claws", "weight of sterling plate 30 x 30 x 1 mm", "collet for a 7 mm round in 0.6 silver 5 high"
	for talk, want := range map[string]string{
		claws + " ... actually 4, six looks fussy":                       "prongs alloy sterling number 4 outline round size 7 mm thickness 0.8 mm",
		claws + " ... 6 is too many, do 4":                               "prongs alloy sterling number 4 outline round size 7 mm thickness 0.8 mm",
		claws + " ... she wants four not six":                            "prongs alloy sterling number 4 outline round size 7 mm thickness 0.8 mm",
		claws + " ... I think four would look better":                    "prongs alloy sterling number 4 outline round size 7 mm thickness 0.8 mm",
		sheet + " ... How about a disc of 30 mm instead of square?":      "weigh alloy sterling form disc size 30 mm thickness 1 mm",
		sheet + " ... and as a circle":                                   "weigh alloy sterling form disc size 30 mm thickness 1 mm",
		"weigh a brass disc 40 x 1 ... now a square of 40":               "weigh alloy brass form sheet size 40x40 thickness 1 mm",
		collet + " ... too tall. 4":                                      "collet alloy sterling height 4 outline round size 7 mm thickness 0.6 mm",
		collet + " ... 5 is too tall make it 4.2":                        "collet alloy sterling height 4.2 outline round size 7 mm thickness 0.6 mm",
		collet + " ... narrower at the bottom, say 4 mm":                 "collet alloy sterling base round basesize 4 mm height 5 outline round size 7 mm taper base thickness 0.6 mm",
		collet + " ... and narrower at the bottom ... 4":                 "collet alloy sterling base round basesize 4 height 5 outline round size 7 mm taper base thickness 0.6 mm",
		"band size N 5 wide 1.5 thick silver ... hmm 5 is a bit wide, 4": "band alloy sterling ring N system uk thickness 1.5 mm width 4",
	} {
		r := lastOf(talk)
		assert.Equal(t, Request, r.Outcome, talk)
		assert.Equal(t, want, r.Line(), talk)
	}
	for _, talk := range []string{claws + " ... is four better than six?", sheet + " ... and if I cut a circle out of it", collet + " ... is 5 too tall for a ring?"} {
		assert.Empty(t, lastOf(talk).Changed, talk)
	}
}
