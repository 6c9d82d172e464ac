package discord

import (
	"bufio"
	"bytes"
	"context"
	"crypto/tls"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"strings"
)

// A frame that the library can't bear ends the whole process: "null", or an
// event without data, is a nil pointer in its reading goroutine. So frames are
// looked at before it gets them.

// frameGuard is a gateway connection, in the clear, that passes on only frames
// that are harmless. Frames that Discord does not compress are text.
type frameGuard struct {
	net.Conn
	in  *bufio.Reader
	out bytes.Buffer
	// state is how far the connection is.
	state guardState
	// text is a message so far that comes in several frames.
	text []byte
	// dropped is told of each message that was not passed on.
	dropped func()
}

type guardState int

const (
	guardStatusLine guardState = iota
	guardHeaders
	guardFrames
	guardOff // no WebSocket: the server declined
)

// maxFrame is the longest message that is read; Discord's are far shorter.
const maxFrame = 32 << 20

var errFrame = errors.New("discord: a frame that can't be read")

func guardFramesOf(conn net.Conn, dropped func()) net.Conn {
	return &frameGuard{Conn: conn, in: bufio.NewReader(conn), dropped: dropped}
}

func (g *frameGuard) Read(p []byte) (int, error) {
	for g.out.Len() == 0 {
		if g.state == guardOff {
			return g.in.Read(p)
		}
		if err := g.next(); err != nil {
			return 0, err
		}
	}
	return g.out.Read(p)
}

// next reads one line of the handshake, or one frame.
func (g *frameGuard) next() error {
	if g.state == guardFrames {
		return g.frame()
	}
	line, err := g.in.ReadBytes('\n')
	if err != nil {
		return err
	}
	g.out.Write(line)
	switch {
	case g.state == guardStatusLine && strings.Contains(string(line), " 101 "):
		g.state = guardHeaders
	case g.state == guardStatusLine:
		g.state = guardOff
	case len(bytes.TrimSpace(line)) == 0:
		g.state = guardFrames
	}
	return nil
}

// Parts of a frame's header, RFC 6455, section 5.2.
const (
	frameFin     = 0x80
	frameMasked  = 0x80
	opContinue   = 0
	opText       = 1
	firstControl = 8
)

func (g *frameGuard) frame() error {
	var head [2]byte
	if _, err := io.ReadFull(g.in, head[:]); err != nil {
		return err
	}
	size := uint64(head[1] &^ frameMasked)
	switch size {
	case 126:
		var n [2]byte
		if _, err := io.ReadFull(g.in, n[:]); err != nil {
			return err
		}
		size = uint64(binary.BigEndian.Uint16(n[:]))
	case 127:
		var n [8]byte
		if _, err := io.ReadFull(g.in, n[:]); err != nil {
			return err
		}
		size = binary.BigEndian.Uint64(n[:])
	}
	if head[1]&frameMasked != 0 || size+uint64(len(g.text)) > maxFrame {
		return errFrame
	}
	data := make([]byte, size)
	if _, err := io.ReadFull(g.in, data); err != nil {
		return err
	}
	op := head[0] & 0x0f
	if op != opText && op != opContinue {
		g.write(head[0], data) // control frames, and what the library reads as compressed
		return nil
	}
	g.text = append(g.text, data...)
	if head[0]&frameFin == 0 {
		return nil
	}
	whole := g.text
	g.text = nil
	if harmless(whole) {
		g.write(frameFin|opText, whole)
	} else {
		g.dropped()
	}
	return nil
}

func (g *frameGuard) write(first byte, data []byte) {
	g.out.WriteByte(first)
	switch n := len(data); {
	case n < 126:
		g.out.WriteByte(byte(n))
	case n <= 0xffff:
		g.out.WriteByte(126)
		g.out.Write(binary.BigEndian.AppendUint16(nil, uint16(n)))
	default:
		g.out.WriteByte(127)
		g.out.Write(binary.BigEndian.AppendUint64(nil, uint64(n)))
	}
	g.out.Write(data)
}

// harmless reports whether the library can take a message.
func harmless(text []byte) bool {
	var e struct {
		Op   *int            `json:"op"`
		Type string          `json:"t"`
		Data json.RawMessage `json:"d"`
	}
	if json.Unmarshal(text, &e) != nil || e.Op == nil {
		return false
	}
	const dispatch, hello = 0, 10
	switch *e.Op {
	case dispatch:
		return e.Type == "RESUMED" || len(e.Data) > 0 && !bytes.Equal(e.Data, []byte("null"))
	case hello:
		var h struct {
			Interval int64 `json:"heartbeat_interval"`
		}
		return json.Unmarshal(e.Data, &h) == nil && h.Interval > 0
	}
	return true
}

// dialGuarded opens a connection to a gateway address that is looked after.
func dialGuarded(ctx context.Context, network, address string, secure bool, dropped func()) (net.Conn, error) {
	conn, err := dialWithReadTimeout(ctx, network, address)
	if err != nil || !secure {
		return guarded(conn, err, dropped)
	}
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return nil, errors.Join(fmt.Errorf("discord: %w", err), conn.Close())
	}
	safe := tls.Client(conn, &tls.Config{ServerName: host, MinVersion: tls.VersionTLS12})
	if err := safe.HandshakeContext(ctx); err != nil {
		return nil, errors.Join(fmt.Errorf("discord: %w", err), conn.Close())
	}
	return guarded(safe, nil, dropped)
}

func guarded(conn net.Conn, err error, dropped func()) (net.Conn, error) {
	if err != nil {
		return nil, err
	}
	return guardFramesOf(conn, dropped), nil
}
