// Package bezel works out the straight wall round a cabochon: the strip to
// cut, how high it must be to hold the stone, and the bearing inside it.
//
// # Length
//
// With play c between stone and wall, thickness t and neutral factor k, and
// P(d) the perimeter of the stone's outline offset by d:
//
//	bent:    P(c) + 2 pi k t   sharp inside; all bends turn once round
//	mitred:  P(c + t)          of a polygon, scored and folded on the outer skin
//
// Curved sides keep to the neutral line in both; only corners differ. At a
// reflex corner (a heart's cleft) the inside of the bend is the outer face.
//
// # Height
//
// A bezel holds where the stone has drawn in under it. Above the upright part
// of its side the stone's profile is taken as the conic that leaves the side
// at its lean (from the vertical) and is level at the crown: a rational
// quadratic curve, which is an exact circle for a spherical cap and an exact
// ellipse for an upright edge. The wall follows it to where it has drawn in by
// the grip, so that what is rubbed over lies on the stone: a steep side needs
// more wall than a gentle one.
//
// Published rules for the height disagree. One asks for a third of the stone's
// height at least (a maker's page on bezels); others for the curve of the side,
// or for its edge (two more makers' pages). The wall here obeys both, and a
// least height besides; Low and High are what the rules come to.
package bezel

import (
	"fmt"
	"math"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// Corners is how corners are made.
type Corners int

// Kinds of corners.
const (
	Bent   Corners = iota
	Mitred         // scored inside and folded, on the outer skin
)

// Bearing is what the stone sits on.
type Bearing int

// Kinds of bearings.
const (
	// NoBearing: the stone sits on the back plate.
	NoBearing Bearing = iota
	// Step is an inner strip, soldered inside the wall.
	Step
	// Wire is a round wire laid inside the wall.
	Wire
)

// Spec is what a bezel is made for and from.
type Spec struct {
	Stone outline.Curve
	// DomeMM is the stone's height from its back to its crown.
	DomeMM float64
	// GirdleMM is the upright part of the stone's side, at its foot.
	GirdleMM float64
	// Edge is the lean of the side from the vertical, just above the upright
	// part. EdgeAssumed marks one that nobody measured.
	Edge        units.Angle
	EdgeAssumed bool
	// ClearanceMM between stone and wall.
	ClearanceMM float64
	ThicknessMM float64
	// NeutralFactor k, and CornerFactor the same in sharp corners; 0 takes k.
	NeutralFactor, CornerFactor float64
	Corners                     Corners
	Bearing                     Bearing
	// BearingMM is the height of the step, or the diameter of the wire, and
	// BearingThickMM the thickness of the step.
	BearingMM, BearingThickMM float64
	// GripMM is how far in the wall reaches over the stone; 0 takes the rules.
	// One that is given sets the height alone.
	GripMM float64
}

// CapEdge is the edge angle of a spherical cap of a width and height: its side
// at the girdle leans by 90 degrees less twice the angle whose tangent is
// height over half the width. A stone higher than half its width has an
// upright edge.
func CapEdge(widthMM, domeMM float64) units.Angle {
	return units.Angle(math.Max(0, math.Pi/2-2*math.Atan(2*domeMM/widthMM)))
}

// Bezel is a finished computation.
type Bezel struct {
	Spec
	// LengthMM of the strip, without the joint's filing allowance.
	LengthMM float64
	// HeightMM of the finished wall, from the plate up.
	HeightMM float64
	Hold
	// BearingLengthMM is the length of the step's strip or of the wire.
	BearingLengthMM float64
	// Inner and Outer faces of the wall.
	Inner, Outer outline.Curve
	// Folds are the distances of the corners' folds from the seam end of the
	// strip, and Quarters those of the ends and sides of the stone.
	Folds, Quarters []float64
	// FoldTurns is by how much the outline turns at each fold; negative at a reflex
	// corner.
	FoldTurns []units.Angle
	// Bevel is half the turning of the corner where the seam lies, 0
	// elsewhere; BevelReflex is set at a reflex one.
	Bevel       units.Angle
	BevelReflex bool
	// run are the inner face's pieces on the strip, and startMM where on the face
	// the seam lies.
	run     []stretch
	startMM float64
}

// Error is a bezel that can't be made; its text is a sentence without a full
// stop.
type Error struct{ Problem string }

func (e *Error) Error() string { return e.Problem }

// MaxEdge is the flattest side that a bezel can hold, from the vertical.
// Common practice, no source: on a flatter one the wall has nothing upright to
// stand along.
const MaxEdge = 60 * units.Degree

// Lay computes the bezel, opened at the seam.
func Lay(s Spec, seam outline.Place) (Bezel, error) {
	if s.Edge > MaxEdge {
		return Bezel{}, &Error{fmt.Sprintf("a side that leans %.0f degrees from the vertical is too flat for a bezel: up to %.0f degrees", s.Edge.Degrees(), MaxEdge.Degrees())}
	}
	b, err := Straight(s, seam)
	if err != nil {
		return b, err
	}
	if b.Hold, err = s.hold(); err != nil {
		return b, err
	}
	b.HeightMM = s.GirdleMM + b.OverMM
	if b.Bearing != NoBearing {
		b.HeightMM += b.BearingMM
	}
	return b, b.bearing()
}

// Straight is the strip of a straight wall round an outline without its
// height: length, folds and bevel.
func Straight(s Spec, seam outline.Place) (Bezel, error) {
	b := Bezel{Spec: s}
	if b.CornerFactor == 0 {
		b.CornerFactor = b.NeutralFactor
	}
	var err error
	if b.Inner, err = s.Stone.Offset(s.ClearanceMM); err != nil {
		return b, err
	}
	if b.Outer, err = s.Stone.Offset(s.ClearanceMM + s.ThicknessMM); err != nil {
		return b, err
	}
	b.strip(seam)
	return b, nil
}

// bearing is the length of what the stone sits on: its middle line lies half
// its thickness inside the wall, and bends at k like the wall.
func (b *Bezel) bearing() error {
	var in, through float64
	switch b.Bearing {
	case Step:
		in, through = (1-b.NeutralFactor)*b.BearingThickMM, b.BearingThickMM
	case Wire:
		in, through = b.BearingMM/2, b.BearingMM
	default:
		return nil
	}
	if _, err := b.Stone.Offset(b.ClearanceMM - through); err != nil {
		return &Error{fmt.Sprintf("a bearing %.2f mm thick fills the bezel: make it thinner", through)}
	}
	c, err := b.Stone.Offset(b.ClearanceMM - in)
	if err != nil {
		return err
	}
	b.BearingLengthMM = c.PerimeterMM()
	return nil
}
