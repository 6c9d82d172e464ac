package requests

import (
	"fmt"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
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
	a.Attachments = append(a.Attachments, d.Attachments(paper, func() template.Page { return benchSheet(c, a) })...)
	return a
}

// benchSheet is what a bench sheet says beside its drawings.
func benchSheet(c *catalogue.Call, a *answer.Answer) template.Page {
	measures := template.Section{Title: "Measures", Paragraphs: []string{a.Headline}}
	for _, f := range a.Figures {
		if f.Main {
			measures.Bullets = append(measures.Bullets, words.Capital(f.Label)+": "+a.Show(f))
		}
	}
	page := template.Page{Sections: []template.Section{measures}, ToFill: trialLines(c)}
	if len(a.Notes) > 0 {
		page.Sections = append(page.Sections, template.Section{Title: "Mind", Bullets: a.Notes})
	}
	if len(a.Cautions) > 0 {
		page.Sections = append(page.Sections, template.Section{Title: "Take care", Bullets: append(cautions.InFull(a.Cautions), cautions.Deferral)})
	}
	steps := template.Section{Title: "Steps", Numbered: true}
	for _, s := range a.Steps {
		steps.Bullets = append(steps.Bullets, words.Capital(s))
	}
	page.Sections = append(page.Sections, steps)
	if len(a.Assumptions) > 0 {
		page.Sections = append(page.Sections, template.Section{Title: "Assumed", Paragraphs: []string{strings.Join(answer.Brief(a.Assumptions), "; ")}})
	}
	return page
}

// trialLines are what a maker notes of a trial, for tune where it takes one.
func trialLines(c *catalogue.Call) []string {
	switch c.Spec.Name {
	case "collet", "prongs", "collar":
		return []string{"cut: rim, base along the edges", "formed: rim (inside or outside)", "formed: base (inside or outside)", "formed: height"}
	case "bezel", "band":
		return []string{"cut: length", "formed: inside", "formed: height or width"}
	}
	return []string{"cut", "formed"}
}
