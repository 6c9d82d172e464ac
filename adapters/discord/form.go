package discord

import (
	"context"
	"maps"
	"slices"
	"strings"

	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
	"guildhand/bot/requests/words"
)

// inputRest is the form's field for what was given already; the other fields
// are called after their options.
const inputRest = "rest:"

// openForm shows the form of a request: what is needed and missing in line,
// the measurements, and the rest as it was typed.
func (a *Adapter) openForm(ctx context.Context, x *response, spec *catalogue.Spec, line string, alone bool) {
	private := ""
	if alone {
		private = optPrivate
	}
	form := modal{
		CustomID: customID(actFilled, spec.Name, private),
		Title:    clip(words.Capital(spec.Name), maxModalTitle),
	}
	form.Components = formFields(spec, line)
	form.Components = append(form.Components, labelled("Anything else, as typed", restHint(spec, form.Components), component{
		Type: typeInput, CustomID: inputRest, Style: inputParagraph,
		Value: clip(line, maxInputValue), Required: no(), MaxLength: maxInputValue,
	}))
	if err := x.direct(ctx, callback{Type: replyModal, Data: form}); err != nil {
		a.log.Warn("a form could not be opened", "interaction", x.id, "error", err)
	}
}

// stoneField stands for outline and size together, so that a form of five fields
// has room for depth, metal and gauge too.
const stoneField = "stone:"

// formFields are the fields of a form, at most four: what the line does not give
// yet, in the order in which makers think.
func formFields(spec *catalogue.Spec, line string) []component {
	given := map[string]bool{}
	if options, _, err := reading.TypedOptions([]catalogue.Spec{*spec}, spec.Name+" "+line, reading.Lookups{}); err == nil {
		for name := range options {
			given[name] = true
		}
	} else {
		for _, w := range strings.Fields(strings.ToLower(line)) {
			given[w] = true
		}
	}
	var fields []component
	outline, hasOutline := spec.Option(askedFirst[0])
	size, hasSize := spec.Option(askedFirst[1])
	together := hasOutline && hasSize && outline.Bare && size.Bare && !given[outline.Name] && !given[size.Name]
	if together {
		fields = append(fields, labelled("Stone", "Which outline is it, and what size?", component{
			Type: typeInput, CustomID: stoneField, Style: inputShort, Placeholder: "oval 8x6", Required: no(), MaxLength: maxInputValue,
		}))
	}
	for _, o := range append(neededFirst(spec), inOrder(spec)...) {
		if len(fields) == maxModalInputs-1 {
			break
		}
		if given[o.Name] || o.Kind == catalogue.Flag || together && (o == outline || o == size) {
			continue
		}
		given[o.Name] = true
		fields = append(fields, field(o))
	}
	return fields
}

// neededFirst are the options without which there is no answer, and the long
// lists that are easier to give in a field of their own.
func neededFirst(spec *catalogue.Spec) []*catalogue.Option {
	var list []*catalogue.Option
	for _, o := range inOrder(spec) {
		if o.Required || o.Kind == catalogue.Words {
			list = append(list, o)
		}
	}
	return list
}

// otherValues ends the label of a list that does not have all values.
const otherValues = " Others go in the last field."

// field asks for an option: from a list where that can hold all its values or its
// usual ones, and otherwise as text.
func field(o *catalogue.Option) component {
	hint := words.Capital(o.Summary)
	if o.Prompt != "" {
		hint = words.Capital(o.Prompt)
	}
	list := suggestions(o, typeString, nil)
	isWord := o.Kind == catalogue.Word && o.ChoicesFrom == nil
	if isThickness := o.Kind == catalogue.Thickness; len(list) > 0 && len(list) <= maxSelect && (isWord || isThickness) {
		if isThickness {
			hint = clip(hint, maxFieldText-length(otherValues)) + otherValues
		}
		return labelled(words.Capital(o.Name), hint, selectOf(o, list))
	}
	style := inputShort
	if o.Kind == catalogue.Points || o.Kind == catalogue.Words {
		style = inputParagraph
	}
	usual := o.Suggest
	for i := range list {
		if text, ok := list[i].value.(string); ok && len(usual) < 3 {
			usual = append(usual, text)
		}
	}
	return labelled(words.Capital(o.Name), hint, component{
		Type: typeInput, CustomID: o.Name, Style: style,
		Placeholder: clip(strings.Join(usual[:min(3, len(usual))], ", "), maxPlaceholder), Required: no(), MaxLength: maxInputValue,
	})
}

// selectOf is a list of an option's values, none of which has to be chosen.
func selectOf(o *catalogue.Option, list []suggestion) component {
	c := component{Type: typeSelect, CustomID: o.Name, Placeholder: "Choose", Required: no()}
	for _, s := range list {
		value, _ := s.value.(string)
		c.Options = append(c.Options, selectOption{Label: s.name, Value: value})
	}
	return c
}

// restHint names what the last field takes: the options that have no field.
func restHint(spec *catalogue.Spec, fields []component) string {
	var names []string
	for _, o := range inOrder(spec) {
		inStone := len(fields) > 0 && fields[0].Component.CustomID == stoneField && (o.Name == askedFirst[0] || o.Name == askedFirst[1])
		if inStone || slices.ContainsFunc(fields, func(f component) bool { return f.Component.CustomID == o.Name }) {
			continue
		}
		names = append(names, o.Name)
	}
	return listed("", names, "; /help has all")
}

// onForm answers a filled-in form.
func (a *Adapter) onForm(ctx context.Context, x *response, i *interaction, data input) *message {
	action, rest, ok := parseID(data.CustomID)
	values := inputs(data.Components)
	if ok && (action == actCorrect || action == actFollow) {
		return a.onText(ctx, x, i, action, rest, values[inputText])
	}
	name, private, _ := strings.Cut(rest, ":")
	spec := a.menu.specs[name]
	if !ok || action != actFilled || spec == nil {
		return saying("this form is from an older guildhand; please ask again")
	}
	given, line := map[string]string{}, strings.Join(strings.Fields(values[stoneField]+" "+values[inputRest]), " ")
	for id, value := range values {
		if o, ok := spec.Option(id); ok && strings.TrimSpace(value) != "" {
			given[o.Name] = measurement(o.Kind, value)
		}
	}
	q := question{alone: private == optPrivate, spec: spec, Request: a.request(i, formLine(spec, given, line))}
	typed, whole, err := reading.TypedOptions(a.menu.list, spec.Name+" "+line, reading.Lookups{Shop: a.menu.shop})
	if err == nil && whole {
		for option, text := range typed {
			if twice := given[option]; twice != "" && twice != text {
				return saying("%s is given twice, as %s and as %s; leave one out", option, twice, text)
			}
			given[option] = text
		}
		q.Command, q.Options = spec.Name, given
		q.Text = composeLine(spec.Name, given, spec)
	}
	return a.ask(ctx, x, i, q)
}

// formLine is a form as a line, for one whose last field can't be read: the line
// goes before lists, which would take it in.
func formLine(spec *catalogue.Spec, given map[string]string, line string) string {
	short, long := map[string]string{}, map[string]string{}
	for name, text := range given {
		if o, ok := spec.Option(name); ok && (o.Kind == catalogue.Words || o.Kind == catalogue.Points || o.Kind == catalogue.Text) {
			long[name] = text
		} else {
			short[name] = text
		}
	}
	return strings.Join(strings.Fields(composeLine(spec.Name, short, spec)+" "+line+" "+composeLine("", long, spec)), " ")
}

// inputs reads the fields of a form, whatever they are wrapped in.
func inputs(list []submitted) map[string]string {
	values := map[string]string{}
	for _, c := range list {
		if c.Component != nil {
			c.Components = append(c.Components, *c.Component)
		}
		maps.Copy(values, inputs(c.Components))
		if text, ok := c.Value.(string); ok && c.CustomID != "" {
			values[c.CustomID] = text
		} else if len(c.Values) > 0 {
			values[c.CustomID] = c.Values[0]
		}
	}
	return values
}

// measurement makes one line of what was typed over several: points may stand
// one to a line, with or without a blank after the comma.
func measurement(kind catalogue.Kind, value string) string {
	text := strings.Join(strings.Fields(value), " ")
	if kind == catalogue.Points {
		text = strings.NewReplacer(" , ", ",", ", ", ",", " ,", ",").Replace(text)
	}
	return text
}
