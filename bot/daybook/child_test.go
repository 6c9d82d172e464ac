package daybook

import (
	"context"
	"fmt"
	"os"
	"strings"
	"testing"

	"guildhand/bot/daybook/daybooktest"
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

// startChild runs a part in another process.
func startChild(t *testing.T, part ...string) daybooktest.Child {
	t.Helper()
	return daybooktest.StartChild(t, childEnv+"="+strings.Join(part, "\t"))
}
