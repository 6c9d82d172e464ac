package template

import "github.com/tdewolff/canvas"

// legendEntry is one line sample with its name; x is its left end.
type legendEntry struct {
	role Role
	x    float64
}

// legendRows sets line samples of the length given, with their names, in rows
// no wider than wide.
func legendRows(present []Role, l lettering, sample, wide float64) [][]legendEntry {
	var rows [][]legendEntry
	x := 0.0
	for _, r := range present {
		w := sample + l.em*0.35 + l.width(styleOf(r).name)
		if len(rows) == 0 || x+w > wide {
			rows = append(rows, nil)
			x = 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], legendEntry{r, x})
		x += w + l.em
	}
	return rows
}

// drawSample draws a piece of line and its name, the line's middle at y.
func (b brush) drawSample(r Role, l lettering, sample, x, y float64) {
	s := styleOf(r)
	p := &canvas.Path{}
	if r == Drill {
		p = canvas.Circle(9*b.pen).Flatten(0.1*b.pen).Translate(x+sample/2, y)
	} else {
		p.MoveTo(x, y)
		p.LineTo(x+sample, y)
	}
	b.line(p, s)
	b.stroke(b.decoration(p, s), styles[Mark].width, nil, black)
	b.write(l, s.name, x+sample+l.em*0.35, y-l.em*0.3, 0, canvas.Left)
}
