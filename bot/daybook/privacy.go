package daybook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math"
	"time"
)

// MakerData is all that is stored of a maker.
type MakerData struct {
	Entries     []Entry
	Amendments  []Amendment       // written by the maker
	Settings    map[string]string // the maker's own bench
	Corrections []Correction
	Outlines    []Outline
	Rules       []Rule // pinned by the maker
}

// MakerData returns all that is stored of a maker, in every guild of the
// platform: it is for that maker alone.
func (b *Book) MakerData(ctx context.Context, platform, maker string) (MakerData, error) {
	var d MakerData
	if maker == "" {
		return d, errNoMaker
	}
	var errs [6]error
	d.Entries, errs[0] = scanEntries(b.read.QueryContext(ctx, `SELECT `+entryColumns+` FROM entries e
		WHERE e.platform = $1 AND e.maker = $2 ORDER BY e.id`, platform, maker))
	d.Amendments, errs[1] = b.amendments(ctx, `e.platform = $1 AND a.by_maker = $2`, platform, maker)
	d.Settings, errs[2] = b.Settings(ctx, Scope{MakerScope, platform, maker})
	d.Corrections, errs[3] = b.Corrections(ctx, platform, maker)
	d.Rules, errs[4] = b.rules(ctx, `platform = $1 AND by_maker = $2`, platform, maker)
	d.Outlines, errs[5] = b.Outlines(ctx, platform, maker)
	if err := errors.Join(errs[:]...); err != nil {
		return MakerData{}, b.explain(err)
	}
	return d, nil
}

// HasAsked reports whether any entry of a maker is kept.
func (b *Book) HasAsked(ctx context.Context, platform, maker string) (bool, error) {
	var one int
	err := b.read.QueryRowContext(ctx, `SELECT 1 FROM entries e WHERE e.platform = $1 AND e.maker = $2 LIMIT 1`, platform, maker).Scan(&one)
	if errors.Is(err, sql.ErrNoRows) {
		return false, nil
	}
	return err == nil, b.explain(err)
}

var errNoMaker = errors.New("daybook: no maker named")

// ForgetMaker removes what is stored of a maker and returns the number of
// entries removed. Entries, bench, corrections and outlines go, and so do the
// entries of others that were read from the maker's words; what the maker did for
// others (an amendment, a house rule, a channel's setting) stays without a
// name. On SQLite the file keeps no trace, the copies that Restore made forget
// the maker too, and so does every back-up made before when it is restored.
func (b *Book) ForgetMaker(ctx context.Context, platform, maker string) (int, error) {
	if maker == "" {
		return 0, errNoMaker
	}
	if err := b.remember(forgottenMaker(platform, maker, b.clock())); err != nil {
		return 0, err
	}
	removed, err := b.removeMaker(ctx, platform, maker, math.MaxInt64)
	if err != nil {
		return 0, err
	}
	b.eraseSoon(ctx)
	return removed, b.inKeptCopies(ctx, func(c *Book) error {
		_, err := c.removeMaker(ctx, platform, maker, math.MaxInt64)
		return err
	})
}

// removeMaker is ForgetMaker for what was done up to a time.
func (b *Book) removeMaker(ctx context.Context, platform, maker string, upTo int64) (removed int, err error) {
	err = b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		var err error
		removed, err = b.removeEntries(ctx, tx, `e.platform = $1 AND e.maker = $2 AND e.at <= $3`, platform, maker, upTo)
		if err != nil {
			return err
		}
		if _, err := b.removeEntries(ctx, tx, `e.id IN (SELECT q.entry FROM quoted q WHERE q.platform = $1 AND q.author = $2) AND e.at <= $3`, platform, maker, upTo); err != nil {
			return err
		}
		for _, statement := range []string{
			`DELETE FROM settings WHERE platform = $1 AND set_by = $2 AND set_at <= $3 AND kind = 'channel' AND scope IN ` + emptyDirectRooms,
			`DELETE FROM rules WHERE platform = $1 AND by_maker = $2 AND at <= $3 AND kind = 'channel' AND scope IN ` + emptyDirectRooms,
			`DELETE FROM settings WHERE platform = $1 AND kind = 'maker' AND scope = $2 AND set_at <= $3`,
			`UPDATE settings SET set_by = '' WHERE platform = $1 AND set_by = $2 AND set_at <= $3`,
			`DELETE FROM corrections WHERE platform = $1 AND maker = $2 AND at <= $3`,
			`DELETE FROM outlines WHERE platform = $1 AND maker = $2 AND at <= $3`,
			`UPDATE amendments SET by_maker = '' WHERE by_maker = $2 AND at <= $3 AND entry IN (SELECT id FROM entries WHERE platform = $1)`,
			`DELETE FROM rules WHERE platform = $1 AND kind = 'maker' AND scope = $2 AND at <= $3`,
			`UPDATE rules SET by_maker = '' WHERE platform = $1 AND by_maker = $2 AND at <= $3`,
			`UPDATE retention SET set_by = '' WHERE platform = $1 AND set_by = $2 AND set_at <= $3`,
		} {
			if _, err := tx.ExecContext(ctx, statement, platform, maker, upTo); err != nil {
				return err
			}
		}
		return removeEmptyDirectRooms(ctx, tx, platform)
	})
	return removed, err
}

// ForgetEntry removes one entry, and the direct chat that it was the last of;
// ErrNotFound if it is not there. Copies and back-ups forget it as they do a
// maker.
func (b *Book) ForgetEntry(ctx context.Context, id int64) error {
	e, err := b.ByID(ctx, id)
	if err != nil {
		return err
	}
	recorded := micros(e.At)
	if err := b.remember(forgotten{At: micros(b.clock()), Entry: id, Recorded: recorded}); err != nil {
		return err
	}
	if err := b.removeEntry(ctx, id, recorded); err != nil {
		return err
	}
	b.eraseSoon(ctx)
	return b.inKeptCopies(ctx, func(c *Book) error {
		if err := c.removeEntry(ctx, id, recorded); !errors.Is(err, ErrNotFound) {
			return err
		}
		return nil
	})
}

// removeEntry goes by the entry's time too: in another daybook, the id may be
// that of another entry.
func (b *Book) removeEntry(ctx context.Context, id, recorded int64) error {
	return b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		e, err := oneEntry(ctx, tx, `e.id = $1 AND e.at = $2`, id, recorded)
		if err != nil {
			return err
		}
		if _, err := b.removeEntries(ctx, tx, `e.id = $1`, id); err != nil {
			return err
		}
		return removeEmptyDirectRooms(ctx, tx, e.Key.Platform)
	})
}

// emptyDirectRooms are chats without a guild in which nothing is left. The id
// of a direct chat tells who it was with, so it goes with the maker.
const emptyDirectRooms = `(SELECT r.channel FROM rooms r WHERE r.platform = $1 AND r.guild = ''
	AND NOT EXISTS (SELECT 1 FROM entries e WHERE e.room = r.id))`

func removeEmptyDirectRooms(ctx context.Context, tx *sql.Tx, platform string) error {
	_, err := tx.ExecContext(ctx, `DELETE FROM rooms WHERE platform = $1 AND guild = '' AND channel IN `+emptyDirectRooms, platform)
	return err
}

// removeEntries deletes the entries that where chooses and returns their number.
// Amendments go by their foreign key, and the schema keeps the search index.
func (b *Book) removeEntries(ctx context.Context, tx *sql.Tx, where string, args ...any) (int, error) {
	res, err := tx.ExecContext(ctx, `DELETE FROM entries WHERE id IN (SELECT e.id FROM entries e WHERE `+where+`)`, args...)
	if err != nil {
		return 0, err
	}
	n, err := res.RowsAffected()
	if err != nil || n == 0 {
		return 0, err
	}
	return int(n), b.markErased(ctx, tx)
}

// SetRetention sets for how long a guild's entries are kept, in whole seconds;
// 0 keeps them until a maker forgets them.
func (b *Book) SetRetention(ctx context.Context, platform, guild string, keep time.Duration, by string) error {
	seconds := int64(keep / time.Second)
	if keep != 0 && seconds < 1 {
		return fmt.Errorf("daybook: entries can't be kept for %v", keep)
	}
	return b.inTx(ctx, func(tx *sql.Tx, now int64) error {
		if keep == 0 {
			_, err := tx.ExecContext(ctx, `DELETE FROM retention WHERE platform = $1 AND guild = $2`, platform, guild)
			return err
		}
		_, err := tx.ExecContext(ctx, `INSERT INTO retention (platform, guild, keep_seconds, set_by, set_at)
			VALUES ($1, $2, $3, $4, $5)
			ON CONFLICT (platform, guild)
			DO UPDATE SET keep_seconds = excluded.keep_seconds, set_by = excluded.set_by, set_at = excluded.set_at`,
			platform, guild, seconds, clean(by), now)
		return err
	})
}

// Retention of a guild; 0 if its entries are kept.
func (b *Book) Retention(ctx context.Context, platform, guild string) (time.Duration, error) {
	var seconds int64
	err := b.read.QueryRowContext(ctx, `SELECT keep_seconds FROM retention WHERE platform = $1 AND guild = $2`, platform, guild).Scan(&seconds)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, nil
	}
	return time.Duration(seconds) * time.Second, b.explain(err)
}

// purgeBatch keeps each of Purge's transactions short.
const purgeBatch = 500

// retention is for how long a guild's entries are kept.
type retention struct {
	platform, guild string
	seconds         int64
}

// Purge removes the entries that are past their guild's retention at now, here
// and in the copies that Restore made, and claims of events that nobody
// finished; it returns the number of entries removed here. It may run in several
// processes at once.
func (b *Book) Purge(ctx context.Context, now time.Time) (int, error) {
	b.removeLeftovers()
	rows, err := b.read.QueryContext(ctx, `SELECT platform, guild, keep_seconds FROM retention`)
	guilds, err := scanAll(rows, err, func(r *sql.Rows) (g retention, err error) {
		return g, r.Scan(&g.platform, &g.guild, &g.seconds)
	})
	if err != nil {
		return 0, b.explain(err)
	}
	total, err := b.purge(ctx, guilds, now)
	if err != nil {
		return total, err
	}
	const stale = 24 * time.Hour
	err = b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		_, err := tx.ExecContext(ctx, `DELETE FROM claims WHERE until < $1`, micros(now.Add(-stale)))
		return err
	})
	b.eraseSoon(ctx)
	if err != nil || len(guilds) == 0 {
		return total, err
	}
	return total, b.inKeptCopies(ctx, func(c *Book) error {
		_, err := c.purge(ctx, guilds, now)
		return err
	})
}

func (b *Book) purge(ctx context.Context, guilds []retention, now time.Time) (total int, err error) {
	for _, g := range guilds {
		before := micros(now.Add(-time.Duration(g.seconds) * time.Second))
		for removed := 1; removed > 0; total += removed {
			err := b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
				var err error
				removed, err = b.removeEntries(ctx, tx, fmt.Sprintf(`e.room IN (SELECT r.id FROM rooms r WHERE r.platform = $1 AND r.guild = $2)
					AND e.at < $3 AND e.`+dayOf+` <= CAST($3 AS BIGINT) / 86400000000 LIMIT %d%s`, purgeBatch, b.store.skipLocked), g.platform, g.guild, before)
				return err
			})
			if err != nil {
				return total, err
			}
		}
	}
	return total, nil
}
