package sentence

import (
	"strings"

	"guildhand/bot/knowledge"
)

// How much nearer by all its words another topic must be to a message than the one that
// single words of it found, and than any third.
const (
	clearlyNear   = 1.2
	clearlyNearer = 0.3
	clearlyFirst  = 0.15
)

// nearerTopic is the topic that all words of a message are clearly nearer to, in place of one
// that some of them found: "how do you get scratches out of the inside of a ring" has the
// words of a mark on a dome. Where figures are said the words alone decide nothing, and a term
// that is asked for outright is explained.
func (m *message) nearerTopic(r Reading) Reading {
	if !m.byItself() || m.figureCount() > 0 || !foundByWords(&r) || m.asksForTermOf(r.Topic) || m.tellingWords() < fewestTelling {
		return r
	}
	all := m.rankedTopics()
	if len(all) < 2 || all[0].near < clearlyNear || all[0].near-all[1].near < clearlyFirst {
		return r
	}
	for _, t := range all {
		if t.topicKey() == r.Topic && all[0].near-t.near < clearlyNearer {
			return r
		}
	}
	return m.readingOf(match{topic: all[0].topic})
}

// foundByWords reports whether a reading is a topic that words have found, and no warning.
func foundByWords(r *Reading) bool {
	if r.Outcome == Request {
		return r.Request == "trouble"
	}
	fact := factNamed(r.Topic)
	return r.Outcome == Explanation && fact != nil && !fact.Warns && !strings.HasPrefix(fact.Key, knowledge.OfTracing)
}

// topicKey is how a reading names the topic.
func (t *topic) topicKey() string {
	if t.fact != nil {
		return t.fact.Key
	}
	return "trouble: " + t.trouble.Key
}

// asksForTermOf reports whether a message asks outright what a term of a fact is.
func (m *message) asksForTermOf(topic string) bool {
	fact := factNamed(topic)
	if fact == nil {
		return false
	}
	for _, t := range fact.Term {
		if m.asksOutright(t) {
			return true
		}
	}
	return false
}
