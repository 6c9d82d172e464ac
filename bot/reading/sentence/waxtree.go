package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/casting"
)

// A tree of waxes is weighed in parts: so many alike and a stem, several that are listed, or
// the whole with its base.

// stemWords name what of a tree is no casting.
var stemWords = wordSet("stem sprue runner trunk feeder")

// led reports whether one of the words stands before a figure with no other figure between.
func (m *message) led(q *quantity, words map[string]bool) bool {
	const far = 5
	for i := q.first - 1; i >= max(0, q.first-far) && !m.inFigure(i); i-- {
		if words[m.at(i).text] {
			return true
		}
	}
	return false
}

// waxIs begins the note on a wax that is reckoned from its parts.
const waxIs = "the wax is "

// isReckoned reports whether the wax of a reading is a sum of the message's figures, so that it
// is none of them.
func (r Reading) isReckoned() bool {
	return r.Request == "melt" && slices.ContainsFunc(r.Notes, func(n string) bool { return strings.HasPrefix(n, waxIs) })
}

// waxTree reckons the wax of a tree that is told in parts.
func (d *draft) waxTree() (Reading, bool) {
	m := d.m
	if !m.tellsOfWaxes() || m.says("density", "gravity") {
		return Reading{}, false
	}
	m.numbersInWords()
	var many, weighed, at []*quantity
	var button *quantity
	for _, q := range m.found {
		switch {
		case q.measure == bare && q.value == 1 && m.saysOneBetween(q.next, q.next+1, "tree", "sprue", "flask"):
		case m.ofButton(q) && button == nil:
			button = q
		case q.measure == mass && m.metalAt(q), q.measure == money:
			at = append(at, q)
		case q.measure == count, q.measure == bare && q.value == math.Trunc(q.value) && q.value >= 2 && m.thingsBehind(q):
			many = append(many, q)
		case q.measure == mass, q.measure == bare:
			weighed = append(weighed, q)
		case q.measure != ringSize:
			return Reading{}, false
		}
	}
	if n := m.fewWaxes(); n != nil && len(many) == 0 {
		many = append(many, n)
	}
	wax, how, ok := m.waxInParts(many, weighed)
	if !ok || wax <= 0 || len(m.alloys) == 0 {
		return Reading{}, false
	}
	for _, q := range m.found {
		q.used = true
	}
	d.say("wax", plain(math.Round(wax*100)/100)+" g")
	d.note(waxIs+"%s", how)
	if button != nil {
		d.set("button", button)
	}
	d.alloy("alloy", true)
	r := d.reading()
	if r.Outcome == Request && r.Options["alloy"] != "" && len(at) == 1 && m.says("enough", "plenty", "suffice", "will it do", "will that do") {
		r.Verdict = enoughFor(casting.MetalG(wax, casting.WaxDensityGPerCM3, alloyOf(r.Options["alloy"]).DensityGPerCM3), at[0].value)
	}
	return r, true
}

// fewWaxes is a count of two or three in words, which are no figures elsewhere: "two wax
// models", "three little charms".
func (m *message) fewWaxes() *quantity {
	for i, t := range m.tokens {
		q := &quantity{first: i, next: i + 1, value: numberWords[t.text], shown: plain(numberWords[t.text])}
		if (q.value == 2 || q.value == 3) && !m.inFigure(i) && m.thingsBehind(q) {
			return q
		}
	}
	return nil
}

// tellsOfWaxes reports whether a message may tell of waxes that are cast together.
func (m *message) tellsOfWaxes() bool {
	if m.says("tree") {
		return true
	}
	named := 0
	for _, t := range m.tokens {
		switch t.text {
		case "waxes", "each":
			named += 2
		case "wax":
			named++
		case "and", "other":
			if m.says("models", "patterns", "rings", "charms", "pieces") {
				named++
			}
		}
	}
	return named >= 2 && m.has("wax")
}

// ofButton reports whether a mass or a share is the button's.
func (m *message) ofButton(q *quantity) bool {
	return (q.measure == mass || q.measure == percent) && (m.led(q, wordSet("button")) || m.saysOneBetween(q.next, q.next+2, "button"))
}

// metalAt reports whether a mass is of metal, "120 g of silver".
func (m *message) metalAt(q *quantity) bool {
	return !m.ofStem(q) && slices.ContainsFunc(m.alloys, func(a *metal) bool {
		return a.first >= q.next && a.first-q.next <= 1 && !m.saysOneBetween(q.next, a.first, ",", ".")
	})
}

// ofStem reports whether a figure weighs what of a tree is no casting: its stem, or the tree
// by itself.
func (m *message) ofStem(q *quantity) bool {
	const far = 5
	if m.led(q, stemWords) || stemWords[m.at(q.next).text] {
		return true
	}
	for i := q.first - 1; i >= max(0, q.first-far) && !m.inFigure(i); i-- {
		if m.at(i).text != "tree" {
			continue
		}
		before := m.at(i - 1).text
		if before == "a" || before == "the" || before == "my" {
			before = m.at(i - 2).text
		}
		return !contains([]string{"on", "per", "one", "1", "same", "single"}, before) // "on one tree: 1.1, 0.9"
	}
	return false
}

// thingsBehind reports whether a number counts what stands behind it, in the plural.
func (m *message) thingsBehind(q *quantity) bool {
	for i := q.next; i < q.next+2; i++ {
		if w := m.at(i).text; len(w) > 3 && strings.HasSuffix(w, "s") && !unitLike(w) {
			return true
		}
	}
	return m.at(q.next).text == "kids" || m.at(q.next).text == "children"
}

// waxInParts adds the parts of a tree up, and tells how.
func (m *message) waxInParts(many, weighed []*quantity) (wax float64, how string, ok bool) {
	if len(weighed) == 2 && m.says("base") && len(many) == 0 && m.says("with the base", "including", "on its own", "by itself", "alone", "empty", "base weighs", "base is") {
		whole, base := max(weighed[0].value, weighed[1].value), min(weighed[0].value, weighed[1].value)
		return whole - base, fmt.Sprintf("%s g less the base, %s g", plain(whole), plain(base)), true
	}
	var each, stem *quantity
	var list []*quantity
	for _, q := range weighed {
		behind := m.at(q.next).text
		switch {
		case (m.led(q, stemWords) || stemWords[behind]) && stem == nil, stem == nil && len(weighed) > 1 && m.ofStem(q):
			stem = q
		case m.weighsEach(q) && each == nil:
			each = q
		default:
			list = append(list, q)
		}
	}
	added := ""
	if stem != nil {
		wax, added = stem.value, fmt.Sprintf(" and %s g of sprue", plain(stem.value))
	}
	switch {
	case each != nil && len(many) == 1 && len(list) == 0:
		return wax + many[0].value*each.value, fmt.Sprintf("%s times %s g%s", plain(many[0].value), plain(each.value), added), true
	case each == nil && len(list) >= 2 && (len(many) == 0 && (m.inList(list) || m.eachIsWax(list)) || len(many) == 1 && int(many[0].value) == len(list)):
		var all []string
		for _, q := range list {
			wax += q.value
			all = append(all, plain(q.value))
		}
		return wax, fmt.Sprintf("%s g%s", strings.Join(all, " + "), added), true
	}
	return 0, "", false
}

// weighsEach reports whether a figure is that of each wax: "0.5 g each", "1.4 g in wax each".
func (m *message) weighsEach(q *quantity) bool {
	if m.led(q, wordSet("each")) {
		return true
	}
	i := q.next
	for i < q.next+3 && contains([]string{"in", "of", "wax"}, m.at(i).text) {
		i++
	}
	return contains([]string{"each", "apiece", "ea"}, m.at(i).text)
}

// inList reports whether figures of several waxes stand in a list.
func (m *message) inList(all []*quantity) bool {
	for k := 1; k < len(all); k++ {
		if !m.saysBetween(all[k-1].next, all[k].first, ",", "and", "n", "+", "plus") {
			return false
		}
	}
	return slices.ContainsFunc(m.tokens, func(t token) bool { return t.text == "waxes" || t.text == "patterns" })
}

// eachIsWax reports whether each of some figures stands behind a wax of its own, "wax 1.4 +
// wax 0.9".
func (m *message) eachIsWax(all []*quantity) bool {
	return !slices.ContainsFunc(all, func(q *quantity) bool { return !m.led(q, wordSet("wax")) })
}

// karatOfMix tells what karat two golds make together.
func (m *message) karatOfMix() (Reading, bool) {
	if !m.says("what karat", "which karat", "what carat", "end up with", "what k", "what do i get", "whats the result", "what is the result", "what will i get", "what fineness", "what purity", "what will it be", "what would it be") || !m.says("mix", "together", "throw", "melt", "melted", "in with", "combine", "add", "in") || m.context.Last != nil {
		return Reading{}, false
	}
	var karats, grams []float64
	for _, q := range m.found {
		switch {
		case q.measure == mass:
			grams = append(grams, q.value)
		case q.measure == bare && m.led(q, wordSet("of the")):
		case q.measure == bare:
			grams = append(grams, q.value)
		default:
			return Reading{}, false
		}
	}
	for _, a := range m.alloys {
		for i := a.first; i < a.next; i++ {
			if k := m.at(i).text; isDigits(k) && parse(k) >= 8 && parse(k) <= 24 && !slices.Contains(karats, parse(k)) {
				karats = append(karats, parse(k))
			}
		}
	}
	if fine := m.fineMetals(); len(karats) == 0 && len(fine) == 2 && len(grams) == 2 && fine[0].pure == "silver" && fine[1].pure == "silver" {
		whole := grams[0] + grams[1]
		return worked("karat of a mix", "fine silver is added up: sum of mass x fineness / sum of mass",
			fmt.Sprintf("%s g of %s and %s g of %s make %s g with %.0f parts of fine silver in a thousand by mass, if both are what their marks say. Only an assay tells its true fineness. Old metal must be clean and free of solder.", plain(grams[0]), fine[0].says, plain(grams[1]), fine[1].says, plain(whole), 1000*(grams[0]*fine[0].part+grams[1]*fine[1].part)/whole))
	}
	if len(karats) != 2 || len(grams) != 2 {
		return Reading{}, false
	}
	whole := grams[0] + grams[1]
	fine := (grams[0]*karats[0] + grams[1]*karats[1]) / whole
	return worked("karat of a mix", "fine gold is added up: sum of mass x karat / sum of mass",
		fmt.Sprintf("%s g of %s k and %s g of %s k make %s g of %.1f karat, %.0f parts of fine gold in a thousand by mass, if both are what their marks say. An assay decides which mark the mix may carry, not a sum. Fine gold brings it up. Old metal must be clean and free of solder.", plain(grams[0]), plain(karats[0]), plain(grams[1]), plain(karats[1]), plain(whole), fine, fine*1000/24))
}
