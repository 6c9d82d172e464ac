package matrix

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// smallDisk mounts a disk of its own.
func smallDisk(t *testing.T, size string) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("a small disk can't be mounted here: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	return dir
}

// fill writes a file until the disk is full.
func fill(t *testing.T, path string) {
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

// TestFullDisk: the disk with the daybook and the bot's keys fills up. It says so
// in plain words, and answers by itself when there is space again.
func TestFullDisk(t *testing.T) {
	t.Parallel()
	h := startServer(t)
	h.register("guildhand")
	dir := smallDisk(t, "24m")
	cfg := botConfig(t, h)
	cfg.StorePath = filepath.Join(dir, "matrix.db")
	b := &runningBot{t: t, cfg: cfg, book: filepath.Join(dir, "daybook.db"), specs: startSpecs()}
	b.start()
	t.Cleanup(func() { b.stop() })
	ana := newMaker(t, h, "ana")
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		m := ana.on(t)
		room := m.room(encrypted)
		m.ask(room, "!gauge 20ga")
		ballast := filepath.Join(dir, "ballast")
		fill(t, ballast)
		for n, refused := 0, 0; refused < 3; n++ {
			_, text := m.ask(room, fmt.Sprintf("!gauge %dga", 10+n%20))
			if strings.HasPrefix(text.Body, cantRecord) {
				refused++
			} else if n > 300 {
				t.Fatal("the disk does not fill up")
			}
		}
		if err := os.Remove(ballast); err != nil {
			t.Fatal(err)
		}
		if _, text := m.ask(room, "!gauge 22ga"); !strings.HasPrefix(text.Body, "22 ga") {
			t.Errorf("with space again: %q", text.Body)
		}
		if encrypted {
			m.noPlainText(room)
		}
	})
}
