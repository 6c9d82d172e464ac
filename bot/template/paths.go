package template

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"guildhand/bot/template/scene"
	"guildhand/calc/development"
)

// FromCubics makes an open path of consecutive cubic pieces, mm. A piece that
// does not start where the last one ended begins a new stroke of the path.
func FromCubics(id string, role Role, label string, pieces []development.Cubic) Path {
	p := Path{ID: id, Role: role, Label: label}
	for i, c := range pieces {
		if i == 0 || c.P0 != pieces[i-1].P3 {
			p.Segs = append(p.Segs, scene.Seg{Op: scene.MoveTo, P: scene.Point(c.P0)})
		}
		p.Segs = append(p.Segs, scene.Seg{Op: scene.CubicTo, C1: scene.Point(c.P1), C2: scene.Point(c.P2), P: scene.Point(c.P3)})
	}
	return p
}

// FromLine makes a straight path from l.A to l.B, mm.
func FromLine(id string, role Role, label string, l development.Line) Path {
	return Path{ID: id, Role: role, Label: label, Segs: scene.Polyline(scene.Point(l.A), scene.Point(l.B))}
}

// Polyline makes a path of straight lines through the points, mm; closed adds
// the line back to the first.
func Polyline(id string, role Role, label string, closed bool, points ...[2]float64) Path {
	segs := make([]scene.Point, len(points))
	for i, at := range points {
		segs[i] = point(at)
	}
	if closed && len(points) > 0 {
		return Path{ID: id, Role: role, Label: label, Segs: scene.Polygon(segs...)}
	}
	return Path{ID: id, Role: role, Label: label, Segs: scene.Polyline(segs...)}
}

// Thinned is the path in as few straight lines as stay within toleranceMM of it: a
// page with six copies of a finely divided edge is slow to make and to print.
func (p Path) Thinned(toleranceMM float64) Path {
	const curves = 0.2 // the share of the tolerance that curves take
	var segs scene.Path
	for _, stroke := range p.Segs.Flatten(curves * toleranceMM).Strokes() {
		segs = append(segs, scene.Polyline(thinned(stroke, (1-curves)*toleranceMM)...)...)
	}
	if n := len(p.Segs); n > 0 && p.Segs[n-1].Op == scene.ClosePath {
		segs[len(segs)-1].Op = scene.ClosePath
	}
	p.Segs = segs
	return p
}

// thinned leaves out the points of a line without which its chords stay within
// toleranceMM of all of them (Douglas and Peucker, Cartographica 10, 1973).
func thinned(points []scene.Point, toleranceMM float64) []scene.Point {
	if len(points) < 3 {
		return points
	}
	first, last := points[0], points[len(points)-1]
	farthest, most := 0, toleranceMM
	for i := 1; i < len(points)-1; i++ {
		if mm := fromChord(points[i], first, last); mm > most {
			farthest, most = i, mm
		}
	}
	if farthest == 0 {
		return []scene.Point{first, last}
	}
	before := thinned(points[:farthest+1], toleranceMM)
	return append(before[:len(before)-1:len(before)-1], thinned(points[farthest:], toleranceMM)...)
}

// fromChord is the distance of a point from the chord from a to b.
func fromChord(p, a, b scene.Point) float64 {
	ux, uy, vx, vy := b.X-a.X, b.Y-a.Y, p.X-a.X, p.Y-a.Y
	t := 0.0
	if l := ux*ux + uy*uy; l > 0 {
		t = min(1, max(0, (ux*vx+uy*vy)/l))
	}
	return math.Hypot(vx-t*ux, vy-t*uy)
}

// Rect makes a closed rectangle between two opposite corners, mm,
// counter-clockwise from the lower left.
func Rect(id string, role Role, label string, a, b [2]float64) Path {
	r := scene.Rect{X0: min(a[0], b[0]), Y0: min(a[1], b[1]), X1: max(a[0], b[0]), Y1: max(a[1], b[1])}
	return Path{ID: id, Role: role, Label: label, Segs: r.Path()}
}

// Circle makes a closed circle, counter-clockwise from the right.
func Circle(id string, role Role, label string, centre [2]float64, radiusMM float64) Path {
	return Path{ID: id, Role: role, Label: label, Segs: scene.Circle(point(centre), radiusMM)}
}

// Merged joins paths of the same role and label, in one path each, where the
// strokes need no ids of their own.
func Merged(paths []Path) []Path {
	var out []Path
	for _, p := range paths {
		i := slices.IndexFunc(out, func(q Path) bool { return q.Role == p.Role && q.Label == p.Label })
		if i < 0 {
			out = append(out, p)
			continue
		}
		out[i].Segs = append(out[i].Segs, p.Segs...)
	}
	return out
}

func point(at [2]float64) scene.Point { return scene.Point{X: at[0], Y: at[1]} }

// Bounds is the smallest upright rectangle round all paths (the curves, not
// their handles) and the anchors of the texts, mm. A drawing of nothing has
// the zero Rect.
func Bounds(d Drawing) scene.Rect {
	var boxes []scene.Rect
	for _, p := range d.Paths {
		if r, ok := p.Segs.Bounds(); ok {
			boxes = append(boxes, r)
		}
	}
	for _, t := range d.Texts {
		boxes = append(boxes, scene.Rect{X0: t.At[0], Y0: t.At[1], X1: t.At[0], Y1: t.At[1]})
	}
	return scene.JoinAll(boxes)
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
	ok := func(at scene.Point) bool { return math.Abs(at.X) <= furthestMM && math.Abs(at.Y) <= furthestMM }
	for _, p := range slices.Concat(d.Paths, d.CutFaces) {
		for i, s := range p.Segs {
			if i == 0 && s.Op != scene.MoveTo {
				return fmt.Errorf("path %q does not begin with a move", p.ID)
			}
			if !ok(s.P) || s.Op == scene.CubicTo && !(ok(s.C1) && ok(s.C2)) {
				return fmt.Errorf("path %q leaves the drawing: a coordinate is not within ±%d mm", p.ID, furthestMM)
			}
			if s.Op != scene.MoveTo {
				strokes++
			}
		}
	}
	for _, m := range d.Dimensions {
		if !ok(point(m.A)) || !ok(point(m.B)) {
			return fmt.Errorf("dimension %q leaves the drawing", m.Text)
		}
	}
	for _, detail := range d.Details {
		if err := detail.check(); err != nil {
			return err
		}
	}
	for _, t := range d.Texts {
		if !ok(point(t.At)) || math.IsNaN(t.Angle) || math.IsInf(t.Angle, 0) || math.IsNaN(t.SizeMM) || t.SizeMM < 0 || t.SizeMM > furthestMM {
			return fmt.Errorf("lettering %q leaves the drawing", t.Text)
		}
	}
	if strokes == 0 && len(d.Texts) == 0 && d.More == nil {
		return errNothing
	}
	return nil
}
