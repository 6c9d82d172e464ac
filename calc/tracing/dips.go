package tracing

import "math"

// Dip is a place where a closed line runs inside its hull.
type Dip struct {
	// A and B are the ends of the hull's edge across the dip, and Deepest the
	// line's point farthest inside it.
	A, B, Deepest [2]float64
	// DepthMM is how far inside, AcrossMM how long the edge is.
	DepthMM, AcrossMM float64
	// Line is the closed line from one end of the edge to the other.
	Line [][2]float64
}

// Dips are the places where a closed line dips in from its hull by at least
// leastMM, in the hull's order.
func Dips(line [][2]float64, leastMM float64) []Dip {
	hull := Hull(line)
	var dips []Dip
	for i, a := range hull {
		b := hull[(i+1)%len(hull)]
		across := dist(a, b)
		if across < leastMM {
			continue
		}
		ux, uy := (b[0]-a[0])/across, (b[1]-a[1])/across
		d := Dip{A: a, B: b, AcrossMM: across, Line: stretchOf(line, a, b)}
		for _, p := range d.Line {
			// The hull runs counter-clockwise: inside is on the left of its edge.
			if depth := ux*(p[1]-a[1]) - uy*(p[0]-a[0]); depth > d.DepthMM {
				d.DepthMM, d.Deepest = depth, p
			}
		}
		if d.DepthMM >= leastMM {
			dips = append(dips, d)
		}
	}
	return dips
}

// stretchOf are the points of a closed line from one of them to another, the
// shorter way round.
func stretchOf(line [][2]float64, a, b [2]float64) [][2]float64 {
	from, to := -1, -1
	for i, p := range line {
		if p == a {
			from = i
		}
		if p == b {
			to = i
		}
	}
	n := len(line)
	forward, back := walk(line, from, to, 1), walk(line, from, to, n-1)
	if pathLength(back) < pathLength(forward) {
		return back
	}
	return forward
}

func walk(line [][2]float64, from, to, step int) [][2]float64 {
	list := [][2]float64{line[from]}
	for i := from; i != to; {
		i = (i + step) % len(line)
		list = append(list, line[i])
	}
	return list
}

func pathLength(points [][2]float64) float64 {
	sum := 0.0
	for i := 1; i < len(points); i++ {
		sum += math.Hypot(points[i][0]-points[i-1][0], points[i][1]-points[i-1][1])
	}
	return sum
}
