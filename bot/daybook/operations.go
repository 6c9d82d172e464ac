package daybook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/pressly/goose/v3"
	"modernc.org/sqlite"
)

// Health is what Check found.
type Health struct {
	Store         string // "sqlite" or "postgres"
	SchemaVersion int64
	// FreeBytes is what the disk has left, -1 where unknown (a server's disk).
	FreeBytes int64
	// DiskLow is set where less than LowDiskBytes is left.
	DiskLow bool
}

// LowDiskBytes is where it is time to tell somebody: about 10,000 answers.
const LowDiskBytes = 64 << 20

// Check tries the store: its schema, a durable write, its disk. A store that
// takes no writes is ErrCannotRecord.
func (b *Book) Check(ctx context.Context) (Health, error) {
	h := Health{Store: b.store.name, FreeBytes: -1}
	var err error
	if h.SchemaVersion, err = schemaVersion(ctx, b.read); err != nil {
		return h, b.explain(err)
	}
	if b.path != "" {
		if free, ok := freeBytes(filepath.Dir(b.path)); ok {
			h.FreeBytes, h.DiskLow = free, free < LowDiskBytes
		}
	}
	return h, b.inTx(ctx, func(tx *sql.Tx, now int64) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO health (id, at) VALUES (1, $1) ON CONFLICT (id) DO UPDATE SET at = excluded.at`, now)
		return err
	})
}

var errServerBackup = errors.New("a daybook on PostgreSQL is backed up with the server's own pg_dump and pg_restore")

// Backup writes a copy of the daybook as it is now to a new file, while it
// goes on being used. The file is complete and on disk when Backup returns, or
// not there at all. An existing file is never overwritten.
func (b *Book) Backup(ctx context.Context, path string) error {
	if b.store.name != "sqlite" {
		return errServerBackup
	}
	if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("back-up: %s is there already; name a new file", path)
	}
	part := path + ".part"
	// Left over from a back-up that was cut short.
	if err := os.Remove(part); err != nil && !errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("back-up: %w", err)
	}
	if err := makePrivate(part); err != nil {
		return fmt.Errorf("back-up: %w", err)
	}
	if err := b.vacuumInto(ctx, part); err != nil {
		os.Remove(part)
		return fmt.Errorf("back-up to %s: %w", path, b.explain(err))
	}
	if err := syncFile(part); err != nil {
		os.Remove(part)
		return fmt.Errorf("back-up: %w", err)
	}
	if err := os.Rename(part, path); err != nil {
		return fmt.Errorf("back-up: %w", err)
	}
	return syncDir(filepath.Dir(path))
}

func (b *Book) vacuumInto(ctx context.Context, path string) error {
	db := b.write
	if b.path != "" {
		// A connection of its own: recording goes on meanwhile.
		own, err := openSQLite(sqliteDSN(b.path, false), 1)
		if err != nil {
			return err
		}
		defer own.Close()
		db = own
	}
	_, err := db.ExecContext(ctx, `VACUUM INTO $1`, path)
	return err
}

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// Restored tells what Restore has done.
type Restored struct {
	// Kept is a copy of what was there before, beside the daybook; "" for one in
	// memory.
	Kept string
	// Next is the number that the next entry has at least.
	Next int64
}

// unknownEntries is how many numbers are left out after those of a back-up where
// the daybook that it replaces does not tell how many had been given out.
const unknownEntries = 10_000

// Restore puts a back-up's content in place of the daybook's while it is open;
// other processes see it with their next query. The back-up is checked first
// and is not changed; one made by an older program is upgraded.
//
// Messages in rooms carry the numbers of entries that the back-up does not have.
// None of those numbers is given out again.
func (b *Book) Restore(ctx context.Context, path string) (Restored, error) {
	var done Restored
	if b.store.name != "sqlite" {
		return done, errServerBackup
	}
	if sameFile(path, b.path) {
		return done, fmt.Errorf("restore: %s is the daybook itself; name a back-up", path)
	}
	if err := checkBackup(ctx, path); err != nil {
		return done, fmt.Errorf("restore from %s: %w", path, err)
	}
	if b.path != "" {
		done.Kept = b.path + ".before-restore-" + b.clock().UTC().Format("20060102T150405.000Z")
	}
	var err error
	if done.Next, err = b.replaceBy(ctx, path, done.Kept); err != nil {
		return Restored{}, fmt.Errorf("restore from %s: %w", path, b.explain(err))
	}
	return done, b.explain(b.prepareSQLite(ctx))
}

// replaceBy replaces the daybook by a back-up, by way of a copy of it in which
// the numbers go on.
func (b *Book) replaceBy(ctx context.Context, path, kept string) (next int64, err error) {
	dir := ""
	if b.path != "" {
		dir = filepath.Dir(b.path)
	}
	if dir, err = os.MkdirTemp(dir, ".guildhand-restore-"); err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	part := filepath.Join(dir, "part.db")
	if err := copyBook(ctx, path, part); err != nil {
		return 0, err
	}
	numbers, err := openSQLite(sqliteDSN(part, false), 1)
	if err != nil {
		return 0, err
	}
	defer numbers.Close()
	goOn := func(given int64) error {
		var own int64
		if own, err = lastNumber(ctx, numbers); err != nil {
			return err
		}
		if given < own {
			// Not the daybook that went on from the back-up.
			given = own + unknownEntries
		}
		next = given + 1
		_, err := numbers.ExecContext(ctx, `INSERT INTO sqlite_sequence (name, seq)
			SELECT 'entries', 0 WHERE NOT EXISTS (SELECT 1 FROM sqlite_sequence WHERE name = 'entries')`)
		if err == nil {
			_, err = numbers.ExecContext(ctx, `UPDATE sqlite_sequence SET seq = $1 WHERE name = 'entries'`, given)
		}
		return err
	}
	return next, b.copyFrom(ctx, part, kept, goOn)
}

// copyBook copies a back-up to a new file, which only its owner can read.
func copyBook(ctx context.Context, from, to string) error {
	if err := makePrivate(to); err != nil {
		return err
	}
	db, err := openSQLite(backupDSN(from), 1)
	if err != nil {
		return err
	}
	defer db.Close()
	_, err = db.ExecContext(ctx, `VACUUM INTO $1`, to)
	return err
}

// lastNumber is the highest number that an entry of a daybook ever had.
func lastNumber(ctx context.Context, db queryer) (last int64, err error) {
	err = db.QueryRowContext(ctx, `SELECT COALESCE(MAX(seq), 0) FROM sqlite_sequence WHERE name = 'entries'`).Scan(&last)
	return last, err
}

func sameFile(a, b string) bool {
	infoA, errA := os.Stat(a)
	infoB, errB := os.Stat(b)
	return errA == nil && errB == nil && os.SameFile(infoA, infoB)
}

// checkBackup refuses what is not a whole daybook of this program or an older
// one.
func checkBackup(ctx context.Context, path string) error {
	if err := isSQLiteFile(path); err != nil {
		return err
	}
	db, err := sql.Open("sqlite", backupDSN(path))
	if err != nil {
		return err
	}
	defer db.Close()
	if err := checkIsDaybook(ctx, db); err != nil {
		return err
	}
	has, err := schemaVersion(ctx, db)
	if err != nil {
		return err
	}
	if has == 0 {
		return errNotDaybook
	}
	p, err := newProvider(db, goose.DialectSQLite3, "sqlite")
	if err != nil {
		return err
	}
	sources := p.ListSources()
	if err := refuseNewer(has, sources[len(sources)-1].Version); err != nil {
		return err
	}
	var found string
	if err := db.QueryRowContext(ctx, `PRAGMA quick_check(1)`).Scan(&found); err != nil {
		return err
	}
	if found != "ok" {
		return fmt.Errorf("the back-up is damaged: %s", found)
	}
	return nil
}

// isSQLiteFile looks at the header, so that a wrong file gets a plain sentence
// and a missing one is not made.
func isSQLiteFile(path string) error {
	const magic = "SQLite format 3\x00" // https://www.sqlite.org/fileformat.html, section 1.3
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	head := make([]byte, len(magic))
	if _, err := io.ReadFull(f, head); err != nil || string(head) != magic {
		return errNotDaybook
	}
	return nil
}

// copyFrom runs SQLite's online back-up in reverse: one transaction over the
// whole file. What was there before is copied to kept, unless that is "", after
// the transaction has begun, when nothing can be recorded any more: whatever
// was acknowledged before is in kept, and whatever comes after waits. goOn is
// called then, too, with the last number that was given out; it may change what
// is copied, since a back-up begins anew where its source has changed.
func (b *Book) copyFrom(ctx context.Context, path, kept string, goOn func(given int64) error) error {
	conn, err := b.write.Conn(ctx)
	if err != nil {
		return err
	}
	defer conn.Close()
	given, err := lastNumber(ctx, conn)
	if err != nil {
		return err
	}
	return conn.Raw(func(c any) error {
		r, ok := c.(interface {
			NewRestore(string) (*sqlite.Backup, error)
		})
		if !ok {
			return errors.New("the SQLite driver has no restore")
		}
		copying, err := r.NewRestore(backupDSN(path))
		if err != nil {
			return err
		}
		const onePage, allPages = 1, -1
		_, err = copying.Step(onePage) // takes the lock, and shows nobody anything yet
		if err == nil && kept != "" {
			err = b.Backup(ctx, kept)
			if err == nil {
				given, err = lastNumber(ctx, b.read) // also those of other processes
			}
		}
		if err == nil {
			err = goOn(given)
		}
		if err == nil {
			_, err = copying.Step(allPages)
		}
		// Without the last page, this puts everything back.
		return errors.Join(err, copying.Finish())
	})
}
