package discord

import (
	"context"
	"fmt"

	"guildhand/bot"
)

// correct brings a teacher's correction to its maker: as a reply to the wrong
// answer, which mentions the maker once, and marks that answer. What only its
// maker saw is corrected in a direct message. The id is empty where the
// correction could not be posted, so that it is shown as any other answer.
func (a *Adapter) correct(ctx context.Context, r bot.Reply) (id string) {
	wrong, err := a.service.Recorded(ctx, r.Answer.Corrects)
	if err != nil {
		a.log.Warn("a corrected entry could not be read", "entry", r.Answer.Corrects, "error", err)
		return ""
	}
	way := routeOf(wrong.Route)
	channel, answer := way.place(wrong.Who), r.Answer.InReplyTo
	private := isAlone(wrong, way.Alone) || wrong.Answer == nil && way.ReplyTo == ""
	m := a.answerMessage(r, view{unit: unitOf(r)})
	if private {
		if channel, err = a.api.direct(ctx, wrong.Who.Maker); err != nil {
			return ""
		}
		answer = ""
	}
	if !snowflake(answer) {
		answer = ""
	}
	m.asReply(answer, entryNonce(r.Entry))
	m.mention(wrong.Who.Maker, fmt.Sprintf("<@%s>, a teacher has corrected answer no. %d:", wrong.Who.Maker, wrong.Entry))
	if id, err = a.api.post(ctx, channel, m); err != nil {
		a.log.Warn("a correction could not be posted", "entry", r.Entry, "error", err)
		return ""
	}
	if answer != "" && wrong.Answer != nil {
		marked := a.answerMessage(wrong, view{unit: unitOf(wrong)})
		a.drawShown(ctx, marked, wrong)
		if err := a.api.change(ctx, channel, answer, marked); err != nil {
			a.log.Warn("a wrong answer could not be marked", "entry", wrong.Entry, "error", err)
		}
	}
	return id
}

// correctionTold is what the teacher reads.
func correctionTold(r bot.Reply) *message {
	m := saying("The correction is kept beside answer no. %d, and its maker has been told.", r.Answer.Corrects)
	m.Embeds[0].Color = colourAnswer
	m.Embeds[0].Footer = &footer{Text: footerText(r.Entry, "")}
	return m
}
