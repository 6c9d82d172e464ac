package main

import (
	"fmt"
	"log/slog"
	"path/filepath"
	"strings"

	"guildhand/adapters/terminal"
	"guildhand/bot"
)

type roomCommand struct{}

// noLimits is for the terminal, where nobody else waits.
var noLimits bot.Limits

func (roomCommand) Run(s *session) error {
	c, err := s.load()
	if err != nil {
		return err
	}
	log := s.log(c, slog.LevelWarn)
	service, book, notes, err := s.service(c, log, noLimits)
	if err != nil {
		return fmt.Errorf("%s (%w)", bot.CantRecord, err)
	}
	defer book.Close()
	room := &terminal.Room{Service: service, In: s.Stdin, Out: s.Stdout, Log: log, Notes: notes}
	// Templates and history stand beside the daybook's usual place; without a
	// folder for them the room still answers.
	if dir, _, err := c.DataDir(); err == nil {
		room.Folder = filepath.Join(dir, "templates")
		room.HistoryFile = filepath.Join(dir, "history")
	}
	return room.Run(s.ctx)
}

type askCommand struct {
	Line    []string `arg:"" name:"line" help:"The request, as you would type it in a room."`
	JSON    bool     `name:"json" help:"Print one JSON object."`
	Out     string   `placeholder:"DIR" help:"Save the template and other files in this folder."`
	Steps   bool     `help:"Print the working too."`
	Message string   `placeholder:"ID" help:"The question's own id: asked again with the same id, the recorded answer comes back."`
}

func (a askCommand) Run(s *session) error {
	c, err := s.load()
	if err != nil {
		return err
	}
	log := s.log(c, slog.LevelWarn)
	service, book, notes, err := s.service(c, log, noLimits)
	if err != nil {
		return fmt.Errorf("%s (%w)", bot.CantRecord, err)
	}
	defer book.Close()
	for _, note := range notes {
		fmt.Fprintf(s.Stderr, "note: %s\n", note)
	}
	answered, err := terminal.Ask{
		Line: strings.Join(a.Line, " "), Message: a.Message,
		JSON: a.JSON, Steps: a.Steps, Out: a.Out, Progress: s.Stderr, Log: log,
	}.Run(s.ctx, service, s.Stdout)
	switch {
	case err != nil:
		return err
	case !answered:
		return errRefused
	}
	return nil
}
