package daybook

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// maxProblems is how many sentences a Summary lists.
const maxProblems = 50

// Summary counts the entries that the filter chooses; Before and Limit are
// ignored.
func (b *Book) Summary(ctx context.Context, f Filter) (Summary, error) {
	s, err := b.summary(ctx, f)
	return s, b.explain(err)
}

func (b *Book) summary(ctx context.Context, f Filter) (Summary, error) {
	s, err := b.newSearch(ctx, f)
	if errors.Is(err, ErrNotFound) {
		return Summary{}, nil
	}
	if err != nil {
		return Summary{}, err
	}
	q := b.store.choose(s)
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
	var sum Summary
	requests, outlines, statuses := map[string]int{}, map[string]int{}, map[string]int{}
	for _, g := range groups {
		sum.Total += g.n
		requests[g.request] += g.n
		statuses[g.status] += g.n
		if g.outline != "" {
			outlines[g.outline] += g.n
		}
	}
	sum.Requests, sum.Outlines, sum.Statuses = byCount(requests), byCount(outlines), byCount(statuses)
	sum.Problems, err = b.problems(ctx, f)
	return sum, err
}

// problems counts the sentences of refusals and failures. There are few of them
// among the answers, so they are found by their status.
func (b *Book) problems(ctx context.Context, f Filter) ([]Count, error) {
	var all []Count
	for _, status := range []Status{Refused, Failed} {
		if f.Status != "" && f.Status != status {
			continue
		}
		of := f
		of.Status = status
		s, err := b.newSearch(ctx, of)
		if err != nil {
			return nil, err
		}
		q := b.store.choose(s)
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
	return cmp.Or(b.N-a.N, strings.Compare(a.Name, b.Name))
}
