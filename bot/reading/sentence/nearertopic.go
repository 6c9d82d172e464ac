package sentence

import (
	"strings"

	"guildhand/bot/knowledge"
)

// How near a topic must be to a message by all its words to take the place of one that single
// words of it found, and how much nearer it must be than that one and than any third.
const (
	clearlyNear   = 1.2
	clearlyNearer = 0.3
	clearlyFirst  = 0.15
	// fewTelling is how many telling words find a topic well by themselves: then another must
	// be nearer by clearlyNearerOfFew.
	fewTelling         = 4
	clearlyNearerOfFew = 0.7
	// whyNear is asked for where metal's heat was understood and a why is asked.
	whyNear = 1.5
	// nearestOffered and firstOffered are asked for in place of a question that offers topics.
	nearestOffered = 1.0
	firstOffered   = 0.1
)

// nearerTopic is the topic that all words of a message are clearly nearer to, in place of one
// that some of them found: "how do you get scratches out of the inside of a ring" has the
// words of a mark on a dome. Where figures are said the words alone decide nothing, and a term
// that is asked for outright is explained.
func (m *message) nearerTopic(r Reading) Reading {
	wish := m.startsWith("i want", "i need", "id like") && m.tellingWords() <= fewTelling
	if m.figureCount() > 0 || wish || !m.byItself() && !m.asksWhole(&r) {
		return r
	}
	all := m.rankedTopics()
	if len(all) < 2 || m.tellingWords() < 2 || m.tellingWords() < fewestTelling && (all[0].near < clearlyNear || all[0].near < allButSame && (foundByWords(&r) || r.Outcome == Request)) {
		return r
	}
	near, lead := all[0].near, all[0].near-all[1].near
	switch {
	case foundByWords(&r):
		nearer := clearlyNearer
		if m.tellingWords() <= fewTelling {
			nearer = clearlyNearerOfFew
		}
		if m.asksForTermOf(r.Topic) || m.startsWith("why") && strings.HasPrefix(r.Topic, "why ") || near < clearlyNear || lead < clearlyFirst || near-nearnessOf(all, r.Topic) < nearer {
			return r
		}
	case offersTopics(&r), r.Outcome == Unknown && m.asksInWords(), r.Outcome == Question && r.Request == "heat" && len(m.alloys) == 0:
		if near < nearestOffered || lead < firstOffered || m.says("blank for", "strip for", "template for") && m.asksForMeasure() {
			return r
		}
	case r.Outcome == Request && r.Request == "heat" && r.Options["stone"] == "" && m.asksForReason():
		if near < whyNear || lead < clearlyFirst {
			return r
		}
	default:
		return r
	}
	return m.readingOf(match{topic: all[0].topic})
}

// asksWhole reports whether a message that comes after a piece asks something whole of its own.
func (m *message) asksWhole(r *Reading) bool {
	if m.context.Asked != nil || m.pointsBack() {
		return false
	}
	return foundByWords(r) || r.Outcome == Request && r.Request == "heat" && m.tellingWords() > fewTelling
}

// asksForReason reports whether a message asks why something is so, or what it does, and for no
// temperature.
func (m *message) asksForReason() bool {
	return m.says("why", "how come", "what happens", "difference", "reason", "makes") && !m.has("temperature")
}

// foundByWords reports whether a reading is a topic that words have found, and no warning.
func foundByWords(r *Reading) bool {
	if r.Outcome == Request {
		return r.Request == "trouble"
	}
	fact := factNamed(r.Topic)
	return r.Outcome == Explanation && fact != nil && !fact.Warns && fact.Of == "" && !strings.HasPrefix(fact.Key, knowledge.OfTracing)
}

// nearnessOf is how near the topic of a reading is, 0 where it hardly is.
func nearnessOf(all []ranked, key string) float64 {
	for _, t := range all {
		if t.fact != nil && t.fact.Key == key || t.trouble != nil && "trouble: "+t.trouble.Key == key {
			return t.near
		}
	}
	return 0
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
