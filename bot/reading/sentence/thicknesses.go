package sentence

import (
	"fmt"
	"math"
	"strings"

	"guildhand/calc/units"
)

// mostListed is how many thicknesses are told in one list.
const mostListed = 12

// thicknessesConverted answers questions of several thicknesses, which the request
// gauge, that has one, does not: a list, two that are compared, a British number, and
// sheet sold by its weight.
func (m *message) thicknessesConverted() (Reading, bool) {
	for _, read := range []func(*message) (Reading, bool){
		(*message).temperaturesCompared, (*message).thicknessOfWeight, (*message).britishNumber, (*message).thicknessesCompared, (*message).thicknessList,
	} {
		if r, ok := read(m); ok {
			return r, true
		}
	}
	return Reading{}, false
}

// comparing are words that put two figures beside one another.
var comparing = []string{"=vs", "versus", "near enough the same", "close enough", "same as", "=same", "equal", "equivalent", "difference between", "thicker", "thinner", "thickest", "or is it", "is that close", "interchangeable", "swap"}

// thicknessesCompared compares a gauge with a length: "0.5 mm vs 24 gauge".
func (m *message) thicknessesCompared() (Reading, bool) {
	if len(m.found) != 2 || !m.says(comparing...) || len(m.alloys) > 1 || len(m.meaning("outline:")) > 0 || m.of(ringSize) != nil {
		return Reading{}, false
	}
	a, b := m.found[0], m.found[1]
	if b.measure == gauge {
		a, b = b, a
	}
	if a.measure != gauge || b.measure != length || b.value > 8 {
		return Reading{}, false
	}
	return m.compareGauges(m.found[0], m.found[1])
}

// thicknessList tells a list of gauges in mm, or of thicknesses in mm and gauge:
// "16, 18, 20 and 22 in mm", "0.028 and 0.0201 inches".
func (m *message) thicknessList() (Reading, bool) {
	if len(m.found) < 2 || len(m.found) > mostListed || !m.makesNothing() || m.says("together", "on top of each other", "sum") || !m.says("gauge", "gauges", "gage", "mm", "inches", "thou", "convert", "relabel", "millimetres", "millimeters") || m.of(ringSize) != nil || m.cues["jumpring"]+m.cues["resize"]+m.cues["bangle"]+m.cues["weigh"] > 0 {
		return Reading{}, false
	}
	m.bindRoles()
	if !m.listed() {
		return Reading{}, false
	}
	var told []string
	for _, q := range m.found {
		gaugeNumber := q.measure == gauge || q.measure == bare && q.value == math.Trunc(q.value) && q.value >= 10 && q.value <= 36 && m.says("gauge", "gauges", "gage")
		switch {
		case gaugeNumber && q.value < 1:
			return Reading{}, false // "half a gauge"
		case gaugeNumber:
			told = append(told, fmt.Sprintf("%s ga is %.2f mm", plain(q.value), gaugeMM(q.value)))
		case q.measure == length && q.value >= 0.1 && q.value <= 8:
			told = append(told, fmt.Sprintf("%s is %.2f mm, nearest %s ga (%.2f mm)", strings.TrimSpace(q.typed(m)), q.value, plain(nearestGauge(q.value)), gaugeMM(nearestGauge(q.value))))
		default:
			return Reading{}, false
		}
	}
	return worked("list of gauges", "ASTM B258", strings.Join(told, "; ")+". Gauges are B&S (AWG), as sheet and wire of silver, copper and gold are sold.")
}

// listed reports whether the figures of a message stand in a list and measure nothing
// in particular.
func (m *message) listed() bool {
	joined := false
	for i, q := range m.found {
		if q.role != "" {
			return false
		}
		if i > 0 {
			joined = joined || m.saysBetween(m.found[i-1].next, q.first, ",", "and", "or")
		}
	}
	return joined
}

// britishNumber explains an SWG number in mm where the message says more than a
// conversion takes, which the request gauge answers.
func (m *message) britishNumber() (Reading, bool) {
	if len(m.found) != 1 || m.words() < wholeQuestion || !m.says("swg", "standard wire gauge") || !m.makesNothing() || m.found[0].measure != length || len(m.alloys) > 0 {
		return Reading{}, false
	}
	q := m.found[0]
	n := nearestSWG(q.value)
	if !strings.Contains(strings.ToLower(q.typed(m)), "swg") || math.Abs(standardWireGauges[n]*units.MMPerInch-q.value) > 0.001 {
		return Reading{}, false
	}
	b := nearestGauge(q.value)
	return worked("British gauge", "BS 3737, from memory; ASTM B258",
		fmt.Sprintf("%d SWG, the British standard wire gauge, is %.3f mm (%.3f in). The nearest B&S gauge is %s ga, %.2f mm.", n, q.value, standardWireGauges[n], plain(b), gaugeMM(b)))
}

// thicknessOfWeight tells how thick sheet is that is sold by its weight: "2.5 oz per
// square foot of copper".
func (m *message) thicknessOfWeight() (Reading, bool) {
	q, a := m.of(mass), m.metal()
	if q == nil || a == nil || a.likeliestKey() == "" || len(m.found) > 2 || !m.says("square foot", "sq ft", "sq foot", "square ft", "sqft") || !m.says("thick", "thickness", "mm", "gauge") {
		return Reading{}, false
	}
	const squareFootMM2 = 304.8 * 304.8
	alloy := alloyOf(a.likeliestKey())
	grams := q.value
	if strings.Contains(strings.ToLower(q.typed(m)), "oz") {
		grams *= units.GramPerOunce / units.GramPerTroyOunce // sheet is sold by the ounce avoirdupois
	}
	thick := grams / squareFootMM2 / (alloy.DensityGPerCM3 / 1000)
	return worked("sheet sold by its weight", "thickness = mass / (area x density); 1 oz avoirdupois = 28.349523125 g, 1 square foot = 92 903 mm²",
		fmt.Sprintf("%s on a square foot of %s is %.3f mm, about %.2f mm: it is sold by the ordinary ounce.", strings.TrimSpace(q.typed(m)), alloy.Name, thick, thick))
}

// temperaturesCompared tells which of two temperatures is the hotter.
func (m *message) temperaturesCompared() (Reading, bool) {
	if len(m.found) != 2 || !m.says("more", "less", "hotter", "cooler", "higher", "lower", "same") || !m.makesNothing() {
		return Reading{}, false
	}
	var celsius [2]float64
	scales := 0
	for i, q := range m.found {
		if q.measure != temper && q.measure != angle || q.value < 60 {
			return Reading{}, false
		}
		celsius[i] = q.value
		if unit := m.at(q.next - 1).text; unit == "f" || unit == "fahrenheit" {
			celsius[i] = units.CelsiusFromFahrenheit(q.value)
			scales++
		}
	}
	if scales != 1 {
		return Reading{}, false
	}
	word := "more"
	if celsius[0] < celsius[1] {
		word = "less"
	}
	return worked("temperatures", "°F = °C x 9/5 + 32",
		fmt.Sprintf("%.0f °C (%.0f °F) is %s than %.0f °C (%.0f °F), by %.0f °C.", celsius[0], units.FahrenheitFromCelsius(celsius[0]), word, celsius[1], units.FahrenheitFromCelsius(celsius[1]), math.Abs(celsius[0]-celsius[1])))
}
