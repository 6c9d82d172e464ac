package matrix

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// errPlain is why nothing is sent to an encrypted room by a bot that cannot
// encrypt.
var errPlain = errNever{errors.New("the room is encrypted and this bot has no encryption: nothing is sent")}

// errChanged makes send begin anew: the room was encrypted while a file for it
// was uploaded in the clear.
var errChanged = errors.New("the room has just been encrypted")

// builder makes an event's content. It is told whether the room is encrypted,
// since media are then encrypted too.
type builder func(ctx context.Context, encrypted bool) (*event.MessageEventContent, error)

// ready is a builder of content that is the same either way.
func ready(c *event.MessageEventContent) builder {
	return func(context.Context, bool) (*event.MessageEventContent, error) { return c, nil }
}

// outgoing is one message on its way to a room.
type outgoing struct {
	room id.RoomID
	// part names the message, the same in each run of the program: see partID.
	part string
	// after is the event that the message answers. What was sent before it is
	// not looked at when searching for an earlier copy.
	after id.EventID
	// again is true where an earlier run may have sent it.
	again bool
	build builder
	// section is set for an answer that may share an event with others, where
	// the server limits sending.
	section *section
	// parts are those of the answers that share the event.
	parts []string
}

// partKey is the field of an event's content that carries outgoing.part, in the
// clear also in encrypted rooms: a digest that tells nothing to others.
const partKey = "guildhand.part"

// partsKey is partKey's companion for an event that several answers share.
const partsKey = "guildhand.parts"

// partID names one of the messages that are sent for an event.
func partID(evt id.EventID, part string) string { return "guildhand-" + digest(string(evt), part) }

// send sends one message to a room, trying until the server has it or refuses
// it. Its part is also the transaction id, so that the server keeps one copy of
// what it is sent twice. Servers forget those ids, when they are restarted or
// after a while, so before anything is sent again the room itself is searched
// for it.
//
// This is the only place that sends messages: it decides on encryption by
// itself and never leaves that to the library, which would send plain text to a
// room whose state it does not know.
//
// Where the server limits sending, the message waits with the others.
func (a *Adapter) send(ctx context.Context, out outgoing) (id.EventID, error) {
	if a.limit.holds() {
		return a.await(ctx, out)
	}
	event, err := a.sendNow(ctx, out)
	if wait, ok := limited(err); ok {
		a.limit.meet(wait)
		return a.await(ctx, out)
	}
	return event, err
}

// sendNow sends one message, and gives errLimited where the server wants it later.
func (a *Adapter) sendNow(ctx context.Context, out outgoing) (id.EventID, error) {
	defer a.sayIfLong("a message", out.room)()
	built := map[bool]*event.MessageEventContent{}
	again := out.again
	return persist(ctx, func(ctx context.Context) (id.EventID, error) {
		if again {
			if there, err := a.findSent(ctx, out); err != nil || there != "" {
				return there, err
			}
		}
		again = true
		encrypted, err := a.encryptedNow(ctx, out.room)
		if err != nil {
			return "", err
		}
		if encrypted && a.crypto == nil {
			return "", errPlain
		}
		message := built[encrypted]
		if message == nil {
			if message, err = out.build(ctx, encrypted); err != nil {
				return "", err
			}
			built[encrypted] = message
			if !encrypted && message.URL != "" {
				// Uploading takes a while, in which the room may have changed.
				if encrypted, err = a.encryptedNow(ctx, out.room); err != nil {
					return "", err
				}
				if encrypted {
					return "", errChanged
				}
			}
		}
		kind, content := event.EventMessage, &event.Content{Parsed: message}
		if encrypted {
			secret, err := a.crypto.encrypt(ctx, out.room, event.EventMessage, message)
			if storeFails(err) {
				return "", errWaits{fmt.Errorf("encrypting: %w", err)}
			}
			if err != nil {
				return "", fmt.Errorf("encrypting: %w", err)
			}
			kind, content = event.EventEncrypted, &event.Content{Parsed: secret}
		}
		content.Raw = map[string]any{partKey: out.part}
		if len(out.parts) > 0 {
			content.Raw[partsKey] = out.parts
		}
		resp, err := a.cli.SendMessageEvent(ctx, out.room, kind, content,
			mautrix.ReqSendEvent{TransactionID: out.part, DontEncrypt: true})
		if wait, ok := limitOf(err); ok {
			return "", errNever{errLimited{err, wait}}
		}
		if err != nil {
			return "", err
		}
		return resp.EventID, nil
	})
}

// findSent looks for an earlier copy of a message in its room, back to the event
// that it answers; empty means that there is none.
func (a *Adapter) findSent(ctx context.Context, out outgoing) (id.EventID, error) {
	from := ""
	oldest := time.Now().Add(-a.cfg.FreshFor).UnixMilli()
	for range mostPages {
		page, err := a.cli.Messages(ctx, out.room, from, "", mautrix.DirectionBackward, nil, pageSize)
		if err != nil {
			return "", fmt.Errorf("was it sent before: %w", err)
		}
		for _, evt := range page.Chunk {
			if evt.ID == out.after || evt.Timestamp < oldest {
				return "", nil
			}
			if evt.Sender == a.cli.UserID && carries(evt, out.part) {
				return evt.ID, nil
			}
		}
		if len(page.Chunk) == 0 || page.End == "" || page.End == from {
			return "", nil
		}
		from = page.End
	}
	return "", nil
}

// carries reports whether an event is the message, or has it among others.
func carries(evt *event.Event, part string) bool {
	if own, _ := evt.Content.Raw[partKey].(string); own == part {
		return true
	}
	shared, _ := evt.Content.Raw[partsKey].([]any)
	return slices.Contains(shared, any(part))
}

// relation places a message: in reply to an event, in the thread if there is one.
func relation(replyTo, thread id.EventID) *event.RelatesTo {
	rel := &event.RelatesTo{}
	if thread != "" {
		rel.SetThread(thread, "")
	}
	return rel.SetReplyTo(replyTo)
}

// place gives content its relation, and mentions who asked and nobody else; an
// empty asker mentions nobody.
func place(c *event.MessageEventContent, replyTo, thread id.EventID, asker id.UserID) *event.MessageEventContent {
	c.RelatesTo = relation(replyTo, thread)
	c.Mentions = &event.Mentions{}
	if asker != "" {
		c.Mentions.UserIDs = []id.UserID{asker}
	}
	return c
}

// edit makes content replace an event. Nobody is mentioned again.
func edit(c *event.MessageEventContent, original id.EventID) *event.MessageEventContent {
	c.RelatesTo, c.Mentions = nil, &event.Mentions{}
	outer := *c
	outer.Body = "* " + c.Body
	if outer.FormattedBody != "" {
		outer.FormattedBody = "* " + c.FormattedBody
	}
	outer.NewContent = c
	outer.RelatesTo = (&event.RelatesTo{}).SetReplace(original)
	return &outer
}
