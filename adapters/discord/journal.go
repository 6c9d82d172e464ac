package discord

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"slices"
	"sync"

	"guildhand/bot"
	"guildhand/bot/delivery"
)

// Discord tells of an event once. What is answered within its three seconds is
// in the daybook by then, or was never accepted; but a deferral accepts a
// request that is still being computed. The journal is a small file of those:
// a line when one is deferred, and a line when it is in the daybook. What is
// open at the next start is asked again, under the same message id, and then
// redelivered.
//
// Nothing in it is lost when the process is killed; after a power cut, the last
// requests may be missing.
type journal struct {
	mu   sync.Mutex
	file *os.File
	open map[string]bot.Request
}

// journalLine is one line of the file: a request that was accepted, or the
// message of one that is in the daybook.
type journalLine struct {
	In  *bot.Request `json:"in,omitempty"`
	Out string       `json:"out,omitempty"`
}

// openJournal reads the file, if there is one, and starts it anew with what is
// open. An empty path makes a journal that keeps nothing.
func openJournal(path string) (*journal, error) {
	j := &journal{open: map[string]bot.Request{}}
	if path == "" {
		return j, nil
	}
	old, err := os.Open(path)
	switch {
	case err == nil:
		scan := bufio.NewScanner(old)
		scan.Buffer(nil, 1<<20)
		for scan.Scan() {
			var line journalLine
			// The last line may be half of one.
			if json.Unmarshal(scan.Bytes(), &line) != nil {
				continue
			}
			if line.In != nil {
				j.open[line.In.Message] = *line.In
			}
			delete(j.open, line.Out)
		}
		err = errors.Join(scan.Err(), old.Close())
	case errors.Is(err, fs.ErrNotExist):
		err = nil
	}
	if err != nil {
		return nil, fmt.Errorf("discord: read the journal: %w", err)
	}
	next := path + ".new"
	// It holds what was typed and short-lived tokens: for its owner's eyes.
	if j.file, err = os.OpenFile(next, os.O_CREATE|os.O_TRUNC|os.O_WRONLY|os.O_APPEND, 0o600); err != nil {
		return nil, fmt.Errorf("discord: open the journal: %w", err)
	}
	for _, r := range j.open {
		if err := j.write(journalLine{In: &r}); err != nil {
			return nil, errors.Join(err, j.file.Close())
		}
	}
	if err := os.Rename(next, path); err != nil {
		return nil, errors.Join(fmt.Errorf("discord: open the journal: %w", err), j.file.Close())
	}
	return j, nil
}

// add keeps a request until done; an error means that it is not kept.
func (j *journal) add(r bot.Request) error {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.file == nil {
		return nil
	}
	if err := j.write(journalLine{In: &r}); err != nil {
		return err
	}
	j.open[r.Message] = r
	return nil
}

// done drops a request that is in the daybook. If that can't be written, the
// request is asked again at the next start, and found recorded.
func (j *journal) done(id string) error {
	j.mu.Lock()
	defer j.mu.Unlock()
	if _, known := j.open[id]; !known {
		return nil
	}
	delete(j.open, id)
	if len(j.open) > 0 {
		return j.write(journalLine{Out: id})
	}
	// What was typed stays no longer than it is needed.
	if err := j.file.Truncate(0); err != nil {
		return fmt.Errorf("discord: write the journal: %w", err)
	}
	return nil
}

func (j *journal) write(line journalLine) error {
	b, err := json.Marshal(line)
	if err == nil {
		_, err = j.file.Write(append(b, '\n'))
	}
	if err != nil {
		return fmt.Errorf("discord: write the journal: %w", err)
	}
	return nil
}

// left are the requests that an earlier process has deferred and not answered.
func (j *journal) left() []bot.Request {
	j.mu.Lock()
	defer j.mu.Unlock()
	return slices.Collect(maps.Values(j.open))
}

func (j *journal) close() error {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.file == nil {
		return nil
	}
	return j.file.Close()
}

// resume has what an earlier process deferred answered and recorded; the outbox
// then delivers it.
func (a *Adapter) resume(ctx context.Context) error {
	var all sync.WaitGroup
	for _, r := range a.journal.left() {
		all.Go(func() { a.askAgain(ctx, r) })
	}
	all.Wait()
	return ctx.Err()
}

// askAgain answers a request of an earlier process, and tries until it is in
// the daybook: the store may be busy.
func (a *Adapter) askAgain(ctx context.Context, r bot.Request) {
	wait := delivery.Backoff(a.pace.reopenMax)
	for {
		reply, err := a.service.Handle(ctx, r)
		if err == nil && reply.Silent {
			a.journalDone(r.Message)
			return
		}
		if err == nil && reply.Entry != 0 {
			a.log.Info("a deferred request was answered after a restart", "interaction", r.Message)
			a.journalDone(r.Message)
			if !reply.Delivered {
				a.outbox.Release(ctx, reply)
			}
			return
		}
		a.log.Warn("a deferred request could not be answered yet", "interaction", r.Message, "error", err)
		if sleep(ctx, wait.NextBackOff()) != nil {
			return // it is still in the journal
		}
	}
}

// journalDone drops a request that is in the daybook.
func (a *Adapter) journalDone(id string) {
	if err := a.journal.done(id); err != nil {
		a.log.Error("the journal could not be written", "error", err)
	}
}
