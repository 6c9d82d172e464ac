package template

import (
	"strconv"
	"strings"

	"guildhand/bot/template/scene"
)

// SVG draws d at 1:1: one user unit is one millimetre. Each path of d is one
// path element with its id, and its role as class; ticks and leaders are paths
// without an id.
func SVG(d Drawing) ([]byte, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	const margin, spare = 2.0, 5 * paperEm
	window := Bounds(d).Grow(spare)
	s := newLayout(d, fitting{
		toView: scene.Moved(0, 0), window: window, room: window,
		pen: paperPen, em: paperEm, tolerance: 0.01, widest: 40,
	})

	// the text under the drawing is no wider than it need be
	text := scene.Lettering{Em: paperTextEm}
	heading := scene.Lettering{Em: paperTextEm, Bold: true}
	wide := max(s.used.W(), 90)
	titles := heading.Wrap(d.Title, wide)
	var rows []string
	for _, line := range d.Lines {
		rows = append(rows, text.Wrap(line, wide)...)
	}
	rows = append(rows, "1 unit = 1 mm")
	box := s.used
	box.X1 = box.X0 + max(box.W(), heading.Widest(titles), text.Widest(rows))

	to := brush{to: &scene.Scene{}, pen: paperPen}
	s.draw(to, 0, 0)
	y := to.column(heading, titles, box.X0, box.Y0-paperTextEm)
	box.Y0 = to.column(text, rows, box.X0, y)
	to.to.Box = box.Grow(margin)
	return to.to.SVG(d.Title, d.Alt)
}

// uniqueIDs are the ids of d's paths, fit for XML and each used once: letters,
// digits, dot, dash and underscore, beginning with a letter.
func uniqueIDs(d Drawing) []string {
	used := map[string]bool{"title": true, "desc": true}
	var out []string
	for i, p := range d.Paths {
		id := strings.Map(func(r rune) rune {
			switch {
			case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_', r == '.':
				return r
			}
			return '-'
		}, p.ID)
		if id == "" || !(id[0] >= 'a' && id[0] <= 'z' || id[0] >= 'A' && id[0] <= 'Z') {
			id = "p" + strconv.Itoa(i+1) + id
		}
		for base, n := id, 2; used[id]; n++ {
			id = base + "-" + strconv.Itoa(n)
		}
		used[id] = true
		out = append(out, id)
	}
	return out
}
