package daybook

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// writeFile puts a daybook's bytes at a path.
func writeFile(t *testing.T, path string, data []byte) {
	t.Helper()
	require.NoError(t, os.WriteFile(path, data, 0o600))
}

// alter changes a daybook at a path by SQL.
func alter(t *testing.T, path string, statements ...string) {
	t.Helper()
	db, err := openSQLite(sqliteDSN(path, false), 1)
	require.NoError(t, err)
	for _, statement := range statements {
		_, err = db.ExecContext(t.Context(), statement)
		require.NoError(t, err)
	}
	require.NoError(t, db.Close())
}

// overwritten damages the last pages, far from what opening reads.
func overwritten(data []byte) []byte {
	const pages = 8 * 4096
	damaged := slices.Clone(data)
	for i := len(damaged) - pages; i < len(damaged); i++ {
		damaged[i] = 0x5a
	}
	return damaged
}

// bookOf makes a daybook with so many entries and gives the bytes of a back-up.
func bookOf(t *testing.T, entries int) []byte {
	t.Helper()
	dir := t.TempDir()
	b := mustOpen(t, filepath.Join(dir, "book.db"))
	for i := range entries {
		mustRecord(t, b, sample(fmt.Sprint("whole", i)))
	}
	mustBackUp(t, b, filepath.Join(dir, "whole.db"))
	data, err := os.ReadFile(filepath.Join(dir, "whole.db"))
	require.NoError(t, err)
	return data
}

// Files in every bad state, as the daybook and as a back-up: each gets one plain
// sentence, is left as it was, and costs the daybook that is in use nothing.
func TestFilesInTrouble(t *testing.T) {
	whole := bookOf(t, 100)
	for _, c := range []struct {
		name string
		make func(t *testing.T, path string)
		// What is said of it as the daybook, and as a back-up; empty if it
		// serves.
		open, restore string
	}{
		{"whole", func(t *testing.T, path string) { writeFile(t, path, whole) }, "", ""},
		{"old", func(t *testing.T, path string) {
			old, _ := oldBook(t)
			require.NoError(t, os.Rename(old, path))
		}, "", ""},
		{
			"empty", func(t *testing.T, path string) { writeFile(t, path, nil) },
			"is an empty file, so what it held is lost: put a back-up in its place, or delete it to begin a new daybook", "the file is empty",
		},
		{
			"of one byte", func(t *testing.T, path string) { writeFile(t, path, []byte("S")) },
			"the daybook's file is damaged: move", "the file is not a daybook",
		},
		{
			"text", func(t *testing.T, path string) { writeFile(t, path, bytes.Repeat([]byte("not a database\n"), 1000)) },
			"the file is not a daybook", "the file is not a daybook",
		},
		{
			"another program's", func(t *testing.T, path string) { alter(t, path, `CREATE TABLE recipes (id)`) },
			"the file is not a daybook", "the file is not a daybook",
		},
		{
			"truncated", func(t *testing.T, path string) { writeFile(t, path, whole[:len(whole)/2]) },
			"the daybook's file is damaged: move", "the daybook's file is damaged",
		},
		{
			"damaged where opening looks", func(t *testing.T, path string) {
				writeFile(t, path, slices.Concat(whole[:100], make([]byte, 4096), whole[100+4096:]))
			},
			"the daybook's file is damaged: move", "the daybook's file is damaged",
		},
		{
			"damaged elsewhere", func(t *testing.T, path string) { writeFile(t, path, overwritten(whole)) },
			"", "the daybook's file is damaged",
		},
		{
			"an index that lacks an entry", func(t *testing.T, path string) {
				writeFile(t, path, whole)
				alter(t, path, `PRAGMA writable_schema = 1`,
					`UPDATE sqlite_schema SET sql = replace(sql, 'WHERE message', 'WHERE id > 50 AND message') WHERE name = 'entries_event'`,
				)
				alter(t, path, `REINDEX entries_event`, `PRAGMA writable_schema = 1`,
					`UPDATE sqlite_schema SET sql = replace(sql, 'WHERE id > 50 AND message', 'WHERE message') WHERE name = 'entries_event'`)
			},
			"", "the daybook's file is damaged: row 1 missing from index entries_event",
		},
		{
			"from the future", func(t *testing.T, path string) {
				writeFile(t, path, whole)
				alter(t, path, `INSERT INTO goose_db_version (version_id, is_applied) VALUES (99, 1)`)
			},
			"it has schema 99 and this program knows up to 7; run the newer program", "it has schema 99 and this program knows up to 7",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "trouble.db")
			c.make(t, path)
			before, err := os.ReadFile(path)
			require.NoError(t, err)

			inUse := mustOpen(t, filepath.Join(dir, "book.db"))
			e := mustRecord(t, inUse, sample("in use"))
			_, err = inUse.Restore(t.Context(), path)
			oneSentence(t, c.restore, err)
			if c.restore != "" {
				_, err = inUse.ByID(t.Context(), e.ID)
				require.NoError(t, err)
				kept, err := inUse.keptCopies()
				require.NoError(t, err)
				assert.Empty(t, kept, "a restore that is refused keeps nothing")
			}
			after, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.True(t, bytes.Equal(before, after), "the back-up was changed")

			b, err := Open(t.Context(), path)
			oneSentence(t, c.open, err)
			if err != nil {
				after, err := os.ReadFile(path)
				require.NoError(t, err)
				assert.True(t, bytes.Equal(before, after), "the file was changed")
				return
			}
			defer b.Close()
			_, verified := b.Verify(t.Context())
			_, backedUp := b.Backup(t.Context(), filepath.Join(dir, "copy.db"))
			if c.restore == "" {
				require.NoError(t, verified)
				require.NoError(t, backedUp)
				return
			}
			require.ErrorIs(t, verified, ErrDamaged)
			require.ErrorIs(t, backedUp, ErrDamaged)
			left, err := filepath.Glob(filepath.Join(dir, "copy.db*"))
			require.NoError(t, err)
			assert.Empty(t, left, "what is left of a back-up that was refused")
		})
	}
}

// oneSentence wants an error with a text in it, on one line; none for "".
func oneSentence(t *testing.T, want string, err error) {
	t.Helper()
	if want == "" {
		require.NoError(t, err)
		return
	}
	require.ErrorContains(t, err, want)
	assert.NotContains(t, err.Error(), "\n")
}

// A program that was killed while it made a new daybook, a back-up or a restore
// leaves a file beside the daybook; a later start removes it.
func TestLeftoversGo(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "book.db")
	mustRecord(t, mustOpen(t, path), sample("1"))
	long := time.Now().Add(-2 * leftoverAfter)
	for name, goes := range map[string]bool{
		"book.db.new-ABC": true, "book.db.before-restore-20310304T102030.123Z.part": true,
		"book.db.before-restore-20310304T102030.123Z": false, "book.db.bak": false, "other.db.new-ABC": false,
	} {
		left := filepath.Join(dir, name)
		writeFile(t, left, []byte("x"))
		require.NoError(t, os.Chtimes(left, long, long))
		mustOpen(t, path)
		_, err := os.Stat(left)
		assert.Equal(t, goes, os.IsNotExist(err), name)
	}
	fresh := filepath.Join(dir, "book.db.new-DEF")
	writeFile(t, fresh, nil)
	mustOpen(t, path)
	assert.FileExists(t, fresh, "one that is being made")
}

// mentions counts a text in all files of a folder.
func mentions(t *testing.T, dir, text string) (n int) {
	t.Helper()
	require.NoError(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		if found := bytes.Count(data, []byte(text)); found > 0 {
			n += found
			t.Logf("%s mentions it %d times", path, found)
		}
		return err
	}))
	return n
}

const goneMaker = "maker-81726354"

// fromGoneMaker is an entry that names the maker everywhere.
func fromGoneMaker(message string) Entry {
	e := sample(message)
	e.Maker, e.Typed = goneMaker, "collet oval from "+goneMaker
	return e
}

// What a maker had forgotten is gone from the daybook, from every copy that the
// program made, and from what an older back-up brings back.
func TestForgottenEverywhere(t *testing.T) {
	dir, outside := t.TempDir(), t.TempDir()
	path, old := filepath.Join(dir, "book.db"), filepath.Join(outside, "old.db")
	clock := newTestClock()
	b := mustOpen(t, path, WithClock(clock.Now))
	for i := range 60 {
		mustRecord(t, b, sample(fmt.Sprint(i)))
		mustRecord(t, b, fromGoneMaker(fmt.Sprint("gone", i)))
	}
	single := sample("single")
	single.Typed = "collet oval only-once-9182"
	one := mustRecord(t, b, single)
	require.NoError(t, b.SetSetting(t.Context(), Scope{MakerScope, "discord", goneMaker}, "metal", "sterling", goneMaker))
	mustBackUp(t, b, old)
	for range 2 { // two copies beside the daybook
		clock.Move(time.Minute)
		_, err := b.Restore(t.Context(), old)
		require.NoError(t, err)
	}
	kept, err := b.keptCopies()
	require.NoError(t, err)
	require.Len(t, kept, 2)
	require.Positive(t, mentions(t, dir, goneMaker))

	clock.Move(time.Hour)
	n, err := b.ForgetMaker(t.Context(), "discord", goneMaker)
	require.NoError(t, err)
	assert.Equal(t, 60, n)
	require.NoError(t, b.ForgetEntry(t.Context(), one.ID))
	assert.Zero(t, mentions(t, dir, goneMaker), "mentions beside the daybook")
	assert.Zero(t, mentions(t, dir, "only-once-9182"), "mentions of the entry")
	for _, path := range kept {
		entries, err := mustOpen(t, path).Verify(t.Context())
		require.NoError(t, err)
		assert.EqualValues(t, 60, entries, "the others' entries in the copy")
	}

	// The maker comes back, and an older back-up does not take that away.
	clock.Move(time.Hour)
	later := fromGoneMaker("later")
	later.At, later.Typed = clock.Now(), "dome 12"
	later = mustRecord(t, b, later)
	newer := filepath.Join(outside, "newer.db")
	mustBackUp(t, b, newer)
	for _, from := range []string{old, newer} {
		clock.Move(time.Minute)
		done, err := b.Restore(t.Context(), from)
		require.NoError(t, err)
		data, err := b.MakerData(t.Context(), "discord", goneMaker)
		require.NoError(t, err)
		assert.Empty(t, data.Settings)
		if from == old {
			assert.Empty(t, data.Entries)
			assert.EqualValues(t, 60, done.Entries)
			assert.Zero(t, mentions(t, dir, "oval from "+goneMaker), "mentions after an old back-up")
			continue
		}
		assert.Equal(t, []int64{later.ID}, ids(data.Entries))
	}
	_, err = b.ByID(t.Context(), one.ID)
	require.ErrorIs(t, err, ErrNotFound, "an entry that was forgotten alone")

	// Also where the daybook itself is lost and begun anew.
	require.NoError(t, b.Close())
	for _, suffix := range []string{"", "-wal", "-shm"} {
		require.NoError(t, os.RemoveAll(path+suffix))
	}
	clock.Move(time.Minute)
	b = mustOpen(t, path, WithClock(clock.Now))
	_, err = b.Restore(t.Context(), old)
	require.NoError(t, err)
	data, err := b.MakerData(t.Context(), "discord", goneMaker)
	require.NoError(t, err)
	assert.Empty(t, data.Entries)
}

// A reader that is open while a maker is forgotten keeps the text in the file;
// it goes when the reader has ended, without anybody asking again.
func TestForgottenThoughSomebodyReads(t *testing.T) {
	for name, end := range map[string]func(*Book){
		"by itself":         func(*Book) {},
		"by the next start": func(b *Book) { _ = b.Close() },
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "book.db")
			b := mustOpen(t, path)
			for i := range 40 {
				mustRecord(t, b, fromGoneMaker(fmt.Sprint(i)))
			}
			reader, err := openSQLite(backupDSN(path), 1)
			require.NoError(t, err)
			defer reader.Close()
			tx, err := reader.BeginTx(context.Background(), nil)
			require.NoError(t, err)
			var n int
			require.NoError(t, tx.QueryRow(`SELECT COUNT(*) FROM entries`).Scan(&n))

			_, err = b.ForgetMaker(t.Context(), "discord", goneMaker)
			require.NoError(t, err)
			require.Positive(t, mentions(t, dir, goneMaker), "the reader keeps nothing, so this shows nothing")
			end(b)
			require.NoError(t, tx.Rollback())
			require.NoError(t, reader.Close())
			if name == "by the next start" {
				mustOpen(t, path)
			}
			assert.Eventually(t, func() bool { return mentions(t, dir, goneMaker) == 0 }, time.Minute, 20*time.Millisecond)
		})
	}
}

// A copy that can't be changed is named, so that somebody deletes it.
func TestForgetNamesACopyThatItCantChange(t *testing.T) {
	dir := t.TempDir()
	b := mustOpen(t, filepath.Join(dir, "book.db"))
	mustRecord(t, b, fromGoneMaker("1"))
	spoiled := b.path + keptMark + "20310304T102030.123Z"
	writeFile(t, spoiled, bytes.Repeat([]byte(goneMaker+" "), 500))
	n, err := b.ForgetMaker(t.Context(), "discord", goneMaker)
	assert.Equal(t, 1, n)
	require.ErrorContains(t, err, "its copy "+spoiled+" can't be changed, so delete that file")
	assert.Equal(t, 500, mentions(t, dir, goneMaker))
}

// A line of the file of the forgotten that was cut short spoils no other.
func TestForgottenFileCutShort(t *testing.T) {
	dir := t.TempDir()
	b := mustOpen(t, filepath.Join(dir, "book.db"))
	require.NoError(t, b.remember(forgottenMaker("discord", "m1", time.Now())))
	data, err := os.ReadFile(b.forgottenPath())
	require.NoError(t, err)
	writeFile(t, b.forgottenPath(), append(data, data[:len(data)/2]...))
	require.NoError(t, b.remember(forgotten{At: 1, Entry: 7, Recorded: 8}))
	all, err := b.remembered()
	require.NoError(t, err)
	require.Len(t, all, 2)
	assert.Equal(t, all[0].Maker, all[0].hash("discord", "m1"))
	assert.NotEqual(t, all[0].Maker, all[0].hash("discord", "m2"))
	assert.EqualValues(t, 7, all[1].Entry)
	assert.False(t, strings.Contains(string(data), "m1\""))
	private(t, b.forgottenPath())
}

// What is past its guild's retention goes from the copies too.
func TestRetentionReachesCopies(t *testing.T) {
	dir := t.TempDir()
	clock := newTestClock()
	b := mustOpen(t, filepath.Join(dir, "book.db"), WithClock(clock.Now))
	e := sample("1")
	e.At = clock.Now()
	mustRecord(t, b, e)
	old := filepath.Join(t.TempDir(), "old.db")
	mustBackUp(t, b, old)
	done, err := b.Restore(t.Context(), old)
	require.NoError(t, err)
	require.NoError(t, b.SetRetention(t.Context(), "discord", "g1", time.Hour, "teacher"))
	_, err = b.Purge(t.Context(), clock.Move(2*time.Hour))
	require.NoError(t, err)
	left, err := mustOpen(t, done.Kept).Verify(t.Context())
	require.NoError(t, err)
	assert.Zero(t, left)
}
