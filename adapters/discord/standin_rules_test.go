package discord

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// What Discord refuses and its description does not say. Each function gives
// the fault in words, "" where there is none.

func badCommands(list []command) string {
	names := map[string]bool{}
	for _, c := range list {
		switch {
		case c.Type == commandMessage && (c.Description != "" || len(c.Options) > 0):
			return fmt.Sprintf("the menu %q has a description or options", c.Name)
		case c.Type == commandMessage:
			continue
		case !validName.MatchString(c.Name):
			return fmt.Sprintf("name %q", c.Name)
		case names[c.Name]:
			return fmt.Sprintf("two commands %q", c.Name)
		case c.Description == "":
			return fmt.Sprintf("%q has no description", c.Name)
		case len(c.Options) > maxOptions:
			return fmt.Sprintf("%q has %d options", c.Name, len(c.Options))
		case badTranslations(c.Translations) != "":
			return fmt.Sprintf("%q: %s", c.Name, badTranslations(c.Translations))
		case c.size() > maxCommandTotal:
			return fmt.Sprintf("%q has %d characters", c.Name, c.size())
		}
		names[c.Name] = true
		if problem := badOptions(c.Options); problem != "" {
			return fmt.Sprintf("%q: %s", c.Name, problem)
		}
	}
	return ""
}

func badOptions(list []option) string {
	options := map[string]bool{}
	optional := false
	for _, o := range list {
		if len(o.Options) > maxOptions || len(o.Options) > 0 && o.Type != typeSubcommand {
			return fmt.Sprintf("%q has options", o.Name)
		}
		if (o.Type == typeSubcommand) != (list[0].Type == typeSubcommand) {
			return fmt.Sprintf("%q stands beside a subcommand", o.Name)
		}
		if problem := badOptions(o.Options); problem != "" {
			return fmt.Sprintf("%q: %s", o.Name, problem)
		}
		switch {
		case !validName.MatchString(o.Name):
			return fmt.Sprintf("an option %q", o.Name)
		case options[o.Name]:
			return fmt.Sprintf("two options %q", o.Name)
		case o.Required && optional:
			return fmt.Sprintf("required %q after an optional one", o.Name)
		case o.Autocomplete && len(o.Choices) > 0:
			return fmt.Sprintf("%q has choices and completion", o.Name)
		case o.Autocomplete && o.Type == typeBoolean, len(o.Choices) > 0 && o.Type == typeBoolean:
			return fmt.Sprintf("%q is yes or no", o.Name)
		case o.MinValue != nil && o.MaxValue != nil && *o.MinValue > *o.MaxValue:
			return fmt.Sprintf("%q has an empty range", o.Name)
		case (o.MinValue != nil || o.MaxValue != nil) && o.Type != typeNumber && o.Type != typeInteger:
			return fmt.Sprintf("%q has a range and is no number", o.Name)
		}
		if problem := badTranslations(o.Translations); problem != "" {
			return fmt.Sprintf("%q: %s", o.Name, problem)
		}
		if problem := badChoices(o.Choices); problem != "" {
			return fmt.Sprintf("%q: %s", o.Name, problem)
		}
		options[o.Name] = true
		optional = optional || !o.Required
	}
	return ""
}

func badTranslations(list map[string]string) string {
	for language, text := range list {
		if n := length(text); n < 1 || n > maxCommandText || !slices.Contains([]string{"de", "fr", "es-ES", "es-419"}, language) {
			return fmt.Sprintf("%d characters in %s", n, language)
		}
	}
	return ""
}

func badChoices(list []choice) string {
	if len(list) > maxChoices {
		return fmt.Sprintf("%d choices", len(list))
	}
	names := map[string]bool{}
	for _, c := range list {
		if n := length(c.Name); n < 1 || n > 100 {
			return fmt.Sprintf("a choice of %d characters", n)
		}
		if text, ok := c.Value.(string); ok && length(text) > 100 {
			return fmt.Sprintf("a value of %d characters", length(text))
		}
		if names[c.Name] {
			return fmt.Sprintf("two choices %q", c.Name)
		}
		names[c.Name] = true
	}
	return ""
}

func badMessage(m *message, files int, update bool) string {
	// A rule of ours: no answer pings anybody but the one whom its text names.
	if m.Mentions.Parse == nil || len(m.Mentions.Parse) > 0 || len(m.Mentions.Users) > 1 {
		return "mentions are allowed"
	}
	for _, user := range m.Mentions.Users {
		if !strings.Contains(m.Content, "<@"+user+">") {
			return "a mention of somebody whom the text does not name"
		}
	}
	if !update && m.Content == "" && len(m.Embeds) == 0 && len(m.Components) == 0 && files == 0 {
		return "an empty message"
	}
	if length(m.Content) > maxContent {
		return fmt.Sprintf("content of %d characters", length(m.Content))
	}
	if problem := badEmbeds(m.Embeds); problem != "" {
		return problem
	}
	for _, e := range m.Embeds {
		named := e.Image == nil || slices.ContainsFunc(m.Attachments, func(a attachment) bool { return e.Image.URL == "attachment://"+a.Filename })
		if !named {
			return "a picture that is not attached"
		}
	}
	if files > maxFiles || len(m.Attachments) > maxFiles {
		return fmt.Sprintf("%d files", files)
	}
	return badRows(m.Components)
}

func badEmbeds(list []embed) string {
	total := 0
	for _, e := range list {
		total += length(e.Title) + length(e.Description)
		if e.Title == "" && e.Description == "" {
			return "an empty embed"
		}
		if length(e.Title) > maxTitle || length(e.Description) > maxDescription {
			return "an embed that is too long"
		}
		if e.Footer != nil {
			if length(e.Footer.Text) > maxFooter {
				return "a footer that is too long"
			}
			total += length(e.Footer.Text)
		}
	}
	if total > maxEmbedTotal {
		return fmt.Sprintf("%d characters over all embeds", total)
	}
	return ""
}

func badRows(rows []component) string {
	if len(rows) > 5 {
		return fmt.Sprintf("%d rows", len(rows))
	}
	ids := map[string]bool{}
	for _, r := range rows {
		if r.Type != typeRow || len(r.Components) == 0 || len(r.Components) > 5 {
			return "a row that is none, empty or too full"
		}
		for _, c := range r.Components {
			switch {
			case c.CustomID == "" || length(c.CustomID) > maxCustomID:
				return fmt.Sprintf("custom id %q", c.CustomID)
			case ids[c.CustomID]:
				return fmt.Sprintf("two times custom id %q", c.CustomID)
			case c.Type == typeSelect && len(r.Components) > 1:
				return "a select beside something else"
			case c.Type == typeButton && (c.Label == "" || length(c.Label) > maxButtonLabel):
				return fmt.Sprintf("label %q", c.Label)
			}
			ids[c.CustomID] = true
			values := map[string]bool{}
			for _, o := range c.Options {
				if values[o.Value] {
					return fmt.Sprintf("two times the value %q", o.Value)
				}
				values[o.Value] = true
			}
		}
	}
	return ""
}

func badModal(f *modal) string {
	if len(f.Components) == 0 || len(f.Components) > maxModalInputs {
		return fmt.Sprintf("%d fields", len(f.Components))
	}
	ids := map[string]bool{}
	for _, label := range f.Components {
		c := label.Component
		switch {
		case label.Type != typeLabel || label.Label == "" || length(label.Label) > maxFieldLabel || length(label.Description) > maxFieldText:
			return "a field without its label, or with too long a one"
		case c == nil || c.Type != typeInput && c.Type != typeSelect || c.Label != "":
			return "a label without a field"
		case c.CustomID == "" || length(c.CustomID) > maxCustomID || ids[c.CustomID]:
			return fmt.Sprintf("custom id %q", c.CustomID)
		case c.Type == typeSelect && (len(c.Options) == 0 || len(c.Options) > maxSelect):
			return fmt.Sprintf("a list of %d", len(c.Options))
		case length(c.Placeholder) > maxPlaceholder || c.MaxLength > maxInputValue || length(c.Value) > maxInputValue:
			return "a field that takes too much"
		}
		ids[c.CustomID] = true
		values := map[string]bool{}
		for _, o := range c.Options {
			if o.Label == "" || length(o.Label) > maxSelectLabel || length(o.Value) > maxSelectLabel || values[o.Value] {
				return fmt.Sprintf("the choice %q", o.Label)
			}
			values[o.Value] = true
		}
	}
	return ""
}

// Each rule of the stand-in refuses what it is for.
func TestStandInRefuses(t *testing.T) {
	none := mentions{Parse: []string{}}
	text := func(n int) string {
		b := make([]byte, n)
		for i := range b {
			b[i] = 'x'
		}
		return string(b)
	}
	one := 1.0
	zero := 0.0
	cmd := func(o ...option) []command { return []command{{Name: "a", Description: "a", Options: o}} }
	tests := []struct {
		name, got string
	}{
		{"upper-case name", badCommands([]command{{Name: "Collet", Description: "x"}})},
		{"two names", badCommands([]command{{Name: "a", Description: "x"}, {Name: "a", Description: "x"}})},
		{"no description", badCommands([]command{{Name: "a"}})},
		{"required last", badCommands(cmd(option{Name: "a"}, option{Name: "b", Required: true}))},
		{"two options", badCommands(cmd(option{Name: "a"}, option{Name: "a"}))},
		{"completion and choices", badCommands(cmd(option{Name: "a", Autocomplete: true, Choices: []choice{{Name: "x", Value: "x"}}}))},
		{"empty range", badCommands(cmd(option{Name: "a", Type: typeNumber, MinValue: &one, MaxValue: &zero}))},
		{"range of text", badCommands(cmd(option{Name: "a", Type: typeString, MinValue: &zero, MaxValue: &one}))},
		{"too many options", badCommands(cmd(make([]option, 26)...))},
		{"too long in all", badCommands(cmd(option{Name: "a", Description: text(8001)}))},
		{"a long translation", badCommands([]command{{Name: "a", Description: "a", Translations: map[string]string{"de": text(101)}}})},
		{"a language that Discord does not have", badCommands(cmd(option{Name: "a", Translations: map[string]string{"es": "a"}}))},
		{"too many choices", badChoices(make([]choice, 26))},
		{"choice without a name", badChoices([]choice{{}})},
		{"mentions", badMessage(&message{Content: "x"}, 0, false)},
		{"empty message", badMessage(&message{Mentions: none}, 0, false)},
		{"long content", badMessage(&message{Mentions: none, Content: text(2001)}, 0, false)},
		{"empty embed", badMessage(&message{Mentions: none, Embeds: []embed{{}}}, 0, false)},
		{"sum of embeds", badMessage(&message{Mentions: none, Embeds: []embed{{Description: text(4000)}, {Description: text(2001)}}}, 0, false)},
		{"six rows", badRows(make([]component, 6))},
		{"six buttons", badRows([]component{row(make([]component, 6)...)})},
		{"twice the id", badRows([]component{row(button("a", "x"), button("b", "x"))})},
		{"select and button", badRows([]component{row(button("a", "x"), component{Type: typeSelect, CustomID: "y"})})},
		{"six fields", badModal(&modal{Components: make([]component, 6)})},
		{"a field in a row", badModal(&modal{Components: []component{row(component{Type: typeInput, CustomID: "a", Label: "a"})}})},
		{"a label twice", badModal(&modal{Components: []component{labelled("a", "", component{Type: typeInput, CustomID: "a", Label: "a"})}})},
		{"an empty list", badModal(&modal{Components: []component{labelled("a", "", component{Type: typeSelect, CustomID: "a"})}})},
		{"a long label", badModal(&modal{Components: []component{{Type: typeLabel, Label: text(46), Component: &component{Type: typeInput, CustomID: "a"}}}})},
	}
	for _, test := range tests {
		if test.got == "" {
			t.Errorf("%s: accepted", test.name)
		}
	}
	if p := badMessage(&message{Mentions: none, Content: "x"}, 0, false); p != "" {
		t.Errorf("a right message is refused: %s", p)
	}
}
