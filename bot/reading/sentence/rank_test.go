package sentence

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"

	"guildhand/bot/knowledge"
)

// knownQuestion is a question that a topic is known to answer, and what was read of it.
type knownQuestion struct {
	topic, say string
	read       Reading
}

// knownQuestions are read once for all tests.
var knownQuestions = sync.OnceValue(func() (all []knownQuestion) {
	add := func(topic string, questions []string) {
		for _, say := range questions {
			all = append(all, knownQuestion{topic, say, Read(say, Context{Addressed: true, Takes: takes, Excludes: excludes})})
		}
	}
	for _, f := range knowledge.Facts() {
		add(f.Key, f.Questions)
	}
	for _, s := range knowledge.Troubles() {
		add("trouble: "+s.Key, s.Questions)
	}
	return all
})

// Questions that a topic is known to answer reach it, or a topic beside it, through
// the whole reader. With -v the others are listed.
func TestQuestionsReachTheirTopic(t *testing.T) {
	t.Parallel()
	all, reached := knownQuestions(), 0
	for _, q := range all {
		if q.read.Topic == q.topic {
			reached++
			continue
		}
		t.Logf("%s: %s -> %s", q.topic, q.say, shown(q.read))
	}
	t.Logf("%d of %d questions reach their topic", reached, len(all))
	assert.GreaterOrEqual(t, float64(reached)/float64(len(all)), 0.8)
}
