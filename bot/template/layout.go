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
	ids                []string
	placed             []placed
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
	marks := make([]scene.Path, 0, len(d.Paths))
	var boxes []scene.Rect
	b := brush{pen: f.pen}
	for _, p := range d.Paths {
		style := styleOf(p.Role)
		curve := p.Segs.In(f.toView)
		line := curve.Flatten(f.tolerance)
		deco := b.decoration(line, style)
		if f.cut {
			line, deco = line.Clip(f.window), deco.Clip(f.window)
			curve = line
		}
		flat = append(flat, line)
		s.lines, s.decorations, s.styles = append(s.lines, curve), append(s.decorations, deco), append(s.styles, style)
		marks = append(marks, append(line[:len(line):len(line)], deco...))
		for _, q := range []scene.Path{line, deco} {
			if r, ok := q.Bounds(); ok {
				boxes = append(boxes, r)
			}
		}
	}
	if labels := labelsOf(d, flat, f); len(labels) > 0 {
		p := newPlacer(f.room, marks, f.em)
		p.over = f.screen
		s.placed, s.left = p.place(labels)
	}
	for _, q := range s.placed {
		boxes = append(boxes, q.box)
	}
	s.used = scene.JoinAll(boxes)
	return s
}

// draw strokes the lines and letters the labels, moved by dx, dy.
func (s *layout) draw(b brush, dx, dy float64) {
	move := scene.Moved(dx, dy)
	for i, line := range s.lines {
		b.to.Stroke(line.In(move), s.styles[i].line(b.pen), scene.Tag{ID: s.ids[i], Layer: s.styles[i].name})
		b.stroke(s.decorations[i].In(move), aid)
	}
	for _, q := range s.placed {
		if from := move.Point(q.from); q.leader {
			b.stroke(scene.Polyline(from, move.Point(q.to)), aid)
			b.to.Fill(scene.Circle(from, 5*b.pen), scene.Black, scene.Tag{Layer: aid.name})
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
