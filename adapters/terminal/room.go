package terminal

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// Room is a conversation in the terminal.
type Room struct {
	Service Service
	In      io.Reader
	Out     io.Writer
	// Folder is where templates are saved; empty saves none until asked to.
	Folder string
	// Notes are said once at the start (where the daybook is, and why there).
	Notes []string
	// HistoryFile keeps what was typed from one day to the next, or is empty.
	HistoryFile string
	Log         *slog.Logger

	last *answer.Answer
}

// welcome is the first screen.
const welcome = `guildhand: ask what to cut, and get a template that prints at 1:1
try: collet oval 8x6 depth 4 sterling 22ga      (help lists the rest, quit leaves)
`

const roomHelp = `in this room also: working (how the last answer comes about),
save DIR (its files into a folder of yours), quit
`

// maxLine bounds what is read of one line, in bytes: more than the parser
// takes, so that it is the parser that tells its limit, and less than memory.
const maxLine = 8 * catalogue.MaxLine

// Run talks until the maker quits, the input ends or ctx is done. A request in
// hand when ctx ends is still answered, unless it is long work.
func (r *Room) Run(ctx context.Context) error {
	lines, err := r.lines(ctx)
	if err != nil {
		return err
	}
	defer lines.Close()
	if err := r.say(welcome); err != nil {
		return err
	}
	for _, note := range r.Notes {
		var b strings.Builder
		paragraph(&b, "note: ", note)
		if err := r.say(clean(b.String())); err != nil {
			return err
		}
	}
	session := rand.Text() // with the line's number it makes the message's id
	for number := 1; ; number++ {
		line, err := next(ctx, lines)
		switch {
		case errors.Is(err, io.EOF), errors.Is(err, context.Canceled):
			return nil
		case errors.Is(err, errTooLong):
			err = r.say(fmt.Sprintf("that line is longer than %d characters, so it was left out; one request a line\n\n", catalogue.MaxLine))
			if err != nil {
				return err
			}
			continue
		case err != nil:
			return fmt.Errorf("reading what was typed: %w", err)
		}
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		message := session + "-" + strconv.Itoa(number)
		// What is quick is finished; long work is stopped.
		unstop := context.AfterFunc(ctx, func() { r.Service.Stop(context.WithoutCancel(ctx), who(), message) })
		quit, err := r.hear(context.WithoutCancel(ctx), line, message)
		unstop()
		if err != nil {
			return err
		}
		if quit {
			return nil
		}
	}
}

// next waits for a line or for the end of ctx. Where ctx ends first, the
// goroutine that waits for the maker's input stays until the process does:
// reading from a terminal can't be called off.
func next(ctx context.Context, lines lines) (string, error) {
	if err := ctx.Err(); err != nil {
		return "", err
	}
	type read struct {
		line string
		err  error
	}
	done := make(chan read, 1)
	go func() {
		line, err := lines.Next()
		done <- read{line, err}
	}()
	select {
	case got := <-done:
		return got.line, got.err
	case <-ctx.Done():
		return "", context.Canceled
	}
}

// hear does what one line asks for.
func (r *Room) hear(ctx context.Context, line, message string) (quit bool, err error) {
	word, rest, _ := strings.Cut(line, " ")
	rest = strings.TrimSpace(rest)
	switch strings.ToLower(word) {
	case "quit", "exit", "bye":
		if rest == "" {
			return true, nil
		}
	case "working", "steps":
		if rest == "" {
			return false, r.working()
		}
	case "save":
		return false, r.save(ctx, rest)
	}
	return false, r.ask(ctx, line, message)
}

func (r *Room) working() error {
	if r.last == nil {
		return r.say("ask something first; working then shows how the answer comes about\n\n")
	}
	return r.say(stepsText(r.last) + "\n")
}

func (r *Room) save(ctx context.Context, dir string) error {
	switch {
	case r.last == nil || len(r.last.Attachments) == 0:
		return r.say("there is no template to save yet; ask for one first\n\n")
	case dir == "":
		return r.say("save wants a folder, such as: save templates\n\n")
	}
	dir = strings.Trim(dir, `"'`)
	paths, err := save(ctx, dir, "", r.last.Attachments)
	if err != nil {
		r.Log.Warn("saving a template", "error", err)
		return r.say(clean(fmt.Sprintf("can't save in %s: %s\n\n", dir, cause(err))))
	}
	return r.say(savedText(paths) + "\n")
}

func (r *Room) ask(ctx context.Context, line, message string) error {
	reply, err := r.Service.Handle(ctx, bot.Request{
		Who: who(), Message: message, Text: line, Progress: progress(r.Out),
	})
	if err != nil {
		r.Log.Error("handling a request", "error", err)
		return r.say(CantRecord + "\n\n")
	}
	if reply.Refusal != nil {
		if err := r.say(refusalText(reply.Refusal) + "\n"); err != nil {
			return err
		}
		delivered(ctx, r.Service, r.Log, reply.Entry)
		return nil
	}
	r.last = reply.Answer
	var b strings.Builder
	b.WriteString(answerText(reply.Answer))
	b.WriteString(r.template(ctx, reply))
	var more []string
	if reply.Answer.HasWorking() {
		more = append(more, "working")
	}
	if len(reply.Answer.Attachments) > 0 {
		more = append(more, "save DIR")
	}
	if len(more) > 0 {
		fmt.Fprintf(&b, "more: %s   (entry %d of the daybook)\n", strings.Join(more, ", "), reply.Entry)
	}
	if reply.Answer.Request == "help" {
		b.WriteString(roomHelp)
	}
	if err := r.say(b.String() + "\n"); err != nil {
		return err
	}
	delivered(ctx, r.Service, r.Log, reply.Entry)
	return nil
}

// template saves what the answer brings and says where.
func (r *Room) template(ctx context.Context, reply bot.Reply) string {
	files := reply.Answer.Attachments
	if len(files) == 0 || r.Folder == "" {
		return ""
	}
	paths, err := save(ctx, r.Folder, fmt.Sprintf("%d-", reply.Entry), files)
	if err != nil {
		r.Log.Warn("saving a template", "error", err)
		return clean(fmt.Sprintf("the template can't be saved in %s: %s; type: save DIR\n", r.Folder, cause(err)))
	}
	return savedText(paths)
}

func savedText(paths []string) string {
	var b strings.Builder
	for i, path := range paths {
		lead := "saved: "
		if i > 0 {
			// The folder is known from the first.
			lead, path = "       ", filepath.Base(path)
		}
		b.WriteString(lead + path + "\n")
	}
	return clean(b.String())
}

// cause is the operating system's plain reason, without paths said twice.
func cause(err error) string {
	var path *os.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	return err.Error()
}

func (r *Room) say(text string) error {
	if _, err := io.WriteString(r.Out, text); err != nil {
		return fmt.Errorf("showing an answer: %w", err)
	}
	return nil
}
