package daybook

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// entriesEnv sets how many entries the test of a large daybook makes; without
// it, the test is left out, since a million take some minutes.
const entriesEnv = "GUILDHAND_TEST_ENTRIES"

// Daybooks that an earlier version of this test filled, to be upgraded and used
// in place of new ones: a file, and the address of a schema.
const (
	oldFileEnv   = "GUILDHAND_TEST_OLD_FILE"
	oldSchemaEnv = "GUILDHAND_TEST_OLD_SCHEMA"
)

func TestLargeOnSQLite(t *testing.T) {
	n := largeCount(t)
	path := os.Getenv(oldFileEnv)
	isNew := path == ""
	if isNew {
		path = filepath.Join(t.TempDir(), "large.db")
	}
	start := time.Now()
	b := mustOpen(t, path)
	t.Logf("opened in %v", time.Since(start).Round(time.Millisecond))
	if isNew {
		fill(t, b, n)
	}
	large(t, b, n)
	logSizes(t, b, `SELECT CASE WHEN name LIKE 'found%' THEN 'found' ELSE name END, SUM(pgsize) FROM dbstat GROUP BY 1 ORDER BY 2 DESC LIMIT 12`)
	info, err := os.Stat(path)
	require.NoError(t, err)
	t.Logf("the file has %d MB", info.Size()>>20)
}

func TestLargeOnPostgres(t *testing.T) {
	n := largeCount(t)
	address := os.Getenv(oldSchemaEnv)
	isNew := address == ""
	if isNew {
		address = newPostgresSchema(t)
	}
	start := time.Now()
	b, err := OpenPostgres(t.Context(), address)
	require.NoError(t, err)
	defer b.Close()
	t.Logf("opened in %v", time.Since(start).Round(time.Millisecond))
	if isNew {
		fill(t, b, n)
	}
	// As the server does by itself in the course of a day.
	_, err = b.write.ExecContext(t.Context(), `VACUUM ANALYZE`)
	require.NoError(t, err)
	large(t, b, n)
	logSizes(t, b, `SELECT relname, pg_relation_size(oid) FROM pg_class WHERE relnamespace = current_schema()::regnamespace ORDER BY 2 DESC LIMIT 12`)
}

func logSizes(t *testing.T, b *Book, query string) {
	t.Helper()
	type size struct {
		name  string
		bytes int64
	}
	rows, err := b.read.QueryContext(t.Context(), query)
	all, err := scanAll(rows, err, func(r *sql.Rows) (s size, err error) { return s, r.Scan(&s.name, &s.bytes) })
	require.NoError(t, err)
	for _, s := range all {
		t.Logf("%-24s %7.1f MB", s.name, float64(s.bytes)/1e6)
	}
}

func largeCount(t *testing.T) int {
	text := os.Getenv(entriesEnv)
	if text == "" {
		t.Skipf("%s is not set, so a large daybook is not tested; 1000000 is what the daybook is made for", entriesEnv)
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 10_000 {
		t.Fatalf("%s = %q: at least 10000", entriesEnv, text)
	}
	return n
}

// large times what a teacher and a bot do with a daybook of n entries, nearly
// all of them in one busy room and the rest spread over 999.
func large(t *testing.T, b *Book, n int) {
	busy := Filter{Platform: "discord", Guild: "g0", Channel: "c0"}
	quiet := Filter{Platform: "discord", Guild: "g7", Channel: "c7"}
	with := func(f Filter, change func(*Filter)) Filter { change(&f); return f }
	day := func(i int) time.Time { return largeStart.Add(time.Duration(i) * 24 * time.Hour) }
	last := int(time.Duration(n) * largeStep / (24 * time.Hour))
	const some = -1 // a full page or what there is
	for _, c := range []struct {
		name  string
		f     Filter
		found int
		// rare is what nobody asks every day.
		rare bool
	}{
		{"busy room, latest page", busy, some, false},
		{"busy room, a page far back", with(busy, func(f *Filter) { f.Before = int64(n / 2) }), some, false},
		{"busy room, the first page of all", with(busy, func(f *Filter) { f.Before = 15 }), some, true},
		{"quiet room, latest page", quiet, some, false},
		{"a word of every entry", with(busy, func(f *Filter) { f.Text = "sterling" }), some, false},
		{"two frequent words", with(busy, func(f *Filter) { f.Text = "collet oval" }), some, false},
		{"two frequent words, far back", with(busy, func(f *Filter) { f.Text, f.Before = "collet oval", int64(n/2) }), some, false},
		{"a word of one entry", with(busy, func(f *Filter) { f.Text = "needle" }), 1, false},
		{"frequent words and that word", with(busy, func(f *Filter) { f.Text = "needle sterling collet" }), some, false},
		{"a word of other rooms only", with(busy, func(f *Filter) { f.Text = "quietly" }), 0, false},
		{"frequent words never together", with(busy, func(f *Filter) { f.Text = "odd even" }), 0, true},
		{"three of them", with(busy, func(f *Filter) { f.Text = "odd even sterling" }), 0, true},
		{"frequent words once together", with(busy, func(f *Filter) { f.Text = "left right" }), 1, true},
		{"frequent words of two halves", with(busy, func(f *Filter) { f.Text = "early late" }), 0, true},
		{"a frequent and a scarce word", with(busy, func(f *Filter) { f.Text = "odd scarce" }), 0, true},
		{"a frequent and a scattered word", with(busy, func(f *Filter) { f.Text = "odd scattered" }), 0, true},
		{"quiet room, frequent word", with(quiet, func(f *Filter) { f.Text = "collet" }), some, false},
		{"quiet room, two frequent words", with(quiet, func(f *Filter) { f.Text = "collet sterling" }), some, false},
		{"by maker", with(busy, func(f *Filter) { f.Maker = "m3" }), some, false},
		{"by maker and a word", with(busy, func(f *Filter) { f.Maker, f.Text = "m3", "oval" }), some, false},
		{"by maker and words never together", with(busy, func(f *Filter) { f.Maker, f.Text = "m3", "odd even" }), 0, true},
		{"by request and outline", with(busy, func(f *Filter) { f.Request, f.Outline = "collet", "pear" }), some, false},
		{"refusals of a maker", with(busy, func(f *Filter) { f.Maker, f.Status = "m3", Refused }), some, false},
		{"the first day", with(busy, func(f *Filter) { f.To = day(1) }), some, false},
		{"a day in the middle", with(busy, func(f *Filter) { f.From, f.To = day(last/2), day(last/2+1) }), some, false},
		{"the last day", with(busy, func(f *Filter) { f.From = day(last) }), some, false},
		{"before all days", with(busy, func(f *Filter) { f.To = day(0) }), 0, false},
		{"all days", with(busy, func(f *Filter) { f.From, f.To = day(0), day(last+1) }), some, true},
		{"quiet room, the first days", with(quiet, func(f *Filter) { f.To = day(40) }), some, false},
		{"a word, the first day", with(busy, func(f *Filter) { f.Text, f.To = "collet", day(1) }), some, false},
		{"request, outline, the first day", with(busy, func(f *Filter) { f.Request, f.Outline, f.To = "collet", "pear", day(1) }), some, false},
		{"maker, word, the first days", with(busy, func(f *Filter) { f.Maker, f.Text, f.To = "m3", "oval", day(40) }), some, false},
		{"never together, in the first half", with(busy, func(f *Filter) { f.Text, f.To = "odd even", day(last/2) }), 0, true},
		{"a scattered word, the first day", with(busy, func(f *Filter) { f.Text, f.To = "scattered even", day(1) }), some, true},
	} {
		var took []time.Duration
		for range 21 {
			start := time.Now()
			all, err := b.List(t.Context(), c.f)
			took = append(took, time.Since(start))
			require.NoError(t, err)
			if c.found == some && len(all) == 0 || c.found != some && len(all) != c.found {
				t.Fatalf("%s: %d entries", c.name, len(all))
			}
		}
		first := took[0]
		slices.Sort(took)
		median, worst := took[len(took)/2], took[len(took)-1]
		t.Logf("%-34s first %8v  median %8v  worst %8v", c.name, first.Round(10*time.Microsecond), median.Round(10*time.Microsecond), worst.Round(10*time.Microsecond))
		limit := 50 * time.Millisecond
		if c.rare && n > 100_000 {
			limit = time.Second
		}
		assert.LessOrEqual(t, median, limit, c.name)
		assert.LessOrEqual(t, worst, time.Second, c.name)
	}

	for _, f := range []Filter{busy, quiet} {
		start := time.Now()
		s, err := b.Summary(t.Context(), f)
		require.NoError(t, err)
		t.Logf("summary of %d entries in %v", s.Total, time.Since(start).Round(time.Millisecond))
	}

	var took []time.Duration
	for i := range 1000 {
		e := anotherEntry(n, i)
		start := time.Now()
		mustRecord(t, b, e)
		took = append(took, time.Since(start))
	}
	slices.Sort(took)
	t.Logf("recording one by one: median %v, 99 of 100 within %v, worst %v", took[500].Round(10*time.Microsecond),
		took[990].Round(10*time.Microsecond), took[999].Round(10*time.Microsecond))
	const more, workers = 5000, 8
	start := time.Now()
	var wg sync.WaitGroup
	for worker := range workers {
		wg.Go(func() {
			for i := worker; i < more; i += workers {
				_, _, err := b.Record(t.Context(), anotherEntry(n, 1000+i))
				assert.NoError(t, err)
			}
		})
	}
	wg.Wait()
	t.Logf("recording by %d at once: %.0f a second", workers, more/time.Since(start).Seconds())
	assert.LessOrEqual(t, took[990], 500*time.Millisecond, "99 of 100 recordings")

	start = time.Now()
	gone, err := b.ForgetMaker(t.Context(), "discord", "m7")
	require.NoError(t, err)
	t.Logf("forgetting a maker with %d entries: %v", gone, time.Since(start).Round(time.Millisecond))
}

// largeStep is from one entry to the next.
const largeStep = 30 * time.Second

var largeStart = time.Date(2031, 1, 1, 0, 0, 0, 0, time.UTC)

// largeEntry is entry number i; an answer is about as long as real ones are.
func largeEntry(random *rand.Rand, i int) Entry {
	outlines := []string{"oval", "round", "pear", "marquise", "emerald", "cushion", "heart", "hexagon"}
	requests := []string{"collet", "collet", "collet", "bezel", "dome", "gauge"}
	room := 0
	marks := []string{[]string{"even", "odd"}[i%2], []string{"left", "right"}[i/2%2], []string{"early", "late"}[min(i/500_000, 1)]}
	switch {
	case i%16 == 15:
		room, marks = 1+random.IntN(999), []string{"quietly"}
	case i == 4:
		marks = append(marks, "needle")
	case i == 5:
		marks = append(marks, "left", "right")
	}
	if i%1000 == 0 {
		marks = append(marks, "scarce")
	}
	if i%150 == 0 {
		marks = append(marks, "scattered")
	}
	request, outline := requests[random.IntN(len(requests))], outlines[random.IntN(len(outlines))]
	line := fmt.Sprintf("%s %s %dx%d depth %d sterling %dga", request, outline, 6+random.IntN(9), 4+random.IntN(9), 3+random.IntN(5), 18+random.IntN(8))
	e := Entry{
		At: largeStart.Add(time.Duration(i) * largeStep), DeliveredAt: largeStart.Add(time.Duration(i)*largeStep + time.Second),
		Key:   Key{"discord", fmt.Sprint("c", room), fmt.Sprint(100_000_000_000 + i)},
		Guild: fmt.Sprint("g", room), Maker: fmt.Sprint("m", random.IntN(400)),
		Typed: line + " " + strings.Join(marks, " "), Request: request, Line: line, Outline: outline, Status: Answered, Version: "1.0.0",
		Headline: fmt.Sprintf("cut %d.%d x %d.%d mm from 0.%02d mm sterling", 20+random.IntN(30), random.IntN(10), 5+random.IntN(9), random.IntN(10), random.IntN(99)),
		Answer:   json.RawMessage(`{"Steps":"` + strings.Repeat("anneal, pickle, rinse, dry; ", 50) + `"}`),
		Figures:  json.RawMessage(`[{"id":"rim_length","label":"rim length","value":32.400000000000006,"unit":"mm"}]`),
	}
	if random.IntN(10) == 0 {
		e.Status, e.Problem = Refused, fmt.Sprintf("lean %d degrees is over 45 degrees", 46+random.IntN(30))
	}
	return e
}

// anotherEntry comes after those of a daybook of n; its event is new in one that
// was measured before, too.
func anotherEntry(n, i int) Entry {
	e := largeEntry(rand.New(rand.NewPCG(1, uint64(i))), n+i)
	e.Key.Message = fmt.Sprint("another ", rand.Uint64())
	return e
}

func fill(t *testing.T, b *Book, n int) {
	t.Helper()
	const batch, seed = 5000, 1_000_000
	random := rand.New(rand.NewPCG(seed, 0))
	for from := 0; from < n; from += batch {
		err := b.inTx(t.Context(), func(tx *sql.Tx, now int64) error {
			for i := from; i < min(from+batch, n); i++ {
				if _, _, err := b.insert(context.Background(), tx, now, largeEntry(random, i)); err != nil {
					return err
				}
			}
			return nil
		})
		require.NoError(t, err)
	}
}
