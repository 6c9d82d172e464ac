package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"net"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"time"
)

// A session is resumed at the address that its READY names. The library knows
// only the address of its first connection, which it keeps until it can't be
// dialled, and then asks for anew: so the first dial after a READY fails on
// purpose, and the question is answered here.

// resumeAddress is where the session of a shard is resumed.
type resumeAddress struct {
	mu  sync.Mutex
	url string
	// stale is set while the library keeps another address.
	stale bool
}

func (r *resumeAddress) set(url string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.stale = r.stale || url != r.url
	r.url = url
}

func (r *resumeAddress) get() string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.url
}

// fresh reports once that the library keeps an old address.
func (r *resumeAddress) takeStale() bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	stale := r.stale
	r.stale = false
	return stale
}

var errOldAddress = errors.New("discord: not dialled, to drop the old address")

// dial connects, or fails once where the address is an old one.
func (s *shard) dial(ctx context.Context, network, address string, secure bool, dropped func()) (net.Conn, error) {
	if s.resume.takeStale() {
		return nil, errOldAddress
	}
	return dialGuarded(ctx, network, address, secure, dropped)
}

// open opens the shard's connection. Where the address to resume at can't be
// reached, the next time asks Discord for one.
func (s *shard) open() error {
	err := s.session.Open()
	if errors.Is(err, errOldAddress) {
		err = s.session.Open()
	}
	var dialled *net.OpError
	if errors.As(err, &dialled) {
		s.resume.set("")
		s.resume.takeStale() // a failed dial has dropped it
	}
	return err
}

// gatewayAddress answers the library's question for the gateway with the address
// to resume at, where there is one.
type gatewayAddress struct {
	next   http.RoundTripper
	resume *resumeAddress
}

// RoundTrip answers or passes on.
func (g gatewayAddress) RoundTrip(r *http.Request) (*http.Response, error) {
	address := g.resume.get()
	if address == "" || r.Method != http.MethodGet || !strings.HasSuffix(r.URL.Path, "/gateway") {
		return g.next.RoundTrip(r)
	}
	body, err := json.Marshal(map[string]string{"url": address})
	if err != nil {
		return nil, err
	}
	return &http.Response{
		Status: "200 OK", StatusCode: http.StatusOK, Proto: "HTTP/1.1", ProtoMajor: 1, ProtoMinor: 1, Request: r,
		Header: http.Header{"Content-Type": {"application/json"}}, ContentLength: int64(len(body)),
		Body: io.NopCloser(bytes.NewReader(body)),
	}, nil
}

// sessionStarts counts new sessions. Discord allows 1,000 in 24 hours over all
// shards, and takes the token away beyond; resuming is free.
type sessionStarts struct {
	mu sync.Mutex
	at []time.Time
}

// freeStarts is how many sessions may start within an hour without a wait. With
// one every two minutes after that, there are 960 a day.
const freeStarts = 10

func (s *sessionStarts) add(now time.Time) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.at = append(s.at, now)
	for len(s.at) > 0 && now.Sub(s.at[0]) > time.Hour {
		s.at = s.at[1:]
	}
}

// wait is how long to wait before what may become another start.
func (s *sessionStarts) wait(now time.Time, between time.Duration) time.Duration {
	s.mu.Lock()
	defer s.mu.Unlock()
	within := 0
	for _, at := range s.at {
		if now.Sub(at) <= time.Hour {
			within++
		}
	}
	if within <= freeStarts {
		return 0
	}
	return between
}

// onReady learns what a new session says of itself.
func (a *Adapter) onReady(s *shard, raw []byte) {
	var ready struct {
		User   user   `json:"user"`
		Resume string `json:"resume_gateway_url"`
	}
	a.starts.add(time.Now())
	s.resumed.Store(false)
	if err := json.Unmarshal(raw, &ready); err != nil || ready.User.ID == "" {
		a.log.Warn("a READY could not be read")
		return
	}
	a.selfID.Store(ready.User.ID)
	a.selfOnce.Do(func() { close(a.selfKnown) })
	if u, err := url.Parse(ready.Resume); err == nil && (u.Scheme == "wss" || u.Scheme == "ws") && u.Host != "" {
		s.resume.set(ready.Resume)
	}
}

// readyWait is how long a message waits for the READY that came before it. One
// that could not be read is never known.
const readyWait = 10 * time.Second

// awaitSelf waits until the bot knows its own user. The library gives every event
// to a goroutine of its own, so a mention can overtake the READY before it.
func (a *Adapter) awaitSelf(ctx context.Context) {
	select {
	case <-a.selfKnown:
	case <-time.After(readyWait):
	case <-ctx.Done():
	}
}
