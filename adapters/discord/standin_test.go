package discord

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// standIn is Discord as far as the adapter can see it: REST and gateway over
// real HTTP and WebSocket on loopback. It keeps every call for the published
// description to judge, and enforces what the description does not say.
type standIn struct {
	t      testing.TB
	server *httptest.Server
	token  string
	appID  string
	app    map[string]any
	shards int
	// tokenLife is Discord's 15 minutes. window is how long it takes a first answer:
	// 3 seconds there, longer here, because the machine may be busy.
	tokenLife, window time.Duration
	// heartbeat is the interval told to the gateway's clients.
	heartbeat time.Duration
	// slow delays every reply.
	slow time.Duration

	mu           sync.Mutex
	lastID       int64
	commands     map[string]json.RawMessage // by guild, "" for global
	overwrites   int
	interactions map[string]*interactionState // by token
	byID         map[string]*interactionState
	channels     map[string][]*shown // messages by channel
	closed       map[string]bool     // channels that the bot may not write to
	nonces       map[string]*shown
	threads      map[string]string // the parents of threads
	names        map[string]string // of threads that the bot has opened
	forums       map[string]bool   // channels that have posts alone
	noThreads    map[string]bool   // channels in which the bot may open none
	typed        []string          // channels that were told of somebody typing
	calls        []*call
	violations   []string
	limits       map[string]*limit // by route
	global       time.Time
	// globalFrom is for how long a global limit holds from the first call on.
	globalFrom time.Duration
	early      int // calls before their limit's end
	// intercept, if it answers true, has answered a call itself.
	intercept func(w http.ResponseWriter, r *http.Request) bool

	gateway gatewayState
}

// interactionState is one interaction as Discord keeps it.
type interactionState struct {
	id, token, channel, guild, maker string
	kind                             int
	sentAt, until                    time.Time
	// ack is the type of the first answer, 0 before.
	ack      int
	ackAt    time.Time
	original *shown
	follows  []*shown
	choices  []choice
	form     *modal
	update   *message
	// source is the message whose button was pressed.
	source *shown
}

// shown is a message as people see it.
type shown struct {
	id, channel string
	message     message
	files       []*filePart
	ephemeral   bool
	loading     bool
	edits       int
}

type limit struct {
	size, left int
	per        time.Duration
	reset      time.Time
	// shut is set where nothing passes for a time that begins with the first call.
	shut bool
}

func newStandIn(t testing.TB) *standIn {
	s := &standIn{
		t: t, token: "stand-in.secret.token", appID: "223456789012345678", shards: 1,
		tokenLife: 15 * time.Minute, window: time.Minute, heartbeat: 5 * time.Second,
		commands: map[string]json.RawMessage{}, interactions: map[string]*interactionState{}, byID: map[string]*interactionState{},
		channels: map[string][]*shown{}, closed: map[string]bool{}, nonces: map[string]*shown{}, threads: map[string]string{},
		names: map[string]string{}, forums: map[string]bool{}, noThreads: map[string]bool{}, limits: map[string]*limit{},
	}
	s.app = applicationBody(s.appID)
	s.gateway.sessions = map[string]*gatewaySession{}
	s.server = httptest.NewUnstartedServer(s)
	s.server.Start()
	t.Cleanup(func() {
		s.dropAll()
		s.server.Close()
		s.judge()
	})
	return s
}

// judge holds every call against the published description, where it is, and
// reports what the stand-in itself did not like.
func (s *standIn) judge() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, v := range s.violations {
		s.t.Errorf("the stand-in refused: %s", v)
	}
	d, err := loadDescription()
	if err != nil {
		s.t.Error(err)
		return
	}
	if d == nil {
		s.t.Logf("%d calls were not held against Discord's description, which is not here", len(s.calls))
		return
	}
	for _, c := range s.calls {
		if err := d.judgeOnce(c); err != nil {
			s.t.Error(err)
		}
	}
	if len(s.calls) > 0 {
		s.t.Logf("%d calls held against Discord's description", len(s.calls))
	}
}

// transport sends what is meant for Discord to the stand-in.
func (s *standIn) transport() http.RoundTripper { return redirect(s.server.Listener.Addr().String()) }

type redirectTo struct {
	address string
	base    *http.Transport
}

func redirect(address string) http.RoundTripper {
	return &redirectTo{address: address, base: &http.Transport{MaxIdleConnsPerHost: 64, DialContext: (&net.Dialer{Timeout: 5 * time.Second}).DialContext}}
}

func (r *redirectTo) RoundTrip(req *http.Request) (*http.Response, error) {
	req = req.Clone(req.Context())
	req.URL.Scheme, req.URL.Host = "http", r.address
	return r.base.RoundTrip(req)
}

// recorder keeps a reply while it is written.
type recorder struct {
	http.ResponseWriter
	status int
	body   bytes.Buffer
}

func (r *recorder) WriteHeader(status int) { r.status = status; r.ResponseWriter.WriteHeader(status) }

func (r *recorder) Write(p []byte) (int, error) {
	if r.status == 0 {
		r.status = http.StatusOK
	}
	r.body.Write(p)
	return r.ResponseWriter.Write(p)
}

func (s *standIn) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if strings.Trim(r.URL.Path, "/") == "ws" || strings.Trim(r.URL.Path, "/") == "resume" {
		s.serveGateway(w, r)
		return
	}
	body, err := io.ReadAll(r.Body)
	if err != nil {
		return // the client is gone
	}
	s.mu.Lock()
	intercept := s.intercept
	slow := s.slow
	s.mu.Unlock()
	time.Sleep(slow)
	if intercept != nil && intercept(w, r) {
		return
	}
	c := &call{method: r.Method, url: r.URL.RequestURI(), header: r.Header.Clone(), body: body}
	rec := &recorder{ResponseWriter: w}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.serve(rec, r, c)
	c.status, c.replyHeader, c.reply = rec.status, w.Header().Clone(), rec.body.Bytes()
	s.calls = append(s.calls, c)
}

// serve answers one call; s.mu is held.
func (s *standIn) serve(w http.ResponseWriter, r *http.Request, c *call) {
	path, ok := strings.CutPrefix(r.URL.Path, "/api/v9")
	if !ok {
		fail(w, 404, 0, "404: Not Found")
		return
	}
	part := strings.Split(strings.Trim(path, "/"), "/")
	withToken := part[0] == "interactions" || part[0] == "webhooks"
	if !withToken && r.Header.Get("Authorization") != "Bot "+s.token {
		fail(w, 401, 0, "401: Unauthorized")
		return
	}
	if !s.allow(w, r.Method, part) {
		return
	}
	data, files, err := c.payload()
	if err != nil {
		fail(w, 400, 50109, "The request body contains invalid JSON.")
		return
	}
	route := r.Method + " " + shape(part)
	switch route {
	case "GET gateway":
		reply(w, map[string]any{"url": s.gatewayURL()})
	case "GET gateway/bot":
		reply(w, map[string]any{"url": s.gatewayURL(), "shards": s.shards,
			"session_start_limit": map[string]any{"total": 1000, "remaining": 999, "reset_after": 1000, "max_concurrency": 1}})
	case "GET applications/@me":
		reply(w, s.app)
	case "GET applications/#/commands", "GET applications/#/guilds/#/commands":
		s.getCommands(w, r, part)
	case "PUT applications/#/commands", "PUT applications/#/guilds/#/commands":
		s.putCommands(w, part, data)
	case "POST interactions/#/~/callback":
		s.callback(w, r, part, data, files)
	case "GET webhooks/#/~/messages/@original", "PATCH webhooks/#/~/messages/@original", "DELETE webhooks/#/~/messages/@original":
		s.originalMessage(w, r.Method, part, data, files)
	case "POST webhooks/#/~":
		s.followUp(w, part, data, files)
	case "POST users/@me/channels":
		s.openDirect(w, data)
	case "GET channels/#":
		s.getChannel(w, part[1])
	case "POST channels/#/typing":
		s.typed = append(s.typed, part[1])
		w.WriteHeader(http.StatusNoContent)
	case "POST channels/#/messages/#/threads":
		s.openThread(w, part[1], part[3], data)
	case "POST channels/#/threads":
		s.openPost(w, part[1], data, files)
	case "PATCH channels/#/messages/#":
		s.changeMessage(w, part[1], part[3], data, files)
	case "POST channels/#/messages":
		s.channelMessage(w, part[1], data, files)
	default:
		s.violate("no such route: %s", route)
		fail(w, 404, 0, "404: Not Found")
	}
}

// shape is the route of a path: # for an id and ~ for a token.
func shape(part []string) string {
	out := slices.Clone(part)
	for i, p := range out {
		switch {
		case p != "" && strings.Trim(p, "0123456789") == "":
			out[i] = "#"
		case i == 2 && (out[0] == "interactions" || out[0] == "webhooks"):
			out[i] = "~"
		}
	}
	return strings.Join(out, "/")
}

func (s *standIn) violate(format string, args ...any) {
	s.violations = append(s.violations, fmt.Sprintf(format, args...))
}

func reply(w http.ResponseWriter, v any) {
	w.Header().Set("Content-Type", "application/json")
	_, _ = w.Write(mustJSON(v))
}

func fail(w http.ResponseWriter, status, code int, text string) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_, _ = w.Write(mustJSON(map[string]any{"code": code, "message": text}))
}

// limit sets a limit for a route ("PATCH webhooks/#/~/messages/@original").
func (s *standIn) limit(route string, size int, per time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.limits[route] = &limit{size: size, left: size, per: per}
}

// allow keeps the rate limits: it answers 429, or sets the headers.
func (s *standIn) allow(w http.ResponseWriter, method string, part []string) bool {
	now := time.Now()
	h := w.Header()
	tooMany := func(after time.Duration, global bool) bool {
		seconds := strconv.FormatFloat(after.Seconds(), 'f', 3, 64)
		h.Set("Retry-After", strconv.Itoa(int(after.Seconds())+1))
		h.Set("X-RateLimit-Reset-After", seconds)
		if global {
			h.Set("X-RateLimit-Global", "true")
		}
		h.Set("Content-Type", "application/json")
		w.WriteHeader(http.StatusTooManyRequests)
		_, _ = fmt.Fprintf(w, `{"code":0,"message":"You are being rate limited.","retry_after":%s,"global":%t}`, seconds, global)
		return false
	}
	counted := part[0] != "interactions" && part[0] != "webhooks"
	if counted && s.globalFrom > 0 {
		s.global, s.globalFrom = now.Add(s.globalFrom), 0
	}
	if counted && now.Before(s.global) {
		s.early++
		return tooMany(s.global.Sub(now), true)
	}
	l := s.limits[method+" "+shape(part)]
	if l == nil {
		l = &limit{size: 50, left: 50, per: time.Second}
	}
	if l.shut {
		l.shut, l.left, l.reset = false, 0, now.Add(l.per)
	}
	if !now.Before(l.reset) {
		l.left, l.reset = l.size, now.Add(l.per)
	}
	h.Set("X-RateLimit-Limit", strconv.Itoa(l.size))
	h.Set("X-RateLimit-Bucket", "stand-in")
	if l.left == 0 {
		s.early++
		h.Set("X-RateLimit-Remaining", "0")
		return tooMany(l.reset.Sub(now), false)
	}
	l.left--
	h.Set("X-RateLimit-Remaining", strconv.Itoa(l.left))
	h.Set("X-RateLimit-Reset", strconv.FormatFloat(float64(l.reset.UnixMilli())/1000, 'f', 3, 64))
	h.Set("X-RateLimit-Reset-After", strconv.FormatFloat(time.Until(l.reset).Seconds(), 'f', 3, 64))
	return true
}

// newID is a snowflake of this moment.
func (s *standIn) newID() string {
	id := (time.Now().UnixMilli()-1420070400000)<<22 | (s.lastID & 0x3fffff)
	s.lastID++
	return strconv.FormatInt(id, 10)
}

// idAt is a snowflake of a moment.
func idAt(at time.Time, n int64) string {
	return strconv.FormatInt((at.UnixMilli()-1420070400000)<<22|(n&0x3fffff), 10)
}
