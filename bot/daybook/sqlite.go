package daybook

import (
	"context"
	"crypto/rand"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/pressly/goose/v3"
	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

const (
	// applicationID marks the file as a daybook, in the SQLite header: "gdbk".
	applicationID = 0x6764626b
	// busyMS is how long a statement waits for another process's lock.
	busyMS = "5000"
	// headerBytes is the length of a SQLite file's header.
	headerBytes = 100
	// readers is how many queries run at once on a SQLite file.
	readers = 4
)

// Open opens the SQLite daybook at path, making or upgrading it as needed.
// ":memory:" opens one that ends with Close.
func Open(ctx context.Context, path string, opts ...Option) (*Book, error) {
	if path == inMemory {
		return openFile(ctx, path, opts...)
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		if err := makeFile(ctx, path); err != nil {
			return nil, fmt.Errorf("make the daybook at %s: %w", path, err)
		}
	case err == nil && info.Mode().IsRegular() && info.Size() == 0:
		return nil, fmt.Errorf("the daybook at %s is an empty file, so what it held is lost: put a back-up in its place, or delete it to begin a new daybook", path)
	case err == nil && info.Mode().IsRegular() && info.Size() < headerBytes:
		return nil, damagedAt(path) // SQLite would begin it anew
	}
	b, err := openFile(ctx, path, opts...)
	if err != nil {
		return nil, err
	}
	b.removeLeftovers()
	b.eraseSoon(ctx) // what a program that was killed did not come to
	return b, nil
}

const inMemory = ":memory:"

func damagedAt(path string) error {
	return fmt.Errorf("%w: move %s away, with the files beside it that end in -wal and -shm, and run guildhand restore with a back-up", ErrDamaged, path)
}

// openFile opens a file that is there.
func openFile(ctx context.Context, path string, opts ...Option) (*Book, error) {
	b := newBook(opts)
	b.group = &group{}
	b.store = store{
		name: "sqlite", choose: chooseSQLite, page: pageSQLite,
		why: whySQLite, retry: func(error) bool { return false },
	}
	var err error
	if path != inMemory {
		if b.path, err = filepath.Abs(path); err != nil {
			return nil, err
		}
	}
	if b.write, err = openSQLite(sqliteDSN(path, false), 1); err != nil {
		return nil, err
	}
	b.read = b.write
	if err := b.prepareSQLite(ctx); err != nil {
		b.write.Close()
		if hasCode(err, sqlite3.SQLITE_NOTADB) {
			err = errNotDaybook
		}
		if damaged(err) {
			return nil, damagedAt(path)
		}
		return nil, fmt.Errorf("open the daybook at %s: %w", path, b.explain(err))
	}
	if b.path != "" {
		// Only now, so that no reader meets a file without a schema.
		if b.read, err = openSQLite(sqliteDSN(b.path, true), readers); err != nil {
			b.write.Close()
			return nil, err
		}
	}
	return b, nil
}

// makeFile makes an empty daybook beside path and links it there when it is
// complete, so that an empty file at path is never one that is being made.
func makeFile(ctx context.Context, path string) error {
	part := path + newMark + rand.Text()
	if err := makePrivate(part); err != nil {
		return fmt.Errorf("%w: %w", ErrCannotRecord, err)
	}
	defer os.Remove(part)
	b, err := openFile(ctx, part)
	if err != nil {
		return err
	}
	if err := b.Close(); err != nil {
		return err
	}
	err = os.Link(part, path)
	if err != nil && !errors.Is(err, os.ErrExist) {
		// Some file systems have no links.
		err = os.Rename(part, path)
	}
	if err == nil || errors.Is(err, os.ErrExist) {
		return syncDir(filepath.Dir(path))
	}
	return err
}

const (
	newMark     = ".new-"
	restoreMark = ".restoring-"
	partMark    = ".part"
	// leftoverAfter is when a file that is only needed for moments was left by a
	// program that was killed.
	leftoverAfter = time.Hour
)

// removeLeftovers removes what programs that were killed left beside the
// daybook. What can't be removed is tried again next time.
func (b *Book) removeLeftovers() {
	if b.path == "" {
		return
	}
	dir, name := filepath.Split(b.path)
	files, _ := os.ReadDir(dir)
	for _, f := range files {
		rest, ours := strings.CutPrefix(f.Name(), name)
		if !ours || !(strings.HasPrefix(rest, newMark) || strings.HasPrefix(rest, restoreMark) ||
			strings.HasPrefix(rest, keptMark) && strings.HasSuffix(rest, partMark)) {
			continue
		}
		if info, err := f.Info(); err == nil && time.Since(info.ModTime()) > leftoverAfter {
			_ = os.RemoveAll(filepath.Join(dir, f.Name()))
		}
	}
}

// makePrivate makes an empty file for its owner's eyes, and fails where there is
// one.
func makePrivate(path string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	return f.Close()
}

// prepareSQLite checks that the file is a daybook or empty, and migrates it.
func (b *Book) prepareSQLite(ctx context.Context) error {
	if err := checkIsDaybook(ctx, b.write); err != nil {
		return err
	}
	p, err := newProvider(b.write, goose.DialectSQLite3, "sqlite")
	if err != nil {
		return err
	}
	if err := migrate(ctx, p); err != nil {
		return err
	}
	var id int64
	if err := b.write.QueryRowContext(ctx, `PRAGMA application_id`).Scan(&id); err != nil || id == applicationID {
		return err
	}
	_, err = b.write.ExecContext(ctx, fmt.Sprintf(`PRAGMA application_id = %d`, applicationID))
	return err
}

// errNotDaybook is returned for a SQLite file that another program wrote.
var errNotDaybook = errors.New("the file is not a daybook")

// checkIsDaybook refuses a file of another program; an empty one passes.
func checkIsDaybook(ctx context.Context, db *sql.DB) error {
	var id, tables, ours int64
	if err := db.QueryRowContext(ctx, `PRAGMA application_id`).Scan(&id); err != nil {
		return err
	}
	err := db.QueryRowContext(ctx, `SELECT COUNT(*), COUNT(*) FILTER (WHERE name = 'goose_db_version')
		FROM sqlite_schema WHERE type = 'table'`).Scan(&tables, &ours)
	if err != nil {
		return err
	}
	// The mark comes last, so a start that was cut short has our version table
	// without it.
	if id == applicationID || id == 0 && (tables == 0 || ours == 1) {
		return nil
	}
	return errNotDaybook
}

// sqliteDSN is the address of a file with the settings that every connection
// needs. busy_timeout comes before whatever may have to wait.
func sqliteDSN(path string, readOnly bool) string {
	q := url.Values{}
	q.Set("_busy_timeout", busyMS)
	q.Set("_foreign_keys", "1")
	q.Set("_txlock", "immediate")
	// FULL syncs the log at each commit: what was acknowledged survives a
	// power cut as well as a killed process.
	q.Set("_synchronous", "FULL")
	// What a maker deletes is overwritten in the file.
	q.Add("_pragma", "secure_delete(1)")
	if path == inMemory {
		return "file::memory:?" + q.Encode()
	}
	if readOnly {
		q.Set("_query_only", "1")
	} else {
		q.Set("_journal_mode", "WAL") // stays with the file
	}
	return fileURI(path, q)
}

// backupDSN opens a back-up without changing it. A copy that is made of it takes
// over secure_delete, without which old text stays in unused parts of its pages.
func backupDSN(path string) string {
	return fileURI(path, url.Values{"mode": {"ro"}, "_busy_timeout": {busyMS}, "_pragma": {"secure_delete(1)"}})
}

func fileURI(path string, q url.Values) string {
	return (&url.URL{Scheme: "file", OmitHost: true, Path: filepath.ToSlash(path), RawQuery: q.Encode()}).String()
}

func openSQLite(dsn string, conns int) (*sql.DB, error) {
	db, err := sql.Open("sqlite", dsn)
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(conns)
	db.SetMaxIdleConns(conns)
	return db, nil
}

// damaged reports an error of a file that is not, or no longer, a whole SQLite
// file.
func damaged(err error) bool {
	return hasCode(err, sqlite3.SQLITE_CORRUPT) || hasCode(err, sqlite3.SQLITE_NOTADB)
}

func hasCode(err error, primary int) bool {
	var e *sqlite.Error
	return errors.As(err, &e) && e.Code()&primaryCode == primary
}

// primaryCode masks what SQLite adds to a result code.
const primaryCode = 0xff

// whySQLite goes by the primary result code.
func whySQLite(err error) string {
	var e *sqlite.Error
	if !errors.As(err, &e) {
		return ""
	}
	if e.Code() == sqlite3.SQLITE_IOERR_SHMSIZE {
		return "the disk is full" // for the small file beside the daybook
	}
	switch e.Code() & primaryCode {
	case sqlite3.SQLITE_FULL:
		return "the disk is full"
	case sqlite3.SQLITE_READONLY:
		return "the file is read-only"
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		return "another program holds the file"
	case sqlite3.SQLITE_IOERR:
		return "the disk fails"
	case sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM:
		return "the file can't be opened"
	case sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB:
		return "the file is damaged"
	}
	return ""
}
