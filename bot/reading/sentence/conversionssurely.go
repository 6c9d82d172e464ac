package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/units"
)

// Words of the two scales of temperature, as they are typed.
var (
	fahrenheitWords = []string{"f", "fahrenheit", "farenheit", "fareneit", "farenheight", "fahrenheight"}
	celsiusWords    = []string{"c", "celsius", "celcius", "centigrade"}
)

// mostConverted is how many figures a message has at most that wants each in other
// units.
const mostConverted = 4

// surelyUnits is how sure it must be that units are all that is asked for.
const surelyUnits = 0.7

// surelyConverted answers a message that by all its words wants its figures in other
// units, where it doesn't say so in the usual words: all of them are temperatures,
// masses, gauges or lengths.
func (m *message) surelyConverted() (Reading, bool) {
	if wanted, chance := m.likeliest(); wanted != "gauge" || chance < surelyUnits || len(m.found) == 0 || len(m.found) > mostConverted || m.ringSizes() > 0 {
		return Reading{}, false
	}
	for _, read := range []func(*message) (Reading, bool){(*message).temperatureSurely, (*message).massesSurely, (*message).gaugesSurely, (*message).fractionSurely} {
		if r, ok := read(m); ok {
			return r, true
		}
	}
	return Reading{}, false
}

// temperatureSurely tells the one temperature of a message in the other scale.
func (m *message) temperatureSurely() (Reading, bool) {
	q := m.found[0]
	for _, other := range m.found {
		if other.value != q.value {
			return Reading{}, false
		}
		if other.measure == temper {
			q = other
		}
	}
	if q.measure != temper && q.measure != angle && q.measure != bare || q.value < leastHeat {
		return Reading{}, false
	}
	inF, inC := m.scaleAt(q, fahrenheitWords), m.scaleAt(q, celsiusWords)
	if inF == inC {
		return Reading{}, false
	}
	told := fmt.Sprintf("%s °C is %.0f °F.", plain(q.value), units.FahrenheitFromCelsius(q.value))
	if inF {
		told = fmt.Sprintf("%s °F is %.0f °C.", plain(q.value), units.CelsiusFromFahrenheit(q.value))
	}
	return worked("temperatures", "°F = °C x 9/5 + 32", told)
}

// leastHeat is the least figure that is taken for a temperature at the bench.
const leastHeat = 60

// massesSurely tells masses in the units of the trade, each once.
func (m *message) massesSurely() (Reading, bool) {
	var told []string
	var grams []float64
	for _, q := range m.found {
		mass, ok := gramsOf(q)
		if !ok {
			return Reading{}, false
		}
		if slices.ContainsFunc(grams, func(g float64) bool { return math.Abs(g-mass) < 0.001*mass }) {
			continue // "half a carat is 0.5 ct"
		}
		grams = append(grams, mass)
		r := massInUnits(strings.TrimSpace(q.typed(m)), mass)
		text := r.Text
		if m.says("grain", "grains") {
			text += fmt.Sprintf(" It is %.1f grains.", mass/units.GramPerGrain)
		}
		if m.says("pound", "pounds", "lb", "lbs") {
			text += fmt.Sprintf(" It is %.3f lb.", mass/(16*units.GramPerOunce))
		}
		told = append(told, text)
	}
	r := massInUnits("1 g", 1)
	r.Text = strings.Join(told, " ")
	return r, true
}

// gramsOf is the mass of a figure in grams, also of one in carats.
func gramsOf(q *quantity) (grams float64, ok bool) {
	switch q.measure {
	case carat:
		return q.value * units.GramPerCarat, true
	case massMeasure:
		return q.value, true
	}
	return 0, false
}

// massMeasure is the measure mass, where a local has its name.
const massMeasure = mass

// gaugesSurely tells several gauges in mm.
func (m *message) gaugesSurely() (Reading, bool) {
	var told []string
	for _, q := range m.found {
		if q == m.found[0] && m.at(q.next).text == "things" {
			continue
		}
		if q.measure != gauge {
			return Reading{}, false
		}
		told = append(told, fmt.Sprintf("%s ga is %.2f mm (%.4f in)", strings.TrimSuffix(q.shown, "ga"), gaugeMM(q.value), gaugeMM(q.value)/units.MMPerInch))
	}
	if len(told) < 2 {
		return Reading{}, false
	}
	return worked("gauges", "ASTM B258", strings.Join(told, "; ")+". The higher the gauge number, the thinner the metal.")
}

// fractionSurely tells one length in mm, in inches and as the nearest 64th of an inch,
// and whether a second length is the same.
func (m *message) fractionSurely() (Reading, bool) {
	var lengths []*quantity
	for _, q := range m.found {
		switch {
		case q.measure == length:
		case q.measure == bare && strings.Contains(q.shown, "/"):
			q.measure, q.value = length, q.value*units.MMPerInch
			q.shown += " in"
		default:
			return Reading{}, false
		}
		lengths = append(lengths, q)
	}
	const thickest = 8 // mm: what is no thicker may be a gauge
	if len(lengths) == 1 && lengths[0].value <= thickest && !m.says("64ths", "64th", "fraction", "fractions") {
		return Reading{}, false
	}
	var told []string
	for _, q := range lengths {
		inches := q.value / units.MMPerInch
		told = append(told, fmt.Sprintf("%s is %.2f mm, %.3f in, nearest %s in", strings.TrimSpace(q.typed(m)), q.value, inches, in64ths(inches)))
	}
	if len(lengths) == 2 && m.says("=same", "is", "equal", "equals") {
		told = append(told, fmt.Sprintf("they differ by %.2f mm", math.Abs(lengths[0].value-lengths[1].value)))
	}
	return worked("lengths", "1 in = 25.4 mm", strings.Join(told, "; ")+".")
}

// in64ths is the nearest 64th of an inch, in its lowest terms: "1 5/32".
func in64ths(inches float64) string {
	n, of := int(math.Round(inches*64)), 64
	whole := n / of
	n %= of
	if n == 0 {
		return fmt.Sprint(whole)
	}
	for n%2 == 0 {
		n, of = n/2, of/2
	}
	if whole == 0 {
		return fmt.Sprintf("%d/%d", n, of)
	}
	return fmt.Sprintf("%d %d/%d", whole, n, of)
}
