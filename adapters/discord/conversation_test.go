package discord

import (
	"strings"
	"testing"

	"guildhand/adapters/conversationtest"
)

// The conversation of all adapters, by mentions and replies in a channel.
func TestSharedConversation(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	shown := map[string]*shown{}
	conversationtest.Hold(t, func(turn conversationtest.Turn, replyTo string) conversationtest.Shown {
		m := inGuild(atBot + turn.Say)
		m.replyTo = shown[replyTo]
		id := r.discord.say(m)
		if turn.Silent {
			return conversationtest.Shown{}
		}
		answer := r.replyTo(theChannel, id)
		shown[answer.id] = answer
		return conversationtest.Shown{Answer: answer.id, Text: answer.text() + "\n" + strings.Join(answer.labels(), "\n")}
	})
}

// replyTo waits for the bot's reply to a message.
func (r *rig) replyTo(channel, message string) *shown {
	r.t.Helper()
	var m shown
	r.wait("a reply to "+message, func() bool {
		r.discord.mu.Lock()
		defer r.discord.mu.Unlock()
		for _, known := range r.discord.channels[channel] {
			if ref := known.message.Reference; ref != nil && ref.Message == message {
				m = *known
				return true
			}
		}
		return false
	})
	return &m
}

// labels are those of a message's buttons.
func (m *shown) labels() []string {
	var list []string
	for _, row := range m.message.Components {
		for _, c := range row.Components {
			if c.Label != "" {
				list = append(list, c.Label)
			}
		}
	}
	return list
}
