package daybook

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"net"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"
	"github.com/pressly/goose/v3/lock"
)

// pgConns is how many connections one process holds at most; a server's
// default allows 100 in all.
const pgConns = 12

// OpenPostgres opens the daybook in a PostgreSQL database, by a URL or a
// key=value string, making or upgrading its tables as needed. Several
// processes may share it.
func OpenPostgres(ctx context.Context, url string, opts ...Option) (*Book, error) {
	b := newBook(opts)
	b.store = store{
		name: "postgres", skipLocked: " FOR UPDATE SKIP LOCKED", choose: choosePostgres, page: pagePostgres,
		why: whyPostgres, retry: retryPostgres,
	}
	cfg, err := pgx.ParseConfig(url)
	if err != nil {
		return nil, fmt.Errorf("the daybook's address: %w", err)
	}
	for name, value := range map[string]string{
		"application_name": "guildhand",
		// Durable when Record returns, whatever the server's default.
		"synchronous_commit": "on",
		"lock_timeout":       busyMS,
		// A search in a busy room and one in a quiet room want different plans.
		"plan_cache_mode": "force_custom_plan",
	} {
		if _, given := cfg.RuntimeParams[name]; !given {
			cfg.RuntimeParams[name] = value
		}
	}
	b.write = stdlib.OpenDB(*cfg)
	b.write.SetMaxOpenConns(pgConns)
	b.write.SetMaxIdleConns(pgConns)
	b.read = b.write
	if err := migratePostgres(ctx, b.write); err != nil {
		b.write.Close()
		if lacksExtension(err) {
			return nil, fmt.Errorf("open the daybook on %s: %w", cfg.Host, errNoExtension)
		}
		return nil, fmt.Errorf("open the daybook on %s: %w", cfg.Host, b.explain(err))
	}
	return b, nil
}

func migratePostgres(ctx context.Context, db *sql.DB) error {
	// Look once a second for another process's upgrade to end.
	const everySecond, forFiveMinutes = 1, 300
	locker, err := lock.NewPostgresSessionLocker(lock.WithLockTimeout(everySecond, forFiveMinutes))
	if err != nil {
		return err
	}
	p, err := newProvider(db, goose.DialectPostgres, "postgres", goose.WithSessionLocker(locker))
	if err != nil {
		return err
	}
	return migrate(ctx, p)
}

var errNoExtension = errors.New("the database lacks the extension btree_gin, which comes with PostgreSQL: " +
	"have its owner run CREATE EXTENSION btree_gin in it, after installing the server's contrib package if that is missing")

// lacksExtension reports that a migration could not create the extension: the
// server does not have it, or this user may not.
func lacksExtension(err error) bool {
	var e *pgconn.PgError
	return errors.As(err, &e) && strings.Contains(e.Message, `extension "btree_gin"`)
}

// SQLSTATE classes and codes, https://www.postgresql.org/docs/current/errcodes-appendix.html
const (
	sqlstateClassLen = 2

	pgReadOnly          = "25006"
	pgForeignKey        = "23503"
	pgSerialization     = "40001"
	pgDeadlock          = "40P01"
	pgLockNotAvailable  = "55P03"
	pgDiskFull          = "53100"
	pgClassResources    = "53"
	pgClassIntervention = "57"
	pgClassConnection   = "08"
	pgClassSystem       = "58"
	pgQueryCancelled    = "57014"
)

func whyPostgres(err error) string {
	var e *pgconn.PgError
	if errors.As(err, &e) {
		switch {
		case e.Code == pgDiskFull:
			return "the database's disk is full"
		case e.Code == pgReadOnly:
			return "the database is read-only"
		case e.Code == pgLockNotAvailable:
			return "the database is locked"
		case e.Code == pgQueryCancelled:
			return "the database did not answer in time"
		}
		if len(e.Code) < sqlstateClassLen {
			return ""
		}
		switch e.Code[:sqlstateClassLen] {
		case pgClassResources:
			return "the database is out of resources"
		case pgClassIntervention, pgClassConnection:
			return "the database is shutting down or starting"
		case pgClassSystem:
			return "the database's disk fails"
		}
		return ""
	}
	var connect *pgconn.ConnectError
	var network net.Error
	if errors.As(err, &connect) || errors.As(err, &network) || errors.Is(err, driver.ErrBadConn) ||
		errors.Is(err, net.ErrClosed) || errors.Is(err, pgconn.ErrConnClosed) ||
		errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || pgconn.SafeToRetry(err) {
		return "the database can't be reached"
	}
	return ""
}

// retryPostgres: a foreign key fails where a room is removed just as an entry
// comes to it; the next run makes the room anew.
func retryPostgres(err error) bool {
	var e *pgconn.PgError
	return errors.As(err, &e) && (e.Code == pgSerialization || e.Code == pgDeadlock || e.Code == pgForeignKey)
}
