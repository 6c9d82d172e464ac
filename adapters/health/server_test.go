package health

import (
	"context"
	"errors"
	"io"
	"net"
	"net/http"
	"sync/atomic"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestServer(t *testing.T) {
	reg := prometheus.NewRegistry()
	m := NewMetrics(reg, "stand-in")
	m.Answered("collet", 40*time.Millisecond)
	m.Refused("", time.Millisecond)
	m.Fault("kit")
	m.Duplicate()
	m.Late("channel")
	m.Connected("0", true)
	m.Reconnected()
	m.Waited(true, 2*time.Second)
	m.Waited(false, time.Second)
	m.PlatformError("edit")

	var up atomic.Bool
	s, err := Listen("127.0.0.1:0", reg, func(context.Context) error {
		if !up.Load() {
			return errors.New("not connected yet")
		}
		return nil
	})
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- s.Run(ctx) }()

	get := func(path string) (int, string) {
		t.Helper()
		resp, err := http.Get("http://" + s.Addr() + path)
		require.NoError(t, err)
		defer func() { _ = resp.Body.Close() }()
		body, err := io.ReadAll(resp.Body)
		require.NoError(t, err)
		return resp.StatusCode, string(body)
	}
	code, _ := get("/healthz")
	assert.Equal(t, http.StatusOK, code)
	code, body := get("/readyz")
	assert.Equal(t, http.StatusServiceUnavailable, code)
	assert.Contains(t, body, "not connected yet")
	up.Store(true)
	code, _ = get("/readyz")
	assert.Equal(t, http.StatusOK, code)
	_, body = get("/metrics")
	for _, want := range []string{
		`guildhand_answers_total{platform="stand-in",request="collet"} 1`,
		`guildhand_refusals_total{platform="stand-in",request=""} 1`,
		`guildhand_faults_total{platform="stand-in",request="kit"} 1`,
		`guildhand_duplicates_total{platform="stand-in"} 1`,
		`guildhand_late_total{outcome="channel",platform="stand-in"} 1`,
		`guildhand_connected{platform="stand-in",shard="0"} 1`,
		`guildhand_reconnects_total{platform="stand-in"} 1`,
		`guildhand_rate_limit_waits_total{kind="told",platform="stand-in"} 1`,
		`guildhand_rate_limit_wait_seconds_total{platform="stand-in"} 3`,
		`guildhand_platform_errors_total{call="edit",platform="stand-in"} 1`,
		`guildhand_latency_seconds_count{platform="stand-in",request="collet"} 1`,
	} {
		assert.Contains(t, body, want)
	}
	cancel()
	assert.NoError(t, <-done)
}

// Ask is what the image's health check does.
func TestAsk(t *testing.T) {
	var down atomic.Bool
	s, err := Listen("127.0.0.1:0", prometheus.NewRegistry(), func(context.Context) error {
		if down.Load() {
			return errors.Join(errors.New("discord: starting"), errors.New("matrix: not connected"))
		}
		return nil
	})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- s.Run(ctx) }()
	_, port, err := net.SplitHostPort(s.Addr())
	require.NoError(t, err)

	assert.NoError(t, Ask(t.Context(), s.Addr()))
	assert.NoError(t, Ask(t.Context(), "0.0.0.0:"+port), "a program that listens on every address")
	assert.NoError(t, Ask(t.Context(), ":"+port))
	t.Setenv("HTTP_PROXY", "http://192.0.2.1:1")
	assert.NoError(t, Ask(t.Context(), s.Addr()), "a proxy is in the environment")
	down.Store(true)
	assert.EqualError(t, Ask(t.Context(), s.Addr()), "not ready: discord: starting; matrix: not connected")
	stop()
	require.NoError(t, <-done)
	err = Ask(t.Context(), s.Addr())
	require.ErrorContains(t, err, "nothing answers at the health port")
	assert.NotContains(t, err.Error(), "\n")
	assert.Error(t, Ask(t.Context(), "nowhere"))
}

func TestListenRefusesATakenPort(t *testing.T) {
	first, err := Listen("127.0.0.1:0", prometheus.NewRegistry(), func(context.Context) error { return nil })
	require.NoError(t, err)
	defer func() { _ = first.listener.Close() }()
	_, err = Listen(first.Addr(), prometheus.NewRegistry(), func(context.Context) error { return nil })
	assert.Error(t, err, "a taken port is accepted")
}
