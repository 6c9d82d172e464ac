// Package saddle cuts the base of a setting so that it sits on a ring's shank:
// the curve in which the wall meets the shank, on the flat blank.
//
// The finger's axis lies along x here, the shank runs round it, and z is up from
// its crest, the highest line of its top. The setting stands upright on the
// crest with its axis on z. A flat shank's top is a cylinder, a rounded one's a
// torus with the section's own curve. Past the shank's edges the cut runs on
// along the cylinder that they lie on; that part of the base rests on nothing.
//
// Where a ruling of the wall meets the shank is found to 1e-11 mm, so the curve
// is exact in space; the blank carries it by the wall's own development (package
// development).
package saddle

import (
	"fmt"
	"math"

	"guildhand/calc/development"
	"guildhand/calc/ring"
)

// Shank is the ring that the setting sits on.
type Shank struct {
	InnerDiameterMM float64
	// ThicknessMM at the crest, WidthMM along the finger.
	ThicknessMM, WidthMM float64
	Profile              ring.Profile
}

// CrestMM is the radius of the crest.
func (s Shank) CrestMM() float64 { return s.InnerDiameterMM/2 + s.ThicknessMM }

// RadiusMM is the outer radius at x along the finger from the shank's middle. Past
// the edges it is that of the edges.
func (s Shank) RadiusMM(x float64) float64 {
	inner, half := s.InnerDiameterMM/2, s.WidthMM/2
	share := math.Sqrt(math.Max(0, 1-x*x/(half*half)))
	switch s.Profile {
	case ring.HalfRound:
		return inner + s.ThicknessMM*share
	case ring.Court, ring.RoundWire:
		return inner + s.ThicknessMM/2*(1+share)
	}
	return s.CrestMM()
}

// TopMM is the height of the shank's top over the point x, y, from the crest; ok is
// false beside the shank.
func (s Shank) TopMM(x, y float64) (z float64, ok bool) {
	r := s.RadiusMM(x)
	if math.Abs(y) >= r {
		return 0, false
	}
	return math.Sqrt(r*r-y*y) - s.CrestMM(), true
}

// SteepestDegrees is how steep the wall's base may run down the shank's side:
// beyond it the cut ends in a feather edge and the setting grips nothing. Common
// practice, no source.
const SteepestDegrees = 65

// Error is a base that can't sit on its shank; its text is one sentence without a
// full stop.
type Error struct {
	Problem string
	// LeastInnerMM is the smallest inner diameter on which it would sit, 0 if none
	// is known.
	LeastInnerMM float64
}

func (e *Error) Error() string { return e.Problem }

// Wall is a setting's wall, laid flat with its patches.
type Wall struct {
	Flat development.Flat
	// TopMM is the level of the wall's upper section (its inner face) above the
	// shank's crest.
	TopMM float64
	// RimMM is the finished rim above the crest.
	RimMM float64
	// InnerMM and OuterMM are how far the metal reaches inward and outward of the
	// surface that was laid flat, square to the wall.
	InnerMM, OuterMM float64
	// AlongBand lays the setting's length, y of the plan, along the band; else it
	// lies along the finger.
	AlongBand bool
	// KerfMM is what saw and file take between two opposite edges.
	KerfMM float64
	// RimU is where the blank's rim edge lies on the rulings: 0, or less where the
	// blank runs on above the upper section.
	RimU float64
}

// Point is a point of the saddle's curve.
type Point struct {
	// Flat is its place on the blank, Cut that of the edge to cut below it, from
	// which the metal is filed to the shank.
	Flat, Cut development.Point
	// Space is its place over the shank: along the finger, along the band, up from
	// the crest.
	Space development.Vector
	// HeightMM is the wall from the finished rim down to it.
	HeightMM float64
	// Free is set past the shank's edges.
	Free bool
	// SlantMM is the blank from its rim down to Cut, along the ruling.
	SlantMM float64
	// Inner and Outer are where the two skins of the metal meet the shank, and
	// RimInner and RimOuter their finished rim over the same place.
	Inner, Outer, RimInner, RimOuter development.Vector
}

// Saddle is a finished computation.
type Saddle struct {
	Shank  Shank
	Points []Point
	// LowMM and HighMM are the lowest and the highest finished wall, measured at
	// the surface that was laid flat.
	LowMM, HighMM float64
	// CutDepthMM is how deep the base is hollowed: HighMM - LowMM.
	CutDepthMM float64
	// FilingMM is the most that the cut edge leaves to file, along the wall.
	FilingMM float64
	// FreeShare is the share of the base, along the curve, that rests on nothing.
	FreeShare float64
	// SlantMM is the longest way on the blank from its rim down to the cut edge.
	SlantMM float64
	// CutLengthMM is the cut edge from seam to seam.
	CutLengthMM float64
	// SteepestDegrees is how steeply the shank falls away under the base at worst.
	SteepestDegrees float64
}

// On cuts the wall's base to the shank. The error is an *Error.
func On(w Wall, s Shank) (Saddle, error) {
	out := Saddle{Shank: s, LowMM: math.Inf(1)}
	for i := range w.Flat.Patches {
		if err := w.trace(s, &w.Flat.Patches[i], &out); err != nil {
			return Saddle{}, err
		}
	}
	if len(out.Points) == 0 {
		return Saddle{}, &Error{Problem: "the wall has no base to cut"}
	}
	out.measure(s)
	if out.SteepestDegrees > SteepestDegrees {
		return Saddle{}, w.misses(s)
	}
	return out, nil
}

// turned is a place of the wall over the shank.
func (w Wall) turned(v development.Vector) development.Vector {
	v.Z += w.TopMM
	if !w.AlongBand {
		v.X, v.Y = v.Y, -v.X
	}
	return v
}

// fibre is the point of a place's fibre, so far outward.
func (w Wall) fibre(at development.Place, outMM float64) development.Vector {
	p, n := at.Space, at.Normal
	return w.turned(development.Vector{X: p.X + outMM*n.X, Y: p.Y + outMM*n.Y, Z: p.Z + outMM*n.Z})
}

// meet is u where a patch's ruling v, so far outward of the laid surface, meets the
// shank.
func (w Wall) meet(s Shank, p *development.Patch, v, outMM float64) (u float64, err error) {
	// Over the shank's top; a point beside the shank counts as over it, and is
	// found out in the end.
	over := func(u float64) float64 {
		at := w.fibre(p.At(u, v), outMM)
		z, ok := s.TopMM(at.X, at.Y)
		if !ok {
			return math.Inf(1)
		}
		return at.Z - z
	}
	lo, hi := 0.0, 1.0
	fLo, fHi := over(lo), over(hi)
	for range 12 {
		if fHi <= 0 {
			break
		}
		lo, fLo = hi, fHi
		hi += 0.5
		fHi = over(hi)
	}
	if fLo < 0 || fHi > 0 {
		return 0, w.misses(s)
	}
	// Secants that keep the root between them (Illinois), halving where one end
	// lies beside the shank.
	for side := 0; hi-lo > 1e-14; {
		mid := (lo + hi) / 2
		if !math.IsInf(fLo, 0) && fLo > fHi {
			mid = lo + (hi-lo)*fLo/(fLo-fHi)
		}
		if mid <= lo || mid >= hi {
			break
		}
		f := over(mid)
		if math.Abs(f) < 1e-12 {
			return mid, nil
		}
		if f > 0 {
			lo, fLo = mid, f
			if side > 0 {
				fHi /= 2
			}
			side = 1
		} else {
			hi, fHi = mid, f
			if side < 0 {
				fLo /= 2
			}
			side = -1
		}
	}
	u = (lo + hi) / 2
	if math.Abs(over(u)) > 1e-6 {
		return 0, w.misses(s)
	}
	return u, nil
}

// chordMM is how far the drawn curve may stand off the true one.
const chordMM = 0.0005

// pieceMM is the longest piece of a patch that is taken for a gentle curve.
const pieceMM = 1.0

// trace draws the curve over one patch, finer where it bends more.
func (w Wall) trace(s Shank, p *development.Patch, out *Saddle) error {
	a, err := w.point(s, p, 0)
	if err != nil {
		return err
	}
	pieces := 1 + int(math.Max(apart(p.At(0, 0).Flat, p.At(0, 1).Flat), apart(p.At(1, 0).Flat, p.At(1, 1).Flat))/pieceMM)
	if len(out.Points) == 0 || apart(a.Flat, out.Points[len(out.Points)-1].Flat) > 1e-9 {
		out.Points = append(out.Points, a)
	}
	for i := range pieces {
		b, err := w.point(s, p, float64(i+1)/float64(pieces))
		if err != nil {
			return err
		}
		if err := w.between(s, p, float64(i)/float64(pieces), float64(i+1)/float64(pieces), a, b, 0, out); err != nil {
			return err
		}
		a = b
	}
	return nil
}

// between adds the curve from a, which is there already, to b.
func (w Wall) between(s Shank, p *development.Patch, from, to float64, a, b Point, depth int, out *Saddle) error {
	mid := (from + to) / 2
	m, err := w.point(s, p, mid)
	if err != nil {
		return err
	}
	off := math.Max(offChord(a.Flat, m.Flat, b.Flat), offChord(a.Cut, m.Cut, b.Cut))
	if depth < 22 && (off > chordMM || a.Free != b.Free && apart(a.Flat, b.Flat) > 1e-4) {
		if err := w.between(s, p, from, mid, a, m, depth+1, out); err != nil {
			return err
		}
		return w.between(s, p, mid, to, m, b, depth+1, out)
	}
	if apart(a.Flat, b.Flat) > 1e-9 {
		out.Points = append(out.Points, b)
	}
	return nil
}

func apart(a, b development.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// offChord is how far m stands off the line from a to b.
func offChord(a, m, b development.Point) float64 {
	l := apart(a, b)
	if l < 1e-12 {
		return apart(a, m)
	}
	return math.Abs((b.X-a.X)*(m.Y-a.Y)-(b.Y-a.Y)*(m.X-a.X)) / l
}

// point is the curve's point on a ruling, and the edge to cut under it: as low as
// the inner skin, the outer skin and the surface between them need it, so that
// filing to the shank takes metal away everywhere.
func (w Wall) point(s Shank, p *development.Patch, v float64) (Point, error) {
	u, err := w.meet(s, p, v, 0)
	if err != nil {
		return Point{}, err
	}
	at := p.At(u, v)
	space := w.turned(at.Space)
	q := Point{Flat: at.Flat, Space: space, HeightMM: w.RimMM - space.Z, Free: math.Abs(space.X) > s.WidthMM/2+1e-9}
	lowest := u
	skin := func(outMM float64) (foot, rim development.Vector, err error) {
		at := u
		if outMM != 0 {
			if at, err = w.meet(s, p, v, outMM); err != nil {
				return foot, rim, err
			}
		}
		lowest = math.Max(lowest, at)
		foot, rim = w.fibre(p.At(at, v), outMM), w.fibre(p.At(w.RimU, v), outMM)
		share := (w.RimMM - foot.Z) / (rim.Z - foot.Z)
		rim = development.Vector{X: foot.X + share*(rim.X-foot.X), Y: foot.Y + share*(rim.Y-foot.Y), Z: w.RimMM}
		return foot, rim, nil
	}
	if q.Inner, q.RimInner, err = skin(-w.InnerMM); err != nil {
		return Point{}, err
	}
	if q.Outer, q.RimOuter, err = skin(w.OuterMM); err != nil {
		return Point{}, err
	}
	top, foot := p.At(0, v).Flat, p.At(1, v).Flat
	lowest += w.KerfMM / 2 / math.Max(apart(top, foot), 1e-9)
	q.Cut = p.At(lowest, v).Flat
	q.SlantMM = apart(p.At(w.RimU, v).Flat, q.Cut)
	return q, nil
}

// measure finds the heights, the free part and the steepest place.
func (d *Saddle) measure(s Shank) {
	whole, free := 0.0, 0.0
	for i, p := range d.Points {
		d.LowMM, d.HighMM = math.Min(d.LowMM, p.HeightMM), math.Max(d.HighMM, p.HeightMM)
		d.FilingMM = math.Max(d.FilingMM, apart(p.Flat, p.Cut))
		d.SlantMM = math.Max(d.SlantMM, p.SlantMM)
		d.SteepestDegrees = math.Max(d.SteepestDegrees, math.Asin(math.Min(1, math.Abs(p.Space.Y)/s.RadiusMM(p.Space.X)))*180/math.Pi)
		if i == 0 {
			continue
		}
		l := apart(p.Flat, d.Points[i-1].Flat)
		whole += l
		if p.Free && d.Points[i-1].Free {
			free += l
		}
		d.CutLengthMM += apart(p.Cut, d.Points[i-1].Cut)
	}
	d.CutDepthMM = d.HighMM - d.LowMM
	if whole > 0 {
		d.FreeShare = free / whole
	}
}

// misses refuses a base that the shank does not carry all round.
func (w Wall) misses(s Shank) error {
	reach := 0.0
	for i := range w.Flat.Patches {
		at := w.fibre(w.Flat.Patches[i].At(1, 0), w.OuterMM)
		reach = math.Max(reach, math.Abs(at.Y))
	}
	least := 2 * (reach/math.Sin(SteepestDegrees*math.Pi/180) - s.ThicknessMM)
	return &Error{
		Problem: fmt.Sprintf("the base misses the shank: it reaches %.2f mm to either side along the band, and a shank of %.2f mm outside carries up to %.2f mm",
			reach, 2*s.CrestMM(), s.CrestMM()*math.Sin(SteepestDegrees*math.Pi/180)),
		LeastInnerMM: math.Ceil(least*10) / 10,
	}
}
