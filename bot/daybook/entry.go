// Package daybook is the log of what was asked and answered: every answer and
// refusal is recorded before it is sent, the same message id is answered once,
// and what was recorded but not delivered can be found again. It also keeps
// what makers set for themselves (bench defaults and tune corrections) and what
// teachers add: amendments, house rules, retention.
//
// Open keeps it in a SQLite file, OpenPostgres on a server that several
// processes share; the tests hold both to the same contract.
package daybook

import (
	"encoding/json"
	"time"
)

// Status of an entry.
type Status string

// Statuses of an entry.
const (
	Answered Status = "answered"
	Refused  Status = "refused"
	// Failed is a bug; recorded so that it is not tried for ever.
	Failed Status = "failed"
)

// Key identifies a platform event: the same key is answered once.
type Key struct {
	Platform, Channel, Message string
}

// Entry is one recorded answer or refusal.
type Entry struct {
	ID    int64
	At    time.Time
	Key   Key
	Guild string
	Maker string
	// Author is whose words were read, where they were not the maker's: a menu on
	// another's message. Written only; when the author is forgotten, the entry goes.
	Author  string
	Typed   string // as typed
	Request string // the catalogue's word, empty if it could not be parsed
	Line    string // the canonical request
	Args    json.RawMessage
	// Outline is the stone outline's word, for finding; where it is empty,
	// Record takes it from "outline" in Args.
	Outline  string
	Status   Status
	Headline string
	Figures  json.RawMessage // [{id,label,value,unit}]
	// Answer is the whole answer without attachment bytes, as JSON, so that it
	// can be sent again exactly as recorded.
	Answer  json.RawMessage
	Problem string
	Try     string
	Version string // of the program
	// DeliveredAt is zero until the adapter has sent the answer; Delivered is
	// the platform's id of the answer.
	DeliveredAt time.Time
	Delivered   string
	// Route is what the adapter needs to deliver later (thread, interaction
	// token and its expiry), opaque to the daybook.
	Route json.RawMessage
}
