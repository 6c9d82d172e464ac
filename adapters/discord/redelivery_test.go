package discord

import (
	"context"
	"net/http"
	"strings"
	"testing"
	"time"

	"guildhand/bot"
	"guildhand/bot/delivery"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An entry that an earlier process recorded and may have sent.

func kept(t *testing.T, s *standIn, f *faultyService, e *interactionState, line string, alone bool) int64 {
	t.Helper()
	s.mu.Lock()
	way := route{Token: e.token, Until: e.until, Alone: alone}
	id, channel, guild, maker, at := e.id, e.channel, e.guild, e.maker, e.sentAt
	s.mu.Unlock()
	request := bot.Request{Text: line, Message: id, Route: mustJSON(way), At: at}
	request.Who.Platform, request.Who.Channel, request.Who.Guild, request.Who.Maker = Platform, channel, guild, maker
	reply, err := f.Handle(context.Background(), request)
	require.NoError(t, err)
	require.NoError(t, f.Release(context.Background(), reply.Entry))
	return reply.Entry
}

// earlier is an interaction that came to a process that is gone.
func (s *standIn) earlier(p pressed, age time.Duration, ack int) *interactionState {
	e := s.send(p)
	s.mu.Lock()
	defer s.mu.Unlock()
	// Its id tells when it was sent.
	delete(s.byID, e.id)
	e.id = idAt(time.Now().Add(-age), s.lastID)
	s.byID[e.id] = e
	e.sentAt, e.until = e.sentAt.Add(-age), e.until.Add(-age)
	if ack != 0 {
		e.ack = ack
		e.original = &shown{id: s.newID(), channel: e.channel, ephemeral: true, loading: true, message: message{Flags: flagEphemeral | flagLoading}}
	}
	return e
}

func TestLateAnswers(t *testing.T) {
	t.Parallel()
	const line = "plate 8x6"
	direct := slash("plate")
	direct.guild, direct.channel = "", directChannel(theMaker)
	tests := []struct {
		name  string
		p     pressed
		age   time.Duration
		ack   int
		line  string
		alone bool
		fresh time.Duration
		close string // a channel that takes nothing
		sent  bool   // the answer was sent, and not marked
		want  string
	}{
		{name: "sent and not marked", p: slash("plate"), age: 5 * time.Second, ack: replyMessage, line: line, sent: true, want: wayFound},
		{name: "announced", p: slash("plate"), age: 10 * time.Minute, ack: replyDeferred, line: line, want: wayEdited},
		{name: "announced refusal", p: slash("plate"), age: time.Minute, ack: replyDeferred, line: "plate 8x6 count 59", want: wayEdited},
		{name: "still in time", p: slash("plate"), age: 0, line: line, want: wayAnswered},
		{name: "not answered in time", p: slash("plate"), age: 2 * time.Minute, line: line, want: wayChannel},
		{name: "token expired", p: slash("plate"), age: 20 * time.Minute, ack: replyDeferred, line: line, want: wayChannel},
		{name: "for the asker alone", p: slash("plate"), age: 20 * time.Minute, line: line, alone: true, want: wayDirect},
		{name: "a refusal", p: slash("plate"), age: 2 * time.Minute, line: "plate 8x6 count 59", want: wayDirect},
		{name: "channel closed", p: slash("plate"), age: 20 * time.Minute, line: line, close: theChannel, want: wayDirect},
		{name: "asker closed too", p: slash("plate"), age: 20 * time.Minute, line: line, alone: true, close: directChannel(theMaker), want: delivery.WayExpired},
		{name: "direct chat", p: direct, age: 20 * time.Minute, line: line, want: wayChannel},
		{name: "direct chat, refusal", p: direct, age: 20 * time.Minute, line: "plate 8x6 count 59", want: wayChannel},
		{name: "too old", p: slash("plate"), age: 20 * time.Minute, fresh: 10 * time.Minute, line: line, want: delivery.WayExpired},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := newStandIn(t)
			f := newFaulty(t, testSpecs())
			c := s.config()
			if test.fresh > 0 {
				c.FreshFor = test.fresh
			}
			e := s.earlier(test.p, test.age, test.ack)
			entry := kept(t, s, f, e, test.line, test.alone)
			if test.close != "" {
				s.closed[test.close] = true
			}
			if test.sent {
				reply, err := f.Recorded(context.Background(), entry)
				require.NoError(t, err)
				e.original.message, e.original.loading = *(&Adapter{menu: &menu{}}).answerMessage(reply, view{unit: unitOf(reply)}), false
			}
			r := launch(t, s, f, c, quick)
			want := `outcome=` + test.want
			r.wait("its end", func() bool { return strings.Contains(r.log.String(), want) })
			// It stays at one.
			time.Sleep(2 * quick.redeliver)
			s.mu.Lock()
			defer s.mu.Unlock()
			count := 0
			for _, list := range s.channels {
				for _, m := range list {
					if isAnswerTo(entry)(sentOf(m)) {
						count++
						if test.want != wayFound && test.want != wayAnswered && m.message.Content != "For <@"+theMaker+">, late:" {
							t.Errorf("content %q", m.message.Content)
						}
						if test.want == wayDirect && m.channel != directChannel(theMaker) {
							t.Errorf("sent to %s", m.channel)
						}
					}
				}
			}
			if e.original != nil && isAnswerTo(entry)(sentOf(e.original)) && (test.want == wayEdited || test.want == wayFound) {
				count++
			}
			wanted := 1
			if test.want == delivery.WayExpired {
				wanted = 0
				assert.True(t, f.expired(entry), "it is not marked as expired")
			} else if f.deliveredAs(entry) == "" {
				t.Error("it is not marked as delivered")
			}
			assert.Equal(t, wanted, count)
		})
	}
}

// sentOf is a message as the adapter would read it.
func sentOf(m *shown) sent {
	var out sent
	out.ID = m.id
	for _, e := range m.message.Embeds {
		var x struct {
			Footer footer `json:"footer"`
		}
		if e.Footer != nil {
			x.Footer = *e.Footer
		}
		out.Embeds = append(out.Embeds, x)
	}
	return out
}

// Two late deliveries of one entry show once, by the nonce.
func TestLateTwice(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	f := newFaulty(t, testSpecs())
	f.markFails = 2
	e := s.earlier(slash("plate"), 20*time.Minute, 0)
	entry := kept(t, s, f, e, "plate 8x6", false)
	r := launch(t, s, f, s.config(), quick)
	r.wait("the mark", func() bool { return f.deliveredAs(entry) != "" })
	s.mu.Lock()
	defer s.mu.Unlock()
	assert.Len(t, s.channels[theChannel], 1)
}

// What was delivered and could not be marked is marked later, and not sent
// again.
func TestMarkedLater(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	f := newFaulty(t, testSpecs())
	f.markFails = 3
	r := start(t, s, f, s.config())
	m := r.answered(r.slash("plate", arg{"size", "8x6"}))
	r.wait("the mark", func() bool { return f.deliveredAs(1) != "" })
	assert.Equal(t, m.id, f.deliveredAs(1))
	s.mu.Lock()
	defer s.mu.Unlock()
	assert.Len(t, s.channels[theChannel], 1)
}

// An answer whose arrival is not certain is looked for before it is sent
// again.
func TestUncertainDelivery(t *testing.T) {
	t.Parallel()
	for _, arrives := range []bool{true, false} {
		t.Run(map[bool]string{true: "it arrived", false: "it did not"}[arrives], func(t *testing.T) {
			t.Parallel()
			s := newStandIn(t)
			r := start(t, s, newFaulty(t, testSpecs()), s.config())
			cut := false
			s.mu.Lock()
			s.intercept = func(w http.ResponseWriter, req *http.Request) bool {
				if cut || !strings.HasSuffix(req.URL.Path, "/callback") {
					return false
				}
				cut = true
				if arrives {
					// Served in full, and then the line is cut.
					s.intercept = nil
					inner := req.Clone(req.Context())
					s.ServeHTTP(discard{http.Header{}}, inner)
				}
				hijack(w)
				return true
			}
			s.mu.Unlock()
			e := r.slash("plate", arg{"size", "8x6"})
			r.answered(e)
			r.wait("the mark", func() bool { f := r.service.(*faultyService); return f.count() == 1 && f.deliveredAs(1) != "" })
			s.mu.Lock()
			defer s.mu.Unlock()
			assert.Len(t, s.channels[theChannel], 1)
		})
	}
}

type discard struct{ header http.Header }

func (d discard) Header() http.Header         { return d.header }
func (d discard) Write(p []byte) (int, error) { return len(p), nil }
func (d discard) WriteHeader(int)             {}

func hijack(w http.ResponseWriter) {
	conn, _, err := http.NewResponseController(w).Hijack()
	if err == nil {
		_ = conn.Close()
	}
}

func TestTokenExpiresWhileAnswering(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	s.tokenLife = 500 * time.Millisecond
	f := newFaulty(t, testSpecs())
	r := start(t, s, f, s.config())
	// Deferred at once, done after the token's end: it comes as a message.
	r.slash("batch", arg{"count", 4.0}, arg{"wait", 250.0})
	r.wait("the late answer", func() bool {
		s.mu.Lock()
		defer s.mu.Unlock()
		for _, m := range s.channels[theChannel] {
			if strings.HasPrefix(m.message.Content, "For <@"+theMaker+">, late:") && strings.Contains(m.text(), "4 pieces") {
				return true
			}
		}
		return false
	})
}

// The three seconds run out while everything stands still.
func TestFirstAnswerTooLate(t *testing.T) {
	t.Parallel()
	s := newStandIn(t)
	s.window = 100 * time.Millisecond
	f := newFaulty(t, testSpecs())
	r := start(t, s, f, s.config())
	r.slash("fault", arg{"how", "wait"})
	r.wait("the late answer", func() bool {
		s.mu.Lock()
		defer s.mu.Unlock()
		list := s.channels[theChannel]
		return len(list) == 1 && strings.Contains(list[0].text(), "all went well")
	})
}
