package discord

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"guildhand/adapters/conversationtest"
	"guildhand/bot"
	"guildhand/bot/daybook"
	"guildhand/bot/requests"
	"guildhand/calc/testcount"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// childEnv makes the test binary an adapter in a process of its own, to be
// killed: the stand-in's address, its token, its application, a folder, and a
// fifth part where it has the program's own requests.
const childEnv = "GUILDHAND_TEST_DISCORD_CHILD"

func TestMain(m *testing.M) {
	part := strings.Split(os.Getenv(childEnv), "\t")
	if len(part) < 4 {
		conversationtest.AtOnce(testsAtOnce)
		os.Exit(m.Run())
	}
	if err := runChild(part[0], part[1], part[2], part[3], len(part) > 4); err != nil {
		fmt.Fprintln(os.Stderr, "child:", err)
		os.Exit(1)
	}
}

// runChild is what the program does, against the stand-in, until it is killed
// or interrupted.
func runChild(address, token, app, dir string, real bool) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	book, err := daybook.Open(ctx, filepath.Join(dir, "daybook.db"))
	if err != nil {
		return err
	}
	defer func() { _ = book.Close() }()
	log := slog.New(slog.NewTextHandler(os.Stderr, &slog.HandlerOptions{Level: slog.LevelWarn}))
	specs, shown := testSpecs(), quick
	shown.deferAfter = 60 * time.Millisecond
	if real {
		specs, shown = requests.All(book), quick
	}
	service := bot.New(bot.Options{Specs: specs, Shop: testShop(), Book: book, Log: slog.New(slog.DiscardHandler), Version: "child", Timeout: patience})
	a, err := New(Config{Token: token, ApplicationID: app, FreshFor: time.Hour}, Options{
		Service: service, Shop: testShop(), Transport: redirect(address), pace: shown, Log: log,
		Journal: filepath.Join(dir, "intake"),
	})
	if err != nil {
		return err
	}
	go func() {
		for a.Ready() != nil {
			time.Sleep(time.Millisecond)
		}
		fmt.Println("ready")
	}()
	return a.Run(ctx)
}

// startChild starts one; ready is closed when it is connected.
func startChild(t *testing.T, s *standIn, dir string, more ...string) (cmd *exec.Cmd, ready chan struct{}) {
	t.Helper()
	exe, err := os.Executable()
	require.NoError(t, err)
	cmd = exec.Command(exe)
	cmd.Env = append(os.Environ(), childEnv+"="+strings.Join(append([]string{s.server.Listener.Addr().String(), s.token, s.appID, dir}, more...), "\t"))
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	// Where the test gives up, it leaves no process behind.
	t.Cleanup(func() { _ = cmd.Process.Kill() })
	ready = make(chan struct{})
	go func() {
		scan := bufio.NewScanner(out)
		for scan.Scan() {
			if scan.Text() == "ready" {
				close(ready)
			}
		}
		_, _ = io.Copy(io.Discard, out)
	}()
	return cmd, ready
}

// Killed at random moments, while requests of all sorts come in: what was
// recorded or deferred is answered exactly once, or is in the daybook as
// expired; and what was never accepted has no answer.
func TestKilledAtAnyMoment(t *testing.T) {
	rounds := 50
	if !testcount.Long() {
		rounds = 8
	}
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	s := newStandIn(t)
	dir := t.TempDir()
	var all []*interactionState
	for range rounds {
		cmd, ready := startChild(t, s, dir)
		select {
		case <-ready:
			for end := time.Now().Add(time.Duration(random.IntN(250)) * time.Millisecond); time.Now().Before(end); {
				all = append(all, s.send(anything(random, len(all))))
				time.Sleep(time.Duration(random.IntN(30)) * time.Millisecond)
			}
		case <-time.After(time.Duration(random.IntN(1500)) * time.Millisecond): // while it starts
		}
		require.NoError(t, cmd.Process.Kill())
		_ = cmd.Wait()
		s.forget()
	}
	// Those whose token has run out by the last start get a message.
	s.mu.Lock()
	for i, e := range all {
		if i%7 == 0 && e.original != nil && e.original.loading {
			e.until = time.Now()
		}
	}
	s.mu.Unlock()
	cmd, ready := startChild(t, s, dir)
	select {
	case <-ready:
	case <-time.After(30 * time.Second):
		t.Fatal("the last process does not connect")
	}
	book, err := daybook.Open(context.Background(), filepath.Join(dir, "daybook.db"))
	require.NoError(t, err)
	defer func() { _ = book.Close() }()
	deferred := func(e *interactionState) bool {
		s.mu.Lock()
		defer s.mu.Unlock()
		return e.ack == replyDeferred
	}
	require.Eventually(t, func() bool {
		left, err := book.Undelivered(context.Background(), Platform, time.Time{})
		if err != nil || len(left) > 0 {
			return false
		}
		for _, e := range all {
			if _, err := book.ByKey(context.Background(), keyOf(e)); deferred(e) && err != nil {
				return false
			}
		}
		return true
	}, patience, 5*time.Millisecond, "everything that was accepted")
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	assert.NoError(t, cmd.Wait())
	recorded := checkShownOnce(t, s, book, all)
	t.Logf("%d kills", rounds)
	assert.GreaterOrEqual(t, recorded, rounds/2, "so few recorded requests prove little")
}

// anything is a request of any sort.
func anything(random *rand.Rand, n int) pressed {
	var p pressed
	switch random.IntN(6) {
	case 0:
		p = slash("batch", arg{"count", 3.0}, arg{"wait", float64(random.IntN(60))}) // deferred at once
	case 1:
		p = slash("fault", arg{"how", "wait"}) // deferred by the clock
	case 2:
		p = slash("plate", arg{"size", "8x6"}, arg{"count", 59.0}) // refused
	case 3:
		p = slash("plate", arg{"size", "8x6"}, arg{"private", true})
	default:
		p = slash("plate", arg{"size", fmt.Sprintf("%dx6", 8+random.IntN(20))})
	}
	p.maker = fmt.Sprintf("7234567890123%05d", n) // one maker alone may not ask so much
	return p
}

// shownAs counts the messages in the channels by their footer's tag.
func (s *standIn) shownAs() map[string]int {
	tags := map[string]int{}
	for _, list := range s.channels {
		for _, m := range list {
			for _, e := range m.message.Embeds {
				if e.Footer != nil {
					parts := strings.Split(e.Footer.Text, " · ")
					tags[parts[len(parts)-1]]++
				}
			}
		}
	}
	return tags
}

// checkShownOnce compares what is recorded with what is shown, and returns how
// many were recorded.
func checkShownOnce(t *testing.T, s *standIn, book *daybook.Book, all []*interactionState) (recorded int) {
	t.Helper()
	s.mu.Lock()
	defer s.mu.Unlock()
	shownAs := s.shownAs()
	never, late, expired := 0, 0, 0
	for _, e := range all {
		entry, err := book.ByKey(context.Background(), keyOf(e))
		if errors.Is(err, daybook.ErrNotFound) {
			never++
			assert.Zero(t, e.ack, e.id)
			continue
		}
		require.NoError(t, err)
		recorded++
		n := shownAs[entryTag(entry.ID)]
		if entry.DeliveredAt.IsZero() {
			expired++
			assert.Zero(t, n, "entry %d", entry.ID)
			continue
		}
		assert.Equal(t, 1, n, "entry %d", entry.ID)
		if e.original == nil || e.original.id != entry.Delivered {
			late++
		}
	}
	t.Logf("%d requests: %d answered once (%d of them by a message), %d expired, %d never accepted", len(all), recorded-expired, late, expired, never)
	return recorded
}
