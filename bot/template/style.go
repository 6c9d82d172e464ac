package template

import (
	"image/color"

	"github.com/tdewolff/canvas"
)

// canvas keeps its number format and stroking mode in package variables. They
// are set once, here, before any drawing, and never again: no other package of
// guildhand draws with it.
func init() {
	// Eight significant digits, the default, put a coordinate of 100 mm on a
	// grid of 1 µm; the length of a short edge must be true to 1e-7 of itself.
	canvas.Precision = 12
	// Strokes are filled by the non-zero rule, which needs no clean-up of
	// overlaps; the clean-up costs more than all the rest of a picture.
	canvas.FastStroke = true
}

// lineStyle is how a role is drawn. Lengths are in pens: one pixel of the PNG,
// 0.05 mm on paper.
type lineStyle struct {
	// name is what the legend calls the line.
	name   string
	width  float64
	dashes []float64
	// ticks are short strokes across the line.
	ticks bool
	// cross is a pair of centre lines through the middle of the path.
	cross bool
	ink   color.RGBA
}

var (
	black = color.RGBA{A: 0xff}
	white = color.RGBA{R: 0xff, G: 0xff, B: 0xff, A: 0xff}
	// The second ink is dark enough for a poor printer; the dash pattern tells
	// the lines apart, not the ink.
	soft = color.RGBA{R: 0x48, G: 0x48, B: 0x48, A: 0xff}
)

// styles follow the line types of technical drawing (ISO 128, from memory):
// continuous wide for edges, dashed and dash-dotted narrow for lines on the
// face, long-dashed double-dotted for neighbouring parts.
var styles = map[Role]lineStyle{
	Cut:     {name: "cut", width: 6, ink: black},
	Seam:    {name: "seam", width: 6, ticks: true, ink: black},
	Fold:    {name: "fold", width: 3.4, dashes: []float64{26, 8, 4, 8}, ink: black},
	Girdle:  {name: "girdle", width: 3.4, dashes: []float64{34, 11}, ink: black},
	Bearing: {name: "bearing", width: 3.4, dashes: []float64{11, 8}, ink: black},
	Mark:    {name: "mark", width: 3, ink: black},
	Waste:   {name: "waste", width: 4, dashes: []float64{4, 8}, ink: black},
	Outline: {name: "outline", width: 3, dashes: []float64{44, 7, 4, 7, 4, 7}, ink: soft},
	Drill:   {name: "drill", width: 3, cross: true, ink: black},
}

// roles in the order of the legend.
var roles = []Role{Cut, Seam, Fold, Girdle, Bearing, Mark, Waste, Drill, Outline}

// styleOf is the style of r; an unknown role is drawn as a mark.
func styleOf(r Role) lineStyle {
	if s, ok := styles[r]; ok {
		return s
	}
	return styles[Mark]
}

// present lists the roles of d in the order of the legend.
func (d Drawing) present() []Role {
	has := map[Role]bool{}
	for _, p := range d.Paths {
		if len(p.Segs) > 1 {
			has[p.Role] = true
		}
	}
	var in []Role
	for _, r := range roles {
		if has[r] {
			in = append(in, r)
		}
	}
	return in
}

// brush draws on one of canvas' renderers. Its coordinates are the renderer's
// (pixels of the PNG, mm on paper), y up.
type brush struct {
	to canvas.Renderer
	// pen is the length of one pen in the renderer's unit.
	pen float64
}

// line strokes p, in the renderer's unit, in the style given.
func (b brush) line(p *canvas.Path, s lineStyle) {
	b.stroke(p, s.width, s.dashes, s.ink)
}

// stroke draws p with a width and dashes in pens.
func (b brush) stroke(p *canvas.Path, width float64, dashes []float64, ink color.RGBA) {
	if p.Empty() {
		return
	}
	style := canvas.DefaultStyle
	style.Fill = canvas.Paint{}
	style.Stroke = canvas.Paint{Color: ink}
	style.StrokeWidth = width * b.pen
	style.StrokeJoiner = canvas.BevelJoin
	style.Dashes = nil
	for _, d := range dashes {
		// the renderers multiply dashes by the width of the stroke
		style.Dashes = append(style.Dashes, d/width)
	}
	b.to.RenderPath(p, style, canvas.Identity)
}

// fill paints the inside of p.
func (b brush) fill(p *canvas.Path, ink color.RGBA) {
	style := canvas.DefaultStyle
	style.Fill = canvas.Paint{Color: ink}
	b.to.RenderPath(p, style, canvas.Identity)
}

// decoration is what a style adds to a line, flattened and in the renderer's
// unit: ticks across it, or a cross through its middle.
func (b brush) decoration(flat *canvas.Path, s lineStyle) *canvas.Path {
	d := &canvas.Path{}
	if s.ticks {
		const apart, half = 22, 9 // pens
		length := flat.Length()
		n := max(2, int(length/(apart*b.pen)))
		for _, t := range pointsAlong(flat, n) {
			d.MoveTo(t.x-t.nx*half*b.pen, t.y-t.ny*half*b.pen)
			d.LineTo(t.x+t.nx*half*b.pen, t.y+t.ny*half*b.pen)
		}
	}
	if s.cross {
		const over = 8 // pens
		r := flat.FastBounds()
		x, y := (r.X0+r.X1)/2, (r.Y0+r.Y1)/2
		rx, ry := r.W()/2+over*b.pen, r.H()/2+over*b.pen
		d.MoveTo(x-rx, y)
		d.LineTo(x+rx, y)
		d.MoveTo(x, y-ry)
		d.LineTo(x, y+ry)
	}
	return d
}
