package outline

import "math"

// Point is a point of the plan, mm. Length runs along Y, width along X.
type Point struct{ X, Y float64 }

func (p Point) add(q Point) Point     { return Point{p.X + q.X, p.Y + q.Y} }
func (p Point) sub(q Point) Point     { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) times(k float64) Point { return Point{k * p.X, k * p.Y} }
func (p Point) dot(q Point) float64   { return p.X*q.X + p.Y*q.Y }
func (p Point) cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }
func (p Point) norm() float64         { return math.Hypot(p.X, p.Y) }
func normalAt(phi float64) Point      { s, c := math.Sincos(phi); return Point{c, s} }
func tangentAt(phi float64) Point     { s, c := math.Sincos(phi); return Point{-s, c} }
func angleOf(p Point) float64         { return math.Atan2(p.Y, p.X) }
func near(a, target float64) float64  { return target + Wrapped(a-target) }
func (p Point) isFinite() bool        { return isFinite(p.X) && isFinite(p.Y) }
func isFinite(x float64) bool         { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// Wrapped is an angle, radians, as one between -pi and pi. math.Remainder is slow and most angles are
// at most one turn off, of which the difference is exact too.
func Wrapped(a float64) float64 {
	switch {
	case math.Abs(a) < math.Pi:
		return a
	case math.Abs(a) < 3*math.Pi:
		return a - math.Copysign(2*math.Pi, a)
	}
	return math.Remainder(a, 2*math.Pi)
}

// PieceKind is what a piece of an outline is.
type PieceKind int

// Kinds of pieces.
const (
	Straight PieceKind = iota
	Arc                // circular
	Elliptic           // parallel curve of an ellipse's arc
)

// Piece is one smooth piece of an outline, run counter-clockwise, turning
// left throughout (or not at all).
//
// The outward normal's angle is the parameter of the curved kinds: it rises
// from From to To. A Straight piece has From == To.
type Piece struct {
	Kind     PieceKind
	From, To float64 // outward normal angle at the ends, radians
	// A and B are the end points.
	A, B Point
	// Centre of Arc and Elliptic, Radius of Arc, mm.
	Centre Point
	Radius float64
	// SemiX and SemiY are the ellipse's half axes and Offset its outward
	// parallel distance, mm.
	SemiX, SemiY, Offset float64
	// Tag is the number of the piece of the stone outline that this piece
	// comes from; sections keep it.
	Tag int
}

func straight(a, b Point, tag int) Piece {
	d := b.sub(a)
	phi := math.Atan2(-d.X, d.Y) // the tangent turned right by a quarter
	return Piece{Kind: Straight, From: phi, To: phi, A: a, B: b, Tag: tag}
}

func arc(centre Point, radius, from, to float64, tag int) Piece {
	p := Piece{Kind: Arc, From: from, To: to, Centre: centre, Radius: radius, Tag: tag}
	p.A, p.B = p.At(from), p.At(to)
	return p
}

func elliptic(centre Point, semiX, semiY, offset, from, to float64, tag int) Piece {
	p := Piece{Kind: Elliptic, From: from, To: to, Centre: centre, SemiX: semiX, SemiY: semiY, Offset: offset, Tag: tag}
	p.A, p.B = p.At(from), p.At(to)
	return p
}

// At is the point whose outward normal has the angle phi, radians. On a
// Straight piece it is the start.
func (p Piece) At(phi float64) Point {
	s, c := math.Sincos(phi)
	switch p.Kind {
	case Arc:
		return Point{p.Centre.X + p.Radius*c, p.Centre.Y + p.Radius*s}
	case Elliptic:
		w := math.Sqrt(p.SemiX*p.SemiX*c*c + p.SemiY*p.SemiY*s*s)
		return Point{
			p.Centre.X + (p.SemiX*p.SemiX/w+p.Offset)*c,
			p.Centre.Y + (p.SemiY*p.SemiY/w+p.Offset)*s,
		}
	}
	return p.A
}

// RadiusAt is the radius of curvature at the normal angle phi, mm: ds/dphi.
// A Straight piece has none and gives 0, its length being at one angle.
func (p Piece) RadiusAt(phi float64) float64 {
	switch p.Kind {
	case Arc:
		return p.Radius
	case Elliptic:
		s, c := math.Sincos(phi)
		w2 := p.SemiX*p.SemiX*c*c + p.SemiY*p.SemiY*s*s
		ab := p.SemiX * p.SemiY
		return ab*ab/(w2*math.Sqrt(w2)) + p.Offset
	}
	return 0
}

// LengthMM is exact for Straight and Arc, and within 1e-12 of its value for
// Elliptic.
func (p Piece) LengthMM() float64 {
	switch p.Kind {
	case Arc:
		return p.Radius * (p.To - p.From)
	case Elliptic:
		if p.To-p.From > 2*math.Pi-1e-12 {
			return EllipsePerimeterMM(p.SemiX, p.SemiY) + 2*math.Pi*p.Offset
		}
		return p.lengthBetween(p.From, p.To)
	}
	return p.B.sub(p.A).norm()
}

// lengthBetween is the arc length between two normal angles of an Elliptic.
func (p Piece) lengthBetween(from, to float64) float64 {
	return integrate(p.RadiusAt, from, to, p.Step())
}

// Step is a width in normal angle over which the piece's radius of curvature
// is smooth enough for sixteen-point Gauss quadrature to reach 1e-13.
func (p Piece) Step() float64 {
	if p.Kind != Elliptic {
		return math.Pi / 2
	}
	slender := math.Min(p.SemiX, p.SemiY) / math.Max(p.SemiX, p.SemiY)
	return math.Min(math.Pi/4, 1.2*slender)
}

// Eval is At and RadiusAt together, for the outward normal (cos, sin).
func (p Piece) Eval(sin, cos float64) (at Point, radiusMM float64) {
	switch p.Kind {
	case Arc:
		return Point{p.Centre.X + p.Radius*cos, p.Centre.Y + p.Radius*sin}, p.Radius
	case Elliptic:
		xx, yy := p.SemiX*p.SemiX, p.SemiY*p.SemiY
		w2 := xx*cos*cos + yy*sin*sin
		w := math.Sqrt(w2)
		return Point{p.Centre.X + (xx/w+p.Offset)*cos, p.Centre.Y + (yy/w+p.Offset)*sin}, xx*yy/(w2*w) + p.Offset
	}
	return p.A, 0
}

// ReachMM is how far the piece, or for a direction beyond its ends the whole circle or
// ellipse that it is part of, reaches from the origin in the direction (cos, sin).
func (p *Piece) ReachMM(sin, cos float64) float64 {
	switch p.Kind {
	case Arc:
		return p.Centre.X*cos + p.Centre.Y*sin + p.Radius
	case Elliptic:
		x, y := p.SemiX*cos, p.SemiY*sin
		return p.Centre.X*cos + p.Centre.Y*sin + math.Sqrt(x*x+y*y) + p.Offset
	}
	return max(p.A.X*cos+p.A.Y*sin, p.B.X*cos+p.B.Y*sin)
}

// shifted is the piece's parallel at the distance d outward, not yet trimmed
// or extended at its ends. It has no meaning where a radius becomes negative.
func (p Piece) shifted(d float64) Piece {
	switch p.Kind {
	case Arc:
		k := (p.Radius + d) / p.Radius
		p.A, p.B = p.Centre.add(p.A.sub(p.Centre).times(k)), p.Centre.add(p.B.sub(p.Centre).times(k))
		p.Radius += d
		return p
	case Elliptic:
		return elliptic(p.Centre, p.SemiX, p.SemiY, p.Offset+d, p.From, p.To, p.Tag)
	}
	n := normalAt(p.From).times(d)
	p.A, p.B = p.A.add(n), p.B.add(n)
	return p
}

// scaled is the piece enlarged by k about the origin.
func (p Piece) scaled(k float64) Piece {
	p.A, p.B, p.Centre = p.A.times(k), p.B.times(k), p.Centre.times(k)
	p.Radius *= k
	p.SemiX *= k
	p.SemiY *= k
	p.Offset *= k
	return p
}

// areaMoment is half the integral of x dy - y dx over the piece, mm2.
func (p Piece) areaMoment() float64 {
	switch p.Kind {
	case Arc:
		// Half r (C.n + r) integrated over the normal angle.
		d := p.tangentRise()
		return 0.5 * p.Radius * (p.Centre.X*d.X + p.Centre.Y*d.Y + p.Radius*(p.To-p.From))
	case Elliptic:
		if p.To-p.From > 2*math.Pi-1e-12 { // Steiner's formula for parallel curves
			return math.Pi*(p.SemiX*p.SemiY+p.Offset*p.Offset) + EllipsePerimeterMM(p.SemiX, p.SemiY)*p.Offset
		}
		return integrate(func(phi float64) float64 {
			return 0.5 * p.RadiusAt(phi) * p.At(phi).dot(normalAt(phi))
		}, p.From, p.To, p.Step())
	}
	return 0.5 * p.A.cross(p.B)
}

// tangentRise is the integral of the normal over the piece's angles.
func (p Piece) tangentRise() Point {
	sa, ca := math.Sincos(p.From)
	sb, cb := math.Sincos(p.To)
	return Point{sb - sa, ca - cb}
}

// pointAtLength is the point and normal angle at the arc length s from A.
func (p Piece) pointAtLength(s float64) (Point, float64) {
	switch p.Kind {
	case Straight:
		l := p.LengthMM()
		if l == 0 {
			return p.A, p.From
		}
		return p.A.add(p.B.sub(p.A).times(s / l)), p.From
	case Arc:
		phi := p.From + s/p.Radius
		return p.At(phi), phi
	}
	lo, hi := p.From, p.To
	for i := 0; i < 60 && hi-lo > 1e-13; i++ {
		mid := (lo + hi) / 2
		if p.lengthBetween(p.From, mid) < s {
			lo = mid
		} else {
			hi = mid
		}
	}
	phi := (lo + hi) / 2
	return p.At(phi), phi
}
