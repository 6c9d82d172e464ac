package matrix

import (
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"guildhand/bot"
	"guildhand/calc/testcount"
)

// asItComes are Synapse's limits on sending where its configuration names none
// (rc_message in its documentation): ten messages at once, then one in 5 s.
var asItComes = rates{unlimited.dendrite, "{per_second: 0.2, burst_count: 10}"}

// limitLikeSynapse stands in front of a server that does not limit sending and
// limits the bot as Synapse does. On Synapse nothing stands there.
func limitLikeSynapse(t *testing.T, cfg *Config) {
	t.Helper()
	if synapseRoot(t) != "" {
		return
	}
	const every, burst = 5 * time.Second, 10
	var mu sync.Mutex
	level, at := 0.0, time.Now()
	inFront(t, cfg, func(w http.ResponseWriter, r *http.Request) (answered bool) {
		if r.Method == http.MethodPut && (strings.Contains(r.URL.Path, "/send/") || strings.Contains(r.URL.Path, "/redact/")) {
			mu.Lock()
			now := time.Now()
			level, at = max(0, level-float64(now.Sub(at))/float64(every)), now
			full := level+1 > burst
			wait := time.Duration((level + 1 - burst) * float64(every))
			if !full {
				level++
			}
			mu.Unlock()
			if full {
				w.WriteHeader(http.StatusTooManyRequests)
				_, _ = fmt.Fprintf(w, `{"errcode":"M_LIMIT_EXCEEDED","error":"Too Many Requests","retry_after_ms":%d}`, wait.Milliseconds()+1)
				return true
			}
		}
		return false
	})
}

// inFront puts a server between a bot and its homeserver, which passes on what answer
// leaves to it.
func inFront(t *testing.T, cfg *Config, answer func(http.ResponseWriter, *http.Request) (answered bool)) {
	t.Helper()
	target, err := url.Parse(cfg.Homeserver)
	require.NoError(t, err)
	pass := httputil.NewSingleHostReverseProxy(target)
	front := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !answer(w, r) {
			pass.ServeHTTP(w, r)
		}
	}))
	t.Cleanup(front.Close)
	cfg.Homeserver = front.URL
}

// limitUntil takes none of a bot's messages, as a server that limits sending, until it is
// released.
func limitUntil(t *testing.T, cfg *Config) (release func()) {
	t.Helper()
	var released atomic.Bool
	inFront(t, cfg, func(w http.ResponseWriter, r *http.Request) (answered bool) {
		if released.Load() || r.Method != http.MethodPut || !strings.Contains(r.URL.Path, "/send/m.room.") {
			return false
		}
		w.WriteHeader(http.StatusTooManyRequests)
		_, _ = fmt.Fprint(w, `{"errcode":"M_LIMIT_EXCEEDED","error":"Too Many Requests","retry_after_ms":1000}`)
		return true
	})
	return func() { released.Store(true) }
}

// TestCheckMeasuresTheLimit: a check tells how many messages the server takes at
// once and how fast after that, and where it says how to be exempted; it leaves
// no room behind.
func TestCheckMeasuresTheLimit(t *testing.T) {
	wholeOnly(t)
	t.Parallel()
	h := ownServer(t, asItComes)
	cfg := botConfig(t, h)
	free := cfg
	limitLikeSynapse(t, &cfg)
	r, err := Check(t.Context(), cfg)
	require.NoError(t, err)
	assert.Regexp(t, `^(9|1\d) messages at once, then one in about [3-5] s$`, r.Sending)
	assert.Contains(t, strings.Join(r.Warnings, "\n"), "Rate limits")
	joined, err := botSession(t, h).JoinedRooms(t.Context())
	require.NoError(t, err)
	assert.Empty(t, joined.JoinedRooms)
	if synapseRoot(t) == "" {
		r, err = Check(t.Context(), free)
		require.NoError(t, err)
		assert.Equal(t, "no limit met", r.Sending)
	}
}

// pupil is somebody of a class, with no more of a client than it takes to ask.
type pupil struct {
	cli      *mautrix.Client
	question id.EventID
}

func joinClass(t *testing.T, h *homeserver, room id.RoomID, host *maker, name string) *pupil {
	t.Helper()
	h.register(name)
	cli := session(t, h.makers.url(), h.account(name))
	patiently(t, func() error {
		_, err := host.cli.InviteUser(t.Context(), room, invite(cli.UserID))
		return err
	})
	patiently(t, func() error {
		_, err := cli.JoinRoomByID(t.Context(), room)
		return err
	})
	return &pupil{cli: cli}
}

// patiently does something until the server, which limits invitations too, takes it.
func patiently(t *testing.T, do func() error) {
	t.Helper()
	for {
		err := do()
		if !errors.Is(err, mautrix.MLimitExceeded) {
			require.NoError(t, err)
			return
		}
		select {
		case <-time.After(time.Second):
		case <-t.Context().Done():
			require.NoError(t, err)
		}
	}
}

func (p *pupil) say(t *testing.T, room id.RoomID, c *event.MessageEventContent) id.EventID {
	t.Helper()
	resp, err := p.cli.SendMessageEvent(t.Context(), room, event.EventMessage, c)
	require.NoError(t, err)
	return resp.EventID
}

// TestClass: twenty makers ask for a collet each at the same time, on a server
// that limits the bot as Synapse does of itself. All are answered in under 30 s,
// with a picture, each mentioned once and their question linked. What they do
// with an answer among several works as with any other: each gets the working of
// their own, a corrected question corrects its answer and leaves the others, a
// reply goes on from one's own, and a question taken back takes its words away.
func TestClass(t *testing.T) {
	wholeOnly(t)
	t.Parallel()
	h := ownServer(t, asItComes)
	cfg := botConfig(t, h)
	limitLikeSynapse(t, &cfg)
	release := func() {}
	if !testcount.Long() {
		release = limitUntil(t, &cfg) // so that answers wait for each other on any machine
	}
	b := startBot(t, cfg)
	b.stop()
	b.limits = bot.Limits{Maker: bot.Limit{AtOnce: 10, PerMinute: 20}, Channel: bot.Limit{AtOnce: 30, PerMinute: 240}}
	b.start()
	ana := newMaker(t, h, "ana")
	room := ana.room(false)
	pupils := make([]*pupil, 20)
	for n := range pupils {
		pupils[n] = joinClass(t, h, room, ana, fmt.Sprintf("pupil%d", n))
	}
	begun := time.Now()
	var asking sync.WaitGroup
	for n, p := range pupils {
		asking.Go(func() {
			p.question = p.say(t, room, &event.MessageEventContent{MsgType: event.MsgText,
				Body: fmt.Sprintf("!collet oval %dx6 22ga ag925", 8+n%4)})
		})
	}
	asking.Wait()
	if !testcount.Long() {
		require.Eventually(t, func() bool { return b.adapter.limit.queued() >= 5 }, 4*patience, 10*time.Millisecond, "answers that wait to be sent")
		release()
	}
	messages := classAnswered(t, ana, room, pupils)
	took := time.Since(begun)
	if testcount.Long() {
		assert.Less(t, took, 30*time.Second)
	}
	assert.Less(t, messages, len(pupils), "no answers went out together")
	t.Logf("a class of %d was answered in %s with %d messages", len(pupils), took.Round(time.Millisecond), messages)
	together, in := largestMessage(t, ana, room, pupils)
	classGoesOn(t, ana, room, together, in)
}

// queued is how many messages wait to be sent.
func (l *sendingLimit) queued() int {
	l.mu.Lock()
	defer l.mu.Unlock()
	return len(l.waiting)
}

// classAnswered waits until all of a class are answered, and checks how.
func classAnswered(t *testing.T, m *maker, room id.RoomID, pupils []*pupil) (messages int) {
	t.Helper()
	m.waitFor(4*patience, "an answer for each of the class", func(all []seen) bool {
		for _, p := range pupils {
			if len(m.replies(all, room, p.question)) == 0 {
				return false
			}
		}
		return true
	})
	m.mu.Lock()
	defer m.mu.Unlock()
	mentioned := map[id.UserID]int{}
	for _, s := range m.fromBot(m.seen, room) {
		messages++
		c := s.evt.Content.AsMessage()
		assert.Equal(t, event.MsgImage, c.MsgType)
		for _, user := range c.Mentions.UserIDs {
			mentioned[user]++
		}
	}
	for _, p := range pupils {
		assert.Len(t, m.replies(m.seen, room, p.question), 1)
		assert.Equal(t, 1, mentioned[p.cli.UserID], "%s is mentioned", p.cli.UserID)
	}
	return messages
}

// largestMessage gives the message with most answers, and whose they are.
func largestMessage(t *testing.T, m *maker, room id.RoomID, pupils []*pupil) (largest seen, in []*pupil) {
	t.Helper()
	m.mu.Lock()
	defer m.mu.Unlock()
	for _, s := range m.fromBot(m.seen, room) {
		var those []*pupil
		for _, p := range pupils {
			if slices.Contains(questionsOf(s.evt.Content.AsMessage()), p.question) {
				those = append(those, p)
			}
		}
		if len(those) > len(in) {
			largest, in = s, those
		}
	}
	require.GreaterOrEqual(t, len(in), 3, "no message has several answers")
	return largest, in
}

// classGoesOn does with a message of several answers what people do with one.
func classGoesOn(t *testing.T, ana *maker, room id.RoomID, together seen, in []*pupil) {
	t.Helper()
	first, second, third := in[0], in[1], in[2]
	headline := func(p *pupil) string {
		first, _, _ := strings.Cut(textTo(together.evt.Content.AsMessage(), p.question), "\n")
		return first
	}
	_, err := second.cli.SendReaction(t.Context(), room, together.raw.ID, "🔧")
	require.NoError(t, err)
	working := ana.waitReplies(room, together.raw.ID, 1)[0].evt.Content.AsMessage()
	assert.True(t, strings.HasPrefix(working.Body, "working: "+headline(second)), "got %.80q, want the working of %q", working.Body, headline(second))
	assert.Equal(t, []id.UserID{second.cli.UserID}, working.Mentions.UserIDs)

	reply := &event.MessageEventContent{MsgType: event.MsgText, Body: "same in 18ga please"}
	reply.RelatesTo = (&event.RelatesTo{}).SetReplyTo(together.raw.ID)
	went := ana.waitText(room, third.say(t, room, reply))
	assert.Contains(t, went.Body, "18 ga")

	correction := &event.MessageEventContent{MsgType: event.MsgText, Body: "!collet round 9 20ga ag925"}
	correction.SetEdit(first.question)
	first.say(t, room, correction)
	var corrected *event.MessageEventContent
	ana.wait("the corrected answer", func(all []seen) bool {
		if edits := ana.edits(all, room, together.raw.ID); len(edits) > 0 {
			corrected = edits[len(edits)-1].NewContent
			return true
		}
		return false
	})
	assert.Contains(t, corrected.Body, "collet round 9")
	assert.Contains(t, corrected.Body, headline(second))
	for _, p := range in {
		assert.Contains(t, questionsOf(corrected), p.question, "the edited message lost an answer")
	}

	_, err = first.cli.RedactEvent(t.Context(), room, first.question)
	require.NoError(t, err)
	var again *event.MessageEventContent
	ana.wait("the others' answers without the one taken back", func(all []seen) bool {
		replies := ana.replies(all, room, second.question)
		again = replies[len(replies)-1].evt.Content.AsMessage()
		return len(replies) > 1
	})
	for _, p := range in[1:] {
		assert.Contains(t, questionsOf(again), p.question)
	}
	assert.NotContains(t, questionsOf(again), first.question)
	assert.NotContains(t, again.Body, "collet round 9")
	assert.Empty(t, again.Mentions.UserIDs, "nobody is rung again")
	evt, err := ana.cli.GetEvent(t.Context(), room, together.raw.ID)
	require.NoError(t, err)
	assert.NotContains(t, string(evt.Content.VeryRaw), "body", "the words are still on the server")
}
