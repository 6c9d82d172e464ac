package template

import (
	"math"

	"guildhand/bot/template/scene"
)

// layout is a drawing, or the part of it that falls on one page, in the unit of
// the scene it is for, with the places of its labels.
type layout struct {
	// lines are the paths as drawn; decorations what their styles add.
	lines, decorations []scene.Path
	styles             []lineStyle
	roles              []Role
	ids                []string
	// hatching, dimensions and arrows belong to pictures.
	hatching, dimensions, arrows scene.Path
	placed                       []placed
	// left are the labels without a place.
	left []label
	// used is the rectangle that lines and labels take up.
	used scene.Rect
}

// fitting says how a layout is made of a drawing.
type fitting struct {
	// toView maps mm of the drawing to the scene's unit.
	toView scene.View
	// window is the part of the view in which lines are drawn, room the part
	// in which labels may stand.
	window, room scene.Rect
	// pen is the length of one pen, em the size of the lettering, in the
	// scene's unit; tolerance is the flattening's.
	pen, em, tolerance float64
	// widest is the width at which a label is broken into lines.
	widest float64
	// cut clips the lines to the window and so makes curves chords.
	cut bool
	// screen is for a picture, whose lettering has a size of its own and may
	// hide a line; on paper nothing may hide a line.
	screen bool
}

// newLayout finds places for the drawing's lines and labels.
func newLayout(d Drawing, f fitting) *layout {
	s := &layout{ids: uniqueIDs(d)}
	flat := make([]scene.Path, 0, len(d.Paths))
	marks := make([]scene.Path, 0, len(d.Paths)+len(d.Dimensions)+1)
	var boxes []scene.Rect
	join := func(p scene.Path) {
		if r, ok := p.Bounds(); ok {
			boxes = append(boxes, r)
		}
	}
	var cuts []cutLine
	b := brush{pen: f.pen}
	for _, p := range d.Paths {
		style := styleOf(p.Role)
		curve := p.Segs.In(f.toView)
		line := curve.Flatten(f.tolerance)
		style.lineType = style.on(line.Shortest() / f.pen)
		deco := b.decoration(line, style)
		if f.cut {
			line, deco = line.Clip(f.window), deco.Clip(f.window)
			curve = line
		}
		flat = append(flat, line)
		s.lines, s.decorations, s.styles = append(s.lines, curve), append(s.decorations, deco), append(s.styles, style)
		s.roles = append(s.roles, p.Role)
		marks = append(marks, append(line[:len(line):len(line)], deco...))
		if p.Role.uncrossed() {
			cuts = append(cuts, cutLineOf(line))
		}
		join(line)
		join(deco)
	}
	labels := labelsOf(d, flat, f)
	if f.screen {
		for _, face := range d.CutFaces {
			s.hatching = append(s.hatching, face.Segs.In(f.toView).Flatten(f.tolerance).Hatch(hatchEms*f.em)...)
		}
		marks = append(marks, s.hatching)
		measured := dimensions(d, scene.JoinAll(boxes), f, len(marks))
		first := make([]label, 0, len(measured)+len(labels))
		for _, m := range measured {
			s.dimensions, s.arrows = append(s.dimensions, m.lines...), append(s.arrows, m.arrows...)
			marks = append(marks, append(m.lines[:len(m.lines):len(m.lines)], m.arrows...))
			join(m.lines)
			first = append(first, m.label)
		}
		labels = append(first, labels...)
	}
	if len(labels) > 0 {
		p := newPlacer(f.room, marks, f.em)
		p.over, p.cuts = f.screen, cuts
		s.placed, s.left = p.place(labels)
	}
	for _, q := range s.placed {
		boxes = append(boxes, q.box)
	}
	s.used = scene.JoinAll(boxes)
	return s
}

// hatchEms is the distance of hatching lines, in ems.
const hatchEms = 0.4

// uncrossed tells whether no leader may cross a line of this role: on paper
// that is glued on it would be cut, or be taken for a fold.
func (r Role) uncrossed() bool { return r == Cut || r == Seam || r == Edge }

// moved shifts the whole layout.
func (s *layout) moved(dx, dy float64) {
	move := scene.Moved(dx, dy)
	shift := func(r scene.Rect) scene.Rect {
		return scene.Rect{X0: r.X0 + dx, Y0: r.Y0 + dy, X1: r.X1 + dx, Y1: r.Y1 + dy}
	}
	for i := range s.lines {
		s.lines[i], s.decorations[i] = s.lines[i].In(move), s.decorations[i].In(move)
	}
	s.hatching, s.dimensions, s.arrows = s.hatching.In(move), s.dimensions.In(move), s.arrows.In(move)
	for i := range s.placed {
		q := &s.placed[i]
		q.x, q.y, q.from, q.to, q.box = q.x+dx, q.y+dy, move.Point(q.from), move.Point(q.to), shift(q.box)
	}
	s.used = shift(s.used)
}

// letters tells whether a line of the role is named on the drawing itself.
func (s *layout) letters(r Role) bool {
	for _, q := range s.placed {
		if q.owner >= 0 && q.owner < len(s.roles) && s.roles[q.owner] == r {
			return true
		}
	}
	return false
}

// textsLeft is how many texts of the drawing, which belong to no line, have no
// place.
func (s *layout) textsLeft() int {
	n := 0
	for _, l := range s.left {
		if l.owner < 0 {
			n++
		}
	}
	return n
}

// draw strokes the lines and letters the labels, moved by dx, dy.
func (s *layout) draw(b brush, dx, dy float64) {
	move := scene.Moved(dx, dy)
	there := func(p scene.Path) scene.Path {
		if dx == 0 && dy == 0 {
			return p // a scene only reads it
		}
		return p.In(move)
	}
	for i, line := range s.lines {
		b.to.Stroke(there(line), s.styles[i].line(b.pen), scene.Tag{ID: s.ids[i], Layer: s.styles[i].name})
		b.stroke(there(s.decorations[i]), aid)
	}
	b.stroke(there(s.hatching), hatching)
	b.stroke(there(s.dimensions), dimensionLine)
	b.to.Fill(there(s.arrows), scene.Black, scene.Tag{Layer: dimensionLine.name})
	for _, q := range s.placed {
		if from := move.Point(q.from); q.leader {
			b.stroke(scene.Polyline(from, move.Point(q.to)), leaderLine)
			b.to.Fill(scene.Circle(from, 5*b.pen), scene.Black, scene.Tag{Layer: "dot"})
		}
		if q.over {
			b.to.Fill(q.box.Path().In(move), scene.White, scene.Tag{Layer: aid.name})
		}
		n := float64(len(q.lines))
		// from the middle of the block down to the first base line
		down := q.em * ((scene.CapHeight+scene.Descent+(n-1)*scene.LineHeight)/2 - scene.CapHeight)
		sin, cos := math.Sincos(q.angle * math.Pi / 180)
		for i, text := range q.lines {
			y := down - float64(i)*scene.LineHeight*q.em
			b.to.Write(scene.Text{Lettering: scene.Lettering{Em: q.em}, Line: text, Anchor: scene.Middle, Angle: q.angle,
				At: move.Point(scene.Point{X: q.x - sin*y, Y: q.y + cos*y})})
		}
	}
}

// textEm is the size of a text's lettering.
func (f fitting) textEm(t Text) float64 {
	if t.SizeMM == 0 {
		return f.em
	}
	em := t.SizeMM / scene.CapHeight * f.toView.Scale
	if f.screen {
		return math.Min(math.Max(em, f.em), 2*f.em)
	}
	return math.Max(em, 1)
}
