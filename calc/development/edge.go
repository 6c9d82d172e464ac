package development

import (
	"math"
	"math/cmplx"
)

// edge is a piece of a flat edge with its true length, mm.
type edge struct {
	cubic    Cubic
	lengthMM float64
}

func startOf(run []edge) Point { return run[0].cubic.P0 }
func endOf(run []edge) Point   { return run[len(run)-1].cubic.P3 }

func straightEdge(a, b Point) edge {
	at := func(u float64) Point { return Point{a.X + u*(b.X-a.X), a.Y + u*(b.Y-a.Y)} }
	return edge{Cubic{a, at(1. / 3), at(2. / 3), b}, math.Hypot(b.X-a.X, b.Y-a.Y)}
}

// drawn is a line of the blank that is put together panel by panel.
type drawn struct {
	cubics     []Cubic
	start, end Point
	lengthMM   float64
	begun      bool
}

// add goes on by a panel's run, with the edge of the corner's strip before it; its
// middle is where the fold ends.
func (d *drawn) add(run []edge) (middle Point, atCorner bool) {
	first := startOf(run)
	if d.begun {
		middle, atCorner = Point{(d.end.X + first.X) / 2, (d.end.Y + first.Y) / 2}, true
		if math.Hypot(d.end.X-first.X, d.end.Y-first.Y) > 1e-12 {
			d.draw(straightEdge(d.end, first))
		}
	} else {
		d.start, d.begun = first, true
	}
	for i := range run {
		d.draw(run[i])
	}
	d.end = endOf(run)
	return middle, atCorner
}

// draw leaves out an edge facing a corner, which has no length on the corner's side.
func (d *drawn) draw(e edge) {
	d.lengthMM += e.lengthMM
	if e.lengthMM >= 1e-12 {
		d.cubics = append(d.cubics, e.cubic)
	}
}

// run is the panel's line at the fraction u from rim to base, with startMM
// and endMM added beyond (or cut off before) its first and last ruling,
// measured square to the ruling. It is written into room.
func (p *panel) run(room []edge, u, startMM, endMM float64) ([]edge, error) {
	out := room[:0]
	for i := range p.strips {
		s := &p.strips[i]
		mm := s.rimMM + u*(s.baseMM-s.rimMM)
		out = append(out, edge{s.cubicAt(u), mm})
	}
	first, last := p.strips[0].a, p.strips[len(p.strips)-1].b
	out, err := reach(out, endMM, last.tau, last.bearing, false)
	if err != nil {
		return nil, err
	}
	return reach(out, startMM, first.tau, first.bearing, true)
}

var errCorner = &Error{"a side is too short for the bends at its corners: take a smaller inside radius, thinner sheet or scored corners"}

// reach extends the run along its tangent, or cuts it, to the line that lies
// mm beyond its end (its start, where atStart is set) and runs parallel to
// the ruling there.
func reach(run []edge, mm, tau, bearing float64, atStart bool) ([]edge, error) {
	if mm == 0 {
		return run, nil
	}
	outward := cmplx.Rect(1, bearing+math.Pi/2)
	tangent := cmplx.Rect(1, tau)
	end := fromPoint(endOf(run))
	if atStart {
		outward, tangent, end = -outward, -tangent, fromPoint(startOf(run))
	}
	if mm > 0 {
		forward := real(tangent * cmplx.Conj(outward))
		if forward < 0.05 {
			return nil, errCorner // the seam would run nearly along the edge
		}
		to := end + tangent*complex(mm/forward, 0)
		if atStart {
			return append([]edge{straightEdge(toPoint(to), toPoint(end))}, run...), nil
		}
		return append(run, straightEdge(toPoint(end), toPoint(to))), nil
	}
	beyond := func(q Point) float64 { return real((fromPoint(q)-end)*cmplx.Conj(outward)) - mm }
	if atStart {
		for i := range run {
			if beyond(run[i].cubic.P3) < 0 {
				u := crossing(run[i].cubic, beyond)
				return append([]edge{run[i].part(u, 1)}, run[i+1:]...), nil
			}
		}
		return nil, errCorner
	}
	for i := len(run) - 1; i >= 0; i-- {
		if beyond(run[i].cubic.P0) < 0 {
			u := crossing(run[i].cubic, beyond)
			return append(run[:i:i], run[i].part(0, u)), nil
		}
	}
	return nil, errCorner
}

// crossing is the parameter where f changes sign along the cubic.
func crossing(c Cubic, f func(Point) float64) float64 {
	lo, hi := 0.0, 1.0
	rising := f(c.P0) < 0
	for range 60 {
		mid := (lo + hi) / 2
		if (f(c.at(mid)) < 0) == rising {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

func (c Cubic) at(u float64) Point {
	v := 1 - u
	b0, b1, b2, b3 := v*v*v, 3*v*v*u, 3*v*u*u, u*u*u
	return Point{
		b0*c.P0.X + b1*c.P1.X + b2*c.P2.X + b3*c.P3.X,
		b0*c.P0.Y + b1*c.P1.Y + b2*c.P2.Y + b3*c.P3.Y,
	}
}

func (c Cubic) speed(u float64) Point {
	v := 1 - u
	a, b, d := 3*v*v, 6*v*u, 3*u*u
	return Point{
		a*(c.P1.X-c.P0.X) + b*(c.P2.X-c.P1.X) + d*(c.P3.X-c.P2.X),
		a*(c.P1.Y-c.P0.Y) + b*(c.P2.Y-c.P1.Y) + d*(c.P3.Y-c.P2.Y),
	}
}

// LengthMM is the cubic's length by six-point Gauss quadrature; on the short
// pieces of a flat blank that is within 1e-12 of its value.
func (c Cubic) LengthMM() float64 {
	sum := 0.0
	for i, u := range nodes {
		d := c.speed(u)
		sum += weights[i] * math.Hypot(d.X, d.Y)
	}
	return sum
}

// moment is the integral of (x dy - y dx)/2 along the cubic, exact: a sum over the
// pairs of its control points.
func (c Cubic) moment() float64 {
	cross := func(p, q Point) float64 { return p.X*q.Y - p.Y*q.X }
	return (6*cross(c.P0, c.P1) + 3*cross(c.P0, c.P2) + cross(c.P0, c.P3) +
		3*cross(c.P1, c.P2) + 3*cross(c.P1, c.P3) + 6*cross(c.P2, c.P3)) / 20
}

// part is the edge between two parameters.
func (e edge) part(u, v float64) edge {
	c := e.cubic
	p, q := c.at(u), c.at(v)
	dp, dq, h := c.speed(u), c.speed(v), (v-u)/3
	cut := Cubic{p, Point{p.X + h*dp.X, p.Y + h*dp.Y}, Point{q.X - h*dq.X, q.Y - h*dq.Y}, q}
	return edge{cut, cut.LengthMM()}
}

// settle computes the area from the outline, moves the bounding box's lower
// left corner to the origin and measures the box.
func (f *Flat) settle() {
	area := 0.0
	low, high := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, c := range f.Rim {
		area -= c.moment() // the rim runs left to right: clockwise
		c.grow(&low, &high)
	}
	for _, c := range f.Base {
		area += c.moment()
		c.grow(&low, &high)
	}
	area += straightEdge(f.SeamA.A, f.SeamA.B).cubic.moment()
	area -= straightEdge(f.SeamB.A, f.SeamB.B).cubic.moment()
	f.AreaMM2 = area
	f.WidthMM, f.HeightMM = high.X-low.X, high.Y-low.Y
	f.move(-low.X, -low.Y)
}

// grow widens the box to hold the cubic, whose extremes are at its ends or
// where a component of its speed vanishes. It lies within its control points.
func (c Cubic) grow(low, high *Point) {
	hold := func(p Point) {
		low.X, low.Y, high.X, high.Y = min(low.X, p.X), min(low.Y, p.Y), max(high.X, p.X), max(high.Y, p.Y)
	}
	hold(c.P0)
	hold(c.P3)
	if min(c.P1.X, c.P2.X) >= low.X && max(c.P1.X, c.P2.X) <= high.X && min(c.P1.Y, c.P2.Y) >= low.Y && max(c.P1.Y, c.P2.Y) <= high.Y {
		return
	}
	for _, d := range [2][3]float64{
		{c.P1.X - c.P0.X, c.P2.X - c.P1.X, c.P3.X - c.P2.X},
		{c.P1.Y - c.P0.Y, c.P2.Y - c.P1.Y, c.P3.Y - c.P2.Y},
	} {
		// d0 (1-u)^2 + 2 d1 (1-u) u + d2 u^2 = 0
		a, b := d[0]-2*d[1]+d[2], d[1]-d[0]
		root := math.Sqrt(b*b - a*d[0])
		for _, u := range [2]float64{(-b + root) / a, (-b - root) / a} {
			if u > 0 && u < 1 {
				hold(c.at(u))
			}
		}
		if math.Abs(a) < 1e-12*math.Abs(b) {
			if u := -d[0] / (2 * b); u > 0 && u < 1 {
				hold(c.at(u))
			}
		}
	}
}

func (f *Flat) move(dx, dy float64) {
	p := func(q *Point) { q.X += dx; q.Y += dy }
	path := func(cs []Cubic) {
		for i := range cs {
			p(&cs[i].P0)
			p(&cs[i].P1)
			p(&cs[i].P2)
			p(&cs[i].P3)
		}
	}
	lines := func(ls []Line) {
		for i := range ls {
			p(&ls[i].A)
			p(&ls[i].B)
		}
	}
	path(f.Rim)
	path(f.Base)
	for _, l := range f.Levels {
		path(l)
	}
	lines(f.Folds)
	lines(f.Marks)
	p(&f.SeamA.A)
	p(&f.SeamA.B)
	p(&f.SeamB.A)
	p(&f.SeamB.B)
	for i := range f.Patches {
		f.Patches[i].move(dx, dy)
	}
	for i := range f.Rulings {
		p(&f.Rulings[i].FlatRim)
		p(&f.Rulings[i].FlatBase)
	}
}
