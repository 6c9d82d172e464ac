//go:build linux && !race

// Under the race detector some of SQLite's accesses are made by the detector,
// where a fault ends the program; elsewhere the driver makes an error of it.

package daybook

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The file behind SQLite's shared memory is lost under the program: to touch
// the memory faults. The program lives, says that it can't record, and has lost
// nothing after a new start.
func TestSharedMemoryFaults(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	b, err := Open(t.Context(), path)
	require.NoError(t, err)
	for _, m := range []string{"1", "2", "3"} {
		mustRecord(t, b, sample(m))
	}
	require.NoError(t, os.Truncate(path+"-shm", 0))
	refused := 0
	for range 20 {
		_, _, err := b.Record(t.Context(), sample("4"))
		if err != nil {
			require.ErrorIs(t, err, ErrCannotRecord)
			refused++
		}
		_, _ = b.ByID(t.Context(), 1) // by the connections that read
	}
	t.Logf("%d of 20 recordings were refused", refused)
	assert.Positive(t, refused, "nothing faulted: the test shows nothing")
	_ = b.Close()
	b = mustOpen(t, path)
	for _, id := range []int64{1, 2, 3} {
		if _, err := b.ByID(t.Context(), id); err != nil {
			t.Errorf("entry %d: %v", id, err)
		}
	}
	mustRecord(t, b, sample("5"))
}
