package sentence

import "slices"

// Subject counts what of the trade a message names. A room's chatter names
// nothing of it, or a number at most.
type Subject struct {
	// Things are metals, stones, jobs and quantities with a unit; Numbers are bare.
	Things, Numbers int
	// Words is how long the message is.
	Words int
}

// SubjectOf looks what of the trade a message names.
func SubjectOf(typed string) Subject {
	m := newMessage(typed)
	s := Subject{Things: len(m.alloys), Words: len(m.tokens)}
	for _, q := range m.found {
		if q.unit || q.measure != bare {
			s.Things++
		} else {
			s.Numbers++
		}
	}
	for _, said := range m.senses {
		if !slices.Contains(said.Means, "greeting") && !slices.Contains(said.Means, "thanks") {
			s.Things++
		}
	}
	return s
}
