package matrix

import (
	"context"
	"errors"
	"time"

	"guildhand/bot/daybook"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

func redactedKey(question id.EventID) string { return "redacted " + digest(string(question)) }

// isRedacted reports whether a question was taken back.
func (a *Adapter) isRedacted(ctx context.Context, question id.EventID) (bool, error) {
	return a.store.done(ctx, redactedKey(question))
}

// redaction takes the answer of a redacted question back, and what the daybook
// has of it. The mark stays, so that an answer that is being worked out is taken
// back too (sendReply), and later edits are ignored.
func (a *Adapter) redaction(ctx context.Context, evt *event.Event) error {
	question := redacted(evt)
	if question == "" {
		return nil
	}
	if err := a.store.markDone(ctx, redactedKey(question)); err != nil {
		return err
	}
	_, answered, err := a.store.answerTo(ctx, evt.RoomID, question)
	switch {
	case err != nil:
		return err
	case answered:
		return a.takeBack(ctx, evt.RoomID, question)
	}
	// Talk, as a rule: not worth looking through the room for.
	f, ok := a.factsOf(evt.RoomID)
	if !ok {
		return errStateUnknown
	}
	return a.bot.Withdraw(ctx, daybook.Key{Platform: platform, Channel: f.channel, Message: string(question)})
}

// takeBack redacts the bot's messages about a question and forgets the question.
// A redaction of a message leaves the words of its edits on the server, so those
// go first.
func (a *Adapter) takeBack(ctx context.Context, room id.RoomID, question id.EventID) error {
	f, ok := a.factsOf(room)
	if !ok {
		return errStateUnknown
	}
	a.sharing.Lock()
	defer a.sharing.Unlock()
	stands, rest, err := a.standsWith(ctx, room, question)
	if err != nil {
		return err
	}
	said, err := persist(ctx, func(ctx context.Context) (aboutQuestion, error) {
		return a.findAbout(ctx, room, question, stands, len(rest) > 0)
	})
	if err != nil {
		return err
	}
	for _, asked := range said.asked {
		err = errors.Join(err, a.bot.Withdraw(ctx, daybook.Key{Platform: platform, Channel: f.channel, Message: string(asked)}))
	}
	for _, own := range append(said.edits, said.messages...) {
		_, failed := persist(ctx, func(ctx context.Context) (*mautrix.RespSendEvent, error) {
			return a.cli.RedactEvent(ctx, room, own, mautrix.ReqRedact{
				Reason: "the question was taken back", TxnID: partID(own, "taken back"),
			})
		})
		err = errors.Join(err, failed)
	}
	if len(rest) > 0 {
		err = errors.Join(err, a.takeOut(ctx, question, rest))
	}
	return err
}

// standsWith gives the answer to a question and those that share its event.
func (a *Adapter) standsWith(ctx context.Context, room id.RoomID, question id.EventID) (own sentAnswer, rest []sentAnswer, err error) {
	own, ok, err := a.store.answerTo(ctx, room, question)
	if err != nil || !ok {
		return own, nil, err
	}
	rows, err := a.store.answersIn(ctx, room, own.answer)
	for _, row := range rows {
		if row.question != question {
			rest = append(rest, row)
		}
	}
	return own, rest, err
}

// aboutQuestion is what a room has of a question: the question and its edits,
// the bot's messages that reply to them or to one another, and their edits.
type aboutQuestion struct {
	asked, messages, edits []id.EventID
}

// findAbout looks through the room back to the question. Relations are in the
// clear in encrypted rooms too. What replies to an event that several answers
// share is of the question only where a reaction on its own answer brought it.
func (a *Adapter) findAbout(ctx context.Context, room id.RoomID, question id.EventID, stands sentAnswer, isShared bool) (aboutQuestion, error) {
	found := aboutQuestion{asked: []id.EventID{question}}
	var own []*event.Event // newest first
	oldest := time.Now().Add(-answersKept).UnixMilli()
	from, there := "", false
	for n := 0; n < mostPages && !there; n++ {
		page, err := a.cli.Messages(ctx, room, from, "", mautrix.DirectionBackward, nil, pageSize)
		if err != nil {
			return found, err
		}
		for _, evt := range page.Chunk {
			switch {
			case evt.ID == question, evt.Timestamp < oldest:
				there = true
			case edited(evt) == question:
				found.asked = append(found.asked, evt.ID)
			case evt.Sender == a.cli.UserID:
				own = append(own, evt)
			}
		}
		if there || len(page.Chunk) == 0 || page.End == "" || page.End == from {
			break
		}
		from = page.End
	}
	ours := map[id.EventID]bool{}
	for _, asked := range found.asked {
		ours[asked] = true
	}
	if isShared {
		found.messages = append(found.messages, stands.answer)
	}
	for n := len(own) - 1; n >= 0; n-- { // oldest first: what is replied to comes before
		evt := own[n]
		switch {
		case ours[edited(evt)], isShared && edited(evt) == stands.answer:
			found.edits = append(found.edits, evt.ID)
		case isShared && repliedTo(evt) == stands.answer && a.wished(evt, stands):
			found.messages = append(found.messages, evt.ID)
		case ours[repliedTo(evt)]:
			found.messages = append(found.messages, evt.ID)
			ours[evt.ID] = true
		}
	}
	return found, nil
}

// mostWished is more files than any answer has.
const mostWished = 20

// wished reports whether a message was sent for a reaction on an answer.
func (a *Adapter) wished(evt *event.Event, answered sentAnswer) bool {
	for _, o := range actions {
		key := wishKey(answered.entry, o.action)
		if carries(evt, partID(answered.answer, key)) {
			return true
		}
		for n := range mostWished {
			if carries(evt, partID(answered.answer, wishPart(key, n))) {
				return true
			}
		}
	}
	return false
}

// repliedTo gives the event that an event replies to.
func repliedTo(evt *event.Event) id.EventID {
	relates, _ := evt.Content.Raw["m.relates_to"].(map[string]any)
	reply, _ := relates["m.in_reply_to"].(map[string]any)
	to, _ := reply["event_id"].(string)
	return id.EventID(to)
}
