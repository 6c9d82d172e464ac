package matrix

import (
	"context"
	"fmt"

	"guildhand/bot"

	"maunium.net/go/mautrix/event"
)

// reaction does what a reaction on an answer asks for, once for each answer and
// action.
func (a *Adapter) reaction(ctx context.Context, evt *event.Event) error {
	rel := evt.Content.AsReaction().RelatesTo
	action, ok := actionOf(rel.GetAnnotationKey())
	if !ok {
		return nil
	}
	sent, ok, err := a.store.answerAt(ctx, evt.RoomID, rel.GetAnnotationID(), evt.Sender)
	if err != nil || !ok || sent.entry == 0 {
		return err
	}
	// The entry is part of the key: an edited question has a new answer in the
	// same place.
	key := wishKey(sent.entry, action)
	if done, err := a.store.done(ctx, key); err != nil || done {
		return err
	}
	reply, err := a.bot.Recorded(ctx, sent.entry)
	switch {
	case ctx.Err() != nil:
		return ctx.Err()
	case err != nil || reply.Answer == nil:
		a.log.Info("reaction on an answer that is not kept", "entry", sent.entry, "err", err)
		return nil
	}
	if err := a.act(ctx, action, reply, sent, evt, key); err != nil {
		return err
	}
	return a.store.markDone(ctx, key)
}

func wishKey(entry int64, action reactionAction) string {
	return fmt.Sprintf("wish %d %s", entry, action)
}

// wishPart names the n-th file that a reaction brought.
func wishPart(key string, n int) string { return fmt.Sprintf("%s %d", key, n) }

// act sends what was asked for, in reply to the answer.
func (a *Adapter) act(ctx context.Context, action reactionAction, reply bot.Reply, sent sentAnswer, evt *event.Event, key string) error {
	asker := evt.Sender
	placed := func(c *event.MessageEventContent) *event.MessageEventContent {
		c = place(c, sent.answer, sent.thread, asker)
		asker = "" // the first of several files is enough
		return c
	}
	part := func(name string, build builder) outgoing {
		return outgoing{room: sent.room, part: partID(sent.answer, name), after: evt.ID, again: true, build: build}
	}
	say := func(m *message) error {
		_, err := a.send(ctx, part(key, ready(placed(m.notice()))))
		return err
	}
	files := otherFiles(reply)
	switch action {
	case showWorking:
		if !reply.Answer.HasWorking() {
			return nil
		}
		return say(renderWorking(reply.Answer))
	case showInches:
		if !reply.Answer.HasLengths() {
			return nil
		}
		return say(renderInches(reply.Answer))
	case sendPDF:
		files = reply.Files().PDF
	}
	for i, at := range files {
		_, err := a.send(ctx, part(wishPart(key, i), a.attach(at, placed)))
		if err := a.excuse(ctx, err, part, placed, at); err != nil {
			return err
		}
	}
	return nil
}
