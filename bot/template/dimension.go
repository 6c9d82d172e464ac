package template

import (
	"math"

	"guildhand/bot/template/scene"
)

// Side is where a dimension line stands.
type Side int

// Sides. Beside is parallel to the line from A to B, on the left of one who
// walks from A to B; the others are level or upright, outside the drawing.
const (
	Beside Side = iota
	Below
	Above
	Right
	Left
)

// Dimension is a measure with its dimension line, as ISO 129-1:2018 draws it:
// extension lines that begin clear of the outline and go a little beyond the
// dimension line, filled arrows of 15 degrees between them, or outside where
// there is no room, and the text level, so that a phone need not be turned.
// Pictures carry dimensions; a drawing at 1:1 is cut along its lines and does
// not.
type Dimension struct {
	A, B [2]float64
	Side Side
	// Name says in words what is measured, where the drawing shows it: "length
	// over all"; it is not lettered.
	Name string
	// Text is the measure with its unit, and its name where that is not plain:
	// "26.4 mm", "slant 6.41 mm".
	Text string
}

// Proportions of a dimension, in ems of its lettering.
const (
	arrowEms     = 0.62
	extensionGap = 0.22 // between outline and extension line
	beyondEms    = 0.22 // of the extension line beyond the dimension line
	firstEms     = 1.9  // from the drawing to the first dimension line
	nextEms      = 1.9  // from one dimension line to the next
	firstSideEms = 1.0  // the same to the left and right
	narrowEms    = 6.4  // the text beside an upright line, at the most
	besideEms    = 0.95 // from a line to the dimension line beside it
)

// arrowSlope is half the width of an arrow over its length: 15 degrees in all.
var arrowSlope = math.Tan(7.5 * math.Pi / 180)

// drawnDimension is a dimension in the scene's unit.
type drawnDimension struct {
	lines  scene.Path // dimension and extension lines
	arrows scene.Path // closed, to be filled
	label  label
}

// dimensions puts the dimensions of d round its box in the view, nearest
// first. owner is the number of the first one's label.
func dimensions(d Drawing, box scene.Rect, f fitting, owner int) []drawnDimension {
	out := make([]drawnDimension, 0, len(d.Dimensions))
	var count [Left + 1]int
	for i, m := range d.Dimensions {
		a, b := f.toView.Point(point(m.A)), f.toView.Point(point(m.B))
		off := f.em * (firstEms + nextEms*float64(count[m.Side]))
		if m.Side == Left || m.Side == Right { // the text stands beyond the line
			off = f.em * firstSideEms
			for _, before := range d.Dimensions[:i] {
				if before.Side == m.Side {
					off += before.wide(f.em)
				}
			}
		}
		count[m.Side]++
		var from, to scene.Point
		switch m.Side {
		case Below:
			from, to = scene.Point{X: a.X, Y: box.Y0 - off}, scene.Point{X: b.X, Y: box.Y0 - off}
		case Above:
			from, to = scene.Point{X: a.X, Y: box.Y1 + off}, scene.Point{X: b.X, Y: box.Y1 + off}
		case Right:
			from, to = scene.Point{X: box.X1 + off, Y: a.Y}, scene.Point{X: box.X1 + off, Y: b.Y}
		case Left:
			from, to = scene.Point{X: box.X0 - off, Y: a.Y}, scene.Point{X: box.X0 - off, Y: b.Y}
		default:
			dx, dy := b.X-a.X, b.Y-a.Y
			l := math.Max(math.Hypot(dx, dy), 1e-9)
			nx, ny := -dy/l*f.em*besideEms, dx/l*f.em*besideEms
			from, to = scene.Point{X: a.X + nx, Y: a.Y + ny}, scene.Point{X: b.X + nx, Y: b.Y + ny}
		}
		out = append(out, between(a, b, from, to, m, f, owner+i))
	}
	return out
}

// between draws one dimension: its line from from to to, extension lines from
// the points a and b that are measured.
func between(a, b, from, to scene.Point, m Dimension, f fitting, owner int) drawnDimension {
	var out drawnDimension
	for _, e := range [2][2]scene.Point{{a, from}, {b, to}} {
		dx, dy := e[1].X-e[0].X, e[1].Y-e[0].Y
		l := math.Hypot(dx, dy)
		if l < 1e-9 {
			continue
		}
		gap, past := extensionGap*f.em/l, 1+beyondEms*f.em/l
		if gap < past {
			out.lines = append(out.lines, scene.Polyline(scene.Point{X: e[0].X + gap*dx, Y: e[0].Y + gap*dy}, scene.Point{X: e[0].X + past*dx, Y: e[0].Y + past*dy})...)
		}
	}
	dx, dy := to.X-from.X, to.Y-from.Y
	l := math.Max(math.Hypot(dx, dy), 1e-9)
	ux, uy := dx/l, dy/l
	arrow := arrowEms * f.em
	if l >= 3*arrow {
		out.lines = append(out.lines, scene.Polyline(from, to)...)
		out.arrows = append(arrowAt(from, -ux, -uy, arrow), arrowAt(to, ux, uy, arrow)...)
	} else { // the arrows point inwards from outside
		tail := 1.9 * arrow
		out.lines = append(out.lines, scene.Polyline(scene.Point{X: from.X - tail*ux, Y: from.Y - tail*uy}, scene.Point{X: to.X + tail*ux, Y: to.Y + tail*uy})...)
		out.arrows = append(arrowAt(from, ux, uy, arrow), arrowAt(to, -ux, -uy, arrow)...)
	}
	out.label = label{lines: m.lines(f.em, f.widest), owner: owner, em: f.em, dimension: true}
	nx, ny := -uy, ux
	// a level text stands above its line; an upright one's on its outer side
	if ny < -1e-9 || math.Abs(ny) < 1e-9 && (nx < 0) != (m.Side == Left) {
		nx, ny = -nx, -ny
	}
	if m.Side == Beside {
		nx, ny = -uy, ux // away from what is measured
	}
	for _, t := range []float64{0.5, 0.35, 0.65} {
		out.label.anchors = append(out.label.anchors, anchor{from.X + t*dx, from.Y + t*dy, nx, ny})
	}
	return out
}

// arrowAt is a filled arrow whose point is at p and that points along ux, uy.
func arrowAt(p scene.Point, ux, uy, length float64) scene.Path {
	back := scene.Point{X: p.X - length*ux, Y: p.Y - length*uy}
	half := length * arrowSlope
	return scene.Polygon(p, scene.Point{X: back.X - half*uy, Y: back.Y + half*ux}, scene.Point{X: back.X + half*uy, Y: back.Y - half*ux})
}

// sideRoom is how much of a width dimensions take left and right of a drawing.
func (d Drawing) sideRoom(em, wide float64) (left, right float64) {
	b := Bounds(d)
	for _, m := range d.Dimensions {
		switch dx, dy := m.B[0]-m.A[0], m.B[1]-m.A[1]; {
		case m.Side == Right && right == 0:
			right = em*firstSideEms + m.wide(em)
		case m.Side == Right:
			right += m.wide(em)
		case m.Side == Left && left == 0:
			left = em*firstSideEms + m.wide(em)
		case m.Side == Left:
			left += m.wide(em)
		case m.Side == Beside && math.Abs(dy) > math.Abs(dx) && dy > 0:
			// a line that slopes away from the drawing's side leaves room
			slack := (m.A[0] - b.X0) / math.Max(b.W(), 1e-9) * 0.7 * wide
			left = math.Max(left, em*besideEms+m.wide(em)-slack)
			// the line itself, at its end that lies farthest out
			in := (math.Min(m.A[0], m.B[0]) - b.X0) / math.Max(b.W(), 1e-9) * 0.7 * wide
			left = math.Max(left, em*(besideEms+beyondEms)*dy/math.Hypot(dx, dy)-in)
		}
	}
	return left, right
}

// wide is what the text of an upright dimension and its distances take of the
// width.
func (m Dimension) wide(em float64) float64 {
	return scene.Lettering{Em: em}.Widest(m.lines(em, math.Inf(1))) + em*0.75
}

// lines are the text of a dimension; beside an upright line it is broken to be
// narrow.
func (m Dimension) lines(em, widest float64) []string {
	if m.Side == Right || m.Side == Left || m.Side == Beside {
		widest = math.Min(widest, narrowEms*em)
	}
	return shorten(scene.Lettering{Em: em}.Balanced(m.Text, widest), 4)
}

// heightRoom is how much of the height dimensions take above and below.
func (d Drawing) heightRoom(em float64) (above, below float64) {
	for _, m := range d.Dimensions {
		switch m.Side {
		case Above:
			above += em * nextEms
		case Below:
			below += em * nextEms
		}
	}
	return above, below
}
