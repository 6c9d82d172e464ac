package setting

import (
	"math"

	"guildhand/calc/development"
)

// Doubts are what is uncertain before a piece is made, each as one standard
// deviation.
type Doubts struct {
	// ThicknessMM of the sheet, CalipersMM of what measured the stone.
	ThicknessMM, CalipersMM float64
	// Factor of the neutral factor and KerfMM of what saw and file take.
	Factor, KerfMM float64
}

// Cause is what a fit's error comes from.
type Cause int

// Causes of a fit's error.
const (
	SheetThickness Cause = iota
	NeutralLine
	Kerf
	StoneMeasure
)

// Tolerance is how far the fit of a stone may be off.
type Tolerance struct {
	// AcrossMM is one standard deviation of the opening at the stone's edge less
	// the stone, across.
	AcrossMM float64
	// Largest is the cause that adds most to it, LargestMM its share.
	Largest   Cause
	LargestMM float64
}

// Fit adds up what is uncertain of the fit. The blank's rim is cut to a length, so
// that its opening is narrower across by 2 cos a times what k t has more: a sheet
// thicker by d makes it 2 k cos a d narrower, a factor larger by d 2 t cos a d. Saw
// and file take 1 + g/2 times the kerf off the rim's length, g being how fast the
// blank narrows. On flats that are scored the metal keeps its length on the outer
// skin, and no factor comes in. What does not depend on one another is added
// square by square.
func (c Collet) Fit(d Doubts) Tolerance {
	k, factor, cos := c.NeutralFactor, d.Factor, c.MeanLean.Cos()
	if c.Corners == development.Scored && c.Flat.Corners > 0 && math.IsInf(c.Stone.MinRadiusMM(), 1) {
		k, factor = 1, 0
	}
	narrowing := (c.Flat.RimLengthMM - c.Flat.BaseLengthMM) / c.SlantMM
	causes := [...]float64{
		SheetThickness: 2 * k * cos * d.ThicknessMM,
		NeutralLine:    2 * c.ThicknessMM * cos * factor,
		Kerf:           (1 + narrowing/2) * d.KerfMM / math.Pi,
		StoneMeasure:   d.CalipersMM,
	}
	var t Tolerance
	for cause, mm := range causes {
		t.AcrossMM = math.Hypot(t.AcrossMM, mm)
		if mm > t.LargestMM {
			t.Largest, t.LargestMM = Cause(cause), mm
		}
	}
	return t
}
