package sentence

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/knowledge"
)

// A phrase is looked for only where a word of the message begins alike, so no word may
// begin differently from its stem.
func TestAWordBeginsAsItsStem(t *testing.T) {
	checked := 0
	for _, f := range knowledge.Facts() {
		for _, w := range wordsOf(f.Text + " " + strings.Join(f.Questions, " ")) {
			assert.Equal(t, beginning(w), beginning(stemOf(w)), w)
			checked++
		}
	}
	for _, w := range []string{"dying", "tying", "lying", "a", "skies", "using", "being", "added", "awful", "ties"} {
		assert.Equal(t, beginning(w), beginning(stemOf(w)), w)
	}
	require.Greater(t, checked, 10_000)
}

func TestBeginnings(t *testing.T) {
	var b beginnings
	b.add("anneal")
	b.add("18")
	b.add("shape")
	for word, want := range map[string]bool{"annealing": true, "an": true, "ankle": true, "": true, "18k": true, "ask": false, "shaping": true, "shine": false, "a": false, "neal": false} {
		assert.Equal(t, want, b.has(word), word)
	}
}

// What a reader uses of a message stays unused in the next copy.
func TestACopyIsUntouched(t *testing.T) {
	m := newMessage("oval 8x6 in sterling, 4 to 5 mm high")
	first := m.memory.asTyped()
	for _, q := range first.found {
		q.used, q.role = true, "size"
		for i := range q.sides {
			q.sides[i] = 1
		}
	}
	first.taken[0], first.alloys[0].used = !first.taken[0], true
	first.cues["collet"] = 99
	second, want := m.memory.asTyped(), newMessage(m.typed)
	assert.Equal(t, want.found, second.found)
	assert.Equal(t, want.alloys, second.alloys)
	assert.Equal(t, want.taken, second.taken)
	assert.Equal(t, want.cues, second.cues)
	assert.Equal(t, want.senses, second.senses)
}
