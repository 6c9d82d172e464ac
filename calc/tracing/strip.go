package tracing

import (
	"fmt"
	"math"
)

// superellipsePoints are on |x/a|^n + |y/b|^n = 1 with its length along y: a lozenge at
// n = 1, an ellipse at 2, nearly a rectangle from 10 on.
func superellipsePoints(lengthMM, widthMM, n float64) [][2]float64 {
	const quarter = 180
	out := make([][2]float64, 4*quarter)
	for i := range quarter {
		s, c := math.Sincos(math.Pi / 2 * (float64(i) + 0.5) / quarter)
		x, y := widthMM/2*math.Pow(c, 2/n), lengthMM/2*math.Pow(s, 2/n)
		out[i], out[2*quarter-1-i] = [2]float64{x, y}, [2]float64{-x, y}
		out[2*quarter+i], out[4*quarter-1-i] = [2]float64{-x, -y}, [2]float64{x, -y}
	}
	return out
}

// Exponents between which an outline is fitted.
const leastExponent, mostExponent = 1.2, 12.0

// FromStrip is the superellipse of a length, a width and a perimeter, such as a
// paper strip round the stone gives. The error says which strips can be.
func FromStrip(lengthMM, widthMM, perimeterMM float64) (outline [][2]float64, exponent float64, err error) {
	if lengthMM < widthMM {
		lengthMM, widthMM = widthMM, lengthMM
	}
	length := func(n float64) float64 { return ClosedLength(superellipsePoints(lengthMM, widthMM, n)) }
	low, high := leastExponent, mostExponent
	if least, most := length(low), length(high); perimeterMM < least || perimeterMM > most {
		return nil, 0, fmt.Errorf("a strip of %.4g mm does not fit a stone of %.4g x %.4g mm, round which it is %.1f to %.1f mm long: measure the three again", perimeterMM, lengthMM, widthMM, least, most)
	}
	for range 60 {
		mid := (low + high) / 2
		if length(mid) < perimeterMM {
			low = mid
		} else {
			high = mid
		}
	}
	return superellipsePoints(lengthMM, widthMM, low), low, nil
}

// Hull is the least convex line round a closed one.
func Hull(line [][2]float64) (hull [][2]float64) {
	start := 0
	for i, p := range line {
		if p[0] < line[start][0] || p[0] == line[start][0] && p[1] < line[start][1] {
			start = i
		}
	}
	// Gift wrapping: the line has a few hundred points.
	for at := start; ; {
		hull = append(hull, line[at])
		next := (at + 1) % len(line)
		for i := range line {
			c := cross(line[at], line[next], line[i])
			if c < 0 || c == 0 && dist(line[at], line[i]) > dist(line[at], line[next]) {
				next = i
			}
		}
		at = next
		if at == start || len(hull) > len(line) {
			return hull
		}
	}
}

// DipMM is how far a line dips in from its hull.
func DipMM(line, hull [][2]float64) (dipMM float64) {
	for _, p := range line {
		near := math.Inf(1)
		for i, a := range hull {
			b := hull[(i+1)%len(hull)]
			near = math.Min(near, cross(a, b, p)/math.Max(dist(a, b), 1e-9))
		}
		dipMM = math.Max(dipMM, near)
	}
	return dipMM
}

// cross is twice the area of a triangle, positive counter-clockwise.
func cross(o, a, b [2]float64) float64 {
	return (a[0]-o[0])*(b[1]-o[1]) - (a[1]-o[1])*(b[0]-o[0])
}

func dist(a, b [2]float64) float64 { return math.Hypot(a[0]-b[0], a[1]-b[1]) }

// Fewer picks at most n points of a convex closed line, closer together where it
// turns.
func Fewer(line [][2]float64, n int) [][2]float64 {
	if len(line) <= n {
		return line
	}
	total := 0.0
	for i, p := range line {
		total += dist(p, line[(i+1)%len(line)])
	}
	turn := func(i int) float64 {
		a, b, c := line[(i+len(line)-1)%len(line)], line[i], line[(i+1)%len(line)]
		ux, uy, vx, vy := b[0]-a[0], b[1]-a[1], c[0]-b[0], c[1]-b[1]
		return math.Abs(math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy))
	}
	weight := make([]float64, len(line))
	sum := 0.0
	for i, p := range line {
		weight[i] = dist(p, line[(i+1)%len(line)])/total + turn(i)/(2*math.Pi)
		sum += weight[i]
	}
	var out [][2]float64
	passed := 0.0
	for i, p := range line {
		if passed >= float64(len(out))*sum/float64(n) && len(out) < n {
			out = append(out, p)
		}
		passed += weight[i]
	}
	return out
}
