package sentence

import "strings"

// A figure that the asker has worked out already, "I make it 41.6, is that right?", is no
// measure of the piece: it is there to be compared with the answer.

// ownResult is the role of such a figure, which no option has.
const ownResult = "own result"

var (
	// reckonedLeads end what stands before a figure that was worked out.
	reckonedLeads = []string{
		"i make it", "i make that", "i made it", "we make it", "makes it", "i make the length", "i make the lg", "i make the strip", "i make the mass", "i make the weight", "i make the disc", "i make the blank",
		"i calculated", "i calculate", "i have calculated", "ive calculated", "i computed", "i compute", "i have computed", "ive computed", "i worked out", "i work out", "i have worked out", "ive worked out", "i worked it out as", "i worked it out at", "i worked it out to be", "i figured", "i figure", "i reckoned", "i reckon", "i reckon on",
		"my sum came to", "my sum comes to", "my sums came to", "my sums come to", "my sum says", "my sums say", "my sum gives", "my sums give", "my math says", "my maths says", "my math gives", "my maths gives", "my answer is", "my answer was", "my result is", "my figure is", "my calculation gives", "my calculation is", "my calculator says", "my calculator gives", "my spreadsheet says", "my spreadsheet gives", "the formula gives", "formula gives", "the formula says", "my sum is", "my sum was", "my sum", "my arithmetic gives", "my arithmetic says", "my arithmetic is", "mate reckons", "friend reckons", "tutor reckons", "teacher reckons", "boss reckons", "he reckons", "she reckons", "by hand i get", "with pi i get", "comes out at", "works out at", "works out as", "work out as", "work out at",
	}
	// gotLeads are those that as often tell what was bought or measured.
	gotLeads = []string{"i get", "i got", "we get", "we got", "and get", "and got", "then get", "i find", "i found", "i have found", "ive found", "i am getting", "im getting", "i keep getting", "i was getting", "coming up with", "i come up with", "i came up with", "my answer", "comes to", "came to"}
	// beforeReckoned may stand between a lead and its figure.
	beforeReckoned = []string{"about", "around", "roughly", "approx", "approximately", "circa", "a", "an", "the", "it", "to", "be", "as", "at", "is", "of", "length", "strip", "blank", "insert", "outer", "inner", "radius", "arc", "disc", "weight", "mass", "total", "only", "just", "out", "rim", "base", "wire", "metal", "copper", "silver", "something", "like", "length", "lg", "circumference"}
	// byOwnSum stand behind a figure that was worked out, or before it.
	byOwnSum = []string{"by my calculation", "by my calculations", "by my own calculation", "by my maths", "by my math", "by my sums", "by my reckoning", "according to my calculation", "according to my calculations", "according to my sums", "by calculation", "by my sum", "by my arithmetic", "by my own sums", "on paper", "in my head", "by my formula", "by the formula"}
	// asksToCheck tell that a figure is to be checked.
	asksToCheck = []string{"check", "verify", "confirm", "right", "correct", "agree", "agrees", "sound", "sounds", "close", "what do you get", "what do you make", "doubt", "off", "wrong", "is that so", "is that it", "is it", "long", "short", "look ok", "looks ok", "is that ok", "same", "yours", "tally", "tallies", "slipped up", "made a mistake", "gone wrong", "mistake", "why", "believe", "trust", "happy with", "sanity"}
	// ofMeasured stand beside a figure that somebody measured.
	ofMeasured = []string{"stone", "cab", "cabochon", "gem", "girdle", "calipers", "callipers", "caliper", "micrometer", "ruler", "ring", "inside", "across", "wide", "tall", "thick", "high", "deep", "sheet", "gauge", "size", "each", "piece", "pieces"}
)

// bindOwnResult marks the figure that the asker has worked out, where a measure of the piece
// stands beside it.
func (m *message) bindOwnResult() {
	if len(m.found) < 2 {
		return
	}
	m.bindOwnSums()
	for _, q := range m.found {
		if q.mayBeOwn() && m.isOwnResult(q) && m.hasFigureOfPiece(q) {
			q.role = ownResult
		}
	}
}

// mayBeOwn reports whether a figure can be what somebody worked out.
func (q *quantity) mayBeOwn() bool {
	return q.role == "" && (q.measure == length || q.measure == bare || q.measure == mass)
}

// isOwnResult reports whether the words round a figure tell that it was worked out.
func (m *message) isOwnResult(q *quantity) bool {
	first := q.first
	for first > 0 && contains(beforeReckoned, m.at(first-1).text) {
		first--
	}
	before, behind := m.between(max(0, q.first-8), first), m.wordsBehind(q)
	around := " " + m.wordsBefore(q) + " " + behind + " "
	if (saidOf(around, byOwnSum) || m.byOwnSumNeeded(q)) && !saidOf(" "+behind+" ", ofMeasured) && !saidOf(" "+behind+" ", []string{"wax", "waxes", "pattern", "model", "scrap"}) {
		return true
	}
	if saidOf(" "+m.wordsBefore(q)+" "+m.between(q.next, q.next+2)+" ", ofMeasured) {
		return false
	}
	switch {
	case endsInOne(m.between(max(0, q.first-8), q.first), reckonedLeads), endsInOne(before, reckonedLeads), m.workedOutAt(q):
		return m.says(asksToCheck...) || strings.Contains(m.typed, "?")
	case endsInOne(m.between(max(0, q.first-4), q.first), gotLeads), endsInOne(before, gotLeads):
		return m.says(asksToCheck...) && !m.says("cut", "came out", "turned out", "measured", "finished")
	}
	return false
}

// byOwnSumNeeded reports whether a figure is what a sum said to be needed: "by my sum a 2 g wax
// needs 21 g".
func (m *message) byOwnSumNeeded(q *quantity) bool {
	const reach = 14
	return saidOf(" "+m.between(max(0, q.first-reach), q.first)+" ", byOwnSum) && contains([]string{"needs", "need", "takes", "wants", "requires", "be", "is"}, m.at(q.first-1).text)
}

// workedOutAt reports whether what was worked out stands between the verb and its figure:
// "I've worked the blank for a UK L ring out at 56.4 mm".
func (m *message) workedOutAt(q *quantity) bool {
	const reach = 16
	return endsInOne(m.between(max(0, q.first-2), q.first), []string{"out at", "out to", "out as"}) && m.saysOneBetween(max(0, q.first-reach), q.first, "worked", "work")
}

func endsInOne(text string, words []string) bool {
	for _, w := range words {
		if before, ends := strings.CutSuffix(text, w); ends && (before == "" || strings.HasSuffix(before, " ")) {
			return true
		}
	}
	return false
}

// hasFigureOfPiece reports whether another figure can be the piece's size, so that the one
// that was worked out isn't missed.
func (m *message) hasFigureOfPiece(own *quantity) bool {
	const least = 2 // mm
	for _, q := range m.found {
		if q.measure == mass && own.measure == mass && q != own {
			return true // of a wax and its metal
		}
		if q != own && q.role != ownResult && q.role != ownOperand && (q.measure == size || q.measure == ringSize || q.measure == carat || (q.measure == length || q.measure == bare) && (q.value >= least || q.value > 0 && strings.Contains(q.shown, "/"))) {
			return true
		}
	}
	return false
}

// Told is a figure that the asker has worked out, in mm or g, to be compared with the answer.
type Told struct {
	Typed  string
	Value  float64
	Mass   bool `json:",omitempty"`
	Radius bool `json:",omitempty"`
}

// tellOwnResults keeps the figures that the asker has worked out, and says of the parts of
// their sums what they are taken for.
func (d *draft) tellOwnResults() {
	for _, q := range d.m.unused() {
		switch q.role {
		case ownResult:
			q.noted = true
			d.tell(q)
		case ownOperand:
			q.used, q.noted = true, true
			d.note("%s is taken as a part of your own sum", strings.TrimSpace(q.typed(d.m)))
		}
	}
}

// tell keeps a figure to be compared with the answer.
func (d *draft) tell(q *quantity) {
	q.used = true
	radius := contains(strings.Fields(d.m.wordsBefore(q)), "radius") || d.m.saysOneBetween(q.next, q.next+2, "radius")
	d.told = append(d.told, Told{Typed: strings.TrimSpace(q.typed(d.m)), Value: q.value, Mass: q.measure == mass, Radius: radius})
}

// bindReach marks how far a tool goes where the disc for a dome is asked: "my biggest punch
// has 20". It is there to be compared with the answer too.
func (m *message) bindReach() {
	if !m.has("domework") || !m.says("which disc", "what disc", "which is the disc", "what size disc", "which size disc", "what disk", "how big a disc") {
		return
	}
	for _, q := range m.found {
		lead := max(0, q.first-7)
		if q.role == "" && (q.measure == length || q.measure == bare) && m.hasFigureOfPiece(q) &&
			m.saysOneBetween(lead, q.first, "biggest", "largest", "smallest", "max", "maximum") && m.saysOneBetween(lead, q.first, "punch", "cutter", "punches", "cutters", "dap") {
			q.role = ownResult
		}
	}
}
