package catalogue

import "guildhand/calc/stock"

// testSpecs is a small catalogue with every kind of option.
func testSpecs() []Spec {
	outline := Option{Name: "outline", Aliases: []string{"shape", "cut"}, Kind: Word, Bare: true,
		Required: true, Prompt: "which outline is the stone?",
		Choices: []Choice{
			{Key: "round"}, {Key: "oval", Aliases: []string{"ellipse"}}, {Key: "pear"},
			{Key: "emerald", Aliases: []string{"cut-corner"}}, {Key: "tapered-baguette", Aliases: []string{"tapered"}},
			{Key: "half-moon"}, {Key: "measured"},
		}}
	size := Option{Name: "size", Kind: Size, Min: 0.8, Max: 100, Bare: true, Required: true,
		Prompt: "what size is the stone?", Unless: []string{"points"}, Suggest: []string{"8x6"}}
	points := Option{Name: "points", Kind: Points, Min: -100, Max: 100, Bare: true, Excludes: []string{"size"}}
	alloy := Option{Name: "alloy", Aliases: []string{"metal"}, Kind: Word, Bare: true, Bench: true,
		Choices: []Choice{
			{Key: "sterling", Aliases: []string{"ag925", "925", "sterling-silver"}, Summary: "sterling silver"},
			{Key: "fine-silver", Aliases: []string{"silver"}, Summary: "fine silver"},
			{Key: "18k-yellow", Aliases: []string{"18k"}, Summary: "18 karat yellow gold"},
			{Key: "18k-rose", Summary: "18 karat rose gold"},
			{Key: "copper", Aliases: []string{"cu"}},
		},
		Default: "sterling", DefaultNote: "common practice, no source"}
	thickness := Option{Name: "thickness", Aliases: []string{"gauge"}, Kind: Thickness,
		Min: 0.1, Max: 6, Bare: true, Bench: true, Default: "22ga"}
	collet := Spec{Name: "collet", Summary: "the blank of a tapered setting", Options: []Option{
		outline, size, points,
		{Name: "depth", Aliases: []string{"deep"}, Kind: Length, Min: 0.3, Max: 80, Suggest: []string{"4"}},
		{Name: "height", Kind: Length, Min: 0.5, Max: 100},
		alloy, thickness,
		{Name: "lean", Kind: Angle, Min: 0, Max: 45, Default: "8.5", DefaultNote: "from memory", Excludes: []string{"included"}},
		{Name: "included", Kind: Angle, Min: 0, Max: 90},
		{Name: "corner", Kind: Word, Choices: []Choice{{Key: "bent"}, {Key: "scored"}}},
		{Name: "base", Kind: Word, Choices: outline.Choices},
		{Name: "block", Kind: Word, ChoicesFrom: func(w *stock.Workshop) []Choice {
			var list []Choice
			for _, b := range w.Blocks {
				list = append(list, Choice{Key: b.Name})
			}
			return list
		}},
		{Name: "press", Kind: Force, Min: 1000, Max: 1e6},
		{Name: "factor", Kind: Number, Min: 0.2, Max: 0.6},
		{Name: "pre-cone", Kind: Flag},
	}, Examples: []Example{{Line: "collet oval 8x6 depth 4 sterling 22ga"}}}
	weigh := Spec{Name: "weigh", Summary: "mass of stock", Options: []Option{
		{Name: "form", Kind: Word, Bare: true, Required: true, Prompt: "which form of stock?", Choices: []Choice{{Key: "sheet"}, {Key: "wire"}}},
		{Name: "size", Kind: Size, Min: 0.8, Max: 1000, Bare: true},
		{Name: "mass", Kind: Mass, Min: 0.001, Max: 10000, Bare: true},
		{Name: "waste", Kind: Percent},
		alloy,
		{Name: "thickness", Aliases: []string{"gauge"}, Kind: Thickness, Min: 0.1, Max: 6, Bare: true},
	}, Examples: []Example{{Line: "weigh sheet 50x20 sterling 22ga"}}}
	band := Spec{Name: "band", Summary: "the blank of a ring", Options: []Option{
		{Name: "size", Kind: RingSize, Bare: true, Required: true, Prompt: "which ring size?"},
		{Name: "system", Kind: Word, Bare: true, Choices: []Choice{{Key: "us"}, {Key: "uk"}, {Key: "iso"}}},
		{Name: "width", Kind: Length, Min: 0.5, Max: 30},
		thickness,
	}, Examples: []Example{{Line: "band us 7 1/2 width 4 18ga"}}}
	kit := Spec{Name: "kit", Summary: "a class", Options: []Option{
		{Name: "makers", Aliases: []string{"students"}, Kind: Integer, Min: 1, Max: 60, Bare: true, Required: true, Prompt: "how many makers?", Suggest: []string{"12"}},
		{Name: "kerf", Kind: Length, Min: 0.1, Max: 3},
		{Name: "piece", Kind: Text, Bare: true, Required: true, Prompt: "which piece does each maker make?"},
	}, Examples: []Example{{Line: "kit 12 makers collet oval 8x6 depth 4"}}}
	daybook := Spec{Name: "daybook", Summary: "the log", Options: []Option{
		{Name: "find", Kind: Words},
		{Name: "maker", Kind: Words},
		{Name: "amend", Kind: Integer, Min: 1, Max: 1e9},
		{Name: "text", Kind: Text},
	}, Examples: []Example{{Line: "daybook find oval"}}}
	gauge := Spec{Name: "gauge", Summary: "thicknesses", Options: []Option{
		{Name: "gauge", Aliases: []string{"thickness"}, Kind: Thickness, Min: 0.05, Max: 12, Bare: true, Required: true, Prompt: "which thickness?"},
	}, Examples: []Example{{Line: "gauge 22"}}}
	return []Spec{collet, weigh, band, kit, daybook, gauge}
}
