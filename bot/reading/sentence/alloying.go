package sentence

import (
	"fmt"
	"slices"
	"strings"
)

// purities are the parts of the pure metal in an alloy of silver.
var purities = map[string]float64{"sterling": 0.925, "fine-silver": 1, "silver-935": 0.935, "silver-960": 0.96, "fine-gold": 1}

// purity is the part of pure gold or silver in an alloy, and which of them.
func purity(a *metal) (part float64, pure string) {
	key := a.likeliestKey()
	for _, w := range strings.Fields(a.says) { // "gold 585" is a little more than 14 of 24
		if fineness[w] != "" && strings.Contains(key, "k-") {
			return parse(w) / 1000, "gold"
		}
	}
	if k, _, gold := strings.Cut(key, "k"); gold && isDigits(k) {
		return parse(k) / 24, "gold"
	}
	switch p := purities[key]; {
	case p == 0:
		return 0, ""
	case key == "fine-gold":
		return p, "gold"
	default:
		return p, "silver"
	}
}

// aboutAlloying: metal of one fineness to be made from another.
func (m *message) aboutAlloying() bool {
	if len(m.alloys) < 2 && !m.has("alloying") || m.of(mass) == nil || m.has("wax", "resin", "stone") || m.cues["band"] >= 6 {
		return false
	}
	return m.has("alloying") || m.says("raise", "lower", "bring", "up to", "down to", "add", "alloy", "use as", "turn into", "=turn", "convert to", "upgrade", "refine", "make it", "exact amounts") ||
		m.says("make", "get") && m.says("from") && m.says("how", "how much", "how do i")
}

// alloying works out what to melt with what, by the pure metal in each.
func (m *message) alloying() (Reading, bool) {
	from, to := m.alloySteps()
	q := m.of(mass)
	if from == nil || to == nil || q == nil {
		return Reading{}, false
	}
	a, pure := purity(from)
	b, other := purity(to)
	if pure == "" || pure != other || a == b {
		return Reading{}, false
	}
	q.used = true
	for _, one := range m.alloys {
		one.used = true
	}
	if len(m.unused()) > 0 {
		return Reading{}, false
	}
	ofTarget := m.nearestMetal(q) == to && to.first-q.next <= 2 && to.first >= q.next
	have, add, added := q.value, 0.0, "fine "+pure
	switch {
	case b > a && ofTarget:
		have = q.value * (1 - b) / (1 - a)
		add = q.value - have
	case b > a:
		add = q.value * (b - a) / (1 - b)
	case ofTarget:
		have = q.value * b / a
		add = q.value - have
	default:
		add = q.value * (a - b) / b
	}
	if b < a {
		added = "alloy (copper, or copper and silver; a ready master alloy is surer)"
		if pure == "silver" {
			added = "copper"
		}
	}
	if b == 1 {
		return Reading{}, false
	}
	text := fmt.Sprintf("Melt %.2f g of %s with %.2f g of %s: %.2f g of %s.", have, from.says, add, added, have+add, to.says)
	return Reading{Outcome: Explanation, Topic: "alloying", Source: "the pure metal in it stays the same; karat = parts of 24 by mass",
		Text: text + " Melt the metal that melts highest first, stir, pour and roll it out once, and melt it again so that it is even throughout. Only an assay tells its true fineness."}, true
}

// alloySteps finds which metal there is and which is wanted. A metal that is only
// added, "enough copper", is neither.
func (m *message) alloySteps() (from, to *metal) {
	var golds []*metal
	for _, a := range m.alloys {
		if _, pure := purity(a); pure != "" {
			golds = append(golds, a)
		}
	}
	golds = ofOneMetal(golds)
	if len(golds) == 3 { // "raise 14k to 18k, how much fine gold"
		if last := golds[2]; last.key == "fine-gold" || last.key == "fine-silver" {
			golds = golds[:2]
		}
	}
	if len(golds) != 2 {
		return nil, nil
	}
	first, second := golds[0], golds[1]
	between := " " + m.between(first.next, second.first) + " "
	if strings.Contains(between, " from ") || strings.Contains(between, " out of ") || strings.Contains(between, " using ") {
		return second, first
	}
	return first, second
}

// ofOneMetal leaves out metals that are no kin of the first two where those are: silver
// that goes into gold with copper.
func ofOneMetal(all []*metal) []*metal {
	if len(all) < 3 {
		return all
	}
	_, first := purity(all[0])
	_, second := purity(all[1])
	if first != second {
		return all
	}
	return slices.DeleteFunc(slices.Clone(all), func(a *metal) bool { _, pure := purity(a); return pure != first })
}

// aboutButton: an old button melted again with fresh metal.
func (m *message) aboutButton() bool {
	masses := 0
	for _, q := range m.found {
		if q.measure == mass {
			masses++
		}
	}
	return masses == 2 && m.says("button", "sprue", "scrap", "old", "used") && m.says("fresh", "new", "clean") && !m.has("wax")
}

// freshMetal tells how much fresh metal goes with an old button: at least half,
// which is common practice.
func (m *message) freshMetal() (Reading, bool) {
	var old, need *quantity
	for _, q := range m.found {
		if q.measure != mass {
			continue
		}
		before, after := m.between(max(0, q.first-3), q.first), m.between(q.next, q.next+3)
		switch {
		case need == nil && (strings.Contains(before, "need") || strings.Contains(before, "want") || strings.Contains(before, "pour")):
			need = q
		case old == nil && (strings.Contains(after, "button") || strings.Contains(after, "scrap") || strings.Contains(after, "old") || strings.Contains(after, "sprue") || strings.Contains(before, "have") || strings.Contains(before, "ve")):
			old = q
		}
	}
	if old == nil || need == nil || old.value <= 0 || need.value <= 0 {
		return Reading{}, false
	}
	use := min(old.value, need.value/2)
	text := fmt.Sprintf("Yes, if the button is clean: use %.1f g of it with %.1f g of fresh metal for %.1f g.", use, need.value-use, need.value)
	if use < old.value {
		text += fmt.Sprintf(" Keep the other %.1f g for the next pour: at least half of a melt should be fresh.", old.value-use)
	} else {
		text += " At least half of a melt should be fresh metal, and it is."
	}
	return Reading{Outcome: Explanation, Topic: "old buttons", Source: "common practice, no source",
		Text: text + " Clean off investment and oxide first; a button that was melted over and over, or that has solder in it, goes to the refiner."}, true
}
