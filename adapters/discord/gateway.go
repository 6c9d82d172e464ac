package discord

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/url"
	"sync/atomic"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/cenkalti/backoff/v5"
	"github.com/gorilla/websocket"
	"golang.org/x/sync/errgroup"

	"guildhand/bot/delivery"
)

// silence is how long a gateway connection may say nothing. Discord answers a
// heartbeat about every 41 s; a connection without two of them is dead, though
// nobody may have closed it.
const silence = 100 * time.Second

// brief is a connection that broke at once; stableAfter is how long one must
// live for its session's start to be worth it.
const (
	brief       = time.Second
	stableAfter = time.Minute
)

// shard is one connection to the gateway and its upkeep.
type shard struct {
	number  int
	session *discordgo.Session
	up      atomic.Bool
	// dropped gets a value when the connection is lost.
	dropped chan struct{}
	// resume is where the session is resumed; resumed tells that it was.
	resume  resumeAddress
	resumed atomic.Bool
}

// connect starts the shards, one after the other as Discord asks, and keeps
// them open in the group.
func (a *Adapter) connect(ctx context.Context, group *errgroup.Group) error {
	count, at := a.config.Shards, 1
	var plan *discordgo.GatewayBotResponse
	err := a.persist(ctx, "ask for shards", func() error {
		var err error
		plan, err = a.api.session.GatewayBot(discordgo.WithContext(ctx))
		return safe("ask for shards", err)
	})
	if err != nil {
		return err
	}
	if count == 0 {
		count = max(plan.Shards, 1)
	}
	at = max(at, plan.SessionStartLimit.MaxConcurrency)
	if left := plan.SessionStartLimit.Remaining; left < count {
		a.log.Warn("few session starts are left today", "left", left, "shards", count)
	}
	for n := range count {
		s, err := a.newShard(n, count)
		if err != nil {
			return err
		}
		a.mu.Lock()
		a.shards = append(a.shards, s)
		a.mu.Unlock()
	}
	a.ready.Store(true)
	group.Go(func() error { return a.outbox.Run(ctx) })
	for n, s := range a.shards {
		if n > 0 && n%at == 0 {
			if err := sleep(ctx, a.pace.identify); err != nil {
				return err
			}
		}
		group.Go(func() error { return a.keep(ctx, s) })
	}
	return nil
}

func (a *Adapter) newShard(number, count int) (*shard, error) {
	s := &shard{number: number, dropped: make(chan struct{}, 1)}
	client := *a.client
	client.Transport = gatewayAddress{client.Transport, &s.resume}
	session, err := newSession(a.config.Token, &client)
	if err != nil {
		return nil, err
	}
	s.session = session
	session.ShardID, session.ShardCount = number, count
	// Limits are the bot's, not a connection's.
	session.Ratelimiter = a.api.session.Ratelimiter
	session.Dialer = &websocket.Dialer{
		Proxy: http.ProxyFromEnvironment, HandshakeTimeout: 20 * time.Second,
	}
	// Frames must be readable to be looked at.
	session.Compress, session.Identify.Compress = false, false
	dial := func(secure bool) func(context.Context, string, string) (net.Conn, error) {
		return func(ctx context.Context, network, address string) (net.Conn, error) {
			return s.dial(ctx, network, address, secure, func() {
				a.log.Warn("a frame that is no event was left out", "shard", number)
			})
		}
	}
	session.Dialer.NetDialContext = dial(false)
	if proxied, err := http.ProxyFromEnvironment(&http.Request{URL: &url.URL{Scheme: "https", Host: "gateway.discord.gg"}}); err == nil && proxied == nil {
		session.Dialer.NetDialTLSContext = dial(true)
	} else {
		session.Dialer.NetDialContext = dialWithReadTimeout // encrypted from end to end, so frames can't be looked at
	}
	session.AddHandler(func(_ *discordgo.Session, _ *discordgo.Disconnect) {
		s.up.Store(false)
		select {
		case s.dropped <- struct{}{}:
		default:
		}
	})
	session.AddHandler(a.onRateLimit)
	session.AddHandler(func(_ *discordgo.Session, e *discordgo.Event) { a.onEvent(s, e) })
	return s, nil
}

// keep opens the shard's connection, and again whenever it is lost.
func (a *Adapter) keep(ctx context.Context, s *shard) error {
	name := shardName(s.number)
	a.metrics.Connected(name, false)
	wait := delivery.Backoff(a.pace.reopenMax)
	for opened := 0; ; {
		err := s.open()
		switch {
		case err == nil, errors.Is(err, discordgo.ErrWSAlreadyOpen):
			if ctx.Err() != nil {
				break
			}
			if opened++; opened > 1 {
				a.metrics.Reconnected()
			}
			since := time.Now()
			s.up.Store(true)
			a.metrics.Connected(name, true)
			a.log.Info("connected", "shard", s.number)
			a.outbox.Nudge()
			select {
			case <-ctx.Done():
			case <-s.dropped:
				s.up.Store(false)
				a.metrics.Connected(name, false)
				a.log.Warn("connection lost, opening again", "shard", s.number)
				if sleep(ctx, a.pause(s, time.Since(since), wait)) == nil {
					continue
				}
			}
		case fatalClose(err) != nil:
			return fatalClose(err)
		case ctx.Err() == nil:
			a.log.Warn("no connection, trying again", "shard", s.number, "error", safe("open", err))
			if sleep(ctx, wait.NextBackOff()) == nil {
				continue
			}
		}
		s.up.Store(false)
		a.metrics.Connected(name, false)
		if err := s.session.Close(); err != nil {
			a.log.Debug("closing", "shard", s.number)
		}
		return ctx.Err()
	}
}

// pause is how long to wait before a lost connection is opened again: not at
// all after one that lasted or resumed, since resuming costs nothing; longer
// and longer where each breaks at once, or sessions were started over and over.
func (a *Adapter) pause(s *shard, lived time.Duration, wait *backoff.ExponentialBackOff) time.Duration {
	longest := time.Duration(0)
	if lived < brief {
		longest = wait.NextBackOff()
	} else {
		wait.Reset()
	}
	if lived < stableAfter && !s.resumed.Load() {
		longest = max(longest, a.starts.wait(time.Now(), a.pace.starts))
	}
	return longest
}

// fatalClose returns an error if Discord closed for a permanent reason.
func fatalClose(err error) error {
	var closed *websocket.CloseError
	if !errors.As(err, &closed) {
		return nil
	}
	reason, fatal := map[int]string{
		4004: "discord does not accept the token: make a new one on the application's Bot page and set it",
		4010: "discord does not accept the shard number",
		4011: "discord asks for more shards: set discord.shards to 0",
		4012: "discord no longer speaks this program's version of the gateway: update guildhand",
		4013: "discord does not accept the intents",
		4014: "discord does not allow the intents",
	}[closed.Code]
	if !fatal {
		return nil
	}
	return fmt.Errorf("%s (gateway close %d)", reason, closed.Code)
}

// readTimeout is a connection that fails when it has been silent for too long.
type readTimeout struct{ net.Conn }

func (c readTimeout) Read(p []byte) (int, error) {
	if err := c.SetReadDeadline(time.Now().Add(silence)); err != nil {
		return 0, err
	}
	return c.Conn.Read(p)
}

func dialWithReadTimeout(ctx context.Context, network, address string) (net.Conn, error) {
	conn, err := (&net.Dialer{Timeout: 20 * time.Second}).DialContext(ctx, network, address)
	if err != nil {
		return nil, err
	}
	return readTimeout{conn}, nil
}
