// Package daybooktest gives tests what several packages need of a shared
// daybook: an empty place on a PostgreSQL, and processes that can be killed.
// It is not part of the program.
package daybooktest

import (
	"bufio"
	"context"
	"crypto/rand"
	"database/sql"
	"net/url"
	"os"
	"os/exec"
	"strings"
	"testing"

	_ "github.com/jackc/pgx/v5/stdlib" // the driver "pgx"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// PostgresEnv names the PostgreSQL of the tests; .ci/postgres starts one.
const PostgresEnv = "GUILDHAND_TEST_POSTGRES"

// NewSchema makes an empty schema that goes with the test, and gives the
// address of a daybook in it. Without a PostgreSQL the test is skipped, and
// untested says what it would have tested.
func NewSchema(t testing.TB, untested string) (address string) {
	t.Helper()
	base := os.Getenv(PostgresEnv)
	if base == "" {
		t.Skipf("%s is not set, so %s; .ci/postgres starts one and prints its address", PostgresEnv, untested)
	}
	db, err := sql.Open("pgx", base)
	require.NoError(t, err)
	// In a schema of its own, the extension would go with the first test that made
	// it. Several packages may come at once, so each waits for the lock.
	const inPublic = `BEGIN; SELECT pg_advisory_xact_lock(20310304); CREATE EXTENSION IF NOT EXISTS btree_gin SCHEMA public; COMMIT`
	_, err = db.ExecContext(t.Context(), inPublic)
	require.NoError(t, err)
	name := "test_" + strings.ToLower(rand.Text())
	_, err = db.ExecContext(t.Context(), "CREATE SCHEMA "+name)
	require.NoError(t, err)
	t.Cleanup(func() {
		_, err := db.ExecContext(context.Background(), "DROP SCHEMA "+name+" CASCADE")
		assert.NoError(t, err)
		db.Close()
	})
	u, err := url.Parse(base)
	require.NoError(t, err)
	q := u.Query()
	q.Set("search_path", name)
	u.RawQuery = q.Encode()
	return u.String()
}

// StartChild runs the test binary again in a process of its own, with one more
// setting in its environment, "NAME=value". What it prints comes line by line;
// the channel is closed, and the process waited for, when all has been read.
func StartChild(t testing.TB, setting string) Child {
	t.Helper()
	exe, err := os.Executable()
	require.NoError(t, err)
	cmd := exec.Command(exe)
	cmd.Env = append(os.Environ(), setting)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	lines := make(chan string, 1000)
	go func() {
		defer close(lines)
		scan := bufio.NewScanner(out)
		for scan.Scan() {
			lines <- scan.Text()
		}
		_ = cmd.Wait() // killed, most often
	}()
	return Child{cmd, lines}
}

// Child is a process of StartChild.
type Child struct {
	Cmd   *exec.Cmd
	Lines <-chan string
}

// killsFirst is how many victims die before the steady process starts: enough
// for a test to tell something, however fast the machine.
const killsFirst = 5

// KillUntilDone starts one victim after the other, each killed after as many
// lines as after says. From the fifth kill on a steady process runs beside them,
// to its end. It gives how many were killed, and fails where a process ended
// badly by itself.
func KillUntilDone(t testing.TB, steady, victim func() Child, after func() int) (kills int) {
	t.Helper()
	var running Child
	var done chan struct{}
	for {
		if kills == killsFirst && done == nil {
			running, done = steady(), make(chan struct{})
			go func() {
				defer close(done)
				for range running.Lines {
				}
			}()
		}
		kills += killAfter(t, victim(), after())
		if done == nil {
			continue
		}
		select {
		case <-done:
			require.True(t, running.Cmd.ProcessState.Success(), "the steady process: %v", running.Cmd.ProcessState)
			return kills
		default:
		}
	}
}

// killAfter kills a process after some lines and gives 1, or 0 where it was done
// before.
func killAfter(t testing.TB, c Child, lines int) (killed int) {
	t.Helper()
	for range c.Lines {
		if lines--; lines == 0 {
			_ = c.Cmd.Process.Kill()
		}
	}
	if c.Cmd.ProcessState.ExitCode() == -1 {
		return 1
	}
	require.True(t, c.Cmd.ProcessState.Success(), "a process failed: %v", c.Cmd.ProcessState)
	return 0
}
