package sentence

import (
	"cmp"
	"math"
	"slices"
	"strings"
)

// Who changes a figure of the piece in hand often names no measure: "how many if I went to
// 1.5", "and if I use 26 instead". The piece's own figures tell which one is meant, where
// the new figure is near one of them and far from the others.

const (
	// nearEnoughToChange is the most by which a new figure may be a multiple of the old one.
	nearEnoughToChange = 1.7
	// plainlyNearer is by how much farther every other figure must be.
	plainlyNearer = 1.45
	// longestChange is how many words a message has at most that changes a figure so.
	longestChange = 12
	// leastGaugeInHand and mostGaugeInHand are the gauge numbers that metal for settings has.
	leastGaugeInHand, mostGaugeInHand = 12.0, 34.0
)

// changesBy are words of a message that puts a new figure in the place of an old one.
var changesBy = []string{"if", "instead", "what about", "how about", "make it", "make that", "go", "going", "went", "try", "use", "using", "used", "change it", "switch", "rather", "do it", "redo", "in", "actually", "sorry", "i meant"}

// noNewFigure are words of a message whose figure is no new one of the piece.
var noNewFigure = []string{"why", "left", "left over", "cut out of", "enough", "between", "gap", "spare", "each", "apart", "plate", "back", "too", "safe", "drill", "bur", "mandrel", "offcut", "block", "hole", "or", "not", "by", "add", "another", "second", "other", "next to", "beside", "fit", "fits", "angle", "degrees", "students", "people", "total", "would you", "should i", "minimum", "maximum", "more", "less", "got", "measured", "came out", "weigh", "scrap", "grain", "compare", "back to"}

// otherNear takes a figure without a measure for the one of the piece's that it is plainly
// near to.
func (m *message) otherNear(last Last) (Reading, bool) {
	q := m.newFigure(last)
	if q == nil {
		return Reading{}, false
	}
	option, ok := q.plainlyNear(last)
	if !ok || m.rolesOf(last.Request, q).Of(option) < hardlyEver {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	d.set(option, q)
	return m.changedFrom(last, d), true
}

// hardlyEver is the chance under which the words round a figure rule its place out.
const hardlyEver = 0.01

// newFigure is the only figure of a message that changes one of the piece in hand and names
// neither its measure nor its part, nil for none.
func (m *message) newFigure(last Last) *quantity {
	if readersOf[last.Request] == nil || len(m.found) != 1 || len(m.alloys) > 0 || m.words() > longestChange || m.saysMeasure() || m.asksWhether() || !m.says(changesBy...) || m.says(noNewFigure...) {
		return nil
	}
	if !m.namesInHand(last) && (m.strays() || m.has("stone", "cab", "sheet", "wire", "ring", "bezel")) {
		return nil
	}
	q := m.found[0]
	_, compares := comparatives[m.at(q.next).text]
	if compares || m.context.Focus != "" || q.measure != bare && q.measure != length || q.role != "" || m.at(q.next).text == "of" || strings.HasSuffix(q.typed(m), "%") {
		return nil
	}
	return q
}

// namesInHand reports whether a message names the piece in hand, and no part of it: "if I made
// the bangle 65".
func (m *message) namesInHand(last Last) bool {
	name := nameOf(last)
	if last.Options["bangle"] != "" {
		name = "bangle"
	}
	return m.says("the "+name) && !m.has("stone", "cab", "sheet", "wire")
}

// plainlyNear is the option of a piece that a figure is near to and no other is.
func (q *quantity) plainlyNear(last Last) (option string, ok bool) {
	type off struct {
		option string
		by     float64
	}
	var all []off
	for name, shown := range last.Options {
		now := lengthOf(shown)
		if now <= 0 || q.value <= 0 || strings.Contains(shown, "x") || notByNearness[name] || strings.HasSuffix(shown, "g") {
			continue
		}
		all = append(all, off{name, max(now/q.value, q.value/now)})
	}
	if len(all) == 0 {
		return "", false
	}
	slices.SortFunc(all, func(a, b off) int {
		return cmp.Or(cmp.Compare(a.by, b.by), cmp.Compare(b.option, a.option)) // of a square wire the width
	})
	best := all[0]
	if best.by == 1 || best.by > nearEnoughToChange || len(all) > 1 && all[1].by < plainlyNearer*best.by {
		return "", false
	}
	return best.option, true
}

// notByNearness are options whose values are no lengths, or may be any.
var notByNearness = map[string]bool{"ring": true, "from": true, "to": true, "shank": true, "count": true, "number": true, "included": true, "lean": true, "makers": true, "system": true, "carat": true, "wax": true, "sprue": true, "button": true, "ratio": true}

// otherGauge takes a whole number for another gauge of a piece whose metal is told as one.
func (m *message) otherGauge(last Last) (Reading, bool) {
	option := gaugeOption(last)
	q := m.newFigure(last)
	if option == "" || q == nil || q.measure != bare || q.value != math.Trunc(q.value) || q.value < leastGaugeInHand || q.value > mostGaugeInHand {
		return Reading{}, false
	}
	if last.Request == "band" && q.value <= mostUSRing || !beforeGauge[m.at(q.first-1).text] && q.nearAny(last) {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	q.used = true
	d.say(option, q.shown+"ga")
	d.note("%s is read as a gauge number", q.shown)
	return m.changedFrom(last, d), true
}

// mostUSRing is the largest US ring size that may stand for a gauge.
const mostUSRing = 13

// gaugeOption is the option of a piece's metal where that is told as a gauge, empty else.
func gaugeOption(last Last) string {
	for _, option := range []string{"thickness", "wire"} {
		if _, is := gaugeNumber(last.Options[option]); is {
			return option
		}
	}
	return ""
}

// nearAny reports whether a figure is near one of a piece's lengths.
func (q *quantity) nearAny(last Last) bool {
	for name, shown := range last.Options {
		now := lengthOf(shown)
		if _, is := gaugeNumber(shown); is || now <= 0 || notByNearness[name] || strings.Contains(shown, "x") {
			continue
		}
		if max(now/q.value, q.value/now) <= nearEnoughToChange {
			return true
		}
	}
	return false
}

// inPlaceOfOld are words of a message whose figure takes the place of another: it need not be
// what was spoken of.
var inPlaceOfOld = []string{"instead", "what about", "how about", "in", "if", "use", "with", "redo"}

// longestOfFocus is how many words a message has at most that gives the measure which the
// message before it spoke of.
const longestOfFocus = 5

// ofFocus takes the figure of a short message for the measure that the message before it
// spoke of: "call it 5.5" after "how tall do people make them?"
func (m *message) ofFocus() (Reading, bool) {
	piece, ok := m.pieceInTalk()
	if !ok || m.context.Aid != "" || m.context.Focus == "" || len(m.found) != 1 || len(m.alloys) > 0 || m.words() > longestOfFocus || m.saysMeasure() || m.strays() || m.says(noNewFigure...) || m.says(inPlaceOfOld...) || m.choosesByNumber() || m.has("stone") && stoneHasNo[m.context.Focus] {
		return Reading{}, false
	}
	role := m.context.Focus
	option := cmp.Or(rolesOf[piece.Request][role], rolesOf[""][role])
	if asked := m.context.Asked; asked != nil && asked.Missing != "" && asked.Missing != option {
		return Reading{}, false
	}
	_, compares := comparatives[m.at(m.found[0].next).text]
	m.focused()
	q := m.found[0]
	if q.role != role || compares || m.at(q.next).text == "of" || !m.context.takes(piece.Request, option) || option == "size" {
		return Reading{}, false
	}
	d := m.draftWith(piece.Request, piece.Options)
	if option == "height" {
		delete(d.options, "hemisphere")
	}
	d.set(option, q)
	if needsStone[d.request] {
		d.needStone(d.request == "bezel")
	}
	return m.changedFrom(piece, d), true
}

// stoneHasNo are measures that a figure said of the stone is not.
var stoneHasNo = map[string]bool{"width": true, "thickness": true}

// notThat takes a figure in the place of the one that the message says it is not: "M not L",
// "the block's 28, not 17".
func (m *message) notThat(last Last) (Reading, bool) {
	if last.Request == "resize" && len(m.found) == 0 {
		m = m.anew()
		m.sizeLetters()
	}
	if len(m.found) != 2 || len(m.alloys) > 0 || m.words() > longestChange {
		return Reading{}, false
	}
	now, was := m.found[0], m.found[1]
	switch {
	case m.saysOneBetween(now.next, was.first, "not"):
	case m.at(now.first-1).text == "not" && m.saysOneBetween(now.next, was.first, "its", "it", "but", "is", ","):
		now, was = was, now
	default:
		return Reading{}, false
	}
	option := ""
	for name, shown := range last.Options {
		if !was.standsIn(Last{Request: last.Request, Options: map[string]string{name: shown}}) {
			continue
		}
		if option != "" {
			return Reading{}, false // it may be either
		}
		option = name
	}
	if option == "" || now.measure != was.measure && now.measure != bare && was.measure != bare {
		return Reading{}, false
	}
	d := m.draftWith(last.Request, last.Options)
	now.used, was.used = true, true
	switch {
	case now.measure == ringSize && (option == "from" || option == "to" || option == "shank"):
		system, _, _ := strings.Cut(last.Options[option], " ")
		d.say(option, cmp.Or(now.system, system)+" "+now.shown)
	default:
		d.set(option, now)
	}
	return m.changedFrom(last, d), true
}
