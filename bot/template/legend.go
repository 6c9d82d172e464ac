package template

import "guildhand/bot/template/scene"

// legendRows sets line samples of the length given, with their names, in rows
// no wider than wide.
func legendRows(present []Role, l scene.Lettering, sample, wide float64) [][]Role {
	var rows [][]Role
	x := 0.0
	for _, r := range present {
		w := sampleWidth(r, l, sample)
		if len(rows) == 0 || x+w > wide {
			rows = append(rows, nil)
			x = 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], r)
		x += w + l.Em
	}
	return rows
}

func sampleWidth(r Role, l scene.Lettering, sample float64) float64 {
	return sample + l.Em*0.35 + l.Width(styleOf(r).name)
}

// samples draws a row of the legend: pieces of line and their names, the lines'
// middle at y.
func (b brush) samples(row []Role, l scene.Lettering, sample, x, y float64) {
	for _, r := range row {
		s := styleOf(r)
		p := scene.Polyline(scene.Point{X: x, Y: y}, scene.Point{X: x + sample, Y: y})
		if r == Drill {
			p = scene.Circle(scene.Point{X: x + sample/2, Y: y}, 9*b.pen)
		}
		b.stroke(p, s)
		b.stroke(b.decoration(p.Flatten(0.1*b.pen), s), aid)
		b.write(l, s.name, x+sample+l.Em*0.35, y-l.Em*0.3, scene.Start)
		x += sampleWidth(r, l, sample) + l.Em
	}
}
