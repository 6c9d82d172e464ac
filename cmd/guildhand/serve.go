package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"path/filepath"
	"runtime/debug"
	"time"

	"guildhand/adapters/discord"
	"guildhand/adapters/matrix"
	"guildhand/bot"
	"guildhand/bot/daybook"
	"guildhand/config"

	"golang.org/x/sync/errgroup"
)

type serveCommand struct{}

// nothingToServe tells what a guild's first start lacks.
const nothingToServe = `no room is configured: for Discord set GUILDHAND_DISCORD_TOKEN, for Matrix set matrix.homeserver and matrix.user
try: guildhand check`

// adapter is a platform that runs until its context ends.
type adapter interface{ Run(context.Context) error }

func (serveCommand) Run(s *session) error {
	c, err := s.load()
	if err != nil {
		return err
	}
	if !servesDiscord(c) && !servesMatrix(c) {
		return errors.New(nothingToServe)
	}
	log := s.log(c, slog.LevelInfo)
	service, book, note, err := s.service(c, log, bot.Limits{
		Maker:   bot.Limit{AtOnce: c.Limits.MakerAtOnce, PerMinute: c.Limits.MakerPerMinute},
		Channel: bot.Limit{AtOnce: c.Limits.ChannelAtOnce, PerMinute: c.Limits.ChannelPerMinute},
	})
	if err != nil {
		return err
	}
	defer book.Close()
	if note != "" {
		log.Warn(note)
	}
	checkStore(s.ctx, book, log)
	adapters, err := adaptersOf(c, service, log)
	if err != nil {
		return err
	}
	log.Info("serving", "version", programVersion(), "adapters", len(adapters))
	group, ctx := errgroup.WithContext(s.ctx)
	for name, a := range adapters {
		group.Go(func() error {
			if err := a.Run(ctx); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
			return nil
		})
	}
	group.Go(func() error { return service.Housekeeping(ctx) })
	group.Go(func() error { return giveBackMemory(ctx) })
	err = group.Wait()
	closing, cancel := context.WithTimeout(context.WithoutCancel(s.ctx), closeWithin)
	defer cancel()
	if err := service.Close(closing); err != nil {
		log.Warn("stopped with work in hand; it is answered after the next start", "error", err)
	}
	if err != nil && s.ctx.Err() == nil {
		return err
	}
	log.Info("stopped")
	return nil
}

// checkStore says at the start what will trouble the guild before long. A
// daybook that takes no records for now is no reason not to begin: whoever asks
// is told, and answers begin when it does.
func checkStore(ctx context.Context, book *daybook.Book, log *slog.Logger) {
	health, err := book.Check(ctx)
	if err != nil {
		log.Error("the daybook takes no records for now, and nothing is answered until it does", "error", err)
		return
	}
	log.Info("the daybook is ready", "store", health.Store, "schema", health.SchemaVersion)
	if health.DiskLow {
		log.Warn("the disk is nearly full; when it is, nothing can be recorded or answered", "free_mib", health.FreeBytes>>20)
	}
}

// giveBackEvery is how often unused memory goes back to the machine.
const giveBackEvery = 30 * time.Second

// giveBackMemory gives back what drawing took. A bot is idle most of its time,
// and then the runtime has no reason of its own to do so.
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

// closeWithin is for how long work in hand is waited for when the program
// stops and the adapters have ended.
const closeWithin = 5 * time.Second

func servesDiscord(c *config.Config) bool { return c.Discord.Token.Set() }
func servesMatrix(c *config.Config) bool  { return c.Matrix.Homeserver != "" }

// adaptersOf makes the adapters that are configured, by name.
func adaptersOf(c *config.Config, service *bot.Service, log *slog.Logger) (map[string]adapter, error) {
	adapters := map[string]adapter{}
	if servesDiscord(c) {
		conf, err := discordConfig(c)
		if err != nil {
			return nil, err
		}
		intake, err := discordIntake(c)
		if err != nil {
			return nil, err
		}
		a, err := discord.New(conf, discord.Options{
			Service: service, Shop: c.Shop(), Log: log.With("adapter", "discord"), Intake: intake,
		})
		if err != nil {
			return nil, err
		}
		adapters["discord"] = a
	}
	if servesMatrix(c) {
		conf, err := matrixConfig(c)
		if err != nil {
			return nil, err
		}
		a, err := matrix.New(conf, service, log.With("adapter", "matrix"))
		if err != nil {
			return nil, err
		}
		adapters["matrix"] = a
	}
	return adapters, nil
}

func discordConfig(c *config.Config) (discord.Config, error) {
	token, err := c.Discord.Token.Reveal()
	if err != nil {
		return discord.Config{}, fmt.Errorf("discord.token: %w", err)
	}
	return discord.Config{
		Token:         token,
		ApplicationID: c.Discord.ApplicationID,
		TestGuild:     c.Discord.TestGuild,
		TeacherRole:   c.Discord.TeacherRole,
		Shards:        c.Discord.Shards,
		MetricsAddr:   c.Discord.MetricsAddr,
		FreshFor:      c.Discord.FreshFor,
	}, nil
}

// discordIntake is the file of requests that are being answered, beside the
// daybook where that is a file.
func discordIntake(c *config.Config) (string, error) {
	dir, _, err := c.DataDir()
	if !c.Daybook.URL.Set() {
		var path string
		path, _, err = c.DaybookPath()
		dir = filepath.Dir(path)
	}
	if err != nil {
		return "", fmt.Errorf("discord: %w", err)
	}
	return filepath.Join(dir, "discord.intake"), nil
}

func matrixConfig(c *config.Config) (matrix.Config, error) {
	conf := matrix.Config{
		Homeserver:   c.Matrix.Homeserver,
		UserID:       c.Matrix.User,
		DeviceName:   c.Matrix.DeviceName,
		StorePath:    c.Matrix.StorePath,
		Encryption:   c.Matrix.Encryption,
		Allow:        matrix.Allow(c.Matrix.Allow),
		Prefix:       c.Matrix.Prefix,
		Prefixes:     c.Matrix.Prefixes,
		TeacherPower: c.Matrix.TeacherPower,
		FreshFor:     c.Matrix.FreshFor,
	}
	for _, secret := range []struct {
		from config.Secret
		into *string
		key  string
	}{
		{c.Matrix.Token, &conf.Token, "matrix.token"},
		{c.Matrix.Password, &conf.Password, "matrix.password"},
	} {
		if !secret.from.Set() {
			continue
		}
		var err error
		if *secret.into, err = secret.from.Reveal(); err != nil {
			return matrix.Config{}, fmt.Errorf("%s: %w", secret.key, err)
		}
	}
	if conf.StorePath == "" {
		dir, _, err := c.DataDir()
		if err != nil {
			return matrix.Config{}, fmt.Errorf("matrix.store_path: %w", err)
		}
		conf.StorePath = filepath.Join(dir, "matrix.db")
	}
	return conf, nil
}
