package daybook

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"time"
)

// Outline is a stone's outline that a maker traced.
type Outline struct {
	Platform, Maker string
	// ID is made of the outline; the same one has the same id.
	ID string
	// Name is what its maker keeps it under, empty if it was not kept.
	Name   string
	Traced json.RawMessage
	At     time.Time
}

// mostUnkept is how many outlines without a name are stored of a maker; the
// oldest goes first.
const mostUnkept = 20

// AddOutline stores an outline; one that is stored already keeps its name and
// becomes the maker's latest.
func (b *Book) AddOutline(ctx context.Context, o Outline) error {
	if o.Platform == "" || o.Maker == "" || o.ID == "" {
		return errors.New("daybook: an outline needs its platform, maker and id")
	}
	return b.inTx(ctx, func(tx *sql.Tx, now int64) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO outlines (platform, maker, id, name, traced, at) VALUES ($1, $2, $3, '', $4, $5)
			ON CONFLICT (platform, maker, id) DO UPDATE SET at = excluded.at`, o.Platform, o.Maker, o.ID, string(o.Traced), now)
		if err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, `DELETE FROM outlines WHERE platform = $1 AND maker = $2 AND name = '' AND id IN
			(SELECT id FROM outlines WHERE platform = $1 AND maker = $2 AND name = '' ORDER BY at DESC, id LIMIT 1000 OFFSET $3)`,
			o.Platform, o.Maker, mostUnkept)
		return err
	})
}

// NameOutline keeps a maker's outline under a name, which another of the maker's
// outlines loses. ErrNotFound if there is no such outline.
func (b *Book) NameOutline(ctx context.Context, platform, maker, id, name string) error {
	return b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		if _, err := tx.ExecContext(ctx, `UPDATE outlines SET name = '' WHERE platform = $1 AND maker = $2 AND name = $3`, platform, maker, clean(name)); err != nil {
			return err
		}
		return requireRow(tx.ExecContext(ctx, `UPDATE outlines SET name = $4 WHERE platform = $1 AND maker = $2 AND id = $3`, platform, maker, id, clean(name)))
	})
}

// DropOutline removes a maker's outline by its name or id.
func (b *Book) DropOutline(ctx context.Context, platform, maker, nameOrID string) error {
	return b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		return requireRow(tx.ExecContext(ctx, `DELETE FROM outlines WHERE platform = $1 AND maker = $2 AND (name = $3 OR id = $3)`, platform, maker, nameOrID))
	})
}

// Outlines of a maker, the latest first.
func (b *Book) Outlines(ctx context.Context, platform, maker string) ([]Outline, error) {
	rows, err := b.read.QueryContext(ctx, `SELECT platform, maker, id, name, traced, at FROM outlines
		WHERE platform = $1 AND maker = $2 ORDER BY at DESC, id`, platform, maker)
	all, err := scanAll(rows, err, func(r *sql.Rows) (o Outline, err error) {
		var traced string
		var at int64
		err = r.Scan(&o.Platform, &o.Maker, &o.ID, &o.Name, &traced, &at)
		o.Traced, o.At = rawJSON(traced), fromMicros(at)
		return o, err
	})
	return all, b.explain(err)
}
