package sentence

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"guildhand/bot/reading/written"
)

// A message that as a whole reports on a trial piece is read by what package figures
// says of each figure: what was measured, what was planned, and the stone.

// trialRole is the chance from which a figure of a trial is taken for what it most
// likely measures.
const trialRole = 0.85

// namedTrialRole is enough where a trial is spoken of.
const namedTrialRole = 0.6

// trialEnds are the measures of a trial piece: the option that takes what was
// measured, the role of what was planned, and the words that name the place.
var trialEnds = []struct {
	name, got, planned string
	says               []string
}{
	{"rim", "rimgot", "rim", []string{"rim", "top", "mouth", "upper", "upper edge", "large edge", "wide bit", "wide end", "big end"}},
	{"base", "basegot", "basesize", []string{"base", "bottom", "foot", "narrow bit", "narrow end", "small end", "lower edge"}},
	{"height", "heightgot", "height", []string{"height", "high", "tall"}},
}

// trialPlaces are the options of tune that a figure of a report may be.
var trialPlaces = []string{"rimgot", "basegot", "heightgot", "height", "size", "depth", "thickness"}

// trialNotes say what becomes of figures that tune doesn't take.
var trialNotes = map[string]string{
	"rim":             "the size that you wanted follows from the setting, so %s is not needed",
	"basesize":        "the size that you wanted follows from the setting, so %s is not needed",
	written.Result:    "%s alone doesn't tell what was measured: I work from what rim and base measured",
	written.Retracted: "%s is left out, since you took it back",
	written.Idle:      "%s is not needed for this",
}

// trialReport reads a message that most likely reports on a trial piece.
func (m *message) trialReport() (Reading, bool) {
	if r, ok := m.keptCorrections(); ok {
		return r, true
	}
	if r, ok := m.otherTrial(); ok {
		return r, true
	}
	if m.ofAnotherTrial() {
		return m.askOfOtherTrial()
	}
	m.release()
	if r, ok := m.tune(); ok {
		return r, true
	}
	m.release()
	roles := m.trialRoles()
	if !slices.ContainsFunc(m.found, func(q *quantity) bool { return roles[q] == "size" }) && m.stoneSides() == nil {
		if r, ok := m.trialDifference(); ok {
			return r, true
		}
		if r, ok := m.changeByRoles(roles); ok {
			return r, true
		}
	}
	if r, ok := m.offByRoles(m.perhapsResults(roles)); ok {
		return r, true
	}
	return m.askOfTrial(roles), true
}

// perhapsResults are roles with those figures that rather are results than anything else:
// whether one is tells the word beside it, "0.15 under".
func (m *message) perhapsResults(roles map[*quantity]string) map[*quantity]string {
	all := maps.Clone(roles)
	for _, q := range m.found {
		if role, chance := m.likelyRole("tune", q); all[q] == "" && role == written.Result && chance >= resultRole && q.value <= mostOff {
			all[q] = role
		}
	}
	return all
}

// offByRoles tells how the next blank changes, where no end was measured and it is told
// by how much each was off: "0.2 big at the rim, 0.1 under at the base".
func (m *message) offByRoles(roles map[*quantity]string) (Reading, bool) {
	var changes []string
	for _, q := range m.found {
		switch role := roles[q]; {
		case strings.HasSuffix(role, "got") && q.value > mostOff:
			return Reading{}, false
		case role != written.Result && !strings.HasSuffix(role, "got") || q.measure != length && q.measure != bare || q.value > mostOff:
			continue
		}
		if change, ok := m.offBy(q); ok {
			changes = append(changes, change)
		}
	}
	if len(changes) == 0 {
		return Reading{}, false
	}
	return nextBlank(strings.Join(changes, " ") + changeOneThing + " " + keepIt)
}

// offBy tells how the next blank changes where a figure says by how much an end was off:
// "the mouth is 0.15 mm under".
func (m *message) offBy(q *quantity) (string, bool) {
	clause := " " + m.clauseOf(q) + " "
	larger, smaller := saidOf(clause, offLarger), saidOf(clause, offSmaller)
	if larger == smaller {
		return "", false
	}
	difference := q.value
	if larger {
		difference = -difference
	}
	end := "rim"
	for _, e := range trialEnds {
		if saidOf(clause, e.says) {
			end = e.name
		}
	}
	return changeOf(end, difference), true
}

// mostOff is by how many mm a trial piece is off at most.
const mostOff = 2.0

// Words that tell on which side of the plan a measure of a trial piece is.
var (
	offLarger  = []string{"over", "big", "bigger", "large", "larger", "wide", "wider", "long", "longer", "tall", "taller", "high", "higher", "above", "loose"}
	offSmaller = []string{"under", "small", "smaller", "short", "shorter", "shy", "narrow", "narrower", "low", "lower", "below", "tight", "less"}
)

// clauseOf is what stands round a figure up to the next comma or stop.
func (m *message) clauseOf(q *quantity) string {
	first, next := q.first, q.next
	for first > 0 && m.at(first-1).text != "," && m.at(first-1).text != "." {
		first--
	}
	for next < len(m.tokens) && m.at(next).text != "," && m.at(next).text != "." {
		next++
	}
	return m.between(first, next)
}

// ofAnotherTrial reports whether the trial was of a piece that tune doesn't know.
func (m *message) ofAnotherTrial() bool {
	return m.cues["bezel"] >= 3 || m.has("cab", "wax", "bangle", "hoop") || m.cues["saddle"] >= 5 || m.cues["dome"] >= 3 || m.of(ringSize) != nil
}

// trialRoles are what the figures surely measure.
func (m *message) trialRoles() map[*quantity]string {
	roles := map[*quantity]string{}
	least := trialRole
	switch {
	case m.chance("tune") >= certain:
		least = perhapsRole
	case m.has("trial"):
		least = namedTrialRole
	}
	for _, q := range m.found {
		if role, chance := m.likelyRole("tune", q); chance >= least {
			roles[q] = role
		}
	}
	return roles
}

// oneWith is the only figure with a role, nil for none and for several.
func oneWith(roles map[*quantity]string, role string) *quantity {
	var one *quantity
	for q, r := range roles {
		if r != role {
			continue
		}
		if one != nil {
			return nil
		}
		one = q
	}
	return one
}

// changeByRoles tells how the next blank changes, where a measure of a named end is
// told with what was planned, and no stone.
func (m *message) changeByRoles(roles map[*quantity]string) (Reading, bool) {
	var changes []string
	told := map[*quantity]bool{}
	for _, end := range trialEnds {
		got, planned := oneWith(roles, end.got), oneWith(roles, end.planned)
		if got == nil || planned == nil || !m.says(end.says...) || !plainMM(got) || !plainMM(planned) || !nearPlan(got, planned) {
			continue
		}
		told[got], told[planned] = true, true
		changes = append(changes, changeOf(end.name, planned.value-got.value))
	}
	if len(changes) == 0 {
		return Reading{}, false
	}
	text := strings.Join(changes, " ") + changeOneThing
	if others := m.lengthsBut(told); others != "" {
		text += " The rest (" + others + ") is for tune."
	}
	return nextBlank(text + " " + keepIt)
}

// keepIt says how a correction is kept.
const keepIt = "For a correction that is kept for your metal and thickness, tell me the stone, the metal and what rim and base measured: tune oval 8x6 depth 4 sterling 22ga rimgot 9.16x7.16 basegot 7.48x5.48."

// plainMM reports whether a figure is a plain measure in mm: a bare one under 0.8 is
// rather in inches.
func plainMM(q *quantity) bool {
	return q.measure == length || q.measure == bare && q.value >= 0.8
}

// nearPlan reports whether a measure is near enough to the plan to be corrected.
func nearPlan(got, planned *quantity) bool {
	return got.value != planned.value && math.Abs(got.value-planned.value) <= 0.25*planned.value
}

// changeOf is how the next blank changes where an end was off by a difference in mm,
// positive where the piece is to become larger.
func changeOf(end string, difference float64) string {
	off := math.Abs(difference)
	if end == "height" {
		return fmt.Sprintf("The trial's height was off by %.2f mm: make the next blank %.2f mm %s. Along a leaning wall that is the same figure divided by the cosine of the lean.", off, off, whichWay(difference, "higher", "lower"))
	}
	return fmt.Sprintf("The trial's %s was off by %.2f mm across: cut that edge of the next blank %.2f mm %s, pi times the difference. Take half of that if you measured only once.", end, off, math.Pi*off, whichWay(difference, "longer", "shorter"))
}

func whichWay(difference float64, more, less string) string {
	if difference < 0 {
		return less
	}
	return more
}

// lengthsBut lists the lengths that are not among those told.
func (m *message) lengthsBut(told map[*quantity]bool) string {
	var others []string
	for _, q := range m.found {
		if !told[q] && (q.measure == length || q.measure == bare || q.measure == size || q.measure == gauge) {
			others = append(others, strings.TrimSpace(q.typed(m)))
		}
	}
	return strings.Join(others, ", ")
}

// askOfTrial is the trial as far as it is told, and what else tune needs.
func (m *message) askOfTrial(roles map[*quantity]string) Reading {
	m.release()
	d := m.draft("tune")
	d.places = []place{{"rimgot", "measured rim", 0.8, 100}, {"basegot", "measured base", 0.8, 100}, {"heightgot", "measured height", 0.8, 90}}
	d.outline()
	for _, q := range m.found {
		role := roles[q]
		switch note := trialNotes[role]; {
		case note != "":
			q.used = true
			d.note(note, strings.TrimSpace(q.typed(m)))
		case slices.Contains(trialPlaces, role) && !d.has(role) && q.fitsTrial(role):
			d.set(role, q)
		case q.measure == bare && q.value < 0.8:
			q.used = true
			d.question("rimgot", fmt.Sprintf("Is %s in inches or in mm, and what did it measure? Say it with its unit, such as \"rim %s in\".", q.shown, q.shown))
		case q.measure == count:
			q.used = true
			d.note("worked out for one trial; you said %s", strings.TrimSpace(q.typed(m)))
		}
	}
	d.alloy("alloy", false)
	if m.says("inside", "inner") && !m.says("outside", "outer") {
		d.say("face", "inner")
	}
	d.needStone(false)
	if !d.has("rimgot") && !d.has("basegot") {
		d.question("rimgot", "What did the formed rim measure outside, length x width in mm?")
	}
	return d.reading()
}

// fitsTrial reports whether a figure can be an option of a trial.
func (q *quantity) fitsTrial(option string) bool {
	switch option {
	case "rimgot", "basegot", "size":
		return q.measure == size && len(q.sides) == 2 || plainMM(q)
	case "thickness":
		return q.measure == gauge || (q.measure == length || q.measure == bare) && q.value >= 0.15 && q.value <= 3
	}
	return plainMM(q)
}

// cameOut tell what a piece that was made measures, and meantToBe what it was to be.
var (
	cameOut   = []string{"came out", "comes out", "come out", "ended up", "turned out", "finished at", "finish at", "finished up", "measured up at", "after pressing", "after forming", "off your blank", "from your blank"}
	meantToBe = []string{"instead of", "supposed to be", "supposed to", "should be", "should have been", "wanted", "meant to be", "not the", "asked for", "planned"}
)

// resultRole is the chance from which a figure tells what came out.
const resultRole = 0.4

// ofResult asks about a piece that was read from what another came out at: its measures
// are none of the next one's.
func (m *message) ofResult(r Reading) (Reading, bool) {
	if r.Outcome != Request || !makesPiece[r.Request] || len(r.Changed) > 0 || !m.says(cameOut...) || !m.says(meantToBe...) || !m.usesResult(r) {
		return Reading{}, false
	}
	if trial, ok := m.trialReport(); ok && trial.Outcome != Request {
		return trial, true
	}
	return Reading{Outcome: Question, Request: r.Request, Options: r.Options, Notes: r.Notes,
		Ask:     "Is one of those figures what your last piece measured? Give me its stone, its metal and what the rim measures now, and I will correct the next blank: tune oval 8x6 depth 4 sterling 22ga rimgot 9.16x7.16",
		Choices: []Choice{{"work it out as it stands", r.Request, r.Options}}}, true
}

// usesResult reports whether a figure that tells what came out was taken for the piece.
func (m *message) usesResult(r Reading) bool {
	for _, q := range m.found {
		of := m.rolesOf("tune", q).Of("rimgot", "basegot", "heightgot", written.Result)
		for _, value := range r.Options {
			if of >= resultRole && strings.TrimSuffix(value, " mm") == strings.TrimSuffix(q.shown, " mm") {
				return true
			}
		}
	}
	return false
}
