package daybook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/pressly/goose/v3"
)

// skipTo makes id the next entry's, as if those before had been forgotten.
func skipTo(t *testing.T, b *Book, id int64) {
	t.Helper()
	statement := `UPDATE sqlite_sequence SET seq = $1 WHERE name = 'entries'`
	if b.store.name == "postgres" {
		statement = `SELECT setval(pg_get_serial_sequence('entries', 'id'), $1)`
	}
	_, err := b.write.ExecContext(t.Context(), statement, id-1)
	noErr(t, err)
}

// wantFiled fails unless what is filed is what the entries say, and all
// complete blocks are filed.
func wantFiled(t *testing.T, b *Book) {
	t.Helper()
	ctx := t.Context()
	next, newest, err := filedUpTo(ctx, b.read)
	noErr(t, err)
	if newest >= firstOf(next+1)-1 {
		t.Errorf("block %d is complete and not filed: the newest entry is %d", next, newest)
	}
	rows, err := b.read.QueryContext(ctx, `SELECT room, block, first, last FROM blocks ORDER BY room, block`)
	type filedSpan struct {
		room, block int64
		span
	}
	spans, err := scanAll(rows, err, func(r *sql.Rows) (s filedSpan, err error) {
		return s, r.Scan(&s.room, &s.block, &s.first, &s.last)
	})
	noErr(t, err)
	rows, err = b.read.QueryContext(ctx, `SELECT room, MIN(id), MIN(at), MAX(at) FROM entries WHERE id < $1
		GROUP BY room, id / 4096 ORDER BY room, id / 4096`, firstOf(next))
	want, err := scanAll(rows, err, func(r *sql.Rows) (s filedSpan, err error) {
		err = r.Scan(&s.room, &s.block, &s.first, &s.last)
		s.block = blockOf(s.block)
		return s, err
	})
	noErr(t, err)
	equal(t, "spans", spans, want)

	type filedWord struct {
		roomWord
		block int64
	}
	places := map[filedWord]*bitmap{}
	counts := map[filedWord]int{}
	rows, err = b.read.QueryContext(ctx, `SELECT room, word, entry FROM words WHERE entry < $1`, firstOf(next))
	noErr(t, err)
	defer rows.Close()
	for rows.Next() {
		var w filedWord
		var id int64
		noErr(t, rows.Scan(&w.room, &w.word, &id))
		w.block = blockOf(id)
		if places[w] == nil {
			places[w] = &bitmap{}
		}
		places[w].set(placeIn(id))
		counts[w]++
	}
	noErr(t, rows.Err())
	filed, err := b.read.QueryContext(ctx, `SELECT room, word, block, bits FROM common`)
	noErr(t, err)
	defer filed.Close()
	seen := map[filedWord]bool{}
	for filed.Next() {
		var w filedWord
		var raw []byte
		noErr(t, filed.Scan(&w.room, &w.word, &w.block, &raw))
		m, err := bitmapOf(raw)
		noErr(t, err)
		if places[w] == nil || *places[w] != m {
			t.Errorf("%q in block %d of room %d is filed otherwise than it stands in the words table", w.word, w.block, w.room)
		}
		seen[w] = true
	}
	noErr(t, filed.Err())
	for w, n := range counts {
		if n >= commonFrom && !seen[w] {
			t.Errorf("%q is in %d entries of block %d and not filed", w.word, n, w.block)
		}
	}
}

// has tells whether a filter chooses an entry, by looking at it.
func (f Filter) has(e *Entry) bool {
	words := indexWords(e)
	for _, w := range append(facets(f.Maker, f.Request, f.Outline, f.Status), splitWords(f.Text)...) {
		if !slices.Contains(words, w) {
			return false
		}
	}
	return e.Key.Platform == f.Platform && e.Key.Channel == f.Channel && e.Guild == f.Guild &&
		(f.From.IsZero() || !e.At.Before(f.From)) && (f.To.IsZero() || e.At.Before(f.To)) && (f.Before == 0 || e.ID < f.Before)
}

// testBlocks compares what List finds with what looking at every entry finds.
func testBlocks(t *testing.T, b *Book, _ *testClock) {
	const seed, blocks, each, days = 20310305, 6, 150, 60
	random := rand.New(rand.NewPCG(seed, 0))
	start := time.Date(2031, 3, 1, 0, 0, 0, 0, time.UTC)
	var all []Entry
	one := func(block int) Entry {
		e := sample(fmt.Sprint(len(all)))
		e.Maker, e.Outline, e.Request = fmt.Sprint("m", random.IntN(4)), []string{"oval", "pear", "heart"}[random.IntN(3)], []string{"collet", "band"}[random.IntN(2)]
		if random.IntN(10) == 0 {
			e.Key.Channel = "quiet"
		}
		if random.IntN(5) == 0 {
			e.Status = Refused
		}
		words := []string{"always", []string{"odd", "even"}[random.IntN(2)]}
		for word, oneIn := range map[string]int{"often": 2, "sometimes": 5, "seldom": 60} {
			if random.IntN(oneIn) == 0 {
				words = append(words, word)
			}
		}
		if block%2 == 0 || random.IntN(20) == 0 {
			words = append(words, "byturns")
		}
		if len(all) == 7 {
			words = append(words, "odd", "even")
		}
		e.Typed, e.Line = strings.Join(words, " "), e.Request+" "+e.Outline
		// Mostly in order, with the clock set back now and then.
		e.At = start.Add(time.Duration(len(all)) * days * 24 * time.Hour / (blocks * each)).Add(-time.Duration(random.IntN(30)) * time.Hour)
		if random.IntN(300) == 0 {
			e.At = e.At.AddDate(0, -2, 0)
		}
		return e
	}
	for block := range blocks + 1 {
		skipTo(t, b, firstOf(int64(block))+1+int64(random.IntN(3500)))
		var batch []Entry
		err := b.inTx(t.Context(), func(tx *sql.Tx, now int64) error {
			batch = nil
			for range each {
				stored, _, err := b.insert(t.Context(), tx, now, one(block))
				if err != nil {
					return err
				}
				batch = append(batch, stored)
				all = append(all, stored)
			}
			return nil
		})
		noErr(t, err)
	}
	wantFiled(t, b)
	if next, _, _ := filedUpTo(t.Context(), b.read); next != blocks {
		t.Fatalf("%d blocks are filed, want %d", next, blocks)
	}

	texts := []string{"", "always", "often", "odd even", "often sometimes", "seldom", "seldom often", "byturns", "byturns often", "byturns odd sometimes", "always even often", "nowhere", "often nowhere", "oval"}
	check := func() {
		t.Helper()
		found, whole := 0, 0
		for range 600 {
			f := Filter{Platform: "discord", Guild: "g1", Channel: "c1", Text: texts[random.IntN(len(texts))], Limit: 1 + random.IntN(25)}
			if random.IntN(6) == 0 {
				f.Channel = "quiet"
			}
			if random.IntN(3) == 0 {
				f.Maker = fmt.Sprint("m", random.IntN(5))
			}
			if random.IntN(4) == 0 {
				f.Request, f.Outline = "collet", "pear"
			}
			if random.IntN(6) == 0 {
				f.Status = Refused
			}
			if random.IntN(3) == 0 {
				f.From = start.AddDate(0, 0, random.IntN(days))
			}
			if random.IntN(3) == 0 {
				f.To = start.AddDate(0, 0, random.IntN(days))
			}
			if random.IntN(3) == 0 {
				f.Before = all[random.IntN(len(all))].ID
			}
			if random.IntN(20) == 0 {
				f.Limit = MaxPage
			}
			want := []int64{}
			for i := len(all) - 1; i >= 0 && len(want) < f.Limit; i-- {
				if f.has(&all[i]) {
					want = append(want, all[i].ID)
				}
			}
			got, err := b.List(t.Context(), f)
			noErr(t, err)
			equal(t, fmt.Sprintf("%+v", f), ids(got), want)
			if len(want) > 0 {
				found++
			}
			if len(want) == f.Limit {
				whole++
			}
			if t.Failed() {
				t.Fatalf("seed %d", seed)
			}
		}
		if found < 100 || whole < 50 {
			t.Errorf("%d searches found something, %d a whole page: too few to tell anything", found, whole)
		}
	}
	check()

	// What is forgotten is not filed any more.
	for range 40 {
		i := random.IntN(len(all))
		noErr(t, b.ForgetEntry(t.Context(), all[i].ID))
		all = slices.Delete(all, i, i+1)
	}
	_, err := b.ForgetMaker(t.Context(), "discord", "m3")
	noErr(t, err)
	all = slices.DeleteFunc(all, func(e Entry) bool { return e.Maker == "m3" })
	left := 0
	noErr(t, b.read.QueryRowContext(t.Context(), `SELECT COUNT(*) FROM common WHERE word = 'maker=m3'`).Scan(&left))
	equal(t, "what is filed of a forgotten maker", left, 0)
	wantFiled(t, b)
	check()
	noErr(t, b.SetRetention(t.Context(), "discord", "g1", time.Hour, "teacher"))
	_, err = b.Purge(t.Context(), start.AddDate(1, 0, 0))
	noErr(t, err)
	noErr(t, b.read.QueryRowContext(t.Context(), `SELECT (SELECT COUNT(*) FROM common) + (SELECT COUNT(*) FROM blocks)`).Scan(&left))
	equal(t, "what is filed of nothing", left, 0)
}

// testGone: an entry that goes between being found and being read leaves no gap
// in a page.
func testGone(t *testing.T, b *Book, _ *testClock) {
	const blocks, each, limit = 3, 150, 20
	var all []int64
	record := func(block, n int) {
		skipTo(t, b, firstOf(int64(block))+10)
		noErr(t, b.inTx(t.Context(), func(tx *sql.Tx, now int64) error {
			for i := range n {
				stored, _, err := b.insert(t.Context(), tx, now, sample(fmt.Sprint(block, "-", i)))
				if err != nil {
					return err
				}
				all = append(all, stored.ID)
			}
			return nil
		}))
	}
	all = append(all, mustRecord(t, b, sample("the first")).ID)
	for block := range blocks {
		record(block, each)
	}
	record(blocks, 1)
	// The last whole block, and all but five of the one before.
	left := slices.Concat(all[:each+6], all[1+blocks*each:])
	for _, id := range all[each+6 : 1+blocks*each] {
		_, err := b.write.ExecContext(t.Context(), `DELETE FROM entries WHERE id = $1`, id)
		noErr(t, err)
	}
	slices.Reverse(left)
	got, err := b.List(t.Context(), Filter{Platform: "discord", Guild: "g1", Channel: "c1", Text: "collet oval", Limit: limit})
	noErr(t, err)
	equal(t, "page", ids(got), left[:limit])
}

// testBlocksAtOnce files blocks while several record and forget.
func testBlocksAtOnce(t *testing.T, b *Book, _ *testClock) {
	const seed, rounds, workers, each = 20310306, 4, 6, 25
	for round := range int64(rounds) {
		skipTo(t, b, firstOf(round+1)-workers*each/2)
		var wg sync.WaitGroup
		for worker := range workers {
			random := rand.New(rand.NewPCG(seed, uint64(worker)))
			wg.Go(func() {
				for i := range each {
					e := sample(fmt.Sprint(round, "-", worker, "-", i))
					e.Maker = fmt.Sprint("m", worker)
					stored, _, err := b.Record(t.Context(), e)
					if err == nil && random.IntN(3) == 0 {
						// Its maker may be forgotten already.
						if err = b.ForgetEntry(t.Context(), stored.ID); errors.Is(err, ErrNotFound) {
							err = nil
						}
					}
					if err == nil && random.IntN(40) == 0 {
						_, err = b.ForgetMaker(t.Context(), "discord", fmt.Sprint("m", random.IntN(workers)))
					}
					if err != nil {
						t.Error(err)
						return
					}
				}
			})
		}
		wg.Wait()
		b.fileIfDue(t.Context())
		wantFiled(t, b)
	}
	if next, _, err := filedUpTo(t.Context(), b.read); err != nil || next < rounds {
		t.Errorf("%d blocks are filed, want %d: %v", next, rounds, err)
	}
}

// A daybook of before there were blocks is filed when it is opened.
func TestUpgradeFilesBlocks(t *testing.T) {
	path := filepath.Join(t.TempDir(), "old.db")
	db, err := openSQLite(sqliteDSN(path, false), 1)
	noErr(t, err)
	p, err := newProvider(db, goose.DialectSQLite3, "sqlite")
	noErr(t, err)
	_, err = p.UpTo(t.Context(), 3)
	noErr(t, err)
	fillOld(t, db, `INSERT INTO rooms (id, platform, guild, channel) VALUES (5, 'discord', 'g1', 'c1')`)
	noErr(t, db.Close())
	wantUpgraded(t, mustOpen(t, path))
}

func TestUpgradeFilesBlocksOnPostgres(t *testing.T) {
	again := postgresSchema(t)
	b := again()
	// Back to the schema of before.
	for _, statement := range []string{`DROP TABLE blocks`, `DROP TABLE common`, `DROP TABLE next_block`, `DELETE FROM goose_db_version WHERE version_id = 4`} {
		_, err := b.write.ExecContext(t.Context(), statement)
		noErr(t, err)
	}
	fillOld(t, b.write, `INSERT INTO rooms (id, platform, guild, channel) VALUES (5, 'discord', 'g1', 'c1')`)
	wantUpgraded(t, again())
}

const oldEntries = 2*blockSize + 100

// fillOld makes entries as the third schema had them: the first is a pear, and
// all others ovals.
func fillOld(t *testing.T, db *sql.DB, room string) {
	t.Helper()
	_, err := db.ExecContext(t.Context(), room)
	noErr(t, err)
	tx, err := db.BeginTx(t.Context(), nil)
	noErr(t, err)
	defer tx.Rollback() //nolint:errcheck // after a commit it has nothing to do
	for id := 1; id <= oldEntries; id++ {
		words := "oval\ncut"
		if id == 1 {
			words = "pear\ncut"
		}
		_, err := tx.ExecContext(t.Context(), `INSERT INTO entries (id, room, at, platform, guild, channel, message, maker, request, outline, status, version,
				typed, line, headline, problem, try, words, args, route, figures, answer)
			VALUES ($1, 5, $2, 'discord', 'g1', 'c1', $3, 'm1', 'collet', 'oval', 'answered', '0.1', '', '', '', '', '', $4, '', '', '', '{}')`,
			id, micros(largeStart.Add(time.Duration(id)*time.Minute)), fmt.Sprint(id), words)
		noErr(t, err)
		for _, w := range strings.Split(words, "\n") {
			_, err := tx.ExecContext(t.Context(), `INSERT INTO words (room, word, entry) VALUES (5, $1, $2)`, w, id)
			noErr(t, err)
		}
	}
	noErr(t, tx.Commit())
}

func wantUpgraded(t *testing.T, b *Book) {
	t.Helper()
	wantFiled(t, b)
	next, newest, err := filedUpTo(context.Background(), b.read)
	equal(t, "filed", []any{next, newest, err}, []any{int64(2), int64(oldEntries), nil})
	room := Filter{Platform: "discord", Guild: "g1", Channel: "c1"}
	for _, c := range []struct {
		change func(*Filter)
		want   []int64
	}{
		{func(f *Filter) { f.Text = "pear cut" }, []int64{1}},
		{func(f *Filter) { f.Text, f.Limit = "cut oval", 2 }, []int64{oldEntries, oldEntries - 1}},
		{func(f *Filter) { f.Text, f.Limit, f.Before = "cut oval", 2, 5000 }, []int64{4999, 4998}},
		{func(f *Filter) { f.To = largeStart.Add(2 * time.Minute) }, []int64{1}},
		{func(f *Filter) { f.Text, f.To = "cut oval", largeStart.Add(4*time.Minute) }, []int64{3, 2}},
	} {
		f := room
		c.change(&f)
		got, err := b.List(t.Context(), f)
		noErr(t, err)
		equal(t, fmt.Sprintf("%+v", f), ids(got), c.want)
	}
}
