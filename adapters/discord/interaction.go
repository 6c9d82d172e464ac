package discord

import (
	"context"
	"encoding/json"
	"fmt"
	"runtime/debug"
	"slices"
	"time"

	"github.com/bwmarrin/discordgo"

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
}

func newRoute(i *discordgo.Interaction, alone bool) json.RawMessage {
	raw, err := json.Marshal(route{Token: i.Token, Until: time.Now().Add(tokenLife).UTC(), Alone: alone})
	if err != nil {
		return nil
	}
	return raw
}

// onInteraction handles one event of the gateway. The library calls it in a
// goroutine of its own, also where the event could not be decoded.
func (a *Adapter) onInteraction(create *discordgo.InteractionCreate) {
	if create == nil || create.Interaction == nil || create.ID == "" || create.Token == "" || create.Data == nil || asker(create.Interaction) == "" {
		a.log.Warn("an event that could not be read was left out")
		return
	}
	i := create.Interaction
	ctx, done := a.enter()
	if done == nil {
		return
	}
	defer done()
	defer func() {
		if p := recover(); p != nil {
			a.metrics.Fault("")
			a.log.Error("panic in an event", "interaction", i.ID, "panic", fmt.Sprint(p), "stack", string(debug.Stack()))
		}
	}()
	if complete, ok := i.Data.(discordgo.ApplicationCommandInteractionData); ok && i.Type == discordgo.InteractionApplicationCommandAutocomplete {
		a.onComplete(ctx, i, complete)
		return
	}
	x := newResponse(a.api, i)
	defer x.stop()
	var m *message // what is left to say, besides a reply
	switch data := i.Data.(type) {
	case discordgo.ApplicationCommandInteractionData:
		if i.Type == discordgo.InteractionApplicationCommand {
			m = a.onCommand(ctx, x, i, data)
		}
	case discordgo.MessageComponentInteractionData:
		m = a.onComponent(ctx, x, i, data)
	case discordgo.ModalSubmitInteractionData:
		m = a.onForm(ctx, x, i, data)
	}
	if m != nil {
		a.say(ctx, x, m)
	}
}

// request is an event's request of one whole line.
func (a *Adapter) request(i *discordgo.Interaction, line string) bot.Request {
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

// asker is the id of who caused the event.
func asker(i *discordgo.Interaction) string {
	switch {
	case i.Member != nil && i.Member.User != nil:
		return i.Member.User.ID
	case i.User != nil:
		return i.User.ID
	}
	return ""
}

// who is the asker and place of an event. A teacher has the configured role or
// manages the server.
func (a *Adapter) who(i *discordgo.Interaction) catalogue.Who {
	w := catalogue.Who{
		Platform: Platform, Guild: i.GuildID, Channel: i.ChannelID, Maker: asker(i),
		Direct: i.GuildID == "",
	}
	if i.Member != nil {
		has := permissions(i.Member.Permissions)
		w.Teacher = has&(permManageGuild|permAdministrator) != 0 ||
			slices.ContainsFunc(a.config.teachers(), func(role string) bool { return slices.Contains(i.Member.Roles, role) })
	}
	return w
}
