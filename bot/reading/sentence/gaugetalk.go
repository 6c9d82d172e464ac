package sentence

import (
	"math"
)

// After a gauge was told in mm, a bare number is a gauge too: "ta. is 24 ok for a bezel".

// whichGauge ask for one of the gauges that were told.
var whichGauge = []string{"which one", "which of them", "which of those", "which ones", "which would", "which do", "which should", "what one", "so which", "and which"}

// ofGaugeTold reads a question on the use of metal that comes after a gauge: its bare
// number is a gauge, and the one that it asks for is one.
func (m *message) ofGaugeTold(last Last) (Reading, bool) {
	if last.Request != "gauge" || len(m.found) > 1 || !m.namesUse() {
		return Reading{}, false
	}
	said := ""
	switch {
	case len(m.found) == 1 && m.found[0].mayBeGaugeTold() && (m.asksWhether() || m.startsWith(whetherWords...)):
		said = m.between(0, m.found[0].next) + " gauge " + m.between(m.found[0].next, len(m.tokens))
	case len(m.found) == 0 && m.says(whichGauge...):
		said = "which gauge " + m.between(m.useBegins(), len(m.tokens))
	case len(m.found) == 0 && m.pointsBack() && (m.asksWhether() || m.startsWith(whetherWords...)):
		n, ok := gaugeNumber(last.Options["gauge"])
		if !ok {
			return Reading{}, false
		}
		said = "is " + plain(n) + " gauge ok " + m.between(m.useBegins(), len(m.tokens))
	default:
		return Reading{}, false
	}
	r := Read(said, Context{Takes: m.context.Takes, Excludes: m.context.Excludes, Addressed: m.context.Addressed})
	return r, r.Outcome == Explanation || r.Outcome == Request && r.Verdict != ""
}

// whetherWords begin a question for yes or no.
var whetherWords = []string{"is", "are", "would", "will", "can", "could", "should", "does", "do"}

// mayBeGaugeTold reports whether a figure without a unit may be a gauge number.
func (q *quantity) mayBeGaugeTold() bool {
	return q.measure == bare && q.role == "" && q.value == math.Trunc(q.value) && q.value >= leastGaugeInHand && q.value <= mostGaugeInHand
}

// namesUse reports whether a message says what metal is for: "for a bezel".
func (m *message) namesUse() bool { return m.useBegins() < len(m.tokens) }

// useBegins is the first token of what the metal is for, and the number of tokens where
// that is not said.
func (m *message) useBegins() int {
	for i := range m.tokens {
		if m.at(i).text == "for" && i+1 < len(m.tokens) {
			return i
		}
	}
	return len(m.tokens)
}
