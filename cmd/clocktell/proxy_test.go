package main

import (
	"io"
	"net"
	"sync"
	"testing"
	"time"
)

// proxy lies between a process and the bus, and can fail as a network does.
type proxy struct {
	to string
	l  net.Listener
	wg sync.WaitGroup

	mu     sync.Mutex // protects following
	conns  map[net.Conn]struct{}
	gone   bool          // refuses
	open   chan struct{} // closed while bytes pass
	delay  time.Duration // of everything, each way
	closed bool
}

func newProxy(t *testing.T, to string) *proxy {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	p := &proxy{to: to, l: l, conns: make(map[net.Conn]struct{}), open: make(chan struct{})}
	close(p.open)
	p.wg.Go(p.accept)
	t.Cleanup(p.close)
	return p
}

func (p *proxy) url() string { return "nats://" + p.l.Addr().String() }

func (p *proxy) accept() {
	for {
		from, err := p.l.Accept()
		if err != nil {
			return
		}
		p.wg.Go(func() { p.join(from) })
	}
}

// join passes bytes both ways until one side ends.
func (p *proxy) join(from net.Conn) {
	defer from.Close()
	if p.refuses() {
		return
	}
	to, err := net.Dial("tcp", p.to)
	if err != nil {
		return
	}
	defer to.Close()
	if !p.add(from, to) {
		return
	}
	defer p.remove(from, to)
	var both sync.WaitGroup
	both.Go(func() { p.pass(to, from) })
	both.Go(func() { p.pass(from, to) })
	both.Wait()
}

func (p *proxy) pass(to, from net.Conn) {
	defer to.Close()
	defer from.Close()
	buf := make([]byte, 64<<10)
	for {
		n, err := from.Read(buf)
		open, delay := p.now()
		if delay > 0 {
			<-time.After(delay)
		}
		<-open
		if _, wrong := to.Write(buf[:n]); wrong != nil || err == io.EOF || err != nil {
			return
		}
	}
}

func (p *proxy) now() (<-chan struct{}, time.Duration) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.open, p.delay
}

func (p *proxy) refuses() bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.gone || p.closed
}

func (p *proxy) add(conns ...net.Conn) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, c := range conns {
		p.conns[c] = struct{}{}
	}
	return !p.closed && !p.gone
}

func (p *proxy) remove(conns ...net.Conn) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, c := range conns {
		delete(p.conns, c)
	}
}

// cut ends every connection and refuses new ones.
func (p *proxy) cut() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.gone = true
	for c := range p.conns {
		c.Close()
	}
}

// stall lets connections be, and nothing through.
func (p *proxy) stall() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.open = make(chan struct{})
}

// slow lets everything take longer.
func (p *proxy) slow(delay time.Duration) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.delay = delay
}

// mend ends what cut, stall and slow began. What was stalled comes late.
func (p *proxy) mend() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.gone, p.delay = false, 0
	select {
	case <-p.open:
	default:
		close(p.open)
	}
}

func (p *proxy) close() {
	p.mu.Lock()
	p.closed = true
	p.mu.Unlock()
	p.cut()
	p.mend()
	p.l.Close()
	p.wg.Wait()
}
