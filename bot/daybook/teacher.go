package daybook

import (
	"context"
	"database/sql"
	"errors"
	"time"
)

// Amend keeps a correction beside an entry, which stays as it was. The caller
// checks with ByIDIn that the entry belongs to the room of whoever amends it.
func (b *Book) Amend(ctx context.Context, entryID int64, by, text string, at time.Time) (Amendment, error) {
	a := Amendment{EntryID: entryID, At: fromMicros(micros(at)), By: clean(by), Text: clean(text)}
	err := b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		err := tx.QueryRowContext(ctx, `INSERT INTO amendments (entry, at, by_maker, text)
			SELECT e.id, $2, $3, $4 FROM entries e WHERE e.id = $1 RETURNING id`,
			entryID, micros(at), a.By, a.Text).Scan(&a.ID)
		if errors.Is(err, sql.ErrNoRows) {
			return ErrNotFound
		}
		return err
	})
	if err != nil {
		return Amendment{}, err
	}
	return a, nil
}

// Amendments of an entry, oldest first.
func (b *Book) Amendments(ctx context.Context, entryID int64) ([]Amendment, error) {
	return b.amendments(ctx, `a.entry = $1`, entryID)
}

// AmendmentsIn returns those of a room's entries, oldest first.
func (b *Book) AmendmentsIn(ctx context.Context, room Room) ([]Amendment, error) {
	return b.amendments(ctx, `e.platform = $1 AND e.guild = $2 AND e.channel = $3`, room.Platform, room.Guild, room.Channel)
}

func (b *Book) amendments(ctx context.Context, where string, args ...any) ([]Amendment, error) {
	rows, err := b.read.QueryContext(ctx, `SELECT a.id, a.entry, a.at, a.by_maker, a.text
		FROM amendments a JOIN entries e ON e.id = a.entry WHERE `+where+` ORDER BY a.id`, args...)
	all, err := scanAll(rows, err, func(r *sql.Rows) (a Amendment, err error) {
		var at int64
		err = r.Scan(&a.ID, &a.EntryID, &at, &a.By, &a.Text)
		a.At = fromMicros(at)
		return a, err
	})
	return all, b.explain(err)
}

// PinRule pins a house rule to a channel or guild.
func (b *Book) PinRule(ctx context.Context, s Scope, text, by string) (Rule, error) {
	r := Rule{Scope: s, Text: clean(text), By: clean(by)}
	err := b.inTx(ctx, func(tx *sql.Tx, now int64) error {
		r.At = fromMicros(now)
		return tx.QueryRowContext(ctx, `INSERT INTO rules (kind, platform, scope, text, by_maker, at)
			VALUES ($1, $2, $3, $4, $5, $6) RETURNING id`,
			string(s.Kind), s.Platform, s.ID, r.Text, r.By, now).Scan(&r.ID)
	})
	if err != nil {
		return Rule{}, err
	}
	return r, nil
}

// Rules of a scope, oldest first.
func (b *Book) Rules(ctx context.Context, s Scope) ([]Rule, error) {
	return b.rules(ctx, `kind = $1 AND platform = $2 AND scope = $3`, string(s.Kind), s.Platform, s.ID)
}

func (b *Book) rules(ctx context.Context, where string, args ...any) ([]Rule, error) {
	rows, err := b.read.QueryContext(ctx, `SELECT id, kind, platform, scope, text, by_maker, at
		FROM rules WHERE `+where+` ORDER BY id`, args...)
	all, err := scanAll(rows, err, func(r *sql.Rows) (rule Rule, err error) {
		var at int64
		err = r.Scan(&rule.ID, &rule.Scope.Kind, &rule.Scope.Platform, &rule.Scope.ID, &rule.Text, &rule.By, &at)
		rule.At = fromMicros(at)
		return rule, err
	})
	return all, b.explain(err)
}

// UnpinRule removes a rule of the scope; a rule of another scope is
// ErrNotFound.
func (b *Book) UnpinRule(ctx context.Context, s Scope, id int64) error {
	return b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		return requireRow(tx.ExecContext(ctx, `DELETE FROM rules WHERE id = $1 AND kind = $2 AND platform = $3 AND scope = $4`,
			id, string(s.Kind), s.Platform, s.ID))
	})
}
