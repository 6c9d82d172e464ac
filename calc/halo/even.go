package halo

import (
	"math"

	"guildhand/calc/outline"
)

// Round stones that stand evenly round a round centre: their centres are a chord of one
// stone and one gap apart, on a circle that is the centre's radius, the gap to it and
// half a stone from the middle. All lengths are in mm.

// EvenStoneMM is the diameter of the stones of which count stand evenly round a centre;
// not above 0 where the gaps leave no room for any.
func EvenStoneMM(centreMM float64, count int, gapMM, centreGapMM float64) float64 {
	s := math.Sin(math.Pi / float64(count))
	return ((centreMM+2*centreGapMM)*s - gapMM) / (1 - s)
}

// EvenCentreMM is the diameter of the centre round which count stones stand evenly.
func EvenCentreMM(stoneMM float64, count int, gapMM, centreGapMM float64) float64 {
	return (stoneMM+gapMM)/math.Sin(math.Pi/float64(count)) - stoneMM - 2*centreGapMM
}

// EvenGapMM is the gap between count stones that touch their centre; below 0 they do not
// fit.
func EvenGapMM(stoneMM, centreMM float64, count int) float64 {
	return (stoneMM+centreMM)*math.Sin(math.Pi/float64(count)) - stoneMM
}

// SmallWithinMM is the diameter of the small stones whose plate is so wide over all:
// across it lie the centre, and on both sides the gap to it, a stone and the edge.
func SmallWithinMM(overallMM, centreMM, centreGapMM, edgeMM float64) float64 {
	return (overallMM-centreMM)/2 - centreGapMM - edgeMM
}

// CentreWithinMM is the diameter of the round centre whose plate is so wide over all.
func CentreWithinMM(overallMM, stoneMM, centreGapMM, edgeMM float64) float64 {
	return overallMM - 2*(centreGapMM+stoneMM+edgeMM)
}

// EvenCentreWidthMM is the width of the centre of one form, drawn by of, round which
// count stones stand with exactly the gaps that were asked for: the chord that count
// stones divide its offset outline into grows with its width. ok is false where there is
// none up to outline.MaxSizeMM.
func (s Spec) EvenCentreWidthMM(count int, of func(widthMM float64) (outline.Curve, error)) (widthMM float64, ok bool) {
	if count < Least || count > Most {
		return 0, false
	}
	missing := func(width float64) float64 {
		curve, err := of(width)
		if err != nil {
			return math.NaN()
		}
		w, err := walkAround(curve, s.ToCentreMM+s.StoneMM/2)
		if err != nil {
			return math.NaN()
		}
		pitch, _ := w.equalChords(count)
		return s.StoneMM + s.GapMM - pitch
	}
	round := EvenCentreMM(s.StoneMM, count, s.GapMM, s.ToCentreMM)
	return rootOf(missing, math.Max(outline.MinSizeMM, round/3), math.Min(outline.MaxSizeMM/2, 1.5*round))
}
