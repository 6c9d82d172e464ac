package matrix

import (
	"context"
	"log/slog"
	"sync"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// inbox hands events to handle: those of one room one after the other, in
// order; those of several rooms at the same time. It keeps the position in the
// stream only when all events before it are done, so that a crash repeats
// events and never loses one.
type inbox struct {
	handle func(context.Context, *job)
	keep   func(context.Context, string) error
	log    *slog.Logger

	workers sync.WaitGroup
	slots   chan struct{}

	mu      sync.Mutex
	room    sync.Cond // signalled when a batch is done
	queues  map[id.RoomID][]*job
	batches []*batch
}

// job is one event on its way.
type job struct {
	evt   *event.Event
	batch *batch
	// waited is true once the key of an encrypted event has been waited for.
	waited bool
}

// batch is one response of the server.
type batch struct {
	token   string
	pending int
	sealed  bool
}

const (
	// workersAtOnce bounds how many rooms are answered at the same time.
	workersAtOnce = 8
	// openBatches bounds how far the stream runs ahead of the answers.
	openBatches = 100
)

func newInbox(handle func(context.Context, *job), keep func(context.Context, string) error, log *slog.Logger) *inbox {
	in := &inbox{
		handle: handle, keep: keep, log: log,
		slots:  make(chan struct{}, workersAtOnce),
		queues: map[id.RoomID][]*job{},
	}
	in.room.L = &in.mu
	return in
}

// begin opens a batch, waiting while too many are open. It gives nil when ctx
// has ended.
func (in *inbox) begin(ctx context.Context, token string) *batch {
	stop := context.AfterFunc(ctx, func() {
		in.mu.Lock()
		defer in.mu.Unlock()
		in.room.Broadcast()
	})
	defer stop()
	in.mu.Lock()
	defer in.mu.Unlock()
	for len(in.batches) >= openBatches && ctx.Err() == nil {
		in.room.Wait()
	}
	if ctx.Err() != nil {
		return nil
	}
	b := &batch{token: token}
	in.batches = append(in.batches, b)
	return b
}

// seal says that no further event belongs to the batch.
func (in *inbox) seal(ctx context.Context, b *batch) {
	in.mu.Lock()
	b.sealed = true
	in.mu.Unlock()
	in.advance(ctx)
}

// hold keeps the batch open until release, for work outside the queues.
func (in *inbox) hold(b *batch) {
	in.mu.Lock()
	b.pending++
	in.mu.Unlock()
}

// release ends a hold, or a job.
func (in *inbox) release(ctx context.Context, b *batch) {
	in.mu.Lock()
	b.pending--
	in.mu.Unlock()
	in.advance(ctx)
}

// add queues an event of a batch.
func (in *inbox) add(ctx context.Context, b *batch, evt *event.Event) {
	in.hold(b)
	in.requeue(ctx, &job{evt: evt, batch: b})
}

// requeue queues a job whose batch is held already.
func (in *inbox) requeue(ctx context.Context, j *job) {
	in.mu.Lock()
	defer in.mu.Unlock()
	room := j.evt.RoomID
	queue, running := in.queues[room]
	in.queues[room] = append(queue, j)
	if !running {
		in.workers.Go(func() { in.work(ctx, room) })
	}
}

// work handles a room's events until there are none left.
func (in *inbox) work(ctx context.Context, room id.RoomID) {
	for {
		in.mu.Lock()
		queue := in.queues[room]
		if len(queue) == 0 {
			delete(in.queues, room)
			in.mu.Unlock()
			return
		}
		j := queue[0]
		in.queues[room] = queue[1:]
		in.mu.Unlock()

		select {
		case in.slots <- struct{}{}:
		case <-ctx.Done():
			return // the queue stays: its batches are never done, and come again
		}
		in.handle(ctx, j)
		<-in.slots
		if ctx.Err() != nil {
			return
		}
	}
}

// advance keeps the position after the last batch of an unbroken row of batches
// that are done.
func (in *inbox) advance(ctx context.Context) {
	in.mu.Lock()
	defer in.mu.Unlock()
	token := ""
	for len(in.batches) > 0 && in.batches[0].sealed && in.batches[0].pending == 0 {
		token = in.batches[0].token
		in.batches = in.batches[1:]
	}
	if token == "" {
		return
	}
	in.room.Broadcast()
	// Under the lock, so that an earlier position never overwrites a later one.
	if err := in.keep(ctx, token); err != nil && ctx.Err() == nil {
		in.log.Error("position in the event stream not kept", "err", err)
	}
}

// wait waits for the workers to end; ctx given to them must have ended.
func (in *inbox) wait() { in.workers.Wait() }
