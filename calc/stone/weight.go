package stone

import (
	"fmt"
	"math"
	"strings"

	"guildhand/calc/outline"
)

// WeightSpread is how far a stone's weight may lie above the formula, as a
// share: a bulged pavilion or a thick girdle adds 2 to 6 %, and the factors
// themselves differ from list to list.
const WeightSpread = 0.10

// formulaOf returns the formula for a gem of an outline, with the specific
// gravity to take. ok is false where none is published.
func formulaOf(kind outline.Kind, gem Gem) (f outline.CaratFormula, specificGravity float64, ok bool) {
	f = kind.Describe().Carat
	if f.Lengths == outline.DiameterSquared && gem.RoundFactor > 0 {
		return outline.CaratFormula{Lengths: f.Lengths, Factor: gem.RoundFactor}, 1, true
	}
	return f, gem.SpecificGravity, f.Factor > 0
}

// lengthsMM2 is the product of lengths in a formula.
func lengthsMM2(l outline.Lengths, size outline.Size) float64 {
	if l == outline.LengthTimesWidth {
		return size.LengthMM * size.WidthMM
	}
	diameter := (size.LengthMM + size.WidthMM) / 2
	return diameter * diameter
}

// known names the outlines that have a formula.
func known() string {
	var names []string
	for _, k := range outline.Kinds() {
		if k.Describe().Carat.Factor > 0 {
			names = append(names, string(k))
		}
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// CaratFromSize estimates the weight of a faceted stone, carat, from its size
// in mm and what it is. It is an error for an outline without a published
// factor and for sizes that are not positive.
//
// Source: weight-estimation factors as printed by several jewellers' tables.
func CaratFromSize(kind outline.Kind, size outline.Size, depthMM float64, gem Gem) (carat float64, err error) {
	f, specificGravity, ok := formulaOf(kind, gem)
	if !ok {
		return 0, fmt.Errorf("no published weight formula for a %s stone; known are %s", kind, known())
	}
	if !(size.LengthMM > 0 && size.WidthMM > 0 && depthMM > 0 && specificGravity > 0) {
		return 0, fmt.Errorf("length, width and depth of a stone must be more than 0 mm")
	}
	return lengthsMM2(f.Lengths, size) * depthMM * specificGravity * f.Factor, nil
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
	f, _, ok := formulaOf(kind, gem)
	switch {
	case !ok:
		return ""
	case f.Factor == gem.RoundFactor:
		return fmt.Sprintf("%s x depth x %.4f", f.Lengths, f.Factor)
	}
	return fmt.Sprintf("%s x depth x SG x %.4f", f.Lengths, f.Factor)
}
