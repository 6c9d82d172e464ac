package template

import "github.com/tdewolff/canvas"

// flatten is canvas' Flatten, curve by curve: that moves the rest of the path
// along for each of its curves.
func flatten(p *canvas.Path, tolerance float64) *canvas.Path {
	flat := &canvas.Path{}
	for s := p.Scanner(); s.Scan(); {
		end := s.End()
		switch s.Cmd() {
		case canvas.MoveToCmd:
			flat.MoveTo(end.X, end.Y)
		case canvas.CubeToCmd:
			curve := &canvas.Path{}
			start, c1, c2 := s.Start(), s.CP1(), s.CP2()
			curve.MoveTo(start.X, start.Y)
			curve.CubeTo(c1.X, c1.Y, c2.X, c2.Y, end.X, end.Y)
			for i, at := range curve.Flatten(tolerance).Coords() {
				if i > 0 {
					flat.LineTo(at.X, at.Y)
				}
			}
		case canvas.CloseCmd:
			flat.Close()
		default:
			flat.LineTo(end.X, end.Y)
		}
	}
	return flat
}

// eachSegment visits the straight segments of a flattened path.
func eachSegment(flat *canvas.Path, visit func(a, b canvas.Point)) {
	for s := flat.Scanner(); s.Scan(); {
		switch s.Cmd() {
		case canvas.LineToCmd, canvas.CloseCmd:
			visit(s.Start(), s.End())
		}
	}
}

// clip cuts the segment a-b to the rectangle (Liang-Barsky); ok is false where
// nothing is left.
func clip(r canvas.Rect, a, b canvas.Point) (_, _ canvas.Point, ok bool) {
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
	return canvas.Point{X: a.X + t0*dx, Y: a.Y + t0*dy}, canvas.Point{X: a.X + t1*dx, Y: a.Y + t1*dy}, true
}

// clipPath cuts a flattened path to the rectangle. The library's own Clip
// joins an open stroke to the one before it, which a row of dashes can't bear.
func clipPath(flat *canvas.Path, r canvas.Rect) *canvas.Path {
	out := &canvas.Path{}
	var last canvas.Point
	joined := false
	eachSegment(flat, func(a, b canvas.Point) {
		ca, cb, ok := clip(r, a, b)
		if !ok {
			joined = false
			return
		}
		if !joined || ca != last {
			out.MoveTo(ca.X, ca.Y)
		}
		out.LineTo(cb.X, cb.Y)
		last, joined = cb, true
	})
	return out
}

// grow widens a rectangle by d on all sides.
func grow(r canvas.Rect, d float64) canvas.Rect {
	return canvas.Rect{X0: r.X0 - d, Y0: r.Y0 - d, X1: r.X1 + d, Y1: r.Y1 + d}
}

// join is the smallest rectangle round both.
func join(a, b canvas.Rect) canvas.Rect {
	return canvas.Rect{X0: min(a.X0, b.X0), Y0: min(a.Y0, b.Y0), X1: max(a.X1, b.X1), Y1: max(a.Y1, b.Y1)}
}

// segmentsCross tells whether segments ab and cd have a point in common, other
// than by touching at an end.
func segmentsCross(a, b, c, d canvas.Point) bool {
	side := func(p, q, r canvas.Point) float64 {
		return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X)
	}
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}
