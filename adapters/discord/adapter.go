// Package discord lets a guild ask guildhand on Discord: slash commands made
// from the catalogue, buttons, forms and completion, over the gateway and REST.
//
// It knows no request by name. An event becomes a bot.Request, the bot.Reply a
// message, and the daybook's entry number goes into the message's footer and
// buttons, so that both work after a restart.
package discord

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"strconv"
	"sync"
	"sync/atomic"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/cenkalti/backoff/v5"
	"github.com/prometheus/client_golang/prometheus"
	"golang.org/x/sync/errgroup"

	"guildhand/adapters/health"
	"guildhand/bot"
	"guildhand/bot/catalogue"
	"guildhand/bot/delivery"
	"guildhand/calc/stock"
)

// Platform is the name of this platform in the daybook.
const Platform = "discord"

// Service is what the adapter needs of *bot.Service. Tests put one in its
// place whose faults they can order.
type Service interface {
	delivery.Service
	Recorded(ctx context.Context, entry int64) (bot.Reply, error)
	Stop(ctx context.Context, who catalogue.Who, message string) int
	Specs() []catalogue.Spec
	Complete(ctx context.Context, line string, cursor int) []bot.Completion
	InUnits(ctx context.Context, entry int64, inches bool) (bot.Reply, error)
	Alternatives(ctx context.Context, entry int64, most int) ([]bot.Alternative, error)
	Newcomer(ctx context.Context, who catalogue.Who) bool
	Recent(ctx context.Context, who catalogue.Who, typed string, most int) []bot.Kept
	Hurt(ctx context.Context, req bot.Request) bool
}

var _ Service = (*bot.Service)(nil)

// Options is what an Adapter is made of besides its configuration.
type Options struct {
	Service Service
	// Shop gives the choices that depend on the workshop; nil for none.
	Shop *stock.Workshop
	// Log takes events of the connection and outcomes, never what was typed.
	Log *slog.Logger
	// Metrics takes the counters; nil makes a registry of the adapter's own.
	Metrics *prometheus.Registry
	// Journal is the path of the file that keeps requests which are deferred and
	// not in the daybook yet, so that a crash loses none. Empty keeps none.
	Journal string
	// Transport carries the requests to Discord; nil takes one of its own.
	Transport http.RoundTripper

	// pace is shortened by tests.
	pace pace
}

// pace is the adapter's waiting times.
type pace struct {
	// deferAfter is when an answer that is not ready is deferred. Discord drops an
	// event that has no answer after three seconds.
	deferAfter time.Duration
	// window is how long after an event Discord takes a first answer, less
	// something for the way there.
	window time.Duration
	// progress is how often long work's progress is shown.
	progress delivery.Pace
	// redeliver is how often unsent answers are looked for.
	redeliver time.Duration
	// reopenMax is the longest wait before a connection is opened again.
	reopenMax time.Duration
	// identify is the wait between two shards that start.
	identify time.Duration
	// starts is the wait where many sessions were started within the hour.
	starts time.Duration
	// client is how long one request may take.
	client time.Duration
}

var defaultPace = pace{
	deferAfter: 1500 * time.Millisecond,
	window:     2800 * time.Millisecond,
	progress:   delivery.Pace{After: time.Second, Every: 3 * time.Second, Seldom: 15 * time.Second},
	redeliver:  30 * time.Second,
	reopenMax:  30 * time.Second,
	identify:   5 * time.Second,
	starts:     2 * time.Minute,
	client:     20 * time.Second,
}

// Adapter is guildhand on Discord. Make it with New and start it with Run.
type Adapter struct {
	config  Config
	service Service
	log     *slog.Logger
	metrics *health.Metrics
	reg     *prometheus.Registry
	menu    *menu
	api     *api
	client  *http.Client
	pace    pace
	photos  photoSource

	outbox *delivery.Outbox
	// journal keeps what was deferred and is not in the daybook yet.
	journal *journal
	// ctx is that of Run: events are answered until it ends.
	ctx     context.Context
	pending sync.WaitGroup

	rooms  rooms
	starts sessionStarts
	// selfID is the bot's own user, known from the first READY on; selfKnown is
	// closed then.
	selfID    atomic.Value
	selfKnown chan struct{}
	selfOnce  sync.Once

	mu     sync.Mutex
	shards []*shard
	ready  atomic.Bool
}

// New checks the configuration and the catalogue and makes the commands. It
// talks to nobody yet.
func New(config Config, o Options) (*Adapter, error) {
	if err := config.validate(); err != nil {
		return nil, err
	}
	menu, err := newMenu(o.Service.Specs(), o.Shop)
	if err != nil {
		return nil, err
	}
	a := &Adapter{
		config: config, service: o.Service, log: o.Log, reg: o.Metrics, menu: menu, pace: o.pace,
		photos: photoSource{noRedirects, mediaHosts}, selfKnown: make(chan struct{}),
	}
	if a.pace == (pace{}) {
		a.pace = defaultPace
	}
	if a.log == nil {
		a.log = slog.New(slog.DiscardHandler)
	}
	if a.reg == nil {
		a.reg = prometheus.NewRegistry()
	}
	if a.journal, err = openJournal(o.Journal); err != nil {
		return nil, err
	}
	a.metrics = health.NewMetrics(a.reg, Platform)
	a.outbox = delivery.New(o.Service, redelivery{a}, delivery.Options{
		Platform: Platform, FreshFor: config.FreshFor,
		Every: a.pace.redeliver, Log: a.log, Redelivered: a.metrics.Late, Pace: a.pace.progress,
	})
	a.client = newClient(o.Transport, a.pace.client)
	session, err := newSession(config.Token, a.client)
	if err != nil {
		return nil, err
	}
	session.AddHandler(a.onRateLimit)
	a.api = &api{session: session, appID: config.ApplicationID, metrics: a.metrics}
	return a, nil
}

func newClient(transport http.RoundTripper, timeout time.Duration) *http.Client {
	if transport == nil {
		t := http.DefaultTransport.(*http.Transport).Clone()
		t.MaxIdleConnsPerHost = 64
		transport = t
	}
	// Without a timeout, a second answer to one event can hang for ever.
	return &http.Client{Transport: transport, Timeout: timeout}
}

// newSession makes a session of the library that is silent, since its log
// lines hold addresses with tokens, and that leaves opening again to us.
func newSession(token string, client *http.Client) (*discordgo.Session, error) {
	session, err := discordgo.New("Bot " + token)
	if err != nil {
		return nil, fmt.Errorf("discord: %w", err)
	}
	session.Client = client
	session.LogLevel = discordgo.LogError - 1
	session.StateEnabled = false
	session.ShouldReconnectOnError = false
	// Interactions need no intent; these are for mentions and direct messages,
	// whose text comes without a privileged one.
	session.Identify.Intents = discordgo.IntentsGuildMessages | discordgo.IntentsDirectMessages
	return session, nil
}

// Ready is nil while every connection is up.
func (a *Adapter) Ready() error {
	if !a.ready.Load() {
		return errors.New("discord: starting")
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	for _, s := range a.shards {
		if !s.up.Load() {
			return fmt.Errorf("discord: connection %d of %d is down", s.number+1, len(a.shards))
		}
	}
	return nil
}

// Run registers the commands, connects, and answers until ctx ends. It returns
// early only with a permanent error, such as a wrong token.
func (a *Adapter) Run(ctx context.Context) error {
	group, ctx := errgroup.WithContext(ctx)
	a.ctx = ctx
	group.Go(func() error {
		if err := a.identifySelf(ctx); err != nil {
			return err
		}
		if err := a.register(ctx); err != nil {
			return err
		}
		return a.connect(ctx, group)
	})
	group.Go(func() error { return a.resume(ctx) })
	err := group.Wait()
	a.pending.Wait()
	if closed := a.journal.close(); err == nil {
		err = closed
	}
	if ctx.Err() != nil && errors.Is(err, context.Canceled) {
		return nil
	}
	return err
}

// identifySelf learns the application's id, or makes sure of it.
func (a *Adapter) identifySelf(ctx context.Context) error {
	if a.api.appID != "" {
		return nil
	}
	return a.persist(ctx, "read application", func() error {
		app, err := a.api.application(ctx)
		if err == nil {
			a.api.appID = app.ID
		}
		return err
	})
}

// register overwrites the registered commands where they differ from ours.
func (a *Adapter) register(ctx context.Context) error {
	guild := a.config.TestGuild
	return a.persist(ctx, "register commands", func() error {
		registered, err := a.api.commands(ctx, guild)
		if err != nil {
			return err
		}
		if sameCommands(registered, a.menu.commands) {
			a.log.Info("commands are up to date", "commands", len(a.menu.commands))
			return nil
		}
		err = a.api.overwrite(ctx, guild, a.menu.commands)
		if s, code := status(err); refused(err) && s != http.StatusUnauthorized && code != codeMissingAccess {
			// What is registered still serves, and so do mentions.
			a.log.Error("Discord refused the commands; those that are registered stay", "registered", len(registered), "error", err)
			return nil
		}
		if err != nil {
			return err
		}
		a.log.Info("commands registered", "commands", len(a.menu.commands), "everywhere", guild == "")
		return nil
	})
}

// persist tries until it works, ctx ends, or Discord declines.
func (a *Adapter) persist(ctx context.Context, what string, try func() error) error {
	_, err := backoff.Retry(ctx, func() (struct{}, error) {
		err := try()
		if refused(err) {
			err = backoff.Permanent(explain(err))
		}
		return struct{}{}, err
	}, backoff.WithBackOff(delivery.Backoff(a.pace.reopenMax)), backoff.WithMaxElapsedTime(0),
		backoff.WithNotify(func(err error, _ time.Duration) {
			a.log.Warn("Discord doesn't answer, trying again", "wanted", what, "error", err)
		}))
	return err
}

// explain says what an operator can do about a refusal.
func explain(err error) error {
	s, code := status(err)
	switch {
	case s == http.StatusUnauthorized:
		return fmt.Errorf("discord does not accept the token: make a new one on the application's Bot page and set it (%w)", err)
	case code == codeMissingAccess:
		return fmt.Errorf("the application is not in the test server, or without the scope applications.commands: open the invite link that check prints (%w)", err)
	}
	return err
}

func sleep(ctx context.Context, d time.Duration) error {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-t.C:
		return nil
	}
}

// onRateLimit counts what the library waits for after a 429.
func (a *Adapter) onRateLimit(_ *discordgo.Session, r *discordgo.RateLimit) {
	if r == nil || r.TooManyRequests == nil {
		return
	}
	a.metrics.Waited(true, r.RetryAfter)
	a.log.Warn("rate limit", "wait", r.RetryAfter.String())
}

// self is the id of the bot's user, "" before it is known.
func (a *Adapter) self() string {
	id, _ := a.selfID.Load().(string)
	return id
}

func shardName(n int) string { return strconv.Itoa(n) }
