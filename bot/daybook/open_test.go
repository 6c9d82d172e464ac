package daybook

import (
	"path/filepath"
	"sync"
	"testing"
	"time"

	"guildhand/bot/daybook/daybooktest"

	"github.com/stretchr/testify/require"
)

// testClock is a clock that stands still until it is moved.
type testClock struct {
	mu  sync.Mutex
	now time.Time
}

func newTestClock() *testClock {
	return &testClock{now: time.Date(2031, 3, 4, 10, 20, 30, 123456000, time.UTC)}
}

func (c *testClock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

// Move sets the clock on, or back.
func (c *testClock) Move(d time.Duration) time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = c.now.Add(d)
	return c.now
}

// opener opens a new, empty store; every call of again with its result opens
// the same store once more.
type opener func(t *testing.T) (again func(opts ...Option) *Book)

func sqliteFile(t *testing.T) func(...Option) *Book {
	path := filepath.Join(t.TempDir(), "day book #1%.db") // a name that needs escaping
	return func(opts ...Option) *Book { return mustOpen(t, path, opts...) }
}

func mustOpen(t *testing.T, path string, opts ...Option) *Book {
	t.Helper()
	b, err := Open(t.Context(), path, opts...)
	require.NoError(t, err)
	t.Cleanup(func() { b.Close() })
	return b
}

func postgresSchema(t *testing.T) func(...Option) *Book {
	address := newPostgresSchema(t)
	return func(opts ...Option) *Book {
		t.Helper()
		b, err := OpenPostgres(t.Context(), address, opts...)
		require.NoError(t, err)
		t.Cleanup(func() { b.Close() })
		return b
	}
}

// newPostgresSchema makes an empty schema that goes with the test, and gives
// the address of a daybook in it.
func newPostgresSchema(t testing.TB) string {
	t.Helper()
	return daybooktest.NewSchema(t, "nothing is tested on PostgreSQL")
}

func TestOnSQLite(t *testing.T) { contract(t, sqliteFile) }

func TestInMemory(t *testing.T) {
	contract(t, func(t *testing.T) func(...Option) *Book {
		return func(opts ...Option) *Book { return mustOpen(t, ":memory:", opts...) }
	})
}

func TestOnPostgres(t *testing.T) {
	newPostgresSchema(t) // says why, where there is none
	contract(t, postgresSchema)
}
