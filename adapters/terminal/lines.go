package terminal

import (
	"bufio"
	"context"
	"errors"
	"io"
	"os"
	"strings"
	"sync"

	"github.com/peterh/liner"
	"golang.org/x/term"
)

// lines reads what is typed; Next returns io.EOF at the end.
type lines interface {
	Next() (string, error)
	Close()
}

var (
	errTooLong = errors.New("the line is too long")
	// errDropped stands for a line that the maker abandoned with Ctrl-C.
	errDropped = errors.New("the line was dropped")
)

// typed is what the maker types: read line by line, and ahead during long work.
type typed struct {
	lines lines
	// coming receives the awaited line; nil if none is awaited.
	coming chan entered
	// kept is what was read ahead, oldest first.
	kept []entered
}

// entered is one line, or the error instead of it.
type entered struct {
	line string
	err  error
}

// stops reports whether it is the word "stop", or Ctrl-C.
func (e entered) stops() bool {
	return errors.Is(e.err, errDropped) || e.err == nil && strings.EqualFold(strings.TrimSpace(e.line), "stop")
}

// mostAhead is how many lines are read ahead, so that a long file at the input
// does not fill the memory.
const mostAhead = 100

// next waits for a line or for the end of ctx. If ctx ends first, the goroutine
// that reads the input stays until the process ends: a read from a terminal
// can't be cancelled.
func (t *typed) next(ctx context.Context) (string, error) {
	if err := ctx.Err(); err != nil {
		return "", err
	}
	if len(t.kept) > 0 {
		got := t.kept[0]
		t.kept = t.kept[1:]
		return got.line, got.err
	}
	select {
	case got := <-t.read():
		t.took()
		return got.line, got.err
	case <-ctx.Done():
		return "", context.Canceled
	}
}

// read waits for a line; calls while one is awaited share it.
func (t *typed) read() <-chan entered {
	if t.coming == nil {
		coming := make(chan entered, 1)
		t.coming = coming
		go func() {
			line, err := t.lines.Next()
			coming <- entered{line, err}
		}()
	}
	return t.coming
}

// took marks the awaited line as received.
func (t *typed) took() { t.coming = nil }

// ahead is read, or nil once enough lines are kept or the input has ended.
func (t *typed) ahead() <-chan entered {
	if n := len(t.kept); n >= mostAhead || n > 0 && t.kept[n-1].err != nil && !errors.Is(t.kept[n-1].err, errTooLong) {
		return nil
	}
	return t.read()
}

func (t *typed) keep(e entered) { t.kept = append(t.kept, e) }

// screen shows everything. Progress of long work comes from another goroutine
// while the maker types.
type screen struct {
	mu sync.Mutex
	w  io.Writer
	// prompt is shown below everything while a line is awaited.
	prompt string
}

// Write overwrites the prompt and shows it again below.
func (s *screen) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.prompt == "" {
		return s.w.Write(p)
	}
	if _, err := io.WriteString(s.w, "\r"+string(p)+s.prompt); err != nil {
		return 0, err
	}
	return len(p), nil
}

func (s *screen) prompting(prompt string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.prompt = prompt
}

// lines uses the line editor on a terminal, and a plain reader for a pipe or a
// test.
func (r *Room) lines(ctx context.Context) lines {
	if isTerminal(r.In) && isTerminal(r.Out) && liner.TerminalSupported() {
		return newEditor(ctx, r.Service, r.screen, r.HistoryFile)
	}
	return &plain{bufio.NewReaderSize(r.In, maxLine+2)}
}

// isTerminal reports whether a stream is the process's own terminal, the only one
// that the line editor can use.
func isTerminal(stream any) bool {
	file, ok := stream.(*os.File)
	return ok && (file == os.Stdin || file == os.Stdout) && term.IsTerminal(int(file.Fd()))
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
		err = nil // the last line may lack its end
	}
	return string(line), err
}

func (p *plain) Close() {}

// editor is the line editor: history, and completion from the catalogue.
type editor struct {
	state   *liner.State
	screen  *screen
	history string
}

func newEditor(ctx context.Context, service Service, screen *screen, history string) *editor {
	e := &editor{state: liner.NewLiner(), screen: screen, history: history}
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
	const prompt = "> "
	e.screen.prompting(prompt)
	line, err := e.state.Prompt(prompt)
	e.screen.prompting("")
	if errors.Is(err, liner.ErrPromptAborted) {
		return "", errDropped // Ctrl-C drops the line, Ctrl-D leaves
	}
	if errors.Is(err, io.EOF) {
		_, _ = io.WriteString(e.screen, "\n") // or the shell's prompt follows ours
	}
	if err == nil && line != "" {
		if len(line) > maxLine {
			return "", errTooLong
		}
		e.state.AppendHistory(line)
	}
	return line, err
}

// Close restores the terminal and saves the history.
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
