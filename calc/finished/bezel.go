package finished

import (
	"math"

	"guildhand/calc/axonometric"
	"guildhand/calc/bezel"
	"guildhand/calc/outline"
)

// Cabochon is a bezel to be looked at, before its wall is rubbed over.
type Cabochon struct {
	bezel.Bezel
	// BackMM is how high the stone's back lies in the wall.
	BackMM float64
	Seam   outline.Place
	// Edge is how the top edge is cut; its zero value is plain.
	Edge bezel.Pattern
	// Plate carries the wall where PlateMM, its thickness, is over 0. Its opening
	// lies under the stone and is not drawn.
	Plate   bezel.Plate
	PlateMM float64
}

// Bezel is a straight wall round a cabochon, on its back plate if it has one.
func Bezel(b Cabochon) ([]axonometric.Body, error) {
	r := matched(b.Outer, b.Inner, b.Stone)
	outer, inner := r[0], r[1]
	tops := b.tops(inner, placeOfSeam(b, r[2]))
	sections := make([][]axonometric.Point, len(tops))
	for i, t := range tops {
		p, q := at(outer, t.place), at(inner, t.place)
		sections[i] = []axonometric.Point{{X: p.X, Y: p.Y}, {X: p.X, Y: p.Y, Z: t.z}, {X: q.X, Y: q.Y, Z: t.z}, {X: q.X, Y: q.Y}}
	}
	wall := axonometric.Loft(Metal, sections, true)
	if place := placeOfSeam(b, r[2]); place >= 0 {
		p := at(outer, place)
		wall.Marks = []axonometric.Mark{{Name: Seam, Points: []axonometric.Point{{X: p.X, Y: p.Y}, {X: p.X, Y: p.Y, Z: b.HeightMM - b.Edge.DepthMM}}}}
	}
	bodies := []axonometric.Body{wall}
	if b.PlateMM > 0 {
		bodies = append(bodies, b.plate())
	}
	stone, err := cabochon(b.Bezel, r[2], b.BackMM)
	return append(bodies, stone), err
}

// placeOfSeam is the seam's place on the stone's ring, negative if it has none.
func placeOfSeam(b Cabochon, ring []outline.Point) float64 {
	mm, ok := b.Stone.LengthTo(b.Seam)
	if !ok {
		return -1
	}
	p, _ := b.Stone.AtLength(mm)
	return placeOn(ring, p)
}

// top is the height of the wall at a place of its rings.
type top struct{ place, z float64 }

// tops are the stations of the wall with its height at each: those of its rings,
// and more of them where the edge is cut. The pattern runs along the inner face in
// proportion to the strip, which differ by the bends alone.
func (b Cabochon) tops(inner []outline.Point, seam float64) []top {
	list := make([]top, 0, 2*len(inner))
	if b.Edge.Edging == bezel.PlainEdge || seam < 0 {
		for i := range inner {
			list = append(list, top{float64(i), b.HeightMM})
		}
		return list
	}
	edge := b.Edge.Edge()
	around := 0.0
	for i, p := range inner {
		around += distance(p, inner[(i+1)%len(inner)])
	}
	k := around / b.LengthMM
	// The stations are the points of the edge, joined by the rings' own where the
	// wall turns.
	place, mm, next := seam, 0.0, 0
	for mm < around-1e-6 {
		for next < len(edge) && edge[next][0]*k <= mm+1e-9 {
			next++
		}
		step := around - mm
		if next < len(edge) {
			step = edge[next][0]*k - mm
		}
		toRing := distance(at(inner, place), at(inner, math.Floor(place+1e-9)+1))
		if toRing < step-1e-9 {
			place, mm = math.Floor(place+1e-9)+1, mm+toRing
		} else {
			place, mm = along(inner, place, step), mm+step
		}
		list = append(list, top{math.Mod(place, float64(len(inner))), b.HeightMM + heightAt(edge, mm/k)})
	}
	return list
}

// heightAt is the edge's height at a length of the strip, by its chords.
func heightAt(edge [][2]float64, mm float64) float64 {
	for i := 1; i < len(edge); i++ {
		if a, b := edge[i-1], edge[i]; mm <= b[0] && b[0] > a[0] {
			return a[1] + (b[1]-a[1])*(mm-a[0])/(b[0]-a[0])
		}
	}
	return edge[len(edge)-1][1]
}

// plate is the back plate, solid.
func (b Cabochon) plate() axonometric.Body {
	ring := matched(b.Plate.Blank)[0]
	var sections [][]axonometric.Point
	for _, z := range []float64{-b.PlateMM, 0} {
		level := make([]axonometric.Point, len(ring))
		for i, p := range ring {
			level[i] = axonometric.Point{X: p.X, Y: p.Y, Z: z}
		}
		sections = append(sections, level)
	}
	return axonometric.Loft(Metal, sections, false)
}
