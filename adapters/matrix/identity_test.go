//go:build goolm

package matrix

import (
	"context"
	"encoding/json"
	"net/http"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/crypto"
	"maunium.net/go/mautrix/crypto/signatures"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// otherClient makes cross-signing keys for the bot's account in another client,
// and gives the recovery key that the client shows its owner.
func otherClient(t *testing.T, h *homeserver) (recoveryKey string, selfSigning id.Ed25519) {
	t.Helper()
	cli := botSession(t, h)
	st, err := openStore(t.Context(), filepath.Join(t.TempDir(), "other.db"))
	require.NoError(t, err)
	defer st.close()
	cli.StateStore = mautrix.NewMemoryStateStore()
	mach := crypto.NewOlmMachine(cli, &cli.Log, crypto.NewMemoryStore(nil), cli.StateStore.(crypto.StateStore))
	require.NoError(t, mach.Load(t.Context()))
	require.NoError(t, mach.ShareKeys(t.Context(), -1))
	recoveryKey, keys, err := mach.GenerateAndUploadCrossSigningKeysWithPassword(t.Context(), password, "")
	require.NoError(t, err)
	return recoveryKey, keys.SelfSigningKey.PublicKey()
}

// trust is what a maker's client sees of the bot: whether the device that the
// bot uses is signed by the account's self-signing key, and that key.
func (m *maker) trust(device id.DeviceID) (signed bool, selfSigning id.Ed25519) {
	m.t.Helper()
	resp, err := m.cli.QueryKeys(m.ctx, &mautrix.ReqQueryKeys{DeviceKeys: mautrix.DeviceKeysRequest{m.bot: {}}})
	require.NoError(m.t, err)
	self := resp.SelfSigningKeys[m.bot]
	selfSigning = self.FirstKey()
	keys, ok := resp.DeviceKeys[m.bot][device]
	if !ok || selfSigning == "" {
		return false, selfSigning
	}
	signed, err = signatures.VerifySignatureJSON(keys, m.bot, selfSigning.String(), selfSigning)
	return err == nil && signed, selfSigning
}

// waitAnswered asks until the bot answers: what is said while it logs in again
// may come before it has its keys.
func waitAnswered(t *testing.T, m *maker, room id.RoomID, question string) {
	t.Helper()
	_, c := m.ask(room, question)
	assert.NotContains(t, c.Body, "can read")
}

// endSessions ends all sessions of the bot's account, and waits until the bot has
// logged in again and its device is signed.
func endSessions(b *runningBot, h *homeserver, m *maker) {
	b.t.Helper()
	device := b.adapter.cli.DeviceID
	_, err := botSession(b.t, h).LogoutAll(b.t.Context())
	require.NoError(b.t, err)
	require.Eventually(b.t, func() bool {
		signed, _ := m.trust(device)
		return signed && b.adapter.Ready() == nil
	}, patience, 100*time.Millisecond, "the device is not shared and signed again")
}

// TestSignedOutWhileRunning: all sessions of the account are ended while the bot
// runs. It logs in again, shares its keys and is signed, and reads and answers
// in an encrypted room; twice within a minute.
func TestSignedOutWhileRunning(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	room := ana.room(true)
	ana.ask(room, "!gauge 20ga")
	for range 2 {
		endSessions(b, h, ana)
		waitAnswered(t, ana, room, "!gauge 18ga")
	}
	ana.noPlainText(room)
}

// TestUsedBefore: the account was used in another client, which made its
// cross-signing keys. With the recovery key the bot signs its device with those,
// and changes none; a wrong one is said and changes none either; without one
// only a stated reset replaces them.
func TestUsedBefore(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	recoveryKey, theirs := otherClient(t, h)
	ana := newMaker(t, h, "ana")

	b := startBot(t, botConfig(t, h))
	room := ana.room(true)
	ana.ask(room, "!gauge 20ga")
	signed, key := ana.trust(b.adapter.cli.DeviceID)
	assert.False(t, signed)
	assert.Equal(t, theirs, key, "keys were replaced that nobody asked to replace")
	b.stop()

	b.cfg.RecoveryKey = "EsTA wron gkey"
	b.start()
	ana.ask(room, "!gauge 20ga")
	signed, key = ana.trust(b.adapter.cli.DeviceID)
	assert.False(t, signed)
	assert.Equal(t, theirs, key)
	b.stop()

	b.cfg.RecoveryKey = recoveryKey
	b.start()
	ana.ask(room, "!gauge 18ga")
	signed, key = ana.trust(b.adapter.cli.DeviceID)
	assert.True(t, signed, "the recovery key signs the device")
	assert.Equal(t, theirs, key)
	b.stop()
	b.cfg.RecoveryKey = "" // the store knows the keys now
	b.start()
	ana.ask(room, "!gauge 18ga")
	signed, _ = ana.trust(b.adapter.cli.DeviceID)
	assert.True(t, signed)
}

// TestLostStore: the store was lost. The recovery key that the bot kept beside
// it signs the new device; without it, a stated reset does.
func TestLostStore(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	room := ana.room(true)
	ana.ask(room, "!gauge 20ga")
	_, first := ana.trust(b.adapter.cli.DeviceID)
	b.stop()
	kept, err := os.ReadFile(recoveryKeyFile(b.cfg.StorePath))
	require.NoError(t, err)

	for _, row := range []struct {
		name        string
		recoveryKey string
		reset       bool
	}{{"with the recovery key", string(kept[:len(kept)-1]), false}, {"with a reset", "", true}} {
		b.cfg.StorePath = filepath.Join(t.TempDir(), "matrix.db")
		b.cfg.RecoveryKey, b.cfg.ResetSigning = row.recoveryKey, row.reset
		b.start()
		b.waitListening()
		ana.ask(room, "!gauge 18ga")
		signed, key := ana.trust(b.adapter.cli.DeviceID)
		assert.True(t, signed, row.name)
		assert.Equal(t, !row.reset, key == first, row.name)
		b.stop()
	}
	ana.noPlainText(room)
}

// TestResetWithWrongPassword: a reset that the server refuses leaves the account
// as it was; its owner's recovery key still works.
func TestResetWithWrongPassword(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	recoveryKey, theirs := otherClient(t, h)
	cli := botSession(t, h)
	cli.StateStore = mautrix.NewMemoryStateStore()
	mach := crypto.NewOlmMachine(cli, &cli.Log, crypto.NewMemoryStore(nil), cli.StateStore.(crypto.StateStore))
	require.NoError(t, mach.Load(t.Context()))
	e := &encryption{mach: mach}
	require.NoError(t, e.shareOwnKeys(t.Context()))
	none := func([]byte) error { return nil }
	err := e.signDevice(t.Context(), signer{password: "wrong", reset: true, save: none, keepRecoveryKey: func(string) error { return nil }})
	require.Error(t, err)
	mach.CrossSigningKeys = nil
	require.NoError(t, e.signDevice(t.Context(), signer{recoveryKey: recoveryKey, save: none}))
	assert.Equal(t, theirs, mach.CrossSigningKeys.SelfSigningKey.PublicKey())
}

// uploads records what a client uploads to keys/upload.
type uploads struct {
	http.RoundTripper
	bodies []map[string]json.RawMessage
}

func (u *uploads) RoundTrip(r *http.Request) (*http.Response, error) {
	if filepath.Base(r.URL.Path) == "upload" {
		var body map[string]json.RawMessage
		get, err := r.GetBody()
		if err == nil && json.NewDecoder(get).Decode(&body) == nil {
			u.bodies = append(u.bodies, body)
		}
	}
	return u.RoundTripper.RoundTrip(r)
}

// TestFallbackKey: where the server says that it has no unused fallback key, one
// is uploaded, signed by the device; not where it has one or knows none.
// Dendrite takes such keys and does not hand them out, so that what it gets is
// looked at here and not what others claim.
func TestFallbackKey(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	cli := botSession(t, h)
	seen := &uploads{RoundTripper: http.DefaultTransport}
	cli.Client = &http.Client{Transport: seen}
	cli.StateStore = mautrix.NewMemoryStateStore()
	mach := crypto.NewOlmMachine(cli, &cli.Log, crypto.NewMemoryStore(nil), cli.StateStore.(crypto.StateStore))
	require.NoError(t, mach.Load(t.Context()))
	e := &encryption{mach: mach}
	require.NoError(t, e.shareOwnKeys(t.Context()))
	seen.bodies = nil
	ctx := context.Background()
	e.renewFallbackKey(ctx, nil)
	e.renewFallbackKey(ctx, []id.KeyAlgorithm{id.KeyAlgorithmSignedCurve25519})
	assert.Empty(t, seen.bodies)
	e.renewFallbackKey(ctx, []id.KeyAlgorithm{})
	require.Len(t, seen.bodies, 1)
	var keys map[id.KeyID]json.RawMessage
	require.NoError(t, json.Unmarshal(seen.bodies[0]["fallback_keys"], &keys))
	require.Len(t, keys, 1)
	for _, key := range keys {
		ok, err := signatures.VerifySignatureJSON(key, cli.UserID, cli.DeviceID.String(), mach.OwnIdentity().SigningKey)
		require.NoError(t, err)
		assert.True(t, ok, "signed by the device: %s", key)
		assert.Contains(t, string(key), `"fallback":true`)
	}
	e.renewFallbackKey(ctx, []id.KeyAlgorithm{})
	assert.Len(t, seen.bodies, 1, "not twice within the hour")
}

// TestWithheld: a client that gives its keys to verified devices only talks in a
// room. It is told once, with the reason and what to do.
func TestWithheld(t *testing.T) {
	t.Parallel()
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	room := ana.room(true)
	ana.ask(room, "!gauge 20ga")
	ana.e.mach.SendKeysMinTrust = id.TrustStateVerified
	var said []id.EventID
	for range 4 {
		// Each line has a key of its own, as with a client that was just told so.
		require.NoError(t, ana.e.mach.CryptoStore.RemoveOutboundGroupSession(ana.ctx, room))
		said = append(said, ana.say(room, "lovely weather today"))
	}
	hint := ana.waitText(room, said[0]).Body
	assert.Contains(t, hint, "only to devices that you have verified")
	assert.Contains(t, hint, b.adapter.crypto.fingerprint())
	ana.e.mach.SendKeysMinTrust = id.TrustStateUnset
	require.NoError(t, ana.e.mach.CryptoStore.RemoveOutboundGroupSession(ana.ctx, room))
	ana.noReplies(room, said[1:])
}

// TestFallbackKeyServes: when all one-time keys of the bot are used up while it is
// away, a device that is new to it is read all the same. Dendrite does not hand
// fallback keys out.
func TestFallbackKeyServes(t *testing.T) {
	t.Parallel()
	if synapseRoot(t) == "" {
		t.Skip("Dendrite hands no fallback keys out; .ci/run long synapse tests it")
	}
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	ana, ben := newMaker(t, h, "ana"), newMaker(t, h, "ben")
	room := ana.room(true, func(r *mautrix.ReqCreateRoom) { r.Invite = append(r.Invite, ben.cli.UserID) })
	ana.ask(room, "!gauge 20ga")
	_, err := ben.cli.JoinRoomByID(ben.ctx, room)
	require.NoError(t, err)
	ben.waitMember(room, ben.cli.UserID, event.MembershipJoin)
	ana.waitMember(room, ben.cli.UserID, event.MembershipJoin)
	device := b.adapter.cli.DeviceID
	b.stop()
	claimed := map[id.KeyID]int{}
	claim := func() (last id.KeyID) {
		resp, err := ana.cli.ClaimKeys(ana.ctx, &mautrix.ReqClaimKeys{OneTimeKeys: mautrix.OneTimeKeysRequest{
			ana.bot: {device: id.KeyAlgorithmSignedCurve25519}}})
		require.NoError(t, err)
		for key := range resp.OneTimeKeys[ana.bot][device] {
			last = key
		}
		require.NotEmpty(t, last, "no key to claim after %d", len(claimed))
		claimed[last]++
		return last
	}
	for claimed[claim()] < 2 { // only a fallback key is handed out twice
		require.Less(t, len(claimed), 200)
	}
	q := ben.say(room, "!gauge 18ga")
	b.start()
	assert.Contains(t, ben.waitText(room, q).Body, "18 ga")
	t.Logf("%d keys were claimed before the fallback key came again", len(claimed))
}
