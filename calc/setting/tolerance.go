package setting

import (
	"math"

	"guildhand/calc/development"
	"guildhand/calc/fit"
)

// Fit adds up what is uncertain of the fit. The blank's rim is cut to a length, so
// that its opening is narrower across by 2 cos a times what k t has more: a sheet
// thicker by d makes it 2 k cos a d narrower, a factor larger by d 2 t cos a d. Saw
// and file take 1 + g/2 times the kerf off the rim's length, g being how fast the
// blank narrows. On flats that are scored the metal keeps its length on the outer
// skin, and no factor comes in.
func (c Collet) Fit(d fit.Doubts) fit.Tolerance {
	k, factor, cos := c.NeutralFactor, d.Factor, c.MeanLean.Cos()
	if c.Corners == development.Scored && c.Flat.Corners > 0 && math.IsInf(c.Stone.MinRadiusMM(), 1) {
		k, factor = 1, 0
	}
	narrowing := (c.Flat.RimLengthMM - c.Flat.BaseLengthMM) / c.SlantMM
	return fit.Causes{
		fit.SheetThickness: 2 * k * cos * d.ThicknessMM,
		fit.NeutralLine:    2 * c.ThicknessMM * cos * factor,
		fit.Kerf:           (1 + narrowing/2) * d.KerfMM / math.Pi,
		fit.StoneMeasure:   d.CalipersMM,
	}.Sum()
}
