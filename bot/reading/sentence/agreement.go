package sentence

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"guildhand/bot/reading/intent"
	"guildhand/bot/reading/turn"
)

// The last check on a message that stands by itself: does what was found agree with
// what the message most likely asks for by all its words?
const (
	// strange is the chance under which a request that was found is doubted.
	strange = 0.25
	// possible is the chance from which another request is read where a figure has no
	// place in the one that was found.
	possible = 0.5
	// likelier is the chance from which another request is read in its place.
	likelier = 0.35
	// figuresOfPiece is how many figures make a piece, and no question in words.
	figuresOfPiece = 3
)

// agreed is the reading, or what is asked or read in its place where the whole
// message speaks against it.
func (m *message) agreed(r Reading) Reading {
	inTalk := m.context.Asked != nil || m.context.Last != nil || m.context.Said != ""
	if inTalk && !m.whole() || m.asksOfLast(r) || r.ofOwnEntries() || r.Topic == ofOtherTrade || r.Request == "bench" && (m.asksUsual() || m.startsWith(setsIt...)) || r.followsFromFigures() || m.settled {
		return r
	}
	if ring, ok := m.plainRing(r); ok && !inTalk {
		return ring
	}
	if m.tooShort() {
		if inTalk {
			return r
		}
		return m.sureThoughShort(r)
	}
	if asked, ok := m.ofResult(r); ok {
		return asked
	}
	if safe, ok := m.surelyCautions(r); ok {
		return safe
	}
	if told, ok := m.toldInstead(r); ok && !inTalk {
		return told
	}
	if other, ok := m.otherSubject(r); ok && (!inTalk || len(r.Changed) == 0) {
		return other
	}
	if m.context.Asked != nil || inTalk && !m.questionWord() {
		return r
	}
	switch {
	case r.Outcome == Explanation && m.tellsPiece(r):
		if piece, ok := m.likeliestPiece(0.5); ok {
			return piece
		}
		if piece, ok := m.ringPiece(); ok {
			return piece
		}
	case (r.Outcome == Question && (r.Unplaced != "" || r.Request == "") || r.Outcome == Unknown):
		if piece, ok := m.allPlaced(r.Request); ok {
			return piece
		}
	case r.Outcome == Question && readersOf[r.Request] != nil && m.chance(r.Request) < strange && !m.beyondDoubt(r):
		if piece, ok := m.likeliestPiece(likelier); ok {
			return piece
		}
	case r.Outcome == Request && r.Verdict == "" && len(r.Told) == 0 && readersOf[r.Request] != nil && m.chance(r.Request) < strange && !m.beyondDoubt(r):
		return m.doubted(r)
	}
	return r
}

// followsFromFigures reports whether a reading was worked out of figures that only together
// tell what is asked: no other request takes them so.
func (r Reading) followsFromFigures() bool {
	return r.Outcome == Explanation && slices.Contains([]string{trialTopic, stonesRoundTopic, stonesCupTopic, stonesConeTopic}, r.Topic)
}

// asksOfLast reports whether a reading is the last piece again and all words ask about it.
func (m *message) asksOfLast(r Reading) bool {
	last := m.context.Last
	return last != nil && r.Outcome == Request && r.Request == last.Request && maps.Equal(r.Options, last.Options) && m.surelyAbout(*last)
}

// surelyAbout reports whether all words of a message ask about a piece.
func (m *message) surelyAbout(piece Last) bool {
	return m.turnAfter(piece.Request).Of(turn.About) >= plainly
}

// sureWithoutWords is the chance from which figures with hardly a word are read as what
// they most likely ask for, where nothing else was found.
const sureWithoutWords = 0.95

// sureOfFew is the chance from which a few words ask for the log, the bench or help: "show
// entry 12", "units inch".
const sureOfFew = 0.75

// sureThoughShort reads "sterling rod, 5 mm, 80" as what it surely asks for.
func (m *message) sureThoughShort(r Reading) Reading {
	wanted, chance := m.likeliest()
	unread := r.Outcome == Unknown || r.Outcome == Question && (r.Request == "" || r.Unplaced != "" && r.Request != wanted)
	if unread && keepsOrShows[wanted] && chance >= sureOfFew {
		if kept, ok := m.readAs(wanted); ok {
			return kept
		}
	}
	if !unread || len(m.found) < 2 { // "stone 12 mm" may be for anything
		return r
	}
	if piece, ok := m.likeliestPiece(sureWithoutWords); ok {
		return piece
	}
	return r
}

// beyondDoubt reports whether a request is the last piece again, or is told by more
// than single words: by the signs of the ring's jobs, or by a ring size.
func (m *message) beyondDoubt(r Reading) bool {
	if len(r.Changed) > 0 || m.context.Last != nil && m.context.Last.Request == r.Request {
		return true
	}
	named := m.says(r.Request) && m.cues[r.Request] >= plainlyNamed && !m.wantsKnowledge()
	return named || m.tellsFinger(r) || m.ringWork() == r.Request
}

// tellsFinger reports whether a ring's request has its size from words for it, and not
// from a length that was left over.
func (m *message) tellsFinger(r Reading) bool {
	if r.Request == "resize" {
		return true
	}
	return r.Request == "band" && slices.ContainsFunc(m.found, func(q *quantity) bool {
		size := q.measure == ringSize && (letter(q.shown) || q.value <= mostRingSize)
		return size || q.role == "perimeter" || q.role == "inner" || q.role == "" && isFingerRound(q)
	})
}

// mostRingSize is the largest ring size in figures, in mm round the finger.
const mostRingSize = 76

// tellsPiece reports whether an explanation of a fact answers a message that gives
// the figures of a piece.
func (m *message) tellsPiece(r Reading) bool {
	figures := 0
	for _, q := range m.found {
		switch q.measure {
		case size:
			figures += len(q.sides)
		case length, bare, gauge, angle, ringSize:
			figures++
		}
	}
	return figures >= figuresOfPiece && factNamed(r.Topic) != nil
}

// ringPiece reads the ring's job that the message is about, where every figure has its
// place and what is asked for is a figure.
func (m *message) ringPiece() (Reading, bool) {
	of := m.ringWork()
	if of == "" || !m.canAnswer(of) || m.asksWhy() || m.says(weaves...) || !m.says("how much", "how many", "how long", "i need", "do i need", "cut") {
		return Reading{}, false
	}
	m.bindRoles()
	m.release()
	r, ok := m.ringRequest(of)
	return r, ok && r.Outcome == Request
}

// allPlaced is the likeliest other request in which every figure has its place.
func (m *message) allPlaced(not string) (Reading, bool) {
	if len(m.found) == 0 || len(m.found) == 1 && m.found[0].measure == size {
		return Reading{}, false
	}
	var best Reading
	highest := possible
	m.bindRoles()
	for request, read := range readersOf {
		chance := m.chance(request)
		if request == not || chance < highest || !m.context.takes(request, "") {
			continue
		}
		m.release()
		if r, ok := read(m); ok && r.Outcome == Request {
			best, highest = r, chance
		}
	}
	return best, best.Request != ""
}

// likeliestPiece reads the request that the message most likely asks for, where its
// chance is at least so high and every figure has its place.
func (m *message) likeliestPiece(least float64) (Reading, bool) {
	wanted, chance := m.likeliest()
	if readersOf[wanted] == nil || chance < least {
		return Reading{}, false
	}
	r, ok := m.readAs(wanted)
	return r, ok && r.Outcome == Request
}

// doubted is what a message gets whose words speak against the request that was
// found: the request that they speak for, what is known in words, or a question.
func (m *message) doubted(r Reading) Reading {
	if other, ok := m.likeliestPiece(likelier); ok && other.Request != r.Request {
		return other
	}
	if m.chance(intent.Explanation) < wantsToKnow || m.asksItsFigures(r) || m.asksMeasureOf(r) {
		return r
	}
	if near := m.nearestTopics(); len(near) > 0 && near[0].score >= likely && near[0].hits >= 2 && m.mayBe(near[0]) {
		return m.readingOf(near[0])
	}
	return Reading{Outcome: Question, Request: r.Request, Options: r.Options, Notes: r.Notes,
		Ask:     fmt.Sprintf("Shall I work out the %s? If you want to know something about it, ask that alone, in other words.", r.Request),
		Choices: []Choice{{"work it out", r.Request, r.Options}}}
}

// asksMeasureOf reports whether a message names a piece and its stone and asks a measure that
// the piece's own answer tells: "how tall should the collet be for a 6mm round".
func (m *message) asksMeasureOf(r Reading) bool {
	asks := m.says("how tall", "how high", "what height", "how wide", "how deep", "how far down", "how big", "how long", "what length", "which length")
	other := m.says("why", "minutes", "seconds", "take me", "soak", "anneal", "keep", "hole", "saddle", "solder", "difference", "better", "too tall", "too high", "too wide", "wire", "shank", "slots", "notch", "notches")
	return m.context.Last == nil && r.Options["size"] != "" && m.cues[r.Request] >= plainlyNamed && len(m.found) <= 2 && asks && !other
}

// measuredPiece is the piece that a message plainly names in place of a fact, where it asks a
// measure of it and tells all that the piece needs: "how long should the bezel be for a 10mm
// round". Of two such pieces it is the one that is named more plainly, then the first by name.
func (m *message) measuredPiece(r Reading) Reading {
	if r.Outcome != Explanation || factNamed(r.Topic) == nil || len(m.found) == 0 || !m.says("for") || m.context.Last != nil || m.context.Asked != nil {
		return r
	}
	named := slices.Sorted(maps.Keys(readersOf))
	slices.SortStableFunc(named, func(a, b string) int { return cmp.Compare(m.cues[b], m.cues[a]) })
	for _, request := range named {
		if m.cues[request] < plainlyNamed {
			break
		}
		if piece, ok := m.readAs(request); ok && piece.Outcome == Request && piece.Verdict == "" && m.asksMeasureOf(piece) {
			return piece
		}
	}
	return r
}

// figuresOfStone are figures of a piece without which nobody asks for its blank: what it
// holds, and what it is made of.
var figuresOfStone = []string{"size", "thickness"}

// figuresTold is how many options a piece has that is told whole.
const figuresTold = 5

// asksItsFigures reports whether a message asks for figures of a piece that it tells whole,
// whatever else it asks to know.
func (m *message) asksItsFigures(r Reading) bool {
	if len(r.Options) < figuresTold {
		return false
	}
	for _, option := range figuresOfStone {
		if r.Options[option] == "" {
			return false
		}
	}
	return m.says(wantsFigures...) || m.says("the pattern", "what pattern", "what outside diameter", "which outside diameter", "what diameter", "what height", "what width", "how high should", "how long should", "how wide should")
}

// How sure the whole message must be of a subject to be read so whatever the rules
// found, and how unlikely what they found must be.
const (
	plainly     = 0.8
	hardlySo    = 0.06
	littleSo    = 0.12 // where the log or the bench is plainly meant
	saidOutside = 0.6  // where the rules found nothing certain
	// certainlyNoPiece is asked for where the rules found a piece with several figures.
	certainlyNoPiece = 0.93
)

// otherSubject reads a message as what all its words say plainly where the rules
// found something that is hardly meant: as no question, as none of the trade, as a
// question to know, or as another request.
func (m *message) otherSubject(r Reading) (Reading, bool) {
	wanted, chance := m.likeliest()
	certainly := plainly
	if r.Outcome == Unknown || r.Outcome == Question && r.Request == "" {
		certainly = saidOutside
	}
	hardly := hardlySo
	if keepsOrShows[wanted] && chance >= plainly {
		hardly = littleSo
	}
	if r.Outcome == FirstAid || m.chance(intentsOf(r)...) > hardly || standsFast(r.Topic) || sumsOnStock[r.Topic] || m.countsProngs(r) {
		return Reading{}, false
	}
	if other, ok := m.noPiece(r); ok {
		return other, true
	}
	if r.Outcome == Request && readersOf[r.Request] != nil && m.figureCount() > 1 && wanted == intent.Explanation {
		certainly = certainlyNoPiece
	}
	if chance < certainly {
		return Reading{}, false
	}
	switch {
	case wanted == intent.Silent:
		return Reading{Outcome: Silent}, !m.asksInWords()
	case wanted == intent.Declined:
		return m.outsideSomehow(), true
	case wanted == intent.Explanation && r.Outcome != Explanation:
		return m.knownOrOffered(r)
	case r.Outcome == Explanation || r.Outcome == Question || r.Outcome == Unknown || keepsOrShows[wanted] && (r.Outcome == Silent || !m.beyondDoubt(r)):
		return m.readAs(wanted)
	}
	return Reading{}, false
}

// How sure a message must be of no piece in place of a question for one.
const (
	wantsWords   = 0.75 // of knowledge, of whatever kind
	likelyBeside = 0.6  // of what is not of the trade
	mayBeBeside  = 0.25 // of that, where no piece is likely either
	nearTheTrade = 1.1  // how near a topic is from which that is not taken for granted
	likelyTalk   = 0.65 // of talk that wants no answer
)

// noPiece reads a message as one that asks to know something, as none of the trade or as
// talk, where the rules ask for what a piece lacks that is hardly meant.
func (m *message) noPiece(r Reading) (Reading, bool) {
	if r.Outcome != Question && r.Outcome != Unknown || m.context.Aid != "" || m.context.surely {
		return Reading{}, false
	}
	switch {
	case m.chance(intent.Declined) >= likelyBeside, m.hardlyOfTrade(r):
		return m.outsideSomehow(), true
	case m.chance(intent.Silent) >= likelyTalk:
		return Reading{Outcome: Silent}, !m.asksInWords()
	case m.chance(knowing...) >= wantsWords:
		if known, ok := m.knownOrOffered(r); ok || m.figureCount() > 0 || m.says(r.Request) {
			return known, ok
		}
		return m.byAllWords()
	}
	return Reading{}, false
}

// hardlyOfTrade reports whether a message may well be none of the trade where nothing
// better was found for it: it is unread, offered topics, or asked about a piece that is
// hardly meant. Of what was not learnt from, nearly all such messages are none.
func (m *message) hardlyOfTrade(r Reading) bool {
	found := 0.0
	if r.Request != "" {
		found = m.chance(r.Request)
	}
	beside, least := m.chance(intent.Declined), mayBeBeside
	if m.hasPiece() {
		least = possible
	}
	if beside < least || beside <= found || beside <= m.chance(intent.Silent) {
		return false
	}
	all := m.rankedTopics()
	return len(all) == 0 || all[0].near < nearTheTrade
}

// sumsOnStock are the topics of sums that are worked out in words where no request
// does: a request is no better answer.
var sumsOnStock = map[string]bool{
	"which stone for a tube": true, "which stone for a cone": true, "stones for a strip": true, "discs of several domes": true, "metal of several waxes": true, "strips for several stones": true, "which tube for a stone": true, "pairs of stones and tubes": true, "stones for tubes": true, "tube in a tube": true, "tube over tube": true, "wall of a sleeve": true, "wax for the metal there is": true, "length of a mass": true, "sheet of a mass": true, "cube of a mass": true,
	"blanks from a sheet": true, "lean of a wall": true, "mass of a volume": true, "carats to mm": true, "mass of balls": true, "mass in another metal": true, "karat of a mix": true, "density of wax": true, "density of a metal": true, "print off scale": true,
}

// keepsOrShows are requests that no piece is worked out for: they also go before one
// that the rules found.
var keepsOrShows = map[string]bool{"bench": true, "daybook": true, "help": true}

// standsFast reports whether a topic warns, or tells what can't be worked out: then it
// answers whatever else a message may ask for.
func standsFast(topic string) bool {
	fact := factNamed(topic)
	return strings.HasPrefix(topic, "language ") || fact != nil && (fact.Warns || fact.Blocks)
}

// intentsOf are the intents that a reading answers.
func intentsOf(r Reading) []string {
	switch r.Outcome {
	case Explanation:
		return knowing
	case Declined:
		return []string{intent.Declined}
	case Silent:
		return []string{intent.Silent}
	}
	switch {
	case r.Request == "":
		return nil
	case onlyKnowledge(r):
		return knowing
	}
	return []string{r.Request}
}

// fewestAsked is how many words a message that names a request needs for a question to
// know something.
const fewestAsked = 6

// knownOrOffered answers by the topic that all words are nearest to, or offers those
// that come near in place of a reading that is no question back already.
func (m *message) knownOrOffered(found Reading) (Reading, bool) {
	if found.Outcome == Question && m.says(found.Request) && m.words() < fewestAsked {
		return Reading{}, false
	}
	if r, ok := m.nearestByAllWords(m.leastNear()); ok {
		return r, true
	}
	if m.figureCount() > 0 || found.Outcome == Question && found.Request != "" {
		return Reading{}, false
	}
	return m.byAllWords()
}

// readAs reads the request that is plainly meant, also where something is missing.
func (m *message) readAs(request string) (Reading, bool) {
	read := readersOf[request]
	if read == nil {
		read = readersBeside[request]
	}
	if read == nil || !m.context.takes(request, "") {
		return Reading{}, false
	}
	m.bindRoles()
	m.release()
	return read(m)
}
