package template

import (
	"errors"
	"math"
	"slices"

	"guildhand/bot/template/scene"
)

// joinMM is how far the ends of two edges may be apart and still be one
// corner: a tenth of what a bench can see.
const joinMM = 0.001

// errOpen is a drawing whose edges don't close.
var errOpen = errors.New("the edges to cut don't close")

// Contour is the outline of the piece that d cuts out: its edges of the roles
// Cut and Seam, joined to a simple polygon, mm, counter-clockwise, the first
// point not repeated. Curves become chords that stay within toleranceMM of
// them. Of several closed outlines the largest is given; the others are taken
// for holes. The error says that the edges don't close.
func Contour(d Drawing, toleranceMM float64) ([][2]float64, error) {
	var strokes [][]scene.Point
	for _, p := range d.Paths {
		if p.Role != Cut && p.Role != Seam {
			continue
		}
		for _, points := range p.Segs.Flatten(toleranceMM).Strokes() {
			if len(points) > 1 {
				strokes = append(strokes, points)
			}
		}
	}
	var best [][2]float64
	most := 0.0
	for len(strokes) > 0 {
		loop := strokes[0]
		strokes = strokes[1:]
		for !near(loop[0], loop[len(loop)-1]) {
			i, turned := next(strokes, loop[len(loop)-1])
			if i < 0 {
				return nil, errOpen
			}
			stroke := strokes[i]
			if turned {
				stroke = slices.Clone(stroke)
				slices.Reverse(stroke)
			}
			loop = append(loop[:len(loop):len(loop)], stroke[1:]...)
			strokes = slices.Delete(slices.Clone(strokes), i, i+1)
		}
		polygon, area := closedPolygon(loop)
		if math.Abs(area) > most {
			if area < 0 {
				slices.Reverse(polygon)
			}
			best, most = polygon, math.Abs(area)
		}
	}
	if len(best) < 3 {
		return nil, errOpen
	}
	return best, nil
}

func near(a, b scene.Point) bool { return math.Hypot(a.X-b.X, a.Y-b.Y) <= joinMM }

// next finds the stroke that begins, or turned round ends, at a point.
func next(strokes [][]scene.Point, at scene.Point) (i int, turned bool) {
	for i, s := range strokes {
		if near(s[0], at) {
			return i, false
		}
		if near(s[len(s)-1], at) {
			return i, true
		}
	}
	return -1, false
}

// closedPolygon drops the points of a loop that repeat the one before, and
// measures its area, positive where it runs counter-clockwise.
func closedPolygon(loop []scene.Point) (polygon [][2]float64, areaMM2 float64) {
	for _, p := range loop {
		at := [2]float64{p.X, p.Y}
		if n := len(polygon); n > 0 && near(p, scene.Point{X: polygon[n-1][0], Y: polygon[n-1][1]}) {
			continue
		}
		polygon = append(polygon, at)
	}
	if n := len(polygon); n > 1 && math.Hypot(polygon[0][0]-polygon[n-1][0], polygon[0][1]-polygon[n-1][1]) <= joinMM {
		polygon = polygon[:n-1]
	}
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		areaMM2 += (p[0]*q[1] - q[0]*p[1]) / 2
	}
	return polygon, areaMM2
}

// LengthMM is the length of d's paths of the roles given, along their curves.
func (d Drawing) LengthMM(roles ...Role) float64 {
	sum := 0.0
	for _, p := range d.Paths {
		if slices.Contains(roles, p.Role) {
			sum += p.Segs.Length()
		}
	}
	return sum
}

// Placed is the path turned by quarters of a turn about the origin,
// counter-clockwise, and then moved, mm.
func (p Path) Placed(quarterTurns int, dx, dy float64) Path {
	p.Segs = p.Segs.Turned(quarterTurns).In(scene.Moved(dx, dy))
	return p
}
