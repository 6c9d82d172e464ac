package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"runtime/debug"
	"slices"
	"strings"

	"guildhand/bot"
	"guildhand/bot/daybook"
	"guildhand/bot/requests"
	"guildhand/config"

	"github.com/alecthomas/kong"
)

// Exit statuses.
const (
	exitAnswered = 0 // or done
	exitFailed   = 1
	exitRefused  = 2
)

// Program is guildhand with its streams and its environment. main starts one,
// and so do the tests.
type Program struct {
	Stdin          io.Reader
	Stdout, Stderr io.Writer
	// Environ has the form of os.Environ.
	Environ []string
}

func fromProcess() *Program {
	return &Program{os.Stdin, os.Stdout, os.Stderr, os.Environ()}
}

// commands is the command line: one field a command, each with its Run method.
type commands struct {
	File string `name:"config" short:"c" placeholder:"FILE" help:"Configuration file (default: GUILDHAND_CONFIG, then guildhand/config.yaml in your configuration folder)."`

	Room    roomCommand    `cmd:"" default:"1" help:"Open a room in the terminal (the default)."`
	Ask     askCommand     `cmd:"" help:"Answer one request: guildhand ask 'collet oval 8x6 depth 4 sterling 22ga'."`
	Serve   serveCommand   `cmd:"" help:"Serve the guild's rooms: Discord, Matrix, whichever is configured."`
	Check   checkCommand   `cmd:"" help:"Say what the configuration lacks, and print the invite link."`
	Health  healthCommand  `cmd:"" help:"Ask the health port whether the program that serves is ready."`
	Config  configCommand  `cmd:"" name:"config" help:"Print the effective configuration and the source of each value."`
	Backup  backupCommand  `cmd:"" help:"Copy the daybook to a new file while it is in use."`
	Restore restoreCommand `cmd:"" help:"Put a back-up in place of the daybook."`
	Version versionCommand `cmd:"" help:"Print the version."`
}

// Run runs one command line and returns the exit status.
func (p *Program) Run(ctx context.Context, args []string) int {
	var cli commands
	helped := false
	parser, err := kong.New(&cli,
		kong.Name("guildhand"),
		kong.Description("What to cut, a template at 1:1, and how to form it: sizing questions of the bench, answered."),
		kong.Writers(p.Stdout, p.Stderr),
		kong.Exit(func(int) { helped = true }),
	)
	if err != nil {
		return p.fail(err)
	}
	command, err := parser.Parse(flagHelp(args))
	switch {
	case helped:
		return exitAnswered
	case err != nil:
		return p.fail(usage(err, args))
	}
	err = command.Run(&session{Program: p, ctx: ctx, file: cli.File})
	switch {
	case errors.Is(err, errRefused):
		return exitRefused
	case err != nil:
		return p.fail(err)
	}
	return exitAnswered
}

// flagHelp turns "help" and "help COMMAND" into --help.
func flagHelp(args []string) []string {
	if len(args) == 0 || args[0] != "help" {
		return args
	}
	return append(slices.Clone(args[1:]), "--help")
}

// errRefused ends a command that has shown why its request was refused.
var errRefused = errors.New("refused")

// usage adds what was probably meant to an error of the command line.
func usage(err error, args []string) error {
	if len(args) > 0 {
		for _, spec := range requests.All(nil) {
			if strings.EqualFold(args[0], spec.Name) {
				return fmt.Errorf("%w\ntry: guildhand ask '%s'", err, strings.Join(args, " "))
			}
		}
	}
	return fmt.Errorf("%w\ntry: guildhand --help", err)
}

func (p *Program) fail(err error) int {
	for line := range strings.SplitSeq(err.Error(), "\n") {
		fmt.Fprintf(p.Stderr, "guildhand: %s\n", line)
	}
	return exitFailed
}

// session is one run of a command.
type session struct {
	*Program
	ctx  context.Context
	file string
}

func (s *session) load() (*config.Config, error) { return config.Load(s.file, s.Environ) }

// log makes the program's log on the standard error; no message's text goes
// there. The usual level is info, but usual where the log shares the screen with
// answers.
func (s *session) log(c *config.Config, usual slog.Level) *slog.Logger {
	var level slog.Level
	_ = level.UnmarshalText([]byte(c.Log.Level)) // config has checked the word
	if level == slog.LevelInfo {
		level = usual
	}
	options := &slog.HandlerOptions{Level: level}
	if c.Log.Format == "json" {
		return slog.New(slog.NewJSONHandler(s.Stderr, options))
	}
	return slog.New(slog.NewTextHandler(s.Stderr, options))
}

// openDaybook opens the store that the configuration chooses. The note, if not
// empty, says that it is in an unusual place.
func (s *session) openDaybook(c *config.Config) (book *daybook.Book, note string, err error) {
	if c.Daybook.URL.Set() {
		url, err := c.Daybook.URL.Reveal()
		if err != nil {
			return nil, "", err
		}
		book, err = daybook.OpenPostgres(s.ctx, url)
		return book, "", err
	}
	path, note, err := c.DaybookPath()
	if err != nil {
		return nil, "", err
	}
	book, err = daybook.Open(s.ctx, path)
	return book, note, err
}

// service opens the daybook and makes the bot that records there. The caller
// closes the book and shows the notes.
func (s *session) service(c *config.Config, log *slog.Logger, limits bot.Limits) (*bot.Service, *daybook.Book, []string, error) {
	notes := c.Notes()
	book, note, err := s.openDaybook(c)
	if err != nil {
		return nil, nil, nil, err
	}
	if note != "" {
		notes = append(notes, note)
	}
	return bot.New(bot.Options{
		Specs: requests.All(book), Shop: c.Shop(), Book: book, Log: log, Version: programVersion(),
		Limits: limits,
		Shared: c.Daybook.URL.Set(), // a server is there for several processes
	}), book, notes, nil
}

// version is set by the linker in releases.
var version string

// programVersion is recorded with every answer.
func programVersion() string {
	if version != "" {
		return version
	}
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	for _, setting := range info.Settings {
		if setting.Key == "vcs.revision" {
			return setting.Value[:min(12, len(setting.Value))]
		}
	}
	if info.Main.Version != "" {
		return info.Main.Version
	}
	return "(devel)"
}

type versionCommand struct{}

func (versionCommand) Run(s *session) error {
	_, err := fmt.Fprintf(s.Stdout, "guildhand %s\n", programVersion())
	return err
}

type configCommand struct{}

func (configCommand) Run(s *session) error {
	c, err := s.load()
	if err != nil {
		return err
	}
	return c.Explain(s.Stdout)
}
