package development

import (
	"errors"
	"math"

	"guildhand/calc/outline"
)

// angleEps is when two normal angles count as the same, radians.
const angleEps = 1e-9

// Error is a wall that can't be laid flat; its text is a sentence for the
// maker, without a full stop.
type Error struct{ Problem string }

func (e *Error) Error() string { return e.Problem }

// errUnlike is returned for sections that have no common walk.
var errUnlike = &Error{"rim and base can't be joined: a heart's base must be a heart too"}

// elementKind is what an element of a section does as phi rises.
type elementKind int

const (
	point elementKind = iota // a corner: one place over a range of angles
	curve                    // an arc: place moves with the angle
	line                     // an edge: place moves at one angle
)

// element is a part of a section, in the order of rising normal angle.
type element struct {
	kind     elementKind
	piece    outline.Piece
	at       outline.Point // of a point
	from, to float64       // normal angles; equal on a line
	// a and b are the part of a line that belongs to the element.
	a, b outline.Point
	// shift is from minus the piece's own From.
	shift float64
	// tags of the pieces on both sides, of a point.
	before, after int
}

// place is the element's point at phi.
func (e *element) place(phi float64) outline.Point {
	switch e.kind {
	case curve:
		return e.piece.At(phi - e.shift)
	case point:
		return e.at
	}
	return e.a
}

// start and end are the element's first and last place.
func (e *element) start() outline.Point {
	if e.kind == line {
		return e.a
	}
	return e.place(e.from)
}

func (e *element) end() outline.Point {
	if e.kind == line {
		return e.b
	}
	return e.place(e.to)
}

// eval is the element's point and radius of curvature for the normal (cos, sin).
func (e *element) eval(sin, cos float64) (outline.Point, float64) {
	switch e.kind {
	case curve:
		// shift is a number of full turns.
		return e.piece.Eval(sin, cos)
	case point:
		return e.at, 0
	}
	return e.a, 0
}

// radius of curvature at phi, of the parallel at the distance out.
func (e *element) radius(phi, out float64) float64 {
	switch e.kind {
	case curve:
		return e.piece.RadiusAt(phi-e.shift) + out
	case point:
		return out
	}
	return 0
}

func (e *element) lineLength() float64 {
	return math.Hypot(e.b.X-e.a.X, e.b.Y-e.a.Y)
}

// elements unrolls a section once round, starting at the joint before piece
// first; angles rise from that piece's From on (they fall at a reflex
// corner). Each corner is an element after the piece before it, the corner
// before first being the last element.
func elements(c outline.Curve, first int) []element {
	n := len(c.Pieces)
	out := make([]element, 0, 2*n)
	phi := c.Pieces[first].From
	for i := range n {
		p := c.Pieces[(first+i)%n]
		next := c.Pieces[(first+i+1)%n]
		e := element{kind: curve, piece: p, from: phi, to: phi + p.To - p.From, shift: phi - p.From}
		if p.Kind == outline.Straight {
			e.kind, e.a, e.b = line, p.A, p.B
			e.to = e.from
		}
		out = append(out, e)
		phi = e.to
		if t := c.Turning((first + i + 1) % n).Radians(); t != 0 {
			out = append(out, element{kind: point, at: p.B, from: phi, to: phi + t, before: p.Tag, after: next.Tag})
			phi += t
		}
	}
	return out
}

// span is a stretch of the walk over which both sections are one element
// each. Over a line, from == to.
type span struct {
	rim, base *element
	from, to  float64
	// ridge: a corner faces a corner, and the rulings are one.
	ridge bool
	// edge: at least one of the two is a line, walked at one angle.
	edge bool
}

// merge walks two element lists that start and end at the same angle. It uses
// up the lists.
func merge(rim, base []element) ([]span, error) {
	var out []span
	i, j := 0, 0
	for i < len(rim) && j < len(base) {
		r, b := &rim[i], &base[j]
		switch {
		case r.kind == line && b.kind == line && math.Abs(r.from-b.from) < angleEps:
			out = append(out, span{rim: r, base: b, from: r.from, to: r.from, edge: true})
			i++
			j++
		case r.kind == line:
			out = append(out, span{rim: r, base: still(b.start(), r.from), from: r.from, to: r.from, edge: true})
			i++
		case b.kind == line:
			out = append(out, span{rim: still(r.start(), b.from), base: b, from: b.from, to: b.from, edge: true})
			j++
		default:
			from, to := math.Max(r.from, b.from), math.Min(r.to, b.to)
			if to-from > 1e-13 {
				rr, bb := *r, *b // the lists' own are shortened as we go
				rr.from, rr.to, bb.from, bb.to = from, to, from, to
				out = append(out, span{rim: &rr, base: &bb, from: from, to: to, ridge: r.kind == point && b.kind == point})
			}
			i = advance(rim, i, to)
			j = advance(base, j, to)
		}
	}
	for ; i < len(rim); i++ {
		r := &rim[i]
		if r.kind != line && r.to-r.from > 1e-7 {
			return nil, errUnlike
		}
		if r.kind == line {
			out = append(out, span{rim: r, base: still(base[len(base)-1].end(), r.from), from: r.from, to: r.from, edge: true})
		}
	}
	for ; j < len(base); j++ {
		b := &base[j]
		if b.kind != line && b.to-b.from > 1e-7 {
			return nil, errUnlike
		}
		if b.kind == line {
			out = append(out, span{rim: still(rim[len(rim)-1].end(), b.from), base: b, from: b.from, to: b.from, edge: true})
		}
	}
	return out, nil
}

// advance uses up element i to the angle phi: it is shortened or left behind.
func advance(list []element, i int, phi float64) int {
	if list[i].to-phi < angleEps {
		return i + 1
	}
	list[i].from = phi
	return i
}

// still is a place that waits at the angle phi.
func still(at outline.Point, phi float64) *element {
	return &element{kind: point, at: at, from: phi, to: phi}
}

// walk joins the two sections once round, starting anywhere.
func walk(rim, base outline.Curve) ([]span, error) {
	if rim.Convex() && base.Convex() {
		return walkConvex(rim, base)
	}
	return walkChains(rim, base)
}

// walkConvex starts at an edge of the rim if there is one, so that an edge of
// the base that faces it comes first too.
func walkConvex(rim, base outline.Curve) ([]span, error) {
	first := 0
	for i, p := range rim.Pieces {
		if p.Kind == outline.Straight {
			first = i
			break
		}
	}
	r := elements(rim, first)
	return merge(r, startingAt(elements(base, 0), r[0].from))
}

// startingAt turns a full round of elements so that it starts at the angle
// phi: with the line at phi if there is one, else cutting what lies there.
func startingAt(round []element, phi float64) []element {
	low := round[0].from
	shift := 2 * math.Pi * math.Floor((phi-low+angleEps)/(2*math.Pi))
	for i := range round {
		round[i].move(shift)
	}
	cut := len(round)
	for i, e := range round {
		if e.kind == line && math.Abs(e.from-phi) < angleEps {
			cut = i
			break
		}
		if e.kind != line && e.from <= phi+angleEps && phi < e.to-angleEps {
			cut = i
			break
		}
	}
	if cut == len(round) {
		return round
	}
	out := append(make([]element, 0, len(round)+1), round[cut:]...)
	for _, e := range round[:cut] {
		e.move(2 * math.Pi)
		out = append(out, e)
	}
	if whole := out[0]; whole.kind != line && whole.from < phi-angleEps {
		out[0].from = phi
		whole.to = phi
		whole.move(2 * math.Pi)
		out = append(out, whole)
	}
	return out
}

func (e *element) move(by float64) {
	e.from += by
	e.to += by
	e.shift += by
}

// walkChains walks sections with reflex corners chain by chain, between the
// corners that both have.
func walkChains(rim, base outline.Curve) ([]span, error) {
	rs, bs := chains(rim, base), chains(base, rim)
	if len(rs) == 0 || len(rs) != len(bs) {
		return nil, errUnlike
	}
	var out []span
	var firstFrom float64
	for k := range rs {
		r, b := rs[k], bs[k]
		if r.before != b.before || r.after != b.after {
			return nil, errUnlike
		}
		shift := 2 * math.Pi * math.Round((r.list[0].from-b.list[0].from)/(2*math.Pi))
		for i := range b.list {
			b.list[i].move(shift)
		}
		from := math.Min(r.list[0].from, b.list[0].from)
		to := math.Max(r.list[len(r.list)-1].to, b.list[len(b.list)-1].to)
		if k == 0 {
			firstFrom = from
		} else {
			ridge(out[len(out)-1], from, r, b, &out)
		}
		spans, err := merge(padded(r.list, from, to), padded(b.list, from, to))
		if err != nil {
			return nil, err
		}
		out = append(out, spans...)
	}
	ridge(out[len(out)-1], firstFrom+2*math.Pi, rs[0], bs[0], &out)
	return out, nil
}

// ridge appends the ridge before the chains r and b.
func ridge(last span, to float64, r, b chain, out *[]span) {
	at := func(c chain) *element {
		return &element{kind: point, at: c.list[0].start(), from: last.to, to: to, before: c.before, after: c.after}
	}
	*out = append(*out, span{rim: at(r), base: at(b), from: last.to, to: to, ridge: true})
}

// chain is a stretch of a section between two corners that the other has too.
type chain struct {
	before, after int // tags of the pieces beside the corner at its start
	list          []element
}

// chains splits c at the corners that other has too.
func chains(c, other outline.Curve) []chain {
	type tags struct {
		before, after int
		reflex        bool
	}
	corners := func(c outline.Curve) map[tags]int {
		m := map[tags]int{}
		for i := range c.Pieces {
			if t := c.Turning(i); t != 0 {
				prev := c.Pieces[(i+len(c.Pieces)-1)%len(c.Pieces)]
				m[tags{prev.Tag, c.Pieces[i].Tag, t < 0}] = i
			}
		}
		return m
	}
	theirs := corners(other)
	splits := map[int]tags{}
	first := len(c.Pieces)
	for t, i := range corners(c) {
		if _, ok := theirs[t]; ok {
			splits[i] = t
			first = min(first, i)
		}
	}
	if len(splits) == 0 {
		return nil
	}
	var out []chain
	n := len(c.Pieces)
	list := elements(c, first)
	piece := 0
	for _, e := range list {
		if e.kind == point {
			if _, split := splits[(first+piece)%n]; split {
				continue
			}
		} else {
			if t, split := splits[(first+piece)%n]; split {
				out = append(out, chain{before: t.before, after: t.after})
			}
			piece++
		}
		out[len(out)-1].list = append(out[len(out)-1].list, e)
	}
	// The smallest piece number may differ between the two sections; start
	// both at the corner with the smallest tag.
	least := 0
	for k := range out {
		if out[k].after < out[least].after {
			least = k
		}
	}
	return append(out[least:len(out):len(out)], out[:least]...)
}

// padded lengthens a chain by waiting at its ends, so that it spans from..to.
func padded(list []element, from, to float64) []element {
	first, last := &list[0], &list[len(list)-1]
	if first.from-from > angleEps {
		list = append([]element{{kind: point, at: first.start(), from: from, to: first.from}}, list...)
		last = &list[len(list)-1]
	}
	if to-last.to > angleEps {
		list = append(list, element{kind: point, at: last.end(), from: last.to, to: to})
	}
	return list
}

// opened turns and cuts the walk so that it starts and ends at the seam. The
// ridge is set where the seam runs along one, and is then not in the walk.
func opened(spans []span, seam outline.Place) (out []span, onRidge *span, err error) {
	at, phi := -1, 0.0
	if seam.AtCorner {
		lo, hi := math.Inf(1), math.Inf(-1)
		for i := range spans {
			s := &spans[i]
			if s.rim.kind != point || s.edge || s.rim.after != seam.Tag || (s.rim.before == 0 && s.rim.after == 0) {
				continue
			}
			if s.ridge {
				out = append(out, spans[i+1:]...)
				return append(out, spans[:i]...), s, nil
			}
			lo, hi = math.Min(lo, s.from), math.Max(hi, s.to)
		}
		phi = (lo + hi) / 2
	} else {
		phi = seam.Normal
	}
	for i := range spans {
		s := &spans[i]
		switch {
		case s.edge && !seam.AtCorner:
			if s.rim.kind == line && s.rim.piece.Tag == seam.Tag && math.Abs(math.Remainder(s.from-phi, 2*math.Pi)) < 1e-6 {
				at = i
			}
		case s.edge, s.ridge:
		case s.rim.kind == curve && s.rim.piece.Tag != seam.Tag:
		case s.rim.kind == curve && seam.AtCorner:
		case s.rim.kind == point && !seam.AtCorner:
		default:
			phi = s.from + math.Mod(math.Mod(phi-s.from, 2*math.Pi)+2*math.Pi, 2*math.Pi)
			if phi <= s.to+angleEps {
				at = i
			}
		}
		if at >= 0 {
			break
		}
	}
	if at < 0 {
		return nil, nil, errNoSeam
	}
	left, right := spans[at].split(math.Min(phi, spans[at].to))
	out = append(out, right)
	out = append(out, spans[at+1:]...)
	out = append(out, spans[:at]...)
	return append(out, left), nil, nil
}

// split cuts a span at phi; an edge is cut in its middle.
func (s span) split(phi float64) (left, right span) {
	left, right = s, s
	cut := func(e *element) (l, r *element) {
		a, b := *e, *e
		switch e.kind {
		case line:
			mid := outline.Point{X: (e.a.X + e.b.X) / 2, Y: (e.a.Y + e.b.Y) / 2}
			a.b, b.a = mid, mid
		default:
			a.to, b.from = phi, phi
		}
		return &a, &b
	}
	left.rim, right.rim = cut(s.rim)
	left.base, right.base = cut(s.base)
	if !s.edge {
		left.to, right.from = phi, phi
	}
	return left, right
}

var errNoSeam = errors.New("development: the seam's place is not on the section")
