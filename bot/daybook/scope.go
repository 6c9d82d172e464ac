package daybook

import (
	"encoding/json"
	"time"
)

// ScopeKind says what a setting or rule belongs to.
type ScopeKind string

// Kinds of scopes.
const (
	MakerScope   ScopeKind = "maker"
	ChannelScope ScopeKind = "channel"
	GuildScope   ScopeKind = "guild"
)

// Scope is a maker, a channel or a guild of a platform, by the platform's id.
type Scope struct {
	Kind     ScopeKind
	Platform string
	ID       string
}

// Correction is what a measured trial piece taught about one maker's bench,
// for one alloy and thickness.
type Correction struct {
	ID              int64
	Platform, Maker string
	Alloy           string
	ThicknessMM     float64
	// NeutralFactor is the share of the wall, from the inside, where length is
	// kept.
	NeutralFactor float64
	KerfMM        float64
	// Trials are the measurements it was solved from.
	Trials json.RawMessage
	At     time.Time
}
