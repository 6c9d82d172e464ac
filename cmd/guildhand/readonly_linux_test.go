//go:build linux && !race

// Under the race detector some of SQLite's accesses to its shared memory are
// made by the detector, where the fault of a disk that takes no writes ends the
// program; elsewhere the driver makes an error of it.

package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"guildhand/bot"

	"github.com/stretchr/testify/require"
)

// wornDisk is a disk of its own that can turn read-only while files on it are
// open for writing, as one does that the system finds faults on.
type wornDisk struct {
	t          *testing.T
	image, dir string
}

func newWornDisk(t *testing.T) *wornDisk {
	t.Helper()
	d := &wornDisk{t: t, image: filepath.Join(t.TempDir(), "image"), dir: t.TempDir()}
	require.NoError(t, os.WriteFile(d.image, nil, 0o600))
	require.NoError(t, os.Truncate(d.image, 64<<20))
	for _, command := range [][]string{{"mkfs.ext4", "-q", "-F", d.image}, d.mounting()} {
		if out, err := exec.Command(command[0], command[1:]...).CombinedOutput(); err != nil {
			t.Skipf("a disk that turns read-only can't be made here (%s: %v %s); the daybook's own tests stand in for it", command[0], err, out)
		}
	}
	t.Cleanup(func() { d.run("umount", "--lazy", d.dir) })
	return d
}

func (d *wornDisk) mounting() []string { return []string{"mount", "-o", "loop", d.image, d.dir} }

func (d *wornDisk) run(command ...string) {
	d.t.Helper()
	if out, err := exec.Command(command[0], command[1:]...).CombinedOutput(); err != nil {
		d.t.Fatalf("%q: %v %s", command, err, out)
	}
}

// fail turns the disk read-only, until renew.
func (d *wornDisk) fail() {
	d.t.Helper()
	// The kernel aborts, and mount complains of what it was asked for.
	_ = exec.Command("mount", "-o", "remount,abort", d.dir).Run()
	if err := os.WriteFile(filepath.Join(d.dir, "try"), nil, 0o600); !errors.Is(err, syscall.EROFS) {
		d.t.Skipf("the disk does not turn read-only here: %v", err)
	}
}

// renew mounts the disk anew; nothing may be open on it.
func (d *wornDisk) renew() {
	d.t.Helper()
	d.run("umount", d.dir)
	mount := d.mounting()
	d.run(mount...)
}

// lock protects the files of a kind from every writer, open or not; unlock ends
// that.
func (d *wornDisk) lock(glob string)   { d.t.Helper(); d.protect("+i", glob) }
func (d *wornDisk) unlock(glob string) { d.t.Helper(); d.protect("-i", glob) }

func (d *wornDisk) protect(how, glob string) {
	d.t.Helper()
	files, err := filepath.Glob(filepath.Join(d.dir, glob))
	if err != nil || len(files) == 0 {
		d.t.Fatalf("no files %s: %v", glob, err)
	}
	d.run(append([]string{"chattr", how}, files...)...)
	d.run("sync", "-f", d.dir) // or the disk forgets it when it fails
}

// The disk takes no writes any more under the room: it says so in plain words,
// shows nothing that is not recorded, goes on by itself where that passes, and
// has lost nothing where it took a new start.
func TestReadOnlyDiskInTheRoom(t *testing.T) {
	disk := newWornDisk(t)
	path := filepath.Join(disk.dir, "daybook.db")
	env := []string{"HOME=" + t.TempDir(), "GUILDHAND_DAYBOOK_PATH=" + path}
	r := openRoom(t, env...)
	const answered = "of the daybook"
	shown, asked := 0, 0
	ask := func(want string) {
		t.Helper()
		asked++
		if got := r.say(fmt.Sprintf("weigh disc %d sterling 22ga", 10+asked), answered, bot.CantRecord); !strings.Contains(got, want) {
			t.Fatalf("question %d: %q, want %q", asked, got, want)
		}
		if want == answered {
			shown++
		}
	}
	ask(answered)
	ask(answered)
	disk.lock("daybook.db*")
	ask(bot.CantRecord)
	ask(bot.CantRecord)
	disk.unlock("daybook.db*")
	ask(answered)
	ask(answered)
	disk.fail()
	ask(bot.CantRecord)
	ask(bot.CantRecord)
	if _, err := io.WriteString(r.typed, "quit\n"); err != nil {
		t.Fatal(err)
	}
	if status := <-r.ended; status != exitAnswered {
		t.Errorf("status %d", status)
	}
	disk.renew()
	r = openRoom(t, env...)
	ask(answered)
	if _, err := io.WriteString(r.typed, "quit\n"); err != nil {
		t.Fatal(err)
	}
	<-r.ended
	wantEntries(t, path, shown)
}

// The same in a chat room, with everything that the program keeps on that disk.
func TestReadOnlyDiskInTheChat(t *testing.T) {
	disk := newWornDisk(t)
	m := newMatrixLoop(t)
	s := serveLoop(t, m, disk.dir)
	var asked []string
	say := func() string {
		asked = append(asked, m.ask(fmt.Sprintf("!weigh disc %d sterling 22ga", 10+len(asked))))
		return asked[len(asked)-1]
	}
	ask := func(want string) {
		t.Helper()
		if got := m.answered(t, say()); !strings.Contains(got, want) {
			t.Fatalf("%q, want %q:\n%s", got, want, s.log)
		}
	}
	const data = ".local/share/guildhand/"
	ask("sterling")
	disk.lock(data + "*.db")
	disk.lock(data + "*.db-wal")
	ask(bot.CantRecord)
	disk.unlock(data + "*.db")
	disk.unlock(data + "*.db-wal")
	ask("sterling")
	// With the memory that SQLite shares between processes out of reach nothing
	// can be read either, and the question waits.
	disk.lock(data + "*.db*")
	late := say()
	time.Sleep(2 * time.Second)
	disk.unlock(data + "*.db*")
	m.answered(t, late)
	disk.fail()
	say()
	time.Sleep(2 * time.Second)
	s.stop()
	select {
	case <-s.ended: // it says what it could not do any more
	case <-time.After(30 * time.Second):
		t.Fatalf("still running:\n%s", s.log)
	}
	disk.renew()
	s = serveLoop(t, m, disk.dir)
	ask("sterling")
	for _, q := range asked {
		m.answered(t, q)
	}
	s.stop()
	s.end(t)
	recorded := map[string]bool{}
	for _, e := range entriesIn(t, s.path()) {
		recorded[e.Key.Message] = true
	}
	for i, q := range asked {
		// Where even the place in the room's events could not be kept, a question
		// comes again after the new start, and is answered then.
		last := m.answers(q)[len(m.answers(q))-1]
		if answered := strings.Contains(last, "sterling"); answered != recorded[q] {
			t.Errorf("question %d: recorded %v, and the room has %q", i+1, recorded[q], m.answers(q))
		}
	}
	if len(recorded) < 3 {
		t.Errorf("%d answers recorded", len(recorded))
	}
}
