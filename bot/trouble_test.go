package bot_test

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	random "math/rand/v2"
	"path/filepath"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"guildhand/bot"
	"guildhand/bot/daybook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A slow disk is played by another program that holds the daybook's file.

// holder takes the file's lock, and gives it back.
type holder struct {
	t  *testing.T
	db *sql.DB
}

func newHolder(t *testing.T, path string) *holder {
	t.Helper()
	db, err := sql.Open("sqlite", "file:"+path+"?_txlock=immediate&_busy_timeout=10000")
	require.NoError(t, err)
	t.Cleanup(func() { db.Close() })
	return &holder{t, db}
}

func (h *holder) hold() (free func()) {
	h.t.Helper()
	tx, err := h.db.Begin()
	if err != nil {
		h.t.Fatal(err)
	}
	return func() {
		if err := tx.Rollback(); err != nil {
			h.t.Error(err)
		}
	}
}

func TestSlowDisk(t *testing.T) {
	path := filepath.Join(t.TempDir(), "daybook.db")
	s := openShopAt(t, path, func(o *bot.Options) {
		o.RecordTimeout = 400 * time.Millisecond
	})
	disk := newHolder(t, path)
	key := daybook.Key{Platform: "test", Channel: "c1", Message: "m1"}

	t.Run("slower than it may be", func(t *testing.T) {
		free := disk.hold()
		r, err := s.Handle(t.Context(), bot.Request{Who: anna, Message: "m1", Text: "cut 8x6"})
		if !errors.Is(err, daybook.ErrCannotRecord) || r.Answer != nil || r.Entry != 0 || r.Refusal == nil ||
			r.Refusal.Problem != bot.CantRecord {
			t.Errorf("reply %+v, error %v", r, err)
		}
		free()
		if _, err := s.book.ByKey(t.Context(), key); !errors.Is(err, daybook.ErrNotFound) {
			t.Errorf("not answered and recorded: %v", err)
		}
		if r := ask(t, s, anna, "m1", "cut 8x6"); r.Duplicate || r.Answer == nil {
			t.Errorf("asked again: %+v", r)
		}
	})
	t.Run("slow", func(t *testing.T) {
		free := disk.hold()
		const slow = 150 * time.Millisecond
		time.AfterFunc(slow, free)
		begun := time.Now()
		r := ask(t, s, anna, "m2", "cut 8x6")
		if took := time.Since(begun); r.Answer == nil || took < slow/2 {
			t.Errorf("after %v: %+v", took, r)
		}
	})
	t.Run("now and then", func(t *testing.T) {
		const events, makers = 100, 6
		const seed = 6
		dice := random.New(random.NewPCG(seed, 0))
		stop, stopped := make(chan struct{}), make(chan struct{})
		// The first time is too long for certain, and before anybody asks.
		free := disk.hold()
		go func() {
			defer close(stopped)
			time.Sleep(600 * time.Millisecond)
			free()
			for {
				select {
				case <-stop:
					return
				case <-time.After(time.Duration(dice.IntN(30)) * time.Millisecond):
				}
				free := disk.hold()
				time.Sleep(time.Duration(dice.IntN(2)*500+dice.IntN(100)) * time.Millisecond)
				free()
			}
		}()
		var refused, fresh atomic.Int64
		var all sync.WaitGroup
		for m := range makers {
			all.Go(func() {
				for e := m; e < events; e += makers {
					// Whoever is told that there is no answer asks again.
					for {
						r, err := s.Handle(t.Context(), bot.Request{Who: anna, Message: fmt.Sprint("often", e), Text: "cut 8x6"})
						if err == nil && r.Answer != nil {
							if !r.Duplicate {
								fresh.Add(1)
							}
							break
						}
						if !errors.Is(err, daybook.ErrCannotRecord) {
							t.Errorf("event %d: %+v, %v", e, r, err)
							return
						}
						refused.Add(1)
					}
				}
			})
		}
		all.Wait()
		close(stop)
		<-stopped
		entries, err := s.book.Undelivered(context.Background(), "test", noon.Add(-time.Hour))
		require.NoError(t, err)
		const before = 2 // of the parts above
		// A write whose answer came too late may be there all the same: it is
		// then found, and not made twice.
		if len(entries) != events+before || fresh.Load() > events {
			t.Errorf("%d entries, %d fresh answers of %d events", len(entries)-before, fresh.Load(), events)
		}
		if refused.Load() == 0 {
			t.Error("the disk was never too slow, so the test tells nothing")
		}
		t.Logf("%d times told that it can't be recorded", refused.Load())
	})
}

// TestClockMovedBack: entries keep their order, events stay known, answers are
// still found, nobody is locked out, and the other process can still take over.
func TestClockMovedBack(t *testing.T) {
	var now atomic.Int64
	now.Store(noon.UnixNano())
	clock := func() time.Time { return time.Unix(0, now.Load()).UTC() }
	book, err := daybook.Open(t.Context(), filepath.Join(t.TempDir(), "daybook.db"), daybook.WithClock(clock))
	require.NoError(t, err)
	defer book.Close()
	s := openShop(t, func(o *bot.Options) {
		o.Clock, o.Book, o.Shared = clock, book, true
		o.Limits.Maker = bot.Limit{AtOnce: 60, PerMinute: 60}
	})
	s.book = book

	first := ask(t, s, anna, "m1", "cut 8x6")
	for i := range 58 {
		ask(t, s, anna, fmt.Sprint("burst", i), "cut 8x6")
	}
	now.Add(-int64(24 * time.Hour))
	again := ask(t, s, anna, "m1", "cut 8x6")
	if !again.Duplicate || again.Entry != first.Entry {
		t.Errorf("asked again a day earlier: %+v", again)
	}
	second := ask(t, s, anna, "m2", "cut 9x7")
	if second.Duplicate || second.Entry <= first.Entry {
		t.Errorf("a new one: %+v", second)
	}
	r, err := s.Handle(t.Context(), bot.Request{Who: anna, Message: "m3", Text: "cut 8x6"})
	if err != nil || r.Entry != 0 || r.Refusal == nil {
		t.Errorf("over the limit: %+v, %v", r, err)
	}
	now.Add(int64(2 * time.Second))
	if r := ask(t, s, anna, "m3", "cut 8x6"); r.Answer == nil {
		t.Errorf("after a moment: %+v", r)
	}

	// The service dies with its answers unsent. Their leases end a day ahead of
	// the clock that is now, and another process takes them all the same.
	other := openShop(t, func(o *bot.Options) { o.Clock, o.Book, o.Shared = clock, book, true })
	take := func() (taken int) {
		t.Helper()
		for {
			got, err := other.Undelivered(t.Context(), "test")
			require.NoError(t, err)
			if len(got) == 0 {
				return taken
			}
			taken += len(got)
		}
	}
	const burst, lately = 58, 3 // m1, claimed anew when it was asked again, m2 and m3
	assert.Equal(t, burst, take())
	now.Add(int64(2 * daybook.DefaultHold))
	assert.Equal(t, lately, take())
}
