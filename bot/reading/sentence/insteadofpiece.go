package sentence

import "guildhand/bot/reading/intent"

// How sure a message must be of a question about safety to be answered so in place of
// what the rules found, and how near a fact must be to stand all the same.
const (
	surelySafety  = 0.75 // in place of a question back, or of nothing
	plainlySafety = 0.9  // in place of a fact
	ofItsWords    = 1.2
)

// Words by which a question about safety that names no job is about fire, or about those
// who learn.
var (
	fireWords = []string{"solder", "soldering", "torch", "torches", "burner", "gas", "flame", "fire", "propane", "butane", "cylinder", "cylinders", "hob"}
	ofClass   = []string{"kids", "grandkids", "children", "child", "students", "pupils", "class", "teens", "teenagers", "year olds", "grandchildren", "scouts", "beginners"}
)

// surelyCautions answers a question that by all its words is about safety with the
// cautions of its job.
func (m *message) surelyCautions(r Reading) (Reading, bool) {
	chance := m.chance("cautions")
	least := surelySafety
	if r.Outcome == Question && r.Request == "heat" {
		least = possible // both are of work at the fire
	}
	if chance < least || m.context.Aid != "" || m.context.surely {
		return Reading{}, false
	}
	switch r.Outcome {
	case Question, Unknown:
	case Request:
		if r.Request != "help" && r.Request != "heat" {
			return Reading{}, false
		}
	case Explanation:
		fact := factNamed(r.Topic)
		if fact == nil || fact.Warns || chance < plainlySafety || m.chance(intent.Explanation) > unlikely || m.nearTo(fact.Key) >= ofItsWords {
			return Reading{}, false
		}
	default:
		return Reading{}, false
	}
	if known, ok := m.nearestByAllWords(ofItsWords); ok {
		return known, true
	}
	m.release()
	if named, ok := m.cautions(); ok && named.Outcome == Request {
		return named, true
	}
	for _, q := range m.found {
		q.used = true // no figure of a caution depends on them
	}
	d := m.draft("cautions")
	switch {
	case m.says(fireWords...):
		d.say("job", "soldering")
	case m.says(ofClass...):
		d.say("job", "class")
	default:
		return Reading{}, false
	}
	return d.reading(), true
}

// nearTo is how near a topic is to the message by all its words.
func (m *message) nearTo(key string) float64 {
	for _, t := range m.rankedTopics() {
		if t.fact != nil && t.fact.Key == key {
			return t.near
		}
	}
	return 0
}

// How near a trouble or a fact must be to a message with figures to be told in place of a
// question about a piece, and how sure the message must be of one. In place of a piece it
// must be nearer and surer.
const (
	troubleAmidFigures = 1.12
	troubleNotPiece    = 1.35
	factAmidFigures    = 1.6
)

// toldInstead tells what is known of a message whose figures belong to its story, where
// otherwise a piece of them would be asked about.
func (m *message) toldInstead(r Reading) (Reading, bool) {
	if m.figureCount() == 0 || m.context.Aid != "" || m.context.surely || m.wishes() || m.words() < wholeQuestion || m.says("how many", "how much", "how long") || m.says(wantsFigures...) {
		return Reading{}, false
	}
	asked := r.Outcome == Question || r.Outcome == Unknown
	trouble, explanation := m.chance(intent.Trouble), m.chance(intent.Explanation)
	if trouble < wantsToKnow && explanation < sure {
		return Reading{}, false
	}
	worked := r.Outcome == Request && readersOf[r.Request] != nil
	if !asked && !worked {
		return Reading{}, false
	}
	all := m.rankedTopics()
	if len(all) == 0 {
		return Reading{}, false
	}
	first := all[0]
	switch {
	case first.trouble != nil && asked:
		return m.readingOf(match{topic: first.topic}), trouble >= sure && first.near >= troubleAmidFigures
	case first.trouble != nil && worked:
		return m.readingOf(match{topic: first.topic}), trouble >= wantsToKnow && first.near >= troubleNotPiece
	case first.fact != nil && asked:
		return m.readingOf(match{topic: first.topic}), explanation >= sure && first.near >= factAmidFigures
	}
	return Reading{}, false
}
