// Package bot takes a request in and gives an answer out: it parses with the
// catalogue, fills gaps from bench, dispatches, records in the daybook, and
// hands the reply to the adapter, which sends it and marks it delivered.
package bot

import (
	"encoding/json"
	"time"

	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
)

// Request is one question, as an adapter makes it from a platform event.
type Request struct {
	Who catalogue.Who
	// Message is the platform's id of the event; the same id in the same
	// channel is answered once. Empty means: not a platform event (ask), and
	// every request counts as new.
	Message string
	// At is the event's time; zero takes the service's clock.
	At time.Time
	// Text is the request as typed, without the platform's prefix or mention.
	// Where Command is set, Text is what the daybook shows as typed and may be
	// empty.
	Text string
	// Command and Options are the structured form (slash commands): the
	// catalogue's word and option texts by option name. Option texts are
	// parsed with the same rules as typed ones.
	Command string
	Options map[string]string
	// Route is kept with the entry for a later delivery; opaque.
	Route json.RawMessage
	// Progress reports long work; may be nil.
	Progress func(done, total int, note string)
}

// Reply is what an adapter sends. Exactly one of Answer and Refusal is set.
type Reply struct {
	// Entry is the daybook's id of the recorded answer; buttons carry it.
	Entry   int64
	Answer  *answer.Answer
	Refusal *answer.Refusal
	// Duplicate is set where the event had been answered before: the reply is
	// the recorded one. Delivered tells whether it had been sent then, or is
	// another process's to send; if so the adapter sends nothing.
	Duplicate, Delivered bool
	// Route is the route recorded with the entry (for Undelivered).
	Route json.RawMessage
	Who   catalogue.Who
	// Message is the event's id.
	Message string
}
