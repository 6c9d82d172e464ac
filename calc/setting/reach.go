package setting

import (
	"math"
	"slices"

	"guildhand/calc/outline"
)

// folded is the wall as the blank folds to it: the developable between its two
// inner sections. Towards any direction it reaches linearly from rim to base.
type folded struct {
	rim, base outline.Curve
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
func (f face) squareMM(mm float64) float64 { return mm * math.Hypot(1, f.slope) }

// moved is the face mm farther out, measured level.
func (f face) moved(mm float64) face {
	f.atMM += mm
	return f
}

func (w folded) faceOf(rim, base outline.Point, phi float64) face {
	sin, cos := math.Sincos(phi)
	r, b := rim.X*cos+rim.Y*sin, base.X*cos+base.Y*sin
	slope := (r - b) / w.heightMM
	return face{normal: phi, atMM: r - w.rimZ*slope, slope: slope}
}

// towards is the face that reaches farthest in a direction.
func (w folded) towards(phi float64) face {
	r, b := supportMM(w.rim, phi), supportMM(w.base, phi)
	slope := (r - b) / w.heightMM
	return face{normal: phi, atMM: r - w.rimZ*slope, slope: slope}
}

// reach is how far the inner and the outer face of the wall reach in a direction,
// at the height z.
func (w folded) reach(phi, z float64) (inner, outer float64) {
	in, out := w.facesAt(phi)
	return in.at(z), out.at(z)
}

// facesAt are the wall's inner and outer face in a direction. The outside of a bend
// of inside radius r is a cylinder of radius r + t about its axis; a mitred corner is
// where the outer faces meet.
func (w folded) facesAt(phi float64) (inner, outer face) {
	ridge, ok := w.ridgeAt(phi)
	if !ok {
		inner = w.towards(phi)
		return inner, inner.moved(inner.squareMM(w.thicknessMM))
	}
	if ridge.mitred {
		return ridge.along(phi, 0), ridge.along(phi, w.thicknessMM)
	}
	axis := ridge.along(phi, -w.radiusMM)
	return axis.moved(axis.squareMM(w.radiusMM)), axis.moved(axis.squareMM(w.radiusMM + w.thicknessMM))
}

// ridge is where two faces of the wall meet. towardsA and towardsB are their unit
// normals.
type ridge struct {
	a, b               face
	towardsA, towardsB outline.Point
	mitred             bool
}

// meet is where the two faces, moved out by mm square to them, cross at z.
func (r ridge) meet(mm, z float64) outline.Point {
	p, q := r.a.at(z)+r.a.squareMM(mm), r.b.at(z)+r.b.squareMM(mm)
	n, m := r.towardsA, r.towardsB
	det := n.X*m.Y - n.Y*m.X
	return outline.Point{X: (p*m.Y - q*n.Y) / det, Y: (n.X*q - m.X*p) / det}
}

// along is how far the line in which the two faces cross, moved out by mm square to
// them, reaches in a direction.
func (r ridge) along(phi, mm float64) face {
	sin, cos := math.Sincos(phi)
	p, q := r.meet(mm, 0), r.meet(mm, 1)
	at := p.X*cos + p.Y*sin
	return face{normal: phi, atMM: at, slope: q.X*cos + q.Y*sin - at}
}

// ridgeAt finds the ridge that reaches farthest in a direction. ok is false where
// a face does, or a piece of a cone below or above a corner.
func (w folded) ridgeAt(phi float64) (ridge, bool) {
	r, inRim := cornerTowards(w.rim, phi)
	b, inBase := cornerTowards(w.base, phi)
	if !inRim || !inBase {
		return ridge{}, false
	}
	before, after := min(r.before, b.before), min(r.after, b.after)
	if before+after < 1e-6 {
		return ridge{}, false
	}
	found := ridge{a: w.faceOf(r.at, b.at, phi-before), b: w.faceOf(r.at, b.at, phi+after), mitred: w.mitred(r.tag)}
	found.towardsA.Y, found.towardsA.X = math.Sincos(found.a.normal)
	found.towardsB.Y, found.towardsB.X = math.Sincos(found.b.normal)
	return found, true
}

// corner of a section: where it is, the stone's piece that starts there, and how
// far the normals of its two sides lie from a direction between them.
type corner struct {
	at            outline.Point
	tag           int
	before, after float64
}

func cornerTowards(c outline.Curve, phi float64) (corner, bool) {
	n := len(c.Pieces)
	for i, p := range c.Pieces {
		turning := c.Turning(i).Radians()
		if turning <= 0 {
			continue
		}
		before := outline.Wrapped(phi - c.Pieces[(i+n-1)%n].To)
		if after := turning - before; before >= -1e-12 && after >= -1e-12 {
			return corner{at: p.A, tag: p.Tag, before: max(0, before), after: max(0, after)}, true
		}
	}
	return corner{}, false
}

// sides are the outer face's half-planes by the compass, each with what it bounds at
// z = 0 and by how much more for each mm up: nothing of the metal lies beyond any.
// Between the sides of a mitred corner there is none.
type sides [directions]face

func (w folded) sides(r *reaches) *sides {
	var all sides
	mitred := slices.ContainsFunc(w.rim.Pieces, func(p outline.Piece) bool { return w.mitred(p.Tag) })
	for i := range all {
		phi := 2 * math.Pi * float64(i) / directions
		slope := (r.rim[i] - r.base[i]) / w.heightMM
		f := face{normal: phi, atMM: r.rim[i] - w.rimZ*slope, slope: slope}
		f.atMM += f.squareMM(w.thicknessMM)
		if mitred && w.betweenMitred(phi) {
			f.atMM = math.Inf(1)
		}
		all[i] = f
	}
	return &all
}

// betweenMitred tells whether a direction lies between the sides of a mitred corner.
func (w folded) betweenMitred(phi float64) bool {
	r, ok := w.ridgeAt(phi)
	return ok && r.mitred && math.Abs(outline.Wrapped(r.a.normal-phi)) > 1e-9 && math.Abs(outline.Wrapped(r.b.normal-phi)) > 1e-9
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
		in[i], out[i] = w.reach(float64(i)*math.Pi/2, z)
		if beside != nil {
			out[i] = min(out[i], beside.extent(z, i*directions/4))
		}
	}
	return outline.Size{LengthMM: in[1] + in[3], WidthMM: in[0] + in[2]},
		outline.Size{LengthMM: out[1] + out[3], WidthMM: out[0] + out[2]}
}
