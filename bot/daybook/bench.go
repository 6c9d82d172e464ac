package daybook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math"
)

// Setting returns one bench setting; ErrNotFound if it is not set.
func (b *Book) Setting(ctx context.Context, s Scope, name string) (string, error) {
	var value string
	err := b.read.QueryRowContext(ctx, `SELECT value FROM settings WHERE kind = $1 AND platform = $2 AND scope = $3 AND name = $4`,
		string(s.Kind), s.Platform, s.ID, name).Scan(&value)
	if errors.Is(err, sql.ErrNoRows) {
		return "", ErrNotFound
	}
	return value, b.explain(err)
}

// SetSetting sets a bench setting in place of an earlier one; by is the
// maker who sets it.
func (b *Book) SetSetting(ctx context.Context, s Scope, name, value, by string) error {
	return b.inTx(ctx, func(tx *sql.Tx, now int64) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO settings (kind, platform, scope, name, value, set_by, set_at)
			VALUES ($1, $2, $3, $4, $5, $6, $7)
			ON CONFLICT (kind, platform, scope, name)
			DO UPDATE SET value = excluded.value, set_by = excluded.set_by, set_at = excluded.set_at`,
			string(s.Kind), s.Platform, s.ID, clean(name), clean(value), clean(by), now)
		return err
	})
}

// DropSetting removes a bench setting; ErrNotFound if it was not set.
func (b *Book) DropSetting(ctx context.Context, s Scope, name string) error {
	return b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		return requireRow(tx.ExecContext(ctx, `DELETE FROM settings WHERE kind = $1 AND platform = $2 AND scope = $3 AND name = $4`,
			string(s.Kind), s.Platform, s.ID, name))
	})
}

// Settings returns all bench settings of a scope, by name; an empty map where
// there are none.
func (b *Book) Settings(ctx context.Context, s Scope) (map[string]string, error) {
	type pair struct{ name, value string }
	rows, err := b.read.QueryContext(ctx, `SELECT name, value FROM settings WHERE kind = $1 AND platform = $2 AND scope = $3`,
		string(s.Kind), s.Platform, s.ID)
	pairs, err := scanAll(rows, err, func(r *sql.Rows) (p pair, err error) { return p, r.Scan(&p.name, &p.value) })
	if err != nil {
		return nil, b.explain(err)
	}
	all := make(map[string]string, len(pairs))
	for _, p := range pairs {
		all[p.name] = p.value
	}
	return all, nil
}

// KeepCorrection stores a correction in place of the maker's earlier one for
// the same alloy and thickness, and gives it back with its id. A zero At takes
// the clock's time.
func (b *Book) KeepCorrection(ctx context.Context, c Correction) (Correction, error) {
	if c.Platform == "" || c.Maker == "" {
		return Correction{}, errors.New("daybook: a correction needs its platform and maker")
	}
	for _, v := range []float64{c.ThicknessMM, c.NeutralFactor, c.KerfMM} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return Correction{}, fmt.Errorf("daybook: a correction can't hold %v", v)
		}
	}
	err := b.inTx(ctx, func(tx *sql.Tx, now int64) error {
		at := now
		if !c.At.IsZero() {
			at = micros(c.At)
		}
		c.At = fromMicros(at)
		// The earlier one goes, so that its id does not come to mean another.
		_, err := tx.ExecContext(ctx, `DELETE FROM corrections WHERE platform = $1 AND maker = $2 AND alloy = $3 AND thickness_mm = $4`,
			c.Platform, c.Maker, c.Alloy, c.ThicknessMM)
		if err != nil {
			return err
		}
		return tx.QueryRowContext(ctx, `INSERT INTO corrections (platform, maker, alloy, thickness_mm, neutral_factor, kerf_mm, trials, at)
			VALUES ($1, $2, $3, $4, $5, $6, $7, $8) RETURNING id`,
			c.Platform, c.Maker, c.Alloy, c.ThicknessMM, c.NeutralFactor, c.KerfMM, string(c.Trials), at).Scan(&c.ID)
	})
	if err != nil {
		return Correction{}, err
	}
	return c, nil
}

// Corrections of a maker, by alloy and thickness.
func (b *Book) Corrections(ctx context.Context, platform, maker string) ([]Correction, error) {
	rows, err := b.read.QueryContext(ctx, `SELECT id, platform, maker, alloy, thickness_mm, neutral_factor, kerf_mm, trials, at
		FROM corrections WHERE platform = $1 AND maker = $2 ORDER BY alloy, thickness_mm`, platform, maker)
	all, err := scanAll(rows, err, func(r *sql.Rows) (c Correction, err error) {
		var trials string
		var at int64
		err = r.Scan(&c.ID, &c.Platform, &c.Maker, &c.Alloy, &c.ThicknessMM, &c.NeutralFactor, &c.KerfMM, &trials, &at)
		c.Trials, c.At = rawJSON(trials), fromMicros(at)
		return c, err
	})
	return all, b.explain(err)
}

// DropCorrection removes a maker's correction; another maker's is
// ErrNotFound.
func (b *Book) DropCorrection(ctx context.Context, platform, maker string, id int64) error {
	return b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		return requireRow(tx.ExecContext(ctx, `DELETE FROM corrections WHERE id = $1 AND platform = $2 AND maker = $3`, id, platform, maker))
	})
}
