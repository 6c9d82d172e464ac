package bezel

import (
	"fmt"
	"math"

	"guildhand/calc/units"
)

// Hold is how a wall holds the stone.
type Hold struct {
	// OverMM is the length of wall above the upright part of the stone's side;
	// rubbed over, it reaches ReachMM in over the stone and ends RiseMM above
	// the upright part, where the stone leans by LeanAtEdge from the vertical.
	OverMM, ReachMM, RiseMM float64
	LeanAtEdge              units.Angle
	// Rule is what set the height.
	Rule Rule
	// ByCurveMM is the wall's height above the stone's back by the curve of the
	// side, ThirdMM by the rule of a third, and LeastMM what it must be for
	// metal to come over.
	ByCurveMM, ThirdMM, LeastMM float64
	// LowMM and HighMM bound what the rules give, with overlaps from LeastGrip to MostGrip
	// and, of a side that was assumed, with all usual leans.
	LowMM, HighMM float64
}

// wallMM is the wall's height above the stone's back.
func (h Hold) wallMM(girdleMM float64) float64 { return girdleMM + h.OverMM }

// Short reports whether the wall is lower than a published rule or metal that
// can be rubbed over ask for. Only a grip that was given makes it so.
func (b Bezel) Short() bool {
	return b.wallMM(b.GirdleMM) < math.Max(b.ThirdMM, b.LeastMM)-1e-9
}

// Rule names what sets a wall's height.
type Rule int

// Rules for the height.
const (
	// ByCurve: the curve of the side, for the usual overlap.
	ByCurve Rule = iota
	// ByThird: a third of the stone's height, where the curve asks for less.
	ByThird
	// ByLeast: what must stand over for metal to be rubbed over at all.
	ByLeast
	// ByGrip: the overlap that the maker asked for.
	ByGrip
)

// Overlaps on the stone. Common practice, no source: 0.5 to 1 mm, on small
// stones less.
const (
	LeastGripMM = 0.5
	MostGripMM  = 1.0
	// smallShare is the share of a small stone's width that a wall covers on
	// each side.
	smallShare = 0.125
	// gripShare is the overlap as a share of the width between the two.
	gripShare = 0.04
)

// UsualGrip is how far a bezel usually reaches in over the stone: from 0.5 mm
// on small stones to 1 mm on those of 25 mm and more, not less than its own
// thickness, and never more than an eighth of the stone's width. Common
// practice, no source.
func UsualGrip(thicknessMM, widthMM float64) float64 {
	grip := math.Min(math.Max(LeastGripMM, gripShare*widthMM), MostGripMM)
	return math.Min(math.Max(grip, thicknessMM), smallShare*widthMM)
}

// UsualEdge is the lean of a cabochon's side where nobody measured it, between
// UsualEdgeLow and UsualEdgeHigh. Common practice, no source.
const (
	UsualEdge     = 15 * units.Degree
	UsualEdgeLow  = 10 * units.Degree
	UsualEdgeHigh = 20 * units.Degree
)

// AssumedEdge is the lean to assume for a stone of a width and a height above
// the upright part of its side: UsualEdge, and less for a dome so high that even
// a sphere's cap is steeper. A low dome is not taken as a cap with a knife
// edge: a wall made for that is too low for every other stone.
func AssumedEdge(widthMM, domeMM float64) units.Angle {
	return min(UsualEdge, CapEdge(widthMM, domeMM))
}

// leastOverMM is the least wall above the upright part that can be rubbed over:
// half a millimetre, and one and a half times the metal's thickness. Common
// practice, no source.
func leastOverMM(thicknessMM float64) float64 { return math.Max(0.5, 1.5*thicknessMM) }

// hold works out how much wall holds the stone.
func (s Spec) hold() (Hold, error) {
	size := s.Stone.Size()
	width := math.Min(size.LengthMM, size.WidthMM)
	dome := s.DomeMM - s.GirdleMM
	if dome <= 0 {
		return Hold{}, &Error{fmt.Sprintf("a side that is upright over %.2f mm of a stone %.2f mm high leaves nothing to rub over: the upright part must be lower, or the stone's edge recut with a slight bevel", s.GirdleMM, s.DomeMM)}
	}
	p, err := profileOf(width/2, dome, s.Edge)
	if err != nil {
		return Hold{}, err
	}
	h := Hold{ThirdMM: s.DomeMM / 3, LeastMM: s.GirdleMM + leastOverMM(s.ThicknessMM)}
	grip, given := s.GripMM, s.GripMM > 0
	if !given {
		grip = UsualGrip(s.ThicknessMM, width)
	}
	u, ok := p.drawnIn(grip)
	if !ok {
		return h, &Error{fmt.Sprintf("the stone never draws in by %.2f mm: the grip must be less than half its width", grip)}
	}
	h.ByCurveMM = s.GirdleMM + p.length(u)
	wall := h.ByCurveMM
	switch {
	case given:
		h.Rule = ByGrip
	case wall < h.ThirdMM && h.LeastMM <= h.ThirdMM:
		h.Rule, wall = ByThird, h.ThirdMM
	case wall < h.LeastMM:
		h.Rule, wall = ByLeast, h.LeastMM
	}
	h.OverMM = wall - s.GirdleMM
	if u, ok = p.along(h.OverMM); !ok {
		return h, &Error{fmt.Sprintf("a wall of metal %.2f mm thick needs %.2f mm above the stone's edge, more than a stone %.1f mm wide and %.2f mm high has: take thinner metal", s.ThicknessMM, h.OverMM, width, s.DomeMM)}
	}
	x, y := p.at(u)
	h.ReachMM, h.RiseMM, h.LeanAtEdge = p.R-x, y, p.lean(u)
	h.LowMM, h.HighMM = s.bounds(width, dome, h, wall)
	return h, nil
}

// bounds are the heights that the rules come to, from the smallest overlap on
// the gentlest side to the largest on the steepest.
func (s Spec) bounds(width, dome float64, h Hold, wall float64) (low, high float64) {
	gentle, steep := s.Edge, s.Edge
	if s.EdgeAssumed {
		gentle, steep = max(s.Edge, UsualEdgeHigh), min(s.Edge, UsualEdgeLow)
	}
	curve := func(edge units.Angle, grip float64) float64 {
		p, err := profileOf(width/2, dome, edge)
		if err != nil {
			return wall
		}
		u, _ := p.drawnIn(math.Min(grip, smallShare*width))
		return s.GirdleMM + p.length(u)
	}
	floor := math.Max(h.ThirdMM, h.LeastMM)
	low = math.Max(floor, curve(gentle, LeastGripMM))
	high = math.Max(floor, curve(steep, MostGripMM))
	if s.GripMM > 0 {
		return low, high
	}
	return math.Min(low, wall), math.Max(high, wall)
}
