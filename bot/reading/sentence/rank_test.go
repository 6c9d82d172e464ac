package sentence

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/bot/knowledge"
)

// Questions that a topic is known to answer reach it, or a topic beside it, through
// the whole reader. With -v the others are listed.
func TestQuestionsReachTheirTopic(t *testing.T) {
	t.Parallel()
	reached, n := 0, 0
	check := func(topic string, questions []string) {
		for _, say := range questions {
			n++
			r := Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})
			if r.Topic == topic {
				reached++
				continue
			}
			t.Logf("%s: %s -> %s", topic, say, shown(r))
		}
	}
	for _, f := range knowledge.Facts() {
		check(f.Key, f.Questions)
	}
	for _, s := range knowledge.Troubles() {
		check("trouble: "+s.Key, s.Questions)
	}
	t.Logf("%d of %d questions reach their topic", reached, n)
	assert.GreaterOrEqual(t, float64(reached)/float64(n), 0.8)
}
