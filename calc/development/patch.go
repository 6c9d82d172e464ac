package development

import (
	"math"
	"math/cmplx"
)

// Vector is a point or direction in space: X and Y of the plan, Z up from the
// level of the upper section's inner face, mm.
type Vector struct{ X, Y, Z float64 }

func (a Vector) plus(b Vector, k float64) Vector {
	return Vector{a.X + k*b.X, a.Y + k*b.Y, a.Z + k*b.Z}
}
func (a Vector) dot(b Vector) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }
func (a Vector) cross(b Vector) Vector {
	return Vector{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}
func (a Vector) unit() Vector {
	l := math.Sqrt(a.dot(a))
	return Vector{a.X / l, a.Y / l, a.Z / l}
}

// Place is a place of the wall: where it lies on the flat blank, where in space,
// and the wall's outward normal there, a unit vector. A fibre of the metal, what
// lies square under one point of the template, runs along Normal.
type Place struct {
	Flat   Point
	Space  Vector
	Normal Vector
}

// Patch is the part of the wall between two rulings. Its places have u from the
// upper section (0) to the lower one (1), and beyond, and v from its first
// ruling (0) to its last (1).
type Patch struct {
	flatRim, flatBase   Cubic
	spaceRim, spaceBase Cubic // plan
	height              float64
	// outMM is Wall.OutMM, by which the surface's points lie lower than the inner
	// face's that they belong to: out tan a.
	outMM          float64
	phiFrom, phiTo float64
	// lo and hi are the part of the patch that the metal has.
	lo, hi float64
	// Bend is set on the strip of a bent corner: its rulings turn about an axis.
	Bend bool
	axis Vector // unit
	// radiusMM is from the axis to the developed surface, turn the angle.
	radiusMM, turn float64
}

// At is a place of the patch.
func (p *Patch) At(u, v float64) Place {
	v = p.lo + v*(p.hi-p.lo)
	if p.Bend {
		return p.bent(u, v)
	}
	rim, base := p.spaceRim.at(v), p.spaceBase.at(v)
	sin, cos := math.Sincos(p.phiFrom + v*(p.phiTo-p.phiFrom))
	run := (rim.X-base.X)*cos + (rim.Y-base.Y)*sin
	return Place{
		Flat:   between(p.flatRim.at(v), p.flatBase.at(v), u),
		Space:  Vector{rim.X + u*(base.X-rim.X), rim.Y + u*(base.Y-rim.Y), -u*p.height - p.outMM*run/p.height},
		Normal: Vector{cos * p.height, sin * p.height, -run}.unit(),
	}
}

func between(a, b Point, u float64) Point { return Point{a.X + u*(b.X-a.X), a.Y + u*(b.Y-a.Y)} }

// bent is a place of a bend: the first ruling turned about the axis (Rodrigues).
func (p *Patch) bent(u, v float64) Place {
	first := Patch{spaceRim: p.spaceRim, spaceBase: p.spaceBase, height: p.height, outMM: p.outMM, phiFrom: p.phiFrom, phiTo: p.phiFrom, hi: 1}
	at := first.At(u, 0)
	about := at.Space.plus(at.Normal, -p.radiusMM)
	sin, cos := math.Sincos(p.turn * v)
	normal := Vector{}.plus(at.Normal, cos).plus(p.axis.cross(at.Normal), sin).plus(p.axis, p.axis.dot(at.Normal)*(1-cos))
	return Place{
		Flat:   between(p.flatRim.at(v), p.flatBase.at(v), u),
		Space:  about.plus(normal, p.radiusMM),
		Normal: normal,
	}
}

// patches are the whole wall from seam to seam: panels, bends, and what the
// seam's ends run on.
func (a *assembly) patches() []Patch {
	var out []Patch
	for i := range a.panels {
		startMM, endMM := a.seamEnd, a.seamEnd
		if i > 0 {
			startMM = a.between[i-1].endMM
		}
		if i < len(a.between) {
			endMM = a.between[i].endMM
		}
		list := a.panels[i].patches(a.fl)
		list = ended(list, endMM, false)
		list = ended(list, startMM, true)
		if i > 0 && a.between[i-1].stripMM > 0 {
			out = append(out, a.bend(&out[len(out)-1], &list[0]))
		}
		out = append(out, list...)
	}
	return out
}

func (p *panel) patches(fl flattening) []Patch {
	out := make([]Patch, 0, len(p.strips)+2)
	for i := range p.strips {
		s := &p.strips[i]
		plan := func(a, b *station, from, to Point, speed [2]float64) Cubic {
			sa, ca := math.Sincos(a.phi)
			sb, cb := math.Sincos(b.phi)
			return Cubic{from, Point{from.X - sa*speed[0]/3, from.Y + ca*speed[0]/3}, Point{to.X + sb*speed[1]/3, to.Y - cb*speed[1]/3}, to}
		}
		out = append(out, Patch{
			flatRim: s.cubicAt(0), flatBase: s.cubicAt(1),
			spaceRim:  plan(s.a, s.b, Point(s.a.rim), Point(s.b.rim), s.rimSpeed),
			spaceBase: plan(s.a, s.b, Point(s.a.base), Point(s.b.base), s.baseSpeed),
			height:    fl.height, outMM: fl.out, phiFrom: s.a.phi, phiTo: s.a.phi + math.Remainder(s.b.phi-s.a.phi, 2*math.Pi), hi: 1,
		})
	}
	return out
}

// ended carries a run of patches on by mm beyond its last ruling, in its tangent
// plane, or cuts so much off it; measured square to the ruling.
func ended(list []Patch, mm float64, atStart bool) []Patch {
	last, v := &list[len(list)-1], 1.0
	if atStart {
		last, v = &list[0], 0
	}
	rim, base := last.At(0, v), last.At(1, v)
	side := 1.0
	if atStart {
		side = -1
	}
	ruling := cmplx.Rect(1, cmplx.Phase(fromPoint(base.Flat)-fromPoint(rim.Flat)))
	// On the flat, seen from outside with the rim up, outward of the last ruling
	// is to its left.
	outward := ruling * complex(0, side)
	beyond := func(p Place) float64 { return real((fromPoint(p.Flat) - fromPoint(rim.Flat)) * cmplx.Conj(outward)) }
	if mm > 0 {
		ext := last.tangentPatch(rim, base, ruling, mm, side)
		if atStart {
			return append([]Patch{ext}, list...)
		}
		return append(list, ext)
	}
	for mm < 0 && len(list) > 1 {
		p := &list[len(list)-1]
		if atStart {
			p = &list[0]
		}
		if beyond(p.At(0.5, 1-v)) <= mm {
			break
		}
		if atStart {
			list = list[1:]
		} else {
			list = list[:len(list)-1]
		}
	}
	if mm < 0 {
		p := &list[len(list)-1]
		if atStart {
			p = &list[0]
		}
		lo, hi := 1-v, v
		for range 60 {
			if mid := (lo + hi) / 2; beyond(p.At(0.5, mid)) <= mm {
				lo = mid
			} else {
				hi = mid
			}
		}
		if atStart {
			p.lo = lo
		} else {
			p.hi = lo
		}
	}
	return list
}

// tangentPatch is a strip of the tangent plane beside a ruling.
func (p *Patch) tangentPatch(rim, base Place, ruling complex128, mm, side float64) Patch {
	phi := p.phiTo
	if side < 0 {
		phi = p.phiFrom
	}
	sin, cos := math.Sincos(phi)
	// The level tangent, in space and on the flat.
	slant := fromPoint(base.Flat) - fromPoint(rim.Flat)
	along := (base.Space.X-rim.Space.X)*-sin + (base.Space.Y-rim.Space.Y)*cos
	down := math.Sqrt(math.Max(0, real(slant*cmplx.Conj(slant))-along*along))
	tangent := slant / complex(along, -down)
	forward := real(tangent * cmplx.Conj(ruling*complex(0, side)))
	step := side * mm / math.Abs(forward)
	t := Patch{height: p.height, outMM: p.outMM, phiFrom: phi, phiTo: phi, hi: 1}
	line := func(from Point, dx, dy float64) Cubic {
		to := Point{from.X + dx, from.Y + dy}
		if side < 0 {
			from, to = to, from
		}
		return straightEdge(from, to).cubic
	}
	flat := tangent * complex(step, 0)
	t.flatRim, t.flatBase = line(rim.Flat, real(flat), imag(flat)), line(base.Flat, real(flat), imag(flat))
	t.spaceRim = line(Point{rim.Space.X, rim.Space.Y}, -sin*step, cos*step)
	t.spaceBase = line(Point{base.Space.X, base.Space.Y}, -sin*step, cos*step)
	return t
}

// bend is the strip between the last ruling of one panel and the first of the
// next. Its fibres fan out from the bend's inside: the wall's inner face at a
// convex corner, the outer one at a reflex corner.
func (a *assembly) bend(before, after *Patch) Patch {
	rim, base, next := before.At(0, 1), before.At(1, 1), after.At(0, 0)
	last := after.At(1, 0)
	b := Patch{Bend: true, height: before.height, outMM: before.outMM, hi: 1}
	b.flatRim, b.flatBase = straightEdge(rim.Flat, next.Flat).cubic, straightEdge(base.Flat, last.Flat).cubic
	at := func(p Vector) Cubic { return straightEdge(Point{p.X, p.Y}, Point{p.X, p.Y}).cubic }
	b.spaceRim, b.spaceBase = at(rim.Space), at(base.Space)
	b.phiFrom = before.phiTo
	b.axis = rim.Space.plus(base.Space, -1).unit()
	b.turn = math.Acos(math.Max(-1, math.Min(1, rim.Normal.dot(next.Normal))))
	if b.axis.dot(rim.Normal.cross(next.Normal)) < 0 {
		b.turn = -b.turn
	}
	inside := a.wall.OutMM / math.Hypot(rim.Normal.X, rim.Normal.Y)
	b.radiusMM = a.wall.InsideRadiusMM + inside
	if b.turn < 0 {
		b.radiusMM = -(a.wall.InsideRadiusMM + a.wall.ThicknessMM - inside)
	}
	return b
}

func (p *Patch) move(dx, dy float64) {
	for _, c := range []*Cubic{&p.flatRim, &p.flatBase} {
		for _, q := range []*Point{&c.P0, &c.P1, &c.P2, &c.P3} {
			q.X += dx
			q.Y += dy
		}
	}
}
