package sentence

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// backWords go back to an earlier piece; the strong ones do so alone.
var (
	backAlone = []string{"undo", "undo that", "previous", "go back", "the one before", "before that", "last but one", "revert", "as it was", "as before", "like before", "the way it was", "how it was", "put it back", "forget that", "scrap that"}
	sameAgain = []string{"same again", "again please", "repeat that", "once more", "repeat it", "send that again", "show that again", "show me that again", "say that again", "that again please", "one more time"}
	backWords = []string{"go back to", "back to", "the first", "first one", "original", "earlier", "previous", "one again", "ones again", "undo", "the one before", "that one again", "return to"}
)

// goBack answers an earlier piece of the maker again: "the first one again", "go
// back to the 6 mm", "the silver one again".
func (m *message) goBack() (Reading, bool) {
	if m.context.Last == nil || len(m.tokens) > 14 {
		return Reading{}, false
	}
	if r, ok := m.comparePieces(); ok {
		return r, true
	}
	if r, ok := m.onceMore(); ok {
		return r, true
	}
	if r, ok := m.backToNumber(); ok {
		return r, true
	}
	if r, ok := m.theOtherOne(); ok {
		return r, true
	}
	if r, ok := m.leftAt(); ok {
		return r, true
	}
	if !m.says(backWords...) && !m.says(backAlone...) || m.says("how far back", "send back", "back of") {
		return Reading{}, false
	}
	earlier := m.context.Earlier
	if len(m.found)+len(m.alloys)+len(m.meaning("outline:")) == 0 && m.jobNamed() == "" {
		switch {
		case len(earlier) == 0:
			return Reading{}, false
		case m.says("first", "original"):
			return m.pieceAgain(earlier[len(earlier)-1]), true
		case m.says(backAlone...):
			return m.pieceAgain(earlier[0]), true
		}
		return Reading{}, false
	}
	for _, piece := range append([]Last{*m.context.Last}, earlier...) {
		if m.describes(piece) {
			return m.pieceAgain(piece), true
		}
	}
	if r, ok := m.backAndChange(); ok {
		return r, true
	}
	for _, piece := range m.pieces() { // "back to the bezel, but in 26 ga"
		if job := m.jobNamed(); job != "" && job == piece.Request {
			m.bindRoles()
			if r, ok := m.change(piece); ok {
				return r, true
			}
		}
	}
	return Reading{}, false
}

// backAndChange goes back to the earlier piece of the first figure and changes it by
// the others: "go back to the 6 one, make it 3/16 high".
func (m *message) backAndChange() (Reading, bool) {
	if len(m.found) < 2 || !m.says("back to") {
		return Reading{}, false
	}
	first := m.found[0]
	for _, piece := range m.context.Earlier {
		if first.standsIn(piece) && !first.standsIn(*m.context.Last) {
			m.found = m.found[1:]
			m.bindRoles()
			return m.change(piece)
		}
	}
	return Reading{}, false
}

// leftAt takes back a change to the figure before it: "no leave it at 6".
func (m *message) leftAt() (Reading, bool) {
	if len(m.context.Earlier) == 0 || len(m.found) != 1 || len(m.alloys) > 0 || !m.says("leave it at", "keep it at", "stay at", "stay with", "stick with", "stick to", "keep to", "back to") {
		return Reading{}, false
	}
	last, before, q := *m.context.Last, m.context.Earlier[0], m.found[0]
	if last.Request != before.Request {
		return Reading{}, false
	}
	for _, name := range differences(last, before) {
		if shown := before.Options[name]; shown != "" && q.standsIn(Last{Request: before.Request, Options: map[string]string{name: shown}}) {
			options := maps.Clone(last.Options)
			options[name] = shown
			return Reading{Outcome: Request, Request: last.Request, Options: options, Changed: []string{name + " " + shown}}, true
		}
	}
	return Reading{}, false
}

// pieces are the maker's pieces, the latest first, without what was asked about
// trouble and heat between.
func (m *message) pieces() []Last {
	var all []Last
	for _, piece := range append([]Last{*m.context.Last}, m.context.Earlier...) {
		if piece.Request != "trouble" && piece.Request != "heat" {
			all = append(all, piece)
		}
	}
	return all
}

// onceMore answers the last piece again: "same again please", "repeat that".
func (m *message) onceMore() (Reading, bool) {
	if !m.says(sameAgain...) || m.saysOfPiece() || m.jobNamed() != "" || len(m.tokens) > 9 {
		return Reading{}, false
	}
	all := m.pieces()
	if len(all) == 0 {
		return Reading{}, false
	}
	return Reading{Outcome: Request, Request: all[0].Request, Options: maps.Clone(all[0].Options), Notes: []string{"this is your last piece again"}}, true
}

// theOtherOne goes back to an earlier piece that is told apart from the last by its
// name or its metal: "what was the bezel again", "actually the gold one", "the bezel
// in 0.3".
func (m *message) theOtherOne() (Reading, bool) {
	if m.stoneSides() != nil || m.of(ringSize) != nil || len(m.meaning("outline:")) > 0 || len(m.tokens) > 9 || m.startsWith("why", "how", "can", "is", "does", "do", "should") {
		return Reading{}, false
	}
	job := m.jobNamed()
	named := job != "" && job != m.context.Last.Request && m.says("the "+pieceNames[job], "that "+pieceNames[job])
	again := (m.says("again") || len(m.tokens) <= 3 && m.startsWith("and the", "the", "now the", "ok the")) && named
	if named && (len(m.found)+len(m.alloys) > 0 && (m.startsWith("the", "and the", "that", "ok the", "now the") || m.says("for the "+pieceNames[job])) || again) {
		return m.changedEarlier(job)
	}
	if len(m.alloys) != 1 || !m.says("one") || !m.startsWith("actually the", "the", "no the", "ok the", "back to", "lets go with the", "go with the", "i prefer the", "id rather have the", "ill go with the", "ill take the") || len(m.found) > 0 || job != "" {
		return Reading{}, false
	}
	for _, piece := range m.pieces() {
		if !m.describes(*m.context.Last) && m.describes(piece) {
			return m.pieceAgain(piece), true
		}
	}
	return Reading{}, false
}

// changedEarlier is the maker's earlier piece of a request, with what the message
// changes.
func (m *message) changedEarlier(job string) (Reading, bool) {
	for _, piece := range m.pieces() {
		if piece.Request != job {
			continue
		}
		if !m.saysOfPiece() {
			return m.pieceAgain(piece), true
		}
		m.bindRoles()
		return m.change(piece)
	}
	return Reading{}, false
}

// pieceAgain is an earlier piece as it was.
func (m *message) pieceAgain(piece Last) Reading {
	for _, q := range m.found {
		q.used = true
	}
	return Reading{Outcome: Request, Request: piece.Request, Options: maps.Clone(piece.Options), Notes: []string{"this is your earlier piece again"}}
}

// jobNamed is the request whose piece a message names, empty for none.
func (m *message) jobNamed() string {
	for _, request := range slices.Sorted(maps.Keys(pieceNames)) {
		if m.says(pieceNames[request], request) && !(pieceNames[request] == "ring" && m.says("jump")) {
			if request == "resize" && (m.context.Last.Request != "resize" || m.says("band")) {
				continue
			}
			return request
		}
	}
	return ""
}

// describes reports whether all that a message names is in a piece.
func (m *message) describes(piece Last) bool {
	if job := m.jobNamed(); job != "" && job != piece.Request {
		return false
	}
	for _, o := range m.meaning("outline:") {
		if o != piece.Options["outline"] {
			return false
		}
	}
	for _, a := range m.alloys {
		if a.key != piece.Options["alloy"] && !slices.Contains(a.among, piece.Options["alloy"]) {
			return false
		}
	}
	for _, q := range m.found {
		if !q.standsIn(piece) {
			return false
		}
	}
	return true
}

// standsIn reports whether a figure is one of a piece's.
func (q *quantity) standsIn(piece Last) bool {
	for option, shown := range piece.Options {
		n, isGauge := gaugeNumber(shown)
		switch {
		case q.measure == size:
			if option == "size" && strings.ReplaceAll(shown, " ", "") == q.shown {
				return true
			}
		case isGauge:
			if (q.measure == gauge || q.measure == bare) && n == q.value {
				return true
			}
		case q.measure == ringSize:
			if (option == "ring" || option == "from" || option == "to") && strings.HasSuffix(shown, q.shown) {
				return true
			}
		case q.measure != gauge && !strings.Contains(shown, "x") && lengthOf(shown) == q.value && q.value > 0:
			return true
		}
	}
	return false
}

// comparePieces asks which of the last two pieces is wanted, and says in what they
// differ.
func (m *message) comparePieces() (Reading, bool) {
	if len(m.found) > 0 || len(m.context.Earlier) == 0 || !m.says("compare", "comparison", "difference between the two", "difference between them", "side by side", "both of them", "which of those", "which of them", "which of the two", "which one uses", "which uses", "which one is heavier", "which is heavier", "which is lighter", "which is cheaper", "which one is cheaper", "which weighs", "which one weighs", "the two of them") {
		return Reading{}, false
	}
	now, before := *m.context.Last, m.context.Earlier[0]
	var differ []string
	for _, name := range differences(now, before) {
		differ = append(differ, fmt.Sprintf("%s: %s now, %s before", name, valueOr(now.Options[name]), valueOr(before.Options[name])))
	}
	ask := fmt.Sprintf("One is a %s, the other a %s.", nameOf(now), nameOf(before))
	if now.Request == before.Request {
		ask = "The two differ in " + strings.Join(differ[:min(4, len(differ))], "; ") + "."
	}
	return Reading{Outcome: Question, Ask: ask + " Whose figures do you want to see again, the mass among them?", Choices: []Choice{
		{"the last one", now.Request, now.Options}, {"the one before", before.Request, before.Options},
	}}, true
}

func valueOr(shown string) string {
	if shown == "" {
		return "not given"
	}
	return shown
}

// differences are the options in which two pieces differ, by name.
func differences(a, b Last) []string {
	var names []string
	for _, options := range []map[string]string{a.Options, b.Options} {
		for name := range options {
			if a.Options[name] != b.Options[name] && !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	slices.Sort(names)
	return names
}
