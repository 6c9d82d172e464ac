package ring

import "math"

// LengthChangeMM is what is let into a ring, or taken out where it is negative,
// to bring its inner circumference from one value to another with the same
// section: the change of the circumference itself, pi x the change of diameter,
// whatever the thickness, since the neutral line keeps its distance from the
// finger.
func LengthChangeMM(fromMM, toMM float64) float64 { return toMM - fromMM }

// StretchStrain is the true strain of a ring's inner face when it is stretched
// or compressed from one inner circumference to another.
func StretchStrain(fromMM, toMM float64) float64 { return math.Log(toMM / fromMM) }

// Stretched says how far a plain ring without stones is stretched.
type Stretched int

// Steps of stretching.
const (
	// MayStretch: up to half a US size.
	MayStretch Stretched = iota
	// HeavyOnly: up to a whole US size, by guides that allow it on heavy bands.
	HeavyOnly
	// MustCut: more than that.
	MustCut
)

// HeavyMM is the thickness from which a band counts as heavy here. Common
// practice, no source: the guides don't give a figure.
const HeavyMM = 1.8

// Stretching reports whether a plain band may be stretched, up only. Guides: "half
// a size up or one full" (a jeweller's page on stretching), "3/4 of a size with
// regular weight rings, 1 size on very heavy rings" (a bench jeweller's page on
// sizing methods). The lower figure is taken for bands that are not heavy.
func Stretching(fromMM, toMM, thicknessMM float64) Stretched {
	const rounding = 1e-9
	step := lines[US].stepMM
	switch change := toMM - fromMM; {
	case change < 0:
		return MustCut
	case change <= step/2+rounding:
		return MayStretch
	case change <= step+rounding && thicknessMM >= HeavyMM:
		return HeavyOnly
	}
	return MustCut
}

// StretchedThicknessMM is the thickness of a band that was stretched, its volume
// kept and width and thickness thinned alike.
func StretchedThicknessMM(fromMM, toMM, thicknessMM float64) float64 {
	return thicknessMM * math.Exp(-StretchStrain(fromMM, toMM)/2)
}
