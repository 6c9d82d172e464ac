package matrix

import (
	"context"
	"strings"
	"testing"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// TestLongWorkStepsAside: while long work goes on, its room is answered, and
// its asker stops it with a word.
func TestLongWorkStepsAside(t *testing.T) {
	h := startServer(t)
	h.register("guildhand")
	b := startBot(t, botConfig(t, h))
	b.stop()
	b.specs = append(b.specs, catalogue.Spec{
		Name: "saga", Summary: "goes on until it is stopped", Long: true,
		Examples: []catalogue.Example{{Line: "saga"}},
		Answer: func(ctx context.Context, c *catalogue.Call) (*answer.Answer, error) {
			c.Progress(1, 100, "nesting")
			<-ctx.Done()
			return nil, ctx.Err()
		},
	})
	b.start()
	ana := newMaker(t, h, "ana")
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		m := ana.on(t)
		room := m.room(encrypted)
		saga := m.say(room, "!saga")
		if _, text := m.ask(room, "!gauge 22"); !strings.Contains(text.Body, "0.644 mm") {
			t.Errorf("meanwhile: %q", text.Body)
		}
		m.mu.Lock()
		early := m.replies(m.seen, room, saga)
		m.mu.Unlock()
		if len(early) != 0 {
			t.Fatal("the long work ended by itself")
		}
		if _, text := m.ask(room, "!stop"); !strings.HasPrefix(text.Body, "your request is stopped") {
			t.Errorf("stop: %q", text.Body)
		}
		if text := m.waitText(room, saga); !strings.HasPrefix(text.Body, "stopped") {
			t.Errorf("the long work: %q", text.Body)
		}
		if _, text := m.ask(room, "!stop"); !strings.HasPrefix(text.Body, "nothing of yours") {
			t.Errorf("stop again: %q", text.Body)
		}
	})
}
