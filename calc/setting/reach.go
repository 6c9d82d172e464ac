package setting

import (
	"math"

	"guildhand/calc/outline"
)

// folded is the wall as the blank folds to it: the developable between its two
// inner sections. Towards any direction it reaches linearly from rim to base.
type folded struct {
	rim, base               outline.Curve
	rimCorners, baseCorners []corner
	// rimZ is the rim section's height, heightMM that between the sections.
	rimZ, heightMM        float64
	thicknessMM, radiusMM float64
	// mitred reports whether the corner before a piece of the stone keeps its
	// outer edge: scored ones do, and a seam's; a bend's outside is round.
	mitred func(tag int) bool
}

// face is a flat or the touch of a curved wall, seen along its level normal: how
// far it reaches at z = 0, and by how much more for each mm up.
type face struct{ normal, atMM, slope float64 }

func (f face) at(z float64) float64 { return f.atMM + z*f.slope }

// squareMM is what mm square to the face are, measured level.
func (f face) squareMM(mm float64) float64 { return mm * math.Sqrt(1+f.slope*f.slope) }

// moved is the face mm farther out, measured level.
func (f face) moved(mm float64) face {
	f.atMM += mm
	return f
}

// heading is a level direction: its angle and its unit vector.
type heading struct{ phi, sin, cos float64 }

func headingOf(phi float64) heading {
	sin, cos := math.Sincos(phi)
	return heading{phi, sin, cos}
}

// of is how far a point reaches in the direction.
func (h heading) of(p outline.Point) float64 { return p.X*h.cos + p.Y*h.sin }

// ofAll is how far a curve reaches in the direction.
func (h heading) ofAll(c outline.Curve) float64 { return c.ReachMM(h.phi, h.sin, h.cos) }

// between is the face that reaches so far in a direction at rim and at base.
func (w folded) between(rimMM, baseMM, phi float64) face {
	slope := (rimMM - baseMM) / w.heightMM
	return face{normal: phi, atMM: rimMM - w.rimZ*slope, slope: slope}
}

func (w folded) faceOf(rim, base outline.Point, h heading) face {
	return w.between(h.of(rim), h.of(base), h.phi)
}

// towards is the face that reaches farthest in a direction.
func (w folded) towards(h heading) face {
	return w.between(h.ofAll(w.rim), h.ofAll(w.base), h.phi)
}

// reach is how far the inner and the outer face of the wall reach in a direction,
// at the height z.
func (w folded) reach(h heading, z float64) (inner, outer float64) {
	in, out := w.facesAt(h)
	return in.at(z), out.at(z)
}

// facesAt are the wall's inner and outer face in a direction. The outside of a bend
// of inside radius r is a cylinder of radius r + t about its axis; a mitred corner is
// where the outer faces meet.
func (w folded) facesAt(h heading) (inner, outer face) {
	ridge, ok := w.ridgeAt(h.phi)
	if !ok {
		inner = w.towards(h)
		return inner, inner.moved(inner.squareMM(w.thicknessMM))
	}
	if ridge.mitred {
		return ridge.along(h, 0), ridge.along(h, w.thicknessMM)
	}
	axis := ridge.along(h, -w.radiusMM)
	return axis.moved(axis.squareMM(w.radiusMM)), axis.moved(axis.squareMM(w.radiusMM + w.thicknessMM))
}

// ridge is where two faces of the wall meet, with the directions of their normals.
type ridge struct {
	a, b               face
	towardsA, towardsB heading
	mitred             bool
}

// meet is where the two faces, moved out by mm square to them, cross at z.
func (r ridge) meet(mm, z float64) outline.Point {
	p, q := r.a.at(z)+r.a.squareMM(mm), r.b.at(z)+r.b.squareMM(mm)
	n, m := r.towardsA, r.towardsB
	det := n.cos*m.sin - n.sin*m.cos
	return outline.Point{X: (p*m.sin - q*n.sin) / det, Y: (n.cos*q - m.cos*p) / det}
}

// along is how far the line in which the two faces cross, moved out by mm square to
// them, reaches in a direction.
func (r ridge) along(h heading, mm float64) face {
	at := h.of(r.meet(mm, 0))
	return face{normal: h.phi, atMM: at, slope: h.of(r.meet(mm, 1)) - at}
}

// ridgeAt finds the ridge that reaches farthest in a direction. ok is false where
// a face does, or a piece of a cone below or above a corner.
func (w folded) ridgeAt(phi float64) (ridge, bool) {
	rim, base, before, after, ok := w.cornersAt(phi)
	if !ok {
		return ridge{}, false
	}
	a, b := headingOf(phi-before), headingOf(phi+after)
	return ridge{a: w.faceOf(rim.at, base.at, a), b: w.faceOf(rim.at, base.at, b), towardsA: a, towardsB: b, mitred: w.mitred(rim.tag)}, true
}

// cornersAt are the corners of rim and base of a ridge, and how far the normals of
// its two faces lie from a direction between them.
func (w folded) cornersAt(phi float64) (rim, base corner, before, after float64, ok bool) {
	rim, ok = cornerTowards(w.rimCorners, phi)
	if !ok {
		return rim, base, 0, 0, false
	}
	base, ok = cornerTowards(w.baseCorners, phi)
	if !ok {
		return rim, base, 0, 0, false
	}
	rimBefore, rimAfter := rim.beside(phi)
	baseBefore, baseAfter := base.beside(phi)
	before, after = min(rimBefore, baseBefore), min(rimAfter, baseAfter)
	return rim, base, before, after, before+after >= 1e-6
}

// corner of a section, convex: where it is, the stone's piece that starts there, the
// normal of the side before it and by how much the normal turns.
type corner struct {
	at            outline.Point
	tag           int
	from, turning float64
}

// beside is how far the normals of a corner's two sides lie from a direction between
// them.
func (c corner) beside(phi float64) (before, after float64) {
	before = outline.Wrapped(phi - c.from)
	return max(0, before), max(0, c.turning-before)
}

func cornersOf(c outline.Curve) []corner {
	var list []corner
	n := len(c.Pieces)
	for i, p := range c.Pieces {
		if turning := c.Turning(i).Radians(); turning > 0 {
			list = append(list, corner{at: p.A, tag: p.Tag, from: c.Pieces[(i+n-1)%n].To, turning: turning})
		}
	}
	return list
}

func cornerTowards(corners []corner, phi float64) (corner, bool) {
	for _, c := range corners {
		if before := outline.Wrapped(phi - c.from); before >= -1e-12 && c.turning-before >= -1e-12 {
			return c, true
		}
	}
	return corner{}, false
}

// sides are the outer face's half-planes by the compass, each with what it bounds at
// z = 0 and by how much more for each mm up: nothing of the metal lies beyond any.
// Between the sides of a mitred corner there is none.
type sides [directions]face

func (w folded) sides(r *reaches, all *sides) {
	const step = 2 * math.Pi / directions
	for i := range all {
		f := w.between(r.rim[i], r.base[i], step*float64(i))
		all[i] = f.moved(f.squareMM(w.thicknessMM))
	}
	for _, c := range w.rimCorners {
		if !w.mitred(c.tag) {
			continue
		}
		for k := int(math.Floor(c.from / step)); float64(k)*step <= c.from+c.turning; k++ {
			if w.betweenMitred(float64(k) * step) {
				all[((k%directions)+directions)%directions].atMM = math.Inf(1)
			}
		}
	}
}

// betweenMitred tells whether a direction lies between the sides of a mitred corner.
func (w folded) betweenMitred(phi float64) bool {
	rim, _, before, after, ok := w.cornersAt(phi)
	return ok && before > 1e-9 && after > 1e-9 && w.mitred(rim.tag)
}

// extent is how far the common part of the half-planes reaches at z towards one of
// their directions: as far as the nearest corner that two of them, a and b from it
// on either side, make round it. That is the least of (u(a) + u(b)) / (cot a + cot b)
// with u = g / sin, which Dinkelbach's method finds in a few rounds (Management
// Science 13, 1967): for a guess of the ratio both ends are sought apart.
func (all *sides) extent(z float64, towards int) float64 {
	const step, widest = 2, directions * 80 / 360
	reach := func(i int) float64 { return all[((towards+i)%directions+directions)%directions].at(z) }
	type end struct{ over, under float64 }
	// least is the end on one side where over - ratio*under is least.
	least := func(side int, ratio float64) (best end) {
		most := math.Inf(1)
		for k := step; k <= widest; k += step {
			e := end{over: reach(side*k) / compass[k].Y, under: compass[k].X / compass[k].Y}
			if v := e.over - ratio*e.under; v < most {
				best, most = e, v
			}
		}
		return best
	}
	most := reach(0)
	for range 20 {
		before, after := least(-1, most), least(1, most)
		under := before.under + after.under
		if under <= 0 { // beyond mitred corners on both sides
			break
		}
		ratio := (before.over + after.over) / under
		if !(ratio < most-1e-12) {
			break
		}
		most = ratio
	}
	return most
}

// sizes are the extents of the inner and the outer face at the height z. Where the
// lean changes round the wall, the faces beside tell what is left of each; beside is
// nil otherwise.
func (w folded) sizes(z float64, beside *sides) (inside, outside outline.Size) {
	var in, out [4]float64
	for i := range in {
		in[i], out[i] = w.reach(headingOf(float64(i)*math.Pi/2), z)
		if beside != nil {
			out[i] = min(out[i], beside.extent(z, i*directions/4))
		}
	}
	return outline.Size{LengthMM: in[1] + in[3], WidthMM: in[0] + in[2]},
		outline.Size{LengthMM: out[1] + out[3], WidthMM: out[0] + out[2]}
}
