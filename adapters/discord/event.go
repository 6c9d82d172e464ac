package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"runtime/debug"

	"github.com/bwmarrin/discordgo"
)

// Events are read from their raw data. The library's own types lack a thread's
// parent and a form's labels, and one component that they don't know empties
// the whole event, its id and token too.
type (
	// interaction is one press, command, form or completion.
	interaction struct {
		ID        string       `json:"id"`
		Token     string       `json:"token"`
		Type      int          `json:"type"`
		GuildID   string       `json:"guild_id"`
		ChannelID string       `json:"channel_id"`
		Channel   *channelInfo `json:"channel"`
		Member    *member      `json:"member"`
		User      *user        `json:"user"`
		Message   *sent        `json:"message"`
		Locale    string       `json:"locale"`
		// Context is where it was used; see the constants.
		Context *int `json:"context"`
		// Owners are who installed the app, by the way in which it was installed.
		Owners map[string]json.RawMessage `json:"authorizing_integration_owners"`
		Data   input                      `json:"data"`
	}

	// input is what an interaction carries, whatever its type.
	input struct {
		Name       string        `json:"name"`
		Type       int           `json:"type"`
		Options    []givenOption `json:"options"`
		CustomID   string        `json:"custom_id"`
		Values     []string      `json:"values"`
		Components []submitted   `json:"components"`
		TargetID   string        `json:"target_id"`
		Resolved   struct {
			Messages map[string]heard    `json:"messages"`
			Files    map[string]attached `json:"attachments"`
		} `json:"resolved"`
	}

	givenOption struct {
		Name    string        `json:"name"`
		Type    int           `json:"type"`
		Value   any           `json:"value"`
		Focused bool          `json:"focused"`
		Options []givenOption `json:"options"`
	}

	// submitted is a form's row or label, or a field in one.
	submitted struct {
		Type       int         `json:"type"`
		CustomID   string      `json:"custom_id"`
		Value      any         `json:"value"`
		Values     []string    `json:"values"`
		Component  *submitted  `json:"component"`
		Components []submitted `json:"components"`
	}

	channelInfo struct {
		ID     string `json:"id"`
		Type   int    `json:"type"`
		Parent string `json:"parent_id"`
	}

	member struct {
		User        *user       `json:"user"`
		Roles       []string    `json:"roles"`
		Permissions permissions `json:"permissions"`
	}

	user struct {
		ID  string `json:"id"`
		Bot bool   `json:"bot"`
	}

	// heard is a message of somebody.
	heard struct {
		ID        string  `json:"id"`
		Type      int     `json:"type"`
		GuildID   string  `json:"guild_id"`
		ChannelID string  `json:"channel_id"`
		WebhookID string  `json:"webhook_id"`
		Content   string  `json:"content"`
		Author    *user   `json:"author"`
		Member    *member `json:"member"`
		Mentions  []user  `json:"mentions"`
		Reference struct {
			Message string `json:"message_id"`
		} `json:"message_reference"`
		// RepliesTo is the message of Reference, where Discord sends it along.
		RepliesTo *heard     `json:"referenced_message"`
		Files     []attached `json:"attachments"`
		Embeds    []struct {
			Footer footer `json:"footer"`
		} `json:"embeds"`
	}
)

// Types of interactions, and the contexts of commands.
const (
	kindCommand, kindComponent, kindComplete, kindForm = 2, 3, 4, 5

	contextGuild, contextDirect, contextGroup = 0, 1, 2
)

// parent is the channel whose bench, house rules and daybook count: a thread's
// is that of its channel.
func (c *channelInfo) parent() string {
	const firstThread, lastThread = 10, 12
	if c == nil || c.Type < firstThread || c.Type > lastThread {
		return ""
	}
	return c.Parent
}

// isForum reports whether every message of a channel stands in a post.
func (c *channelInfo) isForum() bool {
	const forum, media = 15, 16
	return c != nil && (c.Type == forum || c.Type == media)
}

// onEvent takes every dispatch of a connection. The library calls it in a
// goroutine of its own, also where it could not decode the event itself.
func (a *Adapter) onEvent(s *shard, e *discordgo.Event) {
	defer func() {
		if p := recover(); p != nil {
			a.metrics.Fault("")
			a.log.Error("panic in an event", "panic", fmt.Sprint(p), "stack", string(debug.Stack()))
		}
	}()
	if e == nil || e.Type != "RESUMED" && (len(e.RawData) == 0 || bytes.Equal(e.RawData, []byte("null"))) {
		return
	}
	switch e.Type {
	case "READY":
		a.onReady(s, e.RawData)
	case "RESUMED":
		s.resumed.Store(true)
	case "INTERACTION_CREATE":
		var i interaction
		if err := json.Unmarshal(e.RawData, &i); err != nil || i.ID == "" || i.Token == "" || i.asker() == "" {
			a.log.Warn("an event that could not be read was left out")
			return
		}
		a.within(func(ctx context.Context) { a.onInteraction(ctx, &i) })
	case "MESSAGE_CREATE":
		var m heard
		if err := json.Unmarshal(e.RawData, &m); err != nil || m.ID == "" || m.ChannelID == "" || m.Author == nil || m.Author.ID == "" {
			a.log.Warn("a message that could not be read was left out")
			return
		}
		a.within(func(ctx context.Context) { a.onMessage(ctx, &m) })
	}
}

// within does a part of the adapter's work, unless it is ending.
func (a *Adapter) within(work func(context.Context)) {
	ctx, done := a.enter()
	if done == nil {
		return
	}
	defer done()
	work(ctx)
}

// asker is the id of who caused the event.
func (i *interaction) asker() string {
	switch {
	case i.Member != nil && i.Member.User != nil:
		return i.Member.User.ID
	case i.User != nil:
		return i.User.ID
	}
	return ""
}
