//go:build goolm

package matrix

import (
	"bufio"
	"encoding/json"
	"io"
	"log/slog"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// The tests of this file read the bot's answers with another client, whose
// cryptography is the Rust one of most clients (.ci/rustcrypto/client.mjs) and
// shares no code with the bot's. It reads and serves signed devices only.

// rustEnv names a folder with client.mjs and what it needs.
const rustEnv = "GUILDHAND_TEST_RUSTCRYPTO"

// rustClient is a person with that client.
type rustClient struct {
	t      *testing.T
	input  io.WriteCloser
	user   id.UserID
	device id.DeviceID

	mu      sync.Mutex
	changed chan struct{}
	lines   []rustLine
}

// rustLine is what the client says: a message of a room, the end of a command,
// or a step of a verification.
type rustLine struct {
	Room    id.RoomID                  `json:"room"`
	Sender  id.UserID                  `json:"sender"`
	ID      id.EventID                 `json:"id"`
	Type    string                     `json:"type"`
	Content *event.MessageEventContent `json:"content"`
	Fail    string                     `json:"fail"`

	Did    string      `json:"did"`
	Error  string      `json:"error"`
	User   id.UserID   `json:"user"`
	Device id.DeviceID `json:"device"`
	Event  id.EventID  `json:"event"`
	Signed bool        `json:"signed"`

	Emoji     []string `json:"emoji"`
	Verified  bool     `json:"verified"`
	Cancelled *string  `json:"cancelled"`
}

// newRustClient starts the client, registers its account and makes its keys.
func newRustClient(t *testing.T, h *homeserver, name string) *rustClient {
	t.Helper()
	h.register(name)
	c := startRustClient(t, h, name)
	c.do(map[string]any{"do": "bootstrap", "password": password})
	return c
}

// startRustClient starts the client and logs in to an account that is there.
func startRustClient(t *testing.T, h *homeserver, name string) *rustClient {
	t.Helper()
	dir, named := os.Getenv(rustEnv), true
	if dir == "" {
		dir, named = "../../.ci/rustcrypto", false
	}
	if _, err := os.Stat(filepath.Join(dir, "node_modules")); err != nil && !named {
		t.Skip("the Rust client is not there, so nothing is read by an independent client; .ci/rustcrypto/build fetches it")
	}
	node, err := exec.LookPath("node")
	if err != nil && !named {
		t.Skip("Node.js is not installed, so nothing is read by an independent client")
	}
	require.NoError(t, err)
	cmd := exec.Command(node, filepath.Join(dir, "client.mjs"))
	c := &rustClient{t: t, changed: make(chan struct{})}
	c.input, err = cmd.StdinPipe()
	require.NoError(t, err)
	output, err := cmd.StdoutPipe()
	require.NoError(t, err)
	if testing.Verbose() {
		cmd.Stderr = t.Output()
	}
	require.NoError(t, cmd.Start())
	read := make(chan struct{})
	go c.read(output, read)
	t.Cleanup(func() {
		_ = c.input.Close()
		kill := time.AfterFunc(10*time.Second, func() { _ = cmd.Process.Kill() })
		<-read
		_ = cmd.Wait()
		kill.Stop()
	})
	login := c.do(map[string]any{"do": "login", "homeserver": h.makers.url(), "user": h.account(name), "password": password})
	c.user, c.device = login.User, login.Device
	return c
}

func (c *rustClient) read(from io.Reader, ended chan<- struct{}) {
	defer close(ended)
	lines := bufio.NewScanner(from)
	lines.Buffer(nil, 1<<20)
	for lines.Scan() {
		var line rustLine
		if err := json.Unmarshal(lines.Bytes(), &line); err != nil {
			line.Error = err.Error()
		}
		c.mu.Lock()
		c.lines = append(c.lines, line)
		close(c.changed)
		c.changed = make(chan struct{})
		c.mu.Unlock()
	}
}

// await waits for a line after the first lines, and gives it with its place.
func (c *rustClient) await(what string, after int, is func(rustLine) bool) (rustLine, int) {
	c.t.Helper()
	deadline := time.After(patience)
	for {
		c.mu.Lock()
		lines, changed := c.lines, c.changed
		c.mu.Unlock()
		if n := slices.IndexFunc(lines[after:], is); n >= 0 {
			return lines[after+n], after + n
		}
		select {
		case <-changed:
		case <-deadline:
			said, _ := json.Marshal(lines[max(0, len(lines)-10):])
			c.t.Fatalf("%s did not come within %s; the client said: %s", what, patience, said)
		}
	}
}

// do has the client do what must succeed.
func (c *rustClient) do(command map[string]any) rustLine {
	c.t.Helper()
	done := c.try(command)
	require.Empty(c.t, done.Error, "%v", command["do"])
	return done
}

// try has the client do something, and gives its error too.
func (c *rustClient) try(command map[string]any) rustLine {
	c.t.Helper()
	c.mu.Lock()
	after := len(c.lines)
	c.mu.Unlock()
	require.NoError(c.t, json.NewEncoder(c.input).Encode(command))
	done, _ := c.await("the end of "+command["do"].(string), after, func(l rustLine) bool { return l.Did == command["do"] })
	return done
}

// ask asks in a room and gives the answer as the client reads it.
func (c *rustClient) ask(room id.RoomID, text string) *event.MessageEventContent {
	c.t.Helper()
	c.mu.Lock()
	after := len(c.lines)
	c.mu.Unlock()
	q := c.do(map[string]any{"do": "send", "room": room, "body": text}).Event
	answer, _ := c.await("the answer to "+text, after, func(l rustLine) bool {
		return l.Fail != "" || l.Content != nil && l.Content.RelatesTo.GetReplyTo() == q
	})
	require.Empty(c.t, answer.Fail, "the answer to %s can't be read", text)
	require.NotNil(c.t, answer.Content.Mentions)
	assert.Equal(c.t, []id.UserID{c.user}, answer.Content.Mentions.UserIDs, "mentions of the answer")
	return answer.Content
}

// joinRust brings the client into a maker's encrypted room.
func joinRust(m *maker, c *rustClient, room id.RoomID) {
	m.t.Helper()
	_, err := m.cli.InviteUser(m.ctx, room, invite(c.user))
	require.NoError(m.t, err)
	c.do(map[string]any{"do": "join", "room": room})
	m.waitMember(room, c.user, event.MembershipJoin)
}

// rustInRoom is an encrypted room with a maker, a bot and a person who has the
// Rust client; configure changes the bot's configuration, where it is not nil.
func rustInRoom(t *testing.T, h *homeserver, configure func(*Config, *rustClient), change ...func(*Adapter)) (*rustClient, *maker, *runningBot, id.RoomID) {
	t.Helper()
	rust, ana := newRustClient(t, h, "rust"), newMaker(t, h, "ana")
	cfg := botConfig(t, h)
	if configure != nil {
		configure(&cfg, rust)
	}
	b := startBot(t, cfg, change...)
	room := ana.room(true)
	joinRust(ana, rust, room)
	return rust, ana, b, room
}

// TestRustClientReads: a client that trusts signed devices only reads every
// answer, text and picture, and is read: with a fresh account, after all
// sessions of the account were ended while the bot ran, with a lost store, and
// with an account that was used in another client before.
func TestRustClientReads(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	rust, ana, b, room := rustInRoom(t, h, nil)
	reads := func(when string) {
		t.Helper()
		assert.Contains(t, rust.ask(room, "!gauge 20ga").Body, "0.812 mm", when)
		collet := rust.ask(room, "!"+aCollet)
		assert.Equal(t, event.MsgImage, collet.MsgType, when)
		assert.NotNil(t, collet.File, when)
		trust := rust.do(map[string]any{"do": "trusts", "user": ana.bot, "device": b.adapter.cli.DeviceID})
		assert.True(t, trust.Signed, when)
	}
	reads("fresh account")

	endSessions(b, h, ana)
	reads("signed out while running")

	b.stop()
	kept, err := os.ReadFile(recoveryKeyFile(b.cfg.StorePath))
	require.NoError(t, err)
	b.cfg.StorePath = filepath.Join(t.TempDir(), "matrix.db")
	b.cfg.RecoveryKey = strings.TrimSpace(string(kept))
	b.start()
	b.waitListening()
	reads("lost store")
}

// TestRustClientReadsUsedAccount: the same where another client made the
// account's keys, and its recovery key signs the bot's device.
func TestRustClientReadsUsedAccount(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	recoveryKey, _ := otherClient(t, h)
	rust, _, _, room := rustInRoom(t, h, func(cfg *Config, _ *rustClient) { cfg.RecoveryKey = recoveryKey })
	assert.Contains(t, rust.ask(room, "!gauge 20ga").Body, "0.812 mm")
	assert.Equal(t, event.MsgImage, rust.ask(room, "!"+aCollet).MsgType)
}

// TestRustClientRefusesUnsigned: the check can fail. Where nothing signs the
// bot's device, that client neither gives it a key nor reads it.
func TestRustClientRefusesUnsigned(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	otherClient(t, h) // whose keys the bot has not got
	rust, ana, _, room := rustInRoom(t, h, nil)
	ana.ask(room, "!gauge 20ga")
	line, _ := rust.await("the bot's answer to another", 0, func(l rustLine) bool { return l.Sender == ana.bot })
	assert.NotEmpty(t, line.Fail, "an unsigned device was read")
}

// emojiLogged waits for the emoji that the bot's log shows.
func emojiLogged(t *testing.T, log *lines) string {
	t.Helper()
	require.Eventually(t, func() bool { return log.count("compare these emoji") > 0 }, patience, 20*time.Millisecond)
	log.mu.Lock()
	defer log.mu.Unlock()
	_, after, _ := strings.Cut(log.text.String(), "emoji=\"")
	shown, _, _ := strings.Cut(after, "\"")
	return shown
}

// logTo makes a bot's log readable.
func logTo(t *testing.T, log *lines) func(*Adapter) {
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("the bot's log: %s", log.text.String())
		}
	})
	return func(a *Adapter) { a.log = slog.New(slog.NewTextHandler(log, nil)) }
}

// verify verifies the bot as a person does: it compares the emoji with the bot's
// log, and confirms.
func (c *rustClient) verify(user id.UserID, room id.RoomID, log *lines) {
	c.t.Helper()
	c.do(map[string]any{"do": "verify", "user": user, "room": room})
	shown, at := c.await("emoji", 0, func(l rustLine) bool { return len(l.Emoji) > 0 || l.Cancelled != nil })
	require.Nil(c.t, shown.Cancelled)
	logged := emojiLogged(c.t, log)
	var symbols []string
	for _, one := range strings.Split(logged, ", ") {
		symbol, _, _ := strings.Cut(one, " ")
		symbols = append(symbols, bare(symbol))
	}
	for i := range shown.Emoji {
		shown.Emoji[i] = bare(shown.Emoji[i])
	}
	require.Equal(c.t, shown.Emoji, symbols)
	c.do(map[string]any{"do": "confirm"})
	done, _ := c.await("the end of the verification", at, func(l rustLine) bool { return l.Verified || l.Cancelled != nil })
	require.Nil(c.t, done.Cancelled)
}

// bare is an emoji without the selector of its form, which some clients leave out.
func bare(emoji string) string { return strings.ReplaceAll(emoji, "\ufe0f", "") }

// TestVerifiedByItsOwner: a person whom the configuration names verifies the bot
// by emoji in an encrypted room and in one that is not; their client then takes
// the account for verified. Somebody else is refused.
func TestVerifiedByItsOwner(t *testing.T) {
	t.Parallel()
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		h := sharedServer(t)
		ana := newMaker(t, h, "ana")
		rust, stranger := newRustClient(t, h, "owner"), newRustClient(t, h, "stranger")
		log := &lines{}
		cfg := botConfig(t, h)
		cfg.VerifyWith = []string{string(rust.user)}
		b := startBot(t, cfg, logTo(t, log))
		room := ana.room(encrypted)
		joinRust(ana, rust, room)
		joinRust(ana, stranger, room)
		rust.ask(room, "!gauge 20ga") // the bot is there, and its device signed

		stranger.do(map[string]any{"do": "verify", "user": ana.bot, "room": room})
		end, _ := stranger.await("a refusal", 0, func(l rustLine) bool { return l.Cancelled != nil || len(l.Emoji) > 0 })
		require.NotNil(t, end.Cancelled, "a stranger was shown emoji")
		rust.verify(ana.bot, room, log)
		trust := rust.do(map[string]any{"do": "trusts", "user": ana.bot, "device": b.adapter.cli.DeviceID})
		assert.True(t, trust.Verified)
		assert.True(t, trust.Signed)
	})
}

// TestVerifiedByItsAccount: another session of the bot's account made its keys,
// and signs the bot's device by verifying it. A bot that has keys of its own
// signs no other session, since nobody compares on its side.
func TestVerifiedByItsAccount(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	rust := startRustClient(t, h, "guildhand")
	rust.do(map[string]any{"do": "bootstrap", "password": password})
	ana := newMaker(t, h, "ana")
	log := &lines{}
	b := startBot(t, botConfig(t, h), logTo(t, log))
	ana.ask(ana.room(true), "!gauge 20ga")
	signed, _ := ana.trust(b.adapter.cli.DeviceID)
	require.False(t, signed)
	rust.verify(ana.bot, "", log)
	require.Eventually(t, func() bool { signed, _ := ana.trust(b.adapter.cli.DeviceID); return signed },
		patience, 100*time.Millisecond, "the device is not signed by the session that verified it")

	own := sharedServer(t)
	ben := newMaker(t, own, "ben")
	startBot(t, botConfig(t, own))
	ben.ask(ben.room(true), "!gauge 20ga")
	second := startRustClient(t, own, "guildhand")
	second.do(map[string]any{"do": "verify", "user": ben.bot, "room": ""})
	end, _ := second.await("a refusal", 0, func(l rustLine) bool { return l.Cancelled != nil || len(l.Emoji) > 0 })
	require.NotNil(t, end.Cancelled, "a session was verified that nobody compared")
}
