package bot_test

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"guildhand/bot"
	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const shortHold = time.Second

// openShared returns services on one daybook, as in processes of their own.
func openShared(t *testing.T, names ...string) (all []*shop) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "daybook.db")
	for _, name := range names {
		book, err := daybook.Open(t.Context(), path, daybook.WithHold(shortHold), daybook.WithOwner(name))
		require.NoError(t, err)
		t.Cleanup(func() { book.Close() })
		s := openShopAt(t, path, func(o *bot.Options) { o.Book, o.Shared, o.Clock = book, true, time.Now })
		s.book = book
		all = append(all, s)
	}
	return all
}

// left returns the entries that a service may send.
func left(t *testing.T, s *shop) (entries []int64) {
	t.Helper()
	replies, err := s.Undelivered(t.Context(), "test")
	require.NoError(t, err)
	for _, r := range replies {
		entries = append(entries, r.Entry)
	}
	return entries
}

func TestOneProcessSendsAnAnswer(t *testing.T) {
	both := openShared(t, "one", "two")
	one, two := both[0], both[1]
	r := ask(t, one, anna, "m1", "cut 8x6")
	seenBy := func(s *shop) bool {
		t.Helper()
		again := ask(t, s, anna, "m1", "cut 8x6")
		if !again.Duplicate || again.Entry != r.Entry {
			t.Fatalf("%+v", again)
		}
		return !again.Delivered // then it is this process's to send
	}
	if seenBy(two) || seenBy(one) {
		t.Error("sent by another while one has it in hand")
	}
	// However long the sending takes.
	time.Sleep(2 * shortHold)
	if seenBy(two) || len(left(t, two)) != 0 {
		t.Error("taken over from a process that lives")
	}
	require.NoError(t, one.Release(t.Context(), r.Entry))
	if got := left(t, two); len(got) != 1 || got[0] != r.Entry {
		t.Errorf("put back, and the other finds %v", got)
	}
	if seenBy(one) || len(left(t, one)) != 0 {
		t.Error("sent by the first though the other has it in hand")
	}
	require.NoError(t, two.Release(t.Context(), r.Entry))
	assert.True(t, seenBy(one), "nobody has it in hand, and who sees the event again does not take it")
	require.NoError(t, one.Delivered(t.Context(), r.Entry, "p1"))
	time.Sleep(2 * shortHold)
	if seenBy(one) || seenBy(two) || len(left(t, one))+len(left(t, two)) != 0 {
		t.Error("sent again after it was delivered")
	}
}

func TestProcessThatStopsOrDiesLeavesItsAnswers(t *testing.T) {
	both := openShared(t, "one", "two")
	one, two := both[0], both[1]
	r := ask(t, one, anna, "m1", "cut 8x6")
	require.NoError(t, one.Close(t.Context()))
	if got := left(t, two); len(got) != 1 || got[0] != r.Entry {
		t.Errorf("one has stopped, and the other finds %v", got)
	}
	// A dead process renews nothing.
	e, _, err := one.book.Record(t.Context(), daybook.Entry{
		Key: daybook.Key{Platform: "test", Channel: "c1", Message: "m2"}, Status: daybook.Refused, Problem: "x"})
	require.NoError(t, err)
	if got := left(t, two); len(got) != 0 {
		t.Errorf("taken at once: %v", got)
	}
	time.Sleep(shortHold + shortHold/4)
	if got := left(t, two); len(got) != 1 || got[0] != e.ID {
		t.Errorf("once its lease has ended: %v", got)
	}
}

// Work that takes longer than a lease is done once all the same.
func TestLongWorkKeepsItsEvent(t *testing.T) {
	both := openShared(t, "one", "two")
	slow := bot.Request{Who: catalogue.Who{Platform: "test", Guild: "g1", Channel: "c1", Maker: "ben"}, Message: "slow", Text: "slow"}
	type result struct {
		reply bot.Reply
		err   error
	}
	results := make(chan result, 2)
	handle := func(s *shop) {
		r, err := s.Handle(t.Context(), slow)
		results <- result{r, err}
	}
	go handle(both[0])
	<-both[0].begun
	go handle(both[1])
	select {
	case <-both[1].begun:
		t.Fatal("the other process has begun the same work")
	case <-time.After(3 * shortHold):
	}
	// Given up, its event is the other's.
	closing := make(chan error, 1)
	ended, end := context.WithTimeout(t.Context(), time.Millisecond)
	defer end()
	go func() { closing <- both[0].Close(ended) }()
	if first := <-results; first.err == nil {
		t.Errorf("given up: %+v", first.reply)
	}
	assert.Error(t, <-closing, "Close tells of no work that was stopped")
	select {
	case <-both[1].begun:
	case <-time.After(10 * time.Second):
		t.Error("the other process does not take the event over")
	}
	ended, end = context.WithTimeout(t.Context(), time.Millisecond)
	defer end()
	_ = both[1].Close(ended) // ends the work
	<-results
}
