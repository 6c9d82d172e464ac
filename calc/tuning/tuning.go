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
// least squares with a prior: the pair starts from the usual values with their
// spread over makers, and the readings move it by their weight against what
// calipers are good for. So one noisy trial moves the next blank a part of the
// way, and in the mean never makes it worse. A reading that no pair of k and kerf
// explains, without the prior, contradicts the others and is named.
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
	// UsualFactor is the k with which an untuned blank of this piece is as long as
	// it is drawn without trials; 0 is 0.5.
	UsualFactor float64 `json:"usual_factor,omitempty"`
	// CalipersMM is what the calipers are good for; 0 is UsualCalipersMM.
	CalipersMM float64 `json:"calipers_mm,omitempty"`
}

// Trial is what was measured on one piece.
type Trial struct {
	// Piece names it for people: "oval 8 x 6 mm".
	Piece    string    `json:"piece"`
	Readings []Reading `json:"readings"`
}

// UsualCalipersMM is what calipers on a formed piece are good for, as a standard
// deviation on a diameter. Common practice, no source.
const UsualCalipersMM = 0.05

// Spread of makers about the usual values, as standard deviations: the neutral
// factor of bends runs from about 0.33 to 0.5 (Machinery's Handbook's bend
// allowances give 0.350 to 0.452), and a saw with its file takes 0 to 0.2 mm.
// Common practice, no source.
const (
	FactorSpread = 0.08
	KerfSpreadMM = 0.10
)

// TriedRimMM is what one measured trial leaves uncertain of a blank's rim, as a
// standard deviation: 0.09 to 0.10 mm is its mean size over makers drawn from that
// spread (TestTrialsNeverMakeTheNextRimWorse), and the mean of a normal error is 0.8
// of its standard deviation.
const TriedRimMM = 0.12

// contradicts is how many standard deviations a reading may lie off.
const contradicts = 3

func (r Reading) sigmaMM() float64 {
	calipers := r.CalipersMM
	if calipers == 0 {
		calipers = UsualCalipersMM
	}
	if r.Kind == Height {
		return calipers
	}
	return math.Pi * calipers
}

func (r Reading) usualFactor() float64 {
	if r.UsualFactor == 0 {
		return 0.5
	}
	return r.UsualFactor
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
	// FactorErr and KerfErr are what is left uncertain of both, as standard
	// deviations, and Together is their covariance, mm.
	FactorErr, KerfErrMM, Together float64
	// KerfAssumed is set where the readings can't tell the two apart, so that
	// only their usual values do.
	KerfAssumed bool
	// RMSMM of what is left unexplained, over the readings.
	RMSMM float64
	// Contradiction names the reading that does not go with the others, or
	// tells why the result can't be right; empty if all is well.
	Contradiction string
}

// ErrNoReadings is returned if there is nothing to solve.
var ErrNoReadings = errors.New("there are no readings")

// Solve finds the pair of neutral factor and kerf that goes best with the
// readings of all trials and with what is usual.
func Solve(trials []Trial) (Result, error) {
	var aa, ae, ee, ad, ed, usual float64
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
			usual += w * r.PerFactorMM * r.PerFactorMM * r.usualFactor()
			n++
		}
	}
	if n == 0 || aa == 0 {
		return Result{}, ErrNoReadings
	}
	usual /= aa
	var res Result
	// The determinant relative to its greatest value is the squared sine of
	// the angle between the two columns; a taper of 1 degree gives 0.0007.
	alone, unknowns := Result{NeutralFactor: ad / aa}, 1
	if det := aa*ee - ae*ae; det > 5e-4*aa*ee {
		alone, unknowns = Result{NeutralFactor: (ad*ee - ed*ae) / det, KerfMM: (aa*ed - ae*ad) / det}, 2
	} else {
		res.KerfAssumed = true
	}
	// The prior is one more reading of each.
	pa, pe := 1/(FactorSpread*FactorSpread), 1/(KerfSpreadMM*KerfSpreadMM)
	aa, ee, ad = aa+pa, ee+pe, ad+pa*usual
	det := aa*ee - ae*ae
	res.NeutralFactor, res.KerfMM = (ad*ee-ed*ae)/det, (aa*ed-ae*ad)/det
	res.FactorErr, res.KerfErrMM, res.Together = math.Sqrt(ee/det), math.Sqrt(aa/det), -ae/det
	alone.check(trials, n, unknowns)
	res.RMSMM, res.Contradiction = alone.RMSMM, alone.Contradiction
	return res, nil
}

// LengthErrMM is what is left uncertain of a blank's length that changes by
// perFactorMM a unit of factor and by perKerf a mm of kerf.
func (res Result) LengthErrMM(perFactorMM, perKerf float64) float64 {
	a, e := perFactorMM, perKerf
	return math.Sqrt(a*a*res.FactorErr*res.FactorErr + e*e*res.KerfErrMM*res.KerfErrMM + 2*a*e*res.Together)
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
