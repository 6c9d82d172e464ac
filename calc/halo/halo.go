// Package halo sets small round stones round a centre stone: how many, how far
// apart, and the plate that carries them.
//
// Their centres lie on the centre stone's outline, offset by the gap to it and
// half a stone. Round a round centre they are circles round a circle: n circles
// of radius r touch a circle of radius R and each other where
// (R + r) sin(pi/n) = r. On any other outline neighbours are the same chord
// apart along the offset outline; there is no closed form.
package halo

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"guildhand/calc/outline"
)

// Most is the most stones that a halo has here, and Least the fewest.
const (
	Most  = 400
	Least = 3
)

// Spec is what is asked for, all in mm.
type Spec struct {
	Centre outline.Curve
	// StoneMM is the diameter of the small stones.
	StoneMM float64
	// GapMM is the least gap between neighbours, and ToCentreMM that between the
	// centre stone and the small ones.
	GapMM, ToCentreMM float64
	// RimMM is the metal outside the small stones.
	RimMM float64
	// Count asks for so many stones; 0 takes the most that fit.
	Count int
}

// Halo is the small stones round a centre.
type Halo struct {
	Count int
	// PitchMM is the chord between neighbours' centres, GapMM what is left
	// between them; negative where they would overlap.
	PitchMM, GapMM float64
	// Centres of the stones, counter-clockwise.
	Centres []outline.Point
}

// ToleranceMM is what a gap may fall short by before a stone less is taken:
// calipers and stones differ by as much, and a count that misses a whole number
// by rounding alone must not lose a stone.
func (s Spec) ToleranceMM() float64 { return 0.005 * s.StoneMM }

// Set works the halo out.
//
// It is an error if the stones are too large or too small for the centre, or if
// stones that are no neighbours would meet, as in a heart's cleft.
func (s Spec) Set() (Halo, error) {
	if !(s.StoneMM > 0) || s.GapMM < 0 || s.ToCentreMM < 0 || s.RimMM < 0 {
		return Halo{}, errors.New("the small stones must be more than 0 mm, and gaps and rim not less than 0 mm")
	}
	w, err := walkAround(s.Centre, s.ToCentreMM+s.StoneMM/2)
	if err != nil {
		return Halo{}, err
	}
	count := s.Count
	if count == 0 {
		if count, err = s.most(w); err != nil {
			return Halo{}, err
		}
	}
	pitch, centres := w.equalChords(count)
	h := Halo{Count: count, PitchMM: pitch, GapMM: pitch - s.StoneMM, Centres: centres}
	if h.GapMM < -s.ToleranceMM() {
		return h, fmt.Errorf("%d stones of %.2f mm don't fit: neighbours would overlap by %.2f mm", count, s.StoneMM, -h.GapMM)
	}
	if near := nearestStrangers(centres); near < s.StoneMM-s.ToleranceMM() {
		return h, fmt.Errorf("stones of %.2f mm would meet across a hollow of the outline; take smaller ones", s.StoneMM)
	}
	return h, nil
}

// most is the greatest count whose gap is not less than was asked for.
func (s Spec) most(w walk) (int, error) {
	want := s.StoneMM + s.GapMM - s.ToleranceMM()
	n := int(w.lengthMM/want) + 1
	if n > Most {
		return 0, fmt.Errorf("stones of %.2f mm are too small for this halo: more than %d would go round", s.StoneMM, Most)
	}
	for ; n >= Least; n-- {
		if pitch, _ := w.equalChords(n); pitch >= want {
			return n, nil
		}
	}
	return 0, fmt.Errorf("stones of %.2f mm are too large: fewer than %d would go round", s.StoneMM, Least)
}

// EvenStoneMM is the diameter of small stones of which count go round with
// exactly the gaps that were asked for; ok is false where there is none.
func (s Spec) EvenStoneMM(count int) (mm float64, ok bool) {
	if count < Least || count > Most {
		return 0, false
	}
	spare := func(d float64) float64 {
		w, err := walkAround(s.Centre, s.ToCentreMM+d/2)
		if err != nil {
			return math.NaN()
		}
		pitch, _ := w.equalChords(count)
		return pitch - d - s.GapMM
	}
	low, high := 0.05*s.StoneMM, 4*s.StoneMM
	// The line grows by pi for each mm of diameter, so that a few steps are enough
	// but for very few stones, whose chords are much shorter than the way along it.
	slope := math.Pi/float64(count) - 1
	x := s.StoneMM
	y := spare(x)
	for range 8 {
		next := x - y/slope
		if count < 6 || !(next > low && next < high) {
			break
		}
		far := spare(next)
		if math.Abs(far) < 1e-12 || next == x {
			return next, true
		}
		slope = (far - y) / (next - x)
		x, y = next, far
	}
	return rootOf(spare, low, high)
}

// rootOf is where f, which falls from low to high, is 0, by false position with
// half weights for an end that stays (the Illinois rule); ok is false where f has
// no root there.
func rootOf(f func(x float64) float64, low, high float64) (x float64, ok bool) {
	atLow, atHigh := f(low), f(high)
	if !(atLow > 0 && atHigh < 0) {
		return 0, false
	}
	side := 0
	for range 60 {
		x = (low*atHigh - high*atLow) / (atHigh - atLow)
		y := f(x)
		if math.Abs(y) < 1e-12 || high-low < 1e-13*high {
			break
		}
		if y > 0 {
			low, atLow = x, y
			if side > 0 {
				atHigh /= 2
			}
			side = 1
		} else {
			high, atHigh = x, y
			if side < 0 {
				atLow /= 2
			}
			side = -1
		}
	}
	return x, true
}

// nearestStrangers is the least distance between stones that are no neighbours.
func nearestStrangers(centres []outline.Point) float64 {
	least, n := math.Inf(1), len(centres)
	for i := range centres {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			least = math.Min(least, distance(centres[i], centres[j]))
		}
	}
	return least
}

// walk is a closed line of points, fine enough to step along; a circle is kept
// exact.
type walk struct {
	points   []outline.Point
	at       []float64 // arc length of each point; the first stands again at the end
	lengthMM float64
	radiusMM float64 // of a circle, else 0
}

// fineMM is how far the line stays within the curve, stepMM its longest step.
const (
	fineMM = 1e-5
	stepMM = 0.02
)

// walkAround is the line at the distance d from an outline: its offset, rounded
// about corners, where the offset's mitre would be further away.
func walkAround(c outline.Curve, d float64) (walk, error) {
	section, err := c.Offset(d)
	if err != nil {
		return walk{}, err
	}
	if c.Kind == outline.Round {
		low, high := section.Bounds()
		r := (high.X - low.X) / 2
		return walk{radiusMM: r, lengthMM: 2 * math.Pi * r}, nil
	}
	corners := convexCorners(c, d)
	points := fine(section.Polyline(fineMM))
	for i := range points {
		points[i] = rounded(corners, points[i], d)
	}
	start := rounded(corners, startOf(section), d)
	first, best := 0, math.Inf(1)
	for i, p := range points {
		if d := distance(p, start); d < best {
			first, best = i, d
		}
	}
	// The start lies on the line next to the nearest point; which comes first does
	// not matter at this step.
	w := walk{points: slices.Concat([]outline.Point{start}, points[first+1:], points[:first], []outline.Point{start})}
	w.at = make([]float64, len(w.points))
	for i := 1; i < len(w.points); i++ {
		w.at[i] = w.at[i-1] + distance(w.points[i], w.points[i-1])
	}
	w.lengthMM = w.at[len(w.at)-1]
	return w, nil
}

func distance(p, q outline.Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// fine puts points between those of a closed line that are far apart.
func fine(points []outline.Point) []outline.Point {
	out := make([]outline.Point, 0, 2*len(points))
	for i, p := range points {
		q := points[(i+1)%len(points)]
		n := max(1, int(math.Ceil(distance(p, q)/stepMM)))
		for k := range n {
			t := float64(k) / float64(n)
			out = append(out, outline.Point{X: p.X + t*(q.X-p.X), Y: p.Y + t*(q.Y-p.Y)})
		}
	}
	return out
}

// corner is a convex corner with the outward normals of its two sides.
type corner struct {
	at       outline.Point
	from, to float64 // angles of the normals
	mitreMM  float64 // how far the offset's mitre lies from it
}

func convexCorners(c outline.Curve, d float64) []corner {
	var all []corner
	for i, p := range c.Pieces {
		before := c.Pieces[(i+len(c.Pieces)-1)%len(c.Pieces)]
		if turning := float64(c.Turning(i)); turning > 1e-6 {
			all = append(all, corner{p.A, before.To, before.To + turning, d / math.Cos(turning/2)})
		}
	}
	return all
}

// rounded puts a point of a mitre onto the circle about its corner.
func rounded(corners []corner, p outline.Point, d float64) outline.Point {
	for _, c := range corners {
		far := distance(p, c.at)
		if far <= 0 || far < d || far > c.mitreMM*(1+1e-9) {
			continue
		}
		angle := math.Atan2(p.Y-c.at.Y, p.X-c.at.X)
		if turned := math.Mod(math.Mod(angle-c.from, 2*math.Pi)+2*math.Pi, 2*math.Pi); turned <= c.to-c.from {
			return outline.Point{X: c.at.X + d/far*(p.X-c.at.X), Y: c.at.Y + d/far*(p.Y-c.at.Y)}
		}
	}
	return p
}

// startOf is where the first stone stands: a place on the outline's axis, so
// that the halo is symmetrical.
func startOf(c outline.Curve) outline.Point {
	for _, name := range []string{"point", "end", "cleft", ""} {
		if place, ok := c.PlaceNamed(name); ok {
			if at, ok := c.LengthTo(place); ok {
				p, _ := c.AtLength(at)
				return p
			}
		}
	}
	p, _ := c.AtLength(0)
	return p
}

// equalChords steps round the line in count equal chords that end where they
// began.
func (w walk) equalChords(count int) (chordMM float64, stops []outline.Point) {
	if w.radiusMM > 0 {
		for i := range count {
			s, c := math.Sincos(math.Pi/2 + 2*math.Pi*float64(i)/float64(count))
			stops = append(stops, outline.Point{X: w.radiusMM * c, Y: w.radiusMM * s})
		}
		return 2 * w.radiusMM * math.Sin(math.Pi/float64(count)), stops
	}
	longest := w.lengthMM / float64(count) * (1 + 1e-9)
	missing := func(chord float64) float64 {
		_, reached := w.steps(chord, count)
		return w.lengthMM - reached
	}
	chordMM, _ = rootOf(missing, 0, longest)
	stops, _ = w.steps(chordMM, count)
	return chordMM, stops
}

// steps are count stops a chord apart from the start, and how far along the line
// the last chord ends, which may be past the start.
func (w walk) steps(chordMM float64, count int) (stops []outline.Point, reachedMM float64) {
	n := len(w.points) - 1 // the first stands again at the end
	at := w.points[0]
	stops = append(make([]outline.Point, 0, count), at)
	k := 0
	for step := 1; ; step++ {
		// No chord is longer than the way along the line.
		for k = max(k, w.before(reachedMM+chordMM)); squared(w.points[(k+1)%n], at) < chordMM*chordMM; k++ {
			if w.along(k) > reachedMM+w.lengthMM { // a chord longer than the whole line
				return stops, math.Inf(1)
			}
		}
		next := onCircle(at, chordMM, w.points[k%n], w.points[(k+1)%n])
		reachedMM = w.along(k) + distance(next, w.points[k%n])
		if step == count {
			return stops, reachedMM
		}
		stops = append(stops, next)
		at = next
	}
}

// before is the last of the line's points that lie before a way along it.
func (w walk) before(mm float64) int {
	rounds := math.Floor(mm / w.lengthMM)
	k, _ := slices.BinarySearch(w.at, mm-rounds*w.lengthMM)
	return int(rounds)*(len(w.points)-1) + max(0, k-1)
}

// along is the way along the line to its point k, on from where it is closed.
func (w walk) along(k int) float64 {
	n := len(w.points) - 1
	return float64(k/n)*w.lengthMM + w.at[k%n]
}

// squared is the square of the distance.
func squared(p, q outline.Point) float64 {
	return (p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y)
}

// onCircle is where the segment from p inside to q outside leaves the circle
// about at.
func onCircle(at outline.Point, r float64, p, q outline.Point) outline.Point {
	ux, uy := q.X-p.X, q.Y-p.Y
	vx, vy := p.X-at.X, p.Y-at.Y
	a, b, c := ux*ux+uy*uy, ux*vx+uy*vy, vx*vx+vy*vy-r*r
	if a == 0 {
		return q
	}
	t := (-b + math.Sqrt(math.Max(0, b*b-a*c))) / a
	t = math.Max(0, math.Min(1, t))
	return outline.Point{X: p.X + t*ux, Y: p.Y + t*uy}
}

// PlateEdge are points along the plate's outer edge.
func (s Spec) PlateEdge() ([]outline.Point, error) {
	w, err := walkAround(s.Centre, s.outMM())
	if err != nil {
		return nil, err
	}
	if w.radiusMM > 0 {
		_, points := w.equalChords(720)
		return points, nil
	}
	return w.points[:len(w.points)-1], nil
}

// outMM is from the centre stone to the plate's edge.
func (s Spec) outMM() float64 { return s.ToCentreMM + s.StoneMM + s.RimMM }

// PlateSize is the plate's length and width: rounded about corners, it is larger
// than the centre stone by the same on each side.
func (s Spec) PlateSize() outline.Size {
	size := s.Centre.Size()
	return outline.Size{LengthMM: size.LengthMM + 2*s.outMM(), WidthMM: size.WidthMM + 2*s.outMM()}
}
