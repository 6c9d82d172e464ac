package ring

import (
	"fmt"
	"math"

	"guildhand/calc/outline"
)

// Profile is the section of a shank.
type Profile string

// Profiles of a shank, all with the given width and thickness.
const (
	// Flat is rectangular.
	Flat Profile = "flat"
	// HalfRound is a half ellipse, flat towards the finger.
	HalfRound Profile = "half-round"
	// Court is an ellipse: rounded outside and towards the finger.
	Court Profile = "court"
	// RoundWire and SquareWire are as wide as they are thick.
	RoundWire  Profile = "round"
	SquareWire Profile = "square"
)

// Profiles lists every profile.
func Profiles() []Profile { return []Profile{Flat, HalfRound, Court, RoundWire, SquareWire} }

// OneSize marks a profile that is as wide as it is thick.
func (p Profile) OneSize() bool { return p == RoundWire || p == SquareWire }

// AreaMM2 is the area of the section, mm2.
func (p Profile) AreaMM2(widthMM, thicknessMM float64) float64 {
	if p == Flat || p == SquareWire {
		return widthMM * thicknessMM
	}
	// Half ellipse with semi-axes w/2 and t, and ellipse with w/2 and t/2:
	// both pi/4 w t.
	return math.Pi / 4 * widthMM * thicknessMM
}

// NeutralFactor is where the neutral line of a gentle bend lies, as a share of
// the thickness from the finger's side: the section's centroid. For the half
// ellipse that is 4/(3 pi).
func (p Profile) NeutralFactor() float64 {
	if p == HalfRound {
		return 4 / (3 * math.Pi)
	}
	return 0.5
}

// WideAllowanceMM is what a wide band's inner circumference is enlarged by, so
// that it passes the knuckle like a narrow one: nothing up to 5 mm of width, a
// quarter of a US size (0.64 mm) up to 8 mm, half a US size (1.28 mm) beyond.
// A court band is relieved inside and takes half of that.
//
// Common practice, no source; a sizing ring of the same width is better.
func (p Profile) WideAllowanceMM(widthMM float64) float64 {
	quarter := lines[US].stepMM / 4
	if p == Court {
		quarter /= 2
	}
	switch {
	case widthMM <= 5:
		return 0
	case widthMM <= 8:
		return quarter
	}
	return 2 * quarter
}

// WideGuidesMM bounds what published guides add to the length of a wide band:
// +0.5 mm over 4 mm (a supplier's page on measuring a ring blank), half a US
// size from 5 mm (a jeweller's page on wide bands), up to a whole size for very
// wide ones (another jeweller's page; over 8 mm is taken for very wide here).
func WideGuidesMM(widthMM float64) (leastMM, mostMM float64) {
	size := lines[US].stepMM
	switch {
	case widthMM <= 4:
		return 0, 0
	case widthMM < 5:
		return 0, 0.5
	case widthMM <= 8:
		return 0.5, size / 2
	}
	return 0.5, size
}

// BangleMM is the inner circumference of a bangle by its inner length and width:
// an ellipse, or a circle where they are the same.
func BangleMM(lengthMM, widthMM float64) float64 {
	return outline.EllipsePerimeterMM(lengthMM/2, widthMM/2)
}

// Shank describes the shank of a ring.
type Shank struct {
	// CircumferenceMM is the inner circumference asked for.
	CircumferenceMM      float64
	WidthMM, ThicknessMM float64
	Profile              Profile
	// BackWidthMM and BackThicknessMM are the section at the back of a shank that
	// tapers evenly from the top, which has WidthMM and ThicknessMM; 0 where it does
	// not taper.
	BackWidthMM, BackThicknessMM float64
	// NeutralFactor replaces the profile's own where it is not 0.
	NeutralFactor float64
	// AllowanceMM replaces WideAllowanceMM where HasAllowance is set.
	AllowanceMM  float64
	HasAllowance bool
}

// Blank is the straight piece to cut for a shank.
type Blank struct {
	// LengthMM = pi (d + 2 k t) + allowance, with d the inner diameter and t the
	// thickness, its mean where the shank tapers.
	LengthMM float64
	// NeutralFactor is k as used, AllowanceMM the wide-band allowance as used.
	NeutralFactor, AllowanceMM float64
	// InnerDiameterMM of the finished ring, with the allowance.
	InnerDiameterMM float64
	// VolumeMM3 of the blank.
	VolumeMM3 float64
}

// Blank returns the piece to cut. The ends meet square; nothing is added for
// filing the joint.
//
// It is an error if a value is not positive, or if the thickness is more than
// half of the inner radius, where the neutral line is no longer known.
func (s Shank) Blank() (Blank, error) {
	if !(s.CircumferenceMM > 0 && s.WidthMM > 0 && s.ThicknessMM > 0) {
		return Blank{}, fmt.Errorf("circumference, width and thickness of a shank must be more than 0 mm")
	}
	if s.BackWidthMM < 0 || s.BackThicknessMM < 0 {
		return Blank{}, fmt.Errorf("the back of a shank can't be less than 0 mm wide or thick")
	}
	if most := s.CircumferenceMM / (4 * math.Pi); max(s.ThicknessMM, s.BackThicknessMM) > most {
		return Blank{}, fmt.Errorf("thickness %.2f mm is more than half the ring's inner radius; at most %.2f mm for this size", s.ThicknessMM, most)
	}
	k := s.NeutralFactor
	if k == 0 {
		k = s.Profile.NeutralFactor()
	}
	allowance := s.AllowanceMM
	if !s.HasAllowance {
		allowance = s.Profile.WideAllowanceMM(s.WidthMM)
	}
	inner := s.CircumferenceMM + allowance
	// The neutral line of a taper is r(a) = inner radius + k t(a), t linear in the
	// angle, so its length is that of the mean thickness but for (k dt/pi)^2 / 2r,
	// which is under 0.01 mm.
	backW, backT := s.Back()
	length := inner + 2*math.Pi*k*(s.ThicknessMM+backT)/2
	return Blank{
		LengthMM: length, NeutralFactor: k, AllowanceMM: allowance,
		InnerDiameterMM: inner / math.Pi,
		VolumeMM3:       length * s.Profile.AreaMM2(1, 1) * meanProduct(s.WidthMM, backW, s.ThicknessMM, backT),
	}, nil
}

// Back is the section at the back: that of the top where the shank does not taper.
func (s Shank) Back() (widthMM, thicknessMM float64) {
	widthMM, thicknessMM = s.WidthMM, s.ThicknessMM
	if s.BackWidthMM > 0 {
		widthMM = s.BackWidthMM
	}
	if s.BackThicknessMM > 0 {
		thicknessMM = s.BackThicknessMM
	}
	return widthMM, thicknessMM
}

// meanProduct is the mean of w t over a length on which both change evenly.
func meanProduct(w1, w2, t1, t2 float64) float64 {
	return (w1*t1+w2*t2)/3 + (w1*t2+w2*t1)/6
}
