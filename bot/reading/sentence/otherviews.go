package sentence

import (
	"slices"
	"strings"

	"guildhand/bot/reading/turn"
)

// A message that comes after an open question need not answer it, nor need it be said of
// what was spoken of last. Where it was not understood as that, it is read as said of the
// piece before the question, of the piece before that, or of nothing before it.

// dontKnow begins a question that is asked again because its answer was not understood.
const dontKnow = "I don't know that. "

// asides are requests that ask something about a piece and make none.
var asides = map[string]bool{"heat": true, "trouble": true, "gauge": true}

// viewedOtherwise is what a message surely means if it is no answer to the open question,
// or not said of the latest piece, where nothing certain was found else.
func (m *message) viewedOtherwise(r Reading) Reading {
	if m.context.viewed || m.context.undoubted != nil || m.context.undoubtedTurn != nil || m.context.Aid != "" || !m.stuck(r) {
		return r
	}
	for _, without := range []func() (Reading, bool){m.withoutRemark, m.withoutAside} {
		if o, ok := without(); ok {
			return o
		}
	}
	for _, view := range m.otherViews() {
		if !m.mayBeSo(r, view) {
			continue
		}
		view.viewed, view.memory = true, m.memory
		if o := Read(m.typed, view); m.surelySo(o, r, view) {
			return o
		}
	}
	return r
}

// longestRemark is how many words a remark before a wish has at most.
const longestRemark = 8

// withoutRemark is what the last sentences of a message change, where those before them tell
// of nothing that can be cut: "Too heavy, I believe. Make it with 0.8 mm wire."
func (m *message) withoutRemark() (Reading, bool) {
	clause, rest := firstSentence(m.typed)
	if rest == "" {
		return Reading{}, false
	}
	remark := newMessage(clause)
	if remark.words() > longestRemark || len(remark.found)+len(remark.alloys)+len(remark.meaning("outline:")) > 0 || remark.asksInWords() {
		return Reading{}, false
	}
	c := m.context
	c.viewed, c.memory = true, nil
	o := Read(rest, c)
	return o, o.Outcome == Request && len(o.Changed) > 0
}

// shortestAside and longestAside are how many words a clause before a piece's figures has:
// "yes rounded" tells of the piece itself.
const shortestAside, longestAside = 4, 14

// withoutAside is what the clause with the figures changes or answers, where the clauses before
// it only tell how they came about: "I borrowed my neighbour's calipers, 24.6 mm and 7 tall".
func (m *message) withoutAside() (Reading, bool) {
	if len(m.found) == 0 || strings.Contains(m.typed, "?") || m.startsWith(askingWords...) {
		return Reading{}, false
	}
	at := m.found[0].first
	for at > 0 && m.at(at-1).text != "," && m.at(at-1).text != ":" && !m.ends(at-1) {
		at--
	}
	aside := newMessage(m.between(0, at))
	rest := m.between(at, len(m.tokens))
	if at == 0 || aside.words() < shortestAside || aside.words() > longestAside || len(aside.found)+len(aside.alloys)+len(aside.meaning("outline:")) > 0 || aside.has(otherPieces...) || aside.says("another", "other", "second", "next", "not", "instead") {
		return Reading{}, false
	}
	c := m.context
	c.viewed, c.memory = true, nil
	o := Read(rest, c)
	if asked := c.Asked; asked != nil && asked.Missing != "" && o.Outcome == Request && o.Request == asked.Request {
		return o, o.tells(asked.Missing)
	}
	piece, ok := m.pieceInTalk()
	return o, ok && o.Outcome == Request && o.Request == piece.Request && len(o.Changed) > 0
}

// otherPieces are meanings of words that name a part which figures may be of.
var otherPieces = []string{"backplate", "sprue", "tube", "halo", "block", "trouble"}

// firstSentence parts a message where its first sentence ends.
func firstSentence(typed string) (sentence, rest string) {
	end, after := len(typed), ""
	for _, e := range []string{". ", "! ", "; ", "... ", " - ", " – ", " — "} {
		if i := strings.Index(typed, e); i > 0 && i < end {
			end, after = i, typed[i+len(e):]
		}
	}
	return typed[:end], strings.TrimSpace(after)
}

// stuck reports whether a reading of a message in a conversation leads nowhere: it is none,
// or it asks what the message, a figure or the open question means.
func (m *message) stuck(r Reading) bool {
	if m.context.Asked == nil && m.context.Last == nil || m.onlyChatter() {
		return false
	}
	if r.Outcome != Question {
		return r.Outcome == Unknown
	}
	return r.Doubted || r.Unplaced != "" || r.Request == "" || strings.HasPrefix(r.Ask, dontKnow) || r.Ask == shallChange
}

// otherViews are the contexts that a message may be said in, the likeliest first.
func (m *message) otherViews() (views []Context) {
	c := m.context
	before := c
	before.Asked, before.Said = nil, ""
	if c.Asked != nil && c.Last != nil && c.Asked.Request != c.Last.Request {
		views = append(views, before)
	}
	if c.Last != nil && asides[c.Last.Request] && len(c.Earlier) > 0 {
		before.Last, before.Earlier, before.Topic = &c.Earlier[0], c.Earlier[1:], ""
		views = append(views, before)
	}
	return append(views, Context{Takes: c.Takes, Excludes: c.Excludes, Addressed: c.Addressed})
}

// mayBeSo reports whether anything that is read of a message in a view can be surely so,
// before it is read there.
func (m *message) mayBeSo(stuck Reading, view Context) bool {
	return view.Last != nil || m.mayShowAgain(stuck) || m.surelyWantsToKnow(stuck)
}

// surelySo reports whether a message surely means what was read of it in a view, in place of
// a reading that leads nowhere. Alone it must ask to know something, or
// for what belongs to no piece.
func (m *message) surelySo(o, stuck Reading, view Context) bool {
	switch {
	case o.Outcome == Request && view.Last != nil:
		return o.Request == view.Last.Request && len(o.Changed) > 0
	case o.Outcome == Request:
		return m.mayShowAgain(stuck) && o.Line() == stuck.Line()
	case o.Outcome == Explanation:
		return m.surelyWantsToKnow(stuck)
	}
	return false
}

// mayShowAgain reports whether a message was doubted that may ask for what belongs to no
// piece.
func (m *message) mayShowAgain(stuck Reading) bool {
	return stuck.Doubted && (keepsOrShows[stuck.Request] || stuck.Request == "gauge") && !m.says("same") && !m.pointsBack()
}

func (m *message) surelyWantsToKnow(stuck Reading) bool {
	return !stuck.Doubted && stuck.Unplaced == "" && m.asksInWords() && m.wantsKnowledge() && !m.goesOnFromPiece()
}

// goesOnFromPiece reports whether a message more likely gives or changes something of the
// piece in talk than not.
func (m *message) goesOnFromPiece() bool {
	piece, ok := m.pieceInTalk()
	if !ok {
		return false
	}
	does := m.turnAfter(piece.Request)
	return does.Of(turn.Answers, turn.Changes, turn.Again) >= 0.5
}

// detailOfPiece is the piece in talk with what a message tells of it, where the message was
// taken for another piece but has nothing of what that can't be without: "0.8 sterling, 5
// tall, 17 degree block" goes on about the collet.
func (m *message) detailOfPiece(alone Reading) (Reading, bool) {
	piece, ok := m.pieceInTalk()
	if ok && piece.Request == "band" && alone.Outcome == Question && alone.Request == "resize" {
		return m.otherFinger(piece)
	}
	if ok && piece.Request == "resize" && len(m.found)+len(m.alloys) == 0 && (alone.Outcome != Request || alone.Line() == line(piece.Request, piece.Options)) {
		return m.allOfParts(piece) // stones that are in it
	}
	if !ok || alone.Outcome == FirstAid || len(m.found) == 0 || m.asksInWords() {
		return Reading{}, false
	}
	if conical[piece.Request] && conical[alone.Request] && alone.Request != piece.Request && m.stoneSides() == nil && !m.beginsAnother(piece) {
		return m.laidOverLikely(piece)
	}
	if r, ok := m.allOfParts(piece); ok && (alone.Outcome != Request || alone.Request == piece.Request) {
		return r, true
	}
	if alone.Outcome != Question || alone.Request == piece.Request || readersOf[alone.Request] == nil || alone.hasOne() && m.ownJob() || alone.Piece != nil || m.beginsAnother(piece) {
		return Reading{}, false
	}
	r, ok := m.laidOverLikely(piece)
	return r, ok && !m.losesDetail(alone, r)
}

// allOfParts is the piece in talk with the figures of a message where all of them are those
// of other parts of it: the plate, the wall of the centre.
func (m *message) allOfParts(piece Last) (Reading, bool) {
	fresh, d := m.wordsOver(piece)
	if len(fresh.unused()) > 0 || d.ask != "" {
		return Reading{}, false
	}
	r := fresh.changedFrom(piece, d)
	return m.stillMissing(r), len(r.Changed) > 0
}

// otherFinger is the ring in talk in another size: "she's a T" after a ring that is made is
// no resizing.
func (m *message) otherFinger(piece Last) (Reading, bool) {
	if m.says("resize", "resizing", "resized", "already made", "i made", "stretch", "existing") {
		return Reading{}, false
	}
	return m.laidOverLikely(piece)
}

// hasOne reports whether a piece has any of the options without which there is none.
func (r Reading) hasOne() bool {
	return slices.ContainsFunc(needed[r.Request], func(any []string) bool {
		return slices.ContainsFunc(any, func(option string) bool { return r.Options[option] != "" && option != "outline" && option != "alloy" })
	})
}

// losesDetail reports whether a reading lacks a metal that the other has.
func (m *message) losesDetail(from, to Reading) bool {
	return from.Options["alloy"] != "" && to.Options["alloy"] != from.Options["alloy"]
}

// conical are the settings that a block shapes.
var conical = map[string]bool{"collet": true, "collar": true, "prongs": true}

// companions are what a piece is made on or with, so that a figure of theirs begins no
// piece of its own.
var companions = map[string][]string{"resize": {"band"}, "saddle": {"band"}, "tubeset": {"band"}, "halo": {"band"}}

// tellsOfCompanion reports whether a message says of a companion of the piece what it is:
// "band is flat, 2 mm by 5 mm" after a sizing.
func (m *message) tellsOfCompanion(piece Last) bool {
	own := companions[piece.Request]
	if len(own) == 0 || !m.says("is", "are", "its", "it is", "s", "theyre", "they are", "goes", "going", "sits", "has", "got") || m.startsWith("now", "next", "then", "and a", "also", "i need", "i want", "need", "want") || m.says("another", "new", "different") {
		return false
	}
	for _, s := range m.senses {
		if strongest(s.Cues) >= 3 && s.Cues[piece.Request] < 3 && !slices.ContainsFunc(own, func(r string) bool { return s.Cues[r] >= 3 }) {
			return false
		}
	}
	return true
}

// beginsAnother reports whether a message begins another piece than one: the block of a
// setting begins none.
func (m *message) beginsAnother(piece Last) bool {
	if m.tellsOfCompanion(piece) {
		return false
	}
	if !conical[piece.Request] || !m.has("block") {
		return m.beginsAnew(piece.Request)
	}
	return m.says("another", "new", "different piece", "next job", "next one", "separate", "collar", "straight ring", "straight strip")
}
