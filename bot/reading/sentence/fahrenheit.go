package sentence

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// Heats are given in °C. Who asks for °F gets those of the answer beside it.

// mostScaleWords is how many words a message has at most that asks for the other scale and
// nothing else: "in F please, not C".
const mostScaleWords = 8

// inOtherScale answers the last heat, or the last explanation that names one, in °F where
// that is all that a message asks for.
func (m *message) inOtherScale() (Reading, bool) {
	if len(m.found)+len(m.alloys) > 0 || m.words() > mostScaleWords || !m.says(fahrenheitWords...) || m.has("solder") || m.says("hard", "medium", "easy") {
		return Reading{}, false
	}
	if f := factNamed(m.context.Topic); f != nil {
		told := inFahrenheit(celsiusIn(f.Text))
		return Reading{Outcome: Explanation, Topic: "temperatures", Text: "In °F: " + told + ".", Source: "°F = °C x 9/5 + 32"}, told != ""
	}
	piece, ok := m.pieceInTalk()
	if !ok || piece.Request != "heat" || piece.Options["alloy"] == "" {
		return Reading{}, false
	}
	return Reading{Outcome: Request, Request: "heat", Options: piece.Options}, true
}

// withFahrenheit adds the heats of an alloy in °F where a message asks for them.
func (m *message) withFahrenheit(r Reading) Reading {
	if r.Outcome != Request || r.Request != "heat" || !m.says(fahrenheitWords...) {
		return r
	}
	a := alloyOf(r.Options["alloy"])
	if a.Key == "" {
		return r
	}
	told := fmt.Sprintf("in °F: begins to melt at %.0f", units.FahrenheitFromCelsius(a.SolidusC))
	if a.AnnealHighC > 0 {
		told = fmt.Sprintf("in °F: anneal at %.0f to %.0f, begins to melt at %.0f", units.FahrenheitFromCelsius(a.AnnealLowC), units.FahrenheitFromCelsius(a.AnnealHighC), units.FahrenheitFromCelsius(a.SolidusC))
	}
	for _, key := range []string{"hard", "medium", "easy"} {
		s, ok := stock.SolderByKey(key)
		if typed := r.Options["solder"]; ok && s.FlowC < a.SolidusHighC && (typed == key || typed == "" && a.Family == stock.Silver) {
			told += fmt.Sprintf(", %s solder flows at %.0f", key, units.FahrenheitFromCelsius(s.FlowC))
		}
	}
	r.Notes = append(r.Notes[:len(r.Notes):len(r.Notes)], told)
	return r
}

// leastTemperature is from how many °C on a text's figure is a temperature and no difference
// of two.
const leastTemperature = 30

// celsiusIn are the temperatures in °C that a text names, each once.
func celsiusIn(text string) (all []float64) {
	words := strings.Fields(strings.ReplaceAll(text, ",", ""))
	seen := map[float64]bool{}
	for i, w := range words {
		if !strings.HasPrefix(w, "°C") && !strings.HasPrefix(w, "Celsius") {
			continue
		}
		for k := i - 1; k >= 0 && i-k <= 3; k -= 2 { // "650 to 700 °C"
			c, err := strconv.ParseFloat(strings.TrimLeft(words[k], "("), 64)
			if err != nil {
				break
			}
			if !seen[c] && c >= leastTemperature {
				seen[c] = true
				all = append(all, c)
			}
			if k == 0 || words[k-1] != "to" && words[k-1] != "and" && words[k-1] != "or" {
				break
			}
		}
	}
	slices.Sort(all)
	return all
}

// inFahrenheit tells temperatures in both scales.
func inFahrenheit(celsius []float64) string {
	var told []string
	for _, c := range celsius {
		told = append(told, fmt.Sprintf("%s °C is %.0f °F", plain(c), units.FahrenheitFromCelsius(c)))
	}
	return strings.Join(told, ", ")
}
