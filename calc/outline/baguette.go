package outline

// Words of these outlines.
const (
	Square          Kind = "square"
	Baguette        Kind = "baguette"
	TaperedBaguette Kind = "tapered-baguette"
)

// baguetteNarrow is a tapered baguette's small end as a share of the wide one,
// where it is not given.
const baguetteNarrow = 0.70

var square = Description{
	Kind: Square, Aliases: []string{}, Summary: "four equal sides, sharp corners", draw: drawSquare,
	SizeNumbers: []int{1}, FromWidth: 1, LengthOverWidth: 1, Regular: true, SizeSaysAll: true, Sample: Size{WidthMM: 6},
	CommonSizes: widths(3, 8, 1),
	CupSizes:    widths(4, 12, 1),
	DepthShare:  0.68, PavilionShare: 0.70, DepthSource: practice,
	Proportions: squareProportions,
	Carat:       CaratFormula{LengthTimesWidth, 0.0025},
	Prongs:      Prongs{At: OnCorners, Usual: 4},
}

func drawSquare(s Shape) (Curve, error) {
	d := s.Size
	if d.LengthMM != d.WidthMM {
		return Curve{}, problem("a square has one size, not %.4g x %.4g mm; a baguette has two", d.LengthMM, d.WidthMM)
	}
	c, err := drawBaguette(s)
	c.Places = c.Places[:0]
	c.Places = append(c.Places, midSide(c, "side", "in the middle of a side", 0), atCorner("corner", "at a corner", 0))
	return c, err
}

var baguette = Description{
	Kind: Baguette, Aliases: []string{"rectangle", "rectangular", "rect", "oblong"}, Summary: "a rectangle, sharp corners", draw: drawBaguette,
	SizeNumbers: []int{2}, LengthOverWidth: 2, SizeSaysAll: true, Sample: Size{8, 6, 0},
	CommonSizes: []Size{{4, 2, 0}, {5, 2.5, 0}, {5, 3, 0}, {6, 3, 0}, {6, 4, 0}, {7, 5, 0}},
	DepthShare:  0.60, PavilionShare: 0.70, DepthSource: practice,
	Proportions: stepProportions,
	Carat:       CaratFormula{LengthTimesWidth, 0.0026},
	Prongs:      Prongs{At: OnCorners, Usual: 4},
}

func drawBaguette(s Shape) (Curve, error) {
	x, y := s.Size.WidthMM/2, s.Size.LengthMM/2
	c := polygon(Point{x, -y}, Point{x, y}, Point{-x, y}, Point{-x, -y})
	side, end := sideAndEnd(s.Size)
	c.Places = []Place{
		midSide(c, "side", side, 0),
		midSide(c, "end", end, 1),
		atCorner("corner", "at a corner", 0),
	}
	return c, nil
}

var taperedBaguette = Description{
	Kind: TaperedBaguette, Aliases: []string{"trapezoid", "trapezium", "tapered"},
	Summary: "a rectangle with one narrower end: length x wide end x narrow end", draw: drawTaperedBaguette,
	SizeNumbers: []int{2, 3}, LengthOverWidth: 2, LengthFirst: true,
	Assumes: "small end 70 % of the wide end", Sample: Size{6, 4, 3},
	CommonSizes: []Size{},
	DepthShare:  0.60, PavilionShare: 0.70, DepthSource: practice,
	Proportions: stepProportions,
	Carat:       CaratFormula{Lengths: NoFormula},
	Prongs:      Prongs{At: OnCorners, Usual: 4},
}

func drawTaperedBaguette(s Shape) (Curve, error) {
	x, y, n := s.Size.WidthMM/2, s.Size.LengthMM/2, s.Size.ThirdMM/2
	if n == 0 {
		n = baguetteNarrow * x
	}
	if n > x {
		n, x = x, n
	}
	if n < MinSizeMM/2 || n >= 0.999*x {
		return Curve{}, problem("a tapered baguette's small end of %.4g mm must be %.3g mm or more and less than its wide end of %.4g mm", 2*n, float64(MinSizeMM), 2*x)
	}
	c := polygon(Point{n, -y}, Point{x, y}, Point{-x, y}, Point{-n, -y})
	c.Places = []Place{
		midSide(c, "side", "in the middle of a long side", 0),
		midSide(c, "end", "in the middle of the wide end", 1),
		atCorner("corner", "at a corner of the small end", 0),
	}
	return c, nil
}
