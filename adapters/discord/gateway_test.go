package discord

import (
	"context"
	"net/http"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func (r *rig) gateway() gatewayState {
	r.discord.mu.Lock()
	defer r.discord.mu.Unlock()
	return r.discord.gateway
}

func TestResume(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	f := newFaulty(t, testSpecs())
	r := start(t, s, f, s.config())
	r.answered(r.slash("plate", arg{"size", "8x6"}))
	s.dropAll()
	// Asked while there is no connection: it is replayed.
	e := r.slash("plate", arg{"size", "10x8"})
	r.answered(e)
	r.wait("the connection", func() bool { return r.adapter.Ready() == nil })
	g := r.gateway()
	assert.Empty(t, g.problems)
	if g.resumed != 1 || g.identified != 1 {
		t.Errorf("resumed %d times and identified %d times, want 1 and 1", g.resumed, g.identified)
	}
	assert.Equal(t, 2, f.count())
	// And once more, asked to by Discord.
	s.askReconnect()
	r.wait("the second resume", func() bool { return r.gateway().resumed == 2 })
	r.wait("the connection", func() bool { return r.adapter.Ready() == nil })
	r.answered(r.slash("plate", arg{"size", "8x6"}))
}

func TestInvalidSession(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	r := start(t, s, newFaulty(t, testSpecs()), s.config())
	r.answered(r.slash("plate", arg{"size", "8x6"}))
	s.mu.Lock()
	s.gateway.invalidate = true
	s.mu.Unlock()
	s.dropAll()
	r.wait("a new session", func() bool { return r.gateway().identified == 2 })
	r.wait("the connection", func() bool { return s.connected() == 1 })
	r.answered(r.slash("plate", arg{"size", "10x8"}))
}

func TestHeartbeats(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	// The library gives a connection up after five intervals without an answer.
	s.heartbeat = 300 * time.Millisecond
	r := start(t, s, newFaulty(t, testSpecs()), s.config())
	r.wait("heartbeats", func() bool { return r.gateway().heartbeats >= 5 })
	if g := r.gateway(); g.identified != 1 || g.resumed != 0 || len(g.problems) > 0 {
		t.Errorf("identified %d, resumed %d, problems %v", g.identified, g.resumed, g.problems)
	}
}

func TestDiscordIsAwayAtStart(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	var away atomic.Bool
	away.Store(true)
	s.intercept = func(w http.ResponseWriter, _ *http.Request) bool {
		if away.Load() {
			hijack(w)
		}
		return away.Load()
	}
	r := launch(t, s, newFaulty(t, testSpecs()), s.config(), quick)
	time.Sleep(300 * time.Millisecond)
	assert.Error(t, r.adapter.Ready(), "ready without a connection")
	away.Store(false)
	r.wait("the connection", func() bool { return r.adapter.Ready() == nil })
}

func TestShards(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name       string
		configured int
		advised    int
		want       int
	}{{"by configuration", 3, 1, 3}, {"automatic", 0, 2, 2}} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := newStandIn(t)
			s.shards = test.advised
			c := s.config()
			c.Shards = test.configured
			r := start(t, s, newFaulty(t, testSpecs()), c)
			require.Equal(t, test.want, s.connected())
			g := r.gateway()
			for n := range test.want {
				assert.Equal(t, 1, g.shards[n])
			}
			// Guilds of each shard get their answers.
			for _, guild := range []string{"523456789012345678", "523456789016540000", "523456789020740000", ""} {
				p := slash("plate", arg{"size", "8x6"})
				p.guild = guild
				r.answered(s.send(p))
			}
		})
	}
}

func TestFatalErrors(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		spoil func(*standIn, *Config)
		want  string
	}{
		{"gateway refuses the token", func(s *standIn, _ *Config) { s.gateway.refuse = 4004 }, "does not accept the token"},
		{"gateway wants shards", func(s *standIn, _ *Config) { s.gateway.refuse = 4011 }, "set discord.shards to 0"},
		{"wrong token", func(_ *standIn, c *Config) { c.Token = "another" }, "does not accept the token"},
		{"not in the test server", func(s *standIn, c *Config) { c.TestGuild = theGuild; s.closed[theGuild] = true }, "open the invite link"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := newStandIn(t)
			c := s.config()
			test.spoil(s, &c)
			a, err := New(c, Options{Service: newFaulty(t, testSpecs()), Transport: s.transport(), pace: quick})
			require.NoError(t, err)
			ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
			defer cancel()
			if err := a.Run(ctx); err == nil || !strings.Contains(err.Error(), test.want) || strings.Contains(err.Error(), s.token) {
				t.Errorf("got %v, want %q", err, test.want)
			}
		})
	}
}

func TestDuplicates(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	f := newFaulty(t, testSpecs())
	r := start(t, s, f, s.config())
	p := slash("plate", arg{"size", "8x6"})
	e := s.send(p)
	s.again(e, p) // while it is being answered
	r.answered(e)
	s.again(e, p) // and after
	q := slash("batch", arg{"count", 2.0}, arg{"wait", 100.0})
	d := s.send(q)
	s.again(d, q)
	r.answered(d)
	time.Sleep(200 * time.Millisecond)
	assert.Equal(t, 2, f.count())
	s.mu.Lock()
	defer s.mu.Unlock()
	assert.Len(t, s.channels[theChannel], 2)
	callbacks := 0
	for _, c := range s.calls {
		if strings.Contains(c.url, "/callback") {
			callbacks++
		}
	}
	assert.Equal(t, 2, callbacks)
}

// A duplicate that reaches a second process is answered once too: Discord
// takes one first answer, and the second process finds it there.
func TestDuplicateInAnotherProcess(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	f := newFaulty(t, testSpecs())
	r := start(t, s, f, s.config())
	f.markFails = 1_000_000
	p := slash("plate", arg{"size", "8x6"})
	e := s.send(p)
	r.answered(e)
	require.NoError(t, r.stop())
	f = f.restarted()
	other := start(t, s, f, s.config())
	s.again(e, p)
	other.wait("the mark", func() bool { return f.deliveredAs(1) != "" })
	s.mu.Lock()
	defer s.mu.Unlock()
	assert.Len(t, s.channels[theChannel], 1)
}

func TestEventsThatCanNotBeRead(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	f := newFaulty(t, testSpecs())
	r := start(t, s, f, s.config())
	s.mu.Lock()
	for _, g := range s.gateway.sessions {
		for _, body := range []any{
			map[string]any{}, map[string]any{"id": 7}, []int{1},
			map[string]any{"id": "1", "token": "x-secret", "type": 2},
			map[string]any{"id": "1", "token": "x-secret", "type": 2, "data": "text"},
			map[string]any{"id": "1", "token": "x-secret", "type": 99, "data": map[string]any{}},
			map[string]any{"id": "1", "token": "x-secret", "type": 2, "data": map[string]any{"name": "plate", "options": []any{nil}}},
			map[string]any{"id": "2", "token": "x-secret", "type": 3, "data": map[string]any{"custom_id": 5}, "user": userBody(theMaker)},
			map[string]any{"id": "3", "token": "x-secret", "type": 5, "data": map[string]any{"components": []any{map[string]any{"type": 77}}}, "user": userBody(theMaker)},
			map[string]any{"id": "4", "token": "x-secret", "type": 2, "data": map[string]any{"name": "plate", "options": []any{map[string]any{"name": "size", "value": map[string]any{"a": 1}}}}, "user": userBody(theMaker), "channel_id": theChannel},
		} {
			g.dispatch("INTERACTION_CREATE", body)
		}
	}
	s.mu.Unlock()
	// It goes on answering.
	r.answered(r.slash("plate", arg{"size", "8x6"}))
	assert.NotContains(t, r.log.String(), "panic", "an event made the adapter panic")
}

func TestRateLimits(t *testing.T) {
	t.Parallel()
	t.Run("per route, by the headers and by 429", func(t *testing.T) {
		t.Parallel()
		s := newStandIn(t)
		s.limit("POST channels/#/messages", 2, 400*time.Millisecond)
		f := newFaulty(t, testSpecs())
		for range 6 {
			e := s.earlier(slash("plate"), 20*time.Minute, 0)
			kept(t, s, f, e, "plate 8x6", false)
		}
		r := launch(t, s, f, s.config(), quick)
		r.wait("all six", func() bool {
			s.mu.Lock()
			defer s.mu.Unlock()
			return len(s.channels[theChannel]) == 6
		})
		s.mu.Lock()
		defer s.mu.Unlock()
		if s.early > 1 {
			t.Errorf("%d calls before their limit's end", s.early)
		}
	})
	t.Run("a 429 out of the blue", func(t *testing.T) {
		t.Parallel()
		s := newStandIn(t)
		r := start(t, s, newFaulty(t, testSpecs()), s.config())
		s.mu.Lock()
		l := &limit{size: 1, per: 300 * time.Millisecond, shut: true}
		s.limits["POST interactions/#/~/callback"] = l
		s.mu.Unlock()
		e := r.slash("plate", arg{"size", "8x6"})
		r.answered(e)
		if took := r.state(e).ackAt.Sub(e.sentAt); took < 250*time.Millisecond {
			t.Errorf("answered after %s, before the limit's end", took)
		}
		assert.Contains(t, r.log.String(), "rate limit", "the wait is not logged")
	})
	t.Run("global", func(t *testing.T) {
		t.Parallel()
		s := newStandIn(t)
		s.globalFrom = 400 * time.Millisecond
		before := time.Now()
		r := start(t, s, newFaulty(t, testSpecs()), s.config())
		if took := time.Since(before); took < 350*time.Millisecond {
			t.Errorf("ready after %s", took)
		}
		s.mu.Lock()
		early := s.early
		s.mu.Unlock()
		if early < 1 || early > 2 { // the wait is given in whole milliseconds
			t.Errorf("%d calls while the global limit held, want one, or two by rounding", early)
		}
		r.answered(r.slash("plate", arg{"size", "8x6"}))
	})
}
