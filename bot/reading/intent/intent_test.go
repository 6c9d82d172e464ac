package intent

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/testcount"
)

const sentences = "../sentence/testdata"

// read gives a message without what the reader would find in it.
func read(typed string) Message { return Message{Text: typed} }

// A model learnt without some of the sentences names what they ask for.
func TestFitNamesWhatItHasNotSeen(t *testing.T) {
	if !testcount.Whole() {
		t.Skip("GUILDHAND_WHOLE is not set: no model is learnt, which takes half a minute")
	}
	all, err := Examples(sentences, "../written/messages", read)
	require.NoError(t, err)
	var seen, unseen []Example
	for i, e := range all { // a part of them: all take a minute
		switch i % 20 {
		case 0:
			unseen = append(unseen, e)
		case 3, 7, 13:
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
	assert.Greater(t, share, 0.68)
}

func TestWords(t *testing.T) {
	assert.Equal(t, []string{"a", "##", "mm", "pear", "#", "ga", "it's", "mine"}, Words("A 9 x 7mm pear, 20ga; it's mine"))
}

func BenchmarkLikelihoods(b *testing.B) {
	for b.Loop() {
		Of(read("I have this 9 x 7 pear and 20 gauge sterling: what do I cut, and does the point need a relief?"))
	}
}
