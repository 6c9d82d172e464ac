package intent_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/sentence"
)

// The model in the program knows the sentences that it was learnt from, and says
// so of others without being sure of everything.
func TestLearnt(t *testing.T) {
	for _, test := range []struct{ message, want string }{
		{"I have this 9 x 7 pear and 20 gauge sterling in a tapered setting: what do I cut?", "collet"},
		{"why does the rim of the blank come out curved?", intent.Explanation},
		{"how long a strip do I need for a ring in size 7, 1.5 mm thick", "band"},
		{"bezel strip for an 18x13 oval cab 5 mm tall", "bezel"},
	} {
		likelihoods := intent.Of(sentence.Found(test.message))
		best, chance := likelihoods.Best()
		assert.Equal(t, test.want, best, test.message)
		assert.Greater(t, chance, 0.4, test.message)
		sum := 0.0
		for _, c := range likelihoods.All() {
			sum += c
		}
		assert.InDelta(t, 1, sum, 1e-9, "chances sum to one")
	}
}
