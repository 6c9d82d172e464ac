package seat

import (
	"math"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// Stone is a faceted stone as a solid; see the package.
type Stone struct {
	Outline outline.Curve
	// WidthMM is the smaller side, by which the shares of a cut are reckoned.
	WidthMM float64
	// GirdleMM is the girdle's thickness, CrownMM the height from its upper edge
	// to the table, PavilionMM the depth from its lower edge to the culet.
	GirdleMM, CrownMM, PavilionMM float64
	// TableShare is the table's width over WidthMM.
	TableShare float64
	// Keel is set for a pavilion in steps, which closes in a line.
	Keel bool
	// Culet is the place of the culet, or the middle of the keel.
	Culet outline.Point
	// OffDepthMM is by how much crown, girdle and pavilion as given differ from
	// the depth that was given; 0 where they agree.
	OffDepthMM float64
}

// Given is what a maker knows of a stone's proportions; 0 is not known.
type Given struct {
	GirdleMM   float64
	TableShare float64
	// Crown is the angle of the crown, Pavilion that of the pavilion, both from
	// the girdle's plane and across the smaller side.
	Crown, Pavilion units.Angle
}

// NewStone makes the stone of a depth from table to culet. What is not given is
// typical for the outline's cut (its Description).
func NewStone(c outline.Curve, depthMM float64, g Given) Stone {
	d := c.Kind.Describe()
	size := c.Size()
	s := Stone{Outline: c, WidthMM: min(size.LengthMM, size.WidthMM), Keel: d.Proportions.Step}
	s.Culet = culet(c)
	below := d.PavilionShare
	if below == 0 {
		below = 0.70
	}
	s.PavilionMM = below * depthMM
	s.GirdleMM, s.TableShare = g.GirdleMM, g.TableShare
	if s.GirdleMM == 0 {
		// A girdle thicker than half of what lies above the pavilion leaves no
		// crown.
		s.GirdleMM = min(d.Proportions.Girdle.Typical*s.WidthMM, (depthMM-s.PavilionMM)/2)
	}
	if s.TableShare == 0 {
		s.TableShare = d.Proportions.Table.Typical
	}
	crown, pavilion := s.CrownRunMM()*g.Crown.Tan(), s.WidthMM/2*g.Pavilion.Tan()
	switch {
	case g.Crown > 0 && g.Pavilion > 0:
		s.CrownMM, s.PavilionMM = crown, pavilion
		s.OffDepthMM = crown + s.GirdleMM + pavilion - depthMM
	case g.Crown > 0:
		s.CrownMM = crown
		s.PavilionMM = depthMM - s.GirdleMM - crown
	case g.Pavilion > 0:
		s.PavilionMM = pavilion
		s.CrownMM = depthMM - s.GirdleMM - pavilion
	default:
		s.CrownMM = depthMM - s.GirdleMM - s.PavilionMM
	}
	if least := 0.05 * depthMM; s.PavilionMM < least || s.CrownMM < least {
		// The angles leave no room in the depth for the other part: keep both.
		s.PavilionMM, s.CrownMM = max(s.PavilionMM, least), max(s.CrownMM, least)
		s.OffDepthMM = s.CrownMM + s.GirdleMM + s.PavilionMM - depthMM
	}
	return s
}

// CrownRunMM is the crown's level width across the smaller side.
func (s Stone) CrownRunMM() float64 { return (1 - s.TableShare) / 2 * s.WidthMM }

// CrownSlopeMM is the sloping length of the crown from girdle to table.
func (s Stone) CrownSlopeMM() float64 { return math.Hypot(s.CrownRunMM(), s.CrownMM) }

// TableMM is the table's height above z = 0.
func (s Stone) TableMM() float64 { return s.GirdleMM + s.CrownMM }

// CrownAngle and PavilionAngle are those across the smaller side.
func (s Stone) CrownAngle() units.Angle {
	return units.Angle(math.Atan2(s.CrownMM, s.CrownRunMM()))
}

// PavilionAngle: see CrownAngle.
func (s Stone) PavilionAngle() units.Angle {
	return units.Angle(math.Atan2(s.PavilionMM, s.WidthMM/2))
}

// DefaultRimMM is how high a rim stands above z = 0 to hold the stone: the
// girdle, and of the crown's slope 40 % (30 to 50 % of girdle to table is
// published for prongs: GIA's quality assurance benchmark for a round in
// platinum prongs; professionaljeweler.com 0704pb1) with what the play takes,
// 0.3 mm at least, but not above the table.
func (s Stone) DefaultRimMM(clearanceMM float64) float64 {
	return min(s.GirdleMM+max(0.3, clearanceMM+0.4*s.CrownSlopeMM()), s.TableMM())
}

// ReachMM is how far the pavilion draws in over its whole depth, where that is
// least: the distance at which the tangent of the girdle passes the culet,
// where it is least: there the pavilion is steepest.
func (s Stone) ReachMM() float64 {
	least := math.Inf(1)
	for _, p := range s.Outline.Pieces {
		least = min(least, leastSupport(p, s.Culet))
	}
	return least
}

// SteepestPavilion is the pavilion's angle where it is steepest.
func (s Stone) SteepestPavilion() units.Angle {
	return units.Angle(math.Atan2(s.PavilionMM, s.ReachMM()))
}

// leastSupport is the least of (point - from).normal over a piece. On an arc it
// is (C - from).n + r, least opposite to C; on an elliptic piece the stationary
// directions are the quarter turns, exactly so where from is its centre.
func leastSupport(p outline.Piece, from outline.Point) float64 {
	at := func(phi float64) float64 {
		sin, cos := math.Sincos(phi)
		q, _ := p.Eval(sin, cos)
		return (q.X-from.X)*cos + (q.Y-from.Y)*sin
	}
	least := min(at(p.From), at(p.To))
	if p.Kind == outline.Straight {
		return least
	}
	for q := math.Ceil(p.From / (math.Pi / 2)); q*math.Pi/2 <= p.To; q++ {
		least = min(least, at(q*math.Pi/2))
	}
	if p.Kind == outline.Arc {
		opposite := math.Atan2(from.Y-p.Centre.Y, from.X-p.Centre.X)
		opposite += 2 * math.Pi * math.Ceil((p.From-opposite)/(2*math.Pi))
		if opposite <= p.To {
			least = min(least, at(opposite))
		}
	}
	return least
}

// culet is where a pavilion is deepest: on the axis of an outline that is alike
// left and right, at the place farthest from every side, and in the middle of
// the area elsewhere.
func culet(c outline.Curve) outline.Point {
	switch c.Kind {
	case outline.Round, outline.Oval, outline.Square, outline.Baguette, outline.Emerald, outline.Octagon,
		outline.Marquise, outline.Cushion, outline.Hexagon, outline.Lozenge:
		return outline.Point{} // alike about both axes
	case outline.HalfMoon, outline.Heart, outline.Measured:
		return centroid(c)
	}
	// The least support is a concave function along the axis.
	least := func(y float64) float64 {
		d := math.Inf(1)
		for _, p := range c.Pieces {
			d = min(d, leastSupport(p, outline.Point{Y: y}))
		}
		return d
	}
	low, high := c.Bounds()
	a, b := low.Y, high.Y
	for range 60 {
		m, n := a+(b-a)*0.382, b-(b-a)*0.382
		if least(m) < least(n) {
			a = m
		} else {
			b = n
		}
	}
	return outline.Point{Y: (a + b) / 2}
}

// centroid of the area, by chords within 0.01 mm.
func centroid(c outline.Curve) outline.Point {
	points := c.Polyline(0.01)
	var area, x, y float64
	for i, p := range points {
		q := points[(i+1)%len(points)]
		cross := p.X*q.Y - p.Y*q.X
		area += cross
		x += (p.X + q.X) * cross
		y += (p.Y + q.Y) * cross
	}
	return outline.Point{X: x / (3 * area), Y: y / (3 * area)}
}
