package matrix

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/crypto/attachment"
	"maunium.net/go/mautrix/event"

	"guildhand/adapters/conversationtest"
)

func TestEncryptedPhotograph(t *testing.T) {
	file := attachment.NewEncryptedFile()
	data := []byte("photo")
	file.EncryptInPlace(data)
	for _, padding := range []string{"", "="} {
		info := event.EncryptedFileInfo{EncryptedFile: *file}
		info.Hashes.SHA256 += padding
		raw, err := json.Marshal(info)
		require.NoError(t, err)
		var sent event.EncryptedFileInfo
		require.NoError(t, json.Unmarshal(raw, &sent))
		got, err := decrypted(&sent, append([]byte(nil), data...))
		require.NoError(t, err)
		assert.Equal(t, "photo", string(got))
		_, err = decrypted(&sent, append([]byte("x"), data...))
		assert.Error(t, err, "changed on the way")
	}
}

func TestCaptions(t *testing.T) {
	caption := func(body, file string) string {
		return captioned(&event.MessageEventContent{MsgType: event.MsgImage, Body: body, FileName: file}).Body
	}
	assert.Empty(t, caption("IMG_1.jpg", ""))
	assert.Empty(t, caption("IMG_1.jpg", "IMG_1.jpg"))
	assert.Equal(t, "trace length 18", caption("trace length 18", "IMG_1.jpg"))
}

// testTracing: a photograph by itself and one that is replied to are traced, and
// the outline goes into a bezel, whose strip is the perimeter and pi times the
// metal.
func testTracing(t *testing.T, ana, _ *maker, encrypted bool) {
	room := ana.room(encrypted, func(r *mautrix.ReqCreateRoom) {
		r.Name, r.IsDirect, r.Preset = "", true, "trusted_private_chat"
	})
	data, err := os.ReadFile("../../bot/testdata/stone-on-card.jpg")
	require.NoError(t, err)
	picture := &event.MessageEventContent{MsgType: event.MsgImage, Body: "IMG_1.jpg", FileName: "IMG_1.jpg"}
	if encrypted {
		file := attachment.NewEncryptedFile()
		file.EncryptInPlace(data)
		picture.File = &event.EncryptedFileInfo{EncryptedFile: *file}
	}
	up, err := ana.cli.UploadBytes(ana.ctx, data, "application/octet-stream")
	require.NoError(t, err)
	if encrypted {
		picture.File.URL = up.ContentURI.CUString()
	} else {
		picture.URL = up.ContentURI.CUString()
	}
	sent := ana.send(room, picture)
	traced := ana.waitText(room, sent).Body
	perimeter := conversationtest.NumberIn(t, traced, `([\d.]+) mm round its edge`)
	assert.InDelta(t, 49.0, perimeter, 0.25)

	reply := ana.send(room, &event.MessageEventContent{
		MsgType: event.MsgText, Body: "trace length 18.2", RelatesTo: (&event.RelatesTo{}).SetReplyTo(sent),
	})
	assert.Contains(t, ana.waitText(room, reply).Body, "18.2")
	_, kept := ana.ask(room, "trace keep moss")
	assert.Contains(t, kept.Body, "moss")
	scaled := perimeter * 18.2 / conversationtest.NumberIn(t, traced, `measures ([\d.]+) x`)
	_, bezel := ana.ask(room, "bezel traced moss sterling 0.32mm clearance 0")
	assert.InDelta(t, scaled+math.Pi*0.32, conversationtest.NumberIn(t, bezel.Body, `length: \**([\d.]+) mm`), 0.05)
}
