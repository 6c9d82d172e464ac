package seat

import "guildhand/calc/units"

// Published shares of the wall, measured level, that a bearing takes: 40 % (GIA,
// quality assurance benchmark for prongs), at most half (professionaljeweler.com
// 0704pb1, and half the wall of a tube: C. Lewton-Brain, "Tube Setting").
const (
	UsualShare = 0.40
	MostShare  = 0.50
)

// Limits of a wall that is set over a stone. Common practice, no source.
const (
	// ThinMM is the least wall left that is worth pushing over.
	ThinMM = 0.25
	// HeavyMM is a rim that is thinned outside before it is pushed over.
	HeavyMM = 0.6
	// TipsMM is how much more than the clearance a ledge must be for a stone
	// pushed to one side to stay on it at the other.
	TipsMM = 0.05
)

// Wall is the wall that a stone is seated in.
type Wall struct {
	Lean units.Angle
	// ThicknessMM of the sheet, ClearanceMM of the bearing's side, LedgeMM of its
	// floor measured level; a ledge of 0 is a wall that the stone drops into.
	ThicknessMM, ClearanceMM, LedgeMM float64
	// RimMM is the finished rim above z = 0, HeightMM the finished height.
	RimMM, HeightMM float64
}

// DefaultLedgeMM takes 40 % of the wall measured level, with the clearance, and
// not over a tenth of the stone's width. It is not positive where the clearance
// alone is that much.
func DefaultLedgeMM(w Wall, widthMM float64) float64 {
	return min(UsualShare*w.levelMM()-w.ClearanceMM, widthMM/10)
}

func (w Wall) levelMM() float64 { return w.ThicknessMM / w.Lean.Cos() }

// FaceMM is how far outside the stone's outline the inner face lies at z, before
// a bearing is cut.
func (w Wall) FaceMM(z float64) float64 {
	if w.LedgeMM == 0 {
		return w.ClearanceMM + z*w.Lean.Tan()
	}
	return z*w.Lean.Tan() - w.LedgeMM
}

// RestMM is the level at which the stone's edge comes to rest: 0 on a ledge, and
// in a wall without one where the wall has closed by the clearance. ok is false
// where it passes the base.
func (w Wall) RestMM() (mm float64, ok bool) {
	if w.LedgeMM > 0 {
		return 0, true
	}
	if w.Lean <= 0 {
		return 0, false
	}
	mm = -w.ClearanceMM / w.Lean.Tan()
	return mm, mm >= w.RimMM-w.HeightMM
}

// cutMM is how much of the wall the bearing takes at z, measured level.
func (w Wall) cutMM(z float64) float64 {
	return max(0, w.ClearanceMM-w.FaceMM(z))
}

// LeftMM is the wall left at z >= 0, measured level.
func (w Wall) LeftMM(z float64) float64 { return w.levelMM() - w.cutMM(z) }

// Share is the share of the wall, measured level, that the bearing takes at its
// floor.
func (w Wall) Share() float64 { return w.cutMM(0) / w.levelMM() }

// BearingTopMM is the height to which the bearing's side reaches.
func (w Wall) BearingTopMM() float64 {
	if w.LedgeMM == 0 {
		return 0
	}
	if w.Lean <= 0 {
		return w.RimMM
	}
	return min(w.RimMM, (w.LedgeMM+w.ClearanceMM)/w.Lean.Tan())
}

// LossMM is what an edge cut square to the sheet loses when it is filed level.
func (w Wall) LossMM() float64 { return w.ThicknessMM * w.Lean.Sin() }

// BearingWire is a ring of round wire that lies inside a wall and carries the
// pavilion.
type BearingWire struct {
	// MiddleMM is the height of its middle line, below z = 0.
	MiddleMM float64
}

// WireUnder lays a wire of a diameter so that the pavilion touches it where the
// girdle's lower edge is at z = 0. The wire touches the wall, its middle is r
// square to it, at x = face + z tan a - r / cos a outside the stone's outline;
// and the pavilion, whose side falls at p from that outline, is r away:
//
//	x sin p - z cos p = r.
//
// ok is false where pavilion and wall run so nearly alike that no wire holds, or it
// would hang below the base.
func WireUnder(s Stone, w Wall, diameterMM float64) (wire BearingWire, ok bool) {
	r, p := diameterMM/2, s.SteepestPavilion()
	face := w.FaceMM(0) - r/w.Lean.Cos()
	fall := p.Cos() - w.Lean.Tan()*p.Sin()
	if fall < 0.05 {
		return wire, false
	}
	wire.MiddleMM = (face*p.Sin() - r) / fall
	return wire, wire.MiddleMM-r >= w.RimMM-w.HeightMM
}
