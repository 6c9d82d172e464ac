package sentence

import "maps"

// Who has asked for two pieces asks at the end what both take: "the two together, what do
// they weigh". A cut list of one of each has the sheet and the mass of both.

// bothWords name the last two pieces as one, and ofBoth ask what they take.
var (
	bothWords = []string{"both together", "the two together", "two together", "both of them together", "the pair together", "the two of them", "the both of them", "both rings", "both of them", "for both", "of both", "both pieces", "total for the two", "total of the two"}
	ofBoth    = []string{"weigh", "weight", "heavy", "grams", "sheet", "metal", "silver", "gold", "copper", "total", "altogether", "in all"}
)

// bothTogether is the cut list of the last two pieces that are not the same one changed.
func (m *message) bothTogether(last Last) (Reading, bool) {
	if !cutAsKit[last.Request] || len(m.found) > 0 && !m.onlyTwo() || !m.says(bothWords...) || !m.says(ofBoth...) || m.says("why", "difference", "which", "same weight") {
		return Reading{}, false
	}
	for _, other := range m.context.Earlier {
		if !cutAsKit[other.Request] || !anotherPiece(last, other) {
			continue
		}
		m.useAll()
		pieces := []Last{other, last}
		for i, piece := range pieces {
			pieces[i].Options = maps.Clone(piece.Options)
			if len(m.alloys) == 1 && m.alloys[0].key != "" {
				pieces[i].Options["alloy"] = m.alloys[0].key
			}
		}
		d := m.draft("kit")
		d.say("makers", "1")
		d.say("pieces", line(pieces[0].Request, pieces[0].Options)+" ; "+line(pieces[1].Request, pieces[1].Options))
		r := d.reading()
		r.Changed = []string{"both pieces together"}
		return r, true
	}
	return Reading{}, false
}

// onlyTwo reports whether the only figure of a message is the two of "the two together".
func (m *message) onlyTwo() bool { return len(m.found) == 1 && m.found[0].value == 2 }

// anotherPiece reports whether two pieces are of another request, stone or finger, so that
// one is not the other changed.
func anotherPiece(a, b Last) bool {
	if a.Request != b.Request {
		return true
	}
	for _, option := range []string{"size", "outline", "ring", "bangle"} {
		if a.Options[option] != b.Options[option] {
			return true
		}
	}
	return false
}
