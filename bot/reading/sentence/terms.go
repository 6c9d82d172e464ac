package sentence

import (
	"fmt"
	"strings"

	"guildhand/bot/reading/intent"
)

// Found is a message with what the reader finds in it, for the models of all words.
func Found(typed string) intent.Message { return newMessage(typed).asFound() }

func (m *message) asFound() intent.Message {
	return intent.Message{Text: m.typed, Terms: m.terms(), Meanings: m.meanings()}
}

// terms are the message's words, with one sign for each kind of figure, for any metal
// and for each kind of thing that the lexicon knows by several names.
func (m *message) terms() (terms []string) {
	signs, ends := m.signs()
	for i := 0; i < len(m.tokens); i++ {
		t := m.tokens[i]
		switch {
		case signs[i] != "":
			terms = append(terms, signs[i])
			i = max(i, ends[i]-1)
		case t.stem != "":
			terms = append(terms, t.stem)
		case t.text != "," && t.text != ".":
			terms = append(terms, t.text)
		}
	}
	return terms
}

// signs are, by the token where one begins, the signs of figures, metals and named
// things, with the token after each.
func (m *message) signs() (signs []string, ends []int) {
	signs, ends = make([]string, len(m.tokens)), make([]int, len(m.tokens))
	put := func(first, next int, sign string) {
		if first < len(signs) && signs[first] == "" {
			signs[first], ends[first] = sign, next
		}
	}
	for _, q := range m.found {
		put(q.first, q.next, q.sign())
	}
	for _, a := range m.alloys {
		put(a.first, a.next, "@metal")
	}
	for _, s := range m.senses {
		for _, means := range s.Means {
			if kind, _, named := strings.Cut(means, ":"); named {
				put(s.first, s.next, "@"+kind)
			}
		}
	}
	return signs, ends
}

// sign of a figure: what it measures, and whether it has a unit.
func (q *quantity) sign() string {
	if q.unit {
		return "#" + measureNames[q.measure] + "!"
	}
	return "#" + measureNames[q.measure]
}

// mostCue is the weight of a cue from which on more says nothing new.
const mostCue = 3

// meanings are what the lexicon says of the message's phrases, and its figures' signs.
func (m *message) meanings() (all []string) {
	for _, q := range m.found {
		all = append(all, q.sign())
	}
	for range m.alloys {
		all = append(all, "@metal")
	}
	for _, s := range m.senses {
		for _, means := range s.Means {
			all = append(all, "means "+means)
		}
		for job, weight := range s.Cues {
			all = append(all, fmt.Sprintf("cue %s %d", job, min(weight, mostCue)))
		}
		if s.Role != "" {
			all = append(all, "role "+s.Role)
		}
	}
	return all
}
