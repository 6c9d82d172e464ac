package sentence

import (
	"maps"

	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/turn"
	"guildhand/bot/reading/written"
)

const (
	// surelyGives is how likely a message must give or change something of the piece in
	// talk for its figures to be placed by the words round them.
	surelyGives = 0.7
	// surePlace is how likely each figure's place must be then.
	surePlace = 0.8
)

// surelyChanged is the piece in talk with the figures of a message where they belong by
// the words round them, where that is sure and the rules read it otherwise.
func (m *message) surelyChanged(alone Reading) (Reading, bool) {
	piece, ok := m.pieceInTalk()
	if !ok || len(m.found) == 0 || m.context.Aid != "" || alone.Outcome == FirstAid || alone.Outcome == Silent || m.answersAlone() {
		return Reading{}, false
	}
	does, least := m.turnAfter(piece.Request), surePlace
	noTrouble := alone.Request == intent.Trouble && does.Of(intent.Trouble, turn.About) < hardlyTurn
	if m.changesRightly(alone, piece) || alone.Request != piece.Request && !noTrouble && m.chance(intentsOf(alone)...) >= possible {
		return Reading{}, false
	}
	switch {
	case m.misplaces(alone, piece):
	case does.Of(turn.Answers, turn.Changes) >= surelyGives && !m.whole() && does.Of(turn.Begins, intent.Explanation) <= perhapsTurn:
	case (m.words() < wholeQuestion || noTrouble) && !m.ownJob() && !m.asksInWords() && does.Of(intent.Explanation, intent.Trouble, turn.About) <= perhapsTurn && m.givesNoPiece(piece):
		least = likelyRole
	default:
		return Reading{}, false
	}
	r, ok := m.laidByRoles(piece, least)
	if !ok || r.Outcome != Request || alone.Outcome == Request && alone.Request == r.Request && holdsAll(alone.Options, changedIn(r, piece)) {
		return Reading{}, false
	}
	return m.stillMissing(r), true
}

// answersAlone reports whether a message is hardly more than the figure that was asked
// for: the question tells then what it is.
func (m *message) answersAlone() bool {
	asked := m.context.Asked
	if asked == nil {
		return false
	}
	return m.choosesByNumber() || !m.givesAnother(asked) && (asked.Missing != "" || asked.Unplaced != "") && (m.tooShort() || len(m.found) == 1 && m.words() < wholeQuestion)
}

// givesAnother reports whether the words round a message's only figure surely make it
// something else than what was asked for: "brass .5" after "How high is the dome?"
func (m *message) givesAnother(asked *Reading) bool {
	if asked.Missing == "" || len(m.found) != 1 || m.words()+len(m.alloys) == 0 {
		return false
	}
	role, chance := m.likelyRole(asked.Request, m.found[0])
	return role != asked.Missing && chance >= likelyRole && m.rolesOf(asked.Request, m.found[0]).Of(asked.Missing) < hardlyTurn && m.context.takes(asked.Request, role)
}

// choosesByNumber reports whether a message is the number of a choice that was offered.
func (m *message) choosesByNumber() bool {
	asked := m.context.Asked
	return asked != nil && asked.Missing == "" && m.words() == 0 && len(m.found) == 1 && m.found[0].value >= 1 && int(m.found[0].value) <= len(asked.Choices)
}

// changesRightly reports whether the rules change a piece by a message and at least one
// figure may be what they take it for: it has a likely place, or is reckoned in, as in
// "1 mm taller".
func (m *message) changesRightly(alone Reading, piece Last) bool {
	if alone.Outcome != Request || alone.Request != piece.Request || len(alone.Changed) == 0 {
		return false
	}
	for _, q := range m.found {
		place := m.placeIn(alone, q)
		if place == "" {
			return true
		}
		if roles := m.rolesOf(piece.Request, q); roles.Of(place) > unlikelyPlace {
			return true
		}
	}
	return false
}

// misplaces reports whether the rules take a message for a change of a piece, and ask what
// a figure is or make a change that is not rightly made; see changesRightly.
func (m *message) misplaces(alone Reading, piece Last) bool {
	return alone.Request == piece.Request && (alone.Outcome == Question && alone.Unplaced != "" || alone.Outcome == Request && len(alone.Changed) > 0)
}

// givesNoPiece reports whether the figures of a message are those of a piece's details,
// so that it can't begin another.
func (m *message) givesNoPiece(piece Last) bool {
	for _, q := range m.found {
		if role, _ := m.likelyRole(piece.Request, q); decisive[role] || q.measure == size {
			return false
		}
	}
	return len(m.meaning("outline:")) == 0
}

// changedIn are the options of a reading that differ from those of a piece.
func changedIn(r Reading, piece Last) map[string]string {
	changed := map[string]string{}
	for name, v := range r.Options {
		if piece.Options[name] != v {
			changed[name] = v
		}
	}
	return changed
}

// wordsOver is a message as nothing has read it yet, and a piece with what its words
// change, but for its figures.
func (m *message) wordsOver(piece Last) (*message, *draft) {
	fresh := m.anew()
	d := fresh.draft(piece.Request)
	maps.Copy(d.options, piece.Options)
	fresh.changeWords(d)
	if conical[piece.Request] && d.has("outline") {
		d.baseOfCone()
	}
	if fresh.metal() != nil && fresh.context.takes(piece.Request, "alloy") {
		d.alloy("alloy", piece.Request == "heat" || piece.Request == "melt")
	}
	return fresh, d
}

// laidByRoles lays a message over a piece: its words by the rules, and each figure where
// it belongs by the words round it, at least with this chance. It is found only where
// something changes and every figure has its place.
func (m *message) laidByRoles(piece Last, least float64) (Reading, bool) {
	if piece.Request == "tune" {
		return Reading{}, false // a trial has readers of its own
	}
	fresh, d := m.wordsOver(piece)
	for _, q := range fresh.found {
		if q.used {
			continue // a part of its own has it
		}
		role, chance := fresh.likelyRoleAfter(piece, q)
		switch {
		case chance < least || decisive[role]: // another stone is another piece
			return Reading{}, false
		case role == written.Retracted || role == written.Idle:
			q.used = true
		case role == written.Asked || role == written.Result || !fresh.context.takes(piece.Request, role) || !q.unitLets(role):
			return Reading{}, false
		case sizeOfRing[role]:
			if !m.placeRingSize(d, piece, role, q) {
				return Reading{}, false
			}
		default:
			d.set(role, q)
		}
	}
	if needsStone[d.request] {
		d.needStone(d.request == "bezel")
	}
	r := fresh.changedFrom(piece, d)
	return r, len(r.Changed) > 0
}

// unitLets reports whether a figure's unit lets it be an option; its range is for the
// catalogue to check.
func (q *quantity) unitLets(option string) bool {
	if _, known := likelyPlaces[option]; known {
		return q.fitsOption(option)
	}
	switch q.measure {
	case money, temper, volume:
		return false
	case bare, length:
		return !twoSides[option] && option != "wax" && option != "model" && option != "button" && option != "sprue" // which are weighed
	}
	return true
}

// twoSides are options that one figure alone does not tell.
var twoSides = map[string]bool{"tubesize": true, "tube": true, "stock": true, "offcut": true, "sheet": true}
