package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/ring"
	"guildhand/calc/units"
)

// toldInUnits answers a message that by all its words wants its figures in other units,
// in place of a question about a piece or of nothing: each figure is told in words. It
// answers only where every figure of the message can be told.
func (m *message) toldInUnits(r Reading) Reading {
	if told, ok := m.gaugesBeside(r); ok {
		return told
	}
	if r.Request == "bench" && m.startsWith(setsIt...) || !m.wantsUnits(r) {
		return r
	}
	if one := m.anew(); one.oneThickness() {
		if gauge, ok := one.readAs("gauge"); ok && gauge.Outcome == Request && m.withReason(gauge, r).Text == "" {
			return gauge
		}
	}
	for _, t := range unitTellers {
		if told, ok := m.anew().toldBy(t); ok {
			return m.withReason(told, r)
		}
	}
	if told, ok := m.anew().surelyConverted(); ok {
		return told
	}
	return r
}

// gaugesBeside tells what is asked of other gauges than ours, and of wire that was wound.
func (m *message) gaugesBeside(r Reading) (Reading, bool) {
	if !m.byItself() || r.Outcome == Declined || r.Outcome == FirstAid || readersOf[r.Request] != nil && r.Outcome == Request && r.Request != "gauge" {
		return Reading{}, false
	}
	if told, ok := m.anew().turnsOfWire(); ok {
		return told, true
	}
	return m.anew().otherGauges()
}

// wantsUnits reports whether units are surely what is asked for, and nothing that is
// trusted was found.
func (m *message) wantsUnits(r Reading) bool {
	inTalk := m.context.Last != nil || m.context.Said != ""
	if !m.byItself() || inTalk && m.says("cut", "how long", "make") || m.words() < 2 || m.startsWith("and", "or", "but") {
		return false
	}
	if m.unitsBesideWords(r) {
		return true
	}
	wanted, chance := m.likeliest()
	unread := (r.Outcome == Question || r.Outcome == Unknown) && m.chance("gauge") >= mayBeUnits && m.has("convert")
	if !unread && (wanted != "gauge" || chance < likelyUnits) {
		return false
	}
	switch r.Outcome {
	case Question, Unknown, Silent:
		return true
	case Request:
		return chance >= surelyUnits && r.Verdict == "" && len(r.Changed) == 0 && readersBeside[r.Request] != nil && m.chance(r.Request) <= hardlySo
	case Explanation:
		return chance >= surelyUnits && m.chance(knowing...) <= hardlySo && factNamed(r.Topic) != nil && !standsFast(r.Topic)
	}
	return false
}

// likelyUnits is how sure it must be that units are asked for, where the message is
// answered by a question else.
const likelyUnits = 0.5

// mayBeUnits is asked for where the units are named and nothing else was found.
const mayBeUnits = 0.12

// unitTeller tells the figures of one kind in other units.
type unitTeller struct {
	topic, source string
	// may reports whether the message can be about figures of this kind.
	may func(*message) bool
	// tell tells one figure, or that it is of another kind.
	tell func(*message, *quantity) (string, bool)
	// end is what is said after all of them.
	end func(*message, []*quantity) string
}

// unitTellers are tried in this order; the first that can tell every figure answers.
var unitTellers = []unitTeller{
	{"ring sizes", "ISO 8653, BS 6820, and the customary US, Japanese and continental scales", (*message).speaksOfSizes, (*message).ringSizeTold, (*message).sizesEnd},
	{"fineness", "karat = parts of 24 by mass", (*message).speaksOfKarats, (*message).karatsTold, nil},
	{"temperatures", "°F = °C x 9/5 + 32", (*message).namesScale, (*message).temperatureTold, nil},
	{"gauges", "ASTM B258; SWG: BS 3737, from memory", (*message).speaksOfGauges, (*message).thicknessTold, (*message).thicknessesEnd},
	{"masses", "1 ozt = 31.1034768 g, 1 dwt = 1/20 ozt, 1 oz av = 28.349523125 g, 1 ct = 0.2 g", func(*message) bool { return true }, (*message).massTold, nil},
	{"lengths", "1 in = 25.4 mm", (*message).makesNothing, (*message).sidesTold, nil},
	{"units", "1 in = 25.4 mm, 1 ozt = 31.1034768 g, 1 dwt = 1/20 ozt, 1 ct = 0.2 g, °F = °C x 9/5 + 32; ASTM B258", (*message).namesWantedUnit, (*message).eachTold, nil},
}

// mostTold is how many figures are told in one answer.
const mostTold = 8

// toldBy tells every figure by one teller, each once.
func (m *message) toldBy(t unitTeller) (Reading, bool) {
	if len(m.found) == 0 || len(m.found) > mostTold || m.judgesForPiece() || !t.may(m) {
		return Reading{}, false
	}
	var told []string
	var of []*quantity
	for _, q := range m.eachFigure() {
		text, ok := t.tell(m, q)
		if !ok {
			return Reading{}, false
		}
		if !slices.Contains(told, text) {
			told, of = append(told, text), append(of, q)
		}
	}
	if len(told) == 0 {
		return Reading{}, false
	}
	text := strings.Join(told, "; ") + "."
	if t.end != nil {
		text += t.end(m, of)
	}
	return Reading{Outcome: Explanation, Topic: t.topic, Source: t.source, Text: text, Piece: ringOf(of)}, true
}

// oneThickness reports whether a message has one figure, which may be of metal.
func (m *message) oneThickness() bool {
	if len(m.found) != 1 || !m.speaksOfGauges() {
		return false
	}
	q := m.found[0]
	return q.measure == gauge || q.measure == length && q.value <= thickestTold
}

// ringOf is the ring of the one size that was told, which the next message may go on
// with.
func ringOf(told []*quantity) *Last {
	if len(told) != 1 || told[0].measure != ringSize {
		return nil
	}
	return &Last{"band", map[string]string{"ring": told[0].shown, "system": systemName(told[0])}}
}

// eachFigure lists the figures that are to be told, both of "21 or 22", without the
// years and the number of decimals.
func (m *message) eachFigure() (all []*quantity) {
	for _, q := range m.found {
		switch {
		case m.isYear(q), q.measure == count && q.thing == "decimals", m.at(q.next).text == "decimals", m.at(q.next).text == "decimal", m.isPartOfUnit(q):
			continue
		case q.other != nil:
			all = append(all, q.other)
		}
		all = append(all, q)
	}
	return all
}

// isPartOfUnit reports whether a figure is the unit of a fineness: "hundredths of a millimetre".
func (m *message) isPartOfUnit(q *quantity) bool {
	return m.at(q.first).text == "a" && m.at(q.first-1).text == "of" && slices.Contains([]string{"tenth", "tenths", "hundredth", "hundredths", "thousandth", "thousandths"}, m.at(q.first-2).text)
}

// isYear reports whether a figure is a year of the story: "the kiln's from 1974".
func (m *message) isYear(q *quantity) bool {
	return (q.measure == bare || q.measure == temper) && q.next == q.first+1 && q.value == math.Trunc(q.value) && q.value >= 1800 && q.value <= 2100 &&
		slices.Contains([]string{"from", "since", "in", "of", "year", "the"}, m.at(q.first-1).text)
}

// systemsUnknown are places whose ring sizes there is no table for.
var systemsUnknown = []string{"hong kong", "indian", "india", "chinese", "china", "german", "germany", "russian", "turkish"}

// speaksOfSizes reports whether a message has a ring size, or a finger's measure.
func (m *message) speaksOfSizes() bool {
	return (m.ringSizes() > 0 || m.speaksOfRings() && m.says("size", "sizes")) && !m.says(systemsUnknown...) && !m.says(gaugeWords[0], "gage", "ga", "swg", "awg")
}

// roundOf is the inner circumference of a ring size, or of a finger's measure, in mm,
// with its system.
func (m *message) roundOf(q *quantity) (s ring.System, around float64, ok bool) {
	switch {
	case q.measure == ringSize:
		s = ring.System(systemName(q))
	case (q.measure == length || q.measure == bare) && m.isBeside(q, "inside", "inner", "internal", "id", "diameter", "across", "diam", "dia"):
		s = ring.Diameter
	case (q.measure == length || q.measure == bare) && m.isBeside(q, "round", "around", "circumference"):
		s = ring.ISO
	case q.measure == bare:
		s, ok = m.systemOfList(q)
		if !ok {
			return s, 0, false
		}
	default:
		return s, 0, false
	}
	shown := q.shown
	if q.measure == length {
		shown = plain(q.value)
	}
	around, err := s.Parse(shown)
	return s, around, err == nil
}

// isBeside reports whether one of the words stands within three words of a figure.
func (m *message) isBeside(q *quantity, words ...string) bool {
	for i := q.first - 3; i < q.next+3; i++ {
		if slices.Contains(words, m.at(i).text) {
			return true
		}
	}
	return false
}

// systemOfList is the system of the ring size that a list of sizes began with: "Swiss
// 7, 17, 27".
func (m *message) systemOfList(q *quantity) (ring.System, bool) {
	for k, other := range m.found {
		if k+1 >= len(m.found) || m.found[k+1] != q || !m.saysBetween(other.next, q.first, ",", "and", "or") || q.first-other.next > 2 {
			continue
		}
		if other.measure == ringSize && !letter(other.shown) {
			return ring.System(systemName(other)), true
		}
		if other.measure == bare {
			return m.systemOfList(other)
		}
	}
	return "", false
}

// ringSizeTold tells a ring size in mm and in the other systems.
func (m *message) ringSizeTold(q *quantity) (string, bool) {
	s, around, ok := m.roundOf(q)
	if !ok {
		return "", false
	}
	name := s.Title() + " " + strings.TrimSpace(q.shown)
	switch {
	case s == ring.Diameter:
		name = mm(around/math.Pi) + " across"
	case q.measure == ringSize && q.system == "":
		name = "size " + q.shown + ", read as " + s.Title() + ","
	}
	var near []string
	for _, other := range ring.Systems() {
		if text, _, has := other.Nearest(around); has && other != s && other != ring.Diameter {
			near = append(near, other.Title()+" "+text)
		}
	}
	return fmt.Sprintf("%s is %.1f mm round the inside and %.2f mm across, nearest %s", name, around, around/math.Pi, strings.Join(near, ", ")), true
}

// sizesEnd tells how far two sizes are apart, and that charts differ.
func (m *message) sizesEnd(of []*quantity) string {
	apart := ""
	if len(of) == 2 {
		_, a, _ := m.roundOf(of[0])
		_, b, _ := m.roundOf(of[1])
		apart = fmt.Sprintf(" They are %.1f mm apart round the finger, %.2f mm across.", math.Abs(a-b), math.Abs(a-b)/math.Pi)
	}
	return apart + " Charts differ by up to half a size, so check it on the mandrel that the ring is made on."
}

// namesScale reports whether a scale of temperature is named.
func (m *message) namesScale() bool {
	return slices.ContainsFunc(m.tokens, func(t token) bool {
		return slices.Contains(fahrenheitWords, t.text) || slices.Contains(celsiusWords, t.text)
	})
}

// temperatureTold tells a temperature in the other scale; both ways where its own is
// not told.
func (m *message) temperatureTold(q *quantity) (string, bool) {
	if q.measure != temper && q.measure != angle && q.measure != bare || q.value < leastHeat {
		return "", false
	}
	fromC := fmt.Sprintf("%s °C is %.0f °F", plain(q.value), units.FahrenheitFromCelsius(q.value))
	fromF := fmt.Sprintf("%s °F is %.0f °C", plain(q.value), units.CelsiusFromFahrenheit(q.value))
	switch inF, inC := m.scaleAt(q, fahrenheitWords), m.scaleAt(q, celsiusWords); {
	case inF && !inC:
		return fromF, true
	case inC && !inF:
		return fromC, true
	}
	return fromC + ", and " + fromF, true
}

// scaleAt reports whether a figure ends with one of the words, or one follows it.
func (m *message) scaleAt(q *quantity, words []string) bool {
	return slices.Contains(words, m.at(q.next-1).text) || slices.Contains(words, m.at(q.next).text)
}

// Words of thicknesses, and those that make a sum of them or speak of other numbers.
var (
	thicknessWords = []string{"thick", "thicker", "thickness", "thin", "thinner", "thou", "mic", "micrometer", "calipers", "caliper", "sheet", "wire", "mm", "millimetres", "millimeters", "inch", "inches", "metric", "nearer", "close", "closer", "american", "number", "numbers"}
	otherNumbers   = []string{"together", "doubled", "double", "on top", "plus", "minus", "sum", "half a gauge", "drill", "drills", "needle", "needles", "catheter", "steel", "stainless", "screw", "tap", "64ths", "drawplate", "piercing"}
)

// speaksOfGauges reports whether figures without a unit can be thicknesses.
func (m *message) speaksOfGauges() bool {
	return (m.of(gauge) != nil || m.says(gaugeWords...) || m.says("gauges") || m.says(thicknessWords...)) && !m.says(otherNumbers...) && m.of(ringSize) == nil && len(m.meaning("outline:")) == 0
}

// judgesForPiece reports whether a message names a piece and asks whether some metal does for
// it, so that no figure is wanted in another unit.
func (m *message) judgesForPiece() bool {
	return !m.makesNothing() && m.says("thick enough", "enough for", "strong enough", "heavy enough", "too thin", "too thick", "ok for", "okay for", "alright for", "fine for", "do for")
}

// Gauge numbers as they are told without a unit, and the thickest metal that has one, mm.
const (
	lowestTold, highestTold = 8, 36
	thickestTold            = 8
)

// thicknessTold tells a gauge in mm, or a thickness in mm, inches and gauge.
func (m *message) thicknessTold(q *quantity) (string, bool) {
	wholeNumber := q.value == math.Trunc(q.value)
	switch {
	case q.measure == gauge && q.value >= 0 && wholeNumber:
		return m.gaugeTold(q.value), true
	case q.measure == bare && m.says("thou", "thousandths") && q.value >= 1 && q.value < 400 && !m.typesMM():
		return m.lengthTold(plain(q.value)+" thou", q.value*units.MMPerInch/1000), true
	case q.measure == bare && wholeNumber && q.value >= lowestTold && q.value <= highestTold:
		return m.gaugeTold(q.value), true
	case q.measure == bare && strings.HasPrefix(q.shown, "0.0") && m.says("inch", "inches"):
		return m.lengthTold(plain(q.value)+" in", q.value*units.MMPerInch), true
	case q.measure == bare && q.value >= 0.1 && q.value < thickestTold && strings.Contains(q.shown, "."):
		return m.lengthTold(plain(q.value)+" mm", q.value), true
	case q.measure == length && q.value >= thinnestMM && q.value <= thickestTold:
		return m.lengthTold(strings.TrimSpace(q.typed(m)), q.value), true
	}
	return "", false
}

// typesMM reports whether a figure of the message is typed in mm.
func (m *message) typesMM() bool {
	return slices.ContainsFunc(m.found, func(q *quantity) bool { return strings.HasSuffix(q.typed(m), "mm") })
}

// gaugeTold tells a gauge number in mm, also as a British one where those are spoken of.
func (m *message) gaugeTold(n float64) string {
	told := fmt.Sprintf("%s ga is %.2f mm (%.4f in)", plain(n), gaugeMM(n), gaugeMM(n)/units.MMPerInch)
	if i := int(n); m.speaksBritish() && i < len(standardWireGauges) {
		told += fmt.Sprintf(", and %d SWG is %.2f mm", i, standardWireGauges[i]*units.MMPerInch)
	}
	return told
}

// lengthTold tells a thickness in mm, inches and the nearest gauge.
func (m *message) lengthTold(typed string, thick float64) string {
	n := nearestGauge(thick)
	metric := fmt.Sprintf("%.2f mm, ", thick)
	if strings.HasSuffix(typed, "mm") {
		metric = ""
	}
	told := fmt.Sprintf("%s is %s%.4f in, nearest %s ga (%.2f mm)", typed, metric, thick/units.MMPerInch, plain(n), gaugeMM(n))
	if m.speaksBritish() {
		i := nearestSWG(thick)
		told += fmt.Sprintf(" and %d SWG (%.2f mm)", i, standardWireGauges[i]*units.MMPerInch)
	}
	return told
}

func (m *message) speaksBritish() bool {
	return m.says("swg", "british", "imperial gauge", "standard wire gauge")
}

// thicknessesEnd says which gauge is meant, and which way its numbers run.
func (m *message) thicknessesEnd([]*quantity) string {
	return " Gauges are B&S (AWG), as sheet and wire of silver, copper and gold are sold; the higher the number, the thinner the metal."
}

// speaksOfKarats reports whether the parts of gold in an alloy are asked for.
func (m *message) speaksOfKarats() bool {
	return m.says("karat", "karats", "carat", "carats", "fineness")
}

// Parts of gold in a thousand that an alloy of it has.
const leastFine, mostFine = 300, 999.9

// karatsTold tells parts of gold in a thousand as karats.
func (m *message) karatsTold(q *quantity) (string, bool) {
	if q.measure != bare || q.value < leastFine || q.value > mostFine {
		return "", false
	}
	return fmt.Sprintf("%s parts of gold in a thousand is %.1f karat", plain(q.value), q.value*24/1000), true
}

// massTold tells a mass in the units of the trade.
func (m *message) massTold(q *quantity) (string, bool) {
	grams, ok := gramsOf(q)
	if !ok {
		return "", false
	}
	return strings.TrimSuffix(massInUnits(strings.TrimSpace(q.typed(m)), grams).Text, ". Metal is sold by the troy ounce."), true
}

// sidesTold tells the sides of a size that is in inches in mm.
func (m *message) sidesTold(q *quantity) (string, bool) {
	per := 1.0
	switch {
	case q.measure != size:
		return "", false
	case strings.HasSuffix(q.shown, " in"): // the sides are in mm already
	case strings.Contains(q.shown, "/") && slices.Max(q.sides) <= mostInches:
		per = units.MMPerInch
	default:
		return "", false
	}
	var metric, inches []string
	for _, side := range q.sides {
		metric = append(metric, fmt.Sprintf("%.2f", side*per))
		inches = append(inches, fmt.Sprintf("%.3f", side*per/units.MMPerInch))
	}
	return fmt.Sprintf("%s is %s mm, %s in", strings.TrimSpace(q.typed(m)), strings.Join(metric, " x "), strings.Join(inches, " x ")), true
}

// mostInches is the longest side of a size without a unit that is read as inches
// because another side is a fraction.
const mostInches = 4
