package sentence

import (
	"fmt"
	"math"
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
	if len(m.alloys) < 2 && len(m.fineMetals()) < 2 && !m.has("alloying") || m.of(mass) == nil || m.has("wax", "resin", "stone") || m.cues["band"] >= 6 {
		return false
	}
	return m.has("alloying") || m.says("raise", "lower", "bring", "up to", "down to", "add", "alloy", "use as", "turn into", "=turn", "convert to", "upgrade", "refine", "make it", "exact amounts", "lift", "how much copper", "how much fine", "how much alloy", "adding") ||
		m.says("make", "get") && m.says("from") && m.says("how", "how much", "how do i")
}

// fineMetal is a metal of a message with the part of pure gold or silver in it.
type fineMetal struct {
	part        float64
	pure, says  string
	first, next int
}

// fineMetals are the golds and silvers of a message in their order; a bare fineness, "30 g of
// 800 silver", is one, and the word silver beside it is none of its own.
func (m *message) fineMetals() []fineMetal {
	const poorest, finest, near = 700, 999, 3
	var all []fineMetal
	silver := m.says("silver", "sterling", "925")
	for _, q := range m.found {
		if silver && q.measure == length && m.at(q.next-1).text == "thousandths" { // no unit of an inch here
			part := m.at(q.first).value
			all = append(all, fineMetal{part: part / 1000, pure: "silver", says: "silver " + plain(part), first: q.first, next: q.next})
		}
		if silver && q.measure == bare && q.value >= poorest && q.value <= finest && q.value == math.Trunc(q.value) {
			all = append(all, fineMetal{part: q.value / 1000, pure: "silver", says: "silver " + plain(q.value), first: q.first, next: q.next})
		}
	}
	marked := slices.Clone(all)
	for _, a := range m.alloys {
		beside := len(a.among) > 1 && a.says == "silver" && slices.ContainsFunc(marked, func(f fineMetal) bool { return max(f.first-a.next, a.first-f.next) < near })
		if part, pure := purity(a); pure != "" && !beside {
			all = append(all, fineMetal{part: part, pure: pure, says: a.says, first: a.first, next: a.next})
		}
	}
	slices.SortStableFunc(all, func(a, b fineMetal) int { return a.first - b.first })
	return all
}

// alloying works out what to melt with what, by the pure metal in each.
func (m *message) alloying() (Reading, bool) {
	from, targets := m.alloySteps()
	m.bindOwnResult()
	q := m.of(mass)
	for _, other := range m.found {
		if q != nil && q.role == ownResult && other.measure == mass {
			q = other
		}
	}
	if len(targets) == 0 || q == nil {
		return Reading{}, false
	}
	q.used = true
	for _, one := range m.alloys {
		one.used = true
	}
	for _, q := range m.unused() {
		q.used = q.role == ownResult || slices.ContainsFunc(m.fineMetals(), func(f fineMetal) bool { return f.first == q.first })
	}
	if len(m.unused()) > 0 {
		return Reading{}, false
	}
	var steps []string
	for _, to := range targets {
		if to.pure != from.pure || to.part == from.part || to.part == 1 {
			return Reading{}, false
		}
		ofTarget := len(targets) == 1 && to.first >= q.next && to.first-q.next <= 2
		steps = append(steps, alloyStep(q.value, from, to, ofTarget))
	}
	return Reading{Outcome: Explanation, Topic: "alloying", Source: "the pure metal in it stays the same; karat = parts of 24 by mass",
		Text: m.ownGrams(steps[0]) + strings.Join(steps, " ") + " Melt the metal that melts highest first, stir, pour and roll it out once, and melt it again so that it is even throughout. Only an assay tells its true fineness."}, true
}

// ownGrams says whether the mass that the asker has worked out is one of those told.
func (m *message) ownGrams(step string) string {
	for _, q := range m.found {
		switch typed := strings.TrimSpace(q.typed(m)); {
		case q.role != ownResult:
		case strings.Contains(step, fmt.Sprintf("%.2f g", q.value)):
			return fmt.Sprintf("Yes, your %s is right. ", typed)
		default:
			return fmt.Sprintf("No, I don't get your %s. ", typed)
		}
	}
	return ""
}

// alloyStep tells what is melted with what, where the grams are of the metal that there is, or
// of the one that is wanted.
func alloyStep(grams float64, from, to fineMetal, ofTarget bool) string {
	a, b := from.part, to.part
	have, add, added := grams, 0.0, "fine "+from.pure
	switch {
	case b > a && ofTarget:
		have = grams * (1 - b) / (1 - a)
		add = grams - have
	case b > a:
		add = grams * (b - a) / (1 - b)
	case ofTarget:
		have = grams * b / a
		add = grams - have
	default:
		add = grams * (a - b) / b
	}
	if b < a {
		added = "alloy (copper, or copper and silver; a ready master alloy is surer)"
		if from.pure == "silver" {
			added = "copper"
		}
	}
	return fmt.Sprintf("Melt %.2f g of %s with %.2f g of %s: %.2f g of %s.", have, from.says, add, added, have+add, to.says)
}

// alloySteps finds which metal there is and which are wanted. A metal that is only
// added, "enough copper", is neither.
func (m *message) alloySteps() (from fineMetal, to []fineMetal) {
	all := ofOneMetal(m.fineMetals())
	if len(all) == 3 {
		q := m.of(mass)
		pure := slices.IndexFunc(all, func(f fineMetal) bool { return f.part == 1 })
		switch {
		case q == nil || pure < 0:
			return fineMetal{}, nil
		case pure == 0 && all[0].first-q.next >= 0 && all[0].first-q.next <= 2: // "22 g of fine silver for 925, and for 835"
			return all[0], all[1:]
		}
		all = slices.Delete(all, pure, pure+1) // "raise 14k to 18k, how much fine gold"
	}
	if len(all) != 2 {
		return fineMetal{}, nil
	}
	first, second := all[0], all[1]
	between := " " + m.between(first.next, second.first) + " "
	if strings.Contains(between, " from ") || strings.Contains(between, " out of ") || strings.Contains(between, " using ") {
		return second, []fineMetal{first}
	}
	return first, []fineMetal{second}
}

// ofOneMetal leaves out metals that are no kin of the first two where those are: silver
// that goes into gold with copper.
func ofOneMetal(all []fineMetal) []fineMetal {
	if len(all) < 3 || all[0].pure != all[1].pure {
		return all
	}
	return slices.DeleteFunc(slices.Clone(all), func(a fineMetal) bool { return a.pure != all[0].pure })
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
