package cautions

import (
	"fmt"
	"strings"
)

// Row is one text with its source.
type Row struct {
	// Of is the hazard's key, or "first aid: eyes".
	Of string
	// Jobs are the jobs that it belongs to; empty for first aid.
	Jobs         []Job
	Text, Source string
}

// Sources lists every text of this package with its source.
func Sources() []Row {
	var rows []Row
	for _, c := range hazards {
		rows = append(rows, Row{c.Key, c.When.Jobs, c.Short, c.Source}, Row{c.Key, c.When.Jobs, c.Full, c.Source})
	}
	for _, f := range firstAid {
		for _, l := range f.Lines() {
			rows = append(rows, Row{Of: "first aid: " + f.Key, Text: l.Text, Source: l.Source})
		}
	}
	return append(rows,
		Row{Of: "end of every list", Text: Deferral, Source: Practice},
		Row{Of: "end of first aid", Text: NotADoctor, Source: "P308+P313 and P310, " + clpLabel})
}

// String is the row as a line of a list.
func (r Row) String() string {
	of := r.Of
	if len(r.Jobs) > 0 {
		words := make([]string, len(r.Jobs))
		for i, j := range r.Jobs {
			words[i] = string(j)
		}
		of += " (" + strings.Join(words, ", ") + ")"
	}
	return fmt.Sprintf("%s: %s [source: %s]", of, r.Text, r.Source)
}
