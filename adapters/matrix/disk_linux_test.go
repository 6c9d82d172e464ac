package matrix

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
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

// TestStoreOutOfReach: the bot's store takes no writes for a while, as on a disk
// that turned read-only. Where rooms are encrypted nothing can be said then, and
// nothing that was asked is lost: no message, and no key.
func TestStoreOutOfReach(t *testing.T) {
	if !encryptionBuilt {
		t.Skip("this build has no encryption")
	}
	t.Parallel()
	h := startServer(t)
	h.register("guildhand")
	b := startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	clear, room := ana.room(false), ana.room(true)
	ana.ask(clear, "!gauge 20ga")
	ana.ask(room, "!gauge 20ga")
	protect := func(how string) error {
		return exec.Command("chattr", how, b.cfg.StorePath, b.cfg.StorePath+"-wal").Run()
	}
	if err := protect("+i"); err != nil {
		t.Skipf("files can't be protected here: %v", err)
	}
	locked := true
	unlock := func() {
		if locked {
			locked = false
			if err := protect("-i"); err != nil {
				t.Error(err)
			}
		}
	}
	t.Cleanup(unlock)
	if err := os.WriteFile(b.cfg.StorePath, nil, 0); err == nil {
		t.Skip("files can't be protected here")
	}
	if _, text := ana.ask(clear, "!gauge 10ga"); !strings.HasPrefix(text.Body, cantRecord) {
		t.Errorf("in the clear: %q", text.Body)
	}
	asked := []question{askGauge(ana, room, 1)}
	if err := ana.e.mach.CryptoStore.RemoveOutboundGroupSession(ana.ctx, room); err != nil {
		t.Fatal(err)
	}
	asked = append(asked, askGauge(ana, room, 2), askGauge(ana, room, 3)) // with another key
	time.Sleep(5 * time.Second)
	ana.mu.Lock()
	for _, q := range asked {
		if len(ana.replies(ana.seen, room, q.id)) > 0 {
			t.Error("answered without the store")
		}
	}
	ana.mu.Unlock()
	unlock()
	answered(t, ana, room, asked, false)
	ana.noPlainText(room)
}
