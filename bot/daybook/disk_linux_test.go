package daybook

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"guildhand/bot/daybook/daybooktest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFullDisk fills a small file system of its own.
func TestFullDisk(t *testing.T) {
	dir := daybooktest.SmallDisk(t, "2m", "TestFullFile stands in for it")
	ballast := filepath.Join(dir, "ballast")
	require.NoError(t, os.WriteFile(ballast, make([]byte, 1<<20), 0o600))
	b := mustOpen(t, filepath.Join(dir, "book.db"))
	h, err := b.Check(t.Context())
	require.NoError(t, err)
	if !h.DiskLow || h.FreeBytes > 1<<20 {
		t.Errorf("health of a nearly full disk: %+v", h)
	}
	fillUp(t, b, func() { require.NoError(t, os.Remove(ballast)) })
}

// TestReadOnlyDisk remounts a disk under the open daybook.
func TestReadOnlyDisk(t *testing.T) {
	dir := daybooktest.SmallDisk(t, "8m", "TestReadOnlyFile stands in for it")
	path := filepath.Join(dir, "book.db")
	b := mustOpen(t, path)
	e := mustRecord(t, b, sample("1"))
	require.NoError(t, b.Close())
	if err := syscall.Mount("", dir, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("the disk can't be made read-only here: %v", err)
	}
	_, err := Open(t.Context(), path)
	assert.ErrorIs(t, err, ErrCannotRecord, "opened on a read-only disk")
	require.NoError(t, syscall.Mount("", dir, "", syscall.MS_REMOUNT, ""))
	b = mustOpen(t, path)
	_, err = b.ByID(t.Context(), e.ID)
	require.NoError(t, err)
}
