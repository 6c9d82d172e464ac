package matrix

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix/crypto/attachment"
	"maunium.net/go/mautrix/event"
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
