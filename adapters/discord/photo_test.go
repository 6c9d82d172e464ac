package discord

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot/photograph"
)

func TestPhotographsComeFromMediaHostsOnly(t *testing.T) {
	server := httptest.NewTLSServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch r.URL.Path {
		case "/moved":
			http.Redirect(w, r, "/stone.jpg", http.StatusFound)
		case "/endless":
			for range photograph.MaxBytes/4096 + 50 {
				if _, err := w.Write(make([]byte, 4096)); err != nil {
					return
				}
			}
		default:
			_, _ = w.Write([]byte("photo"))
		}
	}))
	defer server.Close()
	at, err := url.Parse(server.URL)
	require.NoError(t, err)
	client := *server.Client()
	client.CheckRedirect = noRedirects.CheckRedirect
	fetch := func(from string) ([]byte, error) {
		return fetchPhotograph(t.Context(), &client, []string{at.Host}, from)
	}
	data, err := fetch(server.URL + "/stone.jpg")
	require.NoError(t, err)
	assert.Equal(t, "photo", string(data))
	data, err = fetch(server.URL + "/endless")
	require.NoError(t, err)
	assert.Len(t, data, photograph.MaxBytes+1)
	_, err = fetch(server.URL + "/moved")
	require.ErrorContains(t, err, "302")
	for _, from := range []string{"http://" + at.Host + "/stone.jpg", "https://example.org/stone.jpg", "https://me@" + at.Host + "/x", "file:///etc/passwd", "https://" + at.Host + ".example.org/x", "::"} {
		_, err = fetch(from)
		require.ErrorContains(t, err, "media hosts", from)
	}
}

func TestWhichMessagesWantTheirPhotograph(t *testing.T) {
	assert.True(t, wantsPhotograph(""))
	assert.True(t, wantsPhotograph("Trace length 18"))
	assert.False(t, wantsPhotograph("collet oval 8x6"))
	assert.Equal(t, "b", photographOf([]attached{{"a", "text/plain"}, {"b", "image/jpeg"}, {"c", "image/png"}}))
	assert.Empty(t, photographOf(nil))
}
