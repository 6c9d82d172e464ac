// Package tuning solves measured trial pieces for what a bench does to a
// blank: the effective neutral factor k, the share of the wall from the inside
// at which the metal keeps its length, and the kerf, the width of metal that
// saw and file take away between two opposite edges beyond the lines.
//
// # Model
//
// Every cut edge of a trial lies half a kerf inside its line. A blank's edge
// that was drawn CutMM long is then shorter by the kerf at its two ends, and
// changes again because it lies further down (the rim) or up (the base) the
// tapered wall. The metal keeps its length on the neutral surface, so that
//
//	drawn length = formed length at k = 0 + A k + E kerf
//
// which is linear in both unknowns. A is the length that a whole unit of k
// adds (2 pi t / cos a on a smooth outline), E = 1 + g/2 at the rim and 1 - g/2
// at the base with g = (rim - base) / slant, and for a measured height A = 0,
// E = cos a. Rim and base together tell k from kerf because g is not 0; on a
// straight wall they do not, and only one combination of the two is known.
//
// Trials of one maker, alloy and thickness are solved together by weighted
// least squares. A reading that no pair of k and kerf explains contradicts the
// others and is named.
package tuning

import (
	"errors"
	"fmt"
	"math"
)

// Kind is what was measured.
type Kind string

// Kinds of readings.
const (
	Rim    Kind = "rim"
	Base   Kind = "base"
	Height Kind = "height"
)

// Reading is one measured edge or height, as a linear equation:
// DrawnMM - FormedMM = PerFactorMM k + PerKerf kerf.
type Reading struct {
	Kind Kind `json:"kind"`
	// DrawnMM is the length on the blank; FormedMM the length that a blank for
	// the measured section would have if k were 0. Of a height they are the
	// height asked for and the one measured.
	DrawnMM  float64 `json:"drawn_mm"`
	FormedMM float64 `json:"formed_mm"`
	// PerFactorMM is A, PerKerf is E.
	PerFactorMM float64 `json:"per_factor_mm"`
	PerKerf     float64 `json:"per_kerf"`
}

// Trial is what was measured on one piece.
type Trial struct {
	// Piece names it for people: "oval 8 x 6 mm".
	Piece    string    `json:"piece"`
	Readings []Reading `json:"readings"`
}

// Uncertainty of a bench reading: calipers on a formed piece repeat within
// about 0.03 mm on a diameter. Common practice, no source.
const (
	caliperMM   = 0.03
	edgeMM      = math.Pi * caliperMM
	contradicts = 3 // standard deviations
)

func (r Reading) sigmaMM() float64 {
	if r.Kind == Height {
		return caliperMM
	}
	return edgeMM
}

// Plausible values; outside them the readings, not the metal, are to be looked
// at. The neutral factor of bends runs from about 0.33 to 0.5 (Machinery's
// Handbook's bend allowances give 0.350 to 0.452); the margin is for bench
// errors. Common practice, no source for the kerf.
const (
	MinFactor, MaxFactor = 0.20, 0.65
	MinKerfMM, MaxKerfMM = -0.10, 0.60
)

// Result is a solved correction.
type Result struct {
	NeutralFactor, KerfMM float64
	// FactorErr and KerfErr are standard errors from the readings' own spread
	// of 0.03 mm on a diameter.
	FactorErr, KerfErrMM float64
	// KerfAssumed is set where the readings can't tell the two apart, so that
	// the kerf was taken as 0.
	KerfAssumed bool
	// RMSMM of what is left unexplained, over the readings.
	RMSMM float64
	// Contradiction names the reading that does not go with the others, or
	// tells why the result can't be right; empty where all is well.
	Contradiction string
}

// ErrNoReadings is returned where there is nothing to solve.
var ErrNoReadings = errors.New("there are no readings")

// Solve finds the pair of neutral factor and kerf that explains the readings
// of all trials best.
func Solve(trials []Trial) (Result, error) {
	var aa, ae, ee, ad, ed float64
	n := 0
	for _, t := range trials {
		for _, r := range t.Readings {
			w := 1 / (r.sigmaMM() * r.sigmaMM())
			d := r.DrawnMM - r.FormedMM
			aa += w * r.PerFactorMM * r.PerFactorMM
			ae += w * r.PerFactorMM * r.PerKerf
			ee += w * r.PerKerf * r.PerKerf
			ad += w * r.PerFactorMM * d
			ed += w * r.PerKerf * d
			n++
		}
	}
	if n == 0 || aa == 0 {
		return Result{}, ErrNoReadings
	}
	var res Result
	unknowns := 2
	// The determinant relative to its greatest value is the squared sine of
	// the angle between the two columns; a taper of 1 degree gives 0.0007.
	if det := aa*ee - ae*ae; det > 5e-4*aa*ee {
		res.NeutralFactor = (ad*ee - ed*ae) / det
		res.KerfMM = (aa*ed - ae*ad) / det
		res.FactorErr, res.KerfErrMM = math.Sqrt(ee/det), math.Sqrt(aa/det)
	} else {
		unknowns = 1
		res.KerfAssumed = true
		res.NeutralFactor = ad / aa
		res.FactorErr = 1 / math.Sqrt(aa)
	}
	res.check(trials, n, unknowns)
	return res, nil
}

// check measures what is left and looks for contradictions.
func (res *Result) check(trials []Trial, n, unknowns int) {
	sum, worst := 0.0, 0.0
	var where string
	for _, t := range trials {
		for _, r := range t.Readings {
			left := r.DrawnMM - r.FormedMM - r.PerFactorMM*res.NeutralFactor - r.PerKerf*res.KerfMM
			sum += left * left
			if s := math.Abs(left) / r.sigmaMM(); s > worst {
				worst = s
				where = fmt.Sprintf("the %s of the %s lies %.2f mm off what the other readings say", r.Kind, t.Piece, math.Abs(left))
			}
		}
	}
	res.RMSMM = math.Sqrt(sum / float64(n))
	k, kerf := res.NeutralFactor, res.KerfMM
	switch {
	case n > unknowns && worst > contradicts:
		res.Contradiction = where
	case !(k >= MinFactor && k <= MaxFactor):
		res.Contradiction = fmt.Sprintf("they would need a neutral factor of %.2f, and metal has %.2f to %.2f", k, MinFactor, MaxFactor)
	case !(kerf >= MinKerfMM && kerf <= MaxKerfMM):
		res.Contradiction = fmt.Sprintf("rim and base would need a kerf of %.2f mm, and a saw and file take %.2f to %.2f mm", kerf, math.Max(0, MinKerfMM), MaxKerfMM)
	}
}
