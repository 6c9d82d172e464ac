// Package scene is what a drawing is made of: strokes, fills and lettering on a
// sheet, and its files: PNG, PDF and SVG.
//
// A Scene is built once, back to front, and then only read, so several
// goroutines may render it at once. Its coordinates are y up. Its unit is the millimetre on paper (PDF and SVG are 1:1) and
// the pixel in a picture, which has no size of its own. The three renderers
// take no decisions: what a line means, how wide it is and where lettering
// stands is decided before it is put on the scene. The same scene always gives
// the same bytes.
package scene

import (
	"math"
)

// Scene is one sheet. Stroke, Fill and Write put things on it; what comes later
// lies over what came before.
type Scene struct {
	// Box is the part of the plane that is the sheet.
	Box   Rect
	items []item
}

// item is one of: a stroked path, a filled path, lettering.
type item struct {
	path  Path
	line  Line // a Width of 0 is a fill
	ink   Grey
	text  *Text
	id    string
	layer string
}

// Grey is an ink, 0 for black.
type Grey uint8

// Inks. Soft is dark enough for a poor printer.
const (
	Black Grey = 0
	Soft  Grey = 0x48
	White Grey = 0xff
)

// Line is a type of line, as ISO 128 has them: a width and, unless the line is
// continuous, a pattern of lengths drawn and left out in turn. Lengths are in
// the scene's unit. Ends are cut off square, corners bevelled.
type Line struct {
	Width  float64
	Dashes []float64
	Ink    Grey
}

// Tag names a path for readers of the SVG: an id that is used once, and the
// layer that it belongs to. Both may be empty.
type Tag struct{ ID, Layer string }

// Stroke draws along a path.
func (s *Scene) Stroke(p Path, line Line, tag Tag) {
	if len(p) > 0 {
		s.items = append(s.items, item{path: p, line: line, ink: line.Ink, id: tag.ID, layer: tag.Layer})
	}
}

// Fill paints the inside of closed strokes by the non-zero rule: a hole runs
// the other way round.
func (s *Scene) Fill(p Path, ink Grey, tag Tag) {
	if len(p) > 0 {
		s.items = append(s.items, item{path: p, ink: ink, id: tag.ID, layer: tag.Layer})
	}
}

// Empty reports whether nothing of the scene comes into the rectangle: the boxes
// of its paths and texts keep out of it.
func (s *Scene) Empty(r Rect) bool {
	for _, it := range s.items {
		box, ok := it.path.Bounds()
		if t := it.text; t != nil {
			at := t.start()
			reach := t.Width(t.Line)
			sin, cos := math.Sincos(t.Angle * math.Pi / 180)
			end := Point{at.X + reach*cos, at.Y + reach*sin}
			box, ok = Rect{min(at.X, end.X), min(at.Y, end.Y), max(at.X, end.X), max(at.Y, end.Y)}.Grow(t.Em), true
		}
		if ok && box.Overlaps(r) {
			return false
		}
	}
	return true
}

// Write letters one line of text in black.
func (s *Scene) Write(t Text) {
	if t.Line != "" {
		s.items = append(s.items, item{text: &t})
	}
}
