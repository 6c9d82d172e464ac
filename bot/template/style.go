package template

import "guildhand/bot/template/scene"

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
	ink   scene.Grey
}

// styles follow the line types of technical drawing (ISO 128, from memory):
// continuous wide for edges, dashed and dash-dotted narrow for lines on the
// face, long-dashed double-dotted for neighbouring parts.
var styles = map[Role]lineStyle{
	Cut:     {name: "cut", width: 6, ink: scene.Black},
	Seam:    {name: "seam", width: 6, ticks: true, ink: scene.Black},
	Fold:    {name: "fold", width: 3.4, dashes: []float64{26, 8, 4, 8}, ink: scene.Black},
	Girdle:  {name: "girdle", width: 3.4, dashes: []float64{34, 11}, ink: scene.Black},
	Bearing: {name: "bearing", width: 3.4, dashes: []float64{11, 8}, ink: scene.Black},
	Mark:    {name: "mark", width: 3, ink: scene.Black},
	Waste:   {name: "waste", width: 4, dashes: []float64{4, 8}, ink: scene.Black},
	Outline: {name: "outline", width: 3, dashes: []float64{44, 7, 4, 7, 4, 7}, ink: scene.Soft},
	Drill:   {name: "drill", width: 3, cross: true, ink: scene.Black},
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

// aid is the line of ticks, crosses, leaders and the scale bar.
var aid = lineStyle{name: "aid", width: 3}

// line is the style for a pen of the length given.
func (s lineStyle) line(pen float64) scene.Line {
	l := scene.Line{Width: s.width * pen, Ink: s.ink}
	for _, d := range s.dashes {
		l.Dashes = append(l.Dashes, d*pen)
	}
	return l
}

// brush draws on a scene. pen is the length of one pen in the scene's unit.
type brush struct {
	to  *scene.Scene
	pen float64
}

// stroke draws along p in the style given.
func (b brush) stroke(p scene.Path, s lineStyle) {
	b.to.Stroke(p, s.line(b.pen), scene.Tag{Layer: s.name})
}

// write letters one level line of text.
func (b brush) write(l scene.Lettering, s string, x, y float64, anchor scene.Anchor) {
	b.to.Write(scene.Text{Lettering: l, Line: s, At: scene.Point{X: x, Y: y}, Anchor: anchor})
}

// column letters lines of text below y, and gives the foot of the last.
func (b brush) column(l scene.Lettering, lines []string, x, y float64) float64 {
	for _, s := range lines {
		y -= l.Em * scene.LineHeight
		b.write(l, s, x, y+l.Em*scene.Descent, scene.Start)
	}
	return y
}

// decoration is what a style adds to a flattened line: ticks across it, or a
// cross through its middle.
func (b brush) decoration(flat scene.Path, s lineStyle) scene.Path {
	var d scene.Path
	if s.ticks {
		const apart, half = 22, 9 // pens
		n := max(2, int(flat.Length()/(apart*b.pen)))
		for _, t := range pointsAlong(flat, n) {
			dx, dy := t.nx*half*b.pen, t.ny*half*b.pen
			d = append(d, scene.Polyline(scene.Point{X: t.x - dx, Y: t.y - dy}, scene.Point{X: t.x + dx, Y: t.y + dy})...)
		}
	}
	if r, ok := flat.Bounds(); ok && s.cross {
		d = append(d, crossThrough(r.Grow(8*b.pen))...)
	}
	return d
}

// crossThrough is a pair of centre lines as long as the rectangle.
func crossThrough(r scene.Rect) scene.Path {
	x, y := (r.X0+r.X1)/2, (r.Y0+r.Y1)/2
	return append(scene.Polyline(scene.Point{X: r.X0, Y: y}, scene.Point{X: r.X1, Y: y}),
		scene.Polyline(scene.Point{X: x, Y: r.Y0}, scene.Point{X: x, Y: r.Y1})...)
}
