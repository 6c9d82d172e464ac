package matrix

import (
	"io"
	"net"
	"sync"
	"testing"
)

// proxy stands between the bot and the homeserver and cuts connections.
//
// The server never notices: its side is read to the end and stays open. Seen of
// Dendrite v0.13.8 is that a client that goes away within a request can leave
// its SQLite database inside a transaction ("cannot start a transaction within
// a transaction"), whereupon it answers 500 to everyone and then ends. What is
// tested here is the bot, which sees its connection break all the same.
type proxy struct {
	listener net.Listener
	target   string

	mu      sync.Mutex
	down    bool
	clients map[net.Conn]bool
	servers []net.Conn
}

func startProxy(t *testing.T, target string) *proxy {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	p := &proxy{listener: l, target: target, clients: map[net.Conn]bool{}}
	go p.accept()
	t.Cleanup(func() {
		_ = l.Close()
		p.set(true)
		p.mu.Lock()
		defer p.mu.Unlock()
		for _, s := range p.servers {
			_ = s.Close()
		}
	})
	return p
}

func (p *proxy) url() string { return "http://" + p.listener.Addr().String() }

func (p *proxy) accept() {
	for {
		c, err := p.listener.Accept()
		if err != nil {
			return
		}
		go p.serve(c)
	}
}

func (p *proxy) serve(c net.Conn) {
	p.mu.Lock()
	refused := p.down
	if !refused {
		p.clients[c] = true
	}
	p.mu.Unlock()
	s, err := net.Dial("tcp", p.target)
	if refused || err != nil {
		_ = c.Close()
		if err == nil {
			_ = s.Close()
		}
		return
	}
	p.mu.Lock()
	p.servers = append(p.servers, s)
	p.mu.Unlock()
	go func() { _, _ = io.Copy(s, c) }()
	if _, err := io.Copy(c, s); err != nil {
		_, _ = io.Copy(io.Discard, s)
	}
	_ = c.Close()
	p.mu.Lock()
	defer p.mu.Unlock()
	delete(p.clients, c)
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
