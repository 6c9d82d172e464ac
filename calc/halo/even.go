package halo

import "math"

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
