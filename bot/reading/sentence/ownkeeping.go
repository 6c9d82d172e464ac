package sentence

import (
	"regexp"
	"strings"
)

// What members say of their settings and of the log in words that name no setting and no
// entry. It is read before the jobs, whose words are in it too: "how many collets have I done
// this month".

// mostOfKeeping is how many words such a wish has at most.
const mostOfKeeping = 14

// keptPlainly reads what is asked of the settings or of the log.
func (m *message) keptPlainly() (Reading, bool) {
	if r, ok := m.exportLog(); ok {
		return r, true
	}
	if m.words() > 2*mostOfKeeping {
		return Reading{}, false
	}
	for _, read := range []func(*message) (Reading, bool){(*message).resetSettings, (*message).showSettings, (*message).usualAsked, (*message).systemPreferred, (*message).settingChanged, (*message).wholeForgotten, (*message).showLog, (*message).listMine, (*message).countInLog, (*message).entryCorrected, (*message).entryGone, (*message).partForgotten, (*message).usualReplaced, (*message).madeThen, (*message).notWhatWasAsked, (*message).doneByOthers, (*message).answeredBefore} {
		if r, ok := read(m); ok {
			return r, true
		}
	}
	return Reading{}, false
}

var (
	keepingWords = []string{"=settings", "=defaults", "=presets"}
	bookWords    = []string{"log", "logbook", "daybook", "day book"}
	entryWords   = []string{"entries", "records", "questions", "answers", "blanks", "calculations", "history", "everything i asked", "everything ive asked", "everything we asked", "all i asked"}
)

// resetSettings takes all settings back: "reset to defaults".
func (m *message) resetSettings() (Reading, bool) {
	if len(m.found) > 0 || len(m.alloys) > 0 || m.words() > mostOfKeeping || m.startsWith("how", "what", "why") || m.says("dont", "never", "not") {
		return Reading{}, false
	}
	back := m.says("reset", "restore", "back to", "return to", "go back to", "revert to", "undo all")
	if !back || !m.says("=defaults", "default settings", "factory settings", "original settings", "standard settings", "all settings", "all my settings", "the default") {
		return Reading{}, false
	}
	return Reading{Outcome: Request, Request: "bench", Options: map[string]string{"drop": "all"}}, true
}

// showSettings shows what is kept, or taken where nothing is said.
func (m *message) showSettings() (Reading, bool) {
	if len(m.found) > 0 || len(m.alloys) > 0 || m.words() > mostOfKeeping || m.says("change", "reset", "clear", "wipe", "drop", "why", "how do i", "how to") {
		return Reading{}, false
	}
	shown := m.startsWith("show", "list", "see", "view", "display", "what", "whats", "which", "current", "tell me", "can i see", "my") || m.says("show me", "let me see")
	named := m.says(keepingWords...) && !m.says("stone settings", "kinds of settings", "types of settings", "settings for", "prong settings", "bezel settings", "crown settings", "other settings", "settings are there", "ready made settings")
	taken := m.says("thickness", "gauge", "sheet", "metal") && m.says("assume", "assuming", "suppose", "presume", "take it as", "use normal", "you use") && m.says("dont say", "say nothing", "say one", "give one", "dont give", "dont tell", "none is given", "not given", "been assuming", "dont mention", "leave it out") || m.says("got me down for", "have me down for")
	usual := m.says("=my normal", "my normal", "my standard", "my usual") && m.startsWith("what", "whats", "remind me", "tell me", "which") && m.words() <= fewInLog && !m.says("do", "make", "size", "finger", "ring")
	saved := m.says("my bench") && m.says("assume", "assumes", "settings", "set to", "use", "default") || m.says("saved for me", "stored for me", "set for me", "remember for me", "saved settings")
	if shown && (named || saved) || usual || taken {
		return Reading{Outcome: Request, Request: "bench", Options: map[string]string{}}, true
	}
	return Reading{}, false
}

// fewInLog is how many words a wish to see the log has at most.
const fewInLog = 5

// showLog shows the log, where nothing is said but that.
func (m *message) showLog() (Reading, bool) {
	if len(m.found) > 0 || m.words() > fewInLog || !m.startsWith("show", "open", "see", "view", "list", "display") || !m.says(bookWords...) {
		return Reading{}, false
	}
	d := m.draft("daybook")
	d.bookDays()
	return d.reading(), true
}

// piecesOfMine are words for somebody's own pieces, with the request that works them out.
var piecesOfMine = [][2]string{{"my collets", "collet"}, {"my bezels", "bezel"}, {"my rings", "band"}, {"my bands", "band"}, {"my domes", "dome"}, {"my prongs", "prongs"}, {"my collars", "collar"}, {"my halos", "halo"}}

// listMine lists the pieces of one kind: "list my collets".
func (m *message) listMine() (Reading, bool) {
	if len(m.found) > 0 || m.words() > fewInLog || !m.startsWith("list", "show", "show me") || !m.context.takes("daybook", "request") {
		return Reading{}, false
	}
	for _, p := range piecesOfMine {
		if m.says(p[0]) {
			d := m.draft("daybook")
			d.say("request", p[1])
			m.leaveOut()
			return d.reading(), true
		}
	}
	return Reading{}, false
}

// countInLog looks for the pieces of one kind that were asked for in a time.
func (m *message) countInLog() (Reading, bool) {
	often := m.startsWith("how often", "how many times") && m.says("asked", "ask") && m.says("i", "we")
	done := m.says("i done", "ive done", "have i done", "i did", "did i do", "have i made", "ive made", "i made", "did i make", "have we made", "have we done", "did we make", "have i asked", "did i ask", "have i had")
	counted := m.startsWith("how many") && done && m.says("today", "yesterday", "this week", "last week", "this month", "last month", "so far")
	if len(m.found) > 0 || !counted && !often || !m.context.takes("daybook", "request") {
		return Reading{}, false
	}
	for _, job := range []string{"collet", "bezel", "band", "dome", "prongs", "collar", "halo"} {
		if m.says(job, job+"s") || job == "band" && m.says("ring", "rings") {
			d := m.draft("daybook")
			d.bookDays()
			d.say("request", job)
			m.leaveOut()
			m.settled = often
			return d.reading(), true
		}
	}
	return Reading{}, false
}

// exportLog exports the log or what of it a time chooses.
func (m *message) exportLog() (Reading, bool) {
	wish := m.says("export", "exported", "exporting") || m.says("spreadsheet", "csv", "excel") && m.says("send", "give", "get", "download", "want", "need", "save")
	printed := m.says("print", "copy", "all out", "whole lot", "a file", "one file", "as file", "print out", "printout", "backup", "back up") && m.says("everything ive ever asked", "everything i ever asked", "everything i asked", "everything ive asked", "everything you gave me", "all i asked", "all ive asked", "all i ever asked", "my entries", "my questions", "my history", "my records", "my log", "the whole log", "whole history") && !m.says("dont", "never", "forget", "delete") ||
		m.startsWith("export everything", "export it all", "export all", "export the lot", "please export everything", "can you export everything", "can i export everything", "download everything")
	if !wish && !printed || m.startsWith("how", "why", "what") || m.words() > 1 && !printed && !m.says(bookWords...) && !m.says(entryWords...) || m.stoneSides() != nil {
		return Reading{}, false
	}
	d := m.draft("daybook")
	d.say("action", "export")
	if m.says("csv", "spreadsheet", "excel") {
		d.say("format", "csv")
	}
	d.bookDays()
	m.leaveOut()
	return d.reading(), true
}

// entryGone tells who wants an entry gone or changed, or a result written down, how the log is
// corrected.
func (m *message) entryGone() (Reading, bool) {
	erased := m.says("forget", "delete", "remove", "erase", "wipe", "scrap", "strike", "undo", "cancel")
	gone := erased && m.says("the last one", "that last one", "last entry", "that entry", "the last entry", "my last entry", "the last answer", "my last question", "the last question")
	wrong := m.says("wrong measurement", "wrong figure", "wrong size", "wrong number", "was wrong", "wrong stone", "by mistake", "made a mistake", "entry", "last question")
	written := strings.HasPrefix(m.text(), "log the following") || strings.HasPrefix(m.text(), "log this") || strings.HasPrefix(m.text(), "record the following")
	if !(gone && wrong && len(m.found) == 0) && !written {
		return Reading{}, false
	}
	return explain(factNamed("correct the log")), true
}

// amendsEntry is a correction of an entry by its number, with its words.
var amendsEntry = regexp.MustCompile(`(?i)^(?:please |pls |can you |could you )?(?:fix|correct|amend|put a note on|add a note to|note on|comment on) (?:entry|answer|no\.?|number|entry no\.?|entry number) ?#?(\d{1,9}) ?[:,;–-] ?(\S.*\S)$`)

// entryAmended keeps a correction beside an entry: "fix entry 12: the stone was 8x6".
func (m *message) entryAmended() (Reading, bool) {
	parts := amendsEntry.FindStringSubmatch(strings.TrimSpace(m.typed))
	if parts == nil || len(strings.Fields(parts[2])) < 2 || strings.HasSuffix(parts[2], "?") {
		return Reading{}, false
	}
	m.useAll()
	return Reading{Outcome: Request, Request: "daybook", Options: map[string]string{"amend": parts[1] + " " + parts[2]}}, true
}

// readWrongly is the topic of the question that asks again.
const readWrongly = "read wrongly"

// notWhatWasAsked asks again where an answer was of something else.
func (m *message) notWhatWasAsked() (Reading, bool) {
	if len(m.found) > 0 || m.words() > mostOfKeeping/2 || m.context.Last != nil || m.context.Asked != nil || !m.says("not what i asked", "wasnt what i asked", "isnt what i asked", "not what i meant", "wasnt what i meant", "not my question", "didnt ask for that", "didnt ask that", "never asked for that") {
		return Reading{}, false
	}
	return Reading{Outcome: Question, Topic: readWrongly, Ask: "Then I read you wrongly. Say it in other words: the piece, its sizes and the metal, or one question"}, true
}
