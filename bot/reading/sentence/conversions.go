package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/units"
)

// conversion is a unit that a figure may be wanted in.
type conversion struct {
	measure measure
	// say are its words; in are words that only count after "in", "to" or "many".
	say, in []string
	name    string
	// per is how many mm or g one of it has; decimals is how finely it is told.
	per      float64
	decimals int
}

// gramPerTola: a tola is 180 grains.
const gramPerTola = 180 * units.GramPerGrain

// conversions are the units between which figures are told.
var conversions = []conversion{
	{length, []string{"mm", "millimeters", "millimetres", "metric"}, nil, "mm", 1, 2},
	{length, []string{"cm", "centimeters", "centimetres"}, nil, "cm", 10, 2},
	{length, []string{"micron", "microns"}, nil, "µm", 0.001, 0},
	{length, []string{"inch", "inches"}, nil, "in", units.MMPerInch, 3},
	{length, []string{"thou", "thousandths"}, []string{"mils"}, "thou", units.MMPerInch / 1000, 1},
	{length, []string{"feet"}, []string{"ft", "foot"}, "ft", 12 * units.MMPerInch, 3},
	{mass, []string{"gram", "grams", "gramme", "grammes"}, []string{"g", "gm"}, "g", 1, 2},
	{mass, []string{"dwt", "pennyweight", "pennyweights"}, nil, "dwt", units.GramPerPennyweight, 2},
	{mass, []string{"ozt", "ounce", "ounces", "oz"}, nil, "troy oz", units.GramPerTroyOunce, 3},
	{mass, []string{"tola", "tolas"}, nil, "tola", gramPerTola, 3},
	{mass, []string{"grains"}, nil, "grains", units.GramPerGrain, 1},
	{mass, nil, []string{"carats", "ct", "carat"}, "ct", units.GramPerCarat, 2},
	{temper, []string{"fahrenheit"}, []string{"f"}, "°F", 0, 0},
	{temper, []string{"celsius", "centigrade"}, []string{"c"}, "°C", 0, 0},
}

// converted answers a figure that is wanted in another unit: degrees, lengths,
// masses, karats and ring sizes.
func (m *message) converted() (Reading, bool) {
	if m.context.Last != nil && len(m.found) == 0 {
		return Reading{}, false
	}
	for _, read := range []func(*message) (Reading, bool){
		(*message).degreesConverted, (*message).fineness, (*message).ringSizeConverted, (*message).thicknessesConverted, (*message).lengthConverted, (*message).massConverted, (*message).massNamed, (*message).surelyConverted,
	} {
		if r, ok := read(m); ok {
			return r, true
		}
	}
	return Reading{}, false
}

// wantedIn lists the units of a measure that the message names outside its
// figures.
func (m *message) wantedIn(of measure) []conversion {
	var all []conversion
	for _, c := range conversions {
		if c.measure == of && m.namesUnit(c) {
			all = append(all, c)
		}
	}
	return all
}

func (m *message) namesUnit(c conversion) bool {
	for i, t := range m.tokens {
		if m.inFigure(i) {
			continue
		}
		if slices.Contains(c.say, t.text) {
			return true
		}
		before := m.at(i - 1).text
		if slices.Contains(c.in, t.text) && (before == "in" || before == "to" || before == "many" || before == "into" || before == "or") {
			return true
		}
	}
	return false
}

func (m *message) inFigure(i int) bool {
	return slices.ContainsFunc(m.found, func(q *quantity) bool { return q.first <= i && i < q.next })
}

// makesNothing reports whether no piece is named, so that a unit is all that is
// asked for.
func (m *message) makesNothing() bool {
	return m.cues["collet"]+m.cues["collar"]+m.cues["bezel"]+m.cues["prongs"]+m.cues["dome"]+m.cues["band"]+m.cues["melt"] == 0 && !m.has("stone") && len(m.meaning("outline:")) == 0
}

// degreesConverted tells a temperature in the other scale.
func (m *message) degreesConverted() (Reading, bool) {
	var q *quantity
	for _, one := range m.found {
		if one.measure == temper || (one.measure == angle || one.measure == bare) && one.value >= 60 {
			if q != nil {
				return Reading{}, false
			}
			q = one
		} else {
			return Reading{}, false
		}
	}
	if q == nil || !m.makesNothing() || m.cues["heat"] >= 3 && len(m.alloys) > 0 {
		return Reading{}, false
	}
	unit := m.at(q.next - 1).text
	fahrenheit := unit == "f" || unit == "fahrenheit"
	to := m.wantedIn(temper)
	if last := m.at(len(m.tokens) - 1).text; len(to) == 0 && q.measure == temper && q.next == len(m.tokens)-1 && (last == "f" || last == "c") { // "700 c f"
		for _, c := range conversions {
			if c.measure == temper && contains(c.in, last) {
				to = append(to, c)
			}
		}
	}
	if len(to) != 1 || fahrenheit == (to[0].name == "°F") {
		return Reading{}, false
	}
	if q.measure != temper && !m.says("degrees", "convert") && q.measure == bare {
		return Reading{}, false
	}
	from, told, value := "°C", "°F", units.FahrenheitFromCelsius(q.value)
	if to[0].name == "°C" {
		from, told, value = "°F", "°C", units.CelsiusFromFahrenheit(q.value)
	}
	return Reading{Outcome: Explanation, Topic: "temperatures", Source: "°F = °C x 9/5 + 32",
		Text: fmt.Sprintf("%s %s is %.0f %s.", plain(q.value), from, value, told)}, true
}

// hallmarks are the marks in thousandths that go with karats, where the mark is
// not what the karats make (ISO 9202).
var hallmarks = map[string]int{"9": 375, "14": 585, "18": 750, "22": 916, "24": 999}

// fineness tells how many thousandths of gold a karat is.
func (m *message) fineness() (Reading, bool) {
	if !m.says("fineness", "thousand", "thousandths", "per mille", "hallmark", "what number", "purity", "pure is", "how pure", "per cent gold", "percent gold", "same as", "parts") || !m.makesNothing() || m.of(mass, length, size) != nil {
		return Reading{}, false
	}
	var told []string
	for _, a := range m.alloys {
		k := ""
		for i := a.first; i < a.next && k == ""; i++ {
			k = m.at(i).text
			if spelt := speltKarats[k]; spelt != "" {
				k = spelt
			}
			if !isDigits(k) || parse(k) > 24 {
				k = ""
			}
		}
		if k == "" || parse(k) < 8 {
			continue
		}
		text := fmt.Sprintf("%s karat is %s parts of gold in 24: %.1f in a thousand", k, k, parse(k)*1000/24)
		if mark := hallmarks[k]; mark != 0 {
			text += fmt.Sprintf(", marked %d", mark)
		}
		told = append(told, text+".")
	}
	if len(told) == 0 {
		return Reading{}, false
	}
	return Reading{Outcome: Explanation, Topic: "fineness", Source: "karat = parts of 24 by mass; marks: ISO 9202", Text: strings.Join(told, " ")}, true
}

// systemsWithoutTable are systems of ring sizes that there is no table for.
var systemsWithoutTable = []string{"hong kong", "indian", "india", "chinese", "china", "german", "germany"}

// conversionWords is how many words a message has at most that asks nothing but a size in
// another system.
const conversionWords = 5

// convertsSize reports whether a ring's size in another system is all that a message asks.
func (m *message) convertsSize(r Reading) bool {
	return r.Request == "band" && len(r.Options) == 2 && r.Options["ring"] != "" && m.words() <= conversionWords && m.says("to us", "to uk", "to eu", "in us", "in uk", "in eu")
}

// ringSizeConverted answers a ring size, or an inner diameter, whose size in other
// systems is all that is asked: the request for a ring lists them.
func (m *message) ringSizeConverted() (Reading, bool) {
	if len(m.found) > 1 || m.cues["collet"]+m.cues["bezel"]+m.cues["prongs"]+m.cues["melt"]+m.cues["resize"]+m.cues["dome"] > 0 || m.has("stone", "wire", "weight", "blank", "disc") {
		return Reading{}, false
	}
	if m.says(systemsWithoutTable...) {
		return Reading{}, false
	}
	systems := 0
	for i, t := range m.tokens {
		if sizeSystems[t.text] != "" && !(t.text == "us" && m.plainUs(i) && i+1 < len(m.tokens)) && !m.inFigure(i) {
			systems++
		}
	}
	asks := m.has("convert") || m.says("convert", "what size", "which size", "whats that in", "what is that in", "in uk", "in us", "in eu", "equivalent", "same as", "to us", "to uk", "to eu", "size in")
	if len(m.found) == 0 && systems > 0 && m.says("convert", "what is", "whats", "in", "to") {
		return m.lettersSize()
	}
	if len(m.found) == 0 || !asks && systems == 0 {
		return Reading{}, false
	}
	q := m.found[0]
	d := m.draft("band")
	switch inside := m.says("inside", "inner", "internal", "id", "bore", "diameter", "across"); {
	case q.measure == ringSize && systems > 0:
		d.set("ring", q)
		if system := d.systemOf(q, q.system); system != "" {
			d.say("system", system)
		}
	case (q.measure == length || q.measure == bare) && inside && m.says("size", "sizes") && q.value >= 11.5 && q.value <= 25:
		q.used = true
		d.say("ring", plain(q.value))
		d.say("system", "diameter")
	default:
		return Reading{}, false
	}
	return d.reading(), true
}

// lettersSize reads the one capital letter of "convert R to US" as a ring size.
func (m *message) lettersSize() (Reading, bool) {
	if len(m.tokens) > 9 {
		return Reading{}, false
	}
	letters := []string{}
	for _, t := range m.tokens {
		if t.capital && t.text != "i" {
			letters = append(letters, strings.ToUpper(t.text))
		}
	}
	if len(letters) != 1 {
		return Reading{}, false
	}
	d := m.draft("band")
	d.say("ring", letters[0])
	d.say("system", "uk")
	d.note("a letter is read as a UK ring size")
	return d.reading(), true
}

// gaugeWords ask for a gauge number.
var gaugeWords = []string{"gauge", "gage", "guage", "ga", "awg", "b&s", "swg", "b and s", "brown and sharpe", "imperial gauge", "british gauge", "british"}

// thinnestMM is what the thinnest gauge of metal measures; microns are told in words.
const thinnestMM = 0.03

// lengthConverted tells one length in the other units: as a thickness where a
// gauge could have it, and in words where it is longer.
func (m *message) lengthConverted() (Reading, bool) {
	if len(m.found) != 1 || !m.makesNothing() || len(m.alloys) > 0 || m.cues["hoop"]+m.cues["jumpring"]+m.cues["resize"] > 0 || m.cues["bangle"] > 0 && m.found[0].measure != gauge {
		return Reading{}, false
	}
	q := m.found[0]
	if q.measure == gauge && len(m.wantedIn(length)) > 0 && m.context.takes("gauge", "") {
		d := m.draft("gauge")
		d.set("gauge", q)
		return d.reading(), true
	}
	if q.measure != length && !(q.measure == bare && m.at(q.first-1).text == "inches" && m.has("convert")) {
		return Reading{}, false
	}
	to := m.wantedIn(length)
	if q.measure == bare { // "inches 1 13/16 in mm"
		q.measure, q.value = length, q.value*25.4
	}
	gauges := m.says(gaugeWords...)
	if len(to) == 0 && !(gauges && m.says("convert", "in", "to", "what", "whats")) {
		return Reading{}, false
	}
	if q.value >= thinnestMM && q.value <= 8 && (gauges || q.value < 5) && m.context.takes("gauge", "") {
		d := m.draft("gauge")
		q.unit = true
		d.set("gauge", q)
		if m.says("british", "swg", "imperial", "standard wire gauge", "english") {
			n := nearestSWG(q.value)
			d.note("the nearest British number is %d SWG, %.2f mm", n, standardWireGauges[n]*25.4)
		}
		return d.reading(), true
	}
	if q.value < thinnestMM {
		return worked("microns", "1 mm = 1000 microns", fmt.Sprintf("%s is %s mm: a micron is a thousandth of a millimetre.", strings.TrimSpace(q.typed(m)), plain(q.value)))
	}
	if m.wantsInchParts(to) {
		return worked("lengths", "1 in = 25.4 mm", m.longTold(q)+".")
	}
	var told []string
	for _, c := range conversions {
		if c.measure == length && (c.name == "mm" || c.name == "in" || slices.ContainsFunc(to, func(w conversion) bool { return w.name == c.name })) {
			told = append(told, fmt.Sprintf("%.*f %s", c.decimals, q.value/c.per, c.name))
		}
	}
	return Reading{Outcome: Explanation, Topic: "lengths", Source: "1 in = 25.4 mm",
		Text: fmt.Sprintf("%s is %s.", strings.TrimSpace(q.typed(m)), strings.Join(told, ", "))}, true
}

// wantsInchParts reports whether nothing but inches is asked for: then they are told in parts
// too.
func (m *message) wantsInchParts(to []conversion) bool {
	return len(to) == 1 && to[0].name == "in"
}

// nearestSWG is the number of the Imperial standard wire gauge that comes nearest to
// a thickness in mm.
func nearestSWG(mm float64) int {
	best := 0
	for n := range standardWireGauges {
		if math.Abs(standardWireGauges[n]*25.4-mm) < math.Abs(standardWireGauges[best]*25.4-mm) {
			best = n
		}
	}
	return best
}

// massConverted tells a mass in the units of the trade where another one is asked
// for. A second figure is a reading on other scales.
func (m *message) massConverted() (Reading, bool) {
	if r, ok := m.massInParts(); ok {
		return r, true
	}
	var q *quantity
	for _, one := range m.found {
		switch {
		case (one.measure == mass || one.measure == carat) && q == nil:
			q = one
		case one.measure != mass && one.measure != bare && one.measure != money:
			return Reading{}, false
		}
	}
	if q == nil && len(m.found) == 0 && m.says("how many carats", "how many grams", "how many dwt") && m.says("a gram", "a tola", "an ounce", "a carat", "a pennyweight") {
		return m.unitMass()
	}
	if q == nil || !m.makesNothing() && !(q.measure == carat && len(m.found) == 1 && m.says("grams", "gram")) || len(m.alloys) > 0 || m.has("offcut", "sheet", "wire", "tube") || m.says("button", "grain", "scrap", "fresh") || len(m.found) > 2 {
		return Reading{}, false
	}
	if to := m.wantedIn(mass); len(to) == 0 || len(m.found) == 2 && !m.says("same", "normal", "scale", "scales") {
		return Reading{}, false
	}
	grams := q.value
	if q.measure == carat {
		grams *= 0.2
	}
	return massInUnits(strings.TrimSpace(q.typed(m)), grams), true
}

// massInParts adds up a mass told in two units, "2 dwt 7 grains", "1 oz and 4 dwt".
func (m *message) massInParts() (Reading, bool) {
	if len(m.found) != 2 || !m.makesNothing() || len(m.alloys) > 0 || len(m.wantedIn(mass)) == 0 {
		return Reading{}, false
	}
	a, b := m.found[0], m.found[1]
	if a.measure != mass || b.measure != mass || b.value >= a.value || !m.saysBetween(a.next, b.first, "and", ",") {
		return Reading{}, false
	}
	return massInUnits(strings.TrimSpace(a.typed(m))+" "+strings.TrimSpace(b.typed(m)), a.value+b.value), true
}

// unitMass tells what one gram, tola or ounce is.
func (m *message) unitMass() (Reading, bool) {
	for _, c := range conversions {
		if c.measure != mass {
			continue
		}
		for _, w := range slices.Concat(c.say, c.in) {
			if m.saysPhrase("=a "+w) || m.saysPhrase("=an "+w) {
				return massInUnits("1 "+c.name, c.per), true
			}
		}
	}
	return Reading{}, false
}

// massInUnits tells a mass in every unit of the trade.
func massInUnits(said string, grams float64) Reading {
	return Reading{Outcome: Explanation, Topic: "masses", Source: "1 ozt = 31.1034768 g, 1 dwt = 1/20 ozt, 1 oz av = 28.349523125 g, 1 tola = 180 grains, 1 ct = 0.2 g",
		Text: fmt.Sprintf("%s is %.2f g, %.2f dwt, %.3f troy oz, %.3f oz avoirdupois, %.3f tola, %.2f ct. Metal is sold by the troy ounce.", said, grams, grams/units.GramPerPennyweight, grams/units.GramPerTroyOunce, grams/units.GramPerOunce, grams/gramPerTola, grams/units.GramPerCarat)}
}
