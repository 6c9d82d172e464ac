package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"guildhand/calc/units"
)

// unitTopics are what is known of units in words. Whoever tells a figure beside such a
// question wants it in the other unit too.
var unitTopics = []string{"gauge", "gauges", "smaller number thicker", "ounces differ", "troy ounce", "carat and karat", "lengths"}

// namesWantedUnit reports whether a message names a unit that its figures could be told in,
// outside of them: "5/32 of an inch is what in mm".
func (m *message) namesWantedUnit() bool {
	for _, q := range m.found {
		switch {
		case len(m.wantedIn(q.measure)) > 0, q.measure == carat && len(m.wantedIn(mass)) > 0:
			return true
		case (q.measure == length || q.measure == bare) && q.value < thickestTold && m.says(gaugeWords...):
			return true
		}
	}
	return false
}

// unitsBesideWords reports whether a reading in words, or none, stands where units are asked
// for besides.
func (m *message) unitsBesideWords(r Reading) bool {
	switch r.Outcome {
	case Explanation:
		compared := r.Topic == "gauges" && len(m.found) > 1
		known := r.isNearest() || slices.Contains(unitTopics, r.Topic) && !compared || factNamed(r.Topic) != nil && m.chance("gauge") >= likelyUnits
		return known && m.namesWantedUnit()
	case Question, Unknown:
		return (r.Request == "" || len(r.Options) == 0) && m.namesWantedUnit() && m.makesNothing()
	}
	return false
}

// withReason adds what is known of units to the figures, where the message asks for both.
func (m *message) withReason(told, known Reading) Reading {
	if known.Outcome == Explanation && slices.Contains(unitTopics, known.Topic) && m.says("why", "mean", "means", "bigger", "larger", "thicker", "thinner") {
		told.Text += " " + known.Text
	}
	return told
}

// eachTold tells every figure in the units of its own measure: a length beside a mass.
func (m *message) eachTold(q *quantity) (string, bool) {
	switch q.measure {
	case massMeasure, carat:
		return m.massTold(q)
	case gauge:
		return m.thicknessTold(q)
	case length:
		if q.value <= thickestTold && m.says(gaugeWords...) {
			return m.thicknessTold(q)
		}
		return m.longTold(q), true
	case temper:
		return m.temperatureTold(q)
	}
	return "", false
}

// inchParts are the parts of an inch that a length is told in, by their word.
var inchParts = []struct {
	say []string
	of  float64
}{
	{[]string{"64th", "64ths", "sixty fourth", "sixty fourths"}, 64},
	{[]string{"32nd", "32nds", "thirty second", "thirty seconds"}, 32},
	{[]string{"16th", "16ths", "sixteenth", "sixteenths"}, 16},
	{[]string{"8th", "8ths", "eighth", "eighths"}, 8},
	{[]string{"quarter", "quarters"}, 4},
}

// longTold tells a length in mm, cm where it is long, and inches, also in parts of an inch.
func (m *message) longTold(q *quantity) string {
	const long, coarse = 40, 16
	of := 64.0
	if q.value >= long {
		of = coarse // as a tape is marked
	}
	for _, p := range inchParts {
		if m.says(p.say...) {
			of = p.of
		}
	}
	inches := q.value / units.MMPerInch
	told := fmt.Sprintf("%s is %.2f mm", strings.TrimSpace(q.typed(m)), q.value)
	if q.value >= long {
		told += fmt.Sprintf(", %.2f cm", q.value/10)
	}
	return fmt.Sprintf("%s, %.3f in, nearest %s in", told, inches, in64ths(math.Round(inches*of)/of))
}

// turnWords name the turns of a coil.
var turnWords = []string{"turns", "wraps", "coils", "windings", "loops"}

// turnsTold is how many turns of a coil a message tells of, in figures or in words; 0 for none.
func (m *message) turnsTold() float64 {
	for i := range m.tokens {
		if !slices.Contains(turnWords, m.at(i).text) {
			continue
		}
		for k := i - 1; k >= max(0, i-3); k-- {
			if m.at(k).number {
				return m.at(k).value
			}
			if n, _, ok := m.spokenNumber(k); ok {
				return n
			}
		}
	}
	return 0
}

// turnsOfWire tells how thick wire is of which so many close turns are so long.
func (m *message) turnsOfWire() (Reading, bool) {
	if !m.says(turnWords...) || !m.says("thick", "thickness", "gauge", "ga", "gage", "diameter", "what wire", "which wire") {
		return Reading{}, false
	}
	turns, long := m.turnsTold(), (*quantity)(nil)
	for _, q := range m.found {
		if q.value == turns && q.measure != length {
			continue
		}
		if q.measure != length || long != nil {
			return Reading{}, false
		}
		long = q
	}
	const fewest = 3
	if long == nil || turns < fewest || long.value/turns > thickestTold || long.value/turns < thinnestMM {
		return Reading{}, false
	}
	thick := long.value / turns
	n := nearestGauge(thick)
	return worked("wire by its turns", "thickness = length of close turns / their number; ASTM B258",
		fmt.Sprintf("The wire is %.2f mm (%.4f in) thick: %s over %s turns. The nearest B&S gauge is %s ga, %.2f mm.", thick, thick/units.MMPerInch, strings.TrimSpace(long.typed(m)), plain(turns), plain(n), gaugeMM(n)))
}

// steelGauges are the thicknesses of sheet steel in mm by the Manufacturers' Standard Gauge,
// by its even numbers; from memory.
var steelGauges = map[float64]float64{10: 3.42, 12: 2.66, 14: 1.90, 16: 1.52, 18: 1.21, 20: 0.91, 22: 0.76, 24: 0.61, 26: 0.46, 28: 0.38, 30: 0.30}

// otherGauges tells that a number of another trade's gauge, or of an old one, is another
// thickness.
func (m *message) otherGauges() (Reading, bool) {
	if m.says("metal gauge", "birmingham") && !m.says("sheet metal", "convert") && m.says("gauge", "gage") && m.says("same", "b and s", "american", "awg", "brown and sharpe", "number", "no", "compare", "=vs") && !m.says("cut", "how many mm", "in each", "millimetres", "millimeters") {
		return worked("old gauges", "from memory; measure the metal",
			"No, it is not the same as the American gauge (B&S). In the Birmingham metal gauge, which old books use for sheet silver and gold, the numbers run the other way: the higher, the thicker, and number 10 is about 0.6 to 0.7 mm, as old tables differ. The Birmingham wire gauge (Stubs) and SWG are different again. Go by mm: measure with a micrometer.")
	}
	if !m.says("steel", "stainless", "galvanised", "galvanized") || !m.says("same", "different", "difference", "differ", "versus", "=vs", "compare", "aint nothin like") || !m.says("gauge", "gage", "ga", "gauges") || m.says("weld", "welding", "tig", "mig") {
		return Reading{}, false
	}
	told := ""
	for _, q := range m.found {
		if steel := steelGauges[q.value]; told == "" && steel != 0 && (q.measure == gauge || q.measure == bare) {
			told = fmt.Sprintf(" %s gauge is %.2f mm in sheet steel and %.2f mm in silver, copper, brass and gold.", plain(q.value), steel, gaugeMM(q.value))
		}
	}
	return worked("steel's gauge", "ASTM B258; Manufacturers' Standard Gauge: from memory",
		"No, they are different: steel sheet goes by the Manufacturers' Standard Gauge, jewellers' sheet and wire by Brown and Sharpe (B&S, AWG)."+told+" Stainless and galvanised sheet differ a little again, so go by the micrometer.")
}
