package bezel

import (
	"math"

	"guildhand/calc/fit"
)

// Fit adds up what is uncertain of the fit. The strip is cut to a length L, and
// closes round an opening (L - 2 pi k t)/pi across in the mean: a sheet thicker by
// d makes it 2 k d narrower, a factor larger by d 2 t d, and what saw and file
// take more of L takes its share of pi. On flats that are folded on the outer skin
// k is 1 and no factor comes in.
func (b Bezel) Fit(d fit.Doubts) fit.Tolerance {
	k, factor := b.NeutralFactor, d.Factor
	if math.IsInf(b.Stone.MinRadiusMM(), 1) { // flats: all bending is in the corners
		k = b.CornerFactor
		if b.Corners == Mitred {
			k, factor = 1, 0
		}
	}
	return fit.Causes{
		fit.SheetThickness: 2 * k * d.ThicknessMM,
		fit.NeutralLine:    2 * b.ThicknessMM * factor,
		fit.Kerf:           d.KerfMM / math.Pi,
		fit.StoneMeasure:   d.CalipersMM,
	}.Sum()
}
