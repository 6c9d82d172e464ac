package axonometric

import "math"

// joints are the places on paper where segments end, by number.
type joints struct {
	number map[[2]int64]int
	// open has the segments that end at each place.
	open [][]int
	// ends are the places of each segment's two ends.
	ends [][2]int
}

func jointsOf(segments []segment) joints {
	j := joints{number: make(map[[2]int64]int, len(segments)), ends: make([][2]int, len(segments))}
	for i, s := range segments {
		j.ends[i] = [2]int{j.end(s.a, i), j.end(s.b, i)}
	}
	return j
}

// end enters one end of a segment, and gives its place.
func (j *joints) end(p Point, segment int) int {
	const grid = 1e4
	key := [2]int64{int64(math.Round(p.X * grid)), int64(math.Round(p.Y * grid))}
	n, ok := j.number[key]
	if !ok {
		n = len(j.open)
		j.number[key], j.open = n, append(j.open, nil)
	}
	j.open[n] = append(j.open[n], segment)
	return n
}

// joined chains segments whose ends meet on paper into lines that are as long as
// can be.
func joined(name string, segments []segment) []Line {
	j := jointsOf(segments)
	used := make([]bool, len(segments))
	// run goes on from a point to one at a place, and then along unused segments.
	// Where several go on it takes the straightest.
	run := func(from, to Point, place int) []Point {
		var points []Point
		for {
			best, next, there, most := -1, Point{}, 0, -2.0
			for _, i := range j.open[place] {
				if used[i] {
					continue
				}
				far, end := segments[i].b, j.ends[i][1]
				if end == place {
					far, end = segments[i].a, j.ends[i][0]
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
		if used[i] || j.ends[i][0] == j.ends[i][1] {
			continue
		}
		used[i] = true
		ahead, behind := run(s.a, s.b, j.ends[i][1]), run(s.b, s.a, j.ends[i][0])
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
