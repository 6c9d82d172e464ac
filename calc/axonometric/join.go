package axonometric

import "math"

// joined chains segments whose ends meet on paper into lines that are as long as
// can be.
func joined(name string, segments []segment) []Line {
	const grid = 1e4
	// Each place where segments end has a number.
	number := make(map[[2]int64]int, len(segments))
	var open [][]int // the segments that end at each place
	at := func(p Point, segment int) int {
		key := [2]int64{int64(math.Round(p.X * grid)), int64(math.Round(p.Y * grid))}
		n, ok := number[key]
		if !ok {
			n = len(open)
			number[key], open = n, append(open, nil)
		}
		open[n] = append(open[n], segment)
		return n
	}
	ends := make([][2]int, len(segments))
	for i, s := range segments {
		ends[i] = [2]int{at(s.a, i), at(s.b, i)}
	}
	used := make([]bool, len(segments))
	// run goes on from a point to one at a place, and then along unused segments.
	// Where several go on it takes the straightest.
	run := func(from, to Point, place int) []Point {
		var points []Point
		for {
			best, next, there, most := -1, Point{}, 0, -2.0
			for _, i := range open[place] {
				if used[i] {
					continue
				}
				far, end := segments[i].b, ends[i][1]
				if end == place {
					far, end = segments[i].a, ends[i][0]
				}
				if c := straightness(from, to, far); c > most {
					best, next, there, most = i, far, end, c
				}
			}
			if best < 0 {
				return points
			}
			used[best] = true
			points = append(points, next)
			from, to, place = to, next, there
		}
	}
	var lines []Line
	for i, s := range segments {
		if used[i] || ends[i][0] == ends[i][1] {
			continue
		}
		used[i] = true
		ahead, behind := run(s.a, s.b, ends[i][1]), run(s.b, s.a, ends[i][0])
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
