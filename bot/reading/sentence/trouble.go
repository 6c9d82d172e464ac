package sentence

import (
	"slices"
	"sync"

	"guildhand/bot/knowledge"
	"guildhand/bot/reading/intent"
)

// pieceWords are what the piece of a request is called among the signs.
var pieceWords = map[string][]string{
	"bezel": {"bezel"}, "collet": {"collet"}, "prongs": {"prong", "collet"}, "collar": {"collar", "collet"},
	"band": {"ring", "band"}, "dome": {"dome"}, "tune": {"trial", "collet"}, "melt": {"cast", "casting"},
}

// trouble finds a sign of trouble at the bench. The difference that was measured
// goes with it, so that a correction can be worked out.
func (m *message) trouble() (Reading, bool) {
	if !m.asksFor(knowing...) {
		return Reading{}, false
	}
	if m.wholePiece() && m.says("could i have", "can i have", "blank please", "what do i cut", "how long do i cut", "template please", "pattern please") {
		return Reading{}, false // the trouble is part of the story
	}
	if m.has("gallerywire") && m.stoneSides() != nil && !m.says("came out", "=shows", "showed") {
		return Reading{}, false // a wish that the join should not show
	}
	if m.hasPiece() && len(m.found) > 1 && m.says("whats the length", "the length", "what length", "how long for", "how long are", "how long is", "have a blank", "a blank", "template") && !m.says("cut off", "take out", "too long", "rescue", "save it") {
		return Reading{}, false // the piece is asked for; the trouble is a remark
	}
	if m.stoneSides() != nil && m.saysThickness() && m.says("last time", "last one", "last go", "previous one", "the last") && m.chance("bezel", "collet", "collar", "prongs") >= possible {
		return Reading{}, false // the trouble was another piece's
	}
	if (m.stoneSides() != nil || m.figureCount() > 1) && !m.tooShort() && m.chance(intent.Trouble) < noTrouble && m.chance("bezel", "collet", "collar", "prongs") >= likelier {
		return Reading{}, false
	}
	best, score := (*knowledge.Trouble)(nil), 0
	troubles := knowledge.Troubles()
	for i := range troubles {
		groups := signsOfTroubles()[i]
		if m.meansThePiece(troubles[i].Signs) {
			groups = groups[1:]
		}
		if n := m.saysAsked(groups); n > score {
			best, score = &troubles[i], n
		}
	}
	if best == nil {
		return Reading{}, false
	}
	return m.troubleReading(best), true
}

// saysThickness reports whether a message tells what a piece is made of.
func (m *message) saysThickness() bool {
	m.bindRoles()
	defer m.release()
	return m.with("thickness") != nil || m.of(gauge) != nil
}

// troubleReading asks the request trouble for a sign, with the difference that
// was measured.
func (m *message) troubleReading(best *knowledge.Trouble) Reading {
	d := m.draft("trouble")
	d.say("sign", knowledge.Word(best.Key))
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
	return r
}

// signsOfTroubles are the groups of signs of all troubles.
var signsOfTroubles = sync.OnceValue(func() (all [][]askedGroup) {
	for _, t := range knowledge.Troubles() {
		all = append(all, groupsOf(t.Signs))
	}
	return all
})

// meansThePiece tells that the first group of signs, which names the piece, needn't be
// said: the message says "it" of the piece of the last answer.
func (m *message) meansThePiece(signs [][]string) bool {
	if m.context.Last == nil || len(signs) < 2 || !m.says("it", "mine", "that") && !m.startsWith("came out", "ended up", "turned out", "comes out", "too") {
		return false
	}
	return slices.ContainsFunc(pieceWords[m.context.Last.Request], func(piece string) bool { return contains(signs[0], piece) })
}

// difference is the length by which a piece is short or long.
func (m *message) difference() *quantity {
	if q := m.tooMuch(); q != nil && q.value <= 20 {
		return q
	}
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

// across reports whether a difference was measured across the piece.
func (m *message) across() bool {
	return m.says("diameter", "across", "wide", "wider", "width", "top", "rim") && !m.says("around", "length", "long", "strip")
}
