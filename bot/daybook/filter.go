package daybook

import "time"

// Room is where entries belong: one channel of one guild of one platform.
// Every query of the log names one, so that what one guild asked never
// reaches another. Guild is empty for direct messages, and only those match
// an empty Guild.
type Room struct {
	Platform, Guild, Channel string
}

// Filter chooses entries of one room. Platform and Channel are required;
// Guild is always matched exactly. Other zero fields choose everything.
type Filter struct {
	Platform, Guild, Channel string

	Maker   string
	Request string // the catalogue's word
	Outline string
	Status  Status
	// Text is searched for in the typed line, the canonical line and the
	// headline: every whole word of it has to be there, in any order and case.
	Text string
	// From and To bound the entry's time: From <= At < To.
	From, To time.Time
	// Before gives entries with a smaller id, for the next page; 0 the latest.
	Before int64
	// Limit is the page's length, 20 where it is 0, at most MaxPage.
	Limit int
}

// MaxPage is the longest page that List gives.
const MaxPage = 10_000

// Room is the room that the filter is bound to.
func (f Filter) Room() Room { return Room{f.Platform, f.Guild, f.Channel} }

// Count is how often a name came up.
type Count struct {
	Name string
	N    int
}

// Summary counts what was asked in a room, each list by falling count.
type Summary struct {
	Total    int
	Requests []Count // by the catalogue's word, "" if it could not be parsed
	Outlines []Count // entries that name an outline
	Statuses []Count
	Problems []Count // refusals, by their sentence; the 50 most frequent
}

// Amendment is a teacher's correction, kept beside the answer.
type Amendment struct {
	ID, EntryID int64
	At          time.Time
	By          string
	Text        string
}

// Rule is a house rule pinned to a channel or guild; later answers state it.
type Rule struct {
	ID    int64
	Scope Scope
	Text  string
	By    string
	At    time.Time
}
