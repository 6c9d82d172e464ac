package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is kept and logged is asked for in words that name no setting and no entry.
func TestKeptPlainly(t *testing.T) {
	t.Parallel()
	for say, want := range map[string]string{
		"reset to defaults":                                 "bench drop all",
		"restore the default settings please":               "bench drop all",
		"show current settings":                             "bench",
		"what settings r on":                                "bench",
		"show me what you've got saved for me":              "bench",
		"which thickness do you assume if i don't give one": "bench",
		"show log":                                                 "daybook",
		"how many collets i done this month":                       "daybook from 30d request collet",
		"how many bezels have i made this week":                    "daybook from 7d request bezel",
		"Export of my entries for this month, in order of date":    "daybook action export from 30d",
		"can you send me a spreadsheet of everything i asked":      "daybook action export format csv",
		"how many bezels can i make from a 300 mm strip this week": "",
	} {
		r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
		if want == "" {
			assert.NotEqual(t, "daybook", r.Request, say)
			continue
		}
		assert.Equal(t, Request, r.Outcome, say)
		assert.Equal(t, want, r.Line(), say)
	}
	for _, say := range []string{"what tube do I need for a tube setting", "show me the settings for a pear"} {
		assert.NotEqual(t, "bench", Read(say, Context{Addressed: true, Takes: takes}).Request, say)
	}
}

// Greetings of the room and remarks want no answer; who says hello may want to know what the
// bot does.
func TestGreetingsAndRemarks(t *testing.T) {
	t.Parallel()
	for _, say := range []string{"Morning.", "yo", "evening all", "good morning dear bot, how are you today?", "Thank you. That agrees with my own figure.", "Thank you so much, the students were delighted with their rings."} {
		assert.Equal(t, Silent, Read(say, Context{Addressed: true, Takes: takes}).Outcome, say)
	}
	for _, say := range []string{"hello", "hi there", "morning, anyone there?", "thanks, but how do i solder it", "thank you. can it be annealed"} {
		assert.NotEqual(t, Silent, Read(say, Context{Addressed: true, Takes: takes}).Outcome, say)
	}
}

// TestDaysOfStories reads days that belong to what somebody tells: nothing of the log is asked.
func TestDaysOfStories(t *testing.T) {
	for _, said := range []string{
		"I cut abalone on the saw last week and coughed for two days. What should I be wearing?",
		"last week i filed some brass and got a rash, what gloves",
		"I drilled shell last week and had a cough, what do I wear",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.NotEqual(t, "daybook", r.Request, said)
	}
	for _, said := range []string{"what did i ask last week", "show me what I asked yesterday", "the bezel from yesterday, what was the length"} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		assert.Equal(t, "daybook", r.Request, said)
	}
}
