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

// Restore puts a back-up's content in place of the daybook's while it is open;
// other processes see it with their next query. kept is a copy of what was
// there before, beside the daybook ("" for one in memory). The back-up is
// checked first and is not changed; one made by an older program is upgraded.
func (b *Book) Restore(ctx context.Context, path string) (kept string, err error) {
	if b.store.name != "sqlite" {
		return "", errServerBackup
	}
	if sameFile(path, b.path) {
		return "", fmt.Errorf("restore: %s is the daybook itself; name a back-up", path)
	}
	if err := checkBackup(ctx, path); err != nil {
		return "", fmt.Errorf("restore from %s: %w", path, err)
	}
	if b.path != "" {
		kept = b.path + ".before-restore-" + b.clock().UTC().Format("20060102T150405.000Z")
	}
	if err := b.copyFrom(ctx, path, kept); err != nil {
		return "", fmt.Errorf("restore from %s: %w", path, b.explain(err))
	}
	return kept, b.explain(b.prepareSQLite(ctx))
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
// was acknowledged before is in kept, and whatever comes after waits.
func (b *Book) copyFrom(ctx context.Context, path, kept string) error {
	conn, err := b.write.Conn(ctx)
	if err != nil {
		return err
	}
	defer conn.Close()
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
		}
		if err == nil {
			_, err = copying.Step(allPages)
		}
		// Without the last page, this puts everything back.
		return errors.Join(err, copying.Finish())
	})
}
