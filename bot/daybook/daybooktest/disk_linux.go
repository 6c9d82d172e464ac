package daybooktest

import (
	"errors"
	"os"
	"syscall"
	"testing"
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
		if err := syscall.Unmount(dir, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	return dir
}

// Fill writes a file until its disk is full.
func Fill(t testing.TB, path string) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for size := 64 << 10; size > 0; {
		if _, err := f.Write(make([]byte, size)); errors.Is(err, syscall.ENOSPC) {
			size /= 2
		} else if err != nil {
			t.Fatal(err)
		}
	}
}
