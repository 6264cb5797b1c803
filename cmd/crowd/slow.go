package main

import (
	"context"
	"net"
	"time"
)

// A slow page takes some 10 kB a second, in pieces.
const (
	slowBytes = 512
	slowPause = 50 * time.Millisecond
)

// trickle is a connection as a slow page reads it.
type trickle struct {
	ctx  context.Context
	conn net.Conn
}

func (t trickle) Read(b []byte) (int, error) {
	n, err := t.conn.Read(b[:min(len(b), slowBytes)])
	pause(t.ctx, slowPause)
	return n, err
}
