package outline

import "math"

// Words of these outlines.
const (
	Pear     Kind = "pear"
	Marquise Kind = "marquise"
)

var pear = Description{
	Kind: Pear, Aliases: []string{"drop", "teardrop", "pear-shape"}, Summary: "a half circle drawn to a point", draw: drawPear,
	SizeNumbers: []int{2}, LengthOverWidth: 1.5, SizeSaysAll: true, Sample: Size{8, 6, 0},
	CommonSizes: []Size{{5, 3, 0}, {6, 4, 0}, {7, 5, 0}, {8, 5, 0}, {9, 6, 0}, {10, 7, 0}, {12, 8, 0}},
	CupSizes:    []Size{{6, 4, 0}, {7, 5, 0}, {8, 5, 0}, {9, 6, 0}, {10, 7, 0}, {12, 8, 0}, {14, 9, 0}, {15, 10, 0}, {18, 13, 0}},
	DepthShare:  0.62, PavilionShare: 0.70, DepthSource: practice,
	Proportions: pointedProportions,
	Carat:       CaratFormula{LengthTimesWidth, 0.0018},
	Prongs:      Prongs{At: FromPoint, Usual: 5},
}

func drawPear(s Shape) (Curve, error) {
	l, half := s.Size.LengthMM, s.Size.WidthMM/2
	if l < 1.05*2*half || l > 6*half*2 {
		return Curve{}, problem("a pear of %.4g x %.4g mm: the length must be 1.05 to 6 times the width", l, 2*half)
	}
	r, g := tipArc(half, l-half)
	up := Point{0, l/2 - half} // the half circle's centre, so that the box is centred
	c := Curve{Pieces: []Piece{
		arc(Point{half - r, up.Y}, r, -g, 0, 0),
		arc(up, half, 0, math.Pi, 1),
		arc(Point{r - half, up.Y}, r, math.Pi, math.Pi+g, 2),
	}}
	c.Places = []Place{
		atCorner("point", "at the point", 0),
		{Name: "end", Summary: "at the round end", Tag: 1, Normal: math.Pi / 2},
		{Name: "side", Summary: "on a long side", Tag: 0, Normal: -g / 2},
	}
	return c, nil
}

var marquise = Description{
	Kind: Marquise, Aliases: []string{"navette", "marquis"}, Summary: "two arcs that meet in two points", draw: drawMarquise,
	SizeNumbers: []int{2}, LengthOverWidth: 2, SizeSaysAll: true, Sample: Size{8, 6, 0},
	PublishedSizes: []Size{{4, 2, 0}, {6, 3, 0}, {8, 4, 0}, {10, 5, 0}, {12, 6, 0}},
	CupSizes:       []Size{{8, 4, 0}, {10, 5, 0}, {12, 6, 0}},
	DepthShare:     0.62, PavilionShare: 0.70, DepthSource: practice,
	Proportions: pointedProportions,
	Carat:       CaratFormula{LengthTimesWidth, 0.0017},
	Prongs:      Prongs{At: FromPoint, Usual: 6, Even: true},
}

func drawMarquise(s Shape) (Curve, error) {
	l, half := s.Size.LengthMM, s.Size.WidthMM/2
	if l < 1.15*2*half || l > 6*half*2 {
		return Curve{}, problem("a marquise of %.4g x %.4g mm: the length must be 1.15 to 6 times the width", l, 2*half)
	}
	r, g := tipArc(half, l/2)
	c := Curve{Pieces: []Piece{
		arc(Point{half - r, 0}, r, -g, g, 0),
		arc(Point{r - half, 0}, r, math.Pi-g, math.Pi+g, 1),
	}}
	c.Places = []Place{
		atCorner("point", "at a point", 0),
		{Name: "side", Summary: "in the middle of a side", Tag: 0, Normal: 0},
	}
	return c, nil
}

// tipArc returns radius and half range of the arc that leaves x = halfWidth at
// right angles to the X axis and meets the Y axis at the distance tip:
// (halfWidth - R)^2 + tip^2 = R^2.
func tipArc(halfWidth, tip float64) (radius, angle float64) {
	radius = (halfWidth*halfWidth + tip*tip) / (2 * halfWidth)
	return radius, math.Atan2(tip, radius-halfWidth)
}
