package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestAidAskedFor: whoever asks for first aid by its name, or how a burn is treated, gets it;
// wood and metal that are burnt or cut are no hurt.
func TestAidAskedFor(t *testing.T) {
	t.Parallel()
	for say, job := range map[string]string{
		"need first aid for acid burn":                    "skin",
		"first aid for a cut":                             "cut",
		"whats the first aid for pickle in the eye":       "eyes",
		"how do i treat an acid burn":                     "skin",
		"how do i treat a burn":                           "burn",
		"first aid for electric shock":                    "shock",
		"the apron is smouldering":                        "burn",
		"my rag bin is smouldering":                       "fire",
		"hot silver dropped in my boot":                   "burn",
		"burned my thumb ... how do i treat an acid burn": "skin",
	} {
		r := lastOf(say)
		assert.Equal(t, FirstAid, r.Outcome, say)
		assert.Equal(t, job, r.Topic, say)
	}
	for _, say := range []string{"first aid kit for the workshop what goes in it", "how do i treat burn marks on wood", "how do i deal with cuts in the strip", "how do i treat copper before etching"} {
		assert.NotEqual(t, FirstAid, lastOf(say).Outcome, say)
	}
}

// TestEntryAmended: a correction of an entry by its number is kept beside it.
func TestEntryAmended(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "daybook amend 12 the stone was 8x6", lastOf("fix entry 12: the stone was 8x6").Line())
	assert.NotContains(t, lastOf("can you fix entry 12, what was wrong with it?").Options, "amend")
}
