//go:build goolm

package matrix

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"maunium.net/go/mautrix/event"
)

// resetWithoutStore starts the bot anew without the store that it had, and with a
// stated reset of its signing keys.
func (b *runningBot) resetWithoutStore(change ...func(*Adapter)) {
	b.t.Helper()
	b.stop()
	b.cfg.StorePath = filepath.Join(b.t.TempDir(), "matrix.db")
	b.cfg.ResetSigning = true
	b.start(change...)
	b.waitListening()
}

// TestRustClientReadsAfterReset: the store was lost and there is no recovery
// key. With the password and a stated reset the bot signs its new device with
// new keys; a client that trusts signed devices only takes them and reads on.
func TestRustClientReadsAfterReset(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	rust, ana, b, room := rustInRoom(t, h, nil)
	assert.Contains(t, rust.ask(room, "!gauge 20ga").Body, "0.812 mm")

	b.resetWithoutStore()
	trust := rust.do(map[string]any{"do": "trusts", "user": ana.bot, "device": b.adapter.cli.DeviceID})
	assert.True(t, trust.Signed)
	assert.Contains(t, rust.ask(room, "!gauge 18ga").Body, "1.024 mm")
	assert.Equal(t, event.MsgImage, rust.ask(room, "!"+aCollet).MsgType)
}

// TestResetAfterVerification: the same where the person had verified the bot.
// Their client refuses the new keys, as it must, until they withdraw that.
func TestResetAfterVerification(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	log := &lines{}
	rust, ana, b, room := rustInRoom(t, h, func(cfg *Config, rust *rustClient) { cfg.VerifyWith = []string{string(rust.user)} }, logTo(t, log))
	assert.Contains(t, rust.ask(room, "!gauge 20ga").Body, "0.812 mm")
	rust.verify(ana.bot, room, log)

	b.resetWithoutStore(logTo(t, log))
	trust := rust.do(map[string]any{"do": "trusts", "user": ana.bot, "device": b.adapter.cli.DeviceID})
	assert.False(t, trust.Verified)
	assert.NotZero(t, log.count("must verify it again or withdraw that"))
	refused := rust.try(map[string]any{"do": "send", "room": room, "body": "!gauge 18ga"})
	assert.NotEmpty(t, refused.Error, "a changed identity that was verified was given a key")
	rust.do(map[string]any{"do": "withdraw", "user": ana.bot})
	assert.Contains(t, rust.ask(room, "!gauge 18ga").Body, "1.024 mm")
}
