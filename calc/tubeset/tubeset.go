// Package tubeset sets a round faceted stone in tube: which tube, how deep the
// seat, how long a piece.
//
// Seen from above the stone covers half of the wall, so that the other half can
// be pushed over it: stone = (outside + inside)/2 (C. Lewton-Brain, "Tube
// Setting"). The seat is cut to the stone's own diameter, by the same author.
package tubeset

import (
	"fmt"
	"math"
)

// Tube is a tube by its outside diameter and wall, mm.
type Tube struct{ OuterMM, WallMM float64 }

// InnerMM is the bore.
func (t Tube) InnerMM() float64 { return t.OuterMM - 2*t.WallMM }

// LeastWallMM is the thinnest wall that is left beside the stone. Common
// practice, no source.
const LeastWallMM = 0.15

// UsualWallMM is the wall that a round stone is usually set in. Common practice,
// no source: tube is drawn in these walls.
func UsualWallMM(stoneMM float64) float64 {
	switch {
	case stoneMM < 2:
		return 0.3
	case stoneMM < 3:
		return 0.4
	case stoneMM < 5:
		return 0.5
	case stoneMM < 7:
		return 0.6
	}
	return 0.8
}

// For is the tube whose wall the stone covers by half.
func For(stoneMM, wallMM float64) Tube { return Tube{OuterMM: stoneMM + wallMM, WallMM: wallMM} }

// Serves says what keeps a tube from a stone, for the maker; nil if nothing
// does. The stone must cover between 30 and 70 % of the wall (common practice,
// no source; half is the rule).
func (t Tube) Serves(stoneMM float64) error {
	switch {
	case !(t.OuterMM > 0 && t.WallMM > 0 && t.InnerMM() > 0):
		return fmt.Errorf("a wall of %.2f mm leaves no bore in a tube of %.2f mm", t.WallMM, t.OuterMM)
	case stoneMM <= t.InnerMM():
		return fmt.Errorf("the stone, %.2f mm, falls through the bore of %.2f mm", stoneMM, t.InnerMM())
	case stoneMM >= t.OuterMM:
		return fmt.Errorf("the stone, %.2f mm, is as wide as the tube, %.2f mm: no wall is left round it", stoneMM, t.OuterMM)
	case t.WallLeftMM(stoneMM) < LeastWallMM-1e-9:
		return fmt.Errorf("a tube of %.2f mm leaves %.2f mm of wall beside the stone; at least %.2f mm is needed", t.OuterMM, t.WallLeftMM(stoneMM), LeastWallMM)
	}
	if share := t.Covered(stoneMM); share < 0.3-1e-9 || share > 0.7+1e-9 {
		return fmt.Errorf("the stone would cover %.0f %% of the wall; half is the rule, 30 to 70 %% can be set", 100*share)
	}
	return nil
}

// Covered is the share of the wall that the stone covers, 1/2 by the rule.
func (t Tube) Covered(stoneMM float64) float64 { return (stoneMM - t.InnerMM()) / 2 / t.WallMM }

// WallLeftMM is the wall beside the stone, in the seat.
func (t Tube) WallLeftMM(stoneMM float64) float64 { return (t.OuterMM - stoneMM) / 2 }

// Proportions of a round brilliant, as shares of its diameter: crown angle 34.5
// degrees, pavilion 43.1 % deep (M. Tolkowsky, 1919), girdle 3 % (common
// practice, no source).
const (
	girdleShare   = 0.03
	pavilionShare = 0.431
	crownAngle    = 34.5 * math.Pi / 180
)

// OverCrownShare is how far the rim is pushed over the stone, of its radius: "10
// per cent over the crown" (a bench thread on bearing wire).
const OverCrownShare = 0.10

// RimOverGirdleMM is the tube that stands over the girdle's upper edge, to be
// pushed over the crown: as long as the crown's slope that it covers, and at
// least 0.2 mm (common practice, no source).
func RimOverGirdleMM(stoneMM float64) float64 {
	return math.Max(0.2, OverCrownShare*stoneMM/2/math.Cos(crownAngle))
}

// SeatDepthMM is from the tube's rim down to the lower edge of the girdle.
func SeatDepthMM(stoneMM float64) float64 { return girdleShare*stoneMM + RimOverGirdleMM(stoneMM) }

// LengthMM is the tube from rim to foot: the seat, the pavilion below it and
// room under the culet. belowMM, if not negative, is the stone's measured depth
// under the girdle.
func LengthMM(stoneMM, belowMM, roomMM float64) float64 {
	if belowMM < 0 {
		belowMM = PavilionMM(stoneMM)
	}
	return SeatDepthMM(stoneMM) + belowMM + roomMM
}

// PavilionMM is the typical depth under the girdle.
func PavilionMM(stoneMM float64) float64 { return pavilionShare * stoneMM }

// StockMM is the tube for count pieces: each with what its ends are filed by and
// one cut of the saw.
func StockMM(count int, lengthMM, filedMM, kerfMM float64) float64 {
	return float64(count) * (lengthMM + filedMM + kerfMM)
}
