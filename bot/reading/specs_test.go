package reading

import (
	"guildhand/bot/catalogue"
	"guildhand/calc/stock"
)

// testSpecs is a small catalogue with every kind of option.
func testSpecs() []catalogue.Spec {
	outline := catalogue.Option{Name: "outline", Aliases: []string{"shape", "cut"}, Kind: catalogue.Word, Bare: true,
		Required: true, Prompt: "which outline is the stone?",
		Choices: []catalogue.Choice{
			{Key: "round"}, {Key: "oval", Aliases: []string{"ellipse"}}, {Key: "pear"},
			{Key: "emerald", Aliases: []string{"cut-corner"}}, {Key: "tapered-baguette", Aliases: []string{"tapered"}},
			{Key: "half-moon"}, {Key: "measured"},
		}}
	size := catalogue.Option{Name: "size", Kind: catalogue.Size, Min: 0.8, Max: 100, Bare: true, Required: true,
		Prompt: "what size is the stone?", Unless: []string{"points"}, Suggest: []string{"8x6"}}
	points := catalogue.Option{Name: "points", Kind: catalogue.Points, Min: -100, Max: 100, Bare: true, Excludes: []string{"size"}}
	alloy := catalogue.Option{Name: "alloy", Aliases: []string{"metal"}, Kind: catalogue.Word, Bare: true, Bench: true,
		Choices: []catalogue.Choice{
			{Key: "sterling", Aliases: []string{"ag925", "925", "sterling-silver"}, Summary: "sterling silver"},
			{Key: "fine-silver", Aliases: []string{"silver"}, Summary: "fine silver"},
			{Key: "18k-yellow", Aliases: []string{"18k"}, Summary: "18 karat yellow gold"},
			{Key: "18k-rose", Summary: "18 karat rose gold"},
			{Key: "copper", Aliases: []string{"cu"}},
		},
		Default: "sterling", DefaultNote: "common practice, no source"}
	thickness := catalogue.Option{Name: "thickness", Aliases: []string{"gauge"}, Kind: catalogue.Thickness,
		Min: 0.1, Max: 6, Bare: true, Bench: true, Default: "22ga"}
	collet := catalogue.Spec{Name: "collet", Summary: "the blank of a tapered setting", Options: []catalogue.Option{
		outline, size, points,
		{Name: "depth", Aliases: []string{"deep"}, Kind: catalogue.Length, Min: 0.3, Max: 80, Suggest: []string{"4"}},
		{Name: "height", Kind: catalogue.Length, Min: 0.5, Max: 100},
		alloy, thickness,
		{Name: "lean", Kind: catalogue.Angle, Min: 0, Max: 45, Default: "8.5", DefaultNote: "from memory", Excludes: []string{"included"}},
		{Name: "included", Kind: catalogue.Angle, Min: 0, Max: 90},
		{Name: "corner", Kind: catalogue.Word, Choices: []catalogue.Choice{{Key: "bent"}, {Key: "scored"}}},
		{Name: "base", Kind: catalogue.Word, Choices: outline.Choices},
		{Name: "block", Kind: catalogue.Word, ChoicesFrom: func(w *stock.Workshop) []catalogue.Choice {
			var list []catalogue.Choice
			for _, b := range w.Blocks {
				list = append(list, catalogue.Choice{Key: b.Name})
			}
			return list
		}},
		{Name: "press", Kind: catalogue.Force, Min: 1000, Max: 1e6},
		{Name: "factor", Kind: catalogue.Number, Min: 0.2, Max: 0.6},
		{Name: "pre-cone", Kind: catalogue.Flag},
	}, Examples: []catalogue.Example{{Line: "collet oval 8x6 depth 4 sterling 22ga"}}}
	weigh := catalogue.Spec{Name: "weigh", Summary: "mass of stock", Options: []catalogue.Option{
		{Name: "form", Kind: catalogue.Word, Bare: true, Required: true, Prompt: "which form of stock?", Choices: []catalogue.Choice{{Key: "sheet"}, {Key: "wire"}}},
		{Name: "size", Kind: catalogue.Size, Min: 0.8, Max: 1000, Bare: true},
		{Name: "mass", Kind: catalogue.Mass, Min: 0.001, Max: 10000, Bare: true},
		{Name: "waste", Kind: catalogue.Percent},
		{Name: "button", Kind: catalogue.Share},
		alloy,
		{Name: "thickness", Aliases: []string{"gauge"}, Kind: catalogue.Thickness, Min: 0.1, Max: 6, Bare: true},
	}, Examples: []catalogue.Example{{Line: "weigh sheet 50x20 sterling 22ga"}}}
	band := catalogue.Spec{Name: "band", Summary: "the blank of a ring", Options: []catalogue.Option{
		{Name: "size", Kind: catalogue.RingSize, Bare: true, Required: true, Prompt: "which ring size?"},
		{Name: "system", Kind: catalogue.Word, Bare: true, Choices: []catalogue.Choice{{Key: "us"}, {Key: "uk"}, {Key: "iso"}}},
		{Name: "width", Kind: catalogue.Length, Min: 0.5, Max: 30},
		thickness,
	}, Examples: []catalogue.Example{{Line: "band us 7 1/2 width 4 18ga"}}}
	kit := catalogue.Spec{Name: "kit", Summary: "a class", Options: []catalogue.Option{
		{Name: "makers", Aliases: []string{"students"}, Kind: catalogue.Integer, Min: 1, Max: 60, Bare: true, Required: true, Prompt: "how many makers?", Suggest: []string{"12"}},
		{Name: "kerf", Kind: catalogue.Length, Min: 0.1, Max: 3},
		{Name: "piece", Kind: catalogue.Text, Bare: true, Required: true, Prompt: "which piece does each maker make?"},
	}, Examples: []catalogue.Example{{Line: "kit 12 makers collet oval 8x6 depth 4"}}}
	daybook := catalogue.Spec{Name: "daybook", Summary: "the log", Options: []catalogue.Option{
		{Name: "find", Kind: catalogue.Words},
		{Name: "maker", Kind: catalogue.Words},
		{Name: "amend", Kind: catalogue.Integer, Min: 1, Max: 1e9},
		{Name: "text", Kind: catalogue.Text},
	}, Examples: []catalogue.Example{{Line: "daybook find oval"}}}
	gauge := catalogue.Spec{Name: "gauge", Summary: "thicknesses", Options: []catalogue.Option{
		{Name: "gauge", Aliases: []string{"thickness"}, Kind: catalogue.Thickness, Min: 0.05, Max: 12, Bare: true, Required: true, Prompt: "which thickness?"},
	}, Examples: []catalogue.Example{{Line: "gauge 22"}}}
	return []catalogue.Spec{collet, weigh, band, kit, daybook, gauge}
}
