package matrix

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// TestPicturesApart: where the configuration says so, the text is a message of
// its own and the picture follows it, without ringing again. An edit of the
// question edits the text and brings a new picture in place of the old one; who
// takes the question back takes both back.
func TestPicturesApart(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	cfg := botConfig(t, h)
	cfg.PicturesApart = true
	startBot(t, cfg)
	ana := newMaker(t, h, "ana")
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		ana := ana.on(t)
		room := ana.room(encrypted)
		q := ana.say(room, "!"+aCollet)
		both := ana.waitReplies(room, q, 2)
		text, picture := both[0].evt.Content.AsMessage(), both[1].evt.Content.AsMessage()
		assert.Equal(t, event.MsgNotice, text.MsgType)
		assert.Contains(t, text.Body, "collet oval 8")
		assert.Equal(t, []id.UserID{ana.cli.UserID}, text.Mentions.UserIDs)
		assert.Equal(t, event.MsgImage, picture.MsgType)
		assert.NotContains(t, picture.Body, "\n", "the picture has the text as its caption")
		assert.Empty(t, picture.Mentions.UserIDs)

		c := &event.MessageEventContent{MsgType: event.MsgText, Body: "!collet oval 10x8 22ga ag925"}
		c.SetEdit(q)
		ana.send(room, c)
		ana.wait("the edited text and the new picture", func(all []seen) bool {
			return len(ana.edits(all, room, both[0].raw.ID)) == 1 && len(ana.replies(all, room, q)) == 3 && ana.tookBack(all, both[1].raw.ID)
		})
		ana.mu.Lock()
		edited := ana.edits(ana.seen, room, both[0].raw.ID)[0].NewContent
		second := ana.replies(ana.seen, room, q)[2]
		ana.mu.Unlock()
		assert.Contains(t, edited.Body, "10 x 8")
		assert.Equal(t, event.MsgNotice, edited.MsgType)
		assert.Equal(t, event.MsgImage, second.evt.Content.AsMessage().MsgType)

		_, err := ana.cli.RedactEvent(ana.ctx, room, q)
		require.NoError(t, err)
		ana.wait("text and picture to be taken back", func(all []seen) bool {
			return ana.tookBack(all, both[0].raw.ID) && ana.tookBack(all, second.raw.ID)
		})
		if encrypted {
			ana.noPlainText(room)
		}
	})
}
