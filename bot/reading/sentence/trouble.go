package sentence

import (
	"strings"

	"guildhand/bot/knowledge"
)

// trouble finds a sign of trouble at the bench. The difference that was measured
// goes with it, so that a correction can be worked out.
func (m *message) trouble() (Reading, bool) {
	best, score := (*knowledge.Trouble)(nil), 0
	troubles := knowledge.Troubles()
	for i := range troubles {
		signs := troubles[i].Signs
		if m.context.Last != nil && m.says("it", "mine", "that") {
			signs = signs[1:] // the piece of the last answer
		}
		if n := m.saysOneOfEach(signs); n > score {
			best, score = &troubles[i], n
		}
	}
	if best == nil {
		return Reading{}, false
	}
	d := m.draft("trouble")
	d.say("sign", strings.ReplaceAll(best.Key, " ", "-"))
	if best.Correct != nil {
		if q := m.difference(); q != nil {
			d.set("by", q)
			if m.across() {
				d.say("across", "yes")
			}
		}
	}
	r := d.reading()
	if r.Outcome == Question {
		// A figure that the sign does not need is mentioned, not asked about.
		for _, q := range m.unused() {
			q.used = true
			d.note("%s is not needed for this", q.typed(m))
		}
		d.ask, d.choices = "", nil
		r = d.reading()
	}
	r.Topic = "trouble: " + best.Key
	return r, true
}

// difference is the length by which a piece is short or long.
func (m *message) difference() *quantity {
	for _, q := range m.found {
		if q.measure == length && q.value <= 20 {
			return q
		}
	}
	for _, q := range m.found {
		if q.measure == bare && q.value <= 5 {
			return q
		}
	}
	return nil
}

// across tells whether a difference was measured across the piece.
func (m *message) across() bool {
	return m.says("diameter", "across", "wide", "wider", "width", "top", "rim") && !m.says("around", "length", "long", "strip")
}
