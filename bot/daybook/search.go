package daybook

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
)

// List gives a page of a room's entries, latest first, in the order in which
// they were recorded (the clock may have been set back in between).
func (b *Book) List(ctx context.Context, f Filter) ([]Entry, error) {
	all, err := b.list(ctx, f)
	if errors.Is(err, ErrNotFound) {
		return nil, nil
	}
	return all, b.explain(err)
}

// search is a filter made ready.
type search struct {
	room  int64
	words []string
	// from and to bound the time, from <= at < to.
	from, to int64
	// dated is set where they bound it at all.
	dated bool
}

// stretch is a range of ids, low <= id < high.
type stretch struct{ low, high int64 }

func (s stretch) empty() bool { return s.low >= s.high }

// list looks from the latest entry back. What is not filed yet is at most a
// block, and looked through entry by entry; further back, days are found by
// what is filed of the blocks, and so are several words of which none is scarce.
func (b *Book) list(ctx context.Context, f Filter) ([]Entry, error) {
	limit := f.Limit
	if limit <= 0 {
		limit = 20
	}
	limit = min(limit, MaxPage)
	s, err := b.newSearch(ctx, f)
	if err != nil {
		return nil, err
	}
	whole := stretch{0, math.MaxInt64}
	if f.Before > 0 {
		whole.high = f.Before
	}
	if len(s.words) < 2 && !s.dated {
		return b.through(ctx, s, whole, limit)
	}
	next, _, err := filedUpTo(ctx, b.read)
	if err != nil {
		return nil, err
	}
	filed, fresh := whole, whole
	filed.high = min(whole.high, firstOf(next))
	fresh.low = filed.high
	var page []Entry
	if !fresh.empty() {
		if page, err = b.through(ctx, s, fresh, limit); err != nil || len(page) >= limit {
			return page, err
		}
	}
	if s.dated {
		if filed, err = b.daysIn(ctx, s, filed); err != nil {
			return nil, err
		}
	}
	if filed.empty() {
		return page, nil
	}
	look := b.through
	if len(s.words) > 1 {
		scarce, err := b.scarcestFirst(ctx, s, filed)
		if err != nil {
			return nil, err
		}
		if !scarce {
			look = b.throughBlocks
		}
	}
	more, err := look(ctx, s, filed, limit-len(page))
	return append(page, more...), err
}

func (b *Book) newSearch(ctx context.Context, f Filter) (*search, error) {
	room, words, err := b.roomAndWords(ctx, f)
	s := &search{room: room, words: words, from: math.MinInt64, to: math.MaxInt64}
	if !f.From.IsZero() {
		s.from, s.dated = micros(f.From), true
	}
	if !f.To.IsZero() {
		s.to, s.dated = micros(f.To), true
	}
	return s, err
}

// through reads a stretch by the index of the room or of the first word.
func (b *Book) through(ctx context.Context, s *search, in stretch, limit int) ([]Entry, error) {
	q := &query{from: `entries e`, id: `e.id`}
	q.and(`e.room = %s`, s.room)
	if len(s.words) > 0 {
		q.throughWords(s.room, s.words)
	}
	if in.low > 0 {
		q.and(q.id+` >= %s`, in.low)
	}
	if in.high < math.MaxInt64 {
		q.and(q.id+` < %s`, in.high)
	}
	if s.dated {
		q.and(`e.at >= %s`, s.from)
		q.and(`e.at < %s`, s.to)
	}
	return scanEntries(b.read.QueryContext(ctx, fmt.Sprintf(`SELECT %s FROM %s WHERE %s ORDER BY %s DESC LIMIT %d`,
		entryColumns, q.from, q.where, q.id, limit), q.args...))
}

// daysIn cuts a filed stretch to the blocks in which the room has entries of
// the days.
func (b *Book) daysIn(ctx context.Context, s *search, in stretch) (stretch, error) {
	if in.empty() {
		return in, nil
	}
	var first, last int64
	err := b.read.QueryRowContext(ctx, `SELECT COALESCE(MIN(block), 0), COALESCE(MAX(block), -1) FROM blocks
		WHERE room = $1 AND block >= $2 AND block <= $3 AND first < $4 AND last >= $5`,
		s.room, blockOf(in.low), blockOf(in.high-1), s.to, s.from).Scan(&first, &last)
	return stretch{max(in.low, firstOf(first)), min(in.high, firstOf(last+1))}, err
}

// scarcestFirst puts the word with the fewest entries of a filed stretch in
// front, and tells whether they are so few that to try each of them is the
// shortest way.
func (b *Book) scarcestFirst(ctx context.Context, s *search, in stretch) (scarce bool, err error) {
	const few = 300
	fewest, first := few, 0
	for i, w := range s.words {
		var n int
		err := b.read.QueryRowContext(ctx, `SELECT COUNT(*) FROM (SELECT 1 FROM words WHERE room = $1 AND word = $2 AND entry >= $3 AND entry < $4 LIMIT $5) AS few`,
			s.room, w, in.low, in.high, few).Scan(&n)
		if err != nil {
			return false, err
		}
		if n < fewest {
			fewest, first = n, i
		}
	}
	s.words[0], s.words[first] = s.words[first], s.words[0]
	return fewest < few, nil
}

// Blocks are looked at in chunks: few at first, since most pages are found in
// the latest ones.
const (
	firstChunk = 4
	mostChunk  = 64
)

// throughBlocks reads a filed stretch block by block, by what is filed of the
// words.
func (b *Book) throughBlocks(ctx context.Context, s *search, in stretch, limit int) ([]Entry, error) {
	var page []Entry
	chunk := int64(firstChunk)
	for high := blockOf(in.high-1) + 1; high > blockOf(in.low) && len(page) < limit; chunk = min(4*chunk, mostChunk) {
		low := max(high-chunk, blockOf(in.low))
		c, err := b.readChunk(ctx, s, low, high)
		if err != nil {
			return nil, err
		}
		var found []int64
		for block := high - 1; block >= low && len(found) < limit; block-- {
			m, err := c.matches(ctx, block)
			if err != nil {
				return nil, err
			}
			for _, id := range m.idsFrom(block) {
				if id >= in.low && id < in.high {
					found = append(found, id)
				}
			}
			if len(found) >= limit {
				low = block // the next chunk begins under it
			}
		}
		// An entry may be gone by the time it is read.
		for len(found) > 0 && len(page) < limit {
			n := min(len(found), limit-len(page), mostInList)
			entries, err := b.byIDs(ctx, found[:n])
			if err != nil {
				return nil, err
			}
			page, found = append(page, entries...), found[n:]
		}
		high = low
	}
	return page, nil
}

// byIDs gives those of some entries that are there, latest first.
func (b *Book) byIDs(ctx context.Context, ids []int64) ([]Entry, error) {
	places, args := list(nil, ids)
	return scanEntries(b.read.QueryContext(ctx, `SELECT `+entryColumns+` FROM entries e
		WHERE e.id IN (`+places+`) ORDER BY e.id DESC`, args...))
}

// chunk is what is filed of some blocks, for one search.
type chunk struct {
	b     *Book
	s     *search
	spans map[int64]span
	// common has the bits of each word, by block.
	common []map[int64]*bitmap
	low    int64
	// sparse has, for a word and the blocks of a run in which it is not common,
	// the bits from the words table.
	sparse []map[int64]*bitmap
}

func (b *Book) readChunk(ctx context.Context, s *search, low, high int64) (*chunk, error) {
	c := &chunk{b: b, s: s, low: low, spans: map[int64]span{}}
	rows, err := b.read.QueryContext(ctx, `SELECT block, first, last FROM blocks WHERE room = $1 AND block >= $2 AND block < $3`, s.room, low, high)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var block int64
		var one span
		if err := rows.Scan(&block, &one.first, &one.last); err != nil {
			return nil, err
		}
		c.spans[block] = one
	}
	if err := rows.Err(); err != nil {
		return nil, err
	}
	for _, w := range s.words {
		found, err := b.commonOf(ctx, s.room, w, low, high)
		if err != nil {
			return nil, err
		}
		c.common = append(c.common, found)
		c.sparse = append(c.sparse, map[int64]*bitmap{})
	}
	return c, nil
}

func (b *Book) commonOf(ctx context.Context, room int64, word string, low, high int64) (map[int64]*bitmap, error) {
	rows, err := b.read.QueryContext(ctx, `SELECT block, bits FROM common WHERE room = $1 AND word = $2 AND block >= $3 AND block < $4`,
		room, word, low, high)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	found := map[int64]*bitmap{}
	for rows.Next() {
		var block int64
		var raw []byte
		if err := rows.Scan(&block, &raw); err != nil {
			return nil, err
		}
		m, err := bitmapOf(raw)
		if err != nil {
			return nil, err
		}
		found[block] = &m
	}
	return found, rows.Err()
}

// matches are the entries of a block that have every word and are of the days.
func (c *chunk) matches(ctx context.Context, block int64) (m bitmap, err error) {
	made, has := c.spans[block]
	if !has || made.last < c.s.from || made.first >= c.s.to {
		return m, nil
	}
	for i := range m {
		m[i] = math.MaxUint64
	}
	var rest []int
	for i, common := range c.common {
		if bits := common[block]; bits != nil {
			m.and(bits)
		} else {
			rest = append(rest, i)
		}
	}
	for _, i := range rest {
		if m.empty() {
			return m, nil
		}
		bits, err := c.sparseBits(ctx, i, block)
		if err != nil {
			return m, err
		}
		m.and(bits)
	}
	if !m.empty() && (made.first < c.s.from || made.last >= c.s.to) {
		bits, err := c.b.bitsOf(ctx, stretch{firstOf(block), firstOf(block + 1)}, `SELECT e.id FROM entries e
			WHERE e.room = $1 AND e.id >= $2 AND e.id < $3 AND e.at >= $4 AND e.at < $5`, c.s.room, c.s.from, c.s.to)
		if err != nil {
			return m, err
		}
		one := bits[block]
		if one == nil {
			one = &bitmap{}
		}
		m.and(one)
	}
	return m, nil
}

// sparseBits are those of a word in a block in which it is not common. The
// blocks before in which it is not common either are read with it.
func (c *chunk) sparseBits(ctx context.Context, word int, block int64) (*bitmap, error) {
	if bits := c.sparse[word][block]; bits != nil {
		return bits, nil
	}
	low := block
	for low > c.low && c.common[word][low-1] == nil {
		low--
	}
	found, err := c.b.bitsOf(ctx, stretch{firstOf(low), firstOf(block + 1)}, `SELECT entry FROM words
		WHERE room = $1 AND entry >= $2 AND entry < $3 AND word = $4`, c.s.room, c.s.words[word])
	if err != nil {
		return nil, err
	}
	for at := low; at <= block; at++ {
		if found[at] == nil {
			found[at] = &bitmap{}
		}
		c.sparse[word][at] = found[at]
	}
	return c.sparse[word][block], nil
}

// bitsOf gives the ids that a statement finds in a stretch, by block. Its
// arguments are the room, the stretch, and what else is given.
func (b *Book) bitsOf(ctx context.Context, in stretch, statement string, room int64, args ...any) (map[int64]*bitmap, error) {
	rows, err := b.read.QueryContext(ctx, statement, slices.Concat([]any{room, in.low, in.high}, args)...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	found := map[int64]*bitmap{}
	for rows.Next() {
		var id int64
		if err := rows.Scan(&id); err != nil {
			return nil, err
		}
		m := found[blockOf(id)]
		if m == nil {
			m = &bitmap{}
			found[blockOf(id)] = m
		}
		m.set(placeIn(id))
	}
	return found, rows.Err()
}
