package sentence

import (
	"math"
	"slices"
	"strings"
)

// measuredWords say that a figure was measured, and not told by somebody.
var measuredWords = []string{"measured", "measure", "measures", "calipers", "caliper", "callipers", "calliper", "micrometer", "actually", "really", "comes to"}

// measuredAgain keeps one of several figures for one measure: the size that was
// measured beside the one that was told, and the largest of three or more
// measures that are all but alike, because the stone must go in.
func (m *message) measuredAgain() {
	m.measuredSize()
	m.largestOfSeveral()
}

func (m *message) measuredSize() {
	if m.says(formedWords...) { // of a piece, and not of its stone
		return
	}
	for k := range m.found {
		for l := k + 1; l < len(m.found); l++ {
			a, b := m.found[k], m.found[l]
			if a.measure != size || b.measure != size || len(a.sides) != 2 || len(b.sides) != 2 || !alike(a, b) {
				continue
			}
			told, kept := a, b
			switch measuredA, measuredB := m.saidMeasured(a), m.saidMeasured(b); {
			case !measuredA && !measuredB && !m.told(a) && !m.told(b):
				continue
			case measuredA && !measuredB || m.told(b) && !m.told(a):
				told, kept = b, a
			}
			m.assume("%s counts, as you measured it; %s is left out", strings.TrimSpace(kept.typed(m)), strings.TrimSpace(told.typed(m)))
			m.found = slices.DeleteFunc(m.found, func(q *quantity) bool { return q == told })
			return
		}
	}
}

// alike reports whether two sizes may be of one stone.
func alike(a, b *quantity) bool {
	for i := range a.sides {
		if math.Abs(a.sides[i]-b.sides[i]) > 0.12*a.sides[i] {
			return false
		}
	}
	return true
}

// saidMeasured reports whether the words just before a figure say that it was
// measured.
func (m *message) saidMeasured(q *quantity) bool {
	for k := q.first - 1; k >= max(0, q.first-6); k-- {
		if m.inFigure(k) {
			return false
		}
		if slices.Contains(measuredWords, m.at(k).text) {
			return true
		}
	}
	return false
}

// told reports whether the words just before a figure say that somebody else gave
// it: the seller, the packet, the listing.
func (m *message) told(q *quantity) bool {
	for k := q.first - 1; k >= max(0, q.first-5); k-- {
		if m.inFigure(k) {
			return false
		}
		switch m.at(k).text {
		case "said", "says", "packet", "label", "listing", "listed", "sold", "seller", "told", "supposed", "meant", "nominal", "nominally", "calibrated", "invoice", "ordered":
			return !slices.Contains(measuredWords, m.at(k-1).text) && m.at(k-1).text != "calipers"
		}
	}
	return false
}

// averageBefore drops the readings that a maker has averaged: "8.13 average across
// four measurements (8.08, 8.15, 8.11, 8.18)".
func (m *message) averageBefore(readings []*quantity) bool {
	if !m.says("average", "averaged", "avg", "mean", "on average", "averages") || m.found[0] != readings[0] {
		return false
	}
	m.assume("%s is taken, the average that you gave", readings[0].shown)
	m.found = slices.DeleteFunc(m.found, func(q *quantity) bool {
		return slices.Contains(readings[1:], q) || q.measure == count && q.thing == ""
	})
	return true
}

// largestOfSeveral keeps the largest of measures of one thing: "11.8 11.9 11.7".
func (m *message) largestOfSeveral() {
	var near []*quantity
	for _, q := range m.found {
		if q.measure != bare && q.measure != length || q.value < 2 || q.other != nil {
			continue
		}
		if len(near) > 0 && math.Abs(near[0].value-q.value) > 0.05*near[0].value {
			if len(near) >= 3 {
				break
			}
			near = nil
		}
		near = append(near, q)
	}
	if len(near) < 3 || !slices.ContainsFunc(near, func(q *quantity) bool { return q.value != near[0].value }) || m.has("jumpring") || m.says("one way", "the other way", "by the other") {
		return
	}
	for i := 2; i < len(near); i++ { // the readings themselves stand side by side
		if near[i].first-near[i-1].next > 2 {
			return
		}
	}
	if m.averageBefore(near) {
		return
	}
	most := near[0]
	for _, q := range near {
		if q.value > most.value {
			most = q
		}
	}
	var said []string
	for _, q := range near {
		said = append(said, q.shown)
	}
	at := near[0]
	m.assume("%s is taken, the largest of %s, because the stone must go in", most.shown, strings.Join(said, ", "))
	at.value, at.shown, at.measure, at.unit = most.value, most.shown, most.measure, most.unit
	for _, q := range near {
		if q.role != "" && at.role == "" {
			at.role = q.role
		}
	}
	m.found = slices.DeleteFunc(m.found, func(q *quantity) bool { return q != at && slices.Contains(near, q) })
}
