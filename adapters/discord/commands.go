package discord

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"guildhand/bot/catalogue"
	"guildhand/bot/requests/words"
	"guildhand/calc/stock"
)

// Words of the adapter's own. A request whose own option has one of these
// names keeps it, and does without ours.
const (
	askCommand = "ask"
	optLine    = "line"
	optPrivate = "private"
	optForm    = "form"
	optPhoto   = "photo"

	askSummary     = "Ask in one line, as you would say it"
	lineSummary    = "The whole request"
	privateSummary = "Show the answer to you alone"
	formSummary    = "Fill in a form"
	photoSummary   = "The photograph, straight from the phone"
)

// validName is what Discord takes as the name of a command or option, narrowed
// to the letters that the catalogue uses.
var validName = regexp.MustCompile(`^[-_a-z0-9]{1,32}$`)

// menu is the catalogue as Discord shows it: the commands, and what can be
// completed, both made once at start.
type menu struct {
	commands []command
	list     []catalogue.Spec
	shop     *stock.Workshop
	specs    map[string]*catalogue.Spec
	// completions by request and option name.
	completions map[string]map[string][]suggestion
}

// suggestion is one word that may be completed; match holds what may be typed
// to find it, lower case.
type suggestion struct {
	name  string
	value any
	match []string
}

// newMenu makes the commands. It fails where the catalogue has a name that
// Discord would refuse, naming it.
func newMenu(specs []catalogue.Spec, shop *stock.Workshop) (*menu, error) {
	m := &menu{list: specs, shop: shop, specs: map[string]*catalogue.Spec{}, completions: map[string]map[string][]suggestion{}}
	for i := range specs {
		spec := &specs[i]
		if m.specs[spec.Name] != nil || spec.Name == askCommand {
			return nil, fmt.Errorf("two commands are called %q", spec.Name)
		}
		m.specs[spec.Name] = spec
		m.completions[spec.Name] = map[string][]suggestion{}
		c, err := m.command(spec, shop)
		if err != nil {
			return nil, err
		}
		m.commands = append(m.commands, c)
	}
	m.commands = append(m.commands, everywhere(command{
		Name: askCommand, Description: askSummary, Translations: translated(askSummary, ""),
		Options: []option{
			{Type: typeString, Name: optLine, Required: true, Autocomplete: true, MaxLength: maxInputValue,
				Description: lineSummary, Translations: translated(lineSummary, "")},
			privateOption(),
		},
	}))
	m.commands = append(m.commands, messageMenus(m.corrects())...)
	for i := range m.commands {
		if n := m.commands[i].size(); n > maxCommandTotal {
			return nil, fmt.Errorf("command %q has %d characters of names and descriptions, and Discord takes %d", m.commands[i].Name, n, maxCommandTotal)
		}
	}
	return m, nil
}

// everywhere lets a command be used in servers, in direct messages and in
// private channels, by server and by user installation.
func everywhere(c command) command {
	c.Type = commandSlash
	c.Contexts = []int{0, 1, 2}
	c.Integrations = []int{0, 1}
	return c
}

func privateOption() option {
	return option{Type: typeBoolean, Name: optPrivate, Description: privateSummary, Translations: translated(privateSummary, "")}
}

func (m *menu) command(spec *catalogue.Spec, shop *stock.Workshop) (command, error) {
	if !validName.MatchString(spec.Name) {
		return command{}, fmt.Errorf("request %q: Discord takes 1 to 32 of a to z, 0 to 9, - and _", spec.Name)
	}
	c := everywhere(command{Name: spec.Name, Description: description(spec.Summary, spec.Name), Translations: translated(spec.Summary, "")})
	if spec.Needs == catalogue.Teacher {
		c.Needs = permManageGuild
	}
	seen := map[string]bool{}
	for i := range spec.Options {
		o := &spec.Options[i]
		if !validName.MatchString(o.Name) {
			return command{}, fmt.Errorf("request %q, option %q: Discord takes 1 to 32 of a to z, 0 to 9, - and _", spec.Name, o.Name)
		}
		if seen[o.Name] {
			return command{}, fmt.Errorf("request %q has two options called %q", spec.Name, o.Name)
		}
		seen[o.Name] = true
		m.completions[spec.Name][o.Name] = suggestions(o, m.option(spec, o, shop).Type, shop)
	}
	if len(spec.Parts) > 0 {
		c.Options = m.parts(spec, shop)
		c.shrink(m.completions[spec.Name])
		return c, nil
	}
	c.Options = m.options(spec, shop, seen)
	c.shrink(m.completions[spec.Name])
	return c, nil
}

// mostOptions is how many options a command has: those that makers name most,
// and ours. The others are given in the line, whose description names them.
const mostOptions = 10

// options are a command's own and ours. Nothing is required, or the whole
// request could not be given as a line; what is missing is asked for.
func (m *menu) options(spec *catalogue.Spec, shop *stock.Workshop, taken map[string]bool) []option {
	var ours []option
	for _, o := range []option{
		{Type: typeString, Name: optLine, Autocomplete: true, MaxLength: maxInputValue, Description: "The whole request in one line, in place of the other options"},
		privateOption(),
		{Type: typeBoolean, Name: optForm, Description: formSummary, Translations: translated(formSummary, "")},
	} {
		fewest := map[string]int{optLine: 1, optForm: 3}[o.Name] // of fewer options neither is of use
		if !taken[o.Name] && len(spec.Options) >= fewest {
			ours = append(ours, o)
		}
	}
	sorted := inOrder(spec)
	shown, rest := sorted, sorted[:0:0]
	if most := mostOptions - len(ours); len(sorted) > most {
		shown, rest = sorted[:most], sorted[most:]
	}
	var list []option
	for _, o := range shown {
		list = append(list, m.option(spec, o, shop))
	}
	if len(rest) > 0 && len(ours) > 0 && ours[0].Name == optLine {
		var names []string
		for _, o := range rest {
			names = append(names, o.Name)
		}
		ours[0].Description = listed("Anything else, as typed: ", names, "; /help has all")
	}
	return append(list, ours...)
}

// listed names as many as a description has room for, and says where the others
// are.
func listed(lead string, names []string, others string) string {
	whole := lead + strings.Join(names, ", ")
	if length(whole) <= maxCommandText {
		return whole
	}
	text := lead
	for i, name := range names {
		if i > 0 {
			name = ", " + name
		}
		if length(text)+length(name)+length(others) > maxCommandText {
			break
		}
		text += name
	}
	return text + others
}

// parts are a command's subcommands.
func (m *menu) parts(spec *catalogue.Spec, shop *stock.Workshop) []option {
	var list []option
	for _, p := range spec.Parts {
		sub := option{Type: typeSubcommand, Name: p.Name, Description: description(p.Summary, p.Name), Translations: translated(p.Summary, "")}
		room := mostOptions - 1 // private comes last
		if p.Photo {
			room--
		}
		for _, name := range p.Options {
			if o, ok := spec.Option(name); ok && len(sub.Options) < room {
				d := m.option(spec, o, shop)
				d.Autocomplete = d.Autocomplete || p.Entry == o.Name
				sub.Options = append(sub.Options, d)
			}
		}
		if p.Photo {
			sub.Options = append(sub.Options, option{Type: typeAttachment, Name: optPhoto, Description: photoSummary, Translations: translated(photoSummary, "")})
		}
		sub.Options = append(sub.Options, privateOption())
		list = append(list, sub)
	}
	return list
}

// askedFirst is the order in which makers think: the stone, how deep it sits,
// what it is made of.
var askedFirst = []string{"outline", "size", "depth", "alloy", "thickness", "height"}

// inOrder are a request's options in the order in which they are asked for:
// what makers think of first, what is needed, what is measured, the rest.
func inOrder(spec *catalogue.Spec) []*catalogue.Option {
	var list []*catalogue.Option
	for i := range spec.Options {
		list = append(list, &spec.Options[i])
	}
	slices.SortStableFunc(list, func(a, b *catalogue.Option) int { return order(a) - order(b) })
	return list
}

func order(o *catalogue.Option) int {
	first := slices.Index(askedFirst, o.Name)
	switch {
	case o.Required && first < 0:
		return -1
	case first >= 0:
		return first
	case o.Form:
		return len(askedFirst)
	}
	return len(askedFirst) + 1
}

// formOptions are those that are easier to give in a form than in a line:
// first what is measured on a piece, then long lists.
func formOptions(spec *catalogue.Spec) []*catalogue.Option {
	var measured, lists []*catalogue.Option
	for i := range spec.Options {
		switch o := &spec.Options[i]; {
		case o.Form:
			measured = append(measured, o)
		case o.Kind == catalogue.Points || o.Kind == catalogue.Words:
			lists = append(lists, o)
		}
	}
	return append(measured, lists...)
}

func (m *menu) option(spec *catalogue.Spec, o *catalogue.Option, shop *stock.Workshop) option {
	d := option{
		Name: o.Name, Type: typeString, Description: description(o.Summary+rangeOf(o), o.Name), Translations: translated(o.Summary, rangeOf(o)),
	}
	switch o.Kind {
	case catalogue.Angle, catalogue.Number, catalogue.Percent:
		d.Type = typeNumber
	case catalogue.Integer:
		d.Type = typeInteger
	case catalogue.Flag:
		d.Type = typeBoolean
	}
	if o.Person {
		d.Type = typeUser
		return d
	}
	if d.Type == typeNumber || d.Type == typeInteger {
		d.Description, d.Translations = description(o.Summary, o.Name), translated(o.Summary, "")
		if o.Min != 0 || o.Max != 0 {
			d.MinValue, d.MaxValue = &o.Min, &o.Max
		}
	}
	list := suggestions(o, d.Type, shop)
	switch {
	case len(list) == 0:
	case o.Kind == catalogue.Word && o.ChoicesFrom == nil && len(list) <= maxChoices:
		for _, s := range list {
			d.Choices = append(d.Choices, choice{Name: s.name, Value: s.value})
		}
	default:
		d.Autocomplete = true
	}
	return d
}

// suggestions of an option, of the type that its values have on the wire.
func suggestions(o *catalogue.Option, wire int, shop *stock.Workshop) []suggestion {
	words := o.Choices
	if words == nil && o.ChoicesFrom != nil {
		words = o.ChoicesFrom(shop)
	}
	var list []suggestion
	for _, w := range words {
		name := w.Key
		if w.Summary != "" {
			name += ": " + w.Summary
		}
		s := suggestion{name: clip(name, maxCommandText), value: w.Key, match: []string{strings.ToLower(w.Key)}}
		for _, alias := range w.Aliases {
			s.match = append(s.match, strings.ToLower(alias))
		}
		list = append(list, s)
	}
	for _, text := range o.Suggest {
		s := suggestion{name: clip(text, maxCommandText), value: text, match: []string{strings.ToLower(text)}}
		if wire == typeNumber || wire == typeInteger {
			n, err := strconv.ParseFloat(text, 64)
			if err != nil {
				continue // a number with its unit can only be typed
			}
			s.value = n
		}
		if wire != typeBoolean && length(text) <= maxCommandText {
			list = append(list, s)
		}
	}
	return list
}

// rangeOf words the allowed range of an option that is typed as text.
func rangeOf(o *catalogue.Option) string {
	if o.Min == 0 && o.Max == 0 {
		return ""
	}
	unit := map[catalogue.Kind]string{
		catalogue.Length: " mm", catalogue.Thickness: " mm", catalogue.Size: " mm",
		catalogue.Mass: " g", catalogue.Share: " % or g", catalogue.Force: " N",
	}[o.Kind]
	text := " (" + number(o.Min) + " to " + number(o.Max) + unit + ")"
	if length(o.Summary)+length(text) > maxCommandText {
		return ""
	}
	return text
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// description is never empty and never too long.
func description(text, name string) string {
	if text = strings.TrimSpace(text); text == "" {
		text = name
	}
	return clip(words.Capital(text), maxCommandText)
}

// size counts what Discord counts against its limit for a whole command.
func (c *command) size() int {
	return length(c.Name) + longest(c.Description, c.Translations) + sizeOf(c.Options)
}

// longest is the length of a description in the language that takes most.
func longest(text string, translations map[string]string) int {
	n := length(text)
	for _, t := range translations {
		n = max(n, length(t))
	}
	return n
}

func sizeOf(list []option) int {
	n := 0
	for _, o := range list {
		n += length(o.Name) + longest(o.Description, o.Translations) + sizeOf(o.Options)
		for _, ch := range o.Choices {
			n += length(ch.Name) + length(fmt.Sprint(ch.Value))
		}
	}
	return n
}

// shrink turns the longest list of choices into completion, one after the
// other, until the whole command is short enough.
func (c *command) shrink(completions map[string][]suggestion) {
	for c.size() > maxCommandTotal {
		longest := longestList(c.Options)
		if longest == nil || len(completions[longest.Name]) == 0 {
			return
		}
		longest.Choices, longest.Autocomplete = nil, true
	}
}

// longestList is the option with the most choices, also of subcommands.
func longestList(list []option) *option {
	var longest *option
	for i := range list {
		for _, o := range []*option{&list[i], longestList(list[i].Options)} {
			if o != nil && len(o.Choices) > 0 && (longest == nil || len(o.Choices) > len(longest.Choices)) {
				longest = o
			}
		}
	}
	return longest
}

// sameCommands reports whether what is registered is what we would register:
// nothing but what we set is compared.
func sameCommands(registered, wanted []command) bool {
	return slices.Equal(canonical(registered), canonical(wanted))
}

func canonical(list []command) []string {
	texts := make([]string, 0, len(list))
	for _, c := range list {
		c.Contexts, c.Integrations = slices.Clone(c.Contexts), slices.Clone(c.Integrations)
		slices.Sort(c.Contexts)
		slices.Sort(c.Integrations)
		b, err := json.Marshal(c)
		if err != nil {
			b = []byte(err.Error())
		}
		texts = append(texts, string(b))
	}
	slices.Sort(texts)
	return texts
}
