package bot

import (
	"context"
	"errors"
	"log/slog"
	"sync"
	"time"

	"guildhand/bot/daybook"
)

// leases are what this process holds where several share the daybook: events
// that it answers, and answers that it sends. Each is renewed until it is let
// go, so that a lease can be short: it ends soon after its process has died,
// and never while work or a slow platform takes long.
type leases struct {
	log *slog.Logger
	// every is how often a lease is renewed.
	every time.Duration

	mu     sync.Mutex
	held   map[any]*lease // by entry, an int64, or by event, a daybook.Key
	closed bool
}

type lease struct {
	stop context.CancelFunc
	done chan struct{}
}

func newLeases(o Options) *leases {
	l := &leases{log: o.Log, held: map[any]*lease{}}
	if o.Book != nil {
		const renewals = 3 // in the length of a lease
		l.every = max(o.Book.Hold()/renewals, time.Millisecond)
	}
	return l
}

// keep renews a lease until let, or until it is lost.
func (l *leases) keep(what any, renew func(context.Context) error) {
	ctx, stop := context.WithCancel(context.Background())
	one := &lease{stop, make(chan struct{})}
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.closed || l.held[what] != nil {
		stop()
		return
	}
	l.held[what] = one
	go func() {
		defer close(one.done)
		defer stop()
		tick := time.NewTicker(l.every)
		defer tick.Stop()
		for {
			select {
			case <-ctx.Done():
				return
			case <-tick.C:
			}
			err := renew(ctx)
			switch {
			case ctx.Err() != nil:
				return
			case errors.Is(err, daybook.ErrLeaseLost):
				l.mu.Lock()
				if l.held[what] == one {
					delete(l.held, what)
				}
				l.mu.Unlock()
				return
			case err != nil:
				l.log.Warn("a lease was not renewed", "error", err)
			}
		}
	}()
}

// let ends the renewing, and waits for one that is under way.
func (l *leases) let(what any) {
	l.mu.Lock()
	one := l.held[what]
	delete(l.held, what)
	l.mu.Unlock()
	if one != nil {
		one.stop()
		<-one.done
	}
}

// close lets all go, takes no further ones, and gives the entries among them.
func (l *leases) close() (entries []int64) {
	l.mu.Lock()
	l.closed = true
	var all []any
	for what := range l.held {
		all = append(all, what)
	}
	l.mu.Unlock()
	for _, what := range all {
		l.let(what)
		if entry, ok := what.(int64); ok {
			entries = append(entries, entry)
		}
	}
	return entries
}

// holdEntry keeps an answer that this process has to send.
func (s *Service) holdEntry(entry int64) {
	s.leases.keep(entry, func(ctx context.Context) error {
		return s.o.Book.Renew(ctx, entry, s.o.Book.Owner(), s.o.Book.Hold())
	})
}

// holdEvent keeps an event that this process is answering.
func (s *Service) holdEvent(key daybook.Key) {
	s.leases.keep(key, func(ctx context.Context) error {
		return s.o.Book.RenewEvent(ctx, key, s.o.Book.Owner(), s.o.Book.Hold())
	})
}

// PutBack gives back an answer that could not be sent for now, so that the next
// Undelivered gives it, to this process or another.
func (s *Service) PutBack(ctx context.Context, entry int64) error {
	if !s.o.Shared || entry == 0 {
		return nil
	}
	s.leases.let(entry)
	return s.o.Book.Release(ctx, entry, s.o.Book.Owner())
}

// LookEvery is how often an adapter should ask for Undelivered where other
// processes may have died and left some; 0 means that there are none.
func (s *Service) LookEvery() time.Duration {
	if !s.o.Shared {
		return 0
	}
	return max(s.o.Book.Hold()/2, time.Millisecond)
}

// takeAtOnce is how many answers of others are taken over at a time.
const takeAtOnce = 50

// takeOver claims what nobody is sending. What is older than since is marked as
// expired.
func (s *Service) takeOver(ctx context.Context, platform string, since time.Time) ([]Reply, error) {
	var replies []Reply
	for {
		entries, err := s.o.Book.ClaimUndelivered(ctx, platform, s.o.Book.Owner(), s.o.Book.Hold(), takeAtOnce)
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			if !e.At.Before(since) {
				s.holdEntry(e.ID)
				replies = append(replies, s.reply(e))
				continue
			}
			if err := s.Expired(ctx, e.ID); err != nil {
				s.o.Log.Warn("an old answer was not marked as expired yet", "entry", e.ID, "error", err)
			}
		}
		if len(replies) > 0 || len(entries) < takeAtOnce {
			return replies, nil
		}
	}
}
