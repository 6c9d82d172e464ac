package matrix

import (
	"bytes"
	"context"
	"io"
	"log"
	"net"
	"net/http"
	"net/http/httputil"
	"net/url"
	"sync"
)

// proxy stands between a client and the homeserver and cuts connections.
//
// The server never notices: what it was asked it is asked whole, and answers to
// the end. Two faults of Dendrite v0.13.8 make this necessary; what is tested
// here is the bot, which sees its connection break all the same.
//   - A client that goes away within a request can leave Dendrite's SQLite
//     database inside a transaction ("cannot start a transaction within a
//     transaction"), whereupon it answers 500 to everyone and then ends.
//   - It remembers a transaction's id when the event is stored and not before
//     (clientapi/routing/sendevent.go): an event that is sent again while the
//     server still works on it is stored twice. The proxy lets the second
//     request wait for the first, so that the server sees that they are one.
type proxy struct {
	server *http.Server
	addr   string
	pass   *httputil.ReverseProxy
	sends  sync.Map // a *sync.Mutex for the path of each PUT

	mu      sync.Mutex
	down    bool
	clients map[net.Conn]bool
}

func startProxy(target string) (*proxy, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, err
	}
	p := &proxy{addr: l.Addr().String(), clients: map[net.Conn]bool{}}
	p.pass = httputil.NewSingleHostReverseProxy(&url.URL{Scheme: "http", Host: target})
	// Connections of its own, which end with the server.
	p.pass.Transport = &http.Transport{MaxIdleConnsPerHost: 16}
	p.pass.ErrorLog = log.New(io.Discard, "", 0)
	p.pass.ErrorHandler = func(http.ResponseWriter, *http.Request, error) { panic(http.ErrAbortHandler) }
	p.server = &http.Server{Handler: p, ConnState: p.follow, ErrorLog: log.New(io.Discard, "", 0)}
	go func() { _ = p.server.Serve(l) }()
	return p, nil
}

func (p *proxy) url() string { return "http://" + p.addr }

func (p *proxy) close() { _ = p.server.Close() }

func (p *proxy) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(r.Body)
	if err != nil {
		return // the client went away
	}
	if r.Method == http.MethodPut {
		same, _ := p.sends.LoadOrStore(r.URL.Path, &sync.Mutex{})
		same.(*sync.Mutex).Lock()
		defer same.(*sync.Mutex).Unlock()
	}
	// A server that hangs must not keep the test from saying so. The event stream's
	// longest answer takes 30 s.
	ctx, cancel := context.WithTimeout(context.WithoutCancel(r.Context()), patience)
	defer cancel()
	whole := r.Clone(ctx)
	whole.Body = io.NopCloser(bytes.NewReader(body))
	// Without the writer's other methods, by which it would be told that the
	// client is gone.
	p.pass.ServeHTTP(struct{ http.ResponseWriter }{w}, whole)
}

// follow keeps the list of open connections, and refuses those that come while
// the server is to be out of reach.
func (p *proxy) follow(c net.Conn, state http.ConnState) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch state {
	case http.StateNew:
		p.clients[c] = true
		if p.down {
			_ = c.Close()
		}
	case http.StateClosed, http.StateHijacked:
		delete(p.clients, c)
	}
}

// cut ends all connections that are open; new ones are let through.
func (p *proxy) cut() {
	p.mu.Lock()
	defer p.mu.Unlock()
	for c := range p.clients {
		_ = c.Close()
	}
}

// set lets connections through or refuses them all.
func (p *proxy) set(down bool) {
	p.mu.Lock()
	p.down = down
	p.mu.Unlock()
	if down {
		p.cut()
	}
}
