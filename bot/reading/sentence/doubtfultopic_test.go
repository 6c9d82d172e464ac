package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/knowledge"
)

// TestDoubtfulTopicsSaySo holds that the nearest topic to a question that no fact foresaw
// begins with what it is on, and that it is found again by its whole text.
func TestDoubtfulTopicsSaySo(t *testing.T) {
	said := "how do you hammer a texture without thinning the metal"
	r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
	require.Equal(t, Explanation, r.Outcome, shown(r))
	assert.Equal(t, "hammer texture", r.Topic)
	assert.True(t, strings.HasPrefix(r.Text, `The nearest that I know is on "hammer texture": `), r.Text)
	assert.Equal(t, "hammer texture", knowledge.KeyOf(r.Text))

	known := Read("how do you make a hinge for a locket", Context{Addressed: true, Takes: takes, Excludes: excludes})
	require.Equal(t, Explanation, known.Outcome, shown(known))
	assert.False(t, strings.HasPrefix(known.Text, "The nearest"), known.Text)
}

// TestNobodyIsHurtByOrdinaryWords lists words that sound like a harm and are none, with what
// is one beside them.
func TestNobodyIsHurtByOrdinaryWords(t *testing.T) {
	for said, hurt := range map[string]string{
		"can i solder chain while its all linked up":                                           "",
		"stones ate millimetres round what strip do i cut":                                     "",
		"the solder ate the bezel":                                                             "",
		"the rings in my chain got linked with solder":                                         "",
		"acid ate a hole in my thumb":                                                          "skin",
		"pickle ate through my glove into my finger":                                           "skin",
		"the ferric chloride has eaten the skin of my thumb":                                   "skin",
		"the pickle has eaten my copper etching":                                               "",
		"my dog ate a silver earring":                                                          "swallowed",
		"my lad licked the solder wire is that bad":                                            "swallowed",
		"I got superglue on my fingers from dopping a stone and it's stuck to my eyelid a bit": "eyes",
	} {
		r := Read(said, Context{Addressed: true, Takes: takes, Excludes: excludes})
		if hurt == "" {
			assert.NotEqual(t, FirstAid, r.Outcome, said)
			continue
		}
		assert.Equal(t, hurt, r.Topic, said)
	}
}
