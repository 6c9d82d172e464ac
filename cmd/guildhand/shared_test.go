package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"guildhand/bot/daybook"
	"guildhand/bot/daybook/daybooktest"

	"github.com/stretchr/testify/require"
)

// Two programs serve the same room from one PostgreSQL, whose address the one
// has from a file and the other from its environment. One is killed in the
// middle: the other answers what that one had in hand, once its leases have
// ended, and the rest; every question has one answer.
func TestTwoProgramsServeOneRoom(t *testing.T) {
	if testing.Short() {
		t.Skip("waits for leases to end; left out of short runs")
	}
	const questions = 300
	address := daybooktest.NewSchema(t, "two programs on one PostgreSQL are not tested")
	m := newMatrixLoop(t)
	// The first program gets stuck in sending an answer, and never sends it.
	const before = 20
	var sent atomic.Int64
	stuck, over := make(chan struct{}), make(chan struct{})
	m.beforeSend = func(session string) bool {
		if session != "of-one" || sent.Add(1) < before {
			return false
		}
		if sent.Load() == before {
			close(stuck)
		}
		<-over
		return true
	}

	one := exec.Command("guildhand", "serve")
	log := &journal{}
	one.Stdout, one.Stderr = log, log
	// Each has a session of its own, between which the homeserver knows no
	// transactions.
	one.Env = append(append(os.Environ(), m.env(false)...), "HOME="+t.TempDir(), "GUILDHAND_DAYBOOK_URL="+address, "GUILDHAND_MATRIX_TOKEN=of-one")
	require.NoError(t, one.Start())
	t.Cleanup(func() { _ = one.Process.Kill() })
	m.wait(t, "the first program", func() bool { return m.syncs > 1 })

	home := t.TempDir()
	file := filepath.Join(home, "url")
	require.NoError(t, os.WriteFile(file, []byte(address+"\n"), 0o600))
	two := serveLoop(t, m, home, "GUILDHAND_DAYBOOK_URL_FILE="+file, "GUILDHAND_MATRIX_TOKEN=of-two")
	var asked []string
	for i := range questions {
		asked = append(asked, m.ask(fmt.Sprintf("!weigh disc %.2f sterling 22ga", 10+float64(i)/100)))
	}
	select {
	case <-stuck:
	case <-time.After(time.Minute):
		t.Fatalf("the first program sends nothing:\n%s", log)
	}
	require.NoError(t, one.Process.Kill())
	_ = one.Wait() // killed
	close(over)
	done := 0
	for _, q := range asked {
		done += len(m.answers(q))
	}
	m.waitLong(t, "all answers", 3*daybook.DefaultHold, func() bool {
		for _, q := range asked {
			if len(m.answersTo(q)) == 0 {
				return false
			}
		}
		return true
	})
	book, err := daybook.OpenPostgres(t.Context(), address)
	require.NoError(t, err)
	defer book.Close()
	m.waitLong(t, "all answers to be marked", 3*daybook.DefaultHold, func() bool {
		left, err := book.Undelivered(t.Context(), "matrix", time.Time{})
		return err == nil && len(left) == 0
	})
	two.stop()
	two.end(t)
	for i, q := range asked {
		if answers := m.answers(q); len(answers) != 1 || strings.Contains(answers[0], "can't") {
			t.Errorf("question %d: %q", i+1, answers)
		}
	}
	if done == 0 || done == questions {
		t.Errorf("%d of %d were answered when the one was killed, so the test tells nothing", done, questions)
	}
	if said := log.String(); !strings.Contains(said, "msg=answered") {
		t.Errorf("the first program has answered nothing:\n%s", said)
	}
	if said := two.log.String(); !strings.Contains(said, "msg=answered") || !strings.Contains(said, "store=postgres") {
		t.Errorf("the second program has answered nothing, or not on PostgreSQL:\n%s", said)
	}
	t.Logf("%d answered when the one was killed; it answered %d, the other %d", done,
		strings.Count(log.String(), "msg=answered"), strings.Count(two.log.String(), "msg=answered"))
}
