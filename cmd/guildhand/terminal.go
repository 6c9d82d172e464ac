package main

import (
	"errors"
	"fmt"
	"log/slog"
	"os"
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
	// Templates and history go beside the daybook's usual place; without a
	// folder for them the room still answers.
	if dir, _, err := c.DataDir(); err == nil {
		room.Folder = filepath.Join(dir, "templates")
		room.HistoryFile = filepath.Join(dir, "history")
	}
	return room.Run(s.ctx)
}

type askCommand struct {
	Line         []string `arg:"" optional:"" name:"line" help:"The request, as you would type it in a room."`
	JSON         bool     `name:"json" help:"Print one JSON object."`
	Photo        string   `placeholder:"FILE" help:"A photograph that goes with the request, for trace."`
	Out          string   `placeholder:"DIR" help:"Save the template and other files in this folder."`
	Steps        bool     `help:"Print the working too."`
	Conversation string   `placeholder:"FILE" help:"Answer the messages of a file, one a line from one maker in one room, each with a JSON object on a line."`
	Message      string   `placeholder:"ID" help:"The question's own id: asked again with the same id, the recorded answer comes back."`
}

func (a askCommand) Run(s *session) error {
	if len(a.Line) == 0 && a.Conversation == "" && a.Photo == "" {
		return errors.New(`ask what? for example: guildhand ask 'collet oval 8x6 depth 4 sterling 22ga'`)
	}
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
	if a.Conversation != "" {
		return a.converse(s, service, log)
	}
	var photo []byte
	if a.Photo != "" {
		if photo, err = terminal.ReadPhoto(a.Photo); err != nil {
			return err
		}
	}
	answered, err := terminal.Ask{
		Line: strings.Join(a.Line, " "), Photo: photo, Message: a.Message,
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

func (a askCommand) converse(s *session, service terminal.Service, log *slog.Logger) error {
	if len(a.Line) > 0 {
		return fmt.Errorf("--conversation takes its messages from the file: leave out %q", strings.Join(a.Line, " "))
	}
	file, err := os.Open(a.Conversation)
	if err != nil {
		return fmt.Errorf("reading the conversation: %w", err)
	}
	defer file.Close()
	return terminal.Conversation{Messages: file, Log: log}.Run(s.ctx, service, s.Stdout)
}
