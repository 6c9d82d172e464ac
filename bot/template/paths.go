package template

import (
	"errors"
	"fmt"
	"math"

	"github.com/tdewolff/canvas"

	"guildhand/calc/development"
)

// FromCubics makes an open path of consecutive cubic pieces, mm. A piece that
// does not start where the last one ended begins a new stroke of the path.
func FromCubics(id string, role Role, label string, pieces []development.Cubic) Path {
	p := Path{ID: id, Role: role, Label: label}
	for i, c := range pieces {
		if i == 0 || c.P0 != pieces[i-1].P3 {
			p.Segs = append(p.Segs, Seg{Op: MoveTo, P: xy(c.P0)})
		}
		p.Segs = append(p.Segs, Seg{Op: CubicTo, C1: xy(c.P1), C2: xy(c.P2), P: xy(c.P3)})
	}
	return p
}

// FromLine makes a straight path from l.A to l.B, mm.
func FromLine(id string, role Role, label string, l development.Line) Path {
	return Polyline(id, role, label, false, xy(l.A), xy(l.B))
}

// Polyline makes a path of straight lines through the points, mm; closed adds
// the line back to the first.
func Polyline(id string, role Role, label string, closed bool, points ...[2]float64) Path {
	p := Path{ID: id, Role: role, Label: label, Closed: closed}
	for i, at := range points {
		op := LineTo
		if i == 0 {
			op = MoveTo
		}
		p.Segs = append(p.Segs, Seg{Op: op, P: at})
	}
	if closed && len(points) > 1 && points[len(points)-1] != points[0] {
		p.Segs = append(p.Segs, Seg{Op: LineTo, P: points[0]})
	}
	return p
}

// Rect makes a closed rectangle between two opposite corners, mm,
// counter-clockwise from the lower left.
func Rect(id string, role Role, label string, a, b [2]float64) Path {
	x0, x1 := math.Min(a[0], b[0]), math.Max(a[0], b[0])
	y0, y1 := math.Min(a[1], b[1]), math.Max(a[1], b[1])
	return Polyline(id, role, label, true,
		[2]float64{x0, y0}, [2]float64{x1, y0}, [2]float64{x1, y1}, [2]float64{x0, y1})
}

// circleArcs is the number of cubic pieces of a Circle. With 24, the
// radius is within 1e-8 of its value all round, so that the length on paper
// equals the figure beyond what any bench can use.
const circleArcs = 24

// Circle makes a closed circle of radius radiusMM, counter-clockwise from the
// right, of cubic pieces. The pieces' ends and middles lie on the circle: the
// handle length is 4/3 tan(angle/4), the usual one.
func Circle(id string, role Role, label string, centre [2]float64, radiusMM float64) Path {
	p := Path{ID: id, Role: role, Label: label, Closed: true}
	at := func(i int) (point, tangent [2]float64) {
		sin, cos := math.Sincos(2 * math.Pi * float64(i%circleArcs) / circleArcs)
		return [2]float64{centre[0] + radiusMM*cos, centre[1] + radiusMM*sin},
			[2]float64{-radiusMM * sin, radiusMM * cos}
	}
	handle := 4.0 / 3 * math.Tan(2*math.Pi/circleArcs/4)
	p0, t0 := at(0)
	p.Segs = append(p.Segs, Seg{Op: MoveTo, P: p0})
	for i := 1; i <= circleArcs; i++ {
		p1, t1 := at(i)
		p.Segs = append(p.Segs, Seg{
			Op: CubicTo,
			C1: [2]float64{p0[0] + handle*t0[0], p0[1] + handle*t0[1]},
			C2: [2]float64{p1[0] - handle*t1[0], p1[1] - handle*t1[1]},
			P:  p1,
		})
		p0, t0 = p1, t1
	}
	return p
}

func xy(p development.Point) [2]float64 { return [2]float64{p.X, p.Y} }

// Box is an upright rectangle, mm, y up.
type Box struct{ X0, Y0, X1, Y1 float64 }

// WidthMM and HeightMM of the box.
func (b Box) WidthMM() float64 { return b.X1 - b.X0 }

// HeightMM of the box.
func (b Box) HeightMM() float64 { return b.Y1 - b.Y0 }

// Bounds is the smallest upright rectangle round all paths (the curves, not
// their handles) and the anchors of the texts, mm. A drawing of nothing has
// the zero Box.
func Bounds(d Drawing) Box {
	var b Box
	first := true
	add := func(x0, y0, x1, y1 float64) {
		if first {
			b, first = Box{x0, y0, x1, y1}, false
			return
		}
		b.X0, b.Y0 = math.Min(b.X0, x0), math.Min(b.Y0, y0)
		b.X1, b.Y1 = math.Max(b.X1, x1), math.Max(b.Y1, y1)
	}
	for _, p := range d.Paths {
		if c := p.canvas(); !c.Empty() {
			r := c.Bounds()
			add(r.X0, r.Y0, r.X1, r.Y1)
		}
	}
	for _, t := range d.Texts {
		add(t.At[0], t.At[1], t.At[0], t.At[1])
	}
	return b
}

// canvas is the path in the library's form, mm, y up, curves kept as cubics.
func (p Path) canvas() *canvas.Path {
	c := &canvas.Path{}
	for _, s := range p.Segs {
		switch s.Op {
		case MoveTo:
			c.MoveTo(s.P[0], s.P[1])
		case LineTo:
			c.LineTo(s.P[0], s.P[1])
		case CubicTo:
			c.CubeTo(s.C1[0], s.C1[1], s.C2[0], s.C2[1], s.P[0], s.P[1])
		}
	}
	if p.Closed {
		c.Close()
	}
	return c
}

// furthestMM is the largest coordinate that a drawing may have: ten metres,
// far beyond any bench, and well inside what pixel and point arithmetic bears.
const furthestMM = 10_000

// errNothing is a drawing without a line or a letter.
var errNothing = errors.New("the drawing has nothing in it")

// check says why d can't be drawn: nothing in it, or a coordinate that is not
// a number or is out of all reason.
func (d Drawing) check() error {
	strokes := 0
	ok := func(at [2]float64) bool {
		return math.Abs(at[0]) <= furthestMM && math.Abs(at[1]) <= furthestMM
	}
	for _, p := range d.Paths {
		for i, s := range p.Segs {
			if i == 0 && s.Op != MoveTo {
				return fmt.Errorf("path %q does not begin with a move", p.ID)
			}
			if !ok(s.P) || s.Op == CubicTo && !(ok(s.C1) && ok(s.C2)) {
				return fmt.Errorf("path %q leaves the drawing: a coordinate is not within ±%d mm", p.ID, furthestMM)
			}
			if s.Op != MoveTo {
				strokes++
			}
		}
	}
	for _, t := range d.Texts {
		if !ok(t.At) || math.IsNaN(t.Angle) || math.IsInf(t.Angle, 0) || math.IsNaN(t.SizeMM) || t.SizeMM < 0 || t.SizeMM > furthestMM {
			return fmt.Errorf("lettering %q leaves the drawing", t.Text)
		}
	}
	if strokes == 0 && len(d.Texts) == 0 {
		return errNothing
	}
	return nil
}
