package sentence

import (
	"slices"

	"guildhand/bot/reading/intent"
)

// The rules look for what a message says in particular; what it most likely asks
// for, by all its words, is a second opinion. It overrules the rules where it is
// sure and they find something that it holds for most unlikely.
const (
	sure  = 0.6  // of what is taken in place of the rules' finding
	surer = 0.85 // where they found a request that is named
	// unlikely is the chance under which the rules' finding is given up.
	unlikely = 0.12
	// certain is the chance of a question of knowledge above which it goes before
	// a piece that could be worked out.
	certain = 0.9
	// noTrouble is the chance of a trouble under which none is told of.
	noTrouble = 0.03
	// wantsToKnow is the chance of an explanation or a trouble above which a
	// message asks to know something and not to have a piece worked out.
	wantsToKnow = 0.75
	// knownAlone is how much of such a message's words the topic must explain.
	knownAlone = 0.58
)

// knowing are the intents that are answered from what is known in words.
var knowing = []string{intent.Explanation, intent.Trouble, "heat", "cautions"}

// chance is how likely the message asks for one of these.
func (m *message) chance(intents ...string) float64 {
	return m.memory.intentsOfAll().Of(intents...)
}

// likeliest is what the message most likely asks for.
func (m *message) likeliest() (string, float64) {
	return m.memory.intentsOfAll().Best()
}

// readersOf read the request that a message most likely asks for.
var readersOf = map[string]func(*message) (Reading, bool){
	"collet":   func(m *message) (Reading, bool) { return m.collet("collet"), true },
	"collar":   func(m *message) (Reading, bool) { return m.collet("collar"), true },
	"prongs":   func(m *message) (Reading, bool) { return m.collet("prongs"), true },
	"bezel":    func(m *message) (Reading, bool) { return m.bezel(), true },
	"band":     func(m *message) (Reading, bool) { return m.band(), true },
	"dome":     func(m *message) (Reading, bool) { return m.dome(), true },
	"melt":     (*message).melt,
	"weigh":    (*message).weigh,
	"gauge":    (*message).gaugeOf,
	"match":    (*message).matchOrAsk,
	"jumpring": (*message).jumpring,
	"tubeset":  (*message).tubeset,
	"halo":     (*message).halo,
	"resize":   (*message).ringResize,
	"saddle":   (*message).saddle,
	"tune":     (*message).trialReport,
	"kit":      (*message).kit,
}

// readersBeside read what is no piece.
var readersBeside = map[string]func(*message) (Reading, bool){
	"heat":     (*message).heat,
	"cautions": (*message).cautions,
	"bench":    (*message).bench,
	"daybook":  (*message).daybook,
	"help":     (*message).help,
}

// likelyJob reads what the message most likely asks for in place of what the
// rules have found, which is zero where they found nothing.
func (m *message) likelyJob(found Reading) (Reading, bool) {
	if m.tooShort() || len(found.Choices) > 1 || m.countsProngs(found) {
		return Reading{}, false
	}
	wanted, chance := m.likeliest()
	if chance < sure || wanted == found.Request || m.chance(found.Request) > unlikely || !m.context.takes(wanted, "") {
		return Reading{}, false
	}
	named := m.says(found.Request) && !m.says(wanted) && wanted != "kit" // which names the piece of each maker
	if named || m.cues[found.Request] >= plainlyNamed && chance < surer {
		return Reading{}, false
	}
	read := readersOf[wanted]
	if read == nil || found.Outcome == Explanation && found.Topic != "thickness" {
		return Reading{}, false
	}
	m.release()
	r, ok := read(m)
	if !ok {
		return Reading{}, false
	}
	return m.withVerdict(r), true
}

// plainlyNamed is the weight of the words that name a request for certain.
const plainlyNamed = 3

// fewestWords is how many words a message needs to be judged by all of them.
const fewestWords = 4

// wholeQuestion is how many words a question needs to be whole by itself.
const wholeQuestion = 8

func (m *message) tooShort() bool { return m.words() < fewestWords }

// words is how many words a message has.
func (m *message) words() int {
	n := 0
	for _, t := range m.tokens {
		if t.word() {
			n++
		}
	}
	return n
}

// asksFor reports whether a message may ask for one of these: what is too short
// to be judged may ask for anything.
func (m *message) asksFor(intents ...string) bool {
	return m.tooShort() || m.chance(intents...) >= unlikely
}

// whole reports whether a message is a question by itself.
func (m *message) whole() bool { return m.words() >= wholeQuestion && !m.pointsBack() }

// asksToKnowAnew reports whether a message asks to know something that has
// nothing to do with the last piece.
func (m *message) asksToKnowAnew() bool {
	return m.context.Last != nil && m.whole() && m.chance(knowing...) >= certain
}

// wantsKnowledge reports whether the message asks to know something.
func (m *message) wantsKnowledge() bool {
	return !m.tooShort() && m.chance(knowing...) >= wantsToKnow
}

// onlyKnowledge reports whether a reading is one of those that answer in words.
func onlyKnowledge(r Reading) bool {
	return r.Outcome == Explanation || r.Outcome == Declined || slices.Contains(knowing, r.Request)
}

// knownEnough is how much of a message's words a topic must explain; more where
// the message may be about the last piece: it is short or points back.
func (m *message) knownEnough() float64 {
	if (m.context.Last != nil || m.context.Asked != nil) && !m.whole() {
		return answers
	}
	return knownAlone
}

// knownInWords answers a message that asks to know something by the topic
// nearest to it, whatever figures it has. Where a piece could be worked out, the
// topic must be nearer.
func (m *message) knownInWords(piece Reading) (Reading, bool) {
	enough := m.knownEnough()
	if piece.Outcome == Request {
		if m.chance(knowing...) < certain {
			return Reading{}, false
		}
		enough = answers
	}
	near := m.nearestTopics()
	if len(near) > 0 && near[0].score >= enough && near[0].hits >= 2 && m.mayBe(near[0]) && (m.figureCount() == 0 || m.asksToKnow() || near[0].score >= answers) {
		return m.readingOf(near[0]), true
	}
	if m.figureCount() == 0 && m.chance(knowing...) >= certain && len(m.meaning("outline:")) == 0 {
		return m.nearestByAllWords(nearEnough)
	}
	return Reading{}, false
}

// mayBe reports whether the message may ask for a topic: a trouble needs some
// chance that there is one.
func (m *message) mayBe(t match) bool {
	return t.trouble == nil || m.tooShort() || m.chance(intent.Trouble) >= noTrouble
}
