package sentence

import (
	"maps"
	"strings"
)

// Who asks for the same piece round a further stone gives that stone's size, and perhaps
// its height. What was told of the stone before is not of this one.

// furtherStones name a stone besides the one that was spoken of.
var furtherStones = []string{"another", "another one", "second one", "second stone", "a second", "next one", "next stone", "next ones", "other stone", "different stone", "one for", "do one", "do me one", "do me the one", "one round", "third one", "third stone", "2nd", "2nd one", "second piece", "next piece"}

// sameStones say that a further stone has the measures of the one before, or mend that one.
var sameStones = []string{"same everything", "same stuff", "same height", "same depth", "same dome", "same dimensions", "everything same", "everything else", "all the same", "rest the same", "same again", "all else", "otherwise the same", "unchanged", "instead", "actually", "sorry", "i meant", "if", "what about", "how about"}

// beginsFurther are the words before the stone of a further piece: "great. now a 12 mm
// round", "and a 6mm round".
var beginsFurther = []string{"now a", "now an", "and a", "and an", "also a", "then a", "ok a", "plus a", "and one", "now one", "now the"}

// ofFurtherStone leaves out what was told of the last stone alone, where a message asks
// for the same piece round a further one.
func (m *message) ofFurtherStone(r Reading) Reading {
	last := m.context.Last
	if last == nil || r.Request != last.Request || !needsStone[r.Request] || r.Outcome != Request && r.Outcome != Question || r.Options["size"] == "" || r.Options["size"] == last.Options["size"] || !m.namesFurtherStone() {
		return r
	}
	options := maps.Clone(r.Options)
	for _, name := range ofStone {
		if name != "size" && options[name] != "" && options[name] == last.Options[name] && !m.tellsValue(options[name]) {
			delete(options, name)
		}
	}
	if len(options) == len(r.Options) {
		return r
	}
	if r.Outcome == Request {
		r.Changed = changesOf(last.Options, options)
	}
	r.Options = options
	return r
}

// namesFurtherStone reports whether a message is of a stone besides the last one.
func (m *message) namesFurtherStone() bool {
	if m.says(sameStones...) {
		return false
	}
	return m.says(furtherStones...) || m.says(beginsFurther...) && len(m.meaning("outline:")) > 0
}

// tellsValue reports whether a message has the figure or the word of an option itself.
func (m *message) tellsValue(value string) bool {
	for _, q := range m.found {
		if q.shown == value || strings.TrimSpace(q.typed(m)) == value || lengthOf(value) == q.value && q.measure != size {
			return true
		}
	}
	return m.says(value)
}
