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
	// stream ends when no further event may be begun, running when those that
	// are being handled must stop.
	stream, running context.Context

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
	// openBatches bounds how far the stream runs ahead of the answers: some
	// minutes of a busy server, which long work may take.
	openBatches = 1000
)

func newInbox(stream, running context.Context, handle func(context.Context, *job), keep func(context.Context, string) error, log *slog.Logger) *inbox {
	in := &inbox{
		handle: handle, keep: keep, log: log, stream: stream, running: running,
		slots:  make(chan struct{}, workersAtOnce),
		queues: map[id.RoomID][]*job{},
	}
	in.room.L = &in.mu
	return in
}

// begin opens a batch, waiting while too many are open. It gives nil when the
// stream has ended.
func (in *inbox) begin(token string) *batch {
	stop := context.AfterFunc(in.stream, func() {
		in.mu.Lock()
		defer in.mu.Unlock()
		in.room.Broadcast()
	})
	defer stop()
	in.mu.Lock()
	defer in.mu.Unlock()
	for len(in.batches) >= openBatches && in.stream.Err() == nil {
		in.room.Wait()
	}
	if in.stream.Err() != nil {
		return nil
	}
	b := &batch{token: token}
	in.batches = append(in.batches, b)
	return b
}

// seal says that no further event belongs to the batch.
func (in *inbox) seal(b *batch) {
	in.mu.Lock()
	b.sealed = true
	in.mu.Unlock()
	in.advance()
}

// hold keeps the batch open until release, for work outside the queues.
func (in *inbox) hold(b *batch) {
	in.mu.Lock()
	b.pending++
	in.mu.Unlock()
}

// release ends a hold, or a job.
func (in *inbox) release(b *batch) {
	in.mu.Lock()
	b.pending--
	in.mu.Unlock()
	in.advance()
}

// add queues an event of a batch.
func (in *inbox) add(b *batch, evt *event.Event) {
	in.hold(b)
	in.requeue(&job{evt: evt, batch: b})
}

// requeue queues a job whose batch is held already.
func (in *inbox) requeue(j *job) {
	in.mu.Lock()
	defer in.mu.Unlock()
	room := j.evt.RoomID
	queue, working := in.queues[room]
	in.queues[room] = append(queue, j)
	if !working {
		in.workers.Go(func() { in.work(room) })
	}
}

// work handles a room's events until there are none left.
func (in *inbox) work(room id.RoomID) {
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
		case <-in.stream.Done():
			return // the queue stays: its batches are never done, and come again
		}
		if in.stream.Err() == nil {
			in.handle(in.running, j)
		}
		<-in.slots
		if in.stream.Err() != nil {
			return
		}
	}
}

// advance keeps the position after the last batch of an unbroken row of batches
// that are done.
func (in *inbox) advance() {
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
	if err := in.keep(in.running, token); err != nil && in.running.Err() == nil {
		in.log.Error("position in the event stream not kept", "err", err)
	}
}

// wait waits for the workers to end; the stream must have ended.
func (in *inbox) wait() { in.workers.Wait() }
