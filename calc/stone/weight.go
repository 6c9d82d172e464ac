package stone

import (
	"fmt"
	"math"

	"guildhand/calc/outline"
)

// formula is a trade estimate of a faceted stone's weight:
// carat = lengths(mm) x depth(mm) x specific gravity x factor.
type formula struct {
	factor float64
	// lengths2 is the product of lengths in the formula, mm2.
	lengths2 func(lengthMM, widthMM float64) float64
	name     string
}

func product(l, w float64) float64 { return l * w }
func meanSquared(l, w float64) float64 {
	d := (l + w) / 2
	return d * d
}

// formulas are the weight-estimation factors that jewellers' tables agree on;
// the primary text was not seen. Lists disagree about the square (.0023 to
// .0025) and the marquise (.0016 to .0017), and about whether an oval takes
// its mean diameter squared (used here) or length times width.
var formulas = map[outline.Kind]formula{
	outline.Round:    {0.0018, meanSquared, "diameter² x depth x SG x 0.0018"},
	outline.Oval:     {0.0020, meanSquared, "mean diameter² x depth x SG x 0.0020"},
	outline.Emerald:  {0.0025, product, "length x width x depth x SG x 0.0025"},
	outline.Octagon:  {0.0025, product, "length x width x depth x SG x 0.0025"},
	outline.Baguette: {0.0026, product, "length x width x depth x SG x 0.0026"},
	outline.Square:   {0.0025, product, "length x width x depth x SG x 0.0025"},
	outline.Marquise: {0.0017, product, "length x width x depth x SG x 0.0017"},
	outline.Pear:     {0.0018, product, "length x width x depth x SG x 0.0018"},
	outline.Heart:    {0.0018, product, "length x width x depth x SG x 0.0018"},
}

// WeightSpread is how far a stone's weight may lie above the formula, as a
// share: a bulged pavilion or a thick girdle adds 2 to 6 %, and the factors
// themselves differ from list to list.
const WeightSpread = 0.10

// diamondRound is the formula of a round brilliant diamond, with diamond's
// specific gravity in its factor. Source: the same tables.
var diamondRound = formula{0.0061, meanSquared, "diameter² x depth x 0.0061"}

// formulaOf gives the formula for a gem of an outline, with the specific
// gravity to take. ok is false where none is published.
func formulaOf(kind outline.Kind, gem Gem) (f formula, specificGravity float64, ok bool) {
	if kind == outline.Round && gem.Key == "diamond" {
		return diamondRound, 1, true
	}
	f, ok = formulas[kind]
	return f, gem.SpecificGravity, ok
}

// CaratFromSize estimates the weight of a faceted stone, carat, from its size
// in mm and what it is. It is an error for an outline without a published
// factor and for sizes that are not positive.
//
// Source: weight-estimation factors as printed by several jewellers' tables.
func CaratFromSize(kind outline.Kind, size outline.Size, depthMM float64, gem Gem) (carat float64, err error) {
	f, specificGravity, ok := formulaOf(kind, gem)
	if !ok {
		return 0, fmt.Errorf("no published weight formula for a %s stone; known are round, oval, emerald, octagon, baguette, square, marquise, pear and heart", kind)
	}
	if !(size.LengthMM > 0 && size.WidthMM > 0 && depthMM > 0 && specificGravity > 0) {
		return 0, fmt.Errorf("length, width and depth of a stone must be more than 0 mm")
	}
	return f.lengths2(size.LengthMM, size.WidthMM) * depthMM * specificGravity * f.factor, nil
}

// SizeFromCarat estimates the size and depth in mm of a stone of a weight in
// carat, with the given length over width (1 for a round) and the outline's
// typical depth: the inverse of CaratFromSize with TypicalDepthShare.
func SizeFromCarat(kind outline.Kind, carat, lengthOverWidth float64, gem Gem) (size outline.Size, depthMM float64, err error) {
	if !(carat > 0 && lengthOverWidth >= 1) {
		return outline.Size{}, 0, fmt.Errorf("weight must be more than 0 ct, and length over width at least 1")
	}
	share := TypicalDepthShare(kind)
	// Every formula is of the third degree in the size: solve for one mm of
	// width and scale.
	unit, err := CaratFromSize(kind, outline.Size{LengthMM: lengthOverWidth, WidthMM: 1}, share, gem)
	if err != nil {
		return outline.Size{}, 0, err
	}
	w := math.Cbrt(carat / unit)
	return outline.Size{LengthMM: lengthOverWidth * w, WidthMM: w}, share * w, nil
}

// FormulaName is the formula used for a gem of an outline, in words, or "".
func FormulaName(kind outline.Kind, gem Gem) string {
	f, _, _ := formulaOf(kind, gem)
	return f.name
}
