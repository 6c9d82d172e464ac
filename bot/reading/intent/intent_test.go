package intent

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const sentences = "../sentence/testdata"

// The model in the program knows the sentences that it was learnt from, and says
// so of others without being sure of everything.
func TestLearnt(t *testing.T) {
	for _, test := range []struct{ message, want string }{
		{"I have this 9 x 7 pear and 20 gauge sterling in a tapered setting: what do I cut?", "collet"},
		{"why does the rim of the blank come out curved?", Explanation},
		{"how long a strip do I need for a ring in size 7, 1.5 mm thick", "band"},
		{"bezel strip for an 18x13 oval cab 5 mm tall", "bezel"},
	} {
		likelihoods := Of(test.message)
		best, chance := likelihoods.Best()
		assert.Equal(t, test.want, best, test.message)
		assert.Greater(t, chance, 0.4, test.message)
		sum := 0.0
		for _, c := range likelihoods {
			sum += c
		}
		assert.InDelta(t, 1, sum, 1e-9, "chances sum to one")
	}
	assert.Len(t, Of(""), len(learnt().Classes), "nothing said, nothing known")
}

// A model learnt without some of the sentences names what they ask for.
func TestFitNamesWhatItHasNotSeen(t *testing.T) {
	if testing.Short() {
		t.Skip("it learns a model, which takes some seconds")
	}
	all, err := Examples(sentences, "../written/messages")
	require.NoError(t, err)
	var seen, unseen []Example
	for i, e := range all { // a part of them: all take a minute
		switch i % 10 {
		case 0:
			unseen = append(unseen, e)
		case 3, 7:
			seen = append(seen, e)
		}
	}
	m, err := Fit(seen)
	require.NoError(t, err)
	right := 0
	for _, e := range unseen {
		if best, _ := By(m, e.Message).Best(); slices.Contains(e.Intents, best) {
			right++
		}
	}
	share := float64(right) / float64(len(unseen))
	t.Logf("%.1f %% of %d sentences that the model has not seen, %d seen", 100*share, len(unseen), len(seen))
	assert.Greater(t, share, 0.7)
}

func TestWords(t *testing.T) {
	assert.Equal(t, []string{"a", "##", "mm", "pear", "#", "ga", "it's", "mine"}, Words("A 9 x 7mm pear, 20ga; it's mine"))
}

func BenchmarkLikelihoods(b *testing.B) {
	for b.Loop() {
		Of("I have this 9 x 7 pear and 20 gauge sterling: what do I cut, and does the point need a relief?")
	}
}
