package outline

import "math"

// Words of these outlines.
const (
	Round Kind = "round"
	Oval  Kind = "oval"
)

var round = Description{
	Kind: Round, Aliases: []string{"circle", "circular", "rd"}, Summary: "a circle", draw: drawRound,
	SizeNumbers: []int{1}, FromWidth: 1, LengthOverWidth: 1, Regular: true, SizeSaysAll: true, Sample: Size{WidthMM: 6},
	PublishedSizes: widths(2, 8, 0.5), CommonSizes: widths(9, 12, 1),
	CupSizes:   append(widths(3, 16, 1), []Size{{WidthMM: 18}, {WidthMM: 20}, {WidthMM: 22}, {WidthMM: 25}, {WidthMM: 30}}...),
	DepthShare: 0.62, PavilionShare: 0.70, DepthSource: practice,
	Proportions: roundProportions,
	Carat:       CaratFormula{DiameterSquared, 0.0018},
	Prongs:      Prongs{At: AllRound, Usual: OnePer6MM},
}

func drawRound(s Shape) (Curve, error) {
	d := s.Size
	if d.LengthMM != d.WidthMM {
		return Curve{}, problem("a round has one size, not %.4g x %.4g mm; an oval has two", d.LengthMM, d.WidthMM)
	}
	c := Curve{Pieces: []Piece{arc(Point{}, d.WidthMM/2, -math.Pi, math.Pi, 0)}}
	c.Places = []Place{{Name: "side", Summary: "anywhere", Normal: 0}}
	return c, nil
}

var oval = Description{
	Kind: Oval, Aliases: []string{"ellipse", "elliptical"}, Summary: "a true ellipse", draw: drawOval,
	SizeNumbers: []int{2}, LengthOverWidth: 4. / 3, SizeSaysAll: true, Sample: Size{8, 6, 0},
	PublishedSizes: pairSizes,
	CupSizes:       []Size{{6, 4, 0}, {7, 5, 0}, {8, 6, 0}, {9, 7, 0}, {10, 8, 0}, {11, 9, 0}, {12, 10, 0}, {14, 10, 0}, {14, 12, 0}, {16, 12, 0}, {18, 13, 0}, {20, 15, 0}, {22, 16, 0}, {25, 18, 0}, {30, 22, 0}, {40, 30, 0}},
	DepthShare:     0.62, PavilionShare: 0.70, DepthSource: practice,
	Proportions: pointedProportions,
	Carat:       CaratFormula{MeanDiameterSquared, 0.0020},
	Prongs:      Prongs{At: AllRound, Usual: OnePer6MM},
}

func drawOval(s Shape) (Curve, error) {
	a, b := s.Size.WidthMM/2, s.Size.LengthMM/2
	if a == b {
		return drawRound(s)
	}
	if b > 8*a {
		return Curve{}, problem("an oval of %.4g x %.4g mm is more than 8 times longer than wide", 2*b, 2*a)
	}
	c := Curve{Pieces: []Piece{elliptic(Point{}, a, b, 0, -math.Pi/2, 3*math.Pi/2, 0)}}
	c.Places = []Place{
		{Name: "side", Summary: "along a flat side", Normal: 0},
		{Name: "end", Summary: "at an end", Normal: math.Pi / 2},
	}
	return c, nil
}
