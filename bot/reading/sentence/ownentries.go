package sentence

import (
	"fmt"
	"slices"
	"strings"
)

// Wishes to change or remove single entries of the log, or a default that no longer holds. The
// log removes all that is stored about its asker, and no part alone: whoever wants a part gone is
// told so, and is asked before anything is removed. A correction is kept beside an entry, whose
// number must be known.

// partsOfLog name a part of what was asked, placesOfLog one by its place, which in a talk may
// be a piece, and timesOfLog one by its time.
var (
	partsOfLog  = []string{"i asked", "ive asked", "i have asked", "we asked", "i typed", "last question", "my question", "ring question", "entry", "entries", "from the log", "out of the log", "from the daybook", "from your memory", "that question", "those questions"}
	placesOfLog = []string{"last one", "last thing", "first one", "second one", "third one", "fourth one", "last two", "last three"}
	timesOfLog  = []string{"last night", "last nite", "yesterday", "this morning", "this afternoon", "tonight", "today", "last week", "this week"}
	removing    = []string{"forget", "delete", "remove", "erase", "wipe", "scrub", "can you forget", "can you delete", "can you remove", "could you forget", "could you delete", "could you remove", "please forget", "please delete", "please remove", "please erase", "kindly forget", "kindly delete", "pls forget", "pls delete", "i want you to forget"}
	ofOthers    = []string{"customers entries", "customer's entries", "clients entries", "client's entries", "entries of my", "entries of another", "his entries", "her entries", "their entries", "students entries", "student's entries", "someone elses entries", "somebody elses entries"}
)

// entriesOfOthers is the fact on entries of somebody else.
const entriesOfOthers = "entries of others"

// partForgotten reads the wish that a part of what was asked be forgotten: "forget all of last
// night".
func (m *message) partForgotten() (Reading, bool) {
	if m.says(removesData...) || m.says("deleted", "removed", "erased", "forgotten") {
		if m.says(ofOthers...) {
			return explain(factNamed(entriesOfOthers)), true
		}
	}
	begins := m.startsWith(removing...) || m.startsWith("can i", "how do i", "how can i") && m.says("forget", "delete", "erase")
	if !begins || m.says(otherThings...) || m.says(forgetful...) || m.namesDefault() || len(m.alloys) > 0 || !m.context.takes("daybook", "action") {
		return Reading{}, false
	}
	alone := m.context.Last == nil && m.context.Asked == nil
	ofLog := m.says(partsOfLog...) && (alone || !m.says("do", "make it", "instead", "try", "use"))
	if !ofLog && !(alone && m.figureCount() == 0 && (m.says(placesOfLog...) || m.says(timesOfLog...) && m.says("all", "everything", "the lot", "what i", "questions")) || alone && m.words() <= 3 && m.says("forget everything", "forget it all", "delete everything", "erase everything", "wipe everything")) {
		return Reading{}, false
	}
	return m.forgetting("I can't remove a single entry or a single day; a wrong one can be left, or a correction put beside it. daybook forget removes everything stored about you, after it asks you once more"), true
}

// forgetting is the wish to be forgotten, with notes, whatever else a message tells.
func (m *message) forgetting(notes ...string) Reading {
	d := m.draft("daybook")
	d.say("action", "forget")
	for _, note := range notes {
		d.note("%s", note)
	}
	m.useAll()
	m.leaveOut()
	return d.reading()
}

// wholeForgotten reads the wish that the whole log be removed: "wipe my log. all of it".
func (m *message) wholeForgotten() (Reading, bool) {
	if !m.startsWith(removing...) || !m.says("my log", "my history", "my daybook", "all my entries", "my entries") || m.says(partsOfWhole...) || m.figureCount() > 0 || !m.context.takes("daybook", "action") {
		return Reading{}, false
	}
	return m.forgetting(), true
}

// partsOfWhole are words by which only a part of the log is meant.
var partsOfWhole = []string{"last", "first", "second", "third", "yesterday", "today", "this week", "this morning", "from my log", "from the log", "the one", "entry"}

// Words of an entry, and of a correction to it.
var (
	entriesSaid = []string{"entry", "entries", "in the book", "in the log", "in the daybook", "in my log", "logged"}
	correctsIt  = []string{"wrong", "incorrect", "amend", "amended", "correct", "correct it", "corrected", "fix", "fix it", "has an error", "should be", "should say", "should read", "should have been", "to read", "put right", "put it right", "change", "it was", "was not", "not"}
	notCorrects = []string{"delete", "remove", "erase", "forget", "strike", "show me", "export", "how", "why", "is it correct", "is it right", "was it right"}
)

// entryCorrected asks which entry a correction belongs to, or whether it is to be kept beside
// the one whose number is told.
func (m *message) entryCorrected() (Reading, bool) {
	if !m.says(entriesSaid...) || !m.says(correctsIt...) || m.says(notCorrects...) || m.startsWith("what", "which", "who", "is", "was", "did", "show", "find", "list") || !m.context.takes("daybook", "amend") {
		return Reading{}, false
	}
	if m.says("entry level", "entry hole", "entry point", "entry side", "entry way") || m.figureCount() == 0 && !m.says("amend", "correct", "fix", "change", "put right", "wrong", "has an error") {
		return Reading{}, false
	}
	d := m.draft("daybook")
	d.bookDays()
	delete(d.options, "to")
	for _, q := range m.found {
		if !m.saysEntry(q) || !isCount(q) {
			continue
		}
		m.useAll()
		if m.figureCount() < 2 && len(m.alloys) == 0 {
			return d.showEntry(q), true
		}
		text := strings.Join(strings.Fields(m.typed), " ")
		yes := Choice{Label: "yes, keep it", Request: "daybook", Options: map[string]string{"amend": q.shown + " " + text}}
		return Reading{Outcome: Question, Request: "daybook", Topic: correctionWanted, Choices: []Choice{yes},
			Ask: fmt.Sprintf("Shall I put what you just wrote beside entry %s as its correction? The old answer stays, and nothing is worked out again: for new figures, ask again", q.shown)}, true
	}
	m.useAll()
	return Reading{Outcome: Question, Request: "daybook", Topic: correctionWanted, Choices: []Choice{d.with("show the entries with their numbers")},
		Ask: "Which entry is it? Write its number and what is right, as in: fix entry 12: the stone is 8.5 mm, not 8. I put that beside the entry; nothing is worked out again, so ask again for new figures"}, true
}

// showEntry shows the entry whose correction is not told yet.
func (d *draft) showEntry(number *quantity) Reading {
	d.say("action", "show")
	d.say("number", number.shown)
	d.note("nothing has been changed. Where something is wrong, write what is right, as in: fix entry %s: the stone is 8.5 mm, not 8", number.shown)
	return d.reading()
}

// correctionWanted is the topic of the question which entry is to be corrected.
const correctionWanted = "correction wanted"

// usualSaid are words for a default that the bot has of its asker.
var usualSaid = []string{"me down for", "me down as", "me down on", "me down with", "my usual as", "my usual metal as", "my usual thickness as", "my usual sheet as", "my metal as", "my sheet as", "my thickness as", "my default as"}

// usualReplaced keeps a default in place of the one that was kept: "you have me down for 1 mm
// silver but I changed to 0.8".
func (m *message) usualReplaced() (Reading, bool) {
	if !m.says(usualSaid...) || m.startsWith("what", "why", "which") || !m.context.takes("bench", "thickness") {
		return Reading{}, false
	}
	rest := ""
	for _, end := range []string{" but ", "; ", ". ", ", ", " and "} {
		if i := strings.Index(strings.ToLower(m.typed), end); i > 0 && i+len(end) < len(m.typed) {
			rest = m.typed[i+len(end):]
			break
		}
	}
	now := newMessage(rest)
	if rest == "" || !now.says("changed", "now", "moved", "gone over", "went over", "switched", "use", "using", "its", "it is", "should be", "have") {
		return Reading{}, false
	}
	now.context = m.context
	d := now.draft("bench")
	if q := now.of(gauge, length, bare); q != nil && len(now.found) == 1 && (q.measure == gauge || q.value >= leastAlone && q.value <= 2*mostAlone) {
		d.set("thickness", q)
		if q.measure == bare {
			d.note("%s is read as the thickness of your sheet, in mm", q.shown)
		}
	}
	d.alloy("alloy", true)
	m.useAll()
	return d.reading(), d.has("thickness") || d.has("alloy") || d.ask != ""
}

// madeThen looks in the log for what its asker cut or asked on a day: "what did I cut Tuesday".
func (m *message) madeThen() (Reading, bool) {
	if !m.startsWith("what did i cut", "what did i make", "what did i ask", "what did i do", "what did we cut", "what did we make", "what was i cutting", "what have i cut", "what did i work out") || m.says("wrong", "mistake", "for") {
		return Reading{}, false
	}
	days, _ := m.daysBack()
	if m.weekday() == "" && days == 0 && !m.says("yesterday", "today", "week") && !slices.ContainsFunc(m.tokens, func(t token) bool { return slices.Contains(months, t.text) && t.text != "may" }) {
		return Reading{}, false
	}
	return m.inLog()
}

// nameThenWhat explains what is named first and asked about then: "Gypsy set. A lad asked what
// it is".
func (m *message) nameThenWhat() (Reading, bool) {
	if m.figureCount() > 0 || m.context.Last != nil || m.context.Asked != nil || m.words() > mostOfKeeping {
		return Reading{}, false
	}
	clause, rest := firstClause(m.typed)
	if rest == "" || len(strings.Fields(clause)) > 3 || !newMessage(rest).says("what is it", "what it is", "whats it mean", "what does it mean", "what it means", "what that is", "what they are", "what are they", "whats that") {
		return Reading{}, false
	}
	r := newMessage("what is " + clause).firstReading()
	m.settled = r.Outcome == Explanation
	return r, m.settled
}
