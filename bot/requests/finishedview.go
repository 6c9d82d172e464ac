package requests

import (
	"fmt"

	"guildhand/bot/template"
	"guildhand/calc/axonometric"
	"guildhand/calc/finished"
)

// finishedView is the finished piece in isometric projection, turned by quarters
// so that its seam faces the eye.
func finishedView(bodies []axonometric.Body, quarters int, lines ...string) template.Drawing {
	d := template.Drawing{Title: "Finished piece", Lines: lines}
	for i, l := range axonometric.Isometric(bodies, quarters) {
		p := template.Polyline(fmt.Sprintf("finished-%d", i+1), finishedRole(l.Name), "", false, l.Points...)
		if l.Name == finished.Seam {
			p.Label = "seam"
		}
		d.Paths = append(d.Paths, p)
	}
	d.Paths = template.Merged(d.Paths)
	return d
}

// finishedRole is how a line of a finished piece is drawn.
func finishedRole(name string) template.Role {
	switch name {
	case finished.Metal:
		return template.Seen
	case finished.Seam:
		return template.Mark
	}
	return template.Stone
}
