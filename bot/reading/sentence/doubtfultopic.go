package sentence

import (
	"fmt"
	"slices"
	"strings"

	"guildhand/bot/knowledge"
)

// A topic that nothing but its words' nearness speaks for answers another question about once
// in three where it is not near. Then the answer says so first, and says neither yes nor no;
// and one that leaves most of the message unexplained is offered and not told. Measured on
// the sets of testdata: of topics under farFromAsked that explain less than leastExplained,
// six in seven are wrong.
const (
	nearAsAsked    = 1.5
	farFromAsked   = 1.3
	leastExplained = 0.2
)

// honestly says of the nearest topic that it may not be what was asked.
func (m *message) honestly(r Reading) Reading {
	fact := factNamed(r.Topic)
	if fact == nil || !r.isNearest() || m.asksForTermOf(r.Topic) {
		return r
	}
	all := m.rankedTopics()
	near := nearnessOf(all, r.Topic)
	if near >= nearAsAsked {
		return r
	}
	if !fact.Warns && m.tellingWords() > 1 && near < farFromAsked && topicRanking().explained(m.text(), fact) < leastExplained {
		return m.offeredTopics(all)
	}
	r.Notes = slices.DeleteFunc(r.Notes, func(n string) bool { return strings.HasPrefix(n, nearestKnown) })
	lead := "The nearest that I know is on %q: %s"
	if near < farFromAsked {
		lead = "I know nothing certain on that. " + lead
	}
	r.Text = fmt.Sprintf(lead, r.Topic, withoutYesOrNo(r.Text))
	return r
}

// offeredTopics asks which of the nearest topics is meant, and says that nothing certain is
// known.
func (m *message) offeredTopics(all []ranked) Reading {
	r := Reading{Outcome: Question, Ask: nothingCertain + " If none, say it in other words"}
	for _, t := range all[:min(mostOffered, len(all))] {
		r.Choices = append(r.Choices, t.choice())
	}
	if len(r.Choices) == 0 {
		return Reading{Outcome: Unknown}
	}
	return r
}

// explained is how much of a text's words, by their weight, the topic of a fact has.
func (r *ranking) explained(text string, fact *knowledge.Fact) float64 {
	at := slices.IndexFunc(r.topics, func(t topic) bool { return t.fact == fact })
	has := func(stem string) float64 {
		for _, s := range r.inTopics[stem] {
			if s.at == at {
				return s.weight
			}
		}
		return 0
	}
	whole, explained := 0.0, 0.0
	for _, stem := range tellingStems(text) {
		weight, known := r.weight[stem]
		if !known {
			weight = r.unknown * shareOf(stem)
		}
		best := has(stem)
		for _, w := range wordsLike()[stem] {
			best = max(best, w.alike*has(w.stem))
		}
		whole, explained = whole+weight, explained+weight*best
	}
	if whole == 0 {
		return 0
	}
	return explained / whole
}
