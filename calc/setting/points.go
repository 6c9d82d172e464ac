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
	// FloorMM is how far below z = 0 the bearing's floor runs out of the wall at
	// the corner; +Inf where it does not.
	FloorMM float64
	// LeftMM is the wall left at z = 0 along the corner's bisector, after the
	// bearing is cut to a sharp corner.
	LeftMM float64
}

// points looks at every convex corner of an even slope and gives the worst of
// each figure. ok is false where there is none.
func (c Collet) points(cut development.Sections, cutRimMM float64) (worst Point, ok bool) {
	worst.LeftMM = math.Inf(1)
	n := len(c.Stone.Pieces)
	for i, next := range c.Stone.Pieces {
		theta := c.Stone.Turning(i).Radians()
		if theta <= 0 {
			continue
		}
		prev := c.Stone.Pieces[(i+n-1)%n]
		rim, inRim := cornerBetween(cut.Rim, prev.Tag, next.Tag)
		base, inBase := cornerBetween(cut.Base, prev.Tag, next.Tag)
		if !inRim || !inBase {
			continue // a base that closed past a short side
		}
		ok = true
		ridge := func(z float64) outline.Point {
			u := (cutRimMM - z) / cut.HeightMM
			return outline.Point{X: rim.X + u*(base.X-rim.X), Y: rim.Y + u*(base.Y-rim.Y)}
		}
		const levels = 16
		for k := range levels + 1 {
			z := c.RimMM - c.HeightMM*float64(k)/levels
			at := ridge(z)
			worst.PinchMM = max(worst.PinchMM, c.FaceMM(z)-min(outside(prev, true, at), outside(next, false, at)))
		}
		worst.FloorMM = max(worst.FloorMM, c.tipFloor(next, theta, ridge))
		worst.LeftMM = min(worst.LeftMM, c.cornerLeft(theta, c.Corners == development.Scored || c.opensAt(next)))
	}
	if worst.PinchMM < 1e-6 {
		worst.PinchMM = 0 // rounding, between flats
	}
	return worst, ok
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

// tipFloor is where the ridge of the pavilion leaves that of the wall. Along the
// bisector both are straight.
func (c Collet) tipFloor(next outline.Piece, theta float64, ridge func(float64) outline.Point) float64 {
	if c.LedgeMM == 0 || c.Solid.PavilionMM <= 0 {
		return 0
	}
	sin, cos := math.Sincos(next.From - theta/2)
	tip := next.A
	ahead := func(p outline.Point) float64 { return (p.X-tip.X)*cos + (p.Y-tip.Y)*sin }
	// Per mm down: the wall's ridge, and the pavilion's.
	at := ahead(ridge(0))
	wall := ahead(ridge(-1)) - at
	pavilion := -((tip.X-c.Solid.Culet.X)*cos + (tip.Y-c.Solid.Culet.Y)*sin) / c.Solid.PavilionMM
	if c.Solid.Keel {
		pavilion = -1 / c.Solid.SteepestPavilion().Tan() / math.Cos(theta/2)
	}
	if wall-pavilion < 1e-9 {
		return math.Inf(1)
	}
	return max(0, -at/(wall-pavilion))
}

// cornerLeft is the wall left along the bisector of a corner that turns by
// theta: a bent one is as thick there as anywhere, a mitred one thicker, and an
// inside radius stands into the corner.
func (c Collet) cornerLeft(theta float64, mitred bool) float64 {
	level, half := c.levelMM(c.Lean), math.Cos(theta/2)
	cut := max(0, c.ClearanceMM-c.FaceMM(0)) / half
	if mitred {
		return level/half - cut
	}
	return level - cut - c.InsideRadiusMM*(1/half-1)
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
