package discord

import (
	"context"
	"strings"

	"github.com/bwmarrin/discordgo"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/reading"
)

// onComponent answers a button or select. All it needs is in the custom id and
// the daybook.
func (a *Adapter) onComponent(ctx context.Context, x *exchange, i *discordgo.Interaction, data discordgo.MessageComponentInteractionData) bool {
	action, rest, ok := parseID(data.CustomID)
	if !ok {
		return a.say(ctx, x, saying("this button is from an older guildhand; please ask again"))
	}
	alone := i.Message != nil && i.Message.Flags&discordgo.MessageFlagsEphemeral != 0
	switch action {
	case actTry:
		return a.ask(ctx, x, i, a.lineQuestion(i, rest, alone))
	case actStop:
		return a.onStop(ctx, x, i, rest)
	case actForm:
		name, line, _ := strings.Cut(rest, ":")
		spec := a.menu.specs[name]
		if spec == nil {
			return a.say(ctx, x, saying("there is no such request any more"))
		}
		return a.openForm(ctx, x, spec, line, alone)
	}
	entry, rest, ok := parseEntry(rest)
	if !ok {
		return a.say(ctx, x, saying("this button is from an older guildhand; please ask again"))
	}
	if action == actAgain {
		return a.onAgain(ctx, x, i, entry, data.Values, alone)
	}
	if action != actUnit && action != actShow {
		x.deferLater(ctx, a.pace.deferAfter)
	}
	reply, problem := a.recorded(ctx, i, entry)
	if problem != nil {
		return a.say(ctx, x, problem)
	}
	u := unit(rest)
	if u != inInch {
		u = inMM
	}
	switch action {
	case actWorking:
		return a.say(ctx, x, workingMessage(reply, u))
	case actPDF:
		return a.sayFiles(ctx, x, reply, "Print at 100 %, and measure the check bar before you cut.", attachments(reply.Answer, typePDF))
	case actSVG:
		return a.sayFiles(ctx, x, reply, "The drawing at 1:1.", attachments(reply.Answer, typeSVG))
	case actFiles:
		return a.sayFiles(ctx, x, reply, "", attachments(reply.Answer, ""))
	case actUnit:
		return a.onUnit(ctx, x, i, reply, u, alone)
	case actShow:
		return a.onShow(ctx, x, i, reply, u)
	}
	return a.say(ctx, x, saying("this button is from an older guildhand; please ask again"))
}

// lineQuestion is a question of one whole line.
func (a *Adapter) lineQuestion(i *discordgo.Interaction, line string, alone bool) question {
	return question{alone: alone, spec: a.menu.specs[firstWord(line)],
		Request: bot.Request{Who: a.who(i), Message: i.ID, Text: line}}
}

// onAgain asks the same request once more with one option changed.
func (a *Adapter) onAgain(ctx context.Context, x *exchange, i *discordgo.Interaction, entry int64, values []string, alone bool) bool {
	name, value, ok := strings.Cut(strings.Join(values, " "), "=")
	if !ok {
		return a.say(ctx, x, saying("choose one line of the list"))
	}
	reply, problem := a.recorded(ctx, i, entry)
	if problem != nil {
		return a.say(ctx, x, problem)
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

// sayFiles sends files to the asker alone.
func (a *Adapter) sayFiles(ctx context.Context, x *exchange, reply bot.Reply, text string, list []answer.Attachment) bool {
	m := &message{
		Embeds: []embed{{
			Title: clip(plain(reply.Answer.Headline), maxTitle), Description: text, Color: colourAnswer,
			Footer: &footer{Text: footerText(reply.Entry, reply.Answer.Line)},
		}},
		Mentions: noMentions, Flags: flagEphemeral,
	}
	release, err := slot(ctx, a.drawing, reply.Who)
	if err != nil {
		return false
	}
	problems := a.draw(ctx, m, reply.Answer, list)
	release()
	if len(problems) > 0 {
		m.Embeds[0].Description = clip(strings.TrimSpace(text+"\n⚠ "+plain(strings.Join(problems, "; "))), maxDescription)
	}
	return a.say(ctx, x, m)
}

// onUnit shows the figures in the other unit: in place for the asker, and to
// anyone else in a message of his own. The picture stays as it is.
func (a *Adapter) onUnit(ctx context.Context, x *exchange, i *discordgo.Interaction, reply bot.Reply, u unit, alone bool) bool {
	who := a.who(i)
	spec := a.menu.specs[reply.Answer.Request]
	if reply.Who.Maker != who.Maker {
		return a.say(ctx, x, answerMessage(reply, spec, view{unit: u, alone: true}))
	}
	m := answerMessage(reply, spec, view{unit: u, alone: alone, canShow: alone && who.Guild != ""})
	m.Flags = 0 // who sees a message can't be changed
	if err := x.direct(ctx, response{Type: replyUpdate, Data: m}); err != nil {
		a.log.Warn("a message could not be changed", "interaction", x.id, "error", err)
		return false
	}
	return true
}

// onShow shows an answer to the channel. The offer is taken away first, so
// that pressing twice shows it once.
func (a *Adapter) onShow(ctx context.Context, x *exchange, i *discordgo.Interaction, reply bot.Reply, u unit) bool {
	spec := a.menu.specs[reply.Answer.Request]
	own := answerMessage(reply, spec, view{unit: u, alone: true})
	own.Flags = 0
	if err := x.direct(ctx, response{Type: replyUpdate, Data: own}); err != nil {
		a.log.Warn("a message could not be changed", "interaction", x.id, "error", err)
		return false
	}
	m := answerMessage(reply, spec, view{unit: u})
	release, err := slot(ctx, a.drawing, reply.Who)
	if err != nil {
		return false
	}
	a.pictures(ctx, m, reply.Answer)
	release()
	if _, err := a.api.follow(ctx, x.token, m); err != nil {
		a.log.Warn("an answer could not be shown to the channel", "interaction", x.id, "entry", reply.Entry, "error", err)
		return false
	}
	return true
}
