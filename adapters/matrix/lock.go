package matrix

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"time"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// lockWait is how long another process has to end, as when the program is
// replaced by a newer one.
const lockWait = 5 * time.Second

// lockStore makes sure that no other process works with the store. Two that did
// would be one device of the account and use its keys twice. The lock is
// SQLite's own, on an empty file beside the store, so that the store itself can
// still be read and copied; it ends with the process, however that ends.
func lockStore(ctx context.Context, path string) (unlock func() error, err error) {
	if err := makeFolder(path); err != nil {
		return nil, err
	}
	dsn := "file:" + (&url.URL{Path: path + ".lock"}).EscapedPath() +
		fmt.Sprintf("?_pragma=busy_timeout(%d)", lockWait.Milliseconds())
	db, err := sql.Open("sqlite", dsn)
	if err != nil {
		return nil, fmt.Errorf("matrix store: %w", err)
	}
	db.SetMaxOpenConns(1)
	if _, err = db.ExecContext(ctx, "BEGIN EXCLUSIVE"); err == nil {
		return db.Close, nil
	}
	_ = db.Close()
	const primary = 0xff
	var e *sqlite.Error
	if errors.As(err, &e) && e.Code()&primary == sqlite3.SQLITE_BUSY {
		return nil, fmt.Errorf("another guildhand works with the matrix store %s; stop that one, or give this one a matrix.store_path of its own", path)
	}
	return nil, fmt.Errorf("matrix store %s.lock: %w", path, err)
}
