package outline

import "math"

// HalfMoon is the word of this outline.
const HalfMoon Kind = "half-moon"

// A half-moon of one number is half a round: that number is its width.
var halfMoon = Description{
	Kind: HalfMoon, Aliases: []string{"half-round", "semicircle"}, Summary: "half a circle or ellipse", draw: drawHalfMoon,
	SizeNumbers: []int{1, 2}, FromWidth: 2, LengthOverWidth: 2, SizeSaysAll: true, Sample: Size{8, 4, 0},
	CommonSizes: []Size{},
	DepthShare:  0.55, PavilionShare: 0.70, DepthSource: practice,
	Proportions: fancyProportions,
	Carat:       CaratFormula{Lengths: NoFormula},
	Prongs:      Prongs{At: OnCornersAndArc, Usual: 3},
}

func drawHalfMoon(s Shape) (Curve, error) {
	l, w := s.Size.LengthMM, s.Size.WidthMM
	if w > l/2*(1+1e-12) || w < l/12 {
		return Curve{}, problem("a half-moon of %.4g x %.4g mm: the width must be one twelfth to one half of the length", l, w)
	}
	r := sagittaRadius(l, w)
	g := math.Asin(math.Min(1, l/2/r))
	rounded := arc(Point{w/2 - r, 0}, r, -g, g, 1)
	flat := straight(rounded.B, rounded.A, 0)
	flat.From, flat.To = math.Pi, math.Pi
	c := Curve{Pieces: []Piece{flat, rounded}}
	c.Pieces[1].From += 2 * math.Pi
	c.Pieces[1].To += 2 * math.Pi
	c.Places = []Place{
		midSide(c, "side", "in the middle of the flat side", 0),
		{Name: "end", Summary: "in the middle of the round side", Tag: 1, Normal: 0},
		atCorner("corner", "at a corner", 1),
	}
	return c, nil
}
