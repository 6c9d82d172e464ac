package sentence

import (
	"fmt"
	"slices"
	"strings"
)

// conflicts asks where the message says two things and the piece can have one of
// them, or names a form that the request does not know. What would be cut
// otherwise is asked about; what only looks otherwise is told.
func (d *draft) conflicts() {
	if d.request == "melt" || d.request == "match" {
		d.endsOfRange()
	}
	switch d.request {
	case "heat", "cautions", "trouble", "daybook", "bench", "help", "gauge", "melt", "tune", "match", "kit":
		return
	}
	d.endsOfRange()
	d.twoOutlines()
	d.strangeOutline()
	d.strangeForm()
	d.straightFaceted()
}

// straightFaceted asks what a straight wall round a faceted stone is: the collet
// that does not lean, or a cabochon's bezel.
func (d *draft) straightFaceted() {
	if d.request != "bezel" || d.ask != "" || !d.m.has("faceted") || d.m.has("cab") {
		return
	}
	straight := map[string]string{"lean": "0"}
	for name, v := range d.options {
		if name == "dome" {
			name = "height"
		}
		if d.m.context.takes("collet", name) {
			straight[name] = v
		}
	}
	d.question("", "A straight wall with a seat for a faceted stone, or a bezel on a back plate?", Choice{"a straight wall with a seat", "collet", straight}, d.with("a bezel on a back plate"))
}

// largerOfRange says why the larger end of a range is taken, where that can be mended
// and the smaller can't. Common practice, no source.
var largerOfRange = map[string]string{
	"depth": "the deeper stone, whose culet needs the room", "dome": "the taller stone, whose wall can be filed down", "size": "the larger, because the stone must go in",
}

// takesLarger reports whether the larger end of a range is the safer one: of a stone's
// height, unless the maker asks which, and of two measures of one stone that differ by a
// caliper's error.
func (d *draft) takesLarger(q *quantity) bool {
	const oneStone = 1.05
	if !needsStone[d.request] || largerOfRange[q.option] == "" || q.other.value > q.value {
		return false
	}
	if q.option == "size" {
		return q.value < oneStone*q.other.value
	}
	return !slices.ContainsFunc(d.m.tokens[q.first:q.next], func(t token) bool { return t.text == "or" })
}

// endsOfRange asks which end of "3-4 mm" it is, but where one is the safer.
func (d *draft) endsOfRange() {
	for _, q := range d.m.found {
		if q.other == nil || !q.used || d.ask != "" {
			continue
		}
		if q.option == "" {
			d.note("of %s I take %s", strings.TrimSpace(q.typed(d.m)), strings.TrimSpace(q.shown))
			continue
		}
		low, high := d.shown(q.option, q.other), d.shown(q.option, q)
		if d.takesLarger(q) {
			d.note("of %s I take %s, %s", strings.TrimSpace(q.typed(d.m)), high, largerOfRange[q.option])
			continue
		}
		if q.option == "number" { // "4 claws or do I need 6"
			d.question(q.option, "How many prongs shall I take?", d.with(low+" prongs", "number", low), d.with(high+" prongs", "number", high))
			continue
		}
		d.question(q.option, fmt.Sprintf("You give a range, %s; which shall I take?", strings.TrimSpace(q.typed(d.m))), d.with(low, q.option, low), d.with(high, q.option, high))
	}
}

// roundOnlyOfCorners reports whether round tells the corners of another outline: "a cushion, its
// corners generously rounded".
func (m *message) roundOnlyOfCorners() bool {
	const near = 4
	return !slices.ContainsFunc(m.senses, func(s sense) bool {
		return s.outline() == "round" && !m.saysOneBetween(max(0, s.first-near), s.next+2, "corner", "corners")
	})
}

// emeraldForOctagon takes an emerald cut, which has eight sides, for an octagon of which two
// unequal sides are told.
func (d *draft) emeraldForOctagon() {
	q := d.m.quantityOf("size")
	if q != nil && len(q.sides) > 1 && unequal(q.sides) && d.options["outline"] == "octagon" && slices.Contains(d.m.meaning("outline:"), "emerald") {
		d.say("outline", "emerald")
	}
}

// twoOutlines asks which outline is meant where two are named.
func (d *draft) twoOutlines() {
	if !needsStone[d.request] && d.request != "tubeset" && d.request != "halo" || d.ask != "" {
		return
	}
	d.emeraldForOctagon()
	var named []string
	for _, o := range d.m.meaning("outline:") {
		if d.request == "halo" && o == "round" && o != d.options["outline"] && d.has("with") {
			continue // the small stones are round
		}
		if o == "round" && o != d.options["outline"] && d.m.roundOnlyOfCorners() || o == "octagon" && d.options["outline"] == "emerald" {
			continue
		}
		if !slices.Contains(named, o) {
			named = append(named, o)
		}
	}
	if len(named) < 2 || d.options["base"] != "" {
		return
	}
	var choices []Choice
	for _, o := range named[:min(3, len(named))] {
		choices = append(choices, d.with(strings.ReplaceAll(o, "-", " "), "outline", o))
	}
	d.question("outline", "Two outlines are named; which is the stone's?", choices...)
}

// strangeOutline asks for the nearest outline where one is named that there is
// none of.
func (d *draft) strangeOutline() {
	name := d.m.meaning("noline:")
	if len(name) == 0 || d.ask != "" || len(d.m.meaning("outline:")) > 0 || !d.m.context.takes(d.request, "outline") {
		return
	}
	d.question("outline", fmt.Sprintf("I have no outline called %s. Give 8 or more caliper points, or say which is nearest.", name[0]),
		d.with("cushion", "outline", "cushion"), d.with("pear", "outline", "pear"), d.with("trillion", "outline", "trillion"))
}

// strangeForm asks whether the plain piece is wanted where another is named.
func (d *draft) strangeForm() {
	forms := slices.DeleteFunc(d.m.meaning("form:"), func(form string) bool {
		of := requestOfForm[form]
		return of != "" && of != d.request && needsStone[d.request] // an eternity ring's collet is any collet
	})
	if len(forms) == 0 || d.ask != "" || d.request == "resize" || d.has("taper") && d.request == "band" || d.has("basesize") && strings.HasPrefix(forms[0], "taper") { // a ring's form is answered in words there
		return
	}
	d.question("", fmt.Sprintf("I can't work out what %q changes. Shall I work out the plain piece?", forms[0]), d.with("the plain piece"))
}

// allRound are things of a piece that are counted only to say all of them: "on all
// four sides".
var allRound = map[string]bool{"sides": true, "corners": true, "edges": true, "points": true, "ends": true, "places": true, "side": true}

// leastInWords is the least number in words that is taken for a figure without a unit or
// a word beside it: "one" and "two" are mostly no figures.
const leastInWords = 4

// numbersInWords takes the numbers in words that no reader has, "six of my pupils", for
// figures without a unit, until another reader reads the message.
func (m *message) numbersInWords() {
	before := len(m.found)
	for i, t := range m.tokens {
		if m.taken[i] || numberWords[t.text] < leastInWords || t.text == "dozen" || t.text == "hundred" || allRound[m.thingsAt(i+1)] {
			continue
		}
		v, next, _ := m.spokenNumber(i)
		if q := (quantity{first: i, next: next, value: v, shown: plain(v), late: true}); !m.isAside(&q) {
			m.add(q)
		}
	}
	if len(m.found) > before {
		slices.SortStableFunc(m.found, func(a, b *quantity) int { return a.first - b.first })
	}
}
