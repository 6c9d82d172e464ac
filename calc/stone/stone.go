// Package stone estimates what was not measured of a faceted stone: its depth
// from typical proportions of the cut, and its weight from its size or the
// other way round. Everything here is an estimate; a caliper is better.
package stone

import (
	"cmp"

	"guildhand/calc/outline"
)

// TypicalDepthShare returns the typical depth (table to culet) of a faceted
// stone as a share of its smaller side, for the outline's usual cut; 0.60 for
// an unknown kind.
//
// Mid values of what cutters of calibrated stones work to. Native cuts run
// deeper and commercial ones shallower: expect 15 % either way (see
// DepthSpread). The source of each is its DepthSource.
func TypicalDepthShare(kind outline.Kind) float64 {
	return cmp.Or(kind.Describe().DepthShare, 0.60)
}

// TypicalDepthMM is the typical depth of a stone of a size.
func TypicalDepthMM(kind outline.Kind, size outline.Size) float64 {
	return TypicalDepthShare(kind) * min(size.LengthMM, size.WidthMM)
}

// CuletMM is how far a stone's culet lies below its girdle, by the typical
// share of the cut.
func CuletMM(kind outline.Kind, depthMM float64) float64 {
	return cmp.Or(kind.Describe().PavilionShare, 0.70) * depthMM
}

// DepthSpread is how far a stone's depth may lie from the typical one, as a
// share of it. Common practice, no source.
const DepthSpread = 0.15
