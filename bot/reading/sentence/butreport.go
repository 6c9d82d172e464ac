package sentence

import (
	"slices"
	"strings"
)

// Who reports how a piece came out often praises it first: "looks great but one side is higher
// than the other". What stands behind the "but" is what is asked about.

// praise are words of what went well.
var praise = wordSet("great lovely nice nicely fine good perfect perfectly fits fit well gorgeous beautiful happy pretty brilliant works worked better close")

// buts part praise from what is wrong.
var buts = []string{" but ", " except ", " only that ", " though "}

// behindPraise is what a report says behind its praise, empty for none.
func behindPraise(typed string) string {
	lower := strings.ToLower(typed)
	for _, but := range buts {
		i := strings.Index(lower, but)
		if i < 0 || len(lower) != len(typed) {
			continue
		}
		before, rest := newMessage(typed[:i]), strings.TrimSpace(typed[i+len(but):])
		praises := slices.ContainsFunc(before.tokens, func(t token) bool { return praise[t.text] })
		if praises && len(before.found)+len(before.alloys)+len(before.meaning("outline:")) == 0 && !before.asksInWords() && len(strings.Fields(rest)) > 2 {
			return rest
		}
	}
	return ""
}

// reported reads what a report says behind its praise, where that tells of a trouble or asks
// something that is known.
func (m *message) reported() (Reading, bool) {
	if m.context.Last == nil || m.context.viewed {
		return Reading{}, false
	}
	rest := behindPraise(m.typed)
	if rest == "" {
		return Reading{}, false
	}
	c := m.context
	c.viewed, c.memory = true, nil
	r := Read(rest, c)
	return r, r.Outcome == FirstAid || r.Outcome == Explanation && !strings.HasPrefix(r.Text, "I know nothing certain") || r.Outcome == Request && r.Request == "trouble"
}
