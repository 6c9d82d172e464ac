package sentence

// longestOfSolder is how many words a question has at most that asks only which solder.
const longestOfSolder = 9

// solderOfPiece is the heat of the metal of the piece in hand, with its solders, where a
// message asks which solder that takes.
func (m *message) solderOfPiece(last Last) (Reading, bool) {
	asks := m.says("which solder", "what solder", "which grade of solder", "what grade of solder", "what kind of solder", "what type of solder", "which type of solder", "whats the solder", "solder do i use", "solder should i use", "what do i solder", "which solders")
	if !asks || last.Options["alloy"] == "" || readersOf[last.Request] == nil || len(m.found)+len(m.alloys) > 0 || m.words() > longestOfSolder || m.says("why", "first", "second", "order", "already", "lead", "cadmium", "before", "paste", "melt", "flux") {
		return Reading{}, false
	}
	options := m.handedOn(&last, "heat")
	return Reading{Outcome: Request, Request: "heat", Options: options, Changed: []string{"heat in place of " + last.Request}}, true
}
