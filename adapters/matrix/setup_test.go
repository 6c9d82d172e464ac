package matrix

import (
	"bytes"
	"context"
	"log/slog"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
)

// TestFirstWords: the first answer in a room, and no other, says how to ask,
// what is kept and how to have it removed; also after a restart.
func TestFirstWords(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		ana := ana.on(t)
		room := ana.room(encrypted)
		_, c := ana.ask(room, "!cautions I burned my hand")
		assert.NotContains(t, c.Body, "I'm new here", "nothing stands beside first aid")
		_, c = ana.ask(room, "!gauge 20ga")
		for _, part := range []string{"!collet oval 8x6", "I keep each question", "!daybook forget"} {
			assert.Contains(t, c.Body, part)
		}
		_, c = ana.ask(room, "!gauge 18ga")
		assert.NotContains(t, c.Body, "I'm new here")
		b.stop()
		b.start()
		_, c = ana.ask(room, "!gauge 16ga")
		assert.NotContains(t, c.Body, "I'm new here")
	})
}

// TestTeacherByPower: who may not do what teachers may reads what makes a
// teacher on Matrix.
func TestTeacherByPower(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	startBot(t, botConfig(t, h))
	ana, ben := newMaker(t, h, "ana"), newMaker(t, h, "ben")
	room := ana.room(false, func(r *mautrix.ReqCreateRoom) { r.Invite = append(r.Invite, ben.cli.UserID) })
	_, err := ben.cli.JoinRoomByID(ben.ctx, room)
	require.NoError(t, err)
	ana.waitMember(room, ben.cli.UserID, event.MembershipJoin)
	_, c := ben.ask(room, "!daybook list")
	assert.Contains(t, c.Body, "power level 50 or more in this room")
	assert.NotContains(t, c.Body, "role")
}

// TestCheckLeavesNoDevice: a check with the password ends the session that it
// began.
func TestCheckLeavesNoDevice(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	for range 2 {
		r, err := Check(t.Context(), botConfig(t, h))
		require.NoError(t, err)
		require.Empty(t, r.Missing)
	}
	devices, err := botSession(t, h).GetDevicesInfo(t.Context())
	require.NoError(t, err)
	for _, device := range devices.Devices {
		assert.NotContains(t, device.DisplayName, "(check)")
	}
}

// lines is a log that may be read while it is written.
type lines struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (l *lines) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *lines) count(what string) int {
	l.mu.Lock()
	defer l.mu.Unlock()
	return strings.Count(l.text.String(), what)
}

// TestServerAway: a server that does not answer at the start is told of at once,
// and not at every try.
func TestServerAway(t *testing.T) {
	t.Parallel()
	log := &lines{}
	cfg := Config{Homeserver: "http://127.0.0.1:1", UserID: "@guildhand:example.org"}
	cli, err := newClient(cfg)
	require.NoError(t, err)
	a := &Adapter{cfg: cfg, cli: cli, log: slog.New(slog.NewTextHandler(log, nil))}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan struct{})
	go func() { defer close(done); a.awaitServer(ctx) }()
	require.Eventually(t, func() bool { return log.count("does not answer") > 0 }, patience, 10*time.Millisecond)
	time.Sleep(2 * time.Second) // several tries
	cancel()
	<-done
	assert.Equal(t, 1, log.count("does not answer"))
}
