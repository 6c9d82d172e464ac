//go:build goolm

package matrix

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"time"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/crypto"
	goolm "maunium.net/go/mautrix/crypto/goolm/account"
	"maunium.net/go/mautrix/id"
)

// errForeignKeys: another session of the account made cross-signing keys, or the
// store that had them was lost. Replacing them breaks that session's trust, so
// a person has to decide.
var errForeignKeys = errors.New("the account has cross-signing keys that this store does not know: " +
	"give the account's recovery key as matrix.recovery_key_file, verify the bot's device from the session that made them, " +
	"or set matrix.reset_signing to true, which replaces them and needs the password")

// signDevice signs the bot's device with the account's cross-signing keys, so
// that clients do not warn of it and those that trust signed devices only can
// read its answers. The keys are the stored ones, new ones where the account has
// none, those of its secret storage, or, where that is asked for, new ones in
// place of those that nobody can open.
func (e *encryption) signDevice(ctx context.Context, by signer) error {
	mach := e.mach
	if len(by.saved) > 0 && mach.CrossSigningKeys == nil {
		var seeds crypto.CrossSigningSeeds
		if err := json.Unmarshal(by.saved, &seeds); err != nil {
			return fmt.Errorf("stored cross-signing keys: %w", err)
		}
		if err := mach.ImportCrossSigningKeys(seeds); err != nil {
			return fmt.Errorf("stored cross-signing keys: %w", err)
		}
	}
	onServer, signed, err := e.serverKeys(ctx)
	if err != nil || signed {
		return err
	}
	ours := mach.CrossSigningKeys != nil && mach.CrossSigningKeys.SelfSigningKey.PublicKey() == onServer
	switch {
	case onServer == "":
		err = e.publishKeys(ctx, by, mach.CrossSigningKeys)
	case ours:
	case by.recoveryKey != "":
		return e.recoverKeys(ctx, by, onServer)
	case by.reset && by.password != "":
		err = e.publishKeys(ctx, by, nil)
	default:
		return errForeignKeys
	}
	if err != nil {
		return err
	}
	if err := mach.SignOwnDevice(ctx, mach.OwnIdentity()); err != nil {
		return fmt.Errorf("signing the device: %w", err)
	}
	if err := mach.SignOwnMasterKey(ctx); err != nil {
		return fmt.Errorf("signing the master key: %w", err)
	}
	return nil
}

// recoverKeys takes the keys from the account's secret storage and signs with
// them. Nothing on the server is changed before they turn out to be right.
func (e *encryption) recoverKeys(ctx context.Context, by signer, onServer id.Ed25519) error {
	if err := e.mach.VerifyWithRecoveryKey(ctx, by.recoveryKey); err != nil {
		return fmt.Errorf("matrix.recovery_key_file does not open the account's secret storage: %w", err)
	}
	if e.mach.CrossSigningKeys.SelfSigningKey.PublicKey() != onServer {
		return errors.New("the account's secret storage holds other cross-signing keys than the account has: " + errForeignKeys.Error())
	}
	return by.keep(e.mach.CrossSigningKeys)
}

// publishKeys uploads cross-signing keys, made anew where none are given, and
// then puts them into the account's secret storage. Servers may ask for the
// password. The order matters: the library's own way writes the new secrets
// first and so destroys the old ones where the password is wrong.
func (e *encryption) publishKeys(ctx context.Context, by signer, keys *crypto.CrossSigningKeysCache) error {
	mach := e.mach
	if keys == nil {
		var err error
		if keys, err = mach.GenerateCrossSigningKeys(); err != nil {
			return err
		}
		if err := by.keep(keys); err != nil {
			return err
		}
	}
	err := mach.PublishCrossSigningKeys(ctx, keys, func(ui *mautrix.RespUserInteractive) any {
		return &mautrix.ReqUIAuthLogin{
			BaseAuthData: mautrix.BaseAuthData{Type: mautrix.AuthTypePassword, Session: ui.Session},
			User:         mach.Client.UserID.String(),
			Password:     by.password,
		}
	})
	if err != nil {
		return fmt.Errorf("publishing the cross-signing keys: %w", err)
	}
	key, err := mach.SSSS.GenerateAndUploadKey(ctx, "")
	if err == nil {
		err = mach.UploadCrossSigningKeysToSSSS(ctx, key, keys)
	}
	if err == nil {
		err = mach.SSSS.SetDefaultKeyID(ctx, key.ID)
	}
	if err == nil {
		err = by.keepRecoveryKey(key.RecoveryKey())
	}
	if err != nil {
		return fmt.Errorf("the account's secret storage: %w", err)
	}
	return nil
}

// keep stores the secret seeds of cross-signing keys.
func (by signer) keep(keys *crypto.CrossSigningKeysCache) error {
	seeds, err := json.Marshal(keys.Seeds())
	if err != nil {
		return err
	}
	return by.save(seeds)
}

// serverKeys gives the account's self-signing key as the server has it, empty
// for none, and whether the device carries its signature.
func (e *encryption) serverKeys(ctx context.Context) (self id.Ed25519, signed bool, err error) {
	cli := e.mach.Client
	resp, err := cli.QueryKeys(ctx, &mautrix.ReqQueryKeys{
		DeviceKeys: mautrix.DeviceKeysRequest{cli.UserID: mautrix.DeviceIDList{cli.DeviceID}},
	})
	if err != nil {
		return "", false, err
	}
	keys, ok := resp.SelfSigningKeys[cli.UserID]
	if !ok {
		return "", false, nil
	}
	self = keys.FirstKey()
	device := resp.DeviceKeys[cli.UserID][cli.DeviceID]
	_, signed = device.Signatures[cli.UserID][id.NewKeyID(id.KeyAlgorithmEd25519, self.String())]
	return self, signed, nil
}

// fallbackEvery bounds how often a fallback key is made, where a server does not
// say that it has it.
const fallbackEvery = time.Hour

// renewFallbackKey uploads a fallback key where the server has none that is
// unused. It serves those who want to write to the bot when its one-time keys
// are used up; each claim of it is followed by a new one.
func (e *encryption) renewFallbackKey(ctx context.Context, unused []id.KeyAlgorithm) {
	if unused == nil || time.Since(e.fallbackAt) < fallbackEvery {
		return // the server does not know fallback keys, or has just got one
	}
	for _, algorithm := range unused {
		if algorithm == id.KeyAlgorithmSignedCurve25519 {
			return
		}
	}
	if err := e.uploadFallbackKey(ctx); err != nil {
		e.mach.Log.Warn().Err(err).Msg("fallback key not uploaded")
		return
	}
	e.fallbackAt = time.Now()
}

// uploadFallbackKey makes a fallback key, stores it and gives the server its
// public half: the library does not.
func (e *encryption) uploadFallbackKey(ctx context.Context) error {
	own := e.mach.GetAccount()
	keys, ok := own.Internal.(*goolm.Account)
	if !ok {
		return errors.New("these keys know no fallback")
	}
	e.sharing.Lock()
	defer e.sharing.Unlock()
	if err := keys.GenFallbackKey(); err != nil {
		return err
	}
	cli := e.mach.Client
	upload := map[id.KeyID]any{}
	for name, key := range keys.FallbackKeyUnpublished() {
		content := map[string]any{"key": key, "fallback": true}
		signature, err := own.SignJSON(content)
		if err != nil {
			return err
		}
		content["signatures"] = map[id.UserID]map[id.KeyID]string{
			cli.UserID: {id.NewKeyID(id.KeyAlgorithmEd25519, cli.DeviceID.String()): signature},
		}
		upload[id.NewKeyID(id.KeyAlgorithmSignedCurve25519, name)] = content
	}
	// Stored first: a key that the server hands out must never be lost.
	if err := e.mach.CryptoStore.PutAccount(ctx, own); err != nil {
		return err
	}
	_, err := cli.MakeRequest(ctx, http.MethodPost, cli.BuildClientURL("v3", "keys", "upload"), map[string]any{"fallback_keys": upload}, nil)
	if err != nil {
		return err
	}
	keys.MarkKeysAsPublished()
	return e.mach.CryptoStore.PutAccount(ctx, own)
}
