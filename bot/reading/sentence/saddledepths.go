package sentence

import (
	"fmt"
	"slices"
)

// baseOnRing tells how deep a setting's base is hollowed for a ring, where all that is told
// of the setting is how wide its base is: its stone has no part in that.
func (m *message) baseOnRing(r Reading) (Reading, bool) {
	wide := m.baseWidth()
	if wide == nil || !m.canAnswer("saddle") || m.of(size) != nil || !m.baseIsToSit(r) || !m.says("ring", "band", "shank") || !m.asksOfBase() {
		return Reading{}, false
	}
	asStone := r.Request == "saddle" && r.Outcome == Request && mmOf(r.Options["size"]) == wide.value
	if r.Outcome == Request && !asStone || r.Outcome == Explanation && factNamed(r.Topic) == nil {
		return Reading{}, false
	}
	if slices.ContainsFunc(m.found, func(q *quantity) bool { return q.measure == carat || q.measure == mass }) {
		return Reading{}, false
	}
	told, ok := m.depthOfSaddle()
	if tall := m.with("height"); ok && tall != nil && tall != wide {
		told.Text += fmt.Sprintf(" The setting then stands that much lower than its %s.", mm(tall.value))
	}
	return told, ok
}

// baseIsToSit reports whether a setting is to sit on a ring, and nothing is drawn for it.
func (m *message) baseIsToSit(r Reading) bool {
	if m.says("template", "pattern", "blank", "corners", "fishmouth") {
		return false
	}
	plainly := m.says("sit", "sits", "stand", "stands", "saddle", "sagitta")
	return plainly || r.Request == "saddle" && m.says("deep", "lower", "lose") && !m.has("tube") && m.cues["bezel"] < 3
}

// asksOfBase reports whether a message asks how a base is cut to a ring, or what that takes
// off its height.
func (m *message) asksOfBase() bool {
	return m.says("deep", "depth", "sagitta", "rounding", "scoop", "curve", "height is lost", "height lost", "lower", "lose", "taken off", "how do", "how to", "how much")
}

// burOfSaddle tells which rod or file has the curve of a ring that is told by its size.
func (m *message) burOfSaddle(r Reading) (Reading, bool) {
	if r.Outcome != Question || r.Request != "saddle" || m.of(size) != nil || !m.says("=bur", "=burr", "=file", "=rod", "=drill") {
		return Reading{}, false
	}
	for _, q := range m.found {
		role, chance := m.likelyRole("saddle", q)
		if q.measure == bare && role == "shank" && chance >= likelyRole && isFingerRound(q) {
			q.measure, q.unit, q.system = ringSize, true, "iso"
		}
	}
	return m.rodOfSaddle()
}
