package template

import "guildhand/bot/template/scene"

// legendEntry is a sample of a line with what it stands for.
type legendEntry struct {
	role Role
	text string
	// goesOn is the rest of the entry before, without a sample.
	goesOn bool
}

// legend names the roles of d, but for those that need no name.
func (d Drawing) legend() []legendEntry {
	var list []legendEntry
	for _, r := range d.present() {
		switch r {
		case Edge, Stone, Centre, Seen: // plain in a section
		default:
			list = append(list, legendEntry{role: r, text: styleOf(r).name})
		}
	}
	return list
}

// legendRows sets line samples of the length given, with their names, in rows
// no wider than wide.
func legendRows(entries []legendEntry, l scene.Lettering, sample, wide float64) [][]legendEntry {
	var rows [][]legendEntry
	x := 0.0
	for _, e := range entries {
		w := e.width(l, sample)
		if len(rows) == 0 || x+w > wide || e.goesOn {
			rows = append(rows, nil)
			x = 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], e)
		x += w + l.Em
	}
	return rows
}

// brokenEntries breaks entries that are wider than a row.
func brokenEntries(entries []legendEntry, l scene.Lettering, sample, wide float64) []legendEntry {
	var list []legendEntry
	for _, e := range entries {
		for i, line := range l.Wrap(e.text, wide-sample-l.Em*0.35) {
			list = append(list, legendEntry{role: e.role, text: line, goesOn: i > 0})
		}
	}
	return list
}

func (e legendEntry) width(l scene.Lettering, sample float64) float64 {
	return sample + l.Em*0.35 + l.Width(e.text)
}

// samples draws a row of the legend: pieces of line and their names, the lines'
// middle at y.
func (b brush) samples(row []legendEntry, l scene.Lettering, sample, x, y float64) {
	for _, e := range row {
		if e.goesOn {
			b.write(l, e.text, x+sample+l.Em*0.35, y-l.Em*0.3, scene.Start)
			continue
		}
		s := styleOf(e.role)
		p := scene.Polyline(scene.Point{X: x, Y: y}, scene.Point{X: x + sample, Y: y})
		if e.role == Drill {
			p = scene.Circle(scene.Point{X: x + sample/2, Y: y}, 9*b.pen)
		}
		b.stroke(p, s)
		b.stroke(b.decoration(p.Flatten(0.1*b.pen), s), aid)
		b.write(l, e.text, x+sample+l.Em*0.35, y-l.Em*0.3, scene.Start)
		x += e.width(l, sample) + l.Em
	}
}
