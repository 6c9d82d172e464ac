package sentence

import (
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
	typed   string
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
	return &memory{typed: typed, turns: map[string]*logistic.Chances{}, roles: map[figureOf]*logistic.Chances{}, held: map[string][]heldFigure{}}
}

// anew is the message as nothing has read it yet.
func (m *message) anew() *message {
	fresh := newMessage(m.typed)
	fresh.context, fresh.memory = m.context, m.memory
	fresh.inchesOfPiece()
	return fresh
}

// look finds what the models go by. Nothing that a reader does to the message counts,
// since they have learnt from messages that none had read.
func (n *memory) look() {
	if n.found == nil {
		fresh := newMessage(n.typed)
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
