package template

import (
	"math"

	"github.com/tdewolff/canvas"
)

// scene is a drawing, or the part of it that falls on one page, in the
// renderer's unit, with the places of its labels.
type scene struct {
	set *fontSet
	// lines are the paths as drawn; decorations what their styles add.
	lines, decorations []*canvas.Path
	styles             []lineStyle
	placed             []placed
	// left are the labels without a place.
	left []label
	// used is the rectangle that lines and labels take up.
	used canvas.Rect
}

// fitting says how a scene is made of a drawing.
type fitting struct {
	// toView maps mm of the drawing, y up, to the renderer's unit.
	toView canvas.Matrix
	// window is the part of the view in which lines are drawn, room the part
	// in which labels may stand.
	window, room canvas.Rect
	// pen is the length of one pen, em the size of the lettering, in the
	// renderer's unit; tolerance is the flattening's.
	pen, em, tolerance float64
	// widest is the width at which a label is broken into lines.
	widest float64
	// cut clips the lines to the window; curves keeps them as curves, which a
	// clipped line can't be.
	cut, curves bool
	// screen is for a picture, whose lettering has a size of its own and may
	// hide a line; on paper nothing may hide a line.
	screen bool
}

// newScene flattens the drawing's paths and finds places for its labels.
func newScene(d Drawing, set *fontSet, f fitting) *scene {
	s := &scene{set: set}
	b := brush{pen: f.pen}
	flat := make([]*canvas.Path, 0, len(d.Paths))
	marks := make([]*canvas.Path, 0, len(d.Paths))
	first := true
	for _, p := range d.Paths {
		style := styleOf(p.Role)
		curve := p.canvas().Transform(f.toView)
		line := flatten(curve, f.tolerance)
		deco := b.decoration(line, style)
		if f.cut {
			line, deco = clipPath(line, f.window), clipPath(deco, f.window)
		}
		flat = append(flat, line)
		if !f.curves {
			curve = line
		}
		s.lines, s.decorations, s.styles = append(s.lines, curve), append(s.decorations, deco), append(s.styles, style)
		marks = append(marks, line.Copy().Append(deco))
		for _, q := range []*canvas.Path{line, deco} {
			if q.Empty() {
				continue
			}
			if r := q.FastBounds(); first {
				s.used, first = r, false
			} else {
				s.used = join(s.used, r)
			}
		}
	}
	labels := labelsOf(d, set, flat, f)
	if len(labels) > 0 {
		p := newPlacer(set, f.room, marks, f.em)
		p.over = f.screen
		s.placed, s.left = p.place(labels)
	}
	for _, q := range s.placed {
		if first {
			s.used, first = q.box, false
			continue
		}
		s.used = join(s.used, q.box)
	}
	return s
}

// draw strokes the lines and letters the labels, moved by dx, dy.
func (s *scene) draw(b brush, dx, dy float64) {
	m := canvas.Identity.Translate(dx, dy)
	for i := range s.lines {
		b.line(s.lines[i].Copy().Transform(m), s.styles[i])
		s.drawDecoration(b, i, m)
	}
	s.drawLabels(b, dx, dy)
}

// drawDecoration strokes what the style of path i adds to it.
func (s *scene) drawDecoration(b brush, i int, m canvas.Matrix) {
	b.stroke(s.decorations[i].Copy().Transform(m), styles[Mark].width, nil, black)
}

// drawLabels letters what was placed, with its leaders.
func (s *scene) drawLabels(b brush, dx, dy float64) {
	for _, q := range s.placed {
		q.x, q.fromX, q.toX = q.x+dx, q.fromX+dx, q.toX+dx
		q.y, q.fromY, q.toY = q.y+dy, q.fromY+dy, q.toY+dy
		if q.leader {
			line := &canvas.Path{}
			line.MoveTo(q.fromX, q.fromY)
			line.LineTo(q.toX, q.toY)
			b.stroke(line, styles[Mark].width, nil, black)
			b.fill(canvas.Circle(5*b.pen).Translate(q.fromX, q.fromY), black)
		}
		if q.over {
			r := q.box
			b.fill(canvas.Rectangle(r.W(), r.H()).Translate(r.X0+dx, r.Y0+dy), white)
		}
		letters := lettering{set: s.set, em: q.emNow}
		n := float64(len(q.lines))
		// from the middle of the block down to the first base line
		down := q.emNow * ((capHeight+descent+(n-1)*lineHeight)/2 - capHeight)
		sin, cos := math.Sincos(q.angleUsed * math.Pi / 180)
		for i, text := range q.lines {
			y := down - float64(i)*lineHeight*q.emNow
			b.write(letters, text, q.x-sin*y, q.y+cos*y, q.angleUsed, canvas.Center)
		}
	}
}

// scale is the renderer's units per mm.
func (f fitting) scale() float64 { return math.Sqrt(math.Abs(f.toView.Det())) }

// textEm is the size of a text's lettering.
func (f fitting) textEm(t Text) float64 {
	if t.SizeMM == 0 {
		return f.em
	}
	em := t.SizeMM / capHeight * f.scale()
	if f.screen {
		return math.Min(math.Max(em, f.em), 2*f.em)
	}
	return math.Max(em, 1)
}
