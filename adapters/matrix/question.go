package matrix

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"runtime/debug"
	"sync"
	"time"

	"guildhand/bot"
	"guildhand/bot/catalogue"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// platform is the adapter's name in the daybook.
const platform = "matrix"

// mostTries is how often an event's handling may end with the process before
// the event is given up.
const mostTries = 5

// take is the inbox's handler: it handles one event and lets its batch go, or
// parks the event until its key comes.
func (a *Adapter) take(ctx context.Context, j *job) {
	defer a.recovered(j)
	evt := j.evt
	if evt.Sender == a.cli.UserID || !a.fresh(evt) {
		a.inbox.release(j.batch)
		return
	}
	evt.Type.Class = event.MessageEventType
	if err := evt.Content.ParseRaw(evt.Type); err != nil && evt.Content.Parsed == nil {
		a.inbox.release(j.batch) // not a kind of event that we know
		return
	}
	if evt.Type == event.EventEncrypted {
		if evt = a.open(ctx, j); evt == nil {
			return // parked, or given up and released
		}
	}
	a.workOn(ctx, j, evt)
}

// workOn handles an event. It returns when that is done, or when it turns out
// to be long work: that goes on aside, so that the room's next event, which may
// be the word to stop it, is not held up.
func (a *Adapter) workOn(ctx context.Context, j *job, evt *event.Event) {
	done, long := make(chan struct{}), make(chan struct{})
	aside := sync.OnceFunc(func() { close(long) })
	a.inbox.workers.Go(func() {
		defer close(done)
		defer a.recovered(j)
		a.handle(ctx, evt, aside)
		if ctx.Err() == nil {
			a.inbox.release(j.batch)
		}
	})
	select {
	case <-done:
	case <-long:
	}
}

// recovered ends a job whose handling panicked.
func (a *Adapter) recovered(j *job) {
	if r := recover(); r != nil {
		a.log.Error("event not handled: fault of ours", "event", j.evt.ID, "room", j.evt.RoomID,
			"fault", fmt.Sprint(r), "stack", string(debug.Stack()))
		a.inbox.release(j.batch)
	}
}

// fresh reports whether an event is young enough to be answered.
func (a *Adapter) fresh(evt *event.Event) bool {
	return time.Since(time.UnixMilli(evt.Timestamp)) <= a.cfg.FreshFor
}

// handle acts on one readable event; it calls aside before long work.
func (a *Adapter) handle(ctx context.Context, evt *event.Event, aside func()) {
	var err error
	switch evt.Type {
	case event.EventMessage:
		err = a.message(ctx, evt, aside)
		for unsaid := (errUnsaid{}); errors.As(err, &unsaid) && ctx.Err() == nil; {
			a.log.Error("question waits until the store can be used", "event", evt.ID, "room", evt.RoomID, "err", err)
			if !a.awaitStore(ctx) {
				break
			}
			err = a.message(ctx, evt, aside)
		}
	case event.EventReaction:
		err = a.reaction(ctx, evt)
	}
	if err != nil && ctx.Err() == nil {
		a.log.Error("event not handled", "event", evt.ID, "room", evt.RoomID, "err", err)
	}
}

// errUnsaid marks an error of the store by which nothing was said to a question,
// not even that it can't be answered.
type errUnsaid struct{ error }

func (e errUnsaid) Unwrap() error { return e.error }

// unsaid marks such an error; another stays as it is.
func unsaid(err error) error {
	if storeFails(err) {
		return errUnsaid{err}
	}
	return err
}

// message answers a message that is meant for the bot. Notices are what bots
// say, and are never answered.
func (a *Adapter) message(ctx context.Context, evt *event.Event, aside func()) error {
	content := evt.Content.AsMessage()
	if content.MsgType != event.MsgText {
		return nil
	}
	f, ok := a.factsOf(evt.RoomID)
	if !ok {
		return fmt.Errorf("room's state is not known")
	}
	to := route{Room: evt.RoomID, Question: evt.ID, Thread: content.RelatesTo.GetThreadParent(), Asker: evt.Sender}
	if original := content.RelatesTo.GetReplaceID(); original != "" {
		if content = content.NewContent; content == nil || content.MsgType != event.MsgText {
			return nil
		}
		if ok, err := a.routeEdit(ctx, &to, original); err != nil || !ok {
			return unsaid(err)
		}
	}
	direct, err := a.isDirect(ctx, evt.RoomID, f)
	if err != nil {
		return unsaid(err)
	}
	who := self{user: a.cli.UserID, names: []string{f.botName, a.cli.UserID.Localpart()}}
	text, ok := addressed(content, who, f, direct, a.knows)
	if !ok {
		return nil
	}
	if !direct {
		to.Prefix = f.prefix
	}
	if to.Long = a.long[firstWord(text)]; to.Long {
		aside()
	}
	return a.answer(ctx, evt, text, to, f, direct)
}

// routeEdit turns the route of an edit to the question that it edits, and to the
// answer that stands there. Only the one who asked can edit a question.
func (a *Adapter) routeEdit(ctx context.Context, to *route, original id.EventID) (bool, error) {
	to.Question = original
	sent, ok, err := a.store.answerTo(ctx, to.Room, original)
	if err != nil {
		return false, err
	}
	if ok {
		to.Replaces, to.ReplacesImage, to.Thread = sent.answer, sent.image, sent.thread
		return sent.asker == digest(string(to.Asker)), nil
	}
	// Not answered so far: a message that becomes a request by the edit.
	evt, err := persist(ctx, func(ctx context.Context) (*event.Event, error) {
		return a.cli.GetEvent(ctx, to.Room, original)
	})
	if err != nil {
		return false, err
	}
	var c struct {
		RelatesTo *event.RelatesTo `json:"m.relates_to"`
	}
	if json.Unmarshal(evt.Content.VeryRaw, &c) == nil {
		to.Thread = c.RelatesTo.GetThreadParent()
	}
	return evt.Sender == to.Asker && a.fresh(evt), nil
}

// answer asks the bot and sends what it says.
func (a *Adapter) answer(ctx context.Context, evt *event.Event, text string, to route, f facts, direct bool) error {
	teacher, err := a.isTeacher(ctx, evt.RoomID, evt.Sender)
	if err != nil {
		return unsaid(err)
	}
	packed, err := json.Marshal(to)
	if err != nil {
		return err
	}
	tries, err := a.store.attempt(ctx, evt.ID)
	if err != nil {
		return errors.Join(fmt.Errorf("question not noted: %w", err), a.apologise(ctx, evt, to, cantRecord))
	}
	// Others that share the daybook may have begun with it, too.
	again := tries > 1 || a.bot.LookEvery() > 0
	if tries > mostTries {
		const sorry = "this question could not be answered; it ended the bot several times"
		return errors.Join(a.apologise(ctx, evt, to, sorry), a.closeNote(ctx, evt.ID, to, again, sorry))
	}
	watched := a.watch(ctx, evt.ID, to, again)
	defer watched.cancel()
	request := bot.Request{
		Who: catalogue.Who{
			Platform: platform, Guild: f.guild, Channel: f.channel, Maker: string(evt.Sender),
			Teacher: teacher, Direct: direct,
		},
		Message: string(evt.ID), At: notAfter(time.UnixMilli(evt.Timestamp), time.Now()),
		Text: text, Route: packed,
		Progress: watched.report,
	}
	reply, err := a.handleInTurn(ctx, request)
	to.note = watched.end()
	switch {
	case ctx.Err() != nil:
		return ctx.Err()
	case err != nil:
		a.log.Error("question could not be recorded", "event", evt.ID, "err", err)
		return errors.Join(a.apologise(ctx, evt, to, cantRecord), a.closeNote(ctx, evt.ID, to, again, cantRecord))
	}
	err = a.deliver(ctx, reply, to, reply.Duplicate || tries > 1)
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		a.putBack(ctx, reply.Entry)
	}
	return errors.Join(err, a.store.endAttempt(ctx, evt.ID))
}

// cantRecord is said where a question can't be kept, as on a full disk.
const cantRecord = "can't record, so I can't answer now; please ask again in a while"

const (
	// late is the age at which a question was not asked just now: it waited for
	// the bot.
	late = 10 * time.Second
	// turnWait is the wait before such a question is tried again.
	turnWait = time.Second
)

// handleInTurn asks the bot. Who asks very much in a short while is told to wait
// and ask again; but questions that come all at once because the bot was away
// were not asked in a short while, so they wait here.
func (a *Adapter) handleInTurn(ctx context.Context, request bot.Request) (bot.Reply, error) {
	for {
		reply, err := persist(ctx, func(ctx context.Context) (bot.Reply, error) { return a.bot.Handle(ctx, request) })
		toldToWait := err == nil && reply.Entry == 0 && reply.Refusal != nil
		if !toldToWait || !request.At.Before(a.started) && time.Since(request.At) < late {
			return reply, err
		}
		select {
		case <-time.After(turnWait):
		case <-ctx.Done():
			return reply, ctx.Err()
		}
	}
}

// apologise answers where there is no answer.
func (a *Adapter) apologise(ctx context.Context, evt *event.Event, to route, text string) error {
	m := &message{}
	m.line("", text)
	_, err := a.send(ctx, outgoing{
		room: to.Room, part: partID(evt.ID, "apology"), after: evt.ID, again: true,
		build: ready(place(m.notice(), to.Question, to.Thread, to.Asker)),
	})
	return unsaid(err)
}

// notAfter guards against senders whose clock is ahead.
func notAfter(t, limit time.Time) time.Time {
	if t.After(limit) {
		return limit
	}
	return t
}
