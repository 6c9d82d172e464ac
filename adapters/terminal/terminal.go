// Package terminal is guildhand in a terminal: a room where one maker asks and
// reads, and the one-shot question of `guildhand ask`. It needs no network and
// no configuration.
//
// What people see goes through one place, clean, which lets no control
// character of a request through to the screen.
package terminal

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"strings"
	"sync"
	"time"

	"guildhand/bot"
	"guildhand/bot/catalogue"
)

// Service is what the room needs of bot.Service.
type Service interface {
	// Handle records and answers. Its error means that nothing could be
	// recorded, so that there is no answer to show.
	Handle(context.Context, bot.Request) (bot.Reply, error)
	// Recorded reads an answer of the daybook.
	Recorded(ctx context.Context, entry int64) (bot.Reply, error)
	// Delivered marks an answer as shown.
	Delivered(ctx context.Context, entry int64, platformMessage string) error
	// Stop ends an asker's long work.
	Stop(ctx context.Context, who catalogue.Who, message string) int
	Specs() []catalogue.Spec
	// Complete returns the words that may come next at the cursor.
	Complete(ctx context.Context, line string, cursor int) []bot.Completion
}

// Platform is the terminal's name in the daybook.
const Platform = "terminal"

// who is the one maker of a terminal, who owns the whole daybook.
func who() catalogue.Who {
	return catalogue.Who{
		Platform: Platform, Guild: "local", Channel: "room", Maker: "me",
		Teacher: true, Direct: true,
	}
}

// progressEvery is the least time between two reports of long work.
const progressEvery = time.Second

// progress reports long work on a line of its own, at most once a second and
// not at all for what is quick. The hint ends the first line.
func progress(w io.Writer, hint string) func(done, total int, note string) {
	var mu sync.Mutex
	last := time.Now()
	return func(done, total int, note string) {
		mu.Lock()
		defer mu.Unlock()
		if time.Since(last) < progressEvery {
			return
		}
		last = time.Now()
		text := fmt.Sprintf("  %d of %d", done, total)
		if note != "" {
			text += ": " + note
		}
		text += hint
		hint = ""
		_, _ = io.WriteString(w, strings.ReplaceAll(clean(text), "\n", " ")+"\n")
	}
}

// delivered marks an answer as shown. Failing to is only logged: the answer is on
// the screen and in the daybook.
func delivered(ctx context.Context, service Service, log *slog.Logger, entry int64) {
	if err := service.Delivered(ctx, entry, ""); err != nil {
		log.Warn("marking an answer as shown", "entry", entry, "error", err)
	}
}
