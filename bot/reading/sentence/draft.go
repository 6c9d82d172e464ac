package sentence

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// draft is a request in the making.
type draft struct {
	m       *message
	request string
	options map[string]string
	notes   []string
	// ask, if set, is a question that must be answered first.
	ask     string
	missing string
	choices []Choice
	// unplaced is the figure that the question is about, as it was typed.
	unplaced string
	// told are figures that the asker has worked out.
	told []Told
	// places are options that a number left over may be, with the word for a
	// choice, likeliest first.
	places []place
}

// place is an option that a number may belong to.
type place struct {
	option, says string
	low, high    float64 // mm, of numbers that it is likely to be
}

func (m *message) draft(request string) *draft {
	options := map[string]string{}
	maps.Copy(options, m.inHand)
	return &draft{m: m, request: request, options: options}
}

// draftWith is the draft of a request that begins with options that are known, such as those
// of the last piece.
func (m *message) draftWith(request string, options map[string]string) *draft {
	d := m.draft(request)
	maps.Copy(d.options, options)
	return d
}

// set takes a quantity as an option.
func (d *draft) set(option string, q *quantity) {
	if q == nil {
		return
	}
	for _, before := range d.m.found { // what loses its place is asked about
		if before != q && before.used && before.option == option {
			before.used, before.option = false, ""
		}
	}
	q.used, q.option = true, option
	shown := d.shown(option, q)
	if option == "tubesize" && q.measure == size && len(q.sides) == 2 && min(q.sides[0], q.sides[1]) >= 0.5*max(q.sides[0], q.sides[1]) {
		t := tubeOfSides(q.sides[0], q.sides[1])
		shown = shownTube(t)
		d.note("%s is read as outside x inside, a wall of %s mm", strings.TrimSpace(q.typed(d.m)), plain(round4(t.WallMM)))
	}
	d.options[option] = shown
	if option == "button" && q.measure == bare && shown != q.shown {
		d.note("a button of %s is taken in grams; say %s%% if it is a share of the casting", q.shown, q.shown)
	}
}

// shown writes a quantity for an option. Thicknesses need their unit, because a
// bare whole number is a gauge there.
func (d *draft) shown(option string, q *quantity) string {
	thick := option == "thickness" || option == "stepthick" || option == "platethick" || option == "gauge"
	if q.measure == bare && thick {
		return q.shown + " mm"
	}
	if option == "button" && q.measure == bare && d.request == "melt" && d.options["button"] == "" {
		return q.shown + " g" // as the wax is told
	}
	if q.measure == gauge && !thick && option != "wire" {
		return plain(gaugeMM(q.value))
	}
	return q.shown
}

// say sets an option to a word.
func (d *draft) say(option, value string) { d.options[option] = value }

func (d *draft) note(format string, args ...any) {
	d.notes = append(d.notes, fmt.Sprintf(format, args...))
}

func (d *draft) has(option string) bool { _, ok := d.options[option]; return ok }

func (d *draft) question(missing, ask string, choices ...Choice) {
	if d.ask == "" {
		d.ask, d.missing, d.choices = ask, missing, choices
	}
}

// with is a choice: this draft with options changed.
func (d *draft) with(label string, changes ...string) Choice {
	o := maps.Clone(d.options)
	for i := 0; i+1 < len(changes); i += 2 {
		o[changes[i]] = changes[i+1]
	}
	return Choice{Label: label, Request: d.request, Options: o}
}

// alloy takes the metal of the message. Where it may be several, the usual one
// is taken and said, unless ask tells that it matters here.
func (d *draft) alloy(option string, ask bool) {
	a := d.m.metal()
	if a == nil {
		return
	}
	a.used = true
	switch {
	case len(a.among) > 1 && slices.Contains(a.among, d.options[option]): // "how much gold" after a piece of 9 k
	case ask && len(a.among) > 1 && (a.says != "silver" || d.silverAsked()) && !d.whiteWeighed(a):
		d.question(option, fmt.Sprintf("Which %s do you mean?", a.says), d.alloyChoices(option, a)...)
	case a.key != "":
		d.say(option, a.key)
		if len(a.among) > 1 {
			d.note("%s is read as %s; name another if yours is not that", a.says, alloyName(a.key))
		}
	case len(a.among) > 0:
		key := usual(a.among)
		d.say(option, key)
		d.note("%s is read as %s; name another if yours is not that", a.says, alloyName(key))
	default:
		d.question(option, fmt.Sprintf("I have no figures for %s. Which of these is nearest?", a.says), d.alloyChoices(option, a)...)
	}
}

// silverAsked reports whether it is asked which silver is to be heated: of a short question,
// which tells nothing else, or where the message asks that itself.
func (d *draft) silverAsked() bool {
	const short = 6
	return d.request == "heat" && (d.m.words() < short || d.m.says("which silver"))
}

// whiteWeighed reports whether only the weight of a white gold is wanted, which its two kinds
// hardly differ in.
func (d *draft) whiteWeighed(a *metal) bool {
	return (d.request == "melt" || d.request == "weigh") && a.likeliestKey() != "" && strings.Contains(a.says, "white")
}

func (d *draft) alloyChoices(option string, a *metal) []Choice {
	keys := a.among
	if len(keys) == 0 {
		keys = []string{"sterling", "copper", "18k-yellow"}
		if strings.Contains(a.says, "k") {
			keys = []string{"14k-yellow", "18k-yellow", "9k-yellow"}
		}
	}
	keys = spread(keys)
	var choices []Choice
	for _, k := range keys[:min(3, len(keys))] {
		choices = append(choices, d.with(alloyName(k), option, k))
	}
	return choices
}

// withoutFigures are requests in which numbers in words mean nothing.
var withoutFigures = []string{"daybook", "trouble", "cautions", "heat"}

// left asks about a number that has found no place. Each choice puts it where
// the request could have it.
func (d *draft) left() {
	if !slices.Contains(withoutFigures, d.request) {
		d.m.numbersInWords()
	}
	d.tellOwnResults()
	d.noteCounts()
	d.noteReach()
	d.saidAgain()
	d.placeLikelyInChoices()
	d.otherMetals()
	for _, q := range d.m.unused() {
		if q.measure == count && q.thing == "" || d.ask != "" && d.missing == "" {
			continue
		}
		var choices []Choice
		for _, p := range d.places {
			if d.has(p.option) || !d.m.context.takes(d.request, p.option) || !fits(p, q) || len(choices) == 3 {
				continue
			}
			choices = append(choices, d.with(fmt.Sprintf("%s is the %s", q.typed(d.m), p.says), p.option, d.shown(p.option, q)))
		}
		what := strings.TrimSpace(q.typed(d.m))
		d.unplaced = what
		d.ask, d.missing, d.choices = fmt.Sprintf("What is the %s?", what), "", choices
		if len(choices) > 0 && len(choices) < 3 {
			d.choices = append(choices, d.with("leave it out"))
		}
		if len(choices) == 0 {
			d.ask = fmt.Sprintf("I don't know what the %s is for. Say it another way, or leave it out.", what)
			d.choices = []Choice{d.with("leave it out")}
		}
		return
	}
}

// placeLikelyInChoices places what is left, and gives it to the choices of a question that was
// made before: they are of the same piece.
func (d *draft) placeLikelyInChoices() {
	known := maps.Clone(d.options)
	d.placeLikely()
	for option, value := range d.options {
		if _, was := known[option]; was {
			continue
		}
		for _, c := range d.choices {
			if _, has := c.Options[option]; !has && c.Request == d.request {
				c.Options[option] = value
			}
		}
	}
}

// noteReach says what is done with how far a tool goes, "my block goes up to 50 mm".
func (d *draft) noteReach() {
	for _, q := range d.m.unused() {
		if d.m.between(max(0, q.first-2), q.first) == "up to" && d.m.saysOneBetween(max(0, q.first-4), q.first-2, "goes", "go", "going", "reaches", "only", "works") {
			q.used = true
			d.note("compare the piece with your %s", strings.TrimSpace(q.typed(d.m)))
			continue
		}
		lead := d.m.between(max(0, q.first-2), q.first)
		if (lead == "goes from" || lead == "go from" || lead == "runs from") && d.m.at(q.next).text == "to" { // "my block goes from 5 to 14"
			q.used = true
			told := strings.TrimSpace(q.typed(d.m))
			for _, end := range d.m.unused() {
				if end.first == q.next+1 {
					end.used = true
					told += " to " + strings.TrimSpace(end.typed(d.m))
				}
			}
			d.note("%s is not used: compare the piece with it", told)
			continue
		}
		if last := q.next >= len(d.m.tokens)-1; last && (q.measure == bare || q.measure == length) && (lead == "is it" || lead == "i get" || lead == "i got" || lead == "get about" || lead == "make it" && d.m.context.Last == nil) {
			q.used = true
			d.note("compare the figure with your %s", strings.TrimSpace(q.typed(d.m)))
		}
	}
}

// otherMetals asks which metal is meant where two are named. One that stands
// after "not" or "instead of" is none of them.
func (d *draft) otherMetals() {
	if d.request == "melt" {
		d.meltedInOther()
		return
	}
	if !d.m.context.takes(d.request, "alloy") {
		return
	}
	d.swappedMetal()
	both := len(d.m.alloys) > 2 && d.m.says("=all", "each") || d.m.says("to start", "to start with", "to practise", "to practice", "for practice", "first in copper", "copper first", "for both", "of both", "in both", "both metals", "then same in", "then the same in", "same again in")
	for _, a := range d.m.alloys {
		if a.used {
			continue
		}
		a.used = true
		if both && a.key != "" {
			d.note("in %s it is cut the same; only its mass differs", alloyName(a.key))
			continue
		}
		before := d.m.at(a.first - 1).text
		key := a.likeliestKey()
		if before == "not" || before == "of" || before == "than" || key == "" || key == d.options["alloy"] || contains(a.among, d.options["alloy"]) || d.options["alloy"] == "" {
			continue
		}
		if cutAlike[d.request] && d.m.ofOnePiece(a) {
			d.note("it is cut the same in %s; only its mass and its spring back differ", alloyName(key))
			continue
		}
		if d.request == "weigh" && d.m.says("same", "compare", "comparison", "versus", "vs", "what if", "if it was", "if it were", "an what", "n what", "and in", "in copper and in") && !d.m.says("once in") {
			d.note("in %s it weighs %.2f times as much", alloyName(key), alloyOf(key).DensityGPerCM3/alloyOf(d.options["alloy"]).DensityGPerCM3)
			continue
		}
		d.question("alloy", "Two metals are named; which is this piece made of?", d.with(alloyName(d.options["alloy"]), "alloy", d.options["alloy"]), d.with(alloyName(key), "alloy", key))
		return
	}
}

// meltedInOther says what a wax takes of the other metals that are named.
func (d *draft) meltedInOther() {
	if !d.has("wax") || d.options["alloy"] == "" {
		return
	}
	for _, a := range d.m.alloys {
		if key := a.likeliestKey(); key != "" && key != d.options["alloy"] && key != d.options["from"] && d.m.at(a.first-1).text != "not" {
			d.note("in %s the same wax takes %.2f times as many grams as in %s", alloyName(key), alloyOf(key).DensityGPerCM3/alloyOf(d.options["alloy"]).DensityGPerCM3, alloyName(d.options["alloy"]))
		}
	}
}

// cutAlike are pieces whose blank is the same in any metal.
var cutAlike = map[string]bool{"collet": true, "collar": true, "prongs": true, "bezel": true, "dome": true}

// ofOnePiece reports whether a metal is told beside another and not as a part of what is made:
// "two tone, the top half gold". Metals side by side may be one: "palladium white gold".
func (m *message) ofOnePiece(a *metal) bool {
	const apart = 2
	return !m.says("half", "two tone", "two metals", "inlay", "outside", "inside") && !slices.ContainsFunc(m.alloys, func(other *metal) bool {
		return other != a && max(a.first-other.next, other.first-a.next) < apart
	})
}

// swappedMetal takes the second metal of "if I swap silver for 18 ct": the first is
// what the piece was made of until now.
func (d *draft) swappedMetal() {
	if len(d.m.alloys) != 2 {
		return
	}
	old, next := d.m.alloys[0], d.m.alloys[1]
	lead, gap := d.m.at(old.first-1).text, d.m.between(old.next, next.first)
	swaps := (lead == "swap" || lead == "swapped" || lead == "swapping" || lead == "exchange" || lead == "replace") && (gap == "for" || gap == "with" || gap == "by")
	changes := lead == "from" && gap == "to" && d.m.says("change", "changed", "changing", "switch", "switched", "go", "going", "moved")
	if key := next.likeliestKey(); key != "" && (swaps || changes) {
		old.used, next.used = true, true
		d.say("alloy", key)
		d.note("in %s it is cut the same; only its mass and its spring back differ", old.says)
	}
}

// noteCounts says what is done with a number of pieces, of which a setting's
// answer knows nothing.
func (d *draft) noteCounts() {
	for _, q := range d.m.unused() {
		before := d.m.at(q.first - 1).text
		if d.takesCount(q) {
			d.set("count", q)
			continue
		}
		switch {
		case d.m.standsForNoun(q), d.saidTwice(q), q.late && d.request == "weigh" && plain(q.value) == d.options["count"]:
			q.used = true
		case d.request == "weigh" && d.m.isBeside(q, "density", "gravity", "g/cm3"):
			q.used = true
			d.note("the density taken is in the answer; compare it with your %s", q.shown)
		case d.request == "weigh" && d.has("length") && q.measure == length && d.m.says("bracelet", "necklace", "chain", "cuban"):
			q.used = true
			d.note("how long it ends up, %s, changes nothing in the weight of the wire", strings.TrimSpace(q.typed(d.m)))
		case d.request == "weigh" && d.m.at(q.next-1).text == "%" && d.m.isBeside(q, "waste", "scrap", "loss", "offcuts"):
			q.used = true
			d.note("add the %s that you allow for waste", strings.TrimSpace(q.typed(d.m)))
		case (before == "got" || before == "get" || before == "makes" || before == "say") && d.m.says("right", "correct", "is that ok", "sound ok"):
			d.tell(q)
		case (q.measure == length || q.measure == bare) && d.m.asksIfRight() && q.value > 5:
			d.tell(q)
		case q.measure == money:
			q.used = true
			d.note("costs are reckoned from your guild's configuration; multiply the mass by your %s", strings.TrimSpace(q.typed(d.m)))
		case (before == "no" || before == "number" || before == "#") && toolWords[d.m.at(q.first-2).text]:
			q.used = true
			d.note("the %s number %s is not needed for this", d.m.at(q.first-2).text, q.shown)
		case q.measure == count && (q.thing == "joints" || q.thing == "holes" || q.thing == "times" || q.thing == "coats") && d.request != "heat":
			q.used = true
			d.note("%s is not needed for this", strings.TrimSpace(q.typed(d.m)))
		case q.measure == count && q.thing == "makers" && d.request != "kit":
			q.used = true
			d.note("worked out for one; you said %s", strings.TrimSpace(q.typed(d.m)))
		case q.measure == count && q.thing == "decimals":
			q.used = true
			d.note("figures are given to 0.01 mm, as fine as a bench can use")
		case q.measure == count && (q.thing == "settings" || q.thing == "stones" || q.thing == "pieces" || q.thing == "rings"):
			q.used = true
			d.note("worked out for one; you said %s", strings.TrimSpace(q.typed(d.m)))
		case q.measure == bare && d.m.at(q.next).text == "of" && (d.m.at(q.next+1).text == "them" || d.m.at(q.next+1).text == "em" || d.m.at(q.next+1).text == "those" || d.m.at(q.next+1).text == "these"):
			q.used = true
			d.note("worked out for one; you said %s", strings.TrimSpace(q.typed(d.m)))
		case q.measure == temper && cutAlike[d.request]:
			q.used = true
			d.note("%s is not needed for this", strings.TrimSpace(q.typed(d.m)))
		case before == "not":
			q.used = true
			d.note("%s is left out, since you said not that", strings.TrimSpace(q.typed(d.m)))
		}
	}
}

// standsForNoun reports whether "one" is no number: "the four claws one where you cut the Vs".
func (m *message) standsForNoun(q *quantity) bool {
	return q.measure == bare && m.at(q.first).text == "one" && q.next == q.first+1 && contains([]string{"where", "that", "which", "with", "like", "we", "you", "they"}, m.at(q.next).text)
}

// asksIfRight reports whether a figure is asked to be checked.
func (m *message) asksIfRight() bool {
	return m.says("is she right", "is he right", "are they right", "is that right", "is this right", "is it right", "does that look right", "does it look right", "does that sound right", "am i right", "is that correct", "have i got it right", "right or wrong")
}

// takesCount reports whether a number counts pieces of a request that can make
// several.
func (d *draft) takesCount(q *quantity) bool {
	if d.has("count") || !d.m.context.takes(d.request, "count") || d.request == "collar" || d.request == "prongs" || d.request == "halo" {
		return false
	}
	if lead := d.m.at(q.first - 1).text; lead == "made" || lead == "ruined" || lead == "spoilt" || lead == "wasted" {
		return false // "I've now made four bezels that don't fit"
	}
	if d.request == "bezel" && q.thing == "pieces" || d.m.at(q.next).text == "or" {
		return false // "in two pieces or one"
	}
	ofThem := q.measure == bare && d.m.at(q.next).text == "of" && contains([]string{"them", "em", "those", "these"}, d.m.at(q.next+1).text)
	return ofThem || q.measure == count && contains([]string{"settings", "stones", "pieces", "rings", "jump rings"}, q.thing)
}

// saidTwice reports whether a number is one that has its place already.
func (d *draft) saidTwice(q *quantity) bool {
	for _, other := range d.m.found {
		alike := other.measure == q.measure || q.measure == bare && other.measure == length
		if other != q && other.used && alike && other.value == q.value && (q.measure != ringSize || other.shown == q.shown) {
			return true
		}
		if other.measure == size && q.measure == length {
			for _, side := range other.sides {
				if other.used && side == q.value {
					return true
				}
			}
		}
	}
	return false
}

func fits(p place, q *quantity) bool {
	if q.measure == length && (p.option == "lean" || p.option == "number" || p.option == "count") {
		return false
	}
	switch q.measure {
	case bare, length:
		return p.high == 0 || q.value >= p.low && q.value <= p.high
	case gauge:
		return p.option == "thickness"
	case angle:
		return p.option == "lean" || p.option == "included"
	}
	return false
}

// typed is the quantity as the maker wrote it.
func (q *quantity) typed(m *message) string {
	var b strings.Builder
	for i := q.first; i < q.next; i++ {
		if i > q.first && !m.at(i).glued {
			b.WriteByte(' ')
		}
		b.WriteString(m.at(i).text)
	}
	return b.String()
}

// reading ends the draft.
func (d *draft) reading() Reading {
	if d.m.has("units:inch") && d.request != "bench" && d.request != "gauge" && d.m.context.takes(d.request, "units") {
		d.say("units", "inch")
	}
	d.notes = append(d.notes, d.m.assumed...)
	if needsStone[d.request] && d.m.says("twice", "two of them", "a pair of", "one for each") && !d.has("count") {
		d.note("worked out for one piece; cut as many as you need")
	}
	d.left()
	d.conflicts()
	if d.ask != "" {
		return Reading{Outcome: Question, Request: d.request, Options: d.options, Ask: d.ask, Missing: d.missing, Unplaced: d.unplaced, Choices: d.choices, Notes: d.notes}
	}
	return Reading{Outcome: Request, Request: d.request, Options: d.options, Notes: d.notes, Told: d.told}
}
