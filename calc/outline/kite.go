package outline

// Words of these outlines.
const (
	Kite    Kind = "kite"
	Lozenge Kind = "lozenge"
)

// kiteShoulder is where a kite is widest, from its blunt end, as a share of
// the length.
const kiteShoulder = 0.35

var kite = Description{
	Kind: Kite, Aliases: []string{}, Summary: "four sides, two and two equal", draw: drawKite,
	SizeNumbers: []int{2}, LengthOverWidth: 1.5,
	Assumes: "kite widest at 35 % of its length from the blunt end", Sample: Size{8, 6, 0},
	CommonSizes: []Size{},
	DepthShare:  0.50, PavilionShare: 0.70, DepthSource: practice,
	Proportions: fancyProportions,
	Carat:       CaratFormula{Lengths: NoFormula},
	Prongs:      Prongs{At: OnCorners, Usual: 4},
}

func drawKite(s Shape) (Curve, error) {
	x, y := s.Size.WidthMM/2, s.Size.LengthMM/2
	shoulder := y - kiteShoulder*2*y
	return diamond(x, y, shoulder, s)
}

var lozenge = Description{
	Kind: Lozenge, Aliases: []string{"rhombus", "diamond-shape"}, Summary: "four equal sides, not square", draw: drawLozenge,
	SizeNumbers: []int{2}, LengthOverWidth: 1.5, SizeSaysAll: true, Sample: Size{8, 6, 0},
	CommonSizes: []Size{},
	DepthShare:  0.52, PavilionShare: 0.70, DepthSource: practice,
	Proportions: fancyProportions,
	Carat:       CaratFormula{Lengths: NoFormula},
	Prongs:      Prongs{At: OnCorners, Usual: 4},
}

func drawLozenge(s Shape) (Curve, error) {
	return diamond(s.Size.WidthMM/2, s.Size.LengthMM/2, 0, s)
}

func diamond(x, y, shoulder float64, s Shape) (Curve, error) {
	if y > 5*x {
		return Curve{}, problem("a %s of %.4g x %.4g mm is more than 5 times longer than wide", s.Kind, 2*y, 2*x)
	}
	c := polygon(Point{0, -y}, Point{x, shoulder}, Point{0, y}, Point{-x, shoulder})
	c.Places = []Place{
		atCorner("point", "at the long point", 0),
		midSide(c, "side", "in the middle of a side", 0),
		atCorner("corner", "at a side corner", 1),
	}
	return c, nil
}
