package discord

import (
	"context"
	"strconv"
	"strings"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
)

// onComponent answers a button or select. All it needs is in the custom id and
// the daybook.
func (a *Adapter) onComponent(ctx context.Context, x *response, i *interaction, data input) *message {
	action, rest, ok := parseID(data.CustomID)
	if !ok {
		return saying("this button is from an older guildhand; please ask again")
	}
	alone := i.Message != nil && i.Message.Flags&flagEphemeral != 0
	switch action {
	case actTry:
		return a.ask(ctx, x, i, a.lineQuestion(i, rest, alone))
	case actStop:
		return a.onStop(ctx, x, i, rest)
	case actForm:
		return a.openFormOf(ctx, x, rest, alone)
	}
	entry, rest, ok := parseEntry(rest)
	if !ok {
		return saying("this button is from an older guildhand; please ask again")
	}
	if action == actAgain {
		// Lists of an earlier version stood under the answer itself.
		return a.onAgain(ctx, x, i, entry, data.Values, rest == forAsker || alone && rest != forAll)
	}
	if action != actUnit && action != actShow && action != actFollow {
		x.deferLater(ctx, a.pace.deferAfter)
	}
	reply, problem := a.recorded(ctx, i, entry)
	if problem != nil {
		return problem
	}
	if action == actFollow {
		a.openText(ctx, x, customID(actFollow, strconv.FormatInt(entry, 10), audience(alone || rest == forAsker)), "Follow up", "For example: and in 20 gauge?")
		return nil
	}
	if action == actOthers {
		return a.onOthers(ctx, reply, alone)
	}
	u := asUnit(rest, reply)
	if reply, problem = a.inUnit(ctx, reply, u); problem != nil {
		return problem
	}
	switch action {
	case actWorking:
		return workingMessage(reply)
	case actPDF:
		return a.filesMessage(ctx, reply, "Print at 100 %, and measure the check bar before you cut.", reply.Files().PDF)
	case actSVG:
		return a.filesMessage(ctx, reply, "The drawing at 1:1.", reply.Files().SVG)
	case actFiles:
		return a.filesMessage(ctx, reply, "", reply.Files().Others)
	case actUnit:
		return a.onUnit(ctx, x, i, reply, u, alone)
	case actShow:
		a.onShow(ctx, x, reply, u)
		return nil
	}
	return saying("this button is from an older guildhand; please ask again")
}

// openFormOf opens the form of a request that is named, filled from a line.
func (a *Adapter) openFormOf(ctx context.Context, x *response, nameAndLine string, alone bool) *message {
	name, line, _ := strings.Cut(nameAndLine, ":")
	spec := a.menu.specs[name]
	if spec == nil {
		return saying("there is no such request any more")
	}
	a.openForm(ctx, x, spec, line, alone)
	return nil
}

// onOthers lists the other seams and gauges that an answer could have.
func (a *Adapter) onOthers(ctx context.Context, reply bot.Reply, alone bool) *message {
	list, err := a.service.Alternatives(ctx, reply.Entry, maxSelect)
	if err != nil {
		a.log.Warn("other seams and gauges could not be tried", "entry", reply.Entry, "error", err)
	}
	return othersMessage(reply.Entry, list, alone || reply.Answer.Alone)
}

// lineQuestion is a question of one whole line.
func (a *Adapter) lineQuestion(i *interaction, line string, alone bool) question {
	return question{alone: alone, spec: a.menu.specs[firstWord(line)], Request: a.request(i, line)}
}

// onStop stops the work whose progress a message shows. The request is then
// recorded as stopped, which replaces that message.
func (a *Adapter) onStop(ctx context.Context, x *response, i *interaction, id string) *message {
	if a.service.Stop(ctx, a.who(i), id) == 0 {
		return saying("there is nothing left to stop")
	}
	if err := x.direct(ctx, callback{Type: replyDeferredUpdate}); err != nil {
		a.log.Debug("a stop could not be acknowledged", "interaction", x.id, "error", err)
	}
	return nil
}

// onAgain asks the same request once more with one option changed.
func (a *Adapter) onAgain(ctx context.Context, x *response, i *interaction, entry int64, values []string, alone bool) *message {
	name, value, ok := strings.Cut(strings.Join(values, " "), "=")
	if !ok {
		return saying("choose one line of the list")
	}
	reply, problem := a.recorded(ctx, i, entry)
	if problem != nil {
		return problem
	}
	q := a.lineQuestion(i, reply.Answer.Line, alone)
	// The line is our own, so that reading it fails only where the catalogue
	// has changed since; then the service says what is wrong with it.
	if parsed, err := reading.Parse(a.menu.list, reply.Answer.Line, reading.Lookups{Shop: a.menu.shop}); err == nil {
		q.Command, q.Options = parsed.Spec.Name, map[string]string{}
		for option, v := range parsed.Args {
			if v.Source == catalogue.Typed {
				q.Options[option] = v.Text
			}
		}
		q.Options[name] = value
		q.Text = composeLine(q.Command, q.Options, parsed.Spec)
	}
	return a.ask(ctx, x, i, q)
}

// filesMessage has files, for the asker alone.
func (a *Adapter) filesMessage(ctx context.Context, reply bot.Reply, text string, list []answer.Attachment) *message {
	m := &message{
		Embeds: []embed{{
			Title: clip(plain(reply.Answer.Headline), maxTitle), Description: text, Color: colourAnswer,
			Footer: &footer{Text: footerText(reply.Entry, reading.Echo(reply.Answer.Line))},
		}},
		Mentions: noMentions, Flags: flagEphemeral,
	}
	a.draw(ctx, m, list)
	return m
}

// asUnit reads a unit from a custom id; empty means as the answer was given.
func asUnit(text string, reply bot.Reply) unit {
	switch u := unit(text); {
	case u == inMM || u == inInch:
		return u
	}
	return unitOf(reply)
}

// inUnit is a recorded reply in a unit: figures, headline, drawing and files.
func (a *Adapter) inUnit(ctx context.Context, reply bot.Reply, u unit) (bot.Reply, *message) {
	if unitOf(reply) == u {
		return reply, nil
	}
	other, err := a.service.InUnits(ctx, reply.Entry, u == inInch)
	if err != nil || other.Answer == nil {
		a.log.Warn("an answer could not be given in the other unit", "entry", reply.Entry, "error", err)
		return reply, saying("that could not be worked out again just now; please try once more")
	}
	return other, nil
}

// onUnit shows the answer in the other unit, with its picture: in place for the
// asker, and to anyone else in a message of their own.
func (a *Adapter) onUnit(ctx context.Context, x *response, i *interaction, reply bot.Reply, u unit, alone bool) *message {
	who := a.who(i)
	if reply.Who.Maker != who.Maker {
		m := a.answerMessage(reply, view{unit: u, alone: true})
		a.drawShown(ctx, m, reply)
		return m
	}
	if err := x.direct(ctx, callback{Type: replyDeferredUpdate}); err != nil {
		a.log.Warn("a message could not be changed", "interaction", x.id, "error", err)
		return nil
	}
	m := a.answerMessage(reply, view{unit: u, alone: alone, canShow: alone && who.Guild != ""})
	a.drawShown(ctx, m, reply)
	if _, err := a.api.edit(ctx, x.token, m); err != nil {
		a.log.Warn("a message could not be changed", "interaction", x.id, "error", err)
	}
	return nil
}

// onShow shows an answer to the channel. The button is removed first, so that
// pressing it twice shows the answer once.
func (a *Adapter) onShow(ctx context.Context, x *response, reply bot.Reply, u unit) {
	buttons := struct {
		Components []component `json:"components"`
	}{a.answerComponents(reply, view{unit: u, alone: true})}
	if err := x.direct(ctx, callback{Type: replyUpdate, Data: buttons}); err != nil {
		a.log.Warn("a message could not be changed", "interaction", x.id, "error", err)
		return
	}
	m := a.answerMessage(reply, view{unit: u})
	a.drawShown(ctx, m, reply)
	id, err := a.api.follow(ctx, x.token, m)
	if err != nil {
		a.log.Warn("an answer could not be shown to the channel", "interaction", x.id, "entry", reply.Entry, "error", err)
		return
	}
	a.openClass(reply, false, routeOf(reply.Route).place(reply.Who), id, x.token)
}
