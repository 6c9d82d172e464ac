package daybook

import (
	"database/sql"
	"fmt"
	"path/filepath"
	"testing"
)

func TestPreparedStatements(t *testing.T) {
	b := mustOpen(t, filepath.Join(t.TempDir(), "book.db"))
	ctx := t.Context()
	for i := range 3 {
		mustRecord(t, b, sample(fmt.Sprint(i)))
	}
	kept := func() (n int) {
		conn, err := b.write.Conn(ctx)
		noErr(t, err)
		defer conn.Close()
		noErr(t, conn.Raw(func(c any) error {
			n = len(c.(*preparedConn).kept)
			return nil
		}))
		return n
	}
	before := kept()
	mustRecord(t, b, sample("3"))
	equal(t, "statements kept after the same again", kept(), before)

	// The same text within its own rows.
	const ids = `SELECT id FROM entries WHERE id > $1 ORDER BY id`
	tx, err := b.write.BeginTx(ctx, nil)
	noErr(t, err)
	pairs := 0
	outer, err := scanEach(tx, ids, 0, func(id int64) {
		inner, err := scanEach(tx, ids, id, func(int64) { pairs++ })
		equal(t, "inner rows", []any{inner, err}, []any{int(4 - id), nil})
	})
	equal(t, "outer rows and pairs", []any{outer, pairs, err}, []any{4, 6, nil})
	noErr(t, tx.Rollback())

	// More than are kept, of two shapes.
	for i := range 3 * keptStatements {
		var n int
		noErr(t, b.write.QueryRowContext(ctx, fmt.Sprintf(`SELECT COUNT(*) + %d FROM entries`, i)).Scan(&n))
		equal(t, "a statement of its own", n, 4+i)
	}
	equal(t, "statements kept", kept(), keptStatements)

	// A table that changes under a statement.
	_, err = b.write.ExecContext(ctx, `CREATE TABLE side (a INTEGER)`)
	noErr(t, err)
	for _, column := range []string{"b", "c"} {
		_, err = b.write.ExecContext(ctx, `INSERT INTO side (a) VALUES ($1)`, 7)
		noErr(t, err)
		_, err = b.write.ExecContext(ctx, `ALTER TABLE side ADD COLUMN `+column+` INTEGER DEFAULT 5`)
		noErr(t, err)
	}
	var sum int
	noErr(t, b.write.QueryRowContext(ctx, `SELECT SUM(a + b + c) FROM side`).Scan(&sum))
	equal(t, "sum", sum, 34)
	if _, err := b.write.ExecContext(ctx, `INSERT INTO nowhere (a) VALUES ($1)`, 7); err == nil {
		t.Error("a statement for no table is accepted")
	}
	mustRecord(t, b, sample("last"))
}

// scanEach visits the ids that a query gives while it is being read.
func scanEach(tx *sql.Tx, query string, after int64, visit func(int64)) (n int, err error) {
	rows, err := tx.Query(query, after)
	if err != nil {
		return 0, err
	}
	defer rows.Close()
	for rows.Next() {
		var id int64
		if err := rows.Scan(&id); err != nil {
			return n, err
		}
		visit(id)
		n++
	}
	return n, rows.Err()
}
