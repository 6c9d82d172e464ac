package daybook

import (
	"context"
	"errors"
	"time"
)

// Book is an open daybook. Its methods may be called from several goroutines.
type Book struct {
	clock func() time.Time
}

// Option sets something of a Book while opening.
type Option func(*Book)

// WithClock replaces the clock, for tests.
func WithClock(now func() time.Time) Option { return func(b *Book) { b.clock = now } }

var errNotYet = errors.New("not yet")

// Open opens the SQLite daybook at path, making or upgrading it as needed.
func Open(ctx context.Context, path string, opts ...Option) (*Book, error) { return nil, errNotYet }

// OpenPostgres opens the daybook in a PostgreSQL database.
func OpenPostgres(ctx context.Context, url string, opts ...Option) (*Book, error) {
	return nil, errNotYet
}

// Close closes the store.
func (b *Book) Close() error { return errNotYet }

// Record stores an entry durably.
func (b *Book) Record(ctx context.Context, e Entry) (stored Entry, existed bool, err error) {
	return Entry{}, false, errNotYet
}

// MarkDelivered marks an entry as sent.
func (b *Book) MarkDelivered(ctx context.Context, id int64, platformMessage string, at time.Time) error {
	return errNotYet
}

// MarkExpired marks an entry as too old to send.
func (b *Book) MarkExpired(ctx context.Context, id int64, at time.Time) error { return errNotYet }

// Undelivered gives what was recorded since and neither sent nor expired, oldest first.
func (b *Book) Undelivered(ctx context.Context, platform string, since time.Time) ([]Entry, error) {
	return nil, errNotYet
}

// ByID finds an entry by its id.
func (b *Book) ByID(ctx context.Context, id int64) (Entry, error) { return Entry{}, errNotYet }

// ByIDIn finds an entry by its id, in one room only.
func (b *Book) ByIDIn(ctx context.Context, room Room, id int64) (Entry, error) {
	return Entry{}, errNotYet
}

// ByKey finds an entry by its event.
func (b *Book) ByKey(ctx context.Context, k Key) (Entry, error) { return Entry{}, errNotYet }

// List gives a page of a room's entries, latest first.
func (b *Book) List(ctx context.Context, f Filter) ([]Entry, error) { return nil, errNotYet }

// Summary counts the entries that the filter chooses.
func (b *Book) Summary(ctx context.Context, f Filter) (Summary, error) {
	return Summary{}, errNotYet
}

// Amend keeps a correction beside an entry.
func (b *Book) Amend(ctx context.Context, entryID int64, by, text string, at time.Time) (Amendment, error) {
	return Amendment{}, errNotYet
}

// Amendments of an entry, oldest first.
func (b *Book) Amendments(ctx context.Context, entryID int64) ([]Amendment, error) {
	return nil, errNotYet
}

// PinRule pins a house rule.
func (b *Book) PinRule(ctx context.Context, s Scope, text, by string) (Rule, error) {
	return Rule{}, errNotYet
}

// Rules of a scope, oldest first.
func (b *Book) Rules(ctx context.Context, s Scope) ([]Rule, error) { return nil, errNotYet }

// UnpinRule removes a rule of the scope.
func (b *Book) UnpinRule(ctx context.Context, s Scope, id int64) error { return errNotYet }

// MakerData is all that is stored of a maker.
type MakerData struct {
	Entries     []Entry
	Amendments  []Amendment       // written by the maker
	Settings    map[string]string // the maker's own bench
	Corrections []Correction
	Rules       []Rule // pinned by the maker
}

// MakerData gives all that is stored of a maker.
func (b *Book) MakerData(ctx context.Context, platform, maker string) (MakerData, error) {
	return MakerData{}, errNotYet
}

// ForgetMaker removes what is stored of a maker; it returns the number of entries removed.
func (b *Book) ForgetMaker(ctx context.Context, platform, maker string) (int, error) {
	return 0, errNotYet
}

// SetRetention sets for how long a guild's entries are kept; 0 keeps them.
func (b *Book) SetRetention(ctx context.Context, platform, guild string, keep time.Duration, by string) error {
	return errNotYet
}

// Retention of a guild; 0 where entries are kept.
func (b *Book) Retention(ctx context.Context, platform, guild string) (time.Duration, error) {
	return 0, errNotYet
}

// Purge removes the entries that are past their guild's retention; it returns their number.
func (b *Book) Purge(ctx context.Context, now time.Time) (int, error) { return 0, errNotYet }

// Setting gives one bench setting; ErrNotFound where it is not set.
func (b *Book) Setting(ctx context.Context, s Scope, name string) (string, error) {
	return "", errNotYet
}

// SetSetting sets a bench setting.
func (b *Book) SetSetting(ctx context.Context, s Scope, name, value, by string) error {
	return errNotYet
}

// DropSetting removes a bench setting; ErrNotFound where it was not set.
func (b *Book) DropSetting(ctx context.Context, s Scope, name string) error { return errNotYet }

// Settings gives all bench settings of a scope, by name.
func (b *Book) Settings(ctx context.Context, s Scope) (map[string]string, error) {
	return nil, errNotYet
}

// KeepCorrection stores a correction in place of the maker's earlier one for the
// same alloy and thickness, and gives it back with its id.
func (b *Book) KeepCorrection(ctx context.Context, c Correction) (Correction, error) {
	return Correction{}, errNotYet
}

// Corrections of a maker, by alloy and thickness.
func (b *Book) Corrections(ctx context.Context, platform, maker string) ([]Correction, error) {
	return nil, errNotYet
}

// DropCorrection removes a maker's correction.
func (b *Book) DropCorrection(ctx context.Context, platform, maker string, id int64) error {
	return errNotYet
}

// ClaimUndelivered gives owner the oldest undelivered entries that nobody holds.
func (b *Book) ClaimUndelivered(ctx context.Context, platform, owner string, lease time.Duration, limit int) ([]Entry, error) {
	return nil, errNotYet
}

// Renew prolongs owner's lease of an entry; ErrLeaseLost where another took over.
func (b *Book) Renew(ctx context.Context, id int64, owner string, lease time.Duration) error {
	return errNotYet
}

// Release gives a lease of an entry back.
func (b *Book) Release(ctx context.Context, id int64, owner string) error { return errNotYet }

// ClaimEvent claims an event before it is answered. Where it is not mine, until
// is the end of the other's lease, or zero where the event has been recorded.
func (b *Book) ClaimEvent(ctx context.Context, k Key, owner string, lease time.Duration) (mine bool, until time.Time, err error) {
	return false, time.Time{}, errNotYet
}

// ReleaseEvent gives a claim of an event back.
func (b *Book) ReleaseEvent(ctx context.Context, k Key, owner string) error { return errNotYet }

// Backup writes a copy to a new file while the daybook is in use.
func (b *Book) Backup(ctx context.Context, path string) error { return errNotYet }

// Restore puts a back-up's content in place of the daybook's; kept is a copy of
// what was there before.
func (b *Book) Restore(ctx context.Context, path string) (kept string, err error) {
	return "", errNotYet
}

// Health is what Check found.
type Health struct {
	Store         string // "sqlite" or "postgres"
	SchemaVersion int64
	FreeBytes     int64 // of the disk; -1 where unknown
}

// Check tries the store: schema, a write, disk space.
func (b *Book) Check(ctx context.Context) (Health, error) { return Health{}, errNotYet }
