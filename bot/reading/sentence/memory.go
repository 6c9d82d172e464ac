package sentence

import (
	"maps"
	"slices"

	"guildhand/bot/reading/figures"
	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/logistic"
	"guildhand/bot/reading/turn"
)

// memory is what the models say of a text. It is kept while the text is read, because a
// message in a conversation is read several times: by itself, with what was said before,
// and as a change of the last piece.
type memory struct {
	typed string
	// untouched is the message as nothing has read it, nil until it is looked for.
	untouched *message
	// near and ranked are the topics most like the text, nil until they are looked for.
	near   []match
	ranked []ranked
	// saidFacts are the facts whose words are said best, those that warn and others.
	saidFacts map[bool]saidFact
	// unhurt tells that nobody is hurt by the text; first aid is looked for once.
	unhurt bool
	// story is the memory of the text with what was said before it.
	story   *memory
	intents *logistic.Chances
	turns   map[string]*logistic.Chances // by request
	roles   map[figureOf]*logistic.Chances
	held    map[string][]heldFigure // by an option's value
	found   *intent.Message
	words   []string
	figures []figures.Figure
}

// figureOf is a figure of a request, by the token where it begins.
type figureOf struct {
	request string
	first   int
}

func newMemory(typed string) *memory {
	return &memory{typed: typed, saidFacts: map[bool]saidFact{}, turns: map[string]*logistic.Chances{}, roles: map[figureOf]*logistic.Chances{}, held: map[string][]heldFigure{}}
}

// anew is the message as nothing has read it yet.
func (m *message) anew() *message {
	fresh := m.memory.asTyped()
	fresh.context = m.context
	fresh.inchesOfPiece()
	return fresh
}

// asTyped is the message of the text as nothing has read it yet.
func (n *memory) asTyped() *message {
	if n.untouched == nil {
		n.untouched = newMessage(n.typed)
		n.untouched.memory = n
	}
	return n.untouched.copied()
}

// copied is a message with the same words in it, of which a reader may use what it
// likes. What readers only look at is shared.
func (m *message) copied() *message {
	c := *m
	c.taken, c.senses, c.assumed = slices.Clone(m.taken), slices.Clone(m.senses), slices.Clone(m.assumed)
	c.cues = maps.Clone(m.cues)
	c.found, c.alloys = make([]*quantity, len(m.found)), make([]*metal, len(m.alloys))
	for i, q := range m.found {
		c.found[i] = q.copied()
	}
	for _, q := range c.found {
		if q.other == nil {
			continue
		}
		if i := slices.Index(m.found, q.other); i >= 0 {
			q.other = c.found[i]
		} else {
			q.other = q.other.copied()
		}
	}
	for i, a := range m.alloys {
		one := *a
		c.alloys[i] = &one
	}
	return &c
}

func (q *quantity) copied() *quantity {
	c := *q
	c.sides = slices.Clone(q.sides)
	return &c
}

// ofStory is the memory of the text joined to what was said before it.
func (n *memory) ofStory(story string) *memory {
	if n.story == nil || n.story.typed != story {
		n.story = newMemory(story)
	}
	return n.story
}

// look finds what the models go by. Nothing that a reader does to the message counts,
// since they have learnt from messages that none had read.
func (n *memory) look() {
	if n.found == nil {
		fresh := n.asTyped()
		found := fresh.asFound()
		n.found = &found
		fresh.bindByRules()
		n.words, n.figures = fresh.asFigures()
	}
}

// intentsOfAll is how likely the message asks for each intent.
func (n *memory) intentsOfAll() logistic.Chances {
	if n.intents == nil {
		n.look()
		chances := intent.Of(*n.found)
		n.intents = &chances
	}
	return *n.intents
}

// turnAfter is how likely the message does each thing after an answer of this request.
func (m *message) turnAfter(request string) logistic.Chances {
	n := m.memory
	if n.turns[request] == nil {
		n.look()
		chances := turn.Of(request, *n.found)
		n.turns[request] = &chances
	}
	return *n.turns[request]
}

// rolesOf is how likely a figure measures each thing where the message asks for a
// request.
func (m *message) rolesOf(request string, q *quantity) logistic.Chances {
	if m.ofClass {
		request = "kit" // from which the models know what each maker makes, too
	}
	n, key := m.memory, figureOf{request, q.first}
	if known := n.roles[key]; known != nil {
		return *known
	}
	n.look()
	if !slices.ContainsFunc(n.figures, func(f figures.Figure) bool { return f.First == q.first }) {
		words, all := m.asFigures() // a letter that only a reader took for a size
		chances := figures.Roles(request, words, all, slices.Index(m.found, q))
		n.roles[key] = &chances
		return chances
	}
	for i, chances := range figures.RolesOfAll(request, n.words, n.figures) {
		n.roles[figureOf{request, n.figures[i].First}] = &chances
	}
	return *n.roles[key]
}
