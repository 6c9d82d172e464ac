package daybook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"
)

// MakerData is all that is stored of a maker.
type MakerData struct {
	Entries     []Entry
	Amendments  []Amendment       // written by the maker
	Settings    map[string]string // the maker's own bench
	Corrections []Correction
	Rules       []Rule // pinned by the maker
}

// MakerData gives all that is stored of a maker, in every guild of the
// platform: it is for that maker alone.
func (b *Book) MakerData(ctx context.Context, platform, maker string) (MakerData, error) {
	var d MakerData
	if maker == "" {
		return d, errNoMaker
	}
	var errs [5]error
	d.Entries, errs[0] = scanEntries(b.read.QueryContext(ctx, `SELECT `+entryColumns+` FROM entries e
		WHERE e.platform = $1 AND e.maker = $2 ORDER BY e.id`, platform, maker))
	d.Amendments, errs[1] = b.amendments(ctx, `e.platform = $1 AND a.by_maker = $2`, platform, maker)
	d.Settings, errs[2] = b.Settings(ctx, Scope{MakerScope, platform, maker})
	d.Corrections, errs[3] = b.Corrections(ctx, platform, maker)
	d.Rules, errs[4] = b.rules(ctx, `platform = $1 AND by_maker = $2`, platform, maker)
	if err := errors.Join(errs[:]...); err != nil {
		return MakerData{}, b.explain(err)
	}
	return d, nil
}

var errNoMaker = errors.New("daybook: no maker named")

// ForgetMaker removes what is stored of a maker and returns the number of
// entries removed. Entries, bench and corrections go; what the maker did for
// others (an amendment, a house rule, a channel's setting) stays without a
// name. On SQLite the file itself keeps no trace; back-ups made before do.
func (b *Book) ForgetMaker(ctx context.Context, platform, maker string) (int, error) {
	if maker == "" {
		return 0, errNoMaker
	}
	removed := 0
	err := b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		var err error
		removed, err = b.removeEntries(ctx, tx, `e.platform = $1 AND e.maker = $2`, platform, maker)
		if err != nil {
			return err
		}
		for _, statement := range []string{
			`DELETE FROM settings WHERE platform = $1 AND set_by = $2 AND kind = 'channel' AND scope IN ` + emptyDirectRooms,
			`DELETE FROM rules WHERE platform = $1 AND by_maker = $2 AND kind = 'channel' AND scope IN ` + emptyDirectRooms,
			`DELETE FROM settings WHERE platform = $1 AND kind = 'maker' AND scope = $2`,
			`UPDATE settings SET set_by = '' WHERE platform = $1 AND set_by = $2`,
			`DELETE FROM corrections WHERE platform = $1 AND maker = $2`,
			`UPDATE amendments SET by_maker = '' WHERE by_maker = $2 AND entry IN (SELECT id FROM entries WHERE platform = $1)`,
			`DELETE FROM rules WHERE platform = $1 AND kind = 'maker' AND scope = $2`,
			`UPDATE rules SET by_maker = '' WHERE platform = $1 AND by_maker = $2`,
			`UPDATE retention SET set_by = '' WHERE platform = $1 AND set_by = $2`,
		} {
			if _, err := tx.ExecContext(ctx, statement, platform, maker); err != nil {
				return err
			}
		}
		_, err = tx.ExecContext(ctx, `DELETE FROM rooms WHERE platform = $1 AND guild = '' AND channel IN `+emptyDirectRooms, platform)
		return err
	})
	if err != nil {
		return 0, err
	}
	b.emptyLog(ctx)
	return removed, nil
}

// ForgetEntry removes one entry, and the direct chat that it was the last of;
// ErrNotFound where it is not there.
func (b *Book) ForgetEntry(ctx context.Context, id int64) error {
	err := b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		e, err := oneEntry(ctx, tx, `e.id = $1`, id)
		if err != nil {
			return err
		}
		if _, err := b.removeEntries(ctx, tx, `e.id = $1`, id); err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, `DELETE FROM rooms WHERE platform = $1 AND guild = '' AND channel IN `+emptyDirectRooms, e.Key.Platform)
		return err
	})
	if err == nil {
		b.emptyLog(ctx)
	}
	return err
}

// emptyDirectRooms are chats without a guild in which nothing is left. The id
// of a direct chat tells who it was with, so it goes with the maker.
const emptyDirectRooms = `(SELECT r.channel FROM rooms r WHERE r.platform = $1 AND r.guild = ''
	AND NOT EXISTS (SELECT 1 FROM entries e WHERE e.room = r.id))`

// removeEntries deletes the entries that where chooses, with their words and
// amendments, and returns their number.
func (b *Book) removeEntries(ctx context.Context, tx *sql.Tx, where string, args ...any) (int, error) {
	if err := takeLock(ctx, tx, b.store.changing); err != nil {
		return 0, err
	}
	rows, err := tx.QueryContext(ctx, `SELECT e.id, e.room, e.at, e.words FROM entries e WHERE `+where, args...)
	all, err := scanAll(rows, err, func(r *sql.Rows) (d doomed, err error) { return d, r.Scan(&d.id, &d.room, &d.at, &d.words) })
	if err != nil {
		return 0, err
	}
	for _, d := range all {
		if d.words != "" {
			list := []any{d.room, d.id}
			var places []string
			for _, w := range strings.Split(d.words, wordSeparator) {
				list = append(list, w)
				places = append(places, fmt.Sprintf("$%d", len(list)))
			}
			_, err := tx.ExecContext(ctx, `DELETE FROM words WHERE room = $1 AND entry = $2 AND word IN (`+strings.Join(places, ",")+`)`, list...)
			if err != nil {
				return 0, err
			}
		}
		// Amendments follow by their foreign key.
		if _, err := tx.ExecContext(ctx, `DELETE FROM entries WHERE id = $1`, d.id); err != nil {
			return 0, err
		}
	}
	return len(all), b.unfile(ctx, tx, all)
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

// Retention of a guild; 0 where its entries are kept.
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

// Purge removes the entries that are past their guild's retention at now, and
// claims of events that nobody finished; it returns the number of entries. It
// may run in several processes at once.
func (b *Book) Purge(ctx context.Context, now time.Time) (int, error) {
	type rule struct {
		platform, guild string
		seconds         int64
	}
	rows, err := b.read.QueryContext(ctx, `SELECT platform, guild, keep_seconds FROM retention`)
	guilds, err := scanAll(rows, err, func(r *sql.Rows) (g rule, err error) { return g, r.Scan(&g.platform, &g.guild, &g.seconds) })
	if err != nil {
		return 0, b.explain(err)
	}
	total := 0
	for _, g := range guilds {
		before := micros(now.Add(-time.Duration(g.seconds) * time.Second))
		for {
			removed := 0
			err := b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
				var err error
				removed, err = b.removeEntries(ctx, tx, fmt.Sprintf(`e.platform = $1 AND e.guild = $2 AND e.at < $3
					ORDER BY e.at LIMIT %d%s`, purgeBatch, b.store.skipLocked), g.platform, g.guild, before)
				return err
			})
			if err != nil {
				return total, err
			}
			if removed == 0 {
				break
			}
			total += removed
		}
	}
	const stale = 24 * time.Hour
	err = b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		_, err := tx.ExecContext(ctx, `DELETE FROM claims WHERE until < $1`, micros(now.Add(-stale)))
		return err
	})
	if total > 0 {
		b.emptyLog(ctx)
	}
	return total, err
}

// emptyLog moves SQLite's write-ahead log into the file, so that what was
// removed does not stay readable in it. A reader or another process at work
// may prevent it; then it comes to pass with a later checkpoint, so there is
// nothing to report.
func (b *Book) emptyLog(ctx context.Context) {
	if b.path != "" {
		_, _ = b.write.ExecContext(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`)
	}
}
