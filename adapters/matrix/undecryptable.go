package matrix

import (
	"context"
	"errors"
	"strconv"
	"time"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

const (
	// keyWait is how long a key may take that is on its way already.
	keyWait = 3 * time.Second
	// keyWaitAsked is how long the sender's devices get to send a key that they
	// were asked for.
	keyWaitAsked = 20 * time.Second
)

// open decrypts a job's event. It gives nil where the event waits for its key,
// and comes back to the inbox later, or cannot be read at all.
func (a *Adapter) open(ctx context.Context, j *job) *event.Event {
	if a.crypto == nil {
		// Nothing can be said either: it would have to be encrypted.
		a.log.Debug("encrypted message left: no encryption", "room", j.evt.RoomID)
		a.inbox.release(j.batch)
		return nil
	}
	session := j.evt.Content.AsEncrypted().SessionID
	if a.joinQueue(storeBack, j) || !j.waited && a.joinQueue(session, j) {
		return nil
	}
	evt, err := a.crypto.decrypt(ctx, j.evt)
	switch {
	case err == nil:
		return evt
	case ctx.Err() != nil:
		return nil
	case storeFails(err):
		// Neither read nor answered without the store; it is once that is back.
		a.log.Error("message can't be decrypted before the store takes writes", "event", j.evt.ID, "room", j.evt.RoomID, "err", err)
		a.parkUntil(storeBack, j, func(ctx context.Context) { a.awaitStore(ctx) })
		return nil
	case a.isClear(ctx, j.evt.RoomID):
		// No client sends this in a clear room; somebody made it up.
		a.log.Warn("an encrypted message in a room that is not encrypted was left", "event", j.evt.ID, "room", j.evt.RoomID)
		a.inbox.release(j.batch)
		return nil
	case a.crypto.keyMissing(err) && !j.waited && !a.givenUp(ctx, session):
		a.park(session, j)
		return nil
	}
	a.log.Warn("message could not be decrypted", "event", j.evt.ID, "room", j.evt.RoomID, "err", err)
	// One hint serves all that waited for a key together, also where the sender's client
	// says between them why it keeps the key back.
	if !j.waited || !a.givenUp(ctx, session) {
		a.hint(ctx, j.evt, session, err)
	}
	if ctx.Err() == nil {
		a.inbox.release(j.batch)
	}
	return nil
}

// isClear reports whether a room is known not to be encrypted.
func (a *Adapter) isClear(ctx context.Context, room id.RoomID) bool {
	encrypted, err := a.encryptedNow(ctx, room)
	return err == nil && !encrypted
}

// joinQueue adds a job to those that wait for the same key, if there are any, so
// that they stay in order.
func (a *Adapter) joinQueue(session id.SessionID, j *job) bool {
	a.parkedLock.Lock()
	defer a.parkedLock.Unlock()
	waiting, ok := a.parked[session]
	if ok {
		a.parked[session] = append(waiting, j)
	}
	return ok
}

// storeBack is what messages wait for that the store keeps from being read. It
// is no session's id.
const storeBack id.SessionID = "the store"

// awaitStore waits until the store takes writes, and tells whether it does.
func (a *Adapter) awaitStore(ctx context.Context) bool {
	_, err := persist(ctx, func(ctx context.Context) (struct{}, error) {
		err := a.store.writable(ctx)
		if storeFails(err) {
			err = errWaits{err}
		}
		return struct{}{}, err
	})
	if err != nil && ctx.Err() == nil {
		a.log.Error("the store takes no writes", "err", err)
	}
	return err == nil
}

// park waits for a key, asking for it when it does not come.
func (a *Adapter) park(session id.SessionID, j *job) {
	a.parkUntil(session, j, func(ctx context.Context) {
		if !a.crypto.waitForKey(ctx, j.evt, a.keyWait) && ctx.Err() == nil {
			a.crypto.requestKey(ctx, j.evt)
			a.crypto.waitForKey(ctx, j.evt, a.keyWaitAsked)
		}
	})
}

// parkUntil waits beside the room's other events, and then hands all that waited
// for the same back to the inbox.
func (a *Adapter) parkUntil(what id.SessionID, j *job, wait func(context.Context)) {
	ctx := a.inbox.stream
	a.parkedLock.Lock()
	a.parked[what] = append(a.parked[what], j)
	a.parkedLock.Unlock()
	a.inbox.workers.Go(func() {
		wait(ctx)
		a.parkedLock.Lock()
		waiting := a.parked[what]
		delete(a.parked, what)
		a.parkedLock.Unlock()
		if ctx.Err() != nil {
			return
		}
		for _, w := range waiting {
			w.waited = w.waited || what != storeBack
			a.inbox.requeue(w)
		}
	})
}

func hintKey(session id.SessionID) string { return "hint " + digest(string(session)) }

// givenUp reports whether a key has been waited for in vain before.
func (a *Adapter) givenUp(ctx context.Context, session id.SessionID) bool {
	done, err := a.store.done(ctx, hintKey(session))
	return err == nil && done
}

// hint says why a message could not be read and what to do: once for each
// person and room where their client keeps the key back, and once a day where it
// is missing. Whether the message was meant for the bot nobody can tell, so more
// would be noise in a room's talk.
func (a *Adapter) hint(ctx context.Context, evt *event.Event, session id.SessionID, why error) {
	reason := a.crypto.withheld(why)
	about := reason
	if about == "" {
		const day = 24 * 60 * 60 * 1000 // ms
		about = strconv.FormatInt(evt.Timestamp/day, 10)
	}
	person := "hint " + digest(string(evt.RoomID), string(evt.Sender), about)
	told, err := a.store.done(ctx, person)
	if err == nil && !told {
		m := &message{}
		m.line("", unreadable(reason, a.crypto.fingerprint()))
		thread := evt.Content.AsEncrypted().RelatesTo.GetThreadParent()
		_, err = a.send(ctx, outgoing{
			room: evt.RoomID, part: partID(evt.ID, "hint"), after: evt.ID, again: true,
			build: ready(place(m.notice(), evt.ID, thread, evt.Sender)),
		})
	}
	if err == nil {
		err = errors.Join(a.store.markDone(ctx, person), a.store.markDone(ctx, hintKey(session)))
	}
	if err != nil && ctx.Err() == nil {
		a.log.Warn("hint not sent", "room", evt.RoomID, "err", err)
	}
}

// unreadable tells why a message could not be read, by the code that the
// sender's client gave, and what to do. The codes are those of the Matrix
// specification, m.room_key.withheld.
func unreadable(code, fingerprint string) string {
	const again = " If it was meant for me, please send it once more."
	const lead = "I can't read this message: "
	switch code {
	case "m.unverified":
		return lead + "your client gives its keys only to devices that you have verified, and mine is not among them. " +
			"Verify me, or allow unverified devices in this room's security settings, then ask again. " +
			"My device's fingerprint is " + fingerprint + "."
	case "m.blacklisted":
		return lead + "your client blocks my device. Unblock it in your client's security settings, then ask again."
	case "m.unauthorised":
		return lead + "your client does not let me have its key, as for a message from before I joined." + again
	case "m.unavailable":
		return lead + "your client no longer has its key." + again
	case "m.no_olm":
		return lead + "your client could not set up a secure channel to me." + again
	}
	return lead + "its key is missing." + again
}
