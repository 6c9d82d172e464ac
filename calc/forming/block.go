package forming

import (
	"math"
	"slices"

	"guildhand/calc/outline"
	"guildhand/calc/stock"
)

// Hole is a hole of a block, seen by one collar.
type Hole struct {
	// Size is the hole's opening.
	Size outline.Size
	// GapMM is how much wider the opening is than the finished outer rim, all
	// round; negative where the rim does not go in.
	GapMM float64
	// UnevenMM is by how much more the hole is open elsewhere than at its
	// closest: 0 if the opening is a parallel of the rim.
	UnevenMM float64
}

// Holes returns the block's holes, the largest first, as the finished outer rim
// finds them. The error is an *outline.Error for a hole that can't be drawn.
func Holes(b stock.Block, rim outline.Curve) ([]Hole, error) {
	holes := make([]Hole, 0, len(b.Holes))
	inside := silhouetteOf(rim)
	for _, size := range b.Holes {
		opening, err := outline.New(outline.Shape{Kind: b.Kind, Size: size})
		if err != nil {
			return nil, err
		}
		h := Hole{Size: size}
		h.GapMM, h.UnevenMM = gap(silhouetteOf(opening), inside)
		holes = append(holes, h)
	}
	slices.SortStableFunc(holes, func(a, b Hole) int {
		switch {
		case a.GapMM > b.GapMM:
			return -1
		case a.GapMM < b.GapMM:
			return 1
		}
		return 0
	})
	return holes, nil
}

// EvenHoles are the holes of an imagined block of the rim's own outline: the
// last takes the rim just so, and each larger one is stepMM wider over all.
// They serve to tell what to look for where no block is named.
func EvenHoles(rim outline.Curve, stepMM float64, n int) []Hole {
	size := rim.Size()
	holes := make([]Hole, 0, n)
	for i := n - 1; i >= 0; i-- {
		d := float64(i) * stepMM
		holes = append(holes, Hole{
			Size:  outline.Size{LengthMM: size.LengthMM + d, WidthMM: size.WidthMM + d},
			GapMM: d / 2,
		})
	}
	return holes
}

// gap is the largest even distance to which the rim can be widened and still
// go into the opening, wherever it is put without turning it, and by how much
// more the opening is wider elsewhere.
//
// One convex curve lies inside another where its support function (its extent
// along each direction) is nowhere larger. The support functions are compared
// in steps of one degree and along the normals at every joint, which finds the
// gap of arcs of up to 100 mm within 0.005 mm. A heart, whose cleft the support
// function does not see, is compared point by point (clearance).
func gap(opening, rim silhouette) (least, uneven float64) {
	type direction struct{ x, y, more float64 }
	all := make([]direction, 0, degrees+2*(len(opening.Pieces)+len(rim.Pieces)))
	for i, n := range compass {
		all = append(all, direction{n.X, n.Y, opening.reach[i] - rim.reach[i]})
	}
	for _, c := range [2]outline.Curve{opening.Curve, rim.Curve} {
		for _, p := range c.Pieces {
			for _, phi := range [2]float64{p.From, p.To} {
				s, c := math.Sincos(phi)
				all = append(all, direction{c, s, opening.ReachMM(phi, s, c) - rim.ReachMM(phi, s, c)})
			}
		}
	}
	closest := func(x, y float64) float64 {
		lo := math.Inf(1)
		for i := range all {
			d := &all[i]
			if m := d.more - x*d.x - y*d.y; m < lo { // several times as fast as math.Min
				lo = m
			}
		}
		return lo
	}
	// The closest distance is a concave function of where the rim is put. The
	// outlines are symmetric to one axis at least, so that the axes can be
	// searched one after the other.
	var at [2]float64
	size := opening.Size()
	reach := math.Max(size.LengthMM, size.WidthMM) / 4
	for axis := 1; axis >= 0; axis-- {
		at[axis] = highest(-reach, reach, func(d float64) float64 {
			p := at
			p[axis] = d
			return closest(p[0], p[1])
		})
	}
	least = closest(at[0], at[1])
	most := math.Inf(-1)
	for _, d := range all {
		most = max(most, d.more-at[0]*d.x-at[1]*d.y)
	}
	if !opening.Convex() || !rim.Convex() {
		const drawn = 2e-3
		a, b := opening.Polyline(drawn), rim.Polyline(drawn)
		dy := highest(at[1]-1, at[1]+1, func(d float64) float64 { return clearance(a, b, d) })
		least = math.Min(least, clearance(a, b, dy))
	}
	return least, most - least
}

// clearance is how far the rim, moved by dy, keeps from the edge of the
// opening, drawn as polygons within 0.002 mm; negative is how far it sticks
// out.
func clearance(opening, rim []outline.Point, dy float64) float64 {
	least, outside := math.Inf(1), 0.0
	for _, p := range rim {
		p.Y += dy
		d := toPolygon(p, opening)
		least = math.Min(least, d)
		if !within(p, opening) {
			outside = math.Max(outside, d)
		}
	}
	for _, p := range opening {
		p.Y -= dy
		d := toPolygon(p, rim)
		least = math.Min(least, d)
		if within(p, rim) {
			outside = math.Max(outside, d)
		}
	}
	if outside > 0 {
		return -outside
	}
	return least
}

// toPolygon is the distance of a point from a polygon's edge.
func toPolygon(p outline.Point, polygon []outline.Point) float64 {
	least := math.Inf(1)
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		ux, uy := b.X-a.X, b.Y-a.Y
		s := ((p.X-a.X)*ux + (p.Y-a.Y)*uy) / (ux*ux + uy*uy)
		s = math.Max(0, math.Min(1, s))
		dx, dy := p.X-a.X-s*ux, p.Y-a.Y-s*uy
		least = math.Min(least, dx*dx+dy*dy)
	}
	return math.Sqrt(least)
}

// within reports whether a point lies inside a polygon, by crossings.
func within(p outline.Point, polygon []outline.Point) bool {
	in := false
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < (b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y)+a.X {
			in = !in
		}
	}
	return in
}

// highest is the argument in [lo, hi] at which a concave function is largest.
func highest(lo, hi float64, f func(float64) float64) float64 {
	for range 26 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if f(a) < f(b) {
			lo = a
		} else {
			hi = b
		}
	}
	return (lo + hi) / 2
}

// degrees of the compass, along each of which a silhouette's reach is known.
const degrees = 360

var compass = func() (all [degrees]outline.Point) {
	for i := range all {
		s, c := math.Sincos(2 * math.Pi * float64(i) / degrees)
		all[i] = outline.Point{X: c, Y: s}
	}
	return all
}()

// silhouette is a curve with how far it reaches along each degree of the compass.
type silhouette struct {
	outline.Curve
	reach [degrees]float64
}

func silhouetteOf(c outline.Curve) silhouette {
	s := silhouette{Curve: c}
	for i, n := range compass {
		s.reach[i] = c.ReachMM(2*math.Pi*float64(i)/degrees, n.Y, n.X)
	}
	return s
}
