package matrix

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"runtime/debug"
	"strings"
	"sync"
	"time"

	"guildhand/bot"
	"guildhand/bot/catalogue"
	"guildhand/bot/delivery"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// platform is the adapter's name in the daybook.
const platform = "matrix"

// mostTries is how often an event's handling may end with the process before
// the event is given up.
const mostTries = 5

// handleEvent is the inbox's handler: it handles one event and releases its
// batch, or parks the event until its key comes.
func (a *Adapter) handleEvent(ctx context.Context, j *job) {
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
	switch {
	case j.readable != nil:
		evt = j.readable
	case evt.Type == event.EventEncrypted:
		if evt = a.open(ctx, j); evt == nil {
			return // parked, or given up and released
		}
		j.readable = evt
	}
	// It returns when the event is handled, or turns out to be long work: that
	// goes on beside the room's next event, which may be the word to stop it.
	done, long := make(chan struct{}), make(chan struct{})
	unblock := sync.OnceFunc(func() { close(long) })
	a.inbox.workers.Go(func() {
		defer close(done)
		defer a.recovered(j)
		if a.handle(ctx, j, evt, unblock); ctx.Err() == nil && !j.again {
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
		a.log.Error("a panic in an event", "event", j.evt.ID, "room", j.evt.RoomID,
			"panic", fmt.Sprint(r), "stack", string(debug.Stack()))
		a.inbox.release(j.batch)
	}
}

// fresh reports whether an event is young enough to be answered.
func (a *Adapter) fresh(evt *event.Event) bool {
	return time.Since(time.UnixMilli(evt.Timestamp)) <= a.cfg.FreshFor
}

// handle acts on one readable event; it calls unblock before long work.
func (a *Adapter) handle(ctx context.Context, j *job, evt *event.Event, unblock func()) {
	j.again = false
	if a.crypto != nil && a.crypto.verification(ctx, evt) {
		return
	}
	var err error
	switch evt.Type {
	case event.EventMessage:
		err = a.message(ctx, j, evt, unblock)
		for unsaid := (errUnsaid{}); errors.As(err, &unsaid) && ctx.Err() == nil; {
			a.log.Error("question waits until the store can be used", "event", evt.ID, "room", evt.RoomID, "err", err)
			if !a.awaitStore(ctx) {
				break
			}
			err = a.message(ctx, j, evt, unblock)
		}
	case event.EventReaction:
		err = a.reaction(ctx, evt)
	case event.EventRedaction:
		err = a.redaction(ctx, evt)
	}
	if err != nil && ctx.Err() == nil {
		a.log.Error("event not handled", "event", evt.ID, "room", evt.RoomID, "err", err)
	}
}

// errUnsaid marks a store error that left the asker without any reply.
type errUnsaid struct{ error }

func (e errUnsaid) Unwrap() error { return e.error }

// unsaid marks such an error; another stays as it is.
func unsaid(err error) error {
	if storeFails(err) {
		return errUnsaid{err}
	}
	return err
}

var errStateUnknown = errors.New("the room's state is not known")

// message answers a message that is meant for the bot. Notices are what bots
// say, and are never answered.
func (a *Adapter) message(ctx context.Context, j *job, evt *event.Event, unblock func()) error {
	content := evt.Content.AsMessage()
	picture := content
	if content.MsgType == event.MsgImage {
		content = captioned(content)
	} else if picture = nil; content.MsgType != event.MsgText {
		return nil
	}
	f, ok := a.factsOf(evt.RoomID)
	if !ok {
		return errStateUnknown
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
	toBot, repliesTo := false, content.RelatesTo.GetNonFallbackReplyTo()
	var earlier sentAnswer
	if repliesTo != "" {
		if earlier, toBot, err = a.store.answerAt(ctx, evt.RoomID, repliesTo, evt.Sender); err != nil {
			return unsaid(err)
		}
	}
	text, how, ok := addressed(content, who, f, direct, toBot)
	if picture != nil && direct && text == "" {
		text, how, ok = "trace", bot.Named, true
	}
	if !ok {
		return nil
	}
	var replied id.EventID
	if !toBot && asksForTracing(text) {
		replied = repliesTo
	}
	photo, lost := a.photograph(ctx, evt, picture, replied)
	if !direct {
		to.Prefix = f.prefix
	}
	spoken := !direct && !strings.HasPrefix(strings.TrimSpace(content.Body), f.prefix)
	return a.answer(ctx, j, evt, said{text, how, spoken, repliesTo, earlier.entry, photo, lost}, to, f, direct, unblock)
}

// routeEdit turns the route of an edit to the question that it edits, and to the
// answer that stands there. Only the one who asked can edit a question.
func (a *Adapter) routeEdit(ctx context.Context, to *route, original id.EventID) (bool, error) {
	to.Question = original
	if gone, err := a.isRedacted(ctx, original); err != nil || gone {
		return false, err
	}
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

// said is what a message asks of the bot, how it names the bot, and the message
// that it replies to.
type said struct {
	text string
	how  bot.Addressing
	// spoken is set where no prefix makes it a command.
	spoken    bool
	repliesTo id.EventID
	// about is the entry of that message, which may have several answers.
	about     int64
	photo     []byte
	photoLost bool
}

// answer asks the bot and sends what it says.
func (a *Adapter) answer(ctx context.Context, j *job, evt *event.Event, asked said, to route, f facts, direct bool, unblock func()) error {
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
		return errors.Join(fmt.Errorf("question not noted: %w", err), a.apologise(ctx, evt.ID, to, bot.CantRecord))
	}
	_, shared := a.bot.Shared() // then others may have begun with it, too
	q := &firstReply{a: a, job: j, asked: evt.ID, to: to, tries: tries, again: tries > 1 || shared, unblock: unblock}
	if tries > mostTries {
		const sorry = "this question could not be answered; it ended the bot several times"
		return errors.Join(a.apologise(ctx, evt.ID, to, sorry), a.closeNote(ctx, evt.ID, to, note{}, true, sorry))
	}
	_, err = a.outbox.Answer(ctx, bot.Request{
		Who: catalogue.Who{
			Platform: platform, Guild: f.guild, Channel: f.channel, Maker: string(evt.Sender),
			Teacher: teacher, Direct: direct,
			TeacherBy: fmt.Sprintf("power level %d or more in this room", a.cfg.TeacherPower),
		},
		Message: string(evt.ID), At: notAfter(time.UnixMilli(evt.Timestamp), time.Now()),
		Text: asked.text, Photo: asked.photo, PhotoLost: asked.photoLost, Addressed: asked.how, Spoken: asked.spoken, ReplyTo: string(asked.repliesTo), About: asked.about, Queued: true, Route: packed,
	}, q)
	if ctx.Err() != nil {
		return ctx.Err()
	}
	return errors.Join(err, a.store.endAttempt(ctx, evt.ID))
}

// firstReply answers a question for the first time, as far as this run
// knows: a delivery.Sender, and a delivery.Worker.
type firstReply struct {
	a     *Adapter
	job   *job
	asked id.EventID
	to    route
	tries int
	// again is true if an earlier run may have shown progress.
	again   bool
	unblock func()
	// working is set for long work, of which note tells.
	working bool
	note    note
}

// Send sends the reply, or says why there is none.
func (q *firstReply) Send(ctx context.Context, r bot.Reply) (delivery.Sent, error) {
	if q.working {
		q.typing(ctx, false)
	}
	if r.Silent {
		return delivery.Sent{}, nil
	}
	if r.Wait > 0 {
		q.job.again = true
		if q.a.inbox.later(q.job, r.Wait) {
			return delivery.Sent{}, q.a.apologise(ctx, q.asked, q.to, r.Refusal.Problem)
		}
		return delivery.Sent{}, nil
	}
	if r.Entry == 0 {
		return delivery.Sent{}, errors.Join(q.a.apologise(ctx, q.asked, q.to, r.Refusal.Problem),
			q.a.closeNote(ctx, q.asked, q.to, q.note, q.working && q.again, r.Refusal.Problem))
	}
	return q.a.sendReply(steppingAside(ctx, q.unblock), r, q.to, q.note, r.Duplicate || q.tries > 1)
}

// apologise answers where there is no answer.
func (a *Adapter) apologise(ctx context.Context, asked id.EventID, to route, text string) error {
	m := &message{}
	m.line("", text)
	_, err := a.send(ctx, outgoing{
		room: to.Room, part: partID(asked, "apology"), after: asked, again: true,
		build:   ready(place(m.notice(), to.Question, to.Thread, to.Asker)),
		section: &section{room: to.Room, question: to.Question, thread: to.Thread, asker: to.Asker, message: m, ready: time.Now()},
	})
	return unsaid(err)
}

// tellLeftOut tells a maker who floods a room what is not answered.
func (a *Adapter) tellLeftOut(ctx context.Context, evt *event.Event) {
	to := route{Room: evt.RoomID, Question: evt.ID, Asker: evt.Sender}
	err := a.apologise(ctx, evt.ID, to, fmt.Sprintf("one moment: %d of your questions wait, and are answered in turn. "+
		"I leave out this one and the ones after it; please ask them again when those are answered.", mostWaiting))
	if err != nil && ctx.Err() == nil {
		a.log.Warn("a flood was not answered", "room", evt.RoomID, "err", err)
	}
}

// notAfter guards against senders whose clock is ahead.
func notAfter(t, limit time.Time) time.Time {
	if t.After(limit) {
		return limit
	}
	return t
}
