package matrix

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// signer is what the bot's device may be signed with.
type signer struct {
	password, recoveryKey string
	// reset lets new cross-signing keys replace those that nobody can open.
	reset bool
	// saved are the stored seeds of cross-signing keys, and save stores new ones.
	saved []byte
	save  func([]byte) error
	// keepRecoveryKey writes down what opens the secret storage.
	keepRecoveryKey func(string) error
}

// identify makes sure that the server has the keys of the bot's device and that
// the device is signed: at the start, and after each login, since a server that
// signs a device out deletes both.
func (a *Adapter) identify(ctx context.Context) error {
	if a.crypto == nil {
		return nil
	}
	_, err := persist(ctx, func(ctx context.Context) (struct{}, error) { return struct{}{}, a.crypto.shareOwnKeys(ctx) })
	if err != nil {
		return fmt.Errorf("the device's keys: %w", err)
	}
	acct, err := a.store.account(ctx)
	if err != nil {
		return err
	}
	err = a.crypto.signDevice(ctx, signer{
		password: a.cfg.Password, recoveryKey: a.cfg.RecoveryKey, reset: a.cfg.ResetSigning,
		saved:           acct.crossSigning,
		save:            func(seeds []byte) error { return a.store.keepCrossSigning(ctx, seeds) },
		keepRecoveryKey: a.keepRecoveryKey,
	})
	if err != nil && ctx.Err() == nil {
		// It works all the same for most, with a warning beside the bot's messages.
		a.log.Warn("the bot's device is not signed: clients warn of it, and some do not let it read or be read", "err", err)
	}
	return nil
}

// recoveryKeyFile stands beside the store.
func recoveryKeyFile(storePath string) string { return storePath + ".recovery-key" }

// keepRecoveryKey writes the account's recovery key beside the store. An earlier
// one is kept too: it may open an older back-up of the account's keys.
func (a *Adapter) keepRecoveryKey(key string) error {
	path := recoveryKeyFile(a.cfg.StorePath)
	if err := os.Rename(path, path+".old"); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err := os.WriteFile(path, []byte(key+"\n"), 0o600); err != nil {
		return err
	}
	a.log.Warn("the account has new cross-signing keys; keep this file in a safe place, it recovers them if the store is lost; "+
		"whoever has verified the bot before must verify it again or withdraw that, or their client refuses it", "file", path)
	return nil
}
