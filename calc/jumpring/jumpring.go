// Package jumpring works out jump rings: round rings of round wire, wound on a
// mandrel and sawn from the coil.
//
// A ring of inside diameter D of wire d has its neutral line at the middle of
// the wire, so one turn is pi (D + d): the trade's blank of a ring, (inside
// diameter + thickness) x pi. Aspect ratio is D/d, as makers of chain use it.
package jumpring

import (
	"fmt"
	"math"
)

// Ring is one jump ring. InsideMM is its inside diameter, WireMM the diameter
// of its wire.
type Ring struct{ InsideMM, WireMM float64 }

// LeastAspect is the least aspect ratio that is wound: below it the wire is bent
// inside a radius of its own thickness. Common practice, no source.
const LeastAspect = 1.5

// Check says what is wrong with the ring, for the maker; nil if nothing is.
func (r Ring) Check() error {
	if !(r.InsideMM > 0 && r.WireMM > 0) {
		return fmt.Errorf("inside diameter and wire of a jump ring must be more than 0 mm")
	}
	if r.Aspect() < LeastAspect {
		return fmt.Errorf("an inside of %.2f mm is too small for wire of %.2f mm: the inside must be at least %.1f times the wire, %.2f mm",
			r.InsideMM, r.WireMM, LeastAspect, LeastAspect*r.WireMM)
	}
	return nil
}

// Aspect is inside diameter over wire.
func (r Ring) Aspect() float64 { return r.InsideMM / r.WireMM }

// OutsideMM is the outside diameter.
func (r Ring) OutsideMM() float64 { return r.InsideMM + 2*r.WireMM }

// WireLengthMM is the wire in one closed ring, pi (D + d).
func (r Ring) WireLengthMM() float64 { return math.Pi * (r.InsideMM + r.WireMM) }

// VolumeMM3 of one closed ring: a torus, by Pappus pi (D + d) x pi d^2/4.
func (r Ring) VolumeMM3() float64 { return r.WireLengthMM() * math.Pi * r.WireMM * r.WireMM / 4 }

// TurnMM is the wire in one turn of a coil wound turn against turn, the pitch
// being the wire, with what the saw takes.
func (r Ring) TurnMM(kerfMM float64) float64 { return math.Hypot(r.WireLengthMM()+kerfMM, r.WireMM) }

// CoilMM is the wire for a coil of count rings. The ends that hold the wire in
// vice and hand come on top.
func (r Ring) CoilMM(count int, kerfMM float64) float64 { return float64(count) * r.TurnMM(kerfMM) }

// ClosedInsideMM is the inside of a ring that was wound without anything for the
// saw, once it is closed: its mean circumference lost the kerf.
func (r Ring) ClosedInsideMM(kerfMM float64) float64 { return r.InsideMM - kerfMM/math.Pi }

// ChainMM is a plain chain of count rings, one through the next, pulled
// straight: from each ring to the next it is one inside diameter, and a wire
// stands over at both ends.
func (r Ring) ChainMM(count int) float64 { return float64(count)*r.InsideMM + 2*r.WireMM }

// ForChain is the least number of rings whose chain is at least so long. A
// length that is short by rounding alone takes no further ring.
func (r Ring) ForChain(lengthMM float64) int {
	const roundingMM = 1e-6
	return max(1, int(math.Ceil((lengthMM-2*r.WireMM-roundingMM)/r.InsideMM)))
}

// SpringBack is the inside diameter that wire comes to when a coil is let go:
// elastic recovery of a fully yielded round section, R/R' = 1 - M R/(E I) with
// M = Y d^3/6 and I = pi d^4/64, so 1 - (32/3 pi) Y R/(E d), at the middle of
// the wire. yieldOverModulus is Y/E. The formula leaves out hardening, and
// coils spring back further than it says.
//
// The result is infinite if the wire would spring straight.
func SpringBack(mandrelMM, wireMM, yieldOverModulus float64) float64 {
	mean := (mandrelMM + wireMM) / 2
	keeps := 1 - 32/(3*math.Pi)*yieldOverModulus*mean/wireMM
	if keeps <= 0 {
		return math.Inf(1)
	}
	return 2*mean/keeps - wireMM
}

// Sterling wire, Y/E: annealed 124 MPa and hard-drawn about 400 MPa, over
// 75 GPa (a metal supplier's data sheet gives 124 MPa annealed; the modulus is
// from memory).
const (
	AnnealedYield = 124.0 / 75000
	HardYield     = 400.0 / 75000
)

// MeasuredSpringBack is by how much a coil of annealed sterling was measured to
// open, 1/4 in from a mandrel of 0.24 in (a chain maker's page on springback).
const MeasuredSpringBack = 0.25/0.24 - 1

// Mandrels bounds the mandrel for a ring: the larger for soft wire that hardly
// opens, by the formula, the smaller for hard wire. The measured coil lies
// between.
func (r Ring) Mandrels() (leastMM, mostMM float64) {
	return r.mandrel(HardYield), r.mandrel(AnnealedYield)
}

// mandrel inverts SpringBack: with m the mean diameter on the mandrel and m'
// free, m' = m / (1 - c m), so m = m' / (1 + c m').
func (r Ring) mandrel(yieldOverModulus float64) float64 {
	c := 16 / (3 * math.Pi) * yieldOverModulus / r.WireMM
	free := r.InsideMM + r.WireMM
	return free/(1+c*free) - r.WireMM
}
