package requests

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"guildhand/bot/requests/words"
	"guildhand/bot/template"
	"guildhand/calc/outline"
)

// inWords describes a drawing so that a maker who can't see it can cut from it:
// the piece, its metal, its measures, and what else is said of it.
func inWords(d template.Drawing, more ...string) string {
	sentences := []string{d.Title}
	for _, line := range d.Lines {
		sentences = append(sentences, words.Capital(line))
	}
	if m := d.Measures(); len(m) > 0 {
		sentences = append(sentences, words.Capital(strings.Join(m, ", ")))
	}
	for _, s := range more {
		if s != "" {
			sentences = append(sentences, words.Capital(s))
		}
	}
	for _, detail := range d.Details {
		said := detail.Title
		if told := append(slices.Clone(detail.Lines), detail.Measures()...); len(told) > 0 {
			said += ": " + strings.Join(told, ", ")
		}
		sentences = append(sentences, said)
	}
	for i, s := range sentences {
		sentences[i] = strings.TrimSuffix(s, ".")
	}
	return strings.Join(sentences, ". ") + "."
}

// measured gives the path of an id a measure.
func measured(paths []template.Path, id, measure string) {
	for i := range paths {
		if paths[i].ID == id {
			paths[i].Measure = measure
		}
	}
}

// foldWords counts the folds, and is empty if there is none.
func foldWords(n int) string {
	if n == 0 {
		return ""
	}
	return words.Counted(n, "fold line", "fold lines")
}

// quarterNames name the quarter marks of a wall round a stone, in their order
// from the seam: where an axis of the stone meets its outline.
func quarterNames(curve outline.Curve, seam outline.Place) []string {
	start, ok := curve.LengthTo(seam)
	if !ok {
		return nil
	}
	perimeter := curve.PerimeterMM()
	type mark struct {
		at   float64
		name string
	}
	size := curve.Size()
	var marks []mark
	for _, p := range curve.Pieces {
		for q := math.Ceil(p.From/(math.Pi/2) - 1e-9); q*math.Pi/2 <= p.To+1e-9; q++ {
			s, ok := curve.LengthTo(outline.Place{Tag: p.Tag, Normal: q * math.Pi / 2})
			if !ok {
				continue
			}
			at := math.Mod(s-start+2*perimeter, perimeter)
			if at < 0.02*perimeter || at > 0.98*perimeter {
				continue // the seam
			}
			name := "side"
			if math.Mod(math.Abs(q), 2) == 1 && size.LengthMM > size.WidthMM*1.01 {
				name = "end"
			}
			marks = append(marks, mark{at, name})
		}
	}
	slices.SortFunc(marks, func(a, b mark) int {
		if a.at < b.at {
			return -1
		}
		return 1
	})
	var names []string
	for i, m := range marks {
		if i == 0 || m.at-marks[i-1].at > 0.01*perimeter {
			names = append(names, m.name)
		}
	}
	return names
}

// nameMarks letters the quarter marks among paths with their names, where there
// are as many.
func nameMarks(paths []template.Path, names []string) {
	var at []int
	for i, p := range paths {
		if strings.HasPrefix(p.ID, "mark-") {
			at = append(at, i)
		}
	}
	slices.SortStableFunc(at, func(i, k int) int { return cmp.Compare(paths[i].Segs[0].P.X, paths[k].Segs[0].P.X) })
	place, last := -1, math.Inf(-1)
	places := make([]int, len(at)) // marks that lie on each other share a place
	for k, i := range at {
		if x := paths[i].Segs[0].P.X; x > last+0.05 {
			place, last = place+1, x
		}
		places[k] = place
	}
	for k, i := range at {
		paths[i].Label = "quarter mark"
		if place+1 == len(names) {
			paths[i].Label = names[places[k]]
		}
	}
}

// rectangle is a closed cut face.
func rectangle(id string, x0, y0, x1, y1 float64) template.Path {
	return template.Rect(id, template.Edge, "", [2]float64{x0, y0}, [2]float64{x1, y1})
}

// mirrored is a path turned over about the upright axis.
func mirrored(points [][2]float64) [][2]float64 {
	out := slices.Clone(points)
	for i := range out {
		out[i][0] = -out[i][0]
	}
	slices.Reverse(out)
	return out
}
