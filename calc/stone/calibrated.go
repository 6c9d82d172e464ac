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

// CalibratedSizes lists the standard sizes, by outline and from small to
// large.
//
// Rounds from 2 to 8 mm by halves, ovals and cut-corner rectangles ("octagons"
// in the trade) from 5 x 3 to 12 x 10 and marquises from 4 x 2 to 12 x 6 are in
// a stone dealer's published size and weight chart; the other rows are common
// practice, no source.
func CalibratedSizes() []Calibrated {
	var list []Calibrated
	add := func(kind outline.Kind, published bool, sizes ...[2]float64) {
		for _, s := range sizes {
			list = append(list, Calibrated{kind, outline.Size{LengthMM: s[0], WidthMM: s[1]}, published})
		}
	}
	even := func(kind outline.Kind, published bool, from, to, step float64) {
		for mm := from; mm <= to+1e-9; mm += step {
			add(kind, published, [2]float64{mm, mm})
		}
	}
	pairs := [][2]float64{{5, 3}, {6, 4}, {7, 5}, {8, 6}, {9, 7}, {10, 8}, {11, 9}, {12, 10}}
	even(outline.Round, true, 2, 8, 0.5)
	even(outline.Round, false, 9, 12, 1)
	add(outline.Oval, true, pairs...)
	add(outline.Emerald, true, pairs...)
	add(outline.Marquise, true, [2]float64{4, 2}, [2]float64{6, 3}, [2]float64{8, 4}, [2]float64{10, 5}, [2]float64{12, 6})
	add(outline.Pear, false, [2]float64{5, 3}, [2]float64{6, 4}, [2]float64{7, 5}, [2]float64{8, 5}, [2]float64{9, 6}, [2]float64{10, 7}, [2]float64{12, 8})
	even(outline.Square, false, 3, 8, 1)
	even(outline.Cushion, false, 4, 10, 1)
	add(outline.Cushion, false, [2]float64{7, 5}, [2]float64{8, 6}, [2]float64{9, 7}, [2]float64{10, 8})
	add(outline.Baguette, false, [2]float64{4, 2}, [2]float64{5, 2.5}, [2]float64{5, 3}, [2]float64{6, 3}, [2]float64{6, 4}, [2]float64{7, 5})
	even(outline.Trillion, false, 4, 8, 1)
	even(outline.Heart, false, 4, 10, 1)
	return list
}
