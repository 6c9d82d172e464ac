package sentence

import (
	"slices"
	"strings"
)

// What is said after a class's list is mostly said of the piece that everybody makes: "in
// copper, 0.6", "add a back plate, 24 gauge". It changes that piece, and the list with it.

// ownPieces begin a piece of one maker's own beside that of the class.
var ownPieces = []string{"for me", "my own", "for myself", "another piece", "second piece", "one of my", "for my", "each of them", "two of them", "some of them", "one of them", "half of them"}

// changedInKit is the class in hand with its piece changed by a message.
func (m *message) changedInKit() (Reading, bool) {
	last := m.context.Last
	if last == nil || last.Request != "kit" || m.context.Asked != nil && (m.context.Asked.Request != "kit" || m.context.Asked.Piece != nil) || len(m.found)+len(m.alloys) == 0 && !m.has("backplate") || (m.startsWith(askingWords...) || strings.Contains(m.typed, "?")) && !m.says("what if") || m.wishes() || m.says(ownPieces...) || m.says(notComing...) || m.says(comingToo...) {
		return Reading{}, false
	}
	piece, ok := m.pieceListed(last.Options["pieces"])
	if !ok {
		piece, ok = m.pieceTyped(last.Options["pieces"])
	}
	if !ok || slices.ContainsFunc(m.found, mayBeCount) {
		return Reading{}, false
	}
	view := m.context
	view.Last, view.Asked, view.Earlier, view.Said, view.memory = &piece, nil, nil, "", m.memory
	r := Read(m.typed, view)
	if r.Outcome != Request || r.Request != piece.Request || len(r.Changed) == 0 || !keepsAll(piece.Options, r.Options) {
		return Reading{}, false
	}
	m.useAll()
	d := m.draftWith("kit", last.Options)
	kit := m.kitOf(d, r)
	kit.Changed = r.Changed
	return kit, kit.Outcome == Request
}

// mayBeCount reports whether a figure may be how many make the piece: "make it 12".
func mayBeCount(q *quantity) bool {
	return q.measure == count || q.measure == bare && q.role == "" && isCount(q)
}

// keepsAll reports whether no option of a piece is lost.
func keepsAll(before, now map[string]string) bool {
	for name := range before {
		if now[name] == "" {
			return false
		}
	}
	return true
}

// pieceListed is the one piece of a class by the line that lists it.
func (m *message) pieceListed(pieces string) (Last, bool) {
	words := strings.Fields(pieces)
	if len(words) == 0 || strings.Contains(pieces, ";") || readersOf[words[0]] == nil {
		return Last{}, false
	}
	piece := Last{Request: words[0], Options: map[string]string{}}
	name := ""
	for _, w := range words[1:] {
		switch {
		case name != "" && piece.Options[name] == "" && !flagOptions[name]:
			piece.Options[name] = w
		case m.isOption(piece.Request, w):
			name = w
			if flagOptions[name] {
				piece.Options[name] = "yes"
			}
		case name == "" || flagOptions[name]:
			return Last{}, false
		default:
			piece.Options[name] += " " + w
		}
	}
	return piece, name == "" || piece.Options[name] != ""
}

// pieceTyped is the one piece of a class as a maker typed it: "collet oval 8x6 22ga".
func (m *message) pieceTyped(pieces string) (Last, bool) {
	if strings.ContainsAny(pieces, ";+") {
		return Last{}, false
	}
	c := m.context
	c.Last, c.Asked, c.Earlier, c.Said, c.memory, c.viewed = nil, nil, nil, "", nil, true
	r := Read(pieces, c)
	return Last{Request: r.Request, Options: r.Options}, r.Outcome == Request && readersOf[r.Request] != nil
}

// flagOptions are options that have no value.
var flagOptions = map[string]bool{"hemisphere": true, "stones": true, "cup": true, "dip": true, "across": true, "list": true, "card": true}

// isOption reports whether a request has an option of this name.
func (m *message) isOption(request, name string) bool {
	if m.context.Takes == nil {
		return slices.Contains([]string{"alloy", "outline", "size", "thickness", "height", "width", "ring", "system", "hemisphere", "dome", "included", "gem"}, name)
	}
	return m.context.Takes(request, name)
}
