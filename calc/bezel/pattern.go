package bezel

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Edging is how the wall's top edge is cut.
type Edging int

// Kinds of edging.
const (
	PlainEdge Edging = iota
	// Serrated: triangular teeth.
	Serrated
	// Scalloped: round lobes, each an arc.
	Scalloped
)

// Pattern is a top edge cut into repeats that come out whole: between two folds,
// or a fold and the seam, there is a whole number of them, so that every corner
// and the joint lie in a valley.
type Pattern struct {
	Edging Edging
	Count  int
	// DepthMM is from a peak, at the wall's full height, down to a valley.
	DepthMM float64
	// ValleysMM are the valleys' places on the strip as it closes, from one end to
	// the other, both ends among them.
	ValleysMM []float64
}

// PitchMM is the narrowest and the widest repeat. They differ where sides of
// different length each take a whole number.
func (p Pattern) PitchMM() (low, high float64) {
	low = math.Inf(1)
	for i, x := range p.ValleysMM[1:] {
		pitch := x - p.ValleysMM[i]
		low, high = math.Min(low, pitch), math.Max(high, pitch)
	}
	return low, high
}

// Usual repeats of an edge. Common practice, no source.
const (
	UsualToothMM   = 1.0
	UsualScallopMM = 2.5
)

// LeastRepeatMM is the smallest repeat that a saw or file still cuts. Common
// practice, no source.
const LeastRepeatMM = 0.4

// Pattern divides the top edge. Of count and pitch the first that is not 0 is
// kept; a depth of 0 takes half the wall above the upright part of the stone's
// side, and no more than the repeat has room for.
func (b Bezel) Pattern(e Edging, pitchMM float64, count int, depthMM float64) (Pattern, error) {
	p := Pattern{Edging: e}
	sides := b.sides()
	if count > 0 && count < len(sides) {
		return p, &Error{fmt.Sprintf("%d repeats are too few: each of the %d lengths between folds and seam has at least one", count, len(sides))}
	}
	shares := b.repeats(sides, pitchMM, count)
	at := 0.0
	p.ValleysMM = []float64{0}
	for i, length := range sides {
		for k := 1; k <= shares[i]; k++ {
			p.ValleysMM = append(p.ValleysMM, at+length*float64(k)/float64(shares[i]))
		}
		at += length
		p.Count += shares[i]
	}
	low, _ := p.PitchMM()
	if low < LeastRepeatMM {
		return p, &Error{fmt.Sprintf("%d repeats round this stone are %.2f mm wide each: a saw cuts them from %.1f mm", p.Count, low, LeastRepeatMM)}
	}
	room := low
	if e == Scalloped {
		room = low / 2 // half a circle
	}
	if p.DepthMM = depthMM; depthMM == 0 {
		p.DepthMM = math.Max(0.1, math.Floor(math.Min(b.OverMM/2, 0.8*room)*20)/20)
	}
	if p.DepthMM > room+1e-9 && e == Scalloped {
		return p, &Error{fmt.Sprintf("a scallop %.2f mm wide is %.2f mm deep at most, half a circle: make it shallower or wider", low, room)}
	}
	if p.DepthMM > b.OverMM+1e-9 {
		return p, &Error{fmt.Sprintf("an edge cut %.2f mm deep goes below the place where the stone draws in: %.2f mm at most", p.DepthMM, b.OverMM)}
	}
	return p, nil
}

// sides are the lengths of the strip between its ends and folds.
func (b Bezel) sides() []float64 {
	var list []float64
	last := 0.0
	for _, x := range append(slices.Clone(b.Folds), b.LengthMM) {
		if x-last > 1e-6 {
			list = append(list, x-last)
		}
		last = x
	}
	return list
}

// repeats are how many repeats each side takes: the whole number nearest to a
// pitch, an even one where there are no folds, so that what faces the seam is a
// valley too; or a count shared out by the sides' lengths, what is left over to
// those with the largest remainder.
func (b Bezel) repeats(sides []float64, pitchMM float64, count int) []int {
	shares := make([]int, len(sides))
	if count == 0 {
		for i, length := range sides {
			shares[i] = max(1, int(math.Round(length/pitchMM)))
		}
		if len(sides) == 1 {
			shares[0] = 2 * max(1, int(math.Round(sides[0]/pitchMM/2)))
		}
		return shares
	}
	left := count
	rest := make([]float64, len(sides))
	for i, length := range sides {
		share := float64(count) * length / b.LengthMM
		shares[i] = max(1, int(share+1e-9))
		rest[i] = share - float64(shares[i])
		left -= shares[i]
	}
	order := make([]int, len(sides))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(rest[y], rest[x]) })
	for i := 0; left > 0; i++ {
		shares[order[i%len(order)]]++
		left--
	}
	for i := len(order) - 1; left < 0; i = (i + len(order) - 1) % len(order) {
		if shares[order[i]] > 1 {
			shares[order[i]]--
			left++
		}
	}
	return shares
}

// Edge is the top edge from one end of the strip to the other: points x along
// it and y below the peaks' height, mm. Arcs become chords within 0.005 mm on
// repeats of up to 5 mm.
func (p Pattern) Edge() [][2]float64 {
	var points [][2]float64
	for i, x := range p.ValleysMM[1:] {
		from := p.ValleysMM[i]
		pitch := x - from
		points = append(points, [2]float64{from, -p.DepthMM})
		if p.Edging != Scalloped {
			points = append(points, [2]float64{from + pitch/2, 0})
			continue
		}
		r := lobeRadius(pitch, p.DepthMM)
		half := math.Asin(math.Min(1, pitch/2/r))
		const steps = 24
		for k := 1; k < steps; k++ {
			a := half * (2*float64(k)/steps - 1)
			points = append(points, [2]float64{from + pitch/2 + r*math.Sin(a), r*math.Cos(a) - r})
		}
	}
	return append(points, [2]float64{p.ValleysMM[len(p.ValleysMM)-1], -p.DepthMM})
}

// RemovedMM2 is the area that the edge takes from the strip: half of what stands
// over the valleys between triangles; the circle's segment is what scallops leave.
func (p Pattern) RemovedMM2() float64 {
	sum := 0.0
	for i, x := range p.ValleysMM[1:] {
		pitch := x - p.ValleysMM[i]
		left := pitch * p.DepthMM / 2
		if p.Edging == Scalloped {
			r := lobeRadius(pitch, p.DepthMM)
			angle := 2 * math.Asin(math.Min(1, pitch/2/r))
			left = r * r / 2 * (angle - math.Sin(angle))
		}
		sum += pitch*p.DepthMM - left
	}
	return sum
}

// lobeRadius is the radius of an arc by its chord and height.
func lobeRadius(chordMM, heightMM float64) float64 {
	return (chordMM*chordMM/4 + heightMM*heightMM) / (2 * heightMM)
}
