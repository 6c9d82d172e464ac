package main

import (
	"context"
	"errors"
	"flag"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the expected text of conversations and of README.md")

// TestMain makes the real program a command of the test binary, so that
// conversations and crashes run the very thing that main starts.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"guildhand": func() {
			ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
			defer stop()
			os.Exit(fromProcess().Run(ctx, os.Args[1:]))
		},
	})
}

// TestConversations runs what makers type and compares what comes back. With
// -update the files are rewritten; read the difference before it goes in.
func TestConversations(t *testing.T) {
	scripts, err := filepath.Glob("testdata/*.txt")
	require.NoError(t, err)
	if len(scripts) == 0 {
		t.Fatal("no conversations in testdata")
	}
	testscript.Run(t, testscript.Params{
		Files:              scripts,
		UpdateScripts:      *update,
		RequireUniqueNames: true,
		Setup: func(env *testscript.Env) error {
			// A home of its own for every conversation; nothing of the machine's.
			home := filepath.Join(env.WorkDir, "home")
			env.Setenv("HOME", home)
			env.Setenv("XDG_DATA_HOME", "")
			env.Setenv("XDG_CONFIG_HOME", "")
			return os.MkdirAll(home, 0o700)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"placeless": placeless, "status": status, "try": try,
		},
	})
}

// placeless puts $WORK in place of the test's own folder in what the last
// command said, so that a conversation reads the same wherever it is run.
func placeless(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 0 {
		ts.Fatalf("usage: placeless")
	}
	text := strings.ReplaceAll(ts.ReadFile("stdout"), ts.Getenv("WORK"), "$WORK")
	_, err := io.WriteString(ts.Stdout(), text)
	ts.Check(err)
}

// status runs a command and wants its exit status: status N COMMAND.
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N COMMAND...")
	}
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if strconv.Itoa(got) != args[0] {
		ts.Fatalf("exit status %d, want %s", got, args[0])
	}
}

// try asks with the line that the last refusal offered, and wants an answer.
func try(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 0 {
		ts.Fatalf("usage: try")
	}
	_, line, found := strings.Cut(ts.ReadFile("stdout"), "\ntry: ")
	if !found {
		ts.Fatalf("the last refusal offered no line to try")
	}
	line = strings.TrimSuffix(line, "\n")
	if err := ts.Exec("guildhand", "ask", line); err != nil {
		ts.Fatalf("the line to try, %q, is not answered: %v", line, err)
	}
}
