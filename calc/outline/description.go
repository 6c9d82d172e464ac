package outline

import (
	"cmp"
	"math"
)

// Description is all that the program knows of one stone outline. It is one
// literal, beside the function that draws it; TestOutlinesAreWhole names any
// field that is missing. An empty list that is not nil means "none".
type Description struct {
	Kind Kind
	// Aliases are other words for it.
	Aliases []string
	// Summary says in help what it looks like.
	Summary string
	// draw makes the curve of a shape whose size and corner cut are filled in.
	// The first of its Places is where the trade puts the seam.
	draw func(Shape) (Curve, error)

	// SizeNumbers are how many numbers a size may have: {1, 2} for a hexagon.
	SizeNumbers []int
	// FromWidth is the length over the width of a stone of which one number is
	// given, its width; 0 if one number is not enough.
	FromWidth float64
	// LengthOverWidth is the usual proportion, for an example and for a size
	// that is estimated from a weight.
	LengthOverWidth float64
	// LengthFirst is set where the first number is the length even if it is the
	// smaller one.
	LengthFirst bool
	// Regular outlines are alike all round: the base of a setting takes the
	// stone's width and not its length.
	Regular bool
	// Cut is the corner cut that a maker may choose.
	Cut CornerCut
	// Assumes is what draw assumes beyond the size; set SizeSaysAll instead if
	// it assumes nothing.
	Assumes     string
	SizeSaysAll bool
	// Sample is a size for examples.
	Sample Size

	// PublishedSizes are the calibrated sizes that a stone dealer's size and
	// weight chart lists, CommonSizes those of common practice, no source; both
	// from small to large. LengthMM is 0 if one number says it.
	PublishedSizes, CommonSizes []Size
	// CupSizes are the sizes of cabochons for which bezel cups are sold, from small
	// to large. Common practice, no source; of the outlines without any, cups are
	// rare.
	CupSizes []Size

	// DepthShare is the typical depth from table to culet as a share of the
	// smaller side, PavilionShare the part of that depth below the girdle.
	DepthShare, PavilionShare float64
	DepthSource               string
	// Proportions are how the stone is usually cut above and at its girdle.
	Proportions Proportions
	// Carat is the formula for a stone's weight.
	Carat CaratFormula

	Prongs Prongs
}

// practice marks a figure that the trade uses and nobody publishes.
const practice = "common practice, no source"

// CornerCut is the cut along both sides of each corner, as a share of the
// width; Most is 0 if the maker has no choice.
type CornerCut struct{ Default, Least, Most float64 }

// CaratFormula estimates a faceted stone's weight: carat = lengths (mm2) x
// depth (mm) x specific gravity x factor.
//
// The factors are those that jewellers' tables agree on; the primary text was
// not seen. Lists disagree about the square (.0023 to .0025) and the marquise
// (.0016 to .0017), and about whether an oval takes its mean diameter squared
// (used here) or length times width.
type CaratFormula struct {
	Lengths Lengths
	Factor  float64
}

// Lengths is the product of lengths in a weight formula, as an answer writes
// it.
type Lengths string

// Products of lengths.
const (
	DiameterSquared     Lengths = "diameter²"
	MeanDiameterSquared Lengths = "mean diameter²"
	LengthTimesWidth    Lengths = "length x width"
	NoFormula           Lengths = "none is published"
)

// Prongs is how the trade puts prongs round a stone. Common practice, no
// source.
type Prongs struct {
	At ProngPlaces
	// Usual is how many, or OnePer6MM.
	Usual int
	// Even is set where an odd number can't cover both points.
	Even bool
	// EveryOtherCorner is set where half the corners may go without.
	EveryOtherCorner bool
}

// OnePer6MM is a prong every 6 mm or so of the girdle, in pairs.
const OnePer6MM = -1

// ProngPlaces are where prongs stand.
type ProngPlaces string

// Places of prongs.
const (
	// FromPoint: one on the point, the others evenly from there.
	FromPoint ProngPlaces = "from the point"
	// OnCorners: one on each corner, or on each cut corner, then the sides.
	OnCorners ProngPlaces = "on the corners"
	// OnRoundedCorners: one in the middle of each corner arc, then the sides.
	OnRoundedCorners ProngPlaces = "on the rounded corners"
	// OnCornersAndArc: one on both corners, the others along the arc.
	OnCornersAndArc ProngPlaces = "on the corners and the arc"
	// AllRound: evenly, half a distance from the usual seam.
	AllRound ProngPlaces = "all round"
)

// descriptions are all outlines, in the order in which help lists them.
var descriptions = []*Description{
	&round, &oval, &pear, &marquise, &emerald, &square, &baguette,
	&taperedBaguette, &cushion, &trillion, &heart, &hexagon, &octagon,
	&halfMoon, &kite, &lozenge, &measured,
}

// Kinds lists every outline.
func Kinds() []Kind {
	kinds := make([]Kind, len(descriptions))
	for i, d := range descriptions {
		kinds[i] = d.Kind
	}
	return kinds
}

// Describe returns the outline's description, which the caller must not change;
// that of an unknown kind is empty.
func (k Kind) Describe() Description {
	for _, d := range descriptions {
		if d.Kind == k {
			return *d
		}
	}
	return Description{}
}

// Filled is the size as New draws it: a missing length is worked out from the
// width, and the longer side becomes the length unless LengthFirst is set.
func (k Kind) Filled(s Size) Size { return k.Describe().filled(s) }

func (d Description) filled(s Size) Size {
	if s.LengthMM == 0 {
		s.LengthMM = s.WidthMM * cmp.Or(d.FromWidth, 1)
	}
	if s.WidthMM > s.LengthMM && !d.LengthFirst {
		s.LengthMM, s.WidthMM = s.WidthMM, s.LengthMM
	}
	return s
}

// CalibratedSizes are the sizes in which stones of this outline are cut for
// stock, from small to large; a dealer's chart lists the published ones.
func (k Kind) CalibratedSizes() (published, common []Size) {
	d := k.Describe()
	fill := func(list []Size) []Size {
		out := make([]Size, len(list))
		for i, s := range list {
			out[i] = d.filled(s)
		}
		return out
	}
	return fill(d.PublishedSizes), fill(d.CommonSizes)
}

// NearestCup is the size nearest to a stone's for which bezel cups are sold, and
// offMM by how much the stone differs from it in its length or width, whichever is
// more; positive where that side of the stone is larger. ok is false where no size
// is usual.
func (k Kind) NearestCup(stone Size) (cup Size, offMM float64, ok bool) {
	d := k.Describe()
	offMM = math.Inf(1)
	for _, s := range d.CupSizes {
		s = d.filled(s)
		off := stone.WidthMM - s.WidthMM
		if l := stone.LengthMM - s.LengthMM; math.Abs(l) > math.Abs(off) {
			off = l
		}
		if math.Abs(off) < math.Abs(offMM) {
			cup, offMM, ok = s, off, true
		}
	}
	if !ok {
		return Size{}, 0, false
	}
	return cup, offMM, true
}

// widths are sizes of one number, mm.
func widths(fromMM, toMM, stepMM float64) []Size {
	var list []Size
	for mm := fromMM; mm <= toMM+1e-9; mm += stepMM {
		list = append(list, Size{WidthMM: mm})
	}
	return list
}

// pairSizes are the sizes of the chart for ovals and cut-corner rectangles
// ("octagons" in the trade).
var pairSizes = []Size{{5, 3, 0}, {6, 4, 0}, {7, 5, 0}, {8, 6, 0}, {9, 7, 0}, {10, 8, 0}, {11, 9, 0}, {12, 10, 0}}
