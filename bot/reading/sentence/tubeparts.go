package sentence

import (
	"fmt"
	"math"
	"strings"

	"guildhand/calc/tubeset"
)

// leastCovered is the share of a tube's wall that a stone covers at least; half is the rule.
const leastCovered = 0.3

// tubeHalfTold answers what a tube's bore or its outside alone tells, where a question back
// would ask for the rest of it: whether the stone falls through, how wide its ledge is, and
// the bur, which is the stone's width in any tube.
func (m *message) tubeHalfTold(r Reading) (Reading, bool) {
	stone := lengthOf(r.Options["size"])
	if r.Outcome != Question && r.Outcome != Request || r.Request != "tubeset" || stone <= 0 || r.Options["tubesize"] != "" {
		return Reading{}, false
	}
	others := m.lengthsBesideStone(stone, parse(r.Options["count"]))
	if r.Outcome == Request && len(others) > 0 {
		return Reading{}, false
	}
	answer := Reading{Outcome: Request, Request: "tubeset", Options: r.Options, Notes: r.Notes}
	switch len(others) {
	case 0:
		return m.stoneAsWideAsTube(answer, stone)
	case 1:
		return m.oneOfTube(answer, others[0], stone)
	case 2:
		t := tubeset.Tube{OuterMM: max(others[0].value, others[1].value)}
		bore := min(others[0].value, others[1].value)
		if t.WallMM = (t.OuterMM - bore) / 2; bore >= stone || stone >= t.OuterMM || t.OuterMM > 2.5*bore || m.says("bur", "burr", "between") || others[1].first-others[0].next > 3 {
			return Reading{}, false
		}
		answer.Options["tubesize"] = shownTube(t)
		answer.Verdict = whetherTube(t, stone)
		return answer, true
	}
	return Reading{}, false
}

// lengthsBesideStone are the lengths of a message but its stone, a count, a bur that is offered for
// the stone, and a ledge that its asker reckoned.
func (m *message) lengthsBesideStone(stone, count float64) (others []*quantity) {
	for _, q := range m.found {
		ofStone := math.Abs(q.value-stone) < 0.001 || q.other != nil && math.Abs(q.value-stone) < 0.1*stone
		if q.measure != length && q.measure != bare || ofStone || q.measure == bare && q.value == count {
			continue
		}
		others = append(others, q)
	}
	if len(others) == 2 && math.Abs((stone-others[0].value)/2-others[1].value) < 0.011 {
		return others[:1]
	}
	return others
}

// stoneAsWideAsTube says that a stone does not go in a tube which is no wider outside.
func (m *message) stoneAsWideAsTube(answer Reading, stone float64) (Reading, bool) {
	same := 0
	for _, q := range m.found {
		if (q.measure == length || q.measure == bare) && math.Abs(q.value-stone) < 0.001 {
			same++
		}
	}
	if same != 2 || !m.has("tube", "tubeset") || m.says("bur", "burr", "inside", "bore", "hole", "=id", "inner") {
		return Reading{}, false
	}
	wall := tubeset.UsualWallMM(stone)
	answer.Verdict = fmt.Sprintf("No: if the tube is %s outside, the stone is as wide as the tube and nothing is left to hold it. With a wall of %s such a tube takes a stone of about %s; your stone wants a tube of about %s.", mm(stone), mm(wall), mm(stone-wall), mm(stone+wall))
	return answer, true
}

// oneOfTube answers what the bore or the outside of a tube alone tells of a stone in it.
func (m *message) oneOfTube(answer Reading, tube *quantity, stone float64) (Reading, bool) {
	isBore := tube.role == "inner" || tube.role != "outer" && m.saysOneBetween(tube.first-6, tube.next+3, "inside", "id", "bore", "hole", "inner", "internal")
	falls := m.says("falls", "fell", "fall", "falling", "drops", "dropped", "drop", "goes through", "went through")
	switch ledge := (stone - tube.value) / 2; {
	case tube.value < 0.6*stone || tube.value > 2*stone:
		return Reading{}, false
	case isBore && ledge <= 0:
		answer.Verdict = fmt.Sprintf("No: the bore is %s, at least as wide as the stone, so the stone falls through. Take a tube with a smaller bore, or solder a sleeve of smaller tube inside this one. Don't squeeze it: that makes it oval.", mm(tube.value))
	case isBore && ledge/leastCovered < tubeset.LeastWallMM+0.05:
		answer.Verdict = fmt.Sprintf("No: a ledge of %s a side is not enough. Half the wall is the rule and 30 %% of it the least: with a wall of 0.4 mm the ledge is 0.12 to 0.2 mm.", mm(ledge))
	case isBore:
		answer.Verdict = fmt.Sprintf("It depends on the wall: the ledge is %s a side, which is the usual half of a wall of %s, and still enough for a wall up to %s thick.", mm(ledge), mm(2*ledge), mm(ledge/leastCovered))
	case falls && tube.value > stone:
		answer.Verdict = fmt.Sprintf("No: the bore of your %s tube is wider than the stone. Its wall must reach under the stone: the bore must be smaller than %s.", mm(tube.value), mm(stone))
	case m.says("bur", "burr", "burs", "burrs") && tube.value > stone:
		answer.Notes = append(answer.Notes, fmt.Sprintf("the bur is as wide as the stone in any tube; whether the %s tube serves depends on its wall", strings.TrimSpace(tube.typed(m))))
	default:
		return Reading{}, false
	}
	return answer, true
}

// inPairs reports whether a number counts pairs, each of which has two settings.
func (m *message) inPairs(q *quantity) bool {
	return m.saysOneBetween(q.first, q.next+1, "pair", "pairs", "pr", "prs")
}
