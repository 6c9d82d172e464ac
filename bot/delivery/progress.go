package delivery

import (
	"context"
	"strconv"
	"sync"
	"time"
)

// Pace is how often long work's progress is shown.
type Pace struct {
	// After is how long work may take before its progress is shown.
	After time.Duration
	// Every is the wait between two reports at first. It grows to Seldom, so
	// that long work does not fill the room's history.
	Every, Seldom time.Duration
}

// DefaultPace suits rooms that people read.
var DefaultPace = Pace{After: 2 * time.Second, Every: 3 * time.Second, Seldom: 15 * time.Second}

// patience is how long a report that is under way may delay the answer.
const patience = 5 * time.Second

// progress shows how far one request's long work is.
type progress struct {
	pace   Pace
	worker Worker
	stop   chan struct{}
	done   sync.WaitGroup
	cancel context.CancelFunc

	mu   sync.Mutex
	text string // what was reported last, or empty
}

func newProgress(pace Pace, w Worker) *progress {
	return &progress{pace: pace, worker: w, stop: make(chan struct{}), cancel: func() {}}
}

// report is the request's progress function.
func (p *progress) report(done, total int, note string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.text = progressText(done, total, note)
}

func (p *progress) reported() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.text
}

// start shows what is reported until end.
func (p *progress) start(ctx context.Context) {
	ctx, p.cancel = context.WithCancel(ctx)
	p.worker.Working(ctx)
	p.done.Go(func() {
		wait, every := time.NewTimer(p.pace.After), p.pace.Every
		defer wait.Stop()
		for {
			select {
			case <-p.stop:
				return
			case <-ctx.Done():
				return
			case <-wait.C:
			}
			if p.worker.Progress(ctx, p.reported()) != nil {
				return // the answer follows all the same
			}
			wait.Reset(every)
			every = min(every*3/2, p.pace.Seldom)
		}
	})
}

// end stops showing and waits for a report that is under way.
func (p *progress) end() {
	close(p.stop)
	impatient := time.AfterFunc(patience, p.cancel)
	p.done.Wait()
	impatient.Stop()
	p.cancel()
}

// progressText is the state of long work in words.
func progressText(done, total int, note string) string {
	text := ""
	if done > 0 {
		if text = strconv.Itoa(done); total > 0 {
			text += " of " + strconv.Itoa(total)
		}
	}
	switch {
	case text == "":
		text = note
	case note != "":
		text += ", " + note
	}
	if text == "" {
		return "working on it"
	}
	return "working on it: " + text
}
