package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"guildhand/bot/daybook"
	"guildhand/calc/testcount"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every answer that was shown is in the daybook, also where the program is
// killed without warning in the middle of a burst of questions. The real
// program runs in a process of its own; what it has shown is compared with what
// the daybook kept.
func TestEveryAnswerShownIsInTheDaybook(t *testing.T) {
	rounds := 20
	if !testcount.Long() {
		rounds = 6
	}
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))

	home := t.TempDir()
	answers, refusals := 0, 0
	for round := range rounds {
		// From before the room is open to well into the burst, and in the last
		// round so late that there is something to compare.
		after := random.IntN(1 + round*200/rounds)
		if round == rounds-1 {
			after = max(after, 20)
		}
		shown := burst(t, home, round, after)
		kept := keptIn(t, filepath.Join(home, ".local/share/guildhand/daybook.db"))
		for _, one := range shown {
			if one.entry == 0 {
				refusals++
				if !kept.problems[one.first] {
					t.Errorf("round %d: shown and not kept: %q", round, one.first)
				}
				continue
			}
			answers++
			// The screen wraps a long headline.
			if headline, ok := kept.headlines[one.entry]; !ok || !strings.HasPrefix(headline, one.first) {
				t.Errorf("round %d: shown as entry %d and not kept: %q, there is %q", round, one.entry, one.first, headline)
			}
		}
	}
	t.Logf("%d rounds, %d answers and %d refusals shown", rounds, answers, refusals)
	assert.NotZero(t, answers, "no answer was compared")
	assert.NotZero(t, refusals, "no refusal was compared")
}

// reply is what was shown: its first line, and the daybook's entry of an
// answer, 0 for a refusal.
type reply struct {
	first string
	entry int64
}

// burst starts the room, types many requests at once, kills it when it has
// shown some blocks of text (with none, at once), and gives the replies.
func burst(t *testing.T, home string, round, after int) []reply {
	t.Helper()
	cmd := exec.Command("guildhand")
	cmd.Env = append(os.Environ(), "HOME="+home, "XDG_DATA_HOME=", "XDG_CONFIG_HOME=")
	typed, err := cmd.StdinPipe()
	require.NoError(t, err)
	screen, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	go func() {
		// The pipe breaks when the room is killed.
		_, _ = io.Copy(typed, strings.NewReader(questions(round)))
		_ = typed.Close()
	}()
	var text bytes.Buffer
	blocks, lines := 0, bufio.NewReader(screen)
	for err == nil && blocks < after {
		var line string
		line, err = lines.ReadString('\n')
		text.WriteString(line)
		if line == "\n" {
			blocks++
		}
	}
	require.NoError(t, err, "the room ended by itself: %s", &text)
	require.NoError(t, cmd.Process.Kill())
	_, err = lines.WriteTo(&text) // what it had shown before it was killed
	require.NoError(t, err)
	err = cmd.Wait()
	var exit *exec.ExitError
	require.ErrorAs(t, err, &exit)
	require.True(t, exit.Sys().(syscall.WaitStatus).Signaled(), "the room ended by itself: %v", err)
	return replies(text.Bytes())
}

// questions are a round's requests. Every fifth is refused, in words that no
// other round has.
func questions(round int) string {
	var b strings.Builder
	for i := range 400 {
		if i%5 == 4 {
			fmt.Fprintf(&b, "gauge 9%03d%03d\n", round, i) // far out of range
			continue
		}
		fmt.Fprintf(&b, "weigh disc %.2f sterling 22ga\n", 10+float64(round)+float64(i)/400)
	}
	return b.String()
}

var entryShown = regexp.MustCompile(`\(entry (\d+) of the daybook\)$`)

// replies takes the screen apart. A reply ends with an empty line; one that was
// cut off was not shown.
func replies(text []byte) []reply {
	var all []reply
	_, said, _ := strings.Cut(string(text), "quit to leave\n")
	blocks := strings.Split(said, "\n\n")
	for _, block := range blocks[:len(blocks)-1] {
		first, _, _ := strings.Cut(block, "\n")
		one := reply{first: first}
		if found := entryShown.FindStringSubmatch(block); found != nil {
			one.entry, _ = strconv.ParseInt(found[1], 10, 64)
		}
		all = append(all, one)
	}
	return all
}

// keeping is what the daybook holds: headlines by entry, and problems.
type keeping struct {
	headlines map[int64]string
	problems  map[string]bool
}

func keptIn(t *testing.T, path string) keeping {
	t.Helper()
	kept := keeping{map[int64]string{}, map[string]bool{}}
	if _, err := os.Stat(path); err != nil {
		return kept // killed before it was made
	}
	book, err := daybook.Open(t.Context(), path)
	require.NoError(t, err)
	defer book.Close()
	for id := int64(1); ; id++ {
		entry, err := book.ByID(t.Context(), id)
		switch {
		case errors.Is(err, daybook.ErrNotFound):
			return kept
		case err != nil:
			t.Fatal(err)
		case entry.Status == daybook.Answered:
			kept.headlines[id] = entry.Headline
		default:
			kept.problems[entry.Problem] = true
		}
	}
}
