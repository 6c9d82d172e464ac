package discord

import (
	"context"
	"sync"

	"github.com/bwmarrin/discordgo"

	"guildhand/bot"
)

// running is the long work of this process, by the id of its event, so that
// its asker can stop it.
type running struct {
	mu   sync.Mutex
	list map[string]work
}

type work struct {
	maker string
	stop  context.CancelCauseFunc
}

// begin gives the context for a request's work; end lets go of it.
func (r *running) begin(ctx context.Context, id, maker string) (within context.Context, end func()) {
	within, stop := context.WithCancelCause(ctx)
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.list == nil {
		r.list = map[string]work{}
	}
	r.list[id] = work{maker, stop}
	return within, func() {
		r.mu.Lock()
		defer r.mu.Unlock()
		delete(r.list, id)
		stop(context.Canceled)
	}
}

// stop ends a maker's work; false where there is none of his under the id.
func (r *running) stop(id, maker string) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	w, ok := r.list[id]
	if !ok || w.maker != maker {
		return false
	}
	w.stop(bot.ErrStopped)
	return true
}

// onStop ends the work that a note on progress tells of. What it was is then
// recorded as stopped, and the note replaced by that.
func (a *Adapter) onStop(ctx context.Context, x *exchange, i *discordgo.Interaction, id string) bool {
	if !a.running.stop(id, asker(i)) {
		return a.say(ctx, x, saying("there is nothing left to stop"))
	}
	if err := x.direct(ctx, response{Type: replyDeferredUpdate}); err != nil {
		a.log.Debug("a stop could not be acknowledged", "interaction", x.id, "error", err)
	}
	return true
}
