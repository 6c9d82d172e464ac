// Package template draws flat blanks and layouts: a PNG for a phone, and PDF
// and SVG at exactly 1:1.
//
// A Drawing is in millimetres, y up. A layout finds the places of its lines and
// labels for one output and puts them on a scene, whose renderers make the file.
package template

import (
	"slices"
	"strings"

	"guildhand/bot/template/scene"
)

// Role says what a line is, and so how it is drawn: roles are told apart by
// line style and label, never by colour alone.
type Role int

// Roles of paths.
const (
	Cut     Role = iota // edge to cut: heavy solid
	Seam                // seam edge: heavy solid with cross ticks / label
	Fold                // fold or bend line: thin solid, a ring at each end
	Girdle              // long dashes
	Bearing             // short dashes
	Mark                // thin solid: quarter marks, centre marks, pass limits
	Waste               // dotted: windows to saw out, offcut
	Outline             // long dash, two dots: stock sheet, block holes, what is beside the piece
	Drill               // drill centre with its circle
	Centre              // long dash, dot: a centre line
	Hidden              // dashes: an edge behind the metal
	Edge                // heavy solid: an edge that is seen and not cut, as in a section
	Stone               // thin solid: the stone in its setting
	Seen                // heavy solid: an edge in a view of the finished piece
)

// Path is one path of a drawing.
type Path struct {
	// ID is the path's id in the SVG: "rim", "base", "seam-a", "fold-1".
	ID   string
	Role Role
	// Label is lettered along or beside the path, "girdle"; empty for none.
	// Paths of the same role and label are lettered once.
	Label string
	// Measure is lettered after the label on a picture: "1.01 mm below the rim".
	Measure string
	Segs    scene.Path
}

// Text is lettering at a place of the drawing, such as "seam, file 36.9°".
// Where it would lie on a line or on other lettering it is moved aside, with a
// leader to its place.
type Text struct {
	// At is the middle of the lettering.
	At    [2]float64
	Angle float64 // degrees, counter-clockwise
	Text  string
	// SizeMM is the letter height at 1:1; 0 takes the default. PNG scales it
	// so that it stays legible at 400 px.
	SizeMM float64
}

// Drawing is what is drawn, at 1:1, mm, y up.
type Drawing struct {
	// Name is the base of file names, "collet-oval-8x6".
	Name string
	// Title is the headline, and Lines a few lines of text under it.
	Title string
	Lines []string
	Paths []Path
	// More gives further paths when the drawing is drawn, for those that take long to
	// find. It may be called several times, and from several goroutines.
	More  func() []Path
	Texts []Text
	// Dimensions stand on pictures, not at 1:1.
	Dimensions []Dimension
	// CutFaces are closed and hatched on pictures: metal that a section cuts
	// through, or that is cut away.
	CutFaces []Path
	// Details are smaller drawings under this one on a picture, each to a scale
	// of its own: a section, a view from above.
	Details []Drawing
	// Foot is the last line of a picture: its date and its unit.
	Foot string
	// Alt describes the picture in words.
	Alt string
}

// Whole is d with all its paths, those of its details too.
func (d Drawing) Whole() Drawing {
	if d.More != nil {
		d.Paths, d.More = slices.Concat(d.Paths, d.More()), nil
	}
	details := make([]Drawing, len(d.Details))
	for i, detail := range d.Details {
		details[i] = detail.Whole()
	}
	d.Details = details
	return d
}

// Overall are the dimensions over all of what d cuts out, its length below or
// above it and its height on the right, in the words given.
func (d Drawing) Overall(level Side, length, height string) []Dimension {
	var left, right, low, high [2]float64
	first := true
	for _, p := range d.Paths {
		if p.Role != Cut && p.Role != Seam {
			continue
		}
		for _, s := range p.Segs.Flatten(0.002) {
			at := [2]float64{s.P.X, s.P.Y}
			if first {
				left, right, low, high, first = at, at, at, at, false
			}
			// of several such points the one nearest to the dimension line
			nearer := at[1] < left[1]
			if level == Above {
				nearer = at[1] > left[1]
			}
			if at[0] < left[0]-joinMM || at[0] < left[0]+joinMM && nearer {
				left = at
			}
			nearer = at[1] < right[1]
			if level == Above {
				nearer = at[1] > right[1]
			}
			if at[0] > right[0]+joinMM || at[0] > right[0]-joinMM && nearer {
				right = at
			}
			if at[1] < low[1]-joinMM || at[1] < low[1]+joinMM && at[0] > low[0] {
				low = at
			}
			if at[1] > high[1]+joinMM || at[1] > high[1]-joinMM && at[0] > high[0] {
				high = at
			}
		}
	}
	return []Dimension{
		{A: left, B: right, Side: level, Name: "length over all", Text: length},
		{A: low, B: high, Side: Right, Name: "height over all", Text: height},
	}
}

// Measures are the measures that stand on the picture of d, its details left
// out: those of its lines, then its dimensions, each in words.
func (d Drawing) Measures() []string {
	var list []string
	for _, p := range d.Paths {
		if p.Measure != "" && !slices.Contains(list, p.lettered()) {
			list = append(list, p.lettered())
		}
	}
	for _, m := range d.Dimensions {
		list = append(list, strings.TrimSpace(m.Name+" "+m.Text))
	}
	return list
}
