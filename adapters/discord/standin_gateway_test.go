package discord

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// gatewayState is the gateway's part of the stand-in.
type gatewayState struct {
	sessions map[string]*gatewaySession
	// identified and resumed count what clients did.
	identified, resumed, heartbeats int
	shards                          map[int]int // identified, by shard
	// invalidate answers the next resume with an invalid session.
	invalidate bool
	// refuse closes every connection with this code, 0 for none.
	refuse   int
	problems []string
}

// gatewaySession outlives its connections: what is sent while there is none is
// replayed on resume.
type gatewaySession struct {
	id    string
	shard [2]int
	log   []json.RawMessage // dispatches, the first with sequence 1

	conn *gatewayConn
}

type gatewayConn struct {
	ws *websocket.Conn
	mu sync.Mutex
}

func (c *gatewayConn) write(v any) {
	c.mu.Lock()
	defer c.mu.Unlock()
	_ = c.ws.WriteJSON(v) // a client that is gone is no fault here
}

func (c *gatewayConn) close(code int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	_ = c.ws.WriteMessage(websocket.CloseMessage, websocket.FormatCloseMessage(code, ""))
	_ = c.ws.Close()
}

// resumeURL is where READY says that the session is resumed.
func (s *standIn) resumeURL() string { return "ws://" + s.server.Listener.Addr().String() + "/resume" }

func (s *standIn) gatewayURL() string { return "ws://" + s.server.Listener.Addr().String() + "/ws" }

var upgrader = websocket.Upgrader{}

func (s *standIn) serveGateway(w http.ResponseWriter, r *http.Request) {
	ws, err := upgrader.Upgrade(w, r, nil)
	if err != nil {
		return
	}
	conn := &gatewayConn{ws: ws}
	defer func() { _ = ws.Close() }()
	s.mu.Lock()
	refuse, beat := s.gateway.refuse, s.heartbeat
	s.mu.Unlock()
	conn.write(map[string]any{"op": 10, "d": map[string]any{"heartbeat_interval": beat.Milliseconds()}, "s": nil, "t": nil})
	if refuse != 0 {
		_, _, _ = ws.ReadMessage()
		conn.close(refuse)
		return
	}
	for {
		_, raw, err := ws.ReadMessage()
		if err != nil {
			return
		}
		var op struct {
			Op   int             `json:"op"`
			Data json.RawMessage `json:"d"`
		}
		if err := json.Unmarshal(raw, &op); err != nil {
			conn.close(4002)
			return
		}
		switch op.Op {
		case 1:
			s.mu.Lock()
			s.gateway.heartbeats++
			s.mu.Unlock()
			conn.write(map[string]any{"op": 11, "d": nil, "s": nil, "t": nil})
		case 2:
			if code := s.identify(conn, op.Data); code != 0 {
				conn.close(code)
				return
			}
		case 6:
			if !strings.HasPrefix(r.URL.Path, "/resume") {
				s.mu.Lock()
				s.gateway.problems = append(s.gateway.problems, "a resume at "+r.URL.Path)
				s.mu.Unlock()
			}
			s.resume(conn, op.Data)
		default:
			s.mu.Lock()
			s.gateway.problems = append(s.gateway.problems, fmt.Sprintf("unexpected op %d", op.Op))
			s.mu.Unlock()
		}
	}
}

func (s *standIn) identify(conn *gatewayConn, data []byte) (closeCode int) {
	var d struct {
		Token   string  `json:"token"`
		Intents *int    `json:"intents"`
		Shard   *[2]int `json:"shard"`
	}
	if err := json.Unmarshal(data, &d); err != nil {
		return 4002
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if d.Token != "Bot "+s.token {
		return 4004
	}
	if d.Intents == nil || *d.Intents != 1<<9|1<<12 {
		s.violate("the adapter needs messages of guilds and direct chats, and no other intents")
		return 4014
	}
	session := &gatewaySession{id: s.newID(), shard: [2]int{0, 1}, conn: conn}
	if d.Shard != nil {
		session.shard = *d.Shard
	}
	if s.gateway.shards == nil {
		s.gateway.shards = map[int]int{}
	}
	s.gateway.shards[session.shard[0]]++
	s.gateway.identified++
	s.gateway.sessions[session.id] = session
	session.dispatch("READY", map[string]any{
		"v": 9, "user": userBody("423456789012345678"), "guilds": []any{}, "session_id": session.id,
		"resume_gateway_url": s.resumeURL(), "application": map[string]any{"id": s.appID, "flags": 0},
	})
	return 0
}

func (s *standIn) resume(conn *gatewayConn, data []byte) {
	var d struct {
		Session  string `json:"session_id"`
		Sequence int    `json:"seq"`
	}
	_ = json.Unmarshal(data, &d)
	s.mu.Lock()
	defer s.mu.Unlock()
	session := s.gateway.sessions[d.Session]
	if session == nil || s.gateway.invalidate || d.Sequence > len(session.log) {
		s.gateway.invalidate = false
		delete(s.gateway.sessions, d.Session)
		conn.write(map[string]any{"op": 9, "d": false, "s": nil, "t": nil})
		return
	}
	s.gateway.resumed++
	session.conn = conn
	for _, missed := range session.log[d.Sequence:] {
		conn.write(missed)
	}
	session.dispatch("RESUMED", map[string]any{})
}

// dispatch sends an event, or keeps it for a resume.
func (g *gatewaySession) dispatch(name string, data any) {
	raw := mustJSON(map[string]any{"op": 0, "t": name, "s": len(g.log) + 1, "d": data})
	g.log = append(g.log, raw)
	if g.conn != nil {
		g.conn.write(json.RawMessage(raw))
	}
}

// dropAll cuts every connection, without a word to the client.
func (s *standIn) dropAll() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, g := range s.gateway.sessions {
		if g.conn != nil {
			_ = g.conn.ws.Close()
			g.conn = nil
		}
	}
}

// forget ends the sessions of clients that are gone.
func (s *standIn) forget() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.gateway.sessions = map[string]*gatewaySession{}
}

// askReconnect tells every client to connect again.
func (s *standIn) askReconnect() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, g := range s.gateway.sessions {
		if g.conn != nil {
			g.conn.write(map[string]any{"op": 7, "d": nil, "s": nil, "t": nil})
			g.conn = nil
		}
	}
}

// connected counts live connections.
func (s *standIn) connected() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	n := 0
	for _, g := range s.gateway.sessions {
		if g.conn != nil {
			n++
		}
	}
	return n
}

// pressed is what a person does: the interaction's fields besides its ids.
type pressed struct {
	kind           int // 2 command, 3 component, 4 completion, 5 form
	guild, channel string
	maker          string
	roles          []string
	permissions    int64
	data           any
	source         *shown
	// locale is the maker's, en-GB where it is empty.
	locale string
	// context is 2 in a group message; installedBy is the maker who brought the
	// app along where the server did not.
	context     int
	installedBy string
}

const (
	theGuild   = "523456789012345678"
	theChannel = "623456789012345678"
	theMaker   = "723456789012345678"
)

// send makes an interaction of what a person does and gives it to the shard
// of its guild.
func (s *standIn) send(p pressed) *interactionState {
	s.mu.Lock()
	defer s.mu.Unlock()
	if p.maker == "" {
		p.maker = theMaker
	}
	if p.channel == "" {
		p.channel = theChannel
	}
	e := &interactionState{
		id: s.newID(), channel: p.channel, guild: p.guild, maker: p.maker, kind: p.kind,
		sentAt: time.Now(), until: time.Now().Add(s.tokenLife), source: p.source,
	}
	e.token = "tok-" + e.id + "-secret"
	s.interactions[e.token], s.byID[e.id] = e, e
	s.dispatch(e, p)
	return e
}

// dispatch gives an interaction to its shard; s.mu is held.
func (s *standIn) dispatch(e *interactionState, p pressed) {
	body := map[string]any{
		"id": e.id, "application_id": s.appID, "type": p.kind, "token": e.token, "version": 1,
		"channel_id": p.channel, "data": p.data, "locale": "en-GB", "entitlements": []any{},
		"app_permissions": "0", "context": 0, "authorizing_integration_owners": map[string]any{"0": theGuild},
	}
	if p.locale != "" {
		body["locale"] = p.locale
	}
	if p.guild != "" {
		body["channel"] = s.channelBody(p.channel)
	}
	if p.guild != "" {
		body["guild_id"] = p.guild
		body["member"] = map[string]any{
			"user": userBody(p.maker), "roles": p.roles, "permissions": strconv.FormatInt(p.permissions, 10),
			"joined_at": "2026-01-01T00:00:00Z", "deaf": false, "mute": false,
		}
	} else {
		body["user"], body["context"] = userBody(p.maker), 1
	}
	if p.context != 0 {
		body["context"] = p.context
	}
	if p.installedBy != "" {
		body["authorizing_integration_owners"] = map[string]any{"1": p.installedBy}
	}
	if p.source != nil {
		flags := 0
		if p.source.ephemeral {
			flags = flagEphemeral
		}
		m := p.source.message
		m.Flags = flags
		body["message"] = newMessageBody(p.source.id, p.channel, &m)
	}
	shard := 0
	if n, err := strconv.ParseInt(p.guild, 10, 64); err == nil {
		shard = int(n >> 22)
	}
	for _, g := range s.gateway.sessions {
		if shard%g.shard[1] == g.shard[0] {
			g.dispatch("INTERACTION_CREATE", body)
			return
		}
	}
}

// again gives the same interaction once more.
func (s *standIn) again(e *interactionState, p pressed) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if p.maker == "" {
		p.maker = e.maker
	}
	if p.channel == "" {
		p.channel = e.channel
	}
	s.dispatch(e, p)
}

// said is what a person writes into a channel.
type said struct {
	guild, channel, maker, text string
	roles                       []string
	// bot, kind and replyTo make it something else than a person's own message.
	bot     bool
	kind    int
	replyTo *shown
	// files are what the message brings along.
	files []attached
}

// theBot is the bot's own user.
const theBot = "423456789012345678"

// atBot begins a message to the bot.
const atBot = "<@" + theBot + "> "

// say gives a person's message to the shard of its guild, and its id back. As
// Discord does, it leaves out the text where the bot is not mentioned.
func (s *standIn) say(m said) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	if m.maker == "" {
		m.maker = theMaker
	}
	if m.channel == "" {
		m.channel = theChannel
	}
	id := s.newID()
	author := userBody(m.maker)
	author["bot"] = m.bot
	mentions := []any{}
	text := m.text
	if strings.Contains(text, "<@"+theBot+">") {
		mentions = append(mentions, userBody(theBot))
	} else if m.guild != "" {
		text = ""
	}
	body := map[string]any{
		"id": id, "type": m.kind, "channel_id": m.channel, "content": text, "author": author, "mentions": mentions,
		"mention_roles": []any{}, "attachments": append([]attached{}, m.files...), "embeds": []any{}, "timestamp": "2026-01-01T00:00:00Z",
		"edited_timestamp": nil, "tts": false, "mention_everyone": false, "pinned": false, "flags": 0, "nonce": "1",
		"components": []any{map[string]any{"type": 99, "id": 1}},
	}
	if m.guild != "" {
		body["guild_id"] = m.guild
		body["member"] = map[string]any{"roles": m.roles, "joined_at": "2026-01-01T00:00:00Z", "deaf": false, "mute": false}
	}
	if m.replyTo != nil {
		body["type"], body["message_reference"] = 19, map[string]any{"message_id": m.replyTo.id, "channel_id": m.replyTo.channel}
	}
	shard := 0
	if n, err := strconv.ParseInt(m.guild, 10, 64); err == nil {
		shard = int(n >> 22)
	}
	for _, g := range s.gateway.sessions {
		if shard%g.shard[1] == g.shard[0] {
			g.dispatch("MESSAGE_CREATE", body)
			break
		}
	}
	return id
}
