package bot

import (
	"slices"
	"strings"
)

// typedForm writes a structured request as one line, for the daybook.
func typedForm(req Request) string {
	names := make([]string, 0, len(req.Options))
	for n := range req.Options {
		names = append(names, n)
	}
	slices.Sort(names)
	var b strings.Builder
	b.WriteString(req.Command)
	for _, n := range names {
		b.WriteString(" " + n + ": " + req.Options[n])
	}
	return b.String()
}
