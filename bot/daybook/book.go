package daybook

import (
	"context"
	"crypto/rand"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// DefaultHold is for how long a recorded answer is left to the process that
// recorded it before another process may claim its delivery.
const DefaultHold = 30 * time.Second

// Book is an open daybook. Its methods may be called from several goroutines,
// and, on PostgreSQL or on one SQLite file, from several processes.
type Book struct {
	// write takes all changes, read everything else. On SQLite write is one
	// connection, since the file takes one writer at a time; reading goes on
	// beside it.
	write, read *sql.DB
	store       store
	// group joins changes on a store that takes one writer at a time; nil where
	// the server does.
	group *group
	path  string // of the SQLite file, "" elsewhere
	clock func() time.Time
	owner string
	hold  time.Duration
	// erasing ends what Close has to wait for.
	erasing eraser
}

// store is the small difference between SQLite and PostgreSQL.
type store struct {
	name string
	// skipLocked ends a SELECT whose rows are about to be claimed.
	skipLocked string
	// choose makes the query of all that a search finds, page the statement of a
	// page of it.
	choose func(*search) *query
	page   func(s *search, limit int) (statement string, args []any)
	// why says in plain words why the store can't be written at the moment; "" for
	// an error that means something else.
	why func(error) string
	// retry reports an error that goes away when the transaction runs again.
	retry func(error) bool
}

// Option sets something of a Book while opening.
type Option func(*Book)

// WithClock replaces the clock, for tests.
func WithClock(now func() time.Time) Option { return func(b *Book) { b.clock = now } }

// WithOwner names this process in leases; without it, a random name serves.
func WithOwner(owner string) Option { return func(b *Book) { b.owner = owner } }

// WithHold replaces DefaultHold.
func WithHold(d time.Duration) Option { return func(b *Book) { b.hold = d } }

func newBook(opts []Option) *Book {
	b := &Book{clock: time.Now, owner: rand.Text(), hold: DefaultHold}
	for _, o := range opts {
		o(b)
	}
	return b
}

// Owner is this process's name in leases.
func (b *Book) Owner() string { return b.owner }

// Hold is for how long this process's leases last unless renewed.
func (b *Book) Hold() time.Duration { return b.hold }

// Close closes the store. What was recorded is safe without it.
func (b *Book) Close() error {
	b.erasing.stop()
	if b.read != b.write {
		return errors.Join(b.read.Close(), b.write.Close())
	}
	return b.write.Close()
}

// inTx runs change in a transaction, with one time, and commits it. change may
// run again, so it must not keep anything from a failed attempt.
func (b *Book) inTx(ctx context.Context, c change) error {
	if b.group != nil {
		return b.inGroup(ctx, c)
	}
	return b.byItself(ctx, c)
}

// byItself runs change in a transaction of its own.
func (b *Book) byItself(ctx context.Context, c change) error {
	const tries = 4
	var err error
	for range tries {
		err = b.tryTx(ctx, c)
		if err == nil || !b.store.retry(err) {
			break
		}
	}
	if cause := ctx.Err(); err != nil && cause != nil && !errors.Is(err, cause) {
		// The driver reports the end of the context in its own words.
		err = fmt.Errorf("%w: %w", cause, err)
	}
	return b.explain(err)
}

func (b *Book) tryTx(ctx context.Context, c change) error {
	tx, err := b.write.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() //nolint:errcheck // a no-op after a commit; after a failure the first error says more
	if err := c(tx, micros(b.clock())); err != nil {
		return err
	}
	return tx.Commit()
}

// explain wraps an error that means the store can't be written at the moment in
// ErrCannotRecord. A deadline that ran out while writing is one too: a slow disk,
// or a lock that was held too long.
func (b *Book) explain(err error) error {
	switch {
	case err == nil, errors.Is(err, ErrCannotRecord), errors.Is(err, ErrDamaged):
		return err
	case errors.Is(err, context.DeadlineExceeded):
		return fmt.Errorf("%w: the store did not answer in time: %w", ErrCannotRecord, err)
	}
	if why := b.store.why(err); why != "" {
		return fmt.Errorf("%w: %s: %w", ErrCannotRecord, why, err)
	}
	return err
}

// requireRow turns "no row was changed" into ErrNotFound.
func requireRow(res sql.Result, err error) error {
	if err != nil {
		return err
	}
	n, err := res.RowsAffected()
	if err != nil {
		return err
	}
	if n == 0 {
		return ErrNotFound
	}
	return nil
}

// micros is how the store keeps a time.
func micros(t time.Time) int64 { return t.UnixMicro() }

// fromMicros is the inverse of micros, in UTC.
func fromMicros(n int64) time.Time { return time.UnixMicro(n).UTC() }
