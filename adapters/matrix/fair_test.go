package matrix

import (
	"context"
	"fmt"
	"log/slog"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"guildhand/bot"
	"guildhand/calc/testcount"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// TestFlood: one maker floods a room; another is answered meanwhile, and the
// flooder alone is told, once, that questions wait and once that some are left
// out. In a long run it is 1,000 questions, and no answer to the other maker
// takes 5 s.
func TestFlood(t *testing.T) {
	wholeOnly(t)
	if !testcount.Long() { // where times are measured, no other test loads the server
		t.Parallel()
	}
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	b.stop()
	// In a short run so few are answered in a minute that some are left out however
	// slowly they are asked; ben asks less than that.
	b.limits = bot.Limits{Maker: bot.Limit{AtOnce: 10, PerMinute: testcount.InLong(3, 60)}, Channel: bot.Limit{AtOnce: 300, PerMinute: 240}}
	b.start()
	ana, ben := newMaker(t, h, "ana"), newMaker(t, h, "ben")
	room := ana.room(false, func(r *mautrix.ReqCreateRoom) { r.Invite = append(r.Invite, ben.cli.UserID) })
	_, err := ben.cli.JoinRoomByID(ben.ctx, room)
	require.NoError(t, err)
	ana.waitMember(room, ben.cli.UserID, event.MembershipJoin)

	var flood sync.WaitGroup
	flooded := make(chan struct{})
	flood.Go(func() {
		defer close(flooded)
		for n := range testcount.InLong(80, 1000) {
			ana.say(room, fmt.Sprintf("!gauge %dga", 10+n%20))
		}
	})
	var took []time.Duration
	for last := false; !last && (testcount.Long() || len(took) < 8); {
		select {
		case <-flooded:
			last = true // once more, with all of the flood behind
		case <-time.After(time.Second):
		}
		asked := time.Now()
		assert.Contains(t, ben.waitText(room, ben.say(room, "!gauge 20ga")).Body, "0.812 mm")
		took = append(took, time.Since(asked))
	}
	flood.Wait()
	told := map[string]int{}
	ana.wait("word that some is left out", func(all []seen) bool {
		clear(told)
		for _, s := range ana.fromBot(all, room) {
			c := s.evt.Content.AsMessage()
			switch {
			case strings.Contains(c.Body, "your questions wait and are answered in turn"):
				told["waits"]++
			case strings.Contains(c.Body, "leave out"):
				told["left out"]++
			default:
				continue
			}
			assert.True(t, c.Mentions.Has(ana.cli.UserID), "told to %v", c.Mentions)
		}
		return told["left out"] > 0
	})
	if testcount.Long() { // a flood of a minute is told of again
		for n, d := range took {
			assert.Less(t, d, 5*time.Second, "question %d of the other maker", n)
		}
	} else {
		assert.Equal(t, map[string]int{"waits": 1, "left out": 1}, told)
	}
	t.Logf("%d questions of the other maker, the longest took %s", len(took), maxOf(took))
}

func maxOf(all []time.Duration) (longest time.Duration) {
	for _, d := range all {
		longest = max(longest, d)
	}
	return longest
}

// TestInboxTakesMakersInTurn: a maker who waits holds up neither others of the
// room nor the stream, an edit takes the place of what it edits, and a
// redaction takes it away.
func TestInboxTakesMakersInTurn(t *testing.T) { synctest.Test(t, testInboxTakesMakersInTurn) }

func testInboxTakesMakersInTurn(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	var mu sync.Mutex
	var handled, kept []string
	var in *inbox
	waits := true
	in = newInbox(ctx, ctx, func(_ context.Context, j *job) {
		mu.Lock()
		defer mu.Unlock()
		if j.evt.Sender == "@ana" && waits {
			in.later(j, time.Minute)
			return
		}
		handled = append(handled, string(j.evt.ID))
		in.release(j.batch)
	}, func(_ context.Context, token string) error {
		kept = append(kept, token)
		return nil
	}, slog.New(slog.DiscardHandler))
	var out []string
	in.leftOut = func(_ context.Context, evt *event.Event) { out = append(out, string(evt.ID)) }
	n := 0
	put := func(sender id.UserID, evt event.Event) {
		n++
		b := in.begin(fmt.Sprint(n), true)
		require.NotNil(t, b)
		evt.Sender, evt.RoomID = sender, "!room"
		in.add(b, &evt)
		in.seal(b)
	}
	edit := func(name, of string) event.Event {
		return event.Event{ID: id.EventID("$" + name), Content: event.Content{Raw: map[string]any{
			"m.relates_to": map[string]any{"rel_type": "m.replace", "event_id": of}}}}
	}
	for i := range mostWaiting + 10 {
		put("@ana", event.Event{ID: id.EventID(fmt.Sprint("$a", i))})
	}
	for i := range 3 * openBatches {
		put("@ben", event.Event{ID: id.EventID(fmt.Sprint("$b", i))})
	}
	synctest.Wait()
	assert.Len(t, handled, 3*openBatches, "another maker of the room waits")
	assert.Empty(t, kept, "a position behind a question that waits was kept")
	for i := range 30 {
		put("@ana", edit(fmt.Sprint("e", i), "$a1"))
	}
	put("@cleo", event.Event{ID: "$r", Type: event.EventRedaction, Redacts: "$a2"})
	synctest.Wait()
	mu.Lock()
	waits = false
	handled = nil
	mu.Unlock()
	time.Sleep(2 * time.Minute)
	synctest.Wait()
	mu.Lock()
	assert.Len(t, handled, mostWaiting-1, "50 wait, of which one was edited and one redacted; the edit is the last of 30")
	assert.NotContains(t, handled, "$a1")
	assert.NotContains(t, handled, "$a2")
	assert.Contains(t, handled, "$e29")
	assert.Equal(t, []string{fmt.Sprint("$a", mostWaiting)}, out)
	require.NotEmpty(t, kept)
	assert.Equal(t, fmt.Sprint(n), kept[len(kept)-1])
	mu.Unlock()
	cancel()
	in.wait()
}
