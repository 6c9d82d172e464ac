package outline

import "math"

// Cushion is the word of this outline.
const Cushion Kind = "cushion"

const (
	// cushionRadius is the corner arc's radius as a share of the width.
	cushionRadius = 0.20
	// cushionBulge is the rise of each side as a share of its length.
	cushionBulge = 0.05
)

var cushion = Description{
	Kind: Cushion, Aliases: []string{"antique"}, Summary: "four bulged sides with round corners", draw: drawCushion,
	SizeNumbers: []int{1, 2}, FromWidth: 1, LengthOverWidth: 1,
	Assumes: "cushion drawn with corner radius 20 % of the width and sides bulged by 5 % of their length", Sample: Size{8, 6, 0},
	CommonSizes: append(widths(4, 10, 1), []Size{{7, 5, 0}, {8, 6, 0}, {9, 7, 0}, {10, 8, 0}}...),
	DepthShare:  0.66, PavilionShare: 0.70, DepthSource: practice,
	Proportions: fancyProportions,
	Carat:       CaratFormula{Lengths: NoFormula},
	Prongs:      Prongs{At: OnRoundedCorners, Usual: 4},
}

func drawCushion(s Shape) (Curve, error) {
	x, y := s.Size.WidthMM/2, s.Size.LengthMM/2
	if y > 2.5*x {
		return Curve{}, problem("a cushion of %.4g x %.4g mm is more than 2.5 times longer than wide", 2*y, 2*x)
	}
	rc := cushionRadius * 2 * x
	rx := sagittaRadius(2*y, cushionBulge*2*y) // of the long sides, which face ±X
	ry := sagittaRadius(2*x, cushionBulge*2*x)
	long, end := Point{x - rx, 0}, Point{0, y - ry}
	// The corner arc touches both sides from inside: its centre is at rx - rc
	// from one centre and at ry - rc from the other.
	centre, ok := circlesMeet(long, rx-rc, end, ry-rc)
	if !ok {
		return Curve{}, problem("a cushion of %.4g x %.4g mm can't be drawn with these proportions", 2*y, 2*x)
	}
	a := angleOf(centre.sub(long))
	b := angleOf(centre.sub(end))
	h := math.Pi
	q := func(sx, sy float64) Point { return Point{sx * centre.X, sy * centre.Y} }
	c := Curve{Pieces: []Piece{
		arc(long, rx, -a, a, 0),
		arc(q(1, 1), rc, a, b, 1),
		arc(end, ry, b, h-b, 2),
		arc(q(-1, 1), rc, h-b, h-a, 3),
		arc(Point{-long.X, 0}, rx, h-a, h+a, 4),
		arc(q(-1, -1), rc, h+a, h+b, 5),
		arc(Point{0, -end.Y}, ry, h+b, 2*h-b, 6),
		arc(q(1, -1), rc, 2*h-b, 2*h-a, 7),
	}}
	onSide, onEnd := sideAndEnd(s.Size)
	c.Places = []Place{
		midSide(c, "side", onSide, 0),
		midSide(c, "end", onEnd, 2),
		midSide(c, "corner", "in the middle of a corner arc", 1),
	}
	return c, nil
}

// circlesMeet is the meeting point with positive X and Y.
func circlesMeet(p Point, rp float64, q Point, rq float64) (Point, bool) {
	points, n, _ := crossCircles(Piece{Kind: Arc, Centre: p, Radius: rp}, Piece{Kind: Arc, Centre: q, Radius: rq})
	for _, at := range points[:n] {
		if at.X > 0 && at.Y > 0 {
			return at, true
		}
	}
	return Point{}, false
}

// sagittaRadius is the radius of the arc of the given chord and rise.
func sagittaRadius(chord, rise float64) float64 { return (chord*chord/4 + rise*rise) / (2 * rise) }
