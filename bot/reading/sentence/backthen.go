package sentence

import (
	"slices"
	"strings"
)

// Who goes back to an earlier piece mostly says next what of it changes: "go back to the
// round. make it 6 tall". The second part is read as said after that piece.

var (
	// backTo begin the part that names the piece, and clauseEnds end it.
	backTo     = []string{"back to the", "going back to the", "go back to the", "returning to the", "return to the", "on the first", "in the first", "for the first", "the first one", "with the first", "ok back to the", "and back to the"}
	clauseEnds = []string{": ", ". ", ", ", "; ", " - ", " – ", " — ", "? "}
)

// backThen reads what a message says of an earlier piece that its first part goes back to.
func (m *message) backThen() (Reading, bool) {
	if m.context.Last == nil || len(m.context.Earlier) == 0 || m.context.viewed || m.context.Aid != "" || !m.startsWith(backTo...) {
		return Reading{}, false
	}
	clause, rest := firstClause(m.typed)
	if rest == "" {
		return Reading{}, false
	}
	pieces := append([]Last{*m.context.Last}, m.context.Earlier...)
	i := pieceNamedBy(newMessage(clause), pieces)
	if i < 1 {
		return Reading{}, false
	}
	c := m.context
	c.Last, c.Earlier = &pieces[i], slices.Delete(slices.Clone(pieces), i, i+1)
	c.Asked, c.Said, c.Topic, c.memory = nil, "", "", nil
	r := Read(rest, c)
	return r, r.Outcome == Request || r.Outcome == Explanation || r.Outcome == Question && r.Request == pieces[i].Request && !r.Doubted
}

// firstClause parts a message where its first clause ends.
func firstClause(typed string) (clause, rest string) {
	end, after := len(typed), ""
	for _, e := range clauseEnds {
		if i := strings.Index(typed, e); i > 0 && i < end {
			end, after = i, typed[i+len(e):]
		}
	}
	return typed[:end], strings.TrimSpace(after)
}

// pieceNamedBy is the place of the piece that a clause names, by a figure, a metal or an
// outline that the latest one hasn't, by its name, or as the first; -1 for none.
func pieceNamedBy(m *message, pieces []Last) int {
	named := len(m.found)+len(m.alloys)+len(m.meaning("outline:")) > 0
	job := m.jobNamed()
	switch {
	case named:
		if m.describes(pieces[0]) {
			return -1
		}
		return slices.IndexFunc(pieces, func(p Last) bool { return readersOf[p.Request] != nil && p.Request != "weigh" && m.describes(p) })
	case m.says("first"):
		for i := len(pieces) - 1; i > 0; i-- {
			if readersOf[pieces[i].Request] != nil && (job == "" || pieceNames[job] == pieceNames[pieces[i].Request]) {
				return i
			}
		}
	case job != "":
		return slices.IndexFunc(pieces, func(p Last) bool { return p.Request == job })
	}
	return -1
}
