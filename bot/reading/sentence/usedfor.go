package sentence

import (
	"fmt"
	"maps"
	"strings"
)

// What a piece is for, "its for a ring", is no wish for that: it changes no figure of the
// piece in talk, and may change what is said of its metal.

// longestUse is how many words a message has at most that only tells what a piece is for.
const longestUse = 10

var (
	usedFor   = []string{"its a", "its for", "it is for", "it is a", "it s for", "theyre for", "they are for", "for a", "for my", "this is for", "its going", "it is going", "theyre going", "it goes on", "it goes in", "to go on", "itll be", "itll go", "it will be", "itll sit", "it sits on"}
	usesNamed = []string{"ring", "rings", "signet", "bangle", "bracelet", "pendant", "pendants", "earring", "earrings", "studs", "necklace", "brooch", "cufflink", "cufflinks", "chain", "everyday", "every day", "daily wear"}
)

// toldUse answers the piece in talk again, or the question about its metal that was asked
// before, where a message only tells what it is for.
func (m *message) toldUse(alone Reading) (Reading, bool) {
	c := m.context
	if c.Asked != nil || c.Aid != "" || alone.Outcome != Question && alone.Outcome != Explanation && alone.Outcome != Unknown || len(m.found)+len(m.alloys) > 0 || m.words() > longestUse || !m.startsWith(usedFor...) || !m.says(usesNamed...) || strings.Contains(m.typed, "?") || m.questionWord() || len(m.meaning("outline:")) > 0 {
		return Reading{}, false
	}
	if (c.Topic == "thickness" || strings.HasPrefix(c.Topic, "limit: ")) && c.Said != "" {
		both := Read(joined(c.Said, m.typed), Context{Addressed: c.Addressed, Takes: c.Takes, Excludes: c.Excludes})
		return both, both.Outcome == Explanation || both.Verdict != ""
	}
	last := c.Last
	if last == nil || c.Topic != "" || readersOf[last.Request] == nil || last.Request == "band" || last.Request == "kit" || last.Request == "weigh" || last.Request == "gauge" {
		return Reading{}, false
	}
	return Reading{Outcome: Request, Request: last.Request, Options: maps.Clone(last.Options), Notes: []string{fmt.Sprintf("what it is for changes no figure of your %s", nameOf(*last))}}, true
}
