//go:build linux

package sentence

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
	"unsafe"

	"github.com/stretchr/testify/require"
)

// TestReadingTimes prints the slowest ten readings of every sentence and turn of
// testdata, in milliseconds of its thread's processor (user and system), which other
// work on the machine changes little; the bar is 5 ms. Each is the best of three, and the
// fifty slowest are the best of twenty:
//
//	GUILDHAND_TIMES=. go test -tags goolm -count 1 -run TestReadingTimes -v ./bot/reading/sentence
func TestReadingTimes(t *testing.T) {
	if os.Getenv("GUILDHAND_TIMES") == "" {
		t.Skip("GUILDHAND_TIMES is not set: no times are measured")
	}
	const bar = 5 * time.Millisecond
	files, err := filepath.Glob("testdata/*.json")
	require.NoError(t, err)
	type timed struct {
		said string
		c    Context
		took time.Duration
	}
	best := func(said string, c Context, runs int) (took time.Duration, r Reading) {
		took = time.Hour
		for range runs {
			before := threadTime(t)
			r = Read(said, c)
			took = min(took, threadTime(t)-before)
		}
		return took, r
	}
	var all []timed
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	Read("what is a bezel made of", Context{Addressed: true}) // loads the word lists
	for _, file := range files {
		for _, s := range load(t, file) {
			turns := s.Turns
			if len(turns) == 0 {
				turns = []oneTurn{s.oneTurn}
			}
			c := Context{Addressed: true, Takes: takes, Excludes: excludes}
			for _, turn := range turns {
				took, r := best(turn.Say, c, 3)
				all = append(all, timed{turn.Say, c, took})
				c = c.After(turn.Say, r)
			}
		}
	}
	slowest := func(a, b timed) int { return cmp.Compare(b.took, a.took) }
	slices.SortFunc(all, slowest)
	for i := range all[:50] {
		all[i].took, _ = best(all[i].said, all[i].c, 20)
	}
	slices.SortFunc(all[:50], slowest)
	sum, over := time.Duration(0), 0
	for _, a := range all {
		sum += a.took
		if a.took > bar {
			over++
		}
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%d readings, mean %.2f ms, half under %.2f ms, %d over %v; the slowest:\n", len(all),
		sum.Seconds()*1000/float64(len(all)), all[len(all)/2].took.Seconds()*1000, over, bar)
	for _, a := range all[:10] {
		fmt.Fprintf(&b, "%6.2f ms  %s\n", a.took.Seconds()*1000, a.said)
	}
	t.Log("\n" + b.String())
}

func threadTime(t *testing.T) time.Duration {
	const threadCPUTime = 3 // CLOCK_THREAD_CPUTIME_ID of clock_gettime(2)
	var at syscall.Timespec
	_, _, errno := syscall.Syscall(syscall.SYS_CLOCK_GETTIME, threadCPUTime, uintptr(unsafe.Pointer(&at)), 0)
	require.Zero(t, errno)
	return time.Duration(at.Nano())
}
