package outline

import "math"

// Shape is what New needs to draw an outline.
type Shape struct {
	Kind Kind
	Size Size
	// CutShare is the corner cut of an emerald outline, or of a trillion with
	// cut corners, as a share of the width; 0 takes the default (DefaultCut),
	// and for a trillion means pointed.
	CutShare float64
	// Points are a measured outline's caliper points, mm, 8 to 64 of them, in
	// order round the stone; Polygon joins them by straight lines.
	Points  []Point
	Polygon bool
}

// Proportions of the drawn outlines where a size alone does not fix them.
// Common practice, no source: calibrated stones vary; answers name them.
const (
	// DefaultCut is the emerald outline's corner cut along each side, as a
	// share of the width.
	DefaultCut = 0.15
	// CushionRadius is the corner arc's radius as a share of the width, and
	// CushionBulge the rise of each side as a share of its length.
	CushionRadius = 0.20
	CushionBulge  = 0.05
	// TrillionBulge is the rise of each side as a share of its chord.
	TrillionBulge = 0.10
	// HeartLobe is a lobe's radius as a share of the width.
	HeartLobe = 0.27
	// BaguetteNarrow is a tapered baguette's small end as a share of the wide
	// one, where it is not given.
	BaguetteNarrow = 0.70
	// KiteShoulder is where a kite is widest, from its blunt end, as a share
	// of the length.
	KiteShoulder = 0.35
)

// Limits of a stone's extents, mm.
const (
	MinSizeMM = 0.8
	MaxSizeMM = 100
)

// Proportion tells in a few words what New assumes of the shape beyond its
// size, or "" where nothing.
func Proportion(s Shape) string {
	switch s.Kind {
	case Emerald:
		if s.CutShare == 0 {
			return "corner cut 15 % of the width along each side"
		}
	case Cushion:
		return "cushion drawn with corner radius 20 % of the width and sides bulged by 5 % of their length"
	case Trillion:
		return "trillion drawn with sides bulged by 10 % of their chord"
	case Heart:
		return "heart drawn with lobes of radius 27 % of the width"
	case TaperedBaguette:
		if s.Size.ThirdMM == 0 {
			return "small end 70 % of the wide end"
		}
	case Kite:
		return "kite widest at 35 % of its length from the blunt end"
	}
	return ""
}

// New draws an outline. A length and width that are swapped are put right
// where the kind has a long way; a missing length is taken equal to the width
// (or as the kind has it: a regular hexagon's points, an even trillion).
// The error is an *Error with a sentence for the maker.
func New(s Shape) (Curve, error) {
	if s.Kind == Measured {
		return measured(s.Points, s.Polygon)
	}
	draw, known := shapes[s.Kind]
	if !known {
		return Curve{}, problem("there is no outline %q", string(s.Kind))
	}
	if s.Size.LengthMM == 0 {
		s.Size.LengthMM = s.Size.WidthMM * single(s.Kind)
	}
	for _, mm := range []float64{s.Size.LengthMM, s.Size.WidthMM} {
		if !(mm >= MinSizeMM && mm <= MaxSizeMM) {
			return Curve{}, problem("a stone of %.4g mm is outside %.3g to %.3g mm", mm, float64(MinSizeMM), float64(MaxSizeMM))
		}
	}
	if s.Size.WidthMM > s.Size.LengthMM && longWay(s.Kind) {
		s.Size.LengthMM, s.Size.WidthMM = s.Size.WidthMM, s.Size.LengthMM
	}
	c, err := draw(s)
	if err != nil {
		return Curve{}, err
	}
	if s.Kind == Trillion && s.CutShare > 0 {
		c = fitted(c, s)
	}
	c.Kind = s.Kind
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
		next, err := trillion(s)
		if err != nil {
			return c
		}
		c = next
	}
	return c
}

// single is the length of an outline given by its width alone, as a multiple.
func single(k Kind) float64 {
	switch k {
	case Hexagon:
		return 2 / math.Sqrt(3) // regular: width across the flats
	case Trillion:
		return math.Sqrt(3)/2 + TrillionBulge // even-sided
	case HalfMoon:
		return 2 // half a round
	}
	return 1
}

// longWay reports whether the longer of two sizes is always the length.
func longWay(k Kind) bool { return k != Trillion && k != Heart && k != TaperedBaguette }

// shapes has the one function that draws each kind.
var shapes = map[Kind]func(Shape) (Curve, error){
	Round:           round,
	Oval:            oval,
	Pear:            pear,
	Marquise:        marquise,
	Emerald:         emerald,
	Square:          square,
	Baguette:        baguette,
	TaperedBaguette: taperedBaguette,
	Cushion:         cushion,
	Trillion:        trillion,
	Heart:           heart,
	Hexagon:         hexagon,
	Octagon:         octagon,
	HalfMoon:        halfMoon,
	Kite:            kite,
	Lozenge:         lozenge,
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

func round(s Shape) (Curve, error) {
	d := s.Size
	if d.LengthMM != d.WidthMM {
		return Curve{}, problem("a round has one size, not %.4g x %.4g mm; an oval has two", d.LengthMM, d.WidthMM)
	}
	c := Curve{Pieces: []Piece{arc(Point{}, d.WidthMM/2, -math.Pi, math.Pi, 0)}}
	c.Places = []Place{{Name: "side", Summary: "anywhere", Normal: 0}}
	return c, nil
}

func oval(s Shape) (Curve, error) {
	a, b := s.Size.WidthMM/2, s.Size.LengthMM/2
	if a == b {
		return round(s)
	}
	if b > 8*a {
		return Curve{}, problem("an oval of %.4g x %.4g mm is more than 8 times longer than wide", 2*b, 2*a)
	}
	c := Curve{Pieces: []Piece{elliptic(Point{}, a, b, 0, -math.Pi/2, 3*math.Pi/2, 0)}}
	c.Places = []Place{
		{Name: "side", Summary: "along a flat side", Normal: 0},
		{Name: "end", Summary: "at an end", Normal: math.Pi / 2},
	}
	return c, nil
}

// tipArc gives radius and half range of the arc that leaves x = halfWidth at
// right angles to the X axis and meets the Y axis at the distance tip:
// (halfWidth - R)^2 + tip^2 = R^2.
func tipArc(halfWidth, tip float64) (radius, angle float64) {
	radius = (halfWidth*halfWidth + tip*tip) / (2 * halfWidth)
	return radius, math.Atan2(tip, radius-halfWidth)
}

func pear(s Shape) (Curve, error) {
	l, half := s.Size.LengthMM, s.Size.WidthMM/2
	if l < 1.05*2*half || l > 6*half*2 {
		return Curve{}, problem("a pear of %.4g x %.4g mm: the length must be 1.05 to 6 times the width", l, 2*half)
	}
	r, g := tipArc(half, l-half)
	up := Point{0, l/2 - half} // the half circle's centre, so that the box is centred
	c := Curve{Pieces: []Piece{
		arc(Point{half - r, up.Y}, r, -g, 0, 0),
		arc(up, half, 0, math.Pi, 1),
		arc(Point{r - half, up.Y}, r, math.Pi, math.Pi+g, 2),
	}}
	c.Places = []Place{
		atCorner("point", "at the point", 0),
		{Name: "end", Summary: "at the round end", Tag: 1, Normal: math.Pi / 2},
		{Name: "side", Summary: "on a long side", Tag: 0, Normal: -g / 2},
	}
	return c, nil
}

func marquise(s Shape) (Curve, error) {
	l, half := s.Size.LengthMM, s.Size.WidthMM/2
	if l < 1.15*2*half || l > 6*half*2 {
		return Curve{}, problem("a marquise of %.4g x %.4g mm: the length must be 1.15 to 6 times the width", l, 2*half)
	}
	r, g := tipArc(half, l/2)
	c := Curve{Pieces: []Piece{
		arc(Point{half - r, 0}, r, -g, g, 0),
		arc(Point{r - half, 0}, r, math.Pi-g, math.Pi+g, 1),
	}}
	c.Places = []Place{
		atCorner("point", "at a point", 0),
		{Name: "side", Summary: "in the middle of a side", Tag: 0, Normal: 0},
	}
	return c, nil
}

func emerald(s Shape) (Curve, error) {
	share := s.CutShare
	if share == 0 {
		share = DefaultCut
	}
	if !(share >= 0.02 && share <= 0.45) {
		return Curve{}, problem("a corner cut of %.4g %% of the width is outside 2 to 45 %%", 100*share)
	}
	return cutRectangle(s.Size, share*s.Size.WidthMM), nil
}

func octagon(s Shape) (Curve, error) {
	return cutRectangle(s.Size, s.Size.WidthMM/(2+math.Sqrt2)), nil
}

// cutRectangle is a rectangle with each corner cut by leg along both sides;
// piece 0 is the right-hand long side.
func cutRectangle(d Size, leg float64) Curve {
	x, y := d.WidthMM/2, d.LengthMM/2
	c := polygon(
		Point{x, -y + leg}, Point{x, y - leg}, Point{x - leg, y}, Point{-x + leg, y},
		Point{-x, y - leg}, Point{-x, -y + leg}, Point{-x + leg, -y}, Point{x - leg, -y})
	c.Places = []Place{
		midSide(c, "side", "in the middle of a long side", 0),
		midSide(c, "end", "in the middle of a short side", 2),
		midSide(c, "cut", "in the middle of a cut corner", 1),
		atCorner("corner", "at a corner", 1),
	}
	return c
}

func square(s Shape) (Curve, error) {
	d := s.Size
	if d.LengthMM != d.WidthMM {
		return Curve{}, problem("a square has one size, not %.4g x %.4g mm; a baguette has two", d.LengthMM, d.WidthMM)
	}
	c, err := baguette(s)
	c.Places = c.Places[:0]
	c.Places = append(c.Places, midSide(c, "side", "in the middle of a side", 0), atCorner("corner", "at a corner", 0))
	return c, err
}

func baguette(s Shape) (Curve, error) {
	x, y := s.Size.WidthMM/2, s.Size.LengthMM/2
	c := polygon(Point{x, -y}, Point{x, y}, Point{-x, y}, Point{-x, -y})
	c.Places = []Place{
		midSide(c, "side", "in the middle of a long side", 0),
		midSide(c, "end", "in the middle of a short side", 1),
		atCorner("corner", "at a corner", 0),
	}
	return c, nil
}

func taperedBaguette(s Shape) (Curve, error) {
	x, y, n := s.Size.WidthMM/2, s.Size.LengthMM/2, s.Size.ThirdMM/2
	if n == 0 {
		n = BaguetteNarrow * x
	}
	if n > x {
		n, x = x, n
	}
	if n < MinSizeMM/2 || n >= 0.999*x {
		return Curve{}, problem("a tapered baguette's small end of %.4g mm must be %.3g mm or more and less than its wide end of %.4g mm", 2*n, float64(MinSizeMM), 2*x)
	}
	c := polygon(Point{n, -y}, Point{x, y}, Point{-x, y}, Point{-n, -y})
	c.Places = []Place{
		midSide(c, "side", "in the middle of a long side", 0),
		midSide(c, "end", "in the middle of the wide end", 1),
		atCorner("corner", "at a corner of the small end", 0),
	}
	return c, nil
}

// sagittaRadius is the radius of the arc of the given chord and rise.
func sagittaRadius(chord, rise float64) float64 { return (chord*chord/4 + rise*rise) / (2 * rise) }

func cushion(s Shape) (Curve, error) {
	x, y := s.Size.WidthMM/2, s.Size.LengthMM/2
	if y > 2.5*x {
		return Curve{}, problem("a cushion of %.4g x %.4g mm is more than 2.5 times longer than wide", 2*y, 2*x)
	}
	rc := CushionRadius * 2 * x
	rx := sagittaRadius(2*y, CushionBulge*2*y) // of the long sides, which face ±X
	ry := sagittaRadius(2*x, CushionBulge*2*x)
	long, end := Point{x - rx, 0}, Point{0, y - ry}
	// The corner arc touches both sides from inside: its centre is at rx - rc
	// from one centre and at ry - rc from the other.
	centre, ok := circlesMeet(long, rx-rc, end, ry-rc)
	if !ok {
		return Curve{}, problem("a cushion of %.4g x %.4g mm can't be drawn with these proportions", 2*y, 2*x)
	}
	a := angleOf(centre.sub(long))
	b := angleOf(centre.sub(end))
	h := math.Pi
	q := func(sx, sy float64) Point { return Point{sx * centre.X, sy * centre.Y} }
	c := Curve{Pieces: []Piece{
		arc(long, rx, -a, a, 0),
		arc(q(1, 1), rc, a, b, 1),
		arc(end, ry, b, h-b, 2),
		arc(q(-1, 1), rc, h-b, h-a, 3),
		arc(Point{-long.X, 0}, rx, h-a, h+a, 4),
		arc(q(-1, -1), rc, h+a, h+b, 5),
		arc(Point{0, -end.Y}, ry, h+b, 2*h-b, 6),
		arc(q(1, -1), rc, 2*h-b, 2*h-a, 7),
	}}
	c.Places = []Place{
		midSide(c, "side", "in the middle of a long side", 0),
		midSide(c, "end", "in the middle of a short side", 2),
		midSide(c, "corner", "in the middle of a corner arc", 1),
	}
	return c, nil
}

// circlesMeet is the meeting point with positive X and Y.
func circlesMeet(p Point, rp float64, q Point, rq float64) (Point, bool) {
	points, _ := crossCircles(Piece{Kind: Arc, Centre: p, Radius: rp}, Piece{Kind: Arc, Centre: q, Radius: rq})
	for _, at := range points {
		if at.X > 0 && at.Y > 0 {
			return at, true
		}
	}
	return Point{}, false
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

func trillion(s Shape) (Curve, error) {
	w, l := s.Size.WidthMM, s.Size.LengthMM
	if l < 0.8*w || l > 1.3*w {
		return Curve{}, problem("a trillion of %.4g x %.4g mm: the length must be 0.8 to 1.3 times the width", l, w)
	}
	if s.CutShare < 0 || s.CutShare > 0.25 {
		return Curve{}, problem("a corner cut of %.4g %% of the width is outside 0 to 25 %%", 100*s.CutShare)
	}
	top := l/2 - TrillionBulge*w
	corners := [3]Point{{0, -l / 2}, {w / 2, top}, {-w / 2, top}}
	var c Curve
	for i, a := range corners {
		c.Pieces = append(c.Pieces, bulged(a, corners[(i+1)%3], TrillionBulge, i))
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
	points, _ := crossLineCircle(line, p, firstRedundant)
	best := at
	for i, q := range points {
		if i == 0 || q.sub(at).norm() < best.sub(at).norm() {
			best = q
		}
	}
	return best
}

func heart(s Shape) (Curve, error) {
	w, l := s.Size.WidthMM, s.Size.LengthMM
	if l < 0.85*w || l > 1.5*w {
		return Curve{}, problem("a heart of %.4g x %.4g mm: the length must be 0.85 to 1.5 times the width", l, w)
	}
	r := HeartLobe * w
	x := w/2 - r
	cleft := math.Acos(x / r) // the lobe's normal at the cleft, from -X
	side, g := tipArc(w/2, l-r)
	y := l/2 - r
	c := Curve{Pieces: []Piece{
		arc(Point{w/2 - side, y}, side, -g, 0, 0),
		arc(Point{x, y}, r, 0, math.Pi-cleft, 1),
		arc(Point{-x, y}, r, cleft, math.Pi, 2),
		arc(Point{side - w/2, y}, side, math.Pi, math.Pi+g, 3),
	}}
	c.Places = []Place{
		atCorner("cleft", "at the cleft", 2),
		atCorner("point", "at the point", 0),
		{Name: "side", Summary: "on a side", Tag: 0, Normal: -g / 2},
	}
	return c, nil
}

func hexagon(s Shape) (Curve, error) {
	x, y := s.Size.WidthMM/2, s.Size.LengthMM/2
	q := x / math.Sqrt(3) // the slanted sides' rise at the regular 120 degrees
	if y < 1.2*q {
		return Curve{}, problem("a hexagon of %.4g x %.4g mm is shorter than its points", 2*y, 2*x)
	}
	c := polygon(Point{x, q - y}, Point{x, y - q}, Point{0, y}, Point{-x, y - q}, Point{-x, q - y}, Point{0, -y})
	c.Places = []Place{
		midSide(c, "side", "in the middle of a side", 0),
		atCorner("corner", "at a corner", 1),
		atCorner("point", "at a point", 2),
	}
	return c, nil
}

func halfMoon(s Shape) (Curve, error) {
	l, w := s.Size.LengthMM, s.Size.WidthMM
	if w > l/2*(1+1e-12) || w < l/12 {
		return Curve{}, problem("a half-moon of %.4g x %.4g mm: the width must be one twelfth to one half of the length", l, w)
	}
	r := sagittaRadius(l, w)
	g := math.Asin(math.Min(1, l/2/r))
	rounded := arc(Point{w/2 - r, 0}, r, -g, g, 1)
	flat := straight(rounded.B, rounded.A, 0)
	flat.From, flat.To = math.Pi, math.Pi
	c := Curve{Pieces: []Piece{flat, rounded}}
	c.Pieces[1].From += 2 * math.Pi
	c.Pieces[1].To += 2 * math.Pi
	c.Places = []Place{
		midSide(c, "side", "in the middle of the flat side", 0),
		{Name: "end", Summary: "in the middle of the round side", Tag: 1, Normal: 0},
		atCorner("corner", "at a corner", 1),
	}
	return c, nil
}

func kite(s Shape) (Curve, error) {
	x, y := s.Size.WidthMM/2, s.Size.LengthMM/2
	shoulder := y - KiteShoulder*2*y
	return diamond(x, y, shoulder, s)
}

func lozenge(s Shape) (Curve, error) {
	return diamond(s.Size.WidthMM/2, s.Size.LengthMM/2, 0, s)
}

func diamond(x, y, shoulder float64, s Shape) (Curve, error) {
	if y > 5*x {
		return Curve{}, problem("a %s of %.4g x %.4g mm is more than 5 times longer than wide", s.Kind, 2*y, 2*x)
	}
	c := polygon(Point{0, -y}, Point{x, shoulder}, Point{0, y}, Point{-x, shoulder})
	c.Places = []Place{
		atCorner("point", "at the long point", 0),
		midSide(c, "side", "in the middle of a side", 0),
		atCorner("corner", "at a side corner", 1),
	}
	return c, nil
}
