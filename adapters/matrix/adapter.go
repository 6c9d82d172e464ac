package matrix

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"guildhand/bot"
	"guildhand/bot/delivery"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/id"
	"maunium.net/go/mautrix/sqlstatestore"
)

// Adapter is guildhand on Matrix. Make it with New and start it with Run.
type Adapter struct {
	cfg   Config
	bot   *bot.Service
	log   *slog.Logger
	words []string // requests that the catalogue knows
	// pace is how often long work's progress is shown.
	pace delivery.Pace

	outbox *delivery.Outbox
	store  *store
	cli    *mautrix.Client
	crypto *encryption // nil: none
	inbox  *inbox
	// connected is set while the event stream is up.
	connected atomic.Bool

	// stateLock is held while room state is written, by know or by the stream.
	stateLock sync.Mutex
	factsLock sync.Mutex
	facts     map[id.RoomID]facts

	limit sendingLimit
	// sharing is held while an event that several answers share changes, or the
	// store's record of it.
	sharing sync.Mutex

	// introducing has the rooms that are being told what is kept.
	introducing sync.Map

	parkedLock sync.Mutex
	parked     map[id.SessionID][]*job
	// How long a missing key is waited for, without and with asking for it.
	keyWait, keyWaitAsked time.Duration
	// How many events of a room one response of the server brings.
	timelineLimit int
}

// New makes an adapter. It fails where the configuration cannot work, and where
// encryption is asked of a build that has none.
func New(cfg Config, service *bot.Service, log *slog.Logger) (*Adapter, error) {
	if problems := cfg.problems(); len(problems) > 0 {
		return nil, fmt.Errorf("matrix: %s", strings.Join(problems, "; "))
	}
	a := &Adapter{
		cfg: cfg, bot: service, log: log,
		facts: map[id.RoomID]facts{}, parked: map[id.SessionID][]*job{},
		keyWait: keyWait, keyWaitAsked: keyWaitAsked, pace: delivery.DefaultPace,
		timelineLimit: timelineLimit,
	}
	a.words = []string{"help"}
	for _, s := range service.Specs() {
		a.words = append(a.words, s.Name)
	}
	return a, nil
}

// Ready is nil while the homeserver answers the event stream.
func (a *Adapter) Ready() error {
	if !a.connected.Load() {
		return errors.New("matrix: not connected to the homeserver")
	}
	return nil
}

// answersKept is how long reactions and edits find their answer.
const answersKept = 90 * 24 * time.Hour

// grace is how long running requests may take when the program stops.
const grace = 5 * time.Second

// Run works until ctx ends, which gives nil, or until a permanent error. Lost
// connections and servers that are away are waited out.
func (a *Adapter) Run(ctx context.Context) error {
	if !encryptionBuilt {
		a.log.Warn("this build has no encryption: encrypted rooms are not served")
	}
	err := a.run(ctx)
	if ctx.Err() != nil {
		return nil
	}
	return err
}

func (a *Adapter) run(ctx context.Context) (err error) {
	unlock, err := lockStore(ctx, a.cfg.StorePath)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, unlock()) }()
	if a.store, err = openStore(ctx, a.cfg.StorePath); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, a.store.close()) }()
	if err := a.store.prune(ctx, time.Now().Add(-answersKept)); err != nil {
		return fmt.Errorf("matrix store: %w", err)
	}
	if err := a.store.reserve(ctx, true); err != nil {
		a.log.Warn("no room made in the store for when the disk is full", "err", err)
	}
	if err := a.connect(ctx); err != nil {
		return fmt.Errorf("matrix: %w", err)
	}
	stream, stop := context.WithCancel(ctx)
	running, drop := context.WithCancel(context.WithoutCancel(ctx))
	a.inbox = newInbox(stream, running, a.handleEvent, a.store.keepPosition, a.log)
	a.inbox.leftOut = a.tellLeftOut
	// Whatever ends the stream, running requests are finished if that does not
	// take too long, and then the store closes.
	defer func() {
		stop()
		patience := time.AfterFunc(grace, drop)
		a.inbox.wait()
		patience.Stop()
		drop()
	}()

	a.outbox = a.newOutbox()
	a.outbox.Redeliver(stream) // before questions come again that were answered
	var upkeep sync.WaitGroup
	upkeep.Go(func() { _ = a.outbox.Run(stream) }) // its error is the context's
	upkeep.Go(func() { a.keepReserve(stream) })
	defer upkeep.Wait()
	defer stop()
	a.log.Info("listening", "user", a.cli.UserID, "device", a.cli.DeviceID, "encryption", a.crypto != nil)
	return a.listen(stream)
}

// keepReserve keeps free room in the store for when the disk is full.
func (a *Adapter) keepReserve(ctx context.Context) {
	tick := time.NewTicker(reserveEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		if err := a.store.reserve(ctx, false); err != nil && ctx.Err() == nil {
			a.log.Warn("no room made in the store for when the disk is full", "err", err)
		}
	}
}

// connect makes the client: session, room state, keys.
func (a *Adapter) connect(ctx context.Context) error {
	cli, err := newClient(a.cfg)
	if err != nil {
		return err
	}
	a.cli = cli
	cli.Log = libraryLog(a.log)
	cli.Store = a.store
	a.awaitServer(ctx)
	if err := a.login(ctx); err != nil {
		return err
	}
	rooms := sqlstatestore.NewSQLStateStore(a.store.db, nil, false)
	if err := rooms.Upgrade(ctx); err != nil {
		return fmt.Errorf("tables of rooms: %w", err)
	}
	cli.StateStore = rooms
	s := newSyncer(a)
	cli.Syncer = s
	s.OnEvent(cli.StateStoreSyncHandler)
	if !a.cfg.Encryption {
		return nil
	}
	acct, err := a.store.account(ctx)
	if err != nil {
		return err
	}
	if a.crypto, err = startEncryption(ctx, cli, a.store.db, acct); err != nil {
		return fmt.Errorf("encryption: %w", err)
	}
	a.crypto.attach(s)
	if err := a.crypto.answerVerification(ctx, s, a.cfg.VerifyWith, a.log); err != nil {
		return fmt.Errorf("encryption: %w", err)
	}
	return a.identify(ctx)
}

// sayAwayEvery is how often it is said that the server is away.
const sayAwayEvery = time.Minute

// awaitServer waits until the server answers anything, and says so at once and
// from time to time where it does not.
func (a *Adapter) awaitServer(ctx context.Context) {
	var said time.Time
	_, _ = persist(ctx, func(ctx context.Context) (struct{}, error) {
		_, err := a.cli.Versions(ctx)
		if v, _ := judge(err); v != unreachable {
			return struct{}{}, nil // what it says against the login is said there
		}
		if time.Since(said) >= sayAwayEvery && ctx.Err() == nil {
			said = time.Now()
			a.log.Warn("the homeserver does not answer, will try again", "homeserver", a.cfg.Homeserver, "err", err)
		}
		return struct{}{}, err
	})
}

// sayIfLong says that something waits for the server, from time to time until
// the function that it gives is called. Nothing is given up for it: a question
// is answered when the server is back.
func (a *Adapter) sayIfLong(what string, room id.RoomID) (end func()) {
	done := make(chan struct{})
	go func() {
		tick := time.NewTicker(sayAwayEvery)
		defer tick.Stop()
		for begun := time.Now(); ; {
			select {
			case <-done:
				return
			case <-tick.C:
				a.log.Warn(what+" waits for the server", "room", room, "for", time.Since(begun).Round(time.Second))
			}
		}
	}()
	return func() { close(done) }
}

// newClient makes a client that leaves waiting and trying again to persist.
func newClient(cfg Config) (*mautrix.Client, error) {
	cli, err := mautrix.NewClient(cfg.Homeserver, id.UserID(cfg.UserID), "")
	if err != nil {
		return nil, err
	}
	transport := http.DefaultTransport.(*http.Transport).Clone()
	// The stream's longest answer takes 30 s to begin.
	transport.ResponseHeaderTimeout = 50 * time.Second
	cli.Client = &http.Client{Transport: transport, Timeout: 3 * time.Minute}
	cli.DefaultHTTPRetries = 0
	cli.IgnoreRateLimit = true
	return cli, nil
}

// longestLoginWait bounds the pause between logins of a session that the server
// ends again and again.
const longestLoginWait = 5 * time.Minute

// listen follows the event stream. Where the server has forgotten the session
// and a password is at hand, it logs in again, on the same device: an expired
// token then only needs a new one; a device that was signed out shares its keys
// and is signed again.
func (a *Adapter) listen(ctx context.Context) error {
	pause := delivery.Backoff(longestLoginWait)
	var last time.Time
	for {
		err := a.cli.SyncWithContext(ctx)
		a.connected.Store(false)
		wait := longestWait / 10
		switch {
		case ctx.Err() != nil:
			return nil
		case errors.Is(err, mautrix.MUnknownToken) && a.cfg.Password != "" && a.cfg.Token == "":
			a.log.Warn("the server no longer knows the session, logging in again")
			wait = 0
			if time.Since(last) > longestLoginWait {
				pause.Reset()
			} else {
				wait = pause.NextBackOff()
			}
			last = time.Now()
			if err := a.loginWithPassword(ctx); err != nil {
				return fmt.Errorf("matrix: %w", err)
			}
			if err := a.identify(ctx); err != nil && ctx.Err() == nil && !errors.Is(err, mautrix.MUnknownToken) {
				return fmt.Errorf("matrix: %w", err)
			}
		case err == nil:
			return errors.New("matrix: the event stream ended")
		case canWait(err):
			// The filter could not be made: as good as a failed stream.
			a.log.Warn("event stream not started, will try again", "err", err)
		default:
			return fmt.Errorf("matrix: event stream: %w", err)
		}
		select {
		case <-ctx.Done():
			return nil
		case <-time.After(wait):
		}
	}
}

// canWait reports whether an error is one of a server that is away.
func canWait(err error) bool {
	v, _ := judge(err)
	return v == unreachable && !errors.Is(err, mautrix.MUnknownToken)
}
