package sentence

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// reply reads the answer to a question that the bot asked: the number of a
// choice, its words, or the figure that was missing.
func (m *message) reply() (Reading, bool) {
	asked := m.context.Asked
	if asked == nil {
		return Reading{}, false
	}
	for _, read := range []func(*Reading) (Reading, bool){m.choosing, m.toldTube, m.toldWall} {
		if r, ok := read(asked); ok {
			return r, true
		}
	}
	if len(m.alloys) > 1 {
		return Reading{}, false
	}
	if r, ok := m.askedAgain(); ok {
		return r, true
	}
	m.takeSizes(asked)
	if asked.Request == "resize" && asked.Missing == "to" && m.tellsSizes() {
		return m.resizeSizes(asked), true
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
	return m.answer(asked)
}

// choosing is the choice of a question that the message names by its number, its place
// or its words.
func (m *message) choosing(asked *Reading) (Reading, bool) {
	if len(asked.Choices) > 0 && asked.Choices[0].Label == isMeant {
		if r, ok := m.yesOrNo(asked); ok {
			return r, true
		}
	}
	mayNumber := asked.Missing == "" || !asked.wantsFigure()
	for i, c := range asked.Choices {
		n := len(m.tokens) == 1 && m.at(0).number && m.at(0).value == float64(i+1) && mayNumber
		ordinal := len(m.tokens) <= 3 && m.says([]string{"first", "second", "third"}[min(i, 2)]) || len(m.tokens) == 2 && (m.at(0).text == "no" || m.at(0).text == "option" || m.at(0).text == "number" || m.at(0).text == "#") && m.at(1).value == float64(i+1)
		ordinal = ordinal || i == len(asked.Choices)-1 && len(m.tokens) <= 3 && m.says("last one", "the last")
		if n || ordinal || m.sameWords(c.Label) {
			return m.chosen(c), true
		}
	}
	return Reading{}, false
}

// wantsFigure reports whether one of a question's choices is a figure, so that a bare
// number may be another one.
func (r Reading) wantsFigure() bool {
	return slices.ContainsFunc(r.Choices, func(c Choice) bool { return strings.ContainsAny(c.Options[r.Missing], "0123456789") })
}

// toldTube is the tube that was asked for, by its outside and its wall.
func (m *message) toldTube(asked *Reading) (Reading, bool) {
	if asked.Request != "match" || asked.Missing != "tubesize" || len(m.alloys) > 1 {
		return Reading{}, false
	}
	m.bindRoles()
	d := m.draftWith("match", asked.Options)
	if outer, wall := d.tube(); outer > 0 {
		d.say("tubesize", plain(outer)+"x"+plain(wall))
		return d.reading(), true
	}
	m.release()
	return Reading{}, false
}

// thickestTubeWall is the thickest wall in mm of a tube for stones.
const thickestTubeWall = 1.5

// toldWall is the tube that was asked for where its outside was told before: "the wall is
// 0.5".
func (m *message) toldWall(asked *Reading) (Reading, bool) {
	if asked.Missing != "tubesize" || len(m.found) != 1 || len(m.alloys) > 0 || m.words() > 5 || m.asksInWords() {
		return Reading{}, false
	}
	wall := m.found[0]
	outer := m.outsideTold(asked)
	if wall.measure != bare && wall.measure != length || wall.value > thickestTubeWall || outer < 2.5*wall.value {
		return Reading{}, false
	}
	d := m.draftWith(asked.Request, asked.Options)
	wall.used = true
	d.say("tubesize", plain(outer)+"x"+plain(wall.value))
	return d.reading(), true
}

// outsideTold is the outside of the tube that is asked about, in mm, 0 for none.
func (m *message) outsideTold(asked *Reading) float64 {
	if asked.Request == "tubeset" && len(asked.Choices) > 0 {
		outer, _, _ := strings.Cut(asked.Choices[0].Options["tubesize"], "x")
		return lengthOf(outer)
	}
	said := newMessage(m.context.Said).found
	if asked.Request != "match" || len(said) != 1 || said[0].measure != length && said[0].measure != bare {
		return 0
	}
	return said[0].value
}

// takeSizes takes letters as ring sizes where one was asked for.
func (m *message) takeSizes(asked *Reading) {
	if asked.Request == "resize" {
		m.sizeLetters()
	}
	if asked.Missing == "ring" && m.of(ringSize) == nil {
		if q := m.sizeLetter(); q != nil {
			m.add(*q)
		}
	}
}

// answer is the piece that was asked about with the figures and words of the message.
func (m *message) answer(asked *Reading) (Reading, bool) {
	m.bindRoles()
	last := Last{Request: asked.Request, Options: asked.Options}
	if q := m.of(bare, length, size, ringSize, mass); q != nil && asked.Missing != "" && len(m.found) == 1 {
		return m.missing(last, asked, q)
	}
	if asked.Missing == "outline" && len(m.meaning("outline:")) == 0 || asked.Missing == "" && len(m.found)+len(m.alloys) == 0 || !m.fragment() {
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
	d := m.draftWith(c.Request, c.Options)
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
	again := asked.againWith(r)
	again.Notes = append(slices.Clone(asked.Notes), r.Notes...)
	again.Ask = "That is changed. " + strings.TrimPrefix(asked.Ask, "That is changed. ")
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
	if one := r.Options[known]; one != "" && r.Options[asked.Missing] == "" && asked.Options[known] != "" && m.saysNoSystem() {
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

// saysNoSystem reports whether a ring size is left that names no system.
func (m *message) saysNoSystem() bool {
	q := m.of(ringSize)
	return q != nil && q.system == ""
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
	d := m.draftWith("kit", asked.Options)
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
	d := m.draftWith(last.Request, last.Options)
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
