package outline

// Range is a typical value with the span that is published or usual for it.
type Range struct{ Typical, Least, Most float64 }

// Proportions are how a faceted stone of an outline is usually cut above and at
// its girdle, as shares of its smaller side. Real stones vary: the one in hand
// decides.
type Proportions struct {
	// Girdle is the thickness of the girdle, Table the width of the table.
	Girdle, Table Range
	// Step is set where the pavilion is cut in steps: its facets run level and
	// close in a keel line. Other pavilions run to a point.
	Step bool
	// Source of the table; the girdle's is girdleShare's.
	Source string
}

// girdleShare is the girdle of a calibrated stone: GIA's tables for the round
// brilliant use 3.0 % and allow up to 5 % (shalev.co.uk, diamondcut.gia.edu);
// M. Tolkowsky's diamond of 1919 has 0.7 % (3dbook.octonus.com). Other outlines
// are taken alike, which is common practice, no source.
var girdleShare = Range{0.03, 0.007, 0.05}

// Tables of the cuts. The published ones are those of diamonds.
var (
	// roundProportions: tables of 53 to 57 % (M. Tolkowsky 1919, octonus.com;
	// thediamondclub.com.au).
	roundProportions = Proportions{Girdle: girdleShare, Table: Range{0.55, 0.53, 0.57}, Source: "tables of 53 to 57 % (Tolkowsky 1919; thediamondclub.com.au)"}
	// pointedProportions: pears with tables of 55 to 62 % (shalev.co.uk).
	pointedProportions = Proportions{Girdle: girdleShare, Table: Range{0.58, 0.55, 0.62}, Source: "tables of 55 to 62 % (shalev.co.uk, for pears)"}
	// emeraldProportions: 60 to 68 % (shalev.co.uk, mydiamondcuts.com).
	emeraldProportions = Proportions{Girdle: girdleShare, Table: Range{0.64, 0.60, 0.68}, Step: true, Source: "tables of 60 to 68 % (shalev.co.uk; mydiamondcuts.com)"}
	// squareProportions: princess cuts with tables of 62 to 68 % (talk.dob.jp,
	// AGS grade 0).
	squareProportions = Proportions{Girdle: girdleShare, Table: Range{0.65, 0.62, 0.68}, Source: "tables of 62 to 68 % (AGS grade 0 for the princess cut)"}
	// stepProportions and fancyProportions have no published table.
	stepProportions  = Proportions{Girdle: girdleShare, Table: Range{0.64, 0.55, 0.75}, Step: true, Source: practice}
	fancyProportions = Proportions{Girdle: girdleShare, Table: Range{0.60, 0.50, 0.70}, Source: practice}
)
