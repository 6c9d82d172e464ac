package outline

// Kind is a stone outline's word.
type Kind string

// Kinds of outline, in the order in which help lists them.
const (
	Round           Kind = "round"
	Oval            Kind = "oval"
	Pear            Kind = "pear"
	Marquise        Kind = "marquise"
	Emerald         Kind = "emerald"
	Square          Kind = "square"
	Baguette        Kind = "baguette"
	TaperedBaguette Kind = "tapered-baguette"
	Cushion         Kind = "cushion"
	Trillion        Kind = "trillion"
	Heart           Kind = "heart"
	Hexagon         Kind = "hexagon"
	Octagon         Kind = "octagon"
	HalfMoon        Kind = "half-moon"
	Kite            Kind = "kite"
	Lozenge         Kind = "lozenge"
	Measured        Kind = "measured"
)

// Kinds lists every outline.
func Kinds() []Kind {
	return []Kind{Round, Oval, Pear, Marquise, Emerald, Square, Baguette,
		TaperedBaguette, Cushion, Trillion, Heart, Hexagon, Octagon, HalfMoon,
		Kite, Lozenge, Measured}
}

// Size is the size of an outline in mm. Length is the longer extent and Width
// the one across it; a round has both equal. Third is the small end of a
// tapered baguette, 0 elsewhere.
type Size struct {
	LengthMM, WidthMM float64
	ThirdMM           float64
}
