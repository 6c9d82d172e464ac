package sentence

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
)

// A change may be said against the last piece: "a mm taller", "twice as wide",
// "half a size up", "bit thicker?", "no, the other way round".

// comparatives are the words of such a change, with what they change and in which
// direction.
var comparatives = map[string]struct {
	role string
	sign float64
}{
	"taller": {"height", 1}, "higher": {"height", 1}, "shorter": {"height", -1}, "lower": {"height", -1},
	"deeper": {"depth", 1}, "shallower": {"depth", -1},
	"thicker": {"thickness", 1}, "heavier": {"thickness", 1}, "chunkier": {"thickness", 1}, "beefier": {"thickness", 1}, "fatter": {"thickness", 1}, "thinner": {"thickness", -1}, "finer": {"thickness", -1}, "lighter": {"thickness", -1},
	"wider": {"width", 1}, "broader": {"width", 1}, "narrower": {"width", -1}, "slimmer": {"width", -1}, "skinnier": {"width", -1},
	"flatter": {"height", -1}, "longer": {"length", 1}, "bigger": {"size", 1}, "larger": {"size", 1}, "smaller": {"size", -1},
	"looser": {"fit", 1}, "roomier": {"fit", 1}, "tighter": {"fit", -1}, "snugger": {"fit", -1},
}

// roleNouns are the words for what "twice as" and "half the" multiply.
var roleNouns = map[string]string{"wide": "width", "width": "width", "tall": "height", "high": "height", "height": "height", "deep": "depth", "depth": "depth", "thick": "thickness", "thickness": "thickness", "big": "size", "size": "size", "diameter": "size", "long": "length", "length": "length"}

// comparedOptions are the options that a comparative changes, for each request.
// What the answer works out by itself has no option, and is asked about.
var comparedOptions = map[string]map[string]string{
	"collet":   {"height": "height", "depth": "depth", "thickness": "thickness", "size": "size", "width": "size"},
	"prongs":   {"height": "height", "depth": "depth", "thickness": "thickness", "size": "size", "width": "width"},
	"collar":   {"height": "height", "depth": "depth", "thickness": "thickness", "size": "size"},
	"bezel":    {"height": "dome", "depth": "dome", "thickness": "thickness", "size": "size", "width": "size"},
	"band":     {"width": "width", "thickness": "thickness", "size": "ring", "fit": "ring"},
	"resize":   {"width": "width", "thickness": "thickness", "size": "to", "fit": "to"},
	"dome":     {"height": "height", "depth": "height", "thickness": "thickness", "size": "size", "width": "size"},
	"jumpring": {"thickness": "wire", "size": "inside", "width": "inside"},
	"tubeset":  {"size": "size", "depth": "depth"},
	"halo":     {"size": "with", "thickness": "thickness"},
	"weigh":    {"thickness": "thickness", "length": "length"},
	"saddle":   {"height": "height", "depth": "depth", "size": "size"},
}

// optionWords are what options are called in a question.
var optionWords = map[string]string{"ring": "ring size", "to": "new size", "dome": "height of the stone", "wire": "wire", "inside": "inside diameter", "size": "size", "depth": "depth of the stone", "with": "small stones"}

func optionWord(option string) string {
	if w := optionWords[option]; w != "" {
		return w
	}
	return option
}

// relative changes a figure of the last piece by so much, or asks by how much.
func (m *message) relative(last Last) (Reading, bool) {
	if len(m.tokens) > 14 && !m.comparedBy() || m.of(ringSize) != nil || m.startsWith("why", "is", "are", "does", "do", "should", "how", "which", "would", "whats", "what is", "what makes") {
		return Reading{}, false
	}
	if r, ok := m.stepSize(last); ok {
		return r, true
	}
	if r, ok := m.multiplied(last); ok {
		return r, true
	}
	if r, ok := m.takenOff(last); ok {
		return r, true
	}
	for i, t := range m.tokens {
		c, is := comparatives[t.text]
		if !is {
			continue
		}
		option := comparedOptions[last.Request][c.role]
		if option == "" || !m.context.takes(last.Request, option) {
			return m.cantChange(last, t.text), m.pointsBack() || m.startsWith(goingOn...) || len(m.tokens) <= 3
		}
		if by := m.amount(i); by != nil {
			by.used = true
			return m.changedBy(last, option, c.sign*by.value, by), true
		}
		if q := m.of(bare, length, gauge, size, ringSize); q != nil {
			if q.role == "" {
				q.role = m.comparedRole(c.role, q, last) // "thicker, 1.8"
			}
			return Reading{}, false
		}
		if m.metal() != nil || len(m.meaning("outline:")) > 0 {
			return Reading{}, false
		}
		return m.byHowMuch(last, option, c.sign), true
	}
	return Reading{}, false
}

// comparedBy reports whether a comparative says at once by how much: "taller by 1 mm".
func (m *message) comparedBy() bool {
	for i, t := range m.tokens {
		if _, is := comparatives[t.text]; is && m.at(i+1).text == "by" && m.amount(i) != nil {
			return true
		}
	}
	return false
}

// byAmount changes a measure by as much as stands before its comparative, "make it 1 mm taller",
// or asks what it should be where the answer worked it out.
func (m *message) byAmount(last Last) (Reading, bool) {
	for i, t := range m.tokens {
		c, is := comparatives[t.text]
		q := m.amount(i)
		if is && q != nil && q.next == i && q.measure == length && len(m.found) == 1 && len(m.alloys) == 0 && comparedOptions[last.Request][c.role] != "" && !strings.Contains(m.typed, "?") && !m.says("if", "or", "than the", "than my", "came out", "turned out") {
			return m.relative(last)
		}
	}
	return Reading{}, false
}

// lessening and adding are verbs of a change by so much.
var (
	lessening = []string{"take", "took", "takes", "taking", "lose", "cut", "remove", "knock", "shave"}
	adding    = []string{"add", "adding", "put", "added"}
)

// addedTo reads "take away 1 mm of the height" and "add 2 mm to the width".
func (m *message) addedTo(last Last) (Reading, bool) {
	if len(m.found) != 1 {
		return Reading{}, false
	}
	q := m.found[0]
	role := roleNouns[m.at(q.next+2).text]
	option := comparedOptions[last.Request][role]
	if (q.measure != length && q.measure != bare) || m.at(q.next+1).text != "the" && m.at(q.next+1).text != "its" || option == "" || last.Options[option] == "" || !m.context.takes(last.Request, option) {
		return Reading{}, false
	}
	switch of := m.at(q.next).text; {
	case (of == "of" || of == "from") && m.saysOneBetween(max(0, q.first-3), q.first, lessening...):
		q.used = true
		return m.changedBy(last, option, -q.value, q), true
	case (of == "to" || of == "on") && m.saysOneBetween(max(0, q.first-3), q.first, adding...):
		q.used = true
		return m.changedBy(last, option, q.value, q), true
	}
	return Reading{}, false
}

// takenOff reads "take a mm off the width" and "shorter, take 1 mm off".
func (m *message) takenOff(last Last) (Reading, bool) {
	for _, q := range m.found {
		if q.measure != length && q.measure != bare || m.at(q.next).text != "off" {
			continue
		}
		role := roleNouns[m.at(q.next+1).text]
		if m.at(q.next+1).text == "the" || m.at(q.next+1).text == "its" {
			role = roleNouns[m.at(q.next+2).text]
		}
		for _, t := range m.tokens[:q.first] {
			if c, is := comparatives[t.text]; is && c.sign < 0 && role == "" {
				role = c.role
			}
		}
		if option := comparedOptions[last.Request][role]; option != "" && m.context.takes(last.Request, option) {
			q.used = true
			return m.changedBy(last, option, -q.value, q), true
		}
	}
	return Reading{}, false
}

// comparedRole is the role of a figure behind a comparative: the comparative's own, or
// the thickness where "slimmer, 1.6" is far from the width and near to that.
func (m *message) comparedRole(role string, q *quantity, last Last) string {
	if role == "width" && q.likest("thickness", last) {
		return "thickness"
	}
	return role
}

// amount is the figure right before a comparative, or after the "by" that follows it.
func (m *message) amount(i int) *quantity {
	for _, q := range m.found {
		if q.measure != bare && q.measure != length {
			continue
		}
		if q.next == i || m.at(q.first-1).text == "by" && (q.first == i+2 || q.next < i) {
			return q
		}
	}
	return nil
}

// lengthOf is an option's figure in mm; 0 where it is none.
func lengthOf(shown string) float64 {
	if n, is := gaugeNumber(shown); is {
		return gaugeMM(n)
	}
	if strings.HasSuffix(shown, "in") || strings.HasSuffix(shown, `"`) {
		return 25.4 * parse(shown)
	}
	if strings.HasSuffix(shown, "cm") {
		return 10 * parse(shown)
	}
	return parse(shown)
}

// inMM writes a length for an option; thicknesses need their unit.
func inMM(option string, mm float64) string {
	shown := plain(math.Round(100*mm) / 100)
	if option == "thickness" || option == "wire" {
		return shown + " mm"
	}
	return shown
}

// changedBy adds so many mm to an option.
func (m *message) changedBy(last Last, option string, by float64, q *quantity) Reading {
	now := lengthOf(last.Options[option])
	d := m.draftWith(last.Request, last.Options)
	typed := strings.TrimSpace(q.typed(m))
	switch {
	case now == 0:
		d.question(option, fmt.Sprintf("The last answer worked the %s out by itself. What should it be, in mm?", optionWord(option)))
	case option == "size" && strings.Contains(last.Options["size"], "x"), option == "dome" && last.Request == "bezel" && !m.says("stone", "cab", "dome", "deeper", "shallower"), now+by <= 0, option == "ring", option == "to":
		d.question(option, fmt.Sprintf("The %s is %s. What should it be instead of that, with the %s?", optionWord(option), last.Options[option], typed))
	case math.Abs(by) >= 0.8*now && now > 0 && q.measure == bare:
		d.question(option, fmt.Sprintf("Is the %s to be %s, or %s more than now?", optionWord(option), typed, typed), d.with(inMM(option, math.Abs(by))+" in all", option, inMM(option, math.Abs(by))), d.with(inMM(option, now+by), option, inMM(option, now+by)))
	default:
		d.say(option, inMM(option, now+by))
		d.note("%s is %s with the %s", optionWord(option), d.options[option], typed)
	}
	return m.changedFrom(last, d)
}

// steps are usual steps of a figure, in mm.
var steps = map[string][]float64{"thickness": {0.1, 0.2, 0.3}, "wire": {0.1, 0.2, 0.4}, "width": {0.5, 1, 2}, "height": {0.5, 1, 1.5}, "depth": {0.2, 0.5, 1}, "dome": {0.5, 1, 1.5}, "size": {0.5, 1, 2}, "inside": {0.5, 1, 2}, "length": {5, 10, 20}, "with": {0.1, 0.2, 0.3}}

// byHowMuch asks for the figure that a comparative without one means.
func (m *message) byHowMuch(last Last, option string, sign float64) Reading {
	d := m.draftWith(last.Request, last.Options)
	shown := last.Options[option]
	now := lengthOf(shown)
	var choices []Choice
	n, isGauge := gaugeNumber(shown)
	for _, step := range steps[option] {
		value := inMM(option, now+sign*step)
		if isGauge {
			value = plain(n-sign*2*math.Round(step*10)) + "ga" // sheet is sold in even numbers
		}
		if now > 0 && now+sign*step > 0 && !strings.Contains(shown, "x") {
			choices = append(choices, d.with(value, option, value))
		}
	}
	if option == "ring" || option == "to" {
		choices = nil
		for _, step := range []float64{0.5, 1} {
			if next, ok := nextSize(d.options["system"], shown, sign*step); ok {
				choices = append(choices, d.with("size "+next, option, next))
			}
		}
	}
	if now == 0 && shown == "" {
		d.question(option, fmt.Sprintf("The last answer worked the %s out by itself. What should it be, in mm?", optionWord(option)))
	} else {
		d.question(option, fmt.Sprintf("The %s is %s. What should it be?", optionWord(option), shown), choices...)
	}
	return m.changedFrom(last, d)
}

// multiplied reads "twice as wide", "double the width", "half the height".
func (m *message) multiplied(last Last) (Reading, bool) {
	factor, at := 0.0, 0
	for i, t := range m.tokens {
		next := m.at(i + 1).text
		switch {
		case (t.text == "twice" || t.text == "double") && (next == "as" || next == "the"):
			factor, at = 2, i+2
		case t.text == "half" && (next == "as" || next == "the"):
			factor, at = 0.5, i+2
		}
	}
	option := comparedOptions[last.Request][roleNouns[m.at(at).text]]
	now := lengthOf(last.Options[option])
	if factor == 0 || option == "" || now == 0 || option == "ring" || option == "to" || strings.Contains(last.Options[option], "x") || len(m.alloys) > 0 {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	d.say(option, inMM(option, factor*now))
	for _, q := range m.found {
		q.used = q.first < at+1 && q.next > at-3
	}
	return m.changedFrom(last, d), true
}

// changedFrom ends a draft that a follow-up made of the last piece.
func (m *message) changedFrom(last Last, d *draft) Reading {
	d.dropExcluded(last.Options)
	d.noRoundOfTwoSides()
	r := d.reading()
	r.Changed = append(r.Changed, changesOf(last.Options, d.options)...)
	return r
}

// noRoundOfTwoSides makes an oval of a round stone that measures more one way than the other.
func (d *draft) noRoundOfTwoSides() {
	if needsStone[d.request] && d.options["outline"] == "round" && strings.Contains(d.options["size"], "x") && unequalSides(d.options["size"]) {
		d.say("outline", "oval")
		d.note("a stone that measures more one way than the other is read as an oval")
	}
}

// dropExcluded leaves out what a piece had before and what its new options rule out: a
// lean where a block's angle is given now.
func (d *draft) dropExcluded(before map[string]string) {
	if d.m.context.Excludes == nil {
		return
	}
	for _, option := range slices.Sorted(maps.Keys(d.options)) {
		if d.options[option] == before[option] {
			continue
		}
		for kept, was := range before {
			if kept != option && d.options[kept] == was && d.m.context.Excludes(d.request, option, kept) {
				delete(d.options, kept)
			}
		}
	}
}

// changesOf says what changed between the options of a piece: "included 17", "no lean".
func changesOf(before, now map[string]string) (changed []string) {
	for _, name := range slices.Sorted(maps.Keys(now)) {
		if now[name] != before[name] {
			changed = append(changed, name+" "+now[name])
		}
	}
	for _, name := range slices.Sorted(maps.Keys(before)) {
		if _, still := now[name]; !still {
			changed = append(changed, "no "+name)
		}
	}
	return changed
}

// sizeSteps are words for so many ring sizes.
var sizeSteps = []struct {
	words string
	by    float64
}{
	{"one and a half sizes", 1.5}, {"1 1/2 sizes", 1.5}, {"1.5 sizes", 1.5}, {"half a size", 0.5}, {"a half size", 0.5}, {"half size", 0.5}, {"1/2 a size", 0.5}, {"1/2 size", 0.5}, {"0.5 size", 0.5}, {"a quarter size", 0.25}, {"quarter size", 0.25},
	{"two sizes", 2}, {"2 sizes", 2}, {"three sizes", 3}, {"3 sizes", 3}, {"a full size", 1}, {"one size", 1}, {"1 size", 1}, {"a size", 1}, {"size", 1},
}

// stepSize reads "half a size bigger", "up a size", "one size down".
func (m *message) stepSize(last Last) (Reading, bool) {
	option := map[string]string{"band": "ring", "resize": "to"}[last.Request]
	sign := 0.0
	switch {
	case m.says("bigger", "larger", "up"):
		sign = 1
	case m.says("smaller", "down"):
		sign = -1
	}
	if option == "" || sign == 0 || !m.says("size", "sizes") {
		return Reading{}, false
	}
	text := " " + m.text() + " "
	for _, s := range sizeSteps {
		if !saysWhole(text, s.words) {
			continue
		}
		shown, system := last.Options[option], last.Options["system"]
		if option == "to" {
			system, shown, _ = strings.Cut(shown, " ")
		}
		next, ok := nextSize(system, shown, sign*s.by)
		if !ok {
			return Reading{}, false
		}
		if option == "to" {
			next = system + " " + next
		}
		for _, q := range m.found {
			q.used = true
		}
		d := m.draftWith(last.Request, last.Options)
		d.say(option, next)
		return m.changedFrom(last, d), true
	}
	return Reading{}, false
}

// nextSize is a ring size so many sizes further on: 7 and a half becomes 7 1/2, UK N
// and a half N 1/2.
func nextSize(system, shown string, by float64) (string, bool) {
	if shown == "" || 4*by != math.Trunc(4*by) {
		return "", false
	}
	if letter(shown) {
		at := float64(shown[0]-'A') + by
		if strings.HasSuffix(shown, "1/2") {
			at += 0.5
		}
		if at < 0 || at > 25.5 || 2*at != math.Trunc(2*at) || len(shown) > 1 && !strings.HasSuffix(shown, " 1/2") {
			return "", false
		}
		next := string(rune('A' + int(at)))
		if at != math.Trunc(at) {
			next += " 1/2"
		}
		return next, true
	}
	if system != "us" && system != "" {
		return "", false
	}
	v := parse(shown) + by
	if v < 0 || v > 16 {
		return "", false
	}
	return plain(v), true
}

// cantChange says which figures a request has, where it has none of that word.
func (m *message) cantChange(last Last, word string) Reading {
	return Reading{Outcome: Question, Request: last.Request, Options: last.Options, Ask: fmt.Sprintf("I can't make a %s %s: it has no figure of yours for that. I can change its %s.", nameOf(last), word, changeableIn(last.Request))}
}

// changeableIn lists what of a request can be changed, in words.
func changeableIn(request string) string {
	options := map[string]string{
		"collet": "stone, depth, height, thickness, lean and metal", "collar": "stone, depth, height, thickness, block and metal", "prongs": "stone, number and width of the prongs, thickness and metal",
		"bezel": "stone, the stone's height, strip thickness, bearing and metal", "band": "size, width, thickness, profile and metal", "resize": "sizes, width, thickness, profile and metal",
		"dome": "diameter, height, thickness and metal", "jumpring": "wire, inside diameter, count, saw cut and metal", "tubeset": "stone, tube, count and metal", "halo": "stones, gap, count and metal",
		"weigh": "sizes, thickness and metal", "melt": "wax, metal, button and sprue", "heat": "metal, solder and number of joints", "gauge": "thickness", "saddle": "ring, setting and metal",
	}
	if o := options[request]; o != "" {
		return o
	}
	return "figures and metal"
}

// opposite turns the last piece's two figures round: "no, the other way", "swap
// those".
func (m *message) opposite(last Last) (Reading, bool) {
	if !m.says("swap", "swapped", "other way", "wrong way round", "wrong way around", "backwards", "back to front", "vice versa", "reversed", "reverse", "mixed up", "muddled", "switched round") {
		return Reading{}, false
	}
	a, b := "", ""
	switch last.Request {
	case "band":
		a, b = "width", "thickness"
	case "resize":
		a, b = "from", "to"
	case "match":
		return m.turned(last)
	}
	if last.Options[a] == "" || last.Options[b] == "" {
		return Reading{}, false
	}
	turned := maps.Clone(last.Options)
	turned[a], turned[b] = last.Options[b], last.Options[a]
	if last.Request == "band" {
		turned["width"], turned["thickness"] = inMM("width", lengthOf(last.Options["thickness"])), inMM("thickness", lengthOf(last.Options["width"]))
	}
	d := m.draftWith(last.Request, turned)
	if last.Request == "resize" {
		if m.sizeLetters(); !m.sameSizes(last) {
			return Reading{}, false
		}
		return m.changedFrom(last, d), true
	}
	if len(m.found) == 0 {
		return m.changedFrom(last, d), true
	}
	m.bindRoles()
	r, ok := m.change(Last{last.Request, turned})
	if !ok {
		r = m.changedFrom(last, d)
	}
	return r, true
}

// sameSizes reports whether a message names no ring size but those of the last
// resizing, and takes them.
func (m *message) sameSizes(last Last) bool {
	_, from, _ := strings.Cut(last.Options["from"], " ")
	_, to, _ := strings.Cut(last.Options["to"], " ")
	for _, q := range m.found {
		if q.shown != from && q.shown != to {
			return false
		}
	}
	for _, q := range m.found {
		q.used = true
	}
	return true
}

// turned turns an offcut or a strip round.
func (m *message) turned(last Last) (Reading, bool) {
	for _, option := range []string{"offcut", "strip"} {
		a, b, ok := strings.Cut(last.Options[option], "x")
		if !ok || len(m.found) > 0 {
			continue
		}
		d := m.draftWith(last.Request, last.Options)
		d.say(option, b+"x"+a)
		return m.changedFrom(last, d), true
	}
	return Reading{}, false
}

// roleWords are the words for figures of a piece, each with its role.
var roleWords = map[string]string{"depth": "depth", "deep": "depth", "height": "height", "high": "height", "tall": "height", "width": "width", "wide": "width", "thickness": "thickness", "thick": "thickness", "diameter": "size", "across": "size"}

// meantRole gives a figure of the last piece the role that was meant: "sorry, I
// meant depth, not height".
func (m *message) meantRole(last Last) (Reading, bool) {
	if len(m.found)+len(m.alloys) > 0 || len(m.tokens) > 10 || !m.says("meant", "mean", "sorry", "not", "should be", "actually", "oops", "rather than") {
		return Reading{}, false
	}
	to, from := "", ""
	for i, t := range m.tokens {
		role := roleWords[t.text]
		before := m.at(i - 1).text
		switch {
		case role == "":
		case before == "not" || before == "than":
			from = comparedOptions[last.Request][role]
		case to == "":
			to = comparedOptions[last.Request][role]
		}
	}
	if to == "" || from == to {
		return Reading{}, false
	}
	if from == "" {
		for _, option := range []string{"height", "depth", "dome", "width"} {
			if option != to && last.Options[option] != "" && last.Options[to] == "" {
				from = option
			}
		}
	}
	d := m.draftWith(last.Request, last.Options)
	if from == "" || last.Options[from] == "" {
		d.question(to, fmt.Sprintf("What is the %s, in mm?", optionWord(to)))
		return m.changedFrom(last, d), true
	}
	value := lengthOf(last.Options[from])
	delete(d.options, from)
	d.say(to, inMM(to, value))
	r := m.changedFrom(last, d)
	r.Changed = append(r.Changed, "no "+from)
	return r, true
}

// otherTable takes the last piece's gauge number from the table that was meant:
// "swg, not awg".
func (m *message) otherTable(last Last) (Reading, bool) {
	option := "thickness"
	if last.Request == "jumpring" {
		option = "wire"
	}
	n, isGauge := gaugeNumber(last.Options[option])
	if !isGauge || len(m.found)+len(m.alloys) > 0 || len(m.tokens) > 10 {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	swg, awg := m.says("swg", "imperial gauge", "british gauge", "standard wire gauge"), m.says("awg", "american", "b and s", "brown and sharpe", "us gauge")
	for i, t := range m.tokens {
		denied := m.denied(i)
		swg, awg = swg && !(denied && t.text == "swg"), awg && !(denied && (t.text == "awg" || t.text == "american"))
	}
	switch {
	case swg && !awg:
		mm, ok := m.swgOf(n)
		if !ok {
			return Reading{}, false
		}
		d.say(option, plain(mm)+" mm")
		d.note("%s by the British table (SWG) is %s mm", last.Options[option], plain(mm))
	case awg && !swg:
		d.note("gauge numbers are read by the American table (B&S, AWG) already")
	default:
		return Reading{}, false
	}
	return m.changedFrom(last, d), true
}
