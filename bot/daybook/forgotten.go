package daybook

import (
	"bytes"
	"context"
	"crypto/rand"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// forgotten is one line of the file beside a SQLite daybook that says what was
// forgotten, so that a back-up made before does not bring it back. It holds
// nothing that tells who the maker was.
type forgotten struct {
	// At is when it was forgotten, in microseconds since 1970 UTC. What the
	// maker did later stays.
	At int64 `json:"at"`
	// Maker is a salted hash of the maker, empty if it was one entry.
	Maker string `json:"maker,omitempty"`
	Salt  string `json:"salt,omitempty"`
	// Entry and Recorded are the id and the time of one entry.
	Entry    int64 `json:"entry,omitempty"`
	Recorded int64 `json:"recorded,omitempty"`
}

func forgottenMaker(platform, maker string, now time.Time) forgotten {
	f := forgotten{At: micros(now), Salt: rand.Text()}
	f.Maker = f.hash(platform, maker)
	return f
}

func (f forgotten) hash(platform, maker string) string {
	sum := sha256.Sum256([]byte(f.Salt + "\x00" + platform + "\x00" + maker))
	return hex.EncodeToString(sum[:])
}

func (b *Book) forgottenPath() string { return b.path + ".forgotten" }

// remember adds a line to the file before anything is removed: a program that
// is killed in between has forgotten nothing, and nothing is lost by doing so.
func (b *Book) remember(f forgotten) error {
	if b.path == "" {
		return nil
	}
	line, err := json.Marshal(f)
	if err != nil {
		return err
	}
	file, err := os.OpenFile(b.forgottenPath(), os.O_WRONLY|os.O_APPEND|os.O_CREATE, 0o600)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrCannotRecord, err)
	}
	// It begins with a line break, in case an earlier line was cut short.
	_, err = file.Write(slices.Concat([]byte("\n"), line, []byte("\n")))
	if err = errors.Join(err, file.Sync(), file.Close()); err != nil {
		return fmt.Errorf("%w: %w", ErrCannotRecord, err)
	}
	return nil
}

// remembered returns all that was forgotten. A line that was cut short belongs to
// a forgetting that never began.
func (b *Book) remembered() ([]forgotten, error) {
	if b.path == "" {
		return nil, nil
	}
	data, err := os.ReadFile(b.forgottenPath())
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	var all []forgotten
	for line := range bytes.Lines(data) {
		var f forgotten
		if json.Unmarshal(line, &f) == nil {
			all = append(all, f)
		}
	}
	return all, err
}

// forgetAgain removes from a restored daybook what had been forgotten.
func (b *Book) forgetAgain(ctx context.Context, all []forgotten) error {
	if len(all) == 0 {
		return nil
	}
	type maker struct{ platform, id string }
	rows, err := b.read.QueryContext(ctx, `SELECT platform, maker FROM entries UNION SELECT platform, maker FROM corrections
		UNION SELECT platform, maker FROM outlines UNION SELECT platform, author FROM quoted
		UNION SELECT platform, set_by FROM settings UNION SELECT platform, scope FROM settings WHERE kind = 'maker'
		UNION SELECT platform, by_maker FROM rules UNION SELECT platform, scope FROM rules WHERE kind = 'maker'
		UNION SELECT platform, set_by FROM retention
		UNION SELECT e.platform, a.by_maker FROM amendments a JOIN entries e ON e.id = a.entry`)
	makers, err := scanAll(rows, err, func(r *sql.Rows) (m maker, err error) { return m, r.Scan(&m.platform, &m.id) })
	if err != nil {
		return err
	}
	for _, m := range makers {
		upTo := int64(math.MinInt64)
		for _, f := range all {
			if f.Maker != "" && f.Maker == f.hash(m.platform, m.id) {
				upTo = max(upTo, f.At)
			}
		}
		if upTo > math.MinInt64 {
			if _, err := b.removeMaker(ctx, m.platform, m.id, upTo); err != nil {
				return err
			}
		}
	}
	for _, f := range all {
		if f.Maker == "" {
			if err := b.removeEntry(ctx, f.Entry, f.Recorded); err != nil && !errors.Is(err, ErrNotFound) {
				return err
			}
		}
	}
	return nil
}

// keptMark is in the name of a copy of what a daybook held before a restore.
const keptMark = ".before-restore-"

const keptTime = "20060102T150405.000Z"

// keptCopies lists the copies that Restore made.
func (b *Book) keptCopies() (paths []string, err error) {
	if b.path == "" {
		return nil, nil
	}
	files, err := os.ReadDir(filepath.Dir(b.path))
	for _, f := range files {
		made, isCopy := strings.CutPrefix(f.Name(), filepath.Base(b.path)+keptMark)
		if _, err := time.Parse(keptTime, made); isCopy && err == nil {
			paths = append(paths, filepath.Join(filepath.Dir(b.path), f.Name()))
		}
	}
	return paths, err
}

// inKeptCopies changes every copy that Restore made as the daybook was changed.
func (b *Book) inKeptCopies(ctx context.Context, change func(*Book) error) error {
	paths, err := b.keptCopies()
	errs := []error{err}
	for _, path := range paths {
		if err := changeCopy(ctx, path, change); err != nil {
			errs = append(errs, fmt.Errorf("the daybook is done, but its copy %s can't be changed, so delete that file: %w", path, err))
		}
	}
	return errors.Join(errs...)
}

func changeCopy(ctx context.Context, path string, change func(*Book) error) (err error) {
	c, err := openFile(ctx, path)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, c.Close()) }()
	if err := change(c); err != nil {
		return err
	}
	return c.erase(ctx)
}
