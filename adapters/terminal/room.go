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
	"guildhand/bot/reading"
)

// Room is a conversation in the terminal.
type Room struct {
	Service Service
	In      io.Reader
	Out     io.Writer
	// Folder is where templates are saved; empty saves none until asked to.
	Folder string
	// Notes are shown once at the start, such as where the daybook is and why.
	Notes []string
	// HistoryFile keeps what was typed for the next session; empty keeps nothing.
	HistoryFile string
	Log         *slog.Logger

	screen *screen
	last   *answer.Answer
}

// welcome is the first screen, one paragraph a line.
var welcome = []string{
	"guildhand: ask what to cut, and get a template that prints at 1:1",
	"try: collet oval 8x6 depth 4 sterling 22ga",
	"type help for everything else, quit to leave",
}

const roomHelp = "in this room you can also type working (how the last answer was computed), " +
	"save DIR (copies its files into your folder), re 12 and a question (goes on from entry 12), " +
	"stop (ends long work) and quit"

// maxLine is the most bytes read of one line. It is more than the parser accepts,
// so that the parser names the limit.
const maxLine = 8 * reading.MaxLine

// Run talks until the maker quits, the input ends or ctx is done. A request that
// is running when ctx ends is still answered, unless it is long work.
func (r *Room) Run(ctx context.Context) error {
	r.screen = &screen{w: r.Out}
	in := &typed{lines: r.lines(ctx)}
	defer in.lines.Close()
	var opening strings.Builder
	for _, line := range welcome {
		r.page().paragraph(&opening, "", line)
	}
	for _, note := range r.Notes {
		r.page().paragraph(&opening, "note: ", note)
	}
	if err := r.say(clean(opening.String())); err != nil {
		return err
	}
	session := rand.Text() // with the line's number it makes the message's id
	for number := 1; ; number++ {
		line, err := in.next(ctx)
		switch {
		case errors.Is(err, io.EOF), errors.Is(err, context.Canceled):
			return nil
		case errors.Is(err, errDropped):
			continue
		case errors.Is(err, errTooLong):
			text := fmt.Sprintf("I left that line out: it is longer than %d characters. Type one request a line.", reading.MaxLine)
			if err := r.sayParagraph(text); err != nil {
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
		quit, err := r.hear(ctx, in, line, session+"-"+strconv.Itoa(number))
		if err != nil {
			return err
		}
		if quit {
			return nil
		}
	}
}

// hear carries out one line.
func (r *Room) hear(ctx context.Context, in *typed, line, message string) (quit bool, err error) {
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
		return false, r.save(context.WithoutCancel(ctx), rest)
	case "re":
		return false, r.reply(ctx, in, rest, message)
	}
	return false, r.ask(ctx, in, bot.Request{Text: line, Message: message})
}

// reply asks about an earlier answer, by its number in the daybook.
func (r *Room) reply(ctx context.Context, in *typed, rest, message string) error {
	number, question, _ := strings.Cut(rest, " ")
	entry, err := strconv.ParseInt(strings.TrimRight(number, ".,:"), 10, 64)
	if err != nil || entry < 1 || strings.TrimSpace(question) == "" {
		return r.sayParagraph("re needs the number of an entry and a question about it, for example: re 12 and in 20 gauge?")
	}
	if _, err := r.Service.Recorded(ctx, entry); err != nil {
		return r.sayParagraph(fmt.Sprintf("there is no entry %d in the daybook; daybook list shows the latest", entry))
	}
	return r.ask(ctx, in, bot.Request{Text: question, Message: message, About: entry})
}

// ask shows the answer to a request. While long work goes on, it reads ahead:
// "stop" and the end of ctx stop the work; other lines wait.
func (r *Room) ask(ctx context.Context, in *typed, question bot.Request) error {
	done, long := make(chan handled, 1), make(chan struct{})
	go func() { done <- r.handle(ctx, question, func() { close(long) }) }()
	stop := func() { r.Service.Stop(context.WithoutCancel(ctx), who(), question.Message) }
	ahead := func() <-chan entered { return nil }
	var ended <-chan struct{}
	for {
		select {
		case h := <-done:
			return r.show(h)
		case <-long:
			long, ahead, ended = nil, in.ahead, ctx.Done()
		case got := <-ahead():
			if in.took(); got.stops() {
				stop()
			} else {
				in.keep(got)
			}
		case <-ended:
			ended = nil
			stop()
		}
	}
}

func (r *Room) working() error {
	if r.last == nil {
		return r.sayParagraph("ask something first; working then shows how the answer was computed")
	}
	return r.say(r.page().working(r.last) + "\n")
}

func (r *Room) save(ctx context.Context, dir string) error {
	switch {
	case r.last == nil || len(r.last.Attachments) == 0:
		return r.sayParagraph("there is no template to save yet; ask for one first")
	case dir == "":
		return r.sayParagraph("save needs a folder, for example: save templates")
	}
	dir = strings.Trim(dir, `"'`)
	paths, err := save(ctx, dir, "", r.last.Attachments)
	if err != nil {
		r.Log.Warn("saving a template", "error", err)
		return r.sayParagraph(fmt.Sprintf("can't save in %s: %s", dir, cause(err)))
	}
	return r.say(savedText(paths) + "\n")
}

// handled is the service's response to a request.
type handled struct {
	reply bot.Reply
	err   error
}

// handle asks the service. A running request goes on when ctx ends.
func (r *Room) handle(ctx context.Context, question bot.Request, onLong func()) handled {
	question.Text, question.Photo = photoIn(question.Text)
	question.Who, question.OnLong, question.Progress = who(), onLong, progress(r.screen, "; stop ends it")
	reply, err := r.Service.Handle(context.WithoutCancel(ctx), question)
	return handled{reply, err}
}

func (r *Room) show(h handled) error {
	ctx, reply := context.Background(), h.reply // an answer is marked even when the room ends
	if h.err != nil {
		r.Log.Error("handling a request", "error", h.err)
		return r.sayParagraph(bot.CantRecord)
	}
	if reply.Silent {
		return nil
	}
	if reply.Refusal != nil {
		if err := r.say(r.page().refusal(reply.Refusal) + "\n"); err != nil {
			return err
		}
		delivered(ctx, r.Service, r.Log, reply.Entry)
		return nil
	}
	r.last = reply.Answer
	var b strings.Builder
	b.WriteString(r.page().answer(reply.Answer))
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
		r.page().paragraph(&b, "", roomHelp)
	}
	if err := r.say(b.String() + "\n"); err != nil {
		return err
	}
	delivered(ctx, r.Service, r.Log, reply.Entry)
	return nil
}

// template saves the answer's files and returns the text that says where.
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

// cause is the operating system's reason, without the path that the message names.
func cause(err error) string {
	var path *os.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	return err.Error()
}

// page is measured anew for each text, since a window changes.
func (r *Room) page() page { return pageOf(r.Out) }

// sayParagraph shows one paragraph and an empty line.
func (r *Room) sayParagraph(text string) error {
	var b strings.Builder
	r.page().paragraph(&b, "", text)
	return r.say(clean(b.String()) + "\n")
}

func (r *Room) say(text string) error {
	if _, err := io.WriteString(r.screen, text); err != nil {
		return fmt.Errorf("showing an answer: %w", err)
	}
	return nil
}
