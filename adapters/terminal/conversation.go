package terminal

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"log/slog"
	"strings"
	"time"

	"guildhand/bot"
)

// Conversation is a file of messages, one a line, all from one maker in one
// room, each answered with one JSON object on a line of its own.
type Conversation struct {
	Messages io.Reader
	Log      *slog.Logger
}

// Run answers every message in turn. Empty lines are passed over. It fails where
// a message could not be answered at all; refusals and questions back are
// answers.
func (c Conversation) Run(ctx context.Context, service Service, w io.Writer) error {
	lines := bufio.NewScanner(c.Messages)
	// A room of its own: it goes on from nothing that was asked before.
	asker := who()
	asker.Channel = fmt.Sprintf("conversation-%d", time.Now().UnixNano())
	for n := 1; lines.Scan(); n++ {
		message := strings.TrimSpace(lines.Text())
		if message == "" {
			continue
		}
		reply, err := service.Handle(ctx, bot.Request{Who: asker, Text: message})
		if err != nil {
			return fmt.Errorf("message %d: %w", n, err)
		}
		text, err := jsonText(service, message, reply, nil, "")
		if err != nil {
			return err
		}
		if _, err := io.WriteString(w, text); err != nil {
			return fmt.Errorf("showing the answer: %w", err)
		}
		delivered(ctx, service, c.Log, reply.Entry)
	}
	if err := lines.Err(); err != nil {
		return fmt.Errorf("reading the conversation: %w", err)
	}
	return nil
}
