package discord

import (
	"math"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/adapters/conversationtest"
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
		return photoSource{&client, []string{at.Host}}.fetch(t.Context(), from)
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

// photographs serves one photograph as Discord's media host, and lets the bot
// fetch from there.
func photographs(t *testing.T, r *rig) attached {
	t.Helper()
	photo, err := os.ReadFile("../../bot/testdata/stone-on-card.jpg")
	require.NoError(t, err)
	server := httptest.NewTLSServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { _, _ = w.Write(photo) }))
	t.Cleanup(server.Close)
	at, err := url.Parse(server.URL)
	require.NoError(t, err)
	r.adapter.photos = photoSource{server.Client(), []string{at.Host}}
	return attached{URL: server.URL + "/stone.jpg", Type: "image/jpeg"}
}

// A photograph on a mention, kept under a name, and a bezel for it.
func TestPhotographOnAMention(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	file := photographs(t, r)
	ask := func(text string, files ...attached) *shown {
		m := inGuild(atBot + text)
		m.files = files
		return r.replyTo(theChannel, r.discord.say(m))
	}
	r.wantText(ask("trace", file), "for you alone")
	dm := directChannel(theMaker)
	perimeter := conversationtest.NumberIn(t, r.posted(dm, 1).text(), `([\d.]+) mm round its edge`)
	assert.InDelta(t, 49.0, perimeter, 0.25)
	r.wantText(ask("trace keep moss"), "for you alone")
	r.wantText(r.posted(dm, 2), "moss")
	bezel := ask("bezel traced moss sterling 0.32mm clearance 0").text()
	assert.InDelta(t, perimeter+math.Pi*0.32, conversationtest.NumberIn(t, bezel, `length: \*\*([\d.]+) mm`), 0.02)
}

// The same by the slash command's own option; the answer is the asker's alone.
func TestPhotographInACommand(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	file := photographs(t, r)
	p := pressed{kind: 2, guild: theGuild, data: map[string]any{
		"id": "823456789012345678", "name": "trace", "type": 1,
		"options": []map[string]any{{"name": "photo", "type": typeSubcommand, "options": []map[string]any{
			{"name": "length", "type": typeString, "value": "18.1"},
			{"name": optPhoto, "type": typeAttachment, "value": "77"},
		}}},
		"resolved": map[string]any{"attachments": map[string]any{"77": file}},
	}}
	m := r.answered(r.discord.send(p))
	r.wantText(m, "18.1", "calipers")
	assert.True(t, m.ephemeral)
	without := r.answered(r.discord.send(pressed{kind: 2, guild: theGuild, data: map[string]any{
		"id": "823456789012345678", "name": "trace", "type": 1,
		"options": []map[string]any{{"name": "photo", "type": typeSubcommand, "options": []map[string]any{}}},
	}}))
	r.wantText(without, "send a photograph")
}

// A photograph that can't be fetched is not passed over.
func TestPhotographThatIsGone(t *testing.T) {
	t.Parallel()
	r, _ := realRig(t)
	file := photographs(t, r)
	r.adapter.photos.hosts = []string{"media.example"}
	m := inGuild(atBot + "trace")
	m.files = []attached{file}
	r.wantText(r.replyTo(theChannel, r.discord.say(m)), "could not fetch your photograph")
}
