package discord

import (
	"context"
	"maps"
	"slices"
	"strings"

	"guildhand/bot/catalogue"
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
		Title:    clip(spec.Name+": fill in", maxModalTitle),
	}
	for _, o := range formFields(spec, line) {
		style := inputShort
		if o.Kind == catalogue.Points || o.Kind == catalogue.Words {
			style = inputParagraph
		}
		hint := o.Summary
		if o.Prompt != "" {
			hint = o.Prompt
		}
		form.Components = append(form.Components, row(component{
			Type: typeInput, CustomID: o.Name, Label: clip(o.Name, maxModalTitle), Style: style,
			Placeholder: clip(hint, maxPlaceholder), Required: no(), MaxLength: maxInputValue,
		}))
	}
	form.Components = append(form.Components, row(component{
		Type: typeInput, CustomID: inputRest, Label: "the rest, as typed", Style: inputShort,
		Value: clip(line, maxInputValue), Required: no(), MaxLength: maxInputValue,
	}))
	if err := x.direct(ctx, callback{Type: replyModal, Data: form}); err != nil {
		a.log.Warn("a form could not be opened", "interaction", x.id, "error", err)
	}
}

// formFields are the options that the form asks for, at most four: what is
// needed and not in the line, then measurements and long lists.
func formFields(spec *catalogue.Spec, line string) []*catalogue.Option {
	words := map[string]bool{}
	for _, w := range strings.Fields(strings.ToLower(line)) {
		words[w] = true
	}
	var needed, measured []*catalogue.Option
	for _, o := range formOptions(spec) {
		if !words[o.Name] {
			measured = append(measured, o)
		}
	}
	for i := range spec.Options {
		if o := &spec.Options[i]; o.Required && !words[o.Name] && !slices.Contains(measured, o) {
			needed = append(needed, o)
		}
	}
	list := append(needed, measured...)
	if most := maxModalInputs - 1; len(list) > most {
		// A measurement is what the form is for: one always has its place.
		if len(measured) > 0 && len(needed) >= most {
			list = append(append([]*catalogue.Option(nil), needed[:most-1]...), measured[0])
		}
		list = list[:most]
	}
	return list
}

// onForm answers a filled-in form.
func (a *Adapter) onForm(ctx context.Context, x *response, i *interaction, data input) *message {
	action, rest, ok := parseID(data.CustomID)
	name, private, _ := strings.Cut(rest, ":")
	spec := a.menu.specs[name]
	if !ok || action != actFilled || spec == nil {
		return saying("this form is from an older guildhand; please ask again")
	}
	given, line := map[string]string{}, ""
	for id, value := range inputs(data.Components) {
		if id == inputRest {
			line = strings.Join(strings.Fields(value), " ")
		} else if o, ok := spec.Option(id); ok {
			given[o.Name] = measurement(o.Kind, value)
		}
	}
	// The line may end in free text, so the fields go before it.
	typed := strings.TrimSpace(composeLine(spec.Name, given, spec) + " " + line)
	return a.ask(ctx, x, i, question{
		alone: private == optPrivate, spec: spec, Request: a.request(i, typed),
	})
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
