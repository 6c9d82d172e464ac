package main

import (
	"bufio"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"guildhand/bot"
	"guildhand/bot/daybook"
	"guildhand/bot/daybook/daybooktest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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
	dir := daybooktest.SmallDisk(t, "8m", "the daybook's own tests stand in for it")
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
	ballast := filepath.Join(dir, "ballast")
	daybooktest.Fill(t, ballast)
	refused := 0
	for i := 1000; refused < 5; i++ {
		// The daybook's file has some room left in itself at first.
		if strings.Contains(ask(i, answered, bot.CantRecord), bot.CantRecord) {
			refused++
		} else if shown++; shown > 2000 {
			t.Fatal("the disk does not fill up")
		}
	}
	require.NoError(t, os.Remove(ballast))
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
	home := daybooktest.SmallDisk(t, "16m", "the daybook's own tests stand in for it")
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
	ballast := filepath.Join(home, "ballast")
	daybooktest.Fill(t, ballast)
	refused := 0
	for i := 1000; refused < 2; i++ {
		question, text := ask(i)
		if strings.Contains(text, bot.CantRecord) {
			refused++
		} else if kept[question] = true; len(kept) > 2000 {
			t.Fatal("the disk does not fill up")
		}
	}
	require.NoError(t, os.Remove(ballast))
	last, text := ask(3000)
	assert.Contains(t, text, "sterling")
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

// wantEntries wants the daybook to have entries 1 to n and no more.
func wantEntries(t *testing.T, path string, n int) {
	t.Helper()
	book, err := daybook.Open(t.Context(), path)
	require.NoError(t, err)
	defer book.Close()
	for id := int64(1); ; id++ {
		_, err := book.ByID(t.Context(), id)
		if errors.Is(err, daybook.ErrNotFound) {
			if id-1 != int64(n) {
				t.Errorf("%d answers shown, %d recorded", n, id-1)
			}
			return
		}
		require.NoError(t, err)
	}
}

// What is wrong with the store is said at the start, in plain words.
func TestServeChecksTheStore(t *testing.T) {
	home := daybooktest.SmallDisk(t, "16m", "the daybook's own tests stand in for it")
	m := newMatrixLoop(t)
	s := serveLoop(t, m, home)
	s.stop()
	s.end(t)
	for _, want := range []string{"the daybook is ready", "store=sqlite", "the disk is nearly full"} {
		assert.Contains(t, s.log.String(), want)
	}
	refuses := func(want string) {
		t.Helper()
		log := &journal{}
		p := &Program{Stdin: strings.NewReader(""), Stdout: log, Stderr: log, Environ: append(m.env(false), "HOME="+home)}
		if status := p.Run(t.Context(), []string{"serve"}); status != exitFailed || !strings.Contains(log.String(), want) {
			t.Errorf("status %d, want %q:\n%s", status, want, log)
		}
	}
	ballast := filepath.Join(home, "ballast")
	daybooktest.Fill(t, ballast)
	refuses("can't record: the disk is full")
	require.NoError(t, os.Remove(ballast))
	db, err := sql.Open("sqlite", "file:"+s.path())
	require.NoError(t, err)
	_, err = db.ExecContext(t.Context(), `INSERT INTO goose_db_version (version_id, is_applied) VALUES (99, 1)`)
	require.NoError(t, errors.Join(err, db.Close()))
	refuses("the daybook is newer than this program")
}

// On a disk that takes no writes the program says so and does not begin.
func TestReadOnlyDiskAtStart(t *testing.T) {
	dir := daybooktest.SmallDisk(t, "8m", "the daybook's own tests stand in for it")
	path := filepath.Join(dir, "daybook.db")
	book, err := daybook.Open(t.Context(), path)
	require.NoError(t, err)
	require.NoError(t, book.Close())
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
	if said := log.String(); !strings.Contains(said, "can't write to the daybook") || !strings.Contains(said, "read-only") {
		t.Errorf("said %q", said)
	}
	require.NoError(t, syscall.Mount("", dir, "", syscall.MS_REMOUNT, ""))
	if status := p.Run(t.Context(), []string{"ask", "gauge 22"}); status != exitAnswered {
		t.Errorf("status %d once it takes writes again:\n%s", status, log)
	}
}
