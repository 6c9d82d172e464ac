package daybook

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// childEnv makes the test binary play a part of its own in another process,
// to be killed: "record PATH" or "answer URL ...".
const childEnv = "GUILDHAND_TEST_CHILD"

var childParts = map[string]func(ctx context.Context, args []string) error{
	"record": recordForEver,
	"answer": answerEvents,
}

func TestMain(m *testing.M) {
	part := strings.Split(os.Getenv(childEnv), "\t")
	if part[0] == "" {
		os.Exit(m.Run())
	}
	play, ok := childParts[part[0]]
	if !ok {
		fmt.Fprintln(os.Stderr, "no such part:", part[0])
		os.Exit(2)
	}
	if err := play(context.Background(), part[1:]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// startChild runs a part in another process. What it prints comes line by
// line; the channel is closed when the process has ended and all it printed
// has been read.
func startChild(t *testing.T, part ...string) (*exec.Cmd, <-chan string) {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(exe)
	cmd.Env = append(os.Environ(), childEnv+"="+strings.Join(part, "\t"))
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := make(chan string, 1000)
	go func() {
		defer close(lines)
		scan := bufio.NewScanner(out)
		for scan.Scan() {
			lines <- scan.Text()
		}
		_ = cmd.Wait() // killed, most often
	}()
	return cmd, lines
}
