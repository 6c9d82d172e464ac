package daybook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

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

// LowDiskBytes is when to warn: enough for about 10,000 answers.
const LowDiskBytes = 64 << 20

// Check tries the store: its schema, a durable write, its disk. A store that
// can't be written is ErrCannotRecord.
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

// Verify reads the whole daybook and counts its entries. On SQLite it gives
// ErrDamaged if the file is; a server checks its own files.
func (b *Book) Verify(ctx context.Context) (entries int64, err error) {
	if b.store.name == "sqlite" {
		err = checkIntegrity(ctx, b.read)
	}
	if err == nil {
		err = b.read.QueryRowContext(ctx, `SELECT COUNT(*) FROM entries`).Scan(&entries)
	}
	return entries, b.explain(err)
}

// checkIntegrity returns ErrDamaged with the first fault that SQLite finds.
func checkIntegrity(ctx context.Context, db *sql.DB) error {
	var found string
	err := db.QueryRowContext(ctx, `PRAGMA integrity_check(1)`).Scan(&found)
	switch {
	case damaged(err):
		return fmt.Errorf("%w: %w", ErrDamaged, err)
	case err == nil && found != "ok":
		return fmt.Errorf("%w: %s", ErrDamaged, strings.ReplaceAll(found, "\n", " "))
	}
	return err
}

var errServerBackup = errors.New("a daybook on PostgreSQL is backed up with the server's own pg_dump and pg_restore")

// Backup writes a copy of the daybook as it is now to a new file, while it
// goes on being used, and returns the number of its entries. The copy has been
// read again and is on disk when Backup returns, or is not there at all. An
// existing file is never overwritten, and a damaged daybook is ErrDamaged.
func (b *Book) Backup(ctx context.Context, path string) (entries int64, err error) {
	if b.store.name != "sqlite" {
		return 0, errServerBackup
	}
	if _, err := os.Lstat(path); err == nil {
		return 0, fmt.Errorf("back-up: %s is there already; name a new file", path)
	}
	part := path + partMark
	// Left over from a back-up that was cut short.
	if err := os.Remove(part); err != nil && !errors.Is(err, os.ErrNotExist) {
		return 0, fmt.Errorf("back-up: %w", err)
	}
	if err := makePrivate(part); err != nil {
		return 0, fmt.Errorf("back-up: %w", err)
	}
	defer os.Remove(part)
	if entries, err = b.verifiedCopy(ctx, part); err != nil {
		return 0, fmt.Errorf("back-up to %s: %w", path, b.explain(err))
	}
	if err := errors.Join(syncFile(part), os.Rename(part, path), syncDir(filepath.Dir(path))); err != nil {
		return 0, fmt.Errorf("back-up: %w", err)
	}
	return entries, nil
}

// verifiedCopy checks the daybook, copies it, and checks the copy. Since the
// daybook is in use meanwhile, the copy's entries are compared with those before
// and after it.
func (b *Book) verifiedCopy(ctx context.Context, path string) (entries int64, err error) {
	db := b.write
	if b.path != "" {
		// A connection of its own: recording goes on meanwhile.
		if db, err = openSQLite(sqliteDSN(b.path, false), 1); err != nil {
			return 0, err
		}
		defer db.Close()
	}
	if err := checkIntegrity(ctx, db); err != nil {
		return 0, err
	}
	before, err := extentOf(ctx, db)
	if err != nil {
		return 0, err
	}
	if _, err := db.ExecContext(ctx, `VACUUM INTO $1`, path); err != nil {
		return 0, err
	}
	after, err := extentOf(ctx, db)
	if err != nil {
		return 0, err
	}
	copied, err := checkBackup(ctx, path)
	if err != nil {
		return 0, fmt.Errorf("the copy can't be used: %w", err)
	}
	if copied.last < before.last || copied.last > after.last ||
		copied.entries > before.entries+copied.last-before.last || copied.entries < after.entries-(after.last-copied.last) {
		return 0, fmt.Errorf("the copy can't be used: it has %d entries, and the daybook had %d before and %d after", copied.entries, before.entries, after.entries)
	}
	return copied.entries, nil
}

// extent is how many entries a daybook has, and the highest number that one ever
// had.
type extent struct{ entries, last int64 }

func extentOf(ctx context.Context, db *sql.DB) (e extent, err error) {
	err = db.QueryRowContext(ctx, `SELECT COUNT(*), (SELECT COALESCE(MAX(seq), 0) FROM sqlite_sequence WHERE name = 'entries') FROM entries`).
		Scan(&e.entries, &e.last)
	return e, err
}

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// Restored says what Restore has done.
type Restored struct {
	// Kept is a copy of what was there before, beside the daybook; "" for one in
	// memory.
	Kept string
	// Entries is how many entries the daybook has now.
	Entries int64
	// Next is the number that the next entry has at least.
	Next int64
}

// unknownEntries is how many numbers are left out after those of a back-up where
// the daybook that it replaces does not show how many had been used.
const unknownEntries = 10_000

// Restore puts a back-up's content in place of the daybook's while it is open;
// other processes see it with their next query. The back-up is checked first
// and is not changed; one made by an older program is upgraded. What was
// forgotten after it was made is forgotten again.
//
// Messages in rooms carry the numbers of entries that the back-up does not have.
// None of those numbers is used again.
func (b *Book) Restore(ctx context.Context, path string) (Restored, error) {
	var done Restored
	if b.store.name != "sqlite" {
		return done, errServerBackup
	}
	if sameFile(path, b.path) {
		return done, fmt.Errorf("restore: %s is the daybook itself; name a back-up", path)
	}
	if _, err := checkBackup(ctx, path); err != nil {
		return done, fmt.Errorf("restore from %s: %w", path, err)
	}
	if b.path != "" {
		done.Kept = b.path + keptMark + b.clock().UTC().Format(keptTime)
	}
	var err error
	if done.Next, err = b.replaceBy(ctx, path, done.Kept); err != nil {
		return Restored{}, fmt.Errorf("restore from %s: %w", path, b.explain(err))
	}
	b.eraseSoon(ctx)
	err = b.read.QueryRowContext(ctx, `SELECT COUNT(*) FROM entries`).Scan(&done.Entries)
	return done, b.explain(err)
}

// replaceBy replaces the daybook by a back-up, by way of a copy of it that is
// upgraded, has forgotten what the daybook has, and in which the numbers go on.
func (b *Book) replaceBy(ctx context.Context, path, kept string) (next int64, err error) {
	beside, name := filepath.Split(b.path)
	dir, err := os.MkdirTemp(beside, name+restoreMark)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	part, err := copyBook(ctx, path, filepath.Join(dir, "part.db"))
	if err != nil {
		return 0, err
	}
	defer part.Close()
	forget := func() error {
		all, err := b.remembered()
		if err != nil {
			return err
		}
		return part.forgetAgain(ctx, all)
	}
	if err := errors.Join(forget(), part.erase(ctx)); err != nil {
		return 0, err
	}
	return next, b.copyFrom(ctx, part.path, kept, func(given int64) error {
		own, err := lastNumber(ctx, part.write)
		if err != nil {
			return err
		}
		if given < own {
			// Not the daybook that went on from the back-up.
			given = own + unknownEntries
		}
		next = given + 1
		_, err = part.write.ExecContext(ctx, `INSERT INTO sqlite_sequence (name, seq)
			SELECT 'entries', 0 WHERE NOT EXISTS (SELECT 1 FROM sqlite_sequence WHERE name = 'entries')`)
		if err != nil {
			return err
		}
		if _, err = part.write.ExecContext(ctx, `UPDATE sqlite_sequence SET seq = $1 WHERE name = 'entries'`, given); err != nil {
			return err
		}
		return forget() // what was forgotten in the meantime
	})
}

// copyBook copies a back-up to a new file, which only its owner can read, and
// opens it.
func copyBook(ctx context.Context, from, to string) (*Book, error) {
	if err := makePrivate(to); err != nil {
		return nil, err
	}
	db, err := openSQLite(backupDSN(from), 1)
	if err != nil {
		return nil, err
	}
	defer db.Close()
	if _, err := db.ExecContext(ctx, `VACUUM INTO $1`, to); err != nil {
		return nil, err
	}
	return openFile(ctx, to)
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
func checkBackup(ctx context.Context, path string) (extent, error) {
	if err := isSQLiteFile(path); err != nil {
		return extent{}, err
	}
	db, err := openSQLite(backupDSN(path), 1)
	if err != nil {
		return extent{}, err
	}
	defer db.Close()
	found, err := readBackup(ctx, db)
	if damaged(err) {
		err = ErrDamaged
	}
	return found, err
}

func readBackup(ctx context.Context, db *sql.DB) (extent, error) {
	if err := checkIsDaybook(ctx, db); err != nil {
		return extent{}, err
	}
	has, err := schemaVersion(ctx, db)
	if err != nil {
		return extent{}, err
	}
	if has == 0 {
		return extent{}, errNotDaybook
	}
	p, err := newProvider(db, goose.DialectSQLite3, "sqlite")
	if err != nil {
		return extent{}, err
	}
	sources := p.ListSources()
	if err := refuseNewer(has, sources[len(sources)-1].Version); err != nil {
		return extent{}, err
	}
	if err := checkIntegrity(ctx, db); err != nil {
		return extent{}, err
	}
	return extentOf(ctx, db)
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
	switch _, err := io.ReadFull(f, head); {
	case errors.Is(err, io.EOF):
		return errors.New("the file is empty")
	case err != nil || string(head) != magic:
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
			_, err = b.Backup(ctx, kept)
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
