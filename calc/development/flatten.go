package development

import (
	"math"
	"math/cmplx"

	"guildhand/calc/outline"
)

// station is a ruling: where it lies in space (plan) and in the flat.
type station struct {
	phi       float64
	rim, base outline.Point // plan
	f, g      complex128    // flat rim and base point
	tau       float64       // flat direction of the level tangent
	bearing   float64       // the flat ruling's direction, unwrapped
	tangent   complex128    // the unit vector along tau
	lean      float64       // of the wall along the ruling
}

// strip is the wall between two neighbouring rulings. Flat speeds are with
// respect to the strip's own parameter from 0 to 1; both edges run along the
// level tangent.
type strip struct {
	a, b *station // b is the next strip's a
	// rimSpeed and baseSpeed at a and at b, mm: |dF/du|, along the tangent.
	rimSpeed, baseSpeed [2]float64
	rimMM, baseMM       float64 // edge lengths
	areaMM2             float64
}

// panel is a run of strips between two ridges (or seam edges), laid flat from
// its own first ruling.
type panel struct {
	strips   []strip
	stations []station
	// turn is how far the ruling turns in the flat from first to last.
	turn float64
	// Lean of the tangent plane at both ends, for the dihedral at ridges, and
	// the normal's angle there.
	leanFrom, leanTo float64
	phiFrom, phiTo   float64
}

// flattening lays spans flat. out is the distance of the surface outside the
// sections (the neutral surface outside the inner faces), measured level.
type flattening struct {
	height, out float64
	// finer divides the steps, for tests; 0 counts as 1.
	finer float64
}

// support is the horizontal distance X - Y along the normal, of the plan
// points, and along the tangent.
func support(x, y outline.Point, phi float64) (n, t float64) {
	s, c := math.Sincos(phi)
	return supportAlong(x, y, s, c)
}

// supportAlong is support for the normal (cos, sin).
func supportAlong(x, y outline.Point, sin, cos float64) (n, t float64) {
	dx, dy := x.X-y.X, x.Y-y.Y
	return dx*cos + dy*sin, -dx*sin + dy*cos
}

func (fl flattening) station(p *panel, rim, base outline.Point, phi, tau float64, f complex128) *station {
	s, c := math.Sincos(phi)
	n, t := supportAlong(rim, base, s, c)
	slant := math.Hypot(n, fl.height)
	local, tangent := complex(-t, -slant), cmplx.Rect(1, tau)
	shift := outline.Point{X: fl.out * c, Y: fl.out * s}
	p.stations = append(p.stations, station{
		phi:     phi,
		rim:     outline.Point{X: rim.X + shift.X, Y: rim.Y + shift.Y},
		base:    outline.Point{X: base.X + shift.X, Y: base.Y + shift.Y},
		f:       f,
		g:       f + tangent*local,
		tau:     tau,
		bearing: tau + math.Atan2(-slant, -t),
		tangent: tangent,
		lean:    math.Atan2(n, fl.height),
	})
	return &p.stations[len(p.stations)-1]
}

// panel lays a run of spans flat, its first rim point at the origin and the
// level tangent there along the real axis.
func (fl flattening) panel(spans []span) panel {
	first, last := spans[0], spans[len(spans)-1]
	p := panel{phiFrom: first.from, phiTo: last.to}
	room := 0
	for _, s := range spans {
		room += 2 + int((s.to-s.from)/fl.step(s))
	}
	p.strips, p.stations = make([]strip, 0, room), make([]station, 0, room+1)
	at := fl.station(&p, first.rim.start(), first.base.start(), first.from, 0, 0)
	begin := at.bearing
	p.leanFrom = at.lean
	for _, s := range spans {
		if s.edge {
			at = fl.edge(&p, s, at)
		} else {
			at = fl.turn(&p, s, at)
		}
	}
	p.leanTo = at.lean
	p.turn = at.bearing - begin
	return p
}

// edge lays a plane: a trapezoid, or a triangle where one side is a point.
func (fl flattening) edge(p *panel, s span, a *station) *station {
	l, m := 0.0, 0.0
	if s.rim.kind == line {
		l = s.rim.lineLength()
	}
	if s.base.kind == line {
		m = s.base.lineLength()
	}
	if l == 0 && m == 0 {
		return a
	}
	f := a.f + complex(l, 0)*a.tangent
	b := fl.station(p, s.rim.end(), s.base.end(), s.from, a.tau, f)
	n, _ := support(s.rim.end(), s.base.end(), s.from)
	p.strips = append(p.strips, strip{a: a, b: b,
		rimSpeed: [2]float64{l, l}, baseSpeed: [2]float64{m, m}, rimMM: l, baseMM: m,
		areaMM2: (l + m) / 2 * math.Hypot(n, fl.height)})
	return b
}

// turn lays a curved stretch: tau by integrating sin alpha, the rim by
// integrating its radius along tau, in steps small enough that six Gauss
// points give rounding accuracy and that a cubic through a step's ends keeps
// to 1e-8 mm of the curve.
func (fl flattening) turn(p *panel, s span, a *station) *station {
	widest := fl.step(s)
	// The walk stops at quarter turns, so that marks and extremes fall on
	// stations.
	for from := s.from; s.to-from > 1e-13; {
		to := math.Min(s.to, (math.Floor(from/(math.Pi/2)+1e-9)+1)*math.Pi/2)
		if s.to-to < 1e-9 {
			to = s.to
		}
		steps := int(math.Ceil((to - from) / widest))
		var at [6]complex128 // the nodes' normals within a step
		for j, u := range nodes {
			at[j] = cmplx.Rect(1, u*(to-from)/float64(steps))
		}
		for i := range steps {
			u := from + (to-from)*float64(i)/float64(steps)
			v := from + (to-from)*float64(i+1)/float64(steps)
			a = fl.step1(p, s, u, v, &at, a)
		}
		from = to
	}
	return a
}

// step is the widest step of normal angle on a span: where the lean is the
// same all along, the flat edges are as smooth as the sections; elsewhere the
// lean's change has to be followed too. The steps keep the drawn cubics within
// 1e-7 of the true length and area.
func (fl flattening) step(s span) float64 {
	h := 0.28
	n0, t0 := support(s.rim.place(s.from), s.base.place(s.from), s.from)
	n1, t1 := support(s.rim.place(s.to), s.base.place(s.to), s.to)
	mid := (s.from + s.to) / 2
	nm, tm := support(s.rim.place(mid), s.base.place(mid), mid)
	if math.Abs(n0-n1)+math.Abs(n0-nm) > 1e-9 {
		h = 0.05
		if fl.finer <= 1 {
			// The lean changes with the angle by t over the slant; a slow change bears
			// wider steps, and so do cones below a corner.
			change := max(math.Abs(t0), math.Abs(t1), math.Abs(tm)) / math.Hypot(nm, fl.height)
			slow := 0.4
			if s.rim.kind == point {
				slow = 1.3
			}
			h = min(0.1, h*max(1, math.Sqrt(slow/change)))
		}
	}
	h = math.Min(h, 0.06*math.Hypot(nm, fl.height)/(math.Abs(nm)+1e-12))
	for _, e := range []*element{s.rim, s.base} {
		if e.kind == curve {
			h = math.Min(h, e.piece.Step()/8)
		}
	}
	if fl.finer > 1 {
		h /= fl.finer
	}
	return h
}

func (fl flattening) step1(p *panel, s span, from, to float64, at *[6]complex128, a *station) *station {
	h := to - from
	begin := cmplx.Rect(1, from)
	var sine, rimRadius [6]float64
	st := strip{a: a}
	for j := range nodes {
		normal := begin * at[j]
		sin, cos := imag(normal), real(normal)
		x, rx := s.rim.eval(sin, cos)
		y, ry := s.base.eval(sin, cos)
		n := (x.X-y.X)*cos + (x.Y-y.Y)*sin
		slant := math.Sqrt(n*n + fl.height*fl.height)
		sine[j] = n / slant
		rimRadius[j] = rx + fl.out
		baseRadius := ry + fl.out
		st.rimMM += h * weights[j] * rimRadius[j]
		st.baseMM += h * weights[j] * baseRadius
		st.areaMM2 += h * weights[j] * (rimRadius[j] + baseRadius) / 2 * slant
	}
	tau, f := a.tau, a.f
	for i := range nodes {
		t := a.tau
		for j := range nodes {
			t -= h * upTo[i][j] * sine[j]
		}
		f += cmplx.Rect(h*weights[i]*rimRadius[i], t)
		tau -= h * weights[i] * sine[i]
	}
	b := fl.station(p, s.rim.place(to), s.base.place(to), to, tau, f)
	// Unwrap: a ruling never turns by half a circle within a step.
	b.bearing = a.bearing + math.Remainder(b.bearing-a.bearing, 2*math.Pi)
	st.b = b
	st.rimSpeed = [2]float64{h * s.rim.radius(from, fl.out), h * s.rim.radius(to, fl.out)}
	st.baseSpeed = [2]float64{h * s.base.radius(from, fl.out), h * s.base.radius(to, fl.out)}
	p.strips = append(p.strips, st)
	return b
}

// cubicAt is the strip's line at the fraction u from rim (0) to base (1).
func (s *strip) cubicAt(u float64) Cubic {
	from := s.a.f + complex(u, 0)*(s.a.g-s.a.f)
	to := s.b.f + complex(u, 0)*(s.b.g-s.b.f)
	v0 := s.rimSpeed[0] + u*(s.baseSpeed[0]-s.rimSpeed[0])
	v1 := s.rimSpeed[1] + u*(s.baseSpeed[1]-s.rimSpeed[1])
	return Cubic{toPoint(from), toPoint(from + complex(v0/3, 0)*s.a.tangent), toPoint(to - complex(v1/3, 0)*s.b.tangent), toPoint(to)}
}

func toPoint(z complex128) Point   { return Point{real(z), imag(z)} }
func fromPoint(p Point) complex128 { return complex(p.X, p.Y) }
