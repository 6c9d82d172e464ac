//go:build goolm

package matrix

import (
	"context"
	"fmt"
	"log/slog"
	"slices"
	"strings"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/crypto/verificationhelper"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// verifier answers people who verify the bot by comparing emoji. What the bot
// shows stands in its log, where its owner reads it; whoever verifies decides in
// their own client whether it is the same. The bot itself has nobody to compare,
// so it trusts nothing because of it.
type verifier struct {
	e *encryption
	// with are those who may verify the bot, beside its own account.
	with   []string
	log    *slog.Logger
	helper *verificationhelper.VerificationHelper
	syncer mautrix.DispatchableSyncer
}

// onlyEncrypts is what the library needs for sending verification's own messages
// to encrypted rooms.
type onlyEncrypts struct {
	mautrix.CryptoHelper
	e *encryption
}

func (c onlyEncrypts) Encrypt(ctx context.Context, room id.RoomID, t event.Type, content any) (*event.EncryptedEventContent, error) {
	return c.e.encrypt(ctx, room, t, content)
}

// answerVerification makes the syncer pass on what verification sends from
// device to device. What it sends in a room comes by verification.
func (e *encryption) answerVerification(ctx context.Context, s mautrix.DispatchableSyncer, with []string, log *slog.Logger) error {
	v := &verifier{e: e, with: with, log: log, syncer: s}
	e.mach.Client.Crypto = onlyEncrypts{e: e}
	v.helper = verificationhelper.NewVerificationHelper(e.mach.Client, e.mach, nil, v, false, false, true)
	e.verifier = v
	return v.helper.Init(ctx)
}

// verification takes an event of a room that belongs to a verification, and
// reports whether it was one.
func (e *encryption) verification(ctx context.Context, evt *event.Event) bool {
	asks := evt.Type == event.EventMessage && evt.Content.AsMessage().MsgType == event.MsgVerificationRequest
	if !asks && !strings.HasPrefix(evt.Type.Type, "m.key.verification.") {
		return false
	}
	if e.verifier == nil {
		return true
	}
	step := *evt
	if !asks {
		// The library takes an event's own id for the name of what it belongs to.
		relation, ok := evt.Content.Parsed.(event.Relatable)
		if !ok || relation.OptionalGetRelatesTo() == nil {
			return true
		}
		step.ID = relation.OptionalGetRelatesTo().EventID
	}
	e.verifier.syncer.Dispatch(ctx, &step)
	return true
}

// refuses says why somebody may not verify the bot now, or nothing.
//
// Whoever verifies another session of one's own account signs it. The bot can't
// compare, so it must not sign: where it has the keys to, it refuses.
func (v *verifier) refuses(from id.UserID) string {
	hasKeys := v.e.mach.CrossSigningKeys != nil
	switch {
	case from == v.e.mach.Client.UserID && hasKeys:
		return "the bot has signed its device itself and signs no other; verify the new session with the account's recovery key"
	case from == v.e.mach.Client.UserID:
		return ""
	case !slices.Contains(v.with, string(from)):
		return "matrix.verify_with does not name you"
	case !hasKeys:
		return "the bot's own device is not signed yet"
	}
	return ""
}

// VerificationRequested accepts or refuses.
func (v *verifier) VerificationRequested(ctx context.Context, txn id.VerificationTransactionID, from id.UserID, device id.DeviceID) {
	reason := v.refuses(from)
	var err error
	if reason == "" {
		err = v.helper.AcceptVerification(ctx, txn)
	} else {
		err = v.helper.CancelVerification(ctx, txn, event.VerificationCancelCodeUser, reason)
	}
	v.log.Info("somebody wants to verify the bot", "user", from, "device", device, "refused", reason, "err", err)
}

// VerificationReady waits for the other side to begin.
func (v *verifier) VerificationReady(context.Context, id.VerificationTransactionID, id.DeviceID, bool, bool, *verificationhelper.QRCode) {
}

// ShowSAS shows the emoji, and confirms for the bot's part: the library needs
// that before the other side does.
func (v *verifier) ShowSAS(ctx context.Context, txn id.VerificationTransactionID, emoji []rune, names []string, _ []int) {
	var shown []string
	for i, symbol := range emoji {
		shown = append(shown, fmt.Sprintf("%c %s", symbol, names[i]))
	}
	v.log.Warn("compare these emoji with those that your client shows, and confirm there only if they are the same", "emoji", strings.Join(shown, ", "))
	go func() { // the library holds its lock here
		if err := v.helper.ConfirmSAS(ctx, txn); err != nil && ctx.Err() == nil {
			v.log.Warn("verification failed", "err", err)
		}
	}()
}

// VerificationCancelled tells of it.
func (v *verifier) VerificationCancelled(_ context.Context, _ id.VerificationTransactionID, code event.VerificationCancelCode, reason string) {
	v.log.Warn("verification was cancelled", "code", code, "reason", reason)
}

// VerificationDone tells of it.
func (v *verifier) VerificationDone(context.Context, id.VerificationTransactionID, event.VerificationMethod) {
	v.log.Info("the bot was verified")
}
