package outline

import (
	"math"
	"slices"
)

// Offset is the parallel section at the distance d outward (inward where d is
// negative), corners mitred.
//
// Where a corner opens (convex outward, reflex inward) its two sides run on
// along their tangents until they meet, so that a wall of even slope keeps
// its slope up to the ridge. Where a corner closes, its sides are trimmed to
// where they meet; pieces that shrink to nothing are dropped and their
// neighbours meet instead. A slender oval whose end is passed by the offset
// is trimmed to its outer loop and gains two corners.
//
// The error is ErrClosed if nothing is left.
func (c Curve) Offset(d float64) (Curve, error) {
	if d == 0 {
		return c, nil
	}
	if len(c.Pieces) > 0 && c.Pieces[0].Kind == Elliptic {
		return c.offsetEllipse(d)
	}
	var room [16]carrier // enough for most outlines
	pieces, dropped, err := carry(room[:0], c, d).trim()
	if err != nil {
		return Curve{}, err
	}
	out := Curve{Kind: c.Kind, Places: c.Places, Pieces: pieces}
	if (dropped || !c.Convex()) && d < 0 && !out.clears(c, -d) {
		return Curve{}, ErrClosed
	}
	return out, nil
}

// VanishingMM are the inward distances, in order, at which the curve's own pieces
// shrink to nothing: arcs that join smoothly, and straight sides between straight
// sides. What is left after the first of them may lose other pieces sooner.
func (c Curve) VanishingMM() []float64 {
	var list []float64
	n := len(c.Pieces)
	for i, p := range c.Pieces {
		before, after := c.Turning(i).Radians(), c.Turning((i+1)%n).Radians()
		switch {
		case p.Kind == Arc && before == 0 && after == 0:
			list = append(list, p.Radius)
		case p.Kind == Straight && c.Pieces[(i+n-1)%n].Kind == Straight && c.Pieces[(i+1)%n].Kind == Straight:
			if closing := math.Tan(before/2) + math.Tan(after/2); closing > 0 {
				list = append(list, p.LengthMM()/closing)
			}
		}
	}
	slices.Sort(list)
	return slices.CompactFunc(list, func(a, b float64) bool { return b-a < 1e-9*b })
}

// clears reports whether the section lies inside the outline and nowhere
// nearer to it than d: the test that what was dropped said nothing.
func (c Curve) clears(outline Curve, d float64) bool {
	if c.AreaMM2() <= 0 {
		return false
	}
	const slack = 1e-9
	for _, p := range c.Pieces {
		mid := p.A.add(p.B).times(0.5)
		if p.Kind == Arc {
			mid = p.At((p.From + p.To) / 2)
		}
		if outline.distance(p.A) < d-slack || outline.distance(mid) < d-slack {
			return false
		}
	}
	return true
}

// distance of a point from a curve of lines and arcs, mm.
func (c Curve) distance(at Point) float64 {
	best := math.Inf(1)
	for _, p := range c.Pieces {
		best = math.Min(best, p.distance(at))
	}
	return best
}

func (p Piece) distance(at Point) float64 {
	if p.Kind == Arc {
		v := at.sub(p.Centre)
		if p.faces(v) {
			return math.Abs(p.Radius - v.norm())
		}
		return math.Min(at.sub(p.A).norm(), at.sub(p.B).norm())
	}
	u := p.B.sub(p.A)
	s := 0.0
	if l2 := u.dot(u); l2 > 0 {
		s = math.Max(0, math.Min(1, at.sub(p.A).dot(u)/l2))
	}
	return at.sub(p.A.add(u.times(s))).norm()
}

// faces tells whether the direction v from an arc's centre meets the arc.
func (p Piece) faces(v Point) bool {
	a, b := p.A.sub(p.Centre), p.B.sub(p.Centre)
	if p.To-p.From <= math.Pi {
		return a.cross(v) >= 0 && v.cross(b) >= 0
	}
	return p.To-p.From >= 2*math.Pi || !(b.cross(v) > 0 && v.cross(a) > 0)
}

// offsetEllipse is Offset of an oval: sections are always taken from the
// ellipse itself, so that an oval that gained corners and is widened again
// loses them.
//
// With half axes A > B, the parallel curve at -d crosses the long axis away
// from its ends where w = B^2/d, w^2 = A^2 c^2 + B^2 s^2, (c, s) being the
// normal along the long and the short axis.
func (c Curve) offsetEllipse(d float64) (Curve, error) {
	e := c.Pieces[0]
	e.Offset += d
	out := Curve{Kind: c.Kind, Places: c.Places}
	long, short := math.Max(e.SemiX, e.SemiY), math.Min(e.SemiX, e.SemiY)
	inward := -e.Offset
	if inward >= short*(1-1e-12) {
		return Curve{}, ErrClosed
	}
	if inward < short*short/long*(1-1e-12) {
		from := -math.Pi / 2
		if e.SemiX > e.SemiY {
			from = -math.Pi
		}
		out.Pieces = []Piece{elliptic(e.Centre, e.SemiX, e.SemiY, e.Offset, from, from+2*math.Pi, e.Tag)}
		return out, nil
	}
	w := short * short / inward
	along := math.Sqrt((w*w - short*short) / (long*long - short*short))
	half := math.Asin(math.Min(1, along)) // normals within half of the short axis remain
	middle := 0.0
	if e.SemiX > e.SemiY {
		middle = math.Pi / 2
	}
	first := elliptic(e.Centre, e.SemiX, e.SemiY, e.Offset, middle-half, middle+half, e.Tag)
	second := elliptic(e.Centre, e.SemiX, e.SemiY, e.Offset, middle+math.Pi-half, middle+math.Pi+half, e.Tag)
	second.A, second.B = first.B, first.A // the same points but for rounding
	out.Pieces = []Piece{first, second}
	return out, nil
}

// joint says how a carrier meets the one before it.
type joint int

const (
	smooth joint = iota // they share an end by construction
	convex              // they meet turning left
	reflex              // they meet turning right
)

// carrier is a shifted piece on its way to be trimmed.
type carrier struct {
	Piece
	before joint
}

// carriers are what the parallel section of lines and arcs is built of, all round.
type carriers []carrier

// carry shifts every piece and puts tangent lines where a corner opens beside
// an arc. A straight neighbour needs none: it runs on by itself.
func carry(room carriers, c Curve, d float64) carriers {
	n := len(c.Pieces)
	opens := func(turning float64) bool { return turning*d > 0 }
	turning := c.Turning(0).Radians()
	for i, p := range c.Pieces {
		meets, after := smooth, c.Turning((i+1)%n).Radians()
		q := p.shifted(d)
		if turning != 0 {
			meets = convex
			if turning < 0 {
				meets = reflex
			}
			if opens(turning) && p.Kind != Straight {
				room = append(room, carrier{tangentLine(q, true), meets})
				meets = smooth
			}
		}
		room = append(room, carrier{q, meets})
		if opens(after) && p.Kind != Straight {
			room = append(room, carrier{tangentLine(q, false), smooth})
		}
		turning = after
	}
	return room
}

// tangentLine is the line on which an arc runs on beyond its start or end,
// with no length yet.
func tangentLine(p Piece, atStart bool) Piece {
	at, phi := p.B, p.To
	if atStart {
		at, phi = p.A, p.From
	}
	return Piece{Kind: Straight, From: phi, To: phi, A: at, B: at, Tag: p.Tag}
}

// trim finds where carriers meet and drops those that have shrunk to nothing
// until all that are left run forwards.
func (all carriers) trim() (left []Piece, dropped bool, err error) {
	for {
		if len(all) < 2 {
			left, err = all.single()
			return left, dropped, err
		}
		drop, err := all.meet()
		if err != nil {
			return nil, dropped, err
		}
		if drop < 0 {
			left, err = all.result()
			return left, dropped, err
		}
		all, dropped = all.without(drop), true
	}
}

// single handles the one piece that may be left alone: a full circle.
func (all carriers) single() ([]Piece, error) {
	if len(all) == 1 {
		p := all[0].Piece
		if p.Kind == Arc && p.Radius > 0 && p.To-p.From > 2*math.Pi-cornerEps {
			return []Piece{p}, nil
		}
	}
	return nil, ErrClosed
}

// meet sets every carrier's ends; it returns the index of one to drop, or
// -1 if all are well.
func (all carriers) meet() (int, error) {
	n := len(all)
	for i := range all {
		if p := &all[i]; p.Kind == Arc && p.Radius <= 1e-12 {
			return i, nil
		}
	}
	for i := range all {
		prev, next := &all[(i+n-1)%n], &all[i]
		if next.before == smooth {
			continue
		}
		at, redundant, err := meet(prev.Piece, next.Piece, next.before == convex)
		if err != nil {
			return 0, err
		}
		switch redundant {
		case firstRedundant:
			return (i + n - 1) % n, nil
		case secondRedundant:
			return i, nil
		}
		prev.endAt(at)
		next.startAt(at)
	}
	for i := range all {
		if all[i].backwards() {
			return i, nil
		}
	}
	return -1, nil
}

func (p *Piece) endAt(at Point) {
	p.B = at
	if p.Kind == Arc {
		mid := (p.From + p.To) / 2
		p.To = near(angleOf(at.sub(p.Centre)), mid)
	}
}

func (p *Piece) startAt(at Point) {
	p.A = at
	if p.Kind == Arc {
		mid := (p.From + p.To) / 2
		p.From = near(angleOf(at.sub(p.Centre)), mid)
	}
}

// backwards reports whether the piece's ends have passed each other.
func (p Piece) backwards() bool {
	if p.Kind == Arc {
		return p.To < p.From-1e-13
	}
	return p.B.sub(p.A).dot(tangentAt(p.From)) < -1e-13
}

// without drops carrier i, in place; its neighbours now meet.
func (all carriers) without(i int) carriers {
	next := &all[(i+1)%len(all)]
	switch {
	case all[i].before == reflex || next.before == reflex:
		next.before = reflex
	default:
		next.before = convex
	}
	return slices.Delete(all, i, i+1)
}

// result checks that the section closes once and hands the pieces out,
// leaving out tangent lines of no length.
func (all carriers) result() ([]Piece, error) {
	out := make([]Piece, 0, len(all))
	for _, c := range all {
		if c.Kind == Straight && c.B.sub(c.A).norm() < 1e-12 {
			continue
		}
		out = append(out, c.Piece)
	}
	if len(out) < 2 {
		return nil, ErrClosed
	}
	turn := 0.0
	for i, p := range out {
		prev := out[(i+len(out)-1)%len(out)]
		turn += p.To - p.From + Wrapped(p.From-prev.To)
	}
	if math.Abs(turn-2*math.Pi) > 1e-6 {
		return nil, ErrClosed
	}
	return out, nil
}

type redundancy int

const (
	noneRedundant redundancy = iota
	firstRedundant
	secondRedundant
)

// meet finds where the carrier p runs into the carrier q with a left turn
// (convex) or a right turn. Where they do not meet because one lies wholly
// inside the other's bound, that other says nothing and is redundant.
func meet(p, q Piece, left bool) (Point, redundancy, error) {
	candidates, n, inside := intersections(p, q)
	for _, at := range candidates[:n] {
		turn := Wrapped(q.normalNear(at) - p.normalNear(at))
		if (turn > 0) == left && turn != 0 && at.isFinite() {
			return at, noneRedundant, nil
		}
	}
	if !left {
		return Point{}, noneRedundant, ErrClosed
	}
	if inside == noneRedundant {
		return Point{}, noneRedundant, ErrClosed
	}
	return Point{}, inside, nil
}

// normalNear is the carrier's outward normal angle at a point on it.
func (p Piece) normalNear(at Point) float64 {
	if p.Kind == Arc {
		return angleOf(at.sub(p.Centre))
	}
	return p.From
}

// intersections are the n points in which the carriers' full lines and circles
// meet, and which of the two is redundant where they do not cross but one bounds
// inside the other.
func intersections(p, q Piece) (at [2]Point, n int, inside redundancy) {
	switch {
	case p.Kind == Straight && q.Kind == Straight:
		return crossLines(p, q)
	case p.Kind == Straight:
		return crossLineCircle(p, q, firstRedundant)
	case q.Kind == Straight:
		return crossLineCircle(q, p, secondRedundant)
	}
	return crossCircles(p, q)
}

func crossLines(p, q Piece) (at [2]Point, n int, inside redundancy) {
	u, v := tangentAt(p.From), tangentAt(q.From)
	det := u.cross(v)
	if math.Abs(det) < 1e-12 {
		// Parallel and facing the same way: the outer one is redundant.
		if u.dot(v) < 0 {
			return at, 0, noneRedundant
		}
		if q.A.sub(p.A).dot(normalAt(p.From)) < 0 {
			return at, 0, firstRedundant
		}
		return at, 0, secondRedundant
	}
	s := q.A.sub(p.A).cross(v) / det
	return [2]Point{p.A.add(u.times(s))}, 1, noneRedundant
}

func crossLineCircle(l, c Piece, lineIs redundancy) (at [2]Point, n int, inside redundancy) {
	u := tangentAt(l.From)
	normal := Point{u.Y, -u.X}
	h := l.A.sub(c.Centre).dot(normal) // distance of the line from the centre, outward positive
	if math.Abs(h) >= c.Radius {
		if h > 0 {
			return at, 0, lineIs // the circle lies wholly behind the line
		}
		return at, 0, noneRedundant
	}
	half := math.Sqrt(c.Radius*c.Radius - h*h)
	foot := c.Centre.add(normal.times(h))
	return [2]Point{foot.sub(u.times(half)), foot.add(u.times(half))}, 2, noneRedundant
}

func crossCircles(p, q Piece) (at [2]Point, n int, inside redundancy) {
	v := q.Centre.sub(p.Centre)
	dist := v.norm()
	if dist < 1e-12 || dist <= math.Abs(p.Radius-q.Radius) {
		if p.Radius > q.Radius {
			return at, 0, firstRedundant
		}
		return at, 0, secondRedundant
	}
	if dist >= p.Radius+q.Radius {
		return at, 0, noneRedundant
	}
	along := (dist*dist + p.Radius*p.Radius - q.Radius*q.Radius) / (2 * dist)
	half := math.Sqrt(math.Max(0, p.Radius*p.Radius-along*along))
	u := v.times(1 / dist)
	foot := p.Centre.add(u.times(along))
	side := Point{-u.Y, u.X}.times(half)
	return [2]Point{foot.add(side), foot.sub(side)}, 2, noneRedundant
}
