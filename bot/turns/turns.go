// Package turns shares out places at work between guilds, so that one guild's
// burst does not hold up another's answers: a guild waits for its own places
// first, and only as many as those of it wait for the common ones.
package turns

import (
	"context"
	"errors"
	"sync"

	"golang.org/x/sync/semaphore"
)

// Turns hands out places. Its methods may be called from several goroutines.
type Turns struct {
	each int64
	all  *semaphore.Weighted

	mu     sync.Mutex
	guilds map[string]*guild
}

// guild is one guild's share; it is kept as long as somebody has or awaits a
// place of it.
type guild struct {
	places *semaphore.Weighted
	users  int
}

// New shares out all places, at most each of them to one guild.
func New(all, each int) *Turns {
	return &Turns{each: int64(min(all, each)), all: semaphore.NewWeighted(int64(all)), guilds: map[string]*guild{}}
}

// Take waits for a place of the guild named, first come first served. The place
// is given back by release, which may be called more than once. The error is
// that of ctx.
func (t *Turns) Take(ctx context.Context, name string) (release func(), err error) {
	return t.TakeOf(ctx, name, 0, nil)
}

// ErrFull is returned by TakeOf where enough have or await a place already.
var ErrFull = errors.New("turns: enough wait already")

// TakeOf is Take for a guild of which at most so many may have or await a place
// (0: any number). Where there is waiting to do, it calls waits first, which may
// be nil.
func (t *Turns) TakeOf(ctx context.Context, name string, most int, waits func()) (release func(), err error) {
	g, users := t.enter(name, most)
	if g == nil {
		return nil, ErrFull
	}
	if waits != nil && users > int(t.each) {
		waits()
	}
	if err := g.places.Acquire(ctx, 1); err != nil {
		t.leave(name, g)
		return nil, err
	}
	if err := t.all.Acquire(ctx, 1); err != nil {
		g.places.Release(1)
		t.leave(name, g)
		return nil, err
	}
	return sync.OnceFunc(func() {
		t.all.Release(1)
		g.places.Release(1)
		t.leave(name, g)
	}), nil
}

// enter gives the guild and its number of users, or nil where it is full.
func (t *Turns) enter(name string, most int) (*guild, int) {
	t.mu.Lock()
	defer t.mu.Unlock()
	g := t.guilds[name]
	if g != nil && most > 0 && g.users >= most {
		return nil, g.users
	}
	if g == nil {
		g = &guild{places: semaphore.NewWeighted(t.each)}
		t.guilds[name] = g
	}
	g.users++
	return g, g.users
}

func (t *Turns) leave(name string, g *guild) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if g.users--; g.users == 0 {
		delete(t.guilds, name)
	}
}

// Users is how many of a guild have or await a place.
func (t *Turns) Users(name string) int {
	t.mu.Lock()
	defer t.mu.Unlock()
	if g := t.guilds[name]; g != nil {
		return g.users
	}
	return 0
}
