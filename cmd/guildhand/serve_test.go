package main

import (
	"bytes"
	"context"
	"net"
	"strings"
	"sync"
	"testing"
	"time"
)

// journal collects what the program writes while it runs.
type journal struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (j *journal) Write(p []byte) (int, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.text.Write(p)
}

func (j *journal) String() string {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.text.String()
}

// nobody gives the address of a port that nobody listens on.
func nobody(t *testing.T) string {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	return listener.Addr().String()
}

// Serving begins also where the platform is away, and ends without complaint
// when it is told to.
func TestServeEndsWhenItIsTold(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	log := &journal{}
	p := &Program{Stdin: strings.NewReader(""), Stdout: log, Stderr: log, Environ: []string{
		"HOME=" + t.TempDir(),
		"GUILDHAND_MATRIX_HOMESERVER=http://" + nobody(t),
		"GUILDHAND_MATRIX_USER=@guildhand:example.org",
		"GUILDHAND_MATRIX_TOKEN=very-secret",
		"GUILDHAND_MATRIX_ENCRYPTION=false",
	}}
	ended := make(chan int, 1)
	go func() { ended <- p.Run(ctx, []string{"serve"}) }()
	for begin := time.Now(); !strings.Contains(log.String(), "serving"); time.Sleep(10 * time.Millisecond) {
		if time.Since(begin) > 20*time.Second {
			t.Fatalf("not serving:\n%s", log)
		}
	}
	time.Sleep(200 * time.Millisecond)
	stop()
	select {
	case status := <-ended:
		if status != exitAnswered || !strings.Contains(log.String(), "stopped") {
			t.Errorf("status %d:\n%s", status, log)
		}
	case <-time.After(20 * time.Second):
		t.Fatalf("still running:\n%s", log)
	}
	if strings.Contains(log.String(), "very-secret") {
		t.Errorf("the token is in the log:\n%s", log)
	}
}

// check says what is missing of a half-made configuration, and fails.
func TestCheckOfAServerThatIsAway(t *testing.T) {
	log := &journal{}
	p := &Program{Stdin: strings.NewReader(""), Stdout: log, Stderr: log, Environ: []string{
		"HOME=" + t.TempDir(),
		"GUILDHAND_MATRIX_HOMESERVER=http://" + nobody(t),
		"GUILDHAND_MATRIX_USER=@guildhand:example.org",
		"GUILDHAND_MATRIX_ENCRYPTION=false",
	}}
	if status := p.Run(t.Context(), []string{"check"}); status != exitFailed {
		t.Errorf("status %d", status)
	}
	for _, want := range []string{"store: sqlite", "account: @guildhand:example.org", "missing: homeserver", "something is missing"} {
		if !strings.Contains(log.String(), want) {
			t.Errorf("lacks %q:\n%s", want, log)
		}
	}
}
