package finished

import (
	"math"

	"guildhand/calc/axonometric"
	"guildhand/calc/outline"
	"guildhand/calc/seat"
)

// Names of lines: edges of the metal, of the stone, the stone's facets, the seam.
const (
	Metal = "metal"
	Gem   = "stone"
	Facet = "facet"
	Seam  = "seam"
)

// Stone is a faceted stone whose girdle's lower edge lies at restMM: the solid
// that the seat is reckoned with, its crown cut plain. A brilliant has a row of
// triangles from table to girdle, a step cut one step.
func Stone(s seat.Stone, restMM float64) axonometric.Body {
	table, err := s.Outline.Offset(-s.CrownRunMM())
	if err != nil {
		table = s.Outline.Scaled(max(0.2, s.TableShare))
	}
	curves := []outline.Curve{s.Outline, table}
	if s.Keel { // the steps of the pavilion
		reach := s.PavilionMM / s.SteepestPavilion().Tan()
		for _, share := range keelSteps {
			if in, err := s.Outline.Offset(-share * reach); err == nil {
				curves = append(curves, in)
			}
		}
	}
	rings := matched(curves...)
	girdle, top := rings[0], rings[1]
	b := axonometric.Body{Name: Gem}
	n := len(girdle)
	lower := addAll(&b, level(girdle, restMM))
	upper := addAll(&b, level(girdle, restMM+s.GirdleMM))
	for i := range n {
		k := (i + 1) % n
		b.Quad(lower+i, lower+k, upper+k, upper+i)
	}
	corners := anchors(girdle, s.Keel)
	if s.Keel || len(corners) < 3 {
		stepCrown(&b, s, restMM, girdle, top, upper, corners)
	} else {
		brilliantCrown(&b, s, restMM, girdle, top, upper, corners)
	}
	pavilion(&b, s, restMM, rings[2:], lower, n, corners)
	return b
}

func addAll(b *axonometric.Body, points []axonometric.Point) (first int) {
	first = len(b.Points)
	b.Points = append(b.Points, points...)
	return first
}

// anchors are where the stone's facets meet: its corners, and of a brilliant also
// places between, about an eighth of the way round from each other.
func anchors(girdle []outline.Point, step bool) []int {
	n := len(girdle)
	along := make([]float64, n+1)
	for i := range n {
		along[i+1] = along[i] + distance(girdle[i], girdle[(i+1)%n])
	}
	var corners []int
	for i := range n {
		if cornerAt(girdle, i) {
			corners = append(corners, i)
		}
	}
	if step {
		return corners
	}
	const usual = 8
	if len(corners) == 0 {
		corners = []int{0}
	}
	var list []int
	for k, from := range corners {
		to := corners[(k+1)%len(corners)]
		if k == len(corners)-1 {
			to += n
		}
		reach := func(i int) float64 { return along[i%n] + float64(i/n)*along[n] }
		way := reach(to) - reach(from)
		parts := max(1, int(math.Round(usual*way/along[n])))
		i := from
		for p := range parts {
			for i < to && reach(i) < reach(from)+way*float64(p)/float64(parts)-1e-9 {
				i++
			}
			list = append(list, i%n)
		}
	}
	return list
}

// cornerAt reports whether the ring turns sharply at a point, told once where
// several points lie on each other.
func cornerAt(ring []outline.Point, i int) bool {
	n := len(ring)
	before, after := (i+n-1)%n, (i+1)%n
	if distance(ring[before], ring[i]) < 1e-5 {
		return false
	}
	for range n {
		if distance(ring[after], ring[i]) > 1e-5 {
			break
		}
		after = (after + 1) % n
	}
	p, q, r := ring[before], ring[i], ring[after]
	a := math.Atan2(q.Y-p.Y, q.X-p.X)
	b := math.Atan2(r.Y-q.Y, r.X-q.X)
	return math.Abs(math.Remainder(b-a, 2*math.Pi)) > 15*math.Pi/180
}

// stepCrown rises parallel to the outline, with one step half-way.
func stepCrown(b *axonometric.Body, s seat.Stone, rest float64, girdle, top []outline.Point, upper int, corners []int) {
	n := len(girdle)
	z := rest + s.GirdleMM
	table := addAll(b, level(top, rest+s.TableMM()))
	for i := range n {
		k := (i + 1) % n
		b.Quad(upper+i, upper+k, table+k, table+i)
	}
	cap := b.Add(centre(top, rest+s.TableMM()))
	var step, edge []axonometric.Point
	for i := range n + 1 {
		if i < n {
			b.Faces = append(b.Faces, [3]int{cap, table + i, table + (i+1)%n})
		}
		edge = append(edge, b.Points[table+i%n])
		step = append(step, b.Points[upper+i%n].Mix(b.Points[table+i%n], 0.5))
	}
	b.Marks = append(b.Marks, axonometric.Mark{Name: Facet, Points: edge})
	if s.Keel {
		b.Marks = append(b.Marks, axonometric.Mark{Name: Facet, Points: step})
	}
	for _, i := range corners {
		from := axonometric.Point{X: girdle[i].X, Y: girdle[i].Y, Z: z}
		b.Marks = append(b.Marks, axonometric.Mark{Name: Facet, Points: []axonometric.Point{from, b.Points[table+i]}})
	}
}

// brilliantCrown is a table with a corner at each anchor and triangles between
// table and girdle.
func brilliantCrown(b *axonometric.Body, s seat.Stone, rest float64, girdle, top []outline.Point, upper int, at []int) {
	n, m := len(girdle), len(at)
	table := make([]int, m)
	middle := make([]int, m) // between an anchor and the next, on the girdle
	for k, i := range at {
		table[k] = b.Add(axonometric.Point{X: top[i].X, Y: top[i].Y, Z: rest + s.TableMM()})
		middle[k] = halfWay(girdle, i, at[(k+1)%m])
	}
	cap := b.Add(centre(top, rest+s.TableMM()))
	for k := range at {
		next, last := (k+1)%m, (k+m-1)%m
		b.Faces = append(b.Faces, [3]int{cap, table[k], table[next]}, [3]int{table[k], upper + middle[k], table[next]})
		for i := middle[last]; i != middle[k]; i = (i + 1) % n {
			b.Faces = append(b.Faces, [3]int{table[k], upper + i, upper + (i+1)%n})
		}
		b.Marks = append(b.Marks, axonometric.Mark{Name: Facet, Points: []axonometric.Point{
			b.Points[table[k]], b.Points[upper+middle[k]], b.Points[table[next]], b.Points[table[k]]}})
	}
}

// halfWay is the ring's point half-way along from one number to another.
func halfWay(ring []outline.Point, from, to int) int {
	n := len(ring)
	way := 0.0
	for i := from; i != to; i = (i + 1) % n {
		way += distance(ring[i], ring[(i+1)%n])
	}
	at := 0.0
	for i := from; i != to; i = (i + 1) % n {
		step := distance(ring[i], ring[(i+1)%n])
		if at+step/2 >= way/2 {
			return i
		}
		at += step
	}
	return from
}

// keelSteps are the shares of a step cut's pavilion at which its sections are
// drawn; below the last it closes in its keel.
var keelSteps = []float64{0.5, 0.97}

// pavilion runs to the culet, or in steps to a keel.
func pavilion(b *axonometric.Body, s seat.Stone, rest float64, steps [][]outline.Point, lower, n int, corners []int) {
	rows := []int{lower}
	for i, ring := range steps {
		rows = append(rows, addAll(b, level(ring, rest-keelSteps[i]*s.PavilionMM)))
	}
	for r := 1; r < len(rows); r++ {
		for i := range n {
			k := (i + 1) % n
			b.Quad(rows[r]+i, rows[r]+k, rows[r-1]+k, rows[r-1]+i)
		}
	}
	last := rows[len(rows)-1]
	culet := b.Add(axonometric.Point{X: s.Culet.X, Y: s.Culet.Y, Z: rest - s.PavilionMM})
	for i := range n {
		b.Faces = append(b.Faces, [3]int{culet, last + (i+1)%n, last + i})
	}
	for _, i := range corners {
		line := []axonometric.Point{b.Points[lower+i]}
		for _, r := range rows[1:] {
			line = append(line, b.Points[r+i])
		}
		b.Marks = append(b.Marks, axonometric.Mark{Name: Facet, Points: append(line, b.Points[culet])})
	}
}

// centre is the mean of a ring at the height z.
func centre(ring []outline.Point, z float64) axonometric.Point {
	c := axonometric.Point{Z: z}
	for _, p := range ring {
		c.X += p.X / float64(len(ring))
		c.Y += p.Y / float64(len(ring))
	}
	return c
}

// Crown is what is seen of a small round stone that is set level with a surface at
// z = 0: its girdle and its table, round and plain.
func Crown(s seat.Stone, at outline.Point) axonometric.Body {
	const parts = 24
	ring := func(radiusMM, z float64) []axonometric.Point {
		points := make([]axonometric.Point, parts)
		for i := range points {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / parts)
			points[i] = axonometric.Point{X: at.X + radiusMM*cos, Y: at.Y + radiusMM*sin, Z: z}
		}
		return points
	}
	girdle := s.WidthMM / 2
	return axonometric.Loft(Gem, [][]axonometric.Point{ring(girdle, 0), ring(girdle-s.CrownRunMM(), s.TableMM()-s.GirdleMM)}, false)
}
