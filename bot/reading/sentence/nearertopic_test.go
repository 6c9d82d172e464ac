package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A topic that all words are nearer to goes before one that some of them found.
func TestNearerTopic(t *testing.T) {
	t.Parallel()
	for say, topic := range map[string]string{
		"how do you get scratches out of the inside of a ring":                           "mark inside a ring",
		"what is that grey scum floating on top when i melt silver":                      "dross",
		"how do i tell if my stone is glass or a real one":                               "glass or stone",
		"why does metal go soft when it's heated":                                        "why heat softens metal",
		"my student burnt a hole in her bezel, how can she save it":                      "hole melted in a bezel",
		"what is a culet and does it matter for the setting":                             "culet",
		"does sterling get weaker each time I solder it":                                 "sterling soldered often",
		"I tell my class the metal gets hard from hammering. why, and why soft by heat?": "why heat softens metal",
	} {
		assert.Equal(t, topic, Read(say, Context{Addressed: true, Takes: takes}).Topic, say)
	}
	for say, job := range map[string]string{
		"what do you put on a burn, our nan always said butter": "burn",
		"is toothpaste ok on a burn":                            "burn",
		"superglue on my eyelid, it's stuck":                    "eyes",
		"burnt a hole in my hand with the solder pick":          "burn",
	} {
		assert.Equal(t, job, Read(say, Context{Addressed: true, Takes: takes}).Topic, say)
	}
	heat := Read("annealing temperature of copper", Context{Addressed: true, Takes: takes})
	assert.Equal(t, "heat alloy copper", heat.Line())
}
