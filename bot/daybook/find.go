package daybook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// query is the part after FROM that chooses a room's entries.
type query struct {
	from  string
	id    string // the column to order by: the index in use has it
	where string
	args  []any
}

func (q *query) and(condition string, arg any) {
	q.args = append(q.args, arg)
	if q.where != "" {
		q.where += ` AND `
	}
	q.where += fmt.Sprintf(condition, fmt.Sprintf("$%d", len(q.args)))
}

// roomAndWords gives a filter's room, and the words that its text and columns
// ask for; ErrNotFound where its room has no entries.
func (b *Book) roomAndWords(ctx context.Context, f Filter) (int64, []string, error) {
	if f.Platform == "" || f.Channel == "" {
		return 0, nil, errors.New("daybook: a query needs its platform and channel")
	}
	room, err := findRoom(ctx, b.read, f.Room())
	return room, append(facets(f.Maker, f.Request, f.Outline, f.Status), splitWords(clean(f.Text))...), err
}

// throughWords makes the query go by the entries of the first word, and leaves
// out those that lack another one.
func (q *query) throughWords(room int64, words []string) {
	// CROSS JOIN keeps SQLite from reordering.
	q.from, q.id = `words w CROSS JOIN entries e`, `w.entry`
	q.and(`w.room = %s AND e.id = w.entry`, room)
	q.and(`w.word = %s`, words[0])
	for _, word := range words[1:] {
		q.and(`EXISTS (SELECT 1 FROM words x WHERE x.room = w.room AND x.word = %s AND x.entry = w.entry)`, word)
	}
}

// choose makes the query of all that a filter chooses.
func (b *Book) choose(ctx context.Context, f Filter) (*query, error) {
	room, words, err := b.roomAndWords(ctx, f)
	if err != nil {
		return nil, err
	}
	if err := b.rarestFirst(ctx, room, words); err != nil {
		return nil, err
	}
	q := &query{from: `entries e`, id: `e.id`}
	q.and(`e.room = %s`, room)
	if len(words) > 0 {
		q.throughWords(room, words)
	}
	if !f.From.IsZero() {
		q.and(`e.at >= %s`, micros(f.From))
	}
	if !f.To.IsZero() {
		q.and(`e.at < %s`, micros(f.To))
	}
	return q, nil
}

// rarestFirst puts the word with the fewest entries in front. Counting stops
// at a number that is quick to read through.
func (b *Book) rarestFirst(ctx context.Context, room int64, words []string) error {
	if len(words) < 2 {
		return nil
	}
	const enough = 2000
	counts := make(map[string]int, len(words))
	for _, w := range words {
		var n int
		err := b.read.QueryRowContext(ctx, `SELECT COUNT(*) FROM (SELECT 1 FROM words WHERE room = $1 AND word = $2 LIMIT $3) AS few`,
			room, w, enough).Scan(&n)
		if err != nil {
			return err
		}
		counts[w] = n
	}
	slices.SortStableFunc(words, func(a, b string) int { return counts[a] - counts[b] })
	return nil
}

// maxProblems is how many sentences a Summary lists.
const maxProblems = 50

// Summary counts the entries that the filter chooses; Before and Limit are
// ignored.
func (b *Book) Summary(ctx context.Context, f Filter) (Summary, error) {
	s, err := b.summary(ctx, f)
	return s, b.explain(err)
}

func (b *Book) summary(ctx context.Context, f Filter) (Summary, error) {
	q, err := b.choose(ctx, f)
	if errors.Is(err, ErrNotFound) {
		return Summary{}, nil
	}
	if err != nil {
		return Summary{}, err
	}
	type group struct {
		request, outline, status string
		n                        int
	}
	rows, err := b.read.QueryContext(ctx, `SELECT e.request, e.outline, e.status, COUNT(*) FROM `+q.from+` WHERE `+q.where+
		` GROUP BY e.request, e.outline, e.status`, q.args...)
	groups, err := scanAll(rows, err, func(r *sql.Rows) (g group, err error) {
		return g, r.Scan(&g.request, &g.outline, &g.status, &g.n)
	})
	if err != nil {
		return Summary{}, err
	}
	var s Summary
	requests, outlines, statuses := map[string]int{}, map[string]int{}, map[string]int{}
	for _, g := range groups {
		s.Total += g.n
		requests[g.request] += g.n
		statuses[g.status] += g.n
		if g.outline != "" {
			outlines[g.outline] += g.n
		}
	}
	s.Requests, s.Outlines, s.Statuses = byCount(requests), byCount(outlines), byCount(statuses)
	s.Problems, err = b.problems(ctx, f)
	return s, err
}

// problems counts the sentences of refusals and faults. They are few among the
// answers, so they are found by their status; each sentence is of one.
func (b *Book) problems(ctx context.Context, f Filter) ([]Count, error) {
	var all []Count
	for _, status := range []Status{Refused, Failed} {
		if f.Status != "" && f.Status != status {
			continue
		}
		of := f
		of.Status = status
		q, err := b.choose(ctx, of)
		if err != nil {
			return nil, err
		}
		rows, err := b.read.QueryContext(ctx, fmt.Sprintf(`SELECT e.problem, COUNT(*) FROM %s WHERE %s AND e.problem <> ''
			GROUP BY e.problem ORDER BY COUNT(*) DESC, e.problem LIMIT %d`, q.from, q.where, maxProblems), q.args...)
		counts, err := scanAll(rows, err, func(r *sql.Rows) (c Count, err error) {
			return c, r.Scan(&c.Name, &c.N)
		})
		if err != nil {
			return nil, err
		}
		all = append(all, counts...)
	}
	slices.SortFunc(all, compareCounts) // the stores collate differently
	return all[:min(len(all), maxProblems)], nil
}

func byCount(m map[string]int) []Count {
	var all []Count
	for name, n := range m {
		all = append(all, Count{name, n})
	}
	slices.SortFunc(all, compareCounts)
	return all
}

// compareCounts orders by falling count, then by name.
func compareCounts(a, b Count) int {
	if a.N != b.N {
		return b.N - a.N
	}
	return strings.Compare(a.Name, b.Name)
}
