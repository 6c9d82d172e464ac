package daybook

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"guildhand/bot/daybook/daybooktest"
)

// TestFullDisk fills a small file system of its own.
func TestFullDisk(t *testing.T) {
	dir := daybooktest.SmallDisk(t, "2m", "TestFullFile stands in for it")
	ballast := filepath.Join(dir, "ballast")
	if err := os.WriteFile(ballast, make([]byte, 1<<20), 0o600); err != nil {
		t.Fatal(err)
	}
	b := mustOpen(t, filepath.Join(dir, "book.db"))
	h, err := b.Check(t.Context())
	noErr(t, err)
	if !h.DiskLow || h.FreeBytes > 1<<20 {
		t.Errorf("health of a nearly full disk: %+v", h)
	}
	fillUp(t, b, func() { noErr(t, os.Remove(ballast)) })
}

// TestReadOnlyDisk remounts a disk under the open daybook.
func TestReadOnlyDisk(t *testing.T) {
	dir := daybooktest.SmallDisk(t, "8m", "TestReadOnlyFile stands in for it")
	path := filepath.Join(dir, "book.db")
	b := mustOpen(t, path)
	e := mustRecord(t, b, sample("1"))
	noErr(t, b.Close())
	if err := syscall.Mount("", dir, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("the disk can't be made read-only here: %v", err)
	}
	_, err := Open(t.Context(), path)
	wantErr(t, "opened on a read-only disk", err, ErrCannotRecord)
	noErr(t, syscall.Mount("", dir, "", syscall.MS_REMOUNT, ""))
	b = mustOpen(t, path)
	_, err = b.ByID(t.Context(), e.ID)
	noErr(t, err)
}
