package discord

import (
	"sync"
	"time"
)

// events remembers which events this process has in hand or has answered, so
// that one that comes twice is answered once, and so that the search for
// undelivered answers leaves alone what is just being delivered.
type events struct {
	mu     sync.Mutex
	list   map[string]event
	pruned time.Time
}

type event struct {
	at time.Time
	// open is set while the event is being answered, delivered after that;
	// answer is then the id of the message.
	open, delivered bool
	answer          string
}

// remembered is how long an event is known: a little longer than its token
// lives.
const remembered = tokenLife + 5*time.Minute

// begin takes the event in hand; false means that it was taken before.
func (e *events) begin(id string) bool {
	e.mu.Lock()
	defer e.mu.Unlock()
	now := time.Now()
	if e.list == nil {
		e.list = map[string]event{}
	}
	if now.Sub(e.pruned) > time.Minute {
		e.pruned = now
		for known, ev := range e.list {
			if !ev.open && now.Sub(ev.at) > remembered {
				delete(e.list, known)
			}
		}
	}
	if _, known := e.list[id]; known {
		return false
	}
	e.list[id] = event{at: now, open: true}
	return true
}

// answered keeps the id of the message that answered the event.
func (e *events) answered(id, answer string) {
	e.mu.Lock()
	defer e.mu.Unlock()
	ev := e.list[id]
	ev.answer = answer
	e.list[id] = ev
}

// end lets go of the event.
func (e *events) end(id string, delivered bool) {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.list[id] = event{at: time.Now(), delivered: delivered, answer: e.list[id].answer}
}

// get gives what is known of the event; the zero event where nothing is.
func (e *events) get(id string) event {
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.list[id]
}
