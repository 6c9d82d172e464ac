package sentence

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/trust"
	"guildhand/bot/reading/turn"
)

// What was made of a message that comes after a piece is doubted as a message that stands
// by itself is, by signs of its own: what the message does by all its words, and how
// likely each figure's place is by the words round it and by the piece's own values.

const (
	// trustedTurn is the chance from which what a message changes is worked out unasked.
	trustedTurn = 0.75
	// longestCounted is from how many words on more of them say nothing.
	longestCounted = 14
)

// confirmedInTalk is the reading of a message that comes after a piece where it can be
// trusted, another that surely is what was meant, and else a question that shows it.
func (m *message) confirmedInTalk(r Reading) Reading {
	piece, ok := m.pieceInTalk()
	if !ok || r.Outcome != Request || m.context.Aid != "" || onlyKnowledge(r) || m.weighsIt(r) || m.agrees() || m.answersBarely(r) || r.Request == "help" || r.Request == "stop" {
		return r
	}
	signs := m.signsInTalk(piece, r)
	if m.context.undoubtedTurn != nil {
		m.context.undoubtedTurn(signs)
		return r
	}
	chance := trust.ChanceInTalk(signs)
	if chance >= trustedTurn || m.plainlySaid(piece, r) {
		return r
	}
	alone := m.byItselfOnly()
	if m.readByItself(r, alone) {
		return r
	}
	others := m.otherTurns(piece, r, alone)
	if len(others) > 0 && others[0].chance >= surelyMeant {
		return others[0].Reading
	}
	return m.askIfMeant(candidate{r, chance}, others)
}

// readByItself reports whether a message is read so alone, without what was said before,
// where it neither says that something stays the same nor comes after a question.
func (m *message) readByItself(r, alone Reading) bool {
	return len(r.Changed) == 0 && m.context.Asked == nil && !m.says("same") && !m.says(whatWasCut...) && r.Line() == alone.Line()
}

// whatWasCut names what an answer tells to cut: who says so speaks of the piece before.
var whatWasCut = []string{"the blank", "the strip", "the disc", "the piece", "this blank", "that blank", "this strip", "that strip", "this piece", "that piece"}

// byItselfOnly is what a message is where nothing came before it.
func (m *message) byItselfOnly() Reading {
	return Read(m.typed, Context{memory: m.memory, Takes: m.context.Takes, Excludes: m.context.Excludes, Addressed: m.context.Addressed})
}

// agrees reports whether a message chooses what was offered.
func (m *message) agrees() bool {
	if m.context.Asked == nil {
		return false
	}
	_, chosen := m.choosing(m.context.Asked)
	return chosen
}

// otherTurns are what else a message may mean of a piece: with its figures where they most
// likely belong, or as the piece that it is alone.
func (m *message) otherTurns(piece Last, r, alone Reading) (all []candidate) {
	seen := map[string]bool{r.Line(): true, line(piece.Request, piece.Options): true}
	add := func(o Reading, ok bool) {
		if ok && o.Outcome == Request && !onlyKnowledge(o) && !seen[o.Line()] {
			seen[o.Line()] = true
			all = append(all, candidate{o, trust.ChanceInTalk(m.signsInTalk(piece, o))})
		}
	}
	add(m.laidNear(piece, false))
	add(m.laidNear(piece, true))
	add(alone, true)
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(b.chance, a.chance) })
	return all
}

// signsInTalk are what speaks for and against a request that was read of a message that
// comes after a piece.
func (m *message) signsInTalk(piece Last, r Reading) trust.Signs {
	s := trust.Signs{"questions": float64(strings.Count(m.typed, "?")), "words": math.Min(float64(m.words()), longestCounted), "strange": m.strangeWords()}
	of := "other"
	switch {
	case keepsOrShows[r.Request]:
		of = "keeps"
		s["kept intent"] = logOf(m.chance(r.Request))
	case r.Request != piece.Request:
		s["other intent"] = logOf(m.chance(r.Request))
		m.weighPlaces(r, s)
	default:
		of = m.weighChanges(piece, r, s)
	}
	does := m.turnAfter(piece.Request)
	s[of], s[of+" gives"] = 1, does.Of(turn.Answers, turn.Changes, turn.Again)
	s[of+" about"], s[of+" begins"] = does.Of(turn.About, intent.Explanation, intent.Trouble), does.Of(turn.Begins, turn.Back)
	if asked := m.context.Asked; asked != nil {
		s["asked "+of] = 1
		if asked.Missing != "" && r.Options[asked.Missing] != "" {
			s["answered"] = 1
		}
		if asked.Unplaced != "" {
			s["asked of a figure"] = 1
		}
	}
	return s
}

// weighChanges adds how likely the changes of a piece are, and tells whether it is
// changed, read anew or left as it was.
func (m *message) weighChanges(piece Last, r Reading, s trust.Signs) (of string) {
	for name, v := range r.Options {
		if piece.Options[name] == v {
			continue
		}
		s["changes"]++
		if decisive[name] && piece.Options[name] != "" {
			s["decisive"]++
		}
		if name == "alloy" || !strings.ContainsAny(v, "0123456789") {
			s["words changed"]++
		}
	}
	for name := range piece.Options {
		if r.Options[name] == "" {
			s["lost"]++
		}
	}
	for _, q := range m.found {
		m.weighChange(piece, r, q, s)
	}
	switch {
	case s["changes"]+s["lost"] == 0:
		return "unchanged"
	case len(r.Changed) == 0:
		return "anew"
	}
	return "changed"
}

// weighChange adds how likely a figure is what it changes of a piece.
func (m *message) weighChange(piece Last, r Reading, q *quantity, s trust.Signs) {
	place, sum, at, other := m.placeIn(r, q), 0.0, 0.0, 0.0
	if m.placedByKind(piece, place, q) {
		return
	}
	for option, c := range m.rolesOf(piece.Request, q).All() {
		none := slices.Contains(nowhere, option)
		if none {
			c *= notYet
		} else {
			c *= m.memory.nearness(piece.Options[option], q)
		}
		sum += c
		if option == place || place == "" && none {
			at += c
		} else {
			other = max(other, c)
		}
	}
	if sum == 0 {
		return
	}
	chance := logOf(at / sum)
	s["figures"]++
	if asked := m.context.Asked; asked != nil && place != "" && place == asked.Missing {
		s["where asked"], s["asked place"] = 1, min(s["asked place"], chance)
		return
	}
	kind := "place"
	switch {
	case place == "" && q.used:
		s["reckoned in"]++
		return
	case place == "":
		s["left out"]++
	case q.role != "" || q.measure != bare && q.measure != length && q.measure != size && q.measure != count:
		kind = "said place"
	case q.measure == bare:
		kind = "bare place"
		s["bare"]++
	}
	s[kind], s["worst place"] = min(s[kind], chance), min(s["worst place"], chance)
	s["other place"] = max(s["other place"], other/sum)
}

// placedByKind reports whether a figure can be nothing else than the rules take it for,
// whatever words stand round it: an angle that most blocks have, or the centre's
// wall.
func (m *message) placedByKind(piece Last, place string, q *quantity) bool {
	switch place {
	case "included", "lean":
		return conical[piece.Request] && (q.measure == angle || q.value == 17 || q.value == 28)
	case "centregap":
		return m.isWallOfCentre(q)
	}
	return false
}

// weighsIt reports whether a reading is but the weight of the piece in talk, for which a
// message without a figure asked.
func (m *message) weighsIt(r Reading) bool {
	return r.Request == "weigh" && r.Options["collet"] != "" && len(m.found) == 0 && m.has("weight")
}

// SignsInTalk are those of what the reader makes of a message that comes after a piece,
// where that is a request.
func SignsInTalk(typed string, c Context) (r Reading, s trust.Signs, isPiece bool) {
	c.undoubtedTurn = func(signs trust.Signs) { s = signs }
	r = Read(typed, c)
	return r, s, s != nil
}
