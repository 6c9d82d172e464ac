package bot

import (
	"context"
	"errors"
	"log/slog"
	"sync"
	"time"

	"guildhand/bot/daybook"
)

// claims are the events that this process is answering and the answers that it
// is sending, so that nothing is done twice. Where several processes share the
// daybook, each claim is also a lease there. It is renewed until it is dropped,
// so that a lease can be short: it ends soon after its process has died, and
// never while work or a slow platform takes long.
type claims struct {
	log    *slog.Logger
	shared bool
	// every is how often a lease is renewed.
	every time.Duration

	mu     sync.Mutex
	held   map[any]*claim // by entry, an int64, or by event, a daybook.Key
	closed bool
}

type claim struct {
	stop context.CancelFunc
	done chan struct{}
}

func newClaims(o Options) *claims {
	c := &claims{log: o.Log, shared: o.Shared, held: map[any]*claim{}}
	if o.Book != nil {
		const renewals = 3 // in the length of a lease
		c.every = max(o.Book.Hold()/renewals, time.Millisecond)
	}
	return c
}

// hold keeps a claim until drop, or until its lease is lost. It reports false
// if this process has the claim already.
func (c *claims) hold(what any, renew func(context.Context) error) bool {
	ctx, stop := context.WithCancel(context.Background())
	held := &claim{stop, make(chan struct{})}
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.held[what] != nil {
		stop()
		return false
	}
	if !c.shared || c.closed { // a process that ends must not take leases
		close(held.done)
		if !c.closed {
			c.held[what] = held
		}
		return true
	}
	c.held[what] = held
	go func() {
		defer close(held.done)
		defer stop()
		c.keepRenewing(ctx, what, held, renew)
	}()
	return true
}

func (c *claims) keepRenewing(ctx context.Context, what any, held *claim, renew func(context.Context) error) {
	tick := time.NewTicker(c.every)
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
			c.mu.Lock()
			defer c.mu.Unlock()
			if c.held[what] == held {
				delete(c.held, what)
			}
			return
		case err != nil:
			c.log.Warn("a lease was not renewed", "error", err)
		}
	}
}

// drop ends a claim, and waits for a renewal that is under way.
func (c *claims) drop(what any) {
	c.mu.Lock()
	held := c.held[what]
	delete(c.held, what)
	c.mu.Unlock()
	if held != nil {
		held.stop()
		<-held.done
	}
}

// close drops all claims, takes no further ones, and returns the entries among
// them.
func (c *claims) close() (entries []int64) {
	c.mu.Lock()
	c.closed = true
	var all []any
	for what := range c.held {
		all = append(all, what)
	}
	c.mu.Unlock()
	for _, what := range all {
		c.drop(what)
		if entry, ok := what.(int64); ok {
			entries = append(entries, entry)
		}
	}
	return entries
}

// holdEntry claims an answer that this process has to send, and reports false
// if this process is sending it already.
func (s *Service) holdEntry(entry int64) bool {
	return s.claims.hold(entry, func(ctx context.Context) error {
		return s.o.Book.Renew(ctx, entry, s.o.Book.Owner(), s.o.Book.Hold())
	})
}

// holdEvent claims an event that this process is answering.
func (s *Service) holdEvent(key daybook.Key) {
	s.claims.hold(key, func(ctx context.Context) error {
		return s.o.Book.RenewEvent(ctx, key, s.o.Book.Owner(), s.o.Book.Hold())
	})
}

// claimEntry claims an answer that was not sent when it was read, and reports
// whether it is this process's to send.
func (s *Service) claimEntry(ctx context.Context, entry int64) bool {
	if s.o.Shared {
		mine, err := s.o.Book.Claim(ctx, entry, s.o.Book.Owner(), s.o.Book.Hold())
		if err != nil {
			s.o.Log.Warn("an unsent answer could not be claimed", "entry", entry, "error", err)
		}
		return mine && s.holdEntry(entry)
	}
	if !s.holdEntry(entry) {
		return false
	}
	// It may have been sent since it was read.
	e, err := s.o.Book.ByID(ctx, entry)
	if err != nil || !e.DeliveredAt.IsZero() {
		s.claims.drop(entry)
		return false
	}
	return true
}

// Release returns an answer that could not be sent, so that Undelivered finds
// it again, in this process or another.
func (s *Service) Release(ctx context.Context, entry int64) error {
	s.claims.drop(entry)
	if !s.o.Shared || entry == 0 {
		return nil
	}
	return s.o.Book.Release(ctx, entry, s.o.Book.Owner())
}

// Withdraw forgets what was recorded of an event that its asker took back. What
// was never recorded is no error.
func (s *Service) Withdraw(ctx context.Context, key daybook.Key) error {
	e, err := s.o.Book.ByKey(ctx, key)
	if err == nil {
		s.claims.drop(e.ID)
		err = s.o.Book.ForgetEntry(ctx, e.ID)
	}
	if errors.Is(err, daybook.ErrNotFound) {
		return nil
	}
	return err
}

// Shared reports whether other processes may answer and send beside this one, and
// if so, how soon to look for what one of them has left.
func (s *Service) Shared() (lookEvery time.Duration, shared bool) {
	if !s.o.Shared {
		return 0, false
	}
	return max(s.o.Book.Hold()/2, time.Millisecond), true
}

// claimAtOnce is how many unsent answers are claimed at a time.
const claimAtOnce = 50

// Undelivered claims what was recorded on a platform and not sent, oldest first
// and exactly as recorded: at most some at a time, and nothing that this or
// another process is sending. The answers are the caller's until Delivered,
// Expired or Release.
func (s *Service) Undelivered(ctx context.Context, platform string) ([]Reply, error) {
	var entries []daybook.Entry
	var err error
	claim := func(e daybook.Entry) bool { return s.holdEntry(e.ID) }
	if s.o.Shared {
		entries, err = s.o.Book.ClaimUndelivered(ctx, platform, s.o.Book.Owner(), s.o.Book.Hold(), claimAtOnce)
	} else {
		entries, err = s.o.Book.Undelivered(ctx, platform, time.Time{})
		claim = func(e daybook.Entry) bool { return !s.answering(e.Key) && s.claimEntry(ctx, e.ID) }
	}
	var replies []Reply
	for _, e := range entries {
		if claim(e) {
			replies = append(replies, s.reply(e))
		}
	}
	return replies, err
}
