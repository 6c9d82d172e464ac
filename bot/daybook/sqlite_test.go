package daybook

import (
	"bytes"
	"context"
	"database/sql"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/pressly/goose/v3"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/calc/testcount"
)

// recordForEver is the part of a process that is killed: eight rooms record at
// once, and every id is printed when Record has returned.
func recordForEver(ctx context.Context, args []string) error {
	b, err := Open(ctx, args[0])
	if err != nil {
		return err
	}
	var print sync.Mutex
	failed := make(chan error)
	for room := range 8 {
		go func() {
			for i := 0; ; i++ {
				e := sample(fmt.Sprintf("%d-%d-%d", os.Getpid(), room, i))
				e.Typed = strings.Repeat("collet oval 8x6 ", 1+i%200)
				stored, _, err := b.Record(ctx, e)
				if err != nil {
					failed <- err
					return
				}
				print.Lock()
				fmt.Println(stored.ID, stored.Key.Message)
				print.Unlock()
			}
		}()
	}
	return <-failed
}

func TestNothingAcknowledgedIsLostByKilling(t *testing.T) {
	rounds := testcount.InLong(2, 8)
	path := filepath.Join(t.TempDir(), "book.db")
	const seed = 20310304
	random := rand.New(rand.NewPCG(seed, 0))
	printed := map[int64]string{}
	for round := range rounds {
		child := startChild(t, "record", path)
		var once sync.Once
		for line := range child.Lines {
			// From the first id on, somewhere in a burst of commits.
			once.Do(func() {
				time.AfterFunc(time.Duration(random.IntN(150_000))*time.Microsecond, func() { _ = child.Cmd.Process.Kill() })
			})
			number, message, ok := strings.Cut(line, " ")
			id, err := strconv.ParseInt(number, 10, 64)
			if !ok || err != nil {
				continue // cut off by the kill
			}
			if earlier, seen := printed[id]; seen {
				t.Fatalf("id %d was given to %s and %s", id, earlier, message)
			}
			printed[id] = message
		}
		require.Equal(t, -1, child.Cmd.ProcessState.ExitCode(), "round %d: the process ended by itself: %v", round, child.Cmd.ProcessState)
	}
	require.GreaterOrEqual(t, len(printed), rounds*5, "only %d ids were printed in %d rounds, too few to tell anything", len(printed), rounds)
	b := mustOpen(t, path)
	for id, message := range printed {
		e, err := b.ByID(t.Context(), id)
		require.NoError(t, err, "entry %d (%s) was acknowledged", id, message)
		// The last line may be cut short.
		require.True(t, strings.HasPrefix(e.Key.Message, message), "entry %d is %s, printed was %s", id, e.Key.Message, message)
	}
	var found string
	require.NoError(t, b.read.QueryRowContext(t.Context(), `PRAGMA integrity_check`).Scan(&found))
	assert.Equal(t, "ok", found, "integrity")
	t.Logf("%d entries acknowledged in %d processes that were killed", len(printed), rounds)
}

func TestConnectionsAreSetUp(t *testing.T) {
	b := mustOpen(t, filepath.Join(t.TempDir(), "book.db"))
	const full, on = "2", "1"
	for _, c := range []struct {
		db           *sql.DB
		pragma, want string
	}{
		{b.write, "journal_mode", "wal"}, {b.read, "journal_mode", "wal"},
		{b.write, "synchronous", full}, {b.write, "foreign_keys", on}, {b.write, "busy_timeout", busyMS},
		{b.read, "busy_timeout", busyMS}, {b.read, "query_only", on}, {b.write, "secure_delete", on},
	} {
		var got string
		require.NoError(t, c.db.QueryRowContext(t.Context(), `PRAGMA `+c.pragma).Scan(&got))
		assert.Equal(t, c.want, got, c.pragma)
	}
}

func TestFilesArePrivate(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	mustRecord(t, mustOpen(t, path), sample("1"))
	for _, suffix := range []string{"", "-wal", "-shm"} {
		private(t, path+suffix)
	}
}

func private(t *testing.T, path string) {
	t.Helper()
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm(), path)
}

// oldBook makes a daybook as the first schema had it, with one entry.
func oldBook(t *testing.T) (path string, entry int64) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "old.db")
	db, err := openSQLite(sqliteDSN(path, false), 1)
	require.NoError(t, err)
	defer db.Close()
	p, err := newProvider(db, goose.DialectSQLite3, "sqlite")
	require.NoError(t, err)
	_, err = p.UpTo(t.Context(), 1)
	require.NoError(t, err)
	for _, statement := range []string{
		`INSERT INTO rooms (id, platform, guild, channel) VALUES (5, 'discord', 'g1', 'c1')`,
		`INSERT INTO entries (id, room, at, platform, guild, channel, message, maker, request, outline, status, version, typed, line,
			headline, problem, try, words, args, route, figures, answer)
		VALUES (41, 5, 1900000000000000, 'discord', 'g1', 'c1', 'm41', 'm1', 'collet', 'oval', 'answered', '0.1', 'collet oval', 'collet oval',
			'cut', '', '', 'oval', '', '', '', '{}')`,
		`INSERT INTO words VALUES (5, 'oval', 41)`,
		`INSERT INTO settings VALUES ('maker', 'discord', 'm1', 'metal', 'sterling', 'm1', 1900000000000000)`,
	} {
		_, err := db.ExecContext(t.Context(), statement)
		require.NoError(t, err)
	}
	return path, 41
}

func TestUpgradeFromTheFirstSchema(t *testing.T) {
	path, id := oldBook(t)
	b := mustOpen(t, path)
	h, err := b.Check(t.Context())
	require.NoError(t, err)
	assert.Equal(t, int64(lastSchema), h.SchemaVersion, "schema")
	all, err := b.List(t.Context(), Filter{Platform: "discord", Guild: "g1", Channel: "c1", Text: "oval"})
	require.NoError(t, err)
	assert.Equal(t, []int64{id}, ids(all), "the old entry")
	_, err = b.Amend(t.Context(), id, "teacher", "x", time.Now())
	require.NoError(t, err)
	metal, err := b.Setting(t.Context(), Scope{MakerScope, "discord", "m1"}, "metal")
	assert.Equal(t, []any{"sterling", nil}, []any{metal, err}, "the old setting")
	_, existed, err := b.Record(t.Context(), sample("m41"))
	assert.Equal(t, []any{true, nil}, []any{existed, err}, "the old event")
	if next := mustRecord(t, b, sample("new")); next.ID <= id {
		t.Errorf("id %d after %d", next.ID, id)
	}
}

func TestOpenAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	var wg sync.WaitGroup
	for range 6 {
		wg.Go(func() {
			b, err := Open(context.Background(), path)
			if !assert.NoError(t, err) {
				return
			}
			defer b.Close()
			_, _, err = b.Record(context.Background(), sample("same"))
			assert.NoError(t, err)
		})
	}
	wg.Wait()
}

func TestOpenNeedsAFolder(t *testing.T) {
	_, err := Open(t.Context(), filepath.Join(t.TempDir(), "missing", "book.db"))
	require.ErrorIs(t, err, ErrCannotRecord)
}

func TestForgottenLeavesNoTraceInTheFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	b := mustOpen(t, path)
	const maker = "maker-81726354"
	for i := range 200 {
		e := sample(fmt.Sprint(i))
		if i%3 == 0 {
			e.Maker, e.Typed = maker, "collet oval from "+maker
		}
		mustRecord(t, b, e)
	}
	require.NoError(t, b.SetSetting(t.Context(), Scope{MakerScope, "discord", maker}, "metal", "sterling", maker))
	count := func() (n int) {
		files, err := filepath.Glob(path + "*")
		require.NoError(t, err)
		for _, f := range files {
			data, err := os.ReadFile(f)
			require.NoError(t, err)
			n += bytes.Count(data, []byte(maker))
		}
		return n
	}
	require.Positive(t, count(), "the maker is not found in the file before, so this test tells nothing")
	n, err := b.ForgetMaker(t.Context(), "discord", maker)
	assert.Equal(t, []any{67, nil}, []any{n, err}, "forgotten")
	assert.Equal(t, 0, count(), "mentions in the file")
}

func TestLockedFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	b := mustOpen(t, path)
	first := mustRecord(t, b, sample("1"))
	holder, err := openSQLite(sqliteDSN(path, false), 1)
	require.NoError(t, err)
	defer holder.Close()
	tx, err := holder.BeginTx(t.Context(), nil) // takes the write lock
	require.NoError(t, err)

	impatient, cancel := context.WithTimeout(t.Context(), 100*time.Millisecond)
	defer cancel()
	_, _, err = b.Record(impatient, sample("2"))
	assert.ErrorIs(t, err, ErrCannotRecord, "locked, and out of time")
	// Reading goes on.
	_, err = b.ByID(t.Context(), first.ID)
	require.NoError(t, err)
	// Without a deadline, the driver's own patience ends.
	_, err = b.write.ExecContext(t.Context(), `PRAGMA busy_timeout = 50`)
	require.NoError(t, err)
	_, _, err = b.Record(t.Context(), sample("2"))
	assert.ErrorIs(t, err, ErrCannotRecord, "locked")
	assert.ErrorContains(t, err, "another program holds the file")
	_, err = b.Check(t.Context())
	assert.ErrorIs(t, err, ErrCannotRecord, "check")

	require.NoError(t, tx.Rollback())
	mustRecord(t, b, sample("2")) // recovers by itself
	_, err = b.Check(t.Context())
	require.NoError(t, err)
}

func TestReadOnlyFile(t *testing.T) {
	b := mustOpen(t, filepath.Join(t.TempDir(), "book.db"))
	_, err := b.write.ExecContext(t.Context(), `PRAGMA query_only = 1`)
	require.NoError(t, err)
	_, _, err = b.Record(t.Context(), sample("1"))
	assert.ErrorIs(t, err, ErrCannotRecord, "read-only")
	assert.ErrorContains(t, err, "the file is read-only")
	_, err = b.write.ExecContext(t.Context(), `PRAGMA query_only = 0`)
	require.NoError(t, err)
	mustRecord(t, b, sample("1"))
}

// TestFullFile stands in for a full disk where none can be mounted.
func TestFullFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	b := mustOpen(t, path)
	_, err := b.write.ExecContext(t.Context(), `PRAGMA max_page_count = 60`)
	require.NoError(t, err)
	fillUp(t, b, func() {
		_, err := b.write.ExecContext(t.Context(), `PRAGMA max_page_count = 1000000`)
		require.NoError(t, err)
	})
}

// fillUp records until the store is full, checks that it says so and keeps
// what it had, makes room and goes on.
func fillUp(t *testing.T, b *Book, makeRoom func()) {
	t.Helper()
	e := sample("")
	e.Problem = strings.Repeat("x", 20_000)
	var recorded []int64
	var err error
	const tooMany = 10_000
	for i := range tooMany {
		e.Key.Message = fmt.Sprint(i)
		var stored Entry
		if stored, _, err = b.Record(t.Context(), e); err != nil {
			break
		}
		recorded = append(recorded, stored.ID)
	}
	assert.ErrorIs(t, err, ErrCannotRecord, "full")
	assert.ErrorContains(t, err, "the disk is full")
	require.NotEmpty(t, recorded, "the disk was full from the start")
	// The answer to a full disk is refused again and again, and does no harm.
	_, _, err = b.Record(t.Context(), e)
	assert.ErrorIs(t, err, ErrCannotRecord, "still full")

	makeRoom()
	recorded = append(recorded, mustRecord(t, b, e).ID) // recovers by itself
	all, err := b.List(t.Context(), Filter{Platform: "discord", Guild: "g1", Channel: "c1", Limit: MaxPage})
	require.NoError(t, err)
	got := ids(all)
	slices.Reverse(got)
	assert.Equal(t, recorded, got, "entries")
}

func mustBackUp(t *testing.T, b *Book, path string) {
	t.Helper()
	_, err := b.Backup(t.Context(), path)
	require.NoError(t, err)
}

func TestBackupWhileRecording(t *testing.T) {
	dir := t.TempDir()
	b := mustOpen(t, filepath.Join(dir, "book.db"))
	for i := range 50 {
		mustRecord(t, b, sample(fmt.Sprint("before", i)))
	}
	stop := make(chan struct{})
	var wg sync.WaitGroup
	for w := range 2 {
		wg.Go(func() {
			for i := 0; ; i++ {
				select {
				case <-stop:
					return
				default:
				}
				_, _, err := b.Record(context.Background(), sample(fmt.Sprint("during", w, "-", i)))
				assert.NoError(t, err)
			}
		})
	}
	copies := []string{filepath.Join(dir, "one copy #.db"), filepath.Join(dir, "two.db")}
	for _, path := range copies {
		mustBackUp(t, b, path)
	}
	close(stop)
	wg.Wait()
	_, err := b.Backup(t.Context(), copies[0])
	assert.Error(t, err, "a back-up is written over")
	for _, path := range copies {
		_, err := checkBackup(t.Context(), path)
		require.NoError(t, err)
		private(t, path)
		c := mustOpen(t, path)
		all, err := c.List(t.Context(), Filter{Platform: "discord", Guild: "g1", Channel: "c1", Limit: MaxPage})
		require.NoError(t, err)
		assert.GreaterOrEqual(t, len(all), 50, "%s has %d entries", path, len(all))
	}
	left, err := filepath.Glob(filepath.Join(dir, "*.part"))
	require.NoError(t, err)
	assert.Empty(t, left, "left over")
	_, err = b.Backup(t.Context(), filepath.Join(dir, "missing", "x.db"))
	assert.Error(t, err, "a back-up goes to a folder that is not there")
}

func TestRestore(t *testing.T) {
	dir := t.TempDir()
	path, copied := filepath.Join(dir, "book.db"), filepath.Join(dir, "copy.db")
	b := mustOpen(t, path)
	room := Filter{Platform: "discord", Guild: "g1", Channel: "c1"}
	first := mustRecord(t, b, sample("1"))
	mustBackUp(t, b, copied)
	before, err := os.ReadFile(copied)
	require.NoError(t, err)
	second := mustRecord(t, b, sample("2"))
	other := mustOpen(t, path) // as another process has it open

	done, err := b.Restore(t.Context(), copied)
	require.NoError(t, err)
	kept := done.Kept
	for name, book := range map[string]*Book{"this one": b, "the other": other} {
		all, err := book.List(t.Context(), room)
		require.NoError(t, err)
		assert.Equal(t, []int64{first.ID}, ids(all), name)
	}
	third := mustRecord(t, other, sample("3"))
	all, err := b.List(t.Context(), room)
	require.NoError(t, err)
	assert.Equal(t, []int64{third.ID, first.ID}, ids(all), "goes on")
	if third.ID <= second.ID || third.ID != done.Next {
		t.Errorf("entry %d was answered with number %d, which was given out up to %d; said to be %d", third.ID, third.ID, second.ID, done.Next)
	}

	all, err = mustOpen(t, kept).List(t.Context(), room)
	require.NoError(t, err)
	assert.Equal(t, []int64{second.ID, first.ID}, ids(all), "what was there before")
	after, err := os.ReadFile(copied)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(before, after), "the back-up was changed")

	// One of an older program is upgraded.
	old, id := oldBook(t)
	_, err = b.Restore(t.Context(), old)
	require.NoError(t, err)
	_, err = b.Amend(t.Context(), id, "teacher", "x", time.Now())
	require.NoError(t, err)
}

// TestRestoreGivesNoNumberTwice: what messages in rooms say of an entry never
// comes to mean another.
func TestRestoreGivesNoNumberTwice(t *testing.T) {
	dir := t.TempDir()
	copied := filepath.Join(dir, "copy.db")
	b := mustOpen(t, filepath.Join(dir, "book.db"))
	var last Entry
	for i := range 5 {
		last = mustRecord(t, b, sample(fmt.Sprint("a", i)))
	}
	mustBackUp(t, b, copied)
	backedUp := last.ID
	for i := range 5 {
		last = mustRecord(t, b, sample(fmt.Sprint("b", i)))
	}
	given := last.ID
	// Also one that is gone again had its number.
	require.NoError(t, b.ForgetEntry(t.Context(), last.ID))

	empty, _ := oldBook(t)
	for _, test := range []struct {
		name  string
		into  func() *Book
		from  string
		above int64
	}{
		{"the daybook that went on", func() *Book { return b }, copied, given},
		{"once more", func() *Book { return b }, copied, given},
		{"a new one", func() *Book { return mustOpen(t, filepath.Join(dir, "new.db")) }, copied, backedUp + unknownEntries},
		{"in memory", func() *Book { return mustOpen(t, ":memory:") }, copied, backedUp + unknownEntries},
		{"by one of an older program", func() *Book { return mustOpen(t, filepath.Join(dir, "other.db")) }, empty, unknownEntries},
	} {
		into := test.into()
		done, err := into.Restore(t.Context(), test.from)
		require.NoError(t, err)
		e := mustRecord(t, into, sample("after "+test.name))
		if e.ID <= test.above || e.ID != done.Next {
			t.Errorf("%s: number %d, want more than %d, and %d was said", test.name, e.ID, test.above, done.Next)
		}
	}
	left, err := filepath.Glob(filepath.Join(dir, "*"+restoreMark+"*"))
	require.NoError(t, err)
	assert.Empty(t, left, "left over")
}

// TestRestoreWhileOthersRecord: another process records all the time, and no
// number of it is given out twice either.
func TestRestoreWhileOthersRecord(t *testing.T) {
	dir := t.TempDir()
	path, copied := filepath.Join(dir, "book.db"), filepath.Join(dir, "copy.db")
	b, other := mustOpen(t, path), mustOpen(t, path)
	mustRecord(t, b, sample("first"))
	mustBackUp(t, b, copied)
	numbers := map[int64]string{}
	stop, stopped := make(chan struct{}), make(chan struct{})
	var recorded atomic.Int64
	go func() {
		defer close(stopped)
		for i := 0; ; i++ {
			select {
			case <-stop:
				return
			default:
			}
			e, _, err := other.Record(t.Context(), sample(fmt.Sprint("burst", i)))
			if !assert.NoError(t, err) {
				return
			}
			if before, twice := numbers[e.ID]; twice {
				t.Errorf("number %d was given to %s and to %s", e.ID, before, e.Key.Message)
			}
			numbers[e.ID] = e.Key.Message
			recorded.Add(1)
		}
	}()
	for range 3 {
		for n := recorded.Load(); recorded.Load() < n+10 && !t.Failed(); {
			time.Sleep(time.Millisecond)
		}
		_, err := b.Restore(t.Context(), copied)
		require.NoError(t, err)
	}
	close(stop)
	<-stopped
	t.Logf("%d entries", len(numbers))
}

// Bad files are refused in TestFilesInTrouble.
func TestRestoreRefusesNamesThatAreNoBackup(t *testing.T) {
	dir := t.TempDir()
	b := mustOpen(t, filepath.Join(dir, "book.db"))
	mustRecord(t, b, sample("1"))
	missing := filepath.Join(dir, "missing.db")
	for _, path := range []string{missing, dir, b.path} {
		_, err := b.Restore(t.Context(), path)
		require.Error(t, err, path)
	}
	assert.NoFileExists(t, missing)
	kept, err := b.keptCopies()
	require.NoError(t, err)
	assert.Empty(t, kept)
}
