package sentence

import (
	"strings"

	"guildhand/bot/reading/intent"
)

// How sure it must be that a message asks nothing, or nothing of the trade, to be met so where
// the rules found a question, a topic or nothing.
const (
	surelyTalk    = 0.9
	surelyOutside = 0.9
	// mayOnlyTalk is asked for where a message that asks nothing has a word of a topic or of a
	// job, which it hardly asks for: no likelier than hardlyAsked.
	mayOnlyTalk = 0.45
	hardlyAsked = 0.32
)

// whoWords ask what answers here.
var whoWords = []string{"human", "person", "robot", "machine", "real person", "ai", "bot", "computer", "program", "chatbot"}

// ofItself answers who asks whether a person or a program answers.
func (m *message) ofItself() (Reading, bool) {
	if len(m.found)+len(m.alloys) > 0 || !m.asksWhoAnswers() {
		return Reading{}, false
	}
	return worked("who answers", "this program", "I am a program, not a person: I work out settings, rings and metal by fixed rules, and a person wrote what I know. Say help to see what I can do; a teacher of your guild can judge what I can't see.")
}

// mostOfWho is how many words a question for who answers has at most.
const mostOfWho = 14

// asksWhoAnswers reports whether a message asks who or what answers here.
func (m *message) asksWhoAnswers() bool {
	if m.says(whoWords...) && m.says("are you", "r u", "are u", "is this a", "is there a", "am i talking to", "am i speaking to", "talking to a", "you a", "you are a", "you a real") {
		return true
	}
	if m.words() > mostOfWho {
		return false
	}
	return m.says("with whom am i", "to whom am i", "who am i talking", "who am i speaking", "who am i writing", "who am i chatting", "who are you", "are you one of the teachers", "are you a teacher", "are you the teacher", "are you real", "are you alive", "are you human",
		"your name", "who made you", "who wrote you", "who built you", "who programmed you", "who runs you", "a person write you", "somebody write you", "is it a person", "is this a person", "=u a bot", "=u real")
}

// asksNothing reports whether a message is no question and no wish by any of its words.
func (m *message) asksNothing() bool {
	return !strings.Contains(m.typed, "?") && !m.questionWord() && !m.wishes() && !m.says("need", "want", "please", "pls", "how", "what", "which", "safety", "cautions", "tell me", "help", "any ideas")
}

// talkInstead is silent where a message is surely mere talk, and declines where it is surely of
// another trade, in place of a question back, a topic or nothing.
func (m *message) talkInstead(r Reading) Reading {
	if m.talksOfBefore(&r) {
		return Reading{Outcome: Silent}
	}
	if m.likelyTalks(&r) {
		return Reading{Outcome: Silent}
	}
	if !m.byItself() || r.Outcome == FirstAid || r.Outcome == Request || r.Outcome == Declined || r.Outcome == Silent {
		return r
	}
	if own, ok := m.anew().ofItself(); ok {
		return own
	}
	if fact := factNamed(r.Topic); fact != nil && fact.Warns {
		return r
	}
	switch {
	case m.chance(intent.Silent) >= surelyTalk && (len(m.found) == 0 || !strings.Contains(m.typed, "?")) && !m.wishes():
		return Reading{Outcome: Silent}
	case m.chance(intent.Declined) >= surelyOutside && r.Outcome != Question:
		return m.outsideSomehow()
	}
	return r
}

// likelyTalks reports whether a message only tells of the day, and was read by a word of it as
// something that it hardly asks for: "cold enough to freeze the pickle".
func (m *message) likelyTalks(r *Reading) bool {
	if !m.byItself() || m.context.Last != nil || len(m.found) > 0 || !m.asksNothing() || m.chance(intent.Silent) < mayOnlyTalk {
		return false
	}
	if fact := factNamed(r.Topic); fact != nil && fact.Warns {
		return false
	}
	byWord := r.Request == "cautions" && r.Outcome != FirstAid || r.Outcome == Explanation && r.Verdict == "" || offersTopics(r)
	return byWord && m.chance(intentsOf(*r)...) < hardlyAsked
}

// mayBeTalk is the chance of mere talk from which one that asks for nothing is none of the log.
const mayBeTalk = 0.3

// talksOfBefore reports whether a message that was read as a look into the log only tells of
// what was: "your answer yesterday was perfect".
func (m *message) talksOfBefore(r *Reading) bool {
	if r.Request != "daybook" || r.Outcome != Request || r.Options["action"] != "" || r.Options["find"] != "" || m.chance(intent.Silent) < mayBeTalk {
		return false
	}
	return !strings.Contains(m.typed, "?") && !m.says("show", "list", "find", "what", "which", "see", "pull up", "look up", "get me", "give me", "bring up", "open", "daybook", "log", "forget", "where")
}
