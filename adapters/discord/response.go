package discord

import (
	"context"
	"errors"
	"sync"
	"time"
)

// response is one interaction from its event to its one answer. The first
// answer must come within three seconds; what takes longer is announced by a
// deferral and edited in. Discord fixes who sees it with the deferral. What was
// not asked for in private is announced to all; should it turn out to be for the
// asker alone, the announcement is taken away and the answer follows in private.
type response struct {
	api   *api
	id    string
	token string
	began time.Time
	// window is how long after began Discord takes a first answer.
	window time.Duration

	mu    sync.Mutex
	state responseState
	// before is called before a deferral: it accepts the request.
	before func()
	// public is set where the answer is expected to be for all; hidden is set where
	// the deferral was for the asker alone.
	public, hidden bool
	timer          *time.Timer
	// noted is what was last said of the work's progress.
	noted string
}

type responseState int

const (
	fresh    responseState = iota // nothing was answered yet
	deferred                      // announced, to be edited
	unsure                        // an answer was sent and may have arrived
	closed                        // answered, or no longer possible
)

// errTooLate is returned where the interaction takes no answer any more.
var errTooLate = errors.New("discord: the interaction no longer takes an answer")

func newResponse(api *api, i *interaction, window time.Duration) *response {
	return &response{api: api, window: window, id: i.ID, token: i.Token, began: time.Now()}
}

// onDeferral sets who is to see a deferral and what is done before it.
func (x *response) onDeferral(public bool, accept func()) {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.public, x.before = public, accept
}

// deferNow announces that the answer comes later.
func (x *response) deferNow(ctx context.Context) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.state != fresh {
		return
	}
	if x.before != nil {
		x.before()
	}
	flags := flagEphemeral
	if x.public {
		flags = 0
	}
	x.hidden = !x.public
	_, err := x.api.respond(ctx, x.id, x.token, callback{Type: replyDeferred, Data: map[string]int{"flags": flags}})
	x.acknowledged(err, deferred)
}

// deferLater announces after d, unless the answer was faster.
func (x *response) deferLater(ctx context.Context, d time.Duration) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.state == fresh && x.timer == nil {
		x.timer = time.AfterFunc(d, func() { x.deferNow(ctx) })
	}
}

// acknowledged moves on after an attempt at the first answer.
func (x *response) acknowledged(err error, next responseState) {
	_, code := status(err)
	switch {
	case err == nil:
		x.state = next
	case code == codeAcknowledged:
		x.state = unsure
	case gone(err), code == codeUnknownInteraction:
		x.state = closed
	case refused(err):
		// Declined as it was, and still open to another.
	default:
		x.state = unsure
	}
}

// recorded tells that the request needs no accepting any more: it is in the
// daybook, with an answer for all where public is set. done runs while no
// deferral is under way.
func (x *response) recorded(public bool, done func()) {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.before = nil
	x.public = public
	done()
}

// stop ends a pending deferral.
func (x *response) stop() {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.stopTimer()
}

func (x *response) stopTimer() {
	if x.timer != nil {
		x.timer.Stop()
	}
}

// note tells on a deferred answer how far the work is, and lets it be stopped.
func (x *response) note(ctx context.Context, text string) error {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.state != deferred || text == x.noted {
		return nil
	}
	x.noted = text
	_, err := x.api.edit(ctx, x.token, &message{
		Content: clip(plain(text), maxContent), Mentions: noMentions,
		Components: []component{row(button("Stop", customID(actStop, x.id)))},
	})
	return err
}

// send gives the one answer and returns its message id: m, or hidden where the
// answer had been deferred for the asker alone. is recognises it if
// an earlier attempt may have arrived. After an error the answer may be
// redelivered; errTooLate says that the interaction is over.
func (x *response) send(ctx context.Context, m, hidden *message, is func(sent) bool) (string, error) {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.stopTimer()
	var lastErr error
	for try := range 3 {
		if try > 0 {
			if err := sleep(ctx, time.Duration(try)*150*time.Millisecond); err != nil {
				return "", err
			}
		}
		id, done, err := x.attempt(ctx, m, hidden, is)
		if done {
			return id, err
		}
		lastErr = err
	}
	return "", lastErr
}

// attempt makes one step towards the answer; done tells that it was the last.
func (x *response) attempt(ctx context.Context, m, hidden *message, is func(sent) bool) (id string, done bool, err error) {
	switch x.state {
	case fresh:
		if time.Since(x.began) > x.window {
			x.state = closed
			return "", true, errTooLate
		}
		id, err = x.api.respond(ctx, x.id, x.token, callback{Type: replyMessage, Data: m})
		x.acknowledged(err, closed)
		if err == nil {
			return id, true, nil
		}
		return "", x.state == closed || refused(err) && x.state == fresh, err
	case unsure:
		// Perhaps it arrived: look before sending again.
		there, err := x.api.original(ctx, x.token)
		switch {
		case err == nil && is(there):
			x.state = closed
			return there.ID, true, nil
		case err == nil:
			x.state, x.hidden = deferred, there.Flags&flagEphemeral != 0
			return "", false, errTooLate
		case gone(err):
			x.state = fresh
			if time.Since(x.began) > x.window {
				x.state = closed
				return "", true, errTooLate
			}
		}
		return "", false, err
	case deferred:
		if x.hidden {
			m = hidden
		}
		id, err = x.api.finish(ctx, x.token, m, x.hidden)
		if err == nil || gone(err) {
			x.state = closed
		}
		return id, err == nil || refused(err), err
	}
	return "", true, errTooLate
}

// direct gives a first answer that is no new message: a form, or a change of
// the message that was pressed.
func (x *response) direct(ctx context.Context, r callback) error {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.stopTimer()
	if x.state != fresh {
		return errTooLate
	}
	_, err := x.api.respond(ctx, x.id, x.token, r)
	x.acknowledged(err, closed)
	return err
}
