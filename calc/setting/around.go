package setting

import (
	"math"

	"guildhand/calc/outline"
	"guildhand/calc/seat"
	"guildhand/calc/units"
)

// directions at which whole sections are compared; 720 keeps the error of a
// maximum on our outlines under 1e-3 mm.
const directions = 720

// compass are the directions' sines and cosines.
var compass = func() (c [directions]outline.Point) {
	for i := range c {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / directions)
		c[i] = outline.Point{X: cos, Y: sin}
	}
	return c
}()

// heights are how far a curve reaches towards each direction of the compass.
type heights [directions]float64

// reach fills the heights. On a walk round the curve every direction is met at a
// piece or at a corner.
func (h *heights) reach(c outline.Curve) {
	for i := range h {
		h[i] = math.Inf(-1)
	}
	const step = 2 * math.Pi / directions
	between := func(from, to float64, p *outline.Piece) {
		for k := int(math.Ceil(from/step - 1e-9)); float64(k)*step <= to+1e-9; k++ {
			i := ((k % directions) + directions) % directions
			h[i] = max(h[i], p.ReachMM(compass[i].Y, compass[i].X))
		}
	}
	n := len(c.Pieces)
	for i := range c.Pieces {
		p := &c.Pieces[i]
		if turning := c.Turning(i).Radians(); turning > 0 {
			before := c.Pieces[(i+n-1)%n].To
			between(before, before+turning, &outline.Piece{A: p.A, B: p.A})
		}
		between(p.From, p.To, p)
	}
}

// reaches are how far the inner faces of rim and base reach towards each direction
// of the compass.
type reaches struct{ rim, base heights }

// curvedStep is the step of a look along a curved piece. Across a sharp corner an
// even slope has one ridge and needs few; elsewhere a piece of a cone may lie
// there.
const curvedStep = math.Pi / 60

func (c Collet) cornerSteps(turning float64) int {
	if c.Taper == Even || c.Taper == "" {
		return 8
	}
	return max(8, int(math.Ceil(turning/curvedStep)))
}

// around looks at stone and wall in every direction that matters: along each
// curved piece of the stone, at each flat of stone and wall, and across each sharp
// corner.
func (c Collet) around(made folded, across []cornerLook) []seat.Direction {
	round := make([]seat.Direction, 0, len(across)+len(c.Stone.Pieces)+int(2*math.Pi/curvedStep))
	drawsIn := c.Solid.ReachMM()
	convex := c.Stone.Convex()
	n := len(c.Stone.Pieces)
	for i, p := range c.Stone.Pieces {
		for ; len(across) > 0 && across[0].piece == i; across = across[1:] {
			round = append(round, c.inCorner(across[0], drawsIn))
		}
		if turning := c.Stone.Turning(i).Radians(); turning < 0 {
			if d, ok := c.inCleft(made, p.A, c.Stone.Pieces[(i+n-1)%n].To+turning/2); ok {
				round = append(round, d)
			}
		}
		for _, phi := range c.looks(made, p) {
			h := headingOf(phi)
			f, wallMM, whole, ok := made.facing(p.Tag, h, convex)
			if !ok {
				continue
			}
			at, _ := p.Eval(h.sin, h.cos)
			d := c.direction(f, wallMM, at, h)
			d.Corner = !whole
			if c.Solid.Keel {
				d.DrawsInMM = drawsIn
			}
			round = append(round, d)
		}
	}
	return round
}

// looks are the directions along one piece of the stone.
func (c Collet) looks(made folded, p outline.Piece) []float64 {
	if p.Kind == outline.Straight {
		return []float64{p.From}
	}
	steps := int(math.Ceil((p.To - p.From) / curvedStep))
	list := make([]float64, 0, steps+1)
	for k := range steps + 1 {
		list = append(list, p.From+(p.To-p.From)*float64(k)/float64(steps))
	}
	for _, phi := range made.flats(c.Taper) {
		middle := (p.From + p.To) / 2
		if off := outline.Wrapped(phi - middle); math.Abs(off) < (p.To-p.From)/2 {
			list = append(list, middle+off)
		}
	}
	return list
}

// flats are the normals of the base's flats, where it has an outline of its own:
// towards them the wall stands nearest.
func (w folded) flats(t Taper) []float64 {
	if t != BaseGiven {
		return nil
	}
	var list []float64
	for _, p := range w.base.Pieces {
		if p.Kind == outline.Straight {
			list = append(list, p.From)
		}
	}
	return list
}

// cornerLook is a look in one direction into a sharp corner of the stone: the
// corner's piece and tip, the direction and how far it is from the middle between the
// corner's sides, half the turning between them, and the wall's faces there.
type cornerLook struct {
	piece        int
	tip          outline.Point
	h            heading
	aside, half  float64
	inner, outer face
}

// cornerLooks are the looks across every sharp corner, in the order of the pieces.
func (c Collet) cornerLooks(made folded) []cornerLook {
	room := 0
	for i := range c.Stone.Pieces {
		if turning := c.Stone.Turning(i).Radians(); turning > 0 {
			room += c.cornerSteps(turning) + 2
		}
	}
	list := make([]cornerLook, 0, room)
	flats := made.flats(c.Taper)
	n := len(c.Stone.Pieces)
	for i, p := range c.Stone.Pieces {
		turning := c.Stone.Turning(i).Radians()
		if turning <= 0 {
			continue
		}
		before := c.Stone.Pieces[(i+n-1)%n].To
		look := func(at float64) {
			l := cornerLook{piece: i, tip: p.A, h: headingOf(before + at), aside: at - turning/2, half: turning / 2}
			l.inner, l.outer = made.facesAt(l.h)
			list = append(list, l)
		}
		steps := c.cornerSteps(turning)
		for k := 1; k < steps; k++ {
			look(turning * float64(k) / float64(steps))
		}
		for _, phi := range flats {
			if at := outline.Wrapped(phi - before); at > 0 && at < turning {
				look(at)
			}
		}
	}
	return list
}

// spread is by how much farther the corner between two lines reaches in the look's
// direction than a line does towards its own.
func (l cornerLook) spread() float64 { return math.Cos(l.aside) / math.Cos(l.half) }

// inCorner is the direction of a look into a sharp corner of the stone, whose pavilion
// draws in so far towards its sides.
func (c Collet) inCorner(l cornerLook, drawsInMM float64) seat.Direction {
	d := c.direction(l.inner, l.outer.atMM-l.inner.atMM, l.tip, l.h)
	d.Corner = true
	if c.Solid.Keel {
		d.DrawsInMM = drawsInMM * l.spread()
	}
	return d
}

// CleftDoubtMM is by how much ledge and wall left may be off beside a cleft: the seat
// looks along the stone's own normals there, and the wall's ridge runs aside of them.
const CleftDoubtMM = 0.06

// inCleft is the direction along the middle of a cleft, in which the wall's ridge
// and the stone's stand against each other.
func (c Collet) inCleft(made folded, at outline.Point, phi float64) (seat.Direction, bool) {
	rim, inRim := cleftOf(made.rim)
	base, inBase := cleftOf(made.base)
	if !inRim || !inBase {
		return seat.Direction{}, false
	}
	h := headingOf(phi)
	d := c.direction(made.faceOf(rim, base, h), c.ThicknessMM, at, h)
	d.Corner = true
	return d, true
}

// cleftOf is a section's one reflex corner.
func cleftOf(c outline.Curve) (outline.Point, bool) {
	for i, p := range c.Pieces {
		if c.Turning(i) < 0 {
			return p.A, true
		}
	}
	return outline.Point{}, false
}

// direction is the wall's face against the point of the stone that it faces.
func (c Collet) direction(f face, wallMM float64, at outline.Point, h heading) seat.Direction {
	return seat.Direction{
		Normal: units.Angle(h.phi), FaceMM: f.atMM - h.of(at), Slope: f.slope, WallMM: wallMM,
		DrawsInMM: h.of(at) - h.of(c.Solid.Culet),
	}
}

// inside is the wall's inner face towards a direction, with the fillet of a bend,
// and the wall's thickness there measured level.
func (w folded) inside(h heading) (f face, wallMM float64) {
	inner, outer := w.facesAt(h)
	return inner, outer.atMM - inner.atMM
}

// facing is the wall's inner face that a side of the stone looks at. Of an outline
// with a cleft it is the one that came from the same piece, whole where no cleft
// trims it there; ok is false where nothing is left of it.
func (w folded) facing(tag int, h heading, isConvex bool) (f face, wallMM float64, whole, ok bool) {
	if isConvex {
		f, wallMM = w.inside(h)
		return f, wallMM, true, true
	}
	r, wholeRim, inRim := pieceAt(w.rim, tag, h.phi)
	b, wholeBase, inBase := pieceAt(w.base, tag, h.phi)
	if !inRim || !inBase {
		return face{}, 0, false, false
	}
	f = w.faceOf(r, b, h)
	return f, f.squareMM(w.thicknessMM), wholeRim && wholeBase, true
}

// pieceAt is where a piece of a section reaches farthest in a direction: its end
// where it was trimmed before that. A curve that runs on straight has two pieces.
func pieceAt(c outline.Curve, tag int, phi float64) (at outline.Point, whole, ok bool) {
	nearest := math.Inf(1)
	for _, p := range c.Pieces {
		if p.Tag != tag {
			continue
		}
		middle, half := (p.From+p.To)/2, (p.To-p.From)/2
		off := outline.Wrapped(phi - middle)
		beyond := max(0, math.Abs(off)-half)
		if beyond > nearest || beyond == nearest && p.Kind == outline.Straight {
			continue
		}
		nearest, ok = beyond, true
		switch {
		case off > half:
			at = p.B
		case off < -half:
			at = p.A
		default:
			at = p.At(middle + off)
		}
	}
	return at, nearest < 1e-9, ok
}
