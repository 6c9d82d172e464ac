package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/cautions"
)

// Every line that is said before the first aid stands in package cautions, or is a
// whole sentence of its own.
func TestLinesOfAidArePublished(t *testing.T) {
	for _, l := range aidLines {
		if l.job == "" || strings.HasSuffix(l.line, ".") {
			assert.True(t, strings.HasSuffix(l.line, "."), l.line)
			continue
		}
		f, ok := cautions.FirstAidFor(l.job)
		require.True(t, ok, l.job)
		found := false
		for _, line := range f.Lines() {
			found = found || strings.HasPrefix(line.Text, l.line)
		}
		assert.True(t, found, "%s: %s", l.job, l.line)
	}
}

// afterAid are messages that follow a first aid, with a word of what must be said
// before it is said again; empty where it is only said again.
var afterAid = map[string]map[string]string{
	"burn": {
		"my nan swears by toothpaste": "no butter", "ice pack ok?": "No ice", "should i pop it": "blisters", "put vinegar on": "No ice", "flour?": "butter",
		"its going white in the middle": "emergency", "can i put a plaster on": "cling film", "my wedding ring is on that finger": "Take off rings",
		"it was the flux that did it": "chemical", "thanks": "", "10 min done": "", "how long do I hold it under": "", "ok": "", "keep going?": "", "ouch": "",
		"so can i finish the bezel now": "Stop work", "right, back to the ring then": "Stop work", "hurts like mad": "", "it's stinging": "", "done": "", "are you sure": "",
	},
	"eyes": {
		"ok rinsed it 20 minutes, feels fine. so the bezel, what do i do": "hospital at once", "all good now, it stopped stinging": "hospital at once",
		"baking soda to neutralise it?": "Use water only", "milk is better no": "Use water only", "she has contacts in": "contact lenses", "still red, stings": "whole 20",
		"she's fine now": "emergency", "sulphuric, the dry kind": "", "do we need a doctor": "emergency", "i can see the splinter, tweezers?": "do not rinse, rub",
		"it's burning": "", "5 minutes so far": "whole 20", "sparex": "", "the left one": "", "ok doing it": "",
	},
	"shock": {
		"he still can't let go of it": "dry wooden broom handle", "feels fine now": "seen by a doctor", "there is a mark on the thumb": "20 minutes", "not breathing": "middle of the chest", "ok": "",
	},
	"hurt": {
		"cup of sweet tea?": "nothing to eat or drink", "he wants to stand up": "keep still", "she vomited": "blow to the head", "with tweezers?": "do not dig", "the kiln was on": "may be the air", "thanks": "",
	},
	"skin": {
		"bicarb on it?": "Use water only", "it was rust remover": "fluoride", "its on my jeans as well": "take off wet clothes", "burning a bit": "", "5% sulphuric": "", "looks fine now": "emergency",
	},
	"swallowed": {
		"make him throw up?": "", "glass of milk?": "nothing to eat or drink", "he's sleepy": "put nothing in the mouth", "about a teaspoon": "", "it was cold pickle": "", "no he is fine": "poison centre",
	},
	"fumes": {
		"shall i go in and drag her out": "Do not hold your breath", "she has a fever now": "fever", "feels fine again": "See a doctor", "lie down for a bit?": "sit the person", "we were melting brass": "fume fever",
	},
	"cut": {
		"pull it out?": "leave it in", "blood came through the towel, new one?": "another pad", "superglue it?": "rinse a small cut", "can't feel the tip": "numbness", "tie a belt round his arm?": "tie nothing", "he has gone pale": "",
	},
}

func TestWhatFollowsFirstAidGetsFirstAid(t *testing.T) {
	last := &Last{"collet", map[string]string{"outline": "oval", "size": "8x6", "alloy": "sterling", "thickness": "22ga"}}
	for job, messages := range afterAid {
		for say, holds := range messages {
			for _, before := range []*Last{nil, last} {
				r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes, Aid: job, Last: before})
				require.Equal(t, FirstAid, r.Outcome, "%s: %s", job, say)
				assert.Equal(t, job, r.Topic, say)
				assert.Contains(t, r.Verdict, holds, "%s: %s", job, say)
			}
		}
	}
}

// A whole new question is answered, and another hurt gets its own first aid.
func TestWholeQuestionEndsFirstAid(t *testing.T) {
	for say, want := range map[string]Outcome{
		"collet for an 8x6 oval in 22ga sterling": Request, "bezel strip for a 12x10 oval cab 28ga fine silver": Request, "us 7 ring 4mm wide 1.5 thick": Request,
		"what is kerf": Explanation, "what's the price of gold today": Declined, "and in 20 gauge?": Request,
	} {
		for job := range afterAid {
			c := Context{Addressed: true, Takes: takes, Excludes: excludes, Aid: job, Last: &Last{"collet", map[string]string{"outline": "oval", "size": "8x6", "alloy": "sterling", "thickness": "22ga"}}}
			r := Read(say, c)
			assert.Equal(t, want, r.Outcome, "%s: %s", job, say)
			assert.Empty(t, c.After(say, r).Aid, say)
		}
	}
	for say, job := range map[string]string{"now he's got it in his eye too": "eyes", "he swallowed some as well": "swallowed", "and i cut my thumb on the glass": "cut"} {
		assert.Equal(t, job, Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes, Aid: "skin"}).Topic, say)
	}
}

// What another maker says of other things is not taken for talk of the hurt.
func TestFirstAidOfAnotherMaker(t *testing.T) {
	c := Context{Addressed: true, Takes: takes, Excludes: excludes, Aid: "eyes", AidOfAnother: true, Last: &Last{"collet", map[string]string{"outline": "oval", "size": "8x6"}}}
	assert.Equal(t, FirstAid, Read("we're rinsing her eye", c).Outcome)
	assert.Equal(t, FirstAid, Read("call a doctor?", c).Outcome)
	assert.Equal(t, Request, Read("make it copper", c).Outcome)
}
