// Package finished makes the bodies of finished pieces, to be looked at: the
// wall of a setting with its bearing cut, or sawn into prongs, the stone that
// sits in it, a cabochon in its bezel, a shank, a dome. Measures are those of
// the computations that the piece was cut by.
package finished

import (
	"math"
	"slices"

	"guildhand/calc/axonometric"
	"guildhand/calc/outline"
	"guildhand/calc/prong"
	"guildhand/calc/setting"
)

// Collet is a tapered setting filed level, its bearing cut, with its stone.
func Collet(c setting.Collet) ([]axonometric.Body, error) { return collet(c, nil) }

// Prongs is a collet sawn into prongs.
func Prongs(c setting.Collet, p *prong.Plan) ([]axonometric.Body, error) { return collet(c, p) }

func collet(c setting.Collet, plan *prong.Plan) ([]axonometric.Body, error) {
	w, err := wallOf(c)
	if err != nil {
		return nil, err
	}
	var cells []cell
	gallery := math.Inf(-1)
	if plan != nil {
		gallery = w.base + plan.GalleryMM*c.MeanLean.Cos()
		cells = w.sawn(c, plan, gallery)
	}
	bodies := []axonometric.Body{w.body(cells, gallery, c)}
	if c.Solid.PavilionMM > 0 {
		bodies = append(bodies, Stone(c.Solid, c.Seat.RestMM))
	}
	return bodies, nil
}

// wall is a collet's wall as rings of matched points.
type wall struct {
	rim, base                                            float64
	rimOuter, baseOuter, rimInner, baseInner, stone, cut []outline.Point
	floor, top                                           float64 // of the bearing, as heights
	ledge                                                bool
}

func wallOf(c setting.Collet) (wall, error) {
	cut, err := c.Stone.Offset(c.ClearanceMM)
	if err != nil {
		return wall{}, err
	}
	r := matched(c.RimOuter, c.BaseOuter, c.RimInner, c.BaseInner, c.Stone, cut)
	return wall{
		rim: c.RimMM, base: c.RimMM - c.HeightMM,
		rimOuter: r[0], baseOuter: r[1], rimInner: r[2], baseInner: r[3], stone: r[4], cut: r[5],
		floor: -c.Seat.FloorMM, top: c.Wall().BearingTopMM(),
		ledge: c.LedgeMM > 0 && !c.Seat.Wedges && !c.Seat.Unsupported,
	}, nil
}

// at is a point of a ring between two of its points.
func at(ring []outline.Point, place float64) outline.Point {
	n := len(ring)
	i := int(math.Floor(place))
	p, q := ring[((i%n)+n)%n], ring[(((i+1)%n)+n)%n]
	t := place - float64(i)
	return outline.Point{X: p.X + t*(q.X-p.X), Y: p.Y + t*(q.Y-p.Y)}
}

// slanted is the point of a straight ruling at the height z.
func (w wall) slanted(rim, base []outline.Point, place, z float64) axonometric.Point {
	p, q := at(rim, place), at(base, place)
	a := axonometric.Point{X: q.X, Y: q.Y, Z: w.base}
	return a.Mix(axonometric.Point{X: p.X, Y: p.Y, Z: w.rim}, (z-w.base)/(w.rim-w.base))
}

// inside are the points of the wall's inner side above the height z, upward:
// the floor of the bearing, its side, and what is left of the wall's own face.
func (w wall) inside(z float64, place, rimPlace float64) []axonometric.Point {
	along := func(h float64) float64 { return place + (rimPlace-place)*max(0, h-z)/(w.rim-z) }
	var points []axonometric.Point
	if w.ledge {
		edge := func(ring []outline.Point, h float64) axonometric.Point {
			p := at(ring, along(h))
			return axonometric.Point{X: p.X, Y: p.Y, Z: h}
		}
		points = append(points, w.slanted(w.rimInner, w.baseInner, along(w.floor), w.floor),
			edge(w.stone, 0), edge(w.cut, 0), edge(w.cut, w.top))
		if w.top >= w.rim-1e-9 {
			return points
		}
	}
	return append(points, w.slanted(w.rimInner, w.baseInner, rimPlace, w.rim))
}

// cell is a station of the wall: its place, its place at the rim, and whether
// metal rises above the gallery between it and the next station.
type cell struct {
	place, rim float64
	metal      bool
}

// column are the numbers of a station's points: outer and inner from the base to
// the gallery, and those above it.
type column struct{ low, high, outer, inside []int }

// columns are the points of the stations.
func (w wall) columns(b *axonometric.Body, cells []cell, gallery float64) []column {
	columns := make([]column, len(cells))
	for i, s := range cells {
		var k column
		for _, z := range []float64{w.base, gallery} {
			k.low = append(k.low, b.Add(w.slanted(w.rimOuter, w.baseOuter, s.place, z)))
			k.high = append(k.high, b.Add(w.slanted(w.rimInner, w.baseInner, s.place, z)))
		}
		k.outer = []int{k.low[1], b.Add(w.slanted(w.rimOuter, w.baseOuter, s.rim, w.rim))}
		k.inside = []int{k.high[1]}
		for _, p := range w.inside(gallery, s.place, s.rim) {
			k.inside = append(k.inside, b.Add(p))
		}
		columns[i] = k
	}
	return columns
}

// strip joins two lines of points.
func strip(b *axonometric.Body, p, q []int) {
	for j := range len(p) - 1 {
		b.Quad(p[j], q[j], q[j+1], p[j+1])
	}
}

// side closes a prong's side: its profile, from the gallery up.
func side(b *axonometric.Body, k column, turned bool) {
	profile := slices.Clone(k.inside)
	slices.Reverse(profile)
	profile = append(slices.Clone(k.outer), profile...)
	for j := 1; j < len(profile)-1; j++ {
		f := [3]int{profile[0], profile[j], profile[j+1]}
		if turned {
			f[1], f[2] = f[2], f[1]
		}
		b.Faces = append(b.Faces, f)
	}
}

// body joins the stations. Above the gallery there is metal only where a prong
// stands; without a gallery the wall is whole.
func (w wall) body(cells []cell, gallery float64, c setting.Collet) axonometric.Body {
	whole := cells == nil
	if whole {
		gallery = w.base
		for i := range w.rimOuter {
			cells = append(cells, cell{float64(i), float64(i), true})
		}
	}
	b := axonometric.Body{Name: Metal}
	columns := w.columns(&b, cells, gallery)
	n := len(cells)
	for i := range n {
		p, q, last := columns[i], columns[(i+1)%n], cells[(i+n-1)%n]
		b.Quad(p.high[0], q.high[0], q.low[0], p.low[0]) // the base
		if !whole {
			strip(&b, p.low, q.low)
			strip(&b, q.high, p.high)
		}
		if cells[i].metal {
			strip(&b, p.outer, q.outer)
			strip(&b, q.inside, p.inside)
			b.Quad(p.outer[1], q.outer[1], q.inside[len(q.inside)-1], p.inside[len(p.inside)-1])
		} else {
			b.Quad(p.low[1], q.low[1], q.high[1], p.high[1])
		}
		if cells[i].metal != last.metal {
			side(&b, p, last.metal)
		}
	}
	b.Marks = append(b.Marks, w.seam(c, whole, gallery))
	return b
}

// seam runs up the outside where the wall was joined.
func (w wall) seam(c setting.Collet, whole bool, gallery float64) axonometric.Mark {
	m := axonometric.Mark{Name: Seam}
	mm, ok := c.Stone.LengthTo(c.Seam)
	if !ok {
		return m
	}
	p, _ := c.Stone.AtLength(mm)
	place := placeOn(w.stone, p)
	top := w.rim
	if !whole {
		top = gallery
	}
	m.Points = []axonometric.Point{w.slanted(w.rimOuter, w.baseOuter, place, w.base), w.slanted(w.rimOuter, w.baseOuter, place, top)}
	return m
}

// sawn are the stations of a wall with prongs: the wall's own, and one at each
// side of each prong. A prong is as wide at the gallery as at the rim.
func (w wall) sawn(c setting.Collet, plan *prong.Plan, gallery float64) []cell {
	n := float64(len(w.stone))
	half := plan.WidthMM / 2
	neck := make([]outline.Point, len(w.stone))
	for i := range neck {
		p := w.slanted(w.rimOuter, w.baseOuter, float64(i), gallery)
		neck[i] = outline.Point{X: p.X, Y: p.Y}
	}
	var cells []cell
	type span struct{ low, high, rimLow, rimHigh float64 }
	var spans []span
	for _, q := range plan.Prongs {
		p, _ := c.Stone.AtLength(q.AtMM)
		middle := placeOn(w.stone, p)
		if q.Corner { // the stations of a corner lie on each other; take the middle one
			middle = math.Round(middle)
			middle += float64(coincident(w.stone, int(middle))) / 2
		}
		s := span{along(neck, middle, -half), along(neck, middle, half), along(w.rimOuter, middle, -half), along(w.rimOuter, middle, half)}
		spans = append(spans, s)
		cells = append(cells, cell{s.low, s.rimLow, true}, cell{s.high, s.rimHigh, false})
	}
	for i := range w.stone {
		k := cell{place: float64(i), rim: float64(i)}
		for _, s := range spans {
			for _, place := range []float64{k.place, k.place - n, k.place + n} {
				if place > s.low+1e-9 && place < s.high-1e-9 {
					t := (place - s.low) / (s.high - s.low)
					k = cell{place, s.rimLow + t*(s.rimHigh-s.rimLow), true}
				}
			}
		}
		cells = append(cells, k)
	}
	round := func(place float64) float64 { return math.Mod(place+2*n, n) }
	slices.SortStableFunc(cells, func(a, b cell) int {
		if round(a.place) < round(b.place) {
			return -1
		}
		if round(a.place) > round(b.place) {
			return 1
		}
		return 0
	})
	return cells
}

// coincident is how many of the following points lie on a ring's point.
func coincident(ring []outline.Point, i int) int {
	k := 0
	for k < len(ring) && distance(ring[(i+k+1)%len(ring)], ring[i]) < 1e-5 {
		k++
	}
	return k
}

// along is the place that lies mm further round a ring.
func along(ring []outline.Point, place, mm float64) float64 {
	step := 1.0
	if mm < 0 {
		step = -1
	}
	left := math.Abs(mm)
	for range 2 * len(ring) {
		next := math.Floor(place) + 1
		if step < 0 {
			next = math.Ceil(place) - 1
		}
		d := distance(at(ring, place), at(ring, next))
		if d >= left {
			return place + (next-place)*left/d
		}
		left -= d
		place = next
	}
	return place
}
