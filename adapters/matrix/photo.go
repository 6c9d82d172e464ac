package matrix

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"guildhand/bot/photograph"
)

// photoTime is for how long a photograph is fetched. The homeserver may have to
// get it from another one first.
const photoTime = 30 * time.Second

// captioned turns the content of a picture into that of its caption, which is
// empty where the body is only the file's name.
func captioned(c *event.MessageEventContent) *event.MessageEventContent {
	text := *c
	if c.FileName == "" || c.FileName == c.Body {
		text.Body, text.FormattedBody = "", ""
	}
	return &text
}

// asksForTracing reports whether a message in reply to a picture wants it traced.
func asksForTracing(text string) bool {
	return strings.HasPrefix(strings.ToLower(text), "trace")
}

// photograph is the picture that a message brings, or the one at replied where a
// reply asks for its tracing. lost is set where there is one that can't be had.
func (a *Adapter) photograph(ctx context.Context, evt *event.Event, picture *event.MessageEventContent, replied id.EventID) (photo []byte, lost bool) {
	var err error
	if picture == nil && replied != "" {
		picture, err = a.pictureAt(ctx, evt.RoomID, replied)
	}
	if picture != nil {
		photo, err = a.fetchPhotograph(ctx, picture)
	}
	if err != nil {
		a.log.Warn("a photograph could not be had", "event", evt.ID, "room", evt.RoomID, "err", err)
	}
	return photo, err != nil
}

// pictureAt is the picture of an earlier message, nil where it has none.
func (a *Adapter) pictureAt(ctx context.Context, room id.RoomID, at id.EventID) (*event.MessageEventContent, error) {
	evt, err := persist(ctx, func(ctx context.Context) (*event.Event, error) { return a.cli.GetEvent(ctx, room, at) })
	if err != nil {
		return nil, err
	}
	evt.RoomID, evt.Type.Class = room, event.MessageEventType
	if err := evt.Content.ParseRaw(evt.Type); err != nil && !errors.Is(err, event.ErrContentAlreadyParsed) {
		return nil, err
	}
	if evt.Type == event.EventEncrypted {
		if a.crypto == nil {
			return nil, nil
		}
		if evt, err = a.crypto.decrypt(ctx, evt); err != nil {
			return nil, err
		}
	}
	if c := evt.Content.AsMessage(); evt.Type == event.EventMessage && c.MsgType == event.MsgImage {
		return c, nil
	}
	return nil, nil
}

// fetchPhotograph reads the picture of a message from the homeserver, a little
// over what a photograph may have at most, so that the bot names the limit.
func (a *Adapter) fetchPhotograph(ctx context.Context, c *event.MessageEventContent) ([]byte, error) {
	ctx, cancel := context.WithTimeout(ctx, photoTime)
	defer cancel()
	from := c.URL
	if c.File != nil {
		from = c.File.URL
	}
	uri, err := from.Parse()
	if err != nil {
		return nil, fmt.Errorf("photograph: %w", err)
	}
	got, err := a.cli.Download(ctx, uri)
	if err != nil {
		return nil, fmt.Errorf("photograph: %w", err)
	}
	defer got.Body.Close()
	data, err := io.ReadAll(io.LimitReader(got.Body, photograph.MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("photograph: %w", err)
	}
	if c.File == nil || len(data) > photograph.MaxBytes {
		return data, nil
	}
	return decrypted(c.File, data)
}

// decrypted opens an encrypted picture. Some clients pad the hash, which the
// library refuses.
func decrypted(f *event.EncryptedFileInfo, data []byte) ([]byte, error) {
	key := f.EncryptedFile
	key.Hashes.SHA256 = strings.TrimRight(key.Hashes.SHA256, "=")
	if err := key.PrepareForDecryption(); err != nil {
		return nil, errors.New("photograph: its key can't be read")
	}
	if err := key.DecryptInPlace(data); err != nil {
		return nil, fmt.Errorf("photograph: %w", err)
	}
	return data, nil
}
