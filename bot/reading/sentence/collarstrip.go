package sentence

import (
	"slices"
	"strings"
)

// A collar is made of a strip: how wide that is makes the collar's height.

// heightOfStrip takes the width of a collar's strip for its height.
func (d *draft) heightOfStrip() {
	m := d.m
	if d.has("height") || m.with("height") != nil || !m.context.takes(d.request, "height") {
		return
	}
	low, high := likelyRange["height"][0], likelyRange["height"][1]
	for _, q := range m.found {
		if q.used || q.measure != length && q.measure != bare || q.value < low || q.value > high || q.role != "width" && q.role != "strip" {
			continue
		}
		if m.with("length") != nil || !m.hasStoneBut(q) {
			return // the stone's own two measures
		}
		d.set("height", q)
		d.note("the strip's width, %s, is taken as the collar's height", strings.TrimSpace(q.typed(m)))
		return
	}
}

// hasStoneBut reports whether a message tells its stone's size in another figure than this.
func (m *message) hasStoneBut(q *quantity) bool {
	if m.stoneSides() != nil || m.with("diameter") != nil {
		return true
	}
	stone := m.besideStone()
	return stone != nil && stone != q
}

// deepSettings are things whose depth is the height of their wall, and deepStones those whose
// depth is a stone's own.
var (
	deepSettings = []string{"setting", "settings", "mount", "basket", "cone", "cones", "cup"}
	deepStones   = []string{"stone", "stones", "gem", "cab", "it", "its", "girdle", "table", "culet", "brilliant"}
)

// isSettingsDepth matches a depth that is said of the setting: "a setting about a quarter
// inch deep".
func (d *draft) isSettingsDepth(q *quantity) bool {
	m := d.m
	const farthest = 10
	if m.saysOneBetween(q.next+1, q.next+2, deepSettings...) {
		return true // "a 6 mm deep setting"
	}
	for i := q.first - 1; i >= 0 && i >= q.first-farthest; i-- {
		t := m.at(i)
		switch {
		case contains(deepSettings, t.text):
			return d.has("size") || m.hasStoneBut(q)
		case contains(deepStones, t.text), t.text == ".", m.inFigure(i), slices.ContainsFunc(m.senses, func(s sense) bool {
			return s.first <= i && i < s.next && (s.outline() != "" || contains(s.Means, "stone"))
		}):
			return false
		}
	}
	return false
}

// rimByTop gives the rim the figure by which a bearing lies under the top: "the seat is to be
// cut 1 mm down from the top edge".
func (m *message) rimByTop() {
	const near = 10
	for _, q := range m.found {
		if q.role != "" || q.used || q.measure != length && q.measure != bare || !m.likely("rim", q) || m.with("rim") != nil {
			continue
		}
		if words := m.between(q.next, min(len(m.tokens), q.next+4)); (strings.HasPrefix(words, "down from the top") || strings.HasPrefix(words, "below the top")) && m.saysOneBetween(max(0, q.first-near), q.first, "girdle", "bearing", "seat", "ledge", "shelf") {
			q.role = "rim"
		}
	}
}
