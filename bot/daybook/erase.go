package daybook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"sync"
	"time"
)

// SQLite overwrites what is deleted (secure_delete), but two places keep it for
// a while: the search index until its parts are merged, and the write-ahead log
// until it is emptied, which a reader can delay. SQLite's user_version is not 0
// until both are done, so a program that was killed finishes at its next start.

// markErased notes, within the transaction that removes entries, that traces of
// them are left.
func (b *Book) markErased(ctx context.Context, tx *sql.Tx) error {
	if b.path == "" {
		return nil
	}
	left, err := tracesLeft(ctx, tx)
	if err == nil {
		_, err = tx.ExecContext(ctx, fmt.Sprintf(`PRAGMA user_version = %d`, left+1))
	}
	return err
}

func tracesLeft(ctx context.Context, db queryer) (left int32, err error) {
	return left, db.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&left)
}

// errStillRead says that a reader holds on to the write-ahead log.
var errStillRead = errors.New("another program is reading the daybook")

// erase removes the traces of deleted entries from the file. Recording goes on
// meanwhile.
func (b *Book) erase(ctx context.Context) error {
	if b.path == "" {
		return nil
	}
	db, err := openSQLite(sqliteDSN(b.path, false), 1)
	if err != nil {
		return err
	}
	defer db.Close()
	left, err := tracesLeft(ctx, db)
	if err != nil || left == 0 {
		return err
	}
	if err := mergeIndex(ctx, db); err != nil {
		return err
	}
	// Waiting for a reader would keep others from writing.
	if _, err := db.ExecContext(ctx, `PRAGMA busy_timeout = 100`); err != nil {
		return err
	}
	var busy, inLog, copied int
	if err := db.QueryRowContext(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`).Scan(&busy, &inLog, &copied); err != nil {
		return err
	}
	if busy != 0 {
		return errStillRead
	}
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() //nolint:errcheck // a no-op after a commit
	if now, err := tracesLeft(ctx, tx); err != nil || now != left {
		return err // more was removed meanwhile; that removal erases it
	}
	if _, err := tx.ExecContext(ctx, `PRAGMA user_version = 0`); err != nil {
		return err
	}
	return tx.Commit()
}

// mergeIndex merges the parts of the search index into one, which leaves out
// the words of deleted entries. It does so in short steps.
// https://www.sqlite.org/fts5.html, section 6.8, "the merge command".
func mergeIndex(ctx context.Context, db *sql.DB) error {
	const pages, noChange = 250, 2
	changes := func() (n int64, err error) {
		return n, db.QueryRowContext(ctx, `SELECT total_changes()`).Scan(&n)
	}
	for step := -pages; ; step = pages {
		before, err := changes()
		if err != nil {
			return err
		}
		if _, err := db.ExecContext(ctx, `INSERT INTO found (found, rank) VALUES ('merge', $1)`, step); err != nil {
			return err
		}
		after, err := changes()
		if err != nil || after-before < noChange {
			return err
		}
	}
}

// eraser tries again where erase could not finish.
type eraser struct {
	mu      sync.Mutex
	cancel  context.CancelFunc // nil if nothing is being tried
	stopped bool
	work    sync.WaitGroup
}

// eraseAgainAfter is the pause between two tries.
const eraseAgainAfter = time.Second

// eraseSoon erases at once if it can, and otherwise goes on trying until it has
// or the Book is closed.
func (b *Book) eraseSoon(ctx context.Context) {
	if b.erase(ctx) == nil {
		return
	}
	e := &b.erasing
	e.mu.Lock()
	defer e.mu.Unlock()
	if e.stopped || e.cancel != nil {
		return
	}
	ctx, e.cancel = context.WithCancel(context.Background())
	e.work.Go(func() {
		for {
			select {
			case <-ctx.Done():
				return
			case <-time.After(eraseAgainAfter):
			}
			if b.erase(ctx) == nil {
				e.mu.Lock()
				e.cancel()
				e.cancel = nil
				e.mu.Unlock()
				return
			}
		}
	})
}

func (e *eraser) stop() {
	e.mu.Lock()
	e.stopped = true
	if e.cancel != nil {
		e.cancel()
	}
	e.mu.Unlock()
	e.work.Wait()
}
