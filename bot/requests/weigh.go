package requests

import (
	"context"
	"fmt"
	"strings"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/cautions"
	"guildhand/bot/reading"
	"guildhand/bot/requests/option"
	"guildhand/bot/requests/words"
	"guildhand/calc/stock"
)

func weighRequest() catalogue.Spec {
	alloy := option.Alloy()
	thickness := option.Thickness()
	thickness.Summary = "thickness of sheet or disc; diameter or side of wire: 18ga, 1 mm"
	thickness.Min, thickness.Max = 0.05, 30
	thickness.Aliases = []string{"gauge", "thick"} // "sheet" is a form here
	return catalogue.Spec{
		Name:    "weigh",
		Summary: "mass and cost of a piece of stock: sheet, wire, tube, disc, a collet's blank",
		Detail: "Mass in grams, pennyweights and troy ounces from nominal sizes and published densities, and the cost by the " +
			"prices in the configuration. Sizes: sheet length x width, disc diameter, wire length, tube outer x wall x length, " +
			"half-round width x height x length. After `collet`, type the collet as you would ask for it.",
		Options: []catalogue.Option{
			{
				Name: "form", Aliases: []string{"stock"},
				Summary: "what you weigh: sheet, wire, square-wire, half-round, tube or disc",
				Kind:    catalogue.Word, Choices: formChoices(), Bare: true,
				Required: true, Unless: []string{"collet"},
				Prompt: "what do you want to weigh: sheet, wire, square-wire, half-round, tube, disc, or a collet?",
			},
			{
				Name: "size", Aliases: []string{"diameter"},
				Summary: "sheet 50x20, disc 25, wire its length 300, tube 6x0.5x100, half-round 4x2x60",
				Kind:    catalogue.Size, Min: 0.1, Max: 100_000, Bare: true,
				Required: true, Unless: []string{"collet", "length"},
				Prompt:  "what size is it, in mm: sheet 50x20, disc 25, wire 300, tube 6x0.5x100, half-round 4x2x60?",
				Suggest: []string{"50x20", "100x50", "25", "300", "6x0.5x100", "4x2x60"},
				Sample:  func(a catalogue.Args) string { return formSizes[a.Word("form")] },
			},
			thickness,
			{
				Name: "length", Aliases: []string{"long"},
				Summary: "length of wire, tube or half-round, if the size does not have it",
				Kind:    catalogue.Length, Min: 0.1, Max: 100_000,
				Suggest: []string{"100", "300", "1000"},
			},
			alloy,
			{
				Name: "count", Aliases: []string{"pieces", "pcs"},
				Summary: "how many pieces alike",
				Kind:    catalogue.Integer, Min: 1, Max: 10_000,
			},
			option.Units(),
			{
				Name:    "collet",
				Summary: "the collet whose blank is weighed, as you would ask for it",
				Kind:    catalogue.Text, Excludes: []string{"form", "size", "thickness", "length", "alloy"},
			},
		},
		Examples: []catalogue.Example{
			{Line: "weigh sheet 50x20 22ga sterling", Summary: "a piece of sheet"},
			{Line: "weigh wire 18ga length 300 sterling", Summary: "round wire"},
			{Line: "weigh tube 6x0.5x100 copper", Summary: "tube: outer x wall x length"},
			{Line: "weigh half-round 4x2 length 60 sterling", Summary: "half-round wire, its length by name"},
			{Line: "weigh disc 25 0.8mm 18k-yellow count 4", Summary: "four discs"},
			{Line: "weigh collet oval 8x6 depth 4 sterling 22ga", Summary: "the blank of a collet"},
		},
		Answer: answerWeigh,
	}
}

// Forms of stock.
const (
	formSheet      = "sheet"
	formWire       = "wire"
	formSquareWire = "square-wire"
	formHalfRound  = "half-round"
	formTube       = "tube"
	formDisc       = "disc"
)

func formChoices() []catalogue.Choice {
	return []catalogue.Choice{
		{Key: formSheet, Aliases: []string{"plate", "strip"}, Summary: "a rectangle of sheet: length x width, thickness"},
		{Key: formWire, Aliases: []string{"round-wire", "rod"}, Summary: "round wire: diameter as thickness, length"},
		{Key: formSquareWire, Aliases: []string{"square"}, Summary: "square wire: side as thickness, length"},
		{Key: formHalfRound, Aliases: []string{"half-round-wire", "d-wire"}, Summary: "half-round wire: width x height, length"},
		{Key: formTube, Aliases: []string{"pipe"}, Summary: "round tube: outer x wall, length"},
		{Key: formDisc, Aliases: []string{"circle"}, Summary: "a disc: diameter, thickness"},
	}
}

// weighed is one piece of stock: its volume and how it is named.
type weighed struct {
	volumeMM3 float64
	piece     string
	formula   string
}

func answerWeigh(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	if c.Args.Has("collet") {
		return weighCollet(ctx, c)
	}
	alloy, err := option.AlloyOf(c, "alloy")
	if err != nil {
		return nil, err
	}
	w, err := weighForm(c)
	if err != nil {
		return nil, err
	}
	one := stock.MassG(w.volumeMM3, alloy.DensityGPerCM3)
	a := weighAnswer(c, alloy, w.piece, one)
	a.Assumptions = append(a.Assumptions,
		fmt.Sprintf("density %.2f g/cm³ (%s)", alloy.DensityGPerCM3, firstSource(alloy.Source)),
		"nominal sizes (stock varies by a few per cent: common practice, no source)")
	a.Steps = append([]string{
		"volume " + w.formula + fmt.Sprintf(" = %.1f mm³", w.volumeMM3),
		fmt.Sprintf("mass = %.1f mm³ x %.2f g/cm³ / 1000 = %.2f g", w.volumeMM3, alloy.DensityGPerCM3, one),
	}, a.Steps...)
	return a, nil
}

// formSizes is a size of each form, for lines to try.
var formSizes = map[string]string{
	"": "50x20", formSheet: "50x20", formWire: "300", formSquareWire: "300", formHalfRound: "4x2x60", formTube: "6x0.5x100", formDisc: "25",
}

// formSides says what the sides of each form's size are.
var formSides = map[string][]string{
	formSheet: {"length", "width"}, formWire: {"length"}, formSquareWire: {"length"},
	formHalfRound: {"width", "height", "length"}, formTube: {"outer diameter", "wall", "length"}, formDisc: {"diameter"},
}

func weighForm(c *catalogue.Call) (weighed, error) {
	form := c.Word("form")
	size := c.Value("size").Numbers
	names := formSides[form]
	try := c.Retyped(map[string]string{"size": formSizes[form], "length": ""})
	// A length by name is the last side, of the forms that end with one.
	if long := c.Number("length"); long > 0 {
		if last := names[len(names)-1]; last != "length" {
			return weighed{}, answer.Refuse(try, "a %s has no length besides its size, %s in mm", form, strings.Join(names, " x "))
		}
		if len(size) == len(names) {
			return weighed{}, answer.Refuse(try, "the length of the %s is given twice, %s mm and %s mm; leave one out", form, words.MM(size[len(size)-1]), words.MM(long))
		}
		size = append(append([]float64(nil), size...), long)
	}
	if len(size) != len(names) {
		return weighed{}, answer.Refuse(try, "the size of a %s is %s in mm; %d numbers are needed and %d were given", form, strings.Join(names, " x "), len(names), len(size))
	}
	switch form {
	case formHalfRound:
		return weighed{stock.HalfRoundMM3(size[0], size[1], size[2]), words.Length(c, size[2]) + " of half-round wire, " + words.Size(c, size[:2]...),
			fmt.Sprintf("π/4 x %s x %s x %s mm (half an ellipse)", words.MM(size[0]), words.MM(size[1]), words.MM(size[2]))}, nil
	case formTube:
		if size[1] > size[0]/2 {
			return weighed{}, answer.Refuse(try, "a wall of %s mm does not fit a tube of %s mm; the wall is at most half the outer diameter, %s mm",
				words.MM(size[1]), words.MM(size[0]), words.MM(size[0]/2))
		}
		return weighed{stock.TubeMM3(size[0], size[1], size[2]), words.Length(c, size[2]) + " of tube, " + words.Size(c, size[:2]...),
			fmt.Sprintf("π x (%s − %s) x %s x %s mm", words.MM(size[0]), words.MM(size[1]), words.MM(size[1]), words.MM(size[2]))}, nil
	}
	// Only these have a thickness of their own.
	thick := c.Number("thickness")
	t := words.Thickness(c, c.Value("thickness"))
	switch form {
	case formSheet:
		return weighed{stock.SheetMM3(size[0], size[1], thick), "sheet " + words.Size(c, size...) + ", " + t,
			fmt.Sprintf("%s x %s x %.3f mm", words.MM(size[0]), words.MM(size[1]), thick)}, nil
	case formDisc:
		return weighed{stock.DiscMM3(size[0], thick), "disc " + words.Length(c, size[0]) + " across, " + t,
			fmt.Sprintf("π/4 x %s² x %.3f mm", words.MM(size[0]), thick)}, nil
	case formWire:
		return weighed{stock.DiscMM3(thick, size[0]), words.Length(c, size[0]) + " of round wire, " + t,
			fmt.Sprintf("π/4 x %.3f² x %s mm", thick, words.MM(size[0]))}, nil
	case formSquareWire:
		return weighed{stock.SheetMM3(thick, thick, size[0]), words.Length(c, size[0]) + " of square wire, " + t,
			fmt.Sprintf("%.3f² x %s mm", thick, words.MM(size[0]))}, nil
	}
	return weighed{}, fmt.Errorf("form %q of stock is not known", form)
}

// weighAnswer is what both ways of weighing answer: the mass of one piece, of
// all of them, and the cost.
func weighAnswer(c *catalogue.Call, alloy stock.Alloy, piece string, oneG float64) *answer.Answer {
	count := max(1, c.Number("count"))
	total := oneG * count
	a := &answer.Answer{
		Headline: fmt.Sprintf("%s in %s weighs %.2f g.", words.Capital(piece), alloy.Name, total),
		Figures:  massFigures("mass", "mass", total, true),
	}
	does(a, c, alloy, cautions.Saw, cautions.Files)
	a.Figures[0].Main, a.Figures[1].Main = false, true // the headline has the first
	if count > 1 {
		a.Headline = fmt.Sprintf("%g pieces of %s in %s weigh %.2f g together.", count, piece, alloy.Name, total)
		a.Figures = append(a.Figures,
			answer.Figure{ID: "mass_each", Label: "mass of one", Value: oneG, Unit: answer.Gram, Main: true},
			answer.Figure{ID: "count", Label: "pieces", Value: count, Unit: answer.Count})
	}
	a.Steps = []string{"deburr the cut edges, and weigh before you solder: the scales decide, not the nominal size"}
	cost(a, c.Shop, alloy, total)
	a.Figures = append(a.Figures, answer.Figure{ID: "density", Label: "density", Value: alloy.DensityGPerCM3, Unit: answer.GramPerCC})
	return a
}

// weighCollet weighs the blank of the collet that is typed behind the word.
func weighCollet(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
	typed := c.Word("collet")
	inner, err := c.Nested("collet " + typed)
	if err != nil {
		return nil, aroundCollet(c, err)
	}
	collet, err := inner.Answer(ctx)
	if err != nil {
		return nil, aroundCollet(c, err)
	}
	typed = strings.TrimPrefix(reading.Echo(collet.Line), "collet ")
	c.Settle("collet", catalogue.Value{Text: typed})
	var blankG float64
	for _, f := range collet.Figures {
		if f.ID == "blank_mass" {
			blankG = f.Value
		}
	}
	if blankG <= 0 {
		return nil, fmt.Errorf("the collet's answer has no blank_mass")
	}
	alloy, err := option.AlloyOf(inner, "alloy")
	if err != nil {
		return nil, err
	}
	a := weighAnswer(c, alloy, "", blankG)
	if count := c.Number("count"); count > 1 {
		a.Headline = fmt.Sprintf("%g blanks of collet %s weigh %.2f g together, as cut, in %s.", count, typed, blankG*count, alloy.Name)
	} else {
		a.Headline = fmt.Sprintf("The blank of collet %s weighs %.2f g as cut, in %s.", typed, blankG, alloy.Name)
	}
	a.Notes = append(collet.Notes, a.Notes...)
	a.Assumptions = append(append(collet.Assumptions, a.Assumptions...), fmt.Sprintf("density %.2f g/cm³ (%s)", alloy.DensityGPerCM3, firstSource(alloy.Source)))
	a.Steps = append([]string{
		"the piece: " + collet.Headline,
		fmt.Sprintf("mass of one blank %.2f g, without solder and without the metal between blanks on the sheet", blankG),
	}, a.Steps...)
	return a, nil
}

// aroundCollet puts the line that a refusal of the collet suggests behind this
// request's own words.
func aroundCollet(c *catalogue.Call, err error) error {
	r, ok := answer.AsRefusal(err)
	if !ok {
		return err
	}
	try, found := strings.CutPrefix(r.Try, "collet ")
	if !found {
		return answer.Refuse("weigh collet oval 8x6 depth 4 sterling 22ga", "%s", r.Problem)
	}
	return &answer.Refusal{Problem: r.Problem, Try: c.Retyped(map[string]string{"collet": try}), Cause: r.Cause}
}

// firstSource is the part of a table's source that speaks of the density.
func firstSource(source string) string {
	first, _, _ := strings.Cut(source, ";")
	first, _ = strings.CutPrefix(first, "density: ")
	return first
}
