package finished

import (
	"math"

	"guildhand/calc/axonometric"
	"guildhand/calc/bezel"
	"guildhand/calc/dome"
	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// Shell is a wall of one lean, open at both ends, whose inside at the rim is an
// outline. levelMM is its thickness measured level.
func Shell(rim outline.Curve, heightMM, levelMM float64, lean units.Angle) (axonometric.Body, error) {
	curves := []outline.Curve{rim}
	for _, d := range []float64{levelMM, levelMM - heightMM*lean.Tan(), -heightMM * lean.Tan()} {
		c, err := rim.Offset(d)
		if err != nil {
			return axonometric.Body{}, err
		}
		curves = append(curves, c)
	}
	r := matched(curves...)
	sections := make([][]axonometric.Point, len(r[0]))
	for i := range sections {
		for k, z := range []float64{heightMM, heightMM, 0, 0} {
			sections[i] = append(sections[i], axonometric.Point{X: r[k][i].X, Y: r[k][i].Y, Z: z})
		}
	}
	return axonometric.Loft(Metal, sections, true), nil
}

// cabochon has the side and dome that the bezel's height was reckoned with:
// across its narrow side its own profile, elsewhere the same, stretched to the
// outline.
func cabochon(b bezel.Bezel, ring []outline.Point, backMM float64) (axonometric.Body, error) {
	side, err := b.Side(14)
	if err != nil {
		return axonometric.Body{}, err
	}
	c := centre(ring, 0)
	var sections [][]axonometric.Point
	for _, s := range side {
		k := max(s[0]/side[0][0], 1e-3)
		level := make([]axonometric.Point, len(ring))
		for i, p := range ring {
			level[i] = axonometric.Point{X: c.X + k*(p.X-c.X), Y: c.Y + k*(p.Y-c.Y), Z: backMM + s[1]}
		}
		sections = append(sections, level)
	}
	body := axonometric.Loft(Gem, sections, false)
	// A smooth dome has no edges: its profiles along and across show its shape.
	for _, ends := range [][2]int{{lowest(ring, 0, -1), lowest(ring, 0, 1)}, {lowest(ring, 1, 0), lowest(ring, -1, 0)}} {
		line := make([]axonometric.Point, 0, 2*len(sections))
		for _, s := range sections {
			line = append(line, s[ends[0]])
		}
		for i := range sections {
			line = append(line, sections[len(sections)-1-i][ends[1]])
		}
		body.Marks = append(body.Marks, axonometric.Mark{Name: Facet, Points: line})
	}
	return body, nil
}

// lowest is the number of the ring's point that lies least far towards x, y.
func lowest(ring []outline.Point, x, y float64) int {
	best := 0
	for i, p := range ring {
		if p.X*x+p.Y*y < ring[best].X*x+ring[best].Y*y {
			best = i
		}
	}
	return best
}

// Shank is a ring of a section, lying on a table. The section's points are its
// distance from the finger, outward, and its place along the finger; innerMM is
// the finger's radius in every direction. The joint is at angle 0, towards x.
func Shank(section [][2]float64, innerMM func(angle float64) float64) axonometric.Body {
	var sections [][]axonometric.Point
	at := func(angle float64) []axonometric.Point {
		sin, cos := math.Sincos(angle)
		ring := make([]axonometric.Point, len(section))
		for i, p := range section {
			r := innerMM(angle) + p[0]
			ring[i] = axonometric.Point{X: r * cos, Y: r * sin, Z: p[1]}
		}
		return ring
	}
	for i := range rounds {
		sections = append(sections, at(2*math.Pi*float64(i)/rounds))
	}
	b := axonometric.Loft(Metal, sections, true)
	b.Marks = []axonometric.Mark{{Name: Seam, Points: append(at(0), at(0)[0])}}
	return b
}

// Circle is a shank's inside of one radius.
func Circle(radiusMM float64) func(float64) float64 { return func(float64) float64 { return radiusMM } }

// Ellipse is the inside of an oval bangle with these half axes, the first
// towards the joint.
func Ellipse(aMM, bMM float64) func(float64) float64 {
	return func(angle float64) float64 {
		sin, cos := math.Sincos(angle)
		return aMM * bMM / math.Hypot(bMM*cos, aMM*sin)
	}
}

// Dome is a hollow cap that lies on its crown, its hollow up.
func Dome(d dome.Dome) axonometric.Body {
	const steps = 14
	middle := d.Middle()
	r, half, t := middle.RadiusMM(), d.HalfAngle(), d.ThicknessMM
	crown := r + t/2
	var profile [][2]float64 // from the crown outside down to the rim and up inside
	for i := range steps + 1 {
		sin, cos := math.Sincos(half * float64(i) / steps)
		profile = append(profile, [2]float64{(r + t/2) * sin, crown - (r+t/2)*cos})
	}
	for i := range steps + 1 {
		sin, cos := math.Sincos(half * (1 - float64(i)/steps))
		profile = append(profile, [2]float64{(r - t/2) * sin, crown - (r-t/2)*cos})
	}
	var sections [][]axonometric.Point
	for _, p := range profile {
		ring := make([]axonometric.Point, rounds)
		for i := range ring {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / rounds)
			ring[i] = axonometric.Point{X: p[0] * cos, Y: p[0] * sin, Z: p[1]}
		}
		sections = append(sections, ring)
	}
	return axonometric.Loft(Metal, sections, false)
}

// Wire is a round wire bent along an outline, its middle at the height z.
func Wire(along outline.Curve, z, diameterMM float64) (axonometric.Body, error) {
	const parts = 12
	outer, err := along.Offset(diameterMM / 2)
	if err != nil {
		return axonometric.Body{}, err
	}
	r := matched(along, outer)
	sections := make([][]axonometric.Point, len(r[0]))
	for i, middle := range r[0] {
		for k := range parts {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / parts)
			sections[i] = append(sections[i], axonometric.Point{
				X: middle.X + cos*(r[1][i].X-middle.X), Y: middle.Y + cos*(r[1][i].Y-middle.Y), Z: z + sin*diameterMM/2})
		}
	}
	return axonometric.Loft(Metal, sections, true), nil
}
