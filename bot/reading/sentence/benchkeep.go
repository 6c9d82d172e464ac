package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/bot/reading/written"
)

// benchNames are the defaults that a bench keeps, with the words for each. Longer
// names stand before those that they hold.
var benchNames = []struct {
	option string
	says   []string
}{
	{"wax-density", []string{"wax", "wax density"}},
	{"filing", []string{"filing", "seam", "seams", "joint allowance", "the joint"}},
	{"thickness", []string{"gauge", "gage", "thickness", "my sheet", "thick"}},
	{"paper", []string{"paper", "a4", "letter", "=a3", "printer"}},
	{"units", []string{"units", "inches", "inch", "mm", "metric", "imperial"}},
	{"lean", []string{"block angle", "lean", "angle", "degrees"}},
	{"ledge", []string{"ledge", "bearing"}},
	{"rim", []string{"rim"}},
	{"clearance", []string{"clearance", "play"}},
	{"truing", []string{"truing"}},
	{"shrink", []string{"shrink", "shrinkage"}},
	{"button", []string{"button"}},
	{"block", []string{"block"}},
	{"press", []string{"press"}},
	{"corner", []string{"corner", "corners"}},
	{"system", []string{"ring size", "ring sizes", "size system"}},
	{"alloy", []string{"metal", "alloy", "silver", "gold", "copper"}},
	{"memory", []string{"memory"}},
	{"allowance", []string{"depth allowance", "height allowance", "allowance"}},
}

// benchFigures are the defaults in figures that may be set by their word and what the
// figure most likely measures, in mm.
var benchFigures = map[string][2]float64{"filing": {0, 3}, "ledge": {0, 3}, "rim": {0, 10}, "clearance": {0, 1}, "truing": {0, 3}, "allowance": {0, 20}}

// dropsDefault are words that take a default back.
var dropsDefault = []string{"scratch", "forget", "delete", "remove", "reset", "get rid of", "drop", "clear my", "clear the", "clear all", "no more", "off the list", "lose the", "back to normal", "stop using", "wipe", "=unset", "take off", "ditch", "vergiss"}

// forgetful tell of somebody who forgets, which takes nothing back.
var forgetful = []string{"i forget", "i always forget", "i keep forgetting", "they forget", "they always forget", "students forget", "people forget", "everyone forgets", "everybody forgets", "he forgets", "she forgets", "we forget", "pupils forget", "never forget", "dont forget"}

// asksSettings are words that ask for what is kept.
var asksSettings = []string{"what are", "show", "whats", "what is", "defaults", "settings", "tell me", "which", "does it remember", "have you got", "what have you", "what happens if", "how do i set"}

// bench reads defaults to keep, to drop and to show.
func (m *message) bench() (Reading, bool) {
	surely := m.chance("bench") >= plainly || m.tooShort() && m.chance("bench") >= sureOfFew
	d := m.draft("bench")
	m.takePaperNames()
	if surely && m.asksOfSettings() {
		m.useAll()
		return d.reading(), true
	}
	if m.says(dropsDefault...) {
		if name := m.dropped(); name != "" {
			m.useAll()
			d.say("drop", name)
			return d.reading(), true
		}
	}
	d.benchWords(surely)
	d.figuresReplaced()
	d.defaultsGone()
	d.angles()
	d.benchFigures(surely)
	d.benchThickness(surely)
	d.alloy("alloy", true)
	ours := m.says("my channel", "this channel", "everyone", "everybody", "whole channel")
	mine := m.says("except me", "but me", "just me", "only me", "for me", "mine", "mines", "my own", "nobody else")
	if ours && !mine && len(d.options) > 0 {
		d.say("scope", "channel")
	}
	if len(d.options) == 0 && d.ask == "" && len(m.unused()) == 0 {
		return m.settings(d, surely)
	}
	return d.reading(), len(d.options) > 0 || d.ask != "" || surely
}

// asksOfSettings reports whether a message is a question about what is kept, so that
// no figure or metal in it is kept.
func (m *message) asksOfSettings() bool {
	return m.startsWith("which", "what", "whats", "does", "how do", "how can", "why", "is there", "am i", "so what", "so which", "tell me which") && !m.says("from now on", "remember", "change", "and set", "keep it", "keep this")
}

// takePaperNames takes the figure of "A4", which measures nothing.
func (m *message) takePaperNames() {
	for _, q := range m.found {
		if m.at(q.first).glued && m.at(q.first-1).text == "a" && q.measure == bare {
			q.used = true
		}
	}
}

// saysA4 reports whether the paper A4 is named.
func (m *message) saysA4() bool {
	for i, t := range m.tokens {
		if m.denied(i) {
			continue
		}
		if t.text == "a4" || t.text == "a" && m.at(i+1).text == "4" && m.at(i+1).glued {
			return true
		}
	}
	return false
}

// settings shows what is kept, and says so where the wish was for something else.
func (m *message) settings(d *draft, surely bool) (Reading, bool) {
	asked := m.says(asksSettings...)
	if !asked && !surely {
		return Reading{}, false
	}
	if !asked {
		d.note("nothing is changed: these are the defaults that I keep, and the word for each; what isn't among them can't be set")
	}
	return d.reading(), true
}

// dropped is the default that is taken back, empty where none is named or where
// another is named in its place.
func (m *message) dropped() string {
	if m.says("set something else", "=instead", "gone over", "=im back on", "im on", "were on", "=we use", "i use", "i have now", "change to", "drop it to", "drop that to", "drop to", "down to", "make it", "switch to", "from now on") {
		return ""
	}
	if m.says(forgetful...) && !m.says("drop", "delete", "remove", "reset", "wipe", "clear my", "clear the", "clear all") {
		return ""
	}
	if len(m.alloys) > 1 {
		return "" // one of them takes the place of the other
	}
	if m.onlyPaper(true) != "" {
		return "" // the other paper is taken back
	}
	for _, n := range benchNames {
		if m.says(n.says...) && !(n.option == "allowance" && m.says("kerf")) {
			return n.option
		}
	}
	if m.of(gauge) != nil {
		return "thickness"
	}
	if m.says("everything", "all of it", "all my", "my settings", "my defaults", "the lot") && !m.says("but", "except") {
		return "all"
	}
	return ""
}

// defaultsGone leaves out figures that were the default until now: "at 18 ga, drop it
// to 26". What takes a gauge's place is one.
func (d *draft) defaultsGone() {
	m := d.m
	var gone *quantity
	for _, q := range m.found {
		role, chance := m.likelyRole("bench", q)
		if role != written.Retracted || chance < trialRole || q.used {
			continue
		}
		gone, q.used = q, true
		d.note("%s is left out, since it no longer holds", strings.TrimSpace(q.typed(m)))
	}
	if gone == nil || gone.measure != gauge || m.of(gauge) != nil {
		return
	}
	for _, q := range m.found {
		if q.measure == bare && !q.used && q.value == math.Trunc(q.value) && q.value >= 10 && q.value <= 36 {
			d.set("thickness", q)
			d.say("thickness", q.shown+"ga")
			d.note("%s is read as a gauge number", q.shown)
			return
		}
	}
}

// benchWords takes units, paper and the system of ring sizes.
func (d *draft) benchWords(surely bool) {
	m := d.m
	if unit := m.unitInstead(); unit != "" {
		d.say("units", unit)
	} else if u := m.meaning("units:"); len(u) > 0 && u[0] == "inch" && m.says(metricWords...) && !m.says("not", "no", "never", "dont", "instead of") {
		d.question("units", "In which unit shall I answer?", d.with("mm", "units", "mm"), d.with("inches", "units", "inch"))
	} else if len(u) > 0 {
		d.say("units", u[0])
	} else if unit := m.onlyUnit(); surely && unit != "" {
		d.say("units", unit)
	}
	if paper := m.onlyPaper(surely); paper != "" {
		d.say("paper", paper)
	}
	if m.says("ring size", "ring sizes", "sizes") {
		for _, t := range m.tokens {
			if s := sizeSystems[t.text]; s != "" {
				d.say("system", s)
			}
		}
	}
}

// onlyUnit is the unit that is wanted where one alone is named, and not refused.
func (m *message) onlyUnit() string {
	if !m.unitAlone() || m.says("not mm", "no mm", "stop giving me mm", "no inches", "not inches", "no inch", "both", "forget") || m.asksWhy() {
		return ""
	}
	mm, inch := m.says("mm", "millimetres", "millimeters", "metric"), m.says("inch", "inches", "imperial", "thou", "thousandths")
	switch {
	case mm && !inch, mm && m.says("inch to mm", "inches to mm"):
		return "mm"
	case inch && !mm, inch && m.says("mm to inch", "mm to inches"):
		return "inch"
	}
	return ""
}

// The words for the units that are kept, and those that turn one away.
var (
	metricWords   = []string{"mm", "millimetres", "millimeters", "metric"}
	imperialWords = []string{"inch", "inches", "imperial"}
	turnsAway     = wordSet("stop no not dont never quit without drop ditch instead than hate")
)

// unitInstead is the unit that is wanted where the other is turned away: "stop doing inches".
func (m *message) unitInstead() string {
	switch {
	case len(m.found) > 0:
	case m.turnedAway(imperialWords):
		return "mm"
	case m.turnedAway(metricWords):
		return "inch"
	}
	return ""
}

// turnedAway reports whether one of the three words before a word turns it away.
func (m *message) turnedAway(words []string) bool {
	for i, t := range m.tokens {
		if !slices.Contains(words, t.text) {
			continue
		}
		for k := i - 1; k >= max(0, i-3) && m.at(k).word() && !slices.Contains(metricWords, m.at(k).text) && !slices.Contains(imperialWords, m.at(k).text); k-- {
			if turnsAway[m.at(k).text] {
				return true
			}
		}
	}
	return false
}

// unitAlone reports whether no figure is said, or a unit stands by itself beside those
// that are: "0.9 sheet, and mm please".
func (m *message) unitAlone() bool {
	for i := range m.tokens {
		if u, _ := m.unitAt(i, 1); u.measure == length && !m.at(i-1).number && !slices.ContainsFunc(m.found, func(q *quantity) bool { return q.first <= i && i < q.next }) {
			return true
		}
	}
	return len(m.found) == 0
}

// letterWords name the paper of that size, and not a letter.
var letterWords = []string{"letter paper", "letter size", "us letter", "letter size paper", "letter here", "on letter", "have letter", "paper letter", "paper to letter", "paper is letter", "letter always", "always letter", "papers always letter"}

// onlyPaper is the paper that is kept; of two, the one that isn't taken back.
func (m *message) onlyPaper(surely bool) string {
	named := m.meaning("paper:")
	if !surely {
		if len(named) > 0 {
			return named[0]
		}
		if m.saysA4() && !m.says("letter", "letter size") && m.says("print", "printer", "paper", "printouts") {
			return "a4"
		}
		return ""
	}
	letter, a4 := m.says(letterWords...) || slices.Contains(named, "letter"), m.saysA4()
	notA4 := m.says("forget a 4", "no a 4", "printed on a 4", "no more a 4", "instead of a 4", "never a 4")
	notLetter := m.says("no more letter", "not letter", "no letter", "forget letter", "quit using letter", "stop using letter", "been on letter", "was on letter", "instead of letter", "never letter")
	switch {
	case letter && !notLetter && (!a4 || notA4):
		return "letter"
	case a4 && !notA4 && (!letter || notLetter):
		return "a4"
	}
	return ""
}

// benchFigures takes the figures of defaults that are named beside them.
func (d *draft) benchFigures(surely bool) {
	m := d.m
	for _, name := range []string{"clearance", "rim"} {
		if q := m.with(name); q != nil && !q.used {
			d.set(name, q)
		}
	}
	for _, q := range m.found {
		if !surely && m.replacedBy(q) == nil {
			continue
		}
		if q.used || q.measure != bare && q.measure != length {
			continue
		}
		option := m.benchOption(q)
		limits, known := benchFigures[option]
		switch {
		case !known || q.value < limits[0] || q.value > limits[1]:
		case d.has(option) || option == "filing" && !m.says("filing") && m.replacedBy(q) == nil:
			q.used = true
			d.question("filing", fmt.Sprintf("Shall I keep %s mm as filing, the length that I add to a strip for truing its joint?", strings.TrimSuffix(q.shown, " mm")), d.with("yes, keep it", "filing", q.shown))
		default:
			d.set(option, q)
		}
	}
	d.setPercent("shrink", "shrink", "shrinkage")
}

// benchOption is the default whose name stands nearest before a figure, or else right
// after it.
func (m *message) benchOption(q *quantity) string {
	first := q.first
	if old := m.replacedBy(q); old != nil {
		first = old.first
	}
	for k := first - 1; k >= max(0, first-6) && !m.inFigure(k); k-- {
		if name := m.benchNameAt(k); name != "" {
			return name
		}
	}
	for k := q.next; k <= q.next+4 && !m.inFigure(k); k++ {
		if name := m.benchNameAt(k); name != "" {
			return name
		}
	}
	return ""
}

// benchNameAt is the default in figures that the word at i names. An allowance is the
// seam's where a seam is spoken of.
func (m *message) benchNameAt(i int) string {
	for _, n := range benchNames {
		if _, figure := benchFigures[n.option]; figure && slices.Contains(n.says, m.at(i).text) {
			switch {
			case n.option != "allowance":
			case m.says("kerf", "blade", "saw"):
				return ""
			case m.says("filing", "seam", "seams", "joint"):
				return "filing"
			}
			return n.option
		}
	}
	return ""
}

// setPercent takes a percentage for a default that is named.
func (d *draft) setPercent(option string, says ...string) {
	if q := d.m.of(percent); q != nil && !q.used && d.m.says(says...) {
		d.set(option, q)
	}
}

// leastAlone and mostAlone bound a figure that alone may be the sheet that is always used,
// in mm.
const leastAlone, mostAlone = 0.3, 1.5

// namesDefault reports whether a default is named by its word.
func (m *message) namesDefault() bool {
	for _, n := range benchNames {
		if m.says(n.says...) {
			return true
		}
	}
	return false
}

// benchThickness takes a thickness that is said to be one. Two are asked about.
func (d *draft) benchThickness(surely bool) {
	m := d.m
	for _, q := range m.found { // "set my gauge to 22"
		if q.measure == bare && !q.used && m.says("gauge", "gage") && q.value == float64(int(q.value)) && q.value >= 10 && q.value <= 36 {
			q.used = true
			d.say("thickness", q.shown+"ga")
		}
	}
	if d.has("thickness") {
		return
	}
	if q := m.with("thickness"); q != nil && q.measure == bare && q.value >= 10 {
		q.role = ""
		if q.value <= 36 && isCount(q) && surely {
			q.used = true
			d.say("thickness", q.shown+"ga")
			d.note("%s is read as a gauge number", q.shown)
			return
		}
	}
	if q := m.of(bare, length); surely && q != nil && len(m.found) == 1 && q.value >= leastAlone && q.value <= mostAlone && !m.namesDefault() {
		q.used = true
		d.say("thickness", q.shown)
		d.note("%s is read as the thickness of your sheet, in mm", q.shown)
		return
	}
	said := len(m.alloys) > 0 || m.of(gauge) != nil || m.with("thickness", "wall") != nil || m.says("sheet", "metal", "thick", "stock", "strip", "wire")
	if !surely || said {
		d.thickness(3)
	}
}
