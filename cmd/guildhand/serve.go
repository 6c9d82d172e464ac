package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"maps"
	"path/filepath"
	"runtime/debug"
	"slices"
	"time"

	"guildhand/adapters/discord"
	"guildhand/adapters/health"
	"guildhand/adapters/matrix"
	"guildhand/bot"
	"guildhand/bot/daybook"
	"guildhand/config"

	"github.com/prometheus/client_golang/prometheus"
	"golang.org/x/sync/errgroup"
)

type serveCommand struct{}

// nothingToServe says what a guild's first start lacks.
const nothingToServe = `no room is configured: for Discord set GUILDHAND_DISCORD_TOKEN, for Matrix set matrix.homeserver and matrix.user
try: guildhand check`

// adapter serves a platform until its context ends.
type adapter interface {
	Run(context.Context) error
	// Ready is nil while the platform is connected.
	Ready() error
}

// platform is one adapter: how to tell that it is configured, and how to make it.
type platform struct {
	name       string
	configured func(*config.Config) bool
	make       func(*config.Config, *bot.Service, *prometheus.Registry, *slog.Logger) (adapter, error)
}

// platforms are all adapters; a new one is one line here.
var platforms = []platform{
	{"discord", servesDiscord, newDiscord},
	{"matrix", servesMatrix, newMatrix},
}

func (serveCommand) Run(s *session) error {
	c, err := s.load()
	if err != nil {
		return err
	}
	if !slices.ContainsFunc(platforms, func(p platform) bool { return p.configured(c) }) {
		return errors.New(nothingToServe)
	}
	log := s.log(c, slog.LevelInfo)
	service, book, notes, err := s.service(c, log, bot.Limits{
		Maker:   bot.Limit{AtOnce: c.Limits.MakerAtOnce, PerMinute: c.Limits.MakerPerMinute},
		Channel: bot.Limit{AtOnce: c.Limits.ChannelAtOnce, PerMinute: c.Limits.ChannelPerMinute},
	})
	if err != nil {
		return err
	}
	defer book.Close()
	for _, note := range notes {
		log.Warn(note)
	}
	checkStore(s.ctx, book, log)
	metrics, adapters := prometheus.NewRegistry(), map[string]adapter{}
	for _, p := range platforms {
		if p.configured(c) {
			if adapters[p.name], err = p.make(c, service, metrics, log.With("adapter", p.name)); err != nil {
				return err
			}
		}
	}
	group, ctx := errgroup.WithContext(s.ctx)
	if c.Health.Addr != "" {
		port, err := health.Listen(c.Health.Addr, metrics, func(ctx context.Context) error { return ready(ctx, book, adapters) })
		if err != nil {
			return err
		}
		group.Go(func() error { return port.Run(ctx) })
	}
	for name, adapter := range adapters {
		group.Go(func() error { return under(name, adapter.Run(ctx)) })
	}
	group.Go(func() error { return service.Housekeeping(ctx) })
	group.Go(func() error { return giveBackMemory(ctx) })
	log.Info("serving", "version", programVersion(), "adapters", len(adapters))
	err = group.Wait()
	closing, cancel := context.WithTimeout(context.WithoutCancel(s.ctx), closeWithin)
	defer cancel()
	if err := service.Close(closing); err != nil {
		log.Warn("stopped before every answer was ready; the rest is answered after the next start", "error", err)
	}
	if err != nil && s.ctx.Err() == nil {
		return err
	}
	log.Info("stopped")
	return nil
}

// under names the part of the program that an error comes from.
func under(part string, err error) error {
	if err != nil {
		return fmt.Errorf("%s: %w", part, err)
	}
	return nil
}

// ready is nil while the daybook takes records and every platform is connected.
func ready(ctx context.Context, book *daybook.Book, adapters map[string]adapter) error {
	_, err := book.Check(ctx)
	problems := []error{under("daybook", err)}
	for _, name := range slices.Sorted(maps.Keys(adapters)) {
		problems = append(problems, adapters[name].Ready())
	}
	return errors.Join(problems...)
}

// checkStore warns at the start. A daybook that can't be written now is no
// reason not to start: whoever asks is told so, and answers begin when it can.
func checkStore(ctx context.Context, book *daybook.Book, log *slog.Logger) {
	found, err := book.Check(ctx)
	if err != nil {
		log.Error("the daybook is not writable; no request will be answered until it is", "error", err)
		return
	}
	log.Info("the daybook is ready", "store", found.Store, "schema", found.SchemaVersion)
	if found.DiskLow {
		log.Warn("the disk is nearly full; when it is, nothing can be recorded or answered", "free_mib", found.FreeBytes>>20)
	}
}

// giveBackEvery is how often unused memory goes back to the machine.
const giveBackEvery = 30 * time.Second

// giveBackMemory returns the memory that drawing took. A bot is mostly idle, and
// then the runtime has no reason of its own to do so.
func giveBackMemory(ctx context.Context) error {
	tick := time.NewTicker(giveBackEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-tick.C:
			debug.FreeOSMemory()
		}
	}
}

// closeWithin is how long the program waits for running requests once the
// adapters have stopped.
const closeWithin = 5 * time.Second

func servesDiscord(c *config.Config) bool { return c.Discord.Token.Set() }
func servesMatrix(c *config.Config) bool  { return c.Matrix.Homeserver != "" }

func newDiscord(c *config.Config, service *bot.Service, metrics *prometheus.Registry, log *slog.Logger) (adapter, error) {
	conf, err := discordConfig(c)
	if err != nil {
		return nil, err
	}
	journal, err := discordJournal(c)
	if err != nil {
		return nil, err
	}
	return discord.New(conf, discord.Options{
		Service: service, Shop: c.Shop(), Metrics: metrics, Log: log, Journal: journal,
	})
}

func newMatrix(c *config.Config, service *bot.Service, _ *prometheus.Registry, log *slog.Logger) (adapter, error) {
	conf, err := matrixConfig(c)
	if err != nil {
		return nil, err
	}
	return matrix.New(conf, service, log)
}

func discordConfig(c *config.Config) (discord.Config, error) {
	token, err := c.Discord.Token.Reveal()
	return discord.Config{
		Token:         token,
		ApplicationID: c.Discord.ApplicationID,
		TestGuild:     c.Discord.TestGuild,
		TeacherRole:   c.Discord.TeacherRole,
		Shards:        c.Discord.Shards,
		FreshFor:      c.Discord.FreshFor,
	}, err
}

// discordJournal is the file of requests that are being answered, beside the
// daybook where that is a file.
func discordJournal(c *config.Config) (string, error) {
	dir, _, err := c.DataDir()
	if !c.Daybook.URL.Set() {
		var path string
		path, _, err = c.DaybookPath()
		dir = filepath.Dir(path)
	}
	return filepath.Join(dir, "discord.intake"), under("discord", err)
}

func matrixConfig(c *config.Config) (matrix.Config, error) {
	token, noToken := c.Matrix.Token.Reveal()
	password, noPassword := c.Matrix.Password.Reveal()
	recovery, noRecovery := c.Matrix.Recovery.Reveal()
	store, noStore := c.Matrix.StorePath, error(nil)
	if store == "" {
		var dir string
		dir, _, noStore = c.DataDir()
		store = filepath.Join(dir, "matrix.db")
	}
	return matrix.Config{
		Homeserver:    c.Matrix.Homeserver,
		UserID:        c.Matrix.User,
		Token:         token,
		Password:      password,
		RecoveryKey:   recovery,
		ResetSigning:  c.Matrix.ResetSigning,
		VerifyWith:    c.Matrix.VerifyWith,
		DeviceName:    c.Matrix.DeviceName,
		StorePath:     store,
		Encryption:    c.Matrix.Encryption,
		Allow:         matrix.Allow(c.Matrix.Allow),
		Prefix:        c.Matrix.Prefix,
		Prefixes:      c.Matrix.Prefixes,
		TeacherPower:  c.Matrix.TeacherPower,
		PicturesApart: c.Matrix.PicturesApart,
		FreshFor:      c.Matrix.FreshFor,
	}, cmp.Or(noToken, noPassword, noRecovery, under("matrix.store_path", noStore))
}
