package sentence

import (
	"maps"
	"slices"

	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/logistic"
	"guildhand/bot/reading/turn"
)

// What a message that comes after an answer does by all its words is a second opinion
// on what the rules make of it, as that of package intent is on a message that stands
// by itself.
const (
	// plainTurn is how likely a turn must be to be taken where the rules fail.
	plainTurn = 0.6
	// plainTurnAsked is the same of a message that asks something.
	plainTurnAsked = 0.8
	// hardlyTurn is the chance under which what the rules found is given up.
	hardlyTurn = 0.1
	// perhapsTurn is the same of a request of its own.
	perhapsTurn = 0.12
)

// pieceInTalk is the piece that was asked about or worked out last.
func (m *message) pieceInTalk() (Last, bool) {
	if asked := m.context.Asked; asked != nil && asked.Request != "" && asked.Piece == nil {
		return Last{Request: asked.Request, Options: asked.Options}, true
	}
	if last := m.context.Last; last != nil {
		return *last, true
	}
	return Last{}, false
}

// surelyAnew is how likely a message must begin something else for what the rules made
// of it as a change of the last piece to be given up.
const surelyAnew = 0.9

// fewestAnew is how many words such a message has at least.
const fewestAnew = 3

// begunAnew reads a message as if none had gone before, where all its words say that it
// begins something else and the rules took it for a change of the last piece.
func (m *message) begunAnew(alone Reading) (Reading, bool) {
	last := m.context.Last
	if last == nil || m.words() < fewestAnew || m.pointsBack() && !m.whole() || alone.Outcome == FirstAid || m.context.Aid != "" {
		return Reading{}, false
	}
	ofLast := alone.Request == last.Request && holdsAll(alone.Options, sharedWith(last.Options, alone.Options))
	if !ofLast && len(alone.Changed) == 0 && alone.Outcome != Unknown && alone.Unplaced == "" {
		return Reading{}, false
	}
	does := m.turnAfter(last.Request)
	if does.Of(turn.Begins, intent.Explanation, intent.Trouble, intent.Declined) < surelyAnew {
		return Reading{}, false
	}
	fresh := m.byItselfOnly()
	if fresh.Outcome == Question && fresh.Request == last.Request {
		return Reading{}, false // what it lacks, the last piece has
	}
	if fresh.Outcome == Question && alone.Outcome == Request && len(alone.Changed) > 0 && m.cues[fresh.Request] == 0 {
		return Reading{}, false // it names no such piece, and all of it fits the last one
	}
	return fresh, fresh.Outcome != Unknown && fresh.Unplaced == "" && fresh.Outcome != Silent && m.chance(intentsOf(fresh)...) >= possible
}

// sharedWith are the options of one set that another names too.
func sharedWith(some, others map[string]string) map[string]string {
	shared := map[string]string{}
	for name, v := range some {
		if _, ok := others[name]; ok {
			shared[name] = v
		}
	}
	return shared
}

// likelyTurn reads a message as said of the piece in talk where all its words say so
// and the rules found nothing certain.
func (m *message) likelyTurn(alone Reading) (Reading, bool) {
	piece, ok := m.pieceInTalk()
	if !ok || alone.Outcome == FirstAid || m.context.Aid != "" || m.choosesByNumber() {
		return Reading{}, false
	}
	does, least := m.turnAfter(piece.Request), plainTurn
	if m.asksInWords() {
		least = plainTurnAsked
	}
	// Figures that the rules know no piece for are those of the piece in talk.
	ofNoPiece := alone.Outcome == Question && alone.Request == "" && len(m.found) > 0 && !m.asksInWords() && does.Of(turn.Begins) < plainTurn
	switch {
	case ofNoPiece, does.Of(turn.Answers, turn.Changes, turn.Again) >= least && m.misread(alone, piece, does):
		return m.laidOverLikely(piece)
	case does.Of(intent.Silent) >= plainly && (alone.Outcome == Question || alone.Outcome == Explanation):
		return Reading{Outcome: Silent}, !m.asksInWords() && behindPraise(m.typed) == ""
	}
	return Reading{}, false
}

// misread reports whether a reading takes a message that gives something of the piece
// for something else, or does not know what to do with it.
func (m *message) misread(r Reading, piece Last, does logistic.Chances) bool {
	switch r.Outcome {
	case Unknown:
		return true
	case Question:
		return r.Unplaced != "" || r.Request != piece.Request
	case Explanation:
		return does.Of(turn.About, intent.Explanation, intent.Trouble) < hardlyTurn
	case Request:
		if r.Request != piece.Request && m.chance(intentsOf(r)...) >= possible {
			return false
		}
		if r.Request == intent.Trouble {
			return does.Of(intent.Trouble, intent.Explanation, turn.About) < hardlyTurn
		}
		return r.Request != piece.Request && does.Of(turn.Begins, turn.Back, turn.About, intent.Explanation, intent.Trouble) < perhapsTurn && len(r.Changed) == 0
	}
	return false
}

// laidOverLikely lays the figures and words of a message over a piece by what they
// most likely are of it. It is found only where every figure has its place.
func (m *message) laidOverLikely(piece Last) (Reading, bool) {
	fresh := m.anew()
	fresh.context.Last, fresh.context.Asked = &piece, nil
	fresh.bindRoles()
	if r, ok := fresh.change(piece); ok && r.Outcome == Request && len(r.Changed) > 0 && len(fresh.unused()) == 0 {
		return m.stillMissing(r), true
	}
	r, ok := m.laidByRoles(piece, surePlace)
	return m.stillMissing(r), ok
}

// stillMissing asks again for what was asked for and is not told yet.
func (m *message) stillMissing(r Reading) Reading {
	if asked := m.context.Asked; asked != nil && asked.Missing != "" && r.Outcome == Request && !r.tells(asked.Missing) {
		return asked.againWith(r)
	}
	return r
}

// tells reports whether a piece has what a question asks for, or what stands for it: a
// mandrel for the inside of the rings that are wound on it.
func (r Reading) tells(missing string) bool {
	for _, either := range needed[r.Request] {
		if slices.Contains(either, missing) && slices.ContainsFunc(either, func(option string) bool { return r.Options[option] != "" }) {
			return true
		}
	}
	return r.Options[missing] != ""
}

// againWith is a question asked again, with what was said since.
func (r *Reading) againWith(said Reading) Reading {
	again := *r
	again.Options, again.Notes, again.Changed = said.Options, said.Notes, said.Changed
	again.Choices = nil
	for _, c := range r.Choices {
		options := maps.Clone(said.Options)
		for name, v := range c.Options {
			if r.Options[name] != v {
				options[name] = v
			}
		}
		again.Choices = append(again.Choices, Choice{c.Label, c.Request, options})
	}
	return again
}

// ofStone are the options that belong to one stone and not to the next.
var ofStone = []string{"size", "depth", "dome", "girdle", "crown", "pavilion", "table", "points", "traced", "carat", "gem", "perimeter", "radius", "cornercut", "seam", "with", "ring", "from", "to"}

// sameForAnother reads "the same for a 7 mm round" as the last piece for another stone
// or finger: what the message does not give anew stays.
func (m *message) sameForAnother(alone Reading) (Reading, bool) {
	last := m.context.Last
	if last == nil || alone.Outcome != Request || len(alone.Changed) > 0 || !m.says("same") || m.says("same stone", "same size", "the same as", "same piece", "same ring") || alone.Request != last.Request && m.namesAnother(*last) || alone.Request == "gauge" {
		return Reading{}, false
	}
	options := maps.Clone(last.Options)
	centre := slices.ContainsFunc(m.found, func(q *quantity) bool { return q.measure == size }) || len(m.meaning("outline:")) > 0
	for _, name := range ofStone {
		if name == "with" && centre {
			continue // the new size is the centre's
		}
		delete(options, name)
	}
	fresh := m.anew()
	fresh.bindRoles()
	r, ok := fresh.change(Last{Request: last.Request, Options: options})
	return r, ok && r.Outcome == Request && len(fresh.unused()) == 0 && (r.Options["size"] != "" || r.Options["ring"] != "" || r.Options["to"] != "")
}
