// Package bot turns a request into an answer: it parses with the
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
	// Where Command is set, Text is only what the daybook shows as typed.
	Text string
	// Addressed says how the message names the bot. What only may be meant for
	// it is answered where the words are of the trade.
	Addressed Addressing
	// ReplyTo is the platform's id of the bot's own message that this one replies
	// to; what it asks goes on from that answer. Empty for none.
	ReplyTo string
	// Command and Options are the structured form (slash commands): the
	// catalogue's word and option texts by option name. Option texts are
	// parsed with the same rules as typed ones.
	Command string
	Options map[string]string
	// Spoken is set for a message in a room, as against a command: a room's
	// teachers may want commands alone.
	Spoken bool
	// About is the entry that Text follows up, 0 for the maker's last.
	About int64
	// Quoted is set where Text is somebody else's words: they are read, and not
	// kept.
	Quoted bool
	// Author wrote Text where it is Quoted, empty where the adapter can't tell.
	Author string
	// Route is kept with the entry for a later delivery; opaque.
	Route json.RawMessage
	// Photo is a photograph that came with the message, as it was sent. It is
	// looked at once and not kept.
	Photo []byte `json:"-"`
	// PhotoLost is set where a photograph came along that could not be fetched.
	PhotoLost bool `json:"-"`
	// Queued is set where the adapter keeps a question that is over a limit, and
	// asks again after Reply.Wait.
	Queued bool
	// OnLong is called once if the request is long work, before it waits or
	// computes; Progress then says how far it is. Both may be nil.
	OnLong   func()                             `json:"-"`
	Progress func(done, total int, note string) `json:"-"`
}

// Reply is what an adapter sends. Exactly one of Answer and Refusal is set,
// unless the reply is Silent.
type Reply struct {
	// Entry is the daybook's id of the recorded answer; buttons carry it.
	Entry   int64
	Answer  *answer.Answer
	Refusal *answer.Refusal
	// Duplicate is set if the event was answered before: the reply is the
	// recorded one. Delivered says whether it was sent, or is somebody else's to
	// send; then the caller sends nothing.
	Duplicate, Delivered bool
	// Corrected is the latest correction that a teacher wrote beside the entry,
	// where it was read again with Recorded.
	Corrected string
	// Silent is set for chatter: nothing was recorded, and nothing is sent.
	Silent bool
	// Wait is set where the maker or the channel asks too much: how long until
	// the next request is let through. Nothing was recorded.
	Wait time.Duration
	// Long is set for long work, which may have shown its progress.
	Long bool
	// Once is set if the attachments can't be made again later.
	Once bool
	// Route, Who, Message and At are those of the request.
	Route   json.RawMessage
	Who     catalogue.Who
	Message string
	At      time.Time
}

// Files sorts the answer's attachments; empty for a refusal.
func (r Reply) Files() answer.FileSet {
	if r.Answer == nil {
		return answer.FileSet{}
	}
	return r.Answer.Files(r.Once)
}
