package discord

import (
	"context"
	"encoding/json"
	"slices"
	"time"

	"guildhand/bot"
	"guildhand/bot/catalogue"
)

// route is what is kept with an entry to deliver its answer later.
type route struct {
	// Token of the interaction and until when it is good.
	Token string    `json:"token"`
	Until time.Time `json:"until"`
	// Alone is set if only the asker may see the answer.
	Alone bool `json:"alone,omitempty"`
	// Channel is where it was asked, if that is a thread of the entry's channel.
	Channel string `json:"channel,omitempty"`
	// ReplyTo is the message that asked, where no command did.
	ReplyTo string `json:"reply,omitempty"`
}

// routeOf reads a route; an unreadable one is empty.
func routeOf(raw json.RawMessage) route {
	var way route
	if json.Unmarshal(raw, &way) != nil {
		return route{}
	}
	return way
}

// place is the channel to write to for a reply of that route.
func (r route) place(who catalogue.Who) string {
	if r.Channel != "" {
		return r.Channel
	}
	return who.Channel
}

func newRoute(i *interaction, alone bool) json.RawMessage {
	way := route{Token: i.Token, Until: time.Now().Add(tokenLife).UTC(), Alone: alone}
	if i.Channel.parent() != "" {
		way.Channel = i.ChannelID
	}
	return way.encode()
}

func (r route) encode() json.RawMessage {
	raw, err := json.Marshal(r)
	if err != nil {
		return nil
	}
	return raw
}

// onInteraction answers one interaction.
func (a *Adapter) onInteraction(ctx context.Context, i *interaction) {
	if i.Type == kindComplete {
		a.onComplete(ctx, i, i.Data)
		return
	}
	x := newResponse(a.api, i, a.pace.window)
	defer x.stop()
	var m *message // what is left to say, besides a reply
	switch i.Type {
	case kindCommand:
		m = a.onCommand(ctx, x, i, i.Data)
	case kindComponent:
		m = a.onComponent(ctx, x, i, i.Data)
	case kindForm:
		m = a.onForm(ctx, x, i, i.Data)
	}
	if m != nil {
		a.say(ctx, x, m)
	}
}

// request is an event's request of one whole line.
func (a *Adapter) request(i *interaction, line string) bot.Request {
	return bot.Request{Who: a.who(i), Message: i.ID, At: time.Now(), Text: line}
}

// grace is how long running requests may take after Run was told to end.
const grace = 10 * time.Second

// enter takes part in the adapter's work; done is nil where it is ending.
func (a *Adapter) enter() (ctx context.Context, done func()) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.ctx == nil || a.ctx.Err() != nil {
		return nil, nil
	}
	a.pending.Add(1)
	ctx, cancel := context.WithTimeout(context.WithoutCancel(a.ctx), tokenLife)
	stop := context.AfterFunc(a.ctx, func() { time.AfterFunc(grace, cancel) })
	return ctx, func() {
		stop()
		cancel()
		a.pending.Done()
	}
}

// who is the asker and place of an event. A teacher has the configured role or
// manages the server. Where a maker brought the app along, the server has not
// set it up: its bench and its teachers don't count there. Neither does
// anybody's right in a group message, where everybody would have it.
func (a *Adapter) who(i *interaction) catalogue.Who {
	w := catalogue.Who{Platform: Platform, Guild: i.GuildID, Channel: i.ChannelID, Maker: i.asker(), Locale: i.Locale}
	if parent := i.Channel.parent(); parent != "" {
		w.Channel = parent
	}
	_, installed := i.Owners["0"]
	if len(i.Owners) > 0 && !installed || i.Context != nil && *i.Context == contextGroup {
		w.Guild = ""
		return w
	}
	w.Direct = i.GuildID == ""
	w.Teacher = a.teaches(i.Member)
	return w
}

// teaches reports whether a member has a teacher's role or manages the server.
func (a *Adapter) teaches(m *member) bool {
	return m != nil && (m.Permissions&(permManageGuild|permAdministrator) != 0 ||
		slices.ContainsFunc(a.config.teachers(), func(role string) bool { return slices.Contains(m.Roles, role) }))
}
