package stock

import (
	"math"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// DemoWorkshop returns the invented workshop of the default configuration. Its
// blocks, punches, tubes, presses, sheets and prices are examples, not any
// maker's stock, and Demo is set so that answers say so. Each call makes a new
// one, which the caller may change.
func DemoWorkshop() *Workshop {
	const lean = 8.5 * units.Degree
	return &Workshop{
		Demo: true,
		Blocks: []Block{
			{Name: "demo-round", Kind: outline.Round, Lean: lean, ThicknessMM: 12, Holes: holes(outline.Round, 14, 5, 0)},
			{Name: "demo-round-steep", Kind: outline.Round, Lean: 14 * units.Degree, ThicknessMM: 10, Holes: holes(outline.Round, 14, 6, 0)},
			{Name: "demo-oval", Kind: outline.Oval, Lean: lean, ThicknessMM: 12, Holes: holes(outline.Oval, 13, 5, 2)},
			{Name: "demo-pear", Kind: outline.Pear, Lean: lean, ThicknessMM: 12, Holes: holes(outline.Pear, 13, 5, 3)},
			{Name: "demo-marquise", Kind: outline.Marquise, Lean: lean, ThicknessMM: 10, Holes: holes(outline.Marquise, 11, 5, 5)},
			{Name: "demo-emerald", Kind: outline.Emerald, Lean: lean, ThicknessMM: 12, Holes: holes(outline.Emerald, 13, 5, 2)},
			{Name: "demo-square", Kind: outline.Square, Lean: lean, ThicknessMM: 12, Holes: holes(outline.Square, 12, 5, 0)},
			{Name: "demo-cushion", Kind: outline.Cushion, Lean: lean, ThicknessMM: 12, Holes: holes(outline.Cushion, 12, 5, 0)},
			{Name: "demo-heart", Kind: outline.Heart, Lean: lean, ThicknessMM: 8, Holes: holes(outline.Heart, 13, 6, 0)},
			{Name: "demo-trillion", Kind: outline.Trillion, Lean: lean, ThicknessMM: 8, Holes: holes(outline.Trillion, 13, 6, 0)},
			{Name: "demo-hexagon", Kind: outline.Hexagon, Lean: lean, ThicknessMM: 12, Holes: holes(outline.Hexagon, 12, 5, 0)},
		},
		Punches: []Punch{
			{Name: "demo-round-punch", Kind: outline.Round, Lean: lean, Small: size(outline.Round, 2, 0), Large: size(outline.Round, 12, 0)},
			{Name: "demo-round-steep-punch", Kind: outline.Round, Lean: 14 * units.Degree, Small: size(outline.Round, 2, 0), Large: size(outline.Round, 12, 0)},
			{Name: "demo-oval-punch", Kind: outline.Oval, Lean: lean, Small: size(outline.Oval, 2, 2), Large: size(outline.Oval, 11, 2)},
			{Name: "demo-pear-punch", Kind: outline.Pear, Lean: lean, Small: size(outline.Pear, 2, 3), Large: size(outline.Pear, 11, 3)},
			{Name: "demo-marquise-punch", Kind: outline.Marquise, Lean: lean, Small: size(outline.Marquise, 2, 5), Large: size(outline.Marquise, 9, 5)},
			{Name: "demo-emerald-punch", Kind: outline.Emerald, Lean: lean, Small: size(outline.Emerald, 2, 2), Large: size(outline.Emerald, 11, 2)},
			{Name: "demo-square-punch", Kind: outline.Square, Lean: lean, Small: size(outline.Square, 2, 0), Large: size(outline.Square, 10, 0)},
			{Name: "demo-cushion-punch", Kind: outline.Cushion, Lean: lean, Small: size(outline.Cushion, 2, 0), Large: size(outline.Cushion, 10, 0)},
			{Name: "demo-heart-punch", Kind: outline.Heart, Lean: lean, Small: size(outline.Heart, 3, 0), Large: size(outline.Heart, 11, 0)},
			{Name: "demo-trillion-punch", Kind: outline.Trillion, Lean: lean, Small: size(outline.Trillion, 3, 0), Large: size(outline.Trillion, 11, 0)},
			{Name: "demo-hexagon-punch", Kind: outline.Hexagon, Lean: lean, Small: size(outline.Hexagon, 2, 0), Large: size(outline.Hexagon, 10, 0)},
		},
		Tubes: demoTubes(),
		Presses: []Press{
			{Name: "20t", CapacityN: 20 * units.NewtonPerTonneForce, RamAreaMM2: discMM2(60)},
			{Name: "12t", CapacityN: 12 * units.NewtonPerTonneForce, RamAreaMM2: discMM2(46)},
		},
		Sheets: []Sheet{
			{Name: "half-sheet", WidthMM: 150, LengthMM: 300},
			{Name: "quarter-sheet", WidthMM: 150, LengthMM: 150},
			{Name: "strip-50", WidthMM: 50, LengthMM: 300},
			{Name: "class-card", WidthMM: 75, LengthMM: 100},
		},
		Prices: []Price{
			{Alloy: "sterling", PerGram: 1.20, Currency: "demo money", Date: "2026-11-01"},
			{Alloy: "fine-silver", PerGram: 1.25, Currency: "demo money", Date: "2026-11-01"},
			{Alloy: "copper", PerGram: 0.03, Currency: "demo money", Date: "2026-11-01"},
			{Alloy: "brass", PerGram: 0.03, Currency: "demo money", Date: "2026-11-01"},
		},
	}
}

func demoTubes() []Tube {
	return []Tube{
		{Name: "tube-4x0.5", Alloy: "sterling", OuterMM: 4, WallMM: 0.5},
		{Name: "tube-5x0.8", Alloy: "sterling", OuterMM: 5, WallMM: 0.8},
		{Name: "tube-6x0.5", Alloy: "sterling", OuterMM: 6, WallMM: 0.5},
		{Name: "tube-6x1", Alloy: "sterling", OuterMM: 6, WallMM: 1},
		{Name: "tube-7x1", Alloy: "sterling", OuterMM: 7, WallMM: 1},
		{Name: "tube-8x0.8", Alloy: "sterling", OuterMM: 8, WallMM: 0.8},
		{Name: "tube-8x1.2", Alloy: "sterling", OuterMM: 8, WallMM: 1.2},
		{Name: "tube-9x1", Alloy: "sterling", OuterMM: 9, WallMM: 1},
		{Name: "tube-10x1", Alloy: "sterling", OuterMM: 10, WallMM: 1},
		{Name: "tube-10x1.5", Alloy: "sterling", OuterMM: 10, WallMM: 1.5},
		{Name: "tube-12x1.2", Alloy: "sterling", OuterMM: 12, WallMM: 1.2},
		{Name: "copper-tube-8x0.8", Alloy: "copper", OuterMM: 8, WallMM: 0.8},
		{Name: "copper-tube-10x1", Alloy: "copper", OuterMM: 10, WallMM: 1},
		{Name: "copper-tube-12x1", Alloy: "copper", OuterMM: 12, WallMM: 1},
		{Name: "gold-tube-6x0.8", Alloy: "18k-yellow", OuterMM: 6, WallMM: 0.8},
		{Name: "gold-tube-8x1", Alloy: "18k-yellow", OuterMM: 8, WallMM: 1},
	}
}

// holes lists openings of widths from largest down to smallest in steps of
// 0.5 mm, each longer than wide by longerMM: the difference that calibrated
// stones keep from size to size, and that an even wall does not change. 0 takes
// the length that the outline has for one number.
func holes(kind outline.Kind, largestMM, smallestMM, longerMM float64) []outline.Size {
	var list []outline.Size
	for w := largestMM; w >= smallestMM; w -= 0.5 {
		list = append(list, size(kind, w, longerMM))
	}
	return list
}

func size(kind outline.Kind, widthMM, longerMM float64) outline.Size {
	s := outline.Size{WidthMM: widthMM}
	if longerMM > 0 {
		s.LengthMM = widthMM + longerMM
	}
	return kind.Filled(s)
}

func discMM2(diameterMM float64) float64 { return math.Pi * diameterMM * diameterMM / 4 }

// PriceOf finds the price per gram of an alloy by its key.
func (w *Workshop) PriceOf(alloy string) (Price, bool) {
	for _, p := range w.Prices {
		if a, ok := AlloyByKey(p.Alloy); p.Alloy == alloy || ok && a.Key == alloy {
			return p, true
		}
	}
	return Price{}, false
}
