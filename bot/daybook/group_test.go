package daybook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// waitForMembers waits until so many changes wait for the writer.
func waitForMembers(t *testing.T, g *group, n int) {
	t.Helper()
	for end := time.Now().Add(time.Minute); time.Now().Before(end); time.Sleep(time.Millisecond) {
		g.mu.Lock()
		waiting := len(g.waiting)
		g.mu.Unlock()
		if waiting == n {
			return
		}
	}
	t.Fatalf("%d changes don't come to wait", n)
}

// writeTogether lets n changes come while another is being written, calls ready
// when all wait, and gives what each returned.
func writeTogether(t *testing.T, b *Book, n int, ready func(), run func(i int) error) []error {
	t.Helper()
	begun, held := make(chan struct{}), make(chan struct{})
	var wg sync.WaitGroup
	wg.Go(func() {
		assert.NoError(t, b.inTx(t.Context(), func(*sql.Tx, int64) error { close(begun); <-held; return nil }))
	})
	<-begun
	errs := make([]error, n)
	for i := range n {
		wg.Go(func() { errs[i] = run(i) })
	}
	waitForMembers(t, b.group, n)
	ready()
	close(held)
	wg.Wait()
	return errs
}

func TestWaitingChangesShareACommit(t *testing.T) {
	b := mustOpen(t, filepath.Join(t.TempDir(), "book.db"))
	const n = 20
	var mu sync.Mutex
	in := map[*sql.Tx]int{}
	errs := writeTogether(t, b, n, func() {}, func(i int) error {
		return b.inTx(t.Context(), func(tx *sql.Tx, now int64) error {
			mu.Lock()
			in[tx]++
			mu.Unlock()
			_, _, err := b.insert(t.Context(), tx, now, sample(fmt.Sprint(i)))
			return err
		})
	})
	require.NoError(t, errors.Join(errs...))
	assert.Len(t, in, 1, "transactions of %d changes", n)
	all, err := b.List(t.Context(), Filter{Platform: "discord", Guild: "g1", Channel: "c1", Limit: MaxPage})
	assert.Equal(t, []any{n, nil}, []any{len(all), err}, "recorded")
}

// What fails spoils nothing for the others.
func TestAFailingChangeIsAlone(t *testing.T) {
	b := mustOpen(t, filepath.Join(t.TempDir(), "book.db"))
	const n = 20
	wrong := errors.New("wrong")
	errs := writeTogether(t, b, n, func() {}, func(i int) error {
		if i == 3 {
			return b.inTx(t.Context(), func(tx *sql.Tx, now int64) error {
				if _, _, err := b.insert(t.Context(), tx, now, sample("undone")); err != nil {
					return err
				}
				return wrong
			})
		}
		if i == 4 {
			return b.MarkDelivered(t.Context(), 12345, "nothing", time.Now())
		}
		_, _, err := b.Record(t.Context(), sample(fmt.Sprint(i)))
		return err
	})
	for i, err := range errs {
		switch i {
		case 3:
			assert.ErrorIs(t, err, wrong, "the wrong one")
		case 4:
			assert.ErrorIs(t, err, ErrNotFound, "the one for nothing")
		default:
			assert.NoError(t, err, "change %d", i)
		}
	}
	_, err := b.ByKey(t.Context(), sample("undone").Key)
	assert.ErrorIs(t, err, ErrNotFound, "what was undone")
	all, err := b.List(t.Context(), Filter{Platform: "discord", Guild: "g1", Channel: "c1", Limit: MaxPage})
	assert.Equal(t, []any{n - 2, nil}, []any{len(all), err}, "recorded")
}

// Who can't wait any longer leaves without a trace; who leads after that goes
// on.
func TestAnImpatientChangeLeaves(t *testing.T) {
	b := mustOpen(t, filepath.Join(t.TempDir(), "book.db"))
	const n = 10
	gone, leave := context.WithCancel(t.Context())
	errs := writeTogether(t, b, n, leave, func(i int) error {
		ctx := t.Context()
		if i%2 == 0 {
			ctx = gone
		}
		_, _, err := b.Record(ctx, sample(fmt.Sprint(i)))
		return err
	})
	for i, err := range errs {
		_, found := b.ByKey(t.Context(), sample(fmt.Sprint(i)).Key)
		if (err == nil) != (found == nil) {
			t.Errorf("change %d returned %v, and looking for it %v", i, err, found)
		}
		if i%2 == 1 && err != nil {
			t.Errorf("change %d was patient: %v", i, err)
		}
	}
	mustRecord(t, b, sample("after"))
}

func TestGroupOrder(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var g group
		_, first, _ := g.join(t.Context(), nil)
		assert.Equal(t, lead, first, "the first one's turn")
		late, cancel := context.WithTimeout(t.Context(), time.Second)
		defer cancel()
		turns := make(chan string, 3)
		for i, ctx := range []context.Context{late, t.Context(), t.Context()} {
			go func() {
				_, is, err := g.join(ctx, nil)
				turns <- fmt.Sprint(i, is, err)
			}()
			synctest.Wait()
		}
		time.Sleep(2 * time.Second)
		assert.Equal(t, fmt.Sprint(0, alone, context.DeadlineExceeded), <-turns, "out of time")
		g.pass()
		assert.Equal(t, fmt.Sprint(1, lead, nil), <-turns, "the next one's turn")
		taken := g.others()
		assert.Len(t, taken, 1, "the others")
		taken[0].turn <- written
		assert.Equal(t, fmt.Sprint(2, written, nil), <-turns, "the last one's turn")
		g.pass()
		assert.Equal(t, false, g.led, "nobody leads")
		assert.Equal(t, []*member{}, slices.Clone(g.waiting), "nobody waits")
	})
}
