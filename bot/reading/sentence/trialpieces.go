package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/reading/written"
)

// Rings, bangles, domes and bezels that came out another size are no matter of tune,
// which corrects cones. Their next blank follows from what was cut, what was measured
// and what was wanted.

// trialTold is what a report tells of such a piece; nil is what it doesn't tell.
type trialTold struct {
	m                                           *message
	cut, result, ring, bangle, stone, perimeter *quantity
	height, heightGot                           *quantity
}

// correction is how the next blank changes, where that comes from, and the figures that
// it follows from.
type correction struct {
	text, source string
	from         []*quantity
}

// trialCorrections are tried in this order.
var trialCorrections = []func(trialTold) (correction, bool){
	trialTold.ofRing, trialTold.ofBangle, trialTold.ofDome, trialTold.ofWayRound, trialTold.ofSeam, trialTold.ofLip,
}

// formedWords tell of a piece that was formed to be tried.
var formedWords = []string{"trial", "trials", "practice", "test piece", "test collet", "test collar", "formed", "the rim", "its rim"}

// saysPlan reports whether what stands behind "not" or "instead of" is what a piece was
// to be: "came out 6, not 7".
func (m *message) saysPlan(q *quantity) bool {
	i := slices.IndexFunc(m.found, func(other *quantity) bool { return other == q })
	const near, apart = 6, 6
	if i < 1 {
		return false
	}
	got := m.found[i-1]
	first := max(0, got.first-near)
	measured := m.saysOneBetween(first, got.first, "measures", "measured", "measuring", "mikes", "miked") && m.saysOneBetween(first, got.first, "top", "bottom", "rim", "mouth", "base", "collet", "cone", "collar", "dome") && !m.saysOneBetween(first, got.first, "stone", "cab", "gem")
	return (m.says(cameOut...) || measured) && alikeMeasures(got, q) && m.saysOneBetween(got.next, q.first, "not", "instead") && q.first-got.next <= apart
}

// alikeMeasures reports whether two figures measure alike: a unit is said once of both.
func alikeMeasures(a, b *quantity) bool {
	return a.measure == b.measure || (a.measure == length || a.measure == bare) && (b.measure == length || b.measure == bare)
}

// surelyTrial reads a message that by all its words reports on a trial piece.
func (m *message) surelyTrial() (Reading, bool) {
	if m.context.Last != nil || m.context.Asked != nil {
		return Reading{}, false
	}
	if r, ok := m.otherTrial(); ok {
		return r, true
	}
	told := m.plainlyTrial() || m.chance("tune") >= sure && m.says(formedWords...)
	if !told || m.ofAnotherTrial() || len(m.found) == 0 {
		return Reading{}, false
	}
	return m.trialReport()
}

// trialTopic is the topic of what is answered and asked about a trial piece.
const trialTopic = "trial piece"

// changeOneThing ends what the next blank changes by.
const changeOneThing = " Form it the same way, and change one thing at a time."

// nextBlank tells how the edges of the next blank change.
func nextBlank(text string) (Reading, bool) {
	return worked(trialTopic, "an edge changes by pi x the change across", text)
}

// answersTrial reports whether a message answers what was asked about a trial piece.
func (m *message) answersTrial() bool {
	return m.context.Asked != nil && m.context.Asked.Topic == trialTopic
}

// trialAnswered works out what was missing of a trial piece.
func (m *message) trialAnswered() (Reading, bool) {
	if !m.answersTrial() {
		return Reading{}, false
	}
	return m.otherTrial()
}

// plainlyTrial reports whether a message most likely reports on a trial piece.
func (m *message) plainlyTrial() bool {
	wanted, chance := m.likeliest()
	return wanted == "tune" && chance >= plainly && !m.tooShort()
}

// mayBeTrial reports whether a message may report on a trial piece: it asks what
// changes.
func (m *message) mayBeTrial() bool {
	return m.answersTrial() || m.plainlyTrial() || !m.tooShort() && m.chance("tune") >= unlikely && m.says(asksNext...)
}

// asksNext ask what changes after a trial.
var asksNext = []string{"next", "change", "correct", "corrected", "correction", "longer", "shorter", "larger", "smaller", "lengthen", "shorten", "adjust", "add", "take off", "how long should", "how much more", "cut afresh"}

// otherTrial corrects the blank of a piece that tune doesn't know.
func (m *message) otherTrial() (Reading, bool) {
	if !m.mayBeTrial() {
		return Reading{}, false
	}
	told := m.trialTold()
	for _, correct := range trialCorrections {
		if c, ok := correct(told); ok {
			return Reading{Outcome: Explanation, Topic: trialTopic, Source: c.source, Text: c.text + told.rest(c.from)}, true
		}
	}
	return Reading{}, false
}

// trialTold is what each figure of a report surely measures.
func (m *message) trialTold() trialTold {
	roles := map[*quantity]string{}
	for _, q := range m.found {
		if role, chance := m.likelyRole("tune", q); chance >= namedTrialRole {
			roles[q] = role
		}
	}
	is := func(role string) *quantity { return oneWith(roles, role) }
	return trialTold{m: m, cut: is("cut"), result: is(written.Result), ring: is("ring"), bangle: is("bangle"), stone: is("size"), perimeter: is("perimeter"), height: is("height"), heightGot: is("heightgot")}
}

// wantedWords stand before what a piece was to be.
var wantedWords = []string{"want", "wants", "wanted", "should", "shud", "need", "needs", "needed", "supposed", "aimed", "aiming", "asked", "desire", "commission", "target", "instead", "not", "meant", "planned", "takes", "demands", "ought", "hes", "shes", "im"}

// pair is what came out and what was wanted: the two figures that may be either, told
// apart by the words before them, or by all words where those before don't tell.
func (t trialTold) pair(got, wanted *quantity, may func(*quantity) bool) (*quantity, *quantity, bool) {
	var two []*quantity
	for _, q := range t.m.found {
		if may(q) {
			two = append(two, q)
		}
	}
	if len(two) != 2 {
		return nil, nil, false
	}
	a, b := two[0], two[1]
	wantsA, wantsB := t.m.wantedBefore(a), t.m.wantedBefore(b)
	switch {
	case wantsA != wantsB:
		if wantsA {
			a, b = b, a
		}
		return a, b, !(got == b || wanted == a) // all words don't speak against it
	case got != nil && wanted != nil:
		return got, wanted, may(got) && may(wanted)
	}
	return nil, nil, false
}

// wantedBefore reports whether a word of what was wanted stands in the few words before a
// figure, behind the figure before it.
func (m *message) wantedBefore(q *quantity) bool {
	for i := q.first - 1; i >= max(0, q.first-5) && !m.inFigure(i); i-- {
		if slices.Contains(wantedWords, m.at(i).text) {
			return true
		}
	}
	return false
}

// ofRing corrects by what two ring sizes differ round the finger.
func (t trialTold) ofRing() (correction, bool) {
	got, wanted, ok := t.pair(t.result, t.ring, func(q *quantity) bool {
		return q.measure == ringSize || q.measure == bare && q != t.cut && (q == t.result || q == t.ring || t.m.wantedBefore(q))
	})
	if !ok || got.measure != ringSize && wanted.measure != ringSize || letter(got.shown) != letter(wanted.shown) {
		return correction{}, false
	}
	system := systemOfSize(got)
	if got.measure != ringSize || got.system == "" && wanted.system != "" {
		system = systemOfSize(wanted)
	}
	was, err := system.Parse(got.shown)
	if err != nil {
		return correction{}, false
	}
	want, err := system.Parse(wanted.shown)
	if err != nil || !t.agrees(want-was) {
		return correction{}, false
	}
	text := fmt.Sprintf("From %s to %s is %.1f mm round the finger, so cut the next blank %s. ", got.shown, wanted.shown, math.Abs(want-was), t.blank(want-was))
	return correction{text + "Use the same thickness, and file the ends the same way: another thickness changes the length as well, by pi times what it differs.", "a ring's length changes by what its circumference changes", []*quantity{got, wanted}}, true
}

// ofBangle corrects by the difference across the inside.
func (t trialTold) ofBangle() (correction, bool) {
	const smallest, widest = 35, 120 // mm across the inside
	got, wanted, ok := t.pair(t.result, t.bangle, func(q *quantity) bool {
		return plainMM(q) && q.value >= smallest && q.value <= widest && q != t.cut
	})
	if !ok || !t.m.says("bangle", "bangles", "cuff", "bracelet") {
		return correction{}, false
	}
	change := math.Pi * (wanted.value - got.value)
	if !nearPlan(got, wanted) || !t.agrees(change) {
		return correction{}, false
	}
	return correction{fmt.Sprintf("Cut the next blank %s: that is pi times the %.1f mm that its inside was off across. Measure an oval bangle both ways and take the mean. Use the same thickness.", t.blank(change), math.Abs(wanted.value-got.value)), "a closed strip changes by pi x what its diameter changes", []*quantity{got, wanted}}, true
}

// ofDome corrects the disc by the areas of the two caps.
func (t trialTold) ofDome() (correction, bool) {
	if !t.m.says("dome", "domes", "disc", "disk", "doming") || t.stone == nil || !plainMM(t.stone) {
		return correction{}, false
	}
	got, wanted := [2]float64{t.stone.value, 0}, [2]float64{t.stone.value, 0} // across, high
	how := ""
	switch {
	case t.heightGot != nil && t.height != nil && plainMM(t.heightGot) && plainMM(t.height):
		got[1], wanted[1] = t.heightGot.value, t.height.value
		how = fmt.Sprintf("%s high for %s, with %s across both times", plain(got[1]), plain(wanted[1]), plain(got[0]))
	case t.result != nil && plainMM(t.result) && nearPlan(t.result, t.stone):
		got[0] = t.result.value
		how = fmt.Sprintf("%s across for %s, in proportion as high", plain(got[0]), plain(wanted[0]))
		if t.height != nil && plainMM(t.height) {
			got[1], wanted[1] = t.height.value, t.height.value
			how = fmt.Sprintf("%s across for %s, with %s high both times", plain(got[0]), plain(wanted[0]), plain(got[1]))
		}
	default:
		return correction{}, false
	}
	factor := acrossDiscOf(wanted) / acrossDiscOf(got)
	if got == wanted || 2*max(got[1], wanted[1]) > 1.1*min(got[0], wanted[0]) || factor > 1.4 || factor < 0.7 {
		return correction{}, false
	}
	disc := fmt.Sprintf("%.3f times as wide as the trial's", factor)
	if c := t.cut; c != nil && plainMM(c) && c.value >= 0.95*got[0] && c.value <= 1.6*got[0] {
		disc = fmt.Sprintf("%.1f mm wide, %.3f times your %s", c.value*factor, factor, plain(c.value))
	}
	return correction{fmt.Sprintf("Make the next disc %s: the trial came out %s. Raise it in the same block with the same punches, so that the sheet stretches as it did.", disc, how), "the area of a cap is pi x (half its width squared + its height squared), as is that of its disc but for what the sheet stretches", []*quantity{t.cut, t.result, t.height, t.heightGot}}, true
}

// acrossDiscOf is the width of the disc whose area is that of a cap, across and high.
func acrossDiscOf(capOf [2]float64) float64 { return math.Hypot(capOf[0], 2*capOf[1]) }

// ofWayRound corrects a bezel whose inside was measured round, as was its stone.
func (t trialTold) ofWayRound() (correction, bool) {
	got, wanted := t.result, t.perimeter
	const shortest = 12
	if got == nil || wanted == nil || !plainMM(got) || !plainMM(wanted) || wanted.value < shortest || !nearPlan(got, wanted) || !t.agrees(wanted.value-got.value) {
		return correction{}, false
	}
	return correction{fmt.Sprintf("Cut the next strip %s: its inside is %s mm round and the stone %s mm. Try the closed bezel on the stone before you solder it down.", t.blank(wanted.value-got.value), plain(got.value), plain(wanted.value)), "the strip changes by what its inside changes round the stone", []*quantity{got, wanted}}, true
}

// Words that tell where a strip was off, and in which direction.
var (
	alongStrip  = []string{"seam", "overlap", "overlaps", "overlapped", "ends", "to close", "wont close", "won't close", "join", "joint", "meet"}
	roundStones = []string{"daylight", "slop", "play", "gap all round", "all round", "all around", "loose", "rattles", "rattle", "wobbles", "hula"}
	overlapped  = []string{"overlap", "overlaps", "overlapped", "too long", "surplus"}
	leftOpen    = []string{"short", "miss", "missing", "misses", "wont close", "won't close", "wouldnt close", "wouldn't close", "dont meet", "don't meet", "didnt meet", "didn't meet", "apart"}
)

// ofSeam corrects a bezel's strip by what was missing or left over where its ends
// meet, or by the gap between stone and wall.
func (t trialTold) ofSeam() (correction, bool) {
	m := t.m
	bezel := m.cues["bezel"] > 0 || m.has("bezel", "cab") || m.says("strip", "stone")
	cone := m.cues["collet"] >= plainlyNamed || m.cues["collar"] >= plainlyNamed || m.has("collar") || m.of(ringSize) != nil
	if t.result == nil || t.cut == nil || !bezel || cone || t.result.measure != length && t.result.measure != bare {
		return correction{}, false
	}
	off := t.result.value
	if off <= 0 || off > 3 {
		return correction{}, false
	}
	along, gap := m.says(alongStrip...), m.says(roundStones...)
	longer, shorter := m.says(leftOpen...), m.says(overlapped...)
	switch {
	case along && !gap && longer != shorter:
		change := off
		if shorter {
			change = -off
		}
		return correction{fmt.Sprintf("Cut the next strip %s: what was missing or left over where its ends met is what its length changes by. File both ends square as before.", t.blank(change)), "measured along the strip", []*quantity{t.result}}, true
	case gap && !along:
		around, across := 2*math.Pi*off, math.Pi*off
		return correction{fmt.Sprintf("If the gap is %.2f mm all round the stone, cut the next strip %s. If %.2f mm is all the play there is, with the stone pushed against one side, cut it %s. Try the closed bezel on the stone before you solder it down.", off, t.blank(-around), off, t.blank(-across)), "a closed strip changes by pi x what it changes across", []*quantity{t.result}}, true
	}
	return correction{}, false
}

// ofLip corrects a bezel that stands too high or too low: its strip is straight.
func (t trialTold) ofLip() (correction, bool) {
	got, wanted := t.heightGot, t.height
	if got == nil || wanted == nil || !t.m.says("bezel", "cab", "cabochon", "lip") || t.m.cues["collet"] >= plainlyNamed || got.measure != length && got.measure != bare || wanted.measure != got.measure || got.value == wanted.value {
		return correction{}, false
	}
	off := math.Abs(got.value - wanted.value)
	if off > 0.5*wanted.value {
		return correction{}, false
	}
	return correction{fmt.Sprintf("Cut the next strip %.2f mm %s and leave its length as it is: the wall stands straight, so its height changes by the same figure.", off, whichWay(wanted.value-got.value, "higher", "lower")), "a straight wall is as high as its strip", []*quantity{got, wanted}}, true
}

// agrees reports whether nothing that is said of the fit speaks against a change,
// positive for a longer blank.
func (t trialTold) agrees(change float64) bool {
	tooLarge := t.m.says("too large", "too big", "too loose", "too long", "shorten", "shorter", "smaller")
	tooSmall := t.m.says("too small", "too tight", "too short", "lengthen", "longer", "larger", "bigger")
	return change != 0 && (tooLarge == tooSmall || tooLarge == (change < 0))
}

// blank says how long the next blank is, or by how much it changes where the length
// of the trial's isn't told in mm.
func (t trialTold) blank(change float64) string {
	by := fmt.Sprintf("%.1f mm %s", math.Abs(change), whichWay(change, "longer", "shorter"))
	if c := t.cutLength(); c > 0 {
		return fmt.Sprintf("%.1f mm long, which is %s than your %s", c+change, by, plain(c))
	}
	return by + " than the trial's"
}

// cutLength is how long the trial's strip was in mm, 0 where that is not told: a short
// bare figure may be in inches.
func (t trialTold) cutLength() float64 {
	const shortest = 12
	if c := t.cut; c != nil && (c.measure == length || c.measure == bare && c.value >= shortest) {
		return c.value
	}
	if s := t.strip(); s != nil && t.cut == nil && s.sides[0] >= shortest {
		return s.sides[0]
	}
	return 0
}

// strip is the one size of a message that is so long and narrow that it is a strip's.
func (t trialTold) strip() (only *quantity) {
	const slender = 4
	for _, q := range t.m.found {
		if q.measure != size || len(q.sides) < 2 || q.sides[0] < slender*q.sides[1] {
			continue
		}
		if only != nil {
			return nil
		}
		only = q
	}
	return only
}

// rest says of the figures that the change doesn't follow from that they stay.
func (t trialTold) rest(from []*quantity) string {
	told := map[*quantity]bool{t.stone: true}
	if t.cutLength() > 0 {
		told[t.cut], told[t.strip()] = true, true
	}
	for _, q := range from {
		told[q] = true
	}
	if others := t.m.lengthsBut(told); others != "" {
		return " What else you gave (" + others + ") I left as it is."
	}
	return ""
}

// askOfOtherTrial asks what the next blank of a piece follows from that tune doesn't
// know.
func (m *message) askOfOtherTrial() (Reading, bool) {
	if !m.plainlyTrial() || m.figureCount() == 0 {
		return Reading{}, false
	}
	var said []string
	for _, q := range m.found {
		q.used = true
		said = append(said, strings.TrimSpace(q.typed(m)))
	}
	return Reading{Outcome: Question, Topic: trialTopic, Ask: fmt.Sprintf("I can correct the next blank, but I am not sure what your figures (%s) measure. Tell me what you cut, what the piece measures now, and what it should measure, as in \"I cut 58 mm, the ring came out size 52, I wanted 54\".", strings.Join(said, ", "))}, true
}
