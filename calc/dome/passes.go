package dome

import (
	"fmt"
	"math"
	"slices"
)

// Pass is one hollow of the doming block.
type Pass struct {
	// HollowMM is the hollow's diameter: it is a hemisphere, so its radius is
	// half of that.
	HollowMM float64
	// AnnealBefore is set where the strain since the last anneal, with this
	// pass, would be over the alloy's limit.
	AnnealBefore bool
	// DiameterMM and HeightMM of the dome after the pass, middle of the metal.
	DiameterMM, HeightMM float64
	// Strain is the equivalent strain at the rim that this pass adds, and
	// SinceAnneal the sum since the last anneal.
	Strain, SinceAnneal float64
}

// Hollows is a usual series of a doming block, mm, largest first. Common
// practice, no source; blocks differ.
func Hollows() []float64 {
	return []float64{80, 72, 65, 58, 52, 47, 42, 38, 34, 31, 28, 25, 23, 21, 19, 17, 15, 14, 12.5, 11.5, 10, 9, 8, 7.2, 6.5, 5.8, 5.2, 4.6, 4.1, 3.7, 3.3, 3}
}

// rimStrain is the equivalent strain at the rim of a cap of half angle phi made
// from its disc of equal area with every ring's area kept, so with thickness
// kept: the hoop strain is ln cos(phi/2), the strain along the wall its
// opposite, and von Mises' equivalent 2/sqrt(3) times that.
func rimStrain(halfAngle float64) float64 {
	return -2 / math.Sqrt(3) * math.Log(math.Cos(halfAngle/2))
}

// Passes plans the way of the dome's disc through hollows of a doming block, of
// diameters hollowsMM in any order: from the smallest hollow that the flat disc
// drops into (or the largest there is) down to the smallest that is not
// tighter than the dome's outside, one by one. strainLimit is the alloy's
// StrainLimit; the sheet is taken as annealed.
//
// The strains of the passes sum to the strain of the last hollow's cap, and
// SinceAnneal never exceeds strainLimit. It is an error if no hollow is large
// enough for the dome, or if one pass alone exceeds the limit: then a hollow
// is missing between two.
func (d Dome) Passes(hollowsMM []float64, strainLimit float64) ([]Pass, error) {
	if err := d.Check(); err != nil {
		return nil, err
	}
	disc := d.DiscMM()
	last := 2 * d.OutsideRadiusMM()
	series := slices.Clone(hollowsMM)
	slices.SortFunc(series, func(a, b float64) int {
		switch {
		case a > b:
			return -1
		case a < b:
			return 1
		}
		return 0
	})
	series = slices.Compact(series)
	// A hollow a hair tighter than the dome still makes it.
	series = slices.DeleteFunc(series, func(h float64) bool { return h < last*(1-1e-9) })
	if len(series) == 0 {
		return nil, fmt.Errorf("the dome needs a hollow of at least %.1f mm, and the block has none", last)
	}
	first := 0
	for i, h := range series {
		if h >= disc {
			first = i
		}
	}
	series = series[first:]
	var passes []Pass
	total, since := 0.0, 0.0
	for _, h := range series {
		r := h/2 - d.ThicknessMM/2
		// Equal area: D^2/4 = 4 r^2 sin^2(phi/2).
		phi := 2 * math.Asin(math.Min(1, disc/(4*r)))
		reached := rimStrain(phi)
		p := Pass{HollowMM: h, Strain: reached - total,
			DiameterMM: 2 * r * math.Sin(phi), HeightMM: r * (1 - math.Cos(phi))}
		if p.Strain > strainLimit {
			return nil, fmt.Errorf("the step to the %.1f mm hollow is too deep for one pass; a hollow between it and the one before is missing", h)
		}
		if since+p.Strain > strainLimit {
			p.AnnealBefore, since = true, 0
		}
		since += p.Strain
		p.SinceAnneal, total = since, reached
		passes = append(passes, p)
	}
	return passes, nil
}
