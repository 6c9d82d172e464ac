package daybook

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"maps"
	"math/bits"
	"slices"
	"strings"
	"sync/atomic"
)

// Once every id of a block is given, the block is filed: for each room, when
// its entries were made, and for each word that is common among them, which of
// them have it. A search for several common words takes them from there, since
// in the words table it would have to try each entry that has one of them; a
// search for days finds there where they begin and end. Everything else is
// looked up in the words table, which holds the filed entries too.
//
// The ids of one block are in the order in which entries were recorded, so a
// block is complete once a later id is there and nobody records any more: on
// SQLite by the write lock, on PostgreSQL by the lock of store.filing.

const (
	blockSize = 4096
	// commonFrom is in how many entries of a block a word is common. Of any other
	// the words table gives all entries of a block at once.
	commonFrom = 32
)

func blockOf(id int64) int64      { return id / blockSize }
func firstOf(block int64) int64   { return block * blockSize }
func placeIn(id int64) (bit uint) { return uint(id % blockSize) }

// bitmap has a bit for each id of a block.
type bitmap [blockSize / 64]uint64

func (m *bitmap) set(bit uint)   { m[bit/64] |= 1 << (bit % 64) }
func (m *bitmap) clear(bit uint) { m[bit/64] &^= 1 << (bit % 64) }

func (m *bitmap) and(other *bitmap) {
	for i := range m {
		m[i] &= other[i]
	}
}

func (m *bitmap) empty() bool { return *m == bitmap{} }

// bytes is how a bitmap is stored: the bit of the first id is the lowest of
// the first byte.
func (m *bitmap) bytes() []byte {
	b := make([]byte, 0, blockSize/8)
	for _, w := range m {
		b = append(b, byte(w), byte(w>>8), byte(w>>16), byte(w>>24), byte(w>>32), byte(w>>40), byte(w>>48), byte(w>>56))
	}
	return b
}

func bitmapOf(b []byte) (m bitmap, err error) {
	if len(b) != blockSize/8 {
		return m, fmt.Errorf("daybook: a block has %d bytes", len(b))
	}
	for i, v := range b {
		m[i/8] |= uint64(v) << (i % 8 * 8)
	}
	return m, nil
}

// idsFrom gives the ids of a block's bits, latest first.
func (m *bitmap) idsFrom(block int64) []int64 {
	var ids []int64
	for i := len(m) - 1; i >= 0; i-- {
		for w := m[i]; w != 0; {
			top := 63 - bits.LeadingZeros64(w)
			ids = append(ids, firstOf(block)+int64(i*64+top))
			w &^= 1 << top
		}
	}
	return ids
}

// filing tells whether there may be a block to file.
type filing struct {
	// newest is the largest id given so far, by this process; due is the one
	// with which the next block is complete.
	newest, due atomic.Int64
	busy        atomic.Bool
}

func (f *filing) saw(id int64) {
	for {
		was := f.newest.Load()
		if id <= was || f.newest.CompareAndSwap(was, id) {
			return
		}
	}
}

// fileIfDue files the blocks that are complete by now. What goes wrong is left
// for the next time: a search takes longer, and finds the same.
func (b *Book) fileIfDue(ctx context.Context) {
	f := &b.filing
	if f.newest.Load() < f.due.Load() || !f.busy.CompareAndSwap(false, true) {
		return
	}
	defer f.busy.Store(false)
	if err := b.fileAll(context.WithoutCancel(ctx)); err != nil {
		f.due.Store(f.newest.Load() + blockSize/8)
	}
}

// fileAll files every block that is complete.
func (b *Book) fileAll(ctx context.Context) error {
	// Most of the time there is nothing to lock for.
	next, newest, err := filedUpTo(ctx, b.write)
	if err != nil {
		return err
	}
	b.filing.due.Store(firstOf(next+1) - 1)
	if newest < b.filing.due.Load() {
		return nil
	}
	for {
		var next int64
		more := false
		err := b.byItself(ctx, func(tx *sql.Tx, _ int64) error {
			var err error
			next, more, err = b.fileBlock(ctx, tx)
			return err
		})
		if err != nil {
			return err
		}
		b.filing.due.Store(firstOf(next+1) - 1)
		if !more {
			return nil
		}
	}
}

// fileBlock files the next block, if it is complete; more tells that the one
// after it may be too.
func (b *Book) fileBlock(ctx context.Context, tx *sql.Tx) (next int64, more bool, err error) {
	if err := takeLock(ctx, tx, b.store.filing); err != nil {
		return 0, false, err
	}
	next, newest, err := filedUpTo(ctx, tx)
	if err != nil || newest < firstOf(next+1)-1 {
		return next, false, err
	}
	filed, err := readBlock(ctx, tx, next)
	if err != nil {
		return 0, false, err
	}
	if err := filed.write(ctx, tx, next); err != nil {
		return 0, false, err
	}
	_, err = tx.ExecContext(ctx, `UPDATE next_block SET block = $1 WHERE id = 1`, next+1)
	return next + 1, newest >= firstOf(next+2)-1, err
}

// filedUpTo gives the first block that is not filed, and the newest entry.
func filedUpTo(ctx context.Context, db queryer) (next, newest int64, err error) {
	err = db.QueryRowContext(ctx, `SELECT block, (SELECT COALESCE(MAX(id), 0) FROM entries) FROM next_block WHERE id = 1`).Scan(&next, &newest)
	return next, newest, err
}

// takeLock takes one of the store's locks until the transaction's end.
func takeLock(ctx context.Context, tx *sql.Tx, statement string) error {
	if statement == "" {
		return nil
	}
	_, err := tx.ExecContext(ctx, statement)
	return err
}

// roomWord is a word of a room.
type roomWord struct {
	room int64
	word string
}

// span is when a room's entries of a block were made.
type span struct{ first, last int64 }

// blockContent is what is filed of a block.
type blockContent struct {
	spans map[int64]span
	// places are where a word stands.
	places map[roomWord][]uint16
}

func readBlock(ctx context.Context, tx *sql.Tx, block int64) (blockContent, error) {
	c := blockContent{map[int64]span{}, map[roomWord][]uint16{}}
	rows, err := tx.QueryContext(ctx, `SELECT id, room, at, words FROM entries WHERE id >= $1 AND id < $2`, firstOf(block), firstOf(block+1))
	if err != nil {
		return c, err
	}
	defer rows.Close()
	for rows.Next() {
		var id, room, at int64
		var words string
		if err := rows.Scan(&id, &room, &at, &words); err != nil {
			return c, err
		}
		s, seen := c.spans[room]
		if !seen {
			s = span{at, at}
		}
		c.spans[room] = span{min(s.first, at), max(s.last, at)}
		for w := range strings.SplitSeq(words, wordSeparator) {
			if w != "" {
				key := roomWord{room, w}
				c.places[key] = append(c.places[key], uint16(placeIn(id)))
			}
		}
	}
	return c, rows.Err()
}

func (c blockContent) write(ctx context.Context, tx *sql.Tx, block int64) error {
	for room, s := range c.spans {
		_, err := tx.ExecContext(ctx, `INSERT INTO blocks (room, block, first, last) VALUES ($1, $2, $3, $4)`, room, block, s.first, s.last)
		if err != nil {
			return err
		}
	}
	for key, places := range c.places {
		if len(places) < commonFrom {
			continue
		}
		var m bitmap
		for _, p := range places {
			m.set(uint(p))
		}
		_, err := tx.ExecContext(ctx, `INSERT INTO common (room, word, block, bits) VALUES ($1, $2, $3, $4)`, key.room, key.word, block, m.bytes())
		if err != nil {
			return err
		}
	}
	return nil
}

// doomed is an entry that is being removed.
type doomed struct {
	id, room, at int64
	words        string
}

// unfile takes removed entries out of what is filed.
func (b *Book) unfile(ctx context.Context, tx *sql.Tx, removed []doomed) error {
	type part struct{ room, block int64 }
	parts := map[part][]doomed{}
	for _, d := range removed {
		at := part{d.room, blockOf(d.id)}
		parts[at] = append(parts[at], d)
	}
	// In one order, so that of two who remove none waits for the other.
	order := slices.SortedFunc(maps.Keys(parts), func(a, b part) int {
		return cmp.Or(cmp.Compare(a.room, b.room), cmp.Compare(a.block, b.block))
	})
	for _, at := range order {
		var s span
		err := tx.QueryRowContext(ctx, `SELECT first, last FROM blocks WHERE room = $1 AND block = $2`+b.store.forUpdate, at.room, at.block).
			Scan(&s.first, &s.last)
		if errors.Is(err, sql.ErrNoRows) {
			continue // not filed yet
		}
		if err != nil {
			return err
		}
		list := parts[at]
		if err := unfileWords(ctx, tx, at.room, at.block, list); err != nil {
			return err
		}
		if slices.ContainsFunc(list, func(d doomed) bool { return d.at <= s.first || d.at >= s.last }) {
			if err := refileSpan(ctx, tx, at.room, at.block); err != nil {
				return err
			}
		}
	}
	return nil
}

func unfileWords(ctx context.Context, tx *sql.Tx, room, block int64, removed []doomed) error {
	places := map[string][]uint{}
	for _, d := range removed {
		for w := range strings.SplitSeq(d.words, wordSeparator) {
			places[w] = append(places[w], placeIn(d.id))
		}
	}
	for words := range slices.Chunk(slices.Sorted(maps.Keys(places)), mostInList) {
		filed, err := commonAmong(ctx, tx, room, block, words)
		if err != nil {
			return err
		}
		for word, m := range filed {
			for _, p := range places[word] {
				m.clear(p)
			}
			if m.empty() {
				_, err = tx.ExecContext(ctx, `DELETE FROM common WHERE room = $1 AND word = $2 AND block = $3`, room, word, block)
			} else {
				_, err = tx.ExecContext(ctx, `UPDATE common SET bits = $4 WHERE room = $1 AND word = $2 AND block = $3`, room, word, block, m.bytes())
			}
			if err != nil {
				return err
			}
		}
	}
	return nil
}

// commonAmong gives the bits of those words that are filed as common in a
// block.
func commonAmong(ctx context.Context, tx *sql.Tx, room, block int64, words []string) (map[string]*bitmap, error) {
	places, args := list([]any{room, block}, words)
	rows, err := tx.QueryContext(ctx, `SELECT word, bits FROM common WHERE room = $1 AND block = $2 AND word IN (`+places+`)`, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	found := map[string]*bitmap{}
	for rows.Next() {
		var word string
		var raw []byte
		if err := rows.Scan(&word, &raw); err != nil {
			return nil, err
		}
		m, err := bitmapOf(raw)
		if err != nil {
			return nil, err
		}
		found[word] = &m
	}
	return found, rows.Err()
}

// mostInList is how many values a statement lists at most.
const mostInList = 512

// list makes the part of a statement that lists values, after other arguments.
// The last value is repeated until their number is a power of two, so that
// there are few different statements, which the store knows already.
func list[T any](args []any, values []T) (places string, all []any) {
	n := 1
	for n < len(values) {
		n *= 2
	}
	var b strings.Builder
	for i := range n {
		if i > 0 {
			b.WriteString(", ")
		}
		args = append(args, values[min(i, len(values)-1)])
		fmt.Fprintf(&b, "$%d", len(args))
	}
	return b.String(), args
}

// refileSpan measures a room's entries of a block anew.
func refileSpan(ctx context.Context, tx *sql.Tx, room, block int64) error {
	var first, last sql.NullInt64
	err := tx.QueryRowContext(ctx, `SELECT MIN(at), MAX(at) FROM entries WHERE room = $1 AND id >= $2 AND id < $3`,
		room, firstOf(block), firstOf(block+1)).Scan(&first, &last)
	switch {
	case err != nil:
		return err
	case !first.Valid:
		_, err = tx.ExecContext(ctx, `DELETE FROM blocks WHERE room = $1 AND block = $2`, room, block)
	default:
		_, err = tx.ExecContext(ctx, `UPDATE blocks SET first = $3, last = $4 WHERE room = $1 AND block = $2`, room, block, first.Int64, last.Int64)
	}
	return err
}
