package sentence

import (
	"maps"
	"slices"
	"strings"
)

// openers begin a message that goes on from the one before.
var openers = []string{"and", "same", "the same", "what if", "what about", "how about", "make it", "make that", "now", "but", "instead", "ok and", "also", "or", "in", "with", "what would", "and what", "try", "lets try", "use", "change", "switch", "again", "only", "just", "actually", "sorry", "no", "wait", "i meant", "oops", "as", "if", "then", "another", "one more", "next one", "the next one", "second one", "the second one", "the other one", "other one is", "ok and", "maybe", "could it", "can it", "ok", "same but", "same thing", "do it", "for"}

// pronouns stand for the piece of the last answer.
var pronouns = []string{"it", "that", "this", "same", "one", "them", "those", "these"}

// followUp changes the maker's last reading by what the message says, and says
// what it changed. Without a last reading it asks what is meant.
func (m *message) followUp() (Reading, bool) {
	m.takeMeasuredSheet()
	m.backToPiece()
	if last := m.context.Last; last != nil {
		if r, ok := m.opposite(*last); ok {
			return r, true
		}
		if last.Request == "bezel" && m.has("backplate") && len(m.found) > 0 && !m.asksInWords() && m.stoneSides() == nil {
			if r, ok := m.laidOver(*last); ok {
				return r, true // the figure is the plate's, not the strip's
			}
		}
		m.spokenFigure(*last)
		m.focused()
	}
	alone, says := m.alone()
	if says {
		return alone, true
	}
	r, ok := m.goesOn()
	same := alone.Outcome == Request && m.context.Last != nil && m.sameAnew(alone)
	if ok && r.Outcome == Question && !same && (alone.Outcome == Request || alone.Outcome == Explanation) {
		return alone, true
	}
	if (!ok || r.Unplaced != "") && (!alone.holdsPiece() || m.measuredBetter()) {
		if over, better := m.saidOfPiece(); better {
			r, ok = over, true
		}
	}
	if same && (!ok || r.Unplaced != "") {
		if over, better := m.laidOver(*m.context.Last); better {
			return m.withVerdict(over), true
		}
		m.release()
		m.bindRoles()
		r, ok = m.change(*m.context.Last)
	}
	if ok && r.judgesThickness() {
		r = m.withVerdict(r)
	}
	return r, ok
}

// judgesThickness reports whether a yes or no can be meant of the metal's thickness:
// where something else was changed, that was asked about.
func (r Reading) judgesThickness() bool {
	return len(r.Changed) == 0 || slices.ContainsFunc(r.Changed, func(changed string) bool { return strings.HasPrefix(changed, "thickness") })
}

// saidOfPiece reads a message that could not be read as a change of the last piece
// with the words and figures of that piece.
func (m *message) saidOfPiece() (Reading, bool) {
	last := m.context.Last
	bare := len(m.found)+len(m.alloys)+len(m.meaning("outline:"))+len(m.meaning("profile:")) == 0
	if last == nil || bare && !m.startsWith("do it", "make it", "and make it", "with") && !m.says("instead") || m.asksAnew() || m.beginsAnew(last.Request) || m.asksToKnowAnew() || m.tellsOutcome() || m.says(backWords...) {
		return Reading{}, false
	}
	return m.laidOver(m.pieceMeant())
}

// goesOn reads a follow-up without its verdict.
func (m *message) goesOn() (Reading, bool) {
	opens := m.startsWith(openers...)
	if r, ok := m.changeInWords(); ok {
		return r, true
	}
	if !opens && m.asksToKnowAnew() {
		return Reading{}, false
	}
	if m.ownJob() {
		return m.nextJob(opens)
	}
	if !opens && m.startsWith("why", "whys", "what is", "whats a", "what does", "explain") && len(m.found)+len(m.alloys) == 0 {
		return Reading{}, false
	}
	if m.context.Last == nil {
		if m.startsWith("same", "the same", "and in", "and with", "make it", "what about in", "and for", "instead of that") && (len(m.found)+len(m.alloys) > 0) || m.startsWith("same but", "same in", "same thing") {
			return Reading{Outcome: Question, Ask: "The same as what? I have no question of yours here to go on from. Ask it whole, for example:",
				Choices: []Choice{{"a tapered setting", "collet", map[string]string{"outline": "oval", "size": "8x6", "alloy": "sterling", "thickness": "20ga"}}, {"a bezel", "bezel", map[string]string{"outline": "oval", "size": "10x8", "alloy": "fine-silver", "thickness": "28ga"}}}}, true
		}
		return Reading{}, false
	}
	if last := m.context.Last; last.Request == "gauge" && len(m.found) == 0 && m.says("swg") {
		return m.change(*last)
	}
	if last := m.context.Last; last.Request == "resize" && len(m.found) == 0 && m.says("other way", "back to front", "to", "from") {
		if r, ok := m.change(*last); ok {
			return r, ok
		}
	}
	whole := m.stoneSides() != nil && len(m.meaning("outline:")) > 0 || m.of(ringSize) != nil && len(m.found) > 1
	if !opens && (whole || !m.fragment() || m.aboutPendant() || m.asksAnew()) {
		return Reading{}, false // a stone of its own is a new question
	}
	m.bindRoles()
	return m.change(*m.context.Last)
}

// backToPiece makes the piece before a sign of trouble the last one again, where a
// message changes a piece: "same in 9ct white", "and the weight".
func (m *message) backToPiece() {
	last := m.context.Last
	if last != nil && last.Request == "heat" && (m.figureOfPiece() || m.redoes() && len(m.alloys) == 0 && m.cues["heat"] == 0 || m.has("weight") && m.pointsBack() && len(m.found) == 0) {
		if all := m.pieces(); len(all) > 0 {
			m.context.Last = &all[0]
		}
		return
	}
	if last == nil || last.Request != "trouble" || m.has("trouble") || !m.redoes() && !m.startsWith("same", "the same", "and weight", "and the weight", "and whats the weight", "and how heavy", "make it", "make that", "and in", "in", "what about in", "wider", "thicker", "thinner", "narrower", "taller") {
		return
	}
	if all := m.pieces(); len(all) > 0 {
		m.context.Last = &all[0]
	}
}

// backToWeighed makes the collet that was weighed the last piece again, in the metal that it
// was weighed in, where a message has a figure: "make it 7 mm" after its weight.
func (m *message) backToWeighed() {
	last := m.context.Last
	if last == nil || last.Request != "weigh" || last.Options["collet"] == "" || len(m.found) == 0 {
		return
	}
	for _, piece := range m.pieces() {
		if piece.Request != "collet" {
			continue
		}
		piece.Options = maps.Clone(piece.Options)
		if _, after, named := strings.Cut(last.Options["collet"], "alloy "); named {
			piece.Options["alloy"], _, _ = strings.Cut(after, " ")
		}
		m.context.Last = &piece
		return
	}
}

// figureOfPiece reports whether a short message changes a figure that no heat has:
// "actually make it 50 cm" after how it is soldered.
func (m *message) figureOfPiece() bool {
	if len(m.found) != 1 || m.words() > 6 || !m.startsWith(openers...) || m.cues["heat"] > 0 {
		return false
	}
	q := m.found[0]
	return q.measure == bare && measuresSaid[m.at(q.next).text] != "" || q.measure == length || q.measure == size || q.measure == gauge || q.measure == ringSize
}

// redoes reports whether a message asks for the piece anew with a figure or a metal
// changed: "so new blank for silver .8".
func (m *message) redoes() bool {
	return len(m.found)+len(m.alloys) > 0 && m.says("new blank", "next blank", "new strip", "new one", "redo", "again", "lets try", "cut it from", "and if", "what if", "instead")
}

// changeInWords reads a change that is said against the last piece.
func (m *message) changeInWords() (Reading, bool) {
	last := m.context.Last
	if last == nil || m.stoneSides() != nil && len(m.meaning("outline:")) > 0 {
		return Reading{}, false
	}
	for _, change := range []func(Last) (Reading, bool){m.fitsStock, m.ownVerdict, m.relative, m.meantRole, m.otherTable, m.inMetric, m.anotherColour, m.systemSaid, m.grade, m.atPrice, m.wasteSaid, m.ownPress, m.resinModel, m.buttonSaid, m.ringLetter, m.corrected} {
		if r, ok := change(*last); ok {
			return r, true
		}
	}
	return Reading{}, false
}

// inMetric takes back the inches: "actually mm", "in mm, not inches".
func (m *message) inMetric(last Last) (Reading, bool) {
	if len(m.found)+len(m.alloys) > 0 || len(m.tokens) > 9 || !m.says("mm", "millimetres", "millimeters", "metric") || !m.context.takes(last.Request, "units") || m.startsWith("why", "how") {
		return Reading{}, false
	}
	for i := range m.senses {
		if s := &m.senses[i]; contains(s.Means, "units:inch") {
			if before := m.at(s.first - 1).text; before != "not" && before != "than" && before != "of" && before != "no" {
				return Reading{}, false
			}
			m.unsay(s)
		}
	}
	options := maps.Clone(last.Options)
	options["units"] = "mm"
	return Reading{Outcome: Request, Request: last.Request, Options: options, Changed: []string{"units mm"}}, true
}

// correcting begin a message that mends a figure of the last piece.
var correcting = []string{"hang on", "hold on", "wait", "sorry", "no", "oops", "whoops", "ooops", "i meant", "i mean", "actually", "make it", "make that", "do it", "redo", "again with", "try it", "do that", "run it", "wrong", "typo", "my mistake", "my bad", "just weighed", "just measured", "weighed it", "measured it", "reweighed", "remeasured", "turns out", "it turns out", "scratch that", "correction", "ah no", "oh no", "damn", "should be", "it should be", "should have been", "misread", "i misread", "hmm no", "nope", "checked", "just checked"}

// corrected puts a bare figure in the place of the one figure of the last piece that
// it can mend: "hang on, 2.6" after 2.4 g.
func (m *message) corrected(last Last) (Reading, bool) {
	if len(m.found) != 1 || len(m.alloys) > 0 || len(m.tokens) > 9 || !m.startsWith(correcting...) {
		return Reading{}, false
	}
	q := m.found[0]
	if q.measure != bare && q.measure != length && q.measure != mass || q.role != "" || m.looseWords() > 0 || strings.Contains(q.shown, "/") {
		return Reading{}, false
	}
	var fit []string
	for option, shown := range last.Options {
		now := lengthOf(shown)
		_, isGauge := gaugeNumber(shown)
		if isGauge || now == 0 || strings.Contains(shown, "x") || option == "count" || option == "number" || (option == "wax" || option == "model") != (q.measure == mass) && q.measure != bare || q.value > 1.6*now || now > 1.6*q.value {
			continue
		}
		fit = append(fit, option)
	}
	if len(fit) != 1 || fit[0] == "ring" || fit[0] == "from" || fit[0] == "to" {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	d.set(fit[0], q)
	return m.changedFrom(last, d), true
}

// goingOn begin a message that goes on from the one before, whatever follows.
var goingOn = []string{"and", "another one", "one more", "next one", "the next one", "second one", "the second one", "the other one", "same", "the same", "what about", "how about", "make it", "make that", "instead", "also", "what if", "change", "switch", "actually", "no", "i meant", "oops", "sorry"}

// alone reads a message as if none had gone before, and reports whether that is
// what it says: nothing in it points back. "is it ok to solder indoors" after a
// collet is no question about the collet.
func (m *message) alone() (r Reading, says bool) {
	if m.context.Last == nil || m.startsWith(goingOn...) || len(m.tokens) < 3 || m.context.Last.Request == "bezel" && len(m.tokens) <= 6 && m.says("dome", "domed") && !m.has("disc") {
		return Reading{}, false
	}
	if m.says("instead") && len(m.tokens) <= 5 && m.fragment() && !m.asksInWords() {
		return Reading{}, false
	}
	fresh := m.anew()
	fresh.context.Last = nil
	best, _ := fresh.askedFact(false)
	states := len(m.found) > 0 && !m.asksInWords() // it tells of the piece and asks nothing
	if best != nil && !states && (len(fresh.found)+len(fresh.alloys) == 0 || !fresh.asksWhether()) {
		return explain(best), true
	}
	ok := true
	if best != nil {
		r = explain(best)
	} else if r, ok = fresh.definition(); !ok {
		r, ok = fresh.job()
	}
	if states && r.Outcome == Explanation {
		return Reading{}, false
	}
	settled := ok && (r.Outcome == Explanation || r.Outcome == Declined || r.Outcome == Request)
	if m.fragment() && !m.ownJob() || m.pointsBack() && m.stoneSides() == nil || m.sameAnew(r) {
		return r, false
	}
	return r, settled
}

// sameAnew reports whether a reading is of the last piece's own request and no piece of
// its own: its stone is nothing but a figure left over, "I like the scallops about 3 mm",
// or it mends a figure of a piece that has more, "the wax is 2.6 actually".
func (m *message) sameAnew(r Reading) bool {
	last := m.context.Last
	if r.Request != last.Request || m.beginsAnew(r.Request) {
		return false
	}
	if m.says("actually", "sorry", "i meant", "oops", "hang on", "my mistake") && len(r.Options) < len(last.Options) {
		return true
	}
	sides := slices.ContainsFunc(m.found, func(q *quantity) bool { return q.measure == size })
	return needsStone[r.Request] && r.Options["size"] != "" && !sides && m.besideStone() == nil && len(m.meaning("outline:")) == 0
}

// pointsBack matches a word that stands for the last piece. The it of "is it safe
// to" stands for nothing.
func (m *message) pointsBack() bool {
	text := " " + m.text() + " "
	for _, dummy := range []string{" is it ok to ", " is it okay to ", " is it safe to ", " is it possible to ", " is it bad to ", " is it better to ", " is it normal ", " is it true ", " does it matter ", " which one ", " this week ", " this one time "} {
		text = strings.ReplaceAll(text, dummy, " ")
	}
	for _, p := range pronouns {
		if saysWhole(text, p) {
			return true
		}
	}
	return false
}

// ownJob reports whether the message is a whole question of its own: a request by
// name with a stone or a size.
func (m *message) ownJob() bool {
	best := 0
	for job, cue := range m.cues {
		if last := m.context.Last; job == "dome" && last != nil && last.Request == "bezel" {
			continue // a cabochon's own dome
		}
		if job != "bench" && job != "gauge" {
			best = max(best, cue)
		}
	}
	if m.cues["bench"] >= 4 || m.has("convert") && len(m.found) > 0 {
		return true
	}
	whole := m.stoneSides() != nil && len(m.meaning("outline:")) > 0
	return best >= 3 || whole && best >= 1
}

// asksAnew matches a question that begins with its own question word and points
// at nothing: "how thick is 24 gauge?" after a ring is no change of the ring.
func (m *message) asksAnew() bool {
	if !m.startsWith("how", "what", "whats", "which", "where", "who", "why", "when", "can", "could", "is", "are", "do", "does", "will", "should", "convert", "please use") {
		return false
	}
	for _, p := range pronouns {
		if m.says(p) {
			return false
		}
	}
	return !m.asksWhether() || len(m.meaning("outline:")) > 0
}

// changeable are the beginnings of meanings that a follow-up may change; a word
// with any other meaning is about something else.
var changeable = []string{"outline:", "gem:", "units:", "paper:", "profile:", "stone", "cab", "faceted", "hemisphere", "step", "prongs", "setting", "bezel", "sheet", "wire", "wax", "ring", "thanks", "greeting", "rim", "base", "class", "each", "strip", "blank", "domework", "disc", "squarewire", "compare", "cabgem", "facetgem", "weight", "hole", "tube", "sprue"}

// strays reports whether the message has a word of another subject.
func (m *message) strays() bool {
	for _, s := range m.senses {
		for _, means := range s.Means {
			if !slices.ContainsFunc(changeable, func(c string) bool { return strings.HasPrefix(means, c) }) {
				return true
			}
		}
	}
	return false
}

// fragment reports whether the message holds little besides figures and metals.
func (m *message) fragment() bool {
	if len(m.found)+len(m.alloys)+len(m.meaning("units:"))+len(m.meaning("outline:"))+len(m.meaning("profile:")) == 0 && !m.says("seam", "scored", "mitred", "hemisphere") {
		return false
	}
	if m.strays() {
		return false
	}
	spare := 0
	for i, t := range m.tokens {
		if t.word() && !m.taken[i] && !fillers[t.text] {
			spare++
		}
	}
	return spare <= 3 && spare < len(m.tokens) && len(m.tokens) <= 14
}

var fillers = wordSet("and in the a an but same please pls with what if about how make it that for of is would be me my i can you now instead also or to do does at on use just only so then ok try no yes not actually sorry meant its whats as too again one thing same show give seam join side point end corner corners scored mitred put go should was were wax stone metal sheet")

// nextJob reads a new job about the same piece: "and the prongs?", "what would
// that weigh?", "how do I anneal it?"
func (m *message) nextJob(opens bool) (Reading, bool) {
	last := m.oneMeant()
	if last == nil || m.stoneSides() != nil || m.of(ringSize) != nil || m.defines() && !m.asksWeightOfIt() || m.tells() || !m.refers(last, opens) {
		return Reading{}, false
	}
	next := m.jobOf()
	if next == last.Request || next == "" && m.mostNamed() == last.Request {
		m.bindRoles()
		r, ok := m.change(*last)
		if !ok && len(m.found) == 0 { // its answer and its working say it
			r, ok = Reading{Outcome: Request, Request: last.Request, Options: last.Options, Notes: []string{"the working says more"}}, true
		}
		return r, ok
	}
	if next == "" || needsStone[next] && !needsStone[last.Request] && !opens || len(m.meaning("outline:")) > 0 && next != "weigh" {
		return Reading{}, false
	}
	if next == "weigh" && last.Request != "collet" {
		return m.weightOf(last)
	}
	m.bindRoles()
	if next == "weigh" {
		return m.weighed(*last)
	}
	options := m.handedOn(last, next)
	r, ok := m.change(Last{Request: next, Options: options})
	if !ok {
		r = Reading{Outcome: Request, Request: next, Options: options}
	}
	if needsStone[next] && r.Outcome == Request && (r.Options["outline"] == "" || r.Options["size"] == "") {
		return Reading{}, false // its own question asks for the stone
	}
	r.Changed = append([]string{next + " in place of " + last.Request}, r.Changed...)
	return r, true
}

// weighed weighs a collet with what the message changes of it. The metal is the
// collet's: weigh takes none beside it.
func (m *message) weighed(piece Last) (Reading, bool) {
	changed, ok := m.change(piece)
	if ok && changed.Outcome != Request {
		return changed, true
	}
	if ok {
		piece.Options = changed.Options
	}
	return Reading{Outcome: Request, Request: "weigh", Options: m.handedOn(&piece, "weigh"), Notes: changed.Notes,
		Changed: append([]string{"weigh in place of " + piece.Request}, changed.Changed...)}, true
}

// refers reports whether a message that names a job is about the last piece.
func (m *message) refers(last *Last, opens bool) bool {
	refers := opens || len(m.found)+len(m.alloys)+len(m.meaning("outline:")) == 0 && len(m.tokens) <= 8 && !m.has("stone", "cab") || m.says("instead", "rather")
	refers = refers || m.mostNamed() == last.Request && len(m.tokens) <= 4 && len(m.found) == 1
	refers = refers || len(m.found) == 0 && m.startsWith("whats the weight", "how heavy", "and the weight", "what weight", "weight")
	refers = refers && !m.startsWith("how do i", "how do you", "how can i", "how to", "how would i")
	return refers || m.says(pronouns...)
}

// weightOf answers the last piece again for its mass, with what the message changes.
func (m *message) weightOf(last *Last) (Reading, bool) {
	again := Reading{Outcome: Request, Request: last.Request, Options: last.Options}
	switch last.Request {
	case "band", "bezel", "dome", "collar", "prongs": // their answers have the mass
	case "halo", "jumpring", "tubeset", "resize", "saddle":
		again.Notes = []string{"the working says what there is of its mass"}
	default:
		return Reading{}, false
	}
	m.bindRoles()
	if r, ok := m.change(*last); ok {
		return r, true
	}
	return again, again.Notes == nil || len(m.found)+len(m.alloys) == 0
}

// handedOn are the options of a piece that another job about it takes over.
func (m *message) handedOn(last *Last, next string) map[string]string {
	switch next {
	case "weigh":
		return map[string]string{"collet": strings.TrimPrefix(line("", last.Options), " ")}
	case "heat":
		alloy := last.Options["alloy"]
		if alloy == "" {
			alloy = "sterling"
		}
		return map[string]string{"alloy": alloy}
	}
	options := map[string]string{}
	for name, v := range last.Options {
		if m.context.takes(next, name) && shared[name] {
			options[name] = v
		}
	}
	return options
}

// tells reports whether a message tells what was done and asks nothing: "in the block
// yes, I hit it with a hammer".
func (m *message) tells() bool {
	return len(m.found)+len(m.alloys) == 0 && m.words() > 6 && m.says("i hit", "i used", "i tried", "i put", "i did", "i made", "i cut", "i bent", "i pushed", "i pressed") && !strings.Contains(m.typed, "?") && !m.says("how", "what", "which", "can", "should")
}

// oneMeant is the piece that a new job is about: the last one, or the earlier one that
// "the copper one" tells from it.
func (m *message) oneMeant() *Last {
	last := m.context.Last
	if last == nil || len(m.alloys) != 1 || len(m.found) > 0 || !m.says("one") || m.describesMetal(*last) {
		return last
	}
	for _, piece := range m.pieces() {
		if m.describesMetal(piece) {
			return &piece
		}
	}
	return last
}

func (m *message) describesMetal(piece Last) bool {
	a := m.alloys[0]
	return a.key == piece.Options["alloy"] || slices.Contains(a.among, piece.Options["alloy"])
}

// asksWeightOfIt matches "what does it weigh" and "what's the weight", which define
// nothing.
func (m *message) asksWeightOfIt() bool {
	return m.has("weight") && m.words() <= 8 && m.says("it", "that", "this", "one", "the weight", "the mass", "in total")
}

// needsStone are requests that nothing can be worked out for without a stone.
var needsStone = map[string]bool{"collet": true, "collar": true, "bezel": true, "prongs": true}

// mostNamed is the request with the strongest cues.
func (m *message) mostNamed() string {
	best := ""
	for _, job := range slices.Sorted(maps.Keys(m.cues)) {
		if best == "" || m.cues[job] > m.cues[best] {
			best = job
		}
	}
	return best
}

// shared are options that describe the stone and the metal, whatever is made.
var shared = map[string]bool{"outline": true, "size": true, "depth": true, "alloy": true, "thickness": true, "points": true, "lean": true, "height": true, "gem": true, "units": true, "corner": true, "seam": true, "cornercut": true}

// jobOf names the request that a message about the same piece asks for.
func (m *message) jobOf() string {
	switch {
	case m.has("prongs"):
		return "prongs"
	case m.has("weight"):
		return "weigh"
	case m.has("anneal", "quench", "solder", "temperature"):
		return "heat"
	case m.has("block") || m.cues["collar"] >= 3:
		return "collar"
	case m.has("bezel"):
		return "bezel"
	case m.cues["collet"] >= 3:
		return "collet"
	}
	return ""
}
