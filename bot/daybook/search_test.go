package daybook

import (
	"database/sql"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/pressly/goose/v3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/testcount"
)

// skipTo makes id the next entry's, as if those before had been forgotten.
func skipTo(t *testing.T, b *Book, id int64) {
	t.Helper()
	statement := `INSERT OR REPLACE INTO sqlite_sequence (rowid, name, seq)
		SELECT (SELECT rowid FROM sqlite_sequence WHERE name = 'entries'), 'entries', $1`
	if b.store.name == "postgres" {
		statement = `SELECT setval(pg_get_serial_sequence('entries', 'id'), $1)`
	}
	_, err := b.write.ExecContext(t.Context(), statement, id-1)
	require.NoError(t, err)
}

// has reports whether a filter chooses an entry, by looking at it.
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

const (
	searchSeed  = 20310305
	searchDays  = 60
	searchParts = 4
	searchEach  = 200
)

var searchStart = time.Date(2031, 3, 1, 0, 0, 0, 0, time.UTC)

// searchedEntry is entry number i of a daybook that is searched.
func searchedEntry(random *rand.Rand, i int) Entry {
	e := sample(fmt.Sprint(i))
	e.Maker = []string{"m0", "M0", "m1", "@m3:guild.example", `o'neil "x" \y`}[random.IntN(5)]
	e.Outline = []string{"oval", "pear", "heart"}[random.IntN(3)]
	e.Request = []string{"collet", "band"}[random.IntN(2)]
	if random.IntN(10) == 0 {
		e.Key.Channel = "quiet"
	}
	if random.IntN(5) == 0 {
		e.Status = Refused
	}
	words := []string{"always", []string{"odd", "even"}[random.IntN(2)], []string{"émeri", "𞤀𞤁"}[random.IntN(2)], "0.64"}
	for word, oneIn := range map[string]int{"often": 2, "sometimes": 5, "seldom": 60} {
		if random.IntN(oneIn) == 0 {
			words = append(words, word)
		}
	}
	if i == 7 {
		words = append(words, "odd", "even")
	}
	e.Typed, e.Line = strings.Join(words, " "), e.Request+" "+e.Outline
	// Mostly in order, with the clock set back now and then.
	e.At = searchStart.Add(time.Duration(i) * searchDays * 24 * time.Hour / (searchParts * searchEach)).Add(-time.Duration(random.IntN(30)) * time.Hour)
	if random.IntN(300) == 0 {
		e.At = e.At.AddDate(0, -2, 0)
	}
	return e
}

func searchedFilter(random *rand.Rand, all []Entry) Filter {
	texts := []string{"", "always", "often", "odd even", "often sometimes", "seldom", "seldom often", "émeri odd", "𞤀𞤁", "0.64 often", "nowhere", "often nowhere", "oval"}
	f := Filter{Platform: "discord", Guild: "g1", Channel: "c1", Text: texts[random.IntN(len(texts))], Limit: 1 + random.IntN(25)}
	if random.IntN(6) == 0 {
		f.Channel = "quiet"
	}
	if random.IntN(3) == 0 {
		f.Maker = all[random.IntN(len(all))].Maker
	}
	if random.IntN(4) == 0 {
		f.Request, f.Outline = "collet", "pear"
	}
	if random.IntN(6) == 0 {
		f.Status = Refused
	}
	if random.IntN(3) == 0 {
		f.From = searchStart.AddDate(0, 0, random.IntN(searchDays))
	}
	if random.IntN(3) == 0 {
		f.To = searchStart.AddDate(0, 0, random.IntN(searchDays))
	}
	if random.IntN(3) == 0 {
		f.Before = all[random.IntN(len(all))].ID
	}
	if random.IntN(20) == 0 {
		f.Limit = MaxPage
	}
	return f
}

// testSearches compares what List and Summary find with what looking at every
// entry finds, in several of the chunks that PostgreSQL reads.
func testSearches(t *testing.T, b *Book, _ *testClock) {
	random := rand.New(rand.NewPCG(searchSeed, 0))
	var all []Entry
	for part := range int64(searchParts) {
		skipTo(t, b, part<<chunkBits+1+int64(random.IntN(10_000)))
		require.NoError(t, b.inTx(t.Context(), func(tx *sql.Tx, now int64) error {
			for range searchEach {
				stored, _, err := b.insert(t.Context(), tx, now, searchedEntry(random, len(all)))
				if err != nil {
					return err
				}
				all = append(all, stored)
			}
			return nil
		}))
	}
	check := func() {
		t.Helper()
		found, whole := 0, 0
		for range testcount.InLong(80, 600) {
			f := searchedFilter(random, all)
			want, total := []int64{}, 0
			for i := len(all) - 1; i >= 0; i-- {
				if !f.has(&all[i]) {
					continue
				}
				total++
				if len(want) < f.Limit {
					want = append(want, all[i].ID)
				}
			}
			got, err := b.List(t.Context(), f)
			require.NoError(t, err)
			require.Equal(t, want, ids(got), "seed %d: %+v", searchSeed, f)
			if f.Before == 0 {
				s, err := b.Summary(t.Context(), f)
				require.NoError(t, err)
				require.Equal(t, total, s.Total, "seed %d: %+v", searchSeed, f)
			}
			if len(want) > 0 {
				found++
			}
			if len(want) == f.Limit {
				whole++
			}
		}
		assert.Greater(t, found, 15, "searches that found something")
		assert.Greater(t, whole, 5, "searches that found a whole page")
	}
	check()

	// What is forgotten is not found any more.
	for range 5 {
		i := random.IntN(len(all))
		require.NoError(t, b.ForgetEntry(t.Context(), all[i].ID))
		all = slices.Delete(all, i, i+1)
	}
	_, err := b.ForgetMaker(t.Context(), "discord", "m1")
	require.NoError(t, err)
	all = slices.DeleteFunc(all, func(e Entry) bool { return e.Maker == "m1" })
	check()
}

// A search between dates looks at its days by the index that is made for it.
func TestDaysAreFoundByTheirIndex(t *testing.T) {
	b := mustOpen(t, filepath.Join(t.TempDir(), "book.db"))
	rows, err := b.read.QueryContext(t.Context(), `EXPLAIN QUERY PLAN `+boundsOfDays, 1, 2, 3)
	plan, err := scanAll(rows, err, func(r *sql.Rows) (step string, err error) {
		var id, parent, unused int
		return step, r.Scan(&id, &parent, &unused, &step)
	})
	require.NoError(t, err)
	looks := 0
	for _, step := range plan {
		if strings.Contains(step, "entries") {
			assert.Contains(t, step, "entries_day (room=? AND <expr>=?)")
			looks++
		}
	}
	assert.Equal(t, 2, looks, plan)
}

// lastSchema is the schema that this program makes.
const lastSchema = 7

// A daybook of the schema that had an index of its own is searched as before.
func TestUpgradeKeepsEntriesFindable(t *testing.T) {
	path := filepath.Join(t.TempDir(), "old.db")
	db, err := openSQLite(sqliteDSN(path, false), 1)
	require.NoError(t, err)
	p, err := newProvider(db, goose.DialectSQLite3, "sqlite")
	require.NoError(t, err)
	_, err = p.UpTo(t.Context(), 4)
	require.NoError(t, err)
	fillOld(t, db)
	require.NoError(t, db.Close())
	wantUpgraded(t, mustOpen(t, path))
}

func TestUpgradeKeepsEntriesFindableOnPostgres(t *testing.T) {
	address := newPostgresSchema(t)
	db, err := sql.Open("pgx", address)
	require.NoError(t, err)
	defer db.Close()
	p, err := newProvider(db, goose.DialectPostgres, "postgres")
	require.NoError(t, err)
	_, err = p.UpTo(t.Context(), 4)
	require.NoError(t, err)
	fillOld(t, db)
	b, err := OpenPostgres(t.Context(), address)
	require.NoError(t, err)
	defer b.Close()
	wantUpgraded(t, b)
}

const oldEntries = 2000

// fillOld makes entries as the fourth schema had them: the first is a pear, and
// all others ovals.
func fillOld(t *testing.T, db *sql.DB) {
	t.Helper()
	tx, err := db.BeginTx(t.Context(), nil)
	require.NoError(t, err)
	defer tx.Rollback() //nolint:errcheck // a no-op after a commit
	_, err = tx.ExecContext(t.Context(), `INSERT INTO rooms (id, platform, guild, channel) VALUES (5, 'discord', 'g1', 'c1')`)
	require.NoError(t, err)
	for id := 1; id <= oldEntries; id++ {
		words := "maker=@m1:x.example\noval\ncut\n0.64\némeri"
		if id == 1 {
			words = "maker=@m1:x.example\npear\ncut"
		}
		if id == 2 {
			words = "" // a refusal of nothing
		}
		_, err := tx.ExecContext(t.Context(), `INSERT INTO entries (id, room, at, platform, guild, channel, message, maker, request, outline, status, version,
				typed, line, headline, problem, try, words, args, route, figures, answer)
			VALUES ($1, 5, $2, 'discord', 'g1', 'c1', $3, '@m1:x.example', 'collet', 'oval', 'answered', '0.1', '', '', '', '', '', $4, '', '', '', '{}')`,
			id, micros(largeStart.Add(time.Duration(id)*time.Minute)), fmt.Sprint(id), words)
		require.NoError(t, err)
	}
	require.NoError(t, tx.Commit())
}

func wantUpgraded(t *testing.T, b *Book) {
	t.Helper()
	for _, c := range []struct {
		f    Filter
		want []int64
	}{
		{Filter{Text: "pear cut"}, []int64{1}},
		{Filter{Text: "cut oval", Limit: 2}, []int64{oldEntries, oldEntries - 1}},
		{Filter{Text: "cut 0.64 émeri", Limit: 2, Before: 500}, []int64{499, 498}},
		{Filter{Maker: "@m1:x.example", Limit: 1}, []int64{oldEntries}},
		{Filter{Text: "pear oval"}, []int64{}},
		{Filter{To: largeStart.Add(2 * time.Minute)}, []int64{1}},
		{Filter{Text: "cut oval", To: largeStart.Add(5 * time.Minute)}, []int64{4, 3}},
	} {
		c.f.Platform, c.f.Guild, c.f.Channel = "discord", "g1", "c1"
		got, err := b.List(t.Context(), c.f)
		require.NoError(t, err)
		assert.Equal(t, c.want, ids(got), "%+v", c.f)
	}
}
