package matrix

import (
	"testing"

	"guildhand/adapters/conversationtest"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// The conversation of all adapters, by prefix and by reply in a room.
func TestSharedConversation(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		ana := ana.on(t)
		room := ana.room(encrypted)
		conversationtest.Hold(t, func(turn conversationtest.Turn, replyTo string) conversationtest.Shown {
			asked := id.EventID("")
			if replyTo != "" {
				asked = ana.replyTo(room, id.EventID(replyTo), turn.Say)
			} else {
				asked = ana.send(room, &event.MessageEventContent{
					MsgType: event.MsgText, Body: "guildhand: " + turn.Say,
					Mentions: &event.Mentions{UserIDs: []id.UserID{ana.bot}},
				})
			}
			if turn.Silent {
				return conversationtest.Shown{}
			}
			answer := ana.waitReplies(room, asked, 1)[0]
			return conversationtest.Shown{Answer: string(answer.raw.ID), Text: answer.evt.Content.AsMessage().Body}
		})
	})
}
