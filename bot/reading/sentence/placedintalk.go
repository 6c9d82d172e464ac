package sentence

import (
	"strings"

	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/turn"
	"guildhand/bot/reading/written"
)

// Where the rules would ask what a figure of a follow-up is, the words round it and the
// piece in talk often tell: a figure near one that the piece has mends that one.

const (
	// nearPlace is how likely a figure's place must be in place of a question for it.
	nearPlace = 0.75
	// plainlyNear is how near a figure must be to the piece's own to change what the piece
	// can't be without, such as its stone.
	plainlyNear = 0.75
)

// placedInTalk is the piece in talk with the figures of a message where they belong by
// the words round them and by how near they are to the piece's own, where the rules ask
// what one of them is, or ask anew what they asked before.
func (m *message) placedInTalk(alone Reading) (Reading, bool) {
	piece, ok := m.pieceInTalk()
	if !ok || alone.Outcome != Question || alone.Request != piece.Request || !m.asksForFigure(alone) || m.context.Aid != "" {
		return Reading{}, false
	}
	if m.choosesByNumber() || m.tellsOutcome() || m.beginsAnew(piece.Request) || m.offersEither() || m.says("plus", "together", "in total", "all in all") {
		return Reading{}, false
	}
	does := m.turnAfter(piece.Request)
	if does.Of(turn.Answers, turn.Changes, turn.Again) < surelyGives || does.Of(turn.About, intent.Explanation, intent.Trouble) > perhapsTurn {
		return Reading{}, false
	}
	r, ok := m.laidNear(piece, does.Of(turn.Again) > does.Of(turn.Answers, turn.Changes))
	if !ok || r.Outcome != Request {
		return Reading{}, false
	}
	return m.stillMissing(r), true
}

// asksForFigure reports whether a reading asks what a figure of the message is, or asks
// again for the figure that was asked for before.
func (m *message) asksForFigure(r Reading) bool {
	asked := m.context.Asked
	if asked == nil || asked.Missing == "" && asked.Unplaced == "" {
		return r.Unplaced != "" || len(m.found) > 0 && strings.HasPrefix(r.Ask, dontKnow)
	}
	return asked.Unplaced == "" && asked.Missing != "" && len(m.found) > 0 && (r.Unplaced != "" || r.Missing == asked.Missing)
}

// offersEither matches two figures of which one is still to be chosen: "1.25 or 1.4".
func (m *message) offersEither() bool {
	for _, q := range m.found {
		if m.at(q.next).text == "or" && m.at(q.next+1).number {
			return true
		}
	}
	return false
}

// laidNear lays a message over a piece: its words by the rules, and each figure where it
// belongs by the words round it and the piece's own figures. It is found only where
// every figure has its place, and no two have the same. A further piece has a stone of its
// own, of which only what is said now is known.
func (m *message) laidNear(piece Last, further bool) (Reading, bool) {
	if piece.Request == "tune" || piece.Request == "kit" || piece.Request == "gauge" {
		return Reading{}, false // these have readers of their own for what is told later
	}
	fresh, d := m.wordsOver(piece)
	placed := map[string]bool{}
	for _, q := range fresh.found {
		if q.used {
			continue // a part of its own has it
		}
		role, chance := m.roleInTalk(piece, q)
		if chance < nearPlace || placed[role] || !fresh.placeNear(d, piece, role, q) {
			return Reading{}, false
		}
		placed[role] = role != written.Retracted && role != written.Idle
	}
	if further && placed["size"] {
		for _, option := range ofStone {
			if !placed[option] && option != "with" && option != "ring" {
				delete(d.options, option)
			}
		}
	}
	if needsStone[d.request] {
		d.needStone(d.request == "bezel")
	}
	r := fresh.changedFrom(piece, d)
	return r, len(r.Changed) > 0
}

// askedWeight is how much likelier a figure is what was asked for than by its words.
const askedWeight = 8

// roleInTalk is what a figure most likely measures of the piece in talk: by the words
// round it, by what was asked for, and by the piece's own figures where they don't
// tell it for certain.
func (m *message) roleInTalk(piece Last, q *quantity) (role string, chance float64) {
	if role, chance = m.likelyRole(piece.Request, q); chance >= likelyRole {
		return role, chance
	}
	asked := m.context.Asked
	if asked == nil || asked.Missing == "" {
		return m.likelyRoleAfter(piece, q)
	}
	all := m.rolesOf(piece.Request, q)
	sought := askedWeight * all.Of(asked.Missing)
	sum := 1 + sought - all.Of(asked.Missing)
	if sought > chance {
		return asked.Missing, sought / sum
	}
	return role, chance / sum
}

// placeNear gives a figure its place in a piece, and reports whether it can have it.
func (m *message) placeNear(d *draft, piece Last, role string, q *quantity) bool {
	switch {
	case role == written.Retracted || role == written.Idle:
		q.used = true
		return true
	case role == written.Asked || role == written.Result || !m.context.takes(piece.Request, role) || !q.unitLets(role) || !d.formHas(role):
		return false
	case sizeOfRing[role]:
		return m.placeRingSize(d, piece, role, q)
	case decisive[role] && !m.mayReplace(piece, role, q):
		return false
	case role == "wire" && q.measure == bare:
		d.set(role, q)
		d.say(role, q.shown+" mm")
	default:
		d.set(role, q)
	}
	return true
}

// mayReplace reports whether a figure can replace one that a piece can't be without: it
// is the only one there, and its words tell it for certain or it is near.
func (m *message) mayReplace(piece Last, role string, q *quantity) bool {
	now := piece.Options[role]
	if role == "size" && (noSizeOfStone[q.role] || noSizeOfStone[measuresSaid[m.at(q.next).text]]) && m.context.takes(piece.Request, "outline") {
		return false
	}
	if role == "size" && piece.Options["form"] == "sheet" && q.measure != size {
		return false // one side of it is no sheet
	}
	if now == "" || strings.Contains(now, "x") != (q.measure == size) {
		return now == "" && m.context.Asked != nil && m.context.Asked.Missing == role
	}
	_, chance := m.likelyRole(piece.Request, q)
	return chance >= likelyRole || m.memory.nearness(now, q) >= plainlyNear
}

// sizeOfRing are the options that hold a ring's size.
var sizeOfRing = map[string]bool{"ring": true, "from": true, "to": true, "shank": true}

// leastISO and mostISO are the ring sizes of ISO 8653 that a bare number is taken for:
// no other system that the bot reads goes so high.
const (
	leastISO = 41
	mostISO  = 76
)

// systemFor is the system of a bare number that is a ring's size: that of the piece where
// it counts so, or ISO where no other can be meant. Empty is none.
func systemFor(now string, q *quantity) string {
	switch {
	case q.system != "":
		return q.system
	case q.measure != bare && q.measure != ringSize:
		return ""
	case q.value >= leastISO && q.value <= mostISO:
		return "iso"
	case q.value >= 1 && q.value <= 16 && now == "us":
		return now
	}
	return ""
}

// placeRingSize gives a figure its place as a ring's size, with the system it is in.
func (m *message) placeRingSize(d *draft, piece Last, role string, q *quantity) bool {
	now := piece.Options["system"]
	if role != "ring" {
		now, _, _ = strings.Cut(piece.Options[role], " ")
	}
	system := systemFor(now, q)
	if system == "" {
		return false
	}
	q.used, q.option = true, role
	if role == "ring" {
		delete(d.options, "bangle")
		d.say("ring", q.shown)
		d.say("system", system)
		return true
	}
	d.say(role, system+" "+q.shown)
	return true
}
