package outline

// Kind is a stone outline's word; each stands in the file of its outline.
type Kind string

// Size is the size of an outline in mm. Length is the longer extent and Width
// the one across it; a round has both equal. Third is the small end of a
// tapered baguette, 0 elsewhere.
type Size struct {
	LengthMM, WidthMM float64
	ThirdMM           float64
}

// Shape is what New needs to draw an outline.
type Shape struct {
	Kind Kind
	Size Size
	// CutShare is the corner cut as a share of the width, where the outline has
	// one to choose; 0 takes its default, which for a trillion is pointed.
	CutShare float64
	// Points are a measured outline's caliper points, mm, 8 to 64 of them, in
	// order round the stone; Polygon joins them by straight lines.
	Points  []Point
	Polygon bool
}

// Limits of a stone's extents, mm.
const (
	MinSizeMM = 0.8
	MaxSizeMM = 100
)

// Assumed says in a few words what New assumes beyond what the maker gave, or
// "" if nothing. Common practice, no source:
// calibrated stones vary.
func Assumed(s Shape) string {
	d := s.Kind.Describe()
	if s.Size.ThirdMM > 0 || d.Cut.Default > 0 && s.CutShare > 0 {
		return ""
	}
	return d.Assumes
}

// New draws an outline. It swaps length and width if the width is the longer
// one, unless the description says that the length comes first, and works out
// a missing length from the width. The error is an *Error with a sentence for
// the maker.
func New(s Shape) (Curve, error) {
	d := s.Kind.Describe()
	if d.draw == nil {
		return Curve{}, problem("there is no outline %q", string(s.Kind))
	}
	if len(d.SizeNumbers) > 0 {
		s.Size = d.filled(s.Size)
		for _, mm := range []float64{s.Size.LengthMM, s.Size.WidthMM} {
			if !(mm >= MinSizeMM && mm <= MaxSizeMM) {
				return Curve{}, problem("a stone of %.4g mm is outside %.3g to %.3g mm", mm, float64(MinSizeMM), float64(MaxSizeMM))
			}
		}
	}
	if s.CutShare == 0 {
		s.CutShare = d.Cut.Default
	}
	if cut := d.Cut; cut.Most > 0 && !(s.CutShare >= cut.Least && s.CutShare <= cut.Most) {
		return Curve{}, problem("a corner cut of %.4g %% of the width is outside %.4g to %.4g %%", 100*s.CutShare, 100*cut.Least, 100*cut.Most)
	}
	c, err := d.draw(s)
	if err != nil {
		return Curve{}, err
	}
	c.Kind = s.Kind
	return c, nil
}

// polygon joins the corners by straight pieces; consecutive corners that
// coincide are joined into one.
func polygon(corners ...Point) Curve {
	var c Curve
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		if b.sub(a).norm() < 1e-9 {
			continue
		}
		c.Pieces = append(c.Pieces, straight(a, b, len(c.Pieces)))
	}
	return c
}

// midSide is the place in the middle of the straight or bulged piece tag.
func midSide(c Curve, name, summary string, tag int) Place {
	p := c.Pieces[tag]
	return Place{Name: name, Summary: summary, Tag: tag, Normal: (p.From + p.To) / 2}
}

func atCorner(name, summary string, tag int) Place {
	return Place{Name: name, Summary: summary, Tag: tag, AtCorner: true}
}

// sideAndEnd name the middles of the sides that face across and along the stone:
// only an oblong one has long sides and short ones.
func sideAndEnd(d Size) (side, end string) {
	if d.LengthMM == d.WidthMM {
		return "in the middle of a side", "in the middle of an end"
	}
	return "in the middle of a long side", "in the middle of a short side"
}
