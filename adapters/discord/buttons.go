package discord

import (
	"context"
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
		name, line, _ := strings.Cut(rest, ":")
		spec := a.menu.specs[name]
		if spec == nil {
			return saying("there is no such request any more")
		}
		a.openForm(ctx, x, spec, line, alone)
		return nil
	}
	entry, rest, ok := parseEntry(rest)
	if !ok {
		return saying("this button is from an older guildhand; please ask again")
	}
	if action == actAgain {
		return a.onAgain(ctx, x, i, entry, data.Values, alone)
	}
	if action != actUnit && action != actShow {
		x.deferLater(ctx, a.pace.deferAfter)
	}
	reply, problem := a.recorded(ctx, i, entry)
	if problem != nil {
		return problem
	}
	u := unit(rest)
	if u != inInch {
		u = inMM
	}
	switch action {
	case actWorking:
		return workingMessage(reply, u)
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

// onUnit shows the figures in the other unit: in place for the asker, and to
// anyone else in a message of their own. The picture stays as it is.
func (a *Adapter) onUnit(ctx context.Context, x *response, i *interaction, reply bot.Reply, u unit, alone bool) *message {
	who := a.who(i)
	if reply.Who.Maker != who.Maker {
		return a.answerMessage(reply, view{unit: u, alone: true})
	}
	a.change(ctx, x, a.answerMessage(reply, view{unit: u, alone: alone, canShow: alone && who.Guild != ""}))
	return nil
}

// change replaces the message that was pressed. Who sees it stays as it is.
func (a *Adapter) change(ctx context.Context, x *response, m *message) bool {
	m.Flags = 0
	err := x.direct(ctx, callback{Type: replyUpdate, Data: m})
	if err != nil {
		a.log.Warn("a message could not be changed", "interaction", x.id, "error", err)
	}
	return err == nil
}

// onShow shows an answer to the channel. The button is removed first, so that
// pressing it twice shows the answer once.
func (a *Adapter) onShow(ctx context.Context, x *response, reply bot.Reply, u unit) {
	if !a.change(ctx, x, a.answerMessage(reply, view{unit: u, alone: true})) {
		return
	}
	m := a.answerMessage(reply, view{unit: u})
	a.drawShown(ctx, m, reply)
	if _, err := a.api.follow(ctx, x.token, m); err != nil {
		a.log.Warn("an answer could not be shown to the channel", "interaction", x.id, "entry", reply.Entry, "error", err)
	}
}
