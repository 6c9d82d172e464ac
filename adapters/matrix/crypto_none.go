//go:build !goolm

package matrix

import (
	"context"
	"errors"
	"log/slog"
	"time"

	"go.mau.fi/util/dbutil"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// encryptionBuilt tells whether this build can encrypt. The library's
// encryption needs the build tag goolm (or a C library); without it the program
// is to build and to work in rooms without encryption.
const encryptionBuilt = false

var errNoEncryption = errors.New(noEncryptionHere)

// encryption of a build that has none: no value of it is ever made.
type encryption struct{}

func startEncryption(context.Context, *mautrix.Client, *dbutil.Database, account) (*encryption, error) {
	return nil, errNoEncryption
}

func (e *encryption) attach(mautrix.ExtensibleSyncer) {}

func (e *encryption) shareOwnKeys(context.Context) error { return errNoEncryption }

func (e *encryption) signDevice(context.Context, signer) error { return errNoEncryption }

func (e *encryption) encrypt(context.Context, id.RoomID, event.Type, any) (*event.EncryptedEventContent, error) {
	return nil, errNoEncryption
}

func (e *encryption) decrypt(context.Context, *event.Event) (*event.Event, error) {
	return nil, errNoEncryption
}

func (e *encryption) keyMissing(error) bool { return false }

func (e *encryption) withheld(error) string { return "" }

func (e *encryption) answerVerification(context.Context, mautrix.DispatchableSyncer, []string, *slog.Logger) error {
	return errNoEncryption
}

func (e *encryption) verification(context.Context, *event.Event) bool { return false }

func (e *encryption) fingerprint() string { return "" }

func (e *encryption) waitForKey(context.Context, *event.Event, time.Duration) bool { return false }

func (e *encryption) requestKey(context.Context, *event.Event) {}
