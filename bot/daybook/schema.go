package daybook

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"time"

	"github.com/pressly/goose/v3"
)

//go:embed migrations/sqlite/*.sql migrations/postgres/*.sql
var migrations embed.FS

func newProvider(db *sql.DB, dialect goose.Dialect, dir string, opts ...goose.ProviderOption) (*goose.Provider, error) {
	files, err := fs.Sub(migrations, "migrations/"+dir)
	if err != nil {
		return nil, err
	}
	return goose.NewProvider(dialect, db, files, opts...)
}

// migrate brings the schema up to this program's version, and refuses one that
// is ahead of it.
func migrate(ctx context.Context, p *goose.Provider) error {
	// Two processes may open a new daybook at once. The loser's attempt fails
	// on what the winner has just made, and succeeds when it looks again.
	const tries, pause = 8, 50 * time.Millisecond
	var err error
	for try := range tries {
		if err = migrateOnce(ctx, p); err == nil || errors.Is(err, ErrNewerSchema) {
			return err
		}
		select {
		case <-ctx.Done():
			return errors.Join(err, ctx.Err())
		case <-time.After(pause << min(try, 2)):
		}
	}
	return fmt.Errorf("upgrading the daybook: %w", err)
}

func migrateOnce(ctx context.Context, p *goose.Provider) error {
	// For a program that is behind, goose would find nothing to do.
	has, knows, err := p.GetVersions(ctx)
	if err != nil {
		return err
	}
	if err := refuseNewer(has, knows); err != nil {
		return err
	}
	_, err = p.Up(ctx)
	return err
}

func refuseNewer(has, knows int64) error {
	if has <= knows {
		return nil
	}
	return fmt.Errorf("%w: it has schema %d and this program knows up to %d; run the newer program, or use a daybook made by this one",
		ErrNewerSchema, has, knows)
}

// schemaVersion is the version of the schema in the store.
func schemaVersion(ctx context.Context, db *sql.DB) (int64, error) {
	var v int64
	err := db.QueryRowContext(ctx, `SELECT COALESCE(MAX(version_id), 0) FROM goose_db_version WHERE is_applied`).Scan(&v)
	return v, err
}
