package discord

import (
	"context"
	"encoding/json"
	"errors"
	"strconv"
	"time"

	"guildhand/bot"
)

// An answer is recorded before it is sent, and marked after. What lies between
// when the program or the connection ends is found here and sent once: the
// interaction is looked at first, and a channel message carries a nonce made
// from the entry.

// lookForLate asks for undelivered answers to be looked for now.
func (a *Adapter) lookForLate() {
	select {
	case a.nudge <- struct{}{}:
	default:
	}
}

// putBack leaves an answer that could not be sent to the next search, of this
// process or of another.
func (a *Adapter) putBack(ctx context.Context, entry int64) {
	if err := a.service.PutBack(ctx, entry); err != nil && ctx.Err() == nil {
		a.log.Warn("an answer was not put back; it will be once its lease ends", "entry", entry, "error", err)
	}
}

// deliverLate sends what was recorded and not delivered, at start, after each
// connection, and from time to time.
func (a *Adapter) deliverLate(ctx context.Context) error {
	tick := time.NewTicker(a.pace.late)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-a.nudge:
		case <-tick.C:
		}
		if !a.ready.Load() {
			continue
		}
		list, err := a.service.Undelivered(ctx, Platform, time.Time{})
		if err != nil {
			if ctx.Err() == nil {
				a.log.Error("undelivered answers could not be looked for", "error", err)
			}
			continue
		}
		for _, reply := range list {
			if ctx.Err() != nil {
				break
			}
			switch known := a.seen.get(reply.Message); {
			case known.open:
				a.putBack(ctx, reply.Entry)
			case known.delivered && known.answer != "":
				// It is there and could not be marked then.
				a.mark(ctx, reply.Entry, known.answer)
			default:
				a.late(ctx, reply)
			}
		}
	}
}

// Outcomes of a late delivery.
const (
	lateFound    = "found"
	lateEdited   = "edited"
	lateAnswered = "answered"
	lateChannel  = "channel"
	lateDirect   = "direct"
	lateExpired  = "expired"
)

// late brings one undelivered answer to its end, or leaves it for next time.
func (a *Adapter) late(ctx context.Context, reply bot.Reply) {
	outcome, id, err := a.sendLate(ctx, reply)
	if err != nil {
		a.log.Warn("a late answer could not be sent yet", "entry", reply.Entry, "error", err)
		a.putBack(ctx, reply.Entry)
		return
	}
	if outcome == lateExpired {
		err = a.service.Expired(ctx, reply.Entry)
	} else {
		err = a.service.Delivered(ctx, reply.Entry, id)
	}
	if err != nil {
		a.log.Error("a late answer could not be marked", "entry", reply.Entry, "outcome", outcome, "error", err)
		return
	}
	a.metrics.Late(outcome)
	a.log.Info("late answer", "entry", reply.Entry, "outcome", outcome)
}

// sendLate tries, in this order: the interaction's own answer while its token
// is good, then a message: to the channel, or, for what only the asker may
// see, to him.
func (a *Adapter) sendLate(ctx context.Context, reply bot.Reply) (outcome, id string, err error) {
	asked := sentAt(reply.Message)
	if time.Since(asked) > a.config.FreshFor {
		return lateExpired, "", nil
	}
	var way route
	if err := json.Unmarshal(reply.Route, &way); err != nil {
		way = route{}
	}
	m, err := a.lateMessage(ctx, reply, way)
	if err != nil {
		return "", "", err
	}
	if way.Token != "" && time.Now().Before(way.Until) {
		outcome, id, err := a.lateByToken(ctx, reply, way, m, asked)
		if err != nil || outcome != "" {
			return outcome, id, err
		}
	}
	return a.lateByMessage(ctx, reply, way, m)
}

// lateByToken finishes the interaction; an empty outcome means that it takes
// no answer.
func (a *Adapter) lateByToken(ctx context.Context, reply bot.Reply, way route, m *message, asked time.Time) (outcome, id string, err error) {
	there, err := a.api.original(ctx, way.Token)
	switch {
	case err == nil && isAnswerTo(reply.Entry)(there):
		return lateFound, there.ID, nil
	case err == nil && there.Flags&flagLoading == 0 && len(there.Embeds) > 0:
		return "", "", nil // the message of a button, not ours to change
	case err == nil:
		if there.Flags&flagEphemeral != 0 {
			m = a.hidden(m, reply, reply.Who)
		}
		id, err = a.api.edit(ctx, way.Token, m)
		if err == nil {
			return lateEdited, id, nil
		}
	case gone(err) && time.Since(asked) < window:
		id, err = a.api.respond(ctx, reply.Message, way.Token, response{Type: replyMessage, Data: m})
		if err == nil {
			return lateAnswered, id, nil
		}
	}
	if refused(err) {
		return "", "", nil
	}
	return "", "", err
}

// lateByMessage sends to the channel, or to the asker what is for him alone.
func (a *Adapter) lateByMessage(ctx context.Context, reply bot.Reply, way route, m *message) (outcome, id string, err error) {
	alone := way.Alone || reply.Answer != nil && reply.Answer.Alone
	late := *m
	late.Flags = 0
	late.Nonce, late.EnforceNonce = "gh"+strconv.FormatInt(reply.Entry, 10), true
	late.Content = "For <@" + reply.Who.Maker + ">, late:"
	if reply.Answer != nil {
		late.Components = answerComponents(reply, a.menu.specs[reply.Answer.Request], view{unit: inMM})
	}
	direct := reply.Who.Guild == ""
	if !alone && reply.Answer != nil || direct {
		id, err = a.api.post(ctx, reply.Who.Channel, &late)
		if err == nil {
			return lateChannel, id, nil
		}
		if !refused(err) {
			return "", "", err
		}
	}
	if direct {
		return lateExpired, "", nil
	}
	channel, err := a.api.direct(ctx, reply.Who.Maker)
	if err == nil {
		id, err = a.api.post(ctx, channel, &late)
	}
	switch {
	case err == nil:
		return lateDirect, id, nil
	case refused(err):
		return lateExpired, "", nil
	}
	return "", "", err
}

// lateMessage makes the message anew; the picture is drawn from the recorded
// line.
func (a *Adapter) lateMessage(ctx context.Context, reply bot.Reply, way route) (*message, error) {
	if reply.Answer != nil {
		again, err := a.service.Again(ctx, reply.Entry)
		if err != nil && ctx.Err() != nil {
			return nil, err
		}
		if err == nil && again.Answer != nil {
			reply.Answer = again.Answer
		}
	}
	if reply.Answer == nil && reply.Refusal == nil {
		return nil, errors.New("the entry has neither answer nor refusal")
	}
	release, err := slot(ctx, a.drawing, reply.Who)
	if err != nil {
		return nil, err
	}
	defer release()
	alone := way.Alone || reply.Answer != nil && reply.Answer.Alone
	return a.replyMessage(ctx, reply, alone, reply.Who, ""), nil
}

// sentAt is when an event happened, by its id.
func sentAt(id string) time.Time {
	n, err := strconv.ParseInt(id, 10, 64)
	if err != nil {
		return time.Time{}
	}
	const epochMillis = 1420070400000 // Discord's ids count from 2015
	return time.UnixMilli(n>>22 + epochMillis)
}
