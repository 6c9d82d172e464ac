package requests

import (
	"fmt"
	"sync"

	"guildhand/bot/template"
	"guildhand/calc/axonometric"
	"guildhand/calc/finished"
)

// finishedView is the finished piece in isometric projection, turned by quarters
// so that its seam faces the eye. Its lines are found when it is drawn, which many
// who read an answer never ask for.
func finishedView(bodies []axonometric.Body, quarters int, lines ...string) template.Drawing {
	return template.Drawing{Title: "Finished piece", Lines: lines, More: sync.OnceValue(func() []template.Path {
		var paths []template.Path
		for i, l := range axonometric.Isometric(bodies, quarters) {
			p := template.Polyline(fmt.Sprintf("finished-%d", i+1), finishedRole(l.Name), "", false, l.Points...)
			if l.Name == finished.Seam {
				p.Label = "seam"
			}
			paths = append(paths, p)
		}
		return template.Merged(paths)
	})}
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
