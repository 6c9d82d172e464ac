package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// heat reads annealing, soldering, quenching and melting.
func (m *message) heat() (Reading, bool) {
	d := m.draft("heat")
	if s := m.meaning("solder:"); len(s) > 0 && m.has("solder", "flow", "temperature") && m.context.takes("heat", "solder") {
		d.say("solder", s[0])
	}
	if m.has("cadmium") && m.has("solder") {
		d.say("solder", "cadmium")
	}
	if g := m.meaning("gem:"); len(g) > 0 {
		d.say("stone", g[0])
	}
	d.set("joints", m.counts("joints"))
	said := m.temperature(d)
	for _, q := range m.found {
		if q.measure == length || q.measure == gauge || q.measure == size || q.measure == mass || q.measure == bare && q.value < 30 && q.measure != count {
			q.used = true
			d.note("%s changes nothing here", strings.TrimSpace(q.typed(m)))
		}
	}
	if len(m.alloys) > 1 {
		return m.heatOfTwo(d)
	}
	d.alloy("alloy", !(m.says("solder") && m.says("silver")))
	if r := d.tooHot(said); r != "" {
		reading := d.reading()
		reading.Verdict = r
		return reading, true
	}
	if !d.has("alloy") && d.ask == "" {
		if d.has("solder") || d.has("stone") || d.has("joints") {
			d.say("alloy", "sterling")
			d.note("no metal was named, so sterling is taken")
		} else {
			d.question("alloy", "Which metal?", d.with("sterling silver", "alloy", "sterling"), d.with("copper", "alloy", "copper"), d.with("18 karat yellow gold", "alloy", "18k-yellow"))
		}
	}
	return d.reading(), true
}

// annealPlainly reads the work and a metal and nothing else: "anneal copper".
func (m *message) annealPlainly() (Reading, bool) {
	if len(m.alloys) != 1 || len(m.found) > 0 || m.words() > 3 || !m.startsWith("anneal", "annealing") || m.has("solder") {
		return Reading{}, false
	}
	return m.heat()
}

// temperature takes a temperature that was said, in °C, 0 for none.
func (m *message) temperature(d *draft) float64 {
	for _, q := range m.found {
		if q.measure != temper {
			continue
		}
		q.used = true
		d.note("%s is yours to compare with the figures here", strings.TrimSpace(q.typed(m)))
		if last := m.at(q.next - 1).text; last == "f" || last == "fahrenheit" {
			return (q.value - 32) / 1.8
		}
		return q.value
	}
	return 0
}

// tooHot is a verdict on a temperature for the metal that was named.
func (d *draft) tooHot(celsius float64) string {
	a := alloyOf(d.options["alloy"])
	if celsius == 0 || a.Key == "" || !d.m.says("too hot", "too much", "melt", "is", "ok", "enough") {
		return ""
	}
	switch {
	case celsius >= a.SolidusC-15:
		return fmt.Sprintf("Yes, %.0f °C is too hot for %s: it begins to melt at about %.0f °C.", celsius, a.Name, a.SolidusC)
	case celsius > a.AnnealHighC:
		return fmt.Sprintf("It depends: %.0f °C is above the annealing range of %s (%.0f to %.0f °C) and below where it begins to melt, about %.0f °C.", celsius, a.Name, a.AnnealLowC, a.AnnealHighC, a.SolidusC)
	case celsius < a.AnnealLowC:
		return fmt.Sprintf("No, %.0f °C is below the annealing range of %s, %.0f to %.0f °C.", celsius, a.Name, a.AnnealLowC, a.AnnealHighC)
	}
	return fmt.Sprintf("No: %.0f °C is within the annealing range of %s, %.0f to %.0f °C.", celsius, a.Name, a.AnnealLowC, a.AnnealHighC)
}

// heatOfTwo is a joint of two metals: the one that melts first decides.
func (m *message) heatOfTwo(d *draft) (Reading, bool) {
	first, second := m.alloys[0], m.alloys[1]
	if first.key == second.key {
		first.used = true
		second.used = true
		d.say("alloy", first.key)
		return d.reading(), true
	}
	for _, a := range m.alloys {
		a.used = true
	}
	if first.key == "" || second.key == "" {
		return Reading{}, false
	}
	low := first.key
	if solidus(second.key) < solidus(low) {
		low = second.key
	}
	d.say("alloy", low)
	d.note("of %s and %s, %s melts first, so its figures decide", alloyName(first.key), alloyName(second.key), alloyName(low))
	r := d.reading()
	if !m.has("solder", "flow") && r.Outcome == Request {
		r.Verdict = heatsBeside(m.alloys)
	}
	return r, true
}

// heatsBeside tells where each of several metals melts and is annealed, for who compares
// them.
func heatsBeside(metals []*metal) string {
	var told []string
	seen := map[string]bool{}
	for _, named := range metals {
		a := alloyOf(named.key)
		if a.Key == "" || seen[a.Key] {
			continue
		}
		seen[a.Key] = true
		melts := fmt.Sprintf("begins to melt at about %.0f °C and is liquid at %.0f °C", a.SolidusC, a.LiquidusC)
		if a.SolidusC == a.LiquidusC {
			melts = fmt.Sprintf("melts at %.0f °C", a.SolidusC)
		}
		if a.AnnealHighC > 0 {
			melts += fmt.Sprintf("; anneal it at %.0f to %.0f °C", a.AnnealLowC, a.AnnealHighC)
		}
		told = append(told, sentenceCase(alloyName(a.Key))+" "+melts+".")
	}
	if len(told) < 2 {
		return ""
	}
	return strings.Join(told, " ")
}

// job names of cautions, and the words that ask for them.
var cautionJobs = []struct {
	job   string
	means []string
}{
	{"pickle", []string{"pickle"}}, {"press", []string{"press", "force"}}, {"polishing", []string{"polishing", "dust"}}, {"casting", []string{"casting", "wax", "resin"}},
	{"chemicals", []string{"chemicals"}}, {"annealing", []string{"anneal"}}, {"saw", []string{"saw"}}, {"files", []string{"file"}}, {"hammer", []string{"hammer"}},
	{"soldering", []string{"solder", "torch", "flux", "cadmium", "safety"}}, {"class", []string{"class"}},
}

// cautions reads a question about safety.
func (m *message) cautions() (Reading, bool) {
	for _, j := range cautionJobs {
		if !m.has(j.means...) {
			continue
		}
		if j.job == "soldering" && !m.has("solder", "torch", "flux", "cadmium") {
			break
		}
		for _, q := range m.found {
			q.used = true // no figure of a caution depends on them
		}
		for _, a := range m.alloys {
			a.used = true
		}
		d := m.draft("cautions")
		d.say("job", j.job)
		return d.reading(), true
	}
	if m.has("safety") {
		d := m.draft("cautions")
		if m.says("melt", "melting", "pour", "pouring", "crucible") {
			if m.says("brass", "zinc", "brass fittings") {
				return explain(factNamed("melting brass")), true
			}
			d.say("job", "casting")
			m.useAll()
			return d.reading(), true
		}
		d.askJob()
		return d.reading(), true
	}
	return Reading{}, false
}

// askJob asks of which job somebody wants the cautions.
func (d *draft) askJob() {
	d.question("job", "Which job?", d.with("soldering", "job", "soldering"), d.with("pickle", "job", "pickle"), d.with("polishing", "job", "polishing"))
}

// What somebody says who wants to be forgotten, or to know what is stored.
var (
	removesData = []string{"forget", "delete", "remove", "erase", "wipe", "destroy", "bin", "throw out", "throw away", "chuck", "scrub", "get rid of", "clear"}
	storesData  = []string{"store", "stored", "keep", "kept", "hold", "know", "save", "saved", "have on me", "have about me", "got on me", "got about me"}
	ownData     = []string{"about me", "concerning me", "stored on me", "have on me", "hold on me", "got on me", "wrote on me", "down on me", "my data", "my stuff", "all of mine", "everything of mine", "my entries", "my entry", "my questions", "my messages", "my records", "my record", "my history", "my info", "my information", "my name", "my details", "forget me", "erase me", "delete me", "what i asked", "what ive asked"}
	otherThings = []string{"setting", "settings", "default", "defaults", "outline", "outlines", "correction", "corrections", "trial", "trials", "bench", "last piece"}
)

// longestWish is how many words such a wish has at most.
const longestWish = 12

// Words of the wish that nothing be stored from now on.
var (
	noLonger  = []string{"stop", "dont", "do not", "quit", "never", "no more"}
	recording = []string{"store", "storing", "save", "saving", "keep", "keeping", "record", "recording", "log", "logging", "remembering"}
	ofAsker   = []string{"my stuff", "my data", "my questions", "my messages", "my measurements", "my entries", "what i ask", "what i type", "what i write", "what i say", "everything i", "about me", "log me", "record me", "recording me", "logging me"}
)

// wantsNothingKept reports whether somebody doesn't want to be recorded.
func (m *message) wantsNothingKept() bool {
	return m.figureCount() == 0 && m.words() <= longestWish && m.startsWith(slices.Concat(noLonger, politely)...) && m.says(noLonger...) && m.says(recording...) && m.says(ofAsker...)
}

// Words of the question who reads what was asked.
var (
	whoReads  = []string{"who can", "who else", "who has", "who gets", "who sees", "who reads", "anyone", "anybody", "everyone", "everybody", "others", "other people", "my teacher", "the teacher", "my boss", "private", "public"}
	isRead    = []string{"see", "sees", "read", "reads", "look at", "access", "private", "public"}
	whatAsked = []string{"what i ask", "what i asked", "what i type", "what i typed", "what i write", "what i say", "my questions", "my messages", "my log", "my answers", "my entries", "my history", "my records", "the daybook", "these messages", "this chat"}
)

// asksWhoReads reports whether somebody asks who reads what they ask.
func (m *message) asksWhoReads() bool {
	return m.figureCount() == 0 && m.words() <= longestWish && m.says(whoReads...) && m.says(isRead...) && m.says(whatAsked...)
}

// politely are words before a wish.
var politely = []string{"please", "pls", "can you", "could you", "hey", "kindly", "i want you to", "id like you to"}

// ownEntries reads the wish to be forgotten, or to see what is stored about its asker.
func (m *message) ownEntries() (Reading, bool) {
	if m.wantsNothingKept() {
		return explain(factNamed("what is kept of you")), true
	}
	if m.asksWhoReads() {
		return explain(factNamed("who sees the log")), true
	}
	if m.figureCount() > 0 || m.words() > longestWish || !m.says(ownData...) || m.says(otherThings...) || len(m.alloys) > 0 {
		return Reading{}, false
	}
	d := m.draft("daybook")
	switch {
	case m.says(removesData...):
		d.say("action", "forget")
	case m.startsWith("what", "whats", "which", "how much", "show", "list", "tell", "can", "do", "i would like to know", "id like to know", "i want to know") && m.says(storesData...) && m.says("about me", "on me", "concerning me"):
		d.say("action", "mine")
	default:
		return Reading{}, false
	}
	m.leaveOut()
	return d.reading(), true
}

// ofOwnEntries reports whether a reading forgets or shows what is stored about its asker, or
// says what is, which is told by words that mean nothing else.
func (r Reading) ofOwnEntries() bool {
	action := r.Options["action"]
	return r.Request == "daybook" && (action == "forget" || action == "mine") || r.Topic == "what is kept of you" || r.Topic == "who sees the log" || r.Topic == "correct the log" || r.Topic == entriesOfOthers || r.Topic == correctionWanted || r.Topic == readWrongly
}

// daybook reads questions about what was asked before.
func (m *message) daybook() (Reading, bool) {
	d := m.draft("daybook")
	if m.tellsOutcome() && m.says("i made", "i cut", "i soldered", "i bent", "i rolled", "made the", "cut the") && !m.says("log", "daybook", "entry", "entries", "show", "list") {
		return Reading{}, false // it tells how a piece came out
	}
	if m.says("yesterday", "last week", "last month", "today") && m.chance("daybook") < unlikely && !m.says(logWords...) {
		return Reading{}, false // the day belongs to a story: "I cut abalone last week and coughed"
	}
	switch {
	case m.has("privacy") && m.says(removesData...):
		d.say("action", "forget")
	case m.has("privacy"):
		d.say("action", "mine")
	default:
		d.bookDays()
	}
	if d.options["action"] == "" {
		for _, job := range []string{"collet", "bezel", "band", "dome", "prongs", "collar"} {
			if (m.cues[job] >= 3 || m.says(job)) && m.context.takes("daybook", "request") {
				d.say("request", job)
				break
			}
		}
		if o := m.meaning("outline:"); len(o) > 0 && m.context.takes("daybook", "outline") {
			d.say("outline", o[0])
		}
	}
	m.daybookFigures(d)
	for _, a := range m.alloys {
		a.used = true
	}
	for _, s := range m.senses {
		if len(s.Means) > 0 && strings.HasPrefix(s.Means[0], "gem:") && !d.has("find") {
			d.say("find", m.between(s.first, s.next))
		}
	}
	return d.reading(), true
}

// daybookFigures takes the days that are asked for, what is searched, and the number
// of one entry; what chooses no entry is said.
func (m *message) daybookFigures(d *draft) {
	var entries []*quantity
	for _, q := range m.found {
		if q.used {
			continue
		}
		q.used = true
		switch {
		case m.besideNamedMonth(q), q.measure == count && q.thing == "days" || daysOf[m.at(q.next).text] > 0 || isoDay.MatchString(m.typed) && m.at(q.first).value >= 2000:
			continue // its days are taken
		case q.measure == size:
			d.say("find", q.shown)
		case m.isEntry(q):
			entries = append(entries, q)
		default:
			d.note("%s chooses no entry: find and a word does", strings.TrimSpace(q.typed(m)))
		}
	}
	if d.has("action") {
		return
	}
	if m.says(changesEntry...) {
		d.note("nothing is changed: a teacher corrects an entry with daybook amend, its number and the correction")
	}
	if len(entries) == 0 {
		return
	}
	for _, option := range []string{"from", "to", "request", "outline", "status", "find"} {
		delete(d.options, option) // the number alone chooses it
	}
	d.say("action", "show")
	d.say("number", entries[0].shown)
	if len(entries) > 1 {
		var choices []Choice
		for _, q := range entries[:min(3, len(entries))] {
			choices = append(choices, d.with("show "+q.shown, "number", q.shown))
		}
		d.question("number", "Which entry shall I show first?", choices...)
	}
}

// changesEntry are words that ask for an entry to be changed, and not only shown.
var changesEntry = []string{"amend", "fix", "fix it", "change", "alter", "correct", "comment", "undo", "pin", "unpin", "strike", "delete", "remove", "approve", "note", "warning", "not correct", "hide"}

// isEntry reports whether a figure is the number of an entry of the daybook.
func (m *message) isEntry(q *quantity) bool {
	if q.measure != bare || q.value < 1 || q.value != math.Trunc(q.value) {
		return false
	}
	role, chance := m.likelyRole("daybook", q)
	return role == "number" && chance >= likelyRole || m.saysEntry(q)
}

// keeps reads what is to be kept or shown of a channel: the log, house rules, and
// who is answered.
func (m *message) keeps() (Reading, bool) {
	for _, read := range []func(*message) (Reading, bool){(*message).houseRule, (*message).channelHabit, (*message).logOf, (*message).withheld} {
		if r, ok := read(m); ok {
			return r, true
		}
	}
	return Reading{}, false
}

// ruleMarks stand before the text of a house rule.
var ruleMarks = []string{"house rule:", "house rule -", "house rule is", "new house rule", "new rule:", "rule for this channel:", "pin this rule:", "pin a rule:", "pin this:", "pin the rule", "add a rule:", "add a house rule", "make it a house rule", "add rule", "channel rule:", "class rule:", "rule:"}

// houseRule pins a house rule: "house rule: nobody under 1 mm for rings".
func (m *message) houseRule() (Reading, bool) {
	typed := strings.ToLower(m.typed)
	for _, mark := range ruleMarks {
		i := strings.Index(typed, mark)
		if i < 0 || len(typed) != len(m.typed) {
			continue
		}
		if mark == "rule:" && i > 0 && typed[i-1] != ' ' {
			continue
		}
		rule := strings.Trim(m.typed[i+len(mark):], " :-,.")
		for _, tail := range []string{". can u remind people", ". can you remind people", ", remind people", " please remind people", ". please remind everyone", ". remind everyone", " please", ", please", " pls"} {
			if k := strings.Index(strings.ToLower(rule), tail); k > 0 && len(rule) == len(strings.ToLower(rule)) {
				rule = strings.TrimRight(rule[:k], " .,")
			}
		}
		if len(strings.Fields(rule)) < 2 {
			continue
		}
		return Reading{Outcome: Request, Request: "daybook", Options: map[string]string{"pin": rule}}, true
	}
	if m.says("house rules", "the rules here", "rules of this channel", "channel rules", "class rules", "rules of the class", "rules for this channel", "rules in this channel", "which rules are pinned", "what rules") && m.asks() && len(m.found) == 0 {
		return Reading{Outcome: Request, Request: "daybook", Options: map[string]string{"action": "rules"}}, true
	}
	return Reading{}, false
}

// channelHabit asks back before something is kept for a whole channel: "we use
// 0.3 mm kerf here, set that", "always give mm first in this channel".
func (m *message) channelHabit() (Reading, bool) {
	ours := m.says("we use", "we always use", "in our workshop", "in this channel", "for this channel", "in this room", "for this class", "in our class", "everyone here", "our shop uses", "in here", "our kerf", "for the whole channel", "for everyone", "for everybody")
	sets := m.says("from now on", "set that", "set it", "always", "please set", "remember that", "make that the default", "as default", "by default", "keep that", "save that", "dont ask again", "set our", "set the")
	switch {
	case !ours || !sets || m.hasPiece() || len(m.alloys) > 0:
		return Reading{}, false
	case m.says("mm", "millimetres", "millimeters", "metric") && m.says("give", "show", "answer", "use", "first", "units", "say") && len(m.found) == 0:
		return m.keepForChannel("Shall I answer in millimetres for everybody in this channel? Inches come beside them where they help; a teacher can also pin it as a house rule.", "millimetres for this channel", map[string]string{"scope": "channel", "units": "mm"}), true
	case m.says("inches", "inch", "imperial") && len(m.found) == 0:
		return m.keepForChannel("Shall I answer in inches for everybody in this channel?", "inches for this channel", map[string]string{"scope": "channel", "units": "inch"}), true
	case m.says("kerf", "saw cut", "blade"):
		return m.keepForChannel("I keep no saw kerf: kit takes it each time (kit 8 makers kerf 0.3 ...), and a blank is drawn to its line. Shall I pin it as a house rule of this channel, so that later answers state it?", "", nil), true
	}
	return Reading{}, false
}

// keepForChannel asks whether defaults are kept for a channel, or the message pinned
// as a house rule.
func (m *message) keepForChannel(ask, label string, options map[string]string) Reading {
	r := Reading{Outcome: Question, Ask: ask}
	if options != nil {
		r.Choices = append(r.Choices, Choice{label, "bench", options})
	}
	r.Choices = append(r.Choices, Choice{"pin it as a house rule", "daybook", map[string]string{"pin": strings.TrimSpace(m.typed)}})
	return r
}

// logWords ask for what was asked or answered, by anybody in the channel.
var logWords = []string{"everything answered", "all answers", "everything asked", "everything that was asked", "who asked", "who was asking", "who has been asking", "whos been asking", "who has asked", "what did people ask", "what did everyone ask", "what did the class ask", "what have people asked", "what have people been asking", "what was answered", "what was refused", "what got refused", "whats been asked", "what has been asked", "show the log", "show me the log", "show me this week", "show this week", "show me today", "show me yesterday", "show me last week", "the daybook", "list of questions", "all the questions", "questions from today", "questions from this week", "the questions from", "answers from today", "answers from this week", "answers given", "export the", "export this", "export our", "as a csv", "as csv", "as a spreadsheet", "log as", "summary of the", "summary of this", "summary of what", "what do people ask most", "which questions come up", "refused this week", "refused today", "failed this week", "what did my students ask", "my students asked", "students ask", "anyone ask about", "anyone asked about", "anybody asked about", "has anyone asked", "did anyone ask", "did anybody ask", "asked about the"}

// logOf reads a question about what was asked or answered here.
func (m *message) logOf() (Reading, bool) {
	if !m.says(logWords...) || m.chance("daybook") < unlikely || m.says("i asked", "did i ask", "my question", "my questions", "delete", "forget") || len(m.alloys) > 0 && len(m.found) > 1 {
		return Reading{}, false
	}
	d := m.draft("daybook")
	switch {
	case m.says("export", "csv", "spreadsheet", "download"):
		d.say("action", "export")
		d.say("format", "csv")
		if m.says("json") {
			d.say("format", "json")
		}
	case m.says("summary", "most", "come up", "overview"):
		d.say("action", "summary")
	case m.says("refused"):
		d.say("status", "refused")
	case m.says("failed"):
		d.say("status", "failed")
	case m.says("answered", "answers"):
		d.say("status", "answered")
	}
	d.bookDays()
	if o := m.meaning("outline:"); len(o) > 0 {
		d.say("outline", o[0])
	}
	for _, job := range []string{"collet", "bezel", "band", "dome", "prongs", "collar"} {
		if m.says(job) || job == "band" && m.says("rings") {
			d.say("request", job)
			break
		}
	}
	m.daybookFigures(d)
	return Reading{Outcome: Request, Request: "daybook", Options: d.options, Notes: d.notes}, true
}

// withheld answers a wish that answers be kept from somebody.
func (m *message) withheld() (Reading, bool) {
	if !m.says("dont tell", "do not tell", "dont give", "dont answer", "dont show", "do not answer", "stop answering", "hide the answer", "keep the answer", "make them work it out", "let them work it out", "only answer me", "only answer teachers") || !m.says("student", "students", "class", "them", "channel", "pupils", "kids", "anyone", "anybody", "people", "everyone", "others") {
		return Reading{}, false
	}
	return Reading{Outcome: Explanation, Topic: "who is answered", Source: "this program's own requests",
		Text: "I can't hold back one exercise or one person: I answer whoever asks. A teacher can switch what I answer in a channel: bench channel answers commands, or bench channel answers off, and bench channel answers all again; or pin a house rule that answers state: daybook pin and the rule."}, true
}

// help answers what can be asked here.
func (m *message) help() (Reading, bool) {
	return Reading{Outcome: Request, Request: "help", Options: map[string]string{}}, true
}
