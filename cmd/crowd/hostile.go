package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"time"

	"clocktell/overlay/wire"
)

// How long a relay may take to turn somebody away, and the pause between two misdeeds.
const (
	endureMost   = 20 * time.Second
	misdeedPause = time.Second
	floodFrames  = 1300 // of 600 that are allowed in ten seconds; the window may turn once meanwhile
	oversize     = 5000 // bytes, of 4096
)

// misdeed is something that no page may do, and the code that it is closed with.
type misdeed struct {
	name string
	do   func(l *line) error
	code int // 0: cut off without one
}

var misdeeds = []misdeed{
	{"a binary frame", func(l *line) error { return l.write(opBinary, []byte(`{"type":"ping","t":1,"late":[]}`)) }, 1003},
	{"an oversize frame", func(l *line) error { return l.write(opText, []byte(strings.Repeat("x", oversize))) }, 1009},
	{"no UTF-8", func(l *line) error { return l.write(opText, []byte("{\"type\":\"\xff\xfe\"}")) }, 1007},
	{"no JSON", func(l *line) error { return l.write(opText, []byte("]]] nothing {")) }, wire.CloseBadFrame},
	{"an unknown type", func(l *line) error { return l.write(opText, []byte(`{"type":"open sesame"}`)) }, wire.CloseBadFrame},
	{"a who from a scene", func(l *line) error { return l.write(opText, []byte(`{"type":"who","name":"Runa"}`)) }, wire.CloseBadFrame},
	{"an opcode that is none", func(l *line) error { return l.write(0xb, []byte("x")) }, 1002},
	{"a frame without a mask", func(l *line) error { _, err := l.conn.Write([]byte("\x81\x02{}")); return err }, 0},
	{"a flood", flood, 1008},
}

func flood(l *line) error {
	for range floodFrames {
		if err := l.write(opText, []byte(`{"type":"ping","t":1,"late":[]}`)); err != nil {
			return nil // turned away before it was through
		}
	}
	return nil
}

// wrongRequests are requests that are answered with a status, and never with a socket.
var wrongRequests = []struct {
	name, send string
	status     int // 0: any that refuses, or the line is cut
}{
	{"a path that is none", "GET /lively HTTP/1.1\r\nHost: %s\r\n\r\n", http.StatusNotFound},
	{"no upgrade", "GET /live?page=scene/board HTTP/1.1\r\nHost: %s\r\n\r\n", http.StatusUpgradeRequired},
	{"a call by GET", "GET /by-hand HTTP/1.1\r\nHost: %s\r\n\r\n", http.StatusMethodNotAllowed},
	{"garbage", "\x16\x03\x01%s\r\n\r\n", 0},
	{"half a handshake", "GET /live?page=scene/board HTTP/1.1\r\nHost: %s\r\nUpgrade: webs", 0},
}

// offender does one misdeed after the other.
type offender struct {
	address string
	counts  *counts
	tally   *tally
}

func (o *offender) live(ctx context.Context, from int) {
	for n := from; ctx.Err() == nil; n++ {
		if i := n % (len(misdeeds) + len(wrongRequests)); i < len(misdeeds) {
			o.offend(ctx, misdeeds[i])
		} else {
			o.ask(ctx, i-len(misdeeds))
		}
		pause(ctx, misdeedPause)
	}
}

// offend opens a board and does what must not be done.
func (o *offender) offend(ctx context.Context, m misdeed) {
	l, err := dial(ctx, o.address, wantOf("scene/board", 0, 1).path("", 0, 0), false, nil)
	if err != nil {
		o.counts.refused.Add(1)
		return
	}
	defer l.conn.Close()
	defer context.AfterFunc(ctx, func() { _ = l.conn.Close() })()
	if _, err = l.read(nil); err != nil {
		o.counts.refused.Add(1)
		return
	}
	o.counts.came.Add(1)
	if err = m.do(l); err == nil {
		err = l.conn.SetReadDeadline(time.Now().Add(endureMost))
	}
	for err == nil {
		_, err = l.read(nil)
	}
	o.judge(ctx, m, err)
}

// judge counts how it ended: with the right code, or without any, since a line that is cut
// while there is more to read may lose the last frame.
func (o *offender) judge(ctx context.Context, m misdeed, err error) {
	var end closed
	var timeout net.Error
	switch {
	case ctx.Err() != nil:
	case errors.As(err, &end) && end.code == m.code:
		o.counts.left.Add(1)
	case errors.As(err, &end):
		o.tally.breach(o.counts, breachAnswered, "hostile page", "%s is answered with %v, not %d", m.name, end, m.code)
	case errors.As(err, &timeout) && timeout.Timeout():
		o.tally.breach(o.counts, breachAnswered, "hostile page", "%s is endured for %v", m.name, endureMost)
	default:
		o.counts.lost.Add(1)
	}
}

// ask sends a request that is wrong.
func (o *offender) ask(ctx context.Context, i int) {
	r := wrongRequests[i]
	dialer := net.Dialer{Timeout: dialWait}
	conn, err := dialer.DialContext(ctx, "tcp", o.address)
	if err != nil {
		o.counts.refused.Add(1)
		return
	}
	defer conn.Close()
	defer context.AfterFunc(ctx, func() { _ = conn.Close() })()
	o.counts.came.Add(1)
	_ = conn.SetDeadline(time.Now().Add(endureMost)) // without one, ctx ends it
	_, _ = fmt.Fprintf(conn, r.send, o.address)      // whoever is cut off now reads so below
	resp, err := http.ReadResponse(bufio.NewReader(conn), nil)
	var timeout net.Error
	switch {
	case ctx.Err() != nil:
	case errors.As(err, &timeout) && timeout.Timeout():
		o.tally.breach(o.counts, breachAnswered, "hostile page", "%s is endured for %v", r.name, endureMost)
	case err != nil:
		o.counts.lost.Add(1)
	case r.status != 0 && resp.StatusCode != r.status, resp.StatusCode < 400:
		o.tally.breach(o.counts, breachAnswered, "hostile page", "%s is answered with status %d, not %d", r.name, resp.StatusCode, r.status)
	default:
		_, _ = io.Copy(io.Discard, io.LimitReader(resp.Body, 1<<10))
		o.counts.left.Add(1)
	}
}
