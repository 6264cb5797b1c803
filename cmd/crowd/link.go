package main

import (
	"context"
	"errors"
	"io"
	"net"
	"net/url"
	"sync/atomic"

	"golang.org/x/sync/errgroup"
)

// link is the line of one edge to the bus. All that goes over it goes through the tool, which
// counts it.
type link struct {
	listener net.Listener
	bus      string // HOST:PORT
	down, up atomic.Uint64
	messages atomic.Uint64 // from the bus: of the stream, and answers
	group    *errgroup.Group
	ctx      context.Context
	end      context.CancelFunc
}

// newLink opens a line to the bus of a URL; close ends it.
func newLink(ctx context.Context, bus string) (*link, error) {
	u, err := url.Parse(bus)
	if err != nil {
		return nil, err
	}
	l := &link{bus: u.Host}
	if l.listener, err = net.Listen("tcp", "127.0.0.1:0"); err != nil {
		return nil, err
	}
	l.ctx, l.end = context.WithCancel(context.WithoutCancel(ctx))
	l.group = new(errgroup.Group)
	l.group.Go(l.serve)
	return l, nil
}

func (l *link) url() string { return "nats://" + l.listener.Addr().String() }

func (l *link) close() error {
	l.end()
	return errors.Join(l.listener.Close(), l.group.Wait())
}

func (l *link) serve() error {
	for {
		conn, err := l.listener.Accept()
		if err != nil {
			if l.ctx.Err() != nil {
				return nil
			}
			return err
		}
		l.group.Go(func() error { l.carry(conn); return nil })
	}
}

// carry passes on what comes from either side, until one of them ends.
func (l *link) carry(edge net.Conn) {
	defer edge.Close()
	dialer := net.Dialer{Timeout: dialWait}
	bus, err := dialer.DialContext(l.ctx, "tcp", l.bus)
	if err != nil {
		return // the edge tries again
	}
	defer bus.Close()
	defer context.AfterFunc(l.ctx, func() { _ = edge.Close(); _ = bus.Close() })()
	var both errgroup.Group
	both.Go(func() error {
		defer bus.Close()
		_, _ = io.Copy(io.MultiWriter(counter{&l.up}, bus), edge) // however it ends, it has ended
		return nil
	})
	_, _ = io.Copy(io.MultiWriter(counter{&l.down}, &messageCounter{count: &l.messages}, edge), bus)
	_ = edge.Close()
	_ = both.Wait()
}

// counter counts bytes.
type counter struct{ bytes *atomic.Uint64 }

func (c counter) Write(b []byte) (int, error) {
	c.bytes.Add(uint64(len(b)))
	return len(b), nil
}
