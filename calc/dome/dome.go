// Package dome gives the disc for a dome (a spherical cap), the dome of a
// disc, and the way through a doming block: hollow by hollow, with the strain
// of each pass and the anneals between.
//
// All formulas are for the middle of the metal. The disc has the area of the
// dome, so the mean thickness stays that of the sheet; where the disc is given
// smaller, the metal stretches and the mean thickness drops by the areas.
package dome

import (
	"fmt"
	"math"
)

// Face says where a dome's diameter and height are measured.
type Face string

// Faces of a dome.
const (
	Outside Face = "outside"
	Inside  Face = "inside"
	Middle  Face = "middle"
)

// Dome is a spherical cap. Height is from the rim's plane to the crown, both on
// the same face.
type Dome struct {
	DiameterMM, HeightMM float64
	ThicknessMM          float64
	// Face is where DiameterMM and HeightMM are measured; empty means Middle.
	Face Face
}

// Check reports what is wrong with a dome: not positive, deeper than a
// hemisphere, or thicker than a quarter of its radius.
func (d Dome) Check() error {
	if !(d.DiameterMM > 0 && d.HeightMM > 0 && d.ThicknessMM >= 0) {
		return fmt.Errorf("diameter and height of a dome must be more than 0 mm")
	}
	if d.HeightMM > d.DiameterMM/2*(1+1e-9) {
		return fmt.Errorf("a dome %.2f mm across is at most %.2f mm high (a hemisphere), not %.2f mm", d.DiameterMM, d.DiameterMM/2, d.HeightMM)
	}
	if most := d.RadiusMM() / 4; d.ThicknessMM > most {
		return fmt.Errorf("thickness %.2f mm is too much for a dome of %.2f mm radius; at most %.2f mm", d.ThicknessMM, d.RadiusMM(), most)
	}
	return nil
}

// RadiusMM is the sphere's radius on the face that was measured:
// r = (c^2 + 4 h^2) / 8 h. Source: Machinery's Handbook, 31st ed., p. 91,
// spherical segment.
func (d Dome) RadiusMM() float64 {
	c, h := d.DiameterMM, d.HeightMM
	return (c*c + 4*h*h) / (8 * h)
}

// Middle returns the same dome measured at the middle of the metal: the sphere
// of the same centre and half angle, half a thickness away.
func (d Dome) Middle() Dome {
	r := d.RadiusMM()
	scale := 1.0
	switch d.Face {
	case Outside:
		scale = (r - d.ThicknessMM/2) / r
	case Inside:
		scale = (r + d.ThicknessMM/2) / r
	}
	return Dome{DiameterMM: d.DiameterMM * scale, HeightMM: d.HeightMM * scale, ThicknessMM: d.ThicknessMM, Face: Middle}
}

// OutsideRadiusMM is the radius of the dome's outside, which lies in the
// hollow.
func (d Dome) OutsideRadiusMM() float64 { return d.Middle().RadiusMM() + d.ThicknessMM/2 }

// DiscMM is the diameter of the flat disc of equal area, D = sqrt(c^2 + 4 h^2)
// at the middle of the metal. Source: area of the segment, pi (c^2/4 + h^2),
// Machinery's Handbook, 31st ed., p. 91.
func (d Dome) DiscMM() float64 {
	m := d.Middle()
	return math.Sqrt(m.DiameterMM*m.DiameterMM + 4*m.HeightMM*m.HeightMM)
}

// HalfAngle is the angle from the crown to the rim at the sphere's centre, in
// radians; a hemisphere has pi/2.
func (d Dome) HalfAngle() float64 { return 2 * math.Atan2(2*d.HeightMM, d.DiameterMM) }

// HeightOfDisc is the height, mm, of the dome of diameterMM that a disc makes
// when its area is kept, both at the middle of the metal. It is an error if the
// disc is not larger than the dome or makes more than a hemisphere.
func HeightOfDisc(discMM, diameterMM float64) (heightMM float64, err error) {
	if !(diameterMM > 0 && discMM > diameterMM) {
		return 0, fmt.Errorf("a disc of %.2f mm can't make a dome of %.2f mm; the dome must be smaller than its disc", discMM, diameterMM)
	}
	h := math.Sqrt(discMM*discMM-diameterMM*diameterMM) / 2
	if h > diameterMM/2*(1+1e-9) {
		return 0, fmt.Errorf("a disc of %.2f mm makes more than a hemisphere of %.2f mm; at least %.2f mm across", discMM, diameterMM, discMM/math.Sqrt2)
	}
	return h, nil
}

// DiameterOfDisc is the diameter, mm, of the dome of heightMM that a disc makes
// when its area is kept, both at the middle of the metal. It is an error where
// that would be more than a hemisphere, h > D / (2 sqrt 2).
func DiameterOfDisc(discMM, heightMM float64) (diameterMM float64, err error) {
	if !(discMM > 0 && heightMM > 0) {
		return 0, fmt.Errorf("disc and height must be more than 0 mm")
	}
	if most := discMM / (2 * math.Sqrt2); heightMM > most*(1+1e-9) {
		return 0, fmt.Errorf("a disc of %.2f mm gives a dome at most %.2f mm high (a hemisphere), not %.2f mm", discMM, most, heightMM)
	}
	return math.Sqrt(discMM*discMM - 4*heightMM*heightMM), nil
}

// MeanThicknessMM is the mean thickness of a dome made from a disc of discMM:
// t (disc/D)^2, with D the disc of equal area. Source: conservation of volume;
// Machinery's Handbook, 31st ed., p. 1428, formula (41), has the same for
// shells.
func (d Dome) MeanThicknessMM(discMM float64) float64 {
	share := discMM / d.DiscMM()
	return d.ThicknessMM * share * share
}

// Thinning bounds what doming takes off at the crown, as shares of the sheet's
// thickness.
type Thinning struct {
	// Most is the mean loss where the rim is held and nothing draws in: the
	// disc's area c^2 stretched to c^2 + 4 h^2.
	Most float64
	// Likely is what the crown loses when the rim draws in freely, as it does
	// in a doming block: three tenths of Most (15 % for a hemisphere). Common
	// practice, no source.
	Likely float64
}

// Thinning estimates the loss of thickness at the crown.
func (d Dome) Thinning() Thinning {
	s := math.Sin(d.HalfAngle() / 2)
	return Thinning{Most: s * s, Likely: 0.3 * s * s}
}
