package discord

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"sync"
	"time"

	"guildhand/bot"
	"guildhand/bot/catalogue"
)

// Discord tells of an event once. What is answered within its three seconds is
// either in the daybook by then or was never accepted; but a deferral accepts
// a request that is still being computed. The intake is a small file of those:
// a line when one is announced, and a line when it is in the daybook. What is
// open at the next start is asked again, under the same message id, and then
// delivered as any late answer.
//
// A killed process loses nothing of it; after a power cut, the last requests
// may be missing.
type intake struct {
	mu   sync.Mutex
	file *os.File
	open map[string]accepted
}

// intakeLine is one line of the file: a request that was taken in, or the id
// of one that is in the daybook.
type intakeLine struct {
	In  *accepted `json:"in,omitempty"`
	Out string    `json:"out,omitempty"`
}

// accepted is a request without what can't be written.
type accepted struct {
	Who     catalogue.Who     `json:"who"`
	Message string            `json:"message"`
	At      time.Time         `json:"at"`
	Text    string            `json:"text"`
	Command string            `json:"command,omitempty"`
	Options map[string]string `json:"options,omitempty"`
	Route   json.RawMessage   `json:"route"`
}

func (a accepted) request() bot.Request {
	return bot.Request{Who: a.Who, Message: a.Message, At: a.At, Text: a.Text, Command: a.Command, Options: a.Options, Route: a.Route}
}

// openIntake reads the file, if there is one, and begins it anew with what is
// open. An empty path gives an intake that keeps nothing.
func openIntake(path string) (*intake, error) {
	in := &intake{open: map[string]accepted{}}
	if path == "" {
		return in, nil
	}
	old, err := os.Open(path)
	switch {
	case err == nil:
		scan := bufio.NewScanner(old)
		scan.Buffer(nil, 1<<20)
		for scan.Scan() {
			var line intakeLine
			// The last line may be half of one.
			if json.Unmarshal(scan.Bytes(), &line) != nil {
				continue
			}
			if line.In != nil {
				in.open[line.In.Message] = *line.In
			}
			delete(in.open, line.Out)
		}
		err = errors.Join(scan.Err(), old.Close())
	case errors.Is(err, fs.ErrNotExist):
		err = nil
	}
	if err != nil {
		return nil, fmt.Errorf("discord: read the intake: %w", err)
	}
	next := path + ".new"
	// It holds what was typed and short-lived tokens: for its owner's eyes.
	if in.file, err = os.OpenFile(next, os.O_CREATE|os.O_TRUNC|os.O_WRONLY|os.O_APPEND, 0o600); err != nil {
		return nil, fmt.Errorf("discord: open the intake: %w", err)
	}
	for _, r := range in.open {
		if err := in.write(intakeLine{In: &r}); err != nil {
			return nil, errors.Join(err, in.file.Close())
		}
	}
	if err := os.Rename(next, path); err != nil {
		return nil, errors.Join(fmt.Errorf("discord: open the intake: %w", err), in.file.Close())
	}
	return in, nil
}

// add keeps a request until done; the error means that it is not kept.
func (in *intake) add(r bot.Request) error {
	in.mu.Lock()
	defer in.mu.Unlock()
	if in.file == nil {
		return nil
	}
	a := accepted{Who: r.Who, Message: r.Message, At: r.At, Text: r.Text, Command: r.Command, Options: r.Options, Route: r.Route}
	if err := in.write(intakeLine{In: &a}); err != nil {
		return err
	}
	in.open[r.Message] = a
	return nil
}

// done lets go of a request that is in the daybook. Where that can't be
// written, the request is asked again at the next start, and found recorded.
func (in *intake) done(id string) error {
	in.mu.Lock()
	defer in.mu.Unlock()
	if _, known := in.open[id]; !known {
		return nil
	}
	delete(in.open, id)
	if len(in.open) == 0 {
		// What was typed stays no longer than it is needed.
		if err := in.file.Truncate(0); err != nil {
			return fmt.Errorf("discord: write the intake: %w", err)
		}
		return nil
	}
	return in.write(intakeLine{Out: id})
}

func (in *intake) write(line intakeLine) error {
	b, err := json.Marshal(line)
	if err == nil {
		_, err = in.file.Write(append(b, '\n'))
	}
	if err != nil {
		return fmt.Errorf("discord: write the intake: %w", err)
	}
	return nil
}

// left are the requests that an earlier process has announced and not
// answered.
func (in *intake) left() []bot.Request {
	in.mu.Lock()
	defer in.mu.Unlock()
	var list []bot.Request
	for _, r := range in.open {
		list = append(list, r.request())
	}
	return list
}

func (in *intake) close() error {
	in.mu.Lock()
	defer in.mu.Unlock()
	if in.file == nil {
		return nil
	}
	return in.file.Close()
}

// resume has what an earlier process announced answered and recorded; the
// search for late answers then delivers it.
func (a *Adapter) resume(ctx context.Context) error {
	var all sync.WaitGroup
	for _, r := range a.intake.left() {
		if a.seen.begin(r.Message) {
			all.Go(func() { a.takeUp(ctx, r) })
		}
	}
	all.Wait()
	return ctx.Err()
}

// takeUp answers one request again, and once more as long as it is not in the
// daybook: the store may be busy, or its maker has asked much already. Places
// for computing bound how many are worked on at a time.
func (a *Adapter) takeUp(ctx context.Context, r bot.Request) {
	defer a.lookForLate()
	defer a.seen.end(r.Message, false)
	name := r.Command
	if name == "" {
		name = firstWord(r.Text)
	}
	wait := newBackoff(a.pace.reopenMax)
	for {
		reply, err := a.handle(ctx, r, a.menu.specs[name])
		if err == nil && reply.Entry != 0 {
			break
		}
		a.log.Warn("an announced request could not be answered yet", "interaction", r.Message, "error", err)
		if sleep(ctx, wait.NextBackOff()) != nil {
			return // it is still in the intake
		}
	}
	a.log.Info("an announced request was taken up again", "interaction", r.Message)
	a.recordedNow(r.Message)
}

// recordedNow lets go of a request that is in the daybook.
func (a *Adapter) recordedNow(id string) {
	if err := a.intake.done(id); err != nil {
		a.log.Error("the intake could not be written", "error", err)
	}
}
