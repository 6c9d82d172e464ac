package prong

import (
	"fmt"
	"math"
	"slices"

	"guildhand/calc/development"
	"guildhand/calc/outline"
	"guildhand/calc/setting"
)

// Work is how the prongs are cut.
type Work struct {
	WidthMM float64
	// GalleryMM is the height of wall left above the base, along the slant.
	GalleryMM float64
	// DrillMM is the drill for the windows' corners.
	DrillMM float64
}

// LeastWindowMM is the narrowest window that a saw and a file can clean.
// Common practice, no source.
const LeastWindowMM = 0.6

// DrillStepMM and the range of drills to choose from: stock twist drills come
// in tenths. Common practice, no source.
const (
	DrillStepMM  = 0.1
	LeastDrillMM = 0.5
	MostDrillMM  = 1.6
)

// UsualWidth is the usual width of a prong for a wall and a stone, mm: an
// eighth of the stone's mean size, not less than one and a half walls or 0.8
// mm, in steps of 0.05 mm. Common practice, no source.
func UsualWidth(wallMM float64, stone outline.Size) float64 {
	w := math.Max(0.8, math.Max(1.5*wallMM, math.Sqrt(stone.LengthMM*stone.WidthMM)/8))
	return math.Round(math.Min(w, 2.5)*20) / 20
}

// UsualGallery is what is usually left solid above the base: a third of the
// slant, not less than 1 mm. Common practice, no source.
func UsualGallery(slantMM float64) float64 { return math.Max(1, math.Round(slantMM*10/3)/10) }

// Prong is a prong on the blank.
type Prong struct {
	Spot
	// Centre runs from the rim to the window's depth. A prong at the seam has
	// its centre on seam A.
	Centre development.Line
	// AtSeam marks a prong that is half at either end of the blank.
	AtSeam bool
}

// Window is what is sawn out between two prongs.
type Window struct {
	// Edge goes down along one prong, along the bottom and up along the next,
	// from rim to rim. A window that the seam divides is two, each ending at a
	// seam edge.
	Edge []development.Point
	// RimMM and BottomMM are its widths.
	RimMM, BottomMM float64
	// Drills are the centres of the holes to drill first.
	Drills []development.Point
}

// Plan is prongs and windows on a blank.
type Plan struct {
	Work
	Prongs  []Prong
	Windows []Window
	// DepthMM of the windows below the rim, along the slant.
	DepthMM float64
	// NarrowestMM is the narrowest window at its bottom, WidestMM the widest
	// at the rim.
	NarrowestMM, WidestMM float64
	// SeamInProng is set where the seam lies in a prong.
	SeamInProng bool
}

// line is the blank as a list of straight lines from rim to base, with the
// length along the rim up to each.
type station struct {
	rim, base development.Point
	s         float64
}

type blank struct {
	stations []station
	lengthMM float64
	slantMM  float64
}

// Lay draws the prongs on the collet's blank. The error is an *Error.
func Lay(c setting.Collet, spots []Spot, w Work) (*Plan, error) {
	// The blank's lines lie half a kerf outside the finished edges.
	kerf := 0.0
	if c.Taper != setting.BaseGiven {
		kerf = c.KerfMM
	}
	b := blankOf(c.Flat, c.SlantMM+kerf)
	depth := c.SlantMM - w.GalleryMM
	if seat := c.BearingLineMM(); depth < seat {
		return nil, &Error{fmt.Sprintf("%.2f mm left above the base leaves windows only %.2f mm deep, and the seat lies %.2f mm below the rim: leave %.2f mm or less",
			w.GalleryMM, depth, seat, math.Max(0, math.Floor((c.SlantMM-seat)*100)/100)), 0}
	}
	p := &Plan{Work: w, DepthMM: depth, NarrowestMM: math.Inf(1)}
	places := make([]float64, len(spots))
	for i, spot := range spots {
		s, err := b.find(c, spot)
		if err != nil {
			return nil, err
		}
		places[i] = s
	}
	order := make([]int, len(spots))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int {
		if places[i] < places[j] {
			return -1
		}
		return 1
	})
	share := (depth + kerf/2) / b.slantMM
	for _, i := range order {
		r, m := b.at(places[i], 0), b.at(places[i], share)
		q := Prong{Spot: spots[i], Centre: development.Line{A: r, B: m}}
		if places[i] < w.WidthMM/2 || places[i] > b.lengthMM-w.WidthMM/2 {
			q.AtSeam, p.SeamInProng = true, true
		}
		p.Prongs = append(p.Prongs, q)
	}
	if err := p.windows(b, places, order, share); err != nil {
		return nil, err
	}
	return p, nil
}

// blankOf lists the blank's straight lines: seam A, the rulings, seam B. The
// strips of bent corners lie between two rulings.
func blankOf(f development.Flat, slantMM float64) blank {
	b := blank{slantMM: slantMM}
	add := func(rim, base development.Point) {
		s := 0.0
		if n := len(b.stations); n > 0 {
			last := b.stations[n-1]
			d := distance(last.rim, rim)
			if d < 1e-9 && distance(last.base, base) < 1e-9 {
				return
			}
			s = last.s + d
		}
		b.stations = append(b.stations, station{rim, base, s})
	}
	add(f.SeamA.A, f.SeamA.B)
	for _, r := range f.Rulings {
		add(r.FlatRim, r.FlatBase)
	}
	add(f.SeamB.A, f.SeamB.B)
	b.lengthMM = b.stations[len(b.stations)-1].s
	return b
}

func distance(p, q development.Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

func mix(p, q development.Point, u float64) development.Point {
	return development.Point{X: p.X + u*(q.X-p.X), Y: p.Y + u*(q.Y-p.Y)}
}

// at is the point of the blank at the length s along the rim and the share v
// of the way down to the base.
func (b blank) at(s, v float64) development.Point {
	i, _ := slices.BinarySearchFunc(b.stations, s, func(st station, s float64) int {
		if st.s < s {
			return -1
		}
		return 1
	})
	i = min(max(i, 1), len(b.stations)-1)
	l, r := b.stations[i-1], b.stations[i]
	u := 0.5
	if r.s > l.s {
		u = math.Max(0, math.Min(1, (s-l.s)/(r.s-l.s)))
	}
	return mix(mix(l.rim, r.rim, u), mix(l.base, r.base, u), v)
}

// find is the length along the blank's rim at which a spot of the stone lies:
// where the line square to the outline there meets the wall.
func (b blank) find(c setting.Collet, spot Spot) (float64, error) {
	at, phi := c.Stone.AtLength(spot.AtMM)
	if spot.Corner {
		phi = bisector(c.Stone, spot.AtMM)
	}
	n := outline.Point{X: math.Cos(phi), Y: math.Sin(phi)}
	// cross is how far a point of the wall lies to the left of the line.
	cross := func(r development.Ruling) (side, along float64) {
		dx, dy := r.SpaceRim[0]-at.X, r.SpaceRim[1]-at.Y
		return n.X*dy - n.Y*dx, n.X*dx + n.Y*dy
	}
	rulings := c.Flat.Rulings
	last := len(rulings) - 1
	best, found, nearestAlong := 0.0, false, math.Inf(1)
	for i := range rulings {
		j := i + 1
		if i == last {
			j = 0
		}
		s0, a0 := cross(rulings[i])
		s1, a1 := cross(rulings[j])
		// Counter-clockwise the wall passes the line from right to left.
		if s0 > 1e-9 || s1 < -1e-9 || s1-s0 < 1e-12 {
			continue
		}
		u := -s0 / (s1 - s0)
		along := a0 + u*(a1-a0)
		if along < -c.ThicknessMM || math.Abs(along) > nearestAlong {
			continue
		}
		nearestAlong, found = math.Abs(along), true
		if i == last {
			best = 0 // between the two seam ends
			continue
		}
		p, q := b.length(rulings[i].FlatRim), b.length(rulings[j].FlatRim)
		best = p + u*(q-p)
	}
	if !found {
		return 0, &Error{"a prong's place is not on the wall: the outline changes too much between stone and rim", 0}
	}
	return best, nil
}

// length is the length along the rim of a station's rim point.
func (b blank) length(p development.Point) float64 {
	best, s := math.Inf(1), 0.0
	for _, st := range b.stations {
		if d := distance(st.rim, p); d < best {
			best, s = d, st.s
		}
	}
	return s
}

// bisector is the direction half-way round the corner at the arc length mm.
func bisector(c outline.Curve, mm float64) float64 {
	at, p := 0.0, c.PerimeterMM()
	for i, piece := range c.Pieces {
		if t := c.Turning(i).Radians(); t != 0 && math.Abs(math.Remainder(mm-at, p)) < 1e-6*p {
			return piece.From - t/2
		}
		at += piece.LengthMM()
	}
	_, phi := c.AtLength(mm)
	return phi
}

// windows draws what lies between neighbouring prongs.
func (p *Plan) windows(b blank, places []float64, order []int, share float64) error {
	half := p.WidthMM / 2
	last := len(order) - 1
	for i := range last {
		if err := p.add(b, places[order[i]]+half, places[order[i+1]]-half, share, both); err != nil {
			return err
		}
	}
	// The last window runs over the seam to the first prong.
	from, rest := places[order[last]]+half, places[order[0]]-half
	switch over := from - b.lengthMM; {
	case over > 0: // the last prong runs over the seam
		return p.add(b, over, rest, share, both)
	case rest <= 0: // the first prong does
		return p.add(b, from, b.lengthMM+rest, share, both)
	}
	return p.divided(b, from, rest, share)
}

// sides reports which ends of a window have a prong; a seam edge is the
// other kind of end.
type sides int

const (
	both sides = iota
	leftOnly
	rightOnly
)

// divided adds a window that the seam cuts in two.
func (p *Plan) divided(b blank, from, rest, share float64) error {
	if from < b.lengthMM-1e-6 {
		if err := p.cut(b, from, b.lengthMM, share, leftOnly); err != nil {
			return err
		}
	}
	if rest > 1e-6 {
		if err := p.cut(b, 0, rest, share, rightOnly); err != nil {
			return err
		}
	}
	return p.measure(b.lengthMM-from+rest, b.width(from, b.lengthMM, share)+b.width(0, rest, share))
}

func (p *Plan) add(b blank, from, to, share float64, ends sides) error {
	if to-from < LeastWindowMM {
		return p.tooNarrow(to - from)
	}
	if err := p.cut(b, from, to, share, ends); err != nil {
		return err
	}
	return p.measure(to-from, b.width(from, to, share))
}

func (p *Plan) measure(rim, bottom float64) error {
	if bottom < LeastWindowMM {
		return p.tooNarrow(bottom)
	}
	p.NarrowestMM = math.Min(p.NarrowestMM, bottom)
	p.WidestMM = math.Max(p.WidestMM, rim)
	return nil
}

func (p *Plan) tooNarrow(mm float64) error {
	return &Error{fmt.Sprintf("%d prongs of %.2f mm leave a window of %.2f mm, less than the %.1f mm that can be cleaned", len(p.Prongs), p.WidthMM, math.Max(0, mm), LeastWindowMM),
		max(2, len(p.Prongs)-1)}
}

// width is the length of the window's bottom between two places of the rim,
// less what parallel prong sides take there.
func (b blank) width(from, to, share float64) float64 {
	bottom := b.bottom(from, to, share)
	sum := 0.0
	for i := 1; i < len(bottom); i++ {
		sum += distance(bottom[i-1], bottom[i])
	}
	return sum
}

// bottom is the line at the share of the way down, between two places.
func (b blank) bottom(from, to, share float64) []development.Point {
	points := []development.Point{b.at(from, share)}
	for _, st := range b.stations {
		if st.s > from+1e-6 && st.s < to-1e-6 {
			points = append(points, mix(st.rim, st.base, share))
		}
	}
	return append(points, b.at(to, share))
}

// cut draws one window or part of one. Its sides go straight down from the
// rim, parallel to the middle of their prong, so that prongs keep their width.
func (p *Plan) cut(b blank, from, to, share float64, ends sides) error {
	half := p.WidthMM / 2
	foot := func(edge, prong float64) float64 {
		// Where the parallel to the prong's middle meets the bottom: the
		// rulings close up on the way down, so the side crosses some.
		mid, down := b.at(prong, 0), b.at(prong, share)
		rim := b.at(edge, 0)
		end := development.Point{X: rim.X + down.X - mid.X, Y: rim.Y + down.Y - mid.Y}
		// The bottom line is nearest to end at some place not further on than a
		// prong's width.
		lo, hi := edge, edge+2*(edge-prong)
		for range 40 {
			l, r := lo+(hi-lo)/3, hi-(hi-lo)/3
			if distance(b.at(l, share), end) < distance(b.at(r, share), end) {
				hi = r
			} else {
				lo = l
			}
		}
		return math.Max(0, math.Min(b.lengthMM, (lo+hi)/2))
	}
	lo, hi := from, to
	if ends != rightOnly {
		lo = foot(from, from-half)
	}
	if ends != leftOnly {
		hi = foot(to, to+half)
	}
	if hi-lo < LeastWindowMM/4 {
		return p.tooNarrow(b.width(from, to, share))
	}
	bottom := b.bottom(lo, hi, share)
	w := Window{RimMM: to - from}
	for i := 1; i < len(bottom); i++ {
		w.BottomMM += distance(bottom[i-1], bottom[i])
	}
	w.Edge = append(append([]development.Point{b.at(from, 0)}, bottom...), b.at(to, 0))
	r := p.DrillMM / 2
	up := share - r/b.slantMM
	scale := (hi - lo) / math.Max(w.BottomMM, 1e-9) // rim length per bottom length
	if w.BottomMM > 2.2*p.DrillMM || ends != both {
		if ends != rightOnly {
			w.Drills = append(w.Drills, b.at(lo+r*scale, up))
		}
		if ends != leftOnly {
			w.Drills = append(w.Drills, b.at(hi-r*scale, up))
		}
	} else {
		w.Drills = append(w.Drills, b.at((lo+hi)/2, up))
	}
	p.Windows = append(p.Windows, w)
	return nil
}

// UsualDrill is the drill for windows whose narrowest bottom is given: a
// quarter of it, from the stock sizes.
func UsualDrill(bottomMM float64) float64 {
	d := math.Floor(bottomMM/4/DrillStepMM+1e-9) * DrillStepMM
	return math.Max(LeastDrillMM, math.Min(MostDrillMM, d))
}
