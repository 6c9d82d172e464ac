package matrix

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"guildhand/bot"
	"guildhand/bot/answer"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// route is what the daybook keeps with an answer so that it can be sent later.
type route struct {
	Room id.RoomID `json:"room"`
	// Question is the event that the answer replies to.
	Question id.EventID `json:"question"`
	Thread   id.EventID `json:"thread,omitempty"`
	Asker    id.UserID  `json:"asker"`
	// Direct chats show requests without a prefix.
	Prefix string `json:"prefix,omitempty"`
	// Replaces and ReplacesImage are the answer that stands there, where the
	// question was edited.
	Replaces      id.EventID `json:"replaces,omitempty"`
	ReplacesImage id.EventID `json:"replaces_image,omitempty"`
	// Long work may have a message that tells how far it is.
	Long bool `json:"long,omitempty"`
	// note is that message, as far as this run knows.
	note noteState
}

// deliver sends a reply and tells the daybook. again is true where an earlier
// run may have sent it, wholly or in part.
func (a *Adapter) deliver(ctx context.Context, r bot.Reply, to route, again bool) error {
	if r.Duplicate && r.Delivered {
		return nil
	}
	sent := sentAnswer{
		room: to.Room, question: to.Question, thread: to.Thread,
		asker: digest(string(to.Asker)), entry: r.Entry,
	}
	var err error
	if to.Replaces != "" {
		sent.answer, sent.image, err = a.replace(ctx, r, to, again)
	} else {
		sent.answer, sent.image, err = a.sendNew(ctx, r, to, again)
	}
	if err != nil {
		return err
	}
	if err := a.closeNote(ctx, id.EventID(r.Message), to, again, lastWord(r)); err != nil {
		return err
	}
	if err := a.store.keepAnswer(ctx, sent); err != nil {
		return fmt.Errorf("answer not noted: %w", err)
	}
	if r.Entry == 0 {
		return nil
	}
	if err := a.bot.Delivered(ctx, r.Entry, string(sent.answer)); err != nil {
		return fmt.Errorf("answer not marked as delivered: %w", err)
	}
	return nil
}

// sendNew sends text, picture and files as replies to the question.
func (a *Adapter) sendNew(ctx context.Context, r bot.Reply, to route, again bool) (text, image id.EventID, err error) {
	replyTo, thread := to.Question, to.Thread
	if r.Answer != nil && r.Answer.InReplyTo != "" {
		// It speaks of an earlier answer, and stands where that one stands.
		earlier := id.EventID(r.Answer.InReplyTo)
		at, ok, err := a.store.answerAt(ctx, to.Room, earlier)
		if err != nil {
			return "", "", err
		}
		if ok {
			replyTo, thread = earlier, at.thread
		}
	}
	placed := func(c *event.MessageEventContent) *event.MessageEventContent {
		return place(c, replyTo, thread, to.Asker)
	}
	part := func(name string, build builder) outgoing { return partOf(r, to, name, again, build) }

	if text, err = a.send(ctx, part("text", ready(placed(textOf(r, to.Prefix))))); err != nil || r.Answer == nil {
		return text, "", err
	}
	if png := picture(r.Answer); png != nil {
		image, err = a.send(ctx, part("image", a.imageOf(*png, placed)))
		if err = a.excuse(ctx, err, part, to, *png); err != nil {
			return "", "", err
		}
	}
	for i, at := range atOnce(r.Answer) {
		_, err = a.send(ctx, part(fmt.Sprintf("file-%d", i), a.fileOf(at, placed)))
		if err = a.excuse(ctx, err, part, to, at); err != nil {
			return "", "", err
		}
	}
	return text, image, nil
}

// partOf names one message of a reply. It is looked for after the event that was
// answered: the question, or its edit.
func partOf(r bot.Reply, to route, name string, again bool, build builder) outgoing {
	asked := id.EventID(r.Message)
	return outgoing{room: to.Room, part: partID(asked, name), after: asked, again: again, build: build}
}

// textOf makes the content of the reply's text.
func textOf(r bot.Reply, prefix string) *event.MessageEventContent {
	if r.Refusal != nil {
		return renderRefusal(r.Refusal, prefix).notice()
	}
	return renderAnswer(r.Answer, prefix).notice()
}

// replace edits the answer that stands there. Its picture is edited too, taken
// away where the new answer has none, or sent where the old one had none.
func (a *Adapter) replace(ctx context.Context, r bot.Reply, to route, again bool) (text, image id.EventID, err error) {
	part := func(name string, build builder) outgoing { return partOf(r, to, name, again, build) }
	if _, err = a.send(ctx, part("text", ready(edit(textOf(r, to.Prefix), to.Replaces)))); err != nil {
		return "", "", err
	}
	text, image = to.Replaces, to.ReplacesImage
	var png *answer.Attachment
	if r.Answer != nil {
		png = picture(r.Answer)
	}
	switch {
	case png != nil && image != "":
		_, err = a.send(ctx, part("image", a.imageOf(*png, func(c *event.MessageEventContent) *event.MessageEventContent {
			return edit(c, to.ReplacesImage)
		})))
	case png != nil:
		image, err = a.send(ctx, part("image", a.imageOf(*png, func(c *event.MessageEventContent) *event.MessageEventContent {
			return place(c, to.Question, to.Thread, to.Asker)
		})))
	case image != "":
		_, err = persist(ctx, func(ctx context.Context) (*mautrix.RespSendEvent, error) {
			return a.cli.RedactEvent(ctx, to.Room, to.ReplacesImage, mautrix.ReqRedact{
				Reason: "the question was edited", TxnID: partID(id.EventID(r.Message), "redaction"),
			})
		})
		return text, "", err
	}
	if png != nil {
		err = a.excuse(ctx, err, part, to, *png)
	}
	return text, image, err
}

// excuse tells the asker of a file that cannot be sent, and lets the rest of the
// answer go on. It gives an error only where nothing can be said either.
func (a *Adapter) excuse(ctx context.Context, err error, part func(string, builder) outgoing, to route, at answer.Attachment) error {
	if err == nil || ctx.Err() != nil {
		return err
	}
	a.log.Error("file not sent", "room", to.Room, "event", to.Question, "file", at.Name, "err", err)
	m := &message{}
	m.line("", "the file "+at.Name+" could not be sent here; the figures stand without it")
	_, err = a.send(ctx, part("excuse-"+at.Name, ready(place(m.notice(), to.Question, to.Thread, to.Asker))))
	return err
}

// takeOver looks for left-over answers again and again, where several processes
// share the daybook and one of them may have died.
func (a *Adapter) takeOver(ctx context.Context) {
	every := a.bot.LookEvery()
	if every == 0 {
		return
	}
	tick := time.NewTicker(every)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		if err := a.deliverLeftOvers(ctx); err != nil && ctx.Err() == nil {
			a.log.Warn("left-over answers not looked for", "err", err)
		}
	}
}

// putBack leaves an answer that was not sent to whoever looks for such next.
func (a *Adapter) putBack(ctx context.Context, entry int64) {
	if err := a.bot.PutBack(ctx, entry); err != nil && ctx.Err() == nil {
		a.log.Warn("answer not put back; it will be once its lease ends", "entry", entry, "err", err)
	}
}

// deliverLeftOvers sends what an earlier run recorded and did not send.
func (a *Adapter) deliverLeftOvers(ctx context.Context) error {
	replies, err := a.bot.Undelivered(ctx, platform, time.Now().Add(-a.cfg.FreshFor))
	if err != nil {
		return fmt.Errorf("undelivered answers: %w", err)
	}
	for _, r := range replies {
		log := a.log.With("entry", r.Entry, "event", r.Message)
		var to route
		if err := json.Unmarshal(r.Route, &to); err != nil || to.Room == "" {
			log.Error("undelivered answer has no room", "err", err)
			if err := a.bot.Expired(ctx, r.Entry); err != nil {
				log.Error("undelivered answer not given up", "err", err)
			}
			continue
		}
		err := a.know(ctx, to.Room)
		if err == nil {
			err = a.deliver(ctx, r, to, true)
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err == nil {
			continue
		}
		log.Warn("undelivered answer not sent", "room", to.Room, "err", err)
		if v, _ := judge(err); v == refused {
			// The bot was put out of the room, or may not speak there.
			if err := a.bot.Expired(ctx, r.Entry); err != nil {
				log.Error("undelivered answer not given up", "err", err)
			}
			continue
		}
		a.putBack(ctx, r.Entry)
	}
	return nil
}
