package daybook

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"time"
)

// entryColumns are read by scanEntry, in its order.
const entryColumns = `e.id, e.at, e.platform, e.guild, e.channel, e.message, e.maker, e.typed, e.request, e.line,
	e.args, e.outline, e.status, e.headline, e.figures, e.answer, e.problem, e.try, e.version,
	e.delivered_at, e.delivered, e.route`

func scanEntry(row interface{ Scan(...any) error }) (Entry, error) {
	var (
		e                            Entry
		at                           int64
		deliveredAt                  sql.NullInt64
		args, figures, answer, route string
	)
	err := row.Scan(&e.ID, &at, &e.Key.Platform, &e.Guild, &e.Key.Channel, &e.Key.Message, &e.Maker, &e.Typed, &e.Request, &e.Line,
		&args, &e.Outline, &e.Status, &e.Headline, &figures, &answer, &e.Problem, &e.Try, &e.Version,
		&deliveredAt, &e.Delivered, &route)
	if err != nil {
		return Entry{}, err
	}
	e.At = fromMicros(at)
	if deliveredAt.Valid {
		e.DeliveredAt = fromMicros(deliveredAt.Int64)
	}
	e.Args, e.Figures, e.Answer, e.Route = rawJSON(args), rawJSON(figures), rawJSON(answer), rawJSON(route)
	return e, nil
}

func rawJSON(s string) json.RawMessage {
	if s == "" {
		return nil
	}
	return json.RawMessage(s)
}

func scanEntries(rows *sql.Rows, err error) ([]Entry, error) {
	return scanAll(rows, err, func(r *sql.Rows) (Entry, error) { return scanEntry(r) })
}

// scanAll reads rows to their end and closes them.
func scanAll[T any](rows *sql.Rows, err error, scan func(*sql.Rows) (T, error)) ([]T, error) {
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var all []T
	for rows.Next() {
		v, err := scan(rows)
		if err != nil {
			return nil, err
		}
		all = append(all, v)
	}
	return all, rows.Err()
}

// oneEntry finds one entry; ErrNotFound if there is none.
func oneEntry(ctx context.Context, db queryer, where string, args ...any) (Entry, error) {
	e, err := scanEntry(db.QueryRowContext(ctx, `SELECT `+entryColumns+` FROM entries e WHERE `+where, args...))
	if errors.Is(err, sql.ErrNoRows) {
		err = ErrNotFound
	}
	return e, err
}

// Record stores an entry and returns it with its id; once it returns, neither
// a killed process nor a power cut loses it. Where an entry with the same Key
// is there already, that one is returned, existed is true and nothing is
// written. Entries with an empty Key.Message are always new.
//
// Times are kept in UTC, to the microsecond.
//
// ID is ignored; a zero At takes the clock's time. The process that records
// an entry holds its delivery for the Book's hold; see Claim.
func (b *Book) Record(ctx context.Context, e Entry) (stored Entry, existed bool, err error) {
	if err := tidy(&e); err != nil {
		return Entry{}, false, err
	}
	err = b.inTx(ctx, func(tx *sql.Tx, now int64) error {
		var err error
		stored, existed, err = b.insert(ctx, tx, now, e)
		return err
	})
	if err != nil {
		return Entry{}, false, err
	}
	return stored, existed, nil
}

// insert is Record within a transaction; e is tidy. The store's schema sees to
// the search index.
func (b *Book) insert(ctx context.Context, tx *sql.Tx, now int64, e Entry) (stored Entry, existed bool, err error) {
	at := now
	if !e.At.IsZero() {
		at = micros(e.At)
	}
	var heldBy string
	var heldUntil int64
	if b.hold > 0 {
		heldBy, heldUntil = b.owner, leaseEnd(now, b.hold)
	}
	room, err := makeRoom(ctx, tx, e.room())
	if err != nil {
		return Entry{}, false, err
	}
	stored = e
	stored.At = fromMicros(at)
	err = tx.QueryRowContext(ctx, `INSERT INTO entries (room, at, delivered_at, delivered, held_by, held_until,
			platform, guild, channel, message, maker, typed, request, line, args, outline, status,
			headline, figures, answer, problem, try, version, route, words)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20, $21, $22, $23, $24, $25)
		ON CONFLICT (platform, channel, message) WHERE message <> '' DO NOTHING
		RETURNING id`,
		room, at, nullTime(e.DeliveredAt), e.Delivered, heldBy, heldUntil,
		e.Key.Platform, e.Guild, e.Key.Channel, e.Key.Message, e.Maker, e.Typed, e.Request, e.Line, string(e.Args), e.Outline, string(e.Status),
		e.Headline, string(e.Figures), string(e.Answer), e.Problem, e.Try, e.Version, string(e.Route), strings.Join(indexWords(&e), wordSeparator),
	).Scan(&stored.ID)
	if errors.Is(err, sql.ErrNoRows) {
		stored, err = oneEntry(ctx, tx, whereKey, e.Key.Platform, e.Key.Channel, e.Key.Message)
		return stored, err == nil, err
	}
	if err != nil {
		return Entry{}, false, err
	}
	if e.Author != "" && e.Author != e.Maker {
		if _, err := tx.ExecContext(ctx, `INSERT INTO quoted (entry, platform, author) VALUES ($1, $2, $3)`, stored.ID, e.Key.Platform, e.Author); err != nil {
			return Entry{}, false, err
		}
	}
	return stored, false, dropClaim(ctx, tx, e.Key)
}

// makeRoom returns the id of a room, which is made where it is new.
func makeRoom(ctx context.Context, tx *sql.Tx, r Room) (int64, error) {
	id, err := findRoom(ctx, tx, r)
	if !errors.Is(err, ErrNotFound) {
		return id, err
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO rooms (platform, guild, channel) VALUES ($1, $2, $3) ON CONFLICT DO NOTHING`,
		r.Platform, r.Guild, r.Channel)
	if err != nil {
		return 0, err
	}
	return findRoom(ctx, tx, r)
}

// findRoom returns the id of a room, or ErrNotFound if nothing was recorded
// in it.
func findRoom(ctx context.Context, db queryer, r Room) (id int64, err error) {
	err = db.QueryRowContext(ctx, `SELECT id FROM rooms WHERE platform = $1 AND guild = $2 AND channel = $3`,
		r.Platform, r.Guild, r.Channel).Scan(&id)
	if errors.Is(err, sql.ErrNoRows) {
		err = ErrNotFound
	}
	return id, err
}

// queryer is a store or a transaction of it.
type queryer interface {
	QueryRowContext(context.Context, string, ...any) *sql.Row
}

const whereKey = `e.platform = $1 AND e.channel = $2 AND e.message = $3 AND e.message <> ''`

func (e *Entry) room() Room { return Room{e.Key.Platform, e.Guild, e.Key.Channel} }

// tidy makes an entry storable and finds its outline.
func tidy(e *Entry) error {
	for name, raw := range map[string]*json.RawMessage{"Args": &e.Args, "Figures": &e.Figures, "Answer": &e.Answer, "Route": &e.Route} {
		if len(*raw) > 0 && !json.Valid(*raw) {
			return fmt.Errorf("daybook: an entry's %s is not JSON", name)
		}
		*raw = rawJSON(clean(string(*raw)))
	}
	switch e.Status {
	case Answered, Refused, Failed:
	default:
		return fmt.Errorf("daybook: an entry can't have the status %q", e.Status)
	}
	if e.Key.Platform == "" || e.Key.Channel == "" {
		return errors.New("daybook: an entry needs its platform and channel")
	}
	if e.Outline == "" {
		e.Outline = outlineIn(e.Args)
	}
	for _, s := range []*string{&e.Key.Platform, &e.Key.Channel, &e.Key.Message, &e.Guild, &e.Maker, &e.Author, &e.Typed, &e.Request, &e.Line,
		&e.Outline, &e.Headline, &e.Problem, &e.Try, &e.Version, &e.Delivered} {
		*s = clean(*s)
	}
	return nil
}

func nullTime(t time.Time) sql.NullInt64 {
	if t.IsZero() {
		return sql.NullInt64{}
	}
	return sql.NullInt64{Int64: micros(t), Valid: true}
}

// MarkDelivered marks an entry as sent, with the platform's id of the answer.
// Marking twice keeps the first.
func (b *Book) MarkDelivered(ctx context.Context, id int64, platformMessage string, at time.Time) error {
	return b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		return requireRow(tx.ExecContext(ctx, `UPDATE entries SET
				delivered = CASE WHEN delivered_at IS NULL THEN $2 ELSE delivered END,
				delivered_at = COALESCE(delivered_at, $3), held_by = '', held_until = 0
			WHERE id = $1`, id, clean(platformMessage), micros(at)))
	})
}

// MarkExpired marks an entry as too old to send; Undelivered and
// ClaimUndelivered leave it out from then on.
func (b *Book) MarkExpired(ctx context.Context, id int64, at time.Time) error {
	return b.inTx(ctx, func(tx *sql.Tx, _ int64) error {
		return requireRow(tx.ExecContext(ctx, `UPDATE entries SET expired_at = COALESCE(expired_at, $2), held_by = '', held_until = 0
			WHERE id = $1`, id, micros(at)))
	})
}

// Undelivered returns what was recorded since and was neither sent nor expired,
// oldest first. It asks nobody whether the answer is being sent right now:
// where several processes share the store, use ClaimUndelivered.
func (b *Book) Undelivered(ctx context.Context, platform string, since time.Time) ([]Entry, error) {
	all, err := scanEntries(b.read.QueryContext(ctx, `SELECT `+entryColumns+` FROM entries e
		WHERE e.platform = $1 AND e.delivered_at IS NULL AND e.expired_at IS NULL AND e.at >= $2
		ORDER BY e.id`, platform, micros(since)))
	return all, b.explain(err)
}

// ByID finds an entry by its id, whatever its room: for sending and for what
// has checked the room already. What a person names goes through ByIDIn.
func (b *Book) ByID(ctx context.Context, id int64) (Entry, error) {
	e, err := oneEntry(ctx, b.read, `e.id = $1`, id)
	return e, b.explain(err)
}

// ByIDIn finds an entry by its id in one room; an entry of another room is
// ErrNotFound.
func (b *Book) ByIDIn(ctx context.Context, room Room, id int64) (Entry, error) {
	e, err := oneEntry(ctx, b.read, `e.id = $1 AND e.platform = $2 AND e.guild = $3 AND e.channel = $4`,
		id, room.Platform, room.Guild, room.Channel)
	return e, b.explain(err)
}

// ByKey finds the entry of an event.
func (b *Book) ByKey(ctx context.Context, k Key) (Entry, error) {
	// Most lookups miss, so ask for the id only.
	var id int64
	err := b.read.QueryRowContext(ctx, `SELECT e.id FROM entries e WHERE `+whereKey, k.Platform, k.Channel, k.Message).Scan(&id)
	if errors.Is(err, sql.ErrNoRows) {
		return Entry{}, ErrNotFound
	}
	if err != nil {
		return Entry{}, b.explain(err)
	}
	return b.ByID(ctx, id)
}

// AnswerByID returns only the answer of an entry, as ByID does.
func (b *Book) AnswerByID(ctx context.Context, id int64) (json.RawMessage, error) {
	var text string
	err := b.read.QueryRowContext(ctx, `SELECT e.answer FROM entries e WHERE e.id = $1`, id).Scan(&text)
	if errors.Is(err, sql.ErrNoRows) {
		err = ErrNotFound
	}
	return rawJSON(text), b.explain(err)
}
