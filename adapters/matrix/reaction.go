package matrix

import (
	"context"
	"fmt"

	"guildhand/bot/answer"

	"maunium.net/go/mautrix/event"
)

// reaction gives what a reaction on an answer asks for, once for each answer and
// wish.
func (a *Adapter) reaction(ctx context.Context, evt *event.Event) error {
	rel := evt.Content.AsReaction().RelatesTo
	w, ok := wishOf(rel.GetAnnotationKey())
	if !ok {
		return nil
	}
	sent, ok, err := a.store.answerAt(ctx, evt.RoomID, rel.GetAnnotationID())
	if err != nil || !ok || sent.entry == 0 {
		return err
	}
	// The entry is part of the key: an edited question has a new answer in the
	// same place.
	key := fmt.Sprintf("wish %d %s", sent.entry, w)
	if done, err := a.store.done(ctx, key); err != nil || done {
		return err
	}
	reply, err := a.bot.Again(ctx, sent.entry)
	switch {
	case ctx.Err() != nil:
		return ctx.Err()
	case err != nil || reply.Answer == nil:
		a.log.Info("reaction on an answer that is not kept", "entry", sent.entry, "err", err)
		return nil
	}
	if err := a.grant(ctx, w, reply.Answer, sent, evt, key); err != nil {
		return err
	}
	return a.store.markDone(ctx, key)
}

// grant sends what was wished for, in reply to the answer.
func (a *Adapter) grant(ctx context.Context, w wish, ans *answer.Answer, sent sentAnswer, evt *event.Event, key string) error {
	placed := func(c *event.MessageEventContent) *event.MessageEventContent {
		return place(c, sent.answer, sent.thread, evt.Sender)
	}
	part := func(name string, build builder) outgoing {
		return outgoing{room: sent.room, part: partID(sent.answer, key+name), after: evt.ID, again: true, build: build}
	}
	say := func(name string, m *message) error {
		_, err := a.send(ctx, part(name, ready(placed(m.notice()))))
		return err
	}
	switch w {
	case wishWorking:
		if !ans.HasWorking() {
			return nil
		}
		return say("", renderWorking(ans))
	case wishInches:
		if !hasLengths(ans) {
			return nil
		}
		return say("", renderInches(ans))
	}
	for i, at := range attachmentsFor(ans, w) {
		build := a.fileOf(at, placed)
		if at.Type == typePNG {
			build = a.imageOf(at, placed)
		}
		if _, err := a.send(ctx, part(fmt.Sprintf(" %d", i), build)); err != nil {
			if ctx.Err() != nil {
				return ctx.Err()
			}
			a.log.Error("file not sent", "room", sent.room, "entry", sent.entry, "file", at.Name, "err", err)
			m := &message{}
			m.line("", "the file "+at.Name+" could not be sent here")
			if err := say(fmt.Sprintf(" excuse %d", i), m); err != nil {
				return err
			}
		}
	}
	return nil
}
