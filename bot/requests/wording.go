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

// metalWords names sheet or wire by its thickness and alloy, for a headline:
// "22 ga (0.64 mm) sterling silver".
func metalWords(c *catalogue.Call, alloy stock.Alloy) string {
	return thicknessWords(c, c.Args["thickness"]) + " " + alloy.Name
}

// thicknessWords writes a thickness with its gauge: "22 ga (0.64 mm)" where it
// was typed as a gauge, otherwise "0.8 mm (20 ga)", where the nearest gauge is
// within one per cent.
func thicknessWords(c *catalogue.Call, v catalogue.Value) string {
	if v.HasGauge {
		return stock.GaugeName(v.Gauge) + " ga (" + lengthWords(c, v.Number) + ")"
	}
	s := lengthWords(c, v.Number)
	if n, mm := stock.NearestGauge(v.Number); math.Abs(mm/v.Number-1) < 0.01 {
		s += " (" + stock.GaugeName(n) + " ga)"
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

// cost adds the cost of a mass by the configured price to an answer, or a note
// that says why there is none. Prices never come from the network.
func cost(a *answer.Answer, shop *stock.Workshop, alloy stock.Alloy, massG float64) {
	if shop != nil {
		if p, found := shop.PriceOf(alloy.Key); found {
			main := 0
			for _, f := range a.Figures {
				if f.Main {
					main++
				}
			}
			a.Figures = append(a.Figures, answer.Figure{ID: "cost", Label: "cost, " + p.Currency + " of " + p.Date, Value: massG * p.PerGram, Unit: answer.Money, Main: main < 6})
			a.Assumptions = append(a.Assumptions, priceWords(p, shop))
			return
		}
	}
	a.Notes = append(a.Notes, noPrice(alloy.Name))
}

// priceWords is a price as an assumption.
func priceWords(p stock.Price, shop *stock.Workshop) string {
	from := "your workshop"
	if shop.Demo {
		from = "invented, demo workshop"
	}
	return fmt.Sprintf("%g %s a gram on %s (%s)", p.PerGram, p.Currency, p.Date, from)
}

// noPrice says why there is no cost.
func noPrice(metal string) string {
	return "no cost: the configuration has no price of " + metal
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
