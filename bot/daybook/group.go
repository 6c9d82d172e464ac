package daybook

import (
	"context"
	"database/sql"
	"slices"
	"sync"
)

// change is what a transaction does, at its time.
type change func(tx *sql.Tx, now int64) error

// group writes the changes that come while another one is being written in one
// transaction: a SQLite file takes one writer at a time, and each commit waits
// for the disk. The first to come leads: it writes its own change and those
// that are waiting by then, and then the next one leads. A change returns when its
// transaction is on disk, as it would alone; where any change of a transaction
// fails, all of them are undone and each is tried by itself.
type group struct {
	mu      sync.Mutex
	led     bool // somebody is writing
	waiting []*member
}

// member is one change that waits.
type member struct {
	ctx    context.Context
	change change
	turn   chan turn
}

// turn is what a member that waited is told.
type turn int

const (
	written turn = iota
	// alone: it is to write its change by itself.
	alone
	// lead: it is to write its change and those of the others.
	lead
)

// mostTogether keeps a transaction short.
const mostTogether = 64

// join waits until the change is written or it is time to write it. Where ctx
// ends before its turn, the change is not written and the error is ctx's.
func (g *group) join(ctx context.Context, c change) (*member, turn, error) {
	m := &member{ctx, c, make(chan turn, 1)}
	g.mu.Lock()
	if !g.led {
		g.led = true
		g.mu.Unlock()
		return m, lead, nil
	}
	g.waiting = append(g.waiting, m)
	g.mu.Unlock()
	select {
	case t := <-m.turn:
		return m, t, nil
	case <-ctx.Done():
	}
	g.mu.Lock()
	at := slices.Index(g.waiting, m)
	if at >= 0 {
		g.waiting = slices.Delete(g.waiting, at, at+1)
	}
	g.mu.Unlock()
	if at >= 0 {
		return m, alone, ctx.Err()
	}
	return m, <-m.turn, nil // it is being written, or its turn to lead
}

// others takes the members that wait, for the one that leads.
func (g *group) others() []*member {
	g.mu.Lock()
	defer g.mu.Unlock()
	n := min(len(g.waiting), mostTogether-1)
	taken := slices.Clone(g.waiting[:n])
	g.waiting = slices.Delete(g.waiting, 0, n)
	return taken
}

// pass lets the next one lead.
func (g *group) pass() {
	g.mu.Lock()
	defer g.mu.Unlock()
	if len(g.waiting) == 0 {
		g.led = false
		return
	}
	next := g.waiting[0]
	g.waiting = slices.Delete(g.waiting, 0, 1)
	next.turn <- lead
}

// inGroup writes a change together with others.
func (b *Book) inGroup(ctx context.Context, c change) error {
	m, t, err := b.group.join(ctx, c)
	switch {
	case err != nil:
		return b.explain(err)
	case t == written:
		return nil
	case t == alone:
		return b.byItself(ctx, c)
	}
	defer b.group.pass()
	others := b.group.others()
	if len(others) == 0 {
		return b.byItself(ctx, c)
	}
	outcome := alone
	defer func() {
		for _, o := range others {
			o.turn <- outcome
		}
	}()
	if b.together(append([]*member{m}, others...)) {
		outcome = written
		return nil
	}
	return b.byItself(ctx, c)
}

// together writes all changes in one transaction, or none.
func (b *Book) together(all []*member) bool {
	// It ends with the first of the members' contexts.
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	var release []func() bool
	for _, m := range all {
		release = append(release, context.AfterFunc(m.ctx, cancel))
	}
	released := func() bool {
		ok := true
		for _, r := range release {
			ok = r() && ok
		}
		release = nil
		return ok
	}
	defer released()
	tx, err := b.write.BeginTx(ctx, nil)
	if err != nil {
		return false
	}
	defer tx.Rollback() //nolint:errcheck // after a commit it has nothing to do
	for _, m := range all {
		if m.change(tx, micros(b.clock())) != nil {
			return false
		}
	}
	// A context that ended in the midst of the commit would leave in doubt
	// whether it came to pass.
	return released() && tx.Commit() == nil
}
