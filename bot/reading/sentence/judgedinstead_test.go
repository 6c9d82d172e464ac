package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestVerdictInPlaceOfAQuestion(t *testing.T) {
	for _, c := range []struct{ say, topic, holds string }{
		{"would 30 ga copper be stupid for a bangle", "limit: bangle", "too thin"},
		{"1 mm square wire for a bangle, am i kidding myself?", "limit: bangle", "1 mm is thin"},
		{"Thinking 24ga for a man's wedding band. Mistake?", "limit: ring thickness", "too thin"},
		{"Hi all, my daughter wants rings out of 1.0 x 2 mm silver strip. Will these last or will they go oval in a month", "limit: ring thickness", "1.0 x 2 mm is thin"},
		{"earring posts in 20ga: pass or fail", "limit: ear post", "that is usual"},
		{"i've only got 18 ga sheet left, could a bezel be made from it or is that nuts", "limit: bezel thickness", "too thick to push"},
		{"will a 1.1 mm shank hold with a 3ct stone on top", "limit: shank under a large stone", "1.1 mm is thin"},
		{"I've a 0.6 mm wall on a 14k collet for a 3 carat tanzanite, pendant not a ring. I believe that's ample, but a colleague insists on 0.8. Who's right?", "limit: collet wall", "0.6 mm is ample"},
		{"3 prongs on a 8mm stone thats good enough or nah", "limit: number of prongs", "too few"},
		{"Would four claws be sufficient for an opal of 12 by 10, or am I asking for trouble?", "limit: number of prongs", "soft or brittle"},
		{"6 claws or 4 for a oval 9x7, be honest", "limit: number of prongs", "4 prongs are usual"},
		{"Is a 1/8 inch bezel tall enough on a cab that's 1/4 inch high with steep sides?", bezelVerdict, "50 %"},
		{"my bezel strip is 4mm tall, cab is 4.5 tall. too tall?", bezelVerdict, "89 %"},
		{"bezel is 2mm n the cab is 5mm tall pointy dome. ok?", bezelVerdict, "40 %"},
		{"I propose a collet only three millimetres tall for a stone nearly five deep. Will the point come through and scratch the wearer?", "limit: setting of the depth", "is too low"},
		{"collet height 6mm, stone depth 4.2 — does the culet clear?", "limit: setting of the depth", "3.06 mm of room"},
	} {
		r := Read(c.say, Context{Addressed: true})
		assert.Equal(t, Explanation, r.Outcome, c.say)
		assert.Equal(t, c.topic, r.Topic, c.say)
		assert.Contains(t, r.Text, c.holds, c.say)
	}
}

func TestVerdictBesideThePiece(t *testing.T) {
	for say, verdict := range map[string]string{
		"26 ga sterling for a tapered collet, 6mm round. y/n":          "It depends: 26 ga (0.40 mm) is thin",
		"Are 0.7 mm claws going to hold a 6 mm garnet?":                "Yes, 0.7 mm is enough",
		"tube setting 4mm stone with 0.25 wall, too skimpy?":           "It depends: 0.25 mm is thin",
		"26 ga bezel for a 20x15 oval cab 5 tall please":               "",
		"could I get the blank for a 1.5mm thick 5mm wide ring size 8": "",
	} {
		r := Read(say, Context{Addressed: true})
		assert.Equal(t, Request, r.Outcome, say)
		if verdict == "" {
			assert.Empty(t, r.Verdict, say)
			continue
		}
		assert.Contains(t, r.Verdict, verdict, say)
	}
}

func TestNoInchesBeforeAGem(t *testing.T) {
	r := Read("4 prongs for a pear 10x7 in tanzanite", Context{Addressed: true})
	assert.Equal(t, "10x7", r.Options["size"])
}
