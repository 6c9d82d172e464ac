package matrix

import (
	"bytes"
	"context"
	"image/png"
	"path/filepath"
	"strings"
	"testing"

	"guildhand/bot/answer"

	"guildhand/bot/catalogue"
	"guildhand/bot/daybook"
	"guildhand/bot/requests"
	"guildhand/calc/testcount"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// kindsOfRoom runs a test in a clear room, and in an encrypted one where the
// build can.
func kindsOfRoom(t *testing.T, test func(t *testing.T, encrypted bool)) {
	t.Run("clear", func(t *testing.T) { test(t, false) })
	t.Run("encrypted", func(t *testing.T) {
		if !encryptionBuilt {
			t.Skip("this build has no encryption")
		}
		test(t, true)
	})
}

// TestEveryRequest asks each example of the catalogue in a room and looks at all
// that comes back.
func TestEveryRequest(t *testing.T) {
	wholeOnly(t)
	t.Parallel()
	h := sharedServer(t)
	b := startBot(t, botConfig(t, h))
	ana := newMaker(t, h, "ana")
	book, err := daybook.Open(context.Background(), filepath.Join(t.TempDir(), "expected.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	service := newService(book, testLog(t), b.limits, append(startSpecs(book), b.more...)...)
	kindsOfRoom(t, func(t *testing.T, encrypted bool) {
		m := ana.on(t)
		room := m.room(encrypted)
		who := catalogue.Who{Platform: platform, Guild: string(room), Channel: string(room), Maker: string(m.cli.UserID), Teacher: true}
		var lines, kits []string // long work lets what is asked after it go first
		for _, spec := range requests.All(book) {
			if spec.Name == "stop" {
				continue // asked among the others, it would stop the kit
			}
			examples := spec.Examples
			if encrypted && !testcount.Long() {
				examples = examples[:1]
			}
			for _, example := range examples {
				if spec.Name == "kit" {
					kits = append(kits, example.Line)
				} else {
					lines = append(lines, example.Line)
				}
			}
		}
		lines = append(lines, kits...)
		var asked []id.EventID
		for _, line := range lines {
			asked = append(asked, m.say(room, "!"+line))
		}
		pictures := 0
		for i, line := range lines {
			want := expected(t, service, who, line)
			q := asked[i]
			text := m.waitText(room, q)
			kind := event.MsgNotice
			if at := want.Files().Picture; at != nil {
				pictures++
				kind = event.MsgImage
				checkImage(t, m, line, text, at.Name)
			}
			if text.MsgType != kind {
				t.Errorf("%s: the answer is %s, want %s", line, text.MsgType, kind)
			}
			if got := text.Mentions; got == nil || len(got.UserIDs) != 1 || got.UserIDs[0] != m.cli.UserID || got.Room {
				t.Errorf("%s: mentions %+v, want the asker alone", line, got)
			}
			if want.Refusal != nil {
				if !strings.HasPrefix(text.Body, clean(want.Refusal.Problem)) {
					t.Errorf("%s: got %q, want the refusal %q", line, text.Body, want.Refusal.Problem)
				}
				continue
			}
			if !strings.HasPrefix(text.Body, clean(want.Answer.Headline)) {
				t.Errorf("%s: got %q, want the headline %q", line, text.Body, want.Answer.Headline)
			}
			for _, f := range want.Answer.FirstScreen(answer.PhoneColumns, answer.ScreenLines).Figures {
				if !strings.Contains(text.Body, want.Answer.Show(f)) || !strings.Contains(text.FormattedBody, escaped(want.Answer.Show(f))) {
					t.Errorf("%s: %s %s is missing in body or HTML", line, f.Label, f.Display())
				}
			}
		}
		require.NotZero(t, pictures, "no picture was seen, so pictures were not tested")
		t.Logf("%d requests asked, %d pictures", len(asked), pictures)
		if encrypted {
			m.noPlainText(room)
		}
	})
}

// checkImage checks an m.image against its own bytes.
func checkImage(t *testing.T, m *maker, line string, c *event.MessageEventContent, name string) {
	t.Helper()
	if c.MsgType != event.MsgImage || c.Info == nil || c.Info.ThumbnailInfo == nil {
		t.Errorf("%s: %s %q is no picture with a thumbnail", line, c.MsgType, c.FileName)
		return
	}
	assert.Less(t, c.Info.ThumbnailInfo.Size, c.Info.Size, "%s: the thumbnail is larger than its picture", line)
	if c.FileName != name {
		t.Errorf("%s: filename %q, want %q", line, c.FileName, name)
	}
	for _, part := range []struct {
		what string
		data []byte
		info *event.FileInfo
	}{
		{"picture", m.download(c.URL, c.File), c.Info},
		{"thumbnail", m.download(c.Info.ThumbnailURL, c.Info.ThumbnailFile), c.Info.ThumbnailInfo},
	} {
		conf, err := png.DecodeConfig(bytes.NewReader(part.data))
		if err != nil {
			t.Errorf("%s: the %s is not a PNG: %v", line, part.what, err)
			continue
		}
		if conf.Width != part.info.Width || conf.Height != part.info.Height || len(part.data) != part.info.Size || part.info.MimeType != "image/png" {
			t.Errorf("%s: the %s is %dx%d, %d bytes; its info says %+v", line, part.what, conf.Width, conf.Height, len(part.data), part.info)
		}
		if part.what == "thumbnail" && max(conf.Width, conf.Height) > thumbnailPx {
			t.Errorf("%s: the thumbnail is %dx%d, want at most %d", line, conf.Width, conf.Height, thumbnailPx)
		}
	}
}

const aCollet = "collet oval 8x6 22ga ag925"

// firstAnswer asks for a collet and gives question and answer.
func firstAnswer(t *testing.T, m *maker, room id.RoomID, line string) (q id.EventID, answer seen) {
	t.Helper()
	q = m.say(room, line)
	return q, m.waitReplies(room, q, 1)[0]
}
