package matrix

import (
	"context"
	"time"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// makerCrypto lets the library's own sending encrypt, as it does for any client.
type makerCrypto struct{ e *encryption }

func (c makerCrypto) Encrypt(ctx context.Context, room id.RoomID, t event.Type, content any) (*event.EncryptedEventContent, error) {
	return c.e.encrypt(ctx, room, t, content)
}

func (c makerCrypto) EncryptWithStateKey(ctx context.Context, room id.RoomID, t event.Type, _ *string, content any) (*event.EncryptedEventContent, error) {
	return c.e.encrypt(ctx, room, t, content)
}

func (c makerCrypto) Decrypt(ctx context.Context, evt *event.Event) (*event.Event, error) {
	return c.e.decrypt(ctx, evt)
}

func (c makerCrypto) WaitForSession(context.Context, id.RoomID, id.SenderKey, id.SessionID, time.Duration) bool {
	return false
}

func (c makerCrypto) RequestSession(context.Context, id.RoomID, id.SenderKey, id.SessionID, id.UserID, id.DeviceID) {
}

func (c makerCrypto) Init(context.Context) error { return nil }
