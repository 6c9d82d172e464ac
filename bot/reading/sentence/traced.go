package sentence

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"guildhand/bot/knowledge"
)

// Words that tell what a message on an outline wants done.
var (
	dropsOutline  = []string{"delete", "remove", "drop", "forget", "discard", "bin", "erase", "withdraw", "withdrawal", "get rid of", "throw away"}
	listsOutlines = []string{"=list", "my outlines", "outlines i have", "outlines have i", "outlines do i", "traced so far", "which of my traced", "kept outlines", "outlines kept", "traced stuff", "which outlines", "what outlines", "wot outlines", "all outlines", "all my outlines"}
	namesOutline  = []string{"name it", "call it", "save as", "keep as", "save it as", "keep it as", "keep this outline", "keep the outline", "save the outline", "save this outline", "save outline", "keep outline"}
	cardWords     = []string{"card", "tracing page", "tracing sheet", "target", "crosses", "crosshairs", "cross hairs", "page", "print-out", "printout", "sheet", "tracing paper"}
	asksForCard   = []string{"=print", "printable", "printed", "to print", "send", "need", "pdf", "new", "fresh", "another", "copy", "again", "download", "give me", "get", "have", "want", "show", "letter", "a4", "please", "where", "which", "obliged", "bigger", "same"}
	showsStone    = []string{"photo", "photos", "photograph", "photographed", "pic", "pics", "picture", "snap", "snapped", "image", "jpg", "jpeg", "shot", "stone on card", "on the card", "on your card", "on card", "on that card", "on this card", "stone on it", "in the frame", "instead of the card", "instead of a card", "without the card", "card printed", "no printer", "attached", "enclosed", "scan"}
	comesLater    = []string{"to print", "before i", "for the stone photo", "for stone photos", "for my photo", "for photos", "for the camera", "printable", "can i have the card", "send me the card", "need the card", "the card i need", "need your card", "need ur card", "new card", "fresh card", "tracing card for"}
	edgeOverCard  = []string{"edge", "girdle", "above the card", "over the card", "chamfered", "chamfer"}
)

// traced reads what a message that asks for a stone's outline wants of it: the card,
// the outline from points, from a paper strip or from a photograph, or one that is
// kept.
func (m *message) traced() (Reading, bool) {
	if !m.context.takes("trace", "") {
		return Reading{}, false
	}
	m.release()
	d := m.draft("trace")
	pairs, rest := pairsOf(m.typed)
	switch {
	case len(pairs) > 0:
		return d.fromPoints(pairs, rest), true
	case m.says(dropsOutline...) && m.says("outline", "outlines", "traced", "tracing"):
		d.question("", "Which outline shall I forget? Type trace drop and its name.", Choice{"list the outlines", "trace", map[string]string{"list": "yes"}})
		m.leaveOut()
		return d.reading(), true
	case d.fromStrip():
		return d.reading(), true
	case m.says(listsOutlines...):
		d.say("list", "yes")
		m.leaveOut()
		return d.reading(), true
	case m.asksForTracingCard():
		return d.card(), true
	case m.says(namesOutline...) && !m.says(showsStone...):
		return d.keptAs(), true
	}
	d.fromPhotograph()
	return d.reading(), true
}

// card gives the card to print on the paper that is named.
func (d *draft) card() Reading {
	m := d.m
	d.say("card", "yes")
	for i := range m.tokens {
		paper, before := m.at(i).text, m.at(i-1).text
		if paper == "a" && m.at(i+1).glued {
			paper += m.at(i + 1).text
		}
		switch {
		case before == "than" || before == "not":
		case paper == "letter" || paper == "a4":
			d.say("paper", paper)
		case paper == "a5" || paper == "a3" || paper == "legal":
			d.note("the card comes on A4 or on letter paper; print it at 100 %%, whatever the sheet")
		}
	}
	if slices.ContainsFunc(m.found, func(q *quantity) bool { return q.measure == count || q.measure == bare && q.value > 1 }) {
		d.note("one card takes one stone at a time; print as many as you need")
	}
	m.leaveOut()
	return d.reading()
}

// leaveOut marks the figures of a message whose request takes none.
func (m *message) leaveOut() {
	for _, q := range m.found {
		q.used = true
	}
	for _, a := range m.alloys {
		a.used = true
	}
}

// asksForTracingCard reports whether the card to print is wanted, and no stone shown
// on it.
func (m *message) asksForTracingCard() bool {
	if !m.says(cardWords...) || m.of(length, size) != nil {
		return false
	}
	return m.says(comesLater...) || m.says(asksForCard...) && !m.says(showsStone...) || !m.says(showsStone...) && m.words() <= 4
}

// fewestPairs is how many x,y pairs in a row are an outline, and fewestPoints how many
// an outline takes.
const (
	fewestPairs  = 5
	fewestPoints = 8
)

// pairsOf are the x,y pairs of a message where enough stand in a row, and the message
// without them.
func pairsOf(typed string) (pairs [][2]float64, rest string) {
	var left []string
	for _, field := range strings.Fields(typed) {
		if p, ok := pairIn(field); ok {
			pairs = append(pairs, p)
			continue
		}
		left = append(left, field)
	}
	if len(pairs) < fewestPairs {
		return nil, typed
	}
	return pairs, strings.Join(left, " ")
}

// pairIn reads "4.5,-7" or "(0, 3)" without its blank.
func pairIn(field string) (p [2]float64, ok bool) {
	x, y, two := strings.Cut(strings.Trim(field, "().;:?![]"), ",")
	if !two {
		return p, false
	}
	if strings.HasPrefix(field, ".") {
		x = "." + strings.TrimPrefix(x, ".") // a leading point is no mark
	}
	for i, s := range []string{x, strings.TrimRight(y, ",.;:")} {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
			return p, false
		}
		p[i] = v
	}
	return p, true
}

// fromPoints takes caliper points, in mm or in inches.
func (d *draft) fromPoints(pairs [][2]float64, rest string) Reading {
	d.m.leaveOut()
	inches := newMessage(rest).says("inch", "inches", "=in")
	perUnit := 1.0
	if inches && !slices.ContainsFunc(pairs, func(p [2]float64) bool { return max(math.Abs(p[0]), math.Abs(p[1])) > 3 }) {
		perUnit = 25.4
		d.note("the points are read in inches")
	}
	var all []string
	for _, p := range pairs {
		all = append(all, plain(p[0]*perUnit)+","+plain(p[1]*perUnit))
	}
	if len(pairs) < fewestPoints {
		d.question("", fmt.Sprintf("An outline takes %d points at least, in order round the stone, and you gave %d. Measure some more where it bends most, and send them all with trace points. A paper strip round the stone with its length and width does too: trace strip 58 size 20x16.", fewestPoints, len(pairs)))
	}
	d.say("points", strings.Join(all, " "))
	for _, q := range newMessage(rest).found {
		if q.measure == length || q.measure == bare && q.value >= 2 {
			d.note("compare your %s with the length in the answer", q.shown)
		}
	}
	return d.reading()
}

// fromStrip takes a paper strip round the stone, and the stone's length and width. By
// geometry the strip is longer than twice the stone's diagonal is across and shorter
// than the box round it, so no word is needed to tell them apart.
func (d *draft) fromStrip() bool {
	m := d.m
	var sizes, lengths []*quantity
	for _, q := range m.found {
		switch {
		case q.measure == size && len(q.sides) == 2:
			sizes = append(sizes, q)
		case q.measure == length || q.measure == bare && q.value > 2:
			lengths = append(lengths, q)
		}
	}
	if len(sizes) > 1 {
		return false
	}
	if len(sizes) == 1 && len(lengths) == 1 {
		sizes[0].inUnitOf(lengths[0])
	}
	var long, wide float64
	var left []*quantity
	switch {
	case len(sizes) == 1:
		long, wide, left = sizes[0].sides[0], sizes[0].sides[1], lengths
	case len(lengths) == 3:
		byLength := slices.SortedFunc(slices.Values(lengths), func(a, b *quantity) int { return int(math.Copysign(1, b.value-a.value)) })
		long, wide, left = byLength[1].value, byLength[2].value, byLength[:1]
	default:
		return d.stripAlone(lengths)
	}
	var strip *quantity
	for _, q := range left {
		if !roundStone(q.value, long, wide) {
			continue
		}
		if strip != nil {
			d.sizeOfStrip(sizes, lengths, long, wide)
			q.used, strip.used = true, true
			d.question("strip", "Which is the strip round the stone?", d.with(strip.shown, "strip", strip.shown), d.with(q.shown, "strip", q.shown))
			return true
		}
		strip = q
	}
	if strip == nil {
		return false
	}
	d.set("strip", strip)
	d.sizeOfStrip(sizes, lengths, long, wide)
	return true
}

// inUnitOf reads a size without a unit in the inches of the strip beside it, where only
// so the strip goes round the stone.
func (q *quantity) inUnitOf(strip *quantity) {
	if q.unit || !strings.HasSuffix(strip.shown, " in") || roundStone(strip.value, q.sides[0], q.sides[1]) || !roundStone(strip.value, 25.4*q.sides[0], 25.4*q.sides[1]) {
		return
	}
	for i := range q.sides {
		q.sides[i] *= 25.4
	}
	q.value, q.unit, q.shown = q.sides[0], true, plain(q.sides[0])+"x"+plain(q.sides[1])
}

// sizeOfStrip takes the stone's length and width beside its strip.
func (d *draft) sizeOfStrip(sizes, lengths []*quantity, long, wide float64) {
	if len(sizes) == 1 {
		d.set("size", sizes[0])
		return
	}
	for _, q := range lengths {
		q.used = true
	}
	d.say("size", plain(long)+"x"+plain(wide))
}

// roundStone reports whether a length may go round a stone of these sides: it is
// no shorter than a lozenge and no longer than a box, but for what paper stretches.
func roundStone(strip, long, wide float64) bool {
	return strip >= 0.97*2*math.Hypot(long, wide) && strip <= 1.05*2*(long+wide)
}

// stripAlone asks for the stone's length and width where only the strip is told.
func (d *draft) stripAlone(lengths []*quantity) bool {
	if len(lengths) != 1 || !d.m.says("strip", "paper", "ribbon", "band", "wrap", "round the stone", "around the stone", "perimeter") || d.m.says("photo", "pic", "picture", "photograph") {
		return false
	}
	d.set("strip", lengths[0])
	d.question("size", "How long and how wide is the stone by calipers, in mm?", d.with("20 x 16", "size", "20x16"), d.with("25 x 18", "size", "25x18"))
	return true
}

// keptAs asks for the name under which an outline is kept, or takes the one in quotes.
func (d *draft) keptAs() Reading {
	d.m.leaveOut()
	name := quoted(d.m.typed)
	if name == "" {
		name = nameAtEnd(d.m.typed)
	}
	if name == "" || strings.ContainsAny(name, " \t") {
		d.question("keep", "Under which name shall I keep the outline? One word, as in trace keep opal.")
		return d.reading()
	}
	d.say("keep", name)
	return d.reading()
}

// namedAtEnd is one word that a message ends with as a name: "keep it as opal, please".
var namedAtEnd = regexp.MustCompile(`(?i)\b(?:as|called|call (?:it|this|that)|name (?:it|this|that)|name is|name's|named|under|under the name)\s+(\p{L}[\p{L}\d_-]*)(?:,? (?:please|pls|plz|thanks|ta))?[\s.!]*$`)

func nameAtEnd(typed string) string {
	if found := namedAtEnd.FindStringSubmatch(typed); found != nil {
		return strings.ToLower(found[1])
	}
	return ""
}

// keepsTracing reports whether the latest outline is to be kept under a name, though
// the message calls it by no word for an outline.
func (m *message) keepsTracing() bool {
	if m.words() > fewWords || !m.startsWith("keep", "save", "store", "call", "name", "ok keep", "ok save") || quoted(m.typed) == "" && nameAtEnd(m.typed) == "" {
		return false
	}
	return m.context.Last != nil && m.context.Last.Request == "trace" || m.context.Last == nil && m.chance("trace") >= likelier
}

// quoted is what stands between quotation marks.
func quoted(typed string) string {
	for _, mark := range []string{`"`, "'", "“", "‘"} {
		closing := map[string]string{"“": "”", "‘": "’"}[mark]
		if closing == "" {
			closing = mark
		}
		_, behind, opened := strings.Cut(typed, mark)
		if in, _, closed := strings.Cut(behind, closing); opened && closed {
			return strings.TrimSpace(in)
		}
	}
	return ""
}

// fromPhotograph takes what is told of a stone that is shown on the card: its length by
// calipers and how high its edge lies. What is to be made of it comes later.
func (d *draft) fromPhotograph() {
	m := d.m
	edge, long := (*quantity)(nil), (*quantity)(nil)
	for _, q := range m.found {
		switch {
		case q.measure != length && q.measure != bare:
		case q.value <= 5 && m.says(edgeOverCard...) && edge == nil:
			edge = q
		case q.value >= 6 && long == nil && (q.unit || q.role == "length" || m.says("longest", "long", "length", "calipers", "callipers", "end to end", "greatest", "measures", "measured")):
			long = q
		}
	}
	d.set("edge", edge)
	d.set("length", long)
	d.lengthOfSize()
	for _, a := range m.alloys {
		a.used = true
	}
	for _, q := range m.found {
		if q.measure == count || slices.Contains(numbersPhoto, m.at(q.first-1).text) || slices.Contains(countedOnCard, m.at(q.next).text) {
			q.used = true // "photo no. 2", "all 4 marks"
		}
	}
}

// lengthOfSize takes the length of a stone whose two sides are told beside its photograph:
// the outline is checked by it. Sides that are only guessed check nothing, and of two sizes the
// one that was taken back may be meant.
func (d *draft) lengthOfSize() {
	m, sizes := d.m, 0
	for _, q := range m.found {
		if q.measure == size {
			sizes++
		}
	}
	q := m.of(size)
	if q == nil || sizes > 1 || len(m.assumed) > 0 || d.has("length") || len(q.sides) != 2 {
		return
	}
	q.used = true
	if m.saysOneBetween(max(0, q.first-2), q.next+1, "about", "approx", "approximately", "roughly", "around", "ish", "maybe", "guess", "like", "say") {
		d.note("the outline has its size from the card; your rough %s is not needed", strings.TrimSpace(q.typed(m)))
		return
	}
	d.say("length", plain(max(q.sides[0], q.sides[1])))
}

// Words round a number that counts or numbers what is seen, and measures nothing.
var (
	numbersPhoto  = []string{"no", "no.", "#", "number", "photo", "pic", "picture", "."}
	countedOnCard = []string{"marks", "corners", "crosses", "photos", "pics", "pictures", "stones"}
)

// surelyTraced reads a message that by all its words asks for an outline.
func (m *message) surelyTraced() (Reading, bool) {
	if m.keepsTracing() && m.context.takes("trace", "keep") {
		m.release()
		return m.draft("trace").keptAs(), true
	}
	wanted, chance := m.likeliest()
	least := sure
	if m.context.Last != nil || m.context.Asked != nil {
		least = plainly
	}
	measured := m.cues["trace"] == 0 && len(m.found) == 1 && m.stoneSides() != nil // a stone whose sides alone are told wants no outline
	ofOther := m.context.Last != nil && m.context.Last.Request != "trace" && m.cues["trace"] == 0
	if wanted != "trace" || chance < least || measured || ofOther || m.cues["bezel"] >= plainlyNamed && m.with("thickness") != nil {
		return Reading{}, false
	}
	if fact := m.factOfTracing(); fact != nil {
		return explain(fact), true
	}
	if m.says(asksOfPicture...) {
		if known, ok := m.nearestByAllWords(nearEnough); ok && strings.HasPrefix(known.Topic, knowledge.OfTracing) {
			return known, true
		}
		return explain(factNamed(knowledge.OfTracing + "how to")), true
	}
	return m.traced()
}

// asksOfPicture ask whether or how a photograph will do, before it is sent or traced.
var asksOfPicture = []string{"shall i send", "should i send", "do i send", "where do i send", "is that gonna work", "is that going to work", "will that work", "will it work", "is it good enough", "is that good enough", "what do you need", "do you need anything", "what next", "what now", "should i take", "shall i take", "do i need to take", "how do i take"}

// factOfTracing is what is known of photographs on the card that the message asks for,
// whatever figures it has.
func (m *message) factOfTracing() (best *knowledge.Fact) {
	score := 0
	for i, all := 0, knowledge.Facts(); i < len(all); i++ {
		if !strings.HasPrefix(all[i].Key, knowledge.OfTracing) {
			continue
		}
		if n := m.saysAsked(asksOfFacts()[i]); n > score {
			best, score = &all[i], n
		}
	}
	return best
}
