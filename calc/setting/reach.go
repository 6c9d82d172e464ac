package setting

import (
	"math"

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
// at the height z. The outside of a bend of inside radius r is a cylinder of
// radius r + t about its axis; a mitred corner is where the outer faces meet.
func (w folded) reach(phi, z float64) (inner, outer float64) {
	ridge, ok := w.ridgeAt(phi)
	if !ok {
		f := w.towards(phi)
		return f.at(z), f.at(z) + f.squareMM(w.thicknessMM)
	}
	sin, cos := math.Sincos(phi)
	along := func(p outline.Point) float64 { return p.X*cos + p.Y*sin }
	if ridge.mitred {
		return along(ridge.meet(0, z)), along(ridge.meet(w.thicknessMM, z))
	}
	r := w.radiusMM
	axis := face{normal: phi, atMM: along(ridge.meet(-r, 0)), slope: along(ridge.meet(-r, 1)) - along(ridge.meet(-r, 0))}
	return axis.at(z) + axis.squareMM(r), axis.at(z) + axis.squareMM(r+w.thicknessMM)
}

// ridge is where two faces of the wall meet.
type ridge struct {
	a, b   face
	mitred bool
}

// meet is where the two faces, moved out by mm square to them, cross at z.
func (r ridge) meet(mm, z float64) outline.Point {
	p, q := r.a.at(z)+r.a.squareMM(mm), r.b.at(z)+r.b.squareMM(mm)
	sa, ca := math.Sincos(r.a.normal)
	sb, cb := math.Sincos(r.b.normal)
	det := ca*sb - sa*cb
	return outline.Point{X: (p*sb - q*sa) / det, Y: (ca*q - cb*p) / det}
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
	return ridge{
		a: w.faceOf(r.at, b.at, phi-before), b: w.faceOf(r.at, b.at, phi+after),
		mitred: w.mitred(r.tag),
	}, true
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
		before := math.Remainder(phi-c.Pieces[(i+n-1)%n].To, 2*math.Pi)
		if after := turning - before; before >= -1e-12 && after >= -1e-12 {
			return corner{at: p.A, tag: p.Tag, before: max(0, before), after: max(0, after)}, true
		}
	}
	return corner{}, false
}

// bounds are the outer face's half-planes at z, by the compass: nothing of the metal
// lies beyond any. Between the sides of a mitred corner there is none.
func (w folded) bounds(z float64) (g [directions]float64) {
	rim, base := supports(w.rim), supports(w.base)
	for i := range g {
		slope := (rim[i] - base[i]) / w.heightMM
		g[i] = rim[i] + (z-w.rimZ)*slope + w.thicknessMM*math.Hypot(1, slope)
		if r, ok := w.ridgeAt(2 * math.Pi * float64(i) / directions); ok && r.mitred &&
			math.Abs(math.Remainder(r.a.normal-2*math.Pi*float64(i)/directions, 2*math.Pi)) > 1e-9 &&
			math.Abs(math.Remainder(r.b.normal-2*math.Pi*float64(i)/directions, 2*math.Pi)) > 1e-9 {
			g[i] = math.Inf(1)
		}
	}
	return g
}

// extent is how far the common part of the half-planes reaches towards one of their
// directions: as far as the nearest corner that two of them make round it.
func extent(g *[directions]float64, towards int) float64 {
	const step, widest = 2, directions * 80 / 360
	most := g[towards]
	for a := 0; a <= widest; a += step {
		before := g[(towards-a+directions)%directions]
		for b := step; b <= widest; b += step {
			after := g[(towards+b)%directions]
			if math.IsInf(before, 1) || math.IsInf(after, 1) {
				continue
			}
			// sin a, sin b and sin (a + b) from the compass
			most = min(most, (before*compass[b].Y+after*compass[a].Y)/compass[a+b].Y)
		}
	}
	return most
}

// sizes are the extents of the inner and the outer face at the height z. Where the
// lean changes round the wall, closest tells what the faces beside leave of each.
func (w folded) sizes(z float64, closest bool) (inside, outside outline.Size) {
	var in, out [4]float64
	for i := range in {
		in[i], out[i] = w.reach(float64(i)*math.Pi/2, z)
	}
	if closest {
		bounds := w.bounds(z)
		for i := range out {
			out[i] = min(out[i], extent(&bounds, i*directions/4))
		}
	}
	return outline.Size{LengthMM: in[1] + in[3], WidthMM: in[0] + in[2]},
		outline.Size{LengthMM: out[1] + out[3], WidthMM: out[0] + out[2]}
}
