package catalogue

import (
	"fmt"
	"strings"

	"guildhand/calc/stock"
)

// Help lists the requests, each in one line.
func Help(specs []Spec) []string {
	lines := make([]string, len(specs))
	for i := range specs {
		lines[i] = HelpLine(&specs[i])
	}
	return lines
}

// HelpLine is one request in one line: "collet: the flat blank of ...".
func HelpLine(s *Spec) string {
	line := s.Name + ": " + s.Summary
	if s.Needs == Teacher {
		line += " (teachers)"
	}
	return line
}

// HelpFor describes one request below its HelpLine: detail, examples, options,
// each in one line. The workshop gives the choices that depend on it; it may
// be nil.
func HelpFor(s *Spec, shop *stock.Workshop) []string {
	var lines []string
	if s.Detail != "" {
		lines = append(lines, s.Detail)
	}
	for _, e := range s.Examples {
		lines = append(lines, ExampleLine(e))
	}
	for i := range s.Options {
		lines = append(lines, OptionLine(&s.Options[i], shop))
	}
	return lines
}

// ExampleLine is an example with what it shows.
func ExampleLine(e Example) string {
	if e.Summary == "" {
		return "example: " + e.Line
	}
	return "example: " + e.Line + " (" + e.Summary + ")"
}

// maxHelpChoices is how many choices help spells out.
const maxHelpChoices = 30

// OptionLine is one option in one line: name, meaning, what it takes, default.
func OptionLine(o *Option, shop *stock.Workshop) string {
	var b strings.Builder
	b.WriteString(o.Name)
	if len(o.Aliases) > 0 {
		b.WriteString(" (or " + strings.Join(o.Aliases, ", ") + ")")
	}
	b.WriteString(": " + o.Summary)
	if o.Kind == Word {
		var keys []string
		for _, c := range o.ChoicesIn(shop) {
			if len(keys) == maxHelpChoices {
				keys = append(keys, "...")
				break
			}
			keys = append(keys, c.Key)
		}
		if len(keys) > 0 {
			b.WriteString("; " + strings.Join(keys, ", "))
		}
	}
	if r := o.Range(); r != "" {
		b.WriteString("; " + r)
	}
	if o.Default != "" {
		b.WriteString("; else " + o.Default)
	}
	if o.Bare {
		b.WriteString("; its name can be left out")
	}
	if o.Required {
		b.WriteString("; needed")
	}
	return b.String()
}

// MarkdownTable is the table of requests for README.
func MarkdownTable(specs []Spec) string {
	var b strings.Builder
	b.WriteString("| request | answers | for example |\n| --- | --- | --- |\n")
	for i := range specs {
		s := &specs[i]
		example := ""
		if len(s.Examples) > 0 {
			example = "`" + s.Examples[0].Line + "`"
		}
		summary := s.Summary
		if s.Needs == Teacher {
			summary += " (teachers)"
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", s.Name, cell(summary), cell(example))
	}
	return b.String()
}

// cell keeps a table's cell in its column.
func cell(s string) string {
	return strings.ReplaceAll(strings.ReplaceAll(s, "|", `\|`), "\n", " ")
}
