package sentence

import "maps"

// stillTold keeps what was told of the last piece where a message gives nothing but a new
// value of one or two of its figures and begins nothing: "wax is 5.4 now with the sprue",
// "excuse me, the customer wishes size T".
func (m *message) stillTold(r Reading) Reading {
	last := m.context.Last
	if last == nil || m.context.Asked != nil || m.context.Aid != "" || r.Outcome != Request && !r.Doubted || r.Request != last.Request || len(r.Changed) > 0 || len(r.Options) >= len(last.Options) || len(r.Options) > 3 || onlyKnowledge(r) || m.beginsAnew(r.Request) || m.asksInWords() {
		return r
	}
	changed := 0
	for name, v := range r.Options {
		was, has := last.Options[name]
		if !has {
			return r
		}
		if was != v {
			changed++
		}
	}
	if changed == 0 || !m.says(mendingWords...) {
		return r
	}
	options := maps.Clone(last.Options)
	maps.Copy(options, r.Options)
	return Reading{Outcome: Request, Request: r.Request, Options: options, Notes: r.Notes, Changed: changesOf(last.Options, options)}
}

// mendingWords tell that a figure of the piece is another one than was said.
var mendingWords = []string{"now", "wishes", "wants", "would like", "changed", "rang", "phoned", "called", "actually", "sorry", "excuse me", "correction", "turns out", "measured", "weighed", "reweighed", "checked", "it is", "its", "is now", "should be", "instead", "prefers", "decided", "mistake", "wrong", "says", "not"}
