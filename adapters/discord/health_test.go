package discord

import (
	"context"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"guildhand/adapters/health"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHealthPort(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	r := start(t, s, newFaulty(t, testSpecs()), s.config())
	port, err := health.Listen("127.0.0.1:0", r.adapter.reg, func(context.Context) error { return r.adapter.Ready() })
	require.NoError(t, err)
	go func() { _ = port.Run(t.Context()) }()
	get := func(path string) (int, string) {
		t.Helper()
		resp, err := http.Get("http://" + port.Addr() + path)
		require.NoError(t, err)
		defer func() { _ = resp.Body.Close() }()
		b, err := io.ReadAll(resp.Body)
		require.NoError(t, err)
		return resp.StatusCode, string(b)
	}
	p := slash("plate", arg{"size", "8x6"}, arg{"remark", "remark-of-the-maker"})
	e := s.send(p)
	r.answered(e)
	s.again(e, p)
	r.answered(r.slash("plate", arg{"size", "8x6"}, arg{"count", 59.0}))
	s.mu.Lock()
	s.limits["POST interactions/#/~/callback"] = &limit{size: 1, per: time.Second, reset: time.Now().Add(time.Second)} // long enough for a slow machine to meet it
	s.mu.Unlock()
	r.answered(r.slash("fault", arg{"how", "ping"}))
	for path, want := range map[string]int{"/healthz": 200, "/readyz": 200} {
		if code, body := get(path); code != want {
			t.Errorf("%s gives %d %s", path, code, body)
		}
	}
	r.wait("the duplicate", func() bool {
		_, body := get("/metrics")
		return strings.Contains(body, `guildhand_duplicates_total{platform="discord"} 1`)
	})
	_, body := get("/metrics")
	for _, want := range []string{
		`guildhand_answers_total{platform="discord",request="plate"} 1`,
		`guildhand_refusals_total{platform="discord",request="plate"} 1`,
		`guildhand_connected{platform="discord",shard="0"} 1`,
		`guildhand_latency_seconds_count{platform="discord",request="plate"} 2`,
		`guildhand_rate_limit_waits_total{kind="told",platform="discord"}`,
	} {
		assert.Contains(t, body, want)
	}
	if strings.Contains(body, "remark-of-the-maker") || strings.Contains(body, "secret") {
		t.Error("/metrics holds what was typed, or a token")
	}
	s.dropAll()
	s.mu.Lock()
	s.gateway.refuse = 4000 // not a fatal one: it goes on trying
	s.mu.Unlock()
	r.wait("not ready", func() bool { code, _ := get("/readyz"); return code == 503 })
	s.mu.Lock()
	s.gateway.refuse = 0
	s.mu.Unlock()
	r.wait("ready again", func() bool { code, _ := get("/readyz"); return code == 200 })
	if _, body := get("/metrics"); !strings.Contains(body, `guildhand_reconnects_total{platform="discord"} 1`) {
		t.Error("the reconnect is not counted")
	}
}
