package terminal

import (
	"bufio"
	"context"
	"errors"
	"io"
	"os"

	"github.com/mattn/go-isatty"
	"github.com/peterh/liner"
)

// lines gives what is typed, line by line, and io.EOF at the end.
type lines interface {
	Next() (string, error)
	Close()
}

var errTooLong = errors.New("the line is too long")

// lines takes the line editor where input and output are a terminal, and a
// plain reader elsewhere (a pipe, a test).
func (r *Room) lines(ctx context.Context) (lines, error) {
	if isTerminal(r.In) && isTerminal(r.Out) && liner.TerminalSupported() {
		return newEditor(ctx, r.Service, r.HistoryFile), nil
	}
	return &plain{bufio.NewReaderSize(r.In, maxLine+2)}, nil
}

// isTerminal reports whether a stream is the process's own terminal; the line
// editor knows no other.
func isTerminal(stream any) bool {
	file, ok := stream.(*os.File)
	return ok && (file == os.Stdin || file == os.Stdout) && isatty.IsTerminal(file.Fd())
}

type plain struct{ r *bufio.Reader }

// Next skips the rest of a line that is too long, so that memory stays bounded.
func (p *plain) Next() (string, error) {
	line, err := p.r.ReadSlice('\n')
	if errors.Is(err, bufio.ErrBufferFull) {
		for errors.Is(err, bufio.ErrBufferFull) {
			_, err = p.r.ReadSlice('\n')
		}
		return "", errTooLong
	}
	if errors.Is(err, io.EOF) && len(line) > 0 {
		err = nil // the last line need not end
	}
	return string(line), err
}

func (p *plain) Close() {}

// editor is the line editor: history, and completion from the catalogue.
type editor struct {
	state   *liner.State
	history string
}

func newEditor(ctx context.Context, service Service, history string) *editor {
	e := &editor{state: liner.NewLiner(), history: history}
	e.state.SetCtrlCAborts(true)
	e.state.SetTabCompletionStyle(liner.TabPrints)
	e.state.SetWordCompleter(func(line string, pos int) (head string, words []string, tail string) {
		return complete(ctx, service, line, pos)
	})
	if file, err := os.Open(history); err == nil {
		_, _ = e.state.ReadHistory(file) // history is a comfort, not a promise
		_ = file.Close()
	}
	return e
}

func (e *editor) Next() (string, error) {
	line, err := e.state.Prompt("> ")
	if errors.Is(err, liner.ErrPromptAborted) {
		return "", nil // Ctrl-C drops the line, Ctrl-D leaves
	}
	if err == nil && line != "" {
		if len(line) > maxLine {
			return "", errTooLong
		}
		e.state.AppendHistory(line)
	}
	return line, err
}

// Close gives the terminal back as it was and keeps the history.
func (e *editor) Close() {
	_ = e.state.Close()
	if e.history == "" {
		return
	}
	file, err := os.OpenFile(e.history, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, 0o600)
	if err != nil {
		return
	}
	_, _ = e.state.WriteHistory(file)
	_ = file.Close()
}
