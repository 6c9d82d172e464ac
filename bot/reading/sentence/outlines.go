package sentence

import "slices"

// A message may name more outlines than its stone's: that of a file, of a block, or one that
// only says how another looks, "a square-ish cushion".

// outlinesOfTools are words behind an outline that make it a tool's or another part's.
var outlinesOfTools = []string{"file", "files", "block", "blocks", "punch", "punches", "pliers", "mandrel", "nose", "bur", "burr", "graver", "needle", "hammer", "stake", "anvil", "triblet", "bezel block"}

// nearOutlines are outlines that only say how another looks where both are named.
var nearOutlines = map[string][]string{
	"emerald": {"octagon", "baguette", "square"}, "cushion": {"square", "baguette", "round", "oval"}, "tapered-baguette": {"baguette"},
	"octagon": {"square", "round"}, "hexagon": {"round"}, "pear": {"round"}, "half-moon": {"round"}, "trillion": {"round"}, "heart": {"round"},
}

// mostBetweenOutlines is how many words stand between an outline and one that says how it
// looks, and besideOutline are those words.
const mostBetweenOutlines = 3

var besideOutline = []string{"-", "with", "the", "stone", "cab", "shape", "shaped", "its", "a"}

// settleOutlines leaves only the stone's outline where others are named that are not its own.
func (m *message) settleOutlines() {
	m.dropOutlines(func(s *sense) bool {
		tool := m.saysOneBetween(s.next, s.next+1, outlinesOfTools...) || m.at(s.next).word() && m.saysOneBetween(s.next+1, s.next+2, outlinesOfTools...)
		return tool || m.between(s.next, s.next+1) == "ish" || m.between(s.next, s.next+2) == "- ish"
	})
	m.dropOutlines(func(s *sense) bool {
		return slices.ContainsFunc(m.senses, func(of sense) bool {
			near := max(of.first-s.next, s.first-of.next)
			gem := of.outline() == "emerald" && of.next == of.first+1 // "a square emerald"
			return slices.Contains(nearOutlines[of.outline()], s.outline()) && !gem && near >= 0 && near <= mostBetweenOutlines && m.saysBetween(min(of.next, s.next), max(of.first, s.first), besideOutline...)
		})
	})
}

// dropOutlines takes their meaning from the outlines that are not the stone's, where one is
// left.
func (m *message) dropOutlines(not func(*sense) bool) {
	var drop []*sense
	kept := false
	for i := range m.senses {
		switch s := &m.senses[i]; {
		case s.outline() == "":
		case not(s):
			drop = append(drop, s)
		default:
			kept = true
		}
	}
	if !kept {
		return
	}
	for _, s := range drop {
		s.Term = &Term{Say: s.Say, Means: []string{"shape of another"}}
	}
}
