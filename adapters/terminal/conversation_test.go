package terminal

import (
	"context"
	"io"
	"log/slog"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"guildhand/adapters/conversationtest"
	"guildhand/bot"
	"guildhand/bot/daybook"
	"guildhand/bot/requests"
	"guildhand/calc/stock"

	"github.com/stretchr/testify/require"
)

// entryShown finds the number that an answer is kept under.
var entryShown = regexp.MustCompile(`entry (\d+) of the daybook`)

// The conversation of all adapters, typed into a room.
func TestSharedConversation(t *testing.T) {
	book, err := daybook.Open(t.Context(), filepath.Join(t.TempDir(), "daybook.db"))
	require.NoError(t, err)
	t.Cleanup(func() { _ = book.Close() })
	service := bot.New(bot.Options{Specs: requests.All(book), Shop: stock.DemoWorkshop(), Book: book, Log: slog.New(slog.DiscardHandler), Version: "test", Timeout: time.Minute})
	typed, keyboard := io.Pipe()
	screen := make(pages)
	ended := make(chan error, 1)
	go func() {
		ended <- (&Room{Service: service, In: typed, Out: screen, Log: slog.New(slog.DiscardHandler)}).Run(context.Background())
	}()
	<-screen // the welcome
	conversationtest.Hold(t, func(turn conversationtest.Turn, replyTo string) conversationtest.Shown {
		line := turn.Say
		if replyTo != "" {
			line = "re " + replyTo + " " + line
		}
		_, err := io.WriteString(keyboard, line+"\n")
		require.NoError(t, err)
		if turn.Silent {
			return conversationtest.Shown{}
		}
		shown := conversationtest.Shown{Text: <-screen}
		if m := entryShown.FindStringSubmatch(shown.Text); m != nil {
			shown.Answer = m[1]
		}
		return shown
	})
	require.NoError(t, keyboard.Close())
	require.NoError(t, <-ended)
}

// pages is a screen that hands on each text as the room shows it.
type pages chan string

func (p pages) Write(text []byte) (int, error) {
	p <- string(text)
	return len(text), nil
}
