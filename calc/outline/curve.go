// Package outline draws stone outlines and their level sections: closed
// curves seen from above, counter-clockwise, in mm, made of line segments,
// circular arcs and elliptic arcs, with their corners explicit.
//
// Length runs along Y and width along X; a point (of a pear, a heart) is at
// the bottom, towards -Y. The parameter along a curved piece is the angle of
// its outward normal, because that is what rulings of a developable between
// two sections have in common.
//
// Lengths of lines and arcs are exact, those of elliptic arcs within 1e-12 of
// their value.
package outline

import (
	"fmt"
	"math"

	"guildhand/calc/units"
)

// cornerEps is the turning, in radians, under which a joint counts as smooth:
// over a 100 mm outline it moves a point by less than 1e-7 mm.
const cornerEps = 1e-9

// Curve is a closed outline or section. The zero value is empty and not a
// valid curve; New and the methods below make them.
type Curve struct {
	Kind Kind
	// Pieces in counter-clockwise order; the end of each is the start of the
	// next. A joint at which the normal's angle jumps is a corner.
	Pieces []Piece
	// Places are the named places for a seam, the trade's default first.
	Places []Place
}

// Place is a named place of an outline, such as the point of a pear.
type Place struct {
	Name string
	// Summary is how an answer says it: "at the point".
	Summary string
	// Tag is the stone outline's piece. AtCorner means the corner before that
	// piece; otherwise the place is where the piece has the normal angle
	// Normal, and on a straight piece in its middle.
	Tag      int
	AtCorner bool
	Normal   float64
}

// Error is an outline that can't be drawn; its text is a sentence for the
// maker, without a full stop.
type Error struct{ Problem string }

func (e *Error) Error() string { return e.Problem }

func problem(format string, args ...any) error {
	return &Error{fmt.Sprintf(format, args...)}
}

// ErrClosed is returned by Offset where nothing is left of the section.
var ErrClosed = &Error{"the section closes"}

// Turning is the signed turning at the joint before piece i: positive at a
// convex corner, negative at a reflex one, 0 at a smooth joint.
func (c Curve) Turning(i int) units.Angle {
	n := len(c.Pieces)
	if n == 1 {
		return units.Angle(c.Pieces[0].From + 2*math.Pi - c.Pieces[0].To)
	}
	t := Wrapped(c.Pieces[i].From - c.Pieces[(i+n-1)%n].To)
	if math.Abs(t) < cornerEps {
		return 0
	}
	return units.Angle(t)
}

// Convex reports whether no corner of the curve is reflex.
func (c Curve) Convex() bool {
	for i := range c.Pieces {
		if c.Turning(i) < 0 {
			return false
		}
	}
	return true
}

// Smooth reports whether the curve has no corner at all.
func (c Curve) Smooth() bool {
	if len(c.Pieces) == 1 {
		return math.Abs(c.Pieces[0].To-c.Pieces[0].From-2*math.Pi) < cornerEps
	}
	for i := range c.Pieces {
		if c.Turning(i) != 0 {
			return false
		}
	}
	return true
}

// PerimeterMM is the length of the curve.
func (c Curve) PerimeterMM() float64 {
	sum := 0.0
	for _, p := range c.Pieces {
		sum += p.LengthMM()
	}
	return sum
}

// AreaMM2 is the area inside the curve.
func (c Curve) AreaMM2() float64 {
	sum := 0.0
	for _, p := range c.Pieces {
		sum += p.areaMoment()
	}
	return sum
}

// Bounds returns the corners of the bounding box.
func (c Curve) Bounds() (low, high Point) {
	low, high = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	grow := func(p Point) {
		low = Point{math.Min(low.X, p.X), math.Min(low.Y, p.Y)}
		high = Point{math.Max(high.X, p.X), math.Max(high.Y, p.Y)}
	}
	for _, p := range c.Pieces {
		grow(p.A)
		grow(p.B)
		if p.Kind == Straight {
			continue
		}
		for q := math.Ceil(p.From / (math.Pi / 2)); q*math.Pi/2 <= p.To; q++ {
			grow(p.At(q * math.Pi / 2))
		}
	}
	return low, high
}

// ReachMM is how far the curve reaches from the origin in the direction phi, radians,
// whose unit vector is (cos, sin).
func (c Curve) ReachMM(phi, sin, cos float64) float64 {
	most := math.Inf(-1)
	for i := range c.Pieces {
		p := &c.Pieces[i]
		most = max(most, p.A.X*cos+p.A.Y*sin, p.B.X*cos+p.B.Y*sin)
		if p.Kind == Straight {
			continue
		}
		if middle, half := (p.From+p.To)/2, (p.To-p.From)/2; math.Abs(Wrapped(phi-middle)) <= half {
			most = max(most, p.ReachMM(sin, cos))
		}
	}
	return most
}

// Size is the extent of the curve along Y and X.
func (c Curve) Size() Size {
	low, high := c.Bounds()
	return Size{LengthMM: high.Y - low.Y, WidthMM: high.X - low.X}
}

// MinRadiusMM is the smallest radius of curvature of the smooth pieces, +Inf
// where all are straight.
func (c Curve) MinRadiusMM() float64 {
	r := math.Inf(1)
	for _, p := range c.Pieces {
		switch p.Kind {
		case Arc:
			r = math.Min(r, p.Radius)
		case Elliptic:
			r = math.Min(r, math.Min(p.RadiusAt(p.From), p.RadiusAt(p.To)))
			for q := math.Ceil(p.From / (math.Pi / 2)); q*math.Pi/2 <= p.To; q++ {
				r = math.Min(r, p.RadiusAt(q*math.Pi/2))
			}
		}
	}
	return r
}

// LongestFlatMM is the length of the longest straight piece, 0 if none.
func (c Curve) LongestFlatMM() float64 {
	l := 0.0
	for _, p := range c.Pieces {
		if p.Kind == Straight {
			l = math.Max(l, p.LengthMM())
		}
	}
	return l
}

// InradiusMM is the largest inward offset that leaves something, within 1e-6
// of its value.
func (c Curve) InradiusMM() float64 {
	size := c.Size()
	lo, hi := 0.0, math.Min(size.LengthMM, size.WidthMM)/2*(1+1e-9)
	for i := 0; i < 60 && hi-lo > 1e-7*hi; i++ {
		mid := (lo + hi) / 2
		if _, err := c.Offset(-mid); err == nil {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// Holds reports whether an inward offset by d leaves something. Most answers
// come from the bound inradius > area / perimeter, without an offset; an oval's
// offset is in closed form and quicker than its area.
func (c Curve) Holds(d float64) bool {
	if c.Pieces[0].Kind != Elliptic && d < c.AreaMM2()/c.PerimeterMM() {
		return true
	}
	_, err := c.Offset(-d)
	return err == nil
}

// Scaled is the curve enlarged by k > 0 about the origin.
func (c Curve) Scaled(k float64) Curve {
	out := Curve{Kind: c.Kind, Places: c.Places, Pieces: make([]Piece, len(c.Pieces))}
	for i, p := range c.Pieces {
		out.Pieces[i] = p.scaled(k)
	}
	return out
}

// AtLength is the point and the outward normal's angle (radians) at the arc
// length s from the start of the first piece; s is taken modulo the
// perimeter.
func (c Curve) AtLength(s float64) (Point, float64) {
	s = math.Mod(s, c.PerimeterMM())
	if s < 0 {
		s += c.PerimeterMM()
	}
	for _, p := range c.Pieces {
		l := p.LengthMM()
		if s <= l {
			return p.pointAtLength(s)
		}
		s -= l
	}
	last := c.Pieces[len(c.Pieces)-1]
	return last.B, last.To
}

// LengthTo is the arc length from the start of the first piece to the place.
// The place's piece may have vanished from a section; ok is false then.
func (c Curve) LengthTo(place Place) (mm float64, ok bool) {
	sum := 0.0
	for _, p := range c.Pieces {
		if p.Tag == place.Tag {
			switch {
			case place.AtCorner:
				return sum, true
			case p.Kind == Straight && math.Abs(Wrapped(place.Normal-p.From)) < 1e-6:
				return sum + p.LengthMM()/2, true
			case p.Kind == Arc, p.Kind == Elliptic:
				phi := p.From + math.Mod(math.Mod(place.Normal-p.From, 2*math.Pi)+2*math.Pi, 2*math.Pi)
				if phi <= p.To {
					if p.Kind == Arc {
						return sum + p.Radius*(phi-p.From), true
					}
					return sum + p.lengthBetween(p.From, phi), true
				}
			}
		}
		sum += p.LengthMM()
	}
	return 0, false
}

// PlaceNamed finds a place of the outline by name; an empty name takes the
// trade's default, the first.
func (c Curve) PlaceNamed(name string) (Place, bool) {
	for i, p := range c.Places {
		if p.Name == name || (name == "" && i == 0) {
			return p, true
		}
	}
	return Place{}, false
}

// Polyline returns points along the curve, the first not repeated at the end,
// whose chords stay within tolMM of the curve.
func (c Curve) Polyline(tolMM float64) []Point {
	var out []Point
	for _, p := range c.Pieces {
		out = append(out, p.A)
		if p.Kind == Straight {
			continue
		}
		n := p.chords(tolMM)
		for i := 1; i < n; i++ {
			out = append(out, p.At(p.From+(p.To-p.From)*float64(i)/float64(n)))
		}
	}
	return out
}

// chords is how many equal steps of normal angle keep the sagitta in tolMM.
func (p Piece) chords(tolMM float64) int {
	r := p.Radius
	if p.Kind == Elliptic {
		r = math.Max(p.SemiX*p.SemiX/p.SemiY, p.SemiY*p.SemiY/p.SemiX) + p.Offset
	}
	step := 2 * math.Acos(math.Max(0, 1-tolMM/math.Max(r, tolMM)))
	n := int(math.Ceil((p.To - p.From) / math.Max(step, 1e-3)))
	return max(n, 1)
}
