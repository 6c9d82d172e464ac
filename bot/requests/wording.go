package requests

import (
	"fmt"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/stock"
	"guildhand/calc/units"
)

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
	a.Notes = append(a.Notes, words.NoPrice(alloy.Name))
}

// priceWords is a price as an assumption.
func priceWords(p stock.Price, shop *stock.Workshop) string {
	from := "your workshop"
	if shop.Demo {
		from = "invented, demo workshop"
	}
	return fmt.Sprintf("%g %s a gram on %s (%s)", p.PerGram, p.Currency, p.Date, from)
}

// drawn attaches a drawing to an answer, for the paper that the call asks for.
func drawn(c *catalogue.Call, a *answer.Answer, d template.Drawing) *answer.Answer {
	paper, _ := template.PaperNamed(c.Word("paper")) // A4 where none is asked for
	d.Foot = words.Foot(c)
	a.Attachments = append(a.Attachments, d.Attachments(paper)...)
	return a
}
