package stone

import "guildhand/calc/outline"

// Calibrated is a size in which stones of an outline are cut for stock.
type Calibrated struct {
	Kind outline.Kind
	Size outline.Size
	// Published is set for sizes that a published chart lists; the others are
	// common practice, no source.
	Published bool
}

// CalibratedFitMM is by how much a calibrated stone may differ from its size:
// 0.1 mm up to one carat and 0.2 mm above (published rule of a gemmological
// society's size chart). The smaller one is used for fits.
const CalibratedFitMM = 0.1

// CalibratedSizes lists the standard sizes of every outline: for each the
// published ones, then those of common practice, each from small to large.
func CalibratedSizes() []Calibrated {
	var list []Calibrated
	for _, kind := range outline.Kinds() {
		published, common := kind.CalibratedSizes()
		for _, s := range published {
			list = append(list, Calibrated{kind, s, true})
		}
		for _, s := range common {
			list = append(list, Calibrated{kind, s, false})
		}
	}
	return list
}
