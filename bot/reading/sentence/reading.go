// Package sentence reads what members type in everyday words: "I have this 9 x 7
// pear and 20 gauge sterling: what do I cut?" A message becomes one request with
// its options, one question back, an explanation, first aid, a polite "that is
// not my trade", or nothing.
//
// The words are data: terms in lexicon.go, facts in facts.go, troubles in
// trouble.go. What a number measures is decided by its unit, by the word beside
// it, or by what is left over and can be only one thing; a number that fits
// nowhere is asked about and never dropped.
package sentence

import (
	"maps"
	"slices"
	"strings"

	"guildhand/bot/reading/trust"
)

// Outcome is what a message turned out to be.
type Outcome int

// Outcomes of a reading.
const (
	Unknown     Outcome = iota // nothing was understood
	Request                    // Request and Options are set
	Question                   // Ask and Choices are set
	Explanation                // Text is set
	FirstAid                   // Request and Options name the first aid
	Declined                   // Text says what guildhand does instead
	Silent                     // chatter that wants no answer
)

// Reading is what a message means.
type Reading struct {
	Outcome Outcome
	// Request is the request's word in the catalogue, and Options its options by
	// name, each in a form that the catalogue reads.
	Request string
	Options map[string]string
	// Verdict begins with yes, no or it depends, where the message asks for one;
	// the request, where there is one, works out the piece. Of first aid it is the
	// line that bears on what was said of the hurt.
	Verdict string
	// Notes say what the reader took for granted: "silver is read as sterling".
	Notes []string
	// Told are figures that the asker has worked out, to be compared with the answer.
	Told []Told `json:",omitempty"`
	// Changed lists what a follow-up changed in the last reading.
	Changed []string
	// Ask is a question back, with at most three choices. Missing names the option
	// that a bare answer fills; Request and Options hold what is known.
	Ask     string
	Choices []Choice
	Missing string
	// Unplaced is the figure that the question is about, as it was typed. It is asked
	// about again until it has its place.
	Unplaced string `json:",omitempty"`
	// Completed tells that the rules had no place for one of its figures.
	Completed bool `json:",omitempty"`
	// Doubted tells that the question is whether the piece is meant at all.
	Doubted bool `json:",omitempty"`
	// Piece is what is known of the piece of a class, where that is asked about, or the
	// ring whose size an explanation has told.
	Piece *Last `json:",omitempty"`
	// Topic is the key of the fact, trouble or first aid that was found.
	Topic string
	// Text is an explanation or what was declined; Source is where it comes from.
	Text, Source string
}

// Choice is one answer to a question back: a label for a button, and the
// request that it stands for.
type Choice struct {
	Label   string
	Request string
	Options map[string]string
}

// Last is the last reading of a maker in a room, which a follow-up changes.
type Last struct {
	Request string
	Options map[string]string
}

// Context is what a message is read against.
type Context struct {
	// Last is the maker's last reading in this room, nil for none.
	Last *Last
	// Earlier are the readings before Last, the latest first.
	Earlier []Last
	// Topic is the key of the fact that the latest answer explained, empty where the
	// latest answer was of Last.
	Topic string
	// Said is what the maker has said of a piece that is not whole yet, empty once an
	// answer was worked out.
	Said string
	// Asked is the question that the bot asked last and that is still open.
	Asked *Reading
	// Kept is the latest answer where it was of the log or of the maker's defaults, nil
	// otherwise.
	Kept *Last
	// Focus is the measure that the message before spoke of without a figure, "height"
	// after "how tall did you use?".
	Focus string
	// Takes reports whether a request has an option; nil takes all.
	Takes func(request, option string) bool
	// Excludes reports whether two options of a request can't stand together; nil
	// lets all.
	Excludes func(request, option, other string) bool
	// Aid is the first aid that is the latest topic of the room, empty for none.
	// AidOfAnother tells that it was given to somebody else: then only what bears
	// on a hurt goes on from it.
	Aid          string
	AidOfAnother bool
	// Addressed tells that the message was meant for the bot: a prefix, a
	// mention, a reply to it or a direct chat.
	Addressed bool
	// undoubted, if set, is told the signs of a piece, which is then not doubted.
	undoubted func(trust.Signs)
	// undoubtedTurn is the same of a message that comes after a piece.
	undoubtedTurn func(trust.Signs)
	// memory, if set, is what the models say of the text that is read.
	memory *memory
	// ofPiece tells that only a piece is sought: no figure is told in other units.
	ofPiece bool
	// viewed tells that a message is read in another context than its own.
	viewed bool
	// surely tells that only what the message asks for beyond doubt counts.
	surely bool
}

func (c Context) takes(request, option string) bool {
	return c.Takes == nil || c.Takes(request, option)
}

// After is the context of the next message, once this reading was answered.
func (c Context) After(typed string, r Reading) Context {
	if r.Outcome == Silent {
		return c // nothing was said
	}
	switch {
	case c.Last == nil && r.Outcome == Explanation && isVerdict(c.Topic) && isVerdict(r.Topic):
		c.Said = judgedQuestion(c.Said, typed)
	case c.Last == nil && r.Outcome == Explanation && isSum(c.Topic) && r.Topic == c.Topic:
		c.Said = saidOfSum(c.Said, typed)
	case r.Outcome == Question, c.Last == nil && (r.Outcome == Explanation || r.Outcome == Unknown):
		c.Said = Joined(c.Said, typed)
	default:
		c.Said = ""
	}
	if r.Outcome == Unknown {
		if focus := FocusOf(typed); focus != "" {
			c.Focus = focus // "I don't know how tall" was not understood, and "5 then" may be
		}
		return c
	}
	c.Aid, c.Topic, c.Kept = "", "", nil
	c.Focus = FocusOf(typed)
	switch r.Outcome {
	case FirstAid:
		c.Aid = r.Topic
	case Explanation:
		c.Topic = r.Topic // an open question stays open
		if r.Topic == ringsOfSeveralSizes {
			c.Asked = nil // it asked for one ring of a list
		}
		if r.Piece != nil && c.Last == nil {
			c = c.goOn(*r.Piece)
		}
	case Request:
		c.Asked = nil
		switch answered := (Last{Request: r.Request, Options: r.Options}); r.Request {
		case "daybook", "bench":
			c.Kept = &answered
		case "help", "stop", "cautions":
		default:
			c = c.goOn(answered)
		}
	case Question:
		if r.asksNothing() {
			return c // it says what can't be done, so that nothing answers it
		}
		c.Asked = &r
		if c.Last != nil && r.Unplaced != "" && r.Request == c.Last.Request {
			c.Last = &Last{Request: r.Request, Options: r.Options} // all but that figure is changed
		}
	}
	return c
}

// asksNothing reports whether a question back waits for no figure, choice or yes.
func (r Reading) asksNothing() bool {
	return r.Request != "" && r.Missing == "" && r.Unplaced == "" && len(r.Choices) == 0 && !r.Doubted && r.Piece == nil
}

// mostEarlier is how many readings before the last can be gone back to.
const mostEarlier = 5

// goOn makes a piece the last one, and the one before it the latest of the earlier.
func (c Context) goOn(piece Last) Context {
	if c.Last != nil && (c.Last.Request != piece.Request || !maps.Equal(c.Last.Options, piece.Options)) {
		c.Earlier = append([]Last{*c.Last}, c.Earlier[:min(len(c.Earlier), mostEarlier-1)]...)
	}
	c.Last = &piece
	return c
}

// Line writes a reading's request in the catalogue's form, options in the order
// of their names.
func (r Reading) Line() string { return line(r.Request, r.Options) }

// Line writes a choice in the catalogue's form.
func (c Choice) Line() string { return line(c.Request, c.Options) }

func line(request string, options map[string]string) string {
	parts := []string{request}
	last := ""
	for _, name := range slices.Sorted(maps.Keys(options)) {
		switch v := options[name]; {
		case name == "pieces": // runs to the end of the line
			last = " " + v
		case v == "yes":
			parts = append(parts, name)
		default:
			parts = append(parts, name+" "+v)
		}
	}
	return strings.Join(parts, " ") + last
}

// longestMessage is how many tokens of a message are read: more is a story.
const longestMessage = 120

// takenAsAsked is a context in which the piece that was doubted is the last one: who goes on
// from the question whether it was meant, and does not say no, has meant it.
func (c Context) takenAsAsked(typed string) Context {
	asked := c.Asked
	if asked == nil || c.Last == nil || !asked.Doubted || asked.Request != c.Last.Request || beginsWithOne(newMessage(typed).text(), noWords) {
		return c
	}
	return c.goOn(Last{Request: asked.Request, Options: asked.Options})
}

// Read reads a message.
func Read(typed string, c Context) Reading {
	thanked := false
	if c.Aid == "" {
		rest := afterThanks(typed)
		thanked, typed = rest != typed, rest
	}
	if c.Asked != nil {
		typed = afterNo(typed)
	}
	if c.Last != nil {
		if c.Aid == "" {
			typed = afterSuccess(typed)
		}
		if rest := withoutRest(typed); rest != typed && !newMessage(typed).says(furtherStones...) {
			typed = rest
		}
	}
	if c.memory == nil || c.memory.typed != typed {
		c.memory = newMemory(typed)
	}
	m := c.memory.asTyped()
	if len(m.tokens) == 0 {
		return Reading{Outcome: Unknown}
	}
	m.context = c.takenAsAsked(typed)
	m.backToWeighed()
	m.backToBand()
	m.inchesOfPiece()
	hurt, isHurt := m.firstAid()
	if c.Aid == "" && isHurt {
		return hurt
	}
	if c.Aid != "" {
		if r, ok := m.afterAid(hurt, isHurt); ok {
			return r
		}
	}
	if danger, ok := m.dangerAtHand(); ok {
		return danger
	}
	if len(m.tokens) > longestMessage {
		return Reading{Outcome: Unknown}
	}
	if told, ok := m.reported(); ok {
		return told
	}
	if m.closes(thanked) {
		return Reading{Outcome: Silent}
	}
	if kept, ok := m.ofKept(); ok {
		return kept
	}
	if back, ok := m.backThen(); ok {
		return back
	}
	if asked, ok := m.announced(); ok {
		return asked
	}
	if judged, ok := m.judgedThen(); ok {
		return judged
	}
	if earlier, ok := m.namedEarlier(); ok {
		return m.plainly(earlier)
	}
	if two, ok := m.partOfClass(); ok {
		return two
	}
	if told, ok := m.ofFocus(); ok {
		return m.plainly(told)
	}
	if told, ok := m.toldWhoseSize(); ok {
		return told
	}
	if kit, ok := m.changedInKit(); ok {
		return m.plainly(kit)
	}
	if again, ok := m.toldAgain(); ok {
		return again
	}
	if open, ok := m.leftToUs(); ok {
		return m.plainly(open)
	}
	if changed, ok := m.surelyInHand(); ok {
		return m.plainly(m.stillOfMetal(changed))
	}
	return m.honestly(m.withTold(m.withFahrenheit(m.stillOfMetal(m.viewedOtherwise(m.confirmedInTalk(m.stillTold(m.ofFurtherStone(m.readInContext()))))))))
}

// answersBarely reports whether a message is nothing but the figure that was asked for.
func (m *message) answersBarely(r Reading) bool {
	asked := m.context.Asked
	said := slices.ContainsFunc(m.tokens, func(t token) bool { return t.word() && !unitLike(t.text) })
	return asked != nil && asked.Missing != "" && !said && len(m.found) == 1 && r.Request == asked.Request && r.Options[asked.Missing] != ""
}

// readInContext reads a message that tells of no accident.
func (m *message) readInContext() Reading {
	alone := m.measuredPiece(m.ringByFigures(m.agreed(m.firstReading())))
	if m.answersBarely(alone) {
		return m.plainly(alone)
	}
	if listed, ok := m.listInTalk(); ok {
		return m.plainly(listed)
	}
	if again, ok := m.askedOfPiece(alone); ok {
		return m.plainly(again)
	}
	if used, ok := m.toldUse(alone); ok {
		return m.plainly(used)
	}
	if told, ok := m.detailOfPiece(alone); ok {
		return m.plainly(told)
	}
	if changed, ok := m.surelyChanged(alone); ok {
		return m.plainly(changed)
	}
	if both, better := m.together(alone); better {
		return m.plainly(both)
	}
	if fresh, ok := m.begunAnew(alone); ok {
		return m.plainly(fresh)
	}
	if again, ok := m.sameForAnother(alone); ok {
		return m.plainly(again)
	}
	if said, ok := m.likelyTurn(alone); ok {
		return m.plainly(said)
	}
	if placed, ok := m.placedInTalk(alone); ok {
		return m.plainly(placed)
	}
	if known, ok := m.inTalk(alone); ok {
		return known
	}
	return m.plainly(m.askedAsWhole(m.likelierByAll(m.confirmed(alone))))
}

// likelierByAll is what a message surely asks for by all its words in place of a question
// back, or of a reading that is hardly meant: figures in other units, a weight, a heat, a
// verdict.
func (m *message) likelierByAll(r Reading) Reading {
	return m.talkInstead(m.nearerTopic(m.judgedInstead(m.ringInstead(m.heatInstead(m.weighedInstead(m.toldInUnits(r)))))))
}

// firstReading is that of the first reader that understands the message.
func (m *message) firstReading() Reading {
	for _, read := range readers() {
		if r, ok := read(m); ok {
			return r
		}
	}
	return Reading{Outcome: Unknown}
}

// readers are tried in this order; the first that understands a message reads it.
func readers() []func(*message) (Reading, bool) {
	return []func(*message) (Reading, bool){
		(*message).warning,
		(*message).inOtherScale,
		(*message).trialAnswered,
		(*message).reply,
		(*message).entryAmended,
		(*message).ownEntries,
		(*message).keptPlainly,
		(*message).nameThenWhat,
		(*message).otherTrade,
		(*message).sizeInSystem,
		(*message).chatter,
		(*message).ofItself,
		(*message).otherLanguage,
		(*message).ofPieceInHand,
		(*message).weightOfCut,
		(*message).thicknessWanted,
		(*message).whichInTube,
		(*message).ringTalkAlone,
		(*message).densityAsked,
		(*message).keeps,
		(*message).roundByString,
		(*message).printScale,
		(*message).surelyTraced,
		(*message).trialByPlan,
		(*message).stonesForMade,
		(*message).surelyTrial,
		(*message).judgedBeside,
		(*message).annealPlainly,
		(*message).wordForWord,
		(*message).outside,
		(*message).goBack,
		(*message).aboutPiece,
		(*message).piecesFromStrip,
		(*message).trials,
		(*message).trouble,
		(*message).toldOfTrouble,
		(*message).judged,
		(*message).followUp,
		(*message).ringTalk,
		(*message).converted,
		(*message).stockSums,
		(*message).fact,
		(*message).foreseen,
		(*message).withItsName,
		(*message).besideItsName,
		(*message).jobOrKnown,
		(*message).signAgain,
		(*message).talk,
		(*message).nearest,
		(*message).fallback,
		(*message).noSuchChange,
		(*message).remark,
		(*message).stillAsked,
		(*message).notOfPiece,
		(*message).figuresAlone,
	}
}
