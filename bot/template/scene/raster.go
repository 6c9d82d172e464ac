package scene

import (
	"encoding/binary"
	"image"
	"image/draw"
	"math"
	"slices"
	"sync"

	"golang.org/x/image/vector"
)

// raster draws a scene as greys, one pixel to the unit. Only the part of the
// picture that a path covers is worked on: a stroke tile by tile, since a long
// line touches few of the pixels in its rectangle.
type raster struct {
	img     *image.Gray
	vec     *vector.Rasterizer
	cover   image.Alpha
	tiles   []tile
	touched []int
	pieces  []piece
	// path and flat are working memory.
	path, flat Path
}

// piece is a part of a stroke: a convex polygon, all turning the same way,
// in pixels with y down: pieces that overlap count once.
type piece [4]Point

// tile holds the numbers of the pieces of a stroke that touch it, and the part of
// it that they reach.
type tile struct {
	pieces []int32
	box    image.Rectangle
}

const (
	tileSize = 32
	// longestPiece keeps a long oblique line from touching many tiles.
	longestPiece = 48
	// flatness is how far a chord may leave its curve, pixels.
	flatness = 0.1
	// unseen is twice the area of a bevel too small to be seen: a twentieth of a pixel.
	unseen = 0.1
)

// rasters are those that no picture is using.
var rasters = sync.Pool{New: func() any { return &raster{img: &image.Gray{}, vec: &vector.Rasterizer{}} }}

// PNG is the scene as a picture of greys, one pixel to the unit, with its
// resolution, from which a program knows the drawing's size.
func (s *Scene) PNG(pxPerMM float64) ([]byte, error) {
	r := rasters.Get().(*raster)
	defer rasters.Put(r)
	// pixels share bytes, so a row has a number of them that fills its bytes
	r.reset(pixelsInByte*int(math.Ceil(s.Box.W()/pixelsInByte)), int(math.Ceil(s.Box.H())))
	flip := func(p Point) Point { return Point{p.X - s.Box.X0, s.Box.Y1 - p.Y} }
	for _, it := range s.items {
		switch {
		case it.text != nil:
			r.text(*it.text, flip)
		case it.line.Width > 0:
			r.path = it.path.mappedInto(r.path[:0], flip)
			r.flat = r.path.flattenInto(r.flat[:0], flatness)
			r.stroke(r.flat.Dash(it.line.Dashes), it.line.Width/2, it.ink)
		default:
			r.path = it.path.mappedInto(r.path[:0], flip)
			r.fill(r.path, it.ink)
		}
	}
	return encodePNG(r.img, pxPerMM*1000)
}

// reset begins a white picture.
func (r *raster) reset(w, h int) {
	if n := w * h; cap(r.img.Pix) < n {
		r.img.Pix = make([]uint8, n)
	}
	r.img.Pix, r.img.Stride, r.img.Rect = r.img.Pix[:w*h], w, image.Rect(0, 0, w, h)
	r.img.Pix[0] = uint8(White)
	for done := 1; done < len(r.img.Pix); done *= 2 {
		copy(r.img.Pix[done:], r.img.Pix[:done])
	}
	if n := r.across() * (h/tileSize + 1); len(r.tiles) < n {
		r.tiles = append(r.tiles, make([]tile, n-len(r.tiles))...)
	}
}

// across is the number of tiles in a row.
func (r *raster) across() int { return r.img.Rect.Dx()/tileSize + 1 }

// fill paints a path, curves and all. What no other stroke of it comes near is
// painted by itself: the arrows of a drawing are few pixels in a large rectangle.
func (r *raster) fill(p Path, ink Grey) {
	var boxes []Rect
	var strokes []Path
	for len(p) > 0 {
		end := 1
		for end < len(p) && p[end].Op != MoveTo {
			end++
		}
		if box, ok := p[:end].Bounds(); ok {
			boxes, strokes = append(boxes, box), append(strokes, p[:end])
		}
		p = p[end:]
	}
	var rest Path
	var around []Rect
	for i, s := range strokes {
		near := func(o Rect) bool { return o.Grow(1).Overlaps(boxes[i]) }
		if slices.ContainsFunc(boxes[:i], near) || slices.ContainsFunc(boxes[i+1:], near) {
			rest, around = append(rest, s...), append(around, boxes[i])
		} else {
			r.fillWithin(s, boxes[i], ink)
		}
	}
	r.fillWithin(rest, JoinAll(around), ink)
}

// fillWithin paints a path that lies within the box.
func (r *raster) fillWithin(p Path, box Rect, ink Grey) {
	at := image.Rect(int(math.Floor(box.X0)), int(math.Floor(box.Y0)), int(math.Ceil(box.X1)), int(math.Ceil(box.Y1))).Intersect(r.img.Rect)
	if len(p) == 0 || at.Empty() {
		return
	}
	r.begin(at)
	addPath(r.vec, p, Point{float64(at.Min.X), float64(at.Min.Y)})
	r.paint(at, ink)
}

// begin makes the rasterizer ready for a part of the picture.
func (r *raster) begin(at image.Rectangle) {
	r.vec.Reset(at.Dx(), at.Dy())
	r.vec.DrawOp = draw.Src
	if n := at.Dx() * at.Dy(); cap(r.cover.Pix) < n {
		r.cover.Pix = make([]uint8, n)
	}
	r.cover.Pix, r.cover.Stride, r.cover.Rect = r.cover.Pix[:at.Dx()*at.Dy()], at.Dx(), image.Rect(0, 0, at.Dx(), at.Dy())
}

// addPath gives a path to a rasterizer whose corner is at origin.
func addPath(vec *vector.Rasterizer, p Path, origin Point) {
	xy := func(at Point) (float32, float32) { return float32(at.X - origin.X), float32(at.Y - origin.Y) }
	for i, s := range p {
		x, y := xy(s.P)
		switch s.Op {
		case MoveTo:
			if i > 0 {
				vec.ClosePath()
			}
			vec.MoveTo(x, y)
		case CubicTo:
			x1, y1 := xy(s.C1)
			x2, y2 := xy(s.C2)
			vec.CubeTo(x1, y1, x2, y2, x, y)
		default:
			vec.LineTo(x, y)
		}
	}
	vec.ClosePath()
}

// paint inks what the rasterizer was given.
func (r *raster) paint(at image.Rectangle, ink Grey) {
	r.vec.Draw(&r.cover, r.cover.Rect, image.Opaque, image.Point{})
	r.blend(at, &r.cover, ink)
}

// blend inks the pixels from at.Min on, as much as each is covered.
func (r *raster) blend(at image.Rectangle, cover *image.Alpha, ink Grey) {
	in := at.Intersect(r.img.Rect)
	from := in.Min.Sub(at.Min)
	for y := range in.Dy() {
		to := r.img.Pix[(in.Min.Y+y)*r.img.Stride+in.Min.X:][:in.Dx()]
		inked(to, cover.Pix[(from.Y+y)*cover.Stride+from.X:][:len(to)], uint32(ink))
	}
}

// inked inks pixels of a row as much as each is covered. Most of a line's rectangle
// is not covered at all, so it looks at eight pixels at a time; in a mixed eight, no
// test pays.
func inked(to, covers []uint8, ink uint32) {
	for len(covers) >= 8 && len(to) >= 8 {
		if binary.LittleEndian.Uint64(covers) != 0 {
			for x, c := range covers[:8] {
				to[x] = mixed(to[x], c, ink)
			}
		}
		to, covers = to[8:], covers[8:]
	}
	for x, c := range covers {
		to[x] = mixed(to[x], c, ink)
	}
}

// mixed is a level of which a part is covered with ink.
func mixed(level, cover uint8, ink uint32) uint8 {
	return uint8((uint32(level)*(math.MaxUint8-uint32(cover)) + ink*uint32(cover)) / math.MaxUint8)
}

// stroke draws along a flattened path, half a line's width to either side.
func (r *raster) stroke(p Path, half float64, ink Grey) {
	r.pieces, r.touched = r.pieces[:0], r.touched[:0]
	var begun, first, last Point // where the stroke began; normals of its first and last line
	lines := 0
	for i, s := range p {
		if s.Op == MoveTo {
			begun, lines = s.P, 0
			continue
		}
		a, b := p[i-1].P, s.P
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		if length == 0 {
			continue
		}
		normal := Point{-(b.Y - a.Y) / length * half, (b.X - a.X) / length * half}
		if lines == 0 {
			first = normal
		} else {
			r.bevel(a, last, normal)
		}
		r.straight(a, b, normal, length)
		if lines++; lines > 1 && b == begun {
			r.bevel(b, normal, first)
		}
		last = normal
	}
	for _, n := range r.touched {
		t := &r.tiles[n]
		r.begin(t.box)
		for _, n := range t.pieces {
			r.addPiece(&r.pieces[n], t.box.Min)
		}
		r.paint(t.box, ink)
		t.pieces = t.pieces[:0]
	}
}

// addPiece gives a piece to the rasterizer, whose corner is at origin.
func (r *raster) addPiece(q *piece, origin image.Point) {
	x, y := float64(origin.X), float64(origin.Y)
	r.vec.MoveTo(float32(q[0].X-x), float32(q[0].Y-y))
	for _, p := range q[1:] {
		r.vec.LineTo(float32(p.X-x), float32(p.Y-y))
	}
	r.vec.ClosePath()
}

// straight adds the pieces of one line.
func (r *raster) straight(a, b, normal Point, length float64) {
	n := math.Ceil(length / longestPiece)
	step := Point{(b.X - a.X) / n, (b.Y - a.Y) / n}
	for range int(n) {
		c := Point{a.X + step.X, a.Y + step.Y}
		r.add(piece{{a.X + normal.X, a.Y + normal.Y}, {a.X - normal.X, a.Y - normal.Y}, {c.X - normal.X, c.Y - normal.Y}, {c.X + normal.X, c.Y + normal.Y}})
		a = c
	}
}

// bevel fills the outer side of a corner between lines of the normals n and m.
func (r *raster) bevel(at, n, m Point) {
	turn := n.X*m.Y - n.Y*m.X
	switch {
	case math.Abs(turn) < unseen:
	case turn < 0:
		r.add(piece{at, {at.X + m.X, at.Y + m.Y}, {at.X + n.X, at.Y + n.Y}, at})
	case turn > 0:
		r.add(piece{at, {at.X - n.X, at.Y - n.Y}, {at.X - m.X, at.Y - m.Y}, at})
	}
}

// add enters a piece into the tiles that it touches.
func (r *raster) add(q piece) {
	box := Rect{q[0].X, q[0].Y, q[0].X, q[0].Y}
	for _, p := range q[1:] {
		box = box.joinPoint(p, false)
	}
	w, h := float64(r.img.Rect.Dx()-1), float64(r.img.Rect.Dy()-1)
	if box.X1 < 0 || box.Y1 < 0 || box.X0 > w || box.Y0 > h {
		return
	}
	x0, y0 := int(max(box.X0, 0))/tileSize, int(max(box.Y0, 0))/tileSize
	x1, y1 := int(min(box.X1, w))/tileSize, int(min(box.Y1, h))/tileSize
	reach := image.Rect(int(math.Floor(box.X0)), int(math.Floor(box.Y0)), int(math.Ceil(box.X1)), int(math.Ceil(box.Y1)))
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			n := y*r.across() + x
			in := reach.Intersect(image.Rect(x*tileSize, y*tileSize, (x+1)*tileSize, (y+1)*tileSize))
			if in.Empty() {
				continue
			}
			t := &r.tiles[n]
			if len(t.pieces) == 0 {
				r.touched = append(r.touched, n)
				t.box = in
			}
			t.pieces, t.box = append(t.pieces, int32(len(r.pieces))), t.box.Union(in)
		}
	}
	r.pieces = append(r.pieces, q)
}

// Letters are most of the work of a picture when each is drawn as a path. Level
// text is therefore set from letters that were drawn once, at four places
// within a pixel, and are kept; that halves the time of a picture.

// letterKey is what a letter was drawn as.
type letterKey struct {
	Lettering
	letter  rune
	quarter int
}

// letter is a drawn letter; its pixels begin at origin, from the pixel of its
// place on the base line.
type letter struct {
	cover  image.Alpha
	origin image.Point
}

const (
	quarters = 4
	// keptLetters is the most letters kept, about a kilobyte each.
	keptLetters = 4096
)

var letters = struct {
	sync.Mutex
	drawn map[letterKey]letter
}{drawn: map[letterKey]letter{}}

// text draws one line of text.
func (r *raster) text(t Text, flip func(Point) Point) {
	at := t.start()
	f := t.face()
	sin, cos := math.Sincos(t.Angle * math.Pi / 180)
	for _, c := range t.Line {
		g := f.glyph(c)
		if t.Angle == 0 {
			p := flip(at)
			x := int(math.Floor(p.X*quarters + 0.5))
			l := drawnLetter(letterKey{t.Lettering, c, ((x % quarters) + quarters) % quarters}, g)
			corner := image.Pt(int(math.Floor(float64(x)/quarters)), int(math.Floor(p.Y+0.5))).Add(l.origin)
			r.blend(l.cover.Rect.Add(corner), &l.cover, Black)
		} else {
			r.fill(g.shape.mapped(func(p Point) Point {
				x, y := p.X*t.Em, p.Y*t.Em
				return flip(Point{at.X + x*cos - y*sin, at.Y + x*sin + y*cos})
			}), Black)
		}
		at = Point{at.X + g.advance*t.Em*cos, at.Y + g.advance*t.Em*sin}
	}
}

// drawnLetter draws a letter, or finds it drawn.
func drawnLetter(key letterKey, g *glyph) letter {
	letters.Lock()
	defer letters.Unlock()
	if l, ok := letters.drawn[key]; ok {
		return l
	}
	if len(letters.drawn) >= keptLetters {
		clear(letters.drawn)
	}
	shift := float64(key.quarter) / quarters
	shape := g.shape.mapped(func(p Point) Point { return Point{p.X*key.Em + shift, -p.Y * key.Em} })
	var l letter
	if b, ok := shape.Bounds(); ok {
		l.origin = image.Pt(int(math.Floor(b.X0)), int(math.Floor(b.Y0)))
		w, h := int(math.Ceil(b.X1))-l.origin.X, int(math.Ceil(b.Y1))-l.origin.Y
		l.cover = *image.NewAlpha(image.Rect(0, 0, w, h))
		vec := vector.NewRasterizer(w, h)
		addPath(vec, shape, Point{float64(l.origin.X), float64(l.origin.Y)})
		vec.Draw(&l.cover, l.cover.Rect, image.Opaque, image.Point{})
	}
	letters.drawn[key] = l
	return l
}
