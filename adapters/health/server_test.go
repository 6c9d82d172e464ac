package health

import (
	"context"
	"errors"
	"io"
	"net/http"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus"
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
	s, err := Listen("127.0.0.1:0", reg, func() error {
		if !up.Load() {
			return errors.New("not connected yet")
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- s.Run(ctx) }()

	get := func(path string) (int, string) {
		t.Helper()
		resp, err := http.Get("http://" + s.Addr() + path)
		if err != nil {
			t.Fatal(err)
		}
		defer func() { _ = resp.Body.Close() }()
		body, err := io.ReadAll(resp.Body)
		if err != nil {
			t.Fatal(err)
		}
		return resp.StatusCode, string(body)
	}
	if code, _ := get("/healthz"); code != http.StatusOK {
		t.Errorf("/healthz gives %d, want 200", code)
	}
	if code, body := get("/readyz"); code != http.StatusServiceUnavailable || !strings.Contains(body, "not connected yet") {
		t.Errorf("/readyz before the connection gives %d %q, want 503 with the reason", code, body)
	}
	up.Store(true)
	if code, _ := get("/readyz"); code != http.StatusOK {
		t.Errorf("/readyz gives %d, want 200", code)
	}
	_, body := get("/metrics")
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
		if !strings.Contains(body, want) {
			t.Errorf("/metrics lacks %s", want)
		}
	}
	cancel()
	if err := <-done; err != nil {
		t.Errorf("Run ends with %v, want nil", err)
	}
}

func TestListenRefusesATakenPort(t *testing.T) {
	first, err := Listen("127.0.0.1:0", prometheus.NewRegistry(), func() error { return nil })
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = first.listener.Close() }()
	if _, err := Listen(first.Addr(), prometheus.NewRegistry(), func() error { return nil }); err == nil {
		t.Error("a taken port is accepted")
	}
}
