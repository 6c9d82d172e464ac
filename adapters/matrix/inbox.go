package matrix

import (
	"context"
	"log/slog"
	"maps"
	"slices"
	"sync"
	"time"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// inbox hands events to handle: those of one maker in one room one after the
// other, in order; those of several makers or rooms in turn, at the same time.
// It keeps the position in the stream only when all events before it are done,
// so that a crash repeats events and never loses one.
type inbox struct {
	handle func(context.Context, *job)
	keep   func(context.Context, string) error
	// leftOut is told of the first event of a flood that is not answered.
	leftOut func(context.Context, *event.Event)
	log     *slog.Logger
	// stream ends when no further event may be begun, running when those that
	// are being handled must stop.
	stream, running context.Context

	workers sync.WaitGroup
	slots   chan struct{} // first come, first served

	mu      sync.Mutex
	room    sync.Cond // signalled when a batch is done
	queues  map[lane]*queue
	batches []*batch
	told    map[notice]time.Time
}

// lane is one maker in one room.
type lane struct {
	room   id.RoomID
	sender id.UserID
}

// queue is what one maker has asked in one room and not got answered.
type queue struct {
	jobs []*job
	// held is set once the maker had to wait for the limit.
	held bool
	// leftOut is the first event that a flood left no room for.
	leftOut *event.Event
}

// notice is something that a maker is told once in a while.
type notice struct {
	lane
	leftOut bool
}

// job is one event on its way.
type job struct {
	evt   *event.Event
	batch *batch
	// live is set where the event came while the bot was listening; others waited
	// for the bot.
	live bool
	// waited is true once the key of an encrypted event has been waited for.
	waited bool
	// readable is the event once it is decrypted.
	readable *event.Event
	// again is set where it was put back, over the limit.
	again bool
	// notBefore is when it may be handled; zero for now.
	notBefore time.Time
}

// batch is one response of the server.
type batch struct {
	token   string
	live    bool
	pending int
	sealed  bool
}

const (
	// workersAtOnce bounds how many makers are answered at the same time.
	workersAtOnce = 8
	// openBatches bounds how far the stream runs ahead of the answers: some
	// minutes of a busy server, which long work may take.
	openBatches = 1000
	// mostWaiting is how many questions of a maker in a room wait for the limit.
	mostWaiting = 50
	// tellEvery is how often a maker is told again of the same.
	tellEvery = time.Minute
	// editPause is how long an edit waits for the next one.
	editPause = time.Second
)

func newInbox(stream, running context.Context, handle func(context.Context, *job), keep func(context.Context, string) error, log *slog.Logger) *inbox {
	in := &inbox{
		handle: handle, keep: keep, log: log, stream: stream, running: running,
		leftOut: func(context.Context, *event.Event) {},
		slots:   make(chan struct{}, workersAtOnce),
		queues:  map[lane]*queue{},
		told:    map[notice]time.Time{},
	}
	in.room.L = &in.mu
	return in
}

// begin opens a batch, waiting while too many are open. It gives nil when the
// stream has ended.
func (in *inbox) begin(token string, live bool) *batch {
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
	b := &batch{token: token, live: live}
	in.batches = append(in.batches, b)
	return b
}

// seal says that no further event belongs to the batch.
func (in *inbox) seal(b *batch) {
	in.mu.Lock()
	defer in.mu.Unlock()
	b.sealed = true
	in.advance()
}

// hold keeps the batch open until release, for work outside the queues.
func (in *inbox) hold(b *batch) {
	in.mu.Lock()
	defer in.mu.Unlock()
	b.pending++
}

// release ends a hold, or a job.
func (in *inbox) release(b *batch) {
	in.mu.Lock()
	defer in.mu.Unlock()
	in.drop(b)
}

// drop is release under the lock.
func (in *inbox) drop(b *batch) {
	b.pending--
	in.advance()
}

// add queues an event of a batch. A redaction takes what it redacts out of the
// queues, and an edit takes the place of what it edits.
func (in *inbox) add(b *batch, evt *event.Event) {
	in.mu.Lock()
	defer in.mu.Unlock()
	b.pending++
	j := &job{evt: evt, batch: b, live: b.live}
	if gone := redacted(evt); gone != "" {
		for at, q := range in.queues {
			if at.room == evt.RoomID {
				in.remove(q, func(w *job) bool { return about(w.evt, gone) })
			}
		}
	}
	if original := edited(evt); original != "" {
		if j.live {
			j.notBefore = time.Now().Add(editPause)
		}
		if q := in.queues[laneOf(evt)]; q != nil {
			in.remove(q, func(w *job) bool { return about(w.evt, original) })
		}
	}
	q := in.push(j)
	if q.held {
		in.bound(q)
	}
}

// remove takes jobs out of a queue as done.
func (in *inbox) remove(q *queue, which func(*job) bool) {
	q.jobs = slices.DeleteFunc(q.jobs, func(w *job) bool {
		if which(w) {
			in.drop(w.batch)
			return true
		}
		return false
	})
}

// bound leaves out what a maker who is over the limit asks beyond mostWaiting.
// What waited for the bot is no flood.
func (in *inbox) bound(q *queue) {
	waiting := 0
	in.remove(q, func(w *job) bool {
		if !w.live {
			return false
		}
		if waiting++; waiting <= mostWaiting {
			return false
		}
		if q.leftOut == nil {
			q.leftOut = w.evt
		}
		return true
	})
}

// requeue queues a job whose batch is held already.
func (in *inbox) requeue(j *job) {
	in.mu.Lock()
	defer in.mu.Unlock()
	in.push(j)
}

func (in *inbox) push(j *job) *queue {
	at := laneOf(j.evt)
	q, working := in.queues[at]
	if !working {
		q = &queue{}
		in.queues[at] = q
		in.workers.Go(func() { in.work(at, q) })
	}
	q.jobs = append(q.jobs, j)
	return q
}

// later puts a job that is over the limit back to the head of its queue, and
// reports whether its maker is to be told so, once in a while.
func (in *inbox) later(j *job, wait time.Duration) (tell bool) {
	in.mu.Lock()
	defer in.mu.Unlock()
	j.notBefore = time.Now().Add(wait)
	at := laneOf(j.evt)
	q, working := in.queues[at]
	if !working {
		q = in.push(j)
	} else {
		q.jobs = slices.Insert(q.jobs, 0, j)
	}
	q.held = true
	in.bound(q)
	return j.live && in.tellNow(notice{lane: at})
}

// tellNow reports whether it is time to tell something.
func (in *inbox) tellNow(n notice) bool {
	now := time.Now()
	maps.DeleteFunc(in.told, func(_ notice, at time.Time) bool { return now.Sub(at) >= tellEvery })
	_, lately := in.told[n]
	if !lately {
		in.told[n] = now
	}
	return !lately
}

// work handles one maker's events until there are none left.
func (in *inbox) work(at lane, q *queue) {
	for {
		wait, ok := in.untilNext(at, q)
		if !ok {
			return
		}
		if wait > 0 {
			select {
			case <-time.After(wait):
				continue
			case <-in.stream.Done():
				return
			}
		}
		select {
		case in.slots <- struct{}{}:
		case <-in.stream.Done():
			return // the queue stays: its batches are never done, and come again
		}
		if in.stream.Err() == nil {
			in.next(q)
		}
		<-in.slots
		if in.stream.Err() != nil {
			return
		}
	}
}

// untilNext gives how long the queue's head waits yet. An empty queue is given up.
func (in *inbox) untilNext(at lane, q *queue) (wait time.Duration, ok bool) {
	in.mu.Lock()
	defer in.mu.Unlock()
	if len(q.jobs) == 0 {
		delete(in.queues, at)
		return 0, false
	}
	if due := q.jobs[0].notBefore; !due.IsZero() {
		wait = time.Until(due)
	}
	return wait, true
}

// next handles the queue's head, and tells of what was left out.
func (in *inbox) next(q *queue) {
	in.mu.Lock()
	var j *job
	if len(q.jobs) > 0 && time.Now().Compare(q.jobs[0].notBefore) >= 0 {
		j, q.jobs = q.jobs[0], q.jobs[1:]
	}
	out := q.leftOut
	q.leftOut = nil
	tell := out != nil && in.tellNow(notice{laneOf(out), true})
	in.mu.Unlock()
	if tell {
		in.leftOut(in.running, out)
	}
	if j != nil {
		in.handle(in.running, j)
	}
}

// advance keeps the position after the last batch of an unbroken row of batches
// that are done. One that is done behind one that is not hands its position to
// that one, so that a maker who waits does not hold up the stream.
func (in *inbox) advance() {
	done := func(b *batch) bool { return b.sealed && b.pending == 0 }
	token := ""
	for len(in.batches) > 0 && done(in.batches[0]) {
		token = in.batches[0].token
		in.batches = in.batches[1:]
	}
	for i := len(in.batches) - 1; i > 0; i-- {
		if done(in.batches[i]) {
			in.batches[i-1].token = in.batches[i].token
			in.batches = slices.Delete(in.batches, i, i+1)
		}
	}
	in.room.Broadcast()
	if token == "" {
		return
	}
	// Under the lock, so that an earlier position never overwrites a later one.
	if err := in.keep(in.running, token); err != nil && in.running.Err() == nil {
		in.log.Error("position in the event stream not kept", "err", err)
	}
}

// wait waits for the workers to end; the stream must have ended.
func (in *inbox) wait() { in.workers.Wait() }

func laneOf(evt *event.Event) lane { return lane{evt.RoomID, evt.Sender} }

// edited gives the event that an event edits. Relations are never encrypted.
func edited(evt *event.Event) id.EventID {
	relates, _ := evt.Content.Raw["m.relates_to"].(map[string]any)
	if kind, _ := relates["rel_type"].(string); kind != string(event.RelReplace) {
		return ""
	}
	original, _ := relates["event_id"].(string)
	return id.EventID(original)
}

// redacted gives the event that an event redacts. Where it stands depends on the
// room's version.
func redacted(evt *event.Event) id.EventID {
	if evt.Type.Type != event.EventRedaction.Type {
		return ""
	}
	if evt.Redacts != "" {
		return evt.Redacts
	}
	gone, _ := evt.Content.Raw["redacts"].(string)
	return id.EventID(gone)
}

// about reports whether an event is another one or an edit of it.
func about(evt *event.Event, other id.EventID) bool {
	return evt.ID == other || edited(evt) == other
}
