package sentence

import (
	"strings"

	"guildhand/bot/reading/intent"
)

// A question in a talk leaves out what the talk is about: "quenched it, yes, from red"
// after gold that cracked. Where nothing else was understood, the topic is looked for
// with the subject of the talk beside the question's own words.

const (
	// talkedOf is how well a topic must match that is found with the talk's subject.
	talkedOf = 0.5
	// fewestTalked is how many words it must share with the message and the subject,
	// and fewestAlone how many with the message itself.
	fewestTalked, fewestAlone = 3, 2
	// foundTwiceNear is how near a topic must be that both rankings find first: of those in
	// testdata more than two in three are right from there on.
	foundTwiceNear = 0.75
)

// inTalk answers a message that was not understood by the topic nearest to it and to
// what was spoken of.
func (m *message) inTalk(alone Reading) (Reading, bool) {
	if alone.Outcome != Unknown && !offersTopics(&alone) || m.context.Last == nil && m.context.Topic == "" || m.onlyChatter() || m.words() < 3 || m.has("thanks", "greeting") {
		return Reading{}, false
	}
	beside := newMessage(m.typed + " " + strings.Join(m.topicNames(), " "))
	beside.context = m.context
	if r, ok := m.foundTwice(beside); ok {
		return r, true
	}
	near := beside.nearestTopics()
	if len(near) == 0 || near[0].hits < fewestTalked || near[0].score < talkedOf || !m.mayBe(near[0]) {
		return Reading{}, false
	}
	for _, own := range m.nearestTopics() {
		if own.topic == near[0].topic && own.hits >= fewestAlone {
			return m.readingOf(near[0]), true
		}
	}
	return Reading{}, false
}

// foundTwice is the topic that is nearest by all words of the message, and still is when
// the subject of the talk is added to them.
func (m *message) foundTwice(beside *message) (Reading, bool) {
	toldOn := m.context.Last != nil && m.context.Last.Request == "trouble"
	if m.whole() && !toldOn {
		return Reading{}, false // it leaves nothing out
	}
	ofTrouble := toldOn || !m.tooShort() && m.chance(intent.Trouble) > mayBeTrouble
	if m.wishes() || !m.asksInWords() && !ofTrouble {
		return Reading{}, false // a remark asks nothing
	}
	alone, both := m.rankedTopics(), beside.rankedTopics()
	if len(alone) == 0 || len(both) == 0 || alone[0].topic != both[0].topic || both[0].near < foundTwiceNear || len(m.found) > 0 {
		return Reading{}, false
	}
	return m.readingOf(match{topic: both[0].topic}), true
}
