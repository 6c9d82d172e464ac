package bezel

import (
	"fmt"
	"math"
)

// Gallery is how a bought strip with a repeating pattern comes out round the
// stone.
type Gallery struct {
	RepeatMM float64
	// Repeats are used whole. StretchShare is by how much the strip is stretched
	// for it; where it is 0, LooseMM is how much wider across the bezel gets.
	Repeats      int
	StretchShare float64
	LooseMM      float64
	// Fits are the repeats that come out even without either: with as many as the
	// strip goes into the length, and with one more.
	Fits [2]float64
	// Comes is set where stretch or play is within what may be.
	Comes bool
}

// CutMM is the length of gallery strip to cut, before it is stretched.
func (g Gallery) CutMM() float64 { return float64(g.Repeats) * g.RepeatMM }

// MostStretchShare is how far a pierced strip can be rolled or hammered longer
// before its pattern shows it, and MostLooseMM how much wider across a bezel may
// be made for a repeat more. Common practice, no source.
const (
	MostStretchShare = 0.03
	MostLooseMM      = 0.1
)

// FitGallery fits whole repeats into the strip's length: stretched where that is
// little, else one more where the bezel gets hardly wider, else stretched and not
// marked as one that comes out.
func (b Bezel) FitGallery(repeatMM float64) (Gallery, error) {
	n := int(b.LengthMM/repeatMM + 1e-9)
	if n < 2 {
		return Gallery{}, &Error{fmt.Sprintf("a repeat of %.2f mm goes less than twice into a strip of %.2f mm: take a finer gallery strip", repeatMM, b.LengthMM)}
	}
	g := Gallery{RepeatMM: repeatMM, Repeats: n, StretchShare: math.Max(0, b.LengthMM/(float64(n)*repeatMM)-1),
		Fits: [2]float64{b.LengthMM / float64(n), b.LengthMM / float64(n+1)}, Comes: true}
	if g.StretchShare <= MostStretchShare {
		return g, nil
	}
	if loose := (float64(n+1)*repeatMM - b.LengthMM) / math.Pi; loose <= MostLooseMM {
		g.Repeats, g.StretchShare, g.LooseMM = n+1, 0, loose
		return g, nil
	}
	g.Comes = false
	return g, nil
}
