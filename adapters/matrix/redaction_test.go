package matrix

import (
	"context"
	"strings"
	"testing"

	"guildhand/bot/daybook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// tookBack reports whether the bot redacted an event.
func (m *maker) tookBack(all []seen, what id.EventID) bool {
	for _, s := range all {
		if s.raw.Type == event.EventRedaction && s.raw.Sender == m.bot && redacted(s.raw) == what {
			return true
		}
	}
	return false
}

// TestRedaction: who takes a question back takes its answer back, with picture,
// edits and what was asked for by reaction, on the server too; the daybook
// forgets it, and a later edit is not answered.
func TestRedaction(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		ana := ana.on(t)
		room := ana.room(encrypted)
		q, text := firstAnswer(t, ana, room, "!"+aCollet)
		editTo := func(line string) {
			c := &event.MessageEventContent{MsgType: event.MsgText, Body: line}
			c.SetEdit(q)
			ana.send(room, c)
		}
		editTo("!collet oval 10x8 22ga ag925")
		ana.wait("the edited answer", func(all []seen) bool { return len(ana.edits(all, room, text.raw.ID)) > 0 })
		ana.react(room, text.raw.ID, "🔧")
		ana.waitReplies(room, text.raw.ID, 1)
		said := ana.settle(room)
		kept := said[len(said)-1].raw.ID // the answer to another question
		_, err := ana.cli.RedactEvent(ana.ctx, room, q)
		require.NoError(t, err)

		ana.wait("all of the answer to be taken back", func(all []seen) bool {
			for _, s := range said[:len(said)-1] {
				if !ana.tookBack(all, s.raw.ID) {
					return false
				}
			}
			return true
		})
		editTo("!gauge 18ga")
		after := ana.settle(room)
		for _, s := range after {
			if s.fail == nil {
				assert.NotContains(t, s.evt.Content.AsMessage().Body, "18 ga")
			}
		}
		for _, s := range said[:len(said)-1] {
			evt, err := ana.cli.GetEvent(ana.ctx, room, s.raw.ID)
			require.NoError(t, err)
			assert.NotContains(t, string(evt.Content.VeryRaw), "ciphertext")
			assert.NotContains(t, string(evt.Content.VeryRaw), "body", "the server still has the words of %s", s.raw.ID)
		}
		ana.mu.Lock()
		assert.False(t, ana.tookBack(ana.seen, kept), "another answer was taken back")
		ana.mu.Unlock()

		book, err := daybook.Open(context.Background(), b.book)
		require.NoError(t, err)
		defer book.Close()
		entries, err := book.List(context.Background(), daybook.Filter{Platform: platform, Guild: string(room), Channel: string(room), Limit: 50})
		require.NoError(t, err)
		require.NotEmpty(t, entries)
		for _, e := range entries {
			assert.Equal(t, "gauge", e.Request, "the daybook still has %q", e.Typed)
			assert.NotContains(t, e.Typed, "18ga")
		}
	})
}

// TestManyEdits: thirty edits of a question in a row make a few edits of the
// answer, and the last of them is the last question's.
func TestManyEdits(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	room := ana.room(false)
	q := ana.say(room, "!gauge 10ga")
	answered := ana.waitReplies(room, q, 1)[0].raw.ID
	const edits = 30
	for n := range edits {
		c := &event.MessageEventContent{MsgType: event.MsgText, Body: "!gauge " + []string{"16ga", "18ga", "20ga"}[n%3]}
		c.SetEdit(q)
		ana.send(room, c)
	}
	var got []*event.MessageEventContent
	ana.wait("the last edit", func(all []seen) bool {
		got = ana.edits(all, room, answered)
		return len(got) > 0 && strings.HasPrefix(got[len(got)-1].NewContent.Body, "20 ga")
	})
	ana.settle(room)
	ana.mu.Lock()
	defer ana.mu.Unlock()
	got = ana.edits(ana.seen, room, answered)
	assert.Less(t, len(got), edits)
	assert.True(t, strings.HasPrefix(got[len(got)-1].NewContent.Body, "20 ga"))
}
