package matrix

import (
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// TestRateLimit: where the server limits rates, all is answered, later. Dendrite
// limits joining and uploads of itself; sending, which it leaves free, is
// limited in front of it. The limits that the bot meets are counted, so that
// the test cannot pass without.
func TestRateLimit(t *testing.T) {
	wholeOnly(t)
	t.Parallel()
	h := ownServer(t, rates{
		dendrite: "{enabled: true, threshold: 1, cooloff_ms: 700, exempt_user_ids: [\"@ana:" + serverName + "\"]}",
		synapse:  "{per_second: 1.4, burst_count: 1}",
	})
	target, err := url.Parse(h.proxy.url())
	if err != nil {
		t.Fatal(err)
	}
	var sends, early atomic.Int32
	var until atomic.Int64
	pass := httputil.NewSingleHostReverseProxy(target)
	front := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodPut && strings.Contains(r.URL.Path, "/send/") {
			if time.Now().UnixMilli() < until.Load() {
				early.Add(1)
			}
			if sends.Add(1)%5 == 0 {
				until.Store(time.Now().Add(1200 * time.Millisecond).UnixMilli())
				w.WriteHeader(http.StatusTooManyRequests)
				_, _ = w.Write([]byte(`{"errcode":"M_LIMIT_EXCEEDED","error":"too many","retry_after_ms":1200}`))
				return
			}
		}
		pass.ServeHTTP(w, r)
	}))
	t.Cleanup(front.Close)
	var limited atomic.Int32
	pass.ModifyResponse = func(r *http.Response) error {
		if r.StatusCode == http.StatusTooManyRequests {
			limited.Add(1)
		}
		return nil
	}
	cfg := botConfig(t, h)
	cfg.Homeserver = front.URL
	startBot(t, cfg)
	ana := newMaker(t, h, "ana")
	var rooms []id.RoomID
	for range 6 {
		room := ana.emptyRoom(encryptionBuilt)
		rooms = append(rooms, room)
	}
	for _, room := range rooms {
		if _, err := ana.cli.InviteUser(ana.ctx, room, invite(ana.bot)); err != nil {
			t.Fatal(err)
		}
	}
	for _, room := range rooms {
		ana.waitMember(room, ana.bot, event.MembershipJoin)
	}
	room := rooms[0]
	var asked []question
	for n := range 6 {
		asked = append(asked, askGauge(ana, room, n))
	}
	drafts := []id.EventID{ana.say(room, "!draft"), ana.say(room, "!draft"), ana.say(room, "!draft")}
	answeredOnce(t, ana, room, asked)
	for _, q := range drafts {
		for _, s := range ana.waitReplies(room, q, 2) {
			if body := s.evt.Content.AsMessage().Body; strings.Contains(body, "could not be sent") {
				t.Errorf("given up: %q", body)
			}
		}
	}
	if limited.Load() == 0 || until.Load() == 0 {
		t.Errorf("limited %d times by the server, last in sending at %d: not tested", limited.Load(), until.Load())
	}
	if early.Load() > 0 {
		t.Errorf("%d messages were sent before the wait was over", early.Load())
	}
	t.Logf("limited %d times in joining and uploading, %d in sending", limited.Load(), sends.Load()/5)
}
