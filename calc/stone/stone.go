// Package stone estimates what was not measured of a faceted stone: its depth
// from typical proportions of the cut, and its weight from its size or the
// other way round. Everything here is an estimate; a caliper is better.
package stone

import "guildhand/calc/outline"

// TypicalDepthShare returns the typical depth (table to culet) of a faceted
// stone as a share of its width, for the outline's usual cut.
//
// Common practice, no source: mid values of what cutters of calibrated stones
// work to. Native cuts run deeper and commercial ones shallower: expect 15 %
// either way (see DepthSpread). Measured outlines and unknown kinds take 0.60.
func TypicalDepthShare(kind outline.Kind) float64 {
	if s, ok := depthShares[kind]; ok {
		return s
	}
	return 0.60
}

// DepthSpread is how far a stone's depth may lie from the typical one, as a
// share of it. Common practice, no source.
const DepthSpread = 0.15

var depthShares = map[outline.Kind]float64{
	outline.Round:           0.62,
	outline.Oval:            0.62,
	outline.Pear:            0.62,
	outline.Marquise:        0.62,
	outline.Emerald:         0.65,
	outline.Square:          0.68,
	outline.Baguette:        0.60,
	outline.TaperedBaguette: 0.60,
	outline.Cushion:         0.66,
	outline.Trillion:        0.42,
	outline.Heart:           0.58,
	outline.Hexagon:         0.62,
	outline.Octagon:         0.65,
	outline.HalfMoon:        0.55,
	outline.Kite:            0.50,
	outline.Lozenge:         0.52,
	outline.Measured:        0.60,
}
