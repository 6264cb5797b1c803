package main

import (
	"bufio"
	"context"
	"crypto/sha1"
	"encoding/base64"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"sync"
	"time"
)

// Opcodes and codes of RFC 6455, sections 5.2 and 7.4.1.
const (
	opText   = 1
	opBinary = 2
	opClose  = 8

	closeNormal   = 1000
	closeTryAgain = 1013
)

const (
	dialWait    = 20 * time.Second
	writeWait   = time.Second
	frameMost   = 64 << 20 // bytes of a frame from the relay
	readAhead   = 1 << 10  // bytes; a page of ours takes little memory
	smallBuffer = 4 << 10  // bytes that the system keeps for who reads slowly
)

// refused is a relay that does not let a page in.
type refused struct{ status int }

func (e refused) Error() string { return fmt.Sprintf("refused with status %d", e.status) }

// closed is a socket that the relay has closed with a code.
type closed struct {
	code   int
	reason string
}

func (e closed) Error() string { return fmt.Sprintf("closed with %d %s", e.code, e.reason) }

// line is a WebSocket (RFC 6455) as a page has it, small, and no politer than it must be.
type line struct {
	conn net.Conn
	in   *bufio.Reader

	mu  sync.Mutex // protects following
	out []byte
}

// dial opens the socket at path; small lets the system keep little of what is not read yet,
// and through is where reading goes, nil for straight from the connection.
func dial(ctx context.Context, address, path string, small bool, through func(net.Conn) io.Reader) (*line, error) {
	dialer := net.Dialer{Timeout: dialWait}
	conn, err := dialer.DialContext(ctx, "tcp", address)
	if err != nil {
		return nil, err
	}
	if tcp, ok := conn.(*net.TCPConn); ok && small {
		_ = tcp.SetReadBuffer(smallBuffer) // without it the page stalls later
	}
	from := io.Reader(conn)
	if through != nil {
		from = through(conn)
	}
	l := &line{conn: conn, in: bufio.NewReaderSize(from, readAhead)}
	if err := l.shakeHands(address, path); err != nil {
		return nil, errors.Join(err, conn.Close())
	}
	return l, nil
}

func (l *line) shakeHands(address, path string) error {
	var nonce [16]byte
	binary.NativeEndian.PutUint64(nonce[:], rand.Uint64())
	key := base64.StdEncoding.EncodeToString(nonce[:])
	if err := l.conn.SetDeadline(time.Now().Add(dialWait)); err != nil {
		return err
	}
	_, err := fmt.Fprintf(l.conn, "GET %s HTTP/1.1\r\nHost: %s\r\nUpgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Key: %s\r\nSec-WebSocket-Version: 13\r\n\r\n", path, address, key)
	if err != nil {
		return err
	}
	resp, err := http.ReadResponse(l.in, nil)
	if err != nil {
		return err
	}
	if resp.StatusCode != http.StatusSwitchingProtocols {
		return refused{resp.StatusCode}
	}
	sum := sha1.Sum([]byte(key + "258EAFA5-E914-47DA-95CA-C5AB0DC85B11")) // RFC 6455, 4.2.2
	if resp.Header.Get("Sec-WebSocket-Accept") != base64.StdEncoding.EncodeToString(sum[:]) {
		return errors.New("the handshake has a wrong answer")
	}
	return l.conn.SetDeadline(time.Time{})
}

// read returns the next message, in buf if it has room. The relay masks and cuts nothing
// up; whatever else it did would be an error here.
func (l *line) read(buf []byte) ([]byte, error) {
	head, err := l.in.Peek(2)
	if err != nil {
		return nil, err
	}
	first, second := head[0], head[1]
	_, _ = l.in.Discard(2)
	size := uint64(second)
	switch second {
	case 126:
		size, err = l.length(2)
	case 127:
		size, err = l.length(8)
	}
	switch {
	case err != nil:
		return nil, err
	case first&0x70 != 0, first&0x80 == 0, second&0x80 != 0, size > frameMost:
		return nil, errShape
	}
	if uint64(cap(buf)) < size {
		buf = make([]byte, size+size/4)
	}
	buf = buf[:size]
	if _, err := io.ReadFull(l.in, buf); err != nil {
		return nil, err
	}
	switch first & 0xf {
	case opText:
		return buf, nil
	case opClose:
		if len(buf) < 2 {
			return nil, closed{}
		}
		return nil, closed{int(binary.BigEndian.Uint16(buf)), string(buf[2:])}
	}
	return nil, errShape
}

func (l *line) length(bytes int) (uint64, error) {
	var b [8]byte
	_, err := io.ReadFull(l.in, b[8-bytes:])
	return binary.BigEndian.Uint64(b[:]), err
}

// write sends one frame whole.
func (l *line) write(op byte, payload []byte) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.out = appendFrame(l.out[:0], op, payload, rand.Uint32())
	if err := l.conn.SetWriteDeadline(time.Now().Add(writeWait)); err != nil {
		return err
	}
	_, err := l.conn.Write(l.out)
	return err
}

// appendFrame writes a frame from a client, masked (RFC 6455, 5.3).
func appendFrame(b []byte, op byte, payload []byte, mask uint32) []byte {
	b = append(b, 0x80|op)
	if n := len(payload); n < 126 {
		b = append(b, 0x80|byte(n))
	} else {
		b = binary.BigEndian.AppendUint16(append(b, 0x80|126), uint16(n)) // nothing here is longer than 64 KiB
	}
	b = binary.BigEndian.AppendUint32(b, mask)
	key := b[len(b)-4:]
	for i, c := range payload {
		b = append(b, c^key[i%4])
	}
	return b
}

// goodbye tells the relay that the page leaves.
func (l *line) goodbye() error {
	return l.write(opClose, binary.BigEndian.AppendUint16(nil, closeNormal))
}
