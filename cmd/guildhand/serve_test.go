package main

import (
	"bytes"
	"context"
	"net"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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

// nobody returns the address of a port that nobody listens on.
func nobody(t *testing.T) string {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
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
	require.Eventually(t, func() bool { return strings.Contains(log.String(), "serving") }, 20*time.Second, 10*time.Millisecond)
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
	assert.NotContains(t, log.String(), "very-secret")
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
		assert.Contains(t, log.String(), want)
	}
}

// The health port covers the daybook and both platforms, and guildhand health
// says in one sentence what is wrong.
func TestHealthOfTheWholeProgram(t *testing.T) {
	m := newMatrixLoop(t)
	home, log := t.TempDir(), &journal{}
	env := append(m.env(false), "HOME="+home, "GUILDHAND_HEALTH_ADDR="+nobody(t))
	ask := func() (status int, said string) {
		var out journal
		p := &Program{Stdin: strings.NewReader(""), Stdout: &out, Stderr: &out, Environ: env}
		return p.Run(t.Context(), []string{"health"}), out.String()
	}
	status, said := ask()
	assert.Equal(t, exitFailed, status)
	assert.Contains(t, said, "nothing answers at the health port")

	ctx, stop := context.WithCancel(t.Context())
	p := &Program{Stdin: strings.NewReader(""), Stdout: log, Stderr: log, Environ: env}
	ended := make(chan int, 1)
	go func() { ended <- p.Run(ctx, []string{"serve"}) }()
	healthy := func() bool { status, said = ask(); return status == exitAnswered }
	if !assert.Eventually(t, healthy, time.Minute, 20*time.Millisecond) {
		t.Fatalf("%s\n%s", said, log)
	}
	assert.Equal(t, "ready\n", said)

	m.Listener.Close() // first, so that no connection is made anew
	m.CloseClientConnections()
	sick := func() bool { status, said = ask(); return status == exitFailed }
	require.Eventually(t, sick, time.Minute, 20*time.Millisecond)
	assert.Equal(t, "guildhand: not ready: matrix: not connected to the homeserver\n", said)
	stop()
	assert.Equal(t, exitAnswered, <-ended)
}
