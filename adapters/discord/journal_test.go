package discord

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"guildhand/bot"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestJournal(t *testing.T) {
	path := filepath.Join(t.TempDir(), "intake")
	open := func() *journal {
		t.Helper()
		in, err := openJournal(path)
		require.NoError(t, err)
		return in
	}
	in := open()
	for _, id := range []string{"1", "2", "3"} {
		r := bot.Request{Message: id, Text: "batch " + id, Route: mustJSON(route{Token: "t" + id}), At: time.Now(), Options: map[string]string{"count": id}}
		r.Who.Maker, r.Who.Teacher = theMaker, true
		r.Progress = func(int, int, string) {}
		require.NoError(t, in.add(r))
	}
	for _, id := range []string{"2", "99"} {
		require.NoError(t, in.done(id))
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
	// Killed in the middle of a line.
	if _, err := in.file.WriteString(`{"in":{"message":"4"`); err != nil {
		t.Fatal(err)
	}
	in = open()
	left := in.left()
	require.Len(t, left, 2)
	for _, r := range left {
		if r.Text != "batch "+r.Message || !r.Who.Teacher || r.Options["count"] != r.Message || !strings.Contains(string(r.Route), "t"+r.Message) {
			t.Errorf("read back as %+v", r)
		}
		require.NoError(t, in.done(r.Message))
	}
	require.NoError(t, in.close())
	if in = open(); len(in.left()) != 0 {
		t.Errorf("%d left after all are done", len(in.left()))
	}
	// Nothing of what is done stays in it.
	if err := in.add(bot.Request{Message: "5", Text: "remark"}); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(path); err != nil || info.Size() == 0 {
		t.Errorf("an open request takes %d bytes, %v", info.Size(), err)
	}
	require.NoError(t, in.done("5"))
	if info, err := os.Stat(path); err != nil || info.Size() != 0 {
		t.Errorf("%d bytes, %v", info.Size(), err)
	}
}

// What can't be recorded at first is tried again, and not let go.
func TestTakenUpUntilRecorded(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	path := filepath.Join(t.TempDir(), "intake")
	in, err := openJournal(path)
	require.NoError(t, err)
	e := s.earlier(slash("batch"), time.Minute, replyDeferred)
	request := bot.Request{Message: e.id, Text: "batch count 2", Route: mustJSON(route{Token: e.token, Until: e.until})}
	request.Who.Platform, request.Who.Guild, request.Who.Channel, request.Who.Maker = Platform, theGuild, theChannel, theMaker
	require.NoError(t, errors.Join(in.add(request), in.close()))
	f := newFaulty(t, testSpecs())
	f.breakStore(errors.New("disk full"))
	a, err := New(s.config(), Options{Service: f, Transport: s.transport(), pace: quick, Journal: path})
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- a.Run(ctx) }()
	require.Eventually(t, func() bool { return f.timesHandled(e.id) > 1 }, patience, 5*time.Millisecond, "a second try")
	f.breakStore(nil)
	require.Eventually(t, func() bool {
		s.mu.Lock()
		defer s.mu.Unlock()
		return len(e.original.message.Embeds) > 0
	}, patience, 5*time.Millisecond, "the answer")
	assert.Empty(t, a.journal.left(), "it is still in the journal")
	cancel()
	assert.NoError(t, <-ended)
}
