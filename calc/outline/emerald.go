package outline

import "math"

// Words of these outlines.
const (
	Emerald Kind = "emerald"
	Octagon Kind = "octagon"
)

// DefaultCut is the emerald outline's corner cut along each side, as a share
// of the width.
const DefaultCut = 0.15

var emerald = Description{
	Kind: Emerald, Aliases: []string{"cut-corner", "emerald-cut", "cut-corner-rectangle"}, Summary: "a rectangle with cut corners", draw: drawEmerald,
	SizeNumbers: []int{1, 2}, FromWidth: 1, LengthOverWidth: 4. / 3, Cut: CornerCut{Default: DefaultCut, Least: 0.02, Most: 0.45},
	Assumes: "corner cut 15 % of the width along each side", Sample: Size{8, 6, 0},
	PublishedSizes: pairSizes,
	DepthShare:     0.65, PavilionShare: 0.70, DepthSource: practice,
	Proportions: emeraldProportions,
	Carat:       CaratFormula{LengthTimesWidth, 0.0025},
	Prongs:      Prongs{At: OnCorners, Usual: 4},
}

func drawEmerald(s Shape) (Curve, error) {
	return cutRectangle(s.Size, s.CutShare*s.Size.WidthMM), nil
}

var octagon = Description{
	Kind: Octagon, Aliases: []string{"octagonal"}, Summary: "eight sides", draw: drawOctagon,
	SizeNumbers: []int{1, 2}, FromWidth: 1, LengthOverWidth: 1, Regular: true, SizeSaysAll: true, Sample: Size{WidthMM: 6},
	CommonSizes: []Size{},
	DepthShare:  0.65, PavilionShare: 0.70, DepthSource: practice,
	Proportions: stepProportions,
	Carat:       CaratFormula{LengthTimesWidth, 0.0025},
	Prongs:      Prongs{At: OnCorners, Usual: 4},
}

func drawOctagon(s Shape) (Curve, error) {
	return cutRectangle(s.Size, s.Size.WidthMM/(2+math.Sqrt2)), nil
}

// cutRectangle is a rectangle with each corner cut by leg along both sides;
// piece 0 is the right-hand long side.
func cutRectangle(d Size, leg float64) Curve {
	x, y := d.WidthMM/2, d.LengthMM/2
	c := polygon(
		Point{x, -y + leg}, Point{x, y - leg}, Point{x - leg, y}, Point{-x + leg, y},
		Point{-x, y - leg}, Point{-x, -y + leg}, Point{-x + leg, -y}, Point{x - leg, -y})
	side, end := sideAndEnd(d)
	c.Places = []Place{
		midSide(c, "side", side, 0),
		midSide(c, "end", end, 2),
		midSide(c, "cut", "in the middle of a cut corner", 1),
		atCorner("corner", "at a corner", 1),
	}
	return c
}
