package matrix

import (
	"context"
	"strings"
	"testing"
	"time"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// TestRooms: which rooms the bot is in, and what it makes of them.
func TestRooms(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	ana, ben := newMaker(t, h, "ana"), newMaker(t, h, "ben")
	cfg := botConfig(t, h)
	listed := ben.emptyRoom(false)
	cfg.Allow = Allow{Users: []string{string(ana.cli.UserID)}, Rooms: []string{string(listed)}}
	custom := ana.emptyRoom(false)
	cfg.Prefixes = map[string]string{string(custom): "gh "}
	b := startBot(t, cfg)

	t.Run("invitations", func(t *testing.T) {
		ana, ben := ana.on(t), ben.on(t)
		ana.room(false) // a listed user
		if _, err := ben.cli.InviteUser(ben.ctx, listed, invite(ben.bot)); err != nil {
			t.Fatal(err)
		}
		ben.waitMember(listed, ben.bot, event.MembershipJoin) // a listed room
		other := ben.emptyRoom(false, func(r *mautrix.ReqCreateRoom) { r.Invite = []id.UserID{ben.bot} })
		ben.waitMember(other, ben.bot, event.MembershipLeave) // neither
		idle := ben.say(other, "!gauge 20ga")
		ben.settle(listed)
		ben.mu.Lock()
		defer ben.mu.Unlock()
		if len(ben.replies(ben.seen, other, idle)) > 0 {
			t.Error("a room that the bot declined was answered")
		}
	})

	t.Run("prefix of a room", func(t *testing.T) {
		ana := ana.on(t)
		if _, err := ana.cli.InviteUser(ana.ctx, custom, invite(ana.bot)); err != nil {
			t.Fatal(err)
		}
		ana.waitMember(custom, ana.bot, event.MembershipJoin)
		idle := ana.say(custom, "!gauge 20ga")
		if _, c := ana.ask(custom, "gh gauge 20ga"); !strings.Contains(c.Body, "asked: gh gauge") {
			t.Errorf("got %q, want the request with the room's prefix", c.Body)
		}
		ana.mu.Lock()
		defer ana.mu.Unlock()
		if len(ana.replies(ana.seen, custom, idle)) > 0 {
			t.Error("the usual prefix was answered in a room with its own")
		}
	})

	t.Run("history before joining", func(t *testing.T) {
		ana := ana.on(t)
		room := ana.emptyRoom(false)
		old := make([]id.EventID, 3)
		for i := range old {
			old[i] = ana.say(room, "!gauge 20ga")
		}
		if _, err := ana.cli.InviteUser(ana.ctx, room, invite(ana.bot)); err != nil {
			t.Fatal(err)
		}
		ana.waitMember(room, ana.bot, event.MembershipJoin)
		ana.settle(room)
		ana.mu.Lock()
		defer ana.mu.Unlock()
		for _, q := range old {
			if len(ana.replies(ana.seen, room, q)) > 0 {
				t.Error("a question from before the bot joined was answered")
			}
		}
	})

	t.Run("many questions right after joining", func(t *testing.T) {
		// More than one response holds, and history before them: what is read
		// back ends at the joining.
		ana := ana.on(t)
		room := ana.emptyRoom(false)
		before := ana.say(room, "!gauge 12ga")
		b.stop()
		if _, err := ana.cli.InviteUser(ana.ctx, room, invite(ana.bot)); err != nil {
			t.Fatal(err)
		}
		// The bot's account joins by another session, as if it had crashed
		// right after joining.
		joiner, err := mautrix.NewClient(h.makers.url(), "", "")
		if err != nil {
			t.Fatal(err)
		}
		if _, err := joiner.Login(ana.ctx, &mautrix.ReqLogin{
			Type: mautrix.AuthTypePassword, Password: password, StoreCredentials: true,
			Identifier: mautrix.UserIdentifier{Type: mautrix.IdentifierTypeUser, User: h.account("guildhand")},
		}); err != nil {
			t.Fatal(err)
		}
		if _, err := joiner.JoinRoomByID(ana.ctx, room); err != nil {
			t.Fatal(err)
		}
		asked := make([]id.EventID, shortTimeline+5)
		for i := range asked {
			asked[i] = ana.say(room, "!gauge 20ga")
		}
		b.start(withShortTimeline)
		for _, q := range asked {
			ana.waitReplies(room, q, 1)
		}
		ana.mu.Lock()
		defer ana.mu.Unlock()
		if len(ana.replies(ana.seen, room, before)) > 0 {
			t.Error("a question from before the bot joined was answered")
		}
	})

	t.Run("power levels", func(t *testing.T) {
		ana, ben := ana.on(t), ben.on(t)
		room := ana.room(false, func(r *mautrix.ReqCreateRoom) { r.Invite = append(r.Invite, ben.cli.UserID) })
		if _, err := ben.cli.JoinRoomByID(ben.ctx, room); err != nil {
			t.Fatal(err)
		}
		ana.waitMember(room, ben.cli.UserID, event.MembershipJoin)
		teacher := func(m *maker, want string) {
			t.Helper()
			if _, c := m.ask(room, "!whoami"); !strings.Contains(c.Body, "teacher="+want) {
				t.Errorf("%s: got %q, want teacher=%s", m.cli.UserID, c.Body, want)
			}
		}
		teacher(ana, "true")
		teacher(ben, "false")
		var levels event.PowerLevelsEventContent
		if err := ana.cli.StateEvent(ana.ctx, room, event.StatePowerLevels, "", &levels); err != nil {
			t.Fatal(err)
		}
		levels.SetUserLevel(ben.cli.UserID, 50)
		if _, err := ana.cli.SendStateEvent(ana.ctx, room, event.StatePowerLevels, "", &levels); err != nil {
			t.Fatal(err)
		}
		teacher(ben, "true")
		levels.SetUserLevel(ben.cli.UserID, 49)
		if _, err := ana.cli.SendStateEvent(ana.ctx, room, event.StatePowerLevels, "", &levels); err != nil {
			t.Fatal(err)
		}
		teacher(ben, "false")
	})

	t.Run("space as guild", func(t *testing.T) {
		ana := ana.on(t)
		space := ana.room(false, func(r *mautrix.ReqCreateRoom) {
			r.CreationContent = map[string]any{"type": "m.space"}
		})
		room := ana.room(false)
		set := func(room id.RoomID, kind event.Type, key id.RoomID, c any) {
			t.Helper()
			if _, err := ana.cli.SendStateEvent(ana.ctx, room, kind, string(key), c); err != nil {
				t.Fatal(err)
			}
		}
		guild := func(want id.RoomID) {
			t.Helper()
			if _, c := ana.ask(room, "!whoami"); !strings.Contains(c.Body, "guild="+string(want)+" channel="+string(room)) {
				t.Errorf("got %q, want guild %s", c.Body, want)
			}
		}
		guild(room)
		set(room, event.StateSpaceParent, space, &event.SpaceParentEventContent{Via: []string{serverName}, Canonical: true})
		guild(room) // the space does not know of it yet
		set(space, event.StateSpaceChild, room, &event.SpaceChildEventContent{Via: []string{serverName}})
		set(room, event.StateSpaceParent, space, &event.SpaceParentEventContent{Via: []string{serverName}})
		guild(space)
	})

	t.Run("upgrade", func(t *testing.T) {
		kindsOfRoom(t, func(t *testing.T, encrypted bool) {
			ana := ana.on(t)
			old := ana.room(encrypted)
			ana.ask(old, "!gauge 20ga")
			next := ana.emptyRoom(encrypted, func(r *mautrix.ReqCreateRoom) {
				r.Preset = "public_chat"
				r.CreationContent = map[string]any{"predecessor": map[string]any{"room_id": old, "event_id": "$last"}}
			})
			if _, err := ana.cli.SendStateEvent(ana.ctx, old, event.StateTombstone, "", &event.TombstoneEventContent{
				Body: "moved", ReplacementRoom: next,
			}); err != nil {
				t.Fatal(err)
			}
			ana.waitMember(next, ana.bot, event.MembershipJoin)
			ana.waitNoted(b, next)
			if _, c := ana.ask(next, "!whoami"); !strings.Contains(c.Body, "channel="+string(old)) {
				t.Errorf("got %q, want the channel of the old room", c.Body)
			}
			if encrypted {
				ana.noPlainText(next)
			}
		})
	})

	t.Run("false upgrade", func(t *testing.T) {
		ana := ana.on(t)
		old := ana.room(false)
		next := ana.emptyRoom(false, func(r *mautrix.ReqCreateRoom) { r.Preset = "public_chat" })
		if _, err := ana.cli.SendStateEvent(ana.ctx, old, event.StateTombstone, "", &event.TombstoneEventContent{
			Body: "moved", ReplacementRoom: next,
		}); err != nil {
			t.Fatal(err)
		}
		ana.waitMember(next, ana.bot, event.MembershipLeave)
	})

	t.Run("alone", func(t *testing.T) {
		ana := ana.on(t)
		room := ana.room(false)
		ana.ask(room, "!gauge 20ga")
		if _, err := ana.cli.LeaveRoom(ana.ctx, room); err != nil {
			t.Fatal(err)
		}
		deadline := time.Now().Add(patience)
		for {
			joined, err := b.adapter.cli.JoinedRooms(context.Background())
			if err != nil {
				t.Fatal(err)
			}
			there := false
			for _, r := range joined.JoinedRooms {
				there = there || r == room
			}
			if !there {
				return
			}
			if time.Now().After(deadline) {
				t.Fatal("the bot stays in a room where nobody else is")
			}
			time.Sleep(50 * time.Millisecond)
		}
	})
}

// waitNoted waits until the bot has noted that a room is an upgrade, which it
// does right after joining.
func (m *maker) waitNoted(b *runningBot, room id.RoomID) {
	m.t.Helper()
	deadline := time.Now().Add(patience)
	for time.Now().Before(deadline) {
		r, err := b.adapter.store.room(context.Background(), room)
		if err != nil {
			m.t.Fatal(err)
		}
		if r.origin != "" {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	m.t.Fatal("the upgrade was not noted")
}

// TestCheck: what is missing is said, before and after the first start.
func TestCheck(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	ctx := context.Background()
	cfg := botConfig(t, h)
	check := func(cfg Config) Report {
		t.Helper()
		r, err := Check(ctx, cfg)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	mentions := func(list []string, word string) bool { return strings.Contains(strings.Join(list, "\n"), word) }

	if r := check(cfg); len(r.Missing) > 0 || r.Login != "password, at the first start" || r.Versions == "" {
		t.Errorf("before the first start: %+v", r)
	}
	for word, broken := range map[string]func(*Config){
		"homeserver":        func(c *Config) { c.Homeserver = "example" },
		"answer":            func(c *Config) { c.Homeserver = "http://127.0.0.1:1" },
		"user":              func(c *Config) { c.UserID = "guildhand" },
		"login":             func(c *Config) { c.Password = "" },
		"refuses":           func(c *Config) { c.Token = "wrong" },
		"password":          func(c *Config) { c.Password = "not the password" },
		"without https://":  func(c *Config) { c.Allow.Servers = []string{"https://example.org"} },
		"@anna:example.org": func(c *Config) { c.Allow.Users = []string{"anna"} },
		"verify_with":       func(c *Config) { c.VerifyWith = []string{"anna"} },
		"!abc:example.org":  func(c *Config) { c.Allow.Rooms = []string{"#bench:example.org"} },
	} {
		c := cfg
		broken(&c)
		if r := check(c); !mentions(r.Missing, word) {
			t.Errorf("%s: missing says %q", word, r.Missing)
		}
	}
	if r := check(Config{Homeserver: cfg.Homeserver, UserID: cfg.UserID, StorePath: cfg.StorePath, Password: password}); !mentions(r.Warnings, "allow") {
		t.Errorf("nobody allowed: warnings say %q", r.Warnings)
	}

	b := startBot(t, cfg)
	m := newMaker(t, h, "ana")
	room := m.room(encryptionBuilt)
	if encryptionBuilt {
		m.ask(room, "!gauge 20ga")
	}
	b.stop()
	noPassword := cfg
	noPassword.Password = ""
	r := check(noPassword)
	if len(r.Missing) > 0 || r.Login != "stored session" || r.Device == "" || r.Rooms != 1 {
		t.Errorf("after the first start: %+v", r)
	}
	if encryptionBuilt && (r.EncryptedRooms != 1 || mentions(r.Warnings, "not signed") || r.Signed != "signed" || len(r.Fingerprint) < 50) {
		t.Errorf("after the first start: %+v", r)
	}
	// The stored session serves without the password, on the same device.
	b.cfg = noPassword
	b.start()
	if encryptionBuilt {
		m.ask(room, "!gauge 18ga")
	}
	b.stop()
	if again := check(noPassword); again.Device != r.Device {
		t.Errorf("the device was %s, now %s", r.Device, again.Device)
	}

	// A token of the configuration.
	cli, err := mautrix.NewClient(h.makers.url(), "", "")
	if err != nil {
		t.Fatal(err)
	}
	login, err := cli.Login(ctx, &mautrix.ReqLogin{Type: mautrix.AuthTypePassword, Password: password,
		Identifier: mautrix.UserIdentifier{Type: mautrix.IdentifierTypeUser, User: h.account("guildhand")}})
	if err != nil {
		t.Fatal(err)
	}
	withToken := botConfig(t, h)
	withToken.Password, withToken.Token = "", login.AccessToken
	tb := startBot(t, withToken)
	tb.waitListening()
	// Until the maker's client has heard of the new device, its messages cannot
	// be read there, and the bot says so. Dendrite can be late with the news or
	// lose it, so after the first try the client asks.
	answered := false
	for try := 0; !answered && try < 5; try++ {
		if try > 0 {
			m.fetchDevicesOfBot()
		}
		_, c := m.ask(room, "!gauge 16ga")
		if answered = strings.HasPrefix(c.Body, "16 ga"); !answered && !strings.Contains(c.Body, "I can't read this message") {
			t.Errorf("with a new device: got %q", c.Body)
		}
	}
	if !answered {
		t.Error("with a new device nothing was answered")
	}
	tb.stop()
	m.noRepeats(room)
	if r := check(withToken); len(r.Missing) > 0 || r.Login != "access token" || r.Device != string(login.DeviceID) {
		t.Errorf("with a token: %+v", r)
	}
	if encryptionBuilt {
		other := cfg
		other.Password, other.Token = "", login.AccessToken
		if r := check(other); !mentions(r.Missing, "holds the keys of device") {
			t.Errorf("a token of another device: %+v", r)
		}
		m.noPlainText(room)
	}
}
