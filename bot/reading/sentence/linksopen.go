package sentence

import "fmt"

// openLinkWords ask whether rings may stay unsoldered.
var openLinkWords = []string{"leave them open", "leave it open", "leave the links open", "leave the rings open", "leave links open", "leave the jump rings open", "unsoldered", "not solder", "not soldered", "without solder", "without soldering", "skip soldering", "skip the soldering", "be soldered", "need soldering", "need to solder", "have to solder", "must i solder", "open or solder", "open or soldered"}

// Rings of wire of at least this thickness, and at most this many wires wide inside, hold
// unsoldered where little pulls; common practice, no source.
const (
	leastOpenWireMM = 0.75
	mostOpenRatio   = 5
)

// linksLeftOpen tells whether jump rings of a told wire and inside hold without solder.
func (m *message) linksLeftOpen(r Reading) (Reading, bool) {
	if r.Request != "jumpring" || r.Outcome != Request || !m.leavesLinksOpen() || m.says("what solder", "which solder", "how do i", "how to", "how many", "how much", "how long") {
		return Reading{}, false
	}
	across := r.Options["inside"]
	if across == "" {
		across = r.Options["mandrel"]
	}
	wire, inside := mmOf(r.Options["wire"]), mmOf(across)
	if wire <= 0 || inside < wire {
		return Reading{}, false
	}
	ratio := inside / wire
	told := fmt.Sprintf("%s inside over %s wire is a ratio of %.1f", mm(inside), mm(wire), ratio)
	switch {
	case m.says("heavy", "weight", "bracelet", "bracelets", "clasp"):
		r.Verdict = "Best solder them: in a bracelet, at a clasp and under weight unsoldered rings can pull open. Solder before pearls, opals, glass or plated parts go on: they don't survive the flame."
	case wire < leastOpenWireMM:
		r.Verdict = fmt.Sprintf("Best solder them: rings of %s wire are easily pulled open. Unsoldered, only small ones hold, of half-hard wire and on light pieces such as earrings.", mm(wire))
	case ratio > mostOpenRatio:
		r.Verdict = fmt.Sprintf("Best solder them: %s, and above about 5 rings pull open easily. A smaller ring or thicker wire, with a ratio of 5 or less, half-hard and closed flush, holds where little pulls.", told)
	default:
		r.Verdict = fmt.Sprintf("They may stay unsoldered where little pulls: %s, and up to about 5 holds. Use half-hard wire, close the ends flush, and harden the closed rings in a tumbler with steel shot, never with pearls or soft stones on them. Solder rings that carry weight or hold something valuable.", told)
	}
	return r, true
}

// leavesLinksOpen reports whether a message asks whether rings may stay unsoldered.
func (m *message) leavesLinksOpen() bool {
	return m.says(openLinkWords...) || m.says("leave", "leaving") && m.says("=open") && m.says("link", "links", "ring", "rings")
}
