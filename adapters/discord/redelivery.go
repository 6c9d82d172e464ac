package discord

import (
	"context"
	"fmt"
	"time"

	"guildhand/bot"
	"guildhand/bot/delivery"
)

// Ways of a redelivery.
const (
	wayFound    = "found"    // it had been sent before
	wayEdited   = "edited"   // in place of the deferral
	wayAnswered = "answered" // as the interaction's first answer
	wayChannel  = "channel"  // as a message to the channel
	wayDirect   = "direct"   // as a message to the asker
)

// redelivery sends what an earlier attempt may have sent: it looks at the
// interaction first, and gives a channel message a nonce made from the entry.
type redelivery struct{ *Adapter }

// Send tries, in this order: the interaction's own answer while its token is
// good, then a message, to the channel or, for what only the asker may see, to
// the asker.
func (a redelivery) Send(ctx context.Context, r bot.Reply) (delivery.Sent, error) {
	way := routeOf(r.Route)
	if r.Answer != nil && r.Answer.Corrects != 0 {
		if id := a.correct(ctx, r); id != "" {
			return delivery.Sent{Message: id, Way: wayChannel}, nil
		}
	}
	alone := isAlone(r, way.Alone)
	m := a.replyMessage(ctx, r, alone, r.Who, "")
	if way.Token != "" && time.Now().Before(way.Until) {
		sent, err := a.byToken(ctx, r, way.Token, m)
		if err != nil || sent.Way != "" {
			a.openClass(r, alone, way.place(r.Who), sent.Message, way.Token)
			return sent, err
		}
	}
	sent, err := a.byMessage(ctx, r, way, alone, m)
	if sent.Way == wayChannel {
		a.openClass(r, alone, way.place(r.Who), sent.Message, "")
	}
	return sent, err
}

// lateAfter is how old a question is whose answer mentions its asker, who has
// perhaps stopped looking.
const lateAfter = 10 * time.Second

// late says over an answer that it is late, and pings its asker.
func (m *message) late(r bot.Reply) {
	m.mention(r.Who.Maker, "For <@"+r.Who.Maker+">, late:")
}

// byToken finishes the interaction. Nothing was sent, and Way is empty, if it
// takes no answer.
func (a redelivery) byToken(ctx context.Context, r bot.Reply, token string, m *message) (delivery.Sent, error) {
	if time.Since(r.At) > lateAfter {
		m.late(r)
	}
	there, err := a.api.original(ctx, token)
	id, way := "", wayEdited
	switch {
	case err == nil && isAnswerTo(r.Entry)(there):
		return delivery.Sent{Message: there.ID, Way: wayFound}, nil
	case err == nil && there.Flags&flagLoading == 0 && len(there.Embeds) > 0:
		return delivery.Sent{}, nil // the message of a button, not ours to change
	case err == nil:
		hidden := there.Flags&flagEphemeral != 0
		if hidden {
			m = a.hidden(m, r, r.Who)
		}
		id, err = a.api.finish(ctx, token, m, hidden)
	case gone(err) && time.Since(r.At) < a.pace.window:
		id, err = a.api.respond(ctx, r.Message, token, callback{Type: replyMessage, Data: m})
		way = wayAnswered
	}
	switch {
	case err == nil:
		return delivery.Sent{Message: id, Way: way}, nil
	case refused(err):
		return delivery.Sent{}, nil
	}
	return delivery.Sent{}, err
}

// byMessage sends to the channel, or to the asker what nobody else may see.
func (a redelivery) byMessage(ctx context.Context, r bot.Reply, way route, alone bool, m *message) (delivery.Sent, error) {
	late := *m
	late.asReply(way.ReplyTo, entryNonce(r.Entry))
	late.late(r)
	if r.Answer != nil {
		late.Components = a.answerComponents(r, view{unit: unitOf(r)})
	}
	direct := r.Who.Guild == ""
	if !alone && (r.Answer != nil || way.ReplyTo != "") || direct {
		id, err := a.api.post(ctx, way.place(r.Who), &late)
		if err == nil || !refused(err) {
			return delivery.Sent{Message: id, Way: wayChannel}, err
		}
		if direct {
			return delivery.Sent{}, delivery.ErrUndeliverable
		}
	}
	late.Reference = nil // it is in another channel
	channel, err := a.api.direct(ctx, r.Who.Maker)
	id := ""
	if err == nil {
		id, err = a.api.post(ctx, channel, &late)
	}
	if refused(err) {
		err = delivery.ErrUndeliverable
	}
	return delivery.Sent{Message: id, Way: wayDirect}, err
}

// entryNonce makes what is sent twice for one entry show once.
func entryNonce(entry int64) string { return fmt.Sprintf("gh%d", entry) }

// mention sets the text over an answer, which pings one maker.
func (m *message) mention(maker, text string) {
	m.Content = text
	if snowflake(maker) {
		m.Mentions = mentions{Parse: []string{}, Users: []string{maker}}
	}
}
