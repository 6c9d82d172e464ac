// Package fairness shares places at work between guilds, so that one guild's
// burst does not delay another's answers: a guild queues for its own places
// first, and only those that hold one queue for the common places.
package fairness

import (
	"context"
	"errors"
	"sync"

	"golang.org/x/sync/semaphore"
)

// Places limits how much work runs at once, in all and for each guild. Its
// methods may be called from several goroutines.
type Places struct {
	perGuild int64
	all      *semaphore.Weighted

	mu     sync.Mutex
	guilds map[string]*guild
}

// guild is one guild's share. It is kept while somebody holds or awaits one of
// its places.
type guild struct {
	places *semaphore.Weighted
	users  int
}

// New makes all places, of which one guild may hold perGuild at a time.
func New(all, perGuild int) *Places {
	return &Places{perGuild: int64(min(all, perGuild)), all: semaphore.NewWeighted(int64(all)), guilds: map[string]*guild{}}
}

// Acquire waits for a place of the guild, first come first served. Call release
// when the work is done; a second call does nothing. The error is ctx's.
func (p *Places) Acquire(ctx context.Context, name string) (release func(), err error) {
	return p.AcquireQueued(ctx, name, 0, nil)
}

// ErrFull is returned by AcquireQueued when the guild's queue is full.
var ErrFull = errors.New("fairness: the queue is full")

// AcquireQueued is Acquire for a guild of which at most so many may hold or
// await a place (0: any number). If the place is not free, it calls onWait
// first, which may be nil.
func (p *Places) AcquireQueued(ctx context.Context, name string, most int, onWait func()) (release func(), err error) {
	g, users := p.enter(name, most)
	if g == nil {
		return nil, ErrFull
	}
	if onWait != nil && users > int(p.perGuild) {
		onWait()
	}
	if err := g.places.Acquire(ctx, 1); err != nil {
		p.leave(name, g)
		return nil, err
	}
	if err := p.all.Acquire(ctx, 1); err != nil {
		g.places.Release(1)
		p.leave(name, g)
		return nil, err
	}
	return sync.OnceFunc(func() {
		p.all.Release(1)
		g.places.Release(1)
		p.leave(name, g)
	}), nil
}

// enter returns the guild and its number of users, or nil if its queue is full.
func (p *Places) enter(name string, most int) (*guild, int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	g := p.guilds[name]
	if g != nil && most > 0 && g.users >= most {
		return nil, g.users
	}
	if g == nil {
		g = &guild{places: semaphore.NewWeighted(p.perGuild)}
		p.guilds[name] = g
	}
	g.users++
	return g, g.users
}

func (p *Places) leave(name string, g *guild) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if g.users--; g.users == 0 {
		delete(p.guilds, name)
	}
}
