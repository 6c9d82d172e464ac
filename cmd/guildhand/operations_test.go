package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"guildhand/bot/daybook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// serving is `guildhand serve` in this process, in the room of a loop.
type serving struct {
	home  string
	log   *journal
	stop  func()
	ended chan int
}

func serveLoop(t *testing.T, m *matrixLoop, home string, env ...string) *serving {
	t.Helper()
	ctx, stop := context.WithCancel(t.Context())
	s := &serving{home: home, log: &journal{}, stop: stop, ended: make(chan int, 1)}
	p := &Program{
		Stdin: strings.NewReader(""), Stdout: s.log, Stderr: s.log,
		Environ: append(append([]string{"HOME=" + home}, m.env(false)...), env...),
	}
	go func() { s.ended <- p.Run(ctx, []string{"serve"}) }()
	t.Cleanup(stop)
	m.mu.Lock()
	m.syncs = 0
	m.mu.Unlock()
	m.listening(t)
	return s
}

// end waits until the program has ended without complaint.
func (s *serving) end(t *testing.T) {
	t.Helper()
	select {
	case status := <-s.ended:
		if status != exitAnswered || !strings.Contains(s.log.String(), "msg=stopped") {
			t.Fatalf("status %d:\n%s", status, s.log)
		}
	case <-time.After(30 * time.Second):
		t.Fatalf("still running:\n%s", s.log)
	}
}

func (s *serving) path() string {
	return filepath.Join(s.home, ".local/share/guildhand/daybook.db")
}

// entriesIn returns the entries of a daybook in their order.
func entriesIn(t *testing.T, path string) (all []daybook.Entry) {
	t.Helper()
	book, err := daybook.Open(t.Context(), path)
	require.NoError(t, err)
	defer book.Close()
	all, err = book.List(t.Context(), daybook.Filter{Platform: "matrix", Guild: loopRoom, Channel: loopRoom, Limit: daybook.MaxPage})
	require.NoError(t, err)
	slices.Reverse(all) // the latest came first
	return all
}

// Told to stop while an answer is on its way: that one arrives and is marked;
// what was not begun is answered after the next start; each once.
func TestStopFinishesWhatIsInHand(t *testing.T) {
	m, home := newMatrixLoop(t), t.TempDir()
	sending, goOn := make(chan struct{}), make(chan struct{})
	m.beforeSend = func(string) bool {
		if sending != nil {
			close(sending)
			sending = nil
			<-goOn
		}
		return false
	}
	begun := sending
	s := serveLoop(t, m, home)
	var questions []string
	for i := range 20 {
		questions = append(questions, m.ask(fmt.Sprintf("!weigh disc %d sterling 22ga", 10+i)))
	}
	<-begun
	s.stop()
	time.Sleep(200 * time.Millisecond)
	close(goOn)
	s.end(t)
	answers := m.answers(questions[0])
	require.Len(t, answers, 1, "answers that were being sent:\n%s", s.log)
	found := false
	for _, e := range entriesIn(t, s.path()) {
		if found = e.Key.Message == questions[0]; found {
			assert.NotZero(t, e.DeliveredAt, "the answer was sent and not marked")
			break
		}
	}
	assert.True(t, found, "the answer that was being sent is not in the daybook")
	assert.Empty(t, m.answers(questions[len(questions)-1]), "everything was answered before the end, so this shows nothing of what was not begun")

	s = serveLoop(t, m, home)
	for _, q := range questions {
		m.answered(t, q)
	}
	s.stop()
	s.end(t)
	for i, q := range questions {
		if answers := m.answers(q); assert.Len(t, answers, 1, "question %d", i+1) {
			assert.Contains(t, answers[0], fmt.Sprint(10+i), "question %d", i+1)
		}
	}
	assert.Len(t, entriesIn(t, s.path()), len(questions))
}

// run runs the real program in a process of its own.
func run(t *testing.T, home string, args ...string) string {
	t.Helper()
	cmd := exec.Command("guildhand", args...)
	cmd.Env = append(os.Environ(), "HOME="+home, "XDG_DATA_HOME=", "XDG_CONFIG_HOME=")
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%v:\n%s", args, out)
	return string(out)
}

// A back-up is made and put back by another process while the program answers a
// burst of questions: the back-up is the daybook up to some moment, the burst
// is answered to its end, and every answer that was ever shown is either in the
// daybook or in the copy of what was there before.
func TestBackupAndRestoreInABurst(t *testing.T) {
	const burst = 150
	m, home := newMatrixLoop(t), t.TempDir()
	s := serveLoop(t, m, home)
	ask := func(from int) (questions []string) {
		for i := range burst {
			questions = append(questions, m.ask(fmt.Sprintf("!weigh disc %.2f sterling 22ga", 10+float64(from+i)/100)))
		}
		return questions
	}
	first := ask(0)
	m.answered(t, first[10])
	copied := filepath.Join(t.TempDir(), "copy.db")
	run(t, home, "backup", copied)
	shown := 0
	for _, q := range first {
		shown += len(m.answers(q))
	}
	inCopy := entriesIn(t, copied)
	for i, e := range inCopy {
		require.Equal(t, first[i], e.Key.Message, "entry %d of the back-up: it is not the daybook of one moment", i+1)
	}
	if len(inCopy) < 10 || len(inCopy) > shown+1 || len(inCopy) == burst {
		t.Errorf("the back-up has %d entries, and %d of %d were answered when it was done", len(inCopy), shown, burst)
	}
	m.answered(t, first[burst-1])

	second := ask(burst)
	m.answered(t, second[20])
	out := run(t, home, "restore", copied)
	_, kept, ok := strings.Cut(out, "what it held before is in ")
	kept, _, _ = strings.Cut(kept, "\n")
	require.True(t, ok, out)
	m.answered(t, second[burst-1])
	s.stop()
	s.end(t)

	recorded := map[string]bool{}
	before, after := entriesIn(t, kept), entriesIn(t, s.path())
	for _, e := range append(before, after...) {
		recorded[e.Key.Message] = true
	}
	if len(before) < burst+20 || len(after) <= len(inCopy) || len(after) == len(inCopy)+burst {
		t.Errorf("%d entries kept, %d in the daybook: the restore was not in the middle of the burst", len(before), len(after))
	}
	for i, q := range append(first, second...) {
		if answers := m.answers(q); assert.Len(t, answers, 1, "question %d", i+1) {
			assert.NotContains(t, answers[0], "can't write to the daybook", "question %d", i+1)
		}
		assert.True(t, recorded[q], "the answer to question %d is neither in the daybook nor in what was kept", i+1)
	}
}
