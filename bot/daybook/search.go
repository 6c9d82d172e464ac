package daybook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math"
	"strings"
)

// List returns a page of a room's entries, latest first, in the order in which
// they were recorded (the clock may have been set back in between).
func (b *Book) List(ctx context.Context, f Filter) ([]Entry, error) {
	all, err := b.list(ctx, f)
	if errors.Is(err, ErrNotFound) {
		return nil, nil
	}
	return all, b.explain(err)
}

// DefaultPage is the page's length where a Filter has no Limit.
const DefaultPage = 20

func (b *Book) list(ctx context.Context, f Filter) ([]Entry, error) {
	s, err := b.newSearch(ctx, f)
	if err != nil {
		return nil, err
	}
	if f.Before > 0 {
		s.high = f.Before
	}
	if err := b.boundByTime(ctx, s); err != nil {
		return nil, err
	}
	limit := f.Limit
	if limit <= 0 {
		limit = DefaultPage
	}
	statement, args := b.store.page(s, min(limit, MaxPage))
	return scanEntries(b.read.QueryContext(ctx, statement, args...))
}

// search is a filter made ready for the store.
type search struct {
	room  int64
	words []string // without the room's own
	maker string
	// from <= at < to
	from, to int64
	// low <= id < high
	low, high int64
}

// newSearch returns ErrNotFound if the room has no entries.
func (b *Book) newSearch(ctx context.Context, f Filter) (*search, error) {
	if f.Platform == "" || f.Channel == "" {
		return nil, errors.New("daybook: a query needs its platform and channel")
	}
	s := &search{
		words: append(facets(f.Maker, f.Request, f.Outline, f.Status), splitWords(clean(f.Text))...),
		maker: clean(f.Maker),
		from:  math.MinInt64, to: math.MaxInt64, high: math.MaxInt64,
	}
	if !f.From.IsZero() {
		s.from = micros(f.From)
	}
	if !f.To.IsZero() {
		s.to = micros(f.To)
	}
	var err error
	s.room, err = findRoom(ctx, b.read, f.Room())
	return s, err
}

func (s *search) dated() bool { return s.from > math.MinInt64 || s.to < math.MaxInt64 }

const (
	// dayOf is an entry's day since 1970 UTC; an index holds it.
	dayOf     = `at / 86400000000`
	microsDay = 86_400_000_000
	// manyDays is where to look at every day would take longer than to search
	// without; a clock must have been wrong by a lifetime for it.
	manyDays = 20_000
)

// boundByTime narrows the ids to those of the first and the last entry of the
// search's days. ErrNotFound says that there is none.
func (b *Book) boundByTime(ctx context.Context, s *search) error {
	if !s.dated() {
		return nil
	}
	var first, last int64
	err := b.read.QueryRowContext(ctx, `SELECT COALESCE((SELECT `+dayOf+` FROM entries WHERE room = $1 ORDER BY `+dayOf+` LIMIT 1), 0),
		COALESCE((SELECT `+dayOf+` FROM entries WHERE room = $1 ORDER BY `+dayOf+` DESC LIMIT 1), -1)`, s.room).Scan(&first, &last)
	if err != nil {
		return err
	}
	if s.from <= first*microsDay {
		s.from = math.MinInt64
	} else {
		first = s.from / microsDay
	}
	if s.to >= (last+1)*microsDay {
		s.to = math.MaxInt64
	} else {
		last = s.to / microsDay
	}
	if !s.dated() || last-first > manyDays {
		return nil
	}
	var low, high sql.NullInt64
	err = b.read.QueryRowContext(ctx, boundsOfDays, s.room, first, last).Scan(&low, &high)
	if err != nil {
		return err
	}
	if !low.Valid {
		return ErrNotFound
	}
	s.low, s.high = low.Int64, min(s.high, high.Int64+1)
	return nil
}

// boundsOfDays gives the first and the last entry of a room's days, by two looks
// at an index for each. The plus keeps SQLite from converting the day, for which
// it would not use the index.
const boundsOfDays = `WITH RECURSIVE days (day) AS (
			SELECT CAST($2 AS BIGINT) WHERE CAST($2 AS BIGINT) <= CAST($3 AS BIGINT) UNION ALL SELECT day + 1 FROM days WHERE day < CAST($3 AS BIGINT))
		SELECT MIN(low), MAX(high) FROM (SELECT
			(SELECT id FROM entries WHERE room = $1 AND ` + dayOf + ` = +day ORDER BY id LIMIT 1) AS low,
			(SELECT id FROM entries WHERE room = $1 AND ` + dayOf + ` = +day ORDER BY id DESC LIMIT 1) AS high
			FROM days) AS ends`

// allWords are the words that an entry has to have, its room's included.
func (s *search) allWords() []string {
	return append([]string{fmt.Sprint("room=", s.room)}, s.words...)
}

// query is the part after FROM that chooses entries, as e.
type query struct {
	from, where string
	args        []any
}

func (q *query) and(condition string, arg any) {
	q.args = append(q.args, arg)
	if q.where != "" {
		q.where += ` AND `
	}
	q.where += fmt.Sprintf(condition, fmt.Sprintf("$%d", len(q.args)))
}

// byTime adds the search's times. The plus keeps both stores from reading an
// index of times, whose entries they would have to sort.
func (q *query) byTime(s *search) {
	if s.from > math.MinInt64 {
		q.and(`+e.at >= %s`, s.from)
	}
	if s.to < math.MaxInt64 {
		q.and(`+e.at < %s`, s.to)
	}
}

// byID bounds a column that holds the entry's id.
func (q *query) byID(s *search, column string) {
	if s.low > 0 {
		q.and(column+` >= %s`, s.low)
	}
	if s.high < math.MaxInt64 {
		q.and(column+` < %s`, s.high)
	}
}

// inRoom chooses entries without looking for words.
func inRoom(s *search) *query {
	q := &query{from: `entries e`}
	q.and(`e.room = %s`, s.room)
	q.byTime(s)
	return q
}

// latest makes the statement of a page of what the query chooses.
func (q *query) latest(s *search, id string, limit int) (statement string, args []any) {
	q.byID(s, id)
	return fmt.Sprintf(`SELECT %s FROM %s WHERE %s ORDER BY %s DESC LIMIT %d`, entryColumns, q.from, q.where, id, limit), q.args
}

// chooseSQLite makes the query of all that a search finds in SQLite.
func chooseSQLite(s *search) *query {
	if len(s.words) == 0 {
		return inRoom(s)
	}
	words := s.allWords()
	for i, w := range words {
		words[i] = `"` + strings.ReplaceAll(w, `"`, `""`) + `"`
	}
	// CROSS JOIN keeps SQLite from reordering.
	q := &query{from: `found CROSS JOIN entries e ON e.id = found.rowid`}
	q.and(`found MATCH %s`, strings.Join(words, " "))
	if s.maker != "" {
		// The index does not know capital letters, but makers may differ by them.
		q.and(`e.maker = %s`, s.maker)
	}
	q.byTime(s)
	return q
}

func pageSQLite(s *search, limit int) (statement string, args []any) {
	id := `e.id`
	if len(s.words) > 0 {
		id = `found.rowid`
	}
	return chooseSQLite(s).latest(s, id, limit)
}

// choosePostgres makes the query of all that a search finds in PostgreSQL.
func choosePostgres(s *search) *query {
	if len(s.words) == 0 {
		return inRoom(s)
	}
	quote := strings.NewReplacer(`'`, `''`, `\`, `\\`)
	words := s.allWords()
	for i, w := range words {
		words[i] = `'` + quote.Replace(w) + `'`
	}
	q := &query{from: `entries e`}
	q.and(`e.found @@ %s::tsquery`, strings.Join(words, " & "))
	q.byTime(s)
	return q
}

// chunkBits is the binary logarithm of how many ids a search in PostgreSQL reads
// at once. The index on entries is made for it.
const chunkBits = 14

// pagePostgres looks for words chunk by chunk, the latest first, and stops where
// the page is full. OFFSET 0 makes the server use the index of chunks for each,
// where it would guess wrongly otherwise.
func pagePostgres(s *search, limit int) (statement string, args []any) {
	q := choosePostgres(s)
	if len(s.words) == 0 {
		return q.latest(s, `e.id`, limit)
	}
	q.args = append(q.args, s.low, s.high)
	low, high := len(q.args)-1, len(q.args)
	return fmt.Sprintf(`SELECT %[1]s FROM (
			SELECT x.id FROM generate_series(
				LEAST($%[5]d::bigint, (SELECT MAX(id) FROM entries)) >> %[3]d, $%[4]d::bigint >> %[3]d, -1) chunk
			CROSS JOIN LATERAL (
				SELECT y.id FROM (SELECT e.id FROM entries e WHERE (e.id >> %[3]d) = chunk AND %[2]s OFFSET 0) y
				WHERE y.id >= $%[4]d AND y.id < $%[5]d ORDER BY y.id DESC LIMIT %[6]d) x
			LIMIT %[6]d) page
		JOIN entries e ON e.id = page.id ORDER BY e.id DESC`,
		entryColumns, q.where, chunkBits, low, high, limit), q.args
}
