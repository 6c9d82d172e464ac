//go:build goolm

package matrix

import (
	"bufio"
	"encoding/json"
	"io"
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

func (c *rustClient) do(command map[string]any) rustLine {
	c.t.Helper()
	c.mu.Lock()
	after := len(c.lines)
	c.mu.Unlock()
	require.NoError(c.t, json.NewEncoder(c.input).Encode(command))
	done, _ := c.await("the end of "+command["do"].(string), after, func(l rustLine) bool { return l.Did == command["do"] })
	require.Empty(c.t, done.Error, "%v", command["do"])
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

// TestRustClientReads: a client that trusts signed devices only reads every
// answer, text and picture, and is read: with a fresh account, after all
// sessions of the account were ended while the bot ran, with a lost store, and
// with an account that was used in another client before.
func TestRustClientReads(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	rust := newRustClient(t, h, "rust")
	ana := newMaker(t, h, "ana")
	b := startBot(t, botConfig(t, h))
	room := ana.room(true)
	joinRust(ana, rust, room)
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

	device := b.adapter.cli.DeviceID
	_, err := botSession(t, h).LogoutAll(t.Context())
	require.NoError(t, err)
	require.Eventually(t, func() bool {
		signed, _ := ana.trust(device)
		return signed && b.adapter.Ready() == nil
	}, patience, 100*time.Millisecond, "the device is not shared and signed again")
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
	rust := newRustClient(t, h, "rust")
	ana := newMaker(t, h, "ana")
	cfg := botConfig(t, h)
	cfg.RecoveryKey = recoveryKey
	startBot(t, cfg)
	room := ana.room(true)
	joinRust(ana, rust, room)
	assert.Contains(t, rust.ask(room, "!gauge 20ga").Body, "0.812 mm")
	assert.Equal(t, event.MsgImage, rust.ask(room, "!"+aCollet).MsgType)
}

// TestRustClientRefusesUnsigned: the check can fail. Where nothing signs the
// bot's device, that client neither gives it a key nor reads it.
func TestRustClientRefusesUnsigned(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	otherClient(t, h) // whose keys the bot has not got
	rust := newRustClient(t, h, "rust")
	ana := newMaker(t, h, "ana")
	startBot(t, botConfig(t, h))
	room := ana.room(true)
	joinRust(ana, rust, room)
	ana.ask(room, "!gauge 20ga")
	line, _ := rust.await("the bot's answer to another", 0, func(l rustLine) bool { return l.Sender == ana.bot })
	assert.NotEmpty(t, line.Fail, "an unsigned device was read")
}
