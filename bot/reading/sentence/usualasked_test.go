package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestUsualAsked lists questions of what is set and of what was worked out before, in words
// that name the piece or the measure, with near misses.
func TestUsualAsked(t *testing.T) {
	for said, want := range map[string]string{
		"whats the shop thickness set at":                          "bench",
		"Which metal do you presume when none is stated?":          "bench",
		"how thick do you reckon my sheet is if I leave it out":    "bench",
		"what block angle have you got stored":                     "bench",
		"Is it mm or inches you're set up for just now?":           "bench",
		"which ring size system am I on":                           "bench",
		"set my default to 0.8 sterling and thou":                  "bench alloy sterling thickness 0.8 mm units inch",
		"change the clearance from 0.1 to 0.05":                    "bench clearance 0.05",
		"please change the joint allowance from 0.10 mm to 0.2 mm": "bench filing 0.2 mm",
		"I prefer American ring sizes in all your answers":         "bench system us",
		"Has anybody here already worked out an 8x6 oval?":         "daybook find 8x6 outline oval",
		"did someone else do a 7mm pear already?":                  "daybook outline pear",
		"pull up the last collet i did, the marquise":              "daybook outline marquise request collet",
		"what were the figures for my topaz again":                 "daybook find topaz",
		"dig out that saddle I did on friday":                      "daybook from friday to friday",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, want, r.Line(), said)
	}
	for _, said := range []string{
		"what thickness should i use for a collet", "whats the usual thickness of a bezel", "What gauge is standard for jump rings?",
		"has anyone got a spare 9x7 emerald cut", "did anyone see my 7mm pear, i dropped it", "has anyone tips for an 8x6 oval",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.NotContains(t, []string{"bench", "daybook"}, r.Request, said)
	}
}

// TestSettingChangedNext holds that a figure sets the default that was just asked for, or asks.
func TestSettingChangedNext(t *testing.T) {
	c := Context{Addressed: true, Takes: takes, Excludes: excludes}
	asked := "whats the shop thickness set at"
	next := c.After(asked, Read(asked, c))
	assert.Equal(t, "bench thickness 0.8", Read("set it to 0.8", next).Line())
	asked = "could you tell me what sheet is fixed as usual?"
	next = c.After(asked, Read(asked, c))
	r := Read("change it to 0.7 mm please", next)
	assert.Equal(t, Question, r.Outcome, shown(r))
	assert.Equal(t, "bench", r.Request)
}

// TestMereTalkOfTheDay holds that talk with a word of the trade asks nothing, and that a hurt
// or a danger in it does.
func TestMereTalkOfTheDay(t *testing.T) {
	for said, silent := range map[string]bool{
		"Good morning to you. Cold enough here to freeze the pickle.": true,
		"Good morning, the torch is singing to me tonight":            true,
		"good morning, the pickle spat in my eye":                     false,
		"pickle safety": false,
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, silent, r.Outcome == Silent, "%s: %s", said, shown(r))
	}
	for _, said := range []string{"Excuse me, with whom am I writing? Is it a person?", "whats your name", "did a person write you", "are you one of the teachers"} {
		assert.Equal(t, "who answers", Read(said, Context{Addressed: true}).Topic, said)
	}
}

// TestSafetyAskedPlainly lists plain questions of safety with the topic or the first aid that
// each must get.
func TestSafetyAskedPlainly(t *testing.T) {
	for said, topic := range map[string]string{
		"how far should the torch be off the curtains":    "what burns near the torch",
		"can I solder next to a wooden wall":              "what burns near the torch",
		"Is the green flux poisonous?":                    "flux as a poison",
		"Can I saw towards my fingers":                    "tool towards the hand",
		"My student is thirteen, may she use the torch?":  "children and torches",
		"Can fourteen year olds do pickle?":               "children and pickle",
		"what should I do if my sleeve catches fire":      "burn",
		"Is malachite poisonous?":                         "stone dust",
		"why mustnt steel go in the pickle":               "steel in the pickle",
		"Which solder melts first?":                       "hard and easy solder",
		"what precisely is a girdle? not my grandmothers": "girdle",
	} {
		assert.Equal(t, topic, Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes}).Topic, said)
	}
}
