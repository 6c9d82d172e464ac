package outline

import "math"

// Heart is the word of this outline.
const Heart Kind = "heart"

// heartLobe is a lobe's radius as a share of the width.
const heartLobe = 0.27

var heart = Description{
	Kind: Heart, Aliases: []string{}, Summary: "two lobes, a cleft and a point", draw: drawHeart,
	SizeNumbers: []int{1, 2}, FromWidth: 1, LengthOverWidth: 1, LengthFirst: true,
	Assumes: "heart drawn with lobes of radius 27 % of the width", Sample: Size{8, 6, 0},
	CommonSizes: widths(4, 10, 1),
	DepthShare:  0.58, PavilionShare: 0.70, DepthSource: practice,
	Proportions: pointedProportions,
	Carat:       CaratFormula{LengthTimesWidth, 0.0018},
	Prongs:      Prongs{At: FromPoint, Usual: 5},
}

func drawHeart(s Shape) (Curve, error) {
	w, l := s.Size.WidthMM, s.Size.LengthMM
	if l < 0.85*w || l > 1.5*w {
		return Curve{}, problem("a heart of %.4g x %.4g mm: the length must be 0.85 to 1.5 times the width", l, w)
	}
	r := heartLobe * w
	x := w/2 - r
	cleft := math.Acos(x / r) // the lobe's normal at the cleft, from -X
	side, g := tipArc(w/2, l-r)
	y := l/2 - r
	c := Curve{Pieces: []Piece{
		arc(Point{w/2 - side, y}, side, -g, 0, 0),
		arc(Point{x, y}, r, 0, math.Pi-cleft, 1),
		arc(Point{-x, y}, r, cleft, math.Pi, 2),
		arc(Point{side - w/2, y}, side, math.Pi, math.Pi+g, 3),
	}}
	c.Places = []Place{
		atCorner("cleft", "at the cleft", 2),
		atCorner("point", "at the point", 0),
		{Name: "side", Summary: "on a side", Tag: 0, Normal: -g / 2},
	}
	return c, nil
}
