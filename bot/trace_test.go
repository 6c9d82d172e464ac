package bot_test

import (
	"bytes"
	"image/png"
	"math"
	"os"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/catalogue"
	"guildhand/bot/requests"
	"guildhand/calc/stock"
)

func tracingShop(t *testing.T) *shop {
	s := openShop(t, nil)
	s.Service = bot.New(bot.Options{Specs: requests.All(s.book), Shop: stock.DemoWorkshop(), Book: s.book, Timeout: time.Minute})
	return s
}

var ann = catalogue.Who{Platform: "test", Guild: "g", Channel: "c", Maker: "ann"}

func (s *shop) say(t *testing.T, who catalogue.Who, text string, photo []byte) bot.Reply {
	t.Helper()
	r, err := s.Handle(t.Context(), bot.Request{Who: who, Text: text, Photo: photo})
	require.NoError(t, err)
	return r
}

func figures(t *testing.T, r bot.Reply) map[string]float64 {
	t.Helper()
	require.Nil(t, r.Refusal)
	require.NotNil(t, r.Answer)
	all := map[string]float64{}
	for _, f := range r.Answer.Figures {
		all[f.ID] = f.Value
	}
	return all
}

func attachment(t *testing.T, a *answer.Answer, suffix string) []byte {
	t.Helper()
	for _, at := range a.Attachments {
		if strings.HasSuffix(at.Name, suffix) {
			data, err := at.Render(t.Context())
			require.NoError(t, err)
			return data
		}
	}
	t.Fatalf("no attachment %s", suffix)
	return nil
}

// The photograph is a simulated one of an ellipse of 18 x 13 mm, whose perimeter
// is 49.00 mm; see the simulator of calc/tracing.
func TestFromPhotographToBezel(t *testing.T) {
	photo, err := os.ReadFile("testdata/stone-on-card.jpg")
	require.NoError(t, err)
	s := tracingShop(t)
	reply := s.say(t, ann, "", photo)
	traced := figures(t, reply)
	assert.InDelta(t, 49.0, traced["perimeter"], 0.25)
	assert.InDelta(t, 18, traced["length"], 0.1)
	assert.InDelta(t, 13, traced["width"], 0.1)
	assert.Less(t, traced["deviation"], 0.3)
	assert.Less(t, traced["view_angle"], 10.0)
	assert.True(t, reply.Answer.Alone, "the photograph is for its maker alone")

	// The overlay is a picture of its own, without the photograph's data.
	_, err = png.Decode(bytes.NewReader(attachment(t, reply.Answer, "photograph.png")))
	require.NoError(t, err)
	svg := string(attachment(t, reply.Answer, ".svg"))
	assert.Regexp(t, regexp.MustCompile(`<path id="outline"`), svg)

	// Kept under a name, the outline goes into settings.
	figures(t, s.say(t, ann, "trace keep moss", nil))
	strip := figures(t, s.say(t, ann, "bezel traced moss sterling 0.32mm clearance 0", nil))
	assert.InDelta(t, traced["perimeter"]+math.Pi*0.32, strip["strip_length"], 0.06)
	for _, line := range []string{"collet traced moss depth 5 sterling 22ga", "halo traced moss with 1.5", "collar traced moss depth 5 sterling 22ga lean 8", "prongs traced moss depth 5 sterling 20ga"} {
		figures(t, s.say(t, ann, line, nil))
	}

	// The line carries an id that gives the same outline.
	again := s.say(t, ann, reply.Answer.Line, nil)
	assert.Equal(t, traced, figures(t, again))
	bezel := s.say(t, ann, "bezel traced moss sterling 0.32mm", nil)
	assert.Contains(t, bezel.Answer.Line, strings.TrimPrefix(reply.Answer.Line, "trace "))

	// Nothing of the photograph is stored, and an outline is its maker's own.
	data, err := s.book.MakerData(t.Context(), "test", "ann")
	require.NoError(t, err)
	require.Len(t, data.Outlines, 1)
	assert.Less(t, len(data.Outlines[0].Traced), 20_000)
	bea := ann
	bea.Maker = "bea"
	require.NotNil(t, s.say(t, bea, "bezel traced moss sterling 28ga", nil).Refusal)
	figures(t, s.say(t, ann, "bezel traced moss sterling 28ga", nil))
	require.Nil(t, s.say(t, ann, "trace drop moss", nil).Refusal)
	require.NotNil(t, s.say(t, ann, "bezel traced moss sterling 28ga", nil).Refusal)
}

// A caliper length scales the outline, and one that can't be is refused.
func TestCaliperLengthScalesAPhotograph(t *testing.T) {
	photo, err := os.ReadFile("testdata/stone-on-card.jpg")
	require.NoError(t, err)
	s := tracingShop(t)
	scaled := figures(t, s.say(t, ann, "trace length 18.2", photo))
	assert.InDelta(t, 18.2, scaled["length"], 0.002)
	refused := s.say(t, ann, "trace length 21", photo).Refusal
	require.NotNil(t, refused)
	assert.Contains(t, refused.Problem, "calipers say 21.00 mm")
}

// Photographs that come together wait for each other; none is lost.
func TestPhotographsAtOnce(t *testing.T) {
	photo, err := os.ReadFile("testdata/stone-on-card.jpg")
	require.NoError(t, err)
	s := tracingShop(t)
	var all sync.WaitGroup
	for range 5 {
		all.Go(func() {
			r, err := s.Handle(t.Context(), bot.Request{Who: ann, Text: "trace", Photo: photo})
			assert.NoError(t, err)
			assert.Nil(t, r.Refusal)
		})
	}
	all.Wait()
}

func TestTraceRefusals(t *testing.T) {
	s := tracingShop(t)
	lost, err := s.Handle(t.Context(), bot.Request{Who: ann, Text: "trace length 18.2", PhotoLost: true})
	require.NoError(t, err)
	require.NotNil(t, lost.Refusal)
	assert.Contains(t, lost.Refusal.Problem, "could not fetch your photograph")
	for _, c := range []struct {
		line, says string
		photo      []byte
	}{
		{"trace", "send a photograph", nil},
		{"trace", "JPEG or PNG", []byte("this is no picture at all")},
		{"trace", "Most Compatible", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00")},
		{"trace strip 58", "length x width", nil},
		{"trace strip 90 size 20x16", "measure the three again", nil},
		{"trace keep moss", "traced no stone yet", nil},
		{"trace keep <b>", "one word", nil},
		{"trace drop moss", "kept no traced stone", nil},
		{"bezel traced moss", "kept no traced stone", nil},
	} {
		r := s.say(t, ann, c.line, c.photo)
		require.NotNil(t, r.Refusal, c.line)
		assert.Contains(t, r.Refusal.Problem, c.says, c.line)
		if r.Refusal.Try != "" {
			assert.Nil(t, s.say(t, catalogue.Who{Platform: "test", Guild: "g", Channel: "c", Maker: "somebody"}, r.Refusal.Try, nil).Refusal, "try: %s", r.Refusal.Try)
		}
	}
}

// A strip's outline goes all the way too.
func TestFromStripToBezel(t *testing.T) {
	s := tracingShop(t)
	traced := figures(t, s.say(t, ann, "trace strip 58 size 20x16", nil))
	assert.InDelta(t, 58, traced["perimeter"], 0.01)
	figures(t, s.say(t, ann, "trace keep slab", nil))
	strip := figures(t, s.say(t, ann, "bezel traced slab sterling 0.32mm clearance 0", nil))
	assert.InDelta(t, 58+math.Pi*0.32, strip["strip_length"], 0.05)
}
