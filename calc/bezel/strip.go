package bezel

import (
	"math"

	"guildhand/calc/outline"
	"guildhand/calc/units"
)

// stretch is a piece of the inner face, or a part of one, on the strip.
type stretch struct {
	// from is the length along the inner face from the seam, at the strip's
	// length strip; phi is the normal's angle there.
	from, strip, phi float64
	length, turn     float64
}

// strip lays the wall out along its length, from the seam.
func (b *Bezel) strip(seam outline.Place) {
	face, t := b.Inner, b.ThicknessMM
	bend := b.NeutralFactor * t
	start, ok := face.LengthTo(seam)
	if !ok {
		start = 0
	}
	first, into := pieceAt(face, start)
	_, phi := face.AtLength(start)
	end := 0.0 // what each end runs on to the outer mitre, at a corner
	if into == 0 {
		turn := face.Turning(first).Radians()
		b.Bevel, b.BevelReflex = units.Angle(math.Abs(turn)/2), turn < 0
		if turn > 0 {
			end = t * math.Tan(turn/2)
		}
		phi = face.Pieces[first].From
	}
	var run []stretch
	from, at := 0.0, end
	add := func(length, phi, turn float64) {
		run = append(run, stretch{from, at, phi, length, turn})
		from += length
		at += length + turn*bend
	}
	n := len(face.Pieces)
	p := face.Pieces[first]
	add(p.LengthMM()-into, phi, p.To-phi)
	for i := 1; i < n; i++ {
		k := (first + i) % n
		at = b.corner(at, face.Turning(k).Radians())
		p := face.Pieces[k]
		add(p.LengthMM(), p.From, p.To-p.From)
	}
	if into > 0 {
		at = b.corner(at, face.Turning(first).Radians())
		add(into, p.From, phi-p.From)
	}
	b.LengthMM = at + end
	b.run, b.startMM = run, start
	b.quarters(face, start, run)
}

// corner adds a corner's fold to the strip that has come to at, and gives how
// far it comes behind it.
func (b *Bezel) corner(at, turn float64) float64 {
	if turn == 0 {
		return at
	}
	theta, t := math.Abs(turn), b.ThicknessMM
	mitre := 2 * t * math.Tan(theta/2) // between the inner and the outer ridge, both sides
	var width float64
	switch {
	case b.Corners == Mitred && turn > 0:
		width = mitre
	case b.Corners == Mitred:
		width = 0
	case turn > 0:
		width = theta * b.CornerFactor * t
	default:
		width = theta*b.CornerFactor*t - mitre
	}
	b.Folds = append(b.Folds, at+width/2)
	b.FoldTurns = append(b.FoldTurns, units.Angle(turn))
	return at + width
}

// quarters marks where the stone's ends and sides lie: where the normal points
// along an axis, and in the middle of a straight side that faces one.
func (b *Bezel) quarters(face outline.Curve, start float64, run []stretch) {
	bend := b.NeutralFactor * b.ThicknessMM
	perimeter := face.PerimeterMM()
	for _, p := range face.Pieces {
		for q := math.Ceil(p.From/(math.Pi/2) - 1e-9); q*math.Pi/2 <= p.To+1e-9; q++ {
			s, ok := face.LengthTo(outline.Place{Tag: p.Tag, Normal: q * math.Pi / 2})
			if !ok {
				continue
			}
			s = math.Mod(s-start+2*perimeter, perimeter)
			for _, r := range run {
				if s < r.from-1e-9 || s > r.from+r.length+1e-9 {
					continue
				}
				turned := 0.0
				if r.turn > 0 {
					turned = math.Mod(q*math.Pi/2-r.phi+6*math.Pi, 2*math.Pi)
					if turned > r.turn {
						turned = 0
					}
				}
				b.Quarters = append(b.Quarters, r.strip+s-r.from+turned*bend)
				break
			}
		}
	}
}

// pieceAt is the piece at an arc length, and the length into it; 0 at its
// start.
func pieceAt(c outline.Curve, s float64) (piece int, into float64) {
	for i, p := range c.Pieces {
		l := p.LengthMM()
		if s < l-1e-9 {
			if s < 1e-9 {
				s = 0
			}
			return i, s
		}
		s -= l
	}
	return 0, 0
}

// OnStrip is where on the strip, as it closes, the place of the inner face lies
// that is nearest to a point; within a two-thousandth of the way round.
func (b Bezel) OnStrip(p outline.Point) float64 {
	const steps = 1000
	perimeter := b.Inner.PerimeterMM()
	best, at, normal := math.Inf(1), 0.0, 0.0
	for i := range steps {
		s := perimeter * float64(i) / steps
		q, phi := b.Inner.AtLength(s)
		if d := math.Hypot(q.X-p.X, q.Y-p.Y); d < best {
			best, at, normal = d, s, phi
		}
	}
	s := math.Mod(at-b.startMM+2*perimeter, perimeter)
	for _, r := range b.run {
		if s > r.from+r.length+1e-9 {
			continue
		}
		turned := 0.0
		if r.turn > 0 {
			turned = math.Min(r.turn, math.Mod(normal-r.phi+6*math.Pi, 2*math.Pi))
		}
		return r.strip + s - r.from + turned*b.NeutralFactor*b.ThicknessMM
	}
	return b.LengthMM
}
