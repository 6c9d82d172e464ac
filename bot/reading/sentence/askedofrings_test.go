package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func alone() Context { return Context{Addressed: true, Takes: takes, Excludes: excludes} }

// TestStopsInInitials: "U.S." names a system and no two letters of ring sizes.
func TestStopsInInitials(t *testing.T) {
	t.Parallel()
	for say, line := range map[string]string{
		"Ring, U.S. size 10 1/4, rectangular stock 0.080 x 0.240 in. Length of blank, please.": "band ring 10 1/4 system us thickness 2.032 mm width 6.096",
		"Reduce from U.S. 8 to 6 1/2. Shank 0.065 in. thick. How much is to be cut out?":       "resize from us 8 thickness 0.065 in to us 6 1/2",
		"Size 6.5 U.S., 1.5 mm thick, 4 mm wide":                                               "band ring 6.5 system us thickness 1.5 mm width 4 mm",
		"U.K. size N, 1.5 mm thick. How long do I cut it?":                                     "band ring N system uk thickness 1.5 mm",
		"Wanted: U.S. size 11 band, 14 ga. half-round":                                         "band profile half-round ring 11 system us thickness 14ga",
	} {
		assert.Equal(t, line, Read(say, alone()).Line(), say)
	}
}

// TestTubeInAll: a number of pieces in words is a number of pieces.
func TestTubeInAll(t *testing.T) {
	t.Parallel()
	for say, holds := range map[string]string{
		"What length of tube do I need for ten settings, each 4 mm tall, allowing for the saw and for truing the ends?": "about 45 mm as sawn",
		"How long a piece of tube would I need to get six 4 mm bits out of it?":                                         "about 27 mm as sawn",
		"I am to make thirty settings of height 4.5 mm out of tube. Kindly tell the tube length with kerf 0.3.":         "about 150 mm as sawn",
	} {
		assert.Contains(t, Read(say, alone()).Text, holds, say)
	}
	for _, say := range []string{"what size tube for ten 3 mm stones", "tube settings for 4 stones of 3mm, how long should each be"} {
		assert.Equal(t, "tubeset", Read(say, alone()).Request, say)
	}
}

// TestBurForAStone tells the tenth, and compares a bur with a stone of another size.
func TestBurForAStone(t *testing.T) {
	t.Parallel()
	for say, holds := range map[string]string{
		"what bur do i need for a 2.5mm stone":                                                        "takes a 2.5 mm setting bur",
		"What size of setting bur goes with a stone that's a hair over 3/32? The chart's all metric.": "takes a 2.4 mm setting bur",
		"which setting bur for 1.75 mm cz?":                                                           "take a 1.7 mm setting bur",
		"is a 3mm bur ok for a 3.1 stone":                                                             "is 0.1 mm smaller than the stone",
		"bur's 3mm stone's 3.05. go up a bur or open it with a bit of wiggle":                         "is 0.05 mm smaller than the stone of 3.05 mm",
		"Do I use a 3 mm bur for a 3 mm stone or one size smaller?":                                   "makes a close seat",
	} {
		assert.Contains(t, Read(say, alone()).Text, holds, say)
	}
	for _, say := range []string{"what gauge is 3/32", "what bur for cutting the seat in a prong setting 6mm round", "For a 0.079 in. stone, state tubing OD and wall, seat depth, and bur diameter."} {
		assert.NotEqual(t, "bur for a stone", Read(say, alone()).Topic, say)
	}
}

// TestWireRoundTheFingerSeveralTimes is no plain band.
func TestWireRoundTheFingerSeveralTimes(t *testing.T) {
	t.Parallel()
	for say, holds := range map[string]string{
		"Spiral ring with 2.5 turns, wire 1.5 mm round, inner diameter 17.0 mm. Please calculate the wire length.": "Cut 145 mm",
		"wrap ring goes round 3 times, size 7, 1.2mm wire. how long a wire":                                        "Cut 175 mm",
		"coil ring with four turns of 1 mm wire, size M: what length?":                                             "4 turns of 55.64 mm",
		"double wrap ring in 18 gauge, size 6, how long to cut":                                                    "2 turns of 55.08 mm",
		"I'd like a snake ring, three coils, US 8, 14 gauge. Length please":                                        "Cut 186 mm",
	} {
		assert.Contains(t, Read(say, alone()).Text, holds, say)
	}
	for _, say := range []string{"turn a band size 8 1.5mm thick 4 wide", "jump rings coil 30 turns 1mm wire 5mm mandrel", "wire wrapped ring with a bead size 7", "two rings size M and N 1.2 thick"} {
		assert.NotEqual(t, "spiral ring", Read(say, alone()).Topic, say)
	}
}

// TestTubeForASmallRound is a tube setting, unless a block is named.
func TestTubeForASmallRound(t *testing.T) {
	t.Parallel()
	for say, line := range map[string]string{
		"what size tube for a 4mm round":                      "tubeset outline round size 4 mm",
		"tube size 3mm round?":                                "tubeset outline round size 3 mm",
		"wot tube for a 3 mil round":                          "tubeset outline round size 3 mm",
		"what tube do I drive into my block for an 8mm round": "collar outline round size 8 mm",
		"what tube to taper for a 5 mm round in the block":    "collar outline round size 5 mm",
	} {
		assert.Equal(t, line, Read(say, alone()).Line(), say)
	}
	r := Read("what size tube for a 6mm round", alone())
	assert.Equal(t, Question, r.Outcome)
}

// TestNobodyIsHurtOrExpecting: rings that were cut off, eyes that small work tires, and what
// was not expected.
func TestNobodyIsHurtOrExpecting(t *testing.T) {
	t.Parallel()
	for _, say := range []string{
		"ring stuck, cut it off guy's finger, now theres a gap 3/16 after i bent it round. he wants it one size bigger than it was",
		"the hospital cut her ring off, can I resize it up a size, there's a 2 mm gap",
		"this is hard on my eyes, what magnifier should I get",
		"old eyes and tiny stones, what helps",
	} {
		assert.NotEqual(t, FirstAid, Read(say, alone()).Outcome, say)
	}
	for _, say := range []string{
		"I cut the ring off my finger and cut my finger too",
		"cut my finger getting a ring off",
		"my eyes are sore and red after torching platinum",
		"acid got in my old eyes",
		"the ring was cut off and now her finger is bleeding",
	} {
		assert.Equal(t, FirstAid, Read(say, alone()).Outcome, say)
	}
	for _, say := range []string{"I was not expecting it to work. It worked.", "wasn't expecting that!", "what should I be expecting when I anneal copper"} {
		assert.NotEqual(t, "pregnancy", Read(say, alone()).Topic, say)
	}
	for _, say := range []string{"I'm expecting, is it safe to solder", "my wife is expecting, can I pickle in the flat", "I am expecting in March, can I pickle?"} {
		assert.Equal(t, "pregnancy", Read(say, alone()).Topic, say)
	}
}

// TestDangersByOtherWords are answered with the danger itself.
func TestDangersByOtherWords(t *testing.T) {
	t.Parallel()
	for say, topic := range map[string]string{
		"Is it all right to saw up old shell for inlay?":                                       "stone dust",
		"can I cut mother of pearl with my saw, is the dust bad":                               "stone dust",
		"What precautions do I take for carving bone and antler?":                              "stone dust",
		"I solder at the grooming shop, dog hair and spray bottles everywhere. Watch out for?": "sprays and fuel near the torch",
		"can I solder in my hair salon, aerosols about":                                        "sprays and fuel near the torch",
		"I'm setting up a torch in the shed next to paint tins, anything to worry about?":      "sprays and fuel near the torch",
		"can i use vinegar and salt as pickle indoors":                                         "vinegar pickle",
		"is it dangerous to melt latão? The fumaça is white":                                   "brass smell",
		"Which gloves for mixing pickle? Does one add the acid to the water or the other way?": "water into acid",
		"liver of sulphur in a room with no window, what precautions":                          "liver of sulphur indoors",
		"safety briefing for a class with torches, the must-say points":                        "rules for the wall",
	} {
		assert.Equal(t, topic, Read(say, alone()).Topic, say)
	}
	for _, say := range []string{"petrol station nearby", "weigh brass sheet 50x50 0.8", "hairspray on my cab before setting?", "can i melt brass in a kiln"} {
		assert.NotContains(t, []string{"sprays and fuel near the torch", "brass smell"}, Read(say, alone()).Topic, say)
	}
}
