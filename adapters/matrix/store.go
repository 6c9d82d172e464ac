package matrix

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"database/sql"
	"encoding/base64"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"time"

	"go.mau.fi/util/dbutil"
	"maunium.net/go/mautrix/id"
	"modernc.org/sqlite" // the pure-Go driver, "sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// store is the adapter's own SQLite file: the session, the position in the
// event stream, which answers stand where, and, in tables of the library, room
// state and encryption keys.
type store struct {
	db *dbutil.Database
}

// schema of the adapter's own tables, version 1.
const schema = `
CREATE TABLE guildhand_account (
	one           INTEGER PRIMARY KEY CHECK (one = 1),
	user_id       TEXT NOT NULL DEFAULT '',
	device_id     TEXT NOT NULL DEFAULT '',
	token         TEXT NOT NULL DEFAULT '',
	next_batch    TEXT NOT NULL DEFAULT '',
	filter_id     TEXT NOT NULL DEFAULT '',
	pickle_key    BLOB NOT NULL,
	cross_signing BLOB
);
CREATE TABLE guildhand_room (
	room_id   TEXT PRIMARY KEY,
	encrypted INTEGER NOT NULL DEFAULT 0,
	direct    INTEGER NOT NULL DEFAULT 0,
	origin    TEXT NOT NULL DEFAULT ''
);
CREATE TABLE guildhand_answer (
	room_id  TEXT NOT NULL,
	question TEXT NOT NULL,
	answer   TEXT NOT NULL,
	image    TEXT NOT NULL DEFAULT '',
	thread   TEXT NOT NULL DEFAULT '',
	asker    TEXT NOT NULL,
	entry    INTEGER NOT NULL,
	at       INTEGER NOT NULL,
	PRIMARY KEY (room_id, question)
);
CREATE INDEX guildhand_answer_answer ON guildhand_answer (answer);
CREATE INDEX guildhand_answer_image ON guildhand_answer (image);
CREATE TABLE guildhand_done (
	what TEXT PRIMARY KEY,
	at   INTEGER NOT NULL
);
CREATE TABLE guildhand_attempt (
	event TEXT PRIMARY KEY,
	tries INTEGER NOT NULL
);
`

var upgrades = dbutil.BuildUpgradeTable().WithRaw(-1, 1, 1, "first version", dbutil.TxnModeOn,
	func(ctx context.Context, db *dbutil.Database) error {
		if _, err := db.Exec(ctx, schema); err != nil {
			return err
		}
		key := make([]byte, 32)
		if _, err := rand.Read(key); err != nil {
			return err
		}
		_, err := db.Exec(ctx, "INSERT INTO guildhand_account (one, pickle_key) VALUES (1, $1)", key)
		return err
	}).WithRaw(1, 2, 1, "rooms that know what is kept", dbutil.TxnModeOn, func(ctx context.Context, db *dbutil.Database) error {
	_, err := db.Exec(ctx, "ALTER TABLE guildhand_room ADD COLUMN introduced INTEGER NOT NULL DEFAULT 0")
	return err
}).Finish()

// makeFolder makes the folder of the store, for its owner only.
func makeFolder(path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return fmt.Errorf("matrix store: %w", err)
	}
	return nil
}

// openStore opens the file at path, making it readable for its owner only.
func openStore(ctx context.Context, path string) (*store, error) {
	if err := makeFolder(path); err != nil {
		return nil, err
	}
	// The file holds keys: make it before SQLite does, with narrow rights.
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, fmt.Errorf("matrix store: %w", err)
	}
	if err := f.Close(); err != nil {
		return nil, fmt.Errorf("matrix store: %w", err)
	}
	// busy_timeout comes first, so that the others wait for a lock too. It is long: a
	// machine that is busy enough was seen to hold a lock for more than ten seconds, and
	// nothing is gained by giving up.
	dsn := "file:" + (&url.URL{Path: path}).EscapedPath() +
		"?_pragma=busy_timeout(60000)&_pragma=foreign_keys(1)&_pragma=journal_mode(WAL)" +
		fmt.Sprintf("&_pragma=wal_autocheckpoint(%d)&_txlock=immediate", checkpointPages)
	db, err := dbutil.NewWithDialect(dsn, "sqlite")
	if err != nil {
		return nil, fmt.Errorf("matrix store: %w", err)
	}
	db.RawDB.SetMaxOpenConns(4)
	ours := db.Child("guildhand_version", upgrades, nil)
	err = ours.Upgrade(ctx)
	if err != nil && ctx.Err() == nil {
		// On a busy machine the making of the table of versions was seen to run
		// twice; a second try finds it there.
		err = ours.Upgrade(ctx)
	}
	if err != nil {
		_ = db.Close()
		return nil, fmt.Errorf("matrix store %s: %w", path, err)
	}
	return &store{db: db}, nil
}

// close closes the file.
func (s *store) close() error { return s.db.Close() }

// A full disk must not make the bot dumb where rooms are encrypted: reading and
// sending there write to the store, and a key's state that is not stored must
// not be used, or the key might be used twice. So the store keeps some room
// within itself: free pages in the file, and a write-ahead log that has its
// length already and is begun anew long before it reaches it.
const (
	reserveBytes    = 1 << 20
	reservePages    = reserveBytes / 4096 // SQLite's page
	checkpointPages = reservePages / 4
	// reserveEvery is how often it is seen to that there is still room.
	reserveEvery = 5 * time.Minute
)

// reserve makes room within the store where there is little, or in any case.
func (s *store) reserve(ctx context.Context, inAnyCase bool) error {
	var free int
	if err := s.db.QueryRow(ctx, "PRAGMA freelist_count").Scan(&free); err != nil {
		return err
	}
	if free >= reservePages/2 && !inAnyCase {
		return nil
	}
	for _, statement := range []string{
		"DROP TABLE IF EXISTS guildhand_reserve", // of a run that was cut short
		fmt.Sprintf("CREATE TABLE guildhand_reserve AS SELECT randomblob(%d)", reserveBytes),
		"DROP TABLE guildhand_reserve",
	} {
		if _, err := s.db.Exec(ctx, statement); err != nil {
			return err
		}
	}
	return nil
}

// writable tries whether the store takes a write: of a new value, since SQLite
// does not write what stands there already.
func (s *store) writable(ctx context.Context) error {
	_, err := s.db.Exec(ctx, "INSERT INTO guildhand_done (what, at) VALUES ('a try', $1) ON CONFLICT (what) DO UPDATE SET at = $1", time.Now().UnixNano())
	return err
}

// storeFails reports whether an error is one of a store that takes or gives
// nothing for now, as on a full disk.
func storeFails(err error) bool {
	var e *sqlite.Error
	if !errors.As(err, &e) {
		return false
	}
	const primary = 0xff
	switch e.Code() & primary {
	case sqlite3.SQLITE_FULL, sqlite3.SQLITE_READONLY, sqlite3.SQLITE_IOERR, sqlite3.SQLITE_CANTOPEN,
		sqlite3.SQLITE_PERM, sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		return true
	}
	return false
}

// account is the session that the store keeps.
type account struct {
	userID       id.UserID
	deviceID     id.DeviceID
	token        string
	pickleKey    []byte
	crossSigning []byte
}

func (s *store) account(ctx context.Context) (account, error) {
	var a account
	err := s.db.QueryRow(ctx, "SELECT user_id, device_id, token, pickle_key, cross_signing FROM guildhand_account").
		Scan(&a.userID, &a.deviceID, &a.token, &a.pickleKey, &a.crossSigning)
	return a, err
}

// keepSession stores who the bot is. A new user or device begins its event
// stream anew, since a position belongs to the session that it was given to.
func (s *store) keepSession(ctx context.Context, user id.UserID, device id.DeviceID, token string) error {
	_, err := s.db.Exec(ctx, `UPDATE guildhand_account SET
		next_batch = CASE WHEN user_id = $1 AND device_id = $2 THEN next_batch ELSE '' END,
		filter_id  = CASE WHEN user_id = $1 THEN filter_id ELSE '' END,
		user_id = $1, device_id = $2, token = $3`, user, device, token)
	return err
}

func (s *store) keepCrossSigning(ctx context.Context, seeds []byte) error {
	_, err := s.db.Exec(ctx, "UPDATE guildhand_account SET cross_signing = $1", seeds)
	return err
}

// The four methods of mautrix.SyncStore. SaveNextBatch does nothing: the
// library calls it before a batch is handled, and a crash in between would lose
// the batch. keepPosition is called by the inbox when all of it is done.

// LoadNextBatch gives the position after the last batch that was handled.
func (s *store) LoadNextBatch(ctx context.Context, _ id.UserID) (string, error) {
	var token string
	err := s.db.QueryRow(ctx, "SELECT next_batch FROM guildhand_account").Scan(&token)
	return token, err
}

// SaveNextBatch does nothing.
func (s *store) SaveNextBatch(context.Context, id.UserID, string) error { return nil }

// SaveFilterID keeps the id of the filter on the server.
func (s *store) SaveFilterID(ctx context.Context, _ id.UserID, filter string) error {
	_, err := s.db.Exec(ctx, "UPDATE guildhand_account SET filter_id = $1", filter)
	return err
}

// LoadFilterID gives the id of the filter on the server.
func (s *store) LoadFilterID(ctx context.Context, _ id.UserID) (string, error) {
	var filter string
	err := s.db.QueryRow(ctx, "SELECT filter_id FROM guildhand_account").Scan(&filter)
	return filter, err
}

func (s *store) keepPosition(ctx context.Context, token string) error {
	_, err := s.db.Exec(ctx, "UPDATE guildhand_account SET next_batch = $1", token)
	return err
}

// roomRecord is what the store keeps of a room beyond the room's own state.
type roomRecord struct {
	// encrypted stays true for ever: a room cannot turn encryption off, and a
	// later state event that seems to do so is not believed.
	encrypted bool
	// direct is true where the invitation said so.
	direct bool
	// origin is the first room of a line of upgrades, or empty.
	origin id.RoomID
	// introduced is true once the room was told what is kept.
	introduced bool
}

func (s *store) room(ctx context.Context, room id.RoomID) (roomRecord, error) {
	var r roomRecord
	err := s.db.QueryRow(ctx, "SELECT encrypted, direct, origin, introduced FROM guildhand_room WHERE room_id = $1", room).
		Scan(&r.encrypted, &r.direct, &r.origin, &r.introduced)
	if errors.Is(err, sql.ErrNoRows) {
		return roomRecord{}, nil
	}
	return r, err
}

func (s *store) markEncrypted(ctx context.Context, room id.RoomID) error {
	_, err := s.db.Exec(ctx, `INSERT INTO guildhand_room (room_id, encrypted) VALUES ($1, 1)
		ON CONFLICT (room_id) DO UPDATE SET encrypted = 1`, room)
	return err
}

func (s *store) markDirect(ctx context.Context, room id.RoomID) error {
	_, err := s.db.Exec(ctx, `INSERT INTO guildhand_room (room_id, direct) VALUES ($1, 1)
		ON CONFLICT (room_id) DO UPDATE SET direct = 1`, room)
	return err
}

func (s *store) markIntroduced(ctx context.Context, room id.RoomID) error {
	_, err := s.db.Exec(ctx, `INSERT INTO guildhand_room (room_id, introduced) VALUES ($1, 1)
		ON CONFLICT (room_id) DO UPDATE SET introduced = 1`, room)
	return err
}

func (s *store) markOrigin(ctx context.Context, room, origin id.RoomID, direct bool) error {
	_, err := s.db.Exec(ctx, `INSERT INTO guildhand_room (room_id, origin, direct) VALUES ($1, $2, $3)
		ON CONFLICT (room_id) DO UPDATE SET origin = $2, direct = $3`, room, origin, direct)
	return err
}

// sentAnswer is an answer that stands in a room.
type sentAnswer struct {
	answer, image    id.EventID
	room             id.RoomID
	question, thread id.EventID
	// asker is a digest: enough to tell whether an edit comes from the same
	// person, and nothing to forget when that person asks to be forgotten.
	asker string
	entry int64
}

func (s *store) keepAnswer(ctx context.Context, a sentAnswer) error {
	_, err := s.db.Exec(ctx, `INSERT INTO guildhand_answer (answer, image, room_id, question, thread, asker, entry, at)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $8)
		ON CONFLICT (room_id, question) DO UPDATE SET answer = $1, image = $2, thread = $5, entry = $7, at = $8`,
		a.answer, a.image, a.room, a.question, a.thread, a.asker, a.entry, time.Now().Unix())
	return err
}

const selectAnswer = "SELECT answer, image, room_id, question, thread, asker, entry FROM guildhand_answer WHERE "

func (s *store) findAnswer(ctx context.Context, where string, args ...any) (sentAnswer, bool, error) {
	var a sentAnswer
	err := s.db.QueryRow(ctx, selectAnswer+where, args...).
		Scan(&a.answer, &a.image, &a.room, &a.question, &a.thread, &a.asker, &a.entry)
	if errors.Is(err, sql.ErrNoRows) {
		return a, false, nil
	}
	return a, err == nil, err
}

// answerTo finds the answer to a question.
func (s *store) answerTo(ctx context.Context, room id.RoomID, question id.EventID) (sentAnswer, bool, error) {
	return s.findAnswer(ctx, "room_id = $1 AND question = $2", room, question)
}

// answerAt finds the answer whose text or picture is the event. Of several that
// share the event it gives the latest of the person who speaks of it, or the first.
func (s *store) answerAt(ctx context.Context, room id.RoomID, event id.EventID, speaker id.UserID) (sentAnswer, bool, error) {
	who := digest(string(speaker))
	return s.findAnswer(ctx, `room_id = $1 AND (answer = $2 OR (image = $2 AND image <> ''))
		ORDER BY asker = $3 DESC, CASE WHEN asker = $3 THEN -entry ELSE entry END LIMIT 1`, room, event, who)
}

// answersIn gives the answers that share an event, in their order.
func (s *store) answersIn(ctx context.Context, room id.RoomID, event id.EventID) ([]sentAnswer, error) {
	rows, err := s.db.Query(ctx, selectAnswer+"room_id = $1 AND answer = $2 ORDER BY entry", room, event)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var all []sentAnswer
	for rows.Next() {
		var a sentAnswer
		if err := rows.Scan(&a.answer, &a.image, &a.room, &a.question, &a.thread, &a.asker, &a.entry); err != nil {
			return nil, err
		}
		all = append(all, a)
	}
	return all, rows.Err()
}

// done reports whether something that is to be done once has been done.
func (s *store) done(ctx context.Context, what string) (bool, error) {
	var n int
	err := s.db.QueryRow(ctx, "SELECT COUNT(*) FROM guildhand_done WHERE what = $1", what).Scan(&n)
	return n > 0, err
}

func (s *store) markDone(ctx context.Context, what string) error {
	_, err := s.db.Exec(ctx, "INSERT INTO guildhand_done (what, at) VALUES ($1, $2) ON CONFLICT DO NOTHING", what, time.Now().Unix())
	return err
}

// attempt counts that an event's handling begins, and gives the count. A
// process that dies of an event finds here that it has done so before.
func (s *store) attempt(ctx context.Context, event id.EventID) (int, error) {
	var n int
	err := s.db.QueryRow(ctx, `INSERT INTO guildhand_attempt (event, tries) VALUES ($1, 1)
		ON CONFLICT (event) DO UPDATE SET tries = tries + 1 RETURNING tries`, event).Scan(&n)
	return n, err
}

func (s *store) endAttempt(ctx context.Context, event id.EventID) error {
	_, err := s.db.Exec(ctx, "DELETE FROM guildhand_attempt WHERE event = $1", event)
	return err
}

// prune removes what no reaction or edit will ask for any more.
func (s *store) prune(ctx context.Context, before time.Time) error {
	for _, table := range []string{"guildhand_answer", "guildhand_done"} {
		if _, err := s.db.Exec(ctx, "DELETE FROM "+table+" WHERE at < $1", before.Unix()); err != nil {
			return err
		}
	}
	return nil
}

// digest is a short one-way name of what must not be kept as it is, or must fit
// where the original does not.
func digest(parts ...string) string {
	h := sha256.New()
	for _, p := range parts {
		fmt.Fprintf(h, "%d:%s", len(p), p)
	}
	return base64.RawURLEncoding.EncodeToString(h.Sum(nil)[:18])
}
