package discord

import (
	"strconv"
	"strings"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// Custom ids are "gh1:<action>:<rest>". They hold all that a button needs, so
// that it works after a restart; a change of their form needs a new prefix.
const idPrefix = "gh1:"

// Actions of buttons, selects and forms.
const (
	actWorking = "w" // rest: entry:unit
	actPDF     = "p" // rest: entry:unit
	actSVG     = "s" // rest: entry:unit
	actFiles   = "a" // rest: entry:unit
	actUnit    = "u" // rest: entry:unit to show
	actShow    = "c" // rest: entry:unit
	actOthers  = "o" // rest: entry, to choose another seam or gauge
	actAgain   = "t" // rest: entry:private or public, of a select whose values are option=text
	actTry     = "y" // rest: the line to run
	actForm    = "f" // rest: request:the line so far
	actStop    = "x" // rest: the id of the event whose work to stop
	actCorrect = "e" // rest: entry, of a form with a correction
	actFollow  = "n" // rest: entry:private or public, of a button, and of its form
	actFilled  = "m" // rest: request:private, of a filled-in form
)

func customID(action string, rest ...string) string {
	return idPrefix + action + ":" + strings.Join(rest, ":")
}

// parseID takes a custom id apart; false for one that is not ours.
func parseID(id string) (action, rest string, ok bool) {
	id, ok = strings.CutPrefix(id, idPrefix)
	if !ok {
		return "", "", false
	}
	return strings.Cut(id, ":")
}

// parseEntry takes "entry:rest" apart.
func parseEntry(s string) (entry int64, rest string, ok bool) {
	digits, rest, _ := strings.Cut(s, ":")
	entry, err := strconv.ParseInt(digits, 10, 64)
	return entry, rest, err == nil && entry > 0
}

func button(label, id string) component {
	return component{Type: typeButton, Style: styleSecondary, Label: clip(label, maxButtonLabel), CustomID: id}
}

// labelled puts a field of a form under its label. A description is optional.
func labelled(label, description string, field component) component {
	return component{
		Type: typeLabel, Label: clip(label, maxFieldLabel), Description: clip(description, maxFieldText), Component: &field,
	}
}

func row(list ...component) component { return component{Type: typeRow, Components: list} }

func (ad *Adapter) answerComponents(reply bot.Reply, v view) []component {
	a, entry, files := reply.Answer, strconv.FormatInt(reply.Entry, 10), reply.Files()
	var first, second, rows []component
	if a.Fleeting {
		return nil // what is not kept can't be asked about
	}
	if a.HasWorking() {
		first = append(first, button("Working", customID(actWorking, entry, string(v.unit))))
	}
	if len(files.PDF) > 0 {
		first = append(first, button("1:1 PDF", customID(actPDF, entry, string(v.unit))))
	}
	if len(files.SVG) > 0 {
		first = append(first, button("SVG", customID(actSVG, entry, string(v.unit))))
	}
	if a.HasLengths() {
		first = append(first, button(v.unit.other().offer(), customID(actUnit, entry, string(v.unit.other()))))
	}
	if v.canShow && !reply.Once && !a.Alone {
		b := button("Show to channel", customID(actShow, entry, string(v.unit)))
		b.Style = stylePrimary
		first = append(first, b)
	}
	if len(first) > 0 {
		rows = append(rows, row(first...))
	}
	if len(files.Others) > 0 {
		second = append(second, button("Other files", customID(actFiles, entry, string(v.unit))))
	}
	if len(a.Figures) > 0 && a.Line != "" && !reply.Once {
		second = append(second, button("Follow up", customID(actFollow, entry, audience(v.alone || a.Alone))))
	}
	if bot.Offers(ad.menu.specs[a.Request]) {
		second = append(second, button("Another seam or gauge", customID(actOthers, entry)))
	}
	if len(second) > 0 {
		rows = append(rows, row(second...))
	}
	return rows
}

// othersMessage offers the other seams and gauges to choose from, to whoever
// asked for them. The answer to a choice is seen by those who see this answer.
func othersMessage(entry int64, list []bot.Alternative, alone bool) *message {
	if len(list) == 0 {
		return saying("No other seam or gauge makes a difference here.")
	}
	menu := component{
		Type: typeSelect, CustomID: customID(actAgain, strconv.FormatInt(entry, 10), audience(alone)),
		Placeholder: "Another seam or gauge",
	}
	for _, other := range list {
		value := other.Option + "=" + other.Text
		if length(value) > maxSelectLabel {
			continue
		}
		menu.Options = append(menu.Options, selectOption{
			Label: clip(other.Option+" "+other.Text, maxSelectLabel), Value: value,
			Description: clip(clean(other.Headline), maxSelectLabel),
		})
	}
	m := saying("Each of these works; choose one.")
	m.Embeds[0].Color = colourAnswer
	m.Components = []component{row(menu)}
	return m
}

// forAsker and forAll are who sees what follows from a message.
const (
	forAsker = "private"
	forAll   = "public"
)

func audience(alone bool) string {
	if alone {
		return forAsker
	}
	return forAll
}

// refusalComponents offer the line that would work, and the form where the
// request has one.
func refusalComponents(r *answer.Refusal, spec *catalogue.Spec, typed string) []component {
	var list []component
	for _, c := range r.Choices {
		if id := customID(actTry, c.Line); length(id) <= maxCustomID {
			list = append(list, button(c.Label, id))
		}
	}
	if id := customID(actTry, r.Try); r.Try != "" && len(r.Choices) == 0 && length(id) <= maxCustomID {
		list = append(list, button("Try: "+r.Try, id))
	}
	if spec != nil && len(formOptions(spec)) > 0 {
		id := customID(actForm, spec.Name, typed)
		if length(id) > maxCustomID {
			id = customID(actForm, spec.Name, "")
		}
		list = append(list, button("Fill in a form", id))
	}
	if len(list) == 0 {
		return nil
	}
	return []component{row(list...)}
}
