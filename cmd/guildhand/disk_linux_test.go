package main

import (
	"bufio"
	"database/sql"
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

	"guildhand/adapters/terminal"
	"guildhand/bot/daybook"
)

// smallDisk mounts a disk of its own.
func smallDisk(t *testing.T, size string) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("a small disk can't be mounted here (%v); the daybook's own tests stand in for it", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	return dir
}

// talk is a room of the terminal to type into.
type talk struct {
	t     *testing.T
	typed io.WriteCloser
	lines chan string
	ended chan int
}

func openRoom(t *testing.T, env ...string) *talk {
	t.Helper()
	in, typed := io.Pipe()
	out, screen := io.Pipe()
	p := &Program{Stdin: in, Stdout: screen, Stderr: io.Discard, Environ: env}
	r := &talk{t: t, typed: typed, lines: make(chan string, 1000), ended: make(chan int, 1)}
	go func() {
		r.ended <- p.Run(t.Context(), nil)
		_ = screen.Close()
	}()
	go func() {
		defer close(r.lines)
		for scan := bufio.NewScanner(out); scan.Scan(); {
			r.lines <- scan.Text()
		}
	}()
	return r
}

// say types a line and gives the first line that comes back which has one of
// the words.
func (r *talk) say(line string, words ...string) string {
	r.t.Helper()
	if _, err := io.WriteString(r.typed, line+"\n"); err != nil {
		r.t.Fatal(err)
	}
	for {
		select {
		case got, ok := <-r.lines:
			if !ok {
				r.t.Fatalf("the room closed after %q", line)
			}
			for _, word := range words {
				if strings.Contains(got, word) {
					return got
				}
			}
		case <-time.After(30 * time.Second):
			r.t.Fatalf("no answer to %q with one of %q", line, words)
		}
	}
}

// A disk fills up under the room: it says so in plain words, shows nothing that
// is not recorded, and goes on by itself when there is space again.
func TestFullDiskInTheRoom(t *testing.T) {
	dir := smallDisk(t, "8m")
	path := filepath.Join(dir, "daybook.db")
	r := openRoom(t, "HOME="+t.TempDir(), "GUILDHAND_DAYBOOK_PATH="+path)
	const answered = "of the daybook" // beside each answer
	shown := 0
	ask := func(i int, words ...string) string {
		return r.say(fmt.Sprintf("weigh disc %.2f sterling 22ga", 10+float64(i)/100), words...)
	}
	for ; shown < 5; shown++ {
		ask(shown, answered)
	}
	ballast := fill(t, filepath.Join(dir, "ballast"))
	refused := 0
	for i := 1000; refused < 5; i++ {
		// The daybook's file has some room left in itself at first.
		if strings.Contains(ask(i, answered, terminal.CantRecord), terminal.CantRecord) {
			refused++
		} else if shown++; shown > 2000 {
			t.Fatal("the disk does not fill up")
		}
	}
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	for i := range 5 {
		ask(3000+i, answered)
		shown++
	}
	if _, err := io.WriteString(r.typed, "quit\n"); err != nil {
		t.Fatal(err)
	}
	if status := <-r.ended; status != exitAnswered {
		t.Errorf("status %d", status)
	}
	wantEntries(t, path, shown)
}

// The same in a chat room, with everything that the program keeps on that disk.
func TestFullDiskInTheChat(t *testing.T) {
	home := smallDisk(t, "16m")
	m := newMatrixLoop(t)
	s := serveLoop(t, m, home)
	ask := func(i int) (question, answer string) {
		question = m.ask(fmt.Sprintf("!weigh disc %.2f sterling 22ga", 10+float64(i)/100))
		return question, m.answered(t, question)
	}
	kept := map[string]bool{}
	first, text := ask(0)
	if !strings.Contains(text, "sterling") {
		t.Fatalf("answer %q", text)
	}
	kept[first] = true
	ballast := fill(t, filepath.Join(home, "ballast"))
	refused := 0
	for i := 1000; refused < 2; i++ {
		question, text := ask(i)
		if strings.Contains(text, terminal.CantRecord) {
			refused++
		} else if kept[question] = true; len(kept) > 2000 {
			t.Fatal("the disk does not fill up")
		}
	}
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	last, text := ask(3000)
	if !strings.Contains(text, "sterling") {
		t.Errorf("with space again: %q", text)
	}
	kept[last] = true
	s.stop()
	s.end(t)
	all := entriesIn(t, s.path())
	for _, e := range all {
		if !kept[e.Key.Message] {
			t.Errorf("entry %d answers %s, which was not answered in the room", e.ID, e.Key.Message)
		}
	}
	if len(all) != len(kept) {
		t.Errorf("%d answers in the room, %d recorded", len(kept), len(all))
	}
}

// wornDisk is a disk of its own that can turn read-only while files on it are
// open for writing, as one does that the system finds faults on.
type wornDisk struct {
	t          *testing.T
	image, dir string
}

func newWornDisk(t *testing.T) *wornDisk {
	t.Helper()
	d := &wornDisk{t: t, image: filepath.Join(t.TempDir(), "image"), dir: t.TempDir()}
	if err := os.WriteFile(d.image, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(d.image, 64<<20); err != nil {
		t.Fatal(err)
	}
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
		if got := r.say(fmt.Sprintf("weigh disc %d sterling 22ga", 10+asked), answered, terminal.CantRecord); !strings.Contains(got, want) {
			t.Fatalf("question %d: %q, want %q", asked, got, want)
		}
		if want == answered {
			shown++
		}
	}
	ask(answered)
	ask(answered)
	disk.lock("daybook.db*")
	ask(terminal.CantRecord)
	ask(terminal.CantRecord)
	disk.unlock("daybook.db*")
	ask(answered)
	ask(answered)
	disk.fail()
	ask(terminal.CantRecord)
	ask(terminal.CantRecord)
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

// wantEntries wants the daybook to have entries 1 to n and no more.
func wantEntries(t *testing.T, path string, n int) {
	t.Helper()
	book, err := daybook.Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	for id := int64(1); ; id++ {
		_, err := book.ByID(t.Context(), id)
		if errors.Is(err, daybook.ErrNotFound) {
			if id-1 != int64(n) {
				t.Errorf("%d answers shown, %d recorded", n, id-1)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
	}
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
	ask(terminal.CantRecord)
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

// fill writes a file until the disk is full.
func fill(t *testing.T, path string) string {
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
	return path
}

// What is wrong with the store is said at the start, in plain words.
func TestServeChecksTheStore(t *testing.T) {
	home := smallDisk(t, "16m")
	m := newMatrixLoop(t)
	s := serveLoop(t, m, home)
	s.stop()
	s.end(t)
	for _, want := range []string{"the daybook is ready", "store=sqlite", "the disk is nearly full"} {
		if !strings.Contains(s.log.String(), want) {
			t.Errorf("%q is not said:\n%s", want, s.log)
		}
	}
	refuses := func(want string) {
		t.Helper()
		log := &journal{}
		p := &Program{Stdin: strings.NewReader(""), Stdout: log, Stderr: log, Environ: append(m.env(false), "HOME="+home)}
		if status := p.Run(t.Context(), []string{"serve"}); status != exitFailed || !strings.Contains(log.String(), want) {
			t.Errorf("status %d, want %q:\n%s", status, want, log)
		}
	}
	ballast := fill(t, filepath.Join(home, "ballast"))
	refuses("can't record: the disk is full")
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("sqlite", "file:"+s.path())
	if err != nil {
		t.Fatal(err)
	}
	_, err = db.ExecContext(t.Context(), `INSERT INTO goose_db_version (version_id, is_applied) VALUES (99, 1)`)
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	refuses("the daybook is newer than this program")
}

// On a disk that takes no writes the program says so and does not begin.
func TestReadOnlyDiskAtStart(t *testing.T) {
	dir := smallDisk(t, "8m")
	path := filepath.Join(dir, "daybook.db")
	book, err := daybook.Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("", dir, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("the disk can't be made read-only here: %v", err)
	}
	log := &journal{}
	p := &Program{Stdin: strings.NewReader(""), Stdout: log, Stderr: log, Environ: []string{
		"HOME=" + t.TempDir(), "GUILDHAND_DAYBOOK_PATH=" + path,
	}}
	if status := p.Run(t.Context(), []string{"ask", "gauge 22"}); status != exitFailed {
		t.Errorf("status %d", status)
	}
	if said := log.String(); !strings.Contains(said, "can't record") || !strings.Contains(said, "read-only") {
		t.Errorf("said %q", said)
	}
	if err := syscall.Mount("", dir, "", syscall.MS_REMOUNT, ""); err != nil {
		t.Fatal(err)
	}
	if status := p.Run(t.Context(), []string{"ask", "gauge 22"}); status != exitAnswered {
		t.Errorf("status %d once it takes writes again:\n%s", status, log)
	}
}
