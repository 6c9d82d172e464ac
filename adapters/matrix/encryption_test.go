//go:build goolm

package matrix

import (
	"context"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"guildhand/calc/testcount"
)

// TestNeverPlain: an encrypted room never gets a readable answer, at the moments
// when the bot knows least of the room.
func TestNeverPlain(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")

	t.Run("right after an invitation", func(t *testing.T) {
		ana := ana.on(t)
		for range testcount.InLong(2, 5) {
			room := ana.emptyRoom(true)
			ana.say(room, "!gauge 20ga") // before: not answered
			if _, err := ana.cli.InviteUser(ana.ctx, room, invite(ana.bot)); err != nil {
				t.Fatal(err)
			}
			ana.waitMember(room, ana.bot, event.MembershipJoin)
			ana.ask(room, "!gauge 20ga")
			ana.noPlainText(room)
		}
	})

	t.Run("right after a restart", func(t *testing.T) {
		ana := ana.on(t)
		room := ana.room(true)
		ana.ask(room, "!gauge 20ga")
		for range testcount.InLong(2, 5) {
			b.stop()
			q := ana.say(room, "!gauge 20ga")
			b.start()
			ana.waitReplies(room, q, 1)
		}
		ana.noPlainText(room)
	})

	t.Run("right after a restart with the rooms forgotten", func(t *testing.T) {
		ana := ana.on(t)
		room := ana.room(true)
		ana.ask(room, "!gauge 20ga")
		b.stop()
		s, err := openStore(context.Background(), b.cfg.StorePath)
		if err != nil {
			t.Fatal(err)
		}
		for _, table := range []string{"guildhand_room", "mx_room_state", "mx_user_profile"} {
			if _, err := s.db.Exec(context.Background(), "DELETE FROM "+table); err != nil {
				t.Fatal(err)
			}
		}
		_ = s.close()
		q := ana.say(room, "!gauge 20ga")
		b.start()
		ana.waitReplies(room, q, 1)
		ana.noPlainText(room)
	})

	turnOn := func(m *maker, room id.RoomID) id.EventID {
		m.t.Helper()
		resp, err := m.cli.SendStateEvent(m.ctx, room, event.StateEncryption, "",
			&event.EncryptionEventContent{Algorithm: id.AlgorithmMegolmV1})
		if err != nil {
			m.t.Fatal(err)
		}
		return resp.EventID
	}
	// afterOn fails the test if the bot sent plain text after an event.
	afterOn := func(m *maker, room id.RoomID, on id.EventID) {
		m.t.Helper()
		m.mu.Lock()
		defer m.mu.Unlock()
		encrypted, checked := false, 0
		for _, s := range m.seen {
			encrypted = encrypted || s.raw.ID == on
			if !encrypted || s.raw.RoomID != room || s.raw.Sender != m.bot || s.raw.StateKey != nil {
				continue
			}
			checked++
			if s.raw.Type == event.EventMessage {
				m.t.Errorf("plain text after encryption was turned on: %s", s.raw.ID)
			}
		}
		if checked == 0 {
			m.t.Error("nothing was sent after encryption was turned on, so nothing was checked")
		}
	}

	t.Run("right after encryption is turned on", func(t *testing.T) {
		ana := ana.on(t)
		for range testcount.InLong(2, 5) {
			room := ana.room(false)
			ana.ask(room, "!gauge 20ga")
			on := turnOn(ana, room)
			// Readable, as from a client that does not know yet.
			resp, err := ana.cli.SendMessageEvent(ana.ctx, room, event.EventMessage,
				&event.MessageEventContent{MsgType: event.MsgText, Body: "!" + aCollet}, mautrix.ReqSendEvent{DontEncrypt: true})
			if err != nil {
				t.Fatal(err)
			}
			ana.waitReplies(room, resp.EventID, 1)
			afterOn(ana, room, on)
		}
	})

	t.Run("when encryption was turned on while the bot was away", func(t *testing.T) {
		ana := ana.on(t)
		room := ana.room(false)
		ana.ask(room, "!gauge 20ga")
		b.stop()
		q := ana.say(room, "!gauge 18ga")
		on := turnOn(ana, room)
		b.start()
		ana.waitReplies(room, q, 1)
		afterOn(ana, room, on)
	})

	t.Run("when encryption seems to be turned off", func(t *testing.T) {
		ana := ana.on(t)
		room := ana.room(true)
		ana.ask(room, "!gauge 20ga")
		if _, err := ana.cli.SendStateEvent(ana.ctx, room, event.StateEncryption, "", map[string]any{}); err != nil {
			t.Fatal(err)
		}
		q := ana.say(room, "!gauge 18ga")
		ana.waitReplies(room, q, 1)
		for _, s := range ana.fromBot(ana.seen, room) {
			if s.raw.Type != event.EventEncrypted {
				t.Errorf("plain text in a room that was encrypted: %s", s.raw.ID)
			}
		}
	})
}

// TestBehindTheStream: the bot's stream stands still while a room turns
// encrypted; what it sends then is encrypted all the same.
func TestBehindTheStream(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	target, err := url.Parse(h.proxy.url())
	require.NoError(t, err)
	release := make(chan struct{})
	var still atomic.Bool
	pass := httputil.NewSingleHostReverseProxy(target)
	pass.ModifyResponse = func(r *http.Response) error {
		if strings.HasSuffix(r.Request.URL.Path, "/sync") && still.Load() {
			select {
			case <-release:
			case <-r.Request.Context().Done():
			}
		}
		return nil
	}
	front := httptest.NewServer(pass)
	t.Cleanup(front.Close)
	cfg := botConfig(t, h)
	cfg.Homeserver = front.URL
	b := startBot(t, cfg)
	t.Cleanup(func() { close(release) })
	ana := newMaker(t, h, "ana")
	room := ana.room(false)
	q, _ := ana.ask(room, "!gauge 20ga")
	still.Store(true)
	if _, err := ana.cli.SendStateEvent(ana.ctx, room, event.StateEncryption, "",
		&event.EncryptionEventContent{Algorithm: id.AlgorithmMegolmV1}); err != nil {
		t.Fatal(err)
	}
	m := &message{}
	m.line("", "said while the stream stood still")
	sent, err := b.adapter.send(ana.ctx, outgoing{
		room: room, part: "a part", after: q, build: ready(place(m.notice(), q, "", ana.cli.UserID)),
	})
	if err != nil {
		t.Fatal(err)
	}
	var evt *event.Event
	require.Eventually(t, func() bool { // Dendrite shows an event a moment after it took it
		evt, err = ana.cli.GetEvent(ana.ctx, room, sent)
		return err == nil
	}, patience, 50*time.Millisecond, "the event")
	if evt.Type.Type != event.EventEncrypted.Type {
		t.Errorf("sent as %s", evt.Type.Type)
	}
}

// TestNoEncryption: a bot whose configuration has encryption off is silent in
// encrypted rooms, and declines those that it is invited to.
func TestNoEncryption(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	cfg := botConfig(t, h)
	cfg.Encryption = false
	startBot(t, cfg)
	ana := newMaker(t, h, "ana")
	declined := ana.emptyRoom(true, func(r *mautrix.ReqCreateRoom) { r.Invite = []id.UserID{ana.bot} })
	ana.waitMember(declined, ana.bot, event.MembershipLeave)

	room := ana.room(false)
	ana.ask(room, "!gauge 20ga")
	if _, err := ana.cli.SendStateEvent(ana.ctx, room, event.StateEncryption, "",
		&event.EncryptionEventContent{Algorithm: id.AlgorithmMegolmV1}); err != nil {
		t.Fatal(err)
	}
	// Plain text in an encrypted room, as some clients send: the bot may read it
	// and must not answer.
	resp, err := ana.cli.SendMessageEvent(ana.ctx, room, event.EventMessage,
		&event.MessageEventContent{MsgType: event.MsgText, Body: "!gauge 18ga"}, mautrix.ReqSendEvent{DontEncrypt: true})
	if err != nil {
		t.Fatal(err)
	}
	other := ana.room(false)
	ana.settle(other)
	time.Sleep(time.Second)
	ana.mu.Lock()
	defer ana.mu.Unlock()
	if len(ana.replies(ana.seen, room, resp.EventID)) > 0 {
		t.Error("a bot without encryption answered in an encrypted room")
	}
}

// TestHint: messages whose key never comes get one hint, not one each, and none
// for what was said before the bot joined. The maker's client says why it keeps the key
// back; that word comes before the bot gives the key up, or after.
func TestHint(t *testing.T) {
	t.Parallel()
	for name, keyWaitAsked := range map[string]time.Duration{"reason first": 2 * time.Second, "reason late": time.Millisecond} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			oneHint(t, keyWaitAsked)
		})
	}
}

func oneHint(t *testing.T, keyWaitAsked time.Duration) {
	h := sharedServer(t)
	quick := func(a *Adapter) { a.keyWait, a.keyWaitAsked = 5*time.Second, keyWaitAsked } // all five are sent within it
	b := startBot(t, botConfig(t, h), quick)
	ana := newMaker(t, h, "ana")
	room := ana.emptyRoom(true)
	before := ana.say(room, "!gauge 12ga")
	if _, err := ana.cli.InviteUser(ana.ctx, room, invite(ana.bot)); err != nil {
		t.Fatal(err)
	}
	ana.waitMember(room, ana.bot, event.MembershipJoin)
	ana.ask(room, "!gauge 20ga")

	// A key that is shared with the maker alone.
	if err := ana.e.mach.CryptoStore.RemoveOutboundGroupSession(ana.ctx, room); err != nil {
		t.Fatal(err)
	}
	if err := ana.e.mach.ShareGroupSession(ana.ctx, room, []id.UserID{ana.cli.UserID}); err != nil {
		t.Fatal(err)
	}
	lost := make([]id.EventID, 5)
	for i := range lost {
		lost[i] = ana.say(room, "!gauge 18ga")
	}
	hint := ana.waitText(room, lost[0])
	if !strings.Contains(hint.Body, "send it once more") || hint.MsgType != event.MsgNotice {
		t.Errorf("the hint is %q", hint.Body)
	}
	// The maker sends it once more, with a key for all.
	if err := ana.e.mach.CryptoStore.RemoveOutboundGroupSession(ana.ctx, room); err != nil {
		t.Fatal(err)
	}
	_, c := ana.ask(room, "!gauge 18ga")
	if !strings.HasPrefix(c.Body, "18 ga") {
		t.Errorf("sent once more: got %q", c.Body)
	}
	b.stop()
	b.start(quick) // the hint is not given again after a restart
	ana.settle(room)
	ana.mu.Lock()
	defer ana.mu.Unlock()
	hints := 0
	for _, q := range append(lost, before) {
		hints += len(ana.replies(ana.seen, room, q))
	}
	if hints != 1 {
		t.Errorf("%d hints for one key, want 1", hints)
	}
}

// TestLateKey: a message whose key comes a little late is answered, in order
// with those that wait for the same key.
func TestLateKey(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	room := ana.room(true)
	ana.ask(room, "!gauge 20ga")
	store := ana.e.mach.CryptoStore
	if err := store.RemoveOutboundGroupSession(ana.ctx, room); err != nil {
		t.Fatal(err)
	}
	if err := ana.e.mach.ShareGroupSession(ana.ctx, room, []id.UserID{ana.cli.UserID}); err != nil {
		t.Fatal(err)
	}
	session, err := store.GetOutboundGroupSession(ana.ctx, room)
	if err != nil {
		t.Fatal(err)
	}
	key := session.ShareContent() // from the first message on
	var asked []question
	for n := range 5 {
		asked = append(asked, askGauge(ana, room, n))
	}
	time.Sleep(500 * time.Millisecond)
	devices, err := store.GetDevices(ana.ctx, ana.bot)
	if err != nil || len(devices) == 0 {
		t.Fatalf("the bot's devices: %v %v", devices, err)
	}
	for _, device := range devices {
		if err := ana.e.mach.SendEncryptedToDevice(ana.ctx, device, event.ToDeviceRoomKey, key); err != nil {
			t.Fatal(err)
		}
	}
	for _, q := range asked {
		if body := ana.waitText(room, q.id).Body; !strings.HasPrefix(body, q.want) {
			t.Errorf("got %q, want %q", body, q.want)
		}
	}
	ana.noPlainText(room)
}

// TestDeviceSigned: the maker's client sees the bot's device as signed by the
// bot's own keys, and the keys outlive a restart.
func TestDeviceSigned(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	room := ana.room(true)
	ana.ask(room, "!gauge 20ga")
	look := func() (id.DeviceID, id.Ed25519) {
		t.Helper()
		resp, err := ana.cli.QueryKeys(ana.ctx, &mautrix.ReqQueryKeys{DeviceKeys: mautrix.DeviceKeysRequest{ana.bot: {}}})
		if err != nil {
			t.Fatal(err)
		}
		self, ok := resp.SelfSigningKeys[ana.bot]
		if !ok || len(resp.DeviceKeys[ana.bot]) != 1 {
			t.Fatalf("self-signing key %v, %d devices", ok, len(resp.DeviceKeys[ana.bot]))
		}
		for name, device := range resp.DeviceKeys[ana.bot] {
			if device.Signatures[ana.bot][id.NewKeyID(id.KeyAlgorithmEd25519, self.FirstKey().String())] == "" {
				t.Error("the device is not signed with the account's self-signing key")
			}
			return name, self.FirstKey()
		}
		return "", ""
	}
	device, key := look()
	b.stop()
	b.start()
	ana.ask(room, "!gauge 18ga")
	if d, k := look(); d != device || k != key {
		t.Errorf("after a restart device %s and key %s, before %s and %s", d, k, device, key)
	}
}

// fetchDevicesOfBot has the maker's client ask which devices the bot has, as a
// client does where somebody opens the bot's list of devices.
func (m *maker) fetchDevicesOfBot() {
	m.t.Helper()
	_, err := m.e.mach.FetchKeys(m.ctx, []id.UserID{m.bot}, true)
	require.NoError(m.t, err)
}

// TestMadeUpSecret: an encrypted message that somebody made up in a room that is
// not encrypted gets no word, and holds up nothing.
func TestMadeUpSecret(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	startBot(t, botConfig(t, h), func(a *Adapter) { a.keyWait, a.keyWaitAsked = 100*time.Millisecond, 100*time.Millisecond })
	ana := newMaker(t, h, "ana")
	room := ana.room(false)
	resp, err := ana.cli.SendMessageEvent(ana.ctx, room, event.EventEncrypted, map[string]any{
		"algorithm": id.AlgorithmMegolmV1, "ciphertext": "AwgAEnAC", "session_id": "made up", "sender_key": "made up", "device_id": "NONE",
	}, mautrix.ReqSendEvent{DontEncrypt: true})
	require.NoError(t, err)
	ana.settle(room)
	time.Sleep(time.Second) // a key would be given up by now
	ana.settle(room)
	ana.mu.Lock()
	defer ana.mu.Unlock()
	assert.Empty(t, ana.replies(ana.seen, room, resp.EventID))
}
