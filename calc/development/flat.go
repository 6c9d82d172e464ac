package development

// Point is a point of the flat blank or of a plan view, mm.
type Point struct{ X, Y float64 }

// Cubic is a cubic Bézier piece from P0 to P3, mm. Straight pieces have their
// control points on the thirds.
type Cubic struct{ P0, P1, P2, P3 Point }

// Line is a straight piece of the flat blank, mm.
type Line struct{ A, B Point }

// Flat is a flat blank: opened at the seam, seam edges left and right, rim at
// the top (larger y), base at the bottom. The bounding box's lower left corner
// is at the origin, and the blank stands so that its two seam edges lean
// equally to either side.
type Flat struct {
	// Rim and Base run from seam A (left) to seam B (right).
	Rim, Base []Cubic
	// SeamA and SeamB run from rim to base.
	SeamA, SeamB Line
	// Folds are the lines at which corners are bent or scored, rim to base.
	Folds []Line
	// Levels are the lines on the wall at the heights asked for (girdle,
	// bearing), each from seam A to seam B.
	Levels [][]Cubic
	// Marks are the rim points of the quarter marks, each a short line inward.
	Marks []Line
	// RimLengthMM and BaseLengthMM are the lengths of the flat edges, with
	// corner strips and seam ends.
	RimLengthMM, BaseLengthMM float64
	AreaMM2                   float64
	// WidthMM and HeightMM of the bounding box.
	WidthMM, HeightMM float64
}
