package finished

import (
	"math"
	"slices"

	"guildhand/calc/axonometric"
	"guildhand/calc/outline"
)

// rounds is how many stations go round a smooth outline.
const rounds = 96

// matched are level outlines as lists of equally many points, the one number
// being one place of the wall on all of them: points with the same outward
// normal, between which the rulings of a developable wall run. An outline with a
// reflex corner has no such order round; its points lie in the same direction
// from the middle.
func matched(curves ...outline.Curve) [][]outline.Point {
	for _, c := range curves {
		if !c.Convex() {
			return fromMiddle(curves)
		}
	}
	normals := stations(curves)
	rings := make([][]outline.Point, len(curves))
	for i, c := range curves {
		rings[i] = make([]outline.Point, len(normals))
		for k, phi := range normals {
			rings[i][k] = support(c, phi)
		}
	}
	return rings
}

// stations are normals all round, with one on each side of every normal at which
// a piece of a curve begins or ends.
func stations(curves []outline.Curve) []float64 {
	const aside = 1e-7
	normals := make([]float64, 0, 2*rounds)
	add := func(phi float64) {
		normals = append(normals, math.Mod(math.Mod(phi, 2*math.Pi)+2*math.Pi, 2*math.Pi))
	}
	for i := range rounds {
		add(2 * math.Pi * float64(i) / rounds)
	}
	for _, c := range curves {
		for _, p := range c.Pieces {
			for _, phi := range []float64{p.From, p.To} {
				add(phi - aside)
				add(phi + aside)
			}
		}
	}
	slices.Sort(normals)
	return slices.CompactFunc(normals, func(a, b float64) bool { return math.Abs(b-a) < aside/100 })
}

// support is the point of a convex curve whose outward normal is phi.
func support(c outline.Curve, phi float64) outline.Point {
	sin, cos := math.Sincos(phi)
	best, most := outline.Point{}, math.Inf(-1)
	try := func(p outline.Point) {
		if h := p.X*cos + p.Y*sin; h > most {
			best, most = p, h
		}
	}
	for _, p := range c.Pieces {
		try(p.A)
		if p.Kind != outline.Straight && math.Mod(math.Mod(phi-p.From, 2*math.Pi)+2*math.Pi, 2*math.Pi) <= p.To-p.From {
			try(p.At(phi))
		}
	}
	return best
}

// fromMiddle are the points in which rays from the middle meet the curves.
func fromMiddle(curves []outline.Curve) [][]outline.Point {
	chords := make([][]outline.Point, len(curves))
	for i, c := range curves {
		chords[i] = c.Polyline(0.001)
	}
	low, high := curves[0].Bounds()
	middle := outline.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
	var angles []float64
	add := func(p outline.Point) { angles = append(angles, math.Atan2(p.Y-middle.Y, p.X-middle.X)) }
	for i := range rounds {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / rounds)
		add(outline.Point{X: middle.X + cos, Y: middle.Y + sin})
	}
	for _, c := range curves {
		for i, p := range c.Pieces {
			if c.Turning(i) != 0 {
				add(p.A)
			}
		}
	}
	slices.Sort(angles)
	angles = slices.CompactFunc(angles, func(a, b float64) bool { return math.Abs(b-a) < 1e-9 })
	rings := make([][]outline.Point, len(curves))
	for i := range curves {
		for _, a := range angles {
			rings[i] = append(rings[i], farthest(chords[i], middle, a))
		}
	}
	return rings
}

// farthest is where the ray from a point in the direction a leaves a polygon.
func farthest(polygon []outline.Point, from outline.Point, a float64) outline.Point {
	sin, cos := math.Sincos(a)
	reach := 0.0
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		// heights of both ends to the left of the ray, and their ways along it
		hp, hq := (p.Y-from.Y)*cos-(p.X-from.X)*sin, (q.Y-from.Y)*cos-(q.X-from.X)*sin
		if hp*hq > 0 || hp == hq {
			continue
		}
		t := hp / (hp - hq)
		x, y := p.X+t*(q.X-p.X)-from.X, p.Y+t*(q.Y-p.Y)-from.Y
		reach = max(reach, x*cos+y*sin)
	}
	return outline.Point{X: from.X + reach*cos, Y: from.Y + reach*sin}
}

// level is a ring at the height z.
func level(ring []outline.Point, z float64) []axonometric.Point {
	out := make([]axonometric.Point, len(ring))
	for i, p := range ring {
		out[i] = axonometric.Point{X: p.X, Y: p.Y, Z: z}
	}
	return out
}

// placeOn is the place on the ring that is nearest to p: the number of the point
// before it, and the share of the way to the next.
func placeOn(ring []outline.Point, p outline.Point) float64 {
	best, least := 0.0, math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		l, t := distance(a, b), 0.0
		if l > 0 {
			t = min(1, max(0, ((p.X-a.X)*(b.X-a.X)+(p.Y-a.Y)*(b.Y-a.Y))/(l*l)))
		}
		d := distance(p, outline.Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)})
		if d < least-1e-9 {
			best, least = float64(i)+t, d
		}
	}
	return best
}

// distance of two points.
func distance(p, q outline.Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }
