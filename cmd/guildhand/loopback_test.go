package main

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/json"
	"encoding/pem"
	"fmt"
	"io"
	"math/big"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The two platforms, as little of each as the program needs to connect, to be
// asked in one room and to answer. The adapters are tested against the real
// rules of their platforms in their own folders; here it is the program that is
// looked at.

const (
	loopRoom  = "!bench:loop.test"
	loopBot   = "@guildhand:loop.test"
	loopMaker = "@maker:loop.test"
)

// matrixLoop is a homeserver with one room, which is not encrypted.
type matrixLoop struct {
	*httptest.Server

	mu   sync.Mutex
	news sync.Cond
	// asked are the events of the room's timeline, sent what the bot put there,
	// by session and transaction.
	asked []map[string]any
	sent  []map[string]any
	txns  map[string]string
	syncs int
	done  bool
	// beforeSend, if set, may hold up what a session of the bot sends, or lose it.
	beforeSend func(session string) (lost bool)
	// unknown are requests that nothing here answers.
	unknown []string
}

func newMatrixLoop(t *testing.T) *matrixLoop {
	m := &matrixLoop{txns: map[string]string{}}
	m.news.L = &m.mu
	m.Server = httptest.NewServer(http.HandlerFunc(m.serve))
	t.Cleanup(func() {
		m.mu.Lock()
		m.done = true
		m.news.Broadcast()
		m.mu.Unlock()
		m.Server.CloseClientConnections()
		m.Server.Close()
	})
	return m
}

// env configures the program to serve the room.
func (m *matrixLoop) env(encryption bool) []string {
	return []string{
		"GUILDHAND_MATRIX_HOMESERVER=" + m.URL,
		"GUILDHAND_MATRIX_USER=" + loopBot,
		"GUILDHAND_MATRIX_TOKEN=of-the-loop",
		"GUILDHAND_MATRIX_ENCRYPTION=" + strconv.FormatBool(encryption),
		"GUILDHAND_LIMITS_MAKER_AT_ONCE=10000", "GUILDHAND_LIMITS_CHANNEL_AT_ONCE=10000",
	}
}

// ask puts a question into the room and gives its event id.
func (m *matrixLoop) ask(text string) string {
	m.mu.Lock()
	defer m.mu.Unlock()
	id := fmt.Sprintf("$question-%d", len(m.asked)+1)
	m.asked = append(m.asked, map[string]any{
		"type": "m.room.message", "event_id": id, "sender": loopMaker, "room_id": loopRoom,
		"origin_server_ts": time.Now().UnixMilli(),
		"content":          map[string]any{"msgtype": "m.text", "body": text},
	})
	m.news.Broadcast()
	return id
}

// listening waits until the program follows the room.
func (m *matrixLoop) listening(t *testing.T) {
	t.Helper()
	m.wait(t, "the program to listen", func() bool { return m.syncs > 1 })
}

// answers returns the texts that the bot sent in answer to an event.
func (m *matrixLoop) answers(question string) (texts []string) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.answersTo(question)
}

func (m *matrixLoop) answersTo(question string) (texts []string) {
	for _, evt := range m.sent {
		content := evt["content"].(map[string]any)
		relation, _ := content["m.relates_to"].(map[string]any)
		reply, _ := relation["m.in_reply_to"].(map[string]any)
		if reply["event_id"] == question && content["msgtype"] == "m.notice" {
			texts = append(texts, content["body"].(string))
		}
	}
	return texts
}

func (m *matrixLoop) answered(t *testing.T, question string) string {
	t.Helper()
	m.wait(t, "an answer to "+question, func() bool { return len(m.answersTo(question)) > 0 })
	return m.answers(question)[0]
}

// wait waits for a condition on what the server has seen.
func (m *matrixLoop) wait(t *testing.T, what string, holds func() bool) {
	t.Helper()
	m.waitLong(t, what, time.Minute, holds)
}

func (m *matrixLoop) waitLong(t *testing.T, what string, long time.Duration, holds func() bool) {
	t.Helper()
	seen := func() bool { m.mu.Lock(); defer m.mu.Unlock(); return holds() }
	if !assert.Eventually(t, seen, long, 5*time.Millisecond, what) {
		t.Fatalf("not understood: %q", m.unknown)
	}
}

func state(kind, key string, content map[string]any) map[string]any {
	return map[string]any{
		"type": kind, "state_key": key, "event_id": "$" + kind + key, "sender": loopMaker, "room_id": loopRoom,
		"origin_server_ts": 1, "content": content,
	}
}

var loopState = []map[string]any{
	state("m.room.create", "", map[string]any{"room_version": "11"}),
	state("m.room.member", loopMaker, map[string]any{"membership": "join"}),
	state("m.room.member", loopBot, map[string]any{"membership": "join"}),
	state("m.room.name", "", map[string]any{"name": "the bench"}),
	state("m.room.power_levels", "", map[string]any{"users": map[string]any{loopMaker: 100}}),
}

func (m *matrixLoop) serve(w http.ResponseWriter, r *http.Request) {
	body, _ := io.ReadAll(r.Body)
	path := r.URL.Path
	say := func(status int, v any) {
		w.Header().Set("Content-Type", "application/json")
		w.WriteHeader(status)
		_ = json.NewEncoder(w).Encode(v) // a client that is gone is no fault here
	}
	in := func(part string) bool { return strings.Contains(path, part) }
	nothing := map[string]any{}
	switch {
	case strings.HasSuffix(path, "/versions"):
		say(200, map[string]any{"versions": []string{"v1.11"}})
	case in("/account/whoami"):
		say(200, map[string]any{"user_id": loopBot, "device_id": "LOOP"})
	case in("/filter"):
		say(200, map[string]any{"filter_id": "1"})
	case in("/sync"):
		say(200, m.sync(r.URL.Query().Get("since")))
	case in("/keys/upload"):
		say(200, map[string]any{"one_time_key_counts": map[string]any{"signed_curve25519": 100}})
	case in("/keys/query"):
		say(200, map[string]any{"device_keys": nothing})
	case in("/upload"):
		say(200, map[string]any{"content_uri": "mxc://loop.test/file"})
	case in("/typing/"):
		say(200, nothing)
	case in("/joined_rooms"):
		say(200, map[string]any{"joined_rooms": []string{loopRoom}})
	case in("/members"):
		say(200, map[string]any{"chunk": loopState[1:3]})
	case strings.HasSuffix(path, "/state"):
		say(200, loopState)
	case in("/state/"):
		say(404, map[string]any{"errcode": "M_NOT_FOUND", "error": "no such state"})
	case in("/messages"):
		m.mu.Lock()
		defer m.mu.Unlock()
		var chunk []map[string]any
		for i := range m.sent {
			chunk = append(chunk, m.sent[len(m.sent)-1-i])
		}
		say(200, map[string]any{"chunk": chunk, "start": "0"})
	case r.Method == http.MethodPut && in("/send/"):
		session := strings.TrimPrefix(r.Header.Get("Authorization"), "Bearer ")
		if m.beforeSend != nil && m.beforeSend(session) {
			say(502, nil)
			return
		}
		say(200, map[string]any{"event_id": m.take(session, path, body)})
	default:
		m.mu.Lock()
		m.unknown = append(m.unknown, r.Method+" "+path)
		m.mu.Unlock()
		say(404, map[string]any{"errcode": "M_UNRECOGNIZED", "error": "not of this loop"})
	}
}

// take keeps what the bot sends, once for each transaction of a session.
func (m *matrixLoop) take(session, path string, body []byte) string {
	txn := session + path[strings.LastIndexByte(path, '/')+1:]
	m.mu.Lock()
	defer m.mu.Unlock()
	if id, ok := m.txns[txn]; ok {
		return id
	}
	id := fmt.Sprintf("$answer-%d", len(m.sent)+1)
	m.txns[txn] = id
	content := map[string]any{}
	_ = json.Unmarshal(body, &content) // what is not JSON has no content
	m.sent = append(m.sent, map[string]any{
		"type": "m.room.message", "event_id": id, "sender": loopBot, "room_id": loopRoom,
		"origin_server_ts": time.Now().UnixMilli(), "content": content,
	})
	return id
}

// sync returns what was asked since, or waits a while for it.
func (m *matrixLoop) sync(since string) map[string]any {
	seen, err := strconv.Atoi(since)
	timeout := time.AfterFunc(20*time.Second, m.news.Broadcast)
	defer timeout.Stop()
	m.mu.Lock()
	defer m.mu.Unlock()
	m.syncs++
	room := map[string]any{}
	if err != nil {
		seen = len(m.asked)
		room["state"] = map[string]any{"events": loopState}
	} else if seen == len(m.asked) && !m.done {
		m.news.Wait()
	}
	room["timeline"] = map[string]any{"events": append([]map[string]any{}, m.asked[min(seen, len(m.asked)):]...), "prev_batch": "0", "limited": false}
	return map[string]any{
		"next_batch":                 strconv.Itoa(len(m.asked)),
		"rooms":                      map[string]any{"join": map[string]any{loopRoom: room}},
		"device_one_time_keys_count": map[string]any{"signed_curve25519": 100},
	}
}

// discordLoop is Discord's REST and gateway. REST is only spoken over TLS to
// discord.com, so the program gets there through a proxy and trusts its
// certificate, both of which are usual settings of the environment.
type discordLoop struct {
	proxy, gateway, rest *httptest.Server
	ca                   string

	mu       sync.Mutex
	commands json.RawMessage
}

func newDiscordLoop(t *testing.T) *discordLoop {
	d := &discordLoop{commands: json.RawMessage("[]"), ca: filepath.Join(t.TempDir(), "ca.pem")}
	d.gateway = httptest.NewServer(http.HandlerFunc(d.serveGateway))
	d.rest = httptest.NewUnstartedServer(http.HandlerFunc(d.serveREST))
	d.rest.TLS = &tls.Config{Certificates: []tls.Certificate{certificate(t, "discord.com", d.ca)}}
	d.rest.StartTLS()
	d.proxy = httptest.NewServer(http.HandlerFunc(d.serveProxy))
	t.Cleanup(func() {
		for _, s := range []*httptest.Server{d.proxy, d.rest, d.gateway} {
			s.CloseClientConnections()
			s.Close()
		}
	})
	return d
}

func (d *discordLoop) env() []string {
	return []string{
		"HTTPS_PROXY=" + d.proxy.URL, "SSL_CERT_FILE=" + d.ca, "SSL_CERT_DIR=/nonexistent",
		"GUILDHAND_DISCORD_TOKEN=of-the-loop", "GUILDHAND_DISCORD_APPLICATION_ID=123456789012345678",
	}
}

// certificate makes one for a host, and writes it where it can be trusted.
func certificate(t *testing.T, host, path string) tls.Certificate {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	require.NoError(t, err)
	template := &x509.Certificate{
		SerialNumber: big.NewInt(1), DNSNames: []string{host}, IsCA: true, BasicConstraintsValid: true,
		NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour),
		KeyUsage: x509.KeyUsageDigitalSignature | x509.KeyUsageCertSign,
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, key.Public(), key)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}), 0o600))
	return tls.Certificate{Certificate: [][]byte{der}, PrivateKey: key}
}

func (d *discordLoop) serveProxy(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodConnect || r.Host != "discord.com:443" {
		http.Error(w, "only to discord.com", http.StatusForbidden)
		return
	}
	there, err := net.Dial("tcp", d.rest.Listener.Addr().String())
	if err != nil {
		http.Error(w, err.Error(), http.StatusBadGateway)
		return
	}
	here, _, err := w.(http.Hijacker).Hijack()
	if err != nil {
		_ = there.Close()
		return
	}
	_, _ = io.WriteString(here, "HTTP/1.1 200 OK\r\n\r\n")
	go func() { _, _ = io.Copy(there, here); _ = there.Close() }()
	go func() { _, _ = io.Copy(here, there); _ = here.Close() }()
}

func (d *discordLoop) serveREST(w http.ResponseWriter, r *http.Request) {
	d.mu.Lock()
	defer d.mu.Unlock()
	w.Header().Set("Content-Type", "application/json")
	url := "ws://" + d.gateway.Listener.Addr().String() + "/"
	switch {
	case strings.HasSuffix(r.URL.Path, "/gateway"):
		fmt.Fprintf(w, `{"url":%q}`, url)
	case strings.HasSuffix(r.URL.Path, "/gateway/bot"):
		fmt.Fprintf(w, `{"url":%q,"shards":1,"session_start_limit":{"total":1000,"remaining":999,"max_concurrency":1}}`, url)
	case strings.HasSuffix(r.URL.Path, "/commands"):
		if r.Method == http.MethodPut {
			d.commands, _ = io.ReadAll(r.Body)
		}
		_, _ = w.Write(d.commands)
	default:
		http.Error(w, `{"code":0,"message":"not of this loop"}`, http.StatusNotFound)
	}
}

func (d *discordLoop) serveGateway(w http.ResponseWriter, r *http.Request) {
	upgrader := websocket.Upgrader{}
	ws, err := upgrader.Upgrade(w, r, nil)
	if err != nil {
		return
	}
	defer ws.Close()
	_ = ws.WriteJSON(map[string]any{"op": 10, "d": map[string]any{"heartbeat_interval": 41250}})
	for {
		var op struct {
			Op int `json:"op"`
		}
		if ws.ReadJSON(&op) != nil {
			return
		}
		switch op.Op {
		case 1:
			_ = ws.WriteJSON(map[string]any{"op": 11})
		case 2:
			_ = ws.WriteJSON(map[string]any{"op": 0, "s": 1, "t": "READY", "d": map[string]any{
				"v": 9, "session_id": "loop", "user": map[string]any{"id": "123456789012345678", "username": "guildhand", "bot": true},
				"guilds": []any{}, "resume_gateway_url": "ws://" + d.gateway.Listener.Addr().String() + "/",
			}})
		}
	}
}
