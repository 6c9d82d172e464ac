package daybook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// MaxLease is the longest lease; a longer one is cut to it.
const MaxLease = time.Hour

// leaseEnd is when a lease that begins now ends.
func leaseEnd(now int64, lease time.Duration) int64 {
	return now + min(lease, MaxLease).Microseconds()
}

// lapsed is the condition that a lease is over at the time in place. A lease that
// ends later than any lease can was made before the clock was set back. It is over
// too: its owner may be dead, and nobody should have to wait for the clock.
func lapsed(until, place string) string {
	return fmt.Sprintf(`(%[1]s <= %[2]s OR %[1]s > %[2]s + %[3]d)`, until, place, MaxLease.Microseconds())
}

// Leases say who does something, until when. They go by the clocks of the
// processes, which must agree to within a small part of a lease. A process
// that dies keeps its leases until they end; then another takes over.
//
// Sending to a room and marking it sent are two steps, so an owner that dies
// between them leaves an answer that is sent again. Adapters make the second
// sending harmless with an id of their platform (a nonce, a transaction id)
// made from the entry's id.

// ClaimUndelivered leases to owner the oldest answers that were neither sent nor
// expired and that nobody holds, at most limit, oldest first. They are the
// owner's for the lease: to send and mark, to Renew, or to Release.
func (b *Book) ClaimUndelivered(ctx context.Context, platform, owner string, lease time.Duration, limit int) ([]Entry, error) {
	var claimed []Entry
	err := b.inTx(ctx, func(tx *sql.Tx, now int64) error {
		var err error
		claimed, err = scanEntries(tx.QueryContext(ctx, `SELECT `+entryColumns+` FROM entries e
			WHERE e.platform = $1 AND e.delivered_at IS NULL AND e.expired_at IS NULL AND `+lapsed(`e.held_until`, `$2`)+`
			ORDER BY e.id LIMIT $3`+b.store.skipLocked, platform, now, limit))
		if err != nil {
			return err
		}
		for _, e := range claimed {
			_, err := tx.ExecContext(ctx, `UPDATE entries SET held_by = $2, held_until = $3 WHERE id = $1`,
				e.ID, owner, leaseEnd(now, lease))
			if err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return claimed, nil
}

// Claim leases to owner the delivery of one entry, where it was neither sent nor
// expired and nobody holds it.
func (b *Book) Claim(ctx context.Context, id int64, owner string, lease time.Duration) (mine bool, err error) {
	err = b.inTx(ctx, func(tx *sql.Tx, now int64) error {
		err := requireRow(tx.ExecContext(ctx, `UPDATE entries SET held_by = $2, held_until = $3
			WHERE id = $1 AND delivered_at IS NULL AND expired_at IS NULL AND `+lapsed(`held_until`, `$4`),
			id, owner, leaseEnd(now, lease), now))
		mine = err == nil
		if errors.Is(err, ErrNotFound) {
			return nil
		}
		return err
	})
	return mine && err == nil, err
}

// Renew prolongs owner's lease of an entry from now on; ErrLeaseLost if the
// owner no longer has it, or the entry was sent.
func (b *Book) Renew(ctx context.Context, id int64, owner string, lease time.Duration) error {
	return b.inTx(ctx, func(tx *sql.Tx, now int64) error {
		err := requireRow(tx.ExecContext(ctx, `UPDATE entries SET held_until = $3
			WHERE id = $1 AND held_by = $2 AND delivered_at IS NULL AND expired_at IS NULL`,
			id, owner, leaseEnd(now, lease)))
		if errors.Is(err, ErrNotFound) {
			return ErrLeaseLost
		}
		return err
	})
}

// Release ends owner's lease of an entry, so that another can claim it at once.
// Where owner has none, nothing happens.
func (b *Book) Release(ctx context.Context, id int64, owner string) error {
	return b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		_, err := tx.ExecContext(ctx, `UPDATE entries SET held_by = '', held_until = 0 WHERE id = $1 AND held_by = $2`, id, owner)
		return err
	})
}

// ClaimEvent claims an event before it is answered, so that of two processes
// that see it one does the work. Where it is not mine, until is the end of the
// other's lease, after which to try again, or zero if the event has been
// recorded. A claim ends when the event is recorded; the same owner can't
// claim twice, which keeps an event that arrives twice apart too.
//
// An event without an id is always mine.
func (b *Book) ClaimEvent(ctx context.Context, k Key, owner string, lease time.Duration) (mine bool, until time.Time, err error) {
	if k.Message == "" {
		return true, time.Time{}, nil
	}
	err = b.inTx(ctx, func(tx *sql.Tx, now int64) error {
		mine, until = false, time.Time{}
		err := requireRow(tx.ExecContext(ctx, `INSERT INTO claims (platform, channel, message, owner, until) VALUES ($1, $2, $3, $4, $5)
			ON CONFLICT (platform, channel, message)
			DO UPDATE SET owner = excluded.owner, until = excluded.until WHERE `+lapsed(`claims.until`, `$6`),
			k.Platform, k.Channel, k.Message, owner, leaseEnd(now, lease), now))
		switch {
		case errors.Is(err, ErrNotFound):
			var end int64
			err = tx.QueryRowContext(ctx, `SELECT until FROM claims WHERE platform = $1 AND channel = $2 AND message = $3`,
				k.Platform, k.Channel, k.Message).Scan(&end)
			until = fromMicros(end)
			if errors.Is(err, sql.ErrNoRows) {
				// Recorded or given back this very moment: worth another try soon.
				until, err = fromMicros(now), nil
			}
			return err
		case err != nil:
			return err
		}
		// The claim comes first and this look second: an event recorded in
		// between is seen here.
		var recorded int
		err = tx.QueryRowContext(ctx, `SELECT COUNT(*) FROM entries e WHERE `+whereKey, k.Platform, k.Channel, k.Message).Scan(&recorded)
		if err != nil {
			return err
		}
		if mine = recorded == 0; mine {
			return nil
		}
		return dropClaim(ctx, tx, k)
	})
	if err != nil {
		return false, time.Time{}, err
	}
	return mine, until, nil
}

// RenewEvent prolongs owner's claim of an event from now on; ErrLeaseLost where
// the owner no longer has it, or the event was recorded.
func (b *Book) RenewEvent(ctx context.Context, k Key, owner string, lease time.Duration) error {
	return b.inTx(ctx, func(tx *sql.Tx, now int64) error {
		err := requireRow(tx.ExecContext(ctx, `UPDATE claims SET until = $5 WHERE platform = $1 AND channel = $2 AND message = $3 AND owner = $4`,
			k.Platform, k.Channel, k.Message, owner, leaseEnd(now, lease)))
		if errors.Is(err, ErrNotFound) {
			return ErrLeaseLost
		}
		return err
	})
}

// ReleaseEvent ends owner's claim of an event, where it could not be
// answered. Where owner has none, nothing happens.
func (b *Book) ReleaseEvent(ctx context.Context, k Key, owner string) error {
	return b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		_, err := tx.ExecContext(ctx, `DELETE FROM claims WHERE platform = $1 AND channel = $2 AND message = $3 AND owner = $4`,
			k.Platform, k.Channel, k.Message, owner)
		return err
	})
}

func dropClaim(ctx context.Context, tx *sql.Tx, k Key) error {
	_, err := tx.ExecContext(ctx, `DELETE FROM claims WHERE platform = $1 AND channel = $2 AND message = $3`, k.Platform, k.Channel, k.Message)
	return err
}
