//go:build goolm

package matrix

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"go.mau.fi/util/dbutil"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/crypto"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// encryptionBuilt tells whether this build can encrypt.
const encryptionBuilt = true

// encryption holds the bot's keys. They live in the adapter's store.
type encryption struct {
	db   *dbutil.Database
	mach *crypto.OlmMachine
	// sharing is held while keys come in, are handed out or are weighed. The first
	// two take a lock of the machine's and write to the database, in opposite
	// orders, and the machine remembers the account's own signing keys without a
	// lock, for every message that it decrypts.
	sharing sync.Mutex
	// fallbackAt is when a fallback key was last uploaded.
	fallbackAt time.Time
	verifier   *verifier
}

// startEncryption loads the keys of the client's device, or makes them;
// shareOwnKeys uploads their public halves.
func startEncryption(ctx context.Context, cli *mautrix.Client, db *dbutil.Database, acct account) (*encryption, error) {
	store := crypto.NewSQLCryptoStore(db, nil, "", cli.DeviceID, acct.pickleKey)
	if err := store.DB.Upgrade(ctx); err != nil {
		return nil, fmt.Errorf("tables of keys: %w", err)
	}
	stored, err := store.FindDeviceID(ctx)
	if err != nil {
		return nil, fmt.Errorf("device of the keys: %w", err)
	}
	if stored != "" && stored != cli.DeviceID {
		return nil, fmt.Errorf("the store holds the keys of device %s, the session is device %s: "+
			"give that device's token, or name a new store_path", stored, cli.DeviceID)
	}
	rooms, ok := cli.StateStore.(crypto.StateStore)
	if !ok {
		return nil, errors.New("the room state store does not serve encryption")
	}
	e := &encryption{db: db, mach: crypto.NewOlmMachine(cli, &cli.Log, store, rooms)}
	if err := e.mach.Load(ctx); err != nil {
		return nil, fmt.Errorf("keys: %w", err)
	}
	return e, nil
}

// shareOwnKeys makes sure that the server has the device's keys. They are stored
// before they are uploaded, so it may also be done again after a crash.
func (e *encryption) shareOwnKeys(ctx context.Context) error {
	cli := e.mach.Client
	resp, err := cli.QueryKeys(ctx, &mautrix.ReqQueryKeys{
		DeviceKeys: mautrix.DeviceKeysRequest{cli.UserID: mautrix.DeviceIDList{cli.DeviceID}},
	})
	if err != nil {
		return fmt.Errorf("own keys on the server: %w", err)
	}
	account := e.mach.GetAccount()
	device, ok := resp.DeviceKeys[cli.UserID][cli.DeviceID]
	there := ok && len(device.Keys) > 0
	if there && device.Keys.GetEd25519(cli.DeviceID) != e.mach.OwnIdentity().SigningKey {
		return errNever{fmt.Errorf("the server has other keys for device %s than the store: "+
			"the store is not this device's; log in anew with a new store_path", cli.DeviceID)}
	}
	if there && account.Shared {
		return nil
	}
	account.Shared = false
	return e.mach.ShareKeys(ctx, -1)
}

// attach makes the syncer pass on what concerns keys.
func (e *encryption) attach(s mautrix.ExtensibleSyncer) {
	s.OnSync(e.receive)
	s.OnEventType(event.StateMember, e.mach.HandleMemberEvent)
	s.OnEventType(event.StateHistoryVisibility, e.mach.HandleHistoryVisibility)
}

// receive takes the keys and device changes of a response. Each key is taken in
// one transaction: the library first notes that it has seen the message and
// then stores the key in it, and a crash in between would lose the key for good.
func (e *encryption) receive(ctx context.Context, resp *mautrix.RespSync, since string) bool {
	e.sharing.Lock()
	e.mach.HandleDeviceLists(ctx, &resp.DeviceLists, since)
	e.sharing.Unlock()
	for _, evt := range resp.ToDevice.Events {
		evt.Type.Class = event.ToDeviceEventType
		if err := evt.Content.ParseRaw(evt.Type); err != nil {
			continue // not a kind that we know
		}
		if evt.Type != event.ToDeviceEncrypted {
			e.mach.HandleToDeviceEvent(ctx, evt)
			continue
		}
		// Asking the server for the sender's keys is done before: a transaction
		// keeps others from writing.
		e.sharing.Lock()
		_, _ = e.mach.GetOrFetchDeviceByKey(ctx, evt.Sender, evt.Content.AsEncrypted().SenderKey)
		err := e.db.DoTxn(ctx, nil, func(ctx context.Context) error {
			e.mach.HandleToDeviceEvent(ctx, evt)
			return nil
		})
		e.sharing.Unlock()
		if err != nil {
			e.mach.Log.Error().Err(err).Msg("key not stored")
		}
	}
	e.mach.HandleOTKCounts(ctx, &resp.DeviceOTKCount)
	e.renewFallbackKey(ctx, resp.FallbackKeys)
	e.mach.MarkOlmHashSavePoint(ctx)
	return true
}

// encrypt encrypts for a room, sharing a new key with its members where needed.
func (e *encryption) encrypt(ctx context.Context, room id.RoomID, t event.Type, content any) (*event.EncryptedEventContent, error) {
	secret, err := e.mach.EncryptMegolmEvent(ctx, room, t, content)
	if !errors.Is(err, crypto.ErrSessionExpired) && !errors.Is(err, crypto.ErrNoGroupSession) && !errors.Is(err, crypto.ErrSessionNotShared) {
		return secret, err
	}
	members, err := e.mach.Client.StateStore.GetRoomJoinedOrInvitedMembers(ctx, room)
	if err != nil {
		return nil, fmt.Errorf("members: %w", err)
	}
	e.sharing.Lock()
	err = e.mach.ShareGroupSession(ctx, room, members)
	e.sharing.Unlock()
	if err != nil {
		return nil, fmt.Errorf("sharing a key: %w", err)
	}
	return e.mach.EncryptMegolmEvent(ctx, room, t, content)
}

func (e *encryption) decrypt(ctx context.Context, evt *event.Event) (*event.Event, error) {
	e.sharing.Lock()
	defer e.sharing.Unlock()
	return e.mach.DecryptMegolmEvent(ctx, evt)
}

// keyMissing reports whether a decryption failed for want of a key that may
// still come.
func (e *encryption) keyMissing(err error) bool { return errors.Is(err, crypto.ErrNoSessionFound) }

// withheld gives the code with which the sender's client kept a key back, or "".
func (e *encryption) withheld(err error) string {
	var content *event.RoomKeyWithheldEventContent
	if !errors.Is(err, crypto.ErrGroupSessionWithheld) || !errors.As(err, &content) {
		return ""
	}
	return string(content.Code)
}

// fingerprint is what people compare to verify the bot's device.
func (e *encryption) fingerprint() string { return e.mach.Fingerprint() }

// waitForKey waits for the key of an encrypted event.
func (e *encryption) waitForKey(ctx context.Context, evt *event.Event, wait time.Duration) bool {
	c := evt.Content.AsEncrypted()
	came := e.mach.WaitForSession(ctx, evt.RoomID, c.SenderKey, c.SessionID, wait)
	// The machine tells of a key within the transaction that stores it.
	e.sharing.Lock()
	defer e.sharing.Unlock()
	return came
}

// requestKey asks the sender's devices for the key, and the bot's other ones.
func (e *encryption) requestKey(ctx context.Context, evt *event.Event) {
	c := evt.Content.AsEncrypted()
	device := c.DeviceID //lint:ignore SA1019 still sent by most clients; where it is not, all devices are asked
	if device == "" {
		device = "*"
	}
	err := e.mach.SendRoomKeyRequest(ctx, evt.RoomID, c.SenderKey, c.SessionID, "", map[id.UserID][]id.DeviceID{
		evt.Sender: {device}, e.mach.Client.UserID: {"*"},
	})
	if err != nil {
		e.mach.Log.Warn().Err(err).Msg("key not asked for")
	}
}
