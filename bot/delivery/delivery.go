// Package delivery is the outbox: it has requests answered, shows how far long
// work is, and sees to it that every recorded answer is sent once, also after a
// crash. A platform takes part with a small Sender.
//
// An answer is recorded before it is sent and marked after. What lies between
// the two when a process or a connection ends is found here and sent by the
// platform's Sender for redelivery, which looks for an earlier copy first.
package delivery

import (
	"context"
	"errors"
	"log/slog"
	"maps"
	"sync"
	"time"

	"github.com/cenkalti/backoff/v5"

	"guildhand/bot"
)

// Sender sends recorded replies on a platform.
type Sender interface {
	// Send sends a reply. The error is ErrUndeliverable if nothing can be sent
	// there ever; after any other, the reply is sent again later.
	Send(ctx context.Context, r bot.Reply) (Sent, error)
}

// Worker is a Sender that can show that long work goes on.
type Worker interface {
	// Working is called once, when a request turns out to be long work.
	Working(ctx context.Context)
	// Progress is called now and then with how far the work is, which may be
	// what it was the time before. It must not fail for long: the answer follows.
	Progress(ctx context.Context, text string) error
}

// Sent is a reply that was sent.
type Sent struct {
	// Message is the platform's id of the answer.
	Message string
	// Way is how it was sent, a word for logs and counters.
	Way string
}

// WayExpired is counted for an answer that was too old, or had nowhere to go.
const WayExpired = "expired"

// ErrUndeliverable says that an answer has nowhere to go.
var ErrUndeliverable = errors.New("the answer can't be delivered")

// Service is what the outbox needs of *bot.Service.
type Service interface {
	Handle(context.Context, bot.Request) (bot.Reply, error)
	Undelivered(ctx context.Context, platform string) ([]bot.Reply, error)
	Delivered(ctx context.Context, entry int64, message string) error
	Expired(ctx context.Context, entry int64) error
	Release(ctx context.Context, entry int64) error
}

var _ Service = (*bot.Service)(nil)

// Options of New.
type Options struct {
	// Platform is the platform's name in the daybook.
	Platform string
	// FreshFor is how old an answer may be and still be sent.
	FreshFor time.Duration
	// Every is how often to look for answers that were not sent.
	Every time.Duration
	Log   *slog.Logger
	// Redelivered counts what was redelivered, or expired; may be nil.
	Redelivered func(way string)
	Pace        Pace
}

// Outbox delivers one platform's answers.
type Outbox struct {
	o          Options
	service    Service
	redelivery Sender
	nudge      chan struct{}

	mu sync.Mutex
	// unmarked are entries that were sent and could not be marked.
	unmarked map[int64]Sent
}

// New makes an outbox. redelivery sends what an earlier attempt may have sent
// already.
func New(service Service, redelivery Sender, o Options) *Outbox {
	if o.Pace == (Pace{}) {
		o.Pace = DefaultPace
	}
	return &Outbox{o: o, service: service, redelivery: redelivery, nudge: make(chan struct{}, 1), unmarked: map[int64]Sent{}}
}

// Answer has a request answered and sends the reply by to. The reply is also
// returned: one that is Duplicate and Delivered was not sent again. What fails
// to be sent is redelivered. An error means that the asker has no answer yet.
func (o *Outbox) Answer(ctx context.Context, req bot.Request, to Sender) (bot.Reply, error) {
	end := func() {}
	if w, ok := to.(Worker); ok {
		p := newProgress(o.o.Pace, w)
		req.Progress = p.report
		req.OnLong = func() { p.start(ctx) }
		end = p.end
	}
	reply, err := o.service.Handle(ctx, req)
	end()
	if err != nil {
		if ctx.Err() != nil {
			return reply, err // it leaves no trace, and is answered when it comes again
		}
		o.o.Log.Error("a request could not be recorded", "message", req.Message, "error", err)
	}
	if reply.Duplicate && reply.Delivered {
		return reply, nil
	}
	sent, err := to.Send(ctx, reply)
	if err != nil {
		if reply.Entry != 0 {
			o.o.Log.Warn("an answer was not delivered and will be sent later", "entry", reply.Entry, "message", req.Message, "error", err)
			o.Release(ctx, reply)
		}
		return reply, err
	}
	if !o.mark(ctx, reply.Entry, sent) {
		o.Nudge()
	}
	return reply, nil
}

// Release leaves an answer to Run, of this process or another.
func (o *Outbox) Release(ctx context.Context, r bot.Reply) {
	if err := o.service.Release(ctx, r.Entry); err != nil && ctx.Err() == nil {
		o.o.Log.Warn("an answer was not released; it will be when its lease ends", "entry", r.Entry, "error", err)
	}
	o.Nudge()
}

// Nudge makes Run look for unsent answers now.
func (o *Outbox) Nudge() {
	select {
	case o.nudge <- struct{}{}:
	default:
	}
}

// mark notes in the daybook that an answer was sent. If that fails, Run tries
// again; until then the answer is still claimed, so that nobody sends it again.
func (o *Outbox) mark(ctx context.Context, entry int64, sent Sent) bool {
	if entry == 0 {
		return true
	}
	err := o.service.Delivered(ctx, entry, sent.Message)
	o.mu.Lock()
	defer o.mu.Unlock()
	if err == nil {
		delete(o.unmarked, entry)
		return true
	}
	o.unmarked[entry] = sent
	o.o.Log.Error("a delivered answer could not be marked", "entry", entry, "error", err)
	return false
}

// Run sends what was recorded and not sent: now, when nudged, and from time to
// time, until ctx ends. After a failure it tries again soon, then ever more
// slowly.
func (o *Outbox) Run(ctx context.Context) error {
	retry := Backoff(o.o.Every)
	for {
		wait := o.o.Every
		if o.Redeliver(ctx) {
			retry.Reset()
		} else {
			wait = min(wait, retry.NextBackOff())
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-o.nudge:
		case <-time.After(wait):
		}
	}
}

// Redeliver looks for unsent answers once, and reports whether it left none.
func (o *Outbox) Redeliver(ctx context.Context) (all bool) {
	o.mu.Lock()
	unmarked := maps.Clone(o.unmarked)
	o.mu.Unlock()
	all = true
	for entry, sent := range unmarked {
		all = o.mark(ctx, entry, sent) && all
	}
	for ctx.Err() == nil {
		list, err := o.service.Undelivered(ctx, o.o.Platform)
		if err != nil && ctx.Err() == nil {
			o.o.Log.Error("unsent answers could not be looked for", "error", err)
			return false
		}
		var failed []bot.Reply
		for _, r := range list {
			if ctx.Err() != nil || !o.redeliver(ctx, r) {
				failed = append(failed, r)
			}
		}
		for _, r := range failed { // not before all are tried, or they would come again at once
			if err := o.service.Release(context.WithoutCancel(ctx), r.Entry); err != nil {
				o.o.Log.Warn("an answer was not released; it will be when its lease ends", "entry", r.Entry, "error", err)
			}
		}
		if len(failed) > 0 {
			return false
		}
		if len(list) == 0 {
			break
		}
	}
	return all
}

// redeliver sends one answer, or marks it as expired. It reports false if the
// answer has to be tried again.
func (o *Outbox) redeliver(ctx context.Context, r bot.Reply) bool {
	log := o.o.Log.With("entry", r.Entry, "message", r.Message)
	sent, err := Sent{}, ErrUndeliverable
	if time.Since(r.At) <= o.o.FreshFor {
		sent, err = o.redelivery.Send(ctx, r)
	}
	switch {
	case errors.Is(err, ErrUndeliverable):
		sent.Way = WayExpired
		if err := o.service.Expired(ctx, r.Entry); err != nil {
			log.Error("an answer could not be marked as expired", "error", err)
			return false
		}
	case err != nil:
		log.Warn("an unsent answer could not be sent yet", "error", err)
		return false
	default:
		o.mark(ctx, r.Entry, sent)
	}
	if o.o.Redelivered != nil {
		o.o.Redelivered(sent.Way)
	}
	log.Info("an answer was redelivered", "outcome", sent.Way)
	return true
}

// Backoff waits from half a second up to longest, doubling with some chance in
// it, so that many bots do not come back at the same moment.
func Backoff(longest time.Duration) *backoff.ExponentialBackOff {
	b := backoff.NewExponentialBackOff()
	b.InitialInterval = min(500*time.Millisecond, longest)
	b.Multiplier = 2
	b.MaxInterval = longest
	return b
}
