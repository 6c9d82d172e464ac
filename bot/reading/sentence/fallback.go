package sentence

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// fallback is for what no rule has read: about the last piece it answers again or
// asks what is to change, and otherwise it asks which piece the figures are for.
// What is no question of the trade stays unread.
func (m *message) fallback() (Reading, bool) {
	if m.context.Last != nil {
		if r, ok := m.lastAgain(); ok {
			return r, true
		}
		return m.maybeChange()
	}
	return m.whichPiece()
}

// asksOfPiece begin questions that the last answer, or its working, replies to.
var asksOfPiece = []string{"how", "what", "whats", "which", "where", "so what", "so how", "and what", "and how", "so", "ok so", "and the", "and whats", "then", "ok then", "and where", "and which", "ok and"}

// lastAgain answers the last question once more, where the message asks of its
// piece and brings nothing new.
func (m *message) lastAgain() (Reading, bool) {
	last := m.context.Last
	if len(m.tokens) <= 5 && m.says("in mm", "in millimeters", "in millimetres", "in metric") && len(m.found) == 0 && m.context.takes(last.Request, "units") {
		options := maps.Clone(last.Options)
		options["units"] = "mm"
		return Reading{Outcome: Request, Request: last.Request, Options: options, Changed: []string{"units mm"}}, true
	}
	if len(m.found)+len(m.alloys)+len(m.meaning("outline:")) > 0 || len(m.tokens) > 10 || !m.startsWith(asksOfPiece...) || !m.ofTrade() || m.otherJob() {
		return Reading{}, false
	}
	if m.says("min", "minimum", "thinnest", "thickest", "smallest", "largest", "max", "maximum", "at least", "at most", "no less than") {
		return Reading{}, false // what may be is asked, not what is
	}
	if m.startsWith("why", "so why", "what is", "whats a", "what does") && !m.pointsBack() {
		return Reading{}, false
	}
	return Reading{Outcome: Request, Request: last.Request, Options: last.Options, Notes: []string{"this is your last piece again; the working says more"}}, true
}

// otherJob reports whether the message names another request than the last one.
func (m *message) otherJob() bool {
	best := m.mostNamed()
	return best != "" && m.cues[best] >= 2 && m.cues[m.context.Last.Request] < m.cues[best] && best != "weigh"
}

// partsOfPiece are words by which a message without figures asks of a piece.
var partsOfPiece = []string{"bottom", "top", "base", "rim", "opening", "hole", "angle", "height", "width", "length", "depth", "size", "radius", "wide", "deep", "tall", "high", "long", "thick", "weigh", "heavy", "seam", "strip", "blank", "disc", "wire", "tube", "first", "silver", "gold", "metal", "outside", "inside", "mm", "inches", "cut", "many", "seat", "bearing", "mandrel"}

func (m *message) ofTrade() bool { return m.says(partsOfPiece...) }

// maybeChange asks whether figures that came without words for them change the
// last piece.
func (m *message) maybeChange() (Reading, bool) {
	if len(m.found) == 0 || len(m.tokens) > 14 || m.asksAnew() {
		return m.whichPiece()
	}
	m.release()
	m.bindRoles()
	r, ok := m.change(*m.context.Last)
	if !ok {
		return m.whichPiece()
	}
	if r.Outcome == Request {
		choice := Choice{"yes: " + strings.Join(r.Changed, ", "), r.Request, r.Options}
		return Reading{Outcome: Question, Request: m.context.Last.Request, Options: m.context.Last.Options, Ask: shallChange, Choices: []Choice{choice}, Notes: r.Notes}, true
	}
	return r, true
}

// anyPiece is what figures may be for, tried in this order where no word says it.
var anyPiece = []struct {
	label string
	read  func(*message) (Reading, bool)
}{
	{"a tapered setting (faceted stone)", func(m *message) (Reading, bool) { return m.collet("collet"), true }},
	{"a bezel (cabochon)", func(m *message) (Reading, bool) { return m.bezel(), true }},
	{"a ring", func(m *message) (Reading, bool) { return m.band(), m.of(ringSize) != nil || m.cues["band"] > 0 }},
	{"a dome", func(m *message) (Reading, bool) { return m.dome(), m.cues["dome"] > 0 || m.has("disc") }},
	{"jump rings", func(m *message) (Reading, bool) { r, ok := m.jumpring(); return r, ok && m.has("wire") }},
	{"a piece of stock, to weigh", (*message).weigh},
	{"a thickness, to convert", (*message).gaugeOf},
}

// whichPiece asks what the figures of a message are for. Each choice has all of
// them.
func (m *message) whichPiece() (Reading, bool) {
	if len(m.found) == 0 || len(m.found) == 1 && m.found[0].measure == bare && len(m.alloys) == 0 && !m.has("stone") || len(m.found)+len(m.alloys)+len(m.meaning("outline:")) < 2 && !m.asks() {
		return Reading{}, false
	}
	m.bindRoles()
	r := Reading{Outcome: Question, Ask: "What do you want to work out with that?"}
	for _, p := range anyPiece {
		m.release()
		c, ok := p.read(m)
		if ok && c.Outcome == Request && len(m.unused()) == 0 && len(r.Choices) < 3 {
			r.Choices = append(r.Choices, Choice{p.label, c.Request, c.Options})
		}
	}
	m.release()
	if len(r.Choices) == 0 && len(m.senses) > 0 && m.asks() {
		r.Ask = fmt.Sprintf("I can't tell what to work out with %s. Name the piece: a collet, a bezel, prongs, a ring, a dome, jump rings or a piece of stock.", m.figures())
		return r, true
	}
	return r, len(r.Choices) > 0
}

// asks reports whether a message is put as a question or a wish.
func (m *message) asks() bool {
	return strings.Contains(m.typed, "?") || m.says("how", "what", "which", "whats", "need", "want", "can", "should", "does", "do", "please", "pls", "will", "is")
}

// figures lists the figures of a message as they were typed.
func (m *message) figures() string {
	var all []string
	for _, q := range m.found {
		all = append(all, strings.TrimSpace(q.typed(m)))
	}
	return strings.Join(all, ", ")
}

// unsure are answers to a question back that say nothing.
var unsure = []string{"dont know", "no idea", "not sure", "dunno", "idk", "no clue", "havent measured", "how do i know", "which one should i", "medium", "normal", "standard", "whatever", "up to you", "you choose", "you pick", "dont mind", "dont care", "any", "usual", "default", "either", "not bothered", "what do people use", "no preference"}

// linksTold stands before a question of jump rings for whoever asks how many there are.
const linksTold = "The answer will tell how many rings there are. "

// askedAgain repeats a question that was answered with "I don't know", or with one that only
// the answer to it can tell.
func (m *message) askedAgain() (Reading, bool) {
	none := len(m.tokens) <= 5 && m.says("neither", "none", "none of those", "none of them", "something else", "other", "another")
	which := len(m.tokens) <= 7 && m.says("difference", "which one", "what do you mean", "what does that mean", "which is better", "which is best", "whats best")
	r := *m.context.Asked
	links := m.countsLinks(Last{r.Request, r.Options})
	if len(m.tokens) > 10 || len(m.found)+len(m.alloys) > 0 || !m.says(unsure...) && !none && !which && !links {
		return Reading{}, false
	}
	if usual := m.usualChoice(r); usual != nil && !none && !which && !links {
		return *usual, true
	}
	r.Options = maps.Clone(r.Options)
	r.Choices = slices.Clone(r.Choices)
	switch {
	case strings.HasPrefix(r.Ask, "Then"):
	case links:
		r.Ask = linksTold + strings.TrimPrefix(r.Ask, linksTold)
	case none:
		r.Ask = "Then say it in your own words, or name another. " + r.Ask
	case r.Missing == "ring":
		r.Ask = "Then measure the finger first: try ring sizers on it, or wrap a strip of paper round the finger and measure that in mm. " + r.Ask
	case len(r.Choices) > 0:
		r.Ask = "Then take the nearest, or measure it first. " + r.Ask
	}
	return r, true
}

// usualChoice is the usual answer to a question about an outline or a metal, for
// whoever leaves it to the bot. No figure is ever chosen so.
func (m *message) usualChoice(asked Reading) *Reading {
	if asked.Missing != "outline" && (asked.Missing != "alloy" || asked.Request == "heat") || len(asked.Choices) == 0 {
		return nil
	}
	c := asked.Choices[0]
	return &Reading{Outcome: Request, Request: c.Request, Options: c.Options, Notes: append(slices.Clone(asked.Notes), "you left it open, so this is the usual one: "+c.Label)}
}

// sizeLetter is a single letter that answers a question for a ring's size or
// changes it: "P", "ok she says M", "and for q".
func (m *message) sizeLetter() *quantity {
	for i, t := range m.tokens {
		last := i == len(m.tokens)-1 || i == len(m.tokens)-2 && m.at(i+1).text == "."
		if len(t.text) != 1 || !t.word() || m.inFigure(i) || m.taken[i] && !t.capital || t.text == "x" || !t.capital && !last || (t.text == "a" || t.text == "i") && len(m.tokens) > 1 {
			continue
		}
		return &quantity{measure: ringSize, shown: strings.ToUpper(t.text), system: "uk", first: i, next: i + 1, unit: true}
	}
	return nil
}

// shallChange asks whether the last piece is meant at all.
const shallChange = "Shall I work out your last piece with that changed?"
