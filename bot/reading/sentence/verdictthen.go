package sentence

import (
	"slices"
	"strings"
)

// A verdict on a thickness is gone on from in few words: another figure, "what about 18",
// another use, "and for a man's ring", what else is known, "it's 18 ct and 3 wide". Each makes
// a question anew of the one before, which is judged as if it had been asked whole.

// isVerdict reports whether a topic is a verdict on how thick something is.
func isVerdict(topic string) bool {
	return strings.HasPrefix(topic, "limit: ") || topic == "thickness"
}

// longestThen is how many words a message has at most that goes on from a verdict.
const longestThen = 12

// ofAnotherSum are words of what is no verdict.
var ofAnotherSum = []string{"how long", "length", "cut", "weigh", "weight", "blank", "strip", "template", "solder", "flux", "how much", "how many", "kit", "pickle", "anneal", "torch", "heat", "convert", "size"}

// thenWhy ask why a verdict is as it is.
var thenWhy = []string{"why not thinner", "why not thicker", "why so thick", "why so thin", "why that thick", "why that much", "why is that", "how come", "why thicker", "why thinner"}

// leastAskedFor ask for the least that will do.
var leastAskedFor = []string{"minimum", "the least", "least you", "thinnest", "how thin", "lightest", "go to minimum"}

// ofWear tell how something is worn, or by whom.
var ofWear = []string{"every day", "everyday", "daily", "wear", "wears", "worn", "wearing", "builder", "gardener", "gardening", "farmer", "mechanic", "carpenter", "nurse", "gym", "climber", "heavy handed", "rough", "his hands", "her hands", "works with", "for a man", "for a lady", "for a woman", "pendant", "earring", "earrings", "brooch", "occasional", "sundays", "best"}

// questionThen is the question that a message makes of the one that was judged before: the
// same with another figure, another use, or what is told beside it. It is the same question
// where only more is asked of it, and none where the message does not go on from it.
func questionThen(judged string, m *message) (question string, goesOn bool) {
	if judged == "" || m.words() > longestThen || m.stoneSides() != nil || m.of(ringSize) != nil || m.says(ofAnotherSum...) {
		return "", false
	}
	before := newMessage(judged)
	figures := before.thinFigures()
	switch {
	case m.says(thenWhy...), m.says(leastAskedFor...), len(m.found)+len(m.alloys) == 0 && m.says(adviceWanted...):
		return judged, true
	case len(m.found) == 1 && len(m.alloys) == 0 && len(figures) == 1 && m.words() <= fewWords-3:
		return m.withFigure(before, figures[0].q)
	case m.startsWith("and for", "what about for", "how about for", "ok and for", "and on", "and in a", "for a") && len(m.found)+len(m.alloys) == 0:
		return m.withUse(before), true
	}
	tells := len(m.alloys) > 0 || len(m.found) > 0 && !slices.ContainsFunc(m.thinFigures(), func(f thinFigure) bool { return f.q.role != "width" }) || m.says(ofWear...)
	asks := m.asksInWords() && (!m.startsWith("what if", "and if", "if") || m.says("easier", "softer", "harder", "better", "difference"))
	if !tells || asks || m.wishes() || m.ownJob() {
		return "", false
	}
	return joinedQuestion(judged, m.text()), true
}

// judgedQuestion is the question that was judged last, once a message was, too.
func judgedQuestion(judged, typed string) string {
	m := newMessage(typed)
	if question, goesOn := questionThen(judged, m); goesOn {
		return question
	}
	if judged != "" && len(m.thinFigures()) == 2 {
		return judged // both were judged, and neither is chosen yet
	}
	return Joined(judged, typed)
}

// joinedQuestion adds what is told to a question, as far as it can be kept.
func joinedQuestion(question, told string) string {
	if len(question)+len(told) > longestSaid {
		return question
	}
	return question + ", " + told
}

// withFigure is a question with the figure of this message in place of its own.
func (m *message) withFigure(before *message, old *quantity) (string, bool) {
	q := m.found[0]
	shown := strings.TrimSpace(q.typed(m))
	switch {
	case q.role != "" && q.role != "thickness" || measuresSaid[m.at(q.next).text] == "width":
		return "", false
	case q.measure == bare && old.measure == gauge && q.value >= 8:
		shown += " gauge"
	case q.measure != gauge && (q.measure != bare && q.measure != length || q.value > thickest+2):
		return "", false
	}
	return strings.TrimSpace(before.between(0, old.first) + " " + shown + " " + before.between(old.next, len(before.tokens))), true
}

// withUse is a question with the use of this message in place of its own.
func (m *message) withUse(before *message) string {
	use := m.between(slices.IndexFunc(m.tokens, func(t token) bool { return t.text == "for" || t.text == "on" || t.text == "in" }), len(m.tokens))
	for i, t := range before.tokens {
		if t.text == "for" && i > 1 {
			return before.between(0, i) + " " + use
		}
	}
	return before.text() + " " + use
}

// judgedThen judges what a message that goes on from a verdict makes of its question.
func (m *message) judgedThen() (Reading, bool) {
	c := m.context
	if c.Said == "" || c.Asked != nil || c.Last != nil || !isVerdict(c.Topic) {
		return Reading{}, false
	}
	alone := Context{Takes: c.Takes, Excludes: c.Excludes, Addressed: c.Addressed}
	if both, ok := m.bothJudged(alone); ok {
		return both, true
	}
	question, goesOn := questionThen(c.Said, m)
	if !goesOn {
		return Reading{}, false
	}
	if question != c.Said {
		r := Read(question, alone)
		if r.Outcome == Explanation && (r.Topic == c.Topic || isVerdict(r.Topic) && !strings.HasPrefix(question, c.Said)) {
			return r, true
		}
		if len(m.found) == 1 && len(m.alloys) == 0 {
			return Reading{}, false // another figure is no verdict of the first one
		}
	}
	before := Read(c.Said, alone)
	if before.Outcome != Explanation || before.Topic != c.Topic {
		return Reading{}, false
	}
	if _, usual, parted := strings.Cut(before.Text, ". "); parted && !m.says(thenWhy...) {
		before.Text = usual
	}
	return before, true
}

// bothJudged judges two thicknesses that a message offers after a verdict: "I only have 0.3
// and 0.5".
func (m *message) bothJudged(alone Context) (Reading, bool) {
	judged := newMessage(m.context.Said)
	piece := strings.TrimSuffix(strings.TrimPrefix(m.context.Topic, "limit: "), " thickness")
	if len(m.found) != 2 || len(m.alloys) > 0 || m.words() > longestThen+4 || m.stoneSides() != nil || m.says(ofAnotherSum...) || len(m.thinFigures()) != 2 || !m.says("and", "or") || m.says("wide", "high", "tall", "long") {
		return Reading{}, false
	}
	var told []string
	before, r := judged.thinFigures(), Reading{}
	for _, q := range m.found {
		question := "is " + strings.TrimSpace(q.typed(m)) + " thick enough for a " + piece
		if len(before) == 1 {
			question = strings.TrimSpace(judged.between(0, before[0].q.first) + " " + strings.TrimSpace(q.typed(m)) + " " + judged.between(before[0].q.next, len(judged.tokens)))
		}
		if r = Read(question, alone); r.Outcome != Explanation || !isVerdict(r.Topic) {
			return Reading{}, false
		}
		verdict, _, _ := strings.Cut(r.Text, ". ")
		told = append(told, strings.TrimSuffix(verdict, ".")+".")
	}
	if told[0] == told[1] {
		return Reading{}, false
	}
	r.Text = strings.Join(told, " ")
	return r, true
}
