package daybooktest

import (
	"errors"
	"os"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// SmallDisk mounts a disk of its own for the test, of a size such as "8m".
// Where that is not allowed the test is skipped; standIn says what tests the
// same there.
func SmallDisk(t testing.TB, size, standIn string) (dir string) {
	t.Helper()
	dir = t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("a small disk can't be mounted here (%v); %s", err, standIn)
	}
	t.Cleanup(func() {
		assert.NoError(t, syscall.Unmount(dir, syscall.MNT_DETACH))
	})
	return dir
}

// Fill writes a file until its disk is full.
func Fill(t testing.TB, path string) {
	t.Helper()
	f, err := os.Create(path)
	require.NoError(t, err)
	defer f.Close()
	for size := 64 << 10; size > 0; {
		_, err := f.Write(make([]byte, size))
		if errors.Is(err, syscall.ENOSPC) {
			size /= 2
			continue
		}
		require.NoError(t, err)
	}
}
