package setting

import (
	"fmt"
	"math"

	"guildhand/calc/development"
	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// Point is how the stone sits at a sharp corner of its outline.
type Point struct {
	// PinchMM is the most by which the folded wall stands nearer to the stone
	// there than its slope says: a wall of constant slope meets itself in a curved
	// ridge, and one sheet is folded along a straight one. 0 between flats.
	PinchMM float64
	// LeftMM is the least wall left at z = 0 after the bearing is cut to a sharp
	// corner, measured level between the corner's two sides.
	LeftMM float64
}

// points looks at every convex corner and gives the worst of each figure. ok is
// false where there is none.
func (c Collet) points(made folded, across []cornerLook) (worst Point, ok bool) {
	worst.LeftMM = math.Inf(1)
	for _, l := range across {
		worst.LeftMM = min(worst.LeftMM, c.cornerLeft(l))
	}
	n := len(c.Stone.Pieces)
	for i, next := range c.Stone.Pieces {
		turning := c.Stone.Turning(i).Radians()
		if turning <= 0 {
			continue
		}
		ok = true
		prev := c.Stone.Pieces[(i+n-1)%n]
		if c.Taper == Even || c.Taper == "" {
			worst.PinchMM = max(worst.PinchMM, c.pinch(made, prev, next))
		}
	}
	if worst.PinchMM < 1e-6 {
		worst.PinchMM = 0 // rounding, between flats
	}
	return worst, ok
}

// pinch is the most by which the ridge between two pieces stands nearer to the
// stone than an even slope does.
func (c Collet) pinch(made folded, prev, next outline.Piece) float64 {
	rim, inRim := cornerBetween(made.rim, prev.Tag, next.Tag)
	base, inBase := cornerBetween(made.base, prev.Tag, next.Tag)
	if !inRim || !inBase {
		return 0 // a base that closed past a short side
	}
	const levels = 16
	most := 0.0
	for k := range levels + 1 {
		z := c.RimMM - c.HeightMM*float64(k)/levels
		u := (made.rimZ - z) / made.heightMM
		at := outline.Point{X: rim.X + u*(base.X-rim.X), Y: rim.Y + u*(base.Y-rim.Y)}
		most = max(most, c.FaceMM(z)-min(outside(prev, true, at), outside(next, false, at)))
	}
	return most
}

// cornerLeft is the wall left at z = 0 between the sides of a corner, where the
// bearing is cut to a point: a bend's outside is round, a mitred corner's is not.
func (c Collet) cornerLeft(l cornerLook) float64 {
	side := l.h.of(l.tip) + c.ClearanceMM*l.spread()
	return l.outer.at(0) - max(l.inner.at(0), side)
}

// cornerBetween finds the corner of a section where two pieces of the stone's
// outline meet.
func cornerBetween(c outline.Curve, before, after int) (outline.Point, bool) {
	n := len(c.Pieces)
	for i, p := range c.Pieces {
		if p.Tag == after && c.Pieces[(i+n-1)%n].Tag == before && c.Turning(i) > 0 {
			return p.A, true
		}
	}
	return outline.Point{}, false
}

// outside is how far outside a piece of the outline a point near its end (its
// start) lies; beyond it the piece runs on along its tangent.
func outside(p outline.Piece, atEnd bool, at outline.Point) float64 {
	end, phi := p.A, p.From
	if atEnd {
		end, phi = p.B, p.To
	}
	sin, cos := math.Sincos(phi)
	tangent := (at.X-end.X)*cos + (at.Y-end.Y)*sin
	if p.Kind != outline.Arc {
		return tangent
	}
	along := -(at.X-end.X)*sin + (at.Y-end.Y)*cos
	if beyond := along > 0; beyond == atEnd {
		return tangent
	}
	return math.Hypot(at.X-p.Centre.X, at.Y-p.Centre.Y) - p.Radius
}

// opensAt reports whether the seam lies at the corner before a piece: its ends
// meet there in a mitre, and nothing is bent.
func (s Spec) opensAt(next outline.Piece) bool {
	seam := s.Seam
	if seam.Name == "" {
		seam = s.Stone.Places[0]
	}
	return seam.AtCorner && seam.Tag == next.Tag
}

// checkRadius refuses an inside radius that leaves a sharp corner of the stone
// no room.
func (s Spec) checkRadius() error {
	if s.InsideRadiusMM == 0 || s.Corners == development.Scored || s.Taper == BaseGiven {
		return nil
	}
	for i := range s.Stone.Pieces {
		theta := s.Stone.Turning(i).Radians()
		if theta <= 0 || s.opensAt(s.Stone.Pieces[i]) {
			continue
		}
		half := math.Cos(theta / 2)
		// What the corner has along its bisector for the fillet to stand in: the
		// wall that the bearing leaves, or without a ledge the play.
		room := s.levelMM(s.Lean) - max(0, s.ClearanceMM-s.FaceMM(0))/half
		if s.LedgeMM == 0 {
			room = s.ClearanceMM / half
		}
		if most := max(0, room/(1/half-1)); s.InsideRadiusMM > most {
			return &LimitError{
				Problem: fmt.Sprintf("an inside radius of %.2f mm stands into the stone's sharp corner: %.2f mm at most, or file the corner out to the stone",
					s.InsideRadiusMM, math.Floor(most*100)/100),
				MaxRadiusMM: math.Floor(most*100) / 100, Radius: true,
			}
		}
	}
	return nil
}

// checkTaper refuses a taper turned round.
func (s Spec) checkTaper(meanLean units.Angle, inner development.Sections) error {
	if s.Taper != BaseGiven || meanLean >= 0 {
		return nil
	}
	return &LimitError{Problem: fmt.Sprintf("the base, %.2f mm round inside, is wider than the rim, %.2f mm: the taper would be turned round",
		inner.Base.PerimeterMM(), inner.Rim.PerimeterMM())}
}

// mostSplay is how far a wall on a base of its own may lean outward in places: a
// sheet that is bent farther meets itself. Our own limit, no source.
const mostSplay = 6 * units.Degree

// checkSplay refuses a base that stands out too far under a part of the rim.
func (c Collet) checkSplay(made folded, round *reaches) error {
	if c.Taper != BaseGiven {
		return nil
	}
	least, at := 0.0, 0.0
	for i := range directions {
		if d := round.rim[i] - round.base[i]; d < least {
			least, at = d, 2*math.Pi*float64(i)/directions
		}
	}
	splay := units.Angle(math.Atan2(-least, made.heightMM))
	if splay <= mostSplay {
		return nil
	}
	where := "ends"
	if math.Abs(math.Cos(at)) > math.Abs(math.Sin(at)) {
		where = "sides"
	}
	return &LimitError{Problem: fmt.Sprintf("at the %s the base stands out under the rim and the wall would lean outward by %.0f degrees: take a base nearer to the stone's shape, or a smaller one",
		where, splay.Degrees())}
}

// BaseTrimmed reports whether the base closes past its own radius and comes to
// corners that the rim does not have.
func (c Collet) BaseTrimmed() bool {
	return corners(c.BaseInner) > corners(c.RimInner)
}

func corners(c outline.Curve) int {
	n := 0
	for i := range c.Pieces {
		if c.Turning(i) > 0 {
			n++
		}
	}
	return n
}
