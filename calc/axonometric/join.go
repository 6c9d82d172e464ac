package axonometric

import "math"

// joined chains segments whose ends meet on paper into lines that are as long as
// can be.
func joined(name string, segments []segment) []Line {
	const grid = 1e4
	type end [2]int64
	at := func(p Point) end { return end{int64(math.Round(p.X * grid)), int64(math.Round(p.Y * grid))} }
	open := map[end][]int{}
	for i, s := range segments {
		open[at(s.a)] = append(open[at(s.a)], i)
		open[at(s.b)] = append(open[at(s.b)], i)
	}
	used := make([]bool, len(segments))
	// run goes on from a point along unused segments. Where several go on it
	// takes the straightest.
	run := func(from, to Point) []Point {
		var points []Point
		for {
			best, next, most := -1, Point{}, -2.0
			for _, i := range open[at(to)] {
				if used[i] {
					continue
				}
				far := segments[i].b
				if at(far) == at(to) {
					far = segments[i].a
				}
				if c := straightness(from, to, far); c > most {
					best, next, most = i, far, c
				}
			}
			if best < 0 {
				return points
			}
			used[best] = true
			points = append(points, next)
			from, to = to, next
		}
	}
	var lines []Line
	for i, s := range segments {
		if used[i] || at(s.a) == at(s.b) {
			continue
		}
		used[i] = true
		ahead, behind := run(s.a, s.b), run(s.b, s.a)
		line := Line{Name: name}
		for k := len(behind) - 1; k >= 0; k-- {
			line.Points = append(line.Points, [2]float64{behind[k].X, behind[k].Y})
		}
		for _, p := range append([]Point{s.a, s.b}, ahead...) {
			line.Points = append(line.Points, [2]float64{p.X, p.Y})
		}
		lines = append(lines, line)
	}
	return lines
}

// straightness is the cosine of the turn at b on the way from a to c.
func straightness(a, b, c Point) float64 {
	ux, uy, vx, vy := b.X-a.X, b.Y-a.Y, c.X-b.X, c.Y-b.Y
	return (ux*vx + uy*vy) / max(math.Hypot(ux, uy)*math.Hypot(vx, vy), 1e-12)
}
