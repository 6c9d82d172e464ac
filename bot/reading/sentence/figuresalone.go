package sentence

// saysOfPiece reports whether a message has anything of which a piece is made: a
// figure, a metal, an outline.
func (m *message) saysOfPiece() bool {
	return len(m.found)+len(m.alloys)+len(m.meaning("outline:"))+len(m.meaning("profile:")) > 0
}

// figuresAlone asks what figures, a metal or an outline are for, where a message has
// nothing else and nothing went before. The answer is read together with them.
func (m *message) figuresAlone() (Reading, bool) {
	if m.context.Last != nil || m.context.Asked != nil || m.context.Said != "" || !m.saysOfPiece() || !m.fragment() || m.looseWords() > 0 || len(m.tokens) > 8 {
		return Reading{}, false
	}
	return Reading{Outcome: Question, Ask: "What do you want to make with that? Name the piece: a collet, a bezel, prongs, a ring, a bangle, a dome, jump rings or a casting."}, true
}
