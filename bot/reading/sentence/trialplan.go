package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Who reports on a trial piece mostly says what was planned, and what came out lies near it:
// "7.4 across the top, wanted 7.1". So the two figures find each other by the word for the
// plan and by their sizes, whatever else is said.

// plannedWords stand before what a piece was to measure, and plannedAfter behind it.
var (
	plannedWords = []string{"want", "wanted", "should", "supposed", "aimed", "aiming", "asked", "target", "instead", "meant", "planned", "plan", "place", "expected", "intended", "needed", "ordered", "aim", "whereas", "would"}
	plannedAfter = []string{"planned", "expected", "wanted", "intended", "asked", "target"}
	// reportWords tell that a piece was made and measured.
	reportWords = []string{"came", "=comes out", "come out", "ended up", "measures", "measured", "measuring", "obtained", "finished", "got", "turned out", "closed", "trial", "trials", "practice", "its now", "it is", "its", "mine is", "mines", "mikes", "after pressing", "gave", "pressed", "dapped", "raised"}
	heightWords = []string{"height", "high", "tall", "deep", "depth", "taller", "shorter in height"}
	baseWords   = []string{"base", "bottom", "foot", "narrow end", "small end", "lower", "lower end"}
	domeWords   = []string{"dome", "domes", "domed", "dapped", "hemisphere", "half ball", "cap"}
)

const (
	// planReach is how many words before a figure a word for the plan stands.
	planReach = 6
	// offAtMost is by what share of the plan a trial is off at most.
	offAtMost = 0.12
	// widestTrial in mm: what measures more is a ring's inside or its way round.
	widestTrial = 32
	// sameMeasure is the share by which figures of one place differ.
	sameMeasure = 0.02
	// thickestSheet in mm: two figures below it are of the sheet.
	thickestSheet = 1.3
)

// planned is what one place of a trial piece measured and was to measure, in mm.
type planned struct {
	end       string // rim, base, height or sheet
	got, plan float64
	gotOf     []*quantity
	planOf    *quantity
}

// trialByPlan tells how the next blank changes, where what came out is told beside what
// was planned.
func (m *message) trialByPlan() (Reading, bool) {
	if !m.beginsTalkOrWhole() || m.of(ringSize) != nil || m.has("bezel", "cab", "wax", "bangle", "hoop") || m.says("strip", "strips", "one way", "the line", "long line", "the bar", "check bar") || m.cues["bezel"] >= 3 || m.cues["saddle"] >= 5 || m.cues["melt"] > 0 || !m.says(reportWords...) && !m.askedOfMade() {
		return Reading{}, false
	}
	if m.says("ring", "rings", "finger") && !m.says("collar", "cone", "collet", "pressed", "pressing", "block") {
		return Reading{}, false // a finger ring's sizes
	}
	pairs, ok := m.plannedPairs()
	if !ok {
		return m.coneOffBy()
	}
	if m.says(domeWords...) {
		return m.domeByPlan(pairs)
	}
	if m.tunesWithout(pairs) {
		return Reading{}, false
	}
	return m.changesByPlan(pairs)
}

// askedOfMade reports whether a piece is told beside what was asked for: "the collet is 5.6
// tall and i asked for 6".
func (m *message) askedOfMade() bool {
	return m.says("=is", "=was") && m.says("asked for", "should be", "should have been", "supposed to be") && m.says("collet", "cone", "collar", "dome", "rim")
}

// plannedPairs are what was planned and what came out; there are none where a planned
// figure has no other near it.
func (m *message) plannedPairs() (all []planned, ok bool) {
	var plans, others []*quantity
	for _, q := range m.found {
		switch {
		case q.measure != length && q.measure != bare:
		case m.isPlanned(q):
			plans = append(plans, q)
		default:
			others = append(others, q)
		}
	}
	for _, plan := range plans {
		p := planned{plan: plan.value, planOf: plan, end: m.endOfTrial(plan)}
		for _, q := range others {
			if q.value != plan.value && math.Abs(q.value-plan.value) <= offAtMost*plan.value {
				p.gotOf = append(p.gotOf, q)
			}
		}
		if len(p.gotOf) == 0 || plan.value > widestTrial || apart(p.gotOf) > sameMeasure*plan.value*2 {
			return nil, false
		}
		for _, q := range p.gotOf {
			p.got += q.value / float64(len(p.gotOf))
		}
		if p.end == "" {
			p.end = m.endOfTrial(p.gotOf[0])
		}
		if max(p.plan, p.got) < thickestSheet {
			p.end = "sheet"
		}
		all = append(all, p)
	}
	return all, slices.ContainsFunc(all, func(p planned) bool { return p.end != "sheet" })
}

// apart is how far figures lie apart.
func apart(all []*quantity) float64 {
	v := valuesOf(all)
	return slices.Max(v) - slices.Min(v)
}

// isPlanned reports whether a figure is what a piece was to measure.
func (m *message) isPlanned(q *quantity) bool {
	if before := m.at(q.first - 1).text; before == "not" || m.at(q.first-2).text == "not" && (before == "a" || before == "the") {
		return true
	}
	if slices.ContainsFunc(strings.Fields(m.wordsBefore(q)), func(w string) bool { return slices.Contains(plannedWords, w) }) {
		return true
	}
	for i := q.next; i < min(len(m.tokens), q.next+3) && !m.inFigure(i) && m.at(i).text != "." && m.at(i).text != ","; i++ {
		if slices.Contains(plannedAfter, m.at(i).text) {
			return !m.inFigure(i + 1) // "7.4 wanted 7.1"
		}
	}
	return false
}

// wordsBefore are the few words before a figure, back to the figure or the stop before it.
func (m *message) wordsBefore(q *quantity) string {
	first := q.first
	if m.at(first-1).text == "," { // "target height: 5.00"
		first--
	}
	next := first
	for first > max(0, q.first-planReach-1) && !m.inFigure(first-1) && m.at(first-1).text != "." && m.at(first-1).text != "," {
		first--
	}
	return m.between(first, next)
}

// wordsBehind are the words behind a figure up to the next figure or stop.
func (m *message) wordsBehind(q *quantity) string {
	next := q.next
	for next < min(len(m.tokens), q.next+planReach) && !m.inFigure(next) && m.at(next).text != "." && m.at(next).text != "," {
		next++
	}
	return m.between(q.next, next)
}

// endOfTrial is the place of a trial that the words round a figure name, empty for none.
func (m *message) endOfTrial(q *quantity) string {
	clause := " " + m.wordsBefore(q) + " " + m.wordsBehind(q) + " "
	switch {
	case saidOf(clause, heightWords):
		return "height"
	case saidOf(clause, baseWords):
		return "base"
	case saidOf(clause, []string{"rim", "top", "mouth", "upper", "across", "diameter", "id", "od"}):
		return "rim"
	}
	return ""
}

// tunesWithout reports whether the report tells its stone beside what was planned: then
// tune works out more.
func (m *message) tunesWithout(pairs []planned) bool {
	m.release()
	r, ok := m.tune()
	m.release()
	if !ok || r.Outcome != Request || r.Options["size"] == "" {
		return false
	}
	return !slices.ContainsFunc(pairs, func(p planned) bool { return m.memory.holdsFigure(r.Options["size"], p.planOf) })
}

// changesByPlan tells the changes of the edges of a cone or a collar.
func (m *message) changesByPlan(pairs []planned) (Reading, bool) {
	told := map[*quantity]bool{}
	var changes []string
	for _, p := range pairs {
		told[p.planOf] = true
		for _, q := range p.gotOf {
			told[q] = true
		}
		switch {
		case p.end == "sheet":
			changes = append(changes, fmt.Sprintf("Ask for the blank again with the sheet thickness that you measured, %s mm.", plain2(p.got)))
		case p.end == "":
			p.end = "rim"
			fallthrough
		default:
			if len(p.gotOf) > 1 {
				changes = append(changes, fmt.Sprintf("The mean of your measures is %.2f mm.", p.got))
			}
			changes = append(changes, changeOf(p.end, p.plan-p.got))
		}
	}
	text := strings.Join(changes, " ") + changeOneThing
	if others := m.lengthsBut(told); others != "" {
		text += " The rest (" + others + ") I left as it is."
	}
	if sheet := m.sheetOfTrial(); sheet != "" && len(pairs) == 1 && (pairs[0].end == "" || pairs[0].end == "rim") && len(pairs[0].gotOf) == 1 {
		return Reading{Outcome: Question, Request: "tune", Missing: "size", Options: map[string]string{"rimgot": plain(pairs[0].got), "thickness": sheet},
			Ask: strings.Join(changes, " ") + " Which stone was it for? Then I can keep the correction for this sheet."}, true
	}
	return nextBlank(text + " " + keepIt)
}

// sheetOfTrial is the gauge of the sheet that a report names, empty for none.
func (m *message) sheetOfTrial() string {
	for _, q := range m.found {
		if q.measure == gauge {
			return m.draft("tune").shown("thickness", q)
		}
	}
	return ""
}

// domeByPlan tells the disc of the next dome: at the same width its area grows with the
// height squared, and in proportion it grows as the dome does.
func (m *message) domeByPlan(pairs []planned) (Reading, bool) {
	if len(pairs) != 1 || pairs[0].end == "sheet" {
		return Reading{}, false
	}
	p := pairs[0]
	var disc *quantity
	for _, q := range m.found {
		if (q.measure == length || q.measure == bare) && q != p.planOf && !slices.Contains(p.gotOf, q) && q.value > max(p.got, p.plan) && q.value < 8*p.plan {
			if disc != nil {
				return Reading{}, false
			}
			disc = q
		}
	}
	if disc == nil {
		return m.domeInProportion(p)
	}
	next, how := disc.value*p.plan/p.got, "in proportion"
	if p.end == "height" {
		squared := disc.value*disc.value + 4*(p.plan*p.plan-p.got*p.got)
		if squared <= 4*p.plan*p.plan {
			return Reading{}, false
		}
		next, how = math.Sqrt(squared), "with the same width across"
	}
	return worked(trialTopic, "the area of a cap is pi x (half its width squared + its height squared), as is that of its disc but for what the sheet stretches",
		fmt.Sprintf("Cut the next disc %.1f mm across: the trial dome came out %s mm and not the %s mm that you planned, from a disc of %s, and I worked it out %s. Raise it in the same block with the same punches, so that the sheet stretches as it did.", next, plain2(p.got), plain2(p.plan), mm(disc.value), how))
}

// domeInProportion tells how the disc changes of which no width is told.
func (m *message) domeInProportion(p planned) (Reading, bool) {
	if p.end == "height" {
		return Reading{}, false
	}
	return worked(trialTopic, "a dome and its disc grow alike",
		fmt.Sprintf("Make the next disc %.3f times as wide as the last: the dome came out %s mm across instead of %s mm. Use the same block, punches and number of rounds: with others the sheet stretches otherwise, and this figure no longer holds.", p.plan/p.got, plain2(p.got), plain2(p.plan)))
}

// Words that tell on which side a formed cone is by what its stone does.
var (
	stoneFalls  = []string{"falls", "fell", "drops", "dropped", "rattles", "rattle", "slips", "loose", "too big", "too wide", "too large", "bigger", "wider", "larger"}
	stoneSticks = []string{"wont go", "won't go", "doesnt go", "doesn't go", "wont drop", "won't drop", "wont fit", "doesnt fit", "too small", "too tight", "too narrow", "tight", "smaller", "narrower"}
	// asksOfNext ask what is to be changed.
	asksOfNext = append([]string{"trim", "take off", "take out", "what do i", "what now", "new blank", "blank", "how much", "fix"}, asksNext...)
)

// coneOffBy tells how the next blank changes, where it is told by how much a cone's mouth
// is off: "stone falls straight through, like half a mm".
func (m *message) coneOffBy() (Reading, bool) {
	if !m.says("cone", "collet", "collar", "mouth", "rim", "tapered setting") || !m.says(asksOfNext...) && !m.says("planned", "than plan", "than the plan") || m.says(alongStrip...) || m.says("height", "high", "tall") || m.says("long", "length") && !m.says("across", "rim", "top", "mouth", "through") {
		return Reading{}, false
	}
	falls, sticks := m.says(stoneFalls...), m.says(stoneSticks...)
	var off *quantity
	for _, q := range m.found {
		switch {
		case q.measure == gauge || q.measure == count || q.role == "thickness":
		case (q.measure == length || q.measure == bare) && q.value <= 1 && off == nil && q.value >= 0.05:
			off = q
		default:
			return Reading{}, false // a stone or what was measured: tune
		}
	}
	if off == nil || falls == sticks {
		return Reading{}, false
	}
	difference := off.value
	if falls {
		difference = -difference
	}
	return nextBlank(changeOf("rim", difference) + changeOneThing + " " + keepIt)
}
