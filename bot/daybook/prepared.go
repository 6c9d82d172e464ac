package daybook

import (
	"context"
	"database/sql/driver"
	"errors"
	"strings"

	"modernc.org/sqlite"
)

// SQLite parses and plans a statement each time it is given as text, which is a
// third of the work of recording an entry. So each connection keeps those that
// it was given last, prepared; pgx does the same for PostgreSQL by itself.

// keptStatements is how many a connection keeps.
const keptStatements = 150

// preparing makes connections that keep their statements.
type preparing struct{ driver.Connector }

func newPreparing(dsn string) (driver.Connector, error) {
	c, err := sqlite.NewConnector(dsn)
	return preparing{c}, err
}

// Connect is part of driver.Connector.
func (p preparing) Connect(ctx context.Context) (driver.Conn, error) {
	c, err := p.Connector.Connect(ctx)
	if err != nil {
		return nil, err
	}
	own, ok := c.(sqliteConn)
	if !ok {
		return nil, errors.Join(errors.New("the SQLite driver is not as expected"), c.Close())
	}
	return &preparedConn{sqliteConn: own, kept: map[string]*preparedStmt{}}, nil
}

// sqliteConn is what every connection of the driver can do, and database/sql
// makes use of.
type sqliteConn interface {
	driver.Conn
	driver.ConnBeginTx
	driver.ConnPrepareContext
	driver.ExecerContext
	driver.QueryerContext
	driver.Pinger
	driver.SessionResetter
	driver.Validator
	NewRestore(string) (*sqlite.Backup, error)
}

// preparedConn is a connection with its statements. database/sql sees to it
// that one goroutine at a time uses it.
type preparedConn struct {
	sqliteConn
	kept  map[string]*preparedStmt
	order []string // oldest first
}

type preparedStmt struct {
	driver.Stmt
	query driver.StmtQueryContext
	exec  driver.StmtExecContext
	// busy is set while rows are read from it; it can't serve another query
	// then.
	busy bool
}

// Unwrap is asked for by the driver's own functions.
func (c *preparedConn) Unwrap() driver.Conn { return c.sqliteConn }

// statement gives the statement of a text, ready to run; nil for what is not
// worth keeping, or is in use.
func (c *preparedConn) statement(ctx context.Context, text string) (*preparedStmt, error) {
	if s := c.kept[text]; s != nil {
		if s.busy {
			return nil, nil
		}
		return s, nil
	}
	verb, _, _ := strings.Cut(text, " ")
	switch verb {
	case "SELECT", "INSERT", "UPDATE", "DELETE":
	default: // of the schema, a transaction, a setting
		return nil, nil
	}
	plain, err := c.PrepareContext(ctx, text)
	if err != nil {
		return nil, err
	}
	s := &preparedStmt{Stmt: plain}
	var queries, executes bool
	s.query, queries = plain.(driver.StmtQueryContext)
	s.exec, executes = plain.(driver.StmtExecContext)
	if !queries || !executes {
		return nil, plain.Close()
	}
	c.kept[text], c.order = s, append(c.order, text)
	return s, c.forget(keptStatements)
}

// forget closes the oldest statements, down to a number of them.
func (c *preparedConn) forget(most int) error {
	var errs []error
	for i := 0; len(c.order) > most && i < len(c.order); {
		old := c.kept[c.order[i]]
		if old.busy {
			i++
			continue
		}
		delete(c.kept, c.order[i])
		c.order = append(c.order[:i], c.order[i+1:]...)
		errs = append(errs, old.Close())
	}
	return errors.Join(errs...)
}

// ExecContext is part of driver.ExecerContext.
func (c *preparedConn) ExecContext(ctx context.Context, text string, args []driver.NamedValue) (driver.Result, error) {
	s, err := c.statement(ctx, text)
	if err != nil {
		return nil, err
	}
	if s == nil {
		return c.sqliteConn.ExecContext(ctx, text, args)
	}
	return s.exec.ExecContext(ctx, args)
}

// QueryContext is part of driver.QueryerContext.
func (c *preparedConn) QueryContext(ctx context.Context, text string, args []driver.NamedValue) (driver.Rows, error) {
	s, err := c.statement(ctx, text)
	if err != nil {
		return nil, err
	}
	if s == nil {
		return c.sqliteConn.QueryContext(ctx, text, args)
	}
	rows, err := s.query.QueryContext(ctx, args)
	if err != nil {
		return nil, err
	}
	s.busy = true
	return &preparedRows{rows, s}, nil
}

// Close is part of driver.Conn.
func (c *preparedConn) Close() error {
	for _, s := range c.kept {
		s.busy = false
	}
	return errors.Join(c.forget(0), c.sqliteConn.Close())
}

// preparedRows frees its statement at its end.
type preparedRows struct {
	driver.Rows
	of *preparedStmt
}

func (r *preparedRows) Close() error {
	r.of.busy = false
	return r.Rows.Close()
}
