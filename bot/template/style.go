package template

import "guildhand/bot/template/scene"

// lineType is a type of line of ISO 128-2:2022. Lengths are in pens: one pixel
// of the PNG, 0.05 mm on paper. Wide lines are twice as wide as narrow ones.
type lineType struct {
	iso    string
	width  float64
	dashes []float64
}

// Line types by their names in the standard; the lengths of dashes are ours.
var (
	continuousWide         = lineType{iso: "continuous wide", width: wideLine}
	continuousNarrow       = lineType{iso: "continuous narrow", width: narrowLine}
	dashedNarrow           = lineType{iso: "dashed narrow", width: narrowLine, dashes: []float64{20, 8}}
	shortDashedNarrow      = lineType{iso: "dashed narrow, short", width: narrowLine, dashes: []float64{11, 8}}
	longDashedNarrow       = lineType{iso: "dashed narrow, long", width: narrowLine, dashes: []float64{34, 11}}
	chainNarrow            = lineType{iso: "long-dashed dotted narrow", width: narrowLine, dashes: []float64{40, 8, 4, 8}}
	longDashedDoubleDotted = lineType{iso: "long-dashed double-dotted narrow", width: narrowLine, dashes: []float64{44, 7, 4, 7, 4, 7}}
	dottedNarrow           = lineType{iso: "dotted", width: 4, dashes: []float64{4, 8}}
)

// wideLine and narrowLine are the widths of lines, in pens.
const wideLine, narrowLine = 6.0, 3.0

// period is the length after which the pattern begins anew, in pens.
func (t lineType) period() float64 {
	sum := 0.0
	for _, d := range t.dashes {
		sum += d
	}
	return sum
}

// on is the type for a line of a length, in pens: a pattern that would not show
// a whole period there is drawn continuous and narrow instead.
func (t lineType) on(length float64) lineType {
	if length < t.period() {
		return continuousNarrow
	}
	return t
}

// lineStyle is how a role is drawn.
type lineStyle struct {
	lineType
	// name is what the legend calls the line.
	name string
	// ticks are short strokes across the line.
	ticks bool
	// rings are small circles at the line's ends.
	rings bool
	// cross is a pair of centre lines through the middle of the path.
	cross bool
	ink   scene.Grey
}

// styles: outlines continuous wide, bend lines of a blank continuous narrow,
// neighbouring parts long-dashed double-dotted (ISO 128-2:2022; bend lines also
// in a German textbook of technical drawing, ISBN 978-3-7100-2824-3, p. 52).
// The ring at each end of a bend line is a tinsmith's (Sheet Metal Drafting,
// p. 21) and tells it from a mark.
var styles = map[Role]lineStyle{
	Cut:     {name: "cut", lineType: continuousWide},
	Seam:    {name: "seam", lineType: continuousWide, ticks: true},
	Fold:    {name: "fold", lineType: continuousNarrow, rings: true},
	Girdle:  {name: "girdle", lineType: longDashedNarrow},
	Bearing: {name: "bearing", lineType: shortDashedNarrow},
	Mark:    {name: "mark", lineType: continuousNarrow},
	Waste:   {name: "waste", lineType: dottedNarrow},
	Outline: {name: "outline", lineType: longDashedDoubleDotted, ink: scene.Soft},
	Drill:   {name: "drill", lineType: continuousNarrow, cross: true},
	Centre:  {name: "centre line", lineType: chainNarrow},
	Hidden:  {name: "hidden", lineType: dashedNarrow},
	Edge:    {name: "edge", lineType: continuousWide},
	Stone:   {name: "stone", lineType: continuousNarrow},
	Seen:    {name: "seen", lineType: continuousWide},
}

// roles in the order of the legend.
var roles = []Role{Cut, Seam, Fold, Girdle, Bearing, Mark, Waste, Drill, Outline, Centre, Hidden, Edge, Stone, Seen}

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

// hatching and dimensionLine are continuous narrow.
var (
	hatching      = lineStyle{name: "hatching", lineType: lineType{iso: continuousNarrow.iso, width: 2}}
	dimensionLine = lineStyle{name: "dimension", lineType: lineType{iso: continuousNarrow.iso, width: 2.4}}
)

// leaderLine leads from a label to its line (ISO 128-2:2022).
var leaderLine = lineStyle{name: "leader", lineType: continuousNarrow}

// aid is the line of ticks, crosses and the scale bar.
var aid = lineStyle{name: "aid", lineType: continuousNarrow}

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
	if s.rings {
		const radius = 5 // pens
		for _, stroke := range flat.Strokes() {
			if first, last := stroke[0], stroke[len(stroke)-1]; first != last {
				d = append(d, scene.Circle(first, radius*b.pen).Flatten(b.pen/4)...)
				d = append(d, scene.Circle(last, radius*b.pen).Flatten(b.pen/4)...)
			}
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
