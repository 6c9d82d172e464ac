package scene

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// Point is a place, y up.
type Point struct{ X, Y float64 }

// Op is a segment's kind.
type Op int

// Kinds of segments.
const (
	MoveTo Op = iota
	LineTo
	CubicTo
	// ClosePath is a line back to the last MoveTo, and a corner there.
	ClosePath
)

// Seg is one segment of a path: a move, a line or a cubic Bézier.
type Seg struct {
	Op Op
	// P is the end point; C1 and C2 the control points of a CubicTo.
	C1, C2, P Point
}

// Path is one or several strokes.
type Path []Seg

// Polygon is the closed path through the points.
func Polygon(points ...Point) Path {
	p := Polyline(points...)
	return append(p, Seg{Op: ClosePath, P: points[0]})
}

// Polyline is the open path of straight lines through the points.
func Polyline(points ...Point) Path {
	p := make(Path, 0, len(points)+1)
	for i, at := range points {
		op := LineTo
		if i == 0 {
			op = MoveTo
		}
		p = append(p, Seg{Op: op, P: at})
	}
	return p
}

// arcsOf is the number of cubic pieces of a circle: as many as keep it within 1e-5,
// less than a file's last place, all round. With n pieces the radius is off by up to
// 4.3e-6 (8/n)^6 of itself.
func arcsOf(radius float64) int {
	n := 8
	for n < 24 && 4.3e-6*math.Pow(8/float64(n), 6)*radius > 1e-5 {
		n += 4
	}
	return n
}

// Circle is a closed circle, counter-clockwise from the right, of cubic pieces.
// The pieces' ends and middles lie on the circle: the handle length is
// 4/3 tan(angle/4), the usual one.
func Circle(centre Point, radius float64) Path {
	arcs := arcsOf(radius)
	at := func(i int) (point, tangent Point) {
		sin, cos := math.Sincos(2 * math.Pi * float64(i%arcs) / float64(arcs))
		return Point{centre.X + radius*cos, centre.Y + radius*sin}, Point{-radius * sin, radius * cos}
	}
	handle := 4.0 / 3 * math.Tan(2*math.Pi/float64(arcs)/4)
	p0, t0 := at(0)
	p := append(make(Path, 0, arcs+2), Seg{Op: MoveTo, P: p0})
	for i := 1; i <= arcs; i++ {
		p1, t1 := at(i)
		p = append(p, Seg{
			Op: CubicTo,
			C1: Point{p0.X + handle*t0.X, p0.Y + handle*t0.Y},
			C2: Point{p1.X - handle*t1.X, p1.Y - handle*t1.Y},
			P:  p1,
		})
		p0, t0 = p1, t1
	}
	return append(p, Seg{Op: ClosePath, P: p[0].P})
}

// View maps the coordinates of a drawing to those of a scene.
type View struct {
	Scale  float64
	DX, DY float64 // added after scaling
}

// Moved is the view that only moves.
func Moved(dx, dy float64) View { return View{1, dx, dy} }

// Point is where p is in the view.
func (v View) Point(p Point) Point { return Point{p.X*v.Scale + v.DX, p.Y*v.Scale + v.DY} }

// In is the path in the view.
func (p Path) In(v View) Path { return p.mapped(v.Point) }

// Turned is the path turned by quarters of a turn about the origin,
// counter-clockwise.
func (p Path) Turned(quarters int) Path {
	for range ((quarters % 4) + 4) % 4 {
		p = p.mapped(func(at Point) Point { return Point{-at.Y, at.X} })
	}
	return p
}

func (p Path) mapped(to func(Point) Point) Path { return p.mappedInto(make(Path, 0, len(p)), to) }

// mappedInto appends the mapped path to out.
func (p Path) mappedInto(out Path, to func(Point) Point) Path {
	for _, s := range p {
		m := Seg{Op: s.Op, P: to(s.P)}
		if s.Op == CubicTo {
			m.C1, m.C2 = to(s.C1), to(s.C2)
		}
		out = append(out, m)
	}
	return out
}

// cubic is a cubic Bézier with its starting point.
type cubic [4]Point

func (c cubic) at(t float64) Point {
	u := 1 - t
	b0, b1, b2, b3 := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return Point{b0*c[0].X + b1*c[1].X + b2*c[2].X + b3*c[3].X, b0*c[0].Y + b1*c[1].Y + b2*c[2].Y + b3*c[3].Y}
}

// speed is the length of the derivative.
func (c cubic) speed(t float64) float64 {
	u := 1 - t
	d := func(a, b, c, d float64) float64 { return 3 * (u*u*(b-a) + 2*u*t*(c-b) + t*t*(d-c)) }
	return math.Hypot(d(c[0].X, c[1].X, c[2].X, c[3].X), d(c[0].Y, c[1].Y, c[2].Y, c[3].Y))
}

// chords is the number of equal steps whose chords stay within tolerance: the
// distance is at most 3/4 of the largest second difference, by steps squared.
func (c cubic) chords(tolerance float64) int {
	const most = 10_000
	bend := func(a, b, c Point) float64 { return math.Hypot(a.X-2*b.X+c.X, a.Y-2*b.Y+c.Y) }
	n := math.Sqrt(0.75 * max(bend(c[0], c[1], c[2]), bend(c[1], c[2], c[3])) / tolerance)
	return int(min(max(math.Ceil(n), 1), most))
}

// extremes are the parameters at which the curve turns back in one coordinate; NaN
// where it doesn't.
func extremes(p0, p1, p2, p3 float64) (first, second float64) {
	a, b, c := p3-3*p2+3*p1-p0, 2*(p2-2*p1+p0), p1-p0
	if math.Abs(a) < 1e-12*(math.Abs(b)+math.Abs(c)) {
		return -c / b, math.NaN()
	}
	root := math.Sqrt(b*b - 4*a*c)
	return (-b + root) / (2 * a), (-b - root) / (2 * a)
}

// Flatten replaces curves by chords that stay within tolerance of them.
func (p Path) Flatten(tolerance float64) Path {
	return p.flattenInto(make(Path, 0, 2*len(p)), tolerance)
}

// flattenInto appends the flattened path to flat.
func (p Path) flattenInto(flat Path, tolerance float64) Path {
	for i, s := range p {
		if s.Op != CubicTo {
			flat = append(flat, s)
			continue
		}
		c := cubic{p[i-1].P, s.C1, s.C2, s.P}
		n := c.chords(tolerance)
		for k := 1; k < n; k++ {
			flat = append(flat, Seg{Op: LineTo, P: c.at(float64(k) / float64(n))})
		}
		flat = append(flat, Seg{Op: LineTo, P: s.P})
	}
	return flat
}

// Strokes are the strokes of a flattened path as points.
func (p Path) Strokes() [][]Point {
	var out [][]Point
	for _, s := range p {
		if s.Op == MoveTo {
			out = append(out, nil)
		}
		last := &out[len(out)-1]
		*last = append(*last, s.P)
	}
	return out
}

// EachLine visits the straight lines of a flattened path.
func (p Path) EachLine(visit func(a, b Point)) {
	for i, s := range p {
		if s.Op != MoveTo {
			visit(p[i-1].P, s.P)
		}
	}
}

// Length along the curves, to 1e-10 of itself for curves as smooth as an arc.
func (p Path) Length() float64 {
	sum := 0.0
	for i, s := range p {
		switch s.Op {
		case LineTo, ClosePath:
			sum += math.Hypot(s.P.X-p[i-1].P.X, s.P.Y-p[i-1].P.Y)
		case CubicTo:
			sum += quad.Fixed(cubic{p[i-1].P, s.C1, s.C2, s.P}.speed, 0, 1, 24, nil, 0)
		}
	}
	return sum
}

// Shortest is the length of the shortest stroke of a flattened path.
func (p Path) Shortest() float64 {
	shortest, run := math.Inf(1), 0.0
	for i, s := range p {
		if s.Op == MoveTo {
			if run > 0 {
				shortest = min(shortest, run)
			}
			run = 0
			continue
		}
		run += math.Hypot(s.P.X-p[i-1].P.X, s.P.Y-p[i-1].P.Y)
	}
	if run > 0 {
		shortest = min(shortest, run)
	}
	return shortest
}

// Bounds is the smallest rectangle round the path: the curves, not their
// handles. A path without a line has none, and ok is false.
func (p Path) Bounds() (r Rect, ok bool) {
	for i, s := range p {
		if s.Op == MoveTo {
			continue
		}
		from := p[i-1].P
		r = r.joinPoint(from, !ok)
		ok = true
		r = r.joinPoint(s.P, false)
		if s.Op != CubicTo || r.holds(s.C1) && r.holds(s.C2) { // a curve keeps between its four points
			continue
		}
		x0, x1 := extremes(from.X, s.C1.X, s.C2.X, s.P.X)
		y0, y1 := extremes(from.Y, s.C1.Y, s.C2.Y, s.P.Y)
		for _, t := range [4]float64{x0, x1, y0, y1} {
			if t > 0 && t < 1 {
				r = r.joinPoint(cubic{from, s.C1, s.C2, s.P}.at(t), false)
			}
		}
	}
	return r, ok
}

// Clip cuts a flattened path to the rectangle.
func (p Path) Clip(r Rect) Path {
	var out Path
	p.EachLine(func(a, b Point) {
		a, b, ok := r.Clip(a, b)
		if !ok {
			return
		}
		if n := len(out); n == 0 || out[n-1].P != a {
			out = append(out, Seg{Op: MoveTo, P: a})
		}
		out = append(out, Seg{Op: LineTo, P: b})
	})
	return out
}

// Dash cuts a flattened path into dashes: the pattern is a length drawn, a
// length left out, and so on, and begins anew with each stroke.
func (p Path) Dash(pattern []float64) Path {
	if len(pattern) == 0 {
		return p
	}
	var out Path
	k, left := 0, pattern[0]
	for i, s := range p {
		if s.Op == MoveTo {
			k, left = 0, pattern[0]
			out = append(out, s)
			continue
		}
		a := p[i-1].P
		length := math.Hypot(s.P.X-a.X, s.P.Y-a.Y)
		for run := 0.0; run < length; {
			step := min(left, length-run)
			run += step
			left -= step
			t := run / length
			at := Point{a.X + t*(s.P.X-a.X), a.Y + t*(s.P.Y-a.Y)}
			op := LineTo
			if k%2 == 1 {
				op = MoveTo
			}
			out = append(out, Seg{Op: op, P: at})
			if left <= 0 {
				k++
				left = pattern[k%len(pattern)]
			}
		}
	}
	return out
}

// Rect is an upright rectangle.
type Rect struct{ X0, Y0, X1, Y1 float64 }

// W is the width.
func (r Rect) W() float64 { return r.X1 - r.X0 }

// H is the height.
func (r Rect) H() float64 { return r.Y1 - r.Y0 }

// Path is the rectangle's outline.
func (r Rect) Path() Path {
	return Polygon(Point{r.X0, r.Y0}, Point{r.X1, r.Y0}, Point{r.X1, r.Y1}, Point{r.X0, r.Y1})
}

// Grow widens the rectangle by d on all sides.
func (r Rect) Grow(d float64) Rect { return Rect{r.X0 - d, r.Y0 - d, r.X1 + d, r.Y1 + d} }

// Join is the smallest rectangle round both.
func (r Rect) Join(o Rect) Rect {
	return Rect{min(r.X0, o.X0), min(r.Y0, o.Y0), max(r.X1, o.X1), max(r.Y1, o.Y1)}
}

// JoinAll is the smallest rectangle round all, or the zero Rect round none.
func JoinAll(all []Rect) (r Rect) {
	for i, o := range all {
		if i == 0 {
			r = o
		}
		r = r.Join(o)
	}
	return r
}

// Overlaps tells whether the rectangles have more than an edge in common.
func (r Rect) Overlaps(o Rect) bool { return r.X0 < o.X1 && o.X0 < r.X1 && r.Y0 < o.Y1 && o.Y0 < r.Y1 }

// holds reports whether the point is in the rectangle or on its edge.
func (r Rect) holds(p Point) bool { return p.X >= r.X0 && p.X <= r.X1 && p.Y >= r.Y0 && p.Y <= r.Y1 }

// joinPoint widens the rectangle to a point; the first point begins it.
func (r Rect) joinPoint(p Point, first bool) Rect {
	if at := (Rect{p.X, p.Y, p.X, p.Y}); first {
		return at
	} else {
		return r.Join(at)
	}
}

// Clip cuts the line a-b to the rectangle (Liang-Barsky); ok is false where
// nothing is left.
func (r Rect) Clip(a, b Point) (_, _ Point, ok bool) {
	dx, dy := b.X-a.X, b.Y-a.Y
	t0, t1 := 0.0, 1.0
	for _, e := range [4][2]float64{
		{-dx, a.X - r.X0}, {dx, r.X1 - a.X}, {-dy, a.Y - r.Y0}, {dy, r.Y1 - a.Y},
	} {
		p, q := e[0], e[1]
		switch {
		case p == 0:
			if q < 0 {
				return a, b, false
			}
		case p < 0:
			t0 = max(t0, q/p)
		default:
			t1 = min(t1, q/p)
		}
	}
	if t0 > t1 {
		return a, b, false
	}
	return Point{a.X + t0*dx, a.Y + t0*dy}, Point{a.X + t1*dx, a.Y + t1*dy}, true
}

// Cross tells whether lines ab and cd have a point in common, other than by
// touching at an end.
func Cross(a, b, c, d Point) bool {
	side := func(p, q, r Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}
