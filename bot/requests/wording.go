package requests

import (
	"fmt"
	"math"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/template"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

// inches reports whether the maker or a bench asks for inches beside mm.
func inches(c *catalogue.Call) bool { return c.Args.Word("units") == "inch" }

// lengthWords writes a length for a sentence, "54.42 mm", with inches behind it
// where they are asked for.
func lengthWords(c *catalogue.Call, mm float64) string {
	if inches(c) {
		return fmt.Sprintf("%s mm (%.3f in)", bench(mm), mm/units.MMPerInch)
	}
	return bench(mm) + " mm"
}

// bench rounds a length in mm to the 0.01 mm that a bench can use.
func bench(mm float64) string {
	s := fmt.Sprintf("%.2f", mm)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// sizeWords writes a size for a sentence: "8 x 6 mm".
func sizeWords(c *catalogue.Call, mm ...float64) string {
	sides, inch := make([]string, len(mm)), make([]string, len(mm))
	for i, v := range mm {
		sides[i], inch[i] = bench(v), fmt.Sprintf("%.3f", v/units.MMPerInch)
	}
	s := strings.Join(sides, " x ") + " mm"
	if inches(c) {
		s += " (" + strings.Join(inch, " x ") + " in)"
	}
	return s
}

// thicknessWords writes a thickness with its gauge: "22 ga (0.64 mm)" where it
// was typed as a gauge, otherwise "0.6 mm", with the nearest gauge where it is
// within one per cent.
func thicknessWords(c *catalogue.Call, v catalogue.Value) string {
	if v.HasGauge {
		return stock.GaugeName(v.Gauge) + " ga (" + lengthWords(c, v.Number) + ")"
	}
	s := lengthWords(c, v.Number)
	if n, mm := stock.NearestGauge(v.Number); math.Abs(mm/v.Number-1) < 0.01 {
		s += ", " + stock.GaugeName(n) + " ga"
	}
	return s
}

// massFigures are a mass in the trade's three units, g first.
func massFigures(id, label string, massG float64, isMain bool) []answer.Figure {
	return []answer.Figure{
		{ID: id, Label: label, Value: massG, Unit: answer.Gram, Main: isMain},
		{ID: id + "_troy", Label: label + ", troy", Value: massG, Unit: answer.Gram, Text: troyWords(massG)},
	}
}

// troyWords writes a mass in pennyweights and troy ounces.
func troyWords(massG float64) string {
	return fmt.Sprintf("%.2f dwt, %.3f ozt", massG/units.GramPerPennyweight, massG/units.GramPerTroyOunce)
}

// costOf gives the cost of a mass by the configured price, or a note that says
// why there is none. Prices never come from the network.
func costOf(shop *stock.Workshop, alloy stock.Alloy, massG float64) (figure answer.Figure, ok bool, note string) {
	if shop != nil {
		if p, found := shop.PriceOf(alloy.Key); found {
			label := fmt.Sprintf("cost in %s at %g a gram, price of %s", p.Currency, p.PerGram, p.Date)
			if shop.Demo {
				label += " (invented, from the demo workshop)"
			}
			return answer.Figure{ID: "cost", Label: label, Value: massG * p.PerGram, Unit: answer.Money, Main: true}, true, ""
		}
	}
	return answer.Figure{}, false, "no price for " + alloy.Name + " is configured, so no cost is given; prices are kept in the workshop of the configuration"
}

// alloyOf gives the alloy of an option. The parser lets only known words
// through, so an unknown one is a fault of ours.
func alloyOf(c *catalogue.Call, option string) (stock.Alloy, error) {
	a, ok := stock.AlloyByKey(c.Args.Word(option))
	if !ok {
		return stock.Alloy{}, fmt.Errorf("alloy %q is not in the table", c.Args.Word(option))
	}
	return a, nil
}

// assumed is Call.Assumed without the paper and the units where they are
// nobody's choice: they change no figure.
func assumed(c *catalogue.Call, but ...string) []string {
	for _, name := range []string{"paper", "units"} {
		if v, ok := c.Args[name]; ok && v.Source == catalogue.FromDefault {
			but = append(but, name)
		}
	}
	return c.Assumed(but...)
}

// capital makes the first letter a capital, for the start of a headline.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// drawn attaches a drawing to an answer, for the paper that the call asks for.
func drawn(c *catalogue.Call, a *answer.Answer, d template.Drawing) *answer.Answer {
	paper, _ := template.PaperNamed(c.Args.Word("paper")) // A4 where none is asked for
	a.Attachments = append(a.Attachments, d.Attachments(paper)...)
	return a
}
