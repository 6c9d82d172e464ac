// Package casting gives the metal to melt for a wax or for a model in another
// metal, the size to make a wax so that the finished piece has its size, and
// the wax shell that is dipped on a tapered punch.
package casting

import (
	"fmt"
	"math"

	"guildhand/calc/units"
)

// WaxDensityGPerCM3 is carving and injection wax without filler: O. Untracht
// gives 0.95 to 0.98. Suppliers' worked examples simply take 1, which asks for
// 4 % less metal. Filled and dyed waxes differ: a test piece weighed in and
// out of water is better.
const WaxDensityGPerCM3 = 0.96

// MetalG is the mass of metal that fills the mould of a pattern, g: the
// pattern's volume in metal, M = m rho_metal / rho_pattern. The pattern is a
// wax or a model in another metal, weighed together with its sprue.
//
// The identity is exact; densities are known to about 1 % and a casting's
// pores and shrinkage take off a little.
func MetalG(patternG, patternDensity, metalDensity float64) float64 {
	return patternG * metalDensity / patternDensity
}

// Charge is what goes into the crucible.
type Charge struct {
	// CastingG is the piece with its sprue, ButtonG the head of metal that
	// feeds it while it freezes, TotalG both.
	CastingG, ButtonG, TotalG float64
}

// ChargeOf adds the button, a share of the casting's mass (0.10 for 10 %).
func ChargeOf(castingG, buttonShare float64) Charge {
	return ChargeWith(castingG, castingG*buttonShare)
}

// ChargeWith adds a button of a mass.
func ChargeWith(castingG, buttonG float64) Charge {
	return Charge{CastingG: castingG, ButtonG: buttonG, TotalG: castingG + buttonG}
}

// Shrinkage lists linear shrinkages as shares (0.01 for 1 %) of the steps
// between the pattern that is made and the finished piece; a step that is not
// gone through is 0.
type Shrinkage struct {
	// Mould is the rubber mould's own shrinkage, Wax that of the injected wax,
	// Metal that of the casting, Finish what filing and polishing take off.
	Mould, Wax, Metal, Finish float64
}

// Factor is the pattern's length over the finished length: the product of
// 1/(1-s). It is exact for the shares given, which are themselves only known
// from a shop's own trials.
func (s Shrinkage) Factor() float64 {
	return 1 / ((1 - s.Mould) * (1 - s.Wax) * (1 - s.Metal) * (1 - s.Finish))
}

// Total is the linear shrinkage from pattern to finished piece, as a share.
func (s Shrinkage) Total() float64 { return 1 - 1/s.Factor() }

// Check reports a share below 0 or above a tenth.
func (s Shrinkage) Check() error {
	for _, v := range []float64{s.Mould, s.Wax, s.Metal, s.Finish} {
		if !(v >= 0 && v <= 0.10) {
			return fmt.Errorf("shrinkage of %.1f %% is out of range; each step is from 0 to 10 %%", 100*v)
		}
	}
	return nil
}

// Dipped is a wax shell made by dipping a tapered punch into wax, to be cast
// as a collet. All sizes are of the wax.
type Dipped struct {
	// WidthMM is the inner width at the rim, at the punch's narrow measure.
	WidthMM float64
	// HeightMM is the height of the collet along the axis.
	HeightMM float64
	// WallMM is the wall wanted, square to the wall, and DipMM what one dip
	// leaves.
	WallMM, DipMM float64
	// Lean is the punch's lean from its axis; TipMM its width at the tip.
	Lean  units.Angle
	TipMM float64
}

// Dipping says how to dip and trim.
type Dipping struct {
	// Dips is the number of dips, WallMM what they leave.
	Dips   int
	WallMM float64
	// RimFromTipMM and BaseFromTipMM are where to trim, along the punch's axis
	// from its tip. Below the base the wax closes over the tip and is cut off;
	// above the rim it is ragged and is cut off too.
	RimFromTipMM, BaseFromTipMM float64
	// BaseWidthMM is the inner width at the base.
	BaseWidthMM float64
	// OuterWidthMM is the outer width at the rim.
	OuterWidthMM float64
	// DipDepthMM is how deep to dip: past the rim by two walls.
	DipDepthMM float64
}

// Dipping computes the shell. It is an error if the punch has no taper, if the
// rim is narrower than the tip, or if the base would lie beyond the tip.
func (d Dipped) Dipping() (Dipping, error) {
	switch {
	case !(d.WidthMM > 0 && d.HeightMM > 0 && d.WallMM > 0 && d.DipMM > 0):
		return Dipping{}, fmt.Errorf("width, height, wall and dip of a wax shell must be more than 0 mm")
	case !(d.Lean > 0 && d.Lean <= 45*units.Degree):
		return Dipping{}, fmt.Errorf("a punch of %.1f° lean does not let the wax go; the lean is from 1° to 45°", d.Lean.Degrees())
	}
	tan := d.Lean.Tan()
	rim := (d.WidthMM - d.TipMM) / 2 / tan
	if rim < d.HeightMM {
		return Dipping{}, fmt.Errorf("the punch is too thick at its tip: %.2f mm, and the shell's base is %.2f mm wide", d.TipMM, d.WidthMM-2*d.HeightMM*tan)
	}
	dips := int(math.Max(1, math.Round(d.WallMM/d.DipMM)))
	wall := float64(dips) * d.DipMM
	return Dipping{
		Dips: dips, WallMM: wall,
		RimFromTipMM: rim, BaseFromTipMM: rim - d.HeightMM,
		BaseWidthMM:  d.WidthMM - 2*d.HeightMM*tan,
		OuterWidthMM: d.WidthMM + 2*wall/d.Lean.Cos(),
		DipDepthMM:   rim + 2*wall,
	}, nil
}
