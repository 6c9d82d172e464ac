package development

import (
	"math"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// Sections are the two level sections that a wall joins.
type Sections struct {
	Rim, Base outline.Curve
	// HeightMM is the level distance between them.
	HeightMM float64
	// Seam is where the blank is opened.
	Seam outline.Place
}

// EvenSlope returns the sections of a wall of the same lean everywhere: the
// section at the height z above the plan's own level is the plan offset by
// faceMM + z tan a, always from the plan itself, so that a slender oval is
// trimmed but once. rimMM is the rim's height above that level, heightMM the
// wall's. The error is outline.ErrClosed if the base closes.
func EvenSlope(plan outline.Curve, faceMM, rimMM, heightMM float64, lean units.Angle) (Sections, error) {
	rim, err := plan.Offset(faceMM + rimMM*lean.Tan())
	if err != nil {
		return Sections{}, err
	}
	base, err := plan.Offset(faceMM + (rimMM-heightMM)*lean.Tan())
	if err != nil {
		return Sections{}, err
	}
	return Sections{Rim: rim, Base: base, HeightMM: heightMM}, nil
}

// Apex returns the sections of a general cone: similar to the plan offset by
// faceMM, about its axis. The mean lean round the outline is lean:
// P(z) = P(0) + 2 pi z tan a, as under an even slope.
func Apex(plan outline.Curve, faceMM, rimMM, heightMM float64, lean units.Angle) (Sections, error) {
	plan, err := plan.Offset(faceMM)
	if err != nil {
		return Sections{}, err
	}
	per := 2 * math.Pi * lean.Tan() / plan.PerimeterMM()
	base := 1 + (rimMM-heightMM)*per
	if base <= 1e-6 {
		return Sections{}, outline.ErrClosed
	}
	return Sections{Rim: plan.Scaled(1 + rimMM*per), Base: plan.Scaled(base), HeightMM: heightMM}, nil
}
