package matrix

import (
	"context"
	"errors"
	"slices"
	"sync"
	"time"

	"maunium.net/go/mautrix/id"
)

// errLimited is the server's word that the bot sends too fast.
type errLimited struct {
	error
	wait time.Duration
}

func (e errLimited) Unwrap() error { return e.error }

// limited reports whether the server refused a message because of its limit.
func limited(err error) (wait time.Duration, ok bool) {
	var e errLimited
	ok = errors.As(err, &e)
	return e.wait, ok
}

// sendingLimit keeps what waits for the server's limit on sending. A server
// counts all of the bot's messages together, so all of them wait in one place,
// and answers that wait for the same room go out as one message.
type sendingLimit struct {
	mu sync.Mutex
	// until is when the server takes the next message, every how long it last
	// asked to wait for one.
	until time.Time
	every time.Duration
	// waiting are in the order in which they came.
	waiting []*waiting
	// working is set while somebody sends what waits.
	working bool
	// files counts the files that are still to follow answers.
	files int
}

// waiting is a message that waits for the limit.
type waiting struct {
	out   outgoing
	since time.Time
	done  chan sent
}

// sent is what became of a message.
type sent struct {
	event id.EventID
	err   error
}

// fileYields is how much longer a file waits than an answer.
const fileYields = 30 * time.Second

// holds reports whether messages wait for the limit at the moment.
func (l *sendingLimit) holds() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.working || time.Now().Before(l.until)
}

// meet notes how long the server asks to wait.
func (l *sendingLimit) meet(wait time.Duration) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.until, l.every = time.Now().Add(wait), wait
}

// follow counts files that are to follow an answer, or were sent.
func (l *sendingLimit) follow(files int) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.files += files
}

// untilFiles gives how long the files take that are still to follow, and how
// long one message takes; nothing where the server sets no limit.
func (l *sendingLimit) untilFiles() (all, one time.Duration) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return time.Duration(l.files+1) * l.every, l.every
}

// join puts a message into the queue. first is true where nobody sends from it.
func (l *sendingLimit) join(w *waiting) (first bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.waiting = append(l.waiting, w)
	first = !l.working
	l.working = true
	return first
}

// leave takes a message out whose sender gives up.
func (l *sendingLimit) leave(w *waiting) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.waiting = slices.DeleteFunc(l.waiting, func(other *waiting) bool { return other == w })
}

// take gives what goes out next: the message that waits longest, with all that
// can share its event; or nothing, and whoever sends is done. Files let answers
// go before them for a while.
func (l *sendingLimit) take() []*waiting {
	l.mu.Lock()
	defer l.mu.Unlock()
	if len(l.waiting) == 0 {
		l.working = false
		return nil
	}
	due := func(w *waiting) time.Time {
		if w.out.section == nil {
			return w.since.Add(fileYields)
		}
		return w.since
	}
	next := slices.MinFunc(l.waiting, func(a, b *waiting) int { return due(a).Compare(due(b)) })
	group := []*waiting{next}
	if next.out.section != nil {
		group = sharing(next, l.waiting)
	}
	l.waiting = slices.DeleteFunc(l.waiting, func(w *waiting) bool { return slices.Contains(group, w) })
	return group
}

// putBack returns to the queue what the server did not take.
func (l *sendingLimit) putBack(group []*waiting) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.waiting = append(slices.Clone(group), l.waiting...)
}

// pause waits until the server takes the next message.
func (l *sendingLimit) pause(ctx context.Context) error {
	l.mu.Lock()
	wait := time.Until(l.until)
	l.mu.Unlock()
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-time.After(wait):
		return nil
	}
}

type stepAside struct{}

// steppingAside makes a sender do something before it waits for the limit.
func steppingAside(ctx context.Context, do func()) context.Context {
	return context.WithValue(ctx, stepAside{}, do)
}

// await waits for a message's turn under the limit, and gives what became of it.
// Meanwhile the next questions are worked on, whose answers may go out with it.
func (a *Adapter) await(ctx context.Context, out outgoing) (id.EventID, error) {
	w := &waiting{out: out, since: time.Now(), done: make(chan sent, 1)}
	if a.limit.join(w) {
		a.log.Info("the server limits sending; messages wait, and answers for one room go out together")
		a.inbox.workers.Go(func() { a.sendWaiting(a.inbox.running) })
	}
	if do, ok := ctx.Value(stepAside{}).(func()); ok {
		do()
	}
	select {
	case done := <-w.done:
		return done.event, done.err
	case <-ctx.Done():
		a.limit.leave(w)
		return "", ctx.Err()
	}
}

// sendWaiting sends what waits for the limit until nothing does.
func (a *Adapter) sendWaiting(ctx context.Context) {
	for {
		err := a.limit.pause(ctx)
		group := a.limit.take()
		if group == nil {
			return
		}
		if err != nil {
			tell(group, sent{err: err})
			continue
		}
		out := group[0].out
		if len(group) > 1 {
			group, out = a.together(ctx, group)
		}
		if len(group) == 0 {
			continue
		}
		event, err := a.sendNow(ctx, out)
		if wait, ok := limited(err); ok {
			a.limit.meet(wait)
			a.limit.putBack(group)
			continue
		}
		if err == nil && len(out.parts) > 0 {
			err = a.keepShared(ctx, event, sectionsIn(group))
		}
		tell(group, sent{event, err})
	}
}

func tell(group []*waiting, what sent) {
	for _, w := range group {
		w.done <- what
	}
}

func sectionsIn(group []*waiting) []*section {
	var sections []*section
	for _, w := range group {
		sections = append(sections, w.out.section)
	}
	return sections
}
