// Package fit adds up how far the fit of a stone may be off, from what is
// uncertain before a piece is made.
package fit

import "math"

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

// Causes are what each cause adds across, mm.
type Causes [StoneMeasure + 1]float64

// Tolerance is how far the fit of a stone may be off.
type Tolerance struct {
	// AcrossMM is one standard deviation of the opening at the stone's edge less
	// the stone, across.
	AcrossMM float64
	// Largest is the cause that adds most to it, LargestMM its share.
	Largest   Cause
	LargestMM float64
}

// Sum adds causes that do not depend on one another, square by square.
func (c Causes) Sum() Tolerance {
	var t Tolerance
	for cause, mm := range c {
		t.AcrossMM = math.Hypot(t.AcrossMM, mm)
		if mm > t.LargestMM {
			t.Largest, t.LargestMM = Cause(cause), mm
		}
	}
	return t
}
