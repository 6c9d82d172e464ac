package outline

import "math"

// Trillion is the word of this outline.
const Trillion Kind = "trillion"

// trillionBulge is the rise of each side as a share of its chord.
const trillionBulge = 0.10

// A trillion of one number is even-sided: that number is its width, and its
// length follows.
var trillion = Description{
	Kind: Trillion, Aliases: []string{"triangle", "triangular"}, Summary: "three bulged sides", draw: drawTrillion,
	SizeNumbers: []int{1, 2}, FromWidth: math.Sqrt(3)/2 + trillionBulge, LengthOverWidth: 1, LengthFirst: true, Cut: CornerCut{Most: 0.25},
	Assumes: "trillion drawn with sides bulged by 10 % of their chord", Sample: Size{WidthMM: 6},
	CommonSizes: widths(4, 8, 1),
	DepthShare:  0.42, PavilionShare: 0.70, DepthSource: practice,
	Proportions: fancyProportions,
	Carat:       CaratFormula{Lengths: NoFormula},
	Prongs:      Prongs{At: OnCorners, Usual: 3},
}

func drawTrillion(s Shape) (Curve, error) {
	c, err := trillionBeforeFit(s)
	if err == nil && s.CutShare > 0 {
		c = fitted(c, s)
	}
	return c, err
}

// trillionBeforeFit has the size at the points, before they are cut.
func trillionBeforeFit(s Shape) (Curve, error) {
	w, l := s.Size.WidthMM, s.Size.LengthMM
	if l < 0.8*w || l > 1.3*w {
		return Curve{}, problem("a trillion of %.4g x %.4g mm: the length must be 0.8 to 1.3 times the width", l, w)
	}
	top := l/2 - trillionBulge*w
	corners := [3]Point{{0, -l / 2}, {w / 2, top}, {-w / 2, top}}
	var c Curve
	for i, a := range corners {
		c.Pieces = append(c.Pieces, bulged(a, corners[(i+1)%3], trillionBulge, i))
	}
	// Normals rise round the curve from the lower right side on.
	for i := 1; i < 3; i++ {
		for c.Pieces[i].From < c.Pieces[i-1].To {
			c.Pieces[i].From += 2 * math.Pi
			c.Pieces[i].To += 2 * math.Pi
		}
	}
	if s.CutShare > 0 {
		c = cutCorners(c, s.CutShare*w)
	}
	c.Places = []Place{
		midSide(c, "side", "in the middle of a side", 0),
		atCorner("corner", "at a corner", 0),
	}
	if s.CutShare > 0 {
		c.Places = append(c.Places, midSide(c, "cut", "in the middle of a cut corner", 1))
	} else {
		c.Places = append(c.Places, atCorner("point", "at the point", 0))
	}
	return c, nil
}

// fitted redraws a trillion with cut corners until the stone as cut, and not
// its points before the cut, has the size.
func fitted(c Curve, s Shape) Curve {
	want := s.Size
	for range 40 {
		got := c.Size()
		s.Size.LengthMM *= want.LengthMM / got.LengthMM
		s.Size.WidthMM *= want.WidthMM / got.WidthMM
		next, err := trillionBeforeFit(s)
		if err != nil {
			return c
		}
		c = next
	}
	return c
}

// bulged is the arc from a to b that rises by share of the chord to the right
// of the way (outward on a counter-clockwise outline).
func bulged(a, b Point, share float64, tag int) Piece {
	chord := b.sub(a)
	l := chord.norm()
	r := sagittaRadius(l, share*l)
	out := Point{chord.Y / l, -chord.X / l}
	centre := a.add(chord.times(0.5)).add(out.times(share*l - r))
	from, to := angleOf(a.sub(centre)), angleOf(b.sub(centre))
	return arc(centre, r, from, near(to, from), tag)
}

// cutCorners replaces each corner between two arcs by a straight cut of about
// the given width, square to the corner's bisector.
func cutCorners(c Curve, cut float64) Curve {
	n := len(c.Pieces)
	trimmed := make([]Piece, n)
	copy(trimmed, c.Pieces)
	for i := range c.Pieces {
		prev, next := (i+n-1)%n, i
		turn := c.Turning(i).Radians()
		bisector := normalAt(c.Pieces[prev].To + turn/2)
		// Straight sides would give the width cut at this depth.
		depth := cut / 2 / math.Tan((math.Pi-turn)/2)
		line := straight(c.Pieces[i].A.sub(bisector.times(depth)), Point{}, 0)
		line.From = angleOf(bisector)
		line.To = line.From
		end := nearestOf(line, c.Pieces[prev], c.Pieces[i].A)
		begin := nearestOf(line, c.Pieces[next], c.Pieces[i].A)
		trimmed[prev].endAt(end)
		trimmed[next].startAt(begin)
	}
	var out Curve
	for i, p := range trimmed {
		p.Tag = len(out.Pieces)
		out.Pieces = append(out.Pieces, p)
		out.Pieces = append(out.Pieces, straight(p.B, trimmed[(i+1)%n].A, len(out.Pieces)))
	}
	return out
}

// nearestOf is the meeting of the line with the arc that lies nearest to at.
func nearestOf(line, p Piece, at Point) Point {
	points, n, _ := crossLineCircle(line, p, firstRedundant)
	best := at
	for i, q := range points[:n] {
		if i == 0 || q.sub(at).norm() < best.sub(at).norm() {
			best = q
		}
	}
	return best
}
