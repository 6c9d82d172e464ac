package outline

import "math"

// Hexagon is the word of this outline.
const Hexagon Kind = "hexagon"

// A hexagon of one number is regular: that number is its width across the
// flats.
var hexagon = Description{
	Kind: Hexagon, Aliases: []string{"hex", "hexagonal"}, Summary: "six sides", draw: drawHexagon,
	SizeNumbers: []int{1, 2}, FromWidth: 2 / math.Sqrt(3), LengthOverWidth: 2 / math.Sqrt(3), Regular: true, SizeSaysAll: true, Sample: Size{WidthMM: 6},
	CommonSizes: []Size{},
	DepthShare:  0.62, PavilionShare: 0.70, DepthSource: practice,
	Proportions: fancyProportions,
	Carat:       CaratFormula{Lengths: NoFormula},
	Prongs:      Prongs{At: OnCorners, Usual: 6, EveryOtherCorner: true},
}

func drawHexagon(s Shape) (Curve, error) {
	x, y := s.Size.WidthMM/2, s.Size.LengthMM/2
	q := x / math.Sqrt(3) // the slanted sides' rise at the regular 120 degrees
	if y < 1.2*q {
		return Curve{}, problem("a hexagon of %.4g x %.4g mm is shorter than its points", 2*y, 2*x)
	}
	c := polygon(Point{x, q - y}, Point{x, y - q}, Point{0, y}, Point{-x, y - q}, Point{-x, q - y}, Point{0, -y})
	c.Places = []Place{
		midSide(c, "side", "in the middle of a side", 0),
		atCorner("corner", "at a corner", 1),
		atCorner("point", "at a point", 2),
	}
	return c, nil
}
