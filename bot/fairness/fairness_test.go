package fairness_test

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"guildhand/bot/fairness"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A guild that asks a thousand times at once takes its share and no more;
// another's question is answered as if it were alone.
func TestBurstDoesNotHoldUpOthers(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		const work = 20 * time.Millisecond
		places := fairness.New(8, 2)
		var wg sync.WaitGroup
		for range 1000 {
			wg.Go(func() {
				release, err := places.Acquire(t.Context(), "busy")
				if err != nil {
					t.Error(err)
					return
				}
				time.Sleep(work)
				release()
			})
		}
		synctest.Wait()
		for i := range 50 {
			began := time.Now()
			release, err := places.Acquire(t.Context(), fmt.Sprint("quiet", i))
			require.NoError(t, err)
			require.Zero(t, time.Since(began))
			time.Sleep(work)
			release()
		}
		wg.Wait()
	})
}

func TestBounds(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		const all, each, guilds = 5, 2, 7
		places := fairness.New(all, each)
		var now, most atomic.Int64
		var ofGuild, mostOfGuild [guilds]atomic.Int64
		raise := func(n int64, most *atomic.Int64) {
			for m := most.Load(); n > m && !most.CompareAndSwap(m, n); m = most.Load() {
			}
		}
		var wg sync.WaitGroup
		for i := range 300 {
			g := i % guilds
			wg.Go(func() {
				release, err := places.Acquire(t.Context(), fmt.Sprint(g))
				if err != nil {
					t.Error(err)
					return
				}
				raise(now.Add(1), &most)
				raise(ofGuild[g].Add(1), &mostOfGuild[g])
				time.Sleep(time.Duration(1+i%3) * time.Millisecond)
				now.Add(-1)
				ofGuild[g].Add(-1)
				release()
				release() // a second time changes nothing
			})
		}
		wg.Wait()
		assert.EqualValues(t, all, most.Load())
		for g := range guilds {
			assert.EqualValues(t, each, mostOfGuild[g].Load())
			assert.Zero(t, places.Users(fmt.Sprint(g)))
		}
	})
}

func TestGivingUp(t *testing.T) {
	places := fairness.New(1, 1)
	release, err := places.Acquire(t.Context(), "a")
	require.NoError(t, err)
	for _, name := range []string{"a", "b"} {
		ctx, cancel := context.WithTimeout(t.Context(), time.Millisecond)
		if _, err := places.Acquire(ctx, name); !errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("%s: %v", name, err)
		}
		cancel()
	}
	assert.Zero(t, places.Users("b"))
	release()
	for _, name := range []string{"a", "b"} {
		release, err := places.Acquire(t.Context(), name)
		require.NoError(t, err)
		release()
	}
}
