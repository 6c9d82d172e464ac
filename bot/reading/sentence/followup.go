package sentence

import (
	"fmt"
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
		m.spokenFigure(*last)
		m.focused()
	}
	alone, says := m.alone()
	if says {
		return alone, true
	}
	r, ok := m.goesOn()
	if ok && r.Outcome == Question && (alone.Outcome == Request || alone.Outcome == Explanation) {
		return alone, true
	}
	if (!ok || r.Unplaced != "") && (!alone.holdsPiece() || m.measuredBetter()) {
		if over, better := m.saidOfPiece(); better {
			r, ok = over, true
		}
	}
	if ok {
		r = m.withVerdict(r)
	}
	return r, ok
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
	if last != nil && last.Request == "heat" && m.figureOfPiece() {
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

// figureOfPiece reports whether a short message changes a figure that no heat has:
// "actually make it 50 cm" after how it is soldered.
func (m *message) figureOfPiece() bool {
	if len(m.found) != 1 || m.words() > 6 || !m.startsWith(openers...) || m.cues["heat"] > 0 {
		return false
	}
	q := m.found[0]
	return q.measure == length || q.measure == size || q.measure == gauge || q.measure == ringSize
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
	for _, change := range []func(Last) (Reading, bool){m.fitsStock, m.relative, m.meantRole, m.otherTable, m.inMetric, m.anotherColour, m.systemSaid, m.grade, m.atPrice, m.wasteSaid, m.ownPress, m.resinModel, m.buttonSaid, m.ringLetter, m.corrected} {
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
	d := m.draft(last.Request)
	maps.Copy(d.options, last.Options)
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
	fresh := newMessage(m.typed)
	fresh.context = m.context
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
	if m.fragment() && !m.ownJob() || m.pointsBack() && m.stoneSides() == nil || m.sameWithoutStone(r) {
		return r, false
	}
	return r, settled
}

// sameWithoutStone reports whether a reading is of the last piece's own request, and of
// a stone that nothing but a figure left over gives: "I like the scallops about 3 mm"
// is no bezel for a stone of 3 mm.
func (m *message) sameWithoutStone(r Reading) bool {
	return r.Request == m.context.Last.Request && needsStone[r.Request] && r.Options["size"] != "" && m.stoneSides() == nil && m.besideStone() == nil && len(m.meaning("outline:")) == 0 && !m.beginsAnew(r.Request)
}

// pointsBack matches a word that stands for the last piece. The it of "is it safe
// to" stands for nothing.
func (m *message) pointsBack() bool {
	text := " " + m.text() + " "
	for _, dummy := range []string{" is it ok to ", " is it okay to ", " is it safe to ", " is it possible to ", " is it bad to ", " is it better to ", " is it normal ", " is it true ", " does it matter ", " which one ", " this week ", " this one time "} {
		text = strings.ReplaceAll(text, dummy, " ")
	}
	for _, p := range pronouns {
		if strings.Contains(text, " "+p+" ") {
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

var fillers = func() map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields("and in the a an but same please pls with what if about how make it that for of is would be me my i can you now instead also or to do does at on use just only so then ok try no yes not actually sorry meant its whats as too again one thing same show give seam join side point end corner corners scored mitred put go should was were wax stone metal sheet") {
		all[w] = true
	}
	return all
}()

// nextJob reads a new job about the same piece: "and the prongs?", "what would
// that weigh?", "how do I anneal it?"
func (m *message) nextJob(opens bool) (Reading, bool) {
	last := m.oneMeant()
	if last == nil || m.stoneSides() != nil || m.of(ringSize) != nil {
		return Reading{}, false
	}
	if m.defines() && !m.asksWeightOfIt() || m.tells() {
		return Reading{}, false
	}
	refers := opens || len(m.found)+len(m.alloys)+len(m.meaning("outline:")) == 0 && len(m.tokens) <= 8 && !m.has("stone", "cab") || m.says("instead", "rather")
	refers = refers || m.mostNamed() == last.Request && len(m.tokens) <= 4 && len(m.found) == 1
	refers = refers || len(m.found) == 0 && m.startsWith("whats the weight", "how heavy", "and the weight", "what weight", "weight")
	refers = refers && !m.startsWith("how do i", "how do you", "how can i", "how to", "how would i")
	for _, p := range pronouns {
		refers = refers || m.says(p)
	}
	if !refers {
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
	if next == "" || needsStone[next] && !needsStone[last.Request] && !opens {
		return Reading{}, false
	}
	if len(m.meaning("outline:")) > 0 && next != "weigh" {
		return Reading{}, false
	}
	options := map[string]string{}
	for name, v := range last.Options {
		if m.context.takes(next, name) && shared[name] {
			options[name] = v
		}
	}
	if next == "weigh" {
		switch last.Request {
		case "band", "bezel", "dome", "collar", "prongs": // their answers have the mass
			m.bindRoles()
			if r, ok := m.change(*last); ok {
				return r, true
			}
			return Reading{Outcome: Request, Request: last.Request, Options: last.Options}, true
		case "collet":
		case "halo", "jumpring", "tubeset", "resize", "saddle":
			m.bindRoles()
			if r, ok := m.change(*last); ok {
				return r, true
			}
			return Reading{Outcome: Request, Request: last.Request, Options: last.Options, Notes: []string{"the working says what there is of its mass"}}, len(m.found)+len(m.alloys) == 0
		default:
			return Reading{}, false
		}
		options = map[string]string{"collet": strings.TrimPrefix(line("", last.Options), " ")}
	}
	if next == "heat" {
		options = map[string]string{"alloy": last.Options["alloy"]}
		if options["alloy"] == "" {
			options["alloy"] = "sterling"
		}
	}
	m.bindRoles()
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

// change applies the message's figures and words to a reading.
func (m *message) change(last Last) (Reading, bool) {
	d := m.draft(last.Request)
	maps.Copy(d.options, last.Options)
	before := maps.Clone(last.Options)
	if last.Request == "band" && m.of(ringSize) == nil {
		if q := m.sizeLetter(); q != nil {
			m.add(*q)
		}
	}
	if last.Request == "resize" && m.of(ringSize) == nil {
		m.sizeLetters()
	}
	m.changeWords(d)
	if d.has("outline") {
		d.baseOfCone()
	}
	m.otherColour(d)
	if a := m.metal(); a != nil {
		if !m.context.takes(last.Request, "alloy") {
			return Reading{}, false
		}
		d.alloy("alloy", last.Request == "heat" || last.Request == "melt")
	}
	for _, q := range m.found {
		if !q.used && d.ask == "" {
			m.changeNumber(d, q)
		}
	}
	if needsStone[d.request] && d.ask == "" {
		d.needStone(d.request == "bezel")
	}
	if d.request == "jumpring" && d.ask == "" {
		d.needRing()
	}
	if d.request == "resize" {
		d.needSizes()
	}
	if d.request == "melt" && d.ask == "" && !d.has("wax") && !d.has("model") && !d.has("size") && m.context.Asked != nil && m.context.Asked.Missing == "alloy" {
		d.needWax()
	}
	r := d.reading()
	for _, name := range slices.Sorted(maps.Keys(d.options)) {
		if d.options[name] != before[name] {
			r.Changed = append(r.Changed, name+" "+d.options[name])
		}
	}
	for _, name := range slices.Sorted(maps.Keys(before)) {
		if _, still := d.options[name]; !still {
			r.Changed = append(r.Changed, "no "+name)
		}
	}
	if r.Outcome == Request && len(r.Changed) == 0 && len(d.notes) == 0 {
		if o := m.meaning("outline:"); len(o) > 0 && o[0] == before["outline"] && m.words() <= 4 {
			r.Notes = append(r.Notes, "this is what your last piece has already")
			return r, true
		}
		return Reading{}, false
	}
	return r, true
}

// changeWords takes outline, units, profile, seam and the like.
func (m *message) changeWords(d *draft) {
	set := func(option, value string) {
		if value != "" && m.context.takes(d.request, option) {
			d.options[option] = value
		}
	}
	first := func(prefix string) string {
		if all := m.meaning(prefix); len(all) > 0 {
			return all[0]
		}
		return ""
	}
	if o := first("outline:"); o != "" && !(d.request == "band" && o == "round") {
		set("outline", o)
		sides := strings.Contains(d.options["size"], "x")
		if m.stoneSides() == nil && m.besideStone() == nil && d.options["size"] != "" && needsStone[d.request] {
			switch {
			case !oneSided[o] && !sides:
				d.question("size", "What is the stone's length x width, in mm?")
			case o == "square" && sides && unequalSides(d.options["size"]):
				delete(d.options, "size")
				d.question("size", "A square stone has one size. How long is its side, in mm?")
			}
		}
	}
	if d.request == "weigh" && d.options["form"] == "wire" && m.says("square") {
		d.say("form", "square-wire")
	}
	set("units", first("units:"))
	set("paper", first("paper:"))
	set("profile", first("profile:"))
	if d.request == "band" && d.options["system"] != "diameter" && m.of(ringSize) == nil {
		m.changeSystem(d, set)
	}
	if g, ok := gaugeNumber(d.options["gauge"]); ok && d.request == "gauge" && m.says("swg") && len(m.found) == 0 {
		if mm, ok := m.swgOf(g); ok {
			d.say("gauge", plain(mm)+" mm")
		}
	}
	if d.request == "tune" && m.says("inside", "inner") {
		set("face", "inner")
	}
	if m.says("seam", "join", "joint") {
		for _, place := range []string{"point", "side", "end", "corner", "cleft"} {
			if m.says(place) {
				set("seam", place)
			}
		}
	}
	if m.says("scored", "mitred", "mitered", "score") {
		if d.request == "bezel" {
			set("corner", "mitred")
		} else {
			set("corner", "scored")
		}
	}
	if m.has("hemisphere") && d.request == "dome" {
		delete(d.options, "height")
		set("hemisphere", "yes")
	}
	if m.has("step") && d.request == "bezel" {
		set("bearing", "step")
	}
}

// changeSystem takes another system for the same size only where that is said;
// "and in us?" asks for the size in it, which the answer has.
func (m *message) changeSystem(d *draft, set func(option, value string)) {
	for i, t := range m.tokens {
		system := sizeSystems[t.text]
		if system == "" || m.taken[i] || t.text == "us" && m.plainUs(i) && len(m.tokens) > 4 {
			continue
		}
		if m.says("meant", "mean", "sorry", "not", "no", "its", "it is", "thats") {
			set("system", system)
			continue
		}
		d.note("the answer has the size in every system")
	}
}

// rolesOf are the options that a role fills, for each request.
var rolesOf = map[string]map[string]string{
	"":         {"depth": "depth", "height": "height", "thickness": "thickness", "wall": "thickness", "lean": "lean", "included": "included", "rim": "rim", "radius": "radius", "width": "width", "length": "length", "diameter": "size", "spare": "spare"},
	"bezel":    {"depth": "dome", "height": "dome", "dome": "dome", "edge": "edge"},
	"dome":     {"depth": "height", "width": "size", "diameter": "size"},
	"band":     {"inner": "ring", "height": "thickness"},
	"halo":     {"gap": "gap", "diameter": "with", "width": "with"},
	"jumpring": {"inner": "inside", "thickness": "wire", "kerf": "kerf", "diameter": "inside"},
	"tubeset":  {"diameter": "size", "width": "size", "gap": "spacing"},
}

// mostWall is over which thickness, in mm, a figure called thick is the stone's or the
// dome's and not the metal's.
var mostWall = map[string]float64{"bezel": 1.6, "dome": 2.5}

// changeNumber puts one figure of a follow-up where it belongs.
func (m *message) changeNumber(d *draft, q *quantity) {
	set := func(option string) bool {
		if !m.context.takes(d.request, option) {
			return false
		}
		d.set(option, q)
		return true
	}
	switch q.measure {
	case gauge:
		if d.request == "jumpring" && set("wire") || set("thickness") || d.request == "gauge" && set("gauge") {
			return
		}
	case size:
		if d.request == "band" && len(q.sides) == 2 {
			q.used = true
			d.say("width", plain(max(q.sides[0], q.sides[1])))
			d.say("thickness", plain(min(q.sides[0], q.sides[1]))+" mm")
			return
		}
		if d.request == "tubeset" && len(q.sides) == 2 {
			m.changeTube(d, q)
			return
		}
		if d.request == "weigh" && d.options["form"] != "sheet" {
			return
		}
		for _, option := range []string{"offcut", "strip", "tubesize", "hole"} {
			if d.has(option) {
				set(option)
				return
			}
		}
		if set("size") {
			return
		}
	case ringSize:
		if d.request == "resize" {
			m.changeResize(d, q)
			return
		}
		if d.request == "saddle" && d.has("shank") {
			m.changeShank(d, q)
			return
		}
		if set("ring") {
			if q.system != "" {
				d.say("system", q.system)
			}
			return
		}
	case angle:
		option := "lean"
		if q.role == "included" && m.says("included") || q.role == "" && q.value > mostLeanSaid && d.options["lean"] == "" && m.context.takes(d.request, "included") {
			option = "included"
			delete(d.options, "lean")
		} else {
			delete(d.options, "included")
		}
		if set(option) {
			return
		}
	case carat:
		if set("carat") {
			return
		}
	case percent:
		for _, option := range []string{"spare", "button"} {
			if set(option) {
				return
			}
		}
	case mass:
		for _, option := range []string{"wax", "model"} {
			if d.has(option) && set(option) {
				return
			}
		}
	case count:
		if m.at(q.next).text == "or" {
			q.used = true // "in four pieces or one" asks
			return
		}
		if option := map[string]string{"makers": "makers", "prongs": "number", "joints": "joints", "pieces": "count"}[q.thing]; option != "" && set(option) {
			return
		}
	}
	if d.request == "bezel" && d.has("edging") && (q.measure == bare || q.measure == length) && q.value >= 1 && q.value <= 12 && m.says("scallop", "scallops", "repeat", "repeats", "wave", "waves", "pattern", "pitch") && set("pitch") {
		return
	}
	if q.role == "thickness" && q.measure != gauge && q.value > mostWall[d.request] && mostWall[d.request] > 0 {
		q.role = "height" // a bezel's wall is no 6 mm thick: its stone is
	}
	if q.role != "" {
		option := rolesOf[d.request][q.role]
		if option == "" {
			option = rolesOf[""][q.role]
		}
		if option == "ring" && q.role == "inner" && q.value >= 30 && !d.has("ring") {
			option = "bangle" // no finger is 30 mm across
		}
		if option != "" && set(option) {
			if option == "height" && d.request == "dome" {
				delete(d.options, "hemisphere")
			}
			return
		}
	}
	m.changeBare(d, q, set)
}

// changeBare places a number without unit or word: only where it can be one
// thing of the last question, and otherwise it is asked about.
func (m *message) changeBare(d *draft, q *quantity, set func(string) bool) {
	if q.measure != bare && q.measure != length {
		return
	}
	if d.request == "prongs" && m.at(q.next).text == "of" && q.value <= 12 {
		set("number")
		return
	}
	if !m.plain(q) || m.at(q.next).text == "of" || m.at(q.next).text == "more" {
		return
	}
	if gold, is := strings.CutSuffix(d.options["alloy"], "-yellow"); is && m.looseWords() == 0 && strings.HasSuffix(gold, "k") && q.measure == bare && (q.shown == "9" || q.shown == "10" || q.shown == "14" || q.shown == "18") {
		q.used = true
		d.say("alloy", q.shown+"k-yellow")
		return
	}
	if d.blockAngle(q) || d.sizeOrGauge(q) || d.request == "band" && d.options["profile"] == "round" && d.options["thickness"] == "" && q.value <= 10 && set("thickness") {
		return
	}
	if lead := m.between(max(0, q.first-2), q.first); (strings.HasSuffix(lead, "for") || strings.HasSuffix(lead, "for a") || strings.HasSuffix(lead, "for an")) && needsStone[d.request] && !strings.Contains(d.options["size"], "x") && q.value >= 2.5 && set("size") {
		return
	}
	if d.request == "band" && d.has("ring") && d.options["width"] == "" && d.options["thickness"] == "" && q.measure == bare && q.mayFill("ring") && q.value >= 3 && !letter(d.options["ring"]) && set("ring") {
		return
	}
	options := bareOptions[d.request]
	if d.request == "gauge" {
		options = []place{{"gauge", "gauge", 0, 0}}
		if q.measure == bare && q.value == float64(int(q.value)) && q.value >= 8 {
			q.measure, q.shown = gauge, q.shown+"ga" // "and 18"
			set("gauge")
			return
		}
	}
	if d.has("outline") && !d.has("size") && q.value >= 2 && q.value <= 60 && set("size") {
		return // what was lacking
	}
	if q.measure == bare && q.value == float64(int(q.value)) && q.value >= 16 && q.value <= 36 && d.request != "kit" && d.request != "gauge" && m.context.takes(d.request, "thickness") && !strings.Contains(d.options["thickness"], "mm") {
		q.used = true
		d.say("thickness", q.shown+"ga")
		d.note("%s is read as a gauge number", q.shown)
		return
	}
	loose := m.looseWords() > 0
	var fit []place
	for _, p := range options {
		if p.option == "ring" && (letter(d.options["ring"]) || !q.mayFill("ring")) {
			continue // a number is no size beside letters
		}
		if m.context.takes(d.request, p.option) && fits(p, q) && !(q.measure == length && countedOptions[p.option]) && !(p.option != "size" && p.option != "with" && m.ofStoneWord(q)) && !(p.option == "size" && strings.Contains(d.options["size"], "x")) {
			fit = append(fit, p)
		}
	}
	if len(fit) == 1 && !loose {
		if d.request == "band" && fit[0].option == "ring" && d.options["system"] == "" {
			d.say("system", "us")
		}
		set(fit[0].option)
		return
	}
	if len(fit) >= 1 {
		q.used = true
		var choices []Choice
		for _, p := range fit[:min(3, len(fit))] {
			choices = append(choices, d.with(p.says+" "+q.typed(m), p.option, d.shown(p.option, q)))
		}
		d.question("", fmt.Sprintf("What becomes %s?", q.typed(m)), choices...)
		d.unplaced = strings.TrimSpace(q.typed(m))
	}
}

// countedOptions are filled by a bare number, never by a length.
var countedOptions = map[string]bool{"makers": true, "ring": true, "number": true, "joints": true, "count": true}

// looseWords counts the words of a message that say nothing to the reader. A bare
// figure beside one is asked about.
func (m *message) looseWords() int {
	loose := 0
	for i, t := range m.tokens {
		if t.word() && !m.taken[i] && !fillers[t.text] && !bindingWords[t.text] && !usualNext[t.text] && !beside[t.text] && !harmless[t.text] {
			loose++
		}
	}
	return loose
}

// harmless are words of a follow-up that change nothing.
var harmless = map[string]bool{"over": true, "thick": true, "thin": true, "thinner": true, "thicker": true, "maybe": true, "think": true, "say": true, "lets": true, "ah": true, "oh": true, "hmm": true, "lol": true, "wait": true, "hang": true, "now": true, "then": true, "else": true, "around": true, "roughly": true, "mean": true, "rather": true, "change": true, "try": true, "work": true, "out": true, "metal": true, "piece": true, "cut": true, "like": true, "bit": true, "ok": true, "okay": true, "hello": true, "again": true, "more": true, "less": true, "got": true, "have": true, "only": true, "one": true, "ones": true, "same": true, "mm": true, "if": true, "were": true, "went": true, "go": true, "with": true, "scale": true, "up": true, "down": true, "bump": true, "bigger": true, "smaller": true, "different": true, "another": true, "new": true, "measured": true, "measures": true, "exactly": true, "sure": true, "s": true, "as": true, "well": true, "every": true, "each": true, "oops": true, "whoops": true, "ooops": true, "wrong": true, "typo": true, "mistake": true, "bad": true, "weighed": true, "turns": true, "turned": true, "reweighed": true, "remeasured": true, "scratch": true, "correction": true, "damn": true, "should": true, "been": true, "misread": true, "nope": true, "checked": true, "calipers": true, "callipers": true, "flatter": true, "slimmer": true, "would": true, "much": true, "many": true, "long": true, "too": true}

// otherColour changes the colour of a karat gold: "and for red".
func (m *message) otherColour(d *draft) {
	karats, _, gold := strings.Cut(d.options["alloy"], "k-")
	if !gold || len(m.alloys) > 0 || len(m.tokens) > 6 {
		return
	}
	for _, t := range m.tokens {
		c := colours[t.text]
		if c == "" {
			continue
		}
		keys := goldKeys(karats, c, m.says("palladium"), m.says("nickel"))
		switch {
		case len(keys) == 0:
		case c == "white" && len(keys) > 1 && (d.request == "heat" || d.request == "melt"):
			d.question("alloy", "Which white gold do you mean?", d.with(alloyName(keys[0]), "alloy", keys[0]), d.with(alloyName(keys[1]), "alloy", keys[1]))
		default:
			d.say("alloy", keys[0])
		}
		return
	}
}

// sizeLetters takes capital letters that stand alone as ring sizes: "L to O".
func (m *message) sizeLetters() {
	for i, t := range m.tokens {
		if t.capital && !m.taken[i] && t.text != "x" && t.text != "i" && t.text != "a" && !m.at(i+1).glued {
			m.add(quantity{measure: ringSize, shown: strings.ToUpper(t.text), system: "uk", first: i, next: i + 1, unit: true})
		}
	}
}

// changeTube takes the two figures of a tube: its outside and its wall, or its outside
// and its inside.
func (m *message) changeTube(d *draft, q *quantity) {
	outside, other := max(q.sides[0], q.sides[1]), min(q.sides[0], q.sides[1])
	wall := other
	if other >= outside/2 {
		wall = (outside - other) / 2
		d.note("%s is read as outside x inside, a wall of %s mm", strings.TrimSpace(q.typed(m)), plain(wall))
	}
	q.used = true
	d.say("tubesize", plain(outside)+"x"+plain(wall))
}

// changeShank changes the size of the ring that a saddle sits on.
func (m *message) changeShank(d *draft, q *quantity) {
	system, _, _ := strings.Cut(d.options["shank"], " ")
	if q.system != "" {
		system = q.system
	}
	q.used = true
	d.say("shank", system+" "+q.shown)
}

// changeResize changes the size that a resizing begins with, or ends with.
func (m *message) changeResize(d *draft, q *quantity) {
	system, _, _ := strings.Cut(d.options["from"], " ")
	if q.system != "" {
		system = q.system
	}
	option := "to"
	for _, other := range m.found {
		if other.measure == ringSize && other != q {
			option = "from" // the first of two
			if other.first < q.first {
				option = "to"
			}
		}
	}
	if m.at(q.first-1).text == "from" || m.at(q.first-1).text == "is" {
		option = "from"
	}
	q.used = true
	d.say(option, system+" "+q.shown)
}

// blockAngle takes 17 or 28 as the angle between a block's walls, which most blocks
// have; common practice, no source.
func (d *draft) blockAngle(q *quantity) bool {
	if q.measure != bare || q.value != 17 && q.value != 28 || d.request != "collet" && d.request != "collar" && d.request != "prongs" || !d.m.context.takes(d.request, "included") {
		return false
	}
	if !d.m.has("block") && !d.has("included") && (!d.has("thickness") || d.has("lean")) {
		return false // it may be a gauge
	}
	d.set("included", q)
	delete(d.options, "lean")
	d.note("%s is read as the block's angle, %s° on each side", q.shown, plain(q.value/2))
	return true
}

// sizeOrGauge asks about a bare number that may be the stone's one size or a gauge
// number: "and 16" after a round stone of 14 mm.
func (d *draft) sizeOrGauge(q *quantity) bool {
	size := parse(d.options["size"])
	if q.measure != bare || !needsStone[d.request] || strings.Contains(d.options["size"], "x") || q.value != float64(int(q.value)) || q.value < 14 || q.value > 36 || size == 0 || q.value > 1.6*size || q.value < 0.6*size {
		return false
	}
	q.used = true
	d.question("", fmt.Sprintf("What becomes %s?", q.shown), d.with("a stone of "+q.shown+" mm", "size", q.shown), d.with(q.shown+" gauge", "thickness", q.shown+"ga"))
	return true
}

// bareOptions are what a bare number of a follow-up may be.
var bareOptions = map[string][]place{
	"collet":   {{"size", "stone", 3, 30}, {"depth", "stone's depth", 1.2, 12}, {"thickness", "thickness", 0.2, 1.3}, {"height", "height", 3, 30}},
	"prongs":   {{"size", "stone", 3, 30}, {"depth", "stone's depth", 1.2, 12}, {"thickness", "thickness", 0.2, 1.3}},
	"collar":   {{"size", "stone", 3, 30}, {"depth", "stone's depth", 1.2, 12}, {"thickness", "thickness", 0.2, 1.3}},
	"bezel":    {{"size", "stone", 9, 60}, {"dome", "height of the stone", 1.3, 9}, {"thickness", "thickness", 0.15, 1.3}},
	"band":     {{"ring", "ring size", 4, 13}, {"width", "width", 2.2, 12}, {"thickness", "thickness", 0.6, 2.6}},
	"dome":     {{"size", "diameter", 6, 100}, {"height", "height", 1, 20}, {"thickness", "thickness", 0.2, 1.3}},
	"kit":      {{"makers", "makers", 2, 60}},
	"weigh":    {{"length", "length", 10, 10000}, {"thickness", "thickness", 0.2, 6}},
	"heat":     {{"joints", "joints", 1, 12}},
	"halo":     {{"with", "small stones", 0.7, 3.2}, {"size", "centre stone", 3.3, 30}},
	"jumpring": {{"wire", "wire", 0.3, 2.4}, {"inside", "inside diameter", 2.5, 40}, {"count", "number of rings", 50, 100000}},
	"tubeset":  {{"size", "stone", 1, 12}},
	"resize":   {{"width", "width", 2.5, 12}, {"thickness", "thickness", 0.6, 2.4}},
}

// reply reads the answer to a question that the bot asked: the number of a
// choice, its words, or the figure that was missing.
func (m *message) reply() (Reading, bool) {
	asked := m.context.Asked
	if asked == nil {
		return Reading{}, false
	}
	for i, c := range asked.Choices {
		n := len(m.tokens) == 1 && m.at(0).number && m.at(0).value == float64(i+1) && asked.Missing == ""
		ordinal := len(m.tokens) <= 3 && m.says([]string{"first", "second", "third"}[min(i, 2)]) || len(m.tokens) == 2 && (m.at(0).text == "no" || m.at(0).text == "option" || m.at(0).text == "number" || m.at(0).text == "#") && m.at(1).value == float64(i+1)
		ordinal = ordinal || i == len(asked.Choices)-1 && len(m.tokens) <= 3 && m.says("last one", "the last")
		if n || ordinal || m.sameWords(c.Label) {
			return m.chosen(c), true
		}
	}
	if len(m.alloys) > 1 {
		return Reading{}, false
	}
	if asked.Request == "match" && asked.Missing == "tubesize" {
		m.bindRoles()
		d := m.draft("match")
		maps.Copy(d.options, asked.Options)
		if outer, wall := d.tube(); outer > 0 {
			d.say("tubesize", plain(outer)+"x"+plain(wall))
			return d.reading(), true
		}
		m.release()
	}
	if r, ok := m.askedAgain(); ok {
		return r, true
	}
	if asked.Request == "resize" {
		m.sizeLetters()
	}
	if asked.Request == "resize" && asked.Missing == "to" && m.tellsSizes() {
		return m.resizeSizes(asked), true
	}
	if asked.Missing == "ring" && m.of(ringSize) == nil {
		if q := m.sizeLetter(); q != nil {
			m.add(*q)
		}
	}
	if asked.Piece != nil {
		return m.pieceOf(asked)
	}
	m.numberInWords(asked)
	if r, ok := m.saidOfAsked(asked); ok {
		return r, true
	}
	if asked.Request == "" || m.ownJob() || m.startsWith("where", "who", "why", "what", "whats", "how", "is", "can", "do", "does") {
		return Reading{}, false // a question of its own
	}
	m.bindRoles()
	last := Last{Request: asked.Request, Options: asked.Options}
	if q := m.of(bare, length, size, ringSize, mass); q != nil && asked.Missing != "" && len(m.found) == 1 {
		return m.missing(last, asked, q)
	}
	if asked.Missing == "outline" && len(m.meaning("outline:")) == 0 || asked.Missing == "" && len(m.found)+len(m.alloys) == 0 {
		return Reading{}, false
	}
	if !m.fragment() {
		return Reading{}, false
	}
	r, ok := m.change(last)
	if ok && r.Outcome == Request && asked.Unplaced != "" && !m.places(asked, r) {
		if m.context.Last == nil {
			return m.askPlace(asked, r), true
		}
		r.Notes = append(r.Notes, fmt.Sprintf("the %s is left out, since you didn't say what it is", asked.Unplaced))
	}
	if !ok && len(asked.Choices) > 0 && len(m.tokens) == 1 && m.at(0).number {
		return *asked, true
	}
	return r, ok
}

// saidOfAsked reads a message that names other things too as said of the piece that
// was asked about: "I've only a bangle she wears, 63 inside".
func (m *message) saidOfAsked(asked *Reading) (Reading, bool) {
	if asked.Request == "" || len(m.found) == 0 || !m.ownJob() || m.asksAnew() || m.beginsAnew(asked.Request) || m.tellsOutcome() {
		return Reading{}, false
	}
	r, ok := m.laidOver(Last{Request: asked.Request, Options: asked.Options})
	return r, ok && (asked.Unplaced == "" || m.places(asked, r))
}

// chosen is the request of a choice, or a question for what it still lacks.
func (m *message) chosen(c Choice) Reading {
	d := m.draft(c.Request)
	maps.Copy(d.options, c.Options)
	if d.request == "melt" && !d.has("wax") && !d.has("model") && !d.has("size") && m.context.Asked.Missing == "alloy" {
		d.needWax()
		for _, q := range m.found {
			q.used = true
		}
		return d.reading()
	}
	if d.request != "jumpring" {
		return Reading{Outcome: Request, Request: c.Request, Options: c.Options}
	}
	for _, q := range m.found {
		q.used = true
	}
	d.needRing()
	return d.reading()
}

// places reports whether a reading has found a place for the figure that was asked
// about, or the message takes it back.
func (m *message) places(asked *Reading, r Reading) bool {
	if m.says("leave it", "leave that", "ignore", "forget", "drop it", "never mind", "nevermind", "scrap that") {
		return true
	}
	for name, shown := range r.Options {
		if asked.Options[name] != shown && lengthOf(shown) > 0 && lengthOf(shown) == lengthOf(asked.Unplaced) {
			return true
		}
	}
	for _, q := range m.found {
		if strings.TrimSpace(q.typed(m)) == asked.Unplaced {
			return true
		}
	}
	return false
}

// askPlace asks again for the figure that has no place yet, with what the message
// changed in every choice.
func (m *message) askPlace(asked *Reading, r Reading) Reading {
	again := *asked
	again.Options, again.Choices = r.Options, nil
	again.Changed, again.Notes = r.Changed, append(slices.Clone(asked.Notes), r.Notes...)
	again.Ask = "That is changed. " + strings.TrimPrefix(asked.Ask, "That is changed. ")
	for _, c := range asked.Choices {
		options := maps.Clone(r.Options)
		for name, shown := range c.Options {
			if asked.Options[name] != shown {
				options[name] = shown
			}
		}
		again.Choices = append(again.Choices, Choice{c.Label, c.Request, options})
	}
	return again
}

// tellsSizes reports whether a message has a figure that may be a ring size: "5 wide"
// is none.
func (m *message) tellsSizes() bool {
	m.bindRoles()
	defer m.release()
	return slices.ContainsFunc(m.found, func(q *quantity) bool {
		return q.measure == ringSize || q.measure == bare && q.role == "" && q.value <= 76
	})
}

// resizeSizes reads the sizes of a resizing that was asked about: "from 6 to 7".
func (m *message) resizeSizes(asked *Reading) Reading {
	for _, q := range m.found {
		if q.measure == bare && q.role == "" && q.value <= 76 {
			q.measure, q.unit = ringSize, true
		}
	}
	m.bindRoles()
	r := m.resize()
	known := map[string]string{"to": "from", "from": "to"}[asked.Missing]
	if one := r.Options[known]; one != "" && r.Options[asked.Missing] == "" && asked.Options[known] != "" && m.of(ringSize).system == "" {
		system, _, _ := strings.Cut(asked.Options[known], " ")
		_, shown, _ := strings.Cut(one, " ")
		delete(r.Options, known)
		r.Options[asked.Missing] = system + " " + shown // the one that was lacking
	}
	for name, v := range asked.Options {
		if r.Options[name] == "" {
			r.Options[name] = v
		}
	}
	if (r.Missing == "to" || r.Missing == "from") && r.Options["from"] != "" && r.Options["to"] != "" {
		return Reading{Outcome: Request, Request: r.Request, Options: r.Options, Notes: r.Notes}
	}
	return r
}

// numberInWords takes "seven" as a figure where a figure was asked for.
func (m *message) numberInWords(asked *Reading) {
	if !numeric(asked.Missing) || len(m.found) > 0 {
		return
	}
	if v, next, ok := m.spokenNumber(0); ok {
		m.add(quantity{measure: bare, value: v, shown: plain(v), first: 0, next: next})
	}
}

func unequalSides(size string) bool {
	a, b, _ := strings.Cut(size, "x")
	return parse(a) != parse(b)
}

// pieceOf completes the piece of a class that was asked about.
func (m *message) pieceOf(asked *Reading) (Reading, bool) {
	m.bindRoles()
	r, ok := m.change(*asked.Piece)
	if !ok {
		return Reading{}, false
	}
	d := m.draft("kit")
	maps.Copy(d.options, asked.Options)
	d.notes = r.Notes
	return m.kitOf(d, r), true
}

// missing fills the option that was asked for.
func (m *message) missing(last Last, asked *Reading, q *quantity) (Reading, bool) {
	for i, c := range asked.Choices {
		if q.measure == bare && len(m.tokens) == 1 && q.value == float64(i+1) && !numeric(asked.Missing) {
			return Reading{Outcome: Request, Request: c.Request, Options: c.Options}, true
		}
	}
	if !numeric(asked.Missing) {
		return m.change(last)
	}
	if m.comparedWith(q, asked) {
		return m.change(last)
	}
	if d := m.draft(last.Request); asked.Missing == "bangle" {
		maps.Copy(d.options, last.Options)
		if m.roundHand(d, q) {
			return d.reading(), true
		}
	}
	if !q.mayFill(asked.Missing) || q.measure == bare && m.looseWords() > 1 {
		return *asked, true
	}
	d := m.draft(last.Request)
	maps.Copy(d.options, last.Options)
	m.changeWords(d)
	if q.measure == ringSize && asked.Missing == "ring" && q.system != "" {
		d.say("system", q.system)
	}
	if asked.Missing == "ring" && !d.has("system") && q.measure == bare {
		d.say("system", "us")
		d.note("size %s is read as US", q.shown)
	}
	d.set(asked.Missing, q)
	if m.metal() != nil {
		d.alloy("alloy", false)
	}
	if last.Request == "jumpring" {
		d.needRing()
	}
	if asked.Missing == "size" && !d.has("outline") && needsStone[last.Request] {
		d.needStone(last.Request == "bezel")
	}
	return d.reading(), true
}

// comparedWith gives a figure the role of the comparative beside it, and reports
// whether that is another than the one that was asked for: "taller, 8 mm" is no size.
func (m *message) comparedWith(q *quantity, asked *Reading) bool {
	for _, t := range m.tokens {
		c, is := comparatives[t.text]
		if !is {
			continue
		}
		option := comparedOptions[asked.Request][c.role]
		if option != "" && option != asked.Missing {
			q.role = c.role
			return true
		}
	}
	return false
}

// fillable is between which limits a bare number can fill an option that was asked
// for, in mm or in the option's own unit.
var fillable = map[string][2]float64{"size": {0.7, 120}, "inside": {0.8, 60}, "wire": {0.2, 36}, "ring": {0.5, 76}, "height": {0.2, 60}, "width": {0.5, 40}, "depth": {0.3, 80}, "dome": {0.3, 60}, "with": {0.7, 6}, "bangle": {30, 120}, "makers": {1, 200}}

// mayFill reports whether a figure can be the answer to a question for an option.
func (q *quantity) mayFill(option string) bool {
	if q.measure == size {
		switch option {
		case "size", "rimgot", "basegot", "offcut", "strip", "tubesize", "hole", "bangle":
			return true
		}
		return false
	}
	if option == "ring" && q.measure == bare {
		return (q.value <= 16 && 4*q.value == float64(int(4*q.value)) || q.value >= 41) && q.value <= 76
	}
	r, limited := fillable[option]
	return !limited || q.measure == ringSize || q.measure == gauge || q.value >= r[0] && q.value <= r[1]
}

func numeric(option string) bool {
	return option != "" && option != "alloy" && option != "outline" && option != "job" && option != "pieces" && option != "from" && option != "stone"
}

// sameWords reports whether the message says a choice's label, or its main word.
func (m *message) sameWords(label string) bool {
	if m.ownJob() && len(m.tokens) > 6 {
		return false
	}
	l := newBare(label)
	if l == m.text() {
		return true
	}
	if strings.ContainsAny(label, "0123456789") && !strings.ContainsAny(m.text(), "0123456789") && !strings.Contains(label, "karat") {
		return false // "round" is not yet "a round of 6"
	}
	if len(m.tokens) > 4 || len(m.found) > 0 && !strings.ContainsAny(label, "0123456789") {
		return false
	}
	want := " " + l + " "
	for _, t := range m.tokens {
		if fillers[t.text] && t.text != "no" || t.text == "," || t.text == "." {
			continue
		}
		if !strings.Contains(want, " "+t.text+" ") {
			return false
		}
	}
	for _, t := range m.tokens {
		if t.word() && !fillers[t.text] {
			return true
		}
	}
	return false
}

func newBare(label string) string {
	var words []string
	for _, t := range tokenize(label) {
		words = append(words, t.text)
	}
	return strings.Join(words, " ")
}
