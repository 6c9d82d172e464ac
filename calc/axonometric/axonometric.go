// Package axonometric draws bodies in isometric projection (ISO 5456-3) and
// leaves out the lines that a maker would not see.
//
// Bodies are closed surfaces of triangles, mm, z up. A line is drawn where two
// faces meet at an edge, where the surface turns away from the eye, and where a
// mark lies on it. Every line is held against every face near it on paper that
// looks at the eye: in a parallel projection the part of a straight line that a
// triangle hides is bounded by four linear conditions, so it is found exactly.
package axonometric

import (
	"math"
	"slices"
)

// Point is a point in space, mm.
type Point struct{ X, Y, Z float64 }

func (p Point) sub(q Point) Point   { return Point{p.X - q.X, p.Y - q.Y, p.Z - q.Z} }
func (p Point) dot(q Point) float64 { return p.X*q.X + p.Y*q.Y + p.Z*q.Z }
func (p Point) cross(q Point) Point {
	return Point{p.Y*q.Z - p.Z*q.Y, p.Z*q.X - p.X*q.Z, p.X*q.Y - p.Y*q.X}
}

// Mix is the point a share t of the way from p to q.
func (p Point) Mix(q Point, t float64) Point {
	return Point{p.X + t*(q.X-p.X), p.Y + t*(q.Y-p.Y), p.Z + t*(q.Z-p.Z)}
}

// Line is an unbroken piece of a line that is seen, on paper, mm, y up. Name is
// the body's or the mark's.
type Line struct {
	Name   string
	Points [][2]float64
}

// QuartersTo is how often the bodies are turned by 90 degrees, so that the side
// that looks towards x, y faces the eye.
func QuartersTo(x, y float64) int {
	best, most := 0, math.Inf(-1)
	for q := range 4 {
		if p := quarterTurned(Point{X: x, Y: y}, q); p.X+p.Y > most+1e-9 {
			best, most = q, p.X+p.Y
		}
	}
	return best
}

func quarterTurned(p Point, quarters int) Point {
	for range ((quarters % 4) + 4) % 4 {
		p.X, p.Y = -p.Y, p.X
	}
	return p
}

// projected is a point on paper with its height towards the eye: the isometric
// axes lie at 120 degrees.
func projected(p Point, quarters int) Point {
	p = quarterTurned(p, quarters)
	return Point{
		(p.Y - p.X) / math.Sqrt2,
		(2*p.Z - p.X - p.Y) / math.Sqrt(6),
		(p.X + p.Y + p.Z) / math.Sqrt(3),
	}
}

// sharp is the cosine of the angle between two faces' normals beyond which their
// edge is drawn: 32 degrees, more than a finely divided curve turns.
const sharp = 0.85

// Isometric is what is seen of the bodies after so many quarter turns about z,
// counter-clockwise from above.
func Isometric(bodies []Body, quarters int) []Line {
	var v view
	for i := range bodies {
		v.add(&bodies[i], quarters)
	}
	var low, high Point
	for _, f := range v.faces {
		low = Point{min(low.X, f.low.X), min(low.Y, f.low.Y), 0}
		high = Point{max(high.X, f.high.X), max(high.Y, f.high.Y), 0}
	}
	v.eps = 1e-4 * math.Hypot(high.X-low.X, high.Y-low.Y)
	v.near = squaresOf(v.faces, low, high)
	seen := map[string][]segment{}
	var names []string
	for _, s := range v.edges {
		if !slices.Contains(names, s.name) {
			names = append(names, s.name)
		}
		seen[s.name] = append(seen[s.name], v.visible(s)...)
	}
	var lines []Line
	for _, name := range names {
		lines = append(lines, joined(name, seen[name])...)
	}
	return lines
}

// segment is a straight piece of a line, projected.
type segment struct {
	name string
	a, b Point
}

// face is a projected triangle that looks at the eye, counter-clockwise.
type face struct {
	at        [3]Point
	low, high Point
	// depth at x, y is d0 + dx x + dy y.
	d0, dx, dy float64
}

type view struct {
	faces []face
	edges []segment
	near  squares
	eps   float64
}

// side is an edge of a body, with the first two faces that meet there.
type side struct {
	from, to int32
	// next is the next side from the same point, or -1.
	next   int32
	faces  int32
	front  [2]bool
	normal [2]Point
}

// sides are the edges of a body in the order in which they are met.
type sides struct {
	list []side
	// first is the last side met from each point, or -1.
	first []int32
}

func newSides(points, faces int) *sides {
	s := &sides{list: make([]side, 0, faces*3/2), first: make([]int32, points)}
	for i := range s.first {
		s.first[i] = -1
	}
	return s
}

// between is the side that joins two points.
func (s *sides) between(p, q int) *side {
	from, to := int32(min(p, q)), int32(max(p, q))
	for i := s.first[from]; i >= 0; i = s.list[i].next {
		if s.list[i].to == to {
			return &s.list[i]
		}
	}
	s.list = append(s.list, side{from: from, to: to, next: s.first[from]})
	s.first[from] = int32(len(s.list) - 1)
	return &s.list[len(s.list)-1]
}

// add enters a body's faces and lines.
func (v *view) add(b *Body, quarters int) {
	points, faces := welded(b, quarters)
	edges := newSides(len(points), len(faces))
	v.faces = slices.Grow(v.faces, len(faces)/2)
	for _, f := range faces {
		p := [3]Point{points[f[0]], points[f[1]], points[f[2]]}
		n := p[1].sub(p[0]).cross(p[2].sub(p[0]))
		size := math.Sqrt(n.dot(n))
		if size < 1e-12 {
			continue
		}
		n = Point{n.X / size, n.Y / size, n.Z / size}
		front := n.Z > 1e-9
		if front {
			v.faces = append(v.faces, faceOf(p, n))
		}
		for i := range 3 {
			e := edges.between(f[i], f[(i+1)%3])
			if e.faces < 2 {
				e.front[e.faces], e.normal[e.faces] = front, n
			}
			e.faces++
		}
	}
	for i := range edges.list {
		e := &edges.list[i]
		crease := e.faces != 2 || e.normal[0].dot(e.normal[1]) < sharp
		if e.front[0] != e.front[1] && e.faces == 2 || crease && (e.front[0] || e.front[1]) {
			v.edges = append(v.edges, segment{b.Name, points[e.from], points[e.to]})
		}
	}
	for _, m := range b.Marks {
		for i := range len(m.Points) - 1 {
			v.edges = append(v.edges, segment{m.Name, projected(m.Points[i], quarters), projected(m.Points[i+1], quarters)})
		}
	}
}

// welded are the projected points of a body, those at one place counted as one,
// and its faces, all turned outward.
func welded(b *Body, quarters int) ([]Point, [][3]int) {
	const grid = 1e5 // a hundredth of a micrometre
	number := make(map[[3]int64]int, len(b.Points))
	to := make([]int, len(b.Points))
	points := make([]Point, 0, len(b.Points))
	for i, p := range b.Points {
		key := [3]int64{int64(math.Round(p.X * grid)), int64(math.Round(p.Y * grid)), int64(math.Round(p.Z * grid))}
		k, ok := number[key]
		if !ok {
			k = len(points)
			number[key] = k
			points = append(points, projected(p, quarters))
		}
		to[i] = k
	}
	volume := 0.0
	faces := make([][3]int, 0, len(b.Faces))
	for _, f := range b.Faces {
		g := [3]int{to[f[0]], to[f[1]], to[f[2]]}
		if g[0] == g[1] || g[1] == g[2] || g[2] == g[0] {
			continue
		}
		volume += points[g[0]].dot(points[g[1]].cross(points[g[2]]))
		faces = append(faces, g)
	}
	if volume < 0 {
		for i := range faces {
			faces[i][1], faces[i][2] = faces[i][2], faces[i][1]
		}
	}
	return points, faces
}

func faceOf(p [3]Point, n Point) face {
	f := face{at: p, dx: -n.X / n.Z, dy: -n.Y / n.Z}
	f.d0 = p[0].Z - f.dx*p[0].X - f.dy*p[0].Y
	f.low = Point{min(p[0].X, p[1].X, p[2].X), min(p[0].Y, p[1].Y, p[2].Y), min(p[0].Z, p[1].Z, p[2].Z)}
	f.high = Point{max(p[0].X, p[1].X, p[2].X), max(p[0].Y, p[1].Y, p[2].Y), max(p[0].Z, p[1].Z, p[2].Z)}
	return f
}

// visible is what no face hides of a segment.
func (v *view) visible(s segment) []segment {
	low := Point{min(s.a.X, s.b.X), min(s.a.Y, s.b.Y), min(s.a.Z, s.b.Z) + v.eps}
	high := Point{max(s.a.X, s.b.X), max(s.a.Y, s.b.Y), 0}
	var hidden [][2]float64
	v.near.each(low, high, func(i int) {
		if from, to, ok := v.faces[i].hides(s, v.eps); ok {
			hidden = append(hidden, [2]float64{from, to})
		}
	})
	slices.SortFunc(hidden, func(a, b [2]float64) int {
		if a[0] < b[0] {
			return -1
		}
		return 1
	})
	var out []segment
	at := 0.0
	show := func(from, to float64) {
		if to-from > 1e-6 {
			out = append(out, segment{s.name, s.a.Mix(s.b, from), s.a.Mix(s.b, to)})
		}
	}
	for _, h := range hidden {
		show(at, h[0])
		at = max(at, h[1])
	}
	show(at, 1)
	return out
}

// hides is the part of a segment, by shares of it, that lies behind the face:
// inside its three sides, and deeper by more than eps.
func (f *face) hides(s segment, eps float64) (from, to float64, ok bool) {
	from, to = 0, 1
	// within keeps what lies where the linear function from a to b is positive.
	within := func(a, b float64) bool {
		switch {
		case a <= 0 && b <= 0:
			return false
		case a < 0:
			from = max(from, a/(a-b))
		case b < 0:
			to = min(to, a/(a-b))
		}
		return from < to
	}
	depth := func(p Point) float64 { return f.d0 + f.dx*p.X + f.dy*p.Y - p.Z - eps }
	if !within(depth(s.a), depth(s.b)) {
		return 0, 0, false
	}
	for i, p := range f.at {
		q := f.at[(i+1)%3]
		left := func(r Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) + 1e-12 }
		if !within(left(s.a), left(s.b)) {
			return 0, 0, false
		}
	}
	return from, to, true
}
