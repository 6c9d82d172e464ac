package sentence

import "slices"

// Subject counts what of the trade a message names. A room's chatter names
// nothing of it, or a number at most.
type Subject struct {
	// Things are metals, stones, jobs and quantities with a unit; Numbers are bare.
	Things, Numbers int
	// Words is how long the message is.
	Words int
}

// SubjectOf looks what of the trade a message names.
func SubjectOf(typed string) Subject {
	m := newMessage(typed)
	s := Subject{Things: len(m.alloys), Words: len(m.tokens)}
	for _, q := range m.found {
		if q.unit || q.measure != bare {
			s.Things++
		} else {
			s.Numbers++
		}
	}
	for _, said := range m.senses {
		if !slices.Contains(said.Means, "greeting") && !slices.Contains(said.Means, "thanks") {
			s.Things++
		}
	}
	return s
}

// Spoken reports whether a message is said in words, and not typed as a line of
// options with a slip in it: it has words that say nothing to a request.
func Spoken(typed string) bool {
	for _, t := range tokenize(typed) {
		if spoken[t.text] {
			return true
		}
	}
	return false
}

// Clean reports whether every word and number of a message is known to a request, so that
// nothing of a typed line is passed over.
func Clean(typed string) bool { return newMessage(typed).hasOnly(func(token) bool { return false }) }

// InPlainWords reports whether a message has words that say nothing to a request and are no
// option of it, all of them words that people use at the bench or anywhere, and no slip of
// the keyboard.
func InPlainWords(typed string, isOption func(word string) bool) bool {
	m := newMessage(typed)
	return m.hasOnly(usedInTalk) && !m.hasOnly(func(t token) bool { return isOption(t.text) })
}

// hasOnly reports whether every word of a message says something to a request, fills up, or is
// allowed besides, and no number stands after a minus.
func (m *message) hasOnly(allowed func(token) bool) bool {
	for i, t := range m.tokens {
		switch {
		case t.text == "-" && m.at(i+1).number && !m.at(i-1).number:
			return false // a minus
		case i > 0 && t.word() && !m.taken[i] && !fillers[t.text] && t.text != "x" && t.text != "by" && !allowed(t):
			return false
		}
	}
	return true
}

// usedInTalk reports whether a word is one that people use at the bench or anywhere.
func usedInTalk(t token) bool { return commonWords[t.text] || known[t.text] || known[t.stem] }

// OfTheTrade reports whether a message has anything of the trade in it: a figure, a
// metal, a stone, a tool, a job.
func OfTheTrade(typed string) bool {
	m := newMessage(typed)
	return len(m.found) > 0 || len(m.alloys) > 0 || len(m.senses) > 0 && !(len(m.senses) == 1 && m.has("greeting", "thanks"))
}

// spoken are words of sentences that no line of options has.
var spoken = map[string]bool{"i": true, "my": true, "a": true, "an": true, "the": true, "is": true, "do": true, "what": true, "how": true, "can": true, "need": true, "have": true, "for": true, "this": true, "it": true, "please": true, "want": true, "should": true, "will": true, "would": true, "whats": true, "does": true, "which": true, "where": true, "why": true, "im": true, "me": true, "are": true, "of": true}

// AsksToKnow reports whether a message asks something in words and has no figure to
// work with.
func AsksToKnow(typed string) bool {
	m := newMessage(typed)
	return m.figureCount() == 0 && len(m.tokens) > 2 && m.asksInWords()
}
