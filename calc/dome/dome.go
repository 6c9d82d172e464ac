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

// OfDisc returns the dome that a disc makes when its area is kept: the one of
// d.DiameterMM and d.HeightMM that is 0 is found from the other, on the face
// d.Face. It is an error if the disc makes no such dome: if it is not larger
// than the dome, or would make more than a hemisphere or less than a dome of
// its own thickness.
//
// At the middle of the metal that is h = sqrt(D^2 - c^2)/2; on the other faces
// it is solved by bisection, to 1e-12 of the value.
func OfDisc(discMM float64, d Dome) (Dome, error) {
	if !(discMM > 0 && discMM < math.Inf(1)) {
		return Dome{}, fmt.Errorf("a disc must be more than 0 mm across")
	}
	if d.HeightMM == 0 {
		// From the shallowest dome, as high as its metal is thick, to a
		// hemisphere; between them the disc grows with the height.
		return ofDisc(discMM, d, math.Max(d.ThicknessMM, 1e-6*d.DiameterMM), d.DiameterMM/2, func(v float64) Dome {
			d.HeightMM = v
			return d
		})
	}
	// From a hemisphere of this height up to a dome as wide as twice the disc.
	return ofDisc(discMM, d, 2*d.HeightMM, 2*discMM+2*d.HeightMM, func(v float64) Dome {
		d.DiameterMM = v
		return d
	})
}

func ofDisc(discMM float64, d Dome, low, high float64, with func(float64) Dome) (Dome, error) {
	least, most := with(low).DiscMM(), with(high).DiscMM()
	const rounding = 1e-4 // a hemisphere's height is typed with four decimals at most
	if !(low > 0 && least <= discMM*(1+rounding) && discMM*(1-rounding) <= most) {
		if d.HeightMM == 0 {
			return Dome{}, fmt.Errorf("a disc of %.2f mm can't make a dome %.2f mm across; the dome is from %.2f mm (a hemisphere) to a little under the disc", discMM, d.DiameterMM, discMM/math.Sqrt2)
		}
		return Dome{}, fmt.Errorf("a disc of %.2f mm can't make a dome %.2f mm high; at most about %.2f mm (a hemisphere)", discMM, d.HeightMM, discMM/(2*math.Sqrt2))
	}
	for range 100 {
		mid := (low + high) / 2
		if with(mid).DiscMM() < discMM {
			low = mid
		} else {
			high = mid
		}
	}
	found := with((low + high) / 2)
	return found, found.Check()
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
