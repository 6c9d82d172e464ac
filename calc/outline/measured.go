package outline

import "math"

// Measured is the word of this outline.
const Measured Kind = "measured"

// Limits of the number of caliper points of a measured outline.
const (
	MinPoints = 8
	MaxPoints = 64
)

var measured = Description{
	Kind: Measured, Aliases: []string{"caliper", "own-points"}, Summary: "your own caliper points",
	draw:        func(s Shape) (Curve, error) { return drawMeasured(s.Points, s.Polygon) },
	SizeNumbers: []int{}, SizeSaysAll: true,
	CommonSizes: []Size{},
	DepthShare:  0.60, PavilionShare: 0.70, DepthSource: practice,
	Proportions: fancyProportions,
	Carat:       CaratFormula{Lengths: NoFormula},
	Prongs:      Prongs{At: AllRound, Usual: OnePer6MM},
}

// drawMeasured closes caliper points by a smooth convex curve through them, two
// tangent arcs between each pair of points, or by straight lines.
//
// Tangent directions at the points are those of the circle through each point
// and its two neighbours; on points in convex position they lie between the
// two chords, so that every pair of arcs turns one way (K. M. Bolton, "Biarc
// curves", Computer-Aided Design 7 (1975) 89-92, for the pair of arcs; from
// memory).
func drawMeasured(points []Point, polygonal bool) (Curve, error) {
	pts, err := ordered(points)
	if err != nil {
		return Curve{}, err
	}
	n := len(pts)
	for i := range pts {
		u := pts[(i+1)%n].sub(pts[i])
		v := pts[(i+2)%n].sub(pts[(i+1)%n])
		if !(u.cross(v) > 1e-9*u.norm()*v.norm()) {
			if polygonal && u.cross(v) > -1e-9 {
				continue
			}
			return Curve{}, problem("the outline is dented at point %d (%.4g,%.4g): measured points must go round a convex shape; measure that point again or leave it out", (i+1)%n+1, pts[(i+1)%n].X, pts[(i+1)%n].Y)
		}
	}
	var c Curve
	if polygonal {
		c = polygon(pts...)
		rising(&c)
	} else {
		c = biarcs(pts)
	}
	best, longest := 0, 0.0
	for i, p := range c.Pieces {
		// The flattest piece: the longest for its turning.
		if l := p.LengthMM() / (0.05 + p.To - p.From); l > longest {
			best, longest = i, l
		}
	}
	c.Places = []Place{midSide(c, "side", "along the flattest side", best)}
	if polygonal {
		c.Places = append(c.Places, atCorner("corner", "at the first point", 0))
	}
	return c, nil
}

// ordered checks the points, turns them counter-clockwise and centres their
// bounding box on the origin.
func ordered(points []Point) ([]Point, error) {
	n := len(points)
	if n < MinPoints || n > MaxPoints {
		return nil, problem("a measured outline needs %d to %d points, not %d", MinPoints, MaxPoints, n)
	}
	low, high := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	area := 0.0
	for i, p := range points {
		if !p.isFinite() || math.Abs(p.X) > 10*MaxSizeMM || math.Abs(p.Y) > 10*MaxSizeMM {
			return nil, problem("point %d is not a place within %d mm", i+1, 10*MaxSizeMM)
		}
		q := points[(i+1)%n]
		if q.sub(p).norm() < 1e-3 {
			return nil, problem("points %d and %d are the same place", i+1, (i+1)%n+1)
		}
		area += p.cross(q) / 2
		low = Point{math.Min(low.X, p.X), math.Min(low.Y, p.Y)}
		high = Point{math.Max(high.X, p.X), math.Max(high.Y, p.Y)}
	}
	w, l := high.X-low.X, high.Y-low.Y
	if math.Min(w, l) < MinSizeMM || math.Max(w, l) > MaxSizeMM {
		return nil, problem("the measured outline is %.4g x %.4g mm, outside %.3g to %.3g mm", l, w, float64(MinSizeMM), float64(MaxSizeMM))
	}
	centre := low.add(high).times(0.5)
	out := make([]Point, n)
	for i, p := range points {
		j := i
		if area < 0 {
			j = n - 1 - i
		}
		out[j] = p.sub(centre)
	}
	return out, nil
}

// biarcs is the closed convex curve of two arcs between each pair of points.
func biarcs(pts []Point) Curve {
	n := len(pts)
	tangents := make([]Point, n)
	for i, p := range pts {
		u, v := p.sub(pts[(i+n-1)%n]), pts[(i+1)%n].sub(p)
		// Tangent of the circle through three points: the chords' directions
		// weighted by the other chord's length.
		t := u.times(v.norm() / u.norm()).add(v.times(u.norm() / v.norm()))
		tangents[i] = t.times(1 / t.norm())
	}
	var c Curve
	for i, p := range pts {
		j := (i + 1) % n
		for _, piece := range biarc(p, tangents[i], pts[j], tangents[j]) {
			piece.Tag = len(c.Pieces)
			c.Pieces = append(c.Pieces, piece)
		}
	}
	rising(&c)
	return c
}

// biarc joins a to b, leaving along ta and arriving along tb (unit vectors), by two
// arcs that meet with a tangent parallel to the chord, at the incentre of the triangle
// of the chord and the two tangents. Both arcs turn one way wherever the chord's
// direction lies between the tangents, as equal control lengths don't where one tangent
// leaves the chord by more than three times the other's angle (D. J. Walton and D. S.
// Meek, "Approximation of a planar cubic Bezier spiral by circular arcs", Journal of
// Computational and Applied Mathematics 75 (1996) 47-56, for the incentre; from memory).
func biarc(a, ta, b, tb Point) []Piece {
	v := b.sub(a)
	leaves, arrives := math.Atan2(ta.cross(v), ta.dot(v)), math.Atan2(v.cross(tb), v.dot(tb))
	join := a.add(v.times(0.5))
	if whole := math.Sin((leaves + arrives) / 2); whole > 1e-12 {
		// From a by the angle leaves/2 off the chord, outward, which is to its right.
		along := math.Sin(arrives/2) / whole
		sin, cos := math.Sincos(-leaves / 2)
		join = a.add(Point{v.X*cos - v.Y*sin, v.X*sin + v.Y*cos}.times(along))
	}
	var out []Piece
	for _, half := range [2]struct{ from, tangent, to Point }{{a, ta, join}, {join, Point{}, b}} {
		w := half.to.sub(half.from)
		var n Point // towards the centre
		if half.tangent == (Point{}) {
			n = Point{-tb.Y, tb.X}
			// The second arc is known by its end tangent.
			r := w.dot(w) / (-2 * w.dot(n))
			out = append(out, arcBetween(half.from, half.to, half.to.add(n.times(r)), r))
			continue
		}
		n = Point{-half.tangent.Y, half.tangent.X}
		r := w.dot(w) / (2 * w.dot(n))
		out = append(out, arcBetween(half.from, half.to, half.from.add(n.times(r)), r))
	}
	return out
}

func arcBetween(a, b, centre Point, r float64) Piece {
	from, to := angleOf(a.sub(centre)), angleOf(b.sub(centre))
	p := arc(centre, r, from, near(to, from), 0)
	p.A, p.B = a, b
	return p
}

// rising makes the normal angles go on rising from piece to piece.
func rising(c *Curve) {
	for i := 1; i < len(c.Pieces); i++ {
		for c.Pieces[i].From < c.Pieces[i-1].To-1e-6 {
			c.Pieces[i].From += 2 * math.Pi
			c.Pieces[i].To += 2 * math.Pi
		}
	}
}
